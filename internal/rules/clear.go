package rules

import (
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/part"
	"stowright/internal/place"
)

// Codes of the rule on keep-clear areas.
const (
	// BlocksClear: something stands in an area that must stay clear.
	BlocksClear finding.Code = "blocks-clear"
	// SwingsIntoClear: a door or drawer reaches into one while it is open.
	SwingsIntoClear finding.Code = "swings-into-clear"
	// OutletBehind: an outlet comes behind a case; its back gets an opening.
	OutletBehind finding.Code = "outlet-behind"
)

func keepClear() Rule {
	return Rule{
		Name: "keep-clear", Codes: []finding.Code{BlocksClear, SwingsIntoClear, OutletBehind},
		Doc:     "Areas that must stay clear do: nothing stands in them, and what opens does not stop there.",
		Source:  "the survey; for depths that it does not give, common practice, no source",
		Example: "A wall case hangs over an outlet that is not said to be allowed behind a case.",
		Check:   checkClear,
	}
}

func checkClear(s *Scene) finding.List {
	var f finding.List
	for i := range s.Room.Walls {
		w := &s.Room.Walls[i]
		for _, z := range w.Clear {
			if !z.Known || z.Kind == "electrical-panel" {
				continue
			}
			world := w.Frame.Box(z.Space)
			for _, x := range s.Solids {
				if x.Owner.Standing || s.Room.Wall(x.Owner.Wall) == nil || !world.Meets(x.World) {
					continue
				}
				if z.MayCut {
					if x.Seat != nil && len(x.Seat.Site.Cutouts) > 0 {
						f.Add(s.beforeOutlet(w, z, x)...)
						f.Add(finding.Finding{Code: OutletBehind, Severity: finding.Note, At: x.At, Source: "common practice, no source",
							Text: fmt.Sprintf("%s (%s) comes behind %s: its back gets an opening.", z.ID, z.Kind, x.Name), Hint: "Keep the opening in reach, and no goods against a plug."})
						continue
					}
					if !w.Frame.Box(z.Body).Grow(2 * touch).Meets(x.World) {
						continue
					}
				}
				d := apart(x.parts(w), []Box{z.Space}, x.ways())
				if d == 0 {
					continue
				}
				hint := fmt.Sprintf("Move it by %s, or run the row around: it.", s.in(d))
				if (z.Kind == "outlet" || z.Kind == "valve") && !z.MayCut {
					hint += " Or say may-be-behind: yes, and the back gets an opening."
				}
				sev := finding.Error
				if x.Owner.Moves {
					sev = finding.Warning
				}
				f.Add(finding.Finding{Code: BlocksClear, Severity: sev, Verdict: finding.Fails, At: x.At, Source: source(z), Demand: mm(d), Unit: "mm",
					Text: fmt.Sprintf("%s stands %s into the clear space of %s (%s on wall %s).", x.Name, s.in(d), z.ID, z.Kind, w.ID), Hint: hint})
			}
			for _, m := range s.Moves {
				if m.Wall != w.ID || z.Kind != "heater" && z.Kind != "vent" {
					continue
				}
				if d := sweep(m.Motion, z.Space); d > touch {
					f.Add(finding.Finding{Code: SwingsIntoClear, Severity: finding.Warning, Verdict: finding.Fails, At: m.At, Source: source(z), Demand: mm(d), Unit: "mm",
						Text: fmt.Sprintf("The %s opens %s into the clear space of %s (%s).", m.name(), s.in(d), z.ID, z.Kind), Hint: "Hinge it on the other side, or move the case."})
				}
			}
		}
	}
	return f
}

// beforeOutlet tells of boards of a case, other than its back and rails, which get an opening, that
// stand before what is to be reached through it: a side where two cases meet, a partition, a shelf.
func (s *Scene) beforeOutlet(w *place.Wall, z place.Zone, x Solid) finding.List {
	var f finding.List
	space := z.Space
	space.Min.X, space.Max.X = z.Body.Min.X, z.Body.Max.X
	space.Min.Z, space.Max.Z = z.Body.Min.Z, z.Body.Max.Z
	for _, p := range s.All.Parts {
		if p.Owner != x.Owner.ID || p.Moves != "" || p.Removable || p.Role == part.BackPanel || p.Role == part.HangRail || p.Role == part.Cleat || p.Role == part.WallCleat || p.Role == part.Ledger {
			continue
		}
		boxes := []Box{p.Box()}
		if x.Owner.Wall != w.ID || !meet(boxes, []Box{space}) {
			continue
		}
		d := apart(boxes, []Box{space}, x.ways())
		f.Add(finding.Finding{Code: BlocksClear, Severity: finding.Error, Verdict: finding.Fails, At: x.At, Source: source(z), Demand: mm(d), Unit: "mm",
			Text: fmt.Sprintf("The %s of %s stands before %s (%s on wall %s): the opening in the back does not reach it.", p.Name, x.Name, z.ID, z.Kind, w.ID), Hint: fmt.Sprintf("Move the case by %s.", s.in(d))})
	}
	return f
}

func source(z place.Zone) string {
	if z.Source == "" {
		return "the survey"
	}
	return z.Source
}
