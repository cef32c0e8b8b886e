package plan_test

import (
	"strings"
	"testing"

	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan/plantest"
)

// What lies on the studs is told where screws are bored for, by its name and how thick the survey says it is: the screws are
// as long as that asks for.
func TestLiningIsTold(t *testing.T) {
	n := 0
	for _, name := range []string{"fennel-street", "marram-point", "ostler-row"} {
		r := plantest.Result(t, name)
		unit := length.Millimetres
		if r.Job.Practice.InInches() {
			unit = length.Inches
		}
		var all strings.Builder
		for _, s := range r.Steps {
			all.WriteString(s.Whole() + "\n")
		}
		for _, f := range r.Assembly.Fixings {
			for _, w := range r.Room.Walls {
				if f.Kind != part.ToStud || w.ID != f.Wall || w.Lining == 0 {
					continue
				}
				n++
				if want := w.LiningName + ", " + w.Lining.In(unit) + " thick by the survey"; !strings.Contains(all.String(), want) {
					t.Fatalf("%s: no step says %q", name, want)
				}
			}
		}
	}
	if n == 0 {
		t.Error("no screw goes through a lining")
	}
}
