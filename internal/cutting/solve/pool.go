package solve

import (
	"cmp"
	"slices"
)

// pool holds patterns: sheets that were filled well once. Solutions are put together from them as a linear program over all of
// them advises: what it takes most of is cut, and for the parts that are left it is solved again, new patterns being
// filled at its prices (column generation with diving; patterns as in Gilmore and Gomory 1965).
type pool struct {
	list  []pattern
	seen  map[string]bool // their parts
	price []float64       // of each type, at which the linear program was found to be near its end
}

// pattern is a sheet and the parts on it.
type pattern struct {
	sheet sheet
	cost  float64 // as a multiple of the first stock's
	of    []int32 // types, and how many of each
	n     []int32
	key   string  // the same in one
	gain  float64 // by how much it was worth more than it costs, when that was worked out last
	past  bool    // it is passed over, since it was tried already
}

// mostPatterns and mostMixed are the greatest numbers of patterns kept and of types for which solutions are put together.
const (
	mostPatterns = 3000
	mostMixed    = 160
)

// crowd is how many parts there may be for each sheet, at most, for it to be of use.
const crowd = 40

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

// keep adds a sheet to the pool, and gives the pattern, where its parts are new there.
func (p *pool) keep(in *instance, s *sheet) *pattern {
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
		return nil
	}
	q.key = string(key)
	p.seen[q.key] = true
	copySheet(&q.sheet, s)
	p.list = append(p.list, q)
	return &p.list[len(p.list)-1]
}

// purge drops patterns of least gain when they are many.
func (p *pool) purge() {
	if len(p.list) < mostPatterns*2/3 {
		return
	}
	slices.SortStableFunc(p.list, func(a, b pattern) int { return cmp.Compare(b.gain, a.gain) })
	few := mostPatterns / 3
	for _, q := range p.list[few:] {
		delete(p.seen, q.key)
	}
	clear(p.list[few:])
	p.list = p.list[:few]
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
