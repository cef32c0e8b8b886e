package strength

import (
	"fmt"
	"math"
	"slices"

	"stowright/internal/finding"
	"stowright/internal/part"
)

// RailBending: the hang rail or cleat of a wall case bends too hard between its screws and the
// case's sides.
const RailBending finding.Code = "rail-bending"

func rails() Rule {
	return Rule{Name: "rails", Codes: []finding.Code{RailBending},
		Doc:     "The upper rail or cleat of a wall case, on edge, carries the case's weight from its two sides to the screws, and flat, the pull; the bending stress is within what can be counted on.",
		Source:  strengthSource + "; statics",
		Example: "A rail of 12 mm MDF whose screws stand 500 mm from a side that brings 60 kg.",
		Run:     checkRails}
}

func checkRails(s *Scene) finding.List {
	var f finding.List
	unknown := blank{code: RailBending, source: strengthSource}
	for _, o := range s.hung() {
		if fact, _ := s.unknownWall(o); fact != "" {
			continue // said with its fixing
		}
		h := s.hanging(o)
		if len(h.lacks) > 0 || len(h.upper) == 0 {
			continue
		}
		p := s.parts[h.upper[0].Part]
		if p == nil {
			continue
		}
		at := s.at(o.ID, p.Mark)
		down, out := s.wood(p, 0, true), s.wood(p, 0, false)
		if down.f <= 0 || out.f <= 0 {
			unknown.add("the bending strength of "+out.what, "Give strength-along and strength-across of its material, with the source.", s.name(p), at)
			continue
		}
		var xs []float64
		for _, x := range h.upper {
			xs = append(xs, mm(x.At.X))
		}
		slices.Sort(xs)
		left, right := mm(o.Carcass.Min.X), mm(o.Carcass.Max.X)
		// Each side brings its share of the weight and of the pull at the rail's end; the rail is a
		// lever to the nearest screw, or a beam between.
		arm := math.Max(xs[0]-left, right-xs[len(xs)-1])
		share := 0.5
		if right > left {
			share = math.Max(h.all.x-left, right-h.all.x) / (right - left)
		}
		if !h.cleat && len(h.low) > 0 {
			share /= 2 // the lower rail carries as much
		}
		weight := newtons(h.all.kg) * share
		pull := h.pull * math.Max(h.all.x-left, right-h.all.x) / (right - left)
		v := p.Box().Size()
		high, thick := mm(v.Z), mm(v.Y)
		mz, my := weight*arm, pull*arm
		a, b := 6*mz/(thick*high*high), 6*my/(high*thick*thick)
		fa, fb := down.strength(permanent), out.strength(permanent)
		r := a/fa + b/fb
		x := verdict(finding.Finding{Code: RailBending, At: at, Demand: r, Capacity: 1, Unit: "of its strength", Source: strengthSource + "; strength: " + out.source}, finding.Error)
		x.Text = fmt.Sprintf("%s, whose last screw stands %s from a side, is stressed to %.2f of what can be counted on.", s.name(p), s.long(arm), r)
		x.Working = append(h.from, fmt.Sprintf("A side brings %s down and %s out to the rail's end, %s from the last screw.", s.force(weight), s.force(pull), s.long(arm)),
			fmt.Sprintf("On edge: %.0f N·m, %.2f of %.2f MPa. Flat: %.0f N·m, %.2f of %.2f MPa. Added: %.2f.", mz/1000, a, fa, my/1000, b, fb, r))
		if x.Verdict == finding.Fails {
			words := []string{}
			if n := a/fa/4 + b/fb/2; n <= 1 {
				words = append(words, fmt.Sprintf("make the rail %s high (ratio %.2f)", s.long(2*high), n))
			}
			if n := a/fa/2 + b/fb/4; n <= 1 {
				words = append(words, fmt.Sprintf("double its thickness (ratio %.2f)", n))
			}
			words = append(words, "screw it to a stud nearer to the side")
			x.Hint = hint(words)
		}
		f.Add(x)
	}
	f.Add(unknown.findings("The strength of the rail", finding.Note)...)
	return f
}

// CarcassJoint: the joints that carry what stands in a wall case to its sides are too weak.
const CarcassJoint finding.Code = "carcass-joint"

const jointSource = "NDS 2018 12.3.1A (yield limit), 12.1.4 (least penetration), CD 0.9"

