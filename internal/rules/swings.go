package rules

import (
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/length"
	"stowright/internal/place"
)

// MachineRoom: a machine has too little room to work.
const MachineRoom finding.Code = "machine-room"

// LongWork: the longest board that a machine works has no room beside it along its wall.
const LongWork finding.Code = "long-work"

func swings() Rule {
	return Rule{
		Name: "machines", Codes: []finding.Code{MachineRoom, LongWork},
		Doc:     "The room that a machine needs to work, above its bed, holds nothing else, and the longest board that it works lies free along its wall, at the height of its bed.",
		Source:  "the job",
		Example: "A mitre saw that swings 34 in wide stands in a space of 30 in between two high cases.",
		Check:   checkSwings,
	}
}

func checkSwings(s *Scene) finding.List {
	var f finding.List
	for i := range s.Room.Seats {
		m := &s.Room.Seats[i]
		w := s.Room.Wall(m.Wall)
		if w == nil {
			continue
		}
		s.longWork(m, w, &f)
		if m.Swing.Empty() {
			continue
		}
		world := w.Frame.Box(m.Swing)
		for _, x := range s.Solids {
			if x.Owner.ID == m.ID || !world.Meets(x.World) || s.Room.Wall(x.Owner.Wall) == nil {
				continue
			}
			d := apart(x.parts(w), []Box{m.Swing}, x.ways())
			if d == 0 {
				continue
			}
			f.Add(finding.Finding{Code: MachineRoom, Severity: finding.Error, Verdict: finding.Fails, At: x.At, Source: "the job", Demand: mm(d), Unit: "mm",
				Text: fmt.Sprintf("%s is in the room that %s needs to work (%s wide, %s deep).", x.Name, m.Name, s.in(m.Swing.Size().X), s.in(m.Swing.Size().Y)), Hint: fmt.Sprintf("Move it by %s, or the machine.", s.in(d))})
		}
		for end, d := range [2]L{-m.Swing.Min.X, m.Swing.Max.X - w.Length} {
			if d > touch && w.Corner(end) != "" {
				f.Add(finding.Finding{Code: MachineRoom, Severity: finding.Error, Verdict: finding.Fails, At: "machine/" + m.ID, Source: "the job", Demand: mm(d), Unit: "mm",
					Text: fmt.Sprintf("%s needs %s more to work than wall %s leaves.", m.Name, s.in(d), w.Corner(end)), Hint: fmt.Sprintf("Move it by %s.", s.in(d))})
			}
		}
	}
	return f
}

// boardHigh is how high over a machine's bed a board that is worked takes room (common practice, no source).
const boardHigh = 4 * length.Inch

// longWork says where the longest board that a machine works, slid along its wall over its bed, meets something on
// both sides.
func (s *Scene) longWork(m *place.Seat, w *place.Wall, f *finding.List) {
	for _, n := range s.Job.Machines {
		v := n.Value
		if n.ID != m.ID || m.Kind != place.Machine || v.Longest == nil {
			continue
		}
		at := "machine/" + m.ID
		if m.Bed == 0 {
			f.Add(finding.Finding{Code: LongWork, Severity: finding.Note, Verdict: finding.NotKnown, At: at, Source: "the job",
				Text: fmt.Sprintf("Whether a board of %s has room at %s is not known: nothing says how high its bed is.", s.in(*v.Longest), m.Name), Hint: "Measure from its feet and say bed:."})
			return
		}
		way := Box{Min: m.Box.Min.With(2, m.Bed+touch), Max: m.Box.Max.With(2, m.Bed+boardHigh)}
		left, right := way.Min.X-*v.Longest, way.Max.X+*v.Longest
		if w.Corner(0) != "" {
			left = max(left, 0)
		}
		if w.Corner(1) != "" {
			right = min(right, w.Length)
		}
		for _, x := range s.Solids {
			if x.Owner.ID == m.ID || x.Seat != nil && x.Seat.Kind == place.Machine && x.Seat.ID == m.ID {
				continue
			}
			for _, b := range x.parts(w) {
				if b.Max.Y <= way.Min.Y || b.Min.Y >= way.Max.Y || b.Max.Z <= way.Min.Z || b.Min.Z >= way.Max.Z {
					continue
				}
				if b.Max.X <= way.Min.X+touch {
					left = max(left, b.Max.X)
				} else if b.Min.X >= way.Max.X-touch {
					right = min(right, b.Min.X)
				}
			}
		}
		if free := right - left; free < *v.Longest {
			f.Add(finding.Finding{Code: LongWork, Severity: finding.Warning, Verdict: finding.Fails, At: at, Source: "the job", Demand: mm(*v.Longest), Capacity: mm(free), Unit: "mm",
				Text: fmt.Sprintf("%s works boards of %s; along its wall %s are free at its bed, from %s to %s.", m.Name, s.in(*v.Longest), s.in(free), s.in(left), s.in(right)),
				Hint: "Move it, lower what stands beside it, or say the longest board that you work there."})
		}
	}
}
