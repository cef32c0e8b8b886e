package solve

import (
	"math"

	"stowright/internal/cutting"
	"stowright/internal/cutting/bound"
)

// instance is one lot in the solver's terms: sizes are inflated by a kerf and divided by
// their greatest common divisor, equal parts are one type.
type instance struct {
	p      *cutting.Problem
	stocks []stock
	types  []kind
	groups []int32  // of each group that comes from one sheet, how many parts it has
	opts   []option // of type t on stock s at t*len(stocks)+s
	unit   int64    // ticks in one unit
	parts  int      // in all
	stages int      // most directions of cutting, 0 = any
}

// stock is one kind of sheet.
type stock struct {
	index  int // in the problem
	x, y   int32
	area   int64
	cost   int64
	count  int32    // how many can be used
	scale  float64  // 1/area
	worth  float64  // its price as a share of the dearest sheet's
	around [][]node // the trees to start from where places are damaged
	gap    [2]int32 // what the first cuts take more than a kerf, on axis X and Y, where they are rough
}

// kind is one type of part.
type kind struct {
	area  int64 // inflated, on the first stock that allows it
	value int64 // what it is worth to have one cut: its area, unless the problem says otherwise
	long  int32 // the longer side
	count int32
	of    []int // the parts of the problem, in order
	strip *item // where it is several parts in a row
	group int32 // the group that comes from one sheet, or none
	inner int   // directions of cutting within it
}

// option is how a type can lie on one stock: straight and turned. A way that is not allowed is
// wider than every sheet.
type option struct {
	x0, y0, x1, y1 int32
	p0, p1         size // the same, as the sizes of parts
}

const never = math.MaxInt32

// compile makes the instance of a lot. Everything in it fits some stock.
func compile(p *cutting.Problem, l lot) *instance {
	in := &instance{p: p, stages: p.Limits.Stages}
	in.unit = unit(p, l)
	for _, it := range l.items {
		in.parts += it.count
	}
	for _, s := range l.stocks {
		in.stocks = append(in.stocks, in.sheet(s))
	}
	valued := false
	for i := range p.Parts {
		valued = valued || p.Parts[i].Value > 0
	}
	dear := int64(1)
	for _, s := range l.stocks {
		dear = max(dear, price(p, s))
	}
	for j, s := range l.stocks {
		in.stocks[j].worth = float64(price(p, s)) / float64(dear)
	}
	groups := map[int]int32{}
	row := make([]option, len(l.stocks))
	for i := range l.items {
		it := &l.items[i]
		var area int64
		long := int32(0)
		for j, s := range l.stocks {
			row[j] = in.option(it, &p.Stocks[s], &in.stocks[j])
			for _, w := range [2][2]int32{{row[j].x0, row[j].y0}, {row[j].x1, row[j].y1}} {
				if area == 0 && w[0] != never {
					area, long = int64(w[0])*int64(w[1]), max(w[0], w[1])
				}
			}
		}
		g := none
		if it.group >= 0 {
			var ok bool
			if g, ok = groups[it.group]; !ok {
				g = int32(len(in.groups))
				groups[it.group] = g
				in.groups = append(in.groups, 0)
			}
			in.groups[g] += int32(it.count)
		}
		t := -1
		if !it.strip() {
			t = in.find(row, it, g)
		}
		if t < 0 {
			t = len(in.types)
			k := kind{area: area, value: area, long: long, group: g}
			if valued {
				k.value = 0
				for _, i := range it.parts {
					k.value += p.Parts[i].Worth()
				}
			}
			if it.strip() {
				k.strip, k.inner = it, it.inner(p)
			}
			in.types = append(in.types, k)
			in.opts = append(in.opts, row...)
		}
		in.types[t].count += int32(it.count)
		in.types[t].of = append(in.types[t].of, it.parts[0])
	}
	return in
}

// unit is the greatest length that all inflated sizes are whole multiples of.
func unit(p *cutting.Problem, l lot) int64 {
	g := int64(0)
	size := func(v int64) {
		for v != 0 {
			g, v = v, g%v
		}
	}
	for _, s := range l.stocks {
		st := &p.Stocks[s]
		u := st.Usable()
		size(int64(u.L + st.Kerf.X))
		size(int64(u.W + st.Kerf.Y))
		gx, gy := gaps(p, st)
		size(gx)
		size(gy)
		if len(st.Damage) > 0 {
			around(st, cutX, p.Limits.Stages).sizes(st, size)
			around(st, cutY, p.Limits.Stages).sizes(st, size)
		}
		for i := range l.items {
			straight, turned := l.items[i].allows(p, st)
			for r, ok := range [2]bool{straight, turned} {
				if ok {
					x, y := l.items[i].size(p, st, r == 1)
					size(int64(x + st.Kerf.X))
					size(int64(y + st.Kerf.Y))
				}
			}
		}
	}
	return max(1, g)
}

// gaps gives what rough first cuts take between two finished pieces more than the kerf of the saw that cuts to size:
// an allowance on both and the hand-held saw's kerf.
func gaps(p *cutting.Problem, st *cutting.Stock) (x, y int64) {
	r := p.Rough(st)
	if r == nil {
		return 0, 0
	}
	whole := r.Kerf + 2*r.Allowance
	return int64(max(0, whole-st.Kerf.X)), int64(max(0, whole-st.Kerf.Y))
}

