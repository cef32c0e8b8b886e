package packet_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/part"
	"stowright/internal/plan/plantest"
)

// What is under a plan tells of doors, drawers and what hangs only where the wall has some, an elevation without sizes says where they
// stand, and no size has two units.
func TestCaptionsTellOfWhatIsThere(t *testing.T) {
	plans, bare := 0, 0
	twoUnits := regexp.MustCompile(`\d mm in( thick|$)`)
	for _, name := range some() {
		r := plantest.Result(t, name)
		wall := map[string]string{}
		hangs, slides, swings := map[string]bool{}, map[string]bool{}, map[string]bool{}
		for _, o := range r.Assembly.Owners {
			wall[o.ID] = o.Wall
			if o.Hung && o.Kind != "filler" {
				hangs[o.Wall] = true
			}
		}
		for _, m := range r.Assembly.Motions {
			if m.Needs != "" {
				continue
			}
			on := wall[m.Owner]
			slides[on] = slides[on] || m.Kind == part.Slide || m.Kind == part.Roll
			swings[on] = swings[on] || m.Kind == part.Swing
		}
		doc := set(t, name)
		for i := range doc.Pages {
			var texts []string
			for _, it := range doc.Pages[i].Items {
				if x, ok := it.(*draw.Text); ok {
					texts = append(texts, x.Text)
				}
			}
			for _, x := range texts {
				if twoUnits.MatchString(x) {
					t.Errorf("%s, sheet %d: %q", name, i+1, x)
				}
				if rest, ok := strings.CutPrefix(x, "Plan of wall "); ok {
					plans++
					on, _, _ := strings.Cut(rest, ":")
					for what, has := range map[string]bool{"doors open": swings[on], "drawers out": slides[on], "hung above": hangs[on]} {
						if strings.Contains(x, what) != has {
							t.Errorf("%s: %q tells of %s, which is there: %v", name, x, what, has)
						}
					}
				}
				if strings.Contains(x, ", fronts off: ") {
					for _, w := range r.Room.Walls {
						if len(w.Studs) > 0 && strings.Contains(x, "wall "+w.ID+",") {
							if bare++; !slices.ContainsFunc(texts, func(t string) bool { return strings.HasPrefix(t, "widths and heights stand") }) {
								t.Errorf("%s, sheet %d: where sizes stand is not told", name, i+1)
							}
						}
					}
				}
			}
		}
	}
	if plans < 2 || bare < 1 {
		t.Errorf("%d plans, %d elevations without sizes", plans, bare)
	}
}
