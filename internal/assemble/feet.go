package assemble

import (
	"fmt"
	"slices"

	"stowright/internal/finding"
	"stowright/internal/part"
	"stowright/internal/place"
)

// What stands on the floor, and the shims under it and behind what is packed out.

// feet gives every foot, castor and shim its height from the floor under it.
func (w *work) feet(s *place.Seat, a *part.Assembly) {
	wall := w.room.Wall(s.Wall)
	at := string(s.Kind) + "/" + s.ID
	if wall == nil { // of a floor that nobody has surveyed nothing is known
		for i := range a.Feet {
			a.Feet[i].Unsure = true
		}
		w.shims(s, a)
		a.Feet = slices.DeleteFunc(a.Feet, func(f part.Foot) bool { return f.Kind == "shim" })
	}
	// Of several points that are wrong in one way the worst is told, and how many there are.
	worst := map[finding.Code]*wrongPoint{}
	tell := func(by L, f finding.Finding) {
		if p := worst[f.Code]; p == nil {
			worst[f.Code] = &wrongPoint{by, 1, f}
		} else if p.n++; by > p.by {
			p.by, p.it = by, f
		}
	}
	for i := range a.Feet {
		f := &a.Feet[i]
		floor := L(0)
		if wall != nil {
			floor = wall.FloorAt(min(max(0, f.At.X), wall.Length), min(0, f.At.Y))
		}
		f.Unsure = wall != nil && !wall.FloorKnown
		if s.Kind == place.Base && f.Height != 0 {
			continue // the base was given the floor and has judged its own
		}
		f.Height = f.At.Z - floor
		most := w.job.Practice.ShimMost
		switch {
		case f.Kind == "castor":
			// A castor is as high as it is: the case rocks where the floor is not level under it.
			if d := (f.Height - f.Least).Abs(); f.Least > 0 && d > rocks {
				tell(d, finding.Finding{Code: FootRange, Severity: finding.Warning, Verdict: finding.Fails, At: at, Source: "arithmetic from the surveyed floor", Demand: mm(d), Capacity: mm(rocks), Unit: "mm",
					Text: fmt.Sprintf("The floor under the castor of %s at %s along and %s out is %s off level: it rocks.", s.Name, w.in(f.At.X), w.in(-f.At.Y), w.in(d)), Hint: "Pack that castor, or park it where the floor is level."})
			}
			f.Height = f.Least
		case f.Kind == "shim":
			if most > 0 && f.Height > most {
				hint := "Rip the base to a taper, or step it."
				if s.Kind == place.Case {
					hint = "Scribe its sides and toe board to the floor, or stand it on feet or a separate base."
				}
				tell(f.Height, finding.Finding{Code: ShimMost, Severity: finding.Warning, Verdict: finding.Fails, At: at, Source: "common practice, no source", Demand: mm(f.Height), Capacity: mm(most), Unit: "mm",
					Text: fmt.Sprintf("A shim of %s is needed under %s at %s along and %s out; %s is the most.", w.in(f.Height), s.Name, w.in(f.At.X), w.in(-f.At.Y), w.in(most)), Hint: hint})
			}
		case wall == nil: // on a level floor it is the carcass that says whether its feet reach
		case f.Greatest > 0 && f.Height > f.Greatest, f.Least > 0 && f.Height < f.Least:
			d, edge, how := f.Height-f.Greatest, f.Greatest, "more than its greatest"
			hint := "Take a longer foot, make the height of what it stands on less by as much, or block it up."
			if f.Height < f.Least {
				d, edge, how = f.Least-f.Height, f.Least, "less than its least"
				hint = "Take a shorter foot, or make the height of what it stands on more by as much."
			}
			tell(d, finding.Finding{Code: FootRange, Severity: finding.Error, Verdict: finding.Fails, At: at, Source: "arithmetic from the surveyed floor", Demand: mm(f.Height), Capacity: mm(edge), Unit: "mm",
				Text: fmt.Sprintf("The %s of %s at %s along and %s out must be %s high, %s by %s (%s to %s).", f.Kind, s.Name, w.in(f.At.X), w.in(-f.At.Y), w.in(f.Height), how, w.in(d), w.in(f.Least), w.in(f.Greatest)),
				Hint: hint})
		}
	}
	if wall != nil {
		w.shims(s, a)
	}
	for _, code := range []finding.Code{FootRange, ShimMost} {
		if p := worst[code]; p != nil {
			if p.n > 1 {
				p.it.Text += fmt.Sprintf(" It is the worst of %d.", p.n)
			}
			w.found.Add(p.it)
		}
	}
}

// shims lists the tapered shims under the points of an owner that need them: a pair makes up what is under one
// point, or under one leg.
func (w *work) shims(s *place.Seat, a *part.Assembly) {
	n := 0
	for _, f := range a.Feet {
		if f.Kind == "shim" && (f.Height >= part.ShimLeast || f.Unsure) {
			n++
		}
	}
	for _, p := range a.Parts { // of a bench on its legs
		if p.Role == part.Leg && len(a.Feet) == 0 {
			n++
		}
	}
	w.packs(s, a, 2*n, "levelling", "")
}

// packs lists so many tapered shims, or flat packers, use: packing.
func (w *work) packs(s *place.Seat, a *part.Assembly, n int, purpose, use string) {
	if n == 0 {
		return
	}
	id := "shim"
	for _, h := range w.job.Catalogue.Hardware {
		if h.Kind == "shim" && h.Use == use {
			id = h.ID
			break
		}
	}
	a.Hardware = append(a.Hardware, part.Item{Owner: s.ID, ID: id, Kind: "shim", Count: n, For: purpose, Stage: s.Stage})
}

// wrongPoint is the worst of the points of one owner that a finding is about.
type wrongPoint struct {
	by L
	n  int
	it finding.Finding
}
