package plan_test

import (
	"fmt"
	"strings"
	"testing"

	"stowright/internal/joinery"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/shop"
)

// splitting gives a sentence for every thing with a screw in an edge that is less than three times as thick as
// the screw (common practice, no source), which no step of it says to hold; and how many have some.
func splitting(r plan.Result) (bad []string, n int) {
	at := byMark(r.Assembly)
	thin := map[string]string{}
	for _, j := range r.Assembly.Joints {
		h, _ := r.Job.Catalogue.Item(j.Fastener)
		if j.Kind != part.WoodScrew || j.Count == 0 || h.Kind != "screw" {
			continue
		}
		for _, m := range []string{j.A, j.B} {
			p := at[m]
			if p.Material == part.Board && p.Pose.W().Axis() != joinery.Thin(j.Contact) && p.Size[2] < 3*h.Dia {
				thin[p.Owner] = fmt.Sprintf("%s in the edge of %s", h.Name, m)
			}
		}
	}
	for o, what := range thin {
		n++
		told := !own(r, o)
		for _, s := range r.Steps {
			told = told || s.Owner == o && s.Phase == shop.Assemble && strings.Contains(s.Caution, "between two blocks")
		}
		if !told {
			bad = append(bad, fmt.Sprintf("%s: %s, and nobody holds it", o, what))
		}
	}
	return bad, n
}

func TestThinEdgesAreHeld(t *testing.T) {
	inExamples(t, []string{"hollis-court", "fennel-street"}, splitting, "no thin edge is screwed")
}
