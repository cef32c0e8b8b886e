package part

import "stowright/internal/geom"

// Normal gives the direction, in the part's own frame, in which a face looks: Right is +u,
// Back +v, Up +w.
func (f Face) Normal() geom.Dir {
	return [...]geom.Dir{Upper: geom.Up, Lower: geom.Down, Start: geom.Left, End: geom.Right, Near: geom.Front, Far: geom.Back}[f]
}

// Not gives the opposite face.
func (f Face) Not() Face { return f ^ 1 }

// Point gives the point (x, y) of a face in the frame of a part of the given size.
func (f Face) Point(x, y L, size [3]L) Vec {
	switch f {
	case Upper:
		return geom.V(x, y, size[2])
	case Lower:
		return geom.V(x, y, 0)
	case Start:
		return geom.V(0, x, y)
	case End:
		return geom.V(size[0], x, y)
	case Near:
		return geom.V(x, 0, y)
	}
	return geom.V(x, size[1], y)
}

// Extent gives how far the face reaches along its two coordinates, and how thick the part is
// behind it.
func (f Face) Extent(size [3]L) (x, y, depth L) {
	switch f {
	case Upper, Lower:
		return size[0], size[1], size[2]
	case Start, End:
		return size[1], size[2], size[0]
	}
	return size[0], size[2], size[1]
}

// Facing gives the face of a part that looks in direction d of the frame it is posed in.
func (p Part) Facing(d geom.Dir) Face {
	for f := Upper; f <= Far; f++ {
		if p.Pose.Dir(f.Normal()) == d {
			return f
		}
	}
	panic("part: a pose that covers no direction")
}

// Through reports whether a working goes right through a board of a size.
func (o Op) Through(size [3]L) bool {
	if o.Kind == Notch || o.Kind == Cutout {
		return true
	}
	_, _, deep := o.Face.Extent(size)
	return o.Depth >= deep
}

// First is the face of a board that its drawing shows first, with all that goes right through: the one with more work.
func (p Part) First() Face {
	up, low := 0, 0
	for _, o := range p.Ops {
		switch {
		case o.Through(p.Size):
		case o.Face == Upper:
			up++
		case o.Face == Lower:
			low++
		}
	}
	if low > up {
		return Lower
	}
	return Upper
}

// OnFace gives the coordinates on face f of the point of that face nearest to q, which is in
// the frame the part is posed in.
func (p Part) OnFace(f Face, q Vec) (x, y L) {
	l := p.Pose.Local(q)
	switch f {
	case Upper, Lower:
		return l.X, l.Y
	case Start, End:
		return l.Y, l.Z
	}
	return l.X, l.Z
}

// Removed gives the space, in the part's own frame, that a straight working takes out.
func (o Op) Removed(size [3]L) Box {
	a := o.Face.Point(o.X, o.Y, size)
	c := o.Face.Point(o.X+o.L, o.Y+o.W, size).Add(o.Face.Normal().Not().Vec(o.Depth))
	return Box{
		Min: geom.V(min(a.X, c.X), min(a.Y, c.Y), min(a.Z, c.Z)),
		Max: geom.V(max(a.X, c.X), max(a.Y, c.Y), max(a.Z, c.Z)),
	}
}

// Recess adds to the part the straight working of face f that takes out what box b, in the
// frame the part is posed in, has in common with the part. Nothing is added when they have
// nothing in common.
func (p *Part) Recess(k OpKind, f Face, b Box, tool, use string) {
	b = b.And(p.Box())
	if b.Empty() {
		return
	}
	q, r := p.Pose.Local(b.Min), p.Pose.Local(b.Max)
	lo := geom.V(min(q.X, r.X), min(q.Y, r.Y), min(q.Z, r.Z))
	hi := geom.V(max(q.X, r.X), max(q.Y, r.Y), max(q.Z, r.Z))
	o := Op{Kind: k, Face: f, Tool: tool, For: use}
	d := hi.Sub(lo)
	switch f {
	case Upper, Lower:
		o.X, o.Y, o.L, o.W = lo.X, lo.Y, d.X, d.Y
	case Start, End:
		o.X, o.Y, o.L, o.W = lo.Y, lo.Z, d.Y, d.Z
	default:
		o.X, o.Y, o.L, o.W = lo.X, lo.Z, d.X, d.Z
	}
	switch f {
	case Upper:
		o.Depth = p.Size[2] - lo.Z
	case Lower:
		o.Depth = hi.Z
	case Start:
		o.Depth = hi.X
	case End:
		o.Depth = p.Size[0] - lo.X
	case Near:
		o.Depth = hi.Y
	default:
		o.Depth = p.Size[1] - lo.Y
	}
	p.Ops = append(p.Ops, o)
}

// Bore adds to the part a round hole in face f at the point of it nearest to q, in the frame
// the part is posed in.
func (p *Part) Bore(k OpKind, f Face, q Vec, dia, depth L, tool, use string) {
	x, y := p.OnFace(f, q)
	p.Ops = append(p.Ops, Op{Kind: k, Face: f, X: x, Y: y, Dia: dia, Depth: depth, Tool: tool, For: use})
}

// New gives a board part laid over box b with its grain along u and its width along v.
func New(local string, role Role, name, stock string, b Box, u, v geom.Dir) Part {
	pose := geom.Around(b, u, v)
	s := b.Size()
	return Part{
		Local: local, Role: role, Name: name, Stock: stock, Pose: pose,
		Size: [3]L{s.At(u.Axis()), s.At(v.Axis()), s.At(pose.W().Axis())},
	}
}

// Solid gives the part less its straight workings as boxes in the frame that it is posed in.
// Bevels, tapers and round workings are left in.
func (p Part) Solid() []Box {
	left := []Box{geom.B(0, 0, 0, p.Size[0], p.Size[1], p.Size[2])}
	for _, o := range p.Ops {
		switch o.Kind {
		case Groove, Rabbet, Notch, Cutout, Slot:
			gone := o.Removed(p.Size)
			var next []Box
			for _, b := range left {
				next = append(next, b.Less(gone)...)
			}
			left = next
		}
	}
	for i := range left {
		left[i] = p.Pose.Box(left[i])
	}
	return left
}
