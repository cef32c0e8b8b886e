package solve

import "math"

// pool holds patterns: sheets that were filled well once. Solutions are put together from them as a linear program over all of
// them advises: what it takes most of is cut, and for the parts that are left it is solved again, new patterns being
// filled at its prices (column generation with diving; patterns as in Gilmore and Gomory 1965).
type pool struct {
	list []pattern
	seen map[string]bool // their parts
}

// pattern is a sheet and the parts on it.
type pattern struct {
	sheet sheet
	cost  float64 // as a multiple of the first stock's
	of    []int32 // types, and how many of each
	n     []int32
}

// mostPatterns and mostMixed are the greatest numbers of patterns kept and of types for which solutions are put together.
const (
	mostPatterns = 3000
	mostMixed    = 160
)

// crowd is how many parts there may be for each sheet, at most, for it to be of use.
const crowd = 40

// How many fillings in vain end the search for new patterns in the first dive: at first, and when some sheets are cut already. In the
// next dives, up to longer times, they are a quarter more each and a sheet is filled in twice as many steps: a short search
// gets to the end of one, and long fillings bring the program down by a sheet or two where parts repeat.
const (
	atRoot = 12
	deeper = 5
	longer = 5
)

// mixes tells whether solutions can be put together from patterns: not where stock is short or free, for that is
// not in the linear program.
func (in *instance) mixes() bool {
	if len(in.types) > mostMixed || len(in.groups) > 0 {
		return false
	}
	for i := range in.stocks {
		if k := &in.stocks[i]; k.cost <= 0 || int(k.count) < in.parts || len(k.around) > 0 {
			return false
		}
	}
	return true
}

// keep adds a sheet to the pool where its parts are new there.
func (p *pool) keep(in *instance, s *sheet) {
	count := make([]int32, len(in.types))
	for n := range s.nodes {
		if k := s.nodes[n].kind; k >= 0 {
			count[k>>1]++
		}
	}
	q := pattern{cost: float64(in.stocks[s.stock].cost) / float64(in.stocks[0].cost)}
	key := []byte{byte(s.stock), byte(s.stock >> 8)}
	for t, n := range count {
		if n > 0 {
			q.of, q.n = append(q.of, int32(t)), append(q.n, n)
			key = append(key, byte(t), byte(n), byte(n>>8), byte(n>>16)) // types are few: mostMixed
		}
	}
	if p.seen[string(key)] || len(p.list) == mostPatterns || len(q.of) == 0 {
		return
	}
	p.seen[string(key)] = true
	copySheet(&q.sheet, s)
	p.list = append(p.list, q)
}

// mix is the linear program: patterns in such numbers that every part is cut often enough, for as little cost as possible. Its
// basis is kept as an inverse; rows are the types that are out.
type mix struct {
	rows    []int32 // the types
	row     []int32 // of each type, or none
	inverse [][]float64
	cost    []float64 // of what is in the basis
	id      []int     // the pattern, or -1
	x       []float64
	price   []float64 // of each row
	d       []float64 // scratch
}

func newMix(st *state) *mix {
	m := &mix{row: make([]int32, len(st.in.types))}
	for t := range m.row {
		m.row[t] = none
	}
	for _, t := range st.outs {
		m.row[t] = int32(len(m.rows))
		m.rows = append(m.rows, t)
	}
	n := len(m.rows)
	m.cost, m.id, m.x, m.price, m.d = make([]float64, n), make([]int, n), make([]float64, n), make([]float64, n), make([]float64, n)
	for i, t := range m.rows { // a sheet with nothing else on it
		m.inverse = append(m.inverse, make([]float64, n))
		m.inverse[i][i] = 1
		m.cost[i], m.id[i], m.x[i] = 2, -1, float64(st.out[t])
	}
	return m
}

// prices works out what one more of each part would cost.
func (m *mix) prices() {
	clear(m.price)
	for j, row := range m.inverse {
		if c := m.cost[j]; c != 0 {
			for i, v := range row {
				m.price[i] += float64(c * v)
			}
		}
	}
}

// gain is by how much a pattern is worth more than it costs.
func (m *mix) gain(q *pattern) float64 {
	sum := -q.cost
	for i, t := range q.of {
		sum += float64(float64(q.n[i]) * m.price[m.row[t]])
	}
	return sum
}

// enter brings a pattern into the basis; -1 is a surplus of the part in row at.
func (m *mix) enter(q *pattern, id int, at int) bool {
	clear(m.d)
	out, step := -1, math.Inf(1)
	for j, row := range m.inverse {
		if q == nil {
			m.d[j] = -row[at]
		} else {
			for i, t := range q.of {
				m.d[j] += float64(row[m.row[t]] * float64(q.n[i]))
			}
		}
		if m.d[j] > 1e-9 && m.x[j]/m.d[j] < step {
			out, step = j, m.x[j]/m.d[j]
		}
	}
	if out < 0 {
		return false
	}
	top := m.inverse[out]
	for i := range top {
		top[i] /= m.d[out]
	}
	for j, row := range m.inverse {
		if j == out || m.d[j] == 0 {
			continue
		}
		m.x[j] = max(0, m.x[j]-float64(step*m.d[j]))
		for i, p := range top {
			row[i] -= float64(m.d[j] * p)
		}
	}
	m.x[out], m.id[out], m.cost[out] = step, id, 0
	if q != nil {
		m.cost[out] = q.cost
	}
	return true
}

