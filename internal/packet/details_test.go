package packet_test

import (
	"strings"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/plan/plantest"
	"stowright/internal/view"
)

// The details of hardware show what they are named after: a hole at least, the distance from an edge and the pitch or
// height, and how deep; and a detail of a corner names all that it hatches, no name more than once.
func TestDetailsShowWhatTheyName(t *testing.T) {
	spots, corners := 0, 0
	for _, name := range names {
		r := plantest.Result(t, name)
		for _, o := range r.Assembly.Owners {
			if o.Kind != "case" || o.Standing {
				continue
			}
			for _, f := range view.BodyOf(&r.Assembly, o, view.Units{Unit: r.Job.Print}).Details() {
				s := draw.A3().Sheet(true)
				view.Put(s, draw.Pt(60, 60), draw.Scale{Paper: 1, Real: 2}, f)
				holes, sizes, deep := 0, 0, 0
				told := map[string]int{}
				for _, it := range s.Items {
					switch x := it.(type) {
					case *draw.Text:
						switch {
						case strings.Contains(x.Text, " deep"):
							deep++
						case strings.Contains(x.Text, "."+strings.TrimLeft(x.Text, "ABCDEFGHIJKLMNOPQRSTUVWXYZ.")) && x.Bold:
							told[x.Text]++
						case !x.Bold:
							sizes++
						}
					case *draw.Path:
						for _, st := range x.Steps {
							if st.Op == draw.Curve {
								holes++
								break
							}
						}
					}
				}
				if strings.HasPrefix(f.Title, "Hinge") || strings.HasPrefix(f.Title, "Shelf pins") {
					if spots++; holes == 0 || sizes < 2 || deep == 0 {
						t.Errorf("%s, %s: %d holes, %d sizes, %d depths", name, f.Title, holes, sizes, deep)
					}
					continue
				}
				corners++
				if len(told) == 0 {
					t.Errorf("%s, %s: no board is named", name, f.Title)
				}
				for n, k := range told {
					if k > 1 {
						t.Errorf("%s, %s: %s is named %d times", name, f.Title, n, k)
					}
				}
			}
		}
	}
	if spots < 20 || corners < 40 {
		t.Errorf("%d details of hardware and %d of corners looked at", spots, corners)
	}
}
