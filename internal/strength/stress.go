package strength

import (
	"fmt"
	"math"

	"stowright/internal/finding"
)

// ShelfStrength: a shelf, tray, bottom, counter or rail is loaded beyond its strength.
const ShelfStrength finding.Code = "shelf-strength"

func stress() Rule {
	return Rule{Name: "strength", Codes: []finding.Code{ShelfStrength},
		Doc:     "The bending stress in every shelf, tray, bottom, counter and base rail, and in the strips glued to it, is within the part of its published strength that can be counted on under a load that stays.",
		Source:  strengthSource,
		Example: "A loose shelf of 12 mm MDF over 900 mm with 120 kg on it.",
		Run:     checkStress}
}

func checkStress(s *Scene) finding.List {
	var f finding.List
	unknown, ignore := blank{code: ShelfStrength, source: strengthSource}, blank{}
	worked := func(n board) float64 {
		r, ok := n.bend()
		if !ok || r.weak || n.wood.strength(permanent) <= 0 {
			return math.Inf(1)
		}
		return math.Max(r.stress/n.wood.strength(permanent), math.Max(r.strips, r.cross))
	}
	ratio := func(n board) float64 { return worked(n.propped(n.borne(), permanent, worked)) }
	for _, b := range s.carriers(&ignore) {
		r, ok := b.propped(b.borne(), permanent, worked).bend()
		if !ok {
			continue
		}
		may := b.wood.strength(permanent)
		if may <= 0 {
			unknown.add("the bending strength of "+b.wood.what, "Give strength-along and strength-across of its material (strength of its species), with the source.", s.name(b.part), b.at)
			continue
		}
		if r.weak {
			unknown.add("the strength of what stiffens it", "Give strength of its species, with the source.", s.name(b.part), b.at)
			continue
		}
		counted := b.worst(ratio)
		r, _ = counted.propped(counted.borne(), permanent, worked).bend()
		demand, where := r.stress, "in the board"
		if r.strips*may > demand {
			demand, where = r.strips*may, "in what stiffens it, brought to the board's strength"
		}
		if r.cross*may > demand {
			demand, where = r.cross*may, "in the board across its span, brought to its strength along it"
		}
		if r.over && round(demand) > round(may) {
			unknown.add("the modulus across the grain of "+b.wood.what, "Give modulus-across and shear-panel of its material under materials:.", s.name(b.part), b.at)
			continue
		}
		x := verdict(finding.Finding{Code: ShelfStrength, At: b.at, Demand: demand, Capacity: may, Unit: "MPa", Source: strengthSource + "; strength: " + b.wood.source}, overload(demand/may, b.load.assumed))
		x.Working = append(append(b.working, "Method: "+r.how+"."), append(append(s.shorter(b, counted), s.butted(b)...), s.eases(b)...)...)
		if r.moment > 0 {
			x.Working = append(x.Working, fmt.Sprintf("Greatest moment %s.", s.turning(r.moment/1000)))
			if len(b.front)+len(b.rear)+len(b.layers)+len(b.beside) == 0 {
				x.Working = append(x.Working, fmt.Sprintf("Over its section: 6 × %s / %s / %s / %s = %s.", s.turning(r.moment/1000), s.exact(b.depth), s.exact(b.t), s.exact(b.t), s.stress(r.stress)))
			}
		}
		x.Working = append(x.Working, fmt.Sprintf("Stress %s %s.", s.stress(demand), where),
			fmt.Sprintf("Counted on: %s. Ratio %.2f.", s.counted(b.wood, b.wood.f, permanent), x.Ratio()))
		x.Text = fmt.Sprintf("%s is stressed to %s under %s; %s can be counted on.", s.name(b.part), s.stress(demand), s.carrying(b), s.stress(may))
		if x.Verdict == finding.Fails {
			x.Hint = hint(s.remedies(b, func(n board) float64 { return ratio(n.worst(ratio)) }))
		}
		f.Add(x)
	}
	f.Add(unknown.findings("Strength", finding.Note)...)
	return f
}
