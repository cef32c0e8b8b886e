package plan_test

import (
	"strings"
	"testing"

	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan/plantest"
	"stowright/internal/shop"
)

// Doors and fronts are adjusted to the gaps that they are made for: those between them, and those to the outer faces of
// their case, where a neighbour may stand as far out as they.
func TestGapsAreThoseThatFrontsAreMadeFor(t *testing.T) {
	sides, told := 0, 0
	for _, name := range shipped {
		r := plantest.Result(t, name)
		gap, side := r.Job.Practice.FrontGap.In(r.Job.Print), r.Job.Practice.SideGap.In(r.Job.Print)
		for _, s := range r.Steps {
			if i := strings.Index(s.Whole(), "adjust"); i >= 0 && (s.Phase == shop.Install || strings.Contains(s.Whole(), "put each door on")) {
				told++
				if t2 := s.Whole()[i:]; !strings.Contains(t2, gap+" between the fronts") || !strings.Contains(t2, side+" from the outer faces") {
					t.Errorf("%s: step %d does not tell gaps of %s and %s: %s", name, s.N, gap, side, t2)
				}
			}
		}
		for _, o := range r.Assembly.Owners {
			for _, p := range r.Assembly.Parts {
				if p.Owner != o.ID || p.Role != part.Door && p.Role != part.DrawerFront {
					continue
				}
				for _, d := range []part.L{p.Box().Min.X - o.Carcass.Min.X, o.Carcass.Max.X - p.Box().Max.X} {
					if d < 6*length.MM {
						sides++
						if d != r.Job.Practice.SideGap {
							t.Errorf("%s: %s is %s from the outer face of its case, told %s", name, p.Mark, d.In(r.Job.Print), side)
						}
					}
				}
			}
		}
	}
	if sides < 20 || told < 5 {
		t.Errorf("%d edges of fronts beside a side, %d steps", sides, told)
	}
}

// What is bought of a damp-proof strip is what the step cuts of it: pieces under the points where a base stands, or whole
// rails.
func TestStripIsBoughtAsItIsCut(t *testing.T) {
	pads := 0
	for _, name := range shipped {
		r := plantest.Result(t, name)
		for _, h := range r.Assembly.Hardware {
			if h.Kind != "tape" || h.For != part.ForPads {
				continue
			}
			pads++
			n := part.L(0)
			for _, f := range r.Assembly.Feet {
				if f.Owner == h.Owner {
					n++
				}
			}
			each := h.Length / n
			if each < 80*length.MM || each > 120*length.MM {
				t.Errorf("%s: %s of strip under %d points of %s", name, h.Length.In(r.Job.Print), n, h.Owner)
			}
			found := false
			for _, s := range r.Steps {
				found = found || s.Owner == h.Owner && strings.Contains(s.Whole(), "pieces of "+each.In(r.Job.Print)+", one under every point")
			}
			if !found {
				t.Errorf("%s: no step cuts the strip under %s into pieces of %s", name, h.Owner, each.In(r.Job.Print))
			}
		}
	}
	if pads == 0 {
		t.Error("no base has a strip in pieces")
	}
}
