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

// A person in a wheelchair: ADA 2010 306.3.5 (30 in wide), 306.3.3 (the space goes up to 27 in, where
// it is 8 in deep or more, and is 11 in deep or more from 9 in down) and 306.2.3 (17 in deep at the
// floor). The space under a counter is as deep everywhere, so that the greatest counts.
const (
	rollWide = 30 * length.Inch
	rollHigh = 27 * length.Inch
	rollDeep = 17 * length.Inch
)

const rollSource = "ADA 2010 306.2, 306.3"

func sitting() Rule {
	return Rule{
		Name: "sitting", Codes: []finding.Code{KneeRoom},
		Doc:     "Where somebody sits, the space under the counter is 24 in wide, 24 in high and 17 in deep or more; where the job says that somebody uses a wheelchair, every knee space is 30 in wide, 27 in high and 17 in deep or more.",
		Source:  "common practice, no source; with a wheelchair " + rollSource,
		Example: "A knee space of 20 in between two cases where somebody is to sit.",
		Check:   checkSitting,
	}
}

func checkSitting(s *Scene) finding.List {
	var f finding.List
	wide, high, deep, source := L(kneeWide), L(kneeHigh), L(kneeDeep), "common practice, no source"
	rolls := s.Job.File.People.Wheelchair
	if rolls {
		wide, high, deep, source = rollWide, rollHigh, rollDeep, rollSource
	}
	for i := range s.Room.Seats {
		c := &s.Room.Seats[i]
		for _, k := range c.Knees {
			if k.Gap || !k.Want.Sits && (!rolls || k.Want.For != "") {
				continue // where a case rolls in nobody sits
			}
			lack := func(what string, has, wants L) {
				if has < wants {
					f.Add(finding.Finding{Code: KneeRoom, Severity: finding.Warning, Verdict: finding.Fails, At: "counter/" + c.ID, Source: source, Demand: mm(wants), Capacity: mm(has), Unit: "mm",
						Text: fmt.Sprintf("The space to sit at under %s, from %s to %s along, is %s %s; knees want %s.", c.Name, s.in(k.From), s.in(k.To), s.in(has), what, s.in(wants)), Hint: fmt.Sprintf("It lacks %s.", s.in(wants-has))})
				}
			}
			lack("wide", k.To-k.From, wide)
			lack("high under its rails", k.Clear, high)
			lack("deep", c.Rear-c.Box.Min.Y, deep)
		}
	}
	return f
}
