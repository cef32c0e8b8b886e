// Package place puts what a job asks for into the room that was surveyed. It reads walls,
// floors, ceilings, studs and whatever must stay clear as plain functions of a place, lays
// out runs, finds the level line, and gives every case, counter, base, hutch, machine and
// standing thing a Seat: where it is and how big it is there. It builds nothing and judges
// nothing; clashes are found by package rules on the finished parts.
//
// Every wall has its own right-handed frame: x from its left end as seen from the room,
// whichever end it was surveyed from, y towards the wall (0 at the lining's face, the room
// is negative), z up from the floor at the wall's left end.
package place

import (
	"cmp"
	"slices"
	"strconv"

	"stowright/internal/geom"
	"stowright/internal/job"
	"stowright/internal/length"
	"stowright/internal/order"
)

type (
	L   = length.Length
	Box = geom.Box
	Vec = geom.Vec
)

// Far is the height of a space that is open upwards, and the reach of one that is open into
// the room: more than any room has.
const Far = 100_000 * length.MM

// Wall is a surveyed wall as functions of a place.
type Wall struct {
	ID     string
	Length L
	Height L      // floor at the left end to the ceiling there; 0 when not known
	Kind   string // as in the job: "stud", "masonry", "concrete", "steel-stud", "not-known"

	Lining      L // thickness; 0 where there is none
	LiningKnown bool
	LiningName  string
	Anchor      string // hardware id, "" when not known
	AnchorInto  L      // least depth of it that its rating is for, 0 when not stated

	StudsKnown bool
	Studs      []Stud   // from left to right
	Headers    []Header // what spans over openings and takes a screw anywhere
	Openings   []Opening
	Clear      []Zone
	Obstacles  []Obstacle

	FloorKnown bool
	Slab       bool

	Frame Frame // lays this wall's frame into the room's, which is the first wall's

	floor    []job.Height // at the wall, by x
	out      []job.Height // outAt from the wall, by x; empty when the survey has none
	outAt    L
	fallBy   L // even fall over fallIn away from the wall, when out is empty
	fallIn   L
	ceiling  []job.Height
	lean     L
	hollows  []hollow
	cornerAt [2]string // wall at the left and at the right end, "" for none
}

// Corner gives the wall that meets this one at its left (0) or right (1) end, "" for none.
func (w *Wall) Corner(end int) string { return w.cornerAt[end] }

// Ended names what stands at the left (0) or right (1) end of a wall: the wall that meets it in a corner, or one that is
// not surveyed but which a filler is fitted to; "" where nothing is known to.
func (r *Room) Ended(w *Wall, end int) string {
	const touch = length.MM / 10
	if c := w.Corner(end); c != "" {
		return "wall " + c
	}
	for _, x := range r.Seats {
		if x.Kind == Filler && x.Wall == w.ID && (end == 0 && x.Box.Min.X <= touch || end == 1 && x.Box.Max.X >= w.Length-touch) {
			return "the side wall that a filler is fitted to"
		}
	}
	return ""
}

// hollow is the line of the wall's face at one x: how far it falls back by height; flat
// when it is the same at all heights.
type hollow struct {
	x     L
	flat  bool
	by    L
	marks []job.Height // At is the height, Z how far it falls back
}

// Survey turns a wall as it was measured into functions in the wall's frame. Measures that
// start at the right end are turned round. Heights are taken from whatever level the survey
// calls 0 and shifted so that 0 is the floor at the wall's left end.
func Survey(n job.Named[job.Wall]) Wall {
	s := n.Value
	w := Wall{ID: n.ID, Length: s.Length, Kind: cmp.Or(s.Kind, "not-known")}
	flip := s.From == "right"
	x := func(v L) L {
		if flip {
			return s.Length - v
		}
		return v
	}
	if s.Height != nil {
		w.Height = *s.Height
	}
	if s.Lining != nil {
		w.LiningName = s.Lining.Name
		if s.Lining.Thickness != nil {
			w.Lining, w.LiningKnown = *s.Lining.Thickness, true
		}
	}
	if s.Anchor != nil {
		w.Anchor = s.Anchor.Hardware
		if s.Anchor.Into != nil {
			w.AnchorInto = *s.Anchor.Into
		}
	}
	w.surveyFloor(s.Floor, x)
	for _, h := range s.Ceiling {
		w.ceiling = append(w.ceiling, job.Height{At: x(h.At), Z: h.Z})
	}
	inOrder(w.ceiling, flip)
	if s.Lean != nil {
		w.lean = *s.Lean
	}
	w.surveyFace(s.Hollow, x)
	w.surveyOpenings(s.Openings, x)
	w.surveyStuds(s, x)
	w.surveyClear(s.Clear, x)
	w.surveyObstacles(s.Obstacles, x)
	w.datum(w.FloorAt(0, 0))
	return w
}

