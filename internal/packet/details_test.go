package packet_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan/plantest"
	"stowright/internal/view"
)

// The details of hardware show what they are named after: a hole at least, the distance from an edge and the pitch or
// height, and how deep; and a detail of a corner names all that it hatches, no name more than once.
func TestDetailsShowWhatTheyName(t *testing.T) {
	spots, corners := 0, 0
	for _, name := range some() {
		r := plantest.Result(t, name)
		for _, o := range r.Assembly.Owners {
			if o.Kind != "case" || o.Standing {
				continue
			}
			var list []view.Figure
			for _, u := range []length.Unit{length.Inches, length.Millimetres} {
				list = append(list, view.BodyOf(&r.Assembly, o, view.Units{Unit: u}).Details()...)
			}
			for _, f := range list {
				s := draw.A3().Sheet(true)
				view.Put(s, draw.Pt(60, 60), draw.Scale{Paper: 1, Real: 2}, f)
				holes, sizes, deep := 0, 0, 0
				dias := map[string]bool{} // of the circles on paper
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
								dias[fmt.Sprintf("%.1f", around(x).W)] = true
								break
							}
						}
					}
				}
				if strings.HasPrefix(f.Title, "Hinge") || strings.HasPrefix(f.Title, "Shelf pins") {
					if spots++; holes == 0 || sizes < 2 || deep < len(dias) { // every size of hole says how deep it is
						t.Errorf("%s, %s: %d holes of %d sizes, %d figures, %d depths", name, f.Title, holes, len(dias), sizes, deep)
					}
					continue
				}
				corners++
				least := 1
				if !strings.Contains(f.Title, "foot") { // where boards meet
					least = 2
				}
				if len(told) < least {
					t.Errorf("%s, %s: %d boards are named", name, f.Title, len(told))
				}
				for n, k := range told {
					if k > 1 {
						t.Errorf("%s, %s: %s is named %d times", name, f.Title, n, k)
					}
				}
			}
		}
	}
	least := [2]int{20, 40}
	if testing.Short() {
		least = [2]int{10, 20}
	}
	if spots < least[0] || corners < least[1] {
		t.Errorf("%d details of hardware and %d of corners looked at", spots, corners)
	}
}

// A case that hangs by a cleat has both halves in one section: each is named with its long point, the wall behind
// them is drawn and said, and their bevels are one line that slants at 45 degrees, from the wall half's front upwards
// end down to the wall: a case on bevels that lean the other way slides off.
func TestCleatsAreShownOnTheWall(t *testing.T) {
	seen := 0
	for _, name := range []string{"hollis-court"} {
		r := plantest.Result(t, name)
		for _, o := range r.Assembly.Owners {
			wall, half := "", ""
			for _, p := range r.Assembly.Parts {
				if p.Owner == o.ID && p.Role == part.WallCleat {
					wall = p.Mark
				} else if p.Owner == o.ID && p.Role == part.Cleat {
					half = p.Mark
				}
			}
			if wall == "" {
				continue
			}
			for _, f := range view.BodyOf(&r.Assembly, o, view.Units{Unit: r.Job.Print}).Details() {
				if !strings.HasPrefix(f.Title, "Cleat") {
					continue
				}
				seen++
				s := draw.A3().Sheet(true)
				view.Put(s, draw.Pt(60, 60), draw.Scale{Paper: 1, Real: 2}, f)
				texts, down, up := map[string]bool{}, 0, 0
				for _, it := range s.Items {
					switch x := it.(type) {
					case *draw.Text:
						texts[x.Text] = true
					case *draw.Path:
						if x.Line != draw.Visible {
							continue
						}
						for k := 1; k < len(x.Steps); k++ {
							d := x.Steps[k].P[0].Sub(x.Steps[k-1].P[0])
							if math.Abs(math.Abs(d.X)-math.Abs(d.Y)) > 0.01 || math.Abs(d.X) < 3 {
								continue
							}
							if d.X*d.Y > 0 { // on paper y runs down, the wall is at the right
								down++
							} else {
								up++
							}
						}
					}
				}
				for _, want := range []string{wall, half, "long point, " + wall, "long point, " + half, "wall"} {
					if !texts[want] {
						t.Errorf("%s: %q is not said in the section of its cleat", o.ID, want)
					}
				}
				if down < 2 || up > 0 {
					t.Errorf("%s: %d edges slant down to the wall, %d up", o.ID, down, up)
				}
			}
		}
	}
	if seen < 2 {
		t.Errorf("%d sections of cleats", seen)
	}
}

