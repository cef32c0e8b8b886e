package carcass

import (
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/fitting"
	"stowright/internal/geom"
)

// wideOpen gives how far what hangs on a leaf that opens past the side of its case still stands
// before the opening, with air; 0 when it does not. Sines and cosines are rounded to the safe side.
func (b *build) wideOpen(l *leaf, opens int) L {
	x, y := l.box.Min.X+l.over, -b.air
	most := L(0)
	for _, n := range l.racks {
		r := b.part(n).Box()
		near := r.Min.X - x // along the leaf, from its pivot
		if l.hinge == geom.Right {
			near = l.box.Max.X - l.over - r.Max.X
		}
		at := (r.Max.Y-y).MulDiv(cosBeyond(270-opens), 10000) - near.MulDiv(cosBeyond(opens-4), 10000)
		most = max(most, at+openAir)
	}
	return most
}

// racks settles and builds what hangs on one leaf, and gives the deepest.
func (b *build) racks(list []Rack, l *leaf, sp *space, i int, mid L, count int) L {
	box := sp.box
	if count == 2 {
		if i == 0 {
			box.Max.X = mid
		} else {
			box.Min.X = mid
		}
	}
	deepest := L(0)
	z := box.Min.Z // the next rack's
	// Racks with no height of their own share what the others leave.
	type slot struct {
		spec   fitting.Spec
		s      fitting.Space
		claim  fitting.Claim
		up     *L
		height L
	}
	var slots []slot
	fixed, loose := L(0), int64(0)
	for n, r := range list {
		spec, ok := r.Fitting.Value.(fitting.Spec)
		if !ok {
			continue
		}
		side := [...]string{"left", "right"}[i]
		s := fitting.Space{ID: fmt.Sprintf("%s-%s-rack-%d", sp.path, side, n+1), Box: box, Doors: []fitting.Door{sp.doors[len(sp.doors)-count+i]}, Use: sp.use}
		s.Walls[geom.Front] = fitting.Wall{Part: l.part, Thickness: l.box.Max.Y - l.box.Min.Y}
		if r.Load != nil {
			s.Load = *r.Load
			l.load += *r.Load
		}
		c := spec.Claim(b.env, s)
		slots = append(slots, slot{spec, s, c, r.Up, c.Height})
		if c.Height == 0 {
			loose++
		}
		if fixed += c.Height; n < len(list)-1 {
			fixed += c.Lift
		}
	}
	share := L(0)
	if loose > 0 {
		share = max((box.Max.Z - box.Min.Z - fixed).DivDown(loose), 0)
	}
	for _, t := range slots {
		asked := z
		if t.up != nil {
			asked = box.Min.Z + *t.up
			z = max(asked, z)
		}
		h := t.height
		if h == 0 {
			h = share
		}
		if z+h > box.Max.Z || h <= 0 || t.claim.Width > box.Max.X-box.Min.X || t.claim.Depth > box.Max.Y-60*mm {
			b.say(RackRoom, finding.Error, t.s.ID, fmt.Sprintf("a rack %s high and %s deep does not fit the door: %s of height and %s of depth are left", b.text(h), b.text(t.claim.Depth), b.text(max(box.Max.Z-z, 0)), b.text(box.Max.Y-60*mm)), "make it lower or shallower, or leave one out")
			continue
		}
		if z > asked {
			b.say(RackRaised, finding.Warning, t.s.ID, fmt.Sprintf("the rack asked for %s up is made %s up: so high is what is under it", b.text(asked-box.Min.Z), b.text(z-box.Min.Z)), "list racks from the lowest, each above the one before it")
		}
		t.s.Box.Min.Z, t.s.Box.Max.Z = z, z+h
		r := t.spec.Build(b.env, t.s)
		var whole geom.Box
		for k := range r.Parts {
			whole = whole.Or(r.Parts[k].Box())
			r.Parts[k].Moves = l.motion
			l.racks = append(l.racks, r.Parts[k].Local)
		}
		l.hung = append(l.hung, whole)
		for k := range r.Bays {
			r.Bays[k].Moves, r.Bays[k].Door = l.motion, true
		}
		b.take(r, t.s)
		keep := geom.B(box.Min.X, 0, z, box.Max.X, t.claim.Depth, z+h)
		sp.kept = append(sp.kept, fitting.Keep{Box: keep, Rack: t.s.ID})
		deepest = max(deepest, t.claim.Depth)
		z += h + t.claim.Lift
	}
	return deepest
}
