// Package solve finds cutting plans: the cheapest sheets first, then the most useful leftovers, then
// the fewest settings of the saw.
//
// Every plan is a set of guillotine trees (tree.go). A plan is started by putting the part with the
// fewest places left where it spoils least, then improved by taking a few parts and blocks out
// and putting them back (search.go), always aiming below the cost of the best plan known (Gardeyn and
// Wauters, "A goal-driven ruin and recreate heuristic for the 2D variable-sized bin packing
// problem with guillotine constraints", EJOR 2022). The search counts steps, not seconds, so that a
// plan depends on the problem and its seed alone.
package solve

import (
	"context"

	"stowright/internal/cutting"
	"stowright/internal/cutting/bound"
	"stowright/internal/length"
)

// Effort is how long to search. The zero value makes the first plan only.
type Effort struct {
	Steps int64 // most steps over the whole problem
	// Spent, where given, tells which share of the budget is gone, 1 = all, and Steps is not used:
	// for comparisons that are limited in seconds. Plans then depend on the machine.
	Spent func() float64
}

// The usual efforts.
var (
	First  = Effort{}
	Quick  = Effort{Steps: 20_000}
	Normal = Effort{Steps: 400_000}
	Deep   = Effort{Steps: 8_000_000}
)

// Progress tells how a search stands.
type Progress struct {
	Steps  int64
	Sheets int
	Cost   int64
	Bound  int64
}

// Solve finds a plan for p. progress may be nil. A problem that cannot be cut wholly gives a plan
// with Unplaced parts. When ctx is done the best plan so far is given, marked as cancelled.
func Solve(ctx context.Context, p *cutting.Problem, e Effort, progress func(Progress)) *cutting.Plan {
	plan := &cutting.Plan{}
	lots, unplaced := divide(p)
	plan.Unplaced = unplaced
	b := &budget{most: e.Steps, share: e.Spent, stop: func() bool { return ctx.Err() != nil || e.Spent != nil && e.Spent() >= 1 }}
	var bounds cutting.Bounds
	for i := range p.Stocks {
		bounds.Stocks = append(bounds.Stocks, cutting.StockBound{ID: p.Stocks[i].ID})
	}
	for _, l := range lots {
		in := compile(p, l.stocks, l.parts)
		st := newState(in, p.Seed+1)
		best := st.first()
		least := in.least()
		bounds.Cost += least
		if len(in.stocks) == 1 && in.stocks[0].cost > 0 {
			bounds.Sheets += int(least / in.stocks[0].cost)
		}
		if best.cost > least && (e.Steps > 0 || e.Spent != nil) {
			best = st.search(best, least, b, 30, 4, func(s *solution) {
				if progress != nil {
					progress(Progress{b.steps, len(s.sheets), s.cost, least})
				}
			})
		}
		plan.Unplaced = append(plan.Unplaced, in.realise(best, plan)...)
	}
	plan.Bounds = bounds
	plan.Steps = b.steps
	plan.Cancelled = b.stopped
	finish(p, plan)
	return plan
}

// lot is a set of stocks and parts that have nothing to do with the others.
type lot struct{ stocks, parts []int }

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
	home := make([]int, len(p.Parts))
	for i := range p.Parts {
		pt := &p.Parts[i]
		home[i] = -1
		if pt.Count <= 0 {
			continue
		}
		for s := range p.Stocks {
			st := &p.Stocks[s]
			if st.Count == 0 || !allowed(pt, st.ID) {
				continue
			}
			if over, _, _ := over(pt, st); over > 0 {
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
			unplaced = append(unplaced, tooLarge(p, pt))
		}
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
		for i := range p.Parts {
			if home[i] >= 0 && find(home[i]) == r {
				l.parts = append(l.parts, i)
			}
		}
		if len(l.parts) > 0 {
			lots = append(lots, l)
		}
	}
	return lots, unplaced
}

// over tells by how much a part is too large for a stock, 0 when it fits, and the usable size that
// would do in the way of lying that comes nearest.
func over(pt *cutting.Part, st *cutting.Stock) (by, l, w length.Length) {
	u := st.Usable()
	straight, turned := st.Allows(pt.Lay)
	by = -1
	try := func(x, y length.Length) {
		o := max(0, x-u.L, y-u.W)
		if by < 0 || o < by {
			by, l, w = o, x, y
		}
	}
	if straight {
		try(pt.L, pt.W)
	}
	if turned {
		try(pt.W, pt.L)
	}
	return by, l, w
}

// tooLarge explains why a part fits no stock, by the stock that comes nearest.
func tooLarge(p *cutting.Problem, pt *cutting.Part) cutting.Unplaced {
	u := cutting.Unplaced{Part: pt.ID, Count: pt.Count, Why: cutting.NoStock}
	for s := range p.Stocks {
		st := &p.Stocks[s]
		if !allowed(pt, st.ID) {
			continue
		}
		by, l, w := over(pt, st)
		if by == 0 { // large enough, but there is none
			return cutting.Unplaced{Part: pt.ID, Count: pt.Count, Why: cutting.UsedUp, Nearest: st.ID}
		}
		if u.Nearest == "" || by < u.Over {
			u.Why, u.Nearest, u.Over, u.L, u.W = cutting.TooLarge, st.ID, by, l, w
		}
	}
	return u
}

// first makes a plan at once.
func (st *state) first() *solution {
	st.begin()
	st.recreate(1 << 62)
	return st.solution()
}

// least is a cost that no complete plan of the instance can be under.
func (in *instance) least() int64 {
	sheets := make([]bound.Sheet, len(in.stocks))
	for i, s := range in.stocks {
		sheets[i] = bound.Sheet{X: s.x, Y: s.y, Cost: s.cost, Count: s.count}
	}
	return bound.Cost(sheets, in.forBound())
}

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
