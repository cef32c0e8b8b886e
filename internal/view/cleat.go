package view

import (
	"math"
	"slices"

	"stowright/internal/draw"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
)

// profile gives the ring of a bevelled board that a plane cuts across its bevels, on the two axes of the picture;
// false where it has none, lies along the plane, or is not wholly within a window.
func profile(p Part, c plane, window Box) ([][2]L, bool) {
	b := p.Box()
	lo, hi := [2]L{b.Min.At(c.right), b.Min.At(c.up)}, [2]L{b.Max.At(c.right), b.Max.At(c.up)}
	for i, axis := range []int{c.right, c.up} {
		if lo[i] < window.Min.At(axis) || hi[i] > window.Max.At(axis) {
			return nil, false
		}
	}
	type corner struct{ right, up bool } // at the high end of either axis
	off := map[corner]L{}
	for _, o := range p.Ops {
		if o.Kind != part.Bevel || p.Pose.Dir(geom.Right).Axis() != c.axis {
			continue
		}
		var k corner
		for _, d := range []geom.Dir{p.Pose.Dir(o.Face.Normal()), p.Pose.Dir(o.Towards.Normal())} {
			if d.Axis() == c.right {
				k.right = d.Sign() > 0
			} else {
				k.up = d.Sign() > 0
			}
		}
		off[k] = o.Depth
	}
	if len(off) == 0 {
		return nil, false
	}
	var ring [][2]L
	for _, k := range []corner{{false, false}, {true, false}, {true, true}, {false, true}} {
		at, in := lo, [2]L{1, 1}
		if k.right {
			at[0], in[0] = hi[0], -1
		}
		if k.up {
			at[1], in[1] = hi[1], -1
		}
		d := off[k]
		along, up := [2]L{at[0] + in[0]*d, at[1]}, [2]L{at[0], at[1] + in[1]*d}
		switch {
		case d == 0:
			ring = append(ring, at)
		case k.right == k.up: // the ring comes to it upwards, or downwards
			ring = append(ring, up, along)
		default:
			ring = append(ring, along, up)
		}
	}
	return ring, true
}

// cleat gives both halves of a cleat on the wall, cut from the right: which way their bevels and their long points
// lie. False where the case hangs by none.
func (b Body) cleat() (Figure, bool) {
	var wall, half Part
	var parts []Part // that stay
	for _, p := range b.bare() {
		if !p.Removable {
			parts = append(parts, p)
		}
		switch p.Role {
		case part.WallCleat:
			wall = p
		case part.Cleat:
			half = p
		}
	}
	if wall.Mark == "" || half.Mark == "" {
		return Figure{}, false
	}
	w, h := wall.Box(), half.Box()
	x := (w.Min.X + w.Max.X) / 2
	for _, o := range wall.Ops {
		if o.Kind == part.Hole && o.Face <= part.Lower { // where a screw to the wall goes
			x = wall.Pose.Point(o.Face.Point(o.X, o.Y, wall.Size)).X
			break
		}
	}
	const before, behind, about = 80 * length.MM, 16 * length.MM, 10 * length.MM
	f := detail("Cleat on the wall, from the right", parts, fromRight(x), geom.B(b.Owner.Box.Min.X, h.Min.Y-before, w.Min.Z-about, b.Owner.Box.Max.X, w.Max.Y+behind, h.Max.Z+25*length.MM), b.Unit)
	paint, dims := f.Paint, f.Dims
	f.Paint = func(s *draw.Sheet, v draw.View) {
		s.Layer = "Wall"
		band := v.Rect(w.Max.Y, f.Z0, w.Max.Y+behind, f.Z1)
		s.Hatch(draw.WallHatch, band.Corners())
		s.Poly(draw.Outline, v.At(w.Max.Y, f.Z0), v.At(w.Max.Y, f.Z1))
		paint(s, v)
		s.Layer = "Detail"
		free := h.Min.Y // the front of what is cut beside the cleat
		for _, p := range parts {
			if q := p.Box(); p.Role == part.BackPanel && q.Min.Z < h.Min.Z && q.Max.Z > w.Max.Z {
				free = min(free, q.Min.Y)
			}
		}
		for _, l := range []struct {
			of   string
			at   draw.Point
			down float64
		}{{wall.Mark, v.At(w.Min.Y, w.Max.Z), -3}, {half.Mark, v.At(h.Max.Y, h.Min.Z), 3}} {
			for range 4 { // clear of the marks that stand there
				y := l.at.Y + l.down
				if !slices.ContainsFunc(s.Items, func(it draw.Item) bool {
					t, ok := it.(*draw.Text)
					return ok && !t.Up && t.Box().Right() < v.X(w.Min.Y) && math.Abs(t.Box().Mid().Y-y) < 2*draw.LeastCap
				}) {
					break
				}
				l.down += math.Copysign(draw.LeastCap, l.down)
			}
			from := draw.Pt(v.X(free)-2, l.at.Y+l.down)
			s.Poly(draw.Fine, from, l.at)
			dot := s.Circle(draw.NoLine, l.at, 0.6)
			dot.Filled, dot.Fill = true, draw.Black
			for _, text := range []string{"long point, " + l.of, "long point"} {
				t := draw.Text{Text: text, Size: draw.LeastCap, Align: draw.End, At: draw.Pt(from.X-1, from.Y+draw.LeastCap/2)}
				if t.Box().X > v.X(f.X0)+1 { // within the frame, over the lines of what is behind
					s.Area(draw.White, t.Box().Inset(-0.4).Corners()...)
					s.Text(t.At, t.Size, t.Text, t.Align)
					break
				}
			}
		}
		t := draw.Text{Text: "wall", Size: draw.LeastCap, Align: draw.Middle, Up: true, At: draw.Pt(band.Mid().X+draw.LeastCap/2, band.Bottom()-12)}
		s.Area(draw.White, t.Box().Inset(-0.6).Corners()...)
		s.Text(t.At, t.Size, t.Text, t.Align).Up = true
		s.Layer = ""
	}
	f.Dims = func(d *draw.Dims, v draw.View) {
		dims(d, v)
		d.Single(draw.Left, v.Y(w.Min.Z), v.Y(w.Max.Z), finely(w.Size().Z, b.Unit))
		d.Single(draw.Left, v.Y(h.Min.Z), v.Y(h.Max.Z), finely(h.Size().Z, b.Unit))
	}
	return f, true
}
