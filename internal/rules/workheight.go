package rules

import (
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/length"
	"stowright/internal/place"
)

// WorkHeight: a counter is higher or lower than the work that is done at it wants.
const WorkHeight finding.Code = "work-height"

const (
	heightSource = "NIOSH 97-117, tray 6-8: standing, precise work 37 to 43 in, light work 34 to 37 in, heavy work 28 to 35 in; for a grown person"
	rolledSource = "ADA 2010 902.3 (28 to 34 in; from memory)"
)

func workHeight() Rule {
	return Rule{
		Name: "work height", Codes: []finding.Code{WorkHeight},
		Doc:     "A counter that somebody stands at is as high as its work wants: precise work 37 to 43 in, light work 34 to 37 in, heavy work 28 to 35 in; where the job says that somebody uses a wheelchair, one that somebody sits at is 28 to 34 in high.",
		Source:  heightSource + "; with a wheelchair " + rolledSource,
		Example: "A bench of 42 in for heavy work.",
		Check:   checkWorkHeight,
	}
}

// workRange is how high a counter for a kind of work is; false where nothing published tells.
func workRange(work string, wheelchair bool) (lo, hi L, source string, ok bool) {
	const in = length.Inch
	switch {
	case wheelchair && work != "none" && work != "support" && work != "":
		return 28 * in, 34 * in, rolledSource, true
	case work == "standing-precise":
		return 37 * in, 43 * in, heightSource, true
	case work == "standing-light":
		return 34 * in, 37 * in, heightSource, true
	case work == "standing-heavy":
		return 28 * in, 35 * in, heightSource, true
	}
	return 0, 0, "", false
}

func checkWorkHeight(s *Scene) finding.List {
	var f finding.List
	for _, c := range s.Job.Counters {
		lo, hi, source, ok := workRange(c.Value.Work, s.Job.File.People.Wheelchair)
		seat := s.Room.Seat(c.ID)
		if !ok || seat == nil || seat.Kind != place.Counter {
			continue
		}
		has := seat.Top - seat.Level
		x := finding.Finding{Code: WorkHeight, Severity: finding.Note, Verdict: finding.Fails, At: "counter/" + c.ID, Source: source, Unit: "mm"}
		switch {
		case has > hi:
			x.Demand, x.Capacity = mm(has), mm(hi)
			x.Hint = fmt.Sprintf("It is %s too high: lower it, or stand on a platform.", s.in(has-hi))
		case has < lo:
			x.Demand, x.Capacity = mm(lo), mm(has)
			x.Hint = fmt.Sprintf("It is %s too low: raise it by that.", s.in(lo-has))
		default:
			continue
		}
		x.Text = fmt.Sprintf("%s is %s high; its work wants %s to %s for a grown person of usual height.", seat.Name, s.in(has), s.in(lo), s.in(hi))
		f.Add(x)
	}
	return f
}
