package carcass

import (
	"cmp"
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/part"
)

// handle bores for a handle at the edge away from the hinge.
func (b *build) handle(l *leaf, id string) {
	if id == "" || id == "none" {
		return
	}
	hw, ok := b.env.Catalogue.Item(id)
	if !ok {
		b.say(NoHardware, finding.Warning, l.part, fmt.Sprintf("the handle %q is not known", id), "name a handle of the catalogue")
		return
	}
	b.item(part.Item{ID: id, Kind: "handle", Count: 1, For: "doors"})
	p := b.part(l.part)
	dia := L(5 * mm)
	if hw.Clearance > 0 {
		dia = hw.Clearance
	}
	tool, d, okb := b.shop.Pilot(dia)
	if !okb {
		b.say(joinery.NoBit, finding.Warning, "", "no "+tool+" for handles is owned", "add it to the practice's bits")
	}
	h, v := l.high(), l.wide()-40*mm
	u := h - 100*mm
	if b.wall {
		u = 100 * mm
	}
	pitch := hw.Length
	spots := []L{u}
	if pitch > 0 && h > 2*pitch+80*mm {
		spots = []L{u, u - pitch}
		if b.wall {
			spots = []L{u, u + pitch}
		}
	}
	if h < 220*mm {
		spots = []L{h / 2}
	}
	if v < 20*mm {
		v = l.wide() / 2
	}
	for _, u := range spots {
		p.Bore(part.Hole, p.Facing(geom.Front), l.spot(u, v), d, p.Size[2], tool, "handle")
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
		if u > dia && u < h-dia && v > dia/2+4*mm && v < l.wide()-dia/2-4*mm && clear(p, x, y, dia, 4*mm) {
			p.Bore(part.Hole, f, l.spot(u, v), dia, p.Size[2], tool, "lock")
			return
		}
	}
	b.say(LockPlace, finding.Error, l.path, fmt.Sprintf("a leaf of %s by %s has no place for a lock clear of its handle", b.text(l.wide()), b.text(h)), "make it larger, or choose another handle")
}
