package plan_test

import (
	"testing"

	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan/plantest"
)

// A screw that comes up from a case into its counter meets the head of no screw that holds the counter's boards
// together: the heads of number 8 are 8.4 mm wide (ASME B18.6.1, from memory), the thread is 4.2.
func TestCounterScrewsMissHeads(t *testing.T) {
	seen := 0
	for _, name := range shipped {
		r := plantest.Result(t, name)
		at := map[string]part.Part{}
		for _, p := range r.Assembly.Parts {
			at[p.Mark] = p
		}
		for _, f := range r.Assembly.Fixings {
			if f.Kind != part.ToCase || f.Row != "counter" {
				continue
			}
			for _, j := range r.Assembly.Joints {
				a, b := at[j.A], at[j.B]
				if a.Owner != f.Owner || j.Fastener == "" || joinery.Thin(j.Contact) != 2 || joinery.Bored(a, b, j) {
					continue
				}
				h, _ := r.Job.Catalogue.Item(j.Fastener)
				for _, v := range joinery.Spots(a, b, j, h.Length, r.Job.Print == length.Inches).At {
					seen++
					if d := v.Sub(f.At); d.X.Abs() < 7*length.MM && d.Y.Abs() < 7*length.MM {
						t.Errorf("%s: the screw from %s at %s along, %s out is where %s and %s are screwed", name, f.Stud, f.At.X, f.At.Y, j.A, j.B)
					}
				}
			}
		}
	}
	if seen == 0 {
		t.Error("no screw")
	}
}
