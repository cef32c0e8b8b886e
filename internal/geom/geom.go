// Package geom places boxes in space with whole numbers: points, boxes, and the
// twenty-four ways to lay a rectangular board along the axes. It knows nothing of
// boards; bevels and holes are the business of package part.
//
// Every frame is right-handed: x to the right along the wall as seen from the room,
// y towards the wall (in a case: from front to back), z up.
package geom

import "stowright/internal/length"

// L is short for a length inside this package's own signatures.
type L = length.Length

// Vec is a point or a displacement.
type Vec struct{ X, Y, Z L }

// V makes a Vec.
func V(x, y, z L) Vec { return Vec{x, y, z} }

// Add gives a+b.
func (a Vec) Add(b Vec) Vec { return Vec{a.X + b.X, a.Y + b.Y, a.Z + b.Z} }

// Sub gives a-b.
func (a Vec) Sub(b Vec) Vec { return Vec{a.X - b.X, a.Y - b.Y, a.Z - b.Z} }

// At gives the coordinate along axis i: 0 x, 1 y, 2 z.
func (a Vec) At(i int) L {
	switch i {
	case 0:
		return a.X
	case 1:
		return a.Y
	}
	return a.Z
}

// With gives a with the coordinate along axis i set to v.
func (a Vec) With(i int, v L) Vec {
	switch i {
	case 0:
		a.X = v
	case 1:
		a.Y = v
	default:
		a.Z = v
	}
	return a
}

// Box is the closed box between two corners, Min at most Max on every axis.
type Box struct{ Min, Max Vec }

// B makes the box that spans from x0 to x1, y0 to y1, z0 to z1.
func B(x0, y0, z0, x1, y1, z1 L) Box { return Box{Vec{x0, y0, z0}, Vec{x1, y1, z1}} }

// Size gives the extents.
func (b Box) Size() Vec { return b.Max.Sub(b.Min) }

// Empty reports whether the box encloses no space.
func (b Box) Empty() bool {
	return b.Max.X <= b.Min.X || b.Max.Y <= b.Min.Y || b.Max.Z <= b.Min.Z
}

// Shift gives the box moved by d.
func (b Box) Shift(d Vec) Box { return Box{b.Min.Add(d), b.Max.Add(d)} }

// Grow gives the box made larger by m on every side; a negative m shrinks it.
func (b Box) Grow(m L) Box {
	d := Vec{m, m, m}
	return Box{b.Min.Sub(d), b.Max.Add(d)}
}

// And gives the box common to both, which may be Empty.
func (b Box) And(c Box) Box {
	return Box{
		Vec{max(b.Min.X, c.Min.X), max(b.Min.Y, c.Min.Y), max(b.Min.Z, c.Min.Z)},
		Vec{min(b.Max.X, c.Max.X), min(b.Max.Y, c.Max.Y), min(b.Max.Z, c.Max.Z)},
	}
}

// Or gives the smallest box around both. An empty box adds nothing.
func (b Box) Or(c Box) Box {
	if b.Empty() {
		return c
	}
	if c.Empty() {
		return b
	}
	return Box{
		Vec{min(b.Min.X, c.Min.X), min(b.Min.Y, c.Min.Y), min(b.Min.Z, c.Min.Z)},
		Vec{max(b.Max.X, c.Max.X), max(b.Max.Y, c.Max.Y), max(b.Max.Z, c.Max.Z)},
	}
}

// Meets reports whether the boxes share space, not merely a face.
func (b Box) Meets(c Box) bool { return !b.And(c).Empty() }

// Less gives what is left of b without c, as boxes that do not overlap.
func (b Box) Less(c Box) []Box {
	c = b.And(c)
	if c.Empty() {
		return []Box{b}
	}
	var left []Box
	for i := range 3 {
		if b.Min.At(i) < c.Min.At(i) {
			left = append(left, Box{b.Min, b.Max.With(i, c.Min.At(i))})
		}
		if c.Max.At(i) < b.Max.At(i) {
			left = append(left, Box{b.Min.With(i, c.Max.At(i)), b.Max})
		}
		b.Min, b.Max = b.Min.With(i, c.Min.At(i)), b.Max.With(i, c.Max.At(i))
	}
	return left
}

