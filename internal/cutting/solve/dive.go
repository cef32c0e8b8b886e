package solve

import "math"

// dive puts a solution together from patterns: the linear program is solved for what is out, with new patterns filled at its prices
// (column generation), one that it takes most of is cut, and so on until nothing is left. Where that leads nowhere
// it goes back and cuts another.
type dive struct {
	st     *state
	p      *pool
	b      *budget
	many   int   // how many there were before
	limit  int64 // what the solution has to cost less than
	visits int   // how many linear programs may be solved yet
	done   bool  // the program over all there is came down as far as it can, and is not under the limit
	out    solution
}

// wide is how many patterns are tried one after the other from the same point, and visits how many linear programs are solved in one dive,
// as a multiple of the sheets there will be.
const (
	wide   = 2
	visits = 3
)

// How many fillings in vain end the search for new patterns where they are filled by ruin and recreate: at first, and when some
// sheets are cut already. In the next dives, up to longer times, they are a quarter more each and a sheet is filled in
// twice as many steps: a short search gets to the end of one, and long fillings bring the program down by a sheet or two where
// parts repeat.
const (
	atRoot = 12
	deeper = 5
	longer = 5
)

// blend is the share of the program's own prices in those at which every other sheet is filled; the rest are prices that proved good, as
// the program's swing widely at first (dual smoothing; Pessoa and others, INFORMS Journal on Computing 2018).
const blend = 0.3

// knapsacks are solved where a hundred of them can be, and the program is at its end where it is near what it cannot come below.
const (
	knapsacks = 100
	near      = 1e-4
)

// mixed looks for solutions better than best from patterns, new dives as long as the budget lasts.
func (st *state) mixed(best *solution, p *pool, b *budget) *solution {
	for i := range best.sheets {
		p.keep(st.in, &best.sheets[i])
	}
	for n := 0; st.above(best) && !b.over && !b.stopped; n++ {
		p.purge()
		limit := best.cost
		if best.out > 0 {
			limit = math.MaxInt64
		}
		st.load(&solution{})
		from := b.steps
		d := &dive{st: st, p: p, b: b, many: n, limit: limit, visits: visits * len(best.sheets)}
		if d.down() {
			best = &d.out
		}
		if d.done && n > 0 || b.steps == from {
			break // it has come to its end, or finds nothing to fill
		}
	}
	return best
}

// cut cuts a pattern once.
func (d *dive) cut(id int) {
	q := &d.p.list[id]
	d.out.sheets = append(d.out.sheets, q.sheet)
	d.out.cost += d.st.in.stocks[q.sheet.stock].cost
	for i, t := range q.of {
		for range q.n[i] {
			d.st.takeIn(t)
		}
	}
}

// back takes the last cut back.
func (d *dive) back(id int) {
	q := &d.p.list[id]
	d.out.sheets = d.out.sheets[:len(d.out.sheets)-1]
	d.out.cost -= d.st.in.stocks[q.sheet.stock].cost
	for i, t := range q.of {
		for range q.n[i] {
			d.st.putOut(t)
		}
	}
}

// hopeless tells whether what is cut and what the program says of the rest is not under the limit.
func (d *dive) hopeless(m *mix) bool {
	unit := d.st.in.stocks[0].cost
	if len(d.st.in.stocks) == 1 {
		return d.out.cost+int64(math.Ceil(m.value()-1e-6))*unit >= d.limit
	}
	return float64(d.out.cost)+m.value()*float64(unit) >= float64(d.limit)+0.5
}

