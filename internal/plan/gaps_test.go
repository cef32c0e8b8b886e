package plan_test

import (
	"strings"
	"testing"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/plan"
)

// Gaps between fronts of neighbours that the plan leaves other than those that fronts are adjusted to are told where they are.
func TestGapsBesidePackingAreTold(t *testing.T) {
	seen := 0
	everywhere(t, func(name string, r plan.Result) {
		type front struct {
			owner string
			box   geom.Box
		}
		var fronts []front
		called, wall := map[string]string{}, map[string]string{}
		for _, o := range r.Assembly.Owners {
			called[o.ID], wall[o.ID] = o.Name, o.Wall
		}
		for _, f := range r.Assembly.Fronts {
			for _, p := range r.Assembly.Parts {
				if p.Mark == f.Part {
					fronts = append(fronts, front{p.Owner, p.Box()})
				}
			}
		}
		told := ""
		for _, s := range r.Steps {
			if strings.Contains(s.Text, " to even gaps of ") {
				told += s.Text
			}
		}
		for i, a := range fronts {
			for _, b := range fronts[:i] {
				d := max(a.box.Min.X-b.box.Max.X, b.box.Min.X-a.box.Max.X)
				if a.owner == b.owner || wall[a.owner] != wall[b.owner] || (a.box.Min.Y-b.box.Min.Y).Abs() > 4*length.MM || d <= 0 || d > 15*length.MM || min(a.box.Max.Z, b.box.Max.Z)-max(a.box.Min.Z, b.box.Min.Z) < 25*length.MM {
					continue
				}
				if (d - r.Job.Practice.FrontGap).Abs() < 12*length.MM/10 {
					continue
				}
				seen++
				at := d.In(r.Job.Print) + " between "
				if !strings.Contains(told, at+called[a.owner]) && !strings.Contains(told, at+called[b.owner]) {
					t.Errorf("%s: fronts of %s and %s stand %s apart, and nothing says so: %s", name, a.owner, b.owner, d.In(r.Job.Print), told)
				}
			}
		}
	})
	if seen == 0 {
		t.Error("no two fronts stand further apart")
	}
}
