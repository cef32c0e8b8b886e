package joinery

import (
	"stowright/internal/geom"
	"stowright/internal/part"
)

// A fastener is moved by no more than settleReach, and no nearer to the edge of its board than
// settleEdge.
const (
	settleReach = 80 * mm
	settleEdge  = 6 * mm
	pilotPast   = 2 * mm // a pilot goes past its screw's point by so much
)

// Settle moves fasteners of joints off what was worked in their boards after them: along the joint,
// both boards' holes together, as little as is enough. One that has no place near stays where it is.
func Settle(parts []part.Part) {
	for i := range parts {
		p := &parts[i]
		for k := range p.Ops {
			o := p.Ops[k]
			if !fastens(o) || alone(p, k, o, part.Web) {
				continue
			}
			run := p.Pose.Dir(along(o))
			mates := matesOf(parts, i, o)
			placed := false
		search:
			for _, web := range []L{part.Web, mm} { // with less where a narrow strip has no more
				if alone(p, k, o, web) {
					placed = true
					break
				}
				for off := aside; off <= settleReach; off += aside {
					for _, d := range []L{off, -off} {
						if settle(parts, i, k, mates, run.Vec(d), web) {
							placed = true
							break search
						}
					}
				}
			}
			if !placed && o.Kind == part.Hole && o.Depth > 4*pilotPast {
				p.Ops[k].Depth -= pilotPast // no deeper than the screw's point
			}
		}
	}
}

// fastens reports whether a working is for a screw or dowel at the end or edge of its board.
func fastens(o part.Op) bool {
	if o.Kind == part.Pocket {
		return true
	}
	switch part.JointKind(o.For) {
	case part.Dowel, part.WoodScrew, part.ConnectingScrew:
		return o.Kind == part.Hole && o.Face > part.Lower
	}
	return false
}

// along is the direction, in the part's frame, of the joint that a fastener belongs to.
func along(o part.Op) geom.Dir {
	end := o.Face
	if o.Kind == part.Pocket {
		end = o.Towards
	}
	if end == part.Start || end == part.End {
		return geom.Back
	}
	return geom.Right
}

// alone reports whether working k of a part, were it as o, is clear of the others.
func alone(p *part.Part, k int, o part.Op, web L) bool {
	for i, q := range p.Ops {
		if i != k && o.Meets(q, p.Size, web) {
			return false
		}
	}
	return true
}

// mate is the hole in the face of another board that a fastener goes through or into.
type mate struct{ part, op int }

// matesOf finds them: they lie on the fastener's line, in a board that touches its end.
func matesOf(parts []part.Part, i int, o part.Op) (list []mate) {
	p := &parts[i]
	if o.Kind == part.Pocket {
		return nil
	}
	at := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size))
	n := p.Pose.Dir(o.Face.Normal()).Axis()
	for k := range parts {
		q := &parts[k]
		if b := q.Box(); k == i || at.At(n) < b.Min.At(n) || at.At(n) > b.Max.At(n) {
			continue
		}
		for m, x := range q.Ops {
			if x.Kind != part.Hole || x.For != o.For || q.Pose.Dir(x.Face.Normal()).Axis() != n {
				continue
			}
			if v := q.Pose.Point(x.Face.Point(x.X, x.Y, q.Size)); v.With(n, at.At(n)) == at {
				list = append(list, mate{k, m})
			}
		}
	}
	return list
}

// settle moves a fastener and its mates by d when all of them are clear there.
func settle(parts []part.Part, i, k int, mates []mate, d geom.Vec, web L) bool {
	moved := func(p *part.Part, o part.Op) (part.Op, bool) {
		o.X, o.Y = p.OnFace(o.Face, p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size)).Add(d))
		x, y, _ := o.Face.Extent(p.Size)
		if o.Kind == part.Pocket {
			switch o.Towards {
			case part.Start, part.End:
				return o, o.Y >= settleEdge && o.Y <= y-settleEdge
			}
			return o, o.X >= settleEdge && o.X <= x-settleEdge
		}
		if o.Face > part.Lower {
			return o, o.X >= settleEdge && o.X <= x-settleEdge
		}
		r := o.Dia/2 + mm
		return o, o.X >= r && o.X <= x-r && o.Y >= r && o.Y <= y-r
	}
	all := append([]mate{{i, k}}, mates...)
	to := make([]part.Op, len(all))
	for n, m := range all {
		p := &parts[m.part]
		o, ok := moved(p, p.Ops[m.op])
		if !ok || !alone(p, m.op, o, web) {
			return false
		}
		to[n] = o
	}
	for n, m := range all {
		parts[m.part].Ops[m.op] = to[n]
	}
	return true
}
