package plan_test

import (
	"slices"
	"strings"
	"testing"

	"stowright/internal/cutlist"
	"stowright/internal/cutting"
	"stowright/internal/part"
	"stowright/internal/plan/plantest"
	"stowright/internal/shop"
)

// No edge that a rough cut has left becomes the edge of a part or lies against a fence: what an earlier stage leaves with
// one is trimmed there before its first cut, and the step says so. The step of a sheet names for its re-cuts the saws that
// its table of cuts names.
func TestRoughEdgesAreTrimmed(t *testing.T) {
	over, words := 0, 0
	for _, name := range shipped {
		r := plantest.Result(t, name)
		var steps []shop.Step
		for _, s := range r.Steps {
			if s.Phase == shop.Saw {
				steps = append(steps, s)
			}
		}
		for i, s := range r.Plan.Sheets {
			if cutlist.LeftOver(s.Stock) {
				for _, from := range r.Plan.Sheets[:i] {
					for _, o := range from.Offcuts {
						if o.Scrap || cutlist.Board(from.Stock) != cutlist.Board(s.Stock) || o.L != s.L || o.W != s.W {
							continue
						}
						for _, c := range from.Cuts {
							if c.Work != cutting.Roughing || c.Axis != cutting.X || c.At+c.Kerf != o.X && c.At != o.X+o.L || c.Of.Y > o.Y || c.Of.Y+c.Of.W < o.Y+o.W {
								continue
							}
							over++
							edge := part.L(0)
							if c.At == o.X+o.L {
								edge = s.L
							}
							if !slices.ContainsFunc(s.Cuts, func(c cutting.Cut) bool {
								return c.Work == cutting.Trimming && c.Axis == cutting.X && (edge == 0) == (c.At < s.L/2)
							}) || !strings.Contains(steps[i].Text, "trim ") {
								t.Errorf("%s: sheet %d begins with the rough edge of %s: %s", name, i+1, s.Stock, steps[i].Text)
							}
							for _, p := range s.Pieces {
								if p.X == 0 && edge == 0 || p.X+p.L == s.L && edge > 0 {
									t.Errorf("%s: %s has an edge as a rough cut left it", name, p.Part)
								}
							}
						}
					}
				}
			}
			hand, saw := 0, 0
			for _, c := range s.Cuts {
				if c.Work == cutting.Recut && c.Hand {
					hand++
				} else if c.Work == cutting.Recut {
					saw++
				}
			}
			for _, p := range steps[i].Points {
				_, p, found := strings.Cut(p, "re-cut those edges")
				if !found {
					continue
				}
				words++
				led, main := cutlist.Led(r.Job.Practice), cutlist.BreakDown(r.Job.Practice).Name
				if strings.Contains(p, led) != (hand > 0) || led != main && strings.Contains(p, main) != (saw > 0) {
					t.Errorf("%s: sheet %d has %d re-cuts with the %s and %d at the %s: %s", name, i+1, hand, led, saw, main, p)
				}
			}
		}
	}
	if over == 0 || words < 5 {
		t.Errorf("%d rough edges of what was left, %d steps that name saws", over, words)
	}
}
