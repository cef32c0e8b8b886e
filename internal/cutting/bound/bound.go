// Package bound proves how good a cutting plan can be at best: a cost that no complete plan can be
// under. It works with dual-feasible functions: functions f of a size such that the values of sizes that
// fit side by side never add up to more than f of the whole. With one such function for each direction every part gets
// an area, every sheet too, and the areas of the parts in a plan never exceed those of its sheets (Fekete
// and Schepers 2001; Carlier, Clautiaux and Moukrim 2007; Clautiaux, Alves and Valerio de Carvalho
// 2010). Sizes come in inflated by the kerf, which makes the bound valid with kerf.
package bound

import (
	"math"
	"slices"
	"sort"
)

// Sheet is one size of sheet.
type Sheet struct {
	X, Y  int32
	Cost  int64
	Count int32 // how many there are; very large where unlimited
}

// Part is one size of part, Count times. Each way is an x and a y size that the part can take;
// there is at least one.
type Part struct {
	Ways  [][2]int32
	Count int32
}

// Cost gives a cost that no complete plan can be under, at least 0.
func Cost(sheets []Sheet, parts []Part) int64 {
	if len(sheets) == 0 || len(parts) == 0 {
		return 0
	}
	var p problem
	p.sheets, p.parts = coarse(sheets, parts)
	return payable(sheets, p.solve())
}

// payable gives the least sum of costs of whole sheets that is no less than least: half a sheet cannot
// be bought. With many different costs it is only rounded to what divides them all.
func payable(sheets []Sheet, least int64) int64 {
	var costs []int64
	common := uint64(0)
	for _, s := range sheets {
		if s.Cost > 0 && s.Count > 0 && !slices.Contains(costs, s.Cost) {
			costs = append(costs, s.Cost)
			common = gcd(common, uint64(s.Cost))
		}
	}
	if least <= 0 || len(costs) == 0 {
		return least
	}
	sort.SliceStable(costs, func(a, b int) bool { return costs[a] > costs[b] })
	if len(costs) <= 3 && least/costs[len(costs)-1] < 1000 {
		return fewest(costs, least)
	}
	c := int64(common)
	return (least + c - 1) / c * c
}

// fewest tries every number of each cost but the smallest, which fills up.
func fewest(costs []int64, least int64) int64 {
	c := costs[0]
	if len(costs) == 1 || least <= 0 {
		return max(0, least+c-1) / c * c
	}
	best := int64(math.MaxInt64)
	for n := int64(0); ; n++ {
		rest := max(0, least-n*c)
		best = min(best, n*c+fewest(costs[1:], rest))
		if rest == 0 {
			return best
		}
	}
}

// coarse gives sizes small enough that sums of areas stay exact in 64 bits: parts a little smaller and
// sheets a little larger than they are, which only lowers the bound.
func coarse(sheets []Sheet, parts []Part) ([]Sheet, []Part) {
	var c int32
	for _, s := range sheets {
		c = max(c, s.X, s.Y)
	}
	n := int64(0)
	for _, pt := range parts {
		n += int64(pt.Count)
	}
	most := 1_000_000 / (1 + math.Sqrt(float64(n)/10_000))
	if float64(c) <= most {
		return sheets, parts
	}
	d := int32(math.Ceil(float64(c) / most))
	ss := make([]Sheet, len(sheets))
	for i, s := range sheets {
		s.X, s.Y = (s.X+d-1)/d, (s.Y+d-1)/d
		ss[i] = s
	}
	ps := make([]Part, len(parts))
	for i, pt := range parts {
		ps[i].Count = pt.Count
		for _, w := range pt.Ways {
			ps[i].Ways = append(ps[i].Ways, [2]int32{w[0] / d, w[1] / d})
		}
	}
	return ss, ps
}

// table is one dual-feasible function as its values.
type table struct {
	part  []int64 // at the distinct sizes of the parts
	sheet []int64 // at the sizes of the sheets
}

type problem struct {
	sheets []Sheet
	parts  []Part
	xs, ys []int32 // distinct sizes, rising
	pair   pair    // the functions that gave the bound
}

// pair is a function for each direction; both adds up what it gives a part and the same part turned.
type pair struct {
	f, g *table
	both bool
}

// price is the value that the best pair of functions gives a part.
func (p *problem) price(pt *Part) float64 {
	v := math.Inf(1)
	of := func(x, y int32) float64 {
		return float64(p.pair.f.part[find(p.xs, x)]) * float64(p.pair.g.part[find(p.ys, y)])
	}
	for _, w := range pt.Ways {
		one := of(w[0], w[1])
		if p.pair.both {
			one += of(w[1], w[0])
		}
		v = min(v, one)
	}
	return v
}

