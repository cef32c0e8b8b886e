package place

import (
	"slices"

	"stowright/internal/job"
	"stowright/internal/length"
	"stowright/internal/order"
)

// surveyFloor reads the heights of the floor.
func (w *Wall) surveyFloor(f job.Floor, x func(L) L) {
	flip := x(0) != 0
	row := func(every *L, list []L, points []job.Height) []job.Height {
		var r []job.Height
		for i, z := range list {
			if every == nil {
				break
			}
			r = append(r, job.Height{At: x(min(L(i)**every, w.Length)), Z: z})
		}
		for _, p := range points {
			r = append(r, job.Height{At: x(p.At), Z: p.Z})
		}
		inOrder(r, flip)
		return r
	}
	w.floor = row(f.Every, f.AtWall, f.Points)
	if f.Falls != nil && len(w.floor) == 0 {
		w.floor = []job.Height{{At: 0, Z: 0}, {At: w.Length, Z: -*f.Falls}}
	}
	w.FloorKnown = len(w.floor) > 0 || f.Within != nil || f.FallsOut != nil
	if f.Out != nil && *f.Out > 0 {
		w.out, w.outAt = row(f.Every, f.AtOut, f.OutPoints), *f.Out
	}
	if f.FallsOut != nil && f.FallsOut.In > 0 {
		w.fallBy, w.fallIn = f.FallsOut.By, f.FallsOut.In
	}
	w.Slab = f.Slab != nil && *f.Slab
}

// FloorAt gives the height of the floor at a place, y being 0 at the wall and negative in
// the room. It is read along straight lines between the surveyed heights, goes on at the
// same slope further out, and stays level beyond the last height along the wall. At a step
// it gives the upper height.
func (w *Wall) FloorAt(x, y L) L {
	a, b := w.floorSides(x, y)
	return max(a, b)
}

// floorSides gives the floor just left and just right of x, which differ at a step.
func (w *Wall) floorSides(x, y L) (left, right L) {
	left, right = between(w.floor, x)
	out := max(0, -y)
	switch {
	case out == 0:
	case len(w.out) > 0:
		l, r := between(w.out, x)
		left += (l - left).MulDiv(int64(out), int64(w.outAt))
		right += (r - right).MulDiv(int64(out), int64(w.outAt))
	case w.fallIn > 0:
		d := w.fallBy.MulDiv(int64(out), int64(w.fallIn))
		left, right = left-d, right-d
	}
	return left, right
}

// FloorLine gives the floor's line along the wall at y, as FloorAt reads it, by the places where its slope changes; at
// a step there are two heights.
func (w *Wall) FloorLine(y L) (line []job.Height) {
	for _, x := range w.floorPlaces(0, w.Length) {
		left, right := w.floorSides(x, y)
		if x > 0 {
			line = append(line, job.Height{At: x, Z: left})
		}
		if x < w.Length && (x == 0 || left != right) {
			line = append(line, job.Height{At: x, Z: right})
		}
	}
	return line
}

// SurveyedOut gives how far out from the wall the floor was measured a second time, or how far its stated fall out is
// stated for; 0 for not at all.
func (w *Wall) SurveyedOut() L {
	if len(w.out) > 0 {
		return w.outAt
	}
	return w.fallIn
}

// floorAlone is how far from a wall its floor is trusted to go on level where it was measured at the wall alone: common
// practice, no source.
const floorAlone = 1000 * length.MM

// FloorDrawnOn reports whether the floor so far out is only drawn on from heights that were measured nearer to the wall:
// further than half as far again (common practice, no source).
func (w *Wall) FloorDrawnOn(out L) bool {
	return w.FloorKnown && out > max(w.SurveyedOut()*3/2, floorAlone)
}

// floorPlaces lists the places within x0..x1 where the floor's slope along the wall changes,
// both ends included, in order.
func (w *Wall) floorPlaces(x0, x1 L) []L {
	xs := []L{x0, x1}
	for _, list := range [][]job.Height{w.floor, w.out} {
		for _, h := range list {
			if x0 < h.At && h.At < x1 {
				xs = append(xs, h.At)
			}
		}
	}
	order.Up(xs)
	return slices.Compact(xs)
}

// Range gives the least and greatest height of the floor under a rectangle: x0..x1 along the
// wall, y0..y1 with y0 at most y1. Within a field between surveyed places the floor is ruled by
// straight lines both ways, so that its extremes lie at corners.
func (w *Wall) Range(x0, x1, y0, y1 L) (least, greatest L) {
	x0, x1 = min(x0, x1), max(x0, x1)
	least, greatest = Far, -Far
	for _, x := range w.floorPlaces(x0, x1) {
		for _, y := range [2]L{y0, y1} {
			l, r := w.floorSides(x, y)
			if x > x0 {
				least, greatest = min(least, l), max(greatest, l)
			}
			if x < x1 || x0 == x1 {
				least, greatest = min(least, r), max(greatest, r)
			}
		}
	}
	return least, greatest
}

// High gives the floor's high point under a rectangle: the level line is taken from it.
func (w *Wall) High(x0, x1, y0, y1 L) L {
	_, h := w.Range(x0, x1, y0, y1)
	return h
}
