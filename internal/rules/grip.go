package rules

import (
	"fmt"
	"math"
	"slices"

	"stowright/internal/finding"
	"stowright/internal/joinery"
	"stowright/internal/part"
)

// ShortScrew: screws of a joint reach less than six diameters into the last board.
const ShortScrew finding.Code = "short-screw"

func grip() Rule {
	return Rule{
		Name: "grip", Codes: []finding.Code{ShortScrew},
		Doc:     "A screw that reaches less than six diameters into the last board of its joint has no published value for what it carries across its length. That is no fault where glue or what it lies on carries; how many there are is told once for each case, counter, base and hutch, and where such a joint must carry it is judged by itself.",
		Source:  "NDS 2018 12.1.4 to 12.1.6 (least penetration)",
		Example: "A screw number 8 of 1 1/4 in through 3/4 in.",
		Check:   checkGrip,
	}
}

// Reach is how far the screws of a joint go into its last board, and what six diameters are; false where the joint
// has none whose size is known.
func Reach(j part.Joint, a, b part.Part, dia, long L) (into, least L, ok bool) {
	if j.Count == 0 || dia <= 0 || long <= 0 || !slices.Contains([]part.JointKind{part.WoodScrew, part.Undone, part.ConnectingScrew, part.PocketScrew}, j.Kind) {
		return 0, 0, false
	}
	// The contact is flat across the way the screws go; they pass the thinner board there and end in the other.
	n := 0
	size := j.Contact.Size()
	for k := range 3 {
		if size.At(k) < size.At(n) {
			n = k
		}
	}
	x, y := a.Box().Size().At(n), b.Box().Size().At(n)
	into = long - min(x, y)
	if j.Kind == part.PocketScrew { // out of a pocket, at mid-length
		into = min(min(x, y), long/2)
	}
	return min(into, max(x, y)), joinery.Grip * dia, true
}

func checkGrip(s *Scene) finding.List {
	var f finding.List
	parts := map[string]part.Part{}
	for _, p := range s.All.Parts {
		parts[p.Mark] = p
	}
	type short struct {
		screws, joints int
		least          float64 // of reach over diameter
	}
	owners := map[string]short{}
	for _, j := range s.All.Joints {
		a, is := parts[j.A]
		b, also := parts[j.B]
		h, known := s.Job.Catalogue.Item(j.Fastener)
		if !is || !also || !known {
			continue
		}
		into, least, ok := Reach(j, a, b, h.Dia, h.Length)
		if !ok || into >= least {
			continue
		}
		o := owners[a.Owner]
		if d := math.Max(float64(into), 0) / float64(h.Dia); o.joints == 0 || d < o.least {
			o.least = d
		}
		o.screws, o.joints = o.screws+j.Count, o.joints+1
		owners[a.Owner] = o
	}
	for _, x := range s.Solids {
		o := owners[x.Owner.ID]
		if o.joints == 0 {
			continue
		}
		f.Add(finding.Finding{Code: ShortScrew, Severity: finding.Note, At: x.At, Source: "NDS 2018 12.1.4 to 12.1.6 (least penetration)",
			Text: fmt.Sprintf("%d screws in %d joints of %s reach less than %d diameters into the last board, %.1f at least: nothing is published for what they carry across their length.", o.screws, o.joints, x.Name, joinery.Grip, o.least),
			Hint: "Let glue, or what they lie on, carry there; where a joint must carry, its own check says what is counted."})
	}
	return f
}
