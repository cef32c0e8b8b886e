package plan_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan/plantest"
	"stowright/internal/shop"
)

// A foot that is turned from above has a hole over it in the bottom that its bolt passes with air, and the step that fits it tells before how
// long its bolt may be: so that it does not stand out above the bottom, and yet fills its insert at the greatest height. Setting up has
// nothing left to saw.
func TestBoltsOfFeetAreSawnBeforeTheyAreFitted(t *testing.T) {
	said := regexp.MustCompile(`([0-9][^;,]*?) over all(?: for ([^,;]*?))?(?:,| and |;)`)
	feet := 0
	for _, name := range append(plantest.Examples(), plantest.Surveys()...) {
		r := plantest.Result(t, name)
		for _, o := range r.Assembly.Owners {
			var step *shop.Step
			for i := range r.Steps {
				st := &r.Steps[i]
				if st.Phase == shop.Install && strings.Contains(strings.Join(st.Points, " "), "saw off") && strings.Contains(strings.Join(st.Points, " "), "foot") {
					t.Errorf("%s: step %d saws bolts of feet where the case stands: %q", name, st.N, st.Points)
				}
				if st.Phase == shop.FitOut && (st.Owner == o.ID || slices.Contains(st.Also, o.ID)) && strings.Contains(st.Text, "upside down") {
					step = st
				}
			}
			for _, f := range r.Assembly.Feet {
				h, ok := r.Job.Catalogue.Item(f.Hardware)
				if f.Owner != o.ID || !ok || h.TurnFrom != "above" || h.Dia == 0 {
					continue
				}
				for _, p := range r.Assembly.Parts {
					b := p.Box()
					if p.Owner != o.ID || p.Role != part.Bottom || f.At.X < b.Min.X || f.At.X > b.Max.X {
						continue
					}
					feet++
					for _, x := range p.Ops {
						u, v := p.OnFace(x.Face, f.At)
						if x.For == part.TurnsFoot && (u-x.X).Abs() < length.MM && (v-x.Y).Abs() < length.MM && x.Dia < h.Dia+length.MM {
							t.Errorf("%s: %s has a hole of %v for a bolt of %v", name, p.Mark, x.Dia, h.Dia)
						}
					}
					if f.Unsure {
						continue
					}
					if step == nil {
						t.Errorf("%s: no step fits the feet of %s", name, o.ID)
						continue
					}
					long := length.Length(0)
					list := said.FindAllStringSubmatch(strings.Join(step.Points, " "), -1)
					for _, m := range list {
						if len(list) == 1 || strings.HasPrefix(m[2], o.Name) {
							l, err := length.Parse(m[1], r.Job.Print)
							if err != nil {
								t.Fatal(err)
							}
							long = l
						}
					}
					insert, _ := r.Job.Catalogue.Item(h.Insert)
					switch room := f.Height + b.Max.Z - f.At.Z; {
					case long == 0:
						t.Errorf("%s: the step of the feet of %s does not say how long their bolts may be: %q", name, o.ID, step.Points)
					case long > room:
						t.Errorf("%s: %s: a bolt of %v stands out of a room of %v", name, o.ID, long, room)
					case long < f.Height+insert.Length:
						t.Errorf("%s: %s: a bolt of %v does not fill its insert of %v at %v", name, o.ID, long, insert.Length, f.Height)
					}
				}
			}
		}
	}
	if feet == 0 && !testing.Short() {
		t.Error("no foot is turned from above")
	}
}
