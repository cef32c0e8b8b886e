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
	"fmt"
	"math"
	"slices"
	"sort"

	"stowright/internal/cutting"
)

// Effort is how long to search. The zero value makes the first plan only.
type Effort struct {
	Steps int64 // most steps over the whole problem, looking for cheaper plans
	Tidy  int64 // steps after that, looking for bigger offcuts and fewer settings at the same cost
	Proof int   // additions, in each group of stocks, to prove that no plan is cheaper where that is not seen at once
	// Enough is a cost at which no cheaper plan is looked for, where it is known to do; 0 = the bound alone.
	Enough int64
	// Spent, where given, tells which share of the budget is gone, 1 = all, and Steps is not used:
	// for comparisons that are limited in seconds. Plans then depend on the machine.
	Spent func() float64
	// AnySettings leaves settings out of account, in the search and in the order of cuts: to see what counting them saves.
	AnySettings bool
}

// The usual efforts.
var (
	First  = Effort{}
	Quick  = Effort{Steps: 200_000, Tidy: 10_000, Proof: 400_000_000} // 0.1 s for a usual job, a second where a bought sheet may be saved
	Normal = Effort{Steps: 400_000, Tidy: 100_000, Proof: 400_000_000}
	Deep   = Effort{Steps: 8_000_000, Tidy: 1_000_000, Proof: 4_000_000_000}
)

// Progress tells how a search stands: the best plan so far, and what no plan can cost less than.
type Progress struct {
	Steps  int64
	Share  float64 // of the budget that is used
	Sheets int
	Cost   int64
	Bound  int64
}

// String says it for the person who waits.
func (p Progress) String() string {
	more := ", proved to be the cheapest"
	if p.Cost > p.Bound {
		more = ", cheaper ones looked for"
		if p.Bound > 0 {
			more = fmt.Sprintf(", at most %d %% above the cheapest", (100*(p.Cost-p.Bound)+p.Bound-1)/p.Bound)
		}
	}
	return fmt.Sprintf("cutting: %d sheets%s", p.Sheets, more)
}

// Solve finds a plan for p. progress may be nil. A problem that cannot be cut wholly gives a plan
// with Unplaced parts. When ctx is done the best plan so far is given, marked as cancelled.
func Solve(ctx context.Context, p *cutting.Problem, e Effort, progress func(Progress)) *cutting.Plan {
	lots, unplaced := divide(p)
	b := &budget{most: e.Steps, share: e.Spent, stop: func() bool { return ctx.Err() != nil }}
	states := make([]*state, len(lots))
	best := make([]*solution, len(lots))
	parts := 0
	for i, l := range lots {
		parts += l.count()
		st := newState(compile(p, l), p.Seed+1)
		st.any, st.proof = e.AnySettings, e.Proof
		states[i], best[i] = st, st.begun(b.stop)
	}
	if e.Steps > 0 || e.Spent != nil {
		// The budget goes to the lots where something may be won; in a second round what is left of it to those where it still may.
		for range 2 {
			all, done := 0, 0
			for i, st := range states {
				if st.above(best[i]) {
					all += st.in.parts
				}
			}
			from := b.spent()
			tell := func() {
				if progress == nil {
					return
				}
				now := Progress{Steps: b.steps, Share: b.spent()}
				for i, st := range states {
					now.Sheets, now.Cost, now.Bound = now.Sheets+len(best[i].sheets), now.Cost+best[i].cost, now.Bound+st.least
				}
				progress(now)
			}
			tell()
			for i, st := range states {
				if !st.above(best[i]) {
					continue
				}
				st.goal = e.Enough
				for k := range best {
					if k != i {
						st.goal -= best[k].cost
					}
				}
				done += st.in.parts
				b.until, b.over = from+(1-from)*float64(done)/float64(all), false
				best[i] = st.improve(best[i], b, func(s *solution) {
					best[i] = s
					tell()
				})
				tell()
			}
		}
	}
	var bounds cutting.Bounds
	for i := range p.Stocks {
		bounds.Stocks = append(bounds.Stocks, cutting.StockBound{ID: p.Stocks[i].ID})
	}
	for i, st := range states {
		st.prove(best[i], b.stop)
		bounds.Sheets += st.bounds(lots[i].stocks, bounds.Stocks)
		bounds.Cost += st.least
	}
	draw := func() *cutting.Plan {
		plan := &cutting.Plan{Unplaced: slices.Clone(unplaced), Bounds: bounds}
		plan.Bounds.Stocks = slices.Clone(bounds.Stocks)
		for i := range lots {
			plan.Unplaced = append(plan.Unplaced, states[i].in.realise(best[i], plan)...)
		}
		finish(p, plan, !e.AnySettings)
		return plan
	}
	for i, st := range states {
		if st.in.parts < patternsAlone {
			best[i] = st.neat(best[i])
		}
	}
	plan := draw()
	if e.Tidy > 0 && len(lots) > 0 && parts < patternsAlone && len(plan.Unplaced) == 0 {
		for i, l := range lots {
			best[i] = states[i].tidy(best[i], b, e.Tidy*int64(l.count())/int64(parts)/states[i].in.long())
		}
		untidy := plan
		plan = draw()
		trade(plan, untidy, plan)
		// One sheet more, of the lot with the most settings.
		most := 0
		for i, st := range states {
			if st.set > states[most].set {
				most = i
			}
		}
		tidied := best[most]
		if s := states[most].loosen(tidied, b, e.Tidy*int64(lots[most].count())/int64(parts)/states[most].in.long()); s != nil {
			best[most] = s
			if more := draw(); more.Totals.Settings <= plan.Totals.Settings-plan.Totals.Settings/manyFewer {
				trade(plan, untidy, plan, more)
			}
		}
	}
	plan.Steps = b.steps
	plan.Cancelled = b.stopped
	return plan
}