func (p *problem) solve() int64 {
	var cx, cy int32
	for _, s := range p.sheets {
		cx, cy = max(cx, s.X), max(cy, s.Y)
	}
	square := true
	for _, s := range p.sheets {
		square = square && s.X == s.Y
	}
	turn := false
	for _, pt := range p.parts {
		turn = turn || len(pt.Ways) > 1
	}
	var xs, ys []int32
	for _, pt := range p.parts {
		for _, w := range pt.Ways {
			xs, ys = append(xs, w[0]), append(ys, w[1])
			if square && turn {
				xs, ys = append(xs, w[1]), append(ys, w[0])
			}
		}
	}
	p.xs, p.ys = distinct(xs), distinct(ys)
	fx := p.functions(p.xs, cx, func(s *Sheet) int32 { return s.X }, func(w [2]int32) int32 { return w[0] }, square && turn)
	fy := fx
	if !(square && turn) {
		fy = p.functions(p.ys, cy, func(s *Sheet) int32 { return s.Y }, func(w [2]int32) int32 { return w[1] }, false)
	}
	type item struct {
		n    int64
		i, j [2]int // places of sizes in xs, ys, for both ways
		t, u [2]int // the same of both ways turned, on square sheets
		one  bool
	}
	items := make([]item, len(p.parts))
	for k, pt := range p.parts {
		it := item{n: int64(pt.Count), one: len(pt.Ways) == 1}
		for r := range 2 {
			w := pt.Ways[min(r, len(pt.Ways)-1)]
			it.i[r], it.j[r] = find(p.xs, w[0]), find(p.ys, w[1])
		}
		if square && turn {
			for r := range 2 {
				w := pt.Ways[min(r, len(pt.Ways)-1)]
				it.t[r], it.u[r] = find(p.xs, w[1]), find(p.ys, w[0])
			}
		}
		items[k] = it
	}
	best := int64(0)
	for a := range fx {
		f := &fx[a]
		for b := range fy {
			if square && turn && b < a {
				continue // the same sum by symmetry
			}
			g := &fy[b]
			var sum int64
			for k := range items {
				it := &items[k]
				v := f.part[it.i[0]] * g.part[it.j[0]]
				if !it.one {
					v = min(v, f.part[it.i[1]]*g.part[it.j[1]])
				}
				sum += v * it.n
			}
			if c := p.cover(f, g, sum, 1); c > best || p.pair.f == nil {
				best, p.pair = c, pair{f, g, false}
			}
			if square && turn {
				// On square sheets a plan and the same plan turned hold every part in both directions. The other way of a
				// part is not the first one turned where the kerfs of the two directions differ.
				sum = 0
				for k := range items {
					it := &items[k]
					v := f.part[it.i[0]]*g.part[it.j[0]] + f.part[it.t[0]]*g.part[it.u[0]]
					if !it.one {
						v = min(v, f.part[it.i[1]]*g.part[it.j[1]]+f.part[it.t[1]]*g.part[it.u[1]])
					}
					sum += v * it.n
				}
				if c := p.cover(f, g, sum, 2); c > best {
					best, p.pair = c, pair{f, g, true}
				}
			}
		}
	}
	return best
}

// cover gives the least cost of sheets whose areas by f and g make sum/times.
func (p *problem) cover(f, g *table, sum, times int64) int64 {
	if len(p.sheets) == 1 {
		a := f.sheet[0] * g.sheet[0] * times
		if a <= 0 {
			return 0
		}
		return (sum + a - 1) / a * p.sheets[0].Cost
	}
	type rate struct {
		per  float64
		size float64
		i    int
	}
	var rates [8]rate
	rs := rates[:0]
	for i := range p.sheets {
		if a := float64(f.sheet[i]) * float64(g.sheet[i]); a > 0 {
			rs = append(rs, rate{float64(p.sheets[i].Cost) / a, a, i})
		}
	}
	for i := range rs { // there are few, and they are put in order very often
		for k := i; k > 0 && rs[k].per < rs[k-1].per; k-- {
			rs[k], rs[k-1] = rs[k-1], rs[k]
		}
	}
	left, cost := float64(sum)/float64(times), 0.0
	for _, r := range rs {
		n := min(left/r.size, float64(p.sheets[r.i].Count))
		cost += n * float64(p.sheets[r.i].Cost)
		if left -= n * r.size; left <= 0 {
			break
		}
	}
	return int64(math.Ceil(cost*(1-1e-9) - 1e-6))
}

