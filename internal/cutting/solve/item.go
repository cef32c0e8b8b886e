package solve

import (
	"slices"

	"stowright/internal/cutting"
	"stowright/internal/length"
)

// item is what is cut as one: a part, or the parts of a group side by side in a strip, with kerfs between.
type item struct {
	parts []int // in the problem; a strip holds one entry for each copy, in order
	count int
	group int  // in the problem: it comes from one sheet with the others of it; none where that is not asked
	down  bool // a strip whose parts lie one beside the other across their length
}

func (it *item) strip() bool { return len(it.parts) > 1 }

// items gives everything that is wanted, groups as strips.
func items(p *cutting.Problem) []item {
	var list []item
	at := map[string]int{}
	for i := range p.Parts {
		pt := &p.Parts[i]
		if pt.Count <= 0 {
			continue
		}
		n := group(p, pt.Group)
		if n < 0 || !p.Groups[n].Strip {
			list = append(list, item{parts: []int{i}, count: pt.Count, group: n})
			continue
		}
		g := &p.Groups[n]
		k, ok := at[g.ID]
		if !ok {
			k = len(list)
			at[g.ID] = k
			list = append(list, item{count: 1, group: -1, down: g.Axis == cutting.Across})
		}
		for range pt.Count {
			list[k].parts = append(list[k].parts, i)
		}
	}
	return list
}

// group gives the place of a group in the problem, or -1.
func group(p *cutting.Problem, id string) int {
	if id == "" {
		return -1
	}
	return slices.IndexFunc(p.Groups, func(g cutting.Group) bool { return g.ID == id })
}

// size of the item on a stock as it lies, along x and y.
func (it *item) size(p *cutting.Problem, st *cutting.Stock, turned bool) (x, y length.Length) {
	alongX := it.down == turned // the parts follow each other along x
	for n, i := range it.parts {
		a, b := p.Parts[i].L, p.Parts[i].W
		if turned {
			a, b = b, a
		}
		switch {
		case n == 0:
			x, y = a, b
		case alongX:
			x, y = x+st.Kerf.X+a, max(y, b)
		default:
			x, y = max(x, a), y+st.Kerf.Y+b
		}
	}
	return x, y
}

// longest is the longest sheet that is understood: 50 m, so that areas stay exact.
const longest = 50_000 * length.MM

// inner is how many directions of cutting part a strip.
func (it *item) inner(p *cutting.Problem) int {
	for _, i := range it.parts {
		if it.down && p.Parts[i].L != p.Parts[it.parts[0]].L || !it.down && p.Parts[i].W != p.Parts[it.parts[0]].W {
			return 2
		}
	}
	return 1
}

