package rules

import (
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/length"
	"stowright/internal/place"
)

// Codes of the rule on the ceiling.
const (
	// OverCeiling: something is higher than the ceiling over it.
	OverCeiling finding.Code = "over-ceiling"
	// TiltRoom: a case that was built lying cannot be stood up under the ceiling.
	TiltRoom finding.Code = "tilt-room"
)

// before gives how far out from an opening nothing may stand: a foot at a window, for light and to open it; a step at a
// door or hatch, for whoever goes through (common practice, no source).
func before(kind string) L {
	if kind == "window" {
		return 12 * length.Inch
	}
	return 24 * length.Inch
}

func ceiling() Rule {
	return Rule{
		Name: "ceiling", Codes: []finding.Code{OverCeiling, TiltRoom},
		Doc:     "Everything is under the ceiling, sloped or not, and a case that is built lying on its back can be stood up.",
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
		if ok {
			f.Add(s.tilts(x)...)
		}
		if d := x.Box.Max.Z - z; ok && d > 0 {
			f.Add(finding.Finding{Code: OverCeiling, Severity: finding.Error, Verdict: finding.Fails, At: x.At, Source: "geometry", Demand: mm(x.Box.Max.Z), Capacity: mm(z), Unit: "mm",
				Text: fmt.Sprintf("%s is %s high over the floor at the left end; the ceiling of wall %s comes down to %s over it: it lacks %s.", x.Name, s.in(x.Box.Max.Z), w.ID, s.in(z), s.in(d)),
				Hint: fmt.Sprintf("Make it %s lower, or move it to where the ceiling is higher.", s.in(d))})
		}
	}
	return f
}

// tilts holds the diagonal of a case's carcass, which comes upright on its rear lower edge, against
// the highest ceiling of the room.
func (s *Scene) tilts(x Solid) finding.List {
	if x.Owner.Kind != "case" || x.Owner.Standing || x.Owner.Hung {
		return nil
	}
	high := L(0)
	for i := range s.Room.Walls {
		w := &s.Room.Walls[i]
		for _, at := range [2]L{0, w.Length} {
			if z, ok := w.CeilingAt(at); ok {
				high = max(high, z-w.FloorAt(at, 0))
			}
		}
	}
	size := x.Owner.Carcass.Size()
	need := place.Reach(size.Z, size.Y)
	if need <= high || size.Z > high { // one that is too high is told of already
		return nil
	}
	return finding.List{{Code: TiltRoom, Severity: finding.Warning, Verdict: finding.Fails, At: x.At, Source: "geometry", Demand: mm(need), Capacity: mm(high), Unit: "mm",
		Text: fmt.Sprintf("%s, %s high and %s deep, measures %s from corner to corner: built lying, it does not come upright under a ceiling of %s.", x.Name, s.in(size.Z), s.in(size.Y), s.in(need), s.in(high)),
		Hint: "Assemble it standing in its place, put its base or feet on afterwards, or make it in two."}}
}
