package rules

import (
	"cmp"
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/place"
)

// PanelSpace: the working space before an electrical panel is not free.
const PanelSpace finding.Code = "panel-space"

const panelSource = "29 CFR 1910.303(g)(1), Table S-1 (NFPA 70, 110.26(A) alike)"

func panel() Rule {
	return Rule{
		Name: "panel", Codes: []finding.Code{PanelSpace},
		Doc:     "Before an electrical panel a space 30 in wide or as wide as the panel, which holds the whole panel but need not be centred on it, 3 ft deep and 6-1/2 ft high is free of everything; over 150 V to ground it is 3-1/2 ft deep where something grounded is opposite and 4 ft where live parts are, or where the job does not say; nothing is stored there.",
		Source:  panelSource,
		Example: "A wall case ends 20 in left of a wall's end, beside a panel 14-1/2 in wide there.",
		Check:   checkPanel,
	}
}

func checkPanel(s *Scene) finding.List {
	var f finding.List
	for i := range s.Room.Walls {
		w := &s.Room.Walls[i]
		for _, z := range w.Clear {
			if !z.Known || z.Kind != "electrical-panel" {
				continue
			}
			wide := max(place.PanelWide, z.Body.Max.X-z.Body.Min.X)
			// Everything that stands in the depth and height of the space leaves stretches free; one
			// of them must hold the panel and be wide enough.
			lo, hi := L(-place.Far), L(place.Far)
			if w.Corner(0) != "" {
				lo = 0
			}
			if w.Corner(1) != "" {
				hi = w.Length
			}
			left, right := "", ""
			at := ""
			covered := finding.List{}
			for _, x := range s.stuck() {
				from, to := z.Body.Max.X, z.Body.Min.X // what it covers of the panel
				for _, b := range x.parts(w) {
					deep := geom.B(b.Min.X, z.Space.Min.Y, z.Space.Min.Z, b.Max.X, z.Space.Max.Y, z.Space.Max.Z)
					if !deep.Meets(b) {
						continue
					}
					switch {
					case b.Max.X <= z.Body.Min.X && b.Max.X > lo:
						lo, left, at = b.Max.X, x.Name, cmp.Or(at, x.At)
					case b.Min.X >= z.Body.Max.X && b.Min.X < hi:
						hi, right, at = b.Min.X, x.Name, cmp.Or(at, x.At)
					case b.Max.X > z.Body.Min.X && b.Min.X < z.Body.Max.X:
						from, to = min(from, max(b.Min.X, z.Body.Min.X)), max(to, min(b.Max.X, z.Body.Max.X))
					}
				}
				if d := to - from; d > 0 {
					covered.Add(finding.Finding{Code: PanelSpace, Severity: finding.Error, Verdict: finding.Fails, At: x.At, Source: panelSource, Demand: mm(d), Unit: "mm",
						Text: fmt.Sprintf("%s stands before %s over %s of its width, within the %s that must be free.", x.Name, z.ID, s.in(d), s.in(-z.Space.Min.Y)), Hint: "Nothing may stand or be stored before an electrical panel."})
				}
			}
			f.Add(covered...)
			if free := hi - lo; free < wide {
				between := ""
				switch {
				case left != "" && right != "":
					between = fmt.Sprintf("between %s and %s", left, right)
				case left != "":
					between = fmt.Sprintf("between %s and the right end of wall %s", left, w.ID)
				case right != "":
					between = fmt.Sprintf("between the left end of wall %s and %s", w.ID, right)
				}
				if between != "" {
					f.Add(finding.Finding{Code: PanelSpace, Severity: finding.Error, Verdict: finding.Fails, At: at, Source: panelSource, Demand: mm(wide), Capacity: mm(free), Unit: "mm",
						Text: fmt.Sprintf("%s has %s free %s; %s must be free before it, %s deep.", z.ID, s.in(free), between, s.in(wide), s.in(-z.Space.Min.Y)), Hint: fmt.Sprintf("Move what stands beside it by %s.", s.in(wide-free))})
				}
			}
		}
	}
	return f
}

// stuck gives all that does not move out of the way by itself: solids, what stands on the floor of
// the room, and platforms, columns and ducts.
func (s *Scene) stuck() []Solid {
	var r []Solid
	for _, x := range s.Solids {
		if s.Room.Wall(x.Owner.Wall) != nil {
			r = append(r, x)
		}
	}
	for _, t := range s.things() {
		if !t.moves {
			r = append(r, Solid{At: "room/" + t.name, Name: t.name, Parts: []Box{t.box}, Frame: t.frame})
		}
	}
	for i := range s.Room.Walls {
		w := &s.Room.Walls[i]
		for _, o := range w.Obstacles {
			if o.Kind != "platform" && o.Kind != "column" && o.Kind != "duct" {
				continue
			}
			r = append(r, Solid{At: "wall/" + w.ID, Name: o.ID, Parts: o.Boxes(w), Frame: w.Frame})
		}
	}
	return r
}
