package rack

import (
	"fmt"
	"slices"

	"stowright/internal/finding"
	"stowright/internal/fitting"
	"stowright/internal/geom"
	"stowright/internal/order"
	"stowright/internal/part"
)

// Sizes of racks on doors; common practice, no source.
const (
	Lift       = 25 * mm // above a thing that is lifted over a rail: the fingers
	LiftHole   = 10 * mm // above a thing lifted clear of a hole, or behind a shut door
	Foot       = 6 * mm  // the sides reach below the shelf: wood under its screws
	RailWide   = 40 * mm
	Upper      = 30 * mm // strip over a bored board
	stripWide  = 50 * mm
	stripLeast = 20 * mm
	leastClear = 60 * mm // narrowest rack that is built
	doorFirst  = 75 * mm // screws of a strip from its ends
	doorPitch  = 300 * mm
	doorLeast  = 12 * mm // and never nearer to an end
	doorApart  = 20 * mm // and to each other
	doorClear  = 8 * mm  // and to screws in its edges
)

// Frame is a rack on a door as it is to be: two sides, a shelf between them and two strips
// screwed into the door.
type Frame struct {
	Clear L   // depth from the strips to the rails, or to the front of the sides where there are no rails
	Width L   // between the sides, 0 for as wide as the swing allows
	Least L   // narrowest that is of use, between the sides
	High  L   // sides above the shelf
	Room  L   // free height over the shelf, the door shut
	Over  L   // free height over the shelf, the door open, to lift things over what keeps them in; 0 for no more than Room
	Rails []L // lower edges of retaining rails above the shelf, on the outer edges of the sides
	Bored L   // lower side of a bored board above the shelf, 0 for none
}

// Deep gives the whole depth of the rack from the door's back.
func (f Frame) Deep(t L) L {
	d := t + f.Clear
	if len(f.Rails) > 0 {
		d += t
	}
	return d
}

// Claim gives the room that the rack wants of its door.
func (f Frame) Claim(env fitting.Env, s fitting.Space, t L) fitting.Claim {
	return fitting.Claim{
		Depth:  s.Doors[0].Box.Max.Y + f.Deep(t) + ShelfAir,
		Height: SwingAir + Foot + t + f.Room,
		Width:  HingeSide + 2*t + max(f.Least, leastClear),
		Lift:   max(f.Over-f.Room, 0),
	}
}

// Built is a rack on a door.
type Built struct {
	Shelf, Bored string   // boards by name, "" for none
	Inside       geom.Box // the clear space over the shelf, within the sides, strips and rails
	Wood         geom.Box // where the bored board may be bored: in front of the strips
}

// Rails gives the lower edges of rails with their centres at so many thirds of the height of
// what stands behind them, those left out that would touch the one below; asked for instead
// where the job says so.
func Rails(asked []L, tall, t L, thirds ...int64) []L {
	low := slices.Clone(asked)
	if len(low) == 0 {
		for _, n := range thirds {
			low = append(low, tall.MulDiv(n, 3)-RailWide/2)
		}
	}
	order.Up(low)
	var out []L
	for _, z := range low {
		z = max(z, -t/2) // it may cover the shelf's edge
		if len(out) == 0 || z >= out[len(out)-1]+RailWide+10*mm {
			out = append(out, z)
		}
	}
	return out
}

// Extent gives how far a rack of a depth may reach across its door: from beside the hinges to
// where its corner passes the far side of the opening or the other leaf.
func Extent(s fitting.Space, deep L) (x0, x1 L) {
	d := s.Doors[0]
	margin := LockMargin(deep, s.Width())
	if d.Pair {
		margin = PairMargin(deep, s.Width())
	}
	if d.Hinge == geom.Right {
		return s.Box.Min.X + margin, s.Box.Max.X - HingeSide
	}
	return s.Box.Min.X + HingeSide, s.Box.Max.X - margin
}

