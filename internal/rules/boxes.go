package rules

import (
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/place"
)

// Clash: two things are to take the same room.
const Clash finding.Code = "clash"

func boxes() Rule {
	return Rule{
		Name: "boxes", Codes: []finding.Code{Clash},
		Doc:     "No two cases, counters, bases, hutches, machines or standing things share space.",
		Source:  "geometry",
		Example: "A run of 60 in starts 10 in before the end of a standing cupboard.",
		Check:   checkBoxes,
	}
}

func checkBoxes(s *Scene) finding.List {
	var f finding.List
	for i := range s.Solids {
		for k := i + 1; k < len(s.Solids); k++ {
			a, b := s.Solids[i], s.Solids[k]
			if !a.World.Meets(b.World) || a.under(b) || b.under(a) || !meet(a.Parts, a.Frame.See(b.Frame, b.Parts...)) {
				continue
			}
			d := s.clear(a, b)
			sev := finding.Error
			if a.Owner.Moves || b.Owner.Moves {
				sev = finding.Warning
			}
			if a.Owner.Standing && b.Owner.Standing {
				sev = finding.Note // as surveyed: perhaps a plinth under a counter
			}
			f.Add(finding.Finding{Code: Clash, Severity: sev, Verdict: finding.Fails, At: a.At, Source: "geometry", Demand: mm(d), Unit: "mm",
				Text: fmt.Sprintf("%s and %s take the same room%s: they are clear of each other when one is moved by %s.", a.Name, b.Name, s.whereBetween(a, b), s.in(d)),
				Hint: fmt.Sprintf("Move one of them by %s, or make it smaller.", s.in(d))})
		}
	}
	return f
}

// clear gives how far one of two that meet must be moved along its wall, or up or down when
// it hangs, to be clear of the other: the less of the two.
func (s *Scene) clear(a, b Solid) L {
	best := L(place.Far)
	for _, x := range [2]struct{ it, other Solid }{{a, b}, {b, a}} {
		if x.it.Owner.Standing && !x.other.Owner.Standing {
			continue // it stays
		}
		best = min(best, apart(x.it.Parts, x.it.Frame.See(x.other.Frame, x.other.Parts...), x.it.ways()))
	}
	return best
}

// under reports pairs that are measured as one: a standing counter and the standing cases
// under it, a case in the knee space of its counter, a machine on its counter.
func (a Solid) under(b Solid) bool {
	if a.Seat == nil || b.Seat == nil {
		return false
	}
	return a.Owner.Standing && b.Owner.Standing && a.Seat.Kind == place.Standing && b.Seat.Kind == place.Standing && a.Box.Max.Z >= b.Box.Min.Z && a.Box.Max.Z <= b.Box.Max.Z
}

func (s *Scene) whereBetween(a, b Solid) string {
	if a.Owner.Wall != b.Owner.Wall {
		return ", on walls " + a.Owner.Wall + " and " + b.Owner.Wall
	}
	c := a.Box.And(b.Box)
	if c.Empty() {
		return ""
	}
	return fmt.Sprintf(", from %s to %s along", s.in(c.Min.X), s.in(c.Max.X))
}
