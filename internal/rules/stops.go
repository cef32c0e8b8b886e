package rules

import (
	"fmt"
	"math"
	"strings"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/job"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/place"
)

// DoorStopped: a door that must open wide is stopped before it does.
const DoorStopped finding.Code = "door-stopped"

func stops() Rule {
	return Rule{
		Name: "stops", Codes: []finding.Code{DoorStopped},
		Doc:     "A door on wide hinges, out of whose way the trays behind it are not packed, is stopped by no wall, neighbour or thing before it stands out of their way; where another is stopped before its hinges stop it is noted, and so are those that a wall would stop that nobody surveyed.",
		Source:  "geometry",
		Example: "A door 560 mm wide on hinges of 155 degrees, 60 mm from a wall, with trays behind it: the wall stops it at 96 degrees.",
		Check:   checkStops,
	}
}

// Trays are built without packing behind doors that open so far (see carcass); a door stopped short
// of that but past the least may still be out of the way (common practice, no source).
const (
	outOfTheWay      = 150
	leastOutOfTheWay = 110
)

// Stop is where a door stops.
type Stop struct {
	Degrees int
	By      string // what stops it, "" for its hinges
}

// Stops gives how far each door at a wall opens, by its motion: as its hinges let it, or until its leaf comes to what
// stands beside it.
func Stops(j *job.Checked, r *place.Room, a *part.Assembly) map[string]Stop {
	s, all := NewScene(j, r, a), map[string]Stop{}
	for _, m := range s.Moves {
		if x, ok := s.stop(m); ok {
			all[m.ID] = x
		}
	}
	return all
}

// stop tells where a door stops; false for what is no door at a wall.
func (s *Scene) stop(m Move) (Stop, bool) {
	w := s.Room.Wall(m.Wall)
	if w == nil || m.Kind != part.Swing || m.Hinge != geom.Left && m.Hinge != geom.Right {
		return Stop{}, false
	}
	round, first := w.Frame.Box(around(m.Motion)), Stop{Degrees: m.Angle}
	try := func(b Box, what string) {
		if a := 90 + stopped(m.Motion, b); a < first.Degrees {
			first = Stop{a, what}
		}
	}
	for _, x := range s.Solids {
		if x.Owner.ID == m.Owner || x.Owner.Moves || !round.Meets(x.World) || s.Room.Wall(x.Owner.Wall) == nil {
			continue
		}
		for _, p := range x.parts(w) {
			try(p, x.Name)
		}
	}
	for end, b := range [2]Box{
		geom.B(-place.Far, -place.Far, -place.Far, 0, place.Far, place.Far),
		geom.B(w.Length, -place.Far, -place.Far, place.Far, place.Far, place.Far),
	} {
		if name := s.Room.Ended(w, end); name != "" {
			try(b, name)
		}
	}
	for i := range s.Room.Walls {
		other := &s.Room.Walls[i]
		for _, o := range other.Obstacles {
			for _, b := range w.Frame.See(other.Frame, o.Boxes(other)...) {
				if !o.MayCut {
					try(b, o.ID)
				}
			}
		}
	}
	for _, t := range s.things() {
		for _, b := range w.Frame.See(t.frame, t.box) {
			if !t.moves {
				try(b, t.name)
			}
		}
	}
	return first, true
}

func checkStops(s *Scene) finding.List {
	var f finding.List
	for _, m := range s.Moves {
		x, ok := s.stop(m)
		if !ok {
			continue
		}
		reach, by := x.Degrees, x.By
		if m.Angle < outOfTheWay || !s.relied(m) {
			if by != "" {
				v := finding.Finding{Code: DoorStopped, Severity: finding.Note, At: m.At, Source: "geometry",
					Text: fmt.Sprintf("The %s is stopped by %s at %d degrees, before its hinges stop it at %d.", m.name(), by, reach, m.Angle),
					Hint: "Stick a bumper on where they meet, which is at its handle where that stands out further, or take hinges with a stop."}
				if reach >= 90 { // nothing asks for more
					v.Demand, v.Capacity, v.Unit = 90, float64(reach), "degrees"
					v.Verdict = v.Judge()
				}
				f.Add(v)
			}
			continue
		}
		if reach >= outOfTheWay {
			continue
		}
		sev := finding.Warning
		if reach < leastOutOfTheWay {
			sev = finding.Error
		}
		room := L(math.Ceil(float64(quarter(m.Motion).R)*math.Sin(float64(outOfTheWay-90)*math.Pi/180)/float64(length.MM))) * length.MM
		f.Add(finding.Finding{Code: DoorStopped, Severity: sev, Verdict: finding.Fails, At: m.At, Source: "geometry", Demand: outOfTheWay, Capacity: float64(reach), Unit: "degrees",
			Text: fmt.Sprintf("The %s is stopped by %s at %d degrees. The trays behind it are not packed out to pass it: it must open to %d.", m.name(), by, reach, outOfTheWay),
			Hint: fmt.Sprintf("Keep %s free beside its hinges, hinge it on the other side, or take hinges of 110 degrees, for which trays are packed out.", s.in(room))})
	}
	f.Add(s.beyondEnds()...)
	return f
}

