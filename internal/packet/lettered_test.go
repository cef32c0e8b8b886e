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

// roomOf gives the paper that a working takes on a face of a board, which is turned over as its drawing says.
func roomOf(p part.Part, f part.Face, o part.Op, v draw.View) draw.Rect {
	l, w := p.Size[0], p.Size[1]
	at := func(x, y length.Length) draw.Point {
		switch {
		case f == part.Lower && w <= l:
			y = w - y
		case f == part.Lower:
			x = l - x
		}
		return v.At(x, y)
	}
	around := func(a, b draw.Point, r, q float64) draw.Rect {
		return draw.Rect{X: min(a.X, b.X) - r, Y: min(a.Y, b.Y) - q, W: math.Abs(a.X-b.X) + 2*r, H: math.Abs(a.Y-b.Y) + 2*q}
	}
	a, r := at(o.X, o.Y), max(v.Scale.MM(o.Dia)/2, 0.35)
	switch o.Kind {
	case part.Hole, part.Cup, part.Countersink:
		return around(a, a, r, r)
	case part.Pocket: // it is drawn 40 mm long, away from where its screw leaves the board, and 9 mm wide
		long, half := length.Length(max(3/v.Scale.MM(length.MM), 40)*float64(length.MM)), max(0.5, v.Scale.MM(9*length.MM)/2)
		switch o.Towards {
		case part.Start:
			return around(a, at(o.X+long, o.Y), 0, half)
		case part.End:
			return around(a, at(o.X-long, o.Y), 0, half)
		case part.Near:
			return around(a, at(o.X, o.Y+long), half, 0)
		}
		return around(a, at(o.X, o.Y-long), half, 0)
	}
	return around(a, at(o.X+o.L, o.Y+o.W), 0, 0)
}

// far is the distance between two rectangles.
func far(a, b draw.Rect) float64 {
	return math.Hypot(max(0, a.X-b.Right(), b.X-a.Right()), max(0, a.Y-b.Bottom(), b.Y-a.Bottom()))
}

// A letter on the drawing of a part is read as that of the working that it stands nearest to, or that its leader ends at: on
// the drawing of every part it is one that the list beside the drawing puts under that letter. No letter is missing
// but on a face that is too narrow for it, where it stands outside.
func TestLettersStandAtTheirWorkings(t *testing.T) {
	seen, led, lost := 0, 0, 0
	for _, name := range some() {
		r := plantest.Result(t, name)
		u := view.Units{Unit: r.Job.Print}
		drawn := map[string]bool{}
		for _, p := range r.Assembly.Parts {
			key := fmt.Sprint(p.Size, p.Ops)
			if len(p.Ops) == 0 || drawn[key] {
				continue
			}
			drawn[key] = true
			first := view.FirstFace(p)
			scales := view.Scales(u)
			i := slices.IndexFunc(scales, func(c draw.Scale) bool {
				return c.MM(p.Size[0]) < 62 && c.MM(p.Size[1]) < 80 // as in a column of a sheet
			})
			v := draw.View{Scale: scales[i], Zero: draw.Pt(50, 150)}
			outline := v.Rect(0, 0, p.Size[0], p.Size[1])
			below := draw.Rect{X: outline.X, Y: outline.Y, W: outline.W, H: outline.H + 6} // where letters of a full face stand
			for k, fig := range view.Board(p, u) {
				f := first
				if k > 0 {
					f = first.Not()
				}
				rooms := map[string][]draw.Rect{} // of every letter
				var all []draw.Rect
				for _, w := range view.Works(p, u) {
					if w.Face != f {
						continue
					}
					for _, o := range p.Ops {
						if o.Kind != part.Bevel && o.Kind != part.Taper && strings.HasPrefix(w.What, o.Kind.String()) && o.For == w.For &&
							o.Face <= part.Lower && (o.Face == f || k == 0) && slices.Contains(w.X, o.X) && slices.Contains(w.Y, o.Y) {
							rooms[w.Letter] = append(rooms[w.Letter], roomOf(p, f, o, v))
							all = append(all, roomOf(p, f, o, v))
						}
					}
				}
				var s draw.Sheet
				fig.Paint(&s, v)
				what := fmt.Sprintf("%s, %s, %s at %s", name, p.Mark, view.FaceName(f), v.Scale)
				found := map[string]bool{}
				for _, it := range s.Items {
					x, ok := it.(*draw.Text)
					if !ok || !x.Bold || len(rooms[x.Text]) == 0 || !below.Has(x.Box()) {
						continue
					}
					seen++
					found[x.Text] = true
					box, slack := x.Box(), 1.0
					for _, it := range s.Items {
						q, ok := it.(*draw.Path)
						if !ok || q.Line != draw.Fine || len(q.Steps) != 2 || q.Steps[1].Op != draw.Go {
							continue
						}
						a, b := q.Steps[0].P[0], q.Steps[1].P[0]
						if m := a.Add(b).Times(0.5); slices.ContainsFunc(all, func(r draw.Rect) bool { return m.Sub(r.Mid()).Len() < 0.05 }) {
							continue // the axes of a hole
						}
						if far(draw.Rect{X: b.X, Y: b.Y}, x.Box()) < 0.7 {
							box, slack = draw.Rect{X: a.X, Y: a.Y}, -0.01
							led++
						}
					}
					own, mine := math.Inf(1), draw.Rect{}
					for _, r := range rooms[x.Text] {
						if d := far(r, box); d < own {
							own, mine = d, r
						}
					}
					if own > 3 {
						t.Errorf("%s: %s stands %.1f mm from its nearest working", what, x.Text, own)
					}
					for other, list := range rooms {
						for _, r := range list {
							if other != x.Text && !r.Meets(mine) && far(r, box) < own+slack {
								t.Errorf("%s: %s stands %.2f mm from its working and %.2f from one of %s", what, x.Text, own, far(r, box), other)
							}
						}
					}
				}
				for l := range rooms {
					if !found[l] && outline.H > 9 {
						lost++
						t.Errorf("%s: no letter %s", what, l)
					}
				}
			}
		}
	}
	t.Logf("%d letters, %d of them on leaders, %d lost", seen, led, lost)
	if seen == 0 {
		t.Error("no letter")
	}
}