// down goes on from what is cut already; false, with nothing more cut, where it finds no solution.
func (d *dive) down() bool {
	st := d.st
	if len(st.outs) == 0 {
		return d.out.cost < d.limit
	}
	d.visits--
	first := len(d.out.sheets) == 0
	m := newMix(st)
	if d.visits < 0 || !m.least(st, d.p, d.b) {
		return false
	}
	low, ok := d.generate(m, first)
	if !ok || d.hopeless(m) {
		d.done = ok && first && m.value() <= low
		return false
	}
	if first {
		for i := range d.p.list {
			q := &d.p.list[i]
			q.gain = m.gain(q)
		}
	}
	var whole []int
	for j, id := range m.id {
		for n := int32(m.x[j] + 1e-6); id >= 0 && n > 0 && st.suffices(&d.p.list[id]); n-- {
			d.cut(id)
			whole = append(whole, id)
		}
	}
	if len(whole) > 0 {
		if d.down() {
			return true
		}
		for i := len(whole) - 1; i >= 0; i-- {
			d.back(whole[i])
		}
		return false
	}
	var tried []int
	found := false
	for len(tried) < wide && !found && !d.b.over && !d.b.stopped && d.visits > 0 {
		at, high := -1, 0.0
		for j, id := range m.id {
			if id < 0 || d.p.list[id].past {
				continue
			}
			if x := m.x[j] * (0.8 + 0.2*float64(st.rnd.below(100))/100); x > high {
				at, high = id, x
			}
		}
		if at < 0 {
			break
		}
		d.cut(at)
		if found = d.down(); !found {
			d.back(at)
			d.p.list[at].past = true
			tried = append(tried, at)
		}
	}
	for _, id := range tried {
		d.p.list[id].past = false
	}
	return found
}

// generate fills sheets for as long as they are worth more than they cost at the program's prices, some tries in
// vain allowed: by knapsacks, a little better by ruin and recreate, where those are not too much work, and else by ruin and recreate, every other one
// from a pattern of the basis. low is what the program cannot come much below, 0 where that is not known; ok is false where the budget ended.
func (d *dive) generate(m *mix, first bool) (low float64, ok bool) {
	st, p, in := d.st, d.p, d.st.in
	tries := deeper
	if first {
		tries = atRoot
	}
	tries += tries * min(d.many, longer) / 4
	most := 0.0 // no part is worth more than a sheet
	costs := make([]float64, len(in.stocks))
	for k := range costs {
		costs[k] = float64(in.stocks[k].cost) / float64(in.stocks[0].cost)
		most = max(most, costs[k])
	}
	kns := make([]*knapsack, len(in.stocks))
	all := true
	for k := range kns {
		kn := st.newKnapsack(int32(k), (1<<23)/most)
		if kn != nil && !d.b.has(kn.steps*knapsacks) {
			kn = nil
		}
		kns[k] = kn
		all = all && kn != nil
	}
	price := func(i int) float64 { return min(most, max(0, m.price[i])) }
	if p.price == nil {
		p.price = make([]float64, len(in.types))
		for t := range p.price { // those of a first plan are far off
			p.price[t] = float64(in.types[t].area) * in.stocks[0].scale
		}
	}
	v := make([]float64, len(in.types))
	for vain := 0; vain < tries && len(p.list) < mostPatterns; vain++ {
		own := 1.0
		if all && vain%2 == 0 {
			own = blend
		}
		sum, rate, good := 0.0, 0.0, false
		for i, t := range m.rows {
			v[t] = float64(p.price[t]*(1-own)) + float64(price(i)*own) + 1e-6*float64(in.types[t].area)*in.stocks[0].scale
			sum += float64(v[t] * float64(st.out[t]))
		}
		for k, kn := range kns {
			var s sheet
			add := func() {
				if q := p.keep(in, &s); q != nil && m.gain(q) > 1e-6 {
					good = true
				}
			}
			var from *sheet
			steps := fillSteps << min(d.many, longer)
			if kn != nil {
				d.b.spend(kn.steps)
				kn.solve(v)
				for i := ways - 1; i >= 0; i-- {
					if kn.sheet(i, &s) {
						add()
						from = new(sheet)
						copySheet(from, &s)
					}
				}
				steps = fillSteps / 2
			} else if id := m.id[st.rnd.below(len(m.id))]; id >= 0 && vain%2 == 1 && int(p.list[id].sheet.stock) == k && st.suffices(&p.list[id]) {
				from = &p.list[id].sheet
			}
			worth, ok := st.fill(int32(k), v, from, steps, d.b, &s)
			if !ok {
				return 0, false
			}
			add()
			rate = max(rate, worth/costs[k])
		}
		if all && rate > 0 && sum/rate > low-near {
			low = sum/rate + near
			for _, t := range m.rows {
				p.price[t] = v[t] / rate
			}
		}
		if good {
			vain = -1
			if !m.least(st, p, d.b) {
				return 0, false
			}
		}
		if m.value() <= low {
			break
		}
	}
	return low, true
}
