package rules

import (
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/length"
)

// FrontHidden: most of a case's front is behind something else that does not move.
const FrontHidden finding.Code = "front-hidden"

// reachIn is how much free floor or air before a front a hand needs to get at what is behind it (common practice, no source).
const reachIn = 12 * length.Inch

func blind() Rule {
	return Rule{
		Name: "blind", Codes: []finding.Code{FrontHidden},
		Doc:     "At least half of the front of every case has a foot of free room before it: what stands round the corner does not hide it.",
		Source:  "common practice, no source",
		Example: "A run that goes through to the corner, and the run on the other wall that begins where its fronts are.",
		Check:   checkBlind,
	}
}

func checkBlind(s *Scene) finding.List {
	var f finding.List
	for _, x := range s.Solids {
		if x.Owner.Kind != "case" || x.Owner.Moves || s.Room.Wall(x.Owner.Wall) == nil {
			continue
		}
		front := geom.B(x.Box.Min.X, x.Box.Min.Y-reachIn, x.Box.Min.Z, x.Box.Max.X, x.Box.Min.Y, x.Box.Max.Z)
		world := x.Frame.Box(front)
		for _, o := range s.Solids {
			if o.Owner.ID == x.Owner.ID || o.Owner.Moves || o.Owner.Kind != "case" && !o.Owner.Standing || o.Owner.Wall == x.Owner.Wall || !o.World.Meets(world) {
				continue
			}
			lo, hi := front.Max.X, front.Min.X
			low, high := front.Max.Z, front.Min.Z
			for _, b := range x.Frame.See(o.Frame, o.Box) {
				if c := b.And(front); overlap(b, front) > touch {
					lo, hi, low, high = min(lo, c.Min.X), max(hi, c.Max.X), min(low, c.Min.Z), max(high, c.Max.Z)
				}
			}
			wide, tall := front.Max.X-front.Min.X, front.Max.Z-front.Min.Z
			if 2*(hi-lo) <= wide || 2*(high-low) <= tall {
				continue
			}
			free := wide - (hi - lo)
			f.Add(finding.Finding{Code: FrontHidden, Severity: finding.Warning, Verdict: finding.Fails, At: x.At, Source: "common practice, no source", Demand: mm(wide / 2), Capacity: mm(free), Unit: "mm",
				Text: fmt.Sprintf("%s hides %s of the front of %s, which is %s wide: what is in it is reached through %s.", o.Name, s.in(hi-lo), x.Name, s.in(wide), s.in(free)),
				Hint: "Leave the corner empty (space: in the order of its run), or begin one of the two runs further from the corner."})
		}
	}
	return f
}
