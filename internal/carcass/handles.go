package carcass

import (
	"cmp"
	"fmt"
	"slices"

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

// handHeight is how high over the floor a standing person's hand takes hold; a handle is as near to
// it as its door reaches, handleEnd from its ends. Common practice, no source.
const (
	handHeight = 1050 * mm
	handleEnd  = 100 * mm
	// handleLeast is the least from a handle's screw to the end of its door, lockOver from the outer
	// screw of a handle to the middle of the lock beyond it.
	handleLeast = 40 * mm
	lockOver    = 55 * mm
)

// hand gives the height on a leaf, above its lower edge, of the middle of a handle whose screws are
// so far apart one above the other: at the hand's height, as near to it as the leaf reaches.
func (b *build) hand(l *leaf, pitch L) L {
	h, end := l.high(), handleEnd+pitch/2
	if h < 2*end {
		return h / 2
	}
	if b.wall { // how high it hangs is not the case's to know: it hangs over the hand
		return end
	}
	return min(max(handHeight-b.site.Base-l.box.Min.Z, end), h-end)
}

// handles bores for the handles of a pair of leaves or of one, at the edge away from the hinge:
// at one height on both, as near to the hand's as what hangs on the inside leaves free.
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
		up, beside := hw.Length, L(0) // from screw to screw; level on a leaf too low for an upright one
		if h < up+2*handleLeast {
			up, beside = 0, hw.Length
		}
		if beside > 0 && l.wide() < beside+handleLeast {
			return false
		}
		mid := b.hand(l, up)
		for _, all := range []bool{true, false} {
			for _, off := range []L{40 * mm, 30 * mm, 24 * mm} {
				v := l.wide() - off
				if v < 20*mm+beside {
					v = (l.wide() + beside) / 2
				}
				for k := range L(2 * h / (10 * mm)) {
					c := mid + (1-2*(k%2))*((k+1)/2)*10*mm // to and fro, further each time
					if k > 0 && (c-up/2 < handleLeast || c+up/2 > h-handleLeast) {
						continue
					}
					at := [][2]L{{c - up/2, v - beside}, {c + up/2, v}}
					if hw.Length == 0 {
						at = at[1:]
					}
					if slices.ContainsFunc(group, func(x *leaf) bool {
						return slices.ContainsFunc(at, func(q [2]L) bool { return b.covered(x, q[0], q[1], d, all) })
					}) {
						continue
					}
					for _, x := range group {
						p := b.part(x.part)
						for _, q := range at {
							p.Bore(part.Hole, p.Facing(geom.Front), x.spot(q[0], q[1]), d, p.Size[2], tool, "handle")
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
		for _, x := range b.shop.HandleScrews(max(hw.ScrewsEach, 1), b.part(leaves[i].part).Size[2], part.ForDoorHandles) {
			b.item(x)
		}
		both = append(both, &leaves[i])
	}
	if set(both) {
		return
	}
	for _, l := range both {
		if !set([]*leaf{l}) {
			b.say(HandlePlace, finding.Error, l.path, fmt.Sprintf("a leaf of %s by %s has no place for %s clear of what hangs on its inside", b.text(l.wide()), b.text(l.high()), cmp.Or(hw.Name, id)), "make the rack narrower or lower, or choose another handle, as a knob")
		}
	}
}

// lock bores for a cam lock at the edge away from the hinge, above the handle, or below one that is
// at the foot of its door, so far in from that edge. It gives the middle of the hole; false where it has no place.
func (b *build) lock(l *leaf, in L) (at geom.Vec, ok bool) {
	id := cmp.Or(b.env.Practice.Lock, "lock")
	hw, _ := b.env.Catalogue.Item(id)
	dia := cmp.Or(hw.Dia, lockDia)
	tool, owned := b.shop.Bit(dia)
	if !owned {
		b.say(joinery.NoBit, finding.Warning, "", "no "+tool+" for locks is owned", "add it to the practice's bits or hole saws")
	}
	p := b.part(l.part)
	f := p.Facing(geom.Front)
	h, v := l.high(), max(l.wide()-in, l.wide()/2)
	var held []L // heights of the handle's screws
	for _, o := range p.Ops {
		if o.For == "handle" {
			held = append(held, p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size)).Z-l.box.Min.Z)
		}
	}
	tries := []L{h - 45*mm, 45 * mm, h / 2, h / 3}
	if len(held) > 0 {
		over, under := slices.Max(held)+lockOver, slices.Min(held)-lockOver
		tries = append([]L{over, under}, tries...)
	}
	if b.wall {
		tries[0], tries[1] = tries[1], tries[0]
	}
	for _, u := range tries {
		x, y := p.OnFace(f, l.spot(u, v))
		if u > dia && u < h-dia && v > dia/2+4*mm && v < l.wide()-dia/2-4*mm && clear(p, x, y, dia, 4*mm) && !b.covered(l, u, v, dia, false) {
			at = l.spot(u, v)
			p.Bore(part.Hole, f, at, dia, p.Size[2], tool, part.Lock)
			return at, true
		}
	}
	b.say(LockPlace, finding.Error, l.path, fmt.Sprintf("a leaf of %s by %s has no place for a lock clear of its handle", b.text(l.wide()), b.text(h)), "make it larger, or choose another handle")
	return at, false
}
