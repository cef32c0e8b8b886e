package rules

import (
	"fmt"

	"stowright/internal/finding"
)

// BlocksOpening: something stands before a window or door.
const BlocksOpening finding.Code = "blocks-opening"

func openings() Rule {
	return Rule{
		Name: "openings", Codes: []finding.Code{BlocksOpening},
		Doc:     "Nothing stands before a window or a door, or over its casing.",
		Source:  "common practice, no source",
		Example: "A wall case from 55 in to 80 in up reaches 6 in over a window that starts at 62 in along.",
		Check:   checkOpenings,
	}
}

func checkOpenings(s *Scene) finding.List {
	var f finding.List
	for i := range s.Room.Walls {
		w := &s.Room.Walls[i]
		for _, o := range w.Openings {
			space := o.Box
			space.Min.X -= o.Casing
			space.Max.X += o.Casing
			if o.Kind != "window" || o.Casing > 0 {
				space.Max.Z += o.Casing
			}
			space.Min.Y, space.Max.Y = -before(o.Kind), 1
			for _, x := range s.Solids {
				if s.Room.Wall(x.Owner.Wall) == nil || x.Owner.Standing {
					continue
				}
				parts := x.parts(w)
				if !meet(parts, []Box{space}) {
					continue
				}
				lo, hi := space.Max.X, space.Min.X
				for _, p := range parts {
					if overlap(p, space) > touch {
						lo, hi = min(lo, max(p.Min.X, space.Min.X)), max(hi, min(p.Max.X, space.Max.X))
					}
				}
				d := hi - lo
				sev := finding.Error
				if x.Owner.Moves {
					sev = finding.Warning
				}
				f.Add(finding.Finding{Code: BlocksOpening, Severity: sev, Verdict: finding.Fails, At: x.At, Source: "common practice, no source", Demand: mm(d), Unit: "mm",
					Text: fmt.Sprintf("%s covers %s of %s (%s on wall %s, %s to %s along, casing included).", x.Name, s.in(d), o.ID, o.Kind, w.ID, s.in(space.Min.X), s.in(space.Max.X)),
					Hint: fmt.Sprintf("Move it by %s.", s.in(apart(parts, []Box{space}, x.ways())))})
			}
		}
	}
	return f
}
