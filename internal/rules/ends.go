package rules

import (
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/place"
)

// PastWall: something reaches past the end of its wall.
const PastWall finding.Code = "past-wall"

func ends() Rule {
	return Rule{
		Name: "ends", Codes: []finding.Code{PastWall},
		Doc:     "Nothing reaches past the ends of its wall, nor into a wall that meets it at less than a right angle.",
		Source:  "geometry",
		Example: "A counter with 1 in over its left end starts at the corner.",
		Check:   checkEnds,
	}
}

func checkEnds(s *Scene) finding.List {
	var f finding.List
	for _, x := range s.Solids {
		w := s.Room.Wall(x.Owner.Wall)
		if w == nil || x.Owner.Moves || x.Seat != nil && x.Seat.Kind == place.Filler {
			continue // a filler has its scribe on it
		}
		for end, d := range [2]L{-x.Box.Min.X, x.Box.Max.X - w.Length} {
			into := max(s.Room.Into(w, end, -x.Box.Min.Y), s.Room.Into(w, end, max(0, -x.Box.Max.Y)))
			if into > 0 && d <= 0 && d+into > 0 {
				d += into
				f.Add(finding.Finding{Code: PastWall, Severity: finding.Error, Verdict: finding.Fails, At: x.At, Source: "geometry", Demand: mm(d), Unit: "mm",
					Text: fmt.Sprintf("%s reaches %s into wall %s: their corner is narrower than a right angle, and %s out the wall stands %s into this one's stretch.", x.Name, s.in(d), w.Corner(end), s.in(-x.Box.Min.Y), s.in(into)),
					Hint: fmt.Sprintf("Move it %s further from the corner.", s.in(d))})
				continue
			}
			if d <= 0 {
				continue
			}
			f.Add(finding.Finding{Code: PastWall, Severity: finding.Error, Verdict: finding.Fails, At: x.At, Source: "geometry", Demand: mm(d), Unit: "mm",
				Text: fmt.Sprintf("%s reaches %s past the %s end of wall %s.", x.Name, s.in(d), [2]string{"left", "right"}[end], w.ID), Hint: fmt.Sprintf("Move it in or make it %s shorter.", s.in(d))})
		}
	}
	return f
}
