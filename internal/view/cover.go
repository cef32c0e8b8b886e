package view

import (
	"math"

	"stowright/internal/draw"
	"stowright/internal/draw/hidden"
	"stowright/internal/geom"
	"stowright/internal/length"
)

// Portrait is a wall with all that stands at it, or what stands at none, as the first sheet
// shows it.
type Portrait struct {
	scene Scene
	view  hidden.View
	solid []hidden.Solid
	segs  []hidden.Segment
}

// Portrait makes it; false when there is nothing to show. A case alone is drawn isometric, a wall
// in cabinet projection with the wall and the floor behind.
func (c Scene) Portrait() (Portrait, bool) {
	parts, standing := c.Parts()
	if len(parts)+len(standing) == 0 {
		return Portrait{}, false
	}
	p := Portrait{scene: c, view: hidden.Cabinet(false), solid: solids(parts, 20*length.MM)}
	for _, b := range standing {
		p.solid = append(p.solid, hidden.Solid{ID: len(p.solid), Boxes: []Box{b}})
	}
	if w := c.Wall; w != nil {
		front := L(0)
		for _, o := range c.onWall() {
			front = min(front, o.Box.Min.Y)
		}
		thin := 10 * length.MM
		add := func(b Box) {
			if !b.Empty() {
				p.solid = append(p.solid, hidden.Solid{ID: len(p.solid), Boxes: []Box{b}})
			}
		}
		add(geom.B(0, 0, c.bottom(), w.Length, thin, c.top()))
		add(geom.B(0, front-200*length.MM, c.bottom()-thin, w.Length, 0, c.bottom()))
		for _, o := range w.Openings {
			add(geom.B(max(0, o.Box.Min.X), -length.MM, max(c.bottom(), o.Box.Min.Z), min(w.Length, o.Box.Max.X), 0, min(c.top(), o.Box.Max.Z)))
		}
	} else if len(c.onWall()) == 1 {
		p.view = hidden.Isometric(false)
	}
	p.segs = hidden.Lines(p.view, p.solid, false)
	return p, len(p.segs) > 0
}

// Shape is how wide it is for its height.
func (p Portrait) Shape() float64 {
	lo, hi := extent(p.segs)
	return (hi.X - lo.X) / max(1, hi.Y-lo.Y)
}

// Draw draws it as large as a rectangle takes, the sides in shade, every owner with its code,
// which leads where link says. It is not to scale.
func (p Portrait) Draw(s *draw.Sheet, r draw.Rect, link func(owner string) string) {
	was := s.Layer
	s.Layer = "Pictorial"
	defer func() { s.Layer = was }()
	at, took := fit(p.segs, r, 0.2)
	for _, f := range shaded(p.view, p.solid) {
		var ring []draw.Point
		for _, q := range f.ring {
			ring = append(ring, at(q))
		}
		s.Area(f.ink, ring...)
	}
	line := draw.Edge
	if len(p.segs) > 600 {
		line = draw.Narrow
	}
	paint(s, p.segs, at, line, draw.NoLine)
	owners := p.scene.onWall()
	if len(owners) < 2 {
		return
	}
	s.Layer = "Marks"
	var names []tab
	for _, o := range owners {
		if o.Kind == "filler" || o.Kind == "base" || o.Standing {
			continue
		}
		a := at(p.view.Project(o.Box.Min)) // its face, from corner to corner
		b := at(p.view.Project(o.Box.Max.With(1, o.Box.Min.Y)))
		r := draw.Rect{X: min(a.X, b.X), Y: min(a.Y, b.Y), W: math.Abs(a.X - b.X), H: math.Abs(a.Y - b.Y)}
		names = append(names, tab{Code(p.scene.Assembly, o.ID), r, r.Mid(), link(o.ID)})
	}
	tabs(s, took, nil, names)
}

// face is a visible face of a box in a picture.
type shadedFace struct {
	ring []hidden.Point
	ink  draw.Ink
}

// shaded gives the faces of solids that look at the eye, those behind first: white from the
// front, in shade from the side, between the two from above.
func shaded(v hidden.View, solids []hidden.Solid) []shadedFace {
	type block struct {
		b      Box
		lo, hi hidden.Point
	}
	var list []block
	for _, so := range solids {
		for _, b := range so.Boxes {
			x := block{b: b.Shift(so.Shift)}
			x.lo, x.hi = hull(v, x.b)
			list = append(list, x)
		}
	}
	// a stands behind b when a plane across an axis parts them and the eye is on b's side
	behind := func(a, b *block) bool {
		for axis := range 3 {
			switch {
			case v.To[axis] > 0 && a.b.Max.At(axis) <= b.b.Min.At(axis), v.To[axis] < 0 && a.b.Min.At(axis) >= b.b.Max.At(axis):
				return true
			}
		}
		return false
	}
	meets := func(a, b *block) bool {
		return a.lo.X < b.hi.X && b.lo.X < a.hi.X && a.lo.Y < b.hi.Y && b.lo.Y < a.hi.Y
	}
	var out []shadedFace
	done := make([]bool, len(list))
	var put func(i int)
	put = func(i int) {
		if done[i] {
			return
		}
		done[i] = true
		b := &list[i]
		for k := range list { // all that b may cover comes before it
			if a := &list[k]; !done[k] && meets(a, b) && behind(a, b) && !behind(b, a) {
				put(k)
			}
		}
		out = append(out, visible(v, b.b)...)
	}
	for i := range list {
		put(i)
	}
	return out
}

func hull(v hidden.View, b Box) (lo, hi hidden.Point) {
	for k := range 8 {
		q := v.Project(corner(b, k))
		if k == 0 {
			lo, hi = q, q
		}
		lo = hidden.Point{X: min(lo.X, q.X), Y: min(lo.Y, q.Y)}
		hi = hidden.Point{X: max(hi.X, q.X), Y: max(hi.Y, q.Y)}
	}
	return lo, hi
}

// corner gives a corner of a box: bit by bit of k along the axes, far where set.
func corner(b Box, k int) geom.Vec {
	q := b.Min
	for axis := range 3 {
		if k>>axis&1 == 1 {
			q = q.With(axis, b.Max.At(axis))
		}
	}
	return q
}

// visible gives the faces of a box that look at the eye.
func visible(v hidden.View, b Box) []shadedFace {
	var out []shadedFace
	for axis, ink := range [3]draw.Ink{draw.Shade, draw.White, draw.Tint} {
		if v.To[axis] == 0 {
			continue
		}
		side := 0
		if v.To[axis] > 0 {
			side = 1 << axis
		}
		j, k := 1<<((axis+1)%3), 1<<((axis+2)%3)
		f := shadedFace{ink: ink}
		for _, bits := range []int{0, j, j | k, k} {
			f.ring = append(f.ring, v.Project(corner(b, side|bits)))
		}
		out = append(out, f)
	}
	return out
}