// beyondEnds tells the doors that open past an end of their wall where nothing is surveyed: a wall that meets it there stops
// them sooner.
func (s *Scene) beyondEnds() finding.List {
	var f finding.List
	for i := range s.Room.Walls {
		w := &s.Room.Walls[i]
		for end, b := range [2]Box{
			geom.B(-place.Far, -place.Far, -place.Far, 0, place.Far, place.Far),
			geom.B(w.Length, -place.Far, -place.Far, place.Far, place.Far, place.Far),
		} {
			if s.Room.Ended(w, end) != "" {
				continue
			}
			var doors []string
			for _, m := range s.Moves {
				x, ok := s.stop(m)
				if at := 90 + stopped(m.Motion, b); ok && m.Wall == w.ID && at < x.Degrees {
					doors = append(doors, fmt.Sprintf("the %s at %d degrees instead of %d", m.name(), at, x.Degrees))
				}
			}
			if len(doors) > 0 {
				f.Add(finding.Finding{Code: DoorStopped, Severity: finding.Note, Verdict: finding.NotKnown, At: "wall/" + w.ID, Source: "the survey",
					Text: fmt.Sprintf("What is beyond the %s end of wall %s is not surveyed. A wall that meets it there stops %s.", [2]string{"left", "right"}[end], w.ID, strings.Join(doors, ", ")),
					Hint: "Look there. Where a wall stands, say in the survey that it meets this one; a bumper where they touch, or a hinge with a stop, saves the door."})
			}
		}
	}
	return f
}

// around is the box round all that a door's leaf can come to, in its wall's frame, with an inch to spare.
func around(m part.Motion) Box {
	b, r := m.Closed, quarter(m).R
	b.Min.X, b.Max.X, b.Min.Y = b.Min.X-r, b.Max.X+r, b.Min.Y-r
	return b.Grow(length.Inch)
}

// relied reports whether something slides out past the door.
func (s *Scene) relied(door Move) bool {
	for _, n := range s.Moves {
		if n.Owner == door.Owner && n.Kind == part.Slide && n.Needs != "" && n.Closed.Min.X < door.Closed.Max.X && n.Closed.Max.X > door.Closed.Min.X &&
			n.Closed.Min.Z < door.Closed.Max.Z && n.Closed.Max.Z > door.Closed.Min.Z {
			return true
		}
	}
	return false
}

// stopped gives how many whole degrees past 90 a door turns before its leaf meets a box that stands
// out beyond the line of the closed fronts; 180 when it does not. At 90 degrees the outer face of a leaf on cup
// hinges is in line with its hinged edge as it was closed.
func stopped(m part.Motion, b Box) int {
	q := quarter(m)
	if b.Max.Z <= q.Bottom || b.Min.Z >= q.Top {
		return 180
	}
	gap, over := m.Closed.Min.X-b.Max.X, q.X-m.Closed.Min.X // from the hinged edge away from the leaf; from the pivot to that edge
	if !q.Right {
		gap, over = b.Min.X-m.Closed.Max.X, m.Closed.Max.X-q.X
	}
	front := m.Closed.Min.Y
	near, far := max(front-b.Max.Y, 0), front-b.Min.Y
	if far <= touch || gap >= q.R || q.Right && b.Max.X > q.X || !q.Right && b.Min.X < q.X {
		return 180 // one that lies before the leaf stops it sooner: see opens
	}
	side, t, long := float64(max(gap, 0)), float64(over), float64(q.R)
	for a := range 90 {
		sin, cos := math.Sincos(float64(a) * math.Pi / 180)
		d := min(long, (float64(far)+t*sin)/cos) // how far along its face the leaf is beside the box
		if d*cos-t*sin > float64(near) && t*cos+d*sin > t+side+1 {
			return max(a-1, 0)
		}
	}
	return 180
}
