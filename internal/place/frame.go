package place

import (
	"math"
	"strconv"
	"strings"

	"stowright/internal/job"
	"stowright/internal/length"
)

// Frame lays a wall's frame into the room's by a turn about the vertical, Degrees
// anticlockwise seen from above, and a shift.
type Frame struct {
	Origin  Vec
	Degrees float64
}

// Square reports whether the turn is a whole number of right angles, so that boxes stay
// boxes and nothing is rounded.
func (f Frame) Square() bool { return math.Mod(f.Degrees, 90) == 0 }

func (f Frame) quarter() int { return ((int(f.Degrees)/90)%4 + 4) % 4 }

// Point lays a point of the wall's frame into the room's.
func (f Frame) Point(p Vec) Vec {
	var q Vec
	if f.Square() {
		switch f.quarter() {
		case 0:
			q = p
		case 1:
			q = Vec{X: -p.Y, Y: p.X, Z: p.Z}
		case 2:
			q = Vec{X: -p.X, Y: -p.Y, Z: p.Z}
		case 3:
			q = Vec{X: p.Y, Y: -p.X, Z: p.Z}
		}
		return q.Add(f.Origin)
	}
	s, c := math.Sincos(f.Degrees * math.Pi / 180)
	x := float64(float64(p.X)*c) - float64(float64(p.Y)*s)
	y := float64(float64(p.X)*s) + float64(float64(p.Y)*c)
	return Vec{X: L(math.Round(x/coarse)) * coarse, Y: L(math.Round(y/coarse)) * coarse, Z: p.Z}.Add(f.Origin)
}

// coarse is the step that turned points are rounded to when a corner is not square: 0.1 mm,
// far above the error of the sines, so that every machine gives the same.
const coarse = 4000

// Box lays a box of the wall's frame into the room's. At a corner that is not square it is the
// upright box around it, a little larger than what it holds: clashes are then reported too
// early, never too late.
func (f Frame) Box(b Box) Box {
	r := Box{Min: f.Point(b.Min), Max: f.Point(b.Min)}
	for _, x := range [2]L{b.Min.X, b.Max.X} {
		for _, y := range [2]L{b.Min.Y, b.Max.Y} {
			for _, z := range [2]L{b.Min.Z, b.Max.Z} {
				p := f.Point(Vec{X: x, Y: y, Z: z})
				for i := range 3 {
					r.Min = r.Min.With(i, min(r.Min.At(i), p.At(i)))
					r.Max = r.Max.With(i, max(r.Max.At(i), p.At(i)))
				}
			}
		}
	}
	if !f.Square() {
		r.Min = r.Min.Sub(Vec{X: coarse, Y: coarse})
		r.Max = r.Max.Add(Vec{X: coarse, Y: coarse})
	}
	return r
}

// Back lays a box of the room's frame into the wall's, as Box does.
func (f Frame) Back(b Box) Box {
	o := f.Origin
	back := Frame{Degrees: -f.Degrees}
	return back.Box(b.Shift(Vec{}.Sub(o)))
}

// SeePoint gives a point of another frame in this one.
func (f Frame) SeePoint(o Frame, v Vec) Vec {
	turn := Frame{Degrees: o.Degrees - f.Degrees}
	turn.Origin = Frame{Degrees: -f.Degrees}.Point(o.Origin.Sub(f.Origin))
	return turn.Point(v)
}

// See gives boxes of another frame in this one. Where the two stand square to each other a box stays the box it is; else
// it is cut into slices, which together hold it and stand out by no more than slice.
func (f Frame) See(o Frame, boxes ...Box) []Box {
	if f == o {
		return boxes
	}
	turn := Frame{Degrees: o.Degrees - f.Degrees}
	turn.Origin = Frame{Degrees: -f.Degrees}.Point(o.Origin.Sub(f.Origin))
	var r []Box
	for _, b := range boxes {
		if turn.Square() {
			r = append(r, turn.Box(b))
		} else {
			r = append(r, turn.slices(b)...)
		}
	}
	return r
}

// slice is how deep the slices of a turned box are.
const slice = 5 * length.MM

