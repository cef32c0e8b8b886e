package strength

import (
	"fmt"
	"math"

	"stowright/internal/finding"
	"stowright/internal/length"
	"stowright/internal/part"
)

// ScrewEdge: a wall screw stands too near to an end or an edge of its rail or its stud.
const ScrewEdge finding.Code = "wall-screw-edge"

const edgeSource = "NDS 2018 commentary C12.1 (below 1/4 in, bored: edge 2.5 D, end 5 D), Tables 12.5.1A to C (from 1/4 in: edge 4 D and 1.5 D, end 4 D)"

func edges() Rule {
	return Rule{Name: "screw edges", Codes: []finding.Code{ScrewEdge},
		Doc:     "A screw in a stud stands far enough from the ends and edges of its rail, and from the edges of its stud, in bored holes. The worst of a case's screws is told.",
		Source:  edgeSource,
		Example: "A screw 10 mm from the end of a rail.",
		Run:     checkEdges}
}

func checkEdges(s *Scene) finding.List {
	var f finding.List
	for i := range s.All.Owners {
		o := &s.All.Owners[i]
		if o.Standing {
			continue
		}
		worst, by, dia := finding.Finding{}, L(0), 0.0 // by is how far the case would go to the right to mend it
		for _, x := range s.held(o.ID) {
			p := s.parts[x.Part]
			fast, _, ok := s.screw(x.Screw)
			if x.Kind != part.ToStud || p == nil || !ok {
				continue // its screw is said with its fixing
			}
			d := fast.Spacing(true, false)
			b := p.Box()
			try := func(what string, wants, has float64, right L) {
				if y := (finding.Finding{Demand: wants, Capacity: math.Max(has, wants/10)}); y.Ratio() > worst.Ratio() {
					worst = finding.Finding{Code: ScrewEdge, At: s.at(o.ID, ""), Demand: wants, Capacity: math.Max(has, wants/10), Unit: "mm", Source: edgeSource,
						Text: fmt.Sprintf("A wall screw of %s, at %s along, stands %s from the %s; %s is advised.", o.Name, s.long(mm(x.At.X)), s.long(has), what, s.long(wants))}
					by, dia = right, fast.D
				}
			}
			in := min(x.At.X-b.Min.X, b.Max.X-x.At.X)
			more := L(d.EndAway*float64(length.MM)) - in + length.MM/10
			if x.At.X-b.Min.X < b.Max.X-x.At.X {
				more = -more
			}
			try("end of "+s.name(p), d.EndAway, mm(in), more)
			try("edge of "+s.name(p), d.LoadedEdge, mm(min(x.At.Z-b.Min.Z, b.Max.Z-x.At.Z)), 0)
			if w := s.Room.Wall(x.Wall); w != nil {
				for _, st := range w.Studs {
					if st.ID == x.Stud && st.Width > 0 {
						try("edge of "+st.ID, d.Edge, mm(st.Width/2-(x.At.X-st.At).Abs()), st.At-x.At.X)
					}
				}
			}
		}
		if worst.Code == "" {
			continue
		}
		worst = verdict(worst, finding.Warning)
		worst.Working = []string{worst.Text}
		if worst.Verdict == finding.Fails {
			worst.Hint = hint(s.further(o, by, worst.Ratio(), dia))
		}
		f.Add(worst)
	}
	return f
}

// further are the ways to have a screw further from an edge: the case, where it stands alone, moved so far to the right
// that its screws stand in their studs and rails as advised; or a thinner screw that still holds it.
func (s *Scene) further(o *part.Owner, by L, ratio, dia float64) (words []string) {
	if by != 0 && s.alone(o.ID) && s.vacant(o, o.Carcass.Min.X+by, o.Carcass.Max.X+by) {
		r := 0.0
		for _, x := range s.held(o.ID) {
			p := s.parts[x.Part]
			fast, _, ok := s.screw(x.Screw)
			if p != nil && ok {
				in := min(x.At.X-p.Box().Min.X-by, p.Box().Max.X+by-x.At.X)
				r = math.Max(r, fast.Spacing(true, false).EndAway/math.Max(mm(in), 0.1))
			}
		}
		if r <= 1 {
			words = append(words, fmt.Sprintf("move the case %s to the %s, at: %s (ratio %.2f)", s.long(mm(by.Abs())), map[bool]string{true: "right", false: "left"}[by > 0], s.long(mm(o.Carcass.Min.X+by)), r))
		}
	}
	if t := s.thinner(o, ratio, dia); t != "" {
		words = append(words, t)
	}
	return words
}