// least solves the program over the patterns of the pool that the parts which are out suffice for.
func (m *mix) least(st *state, p *pool, from int, b *budget) bool {
	var fit []int
	for i := from; i < len(p.list); i++ {
		if st.suffices(&p.list[i]) {
			fit = append(fit, i)
		}
	}
	for range 6*len(m.rows) + 20 {
		if !b.step() {
			return false
		}
		m.prices()
		high, at, short := 1e-7, -1, -1
		for i, v := range m.price {
			if -v > high {
				high, short = -v, i
			}
		}
		for _, i := range fit {
			if g := m.gain(&p.list[i]); g > high {
				high, at, short = g, i, -1
			}
		}
		switch {
		case at >= 0 && m.enter(&p.list[at], at, 0):
		case at < 0 && short >= 0 && m.enter(nil, -1, short):
		default:
			return true
		}
	}
	return true
}

// value of the program.
func (m *mix) value() float64 {
	sum := 0.0
	for j, x := range m.x {
		sum += float64(x * m.cost[j])
	}
	return sum
}

// suffices tells whether what is out makes a pattern.
func (st *state) suffices(q *pattern) bool {
	for i, t := range q.of {
		if st.out[t] < q.n[i] {
			return false
		}
	}
	return true
}

// generate fills sheets in some steps, every other one from a pattern of the basis, at the program's prices for as long as they
// are worth more than they cost, some tries without success allowed.
func (st *state) generate(m *mix, p *pool, tries, steps int, b *budget) bool {
	v := make([]float64, len(st.in.types))
	for vain := 0; vain < tries && len(p.list) < mostPatterns; {
		for i, t := range m.rows {
			v[t] = max(0, m.price[i]) + 1e-6*float64(st.in.types[t].area)*st.in.stocks[0].scale
		}
		vain++
		for k := range st.in.stocks {
			var s sheet
			var from *sheet
			if id := m.id[st.rnd.below(len(m.id))]; id >= 0 && vain%2 == 0 && int(p.list[id].sheet.stock) == k && st.suffices(&p.list[id]) {
				from = &p.list[id].sheet
			}
			if _, ok := st.fill(int32(k), v, from, steps, b, &s); !ok {
				return false
			}
			last := len(p.list)
			if p.keep(st.in, &s); len(p.list) == last {
				continue
			}
			if q := &p.list[last]; m.gain(q) > 1e-6 && m.enter(q, last, 0) {
				vain = 0
			}
		}
		if vain == 0 && !m.least(st, p, 0, b) {
			return false
		}
	}
	return true
}

// dive puts a solution together from patterns, the n-th time, which tells how long to look for new ones; nil where none better than limit comes of it or the budget ended.
func (st *state) dive(p *pool, limit int64, n int, b *budget) *solution {
	in := st.in
	st.load(&solution{})
	out := &solution{}
	unit := float64(in.stocks[0].cost)
	for first := true; len(st.outs) > 0; first = false {
		m := newMix(st)
		if !m.least(st, p, 0, b) {
			return nil
		}
		tries := deeper
		if first {
			tries = atRoot
		}
		if !st.generate(m, p, tries+tries*min(n, longer)/4, fillSteps<<min(n, longer), b) {
			return nil
		}
		if lp := int64(math.Ceil(m.value() - 1e-6)); len(in.stocks) == 1 && out.cost+lp*in.stocks[0].cost >= limit || float64(out.cost)+m.value()*unit >= float64(limit)+0.5 {
			return nil
		}
		at, high, any := -1, 0.0, false
		cut := func(id int, times int32) {
			q := &p.list[id]
			for range times {
				out.sheets = append(out.sheets, q.sheet)
				out.cost += in.stocks[q.sheet.stock].cost
				for i, t := range q.of {
					for range q.n[i] {
						st.takeIn(t)
					}
				}
			}
		}
		for j, id := range m.id {
			if id < 0 {
				continue
			}
			if n := int32(m.x[j] + 1e-6); n > 0 {
				for ; n > 0 && st.suffices(&p.list[id]); n-- {
					cut(id, 1)
					any = true
				}
				continue
			}
			if x := m.x[j] * (0.8 + 0.2*float64(st.rnd.below(100))/100); x > high {
				at, high = id, x
			}
		}
		if any {
			continue
		}
		if at < 0 { // parts that are on no pattern
			return nil
		}
		cut(at, 1)
	}
	if out.cost >= limit {
		return nil
	}
	return out
}

// mixed looks for solutions better than best from patterns, new dives as long as the budget lasts.
func (st *state) mixed(best *solution, p *pool, b *budget) *solution {
	for i := range best.sheets {
		p.keep(st.in, &best.sheets[i])
	}
	for n := 0; best.cost > st.least && !b.over && !b.stopped; n++ {
		limit := best.cost
		if best.out > 0 {
			limit = math.MaxInt64
		}
		if s := st.dive(p, limit, n, b); s != nil {
			best = s
		}
	}
	return best
}
