package carcass

import (
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/part"
)

// The lock of a pair of doors holds the other leaf by its cam, which turns behind that leaf: through whatever
// stands behind the place where the two meet.

// Common practice, no source.
const (
	camDeep = 15 * mm // behind the front edges, with its screw
	camHalf = 12 * mm // half of its width, with play
)

// cam is where the cam of a lock turns.
type cam struct {
	path string
	room geom.Box
}

// camRoom records where the cam of leaf l's lock turns behind the other leaf: from upright, towards the middle of
// its leaf, to level. It gives how far the cam reaches, 0 where no lock was bored for.
func (b *build) camRoom(l, other *leaf) (reach L) {
	p := b.part(l.part)
	for _, o := range p.Ops {
		if o.For != part.Lock {
			continue
		}
		at := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size))
		reach = part.CamReach(at, b.part(other.part).Box())
		r := geom.B(at.X-camHalf, 0, at.Z-camHalf, at.X+camHalf, camDeep, at.Z+camHalf)
		if part.CamUp(at, p.Box()) {
			r.Max.Z = at.Z + reach
		} else {
			r.Min.Z = at.Z - reach
		}
		if l.hinge == geom.Right {
			r.Min.X = at.X - reach
		} else {
			r.Max.X = at.X + reach
		}
		b.cams = append(b.cams, cam{l.path, r})
	}
	return reach
}

// camNotches lets cams turn: what stands or is fixed behind the middle of a pair of doors is notched.
func (b *build) camNotches() {
	for _, c := range b.cams {
		for i := range b.a.Parts {
			p := &b.a.Parts[i]
			if (p.Moves != "" && p.Role != part.Door || p.Role == part.Shelf) && p.Box().Meets(c.room) {
				b.say(LockPlace, finding.Error, c.path, fmt.Sprintf("the lock's cam turns where the %s is when the doors are shut", p.Name), "set it back by "+b.text(camDeep)+", elsewhere in height, or one door instead of two")
				continue
			}
			if p.Role != part.Partition && p.Role != part.FixedShelf || p.Box().And(c.room).Empty() {
				continue
			}
			face := p.Facing(geom.Right)
			if p.Role == part.FixedShelf {
				face = p.Facing(geom.Up)
			}
			q := *p
			q.Recess(part.Notch, face, c.room, joinery.HandSaw, "cam of the lock")
			if o := q.Ops[len(q.Ops)-1]; !p.Clear(o, 2*mm) {
				b.say(LockPlace, finding.Error, c.path, fmt.Sprintf("the lock's cam turns where the %s is, and what is worked there leaves no room for a notch", p.Name), "no lock, one door instead of two, or the board elsewhere than behind the middle")
				continue
			}
			*p = q
		}
	}
}
