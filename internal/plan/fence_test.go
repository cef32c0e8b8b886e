package plan_test

import (
	"regexp"
	"strings"
	"testing"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan/plantest"
	"stowright/internal/shop"
)

var fenceAt = regexp.MustCompile(`(?:Fence: its nearer side|Saw down both its sides, the nearer) (.+) from the (left|right|front|rear|lower|upper) (?:edge|end)[.,]`)

var evenRow = regexp.MustCompile(`, then every .* to `) // its first and its last place are looked at

// Every groove of a step lies as far from the edge as the fence of that step is set: measured where the board stands.
func TestOneFenceOneDistance(t *testing.T) {
	way := map[string]geom.Dir{"left": geom.Left, "right": geom.Right, "front": geom.Front, "rear": geom.Back, "lower": geom.Down, "upper": geom.Up}
	seen := 0
	for _, name := range plantest.Examples() {
		r := plantest.Result(t, name)
		for _, s := range r.Steps {
			grooved := strings.Contains(s.Text, ": groove ") || strings.Contains(s.Text, ": rabbet ")
			m := fenceAt.FindStringSubmatch(s.Text)
			if s.Phase != shop.Bore || m == nil {
				if s.Phase == shop.Bore && grooved {
					t.Errorf("%s, step %d: no fence: %s", name, s.N, s.Text)
				}
				continue
			}
			for _, told := range strings.Split(evenRow.ReplaceAllString(strings.ReplaceAll(m[1], " and ", ", "), ", "), ", ") {
				at, err := length.Parse(told, length.Inches)
				if err != nil {
					t.Fatal(err)
				}
				d := way[m[2]]
				for _, p := range r.Assembly.Parts {
					for _, mark := range s.Parts {
						if mark != p.Mark {
							continue
						}
						near := false
						for _, o := range p.Ops {
							if o.Kind != part.Groove && o.Kind != part.Rabbet && o.Kind != part.Slot {
								continue
							}
							b, whole := p.Pose.Box(o.Removed(p.Size)), p.Pose.Box(geom.B(0, 0, 0, p.Size[0], p.Size[1], p.Size[2]))
							far := b.Min.At(d.Axis()) - whole.Min.At(d.Axis())
							if d.Sign() > 0 {
								far = whole.Max.At(d.Axis()) - b.Max.At(d.Axis())
							}
							near = near || (far-at).Abs() < length.MM/15
						}
						seen++
						if !near {
							t.Errorf("%s, step %d: no groove of %s lies so: %s", name, s.N, mark, s.Text)
						}
					}
				}
			}
		}
	}
	if seen == 0 {
		t.Error("no groove")
	}
}