// OnDoor builds the frame; false, with a finding, when nothing goes in it.
func (w *Work) OnDoor(f Frame) (Built, bool) {
	s, t := w.Space, w.T
	deep := f.Deep(t)
	x0, x1 := Extent(s, deep)
	if least := max(f.Least, leastClear); x1-x0-2*t < least {
		w.Say(Narrow, finding.Error, fmt.Sprintf("%s are left between the sides of a rack %s deep, clear of hinges and swing, and %s are needed", w.Text(max(x1-x0-2*t, 0)), w.Text(deep), w.Text(least)), "make the door wider or the rack shallower, or leave it out")
		return Built{}, false
	}
	// From the hinged side, as wide as wanted, and a width that a shop can saw.
	wide := x1 - x0 - 2*t
	if f.Width > 0 {
		wide = min(wide, f.Width)
	}
	wide = wide.Down(mm / 10)
	if s.Doors[0].Hinge == geom.Right {
		x0 = x1 - wide - 2*t
	} else {
		x1 = x0 + wide + 2*t
	}
	y0 := s.Doors[0].Box.Max.Y
	y1 := y0 + t + f.Clear
	z0 := s.Box.Min.Z + SwingAir
	floor := z0 + Foot + t
	top := floor + f.High
	left := w.Put("side-l", "left side of the rack", part.RackSide, geom.B(x0, y0, z0, x0+t, y1, top), geom.Up, geom.Back)
	right := w.Put("side-r", "right side of the rack", part.RackSide, geom.B(x1-t, y0, z0, x1, y1, top), geom.Up, geom.Back)
	between := func(local string) {
		w.Screw(left, local, geom.Left, w.Touch(left, local))
		w.Screw(right, local, geom.Right, w.Touch(right, local))
	}
	in := geom.B(x0+t, y0+t, floor, x1-t, y1, s.Box.Max.Z)
	r := Built{Inside: in, Wood: in}
	r.Shelf = w.Put("shelf", "shelf of the rack", part.RackShelf, geom.B(in.Min.X, y0, z0+Foot, in.Max.X, y1, floor), geom.Right, geom.Back)
	between(r.Shelf)
	var strips []string
	strip := func(low, high L) {
		n := len(strips) + 1
		l := w.Put(fmt.Sprintf("strip-%d", n), fmt.Sprintf("back strip %d of the rack", n), part.Rail, geom.B(in.Min.X, y0, low, in.Max.X, y0+t, high), geom.Right, geom.Up)
		strips = append(strips, l)
		between(l)
	}
	if f.Bored > 0 {
		low := floor + f.Bored
		r.Bored = w.Put("bored", "bored board of the rack", part.RackShelf, geom.B(in.Min.X, y0, low, in.Max.X, y1, low+t), geom.Right, geom.Back)
		strip(floor, low)
		strip(low+t, top)
		w.Screw(r.Bored, strips[0], geom.Up, w.Touch(r.Bored, strips[0]))
		// A screw in each end behind the holes, where it cannot run into one.
		for _, e := range []struct {
			side string
			to   geom.Dir
		}{{left, geom.Left}, {right, geom.Right}} {
			c := w.Touch(e.side, r.Bored)
			c.Max.Y = min(c.Max.Y, y0+2*t)
			w.Screw(e.side, r.Bored, e.to, c)
		}
	} else if wide := min(stripWide, (f.High-10*mm)/2); wide >= stripLeast {
		strip(floor, floor+wide)
		strip(top-wide, top)
	} else {
		strip(floor, top)
	}
	for i, z := range f.Rails {
		z = min(floor+z, top-RailWide)
		z = max(z, z0)
		l := w.Put(fmt.Sprintf("rail-%d", i+1), fmt.Sprintf("rail %d of the rack", i+1), part.Rail, geom.B(x0, y1, z, x1, y1+t, min(z+RailWide, top)), geom.Right, geom.Up)
		w.Screw(l, left, geom.Back, w.Touch(l, left))
		w.Screw(l, right, geom.Back, w.Touch(l, right))
	}
	screws := 0
	for _, l := range strips {
		if at := w.doorPlaces(l); len(at) > 0 {
			w.OnWall(l, geom.Front, at)
			screws += len(at)
		}
	}
	if screws < 2 {
		w.Say(Narrow, finding.Error, fmt.Sprintf("a rack %s between its sides takes %d screws into the door clear of its other screws, and 2 are the least", w.Text(in.Max.X-in.Min.X), screws), "make the door wider, or the rack higher")
	}
	span := in.Max.X - in.Min.X
	w.Result.Spans = append(w.Result.Spans, part.Span{Part: r.Shelf, Along: geom.Right, Use: s.Use,
		Supports: []part.Support{{At: 0, Width: 1, Fixed: true}, {At: span, Width: 1, Fixed: true}}})
	return r, true
}

// doorPlaces gives where a strip is screwed to the door: pairs of places at half its height, the
// same from both ends, clear of the screws in its own edges and of each other. A pair for which
// there is no room is left out; a strip that takes none gets one screw where there is room for
// it, or none.
func (w *Work) doorPlaces(local string) []geom.Vec {
	q := w.Part(local)
	b := q.Box()
	wide := b.Max.X - b.Min.X
	first := min(doorFirst, wide*2/5) // past the screws in its ends
	n := 1 + int((wide - 2*first).DivUp(int64(doorPitch)))
	n += n % 2
	var taken []L
	for _, o := range q.Ops {
		if o.Face == part.Near || o.Face == part.Far {
			taken = append(taken, q.Pose.Point(o.Face.Point(o.X, o.Y, q.Size)).X-b.Min.X)
		}
	}
	var at []L
	free := func(x L) bool {
		return x >= doorLeast && x <= wide-doorLeast &&
			!slices.ContainsFunc(taken, func(u L) bool { return (u - x).Abs() < doorClear }) &&
			!slices.ContainsFunc(at, func(u L) bool { return (u - x).Abs() < doorApart })
	}
	// Nearest first, inwards before outwards.
	near := func(x, most L, try func(x L) bool) {
		for d := L(0); d <= most; d += 2 * mm {
			if try(x+d) || try(x-d) {
				return
			}
		}
	}
	for i := range n / 2 {
		near(first+(wide-2*first).MulDiv(int64(i), int64(n-1)), doorPitch/2, func(x L) bool {
			if 2*x > wide-doorApart || !free(x) || !free(wide-x) {
				return false
			}
			at = append(at, x, wide-x)
			return true
		})
	}
	if len(at) == 0 {
		near(wide/2, wide/2, func(x L) bool {
			if !free(x) {
				return false
			}
			at = append(at, x)
			return true
		})
	}
	order.Up(at)
	spots := make([]geom.Vec, len(at))
	for i, x := range at {
		spots[i] = geom.V(b.Min.X+x, b.Min.Y, (b.Min.Z+b.Max.Z)/2)
	}
	return spots
}

// Bay adds the clear space over the shelf.
func (w *Work) Bay(kind string, b Built, places []part.Place) {
	y := w.Space.Bay(w.Env, kind, "", b.Inside)
	y.Floor, y.Places = b.Shelf, places
	if b.Bored != "" {
		// Goods stand on the shelf and in the holes; free is what is over the bored board.
		y.Box.Min.Z = w.Part(b.Bored).Box().Max.Z
	}
	w.Result.Bays = append(w.Result.Bays, y)
	for i := range w.Result.Spans {
		w.Result.Spans[i].Bay = y.ID
	}
}
