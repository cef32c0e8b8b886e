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
// this side would be in the driver's way and nothing is on the other; and those of a fixed shelf where
// slots for dividers are in its underside, and none above.
func (b *build) turnPockets() {
	for i := range b.a.Parts {
		p := &b.a.Parts[i]
		if p.Role != part.Partition && p.Role != part.FixedShelf {
			continue
		}
		for _, end := range []part.Face{part.Start, part.End, part.Near, part.Far} {
			for _, f := range []part.Face{part.Upper, part.Lower} {
				shut := b.pocketsShut
				if p.Role == part.FixedShelf {
					shut = b.pocketsCut
				}
				if shut(p, f, end, f) && !shut(p, f, end, part.Upper+part.Lower-f) {
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

// pocketReach is how far a pocket reaches into the board from its mouth, with room to clamp the jig; common practice, no source.
const pocketReach = 70 * mm

// pocketsCut reports whether grooves in the face on would be met by a board's pockets of one face to one end.
func (b *build) pocketsCut(p *part.Part, f, end, on part.Face) bool {
	for _, o := range p.Ops {
		if o.Kind != part.Pocket || o.Face != f || o.Towards != end {
			continue
		}
		n := end.Normal().Not().Vec(pocketReach)
		lo, hi := geom.V(o.X-10*mm, o.Y-10*mm, 0), geom.V(o.X+10*mm, o.Y+10*mm, 0)
		lo, hi = geom.V(lo.X+min(n.X, 0), lo.Y+min(n.Y, 0), 0), geom.V(hi.X+max(n.X, 0), hi.Y+max(n.Y, 0), 0)
		for _, x := range p.Ops {
			if x.Face == on && x.Kind == part.Groove && x.X < hi.X && x.X+x.L > lo.X && x.Y < hi.Y && x.Y+x.W > lo.Y {
				return true
			}
		}
	}
	return false
}