// allows tells how the item may lie on a stock, by grain and by the parts' list of stocks.
func (it *item) allows(p *cutting.Problem, st *cutting.Stock) (straight, turned bool) {
	if st.L > longest || st.W > longest {
		return false, false
	}
	straight, turned = true, true
	for _, i := range it.parts {
		pt := &p.Parts[i]
		if !allowed(pt, st.ID) {
			return false, false
		}
		s, t := st.Allows(pt.Lay)
		straight, turned = straight && s, turned && t
	}
	return straight, turned
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

// over tells by how much the item is too large for a stock, 0 when it fits, and the usable size that
// would do in the way of lying that comes nearest. ok is false where it may not lie on the stock at all.
func (it *item) over(p *cutting.Problem, st *cutting.Stock) (by, l, w length.Length, ok bool) {
	u := st.Usable()
	straight, turned := it.allows(p, st)
	by = -1
	try := func(turned bool) {
		x, y := it.size(p, st, turned)
		o := max(0, x-u.L, y-u.W)
		if x <= 0 || y <= 0 {
			o = max(1, o) // not a size that can be cut
		}
		if by < 0 || o < by {
			by, l, w = o, x, y
		}
	}
	if straight {
		try(false)
	}
	if turned {
		try(true)
	}
	return by, l, w, straight || turned
}

// lot is a set of stocks and items that have nothing to do with the others.
type lot struct {
	stocks []int
	items  []item
}

// count gives the number of parts of a lot.
func (l *lot) count() int {
	n := 0
	for i := range l.items {
		n += len(l.items[i].parts) * l.items[i].count
	}
	return n
}

// divide splits a problem into lots, and tells which parts no stock is large enough for.
func divide(p *cutting.Problem) ([]lot, []cutting.Unplaced) {
	var unplaced []cutting.Unplaced
	root := make([]int, len(p.Stocks))
	for i := range root {
		root[i] = i
	}
	find := func(i int) int {
		for root[i] != i {
			i = root[i]
		}
		return i
	}
	list := items(p)
	home := make([]int, len(list))
	for i := range list {
		home[i] = -1
		for s := range p.Stocks {
			st := &p.Stocks[s]
			if st.Count == 0 {
				continue
			}
			if by, _, _, ok := list[i].over(p, st); !ok || by > 0 || !list[i].clear(p, st) {
				continue
			}
			if home[i] < 0 {
				home[i] = s
			} else {
				a, b := find(home[i]), find(s)
				root[max(a, b)] = min(a, b)
			}
		}
		if home[i] < 0 {
			unplaced = append(unplaced, tooLarge(p, &list[i])...)
		}
	}
	of := make([]int, len(p.Groups)) // the stocks of a group belong together
	for i := range of {
		of[i] = -1
	}
	for i := range list {
		g := list[i].group
		if g < 0 || home[i] < 0 {
			continue
		}
		if of[g] < 0 {
			of[g] = home[i]
		}
		a, b := find(home[i]), find(of[g])
		root[max(a, b)] = min(a, b)
	}
	var lots []lot
	for r := range p.Stocks {
		if find(r) != r {
			continue
		}
		var l lot
		for s := range p.Stocks {
			if find(s) == r && p.Stocks[s].Count != 0 {
				l.stocks = append(l.stocks, s)
			}
		}
		for i := range list {
			if home[i] >= 0 && find(home[i]) == r {
				l.items = append(l.items, list[i])
			}
		}
		if len(l.items) > 0 {
			lots = append(lots, l)
		}
	}
	return lots, unplaced
}

// clear tells whether the item has a place beside the damaged places of a stock.
func (it *item) clear(p *cutting.Problem, st *cutting.Stock) bool {
	if len(st.Damage) == 0 {
		return true
	}
	straight, turned := it.allows(p, st)
	for _, first := range [2]int32{cutX, cutY} {
		for _, r := range around(st, first, p.Limits.Stages).clear() {
			if x, y := it.size(p, st, false); straight && x <= r.L && y <= r.W {
				return true
			}
			if x, y := it.size(p, st, true); turned && x <= r.L && y <= r.W {
				return true
			}
		}
	}
	return false
}

// tooLarge explains why an item fits no stock, by the stock that comes nearest.
func tooLarge(p *cutting.Problem, it *item) []cutting.Unplaced {
	u := cutting.Unplaced{Why: cutting.NoStock}
	for s := range p.Stocks {
		st := &p.Stocks[s]
		by, l, w, ok := it.over(p, st)
		if !ok {
			continue
		}
		if by == 0 { // large enough, but there is none
			u = cutting.Unplaced{Why: cutting.UsedUp, Nearest: st.ID}
			break
		}
		if u.Nearest == "" || by < u.Over {
			u.Why, u.Nearest, u.Over, u.L, u.W = cutting.TooLarge, st.ID, by, l, w
		}
	}
	if it.strip() && u.Why == cutting.TooLarge {
		u.Why = cutting.RowTooLarge
	}
	count := map[int]int{}
	var list []cutting.Unplaced
	for _, i := range it.parts {
		if count[i]++; count[i] > 1 {
			continue
		}
		v := u
		v.Part, v.Count = p.Parts[i].ID, p.Parts[i].Count
		list = append(list, v)
	}
	return list
}
