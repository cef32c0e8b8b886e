package rules

import (
	"cmp"
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/job"
	"stowright/internal/length"
	"stowright/internal/place"
)

// FamilyBreak: a member of a family has a size of its own.
const FamilyBreak finding.Code = "family-break"

func families() Rule {
	return Rule{
		Name: "families", Codes: []finding.Code{FamilyBreak},
		Doc:     "Members of a family share its sizes, so that each can stand beside, above or in place of any other: width step, depth, top line, foot height, board and front grid.",
		Source:  "the job's family",
		Example: "A case 18 in deep in a family of 18-1/2 in stands back 1/2 in from its neighbour.",
		Check:   checkFamilies,
	}
}

// meant: a size that differs by more is another kind of case on purpose, a tall one or one to sit
// at; one that differs by less reads as a slip.
const meant = 2 * length.Inch

func checkFamilies(s *Scene) finding.List {
	var f finding.List
	for _, c := range s.Job.Cases {
		fam, ok := s.Job.Shared(c)
		if !ok {
			continue
		}
		seat := s.Room.Seat(c.ID)
		if seat == nil || c.Case.Gap != nil || seat.Reserve != "" {
			continue // its place gives its size
		}
		at := "case/" + c.ID
		beside := ""
		if n := s.member(c, cmp.Or(seat.Left, seat.Right)); n != "" {
			beside = " beside " + n
		}
		breaks := func(what string, has, wants L) {
			if has == wants {
				return
			}
			from := ""
			if what == "top line" {
				from = ", measured from the floor's high point,"
			}
			x := finding.Finding{Code: FamilyBreak, Severity: finding.Warning, Verdict: finding.Fails, At: at, Source: "family " + c.Family, Demand: mm((has - wants).Abs()), Unit: "mm",
				Text: fmt.Sprintf("The %s of %s is %s; family %s has %s: it differs by %s%s.", what+from, seat.Name, s.in(has), c.Family, s.in(wants), s.in((has - wants).Abs()), beside),
				Hint: fmt.Sprintf("Leave out its own %s, or take it out of the family.", what)}
			if (has - wants).Abs() > meant {
				x.Severity, x.Verdict, x.Demand = finding.Note, finding.None, 0 // no check that could hold
			}
			if what == frontWithGap {
				step, gap := *fam.FrontGrid, s.Job.PracticeFor(c).FrontGap
				low := has / step * step
				x.Hint = fmt.Sprintf("On this grid of %s a front is %s or %s high, and its gap of %s more: give its drawers such heights:, or make the case higher or lower.", s.in(step), s.in(low-gap), s.in(low+step-gap), s.in(gap))
			}
			f.Add(x)
		}
		sp := seat.Spec
		if fam.Step != nil && *fam.Step > 0 {
			breaks("width", *sp.Width, sp.Width.Near(*fam.Step))
		}
		hung := seat.Hung
		switch {
		case hung && fam.WallDepth != nil:
			breaks("depth", *sp.Depth, *fam.WallDepth)
		case !hung && fam.Depth != nil:
			breaks("depth", *sp.Depth, *fam.Depth)
		}
		if hung && fam.WallHeight != nil {
			breaks("height", *sp.Height, *fam.WallHeight)
		}
		if hung && fam.WallTop != nil && seat.Run == "" {
			breaks("top line", seat.Top-seat.Level, *fam.WallTop)
		}
		if !hung && fam.TopLine != nil {
			breaks("top line", seat.Top-seat.Level, *fam.TopLine)
		}
		if !hung && fam.Stands != nil && fam.Stands.Height != nil && sp.Stands.Height != nil && sp.Stands.Kind == fam.Stands.Kind {
			breaks("foot height", *sp.Stands.Height, *fam.Stands.Height)
		}
		if fam.FrontGrid != nil && *fam.FrontGrid > 0 {
			s.frontGrid(c, *fam.FrontGrid, breaks)
		}
	}
	return f
}

const frontWithGap = "front with its gap"

// frontGrid holds heights of fronts with their gap against the family's grid: the worst is told.
func (s *Scene) frontGrid(c job.CheckedCase, grid L, breaks func(string, L, L)) {
	gap := s.Job.PracticeFor(c).FrontGap
	worst, has, wants := L(0), L(0), L(0)
	for _, tall := range s.fronts[c.ID] {
		h := tall + gap
		if d := (h - h.Near(grid)).Abs(); d > worst && d > touch {
			worst, has, wants = d, h, h.Near(grid)
		}
	}
	if worst > 0 {
		breaks(frontWithGap, has, wants)
	}
}

// member gives the name of a neighbour of the same family.
func (s *Scene) member(c job.CheckedCase, id string) string {
	for _, o := range s.Job.Cases {
		if o.ID == id {
			if seat := s.Room.Seat(id); seat != nil && seat.Kind == place.Case {
				return seat.Name
			}
		}
	}
	return ""
}
