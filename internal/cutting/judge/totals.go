package judge

import (
	"math/big"
	"sort"

	"stowright/internal/cutting"
	"stowright/internal/length"
)

// totals checks the sums that people read.
func (j *judge) totals() {
	t := j.plan.Totals
	cuts, bought, settings := 0, 0, 0
	cost := int64(0)
	used := map[string]int{}
	type step struct {
		c     cutting.Cut
		stock string
	}
	var steps []step
	for _, s := range j.plan.Sheets {
		cuts += len(s.Cuts)
		if !s.OnHand {
			bought++
		}
		used[s.Stock]++
		for _, c := range s.Cuts {
			steps = append(steps, step{c, s.Stock})
		}
	}
	for i := range j.p.Stocks {
		cost += int64(used[j.p.Stocks[i].ID]) * j.p.Cost(i)
	}
	sort.SliceStable(steps, func(a, b int) bool { return steps[a].c.Seq < steps[b].c.Seq })
	for i, s := range steps {
		if i == 0 || s.c.Setting != steps[i-1].c.Setting || s.c.Hand != steps[i-1].c.Hand || s.stock != steps[i-1].stock {
			settings++
		}
	}
	if t.Sheets != len(j.plan.Sheets) || t.Cuts != cuts || t.Bought != bought || t.Cost != cost || t.Settings != settings {
		j.fault("totals", -1, "the totals are not those of the plan")
	}
	if len(j.plan.Unplaced) == 0 {
		b := j.plan.Bounds
		if b.Cost > cost || b.Sheets > t.Sheets {
			j.fault("bound", -1, "the plan is better than its bound")
		}
		for _, s := range b.Stocks {
			if s.Used != used[s.ID] || s.Least > s.Used {
				j.fault("bound", -1, "the bound of stock %s is wrong", s.ID)
			}
		}
	}
}

// setting checks that a cut's setting measures one of its two sides, and the limits of the fence and of stages.
func (j *judge) setting(i int, c *cutting.Cut, lo, hi cutting.Rect) {
	a, b := lo.L, hi.L
	if c.Axis == cutting.Y {
		a, b = lo.W, hi.W
	}
	if c.Setting != a && c.Setting != b {
		j.fault("setting", i, "cut %d is set to %d, it parts %d and %d", c.Seq, c.Setting, a, b)
	}
	kept, over := lo, hi // what lies against the fence, and what falls off behind the blade
	if c.Setting != a {
		kept, over = hi, lo
	}
	if a != b && c.Work > cutting.Recut {
		one, other := j.sizes(kept, c.Axis), j.sizes(over, c.Axis)
		if !one && !other {
			one, other = j.full(i, kept, c.Axis), j.full(i, over, c.Axis)
		}
		if other && !one {
			j.fault("waste", i, "cut %d is set to %d: a part takes its size from what is left over", c.Seq, c.Setting)
		}
	}
	if m := j.p.Limits.Largest; m > 0 && c.Setting > m && !c.Hand && c.Work != cutting.Trimming && !j.p.Limits.Slim(c) {
		j.fault("fence", i, "cut %d is set to %d, the fence reaches %d", c.Seq, c.Setting, m)
	}
}

// area is an exact area.
type area struct{ sum big.Int }

func (a *area) add(l, w length.Length) {
	var x big.Int
	x.Mul(big.NewInt(int64(l)), big.NewInt(int64(w)))
	a.sum.Add(&a.sum, &x)
}

// addKerf adds what a cut turns to dust inside the usable sheet; outside it belongs to the trim.
func (a *area) addKerf(c cutting.Cut, u cutting.Rect) {
	r := c.Of
	if c.Axis == cutting.X {
		r.X, r.L = c.At, c.Kerf
	} else {
		r.Y, r.W = c.At, c.Kerf
	}
	x, y := max(r.X, u.X), max(r.Y, u.Y)
	l, w := min(r.X+r.L, u.X+u.L)-x, min(r.Y+r.W, u.Y+u.W)-y
	if l > 0 && w > 0 {
		a.add(l, w)
	}
}
