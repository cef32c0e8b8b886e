package packet_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan/plantest"
	"stowright/internal/view"
)

// The filled triangle at the datum corner of a board hides nothing that is worked there, at the scales of columns and of whole
// sheets, and takes no more than a third of the narrow side; no leader ends in it, and no two leaders of letters cross on or below
// a face that is narrow on paper and as wide as in a column at least. No letter of a face stands beside the view of an end, as that of the end would.
func TestMarkOfTheDatumHidesNothing(t *testing.T) {
	marks, out, leaders := 0, 0, 0
	for _, name := range some() {
		r := plantest.Result(t, name)
		u := view.Units{Unit: r.Job.Print}
		drawn := map[string]bool{}
		for _, p := range r.Assembly.Parts {
			if key := fmt.Sprint(p.Size, p.Ops); len(p.Ops) == 0 || drawn[key] {
				continue
			} else {
				drawn[key] = true
			}
			first := view.FirstFace(p)
			for _, wide := range []float64{36, 62, 120} {
				scales := view.Scales(u)
				i := slices.IndexFunc(scales, func(c draw.Scale) bool { return c.MM(p.Size[0]) < wide && c.MM(p.Size[1]) < 80 })
				if i < 0 {
					continue
				}
				v := draw.View{Scale: scales[i], Zero: draw.Pt(50, 150)}
				outline := v.Rect(0, 0, p.Size[0], p.Size[1])
				for k, fig := range view.Board(p, u) {
					f := first
					if k > 0 {
						f = first.Not()
					}
					what := fmt.Sprintf("%s, %s, %s at %s", name, p.Mark, view.FaceName(f), v.Scale)
					var s draw.Sheet
					fig.Paint(&s, v)
					var tri [3]draw.Point
					found := 0
					for _, it := range s.Items {
						if q, ok := it.(*draw.Path); ok && q.Filled && q.Fill == draw.Black && q.Layer == "Part" && len(q.Steps) == 4 {
							found++
							tri = [3]draw.Point{q.Steps[0].P[0], q.Steps[1].P[0], q.Steps[2].P[0]}
						}
					}
					if found != 1 {
						t.Errorf("%s: %d filled triangles", what, found)
						continue
					}
					marks++
					c, a, b := tri[0], tri[1], tri[2]
					within := func(p draw.Point) bool { // by its coordinates along the two legs
						x, y := (p.X-c.X)/(a.X-c.X), (p.Y-c.Y)/(b.Y-c.Y)
						return x >= 0 && y >= 0 && x+y <= 1
					}
					inBoard := outline.Has(draw.Rect{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2})
					if !inBoard {
						out++
					} else if max(math.Abs(a.X-c.X), math.Abs(b.Y-c.Y)) > min(outline.W, outline.H)/3+1e-6 {
						t.Errorf("%s: the mark is %.2f mm of %.2f", what, math.Abs(a.X-c.X), min(outline.W, outline.H))
					}
					for _, o := range p.Ops {
						if o.Face > part.Lower || o.Kind == part.Bevel || o.Kind == part.Taper || o.Face != f && !(o.Depth >= p.Size[2] || o.Kind == part.Notch || o.Kind == part.Cutout) {
							continue
						}
						room := roomOf(p, f, o, v)
						for n := range 441 { // points of the room
							if q := draw.Pt(room.X+room.W*float64(n%21)/20, room.Y+room.H*float64(n/21)/20); within(q) {
								t.Errorf("%s: the mark lies on a %s at %v", what, o.Kind, room)
								break
							}
						}
					}
					var lines [][2]draw.Point
					var texts []draw.Rect
					for _, it := range s.Items {
						if x, ok := it.(*draw.Text); ok && x.Bold {
							texts = append(texts, x.Box())
						}
					}
					for _, it := range s.Items {
						q, ok := it.(*draw.Path)
						if !ok || q.Line != draw.Fine || len(q.Steps) != 2 || q.Steps[1].Op != draw.Go {
							continue
						}
						l := [2]draw.Point{q.Steps[0].P[0], q.Steps[1].P[0]}
						if !slices.ContainsFunc(texts, func(b draw.Rect) bool { return far(draw.Rect{X: l[1].X, Y: l[1].Y}, b) < 0.7 }) {
							continue
						}
						leaders++
						for n := range 101 {
							if within(l[0].Add(l[1].Sub(l[0]).Times(float64(n) / 100))) {
								t.Errorf("%s: a leader runs into the mark", what)
								break
							}
						}
						if outline.H <= 9 && wide > 36 && slices.ContainsFunc(lines, func(o [2]draw.Point) bool { return draw.Cross(l[0], l[1], o[0], o[1]) }) {
							t.Errorf("%s: two leaders cross", what)
						}
						lines = append(lines, l)
					}
					ends := slices.ContainsFunc(p.Ops, func(o part.Op) bool { return o.Face == part.Start }) && slices.ContainsFunc(p.Ops, func(o part.Op) bool { return o.Face == part.End })
					edges := slices.ContainsFunc(p.Ops, func(o part.Op) bool { return o.Face == part.Near || o.Face == part.Far })
					if k > 0 || !ends || edges {
						continue
					}
					for _, b := range texts {
						if m := b.Mid(); m.Y > outline.Y && m.Y < outline.Bottom() && (b.X > outline.Right() || b.Right() < outline.X) {
							t.Errorf("%s: a letter of the face stands beside the view of an end", what)
						}
					}
				}
			}
		}
	}
	t.Logf("%d marks, %d of them outside, %d leaders", marks, out, leaders)
	if marks < 20 || out == 0 || out == marks || leaders == 0 {
		t.Error("too few are drawn to tell")
	}
}

// The view of a case with its fronts on says the height of every front, at every scale that sheets have.
func TestEveryFrontHasItsHeight(t *testing.T) {
	n := 0
	for _, name := range some() {
		r := plantest.Result(t, name)
		for _, unit := range []length.Unit{length.Inches, length.Millimetres} {
			u := view.Units{Unit: unit}
			for _, o := range r.Assembly.Owners {
				body := view.BodyOf(&r.Assembly, o, u)
				if len(body.Parts) == 0 {
					continue
				}
				_, _, _, closed := body.Figures()
				if closed == nil {
					continue
				}
				for _, c := range view.Scales(u) {
					if c.Real < 10*c.Paper || c.Real > 40*c.Paper {
						continue
					}
					var s draw.Sheet
					view.Put(&s, draw.Pt(100, 100), c, *closed)
					said := map[string]bool{}
					for _, it := range s.Items {
						if x, ok := it.(*draw.Text); ok {
							said[x.Text] = true
							for i, ch := range x.Text { // without the exact size behind it
								if ch == '(' {
									said[x.Text[:max(0, i-1)]] = true
								}
							}
						}
					}
					for _, p := range body.Parts {
						if p.Role != part.Door && p.Role != part.DrawerFront && p.Role != part.FalseFront {
							continue
						}
						n++
						if high := p.Box().Size().Z; !said[u.Mark(high)] {
							t.Errorf("%s, %s at %s: the height %s of %s is missing", name, o.ID, c, u.Mark(high), p.Mark)
						}
					}
				}
			}
		}
	}
	if n == 0 {
		t.Error("no fronts")
	}
}
