package carcass

import (
	"stowright/internal/geom"
	"stowright/internal/part"
)

// Room for the driver of a pocket screw: along the board from its end, and over it; common
// practice, no source.
const (
	pocketDriver = 150 * mm
	pocketOver   = 45 * mm
)

// turnPockets moves the pockets at an end of a partition to its other face where a fixed shelf on
// this side would be in the driver's way and nothing is on the other.
func (b *build) turnPockets() {
	for i := range b.a.Parts {
		p := &b.a.Parts[i]
		if p.Role != part.Partition {
			continue
		}
		for _, end := range []part.Face{part.Start, part.End, part.Near, part.Far} {
			for _, f := range []part.Face{part.Upper, part.Lower} {
				if b.pocketsShut(p, f, end, f) && !b.pocketsShut(p, f, end, part.Upper+part.Lower-f) {
					for k, o := range p.Ops {
						if o.Kind == part.Pocket && o.Face == f && o.Towards == end {
							p.Ops[k].Face = part.Upper + part.Lower - f
						}
					}
				}
			}
		}
	}
}

// pocketsShut reports whether something fixed is in the way of the screws of a board's pockets of
// one face to one end, were they in the face on; or whether the wood there is worked already.
func (b *build) pocketsShut(p *part.Part, f, end, on part.Face) bool {
	for _, o := range p.Ops {
		if o.Kind != part.Pocket || o.Face != f || o.Towards != end {
			continue
		}
		at := p.Pose.Point(on.Point(o.X, o.Y, p.Size))
		way, up := p.Pose.Dir(end.Normal()).Not(), p.Pose.Dir(on.Normal())
		near := at.Add(way.Vec(9 * mm)) // clear of the board that it is screwed to
		room := geom.Box{Min: near, Max: near}.Grow(8 * mm)
		far := at.Add(way.Vec(pocketDriver)).Add(up.Vec(pocketOver))
		for k := range 3 {
			room.Min, room.Max = room.Min.With(k, min(room.Min.At(k), far.At(k))), room.Max.With(k, max(room.Max.At(k), far.At(k)))
		}
		for _, q := range b.a.Parts {
			if q.Role == part.FixedShelf && q.Moves == "" && !q.Removable && q.Box().Meets(room) {
				return true
			}
		}
		if on == f {
			continue
		}
		for _, x := range p.Ops {
			if x.Face == on && x.Kind != part.Pocket && (x.X-o.X).Abs() < 60*mm && (x.Y-o.Y).Abs() < 20*mm {
				return true
			}
		}
	}
	return false
}
