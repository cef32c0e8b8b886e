package carcass

import (
	"cmp"
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/part"
)

// handleRoom is left from a handle's screw to what hangs on the inside of the door, for a
// screwdriver and a finger; common practice, no source.
const handleRoom = 12 * mm

// covered reports whether something that hangs on a leaf lies over the far side of a hole of a
// diameter through it, u up and v from the hinged edge; all says that the whole of each rack
// counts, not its boards alone.
func (b *build) covered(l *leaf, u, v, dia L, all bool) bool {
	at := l.spot(u, v)
	r := dia/2 + handleRoom
	over := func(x geom.Box) bool {
		return x.Min.X < at.X+r && x.Max.X > at.X-r && x.Min.Z < at.Z+r && x.Max.Z > at.Z-r
	}
	for _, n := range l.racks {
		if over(b.part(n).Box()) {
			return true
		}
	}
	for _, x := range l.hung {
		if all && over(x) {
			return true
		}
	}
	return false
}

// handles bores for the handles of a pair of leaves or of one, at the edge away from the hinge:
// at one height on both, low on wall cases and high on others, as near there as what hangs on the
// inside leaves free.
func (b *build) handles(leaves []leaf, id string) {
	if id == "" || id == "none" {
		return
	}
	hw, ok := b.env.Catalogue.Item(id)
	if !ok {
		b.say(NoHardware, finding.Warning, leaves[0].part, fmt.Sprintf("the handle %q is not known", id), "name a handle of the catalogue")
		return
	}
	dia := L(5 * mm)
	if hw.Clearance > 0 {
		dia = hw.Clearance
	}
	tool, d, okb := b.shop.Pilot(dia)
	if !okb {
		b.say(joinery.NoBit, finding.Warning, "", "no "+tool+" for handles is owned", "add it to the practice's bits")
	}
	set := func(group []*leaf) bool {
		l := group[0]
		h := l.high()
		pitch := L(0)
		if hw.Length > 0 && h > 2*hw.Length+80*mm {
			pitch = hw.Length
		}
		// the screw nearer to the middle of the door's height comes first where the usual place is
		u, step := h-100*mm, -10*mm
		if b.wall {
			u, step, pitch = 100*mm, 10*mm, -pitch
		}
		if h < 220*mm {
			u, step, pitch = h/2, 10*mm, 0
		}
		for _, all := range []bool{true, false} {
			for _, off := range []L{40 * mm, 30 * mm, 24 * mm} {
				v := l.wide() - off
				if v < 20*mm {
					v = l.wide() / 2
				}
				for k := L(0); k < h/(10*mm); k++ {
					at := []L{u + k*step}
					if pitch != 0 {
						at = append(at, at[0]-pitch)
					}
					if min(at[0], at[len(at)-1]) < 40*mm || max(at[0], at[len(at)-1]) > h-40*mm {
						if k > 0 || len(group[0].racks) > 0 {
							continue
						}
					}
					free := true
					for _, x := range group {
						for _, z := range at {
							free = free && !b.covered(x, z, v, d, all)
						}
					}
					if !free {
						continue
					}
					for _, x := range group {
						p := b.part(x.part)
						for _, z := range at {
							p.Bore(part.Hole, p.Facing(geom.Front), x.spot(z, v), d, p.Size[2], tool, "handle")
						}
					}
					return true
				}
			}
		}
		return false
	}
	var both []*leaf
	for i := range leaves {
		b.item(part.Item{ID: id, Kind: "handle", Count: 1, For: "doors"})
		both = append(both, &leaves[i])
	}
	if set(both) {
		return
	}
	for _, l := range both {
		if !set([]*leaf{l}) {
			b.say(HandlePlace, finding.Error, l.path, fmt.Sprintf("a leaf of %s by %s has no place for a handle clear of what hangs on its inside", b.text(l.wide()), b.text(l.high())), "make the rack narrower or lower, or choose another handle")
		}
	}
}

// lock bores for a cam lock at the edge away from the hinge, above a floor case's handle and
// below a wall case's.
func (b *build) lock(l *leaf) {
	id := cmp.Or(b.env.Practice.Lock, "lock")
	hw, _ := b.env.Catalogue.Item(id)
	b.item(part.Item{ID: id, Kind: "lock", Count: 1, For: "doors"})
	dia := cmp.Or(hw.Dia, lockDia)
	tool, ok := b.shop.Bit(dia)
	if !ok {
		b.say(joinery.NoBit, finding.Warning, "", "no "+tool+" for locks is owned", "add it to the practice's bits or hole saws")
	}
	p := b.part(l.part)
	f := p.Facing(geom.Front)
	h, v := l.high(), max(l.wide()-32*mm, l.wide()/2)
	tries := []L{h - 45*mm, 45 * mm, h / 2, h / 3}
	if b.wall {
		tries[0], tries[1] = tries[1], tries[0]
	}
	for _, u := range tries {
		x, y := p.OnFace(f, l.spot(u, v))
		if u > dia && u < h-dia && v > dia/2+4*mm && v < l.wide()-dia/2-4*mm && clear(p, x, y, dia, 4*mm) && !b.covered(l, u, v, dia, false) {
			p.Bore(part.Hole, f, l.spot(u, v), dia, p.Size[2], tool, "lock")
			return
		}
	}
	b.say(LockPlace, finding.Error, l.path, fmt.Sprintf("a leaf of %s by %s has no place for a lock clear of its handle", b.text(l.wide()), b.text(h)), "make it larger, or choose another handle")
}