// slices gives upright boxes that hold a turned one together: for each stretch of y as wide as it is there.
func (f Frame) slices(b Box) []Box {
	var c [4]Vec // its corners, one after the other
	for i, p := range [4]Vec{{X: b.Min.X, Y: b.Min.Y}, {X: b.Max.X, Y: b.Min.Y}, {X: b.Max.X, Y: b.Max.Y}, {X: b.Min.X, Y: b.Max.Y}} {
		c[i] = f.Point(p)
	}
	low, high := c[0].Y, c[0].Y
	for _, p := range c {
		low, high = min(low, p.Y), max(high, p.Y)
	}
	bottom, top := b.Min.Z+f.Origin.Z, b.Max.Z+f.Origin.Z
	n := max(1, min((high-low)/slice, 400))
	var r []Box
	for i := range n {
		lo, hi := low+(high-low)*i/n, low+(high-low)*(i+1)/n
		s := Box{Min: Vec{X: Far * 100, Y: lo, Z: bottom}, Max: Vec{X: -Far * 100, Y: hi, Z: top}}
		for k, p := range c {
			q := c[(k+1)%4]
			if p.Y > q.Y {
				p, q = q, p
			}
			if q.Y < lo || p.Y > hi {
				continue
			}
			at := func(y L) L {
				if q.Y == p.Y {
					return p.X
				}
				return p.X + L(float64(q.X-p.X)*float64(y-p.Y)/float64(q.Y-p.Y))/coarse*coarse
			}
			xs := []L{at(max(lo, p.Y)), at(min(hi, q.Y))}
			if q.Y == p.Y {
				xs = []L{p.X, q.X}
			}
			for _, x := range xs {
				s.Min.X, s.Max.X = min(s.Min.X, x), max(s.Max.X, x)
			}
		}
		if s.Min.X < s.Max.X {
			r = append(r, s)
		}
	}
	return r
}

// join lays every wall into the room's frame by its corner. Walls that meet no other stand
// apart: they are laid so far off that nothing on them meets anything else.
func (r *Room) join(walls []job.Named[job.Wall]) {
	index := map[string]int{}
	for i := range r.Walls {
		index[r.Walls[i].ID] = i
	}
	done := make([]bool, len(r.Walls))
	place := func(i int, f Frame) { r.Walls[i].Frame, done[i] = f, true }
	for _, n := range walls {
		c := n.Value.Corner
		if c == nil {
			continue
		}
		i, j := index[n.ID], index[c.With]
		if _, ok := index[c.With]; !ok || i == j {
			continue
		}
		end := 0
		if c.At == "right" {
			end = 1
		}
		r.Walls[i].cornerAt[end] = c.With
		r.Walls[j].cornerAt[1-end] = n.ID
	}
	for start := range r.Walls {
		if done[start] {
			continue
		}
		place(start, Frame{Origin: Vec{X: L(start) * 10 * Far}})
		for again := true; again; {
			again = false
			for _, n := range walls {
				c := n.Value.Corner
				if c == nil {
					continue
				}
				i := index[n.ID]
				j, ok := index[c.With]
				if !ok || i == j || done[i] == done[j] {
					continue
				}
				angle := degrees(c.Angle)
				left := c.At != "right" // this wall's left end meets the other's right end
				if done[i] {            // lay the other one by this one
					i, j, left = j, i, !left
				}
				place(i, r.Walls[i].meet(&r.Walls[j], left, angle))
				again = true
			}
		}
	}
}

// meet gives the frame of w when its left (or right) end meets the right (or left) end of o
// at an inside angle.
func (w *Wall) meet(o *Wall, left bool, angle float64) Frame {
	if left {
		f := Frame{Degrees: o.Frame.Degrees - (180 - angle)}
		corner := o.Frame.Point(Vec{X: o.Length, Z: o.FloorAt(o.Length, 0)})
		f.Origin = corner
		return f
	}
	f := Frame{Degrees: o.Frame.Degrees + (180 - angle)}
	corner := o.Frame.Point(Vec{})
	f.Origin = corner.Sub(f.Point(Vec{X: w.Length, Z: w.FloorAt(w.Length, 0)}))
	return f
}

// Into gives how far the wall round the corner at an end (0 left, 1 right) stands into the stretch of w, so far out from
// it: more than nothing where the corner is acute, less where it is obtuse, 0 where it is square or no wall is there.
// It is rounded up to coarse.
func (r *Room) Into(w *Wall, end int, out L) L {
	o := r.Wall(w.Corner(end))
	if o == nil || w.Frame.Square() && o.Frame.Square() {
		return 0
	}
	turn := o.Frame.Degrees - w.Frame.Degrees // of the left neighbour: 180 less the inside angle
	if end == 1 {
		turn = -turn
	}
	inside := math.Mod(180-turn+720, 360)
	if inside >= 180 || inside == 90 {
		return 0 // past a straight wall nothing is in the way
	}
	x := float64(out) / math.Tan(float64(inside*math.Pi)/180)
	return L(math.Ceil(x/coarse)) * coarse
}

// datumZ gives how far a wall's level 0, the floor at its left end, is above that of the wall
// whose frame is the room's. It is 0 for a wall that meets no other: nothing relates the two.
func (w *Wall) datumZ() L { return w.Frame.Origin.Z }

func degrees(s string) float64 {
	f, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(s, "°")), 64)
	if err != nil || f <= 0 || f >= 360 || math.IsNaN(f) {
		return 90
	}
	return f
}
