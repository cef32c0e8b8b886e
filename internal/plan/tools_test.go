package plan_test

import (
	"slices"
	"strings"
	"testing"

	"stowright/internal/cutlist"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan/plantest"
	"stowright/internal/shop"
)

// Every saw whose kerf is asked for is among the tools, and so is every saw that a cut is made with.
func TestSawsAreAmongTheTools(t *testing.T) {
	for _, name := range plantest.Examples() {
		r := plantest.Result(t, name)
		tools := shop.Tools(r.Steps, r.Assembly.Parts, r.Job.Practice)
		want := map[string]bool{}
		for _, s := range r.Steps {
			if s.Phase == shop.Prove && strings.Contains(s.Text, "kerf") {
				for _, p := range s.Points {
					saw, _, _ := strings.Cut(p, ":")
					want[saw] = true
				}
			}
		}
		for _, s := range r.Plan.Sheets {
			for _, c := range s.Cuts {
				switch {
				case c.Hand:
					want[cutlist.Led(r.Job.Practice)] = true
				case cutlist.ByGauge(r.Job.Practice, c):
					want["mitre gauge"] = true
				}
			}
		}
		if len(want) == 0 {
			t.Errorf("%s: no saw", name)
		}
		for w := range want {
			if !slices.Contains(tools, w) {
				t.Errorf("%s: %q is not among the tools %q", name, w, tools)
			}
		}
	}
}

// Whoever looks at the plan set of a case with stretchers knows that its top is not in it, and of one that has a
// top, a counter or another case over it nobody says so.
func TestOpenTopsAreTold(t *testing.T) {
	for _, name := range plantest.Examples() {
		r := plantest.Result(t, name)
		told := map[string]bool{}
		for _, s := range r.Steps {
			if strings.HasPrefix(s.Text, "Nothing that lies on") {
				for _, m := range s.Parts {
					for _, p := range r.Assembly.Parts {
						if p.Mark == m {
							told[p.Owner] = true
						}
					}
				}
			}
		}
		for _, o := range r.Assembly.Owners {
			if o.Kind != "case" || o.Standing {
				continue
			}
			open := slices.ContainsFunc(r.Assembly.Parts, func(p part.Part) bool { return p.Owner == o.ID && p.Role == part.Stretcher }) &&
				!slices.ContainsFunc(r.Assembly.Parts, func(p part.Part) bool { return p.Owner == o.ID && p.Role == part.Top })
			for _, x := range r.Assembly.Owners {
				if c := x.Box; x.ID != o.ID && x.Wall != "" && x.Wall == o.Wall && c.Max.Z > o.Carcass.Max.Z && c.Min.Z < o.Carcass.Max.Z+200*length.MM &&
					c.Min.X < (o.Carcass.Min.X+o.Carcass.Max.X)/2 && c.Max.X > (o.Carcass.Min.X+o.Carcass.Max.X)/2 && c.Min.Y < o.Carcass.Max.Y && c.Max.Y > o.Carcass.Min.Y {
					open = false
				}
			}
			if open != told[o.ID] {
				t.Errorf("%s: %s open %v, told %v", name, o.ID, open, told[o.ID])
			}
		}
	}
}

// Whatever the words of a step ask for is among the tools.
func TestWhatIsAskedForIsAmongTheTools(t *testing.T) {
	for _, name := range plantest.Examples() {
		r := plantest.Result(t, name)
		tools := strings.Join(shop.Tools(r.Steps, r.Assembly.Parts, r.Job.Practice), ", ") + ","
		for _, s := range r.Steps {
			for word, tool := range map[string]string{"saw off": " saw", "plane": "plane", "pencil": "pencil", "write": "pencil", "mark ": "pencil", "countersink": "countersink", "clamp": "clamps", "diagonal": "tape",
				"level": "level", "scrape": "scraper", "sand ": "sander", "chisel": "chisel", "hammer": "hammer", "set the stop": "depth stops", "push stick": "push stick", "dust out": "pump", "awl ": "awl", "upside down": "", "stud": ""} {
				if strings.Contains(strings.ToLower(s.Whole()+" "+s.Caution), word) && !strings.Contains(tools, tool) {
					t.Errorf("%s, step %d asks for %q and there is no %s: %s", name, s.N, word, tool, s.Whole())
				}
			}
		}
	}
}
