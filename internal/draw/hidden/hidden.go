// Package hidden projects solids and tells which of their edges can be seen. Solids are
// unions of upright boxes (a grooved board is a box with boxes cut away) and may carry
// curves, such as the rims of holes. The method is exact: the part of an edge that a box
// covers is solved for, not sampled.
//
// Points are in the frame of package geom; pictures are in real millimetres, x to the
// right and y up, before any drawing scale.
package hidden

import (
	"math"
	"slices"

	"stowright/internal/geom"
	"stowright/internal/length"
)

// View is a parallel projection. Right and Up give the picture's coordinates of a point as
// dot products; To points from the model to the eye, and both are zero along it.
type View struct{ Right, Up, To [3]float64 }

// Isometric looks from the front, above and the right (from the left when left is set), all
// three axes shortened alike (ISO 5456-3).
func Isometric(left bool) View {
	if left {
		return Corner(-1, -1, 1)
	}
	return Corner(1, -1, 1)
}

// Corner is an isometric view from any corner: x is 1 from the right and -1 from the left, y -1 from the
// front and 1 from behind, z 1 from above and -1 from below.
func Corner(x, y, z float64) View {
	r2, r6 := math.Sqrt(2), math.Sqrt(6)
	return View{Right: [3]float64{-y / r2, x / r2, 0}, Up: [3]float64{-z * x / r6, -z * y / r6, 2 / r6}, To: [3]float64{x, y, z}}
}

// Cabinet shows the front true and depth at half scale, going up to the right at 45° (up to
// the left when left is set): the cabinet projection of ISO 5456-3.
func Cabinet(left bool) View {
	k := 0.5 / math.Sqrt(2)
	x := k
	if left {
		x = -k
	}
	return View{Right: [3]float64{1, x, 0}, Up: [3]float64{0, k, 1}, To: [3]float64{x, -1, k}}
}

// Front, Top and FromRight are the plain views: an elevation, a plan, an end view.
func Front() View { return View{[3]float64{1, 0, 0}, [3]float64{0, 0, 1}, [3]float64{0, -1, 0}} }
func Top() View   { return View{[3]float64{1, 0, 0}, [3]float64{0, 1, 0}, [3]float64{0, 0, 1}} }
func FromRight() View {
	return View{[3]float64{0, 1, 0}, [3]float64{0, 0, 1}, [3]float64{1, 0, 0}}
}

// Point is a place in the picture in mm.
type Point struct{ X, Y float64 }

// Project gives the picture of a point.
func (v View) Project(p geom.Vec) Point { return v.project(vec(p)) }

func (v View) project(p [3]float64) Point {
	const mm = float64(length.MM)
	return Point{dot(v.Right, p) / mm, dot(v.Up, p) / mm}
}

func dot(a, b [3]float64) float64 {
	return float64(a[0]*b[0]) + float64(a[1]*b[1]) + float64(a[2]*b[2])
}

func vec(p geom.Vec) [3]float64 {
	return [3]float64{float64(p.X), float64(p.Y), float64(p.Z)}
}

// Solid is one part. Seams between its boxes are not edges.
type Solid struct {
	ID     int
	Boxes  []geom.Box
	Curves [][]geom.Vec // lines on its surface; a closed one repeats its first point
	Shift  geom.Vec     // where it is moved to, in an exploded view
}

// Segment is a piece of an edge in the picture.
type Segment struct {
	ID     int
	A, B   Point
	Hidden bool
}

// Lines gives the edges of solids, cut where they disappear. An edge that lies on another
// in the picture is given once: seen before hidden, then in the order of solids, so that a
// part to be drawn heavier comes first. Without hidden, only what is seen.
func Lines(v View, solids []Solid, hidden bool) []Segment {
	scene := newScene(v, solids)
	var out []Segment
	pile := map[line][]span{}
	var later []raw
	emit := func(e raw, hid bool) {
		for _, p := range fresh(pile, v, e) {
			out = append(out, Segment{e.id, v.project(e.at(p.a)), v.project(e.at(p.b)), hid})
		}
	}
	var cuts []span
	for _, e := range scene.edges {
		cuts = scene.covered(e, cuts[:0])
		at := 0.0
		piece := func(a, b float64, hid bool) {
			if (b-a)*e.long < 0.02 {
				return
			}
			p := e
			p.from, p.to = e.at(a), e.at(b)
			p.long = (b - a) * e.long
			if !hid {
				emit(p, false)
			} else if hidden {
				later = append(later, p)
			}
		}
		for _, c := range cuts {
			piece(at, c.a, false)
			piece(max(at, c.a), c.b, true)
			at = max(at, c.b)
		}
		piece(at, 1, false)
	}
	for _, e := range later {
		emit(e, true)
	}
	return out
}

