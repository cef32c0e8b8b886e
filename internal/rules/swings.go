package rules

import (
	"fmt"

	"stowright/internal/finding"
)

// MachineRoom: a machine has too little room to work.
const MachineRoom finding.Code = "machine-room"

func swings() Rule {
	return Rule{
		Name: "machines", Codes: []finding.Code{MachineRoom},
		Doc:     "The room that a machine needs to work, above its bed, holds nothing else.",
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
		if m.Swing.Empty() || w == nil {
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
