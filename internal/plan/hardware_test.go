package plan_test

import (
	"fmt"
	"slices"
	"testing"

	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
)

// uncatalogued gives what a result wants bought that the catalogue does not have, and what is
// bought and has neither a price nor a word that it is not known.
func uncatalogued(r *plan.Result) (bad []string) {
	c := r.Job.Catalogue
	known := func(id string) bool {
		_, item := c.Item(id)
		_, edging := c.Edging(id)
		_, stick := c.Stick(id)
		_, board := c.Board(id)
		return item || edging || stick || board
	}
	want := func(where, id string) {
		if s := fmt.Sprintf("%s: %q is not in the catalogue", where, id); !known(id) && !slices.Contains(bad, s) {
			bad = append(bad, s)
		}
	}
	a := &r.Assembly
	for _, h := range a.Hardware {
		want(h.Kind+" for "+h.For, h.ID)
		if h.Count <= 0 {
			bad = append(bad, fmt.Sprintf("%d of %s for %s", h.Count, h.ID, h.For))
		}
	}
	for _, j := range a.Joints {
		if j.Fastener != "" {
			want("joint of "+j.A+" and "+j.B, j.Fastener)
			if j.Count <= 0 {
				bad = append(bad, fmt.Sprintf("joint of %s and %s: %d of %s", j.A, j.B, j.Count, j.Fastener))
			}
		} else if j.Kind != part.Loose && j.Kind != part.GlueOnly && j.Kind != part.Dado {
			bad = append(bad, fmt.Sprintf("joint of %s and %s: a %s without one", j.A, j.B, j.Kind))
		}
	}
	for _, f := range a.Fixings {
		if f.Screw != "" {
			want("fixing of "+f.Part, f.Screw)
		}
	}
	for _, f := range a.Feet {
		if f.Hardware != "" {
			want("foot of "+f.Owner, f.Hardware)
		}
	}
	for _, m := range a.Motions {
		if m.Hardware != "" {
			want("motion "+m.ID, m.Hardware)
		}
	}
	for _, f := range a.Fronts {
		if f.Handle != "" && f.Handle != "none" {
			want("front "+f.Part, f.Handle)
		}
	}
	for _, l := range r.Bill.Lines {
		if l.Buy > 0 && l.Price == nil && !slices.Contains(r.Bill.Missing, l.Name) && !slices.Contains(r.Bill.Missing, l.Item) {
			bad = append(bad, fmt.Sprintf("%s has no price and is not among those that are not known", l.Name))
		}
	}
	return bad
}

func TestExamplesBuyWhatThereIs(t *testing.T) {
	for _, name := range []string{"one-case", "fennel-street", "hollis-court", "hollis-court-friend", "marram-point", "ostler-row"} {
		r := plantest.Result(t, name)
		for _, s := range uncatalogued(&r) {
			t.Errorf("%s: %s", name, s)
		}
	}
}
