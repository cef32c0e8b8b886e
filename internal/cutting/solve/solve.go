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
	"math"

	"stowright/internal/cutting"
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
	Quick  = Effort{Steps: 20_000} // 0.1 to 0.2 s for a usual job
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
		in := compile(p, l)
		st := newState(in, p.Seed+1)
		st.blink = blink
		sheets := in.leastSheets()
		bounds.Sheets += sheets
		least := int64(sheets) * in.stocks[0].cost
		if len(in.stocks) > 1 {
			least = in.least()
		}
		bounds.Cost += least
		best := st.first(least)
		if len(l.stocks) == 1 {
			bounds.Stocks[l.stocks[0]].Least = sheets
		}
		if best.cost > least && (e.Steps > 0 || e.Spent != nil) {
			best = st.search(best, least, b, 10, 4, func(s *solution) {
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

// blink is how often, in 1024, a place is passed over, so that not every plan is built alike.
const blink = 60

// first makes plans at once, one for each order of the parts, and gives the best.
func (st *state) first(least int64) *solution {
	var best *solution
	blink := st.blink
	st.blink = 0
	for order := byWays; order < turns; order++ {
		if n := len(st.in.types); best != nil && (best.out == 0 && best.cost <= least || n > manyTypes && order > byArea) {
			break
		}
		if order == byWays && len(st.in.types) > manyTypes {
			continue // its time grows with the square of the number
		}
		st.begin()
		for len(st.open) > 0 {
			st.empty(st.open[0])
			st.shut(0)
		}
		st.thrift = order != atRandom
		st.recreate(order, math.MaxInt64)
		if best == nil || st.area < best.out || st.area == best.out && st.cost < best.cost {
			best = st.solution()
		}
	}
	st.blink, st.thrift = blink, false
	return best
}

// manyTypes is from how many sizes of part on the first plan takes no more than one order.
const manyTypes = 1500
