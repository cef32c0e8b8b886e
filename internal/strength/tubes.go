package strength

import (
	"fmt"
	"math"

	"stowright/internal/finding"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/strength/nds"
	"stowright/internal/strength/unit"
)

// HangingRail: the tube that things hang from bends too far or yields.
const HangingRail finding.Code = "hanging-rail"

const tubeSource = "statics of a round tube, I = π (D⁴ - d⁴)/64; 0.6 of the yield strength (AISC allowable stress, from memory); sag as for shelves"

const (
	flangeSource = "screws NDS 2018 12.3.1A with a steel side plate of 16 gauge (0.060 in, Fe 61,850 psi), CD 0.9"
	flangeThick  = 0.060 * unit.Inch
)

func tubes() Rule {
	return Rule{Name: "hanging rails", Codes: []finding.Code{HangingRail},
		Doc:     "A tube between two flanges, free to turn in them, carries what hangs from it evenly spread: it sags no more than the practice allows a shelf, and is stressed to no more than 0.6 of its yield strength. The screws of each flange carry half of it in shear.",
		Source:  tubeSource + "; " + flangeSource,
		Example: "A tube of 25 mm with a wall of 0.8 mm over 1500 mm with 80 kg on it.",
		Run:     checkTubes}
}

func checkTubes(s *Scene) finding.List {
	var f finding.List
	unknown := blank{code: HangingRail, source: tubeSource}
	for i := range s.All.Spans {
		sp := &s.All.Spans[i]
		p := s.parts[sp.Part]
		if p == nil || p.Material != part.Bought || p.Role != part.Rail || len(sp.Supports) < 2 {
			continue
		}
		at, name := s.at(p.Owner, p.Mark), s.name(p)
		h, _ := s.Job.Catalogue.Item(p.Stock)
		e, hasE := h.Modulus.Float()
		y, hasY := h.Yield.Float()
		if h.Tube <= 0 || h.Dia <= 2*h.Tube || !hasE || !hasY {
			unknown.add("the wall, the modulus and the yield strength of "+h.Name, "Give diameter, tube-wall, modulus and yield of the tube under hardware:.", name, at)
			continue
		}
		l := s.on(p, sp, &board{part: p})
		own, weighed := s.weight(p)
		if !weighed {
			unknown.add(weightOf(p), "Give mass of the tube under hardware:.", name, at)
			continue
		}
		if !l.known {
			for _, x := range l.lacks {
				unknown.add(x, "Give weighs: to those goods, or load: to the bay.", name, at)
			}
			continue
		}
		reach := mm(sp.Supports[len(sp.Supports)-1].At - sp.Supports[0].At)
		if s.loads[sp.Bay].bare {
			// What hangs goes by the rail's length; what the practice says of a shelf's area is for the floor under it.
			l = load{kg: hungKg * reach / 1000, known: true, assumed: true, from: fmt.Sprintf("assumed: heavy coats of 2 kg, one every 50 mm of the rail, %s of it (common practice, no source)", s.long(reach))}
		}
		out, in := mm(h.Dia), mm(h.Dia-2*h.Tube)
		inertia := math.Pi / 64 * (math.Pow(out, 4) - math.Pow(in, 4))
		w := newtons(l.kg + own)
		sag := 5 * w * reach * reach * reach / (384 * e * inertia)
		stress := w * reach / 8 * out / 2 / inertia
		limit, words := s.allowed(board{reach: reach})
		x := finding.Finding{Code: HangingRail, At: at, Demand: sag, Capacity: limit, Unit: "mm", Source: tubeSource + "; " + h.Source}
		x.Text = fmt.Sprintf("%s, %s between its flanges, sags %s under %s; %s is allowed.", name, s.long(reach), s.small(sag), s.carries(l), s.small(limit))
		if may := 0.6 * y; stress/may > sag/limit {
			x.Demand, x.Capacity, x.Unit = stress, may, "MPa"
			x.Text = fmt.Sprintf("%s, %s between its flanges, is stressed to %s under %s; %s can be counted on.", name, s.long(reach), s.stress(stress), s.carries(l), s.stress(may))
		}
		x = verdict(x, overload(x.Demand/x.Capacity, l.assumed))
		for k := range 21 {
			u := float64(k) / 20
			x.Shape = append(x.Shape, finding.Point{Along: round(u * reach), Down: round(sag * 16 / 5 * u * (1 - 2*u*u + u*u*u))})
		}
		x.Working = []string{"Load: " + l.from + ": " + s.kg(l.kg) + "; own weight " + s.kg(own) + ".",
			fmt.Sprintf("Tube of %s with a wall of %s: I %s, E %s.", s.exact(out), s.exact(mm(h.Tube)), s.inertia(inertia), s.modulus(e)),
			fmt.Sprintf("Sag: 5 × %s × (%s)³ / (384 × %s × %s) = %s. %s", s.force(w), s.exact(reach), s.modulus(e), s.inertia(inertia), s.small(sag), words),
			fmt.Sprintf("Stress: %s × %s / 8 × %s / 2 / %s = %s; 0.6 × %s can be counted on. Ratio %.2f.", s.force(w), s.exact(reach), s.exact(out), s.inertia(inertia), s.stress(stress), s.stress(y), x.Ratio())}
		if x.Verdict == finding.Fails {
			half := math.Max(sag/8/(limit/2), stress/4/(0.6*y))
			if limit == most {
				half = math.Max(sag/16/math.Min(most, limit), stress/4/(0.6*y))
			}
			if half <= 1 {
				x.Hint = fmt.Sprintf("Put a partition under its middle, across: of the bay (ratio no more than %.2f).", half)
			} else {
				x.Hint = fmt.Sprintf("Hang no more than %s on it (ratio 1.00).", s.atMost((l.kg+own)/x.Ratio()-own))
			}
		}
		f.Add(x)
		s.flanges(p, l, own, at+"/flange", "the flange of "+name, &f, &unknown)
	}
	f.Add(unknown.findings("What the hanging rail carries", finding.Note)...)
	return f
}