// functions gives the dual-feasible functions worth trying for sizes up to c.
func (p *problem) functions(sizes []int32, c int32, of func(*Sheet) int32, way func([2]int32) int32, both bool) []table {
	ends := make([]int32, len(p.sheets))
	for i := range p.sheets {
		ends[i] = of(&p.sheets[i])
	}
	var list []table
	add := func(fn func(x int64) int64) {
		t := table{make([]int64, len(sizes)), make([]int64, len(ends))}
		for i, x := range sizes {
			if x <= c {
				t.part[i] = fn(int64(x))
			}
		}
		for i, x := range ends {
			t.sheet[i] = fn(int64(x))
		}
		t.reduce()
		for i := range list {
			if list[i].equal(&t) {
				return
			}
		}
		list = append(list, t)
	}
	C := int64(c)
	add(func(x int64) int64 { return x })
	some := spread(sizes, p.most())
	for _, e := range some {
		e := int64(e)
		if e < 1 {
			continue
		}
		if 2*e > C {
			break
		}
		for _, e := range [2]int64{e, e + 1} {
			if 2*e <= C {
				add(func(x int64) int64 { return threshold(x, e, C) })
			}
		}
		add(func(x int64) int64 { return rounding(x, e, C) })
	}
	for _, x := range some { // the complement of a large part as a step
		if e := C - int64(x) + 1; e > 0 && 2*e <= C {
			add(func(x int64) int64 { return rounding(x, e, C) })
		}
	}
	for k := int64(1); k <= 12; k++ {
		add(func(x int64) int64 { return multiple(x, k, C) })
	}
	if len(ends) == 1 {
		p.counting(some, C, way, both, add)
	}
	return list
}

// work bounds the number of products that a bound is worked out from: some 20 ms at most.
const work = 32_000_000

// most is how many sizes functions may be built on, about five on each, so that all pairs of them over all parts stay
// within the work.
func (p *problem) most() int {
	return max(8, int(math.Sqrt(work/float64(len(p.parts)))/5))
}

// spread gives at most n of the sizes, evenly.
func spread(sizes []int32, n int) []int32 {
	if len(sizes) <= n {
		return sizes
	}
	some := make([]int32, n)
	for i := range some {
		some[i] = sizes[i*(len(sizes)-1)/(n-1)]
	}
	return some
}

// threshold lets small sizes go and takes large ones for the whole.
func threshold(x, e, c int64) int64 {
	if x > c-e {
		return c
	}
	if x < e {
		return 0
	}
	return x
}

// rounding counts how many steps of e fit, symmetric about the half.
func rounding(x, e, c int64) int64 {
	switch {
	case 2*x > c:
		return 2 * (c/e - (c-x)/e)
	case 2*x == c:
		return c / e
	}
	return 2 * (x / e)
}

// multiple is the function u(k) of Fekete and Schepers, times k.
func multiple(x, k, c int64) int64 {
	if (k+1)*x%c == 0 {
		return x * k
	}
	return (k + 1) * x / c * c
}

// counting adds functions that count how many of the parts that are there fit beside each other.
func (p *problem) counting(sizes []int32, c int64, way func([2]int32) int32, both bool, add func(func(int64) int64)) {
	var all []int64 // the size of every copy that could lie so, rising
	for _, pt := range p.parts {
		for r, w := range pt.Ways {
			if both && r > 0 {
				break
			}
			n := min(int64(pt.Count), c/max(1, int64(way(w)))+1)
			for range n {
				all = append(all, int64(way(w)))
			}
			if both {
				n = min(int64(pt.Count), c/max(1, int64(w[1]))+1)
				for range n {
					all = append(all, int64(w[1]))
				}
			}
		}
	}
	sort.Slice(all, func(i, j int) bool { return all[i] < all[j] })
	for _, k := range sizes {
		k := int64(k)
		if k < 1 {
			continue
		}
		if 2*k > c {
			break
		}
		var ends []int64 // total of the 1, 2, 3 ... smallest from k to half
		sum := int64(0)
		for _, x := range all {
			if x >= k && 2*x <= c {
				sum += x
				if sum > c {
					break
				}
				ends = append(ends, sum)
			}
		}
		fit := func(room int64) int64 {
			return int64(sort.Search(len(ends), func(i int) bool { return ends[i] > room }))
		}
		most := fit(c)
		add(func(x int64) int64 {
			switch {
			case 2*x > c:
				return most - fit(c-x)
			case x >= k:
				return 1
			}
			return 0
		})
	}
}

// reduce divides the values by what they have in common, so that sums stay small.
func (t *table) reduce() {
	g := uint64(0)
	for _, v := range t.part {
		g = gcd(g, uint64(v))
	}
	for _, v := range t.sheet {
		g = gcd(g, uint64(v))
	}
	if g > 1 {
		for i := range t.part {
			t.part[i] /= int64(g)
		}
		for i := range t.sheet {
			t.sheet[i] /= int64(g)
		}
	}
}

func (t *table) equal(o *table) bool {
	for i := range t.part {
		if t.part[i] != o.part[i] {
			return false
		}
	}
	for i := range t.sheet {
		if t.sheet[i] != o.sheet[i] {
			return false
		}
	}
	return true
}

func gcd(a, b uint64) uint64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

func distinct(v []int32) []int32 {
	sort.Slice(v, func(i, j int) bool { return v[i] < v[j] })
	n := 0
	for i := range v {
		if i == 0 || v[i] != v[n-1] {
			v[n] = v[i]
			n++
		}
	}
	return v[:n]
}

func find(v []int32, x int32) int {
	return sort.Search(len(v), func(i int) bool { return v[i] >= x })
}
