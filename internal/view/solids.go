package view

import (
	"stowright/internal/draw"
	"stowright/internal/draw/hidden"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
)

// Boxes gives a part less its straight workings as boxes in the frame it is posed in.
// Bevels and tapers are not taken off.
func Boxes(p Part) []Box { return boxes(p, nil) }

// boxes is Boxes without some of the workings.
func boxes(p Part, without map[int]bool) []Box {
	var away []Box
	for i, o := range p.Ops {
		if without[i] {
			continue
		}
		switch o.Kind {
		case part.Groove, part.Rabbet, part.Notch, part.Cutout, part.Slot:
			away = append(away, o.Removed(p.Size))
		}
	}
	out := hidden.Cut(geom.B(0, 0, 0, p.Size[0], p.Size[1], p.Size[2]), away...)
	for i := range out {
		out[i] = p.Pose.Box(out[i])
	}
	return out
}

// rims gives the rims of a part's round workings of at least the given diameter, each on its
// face and, when it goes through, on the other.
func rims(p Part, least L) [][]geom.Vec {
	var out [][]geom.Vec
	for _, o := range p.Ops {
		if o.Dia < least || o.Kind != part.Hole && o.Kind != part.Cup {
			continue
		}
		n := 12
		if o.Dia > 20*length.MM {
			n = 24
		}
		faces := []part.Face{o.Face}
		if _, _, deep := o.Face.Extent(p.Size); o.Depth >= deep {
			faces = append(faces, o.Face.Not())
		}
		for _, f := range faces {
			c := p.Pose.Point(f.Point(o.X, o.Y, p.Size))
			out = append(out, hidden.Circle(c, p.Pose.Dir(f.Normal()).Axis(), o.Dia/2, n))
		}
	}
	return out
}

// closePictured is the pitch below which a picture of parts shows only the first and the last groove of a row: at the
// scale of one their lines would run together to black.
const closePictured = 40 * length.MM

// solids gives parts as solids, numbered by their index; least is the smallest hole shown,
// 0 for none, as in a view to scale, which has every groove.
func solids(parts []Part, least L) []hidden.Solid {
	var out []hidden.Solid
	for i, p := range parts {
		s := hidden.Solid{ID: i, Boxes: Boxes(p)}
		if least > 0 {
			s.Boxes = boxes(p, crowded(p.Ops, closePictured))
			s.Curves = rims(p, least)
		}
		out = append(out, s)
	}
	return out
}

// paint draws segments of a picture in two kinds of line.
func paint(s *draw.Sheet, segs []hidden.Segment, at func(hidden.Point) draw.Point, seen, unseen draw.Line) {
	a := &draw.Path{Line: seen, Layer: s.Layer}
	b := &draw.Path{Line: unseen, Layer: s.Layer}
	for _, g := range segs {
		p := a
		if g.Hidden {
			p = b
		}
		p.Poly(false, at(g.A), at(g.B))
	}
	for _, p := range []*draw.Path{b, a} {
		if len(p.Steps) > 0 && p.Line != draw.NoLine {
			s.Add(p)
		}
	}
}

// flat maps the picture of a plain view to paper.
func flat(v draw.View) func(hidden.Point) draw.Point {
	return func(p hidden.Point) draw.Point { return v.Real(p.X, p.Y) }
}

// clip keeps what of parts lies on one side of the plane across an axis: below it, or above.
func clip(parts []Part, axis int, at L, above bool, least L) []hidden.Solid {
	var out []hidden.Solid
	for i, p := range parts {
		s := hidden.Solid{ID: i}
		for _, b := range Boxes(p) {
			if above {
				b.Min = b.Min.With(axis, max(b.Min.At(axis), at))
			} else {
				b.Max = b.Max.With(axis, min(b.Max.At(axis), at))
			}
			if !b.Empty() {
				s.Boxes = append(s.Boxes, b)
			}
		}
		if len(s.Boxes) == 0 {
			continue
		}
		if least > 0 {
			for _, c := range rims(p, least) {
				keep := true
				for _, q := range c {
					keep = keep && (q.At(axis) >= at) == above || q.At(axis) == at
				}
				if keep {
					s.Curves = append(s.Curves, c)
				}
			}
		}
		out = append(out, s)
	}
	return out
}

// slice gives the boxes of parts that a plane cuts through, by part.
func slice(parts []Part, axis int, at L) [][]Box {
	out := make([][]Box, len(parts))
	for i, p := range parts {
		for _, b := range Boxes(p) {
			if b.Min.At(axis) < at && at < b.Max.At(axis) {
				out[i] = append(out[i], b)
			}
		}
	}
	return out
}

// plane says which plane a section is cut by and from where it is seen.
type plane struct {
	axis  int // across which the plane lies
	at    L
	above bool // keep what is above it
	view  hidden.View
	right int // axis that runs to the right in the picture
	up    int
}

// FromRight, Down and Front give the usual planes.
func fromRight(x L) plane { return plane{0, x, false, hidden.FromRight(), 1, 2} }
func down(z L) plane      { return plane{2, z, false, hidden.Top(), 0, 1} }
func front(y L) plane     { return plane{1, y, true, hidden.Front(), 0, 2} }

// section paints parts cut by a plane: what is cut is outlined wide and hatched, what lies
// behind is drawn thin.
func section(s *draw.Sheet, v draw.View, parts []Part, c plane, least L) {
	was := s.Layer
	s.Layer = "Section"
	defer func() { s.Layer = was }()
	cut := slice(parts, c.axis, c.at)
	for i, boxes := range cut {
		for _, b := range boxes {
			r := v.Rect(b.Min.At(c.right), b.Min.At(c.up), b.Max.At(c.right), b.Max.At(c.up))
			h := draw.CutBoard
			if r.H > r.W {
				h = draw.CutBoard2
			}
			if parts[i].Material == part.Stick {
				h = draw.EndGrain
			}
			if min(r.W, r.H) < 1 { // too thin to hatch
				a := s.Area(draw.Dark, r.Corners()...)
				a.Layer = s.Layer
				continue
			}
			s.Hatch(h, r.Corners())
		}
	}
	paint(s, hidden.Lines(c.view, clip(parts, c.axis, c.at, c.above, least), false), flat(v), draw.Narrow, draw.NoLine)
	var thin []hidden.Solid
	for i, boxes := range cut {
		if len(boxes) > 0 {
			thin = append(thin, hidden.Solid{ID: i, Boxes: boxes})
		}
	}
	p := &draw.Path{Line: draw.Edge, Layer: s.Layer}
	for _, so := range thin {
		for _, g := range hidden.Lines(c.view, []hidden.Solid{so}, false) {
			p.Poly(false, flat(v)(g.A), flat(v)(g.B))
		}
	}
	if len(p.Steps) > 0 {
		s.Add(p)
	}
}