// datum lowers everything that was measured upwards by d, so that the floor at the left end
// is at 0.
func (w *Wall) datum(d L) {
	if d == 0 {
		return
	}
	for _, list := range [][]job.Height{w.floor, w.out, w.ceiling} {
		for i := range list {
			list[i].Z -= d
		}
	}
	if w.Height > 0 {
		w.Height -= d
	}
	for i := range w.hollows {
		for j := range w.hollows[i].marks {
			w.hollows[i].marks[j].At -= d
		}
	}
	down := Vec{Z: -d}
	for i := range w.Openings {
		w.Openings[i].Box = w.Openings[i].Box.Shift(down)
	}
	for i := range w.Studs {
		if w.Studs[i].Top > 0 {
			w.Studs[i].Top -= d
		}
	}
	for i := range w.Headers {
		w.Headers[i].Bottom -= d
		w.Headers[i].Top -= d
	}
	for i := range w.Clear {
		w.Clear[i].Body = w.Clear[i].Body.Shift(down)
		w.Clear[i].Space = w.Clear[i].Space.Shift(down)
	}
	for i := range w.Obstacles {
		if !w.Obstacles[i].follows {
			w.Obstacles[i].Box = w.Obstacles[i].Box.Shift(down)
		}
	}
}

// inOrder sorts heights by place. Two heights at one place are a step: their order is that
// of the survey, turned round when the survey was.
func inOrder(h []job.Height, flip bool) {
	if flip {
		slices.Reverse(h)
	}
	order.Stable(h, func(a, b job.Height) int { return cmp.Compare(a.At, b.At) })
}

// between reads a line through points sorted by place, flat before the first and after the
// last. At a step it gives both heights, else the same one twice.
func between(h []job.Height, at L) (left, right L) {
	if len(h) == 0 {
		return 0, 0
	}
	if at < h[0].At {
		return h[0].Z, h[0].Z
	}
	if last := h[len(h)-1]; at > last.At {
		return last.Z, last.Z
	}
	i := 0
	for i < len(h) && h[i].At < at {
		i++
	}
	if h[i].At == at {
		j := i
		for j+1 < len(h) && h[j+1].At == at {
			j++
		}
		return h[i].Z, h[j].Z
	}
	a, b := h[i-1], h[i]
	z := line(a.Z, b.Z, at-a.At, b.At-a.At)
	return z, z
}

// line reads a straight line from one value to another, so far along. A half tick is rounded the
// same way from both ends, so that a wall surveyed from the other end is the same wall.
func line(from, to, along, all L) L {
	return max(from+(to-from).MulDiv(int64(along), int64(all)), to+(from-to).MulDiv(int64(all-along), int64(all)))
}

