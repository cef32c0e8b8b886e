package part

import "stowright/internal/length"

// What is left between two workings of one board; common practice, no source.
const (
	// Web is the least wood between a round working or a pocket and any other that does not meet it.
	Web = 3 * length.MM
	// Between is the least wood between the ends of two holes bored from opposite faces: a stop is set
	// to the next 1/32 in, so that each may be nearly a millimetre deeper than it is here.
	Between = 2 * length.MM
	// pocketWay is how much further the jig's drill breaks in than the pocket's middle line: half its
	// breadth across a slant of 15 degrees, and as much again for its step.
	pocketWay = 34 * length.MM
)

// PocketRun is the length of board that a slanted pocket takes from the end or edge that its screw
// leaves by: from the middle of the thickness at 15 degrees, and the drill's way in. In a board of
// 3/4 in it is 2 3/4 in.
func PocketRun(thick L) L { return 2*thick + pocketWay }

// Space gives a box, in the part's own frame, around what a working takes out of a part of the given
// size; of a bevel the box that it goes through, and empty for tapers.
func (o Op) Space(size [3]L) Box {
	switch o.Kind {
	case Hole, Cup, Countersink:
		r := o.Dia / 2
		q := o
		q.X, q.Y, q.L, q.W = o.X-r, o.Y-r, 2*r, 2*r
		return q.Removed(size)
	case Pocket:
		r, run := o.Dia/2, PocketRun(size[2])
		q := o
		q.X, q.Y, q.L, q.W = o.X-r, o.Y-r, 2*r, 2*r
		switch o.Towards {
		case Start:
			q.X, q.L = o.X, run
		case End:
			q.X, q.L = o.X-run, run
		case Near:
			q.Y, q.W = o.Y, run
		case Far:
			q.Y, q.W = o.Y-run, run
		}
		return q.Removed(size)
	case Groove, Rabbet, Notch, Cutout, Slot, Bevel:
		return o.Removed(size)
	}
	return Box{}
}

// round reports whether a working is a cylinder.
func (o Op) round() bool { return o.Kind == Hole || o.Kind == Cup || o.Kind == Countersink }

// Meets reports whether two workings of a part of the given size share space, or leave less than web
// of wood between them. A hole and its countersink, a notch and the hole at its
// end, and two straight workings, which may cross, do not: only a groove does where a notch or a cut-out takes its place.
func (o Op) Meets(q Op, size [3]L, web L) bool {
	switch {
	case o.straight() && q.straight():
		if o.Kind != Groove {
			o, q = q, o
		}
		return o.Kind == Groove && (q.Kind == Notch || q.Kind == Cutout) && o.lost(q, size)
	case (o.Kind == Countersink) != (q.Kind == Countersink) && o.Face/2 == q.Face/2 && o.X == q.X && o.Y == q.Y:
		return false
	case o.ends(q) || q.ends(o):
		return false
	}
	a, b := o.Space(size), q.Space(size)
	if a.Empty() || b.Empty() || !a.Grow(web).Meets(b) {
		return false
	}
	if !o.round() || !q.round() || o.Face/2 != q.Face/2 {
		return true
	}
	if o.Face != q.Face { // only where their ends come near each other
		n := o.Face.Normal().Axis()
		if a.Min.At(n) >= b.Max.At(n)+min(web, Between) || b.Min.At(n) >= a.Max.At(n)+min(web, Between) {
			return false
		}
	}
	r := int64((o.Dia+q.Dia)/2 + web)
	dx, dy := int64(o.X-q.X), int64(o.Y-q.Y)
	return dx*dx+dy*dy < r*r
}

// ends reports whether a hole is the round end of a notch: as wide as it, for the same, its centre where that ends.
func (o Op) ends(q Op) bool {
	if o.Kind != Hole || q.Kind != Notch || o.Face != q.Face || o.For != q.For {
		return false
	}
	along := o.Dia == q.L && o.X == q.X+q.L/2 && (o.Y == q.Y || o.Y == q.Y+q.W)
	return along || o.Dia == q.W && o.Y == q.Y+q.W/2 && (o.X == q.X || o.X == q.X+q.L)
}

func (o Op) straight() bool {
	switch o.Kind {
	case Groove, Rabbet, Notch, Cutout, Slot:
		return true
	}
	return false
}

// lost reports whether a notch takes so much of a groove that it holds nothing there: more than a
// third of its length, or some of it that is not at its end.
func (o Op) lost(q Op, size [3]L) bool {
	a := o.Removed(size)
	c := a.And(q.Removed(size))
	if c.Empty() {
		return false
	}
	run := 0
	for i := range 3 {
		if a.Size().At(i) > a.Size().At(run) {
			run = i
		}
	}
	ends := c.Min.At(run) == a.Min.At(run) || c.Max.At(run) == a.Max.At(run)
	return !ends || 3*c.Size().At(run) > a.Size().At(run)
}

// Clear reports whether a working leaves at least web of wood to every other working of the part.
func (p Part) Clear(o Op, web L) bool {
	for _, q := range p.Ops {
		if o.Meets(q, p.Size, web) {
			return false
		}
	}
	return true
}

// OppositeDepth is how deep a hole may be bored where one from the other face may be at the same
// place, in a board so thick: to a whole step of the stop, with Between left.
func OppositeDepth(thick, step L) L { return ((thick - Between) / 2).Down(step) }
