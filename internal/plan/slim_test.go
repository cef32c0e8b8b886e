package plan_test

import (
	"testing"

	"stowright/internal/cutlist"
	"stowright/internal/cutting"
	"stowright/internal/plan/plantest"
)

// No saw is led along a straightedge across a strip that is too narrow for it to lie on: that goes against the gauge or to the mitre saw,
// wherever its stop is.
func TestNoStraightedgeLiesAcrossAStrip(t *testing.T) {
	slim, far := 0, 0
	for _, name := range append(plantest.Examples(), plantest.Surveys()...) {
		r := plantest.Result(t, name)
		if cutlist.BreakDown(r.Job.Practice).Kind != "table-saw" {
			continue
		}
		for i, s := range r.Plan.Sheets {
			for _, c := range s.Cuts {
				along, across := c.Of.W, c.Of.L
				if c.Axis == cutting.Y {
					along, across = across, along
				}
				if c.Work <= cutting.Recut || along >= across || along >= cutlist.LeastHeld {
					continue
				}
				if slim++; c.Hand {
					t.Errorf("%s: sheet %d, cut %d goes across a strip of %v along a straightedge", name, i+1, c.Seq, along)
				}
				for _, tool := range r.Job.Practice.Tools {
					if tool.Rip != nil && c.Setting > *tool.Rip {
						far++
					}
				}
			}
		}
	}
	if !testing.Short() && (slim == 0 || far == 0) {
		t.Errorf("%d cuts across strips, %d of them beyond the fence", slim, far)
	}
}