// span is a stretch of a line.
type span struct{ a, b float64 }

// raw is an edge in the model, in ticks; axis is -1 on a curve; long its length in the
// picture in mm.
type raw struct {
	id       int
	axis     int
	from, to [3]float64
	long     float64
}

func (e raw) at(t float64) [3]float64 {
	var p [3]float64
	for k := range p {
		p[k] = e.from[k] + float64(t*(e.to[k]-e.from[k]))
	}
	return p
}

// line names a line of the picture: the axis of the model it runs along and its distance
// from the origin in steps of 1/50 mm.
type line struct {
	axis int
	off  int64
}

// fresh gives the stretches of e that no edge before it covers in the picture, and marks
// them covered.
func fresh(pile map[line][]span, v View, e raw) []span {
	if e.axis < 0 {
		return []span{{0, 1}}
	}
	a, b := v.project(e.from), v.project(e.to)
	dx, dy := v.Right[e.axis], v.Up[e.axis]
	n := math.Sqrt(float64(dx*dx) + float64(dy*dy))
	dx, dy = dx/n, dy/n
	off := float64(a.Y*dx) - float64(a.X*dy)
	// the odd shift keeps whole and half hundredths away from the edge between two steps
	key := line{e.axis, int64(math.Round(off*50 + 0.1237))}
	lo, hi := float64(a.X*dx)+float64(a.Y*dy), float64(b.X*dx)+float64(b.Y*dy)
	todo := []span{{lo, hi}}
	for _, c := range pile[key] {
		var next []span
		for _, t := range todo {
			if c.b <= t.a+0.02 || c.a >= t.b-0.02 {
				next = append(next, t)
				continue
			}
			if c.a > t.a+0.02 {
				next = append(next, span{t.a, c.a})
			}
			if c.b < t.b-0.02 {
				next = append(next, span{c.b, t.b})
			}
		}
		todo = next
	}
	pile[key] = append(pile[key], todo...)
	shares := make([]span, len(todo))
	for i, t := range todo {
		shares[i] = span{(t.a - lo) / (hi - lo), (t.b - lo) / (hi - lo)}
	}
	return shares
}

// box is a box as an obstacle.
type box struct {
	lo, hi   [3]float64
	min, max Point   // its picture
	near     float64 // how far it reaches towards the eye
}

type scene struct {
	v     View
	boxes []box // by min.X
	wide  float64
	edges []raw
}

// skin is how much obstacles are shrunk, in ticks, so that boards that touch do not cover
// each other's edges: 2 ticks are 1/20 µm.
const skin = 2

func newScene(v View, solids []Solid) *scene {
	s := &scene{v: v}
	for _, so := range solids {
		var moved []geom.Box
		for _, b := range so.Boxes {
			b = b.Shift(so.Shift)
			if b.Empty() {
				continue
			}
			moved = append(moved, b)
			o := box{lo: vec(b.Min), hi: vec(b.Max), min: Point{math.Inf(1), math.Inf(1)}, max: Point{math.Inf(-1), math.Inf(-1)}, near: math.Inf(-1)}
			for c := range 8 {
				p := o.lo
				for k := range 3 {
					if c>>k&1 == 1 {
						p[k] = o.hi[k]
					}
				}
				q := v.project(p)
				o.min = Point{min(o.min.X, q.X), min(o.min.Y, q.Y)}
				o.max = Point{max(o.max.X, q.X), max(o.max.Y, q.Y)}
				o.near = max(o.near, dot(v.To, p))
			}
			for k := range 3 {
				if v.To[k] != 0 {
					o.lo[k], o.hi[k] = o.lo[k]+skin, o.hi[k]-skin
				}
			}
			s.wide = max(s.wide, o.max.X-o.min.X)
			s.boxes = append(s.boxes, o)
		}
		for _, e := range edges(moved) {
			s.add(raw{id: so.ID, axis: e.axis, from: vec(e.from), to: vec(e.to)})
		}
		for _, c := range so.Curves {
			for i := 0; i+1 < len(c); i++ {
				s.add(raw{id: so.ID, axis: -1, from: vec(c[i].Add(so.Shift)), to: vec(c[i+1].Add(so.Shift))})
			}
		}
	}
	slices.SortStableFunc(s.boxes, func(a, b box) int {
		switch {
		case a.min.X < b.min.X:
			return -1
		case a.min.X > b.min.X:
			return 1
		}
		return 0
	})
	return s
}