func (in *instance) sheet(s int) stock {
	st := &in.p.Stocks[s]
	u := st.Usable()
	k := stock{
		index: s, cost: in.p.Cost(s), count: int32(in.parts),
		x: int32(int64(u.L+st.Kerf.X) / in.unit), y: int32(int64(u.W+st.Kerf.Y) / in.unit),
	}
	if st.Count != cutting.Unlimited {
		k.count = int32(min(st.Count, in.parts))
	}
	k.area = int64(k.x) * int64(k.y)
	k.scale = 1 / float64(k.area)
	gx, gy := gaps(in.p, st)
	k.gap = [2]int32{int32(gx / in.unit), int32(gy / in.unit)}
	if len(st.Damage) > 0 {
		for _, first := range [2]int32{cutX, cutY} {
			k.around = append(k.around, around(st, first, in.stages).nodes(st, in.unit))
		}
	}
	return k
}

// option tells how an item can lie on a stock.
func (in *instance) option(it *item, st *cutting.Stock, k *stock) option {
	way := func(turned bool) (int32, int32) {
		a, b := it.size(in.p, st, turned)
		x, y := int64(a+st.Kerf.X)/in.unit, int64(b+st.Kerf.Y)/in.unit
		if x > int64(k.x) || y > int64(k.y) || !k.holds(int32(x), int32(y)) {
			return never, never
		}
		return int32(x), int32(y)
	}
	o := option{x0: never, y0: never, x1: never, y1: never}
	straight, turned := it.allows(in.p, st)
	if straight {
		o.x0, o.y0 = way(false)
	}
	if turned {
		o.x1, o.y1 = way(true)
		if o.x1 == o.x0 && o.y1 == o.y0 {
			o.x1, o.y1 = never, never // square
		}
	}
	o.p0, o.p1 = sized(o.x0, o.y0)&^guards, sized(o.x1, o.y1)&^guards
	return o
}

// rough tells whether its first cuts are rough.
func (k *stock) rough() bool { return k.gap != [2]int32{} }

// holds tells whether a part of this size has a place beside the damaged ones.
func (k *stock) holds(x, y int32) bool {
	if len(k.around) == 0 {
		return true
	}
	for _, tree := range k.around {
		for i := range tree {
			if n := &tree[i]; n.kind == free && x <= n.x && y <= n.y {
				return true
			}
		}
	}
	return false
}

// find looks for a type of a group equal to the given options.
func (in *instance) find(row []option, it *item, group int32) int {
	n := len(in.stocks)
next:
	for t := range in.types {
		if in.types[t].strip != nil || in.types[t].group != group {
			continue
		}
		for j := range row {
			if in.opts[t*n+j] != row[j] {
				continue next
			}
		}
		if a, b := &in.p.Parts[in.types[t].of[0]], &in.p.Parts[it.parts[0]]; a.L != b.L || a.W != b.W || a.Value != b.Value || a.Later != b.Later {
			continue // the same place turned: kept apart so that Turned stays true
		}
		return t
	}
	return -1
}

// least is a cost that no complete plan of the instance can be under.
func (in *instance) least() int64 { return in.bound(func(s *stock) int64 { return s.cost }) }

// leastSheets is a number of sheets, of all stocks together, that no complete plan can be under.
func (in *instance) leastSheets() int { return int(in.bound(func(*stock) int64 { return 1 })) }

// leastOf is a number of sheets of stock s that no complete plan can be under.
func (in *instance) leastOf(s *stock) int {
	return int(in.bound(func(o *stock) int64 {
		if o == s {
			return 1
		}
		return 0
	}))
}

func (in *instance) bound(cost func(*stock) int64) int64 {
	return bound.Cost(in.sheets(cost), in.forBound())
}

func (in *instance) sheets(cost func(*stock) int64) []bound.Sheet {
	sheets := make([]bound.Sheet, len(in.stocks))
	for i, s := range in.stocks {
		sheets[i] = bound.Sheet{X: s.x, Y: s.y, Cost: cost(&in.stocks[i]), Count: s.count}
	}
	return sheets
}

// prove gives a cost that no complete plan of the instance can be under, worked out from what sheets can hold; best is
// the best plan known, least what is proved already, and work how much may be done for it.
func (in *instance) prove(best *solution, least int64, work int, stop func() bool) int64 {
	if len(in.types) > mostProved {
		return 0
	}
	known := make([]bound.Pattern, len(best.sheets))
	for i := range best.sheets {
		s := &best.sheets[i]
		known[i] = bound.Pattern{Sheet: int(s.stock), Count: make([]int32, len(in.types))}
		for n := range s.nodes {
			if k := s.nodes[n].kind; k >= 0 {
				known[i].Count[k>>1]++
			}
		}
	}
	if len(in.stocks) > 1 {
		return bound.Patterns(in.sheets(func(s *stock) int64 { return s.cost }), in.forBound(), known, least, best.cost, work, stop)
	}
	one := func(*stock) int64 { return 1 }
	return bound.Patterns(in.sheets(one), in.forBound(), known, least/max(1, in.stocks[0].cost), int64(len(best.sheets)), work, stop) * in.stocks[0].cost
}

// mostProved is the greatest number of sizes of part for which prove is tried.
const mostProved = 400

// forBound gives the parts with every way in which they can lie on any stock, at the least size.
func (in *instance) forBound() []bound.Part {
	n := len(in.stocks)
	parts := make([]bound.Part, len(in.types))
	for t := range in.types {
		a, b := [2]int32{never, never}, [2]int32{never, never}
		for _, o := range in.opts[t*n : t*n+n] {
			a = [2]int32{min(a[0], o.x0), min(a[1], o.y0)}
			b = [2]int32{min(b[0], o.x1), min(b[1], o.y1)}
		}
		parts[t].Count = in.types[t].count
		for _, w := range [2][2]int32{a, b} {
			if w[0] != never {
				parts[t].Ways = append(parts[t].Ways, w)
			}
		}
	}
	return parts
}
