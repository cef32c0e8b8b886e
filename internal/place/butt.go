package place

import (
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/job"
	"stowright/internal/length"
)

// buttMost is how far a butted end may be from square, seen as the wedge between it and the other's front; what is more is
// sawn at the corner's angle by hand.
const buttMost = 3 * length.MM

// butt brings an end of a counter to the front edge of the one round the corner that it butts against.
func (l *layout) butt(s *Seat, c job.Counter) {
	o, w := l.room.Seat(c.Butts), l.room.Wall(s.Wall)
	if c.Butts == "" || o == nil || w == nil {
		return
	}
	at := "counter/" + s.ID
	other := l.room.Wall(o.Wall)
	say := func(sev finding.Severity, text, hint string, by L) {
		f := finding.Finding{Code: CounterButts, Severity: sev, At: at, Source: "geometry", Text: text, Hint: hint}
		if by > 0 {
			f.Verdict, f.Demand, f.Unit = finding.Fails, mm(by), "mm"
		}
		l.found.Add(f)
	}
	right := other != nil && w.Corner(1) == other.ID
	if other == nil || !right && w.Corner(0) != other.ID {
		say(finding.Error, fmt.Sprintf("Counter %s is to butt against %s, and their walls do not meet.", s.ID, c.Butts), "Say corner: of one of the two walls, or leave butts out.", 0)
		return
	}
	reaches := o.Box.Min.X < length.Inch
	if other.Corner(1) == w.ID {
		reaches = o.Box.Max.X > other.Length-length.Inch
	}
	if !reaches {
		say(finding.Error, fmt.Sprintf("Counter %s is to butt against the front of %s, which does not reach into the corner before it.", s.ID, o.ID), fmt.Sprintf("Let %s go through to the corner, from: or to:.", o.ID), 0)
		return
	}
	// The line of the other's front, as far along this wall as it is at this one's front and at its rear.
	p := w.Frame.SeePoint(other.Frame, Vec{X: o.Box.Min.X, Y: o.Box.Min.Y})
	q := w.Frame.SeePoint(other.Frame, Vec{X: o.Box.Max.X, Y: o.Box.Min.Y})
	if p.Y == q.Y {
		return // along this wall: no corner
	}
	along := func(y L) L { return p.X + (q.X-p.X).MulDiv(int64(y-p.Y), int64(q.Y-p.Y)) }
	one, two := along(s.Box.Min.Y), along(s.Box.Max.Y)
	wedge := (one - two).Abs()
	end := max(one, two)
	if right {
		end = min(one, two)
	}
	if wedge > 0 { // what is seen round a slanted corner stands out by a slice of it
		room := length.MM/5 + wedge.MulDiv(int64(slice), int64(s.Box.Max.Y-s.Box.Min.Y))
		if right {
			room = -room
		}
		end += room
	}
	if d := (s.Top - (o.Top + other.datumZ() - w.datumZ())).Abs(); d > 0 {
		say(finding.Error, fmt.Sprintf("Counters %s and %s, which butt in the corner, differ by %s in height.", s.ID, o.ID, l.in(d)), "Give the cases under both one height, and both the same layers.", d)
	}
	if wedge > buttMost {
		say(finding.Warning, fmt.Sprintf("The corner is not square: an end sawn square leaves a wedge of %s between %s and the front of %s.", l.in(wedge), s.ID, o.ID), "Leave that end long by as much, lay it on, scribe it to the other's front and saw it to the line.", wedge)
	}
	if right {
		s.Box.Max.X = end
	} else {
		s.Box.Min.X = end
	}
	s.Butt = o.ID
	say(finding.Note, fmt.Sprintf("%s butts against the front of %s.", s.Name, o.Name), "Its end gets no edging there. It is set against the other on a bead of adhesive, both tops flush.", 0)
}
