package strength

import (
	"fmt"
	"math"

	"stowright/internal/finding"
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
		worst := finding.Finding{}
		for _, x := range s.held(o.ID) {
			p := s.parts[x.Part]
			fast, _, ok := s.screw(x.Screw)
			if x.Kind != part.ToStud || p == nil || !ok {
				continue // its screw is said with its fixing
			}
			d := fast.Spacing(true, false)
			b := p.Box()
			try := func(what string, wants, has float64) {
				if y := (finding.Finding{Demand: wants, Capacity: math.Max(has, wants/10)}); y.Ratio() > worst.Ratio() {
					worst = finding.Finding{Code: ScrewEdge, At: s.at(o.ID, ""), Demand: wants, Capacity: math.Max(has, wants/10), Unit: "mm", Source: edgeSource,
						Text: fmt.Sprintf("A wall screw of %s, at %s along, stands %s from the %s; %s is advised.", o.Name, s.long(mm(x.At.X)), s.long(has), what, s.long(wants))}
				}
			}
			try("end of "+s.name(p), d.EndAway, mm(min(x.At.X-b.Min.X, b.Max.X-x.At.X)))
			try("edge of "+s.name(p), d.LoadedEdge, mm(min(x.At.Z-b.Min.Z, b.Max.Z-x.At.Z)))
			if w := s.Room.Wall(x.Wall); w != nil {
				for _, st := range w.Studs {
					if st.ID == x.Stud && st.Width > 0 {
						try("edge of "+st.ID, d.Edge, mm(st.Width/2-(x.At.X-st.At).Abs()))
					}
				}
			}
		}
		if worst.Code == "" {
			continue
		}
		worst = verdict(worst, finding.Warning)
		if worst.Verdict == finding.Near {
			worst.Verdict = finding.Holds // an advised distance that is reached is reached
		}
		worst.Working = []string{worst.Text}
		if worst.Verdict == finding.Fails {
			worst.Hint = fmt.Sprintf("Move the case by %s, so that it stands further in, or take a thinner screw, wall-screw: under practice:.", s.long(worst.Demand-worst.Capacity))
		}
		f.Add(worst)
	}
	return f
}