// Has reports whether c lies in b, faces included.
func (b Box) Has(c Box) bool {
	return b.Min.X <= c.Min.X && b.Min.Y <= c.Min.Y && b.Min.Z <= c.Min.Z &&
		b.Max.X >= c.Max.X && b.Max.Y >= c.Max.Y && b.Max.Z >= c.Max.Z
}

// Dir is one of the six directions along the axes.
type Dir uint8

// The six directions, named as somebody in front of the case sees them.
const (
	Right Dir = iota // +x
	Left             // -x
	Back             // +y, towards the wall
	Front            // -y, into the room
	Up               // +z
	Down             // -z
)

var dirNames = [...]string{"right", "left", "back", "front", "up", "down"}

func (d Dir) String() string { return dirNames[d] }

// Axis gives 0, 1 or 2 for x, y or z.
func (d Dir) Axis() int { return int(d) / 2 }

// Sign gives +1 or -1.
func (d Dir) Sign() L { return 1 - 2*L(d&1) }

// Not gives the opposite direction.
func (d Dir) Not() Dir { return d ^ 1 }

// Vec gives the step of length l in direction d.
func (d Dir) Vec(l L) Vec { return Vec{}.With(d.Axis(), d.Sign()*l) }

// Pose lays a local frame (u, v, w) into another frame: local (u,v,w) goes to
// Origin + u·U + v·V + w·W, where W follows from U and V by the right hand.
type Pose struct {
	Origin Vec
	U, V   Dir
}

// W gives the direction of the local third axis, U × V.
func (p Pose) W() Dir {
	a, b := p.U.Axis(), p.V.Axis()
	if a == b {
		panic("geom: a pose needs two different axes")
	}
	s := p.U.Sign() * p.V.Sign()
	if (a+1)%3 != b {
		s = -s
	}
	d := Dir(2 * (3 - a - b))
	if s < 0 {
		d = d.Not()
	}
	return d
}

// Point maps a local point.
func (p Pose) Point(q Vec) Vec {
	return p.Origin.Add(p.U.Vec(q.X)).Add(p.V.Vec(q.Y)).Add(p.W().Vec(q.Z))
}

// Box maps a local box.
func (p Pose) Box(b Box) Box {
	c, d := p.Point(b.Min), p.Point(b.Max)
	return Box{
		Vec{min(c.X, d.X), min(c.Y, d.Y), min(c.Z, d.Z)},
		Vec{max(c.X, d.X), max(c.Y, d.Y), max(c.Z, d.Z)},
	}
}

// Dir maps a local direction (Right = +u, Back = +v, Up = +w and their opposites).
func (p Pose) Dir(d Dir) Dir {
	axes := [3]Dir{p.U, p.V, p.W()}
	r := axes[d.Axis()]
	if d.Sign() < 0 {
		r = r.Not()
	}
	return r
}

// Local maps a point of the outer frame back.
func (p Pose) Local(q Vec) Vec {
	q = q.Sub(p.Origin)
	along := func(d Dir) L { return q.At(d.Axis()) * d.Sign() }
	return Vec{along(p.U), along(p.V), along(p.W())}
}

// Face gives where along the axis of a direction the side of the box lies that looks that way.
func (b Box) Face(d Dir) L {
	if d.Sign() < 0 {
		return b.Min.At(d.Axis())
	}
	return b.Max.At(d.Axis())
}

// Shift gives the pose moved by d in the outer frame.
func (p Pose) Shift(d Vec) Pose { p.Origin = p.Origin.Add(d); return p }

// Around gives the pose that lays a local box of the given extents exactly over b.
// The extents along U, V, W must agree with b; the caller sees to that.
func Around(b Box, u, v Dir) Pose {
	p := Pose{U: u, V: v}
	for _, d := range [3]Dir{u, v, p.W()} {
		p.Origin = p.Origin.With(d.Axis(), b.Face(d.Not()))
	}
	return p
}
