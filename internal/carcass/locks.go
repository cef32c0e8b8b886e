package carcass

import (
	"cmp"
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/part"
)

// The lock of a pair of doors holds the other leaf by its cam, which turns behind that leaf: through whatever
// stands behind the place where the two meet. The other leaf has catches inside, which a hand lets go that reaches
// round it once the first is open. Where a board stands in that hand's way each leaf has a lock of its own, whose cam
// turns behind an angle on that board.

// Common practice, no source.
const (
	camDeep  = 15 * mm // behind the front edges, with its screw
	camHalf  = 12 * mm // half of its width, with play
	camMost  = 60 * mm // no cam reaches further
	lockAir  = 5 * mm  // between a lock's case and the angle that its cam turns behind
	handWide = 100 * mm
	handHigh = 120 * mm // a hand on a catch
	handDeep = 60 * mm
	catchOff = part.CatchIn + 30*mm // the far side of a catch, from the edge of its leaf
)

// cam is where the cam of a lock turns.
type cam struct {
	path string
	room geom.Box
}

// locks puts a lock into the leaves before a space, once it is known what stands behind them.
func (b *build) locks(leaves []leaf, sp space) {
	id := cmp.Or(b.env.Practice.Lock, "lock")
	last := &leaves[len(leaves)-1]
	if len(leaves) == 1 {
		far := sp.walls[last.hinge.Not()]
		face := sp.box.Max.X
		if last.hinge == geom.Right {
			face = sp.box.Min.X
		}
		b.struck(last, id, face, far.Part)
		return
	}
	if way := b.inTheWay(&leaves[0], sp); way != nil {
		box, local := way.Box(), way.Local
		b.struck(&leaves[0], id, box.Min.X, local)
		b.struck(last, id, box.Max.X, local)
		return
	}
	reach := L(0)
	if at, ok := b.lock(last, lockIn); ok {
		reach = part.CamReach(at, leaves[0].box)
		b.turns(last, at, reach)
	}
	b.part(leaves[0].part).Note = "held shut by a catch at its top and one at its bottom; the cam of the other leaf's lock turns behind it"
	b.item(part.Item{ID: "elbow-catch", Kind: "lock", Count: 2, For: part.ForCaught})
	b.item(part.Item{ID: id, Kind: "lock", Count: 1, Length: reach, For: "doors"})
}

// inTheWay gives the upright board that keeps a hand, reaching round the shut left leaf of a pair whose other leaf
// is open, from the catches of that leaf; nil for none.
func (b *build) inTheWay(l *leaf, sp space) *part.Part {
	hand := geom.B(l.box.Max.X-catchOff, 0, sp.box.Min.Z, l.box.Max.X+handWide, handDeep, sp.box.Min.Z+handHigh)
	high := hand
	high.Min.Z, high.Max.Z = sp.box.Max.Z-handHigh, sp.box.Max.Z
	for i := range b.a.Parts {
		p := &b.a.Parts[i]
		box := p.Box()
		if s := box.Size(); p.Moves == "" && p.Role != part.Side && s.X < s.Y && s.X < s.Z && (box.Meets(hand) || box.Meets(high)) {
			return p
		}
	}
	return nil
}

// struck puts a lock into a leaf whose cam turns behind an angle on a face, at x, of the board beside its free edge.
func (b *build) struck(l *leaf, id string, face L, board string) {
	hw, _ := b.env.Catalogue.Item(id)
	cover := l.box.Max.X - face
	if l.hinge == geom.Right {
		cover = face - l.box.Min.X
	}
	at, ok := b.lock(l, max(lockIn, cover+part.CamAngle+cmp.Or(hw.Dia, lockDia)/2+lockAir))
	reach := L(0)
	if ok {
		reach = part.AngleReach(at, face)
		b.turns(l, at, (face - at.X).Abs())
		p := b.part(board)
		if p == nil || p.Removable || reach > camMost || at.Z < p.Box().Min.Z+part.CamAngle || at.Z > p.Box().Max.Z-part.CamAngle {
			b.say(LockPlace, finding.Error, l.path, "a board stands in the way of the hand that would let go the catches of one leaf, and the lock of a leaf finds nothing to catch behind", "put a partition over the whole height behind the place where the two meet, or none nearer to it than "+b.text(handWide)+", or one door instead of two")
		}
	}
	b.item(part.Item{ID: "strike-angle", Kind: "lock", Count: 1, For: "doors"})
	b.item(part.Item{ID: id, Kind: "lock", Count: 1, Length: reach, For: "doors"})
}

// turns records where the cam of a leaf's lock turns: from upright, towards the middle of its leaf, to level.
func (b *build) turns(l *leaf, at geom.Vec, reach L) {
	r := geom.B(at.X-camHalf, 0, at.Z-camHalf, at.X+camHalf, camDeep, at.Z+camHalf)
	if part.CamUp(at, l.box) {
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

// camNotches lets cams turn: what stands or is fixed where they do is notched, through its whole thickness, however
// little of that is in the way: no hand saw takes a shaving off a face.
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
			face, room, whole := p.Facing(geom.Right), c.room, p.Box()
			room.Min.X, room.Max.X = whole.Min.X, whole.Max.X
			if p.Role == part.FixedShelf {
				face, room = p.Facing(geom.Up), c.room
				room.Min.Z, room.Max.Z = whole.Min.Z, whole.Max.Z
			}
			q := *p
			q.Recess(part.Notch, face, room, joinery.HandSaw, "cam of the lock")
			if o := q.Ops[len(q.Ops)-1]; !p.Clear(o, 2*mm) {
				b.say(LockPlace, finding.Error, c.path, fmt.Sprintf("the lock's cam turns where the %s is, and what is worked there leaves no room for a notch", p.Name), "no lock, one door instead of two, or the board elsewhere than behind the middle")
				continue
			}
			*p = q
		}
	}
}
