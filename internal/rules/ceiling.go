package rules

import (
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/length"
)

// OverCeiling: something is higher than the ceiling over it.
const OverCeiling finding.Code = "over-ceiling"

// before gives how far out from an opening nothing may stand: a hand's breadth at a window, a
// step at a door.
func before(kind string) L {
	if kind == "window" || kind == "hatch" {
		return 4 * length.Inch
	}
	return 24 * length.Inch
}

func ceiling() Rule {
	return Rule{
		Name: "ceiling", Codes: []finding.Code{OverCeiling},
		Doc:     "Everything is under the ceiling, sloped or not.",
		Source:  "geometry",
		Example: "A case 2 100 mm high at 4 000 along a wall whose ceiling falls from 2 600 to 1 950.",
		Check:   checkCeiling,
	}
}

func checkCeiling(s *Scene) finding.List {
	var f finding.List
	for _, x := range s.Solids {
		w := s.Room.Wall(x.Owner.Wall)
		if w == nil || x.Owner.Standing {
			continue
		}
		z, ok := w.LowestCeiling(max(0, x.Box.Min.X), max(0, min(x.Box.Max.X, w.Length)))
		if d := x.Box.Max.Z - z; ok && d > 0 {
			f.Add(finding.Finding{Code: OverCeiling, Severity: finding.Error, Verdict: finding.Fails, At: x.At, Source: "geometry", Demand: mm(x.Box.Max.Z), Capacity: mm(z), Unit: "mm",
				Text: fmt.Sprintf("%s is %s high over the floor at the left end; the ceiling of wall %s comes down to %s over it: it lacks %s.", x.Name, s.in(x.Box.Max.Z), w.ID, s.in(z), s.in(d)),
				Hint: fmt.Sprintf("Make it %s lower, or move it to where the ceiling is higher.", s.in(d))})
		}
	}
	return f
}