// flanges judges the screws of a rail's flange: each flange carries half of all.
func (s *Scene) flanges(rail *part.Part, l load, own float64, at, name string, f *finding.List, unknown *blank) {
	screws, flanges, id := 0, 0, ""
	for _, h := range s.of(rail.Owner).Hardware {
		switch {
		case h.For == "flanges":
			screws, id = screws+h.Count, h.ID
		case h.Kind == "rail-flange":
			flanges += h.Count
		}
	}
	if flanges == 0 || screws == 0 {
		unknown.add("how its flanges are fastened", "Give flange: of the hanging rail, with screws-each:.", name, at)
		return
	}
	n := screws / flanges
	var worst finding.Finding
	box := rail.Box()
	for _, side := range s.of(rail.Owner).Parts {
		c := side.Box()
		if side.Role != part.Side && side.Role != part.Partition || c.Min.Z > box.Min.Z || c.Max.Z < box.Max.Z || min((c.Max.X-box.Min.X).Abs(), (c.Min.X-box.Max.X).Abs()) > 5*length.MM {
			continue
		}
		fast, long, ok := s.screw(id)
		w := s.wood(side, 2, false)
		switch {
		case !ok:
			unknown.add("the size of screw "+id, "Give diameter, root and length of the screw under hardware:.", name, at)
			return
		case w.sg <= 0:
			unknown.add("the specific gravity of "+w.what, "Give specific-gravity of its material under materials:.", name, at)
			return
		}
		into := math.Min(long-flangeThick, mm(side.Size[2]))
		each, words, source, known := s.shearOf(fast, nds.Member{Fe: nds.SteelSheet, Bearing: flangeThick}, w.sg, into, s.layered(side), false)
		if !known {
			unknown.add(fmt.Sprintf("a published strength of a screw that reaches %s into %s", s.long(math.Max(into, 0)), w.what), "Take longer screws, of use: slide, or thicker sides.", name, at)
			return
		}
		push := newtons(l.kg+own) / 2
		may := each * float64(n)
		x := verdict(finding.Finding{Code: HangingRail, At: at, Demand: push, Capacity: may, Unit: "N", Source: flangeSource + "; " + source}, overload(push/may, l.assumed))
		if worst.Code != "" && worst.Ratio() >= x.Ratio() {
			continue
		}
		worst = x
		worst.Text = fmt.Sprintf("%s carries %s, half of %s and of the rail, by %s; they hold %s.", name, s.force(push), s.carries(l), many(n, "screw"), s.force(may))
		worst.Working = append(append([]string{"Load: " + l.from + ": " + s.kg(l.kg) + "."}, words...), fmt.Sprintf("%s hold %s. Ratio %.2f.", many(n, "screw"), s.force(may), worst.Ratio()))
		if worst.Verdict == finding.Fails {
			if less := 2*may/newtons(1) - own; less > 0 {
				worst.Hint = fmt.Sprintf("Hang no more than %s on it (ratio 1.00).", s.atMost(less))
			}
		}
	}
	if worst.Code != "" {
		f.Add(worst)
	}
}