// surveyFace reads hollow and proud places.
func (w *Wall) surveyFace(list []job.Hollow, x func(L) L) {
	for _, h := range list {
		at := x(h.At)
		i := slices.IndexFunc(w.hollows, func(o hollow) bool { return o.x == at })
		if i < 0 {
			w.hollows = append(w.hollows, hollow{x: at})
			i = len(w.hollows) - 1
		}
		o := &w.hollows[i]
		if h.Up == nil {
			o.flat, o.by = true, h.By
		} else {
			o.marks = append(o.marks, job.Height{At: *h.Up, Z: h.By})
		}
	}
	for i := range w.hollows {
		o := &w.hollows[i]
		if o.flat {
			o.marks = nil
			continue
		}
		order.Stable(o.marks, func(a, b job.Height) int { return cmp.Compare(a.At, b.At) })
		top, _ := w.over()
		if last := o.marks[len(o.marks)-1].At; top <= last {
			top = 2 * last
		}
		if o.marks[0].At > 0 {
			o.marks = slices.Insert(o.marks, 0, job.Height{})
		}
		o.marks = append(o.marks, job.Height{At: top})
	}
	order.Stable(w.hollows, func(a, b hollow) int { return cmp.Compare(a.x, b.x) })
}

func (o hollow) at(z L) L {
	if o.flat {
		return o.by
	}
	_, by := between(o.marks, z)
	return by
}

// over gives the height of the wall at its left end, over which it leans: stated, else that of its ceiling.
func (w *Wall) over() (L, bool) {
	if w.Height > 0 {
		return w.Height, true
	}
	return w.CeilingAt(0)
}

// Face gives the y of the wall's lining at a place: 0 on a straight and plumb wall, negative
// where it leans or stands into the room, positive where it is hollow. Between the surveyed
// places, and between them and the wall's ends, where it is taken as straight, it is read
// along a straight line.
func (w *Wall) Face(x, z L) L {
	y := L(0)
	if over, _ := w.over(); w.lean != 0 && over > 0 {
		y = -w.lean.MulDiv(int64(z), int64(over))
	}
	if len(w.hollows) == 0 {
		return y
	}
	a, b := hollow{flat: true}, hollow{x: w.Length, flat: true}
	for _, h := range w.hollows {
		if h.x <= x {
			a = h
		}
		if h.x >= x {
			b = h
			break
		}
	}
	if a.x >= b.x { // at a surveyed place, or past the end of the wall
		return y + a.at(z)
	}
	from, to := a.at(z), b.at(z)
	return y + line(from, to, x-a.x, b.x-a.x)
}

// Proudest gives the y of the face where it comes furthest into the room within x0..x1 and
// z0..z1: a straight back cannot go nearer to the wall.
func (w *Wall) Proudest(x0, x1, z0, z1 L) L {
	xs, zs := []L{x0, x1}, []L{z0, z1}
	for _, h := range w.hollows {
		if x0 < h.x && h.x < x1 {
			xs = append(xs, h.x)
		}
		for _, m := range h.marks {
			if z0 < m.At && m.At < z1 {
				zs = append(zs, m.At)
			}
		}
	}
	y := w.Face(x0, z0)
	for _, x := range xs {
		for _, z := range zs {
			y = min(y, w.Face(x, z))
		}
	}
	return y
}

// CeilingAt gives the height of the ceiling, and false when it is not known.
func (w *Wall) CeilingAt(x L) (L, bool) {
	if len(w.ceiling) == 0 {
		return w.Height, w.Height > 0
	}
	a, b := between(w.ceiling, x)
	return min(a, b), true
}

// CeilingLine gives the line of the ceiling from end to end, with every place where it bends; none where it is not known.
func (w *Wall) CeilingLine() (line []job.Height) {
	if _, ok := w.CeilingAt(0); !ok {
		return nil
	}
	add := func(x L) {
		z, _ := w.CeilingAt(x)
		line = append(line, job.Height{At: x, Z: z})
	}
	add(0)
	for _, c := range w.ceiling {
		if 0 < c.At && c.At < w.Length {
			line = append(line, c) // a step is two heights at one place
		}
	}
	add(w.Length)
	return line
}

// LowestCeiling gives the least height of the ceiling over x0..x1.
func (w *Wall) LowestCeiling(x0, x1 L) (L, bool) {
	z, ok := w.CeilingAt(x0)
	if !ok {
		return 0, false
	}
	b, _ := w.CeilingAt(x1)
	z = min(z, b)
	for _, c := range w.ceiling {
		if x0 < c.At && c.At < x1 {
			z = min(z, c.Z)
		}
	}
	return z, true
}

func itoa(i int) string { return strconv.Itoa(i) }