// add keeps edges that are more than a point in the picture.
func (s *scene) add(e raw) {
	a, b := s.v.project(e.from), s.v.project(e.to)
	e.long = math.Hypot(b.X-a.X, b.Y-a.Y)
	if e.long >= 0.02 {
		s.edges = append(s.edges, e)
	}
}

// covered gives the stretches of e that boxes hide, joined and in order, as shares of e.
func (s *scene) covered(e raw, out []span) []span {
	a, b := s.v.project(e.from), s.v.project(e.to)
	lo, hi := Point{min(a.X, b.X), min(a.Y, b.Y)}, Point{max(a.X, b.X), max(a.Y, b.Y)}
	far := min(dot(s.v.To, e.from), dot(s.v.To, e.to))
	first, _ := slices.BinarySearchFunc(s.boxes, lo.X-s.wide-1, func(o box, x float64) int {
		if o.min.X < x {
			return -1
		}
		return 1
	})
	for i := first; i < len(s.boxes); i++ {
		o := &s.boxes[i]
		if o.min.X > hi.X {
			break
		}
		if o.max.X < lo.X || o.max.Y < lo.Y || o.min.Y > hi.Y || o.near <= far {
			continue
		}
		if c, ok := cover(e, o, s.v.To); ok {
			out = append(out, c)
		}
	}
	slices.SortFunc(out, func(a, b span) int {
		switch {
		case a.a < b.a:
			return -1
		case a.a > b.a:
			return 1
		}
		return 0
	})
	// gaps between boxes that touch are as thin as their skins: close them
	join := 0.004 / max(e.long, 0.02)
	n := 0
	for _, c := range out {
		if n > 0 && c.a <= out[n-1].b+join {
			out[n-1].b = max(out[n-1].b, c.b)
			continue
		}
		out[n] = c
		n++
	}
	return out[:n]
}

// cover solves for the stretch of e from which a step of some s > 0 towards the eye ends
// inside the box. For each axis lo < p + t·d + s·w < hi bounds s from both sides by lines
// in t; there is such an s where every lower bound is under every upper one
// (Fourier-Motzkin elimination of s), which is a range of t.
func cover(e raw, o *box, w [3]float64) (span, bool) {
	t := span{0, 1}
	// below keeps the t for which c + k·t < 0
	below := func(c, k float64) bool {
		switch {
		case k > 0:
			t.b = min(t.b, -c/k)
		case k < 0:
			t.a = max(t.a, -c/k)
		default:
			return c < 0
		}
		return t.a < t.b
	}
	type bound struct{ c, k float64 }
	lows, highs := [4]bound{{0, 0}}, [3]bound{}
	nl, nh := 1, 0
	for k := range 3 {
		p, d := e.from[k], e.to[k]-e.from[k]
		if w[k] == 0 {
			// The eye looks along this face: touching counts as covered, for then the edge
			// lies on one of the box's own in the picture or on a seam within a solid.
			const touch = 0.5
			if !below(o.lo[k]-touch-p, -d) || !below(p-o.hi[k]-touch, d) {
				return t, false
			}
			continue
		}
		l, h := bound{(o.lo[k] - p) / w[k], -d / w[k]}, bound{(o.hi[k] - p) / w[k], -d / w[k]}
		if w[k] < 0 {
			l, h = h, l
		}
		lows[nl], highs[nh] = l, h
		nl, nh = nl+1, nh+1
	}
	for _, h := range highs[:nh] {
		for _, l := range lows[:nl] {
			if !below(l.c-h.c, l.k-h.k) {
				return t, false
			}
		}
	}
	return t, true
}
