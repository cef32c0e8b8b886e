package rules

import (
	"math"

	"stowright/internal/geom"
	"stowright/internal/job"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/place"
)

// Meeting is two doors or drawers of different cases that are in each other's way.
type Meeting struct {
	First, Second Move
	By            L // how much of the room that they sweep they share; 0 where only doors opened past a right angle meet
	Degrees       [2]int
	Stops         [2]int // degrees to which the first and the second open; less where the other stands open is in Degrees, and both are 0 where either is no upright door
}

// Meetings gives them in the order of the motions, for those who draw them.
func Meetings(j *job.Checked, r *place.Room, a *part.Assembly) []Meeting {
	return NewScene(j, r, a).meetings()
}

// fullyOpen is how far doors are opened: what is in the way only of one opened further is not told.
const fullyOpen = 90

func (s *Scene) meetings() (list []Meeting) {
	stops := make([]int, len(s.Moves)) // 0 for what is no upright door at a wall
	for i, m := range s.Moves {
		if x, ok := s.stop(m); ok {
			stops[i] = x.Degrees
		}
	}
	for i, m := range s.Moves {
		for k := i + 1; k < len(s.Moves); k++ {
			n := s.Moves[k]
			if m.Owner == n.Owner || m.World.Max.Z <= n.World.Min.Z || n.World.Max.Z <= m.World.Min.Z {
				continue
			}
			x := Meeting{First: m, Second: n}
			if m.World.Meets(n.World) && (m.Wall != n.Wall || bothSweep(m.Motion, n.Motion)) {
				if d := overlap(m.Swept, whole(s.frame(m.Wall).See(s.frame(n.Wall), n.Swept))); d > touch {
					x.By = d
				}
			}
			if stops[i] > 0 && stops[k] > 0 && s.near(m, n) {
				x.Stops = [2]int{stops[i], stops[k]}
				x.Degrees = [2]int{s.opensBeside(m, stops[i], n, stops[k]), s.opensBeside(n, stops[k], m, stops[i])}
			}
			if x.By > 0 || min(x.Degrees[0], x.Degrees[1]) < min(fullyOpen, x.Stops[0], x.Stops[1]) {
				list = append(list, x)
			}
		}
	}
	return list
}

// near reports whether two leaves can come to each other at all.
func (s *Scene) near(m, n Move) bool {
	a, b := s.frame(m.Wall).Box(around(m.Motion)), s.frame(n.Wall).Box(around(n.Motion))
	return a.Meets(b)
}

// opensBeside gives to how many degrees a door opens, which opens to most, while another stands open.
func (s *Scene) opensBeside(m Move, most int, n Move, open int) int {
	other := s.leaf(n, open)
	for a := range most + 1 {
		if crossing(s.leaf(m, a), other) {
			return max(a-1, 0)
		}
	}
	return most
}

// besideHinge is what is left out of a leaf beside its hinges, which carry it away from what stands there (common practice, no
// source): how far depends on the hinge.
const besideHinge = 50 * length.MM

// leaf gives the corners of a door's leaf from above, turned open by so many degrees about its pivot, in the room's frame, in mm.
func (s *Scene) leaf(m Move, degrees int) (c [4][2]float64) {
	turn := float64(-degrees) * math.Pi / 180 // seen from above with the wall upwards a leaf hinged at the left turns to the right
	if m.Hinge == geom.Right {
		turn = -turn
	}
	sin, cos := math.Sincos(turn)
	f, b := s.frame(m.Wall), m.Closed
	if m.Hinge == geom.Right {
		b.Max.X -= besideHinge
	} else {
		b.Min.X += besideHinge
	}
	for i, p := range [4]Vec{{X: b.Min.X, Y: b.Min.Y}, {X: b.Max.X, Y: b.Min.Y}, {X: b.Max.X, Y: b.Max.Y}, {X: b.Min.X, Y: b.Max.Y}} {
		x, y := float64(p.X-m.Pivot.X), float64(p.Y-m.Pivot.Y)
		q := f.Point(Vec{X: m.Pivot.X + L(math.Round(x*cos-y*sin)), Y: m.Pivot.Y + L(math.Round(x*sin+y*cos))})
		c[i] = [2]float64{float64(q.X) / float64(length.MM), float64(q.Y) / float64(length.MM)}
	}
	return c
}

// crossing reports whether two boards seen from above share more than a millimetre: no line along a side of either parts
// them (separating axes).
func crossing(a, b [4][2]float64) bool {
	for _, q := range [2][4][2]float64{a, b} {
		for i := range 2 {
			n := [2]float64{q[i+1][1] - q[i][1], q[i][0] - q[i+1][0]}
			long := math.Hypot(n[0], n[1])
			if long == 0 {
				return false
			}
			reach := func(p [4][2]float64) (lo, hi float64) {
				lo, hi = math.Inf(1), math.Inf(-1)
				for _, v := range p {
					d := (v[0]*n[0] + v[1]*n[1]) / long
					lo, hi = min(lo, d), max(hi, d)
				}
				return lo, hi
			}
			al, ah := reach(a)
			bl, bh := reach(b)
			if min(ah, bh)-max(al, bl) <= 1 {
				return false
			}
		}
	}
	return true
}
