package strength

import (
	"cmp"
	"fmt"
	"math"

	"stowright/internal/finding"
	"stowright/internal/part"
	"stowright/internal/strength/unit"
)

// BaseBearing: the sides of a case press into the rungs and rails of the base under them.
const BaseBearing finding.Code = "base-bearing"

const bearingSource = "statics; compression across the grain, NDS Supplement Fc⊥ (from memory), × 0.9 for a load that stays, though the standard asks for none; plywood's bearing 160 psi, APA Plywood Design Specification (from memory)"

func bearing() Rule {
	return Rule{Name: "bases", Codes: []finding.Code{BaseBearing},
		Doc:     "Each side of a case on a base brings half of the case, its contents and the counter over it to the rungs and rails that it stands on; the pressure there is within what their wood bears across its grain.",
		Source:  bearingSource,
		Example: "A case of 6 t on a base without a rung under its sides.",
		Run:     checkBearing}
}

// acrossGrain is what wood bears across its grain, MPa: NDS Supplement, from memory; 0 where that is
// not known.
func (s *Scene) acrossGrain(p *part.Part) (mpa float64, of string) {
	if p.Material != part.Stick {
		return faceBears, "plywood"
	}
	st, _ := s.Job.Catalogue.Stick(p.Stock)
	sp, _ := s.Job.Catalogue.SpeciesOf(st.Species)
	psi := map[string]float64{"spruce-pine-fir": 425, "spruce-pine-fir-south": 335, "southern-pine": 565, "douglas-fir-larch": 625, "hem-fir": 405}[st.Species]
	return psi * unit.PSI * permanent, cmp.Or(sp.Name, "the wood of "+p.Stock)
}

func checkBearing(s *Scene) finding.List {
	var f finding.List
	unknown := blank{code: BaseBearing, source: bearingSource}
	for i := range s.All.Owners {
		o := &s.All.Owners[i]
		base := s.baseOf(o.ID)
		if o.Kind != "case" || o.Standing || base == nil {
			continue
		}
		at := s.at(o.ID, "")
		l := s.gross(o.ID)
		if !l.known {
			for _, x := range l.lacks {
				unknown.add(x, "Give density of the material, weighs: to the goods, or load: to the bay.", o.Name, at)
			}
			continue
		}
		var worst finding.Finding
		for _, side := range s.of(o.ID).Parts {
			if side.Role != part.Side {
				continue
			}
			on, may, of := s.stoodOn(base.ID, side)
			if may <= 0 {
				unknown.add("the strength across its grain of "+of, "Make the base of framing lumber of a named species, or of plywood.", o.Name, at)
				continue
			}
			push := newtons(l.kg) / 2
			x := finding.Finding{Code: BaseBearing, At: at, Demand: push / math.Max(on, 1), Capacity: may, Unit: "MPa", Source: bearingSource}
			if worst.Code != "" && worst.Ratio() >= x.Ratio() {
				continue
			}
			worst = verdict(x, finding.Warning)
			worst.Text = fmt.Sprintf("A side of %s brings half of %s to the base, and presses on it with %s; %s bears %s.", o.Name, s.carries(l), s.stress(x.Demand), of, s.stress(may))
			worst.Working = []string{fmt.Sprintf("%s / %s of rungs and rails under it = %s; %s can be counted on. Ratio %.2f.", s.force(push), s.flat(on), s.stress(x.Demand), s.stress(may), worst.Ratio())}
			if l.assumed {
				worst.Working = append([]string{"Some of its load is assumed, by the practice."}, worst.Working...)
			}
			if worst.Verdict == finding.Fails {
				worst.Hint = hint(append(s.harder(base, worst.Demand), fmt.Sprintf("put %s less into it (ratio 1.00)", s.kg((1-1/worst.Ratio())*l.kg))))
			}
		}
		if worst.Code != "" {
			f.Add(worst)
		}
	}
	f.Add(unknown.findings("What its base bears", finding.Note)...)
	return f
}

// harder names the stick of a base's size whose wood bears most of those that bear a pressure; nothing for none. A rung
// lies under every side already.
func (s *Scene) harder(base *part.Owner, pressure float64) []string {
	for _, q := range s.of(base.ID).Parts {
		if q.Role != part.BaseRung || q.Material != part.Stick {
			continue
		}
		own, _ := s.Job.Catalogue.Stick(q.Stock)
		for _, x := range s.Job.Catalogue.Sticks {
			n := *q
			n.Stock = x.ID
			if may, _ := s.acrossGrain(&n); x.Thickness == own.Thickness && x.Width == own.Width && may > 0 && pressure <= may {
				return []string{fmt.Sprintf("make the base of %s, stock: %s under bases: (ratio %.2f)", x.Name, x.ID, pressure/may)}
			}
		}
		return nil
	}
	return nil
}

// stoodOn is the area in mm² of a base's rungs and rails on which a side stands, and what the weakest of
// them bears.
func (s *Scene) stoodOn(base string, side *part.Part) (area, may float64, of string) {
	may = math.Inf(1)
	foot := side.Box()
	for _, q := range s.of(base).Parts {
		if q.Role != part.BaseRung && q.Role != part.BaseRail {
			continue
		}
		c := q.Box()
		wide, deep := mm(min(c.Max.X, foot.Max.X)-max(c.Min.X, foot.Min.X)), mm(min(c.Max.Y, foot.Max.Y)-max(c.Min.Y, foot.Min.Y))
		if wide <= 0 || deep <= 0 || math.Abs(mm(c.Max.Z-foot.Min.Z)) > touching {
			continue
		}
		area += wide * deep
		if b, name := s.acrossGrain(q); b < may {
			may, of = b, name
		}
	}
	if area == 0 {
		may, of = faceBears, "nothing of it under that side"
	}
	return area, may, of
}
