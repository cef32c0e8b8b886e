package solve

import (
	"math"

	"stowright/internal/cutting"
)

// instance is one independent piece of a problem in the solver's terms: sizes are inflated by a
// kerf and divided by their greatest common divisor, equal parts are one type.
type instance struct {
	p      *cutting.Problem
	stocks []stock
	types  []kind
	opts   []option // of type t on stock s at t*len(stocks)+s
	unit   int64    // ticks in one unit
	parts  int      // in all
	area   int64    // of all parts
}

// stock is one kind of sheet.
type stock struct {
	index int // in the problem
	x, y  int32
	area  int64
	cost  int64
	count int32   // how many can be used
	scale float64 // 1/area
}

// kind is one type of part.
type kind struct {
	area  int64 // inflated, on the first stock that allows it
	count int32
	of    []int // the parts of the problem, in order
	loose bool  // has more than one way to lie somewhere
}

// option is how a type can lie on one stock: straight and turned. A way that is not allowed is
// wider than every sheet.
type option struct{ x0, y0, x1, y1 int32 }

const never = math.MaxInt32

// maxUnits keeps areas and coordinates well inside their integers: 50 m in ticks.
const maxUnits = 2_000_000_000

// compile makes the instance for the given stocks and parts of p. Parts that fit no stock
// must have been taken out before.
func compile(p *cutting.Problem, stocks, parts []int) *instance {
	in := &instance{p: p}
	g := int64(0)
	size := func(v int64) { g = gcd(g, v) }
	for _, s := range stocks {
		st := &p.Stocks[s]
		u := st.Usable()
		size(int64(u.L + st.Kerf.X))
		size(int64(u.W + st.Kerf.Y))
		for _, i := range parts {
			pt := &p.Parts[i]
			straight, turned := st.Allows(pt.Lay)
			if straight {
				size(int64(pt.L + st.Kerf.X))
				size(int64(pt.W + st.Kerf.Y))
			}
			if turned {
				size(int64(pt.W + st.Kerf.X))
				size(int64(pt.L + st.Kerf.Y))
			}
		}
	}
	in.unit = max(1, g)
	total := 0
	for _, i := range parts {
		total += p.Parts[i].Count
	}
	in.parts = total
	for _, s := range stocks {
		st := &p.Stocks[s]
		u := st.Usable()
		k := stock{index: s, x: int32(int64(u.L+st.Kerf.X) / in.unit), y: int32(int64(u.W+st.Kerf.Y) / in.unit), cost: p.Cost(s), count: int32(total)}
		if st.Count != cutting.Unlimited {
			k.count = int32(min(st.Count, total))
		}
		k.area = int64(k.x) * int64(k.y)
		k.scale = 1 / float64(k.area)
		in.stocks = append(in.stocks, k)
	}
	row := make([]option, len(stocks))
	for _, i := range parts {
		pt := &p.Parts[i]
		var area int64
		loose := false
		for j, s := range stocks {
			st := &p.Stocks[s]
			k := &in.stocks[j]
			o := option{never, never, never, never}
			straight, turned := st.Allows(pt.Lay)
			if !allowed(pt, st.ID) {
				straight, turned = false, false
			}
			if straight {
				o.x0, o.y0 = int32(int64(pt.L+st.Kerf.X)/in.unit), int32(int64(pt.W+st.Kerf.Y)/in.unit)
				if o.x0 > k.x || o.y0 > k.y {
					o.x0, o.y0 = never, never
				}
			}
			if turned && pt.L != pt.W || turned && !straight {
				o.x1, o.y1 = int32(int64(pt.W+st.Kerf.X)/in.unit), int32(int64(pt.L+st.Kerf.Y)/in.unit)
				if o.x1 > k.x || o.y1 > k.y {
					o.x1, o.y1 = never, never
				}
			}
			if area == 0 && o.x0 != never {
				area = int64(o.x0) * int64(o.y0)
			}
			if area == 0 && o.x1 != never {
				area = int64(o.x1) * int64(o.y1)
			}
			loose = loose || o.x0 != never && o.x1 != never
			row[j] = o
		}
		t := in.find(row, pt)
		if t < 0 {
			t = len(in.types)
			in.types = append(in.types, kind{area: area, loose: loose})
			in.opts = append(in.opts, row...)
		}
		in.types[t].count += int32(pt.Count)
		in.types[t].of = append(in.types[t].of, i)
		in.area += area * int64(pt.Count)
	}
	return in
}

// find looks for a type equal to the given options.
func (in *instance) find(row []option, pt *cutting.Part) int {
	n := len(in.stocks)
next:
	for t := range in.types {
		for j := range row {
			if in.opts[t*n+j] != row[j] {
				continue next
			}
		}
		if q := &in.p.Parts[in.types[t].of[0]]; q.L != pt.L || q.W != pt.W {
			continue // the same place turned: kept apart so that Turned stays true
		}
		return t
	}
	return -1
}

func allowed(pt *cutting.Part, stock string) bool {
	if len(pt.Stocks) == 0 {
		return true
	}
	for _, id := range pt.Stocks {
		if id == stock {
			return true
		}
	}
	return false
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