// begun makes first plans of a lot and a bound that is had at once.
func (st *state) begun(stop func() bool) *solution {
	in := st.in
	st.sheetsLeast = in.leastSheets()
	st.least = int64(st.sheetsLeast) * in.stocks[0].cost
	if len(in.stocks) > 1 {
		st.least = in.least()
	}
	best := st.first(st.least, stop)
	if st.above(best) {
		if s, ok := st.fewest(); ok {
			best, st.least = s, s.cost
		}
	}
	return best
}

// above tells whether a solution is to be bettered: something is out, or its cost is above the bound and above what is enough.
func (st *state) above(s *solution) bool { return s.out > 0 || s.cost > max(st.least, st.goal) }

// improve looks for a cheaper solution than best within the budget.
func (st *state) improve(best *solution, b *budget, tell func(*solution)) *solution {
	in := st.in
	b.each = in.each()
	repeated := in.parts >= repeats*len(in.types)
	if repeated && in.parts >= patternsAlone {
		if in.mixes() {
			b.each = 1
			if b.share == nil {
				b.until = max(b.until, float64(b.steps+onePlan)/float64(b.most))
			}
			best = st.mixed(best, &pool{seen: map[string]bool{}}, b)
		}
		st.prove(best, b.stop)
		return best
	}
	if repeated {
		b.part(corrected, func() {
			b.each = 1 // a step is on one sheet there
			best = st.correct(best, math.MaxInt, b)
		})
	}
	if (repeated || b.lasts(before, enough)) && in.mixes() && int64(in.parts)*in.stocks[0].cost <= crowd*max(1, st.least) {
		from := b.steps
		b.part(before, func() { best = st.search(best, b, 10, 4, tell) })
		if st.above(best) && (repeated || b.steps-from > enough) {
			share := mixing
			if st.load(&solution{}); len(in.stocks) == 1 && st.newKnapsack(0, 1) != nil {
				share = mixingAll
			}
			b.part(share, func() {
				b.each = 1
				best = st.mixed(best, &pool{seen: map[string]bool{}}, b)
			})
		}
	}
	if st.above(best) {
		best = st.search(best, b, 10, 4, tell)
	}
	return best
}