func joints() Rule {
	return Rule{Name: "joints", Codes: []finding.Code{CarcassJoint},
		Doc:     "The screws that join the bottom and the rails of a wall case to its sides carry its weight on its way to the wall. Where a screw reaches less than six diameters into the board the standard gives no value, and neither does any published source for pocket screws, connecting screws and dowels at these depths: such a joint is not known, glue or no glue.",
		Source:  jointSource,
		Example: "A bottom held to each side by one screw under 100 kg.",
		Run:     checkJoints}
}

func checkJoints(s *Scene) finding.List {
	var f finding.List
	unknown := blank{code: CarcassJoint, source: jointSource}
	for _, o := range s.hung() {
		own, lacks := s.bodies(o.ID, false)
		in, missing, assumed := s.contents(o.ID, false)
		if len(lacks)+len(missing) > 0 {
			continue // said with its fixing
		}
		t := sum(own)
		all := t.kg + s.hardware(o.ID, t.kg) + sum(in).kg
		for _, j := range s.All.Joints {
			a, b := s.parts[j.A], s.parts[j.B]
			if a == nil || b == nil || a.Owner != o.ID || a.Role != part.Side || j.Kind == part.Loose || j.Kind == part.GlueOnly {
				continue
			}
			var kg float64
			switch b.Role {
			case part.HangRail, part.Cleat:
				kg = all / 2 / float64(s.rails(o.ID))
			case part.Bottom:
				w, _ := s.weight(b)
				kg = w / 2
				for i := range s.All.Bays {
					if y := &s.All.Bays[i]; y.Floor == b.Mark {
						kg += s.loads[y.ID].kg / 2
					}
				}
			default:
				continue
			}
			at := s.at(o.ID, b.Mark)
			name := s.name(b) + " to its side"
			fast, long, ok := s.screw(j.Fastener)
			if !ok || j.Kind == part.Dowel || j.Kind == part.Dado || j.Count == 0 {
				unknown.add("a published strength of a joint by "+string(j.Kind), "Add screws from outside through the side, or glue and clamp; prove one by test.", name, at)
				continue
			}
			// Heads outside a side pass it and reach into the edge; pockets come out of the edge and reach into the side.
			into := long - mm(a.Size[2])
			if j.Kind == part.PocketScrew {
				into = math.Min(mm(a.Size[2]), long/2)
			}
			if _, allowed := fast.PenetrationFactor(into); !allowed || j.Kind != part.WoodScrew {
				unknown.add(fmt.Sprintf("a published strength of a joint by %s that reaches %s", j.Kind, s.long(into)), fmt.Sprintf("Glue it, and let a screw of %s or more pass the side into the edge; prove one by test.", s.long(mm(a.Size[2])+fast.LeastPenetration())), name, at)
				continue
			}
			wa, wb := s.wood(a, 2, false), s.wood(b, 0, false)
			if wa.sg <= 0 || wb.sg <= 0 {
				unknown.add("the specific gravity of "+wa.what, "Give specific-gravity of its material under materials:.", name, at)
				continue
			}
			lat := jointLateral(fast, wa.sg, wb.sg, mm(a.Size[2]), into)
			may := lat * float64(j.Count)
			demand := newtons(kg)
			x := verdict(finding.Finding{Code: CarcassJoint, At: at, Demand: demand, Capacity: may, Unit: "N", Source: jointSource + "; into the edge of a board × 0.67 (NDS 12.5.2, as end grain)"}, finding.Error)
			x.Text = fmt.Sprintf("%s carries %s on %d screws; they hold %s.", name, s.force(demand), j.Count, s.force(may))
			if assumed {
				x.Text = fmt.Sprintf("%s carries %s, some of it assumed, on %d screws; they hold %s.", name, s.force(demand), j.Count, s.force(may))
			}
			x.Working = []string{fmt.Sprintf("%s on this joint.", s.kg(kg)), fmt.Sprintf("%s, %s into the edge: %s each with × 0.67 × 0.9; %d of them %s. Ratio %.2f.", fast.Name, s.long(into), s.force(lat), j.Count, s.force(may), x.Ratio())}
			if x.Verdict == finding.Fails {
				n := int(math.Ceil(demand / lat))
				x.Hint = fmt.Sprintf("Use %d screws (ratio %.2f).", n, demand/(lat*float64(n)))
			}
			f.Add(x)
		}
	}
	f.Add(unknown.findings("The strength of the joint", finding.Note)...)
	return f
}

// rails counts the rails by which a case hangs.
func (s *Scene) rails(owner string) int {
	n := 0
	for i := range s.All.Parts {
		if p := &s.All.Parts[i]; p.Owner == owner && (p.Role == part.HangRail || p.Role == part.Cleat) {
			n++
		}
	}
	return max(n, 1)
}