// Where feet are set to several heights no view says one of them, or the height of the case on one of them: the pages
// on levelling tell each.
func TestFeetHaveOneHeight(t *testing.T) {
	seen := 0
	for _, name := range some() {
		r := plantest.Result(t, name)
		u := view.Units{Unit: r.Job.Print}
		for _, o := range r.Assembly.Owners {
			if o.Kind != "case" || o.Standing || !view.Levelled(&r.Assembly, o.ID) {
				continue
			}
			body := view.BodyOf(&r.Assembly, o, u)
			var all part.Box
			for _, p := range body.Parts {
				all = all.Or(p.Box())
			}
			high := all.Size().Z
			front, side, _, closed := body.Figures()
			figures := []view.Figure{*front, *side}
			if closed != nil {
				figures = append(figures, *closed)
			}
			for _, f := range body.Details() {
				if strings.Contains(f.Title, "foot") {
					figures = append(figures, f)
				}
			}
			seen++
			for _, f := range figures {
				s := draw.A3().Sheet(true)
				view.Put(s, draw.Pt(60, 60), draw.Scale{Paper: 1, Real: 20}, f)
				for _, it := range s.Items {
					x, ok := it.(*draw.Text)
					if !ok {
						continue
					}
					for _, foot := range r.Assembly.Feet {
						if foot.Owner == o.ID && u.Sized(high+foot.Height) != u.Sized(high) && (x.Text == u.Sized(high+foot.Height) || x.Text == u.Sized(foot.Height)) {
							t.Errorf("%s, %s: %q in %q is its height on one of its feet", name, o.ID, x.Text, f.Title)
						}
					}
				}
			}
		}
	}
	if seen < 5 && !testing.Short() || seen == 0 {
		t.Errorf("%d cases are levelled", seen)
	}
}

// A detail of pins or of a hinge's plate names the edge that its first figure is measured from, and something stands near it.
func TestDetailsNameTheirEdge(t *testing.T) {
	seen := 0
	for _, name := range some() {
		r := plantest.Result(t, name)
		around := part.About(r.Assembly.Parts)
		doc := set(t, name)
		for i := range doc.Pages {
			for _, it := range doc.Pages[i].Items {
				x, ok := it.(*draw.Text)
				if !ok {
					continue
				}
				what, rest, ok := strings.Cut(x.Text, ", ")
				use := map[string]string{"Shelf pins": "shelf pin", "Hinge plate": "hinge plate"}[what]
				if !ok || use == "" {
					continue
				}
				mark, rest, _ := strings.Cut(rest, ", ")
				_, edge, named := strings.Cut(rest, ", at its ")
				for _, p := range r.Assembly.Parts {
					if p.Mark != mark {
						continue
					}
					seen++
					near := false
					for f, n := range around.Called(p) {
						for _, o := range p.Ops {
							from := map[part.Face]length.Length{part.Start: o.X, part.End: p.Size[0] - o.X, part.Near: o.Y, part.Far: p.Size[1] - o.Y}
							d, is := from[part.Face(f)]
							near = near || is && n == edge && o.For == use && d <= 100*length.MM
						}
					}
					if face, _, _ := strings.Cut(rest, ", "); !slices.Contains([]string{"inside face", "outside face", "left face", "right face"}, face) {
						t.Errorf("%s: which face: %q", name, x.Text) // as the sheet of a side calls it
					}
					if !named || !near {
						t.Errorf("%s: from which edge: %q", name, x.Text)
					}
				}
			}
		}
	}
	if seen == 0 {
		t.Error("no detail of pins or plates")
	}
}
