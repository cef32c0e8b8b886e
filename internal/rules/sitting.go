package rules

import (
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/length"
)

// KneeRoom: a space to sit at is too narrow, too low or too shallow for knees.
const KneeRoom finding.Code = "knee-room"

// A person who sits (common practice, no source).
const (
	kneeWide = 24 * length.Inch
	kneeHigh = 24 * length.Inch
	kneeDeep = 17 * length.Inch
)

func sitting() Rule {
	return Rule{
		Name: "sitting", Codes: []finding.Code{KneeRoom},
		Doc:     "Where somebody sits, the space under the counter is 24 in wide, 24 in high and 17 in deep or more.",
		Source:  "common practice, no source",
		Example: "A knee space of 20 in between two cases where somebody is to sit.",
		Check:   checkSitting,
	}
}

func checkSitting(s *Scene) finding.List {
	var f finding.List
	for i := range s.Room.Seats {
		c := &s.Room.Seats[i]
		for _, k := range c.Knees {
			if !k.Want.Sits {
				continue
			}
			lack := func(what string, has, wants L) {
				if has < wants {
					f.Add(finding.Finding{Code: KneeRoom, Severity: finding.Warning, Verdict: finding.Fails, At: "counter/" + c.ID, Source: "common practice, no source", Demand: mm(wants), Capacity: mm(has), Unit: "mm",
						Text: fmt.Sprintf("The space to sit at under %s, from %s to %s along, is %s %s; knees want %s.", c.Name, s.in(k.From), s.in(k.To), s.in(has), what, s.in(wants)), Hint: fmt.Sprintf("It lacks %s.", s.in(wants-has))})
				}
			}
			lack("wide", k.To-k.From, kneeWide)
			lack("high under its rails", k.Clear, kneeHigh)
			lack("deep", c.Rear-c.Box.Min.Y, kneeDeep)
		}
	}
	return f
}
