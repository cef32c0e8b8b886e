package view_test

import (
	"math"
	"slices"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan/plantest"
	"stowright/internal/view"
)

// On the drawing of every board of the examples nothing lies on the arrow along the grain, and the name of a face stands
// clear of every line; all but few boards that are wide enough for an arrow have one.
func TestArrowsAndNamesOfFacesStandClear(t *testing.T) {
	wide, bare := 0, 0
	for _, name := range []string{"ostler-row", "hollis-court"} {
		r := plantest.Result(t, name)
		u := view.Units{Unit: r.Job.Print}
		for _, p := range r.Assembly.Parts {
			if len(p.Ops) == 0 {
				continue
			}
			faces := view.Board(p, u)
			for _, f := range faces {
				if len(faces) == 1 { // as the cards have it
					f.Title = ""
				}
				s := draw.A3().Sheet(true)
				c := draw.Scale{Paper: 1, Real: 16}
				view.Put(s, draw.Pt(60, 60), c, f)
				arrow := false
				for i, it := range s.Items {
					var box draw.Rect
					switch x := it.(type) {
					case *draw.Path:
						if x.Layer != "Grain" || len(x.Steps) != 2 {
							continue
						}
						arrow = true
						a, b := x.Steps[0].P[0], x.Steps[1].P[0]
						box = draw.Rect{X: min(a.X, b.X), Y: min(a.Y, b.Y), W: math.Abs(a.X - b.X), H: math.Abs(a.Y - b.Y)}.Inset(-0.8)
					case *draw.Text:
						if x.Text != f.Title || x.Text == "" {
							continue
						}
						box = x.Box().Inset(-0.5)
					default:
						continue
					}
					for k, o := range s.Items {
						switch x := o.(type) {
						case *draw.Path:
							if x.Layer != "Grain" && x.Strikes(box) {
								t.Errorf("%s, %s, %s: a line at %v", name, p.Mark, f.Title, box)
							}
						case *draw.Text:
							if k != i && x.Box().Meets(box) {
								t.Errorf("%s, %s, %s: %q at %v", name, p.Mark, f.Title, x.Text, box)
							}
						}
					}
				}
				if p.Grain == part.Along && c.MM(p.Size[0]) > 16 && c.MM(p.Size[1]) > 8 {
					if wide++; !arrow {
						bare++
						t.Logf("%s, %s, %s: no arrow", name, p.Mark, f.Title)
					}
				}
			}
		}
	}
	if wide < 100 || bare*20 > wide {
		t.Errorf("%d of %d faces have no arrow", bare, wide)
	}
}

// A row of grooves that would run together to black shows its first and its last whole, and of those between the middles:
// on paper no line is nearer to another than the grooves are wide.
func TestRowsOfGroovesStayApart(t *testing.T) {
	const mm = length.MM
	p := part.New("bottom", part.Bottom, "bottom", "ply", geom.B(0, 0, 0, 900*mm, 580*mm, 18*mm), geom.Right, geom.Back)
	for k := range 30 {
		p.Ops = append(p.Ops, part.Op{Kind: part.Groove, Face: part.Upper, X: (185 + 21*length.Length(k)) * mm, L: 13 * mm, W: 580 * mm, Depth: 4 * mm})
	}
	for _, c := range []struct {
		real  int
		lines int // upright ones of grooves
	}{{20, 2 + 28 + 2}, {5, 60}} {
		var s draw.Sheet
		v := draw.View{Scale: draw.Scale{Paper: 1, Real: c.real}}
		view.Board(p, view.Units{Unit: length.Millimetres})[0].Paint(&s, v)
		var at []float64
		for _, it := range s.Items {
			q, ok := it.(*draw.Path)
			if !ok || q.Layer == "Grain" {
				continue
			}
			for k := 1; k < len(q.Steps); k++ {
				a, b := q.Steps[k-1].P[0], q.Steps[k].P[0]
				if q.Steps[k].Op == draw.Close {
					b = q.Steps[0].P[0]
				}
				if q.Steps[k].Op != draw.Curve && a.X == b.X && math.Abs(a.Y-b.Y) > 580/float64(c.real)-0.1 {
					at = append(at, math.Round(a.X*100)/100)
				}
			}
		}
		slices.Sort(at)
		at = slices.Compact(at)
		at = slices.DeleteFunc(at, func(x float64) bool { return x < 1 || x > 899/float64(c.real) })
		if len(at) < c.lines-1 || len(at) > c.lines {
			t.Errorf("1:%d: %d lines of grooves, want %d", c.real, len(at), c.lines)
		}
		for k := 1; k < len(at); k++ {
			if at[k]-at[k-1] < 0.6 {
				t.Errorf("1:%d: lines at %.2f and %.2f mm", c.real, at[k-1], at[k])
			}
		}
	}
}