// bounds writes how few sheets of each stock any plan uses, and gives how few of all.
func (st *state) bounds(stocks []int, list []cutting.StockBound) int {
	in := st.in
	if len(in.stocks) == 1 {
		least := st.sheetsLeast
		if c := in.stocks[0].cost; c > 0 {
			least = max(least, int(st.least/c))
		}
		list[stocks[0]].Least = least
		return least
	}
	dear := -1 // the one stock that costs anything
	for j := range in.stocks {
		list[stocks[j]].Least = in.leastOf(&in.stocks[j])
		if in.stocks[j].cost > 0 {
			if dear < 0 {
				dear = j
			} else {
				dear = len(in.stocks)
			}
		}
	}
	if dear >= 0 && dear < len(in.stocks) {
		l := &list[stocks[dear]]
		l.Least = max(l.Least, int(st.least/in.stocks[dear].cost))
	}
	return st.sheetsLeast
}

// each is how many steps of the budget one takes: it goes through all sheets, so that it takes longer where there are many.
func (in *instance) each() int64 { return 1 + int64(in.parts)/200 }

// long is the same for tidying.
func (in *instance) long() int64 { return 1 + int64(in.parts)/5000 }

// onePlan is in how many steps a plan of patterns alone is put together at least, however short the search: less gives none.
const onePlan = 60_000

// Where solutions are put together from patterns: the share of the budget that is searched first, the share of the rest that
// it may take, and that where sheets of one size are filled by dynamic programming, and the steps without success after which it is tried
// where parts do not repeat.
const (
	before    = 0.3
	mixing    = 0.6
	mixingAll = 0.9
	enough    = 30_000
)

// manyFewer is the share of the settings, as its divisor, that must be saved for a sheet more to be worth telling.
const manyFewer = 6

// trade lists plans that were found with plan, fewest settings first, but none that costs more, or takes more sheets, without needing
// fewer settings than each that does not.
func trade(plan *cutting.Plan, plans ...*cutting.Plan) {
	of := func(p *cutting.Plan) cutting.Choice {
		return cutting.Choice{Sheets: p.Totals.Sheets, Cost: p.Totals.Cost, Settings: p.Totals.Settings, Kept: p.Totals.Kept}
	}
	var list []*cutting.Plan
	for _, p := range plans {
		same := func(o *cutting.Plan) bool { return of(o) == of(p) }
		worse := func(o *cutting.Plan) bool {
			return (plan.Totals.Cost < p.Totals.Cost || plan.Totals.Sheets < p.Totals.Sheets) && o.Totals.Cost <= p.Totals.Cost && o.Totals.Sheets <= p.Totals.Sheets &&
				o.Totals.Settings <= p.Totals.Settings && of(o) != of(p)
		}
		if p == plan {
			list = slices.DeleteFunc(list, same)
		}
		if !slices.ContainsFunc(list, same) && !slices.ContainsFunc(plans, worse) {
			list = append(list, p)
		}
	}
	sort.SliceStable(list, func(a, b int) bool { return list[a].Totals.Settings < list[b].Totals.Settings })
	plan.Trade, plan.Ways = []cutting.Choice{}, nil
	for _, p := range list {
		plan.Trade = append(plan.Trade, of(p))
		if p == plan {
			p = nil
		}
		plan.Ways = append(plan.Ways, p)
	}
}

// blink is how often, in 1024, a place is passed over, so that not every plan is built alike.
const blink = 60

// first makes plans at once, one for each order of the parts, and gives the best.
func (st *state) first(least int64, stop func() bool) *solution {
	var best *solution
	if in := st.in; in.parts >= manyParts && in.parts >= repeats*len(in.types) && len(in.groups) == 0 {
		b := &budget{most: math.MaxInt64, until: 1, stop: stop}
		st.blink = blink
		if best, ok := st.pass(in.worths(), b); ok {
			return best
		}
	}
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
		if best == nil || st.short < best.out || st.short == best.out && st.cost < best.cost {
			best = st.solution()
		}
	}
	st.blink, st.thrift = blink, false
	return best
}

// manyParts is from how many parts on, where they repeat, the first plan is made of patterns alone.
const manyParts = 3000

// patternsAlone is from how many parts on, where they repeat, plans are made of patterns and nothing else: sheets are then so many that
// copies of them all take much memory, and a search gets round to few of them.
const patternsAlone = 20_000

// manyTypes is from how many sizes of part on the first plan takes no more than one order.
const manyTypes = 1500
