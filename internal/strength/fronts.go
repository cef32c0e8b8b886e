package strength

import (
	"fmt"
	"math"

	"stowright/internal/finding"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/strength/nds"
	"stowright/internal/strength/unit"
)

// FrontScrews: the screws that hold a drawer's front would be pulled out of it.
const FrontScrews finding.Code = "front-screws"

// BottomScrews: the screws that hold a drawer's bottom from below are pulled out under what is in it.
const BottomScrews finding.Code = "bottom-screws"

// DrawerGroove: the groove that a drawer's bottom lies in is too weak below it.
const DrawerGroove finding.Code = "drawer-groove"

const (
	frontSource  = "withdrawal NDS 2018 12.2, CD 1.6 (2.3.2); a pull of half of the drawer's full weight, 111 N (25 lb) at least, common practice, no source"
	grooveSource = "edge reaction Roark Table 11.4, case 1a (0.505 q b at most); plywood's rolling shear 48 psi and bearing on its face 160 psi, APA Plywood Design Specification (from memory)"
	underSource  = "withdrawal NDS 2018 12.2 and pull-through 12.2.5, CD 0.9 (2.3.2); in plywood's edge only the plies that run along it count, 0.30 of them at least: PS 1 (from memory)"
	rolling      = 48 * unit.PSI
	jerk         = 25 * unit.PoundForce // N
)

func fronts() Rule {
	return Rule{Name: "drawer fronts and grooves", Codes: []finding.Code{FrontScrews, DrawerGroove, BottomScrews},
		Doc:     "The screws through a drawer box into its front hold a pull at the handle of half of the full drawer's weight; the wood below the groove of its bottom bears the bottom's edge and is not sheared off. A bottom that is screwed on from below hangs from its screws: each carries by the length of edge that goes by it, a quarter more than the mean in the middle of a side.",
		Source:  frontSource + "; " + grooveSource + "; " + underSource,
		Example: "A bottom in a groove with 3 mm of wood below it, under 90 kg.",
		Run:     checkFronts}
}

func checkFronts(s *Scene) finding.List {
	var f finding.List
	screws, grooves := blank{code: FrontScrews, source: frontSource}, blank{code: DrawerGroove, source: grooveSource}
	under := blank{code: BottomScrews, source: underSource}
	for i := range s.All.Motions {
		m := &s.All.Motions[i]
		if m.Kind != part.Slide {
			continue
		}
		box, in, lacks := s.moving(m)
		if len(lacks) > 0 {
			continue // said with its slides
		}
		s.pulled(m, math.Max(jerk, newtons(box+in.kg)/2), box, in, &f, &screws)
		s.grooved(m, in, &f, &grooves)
		s.hangingBottom(m, in, &f, &under)
	}
	f.Add(screws.findings("What holds its front", finding.Note)...)
	f.Add(grooves.findings("The groove of its bottom", finding.Note)...)
	f.Add(under.findings("What holds its bottom", finding.Note)...)
	return f
}

// pulled judges the screws of a drawer's front; box is what the drawer weighs empty, kg.
func (s *Scene) pulled(m *part.Motion, pull, box float64, in load, f *finding.List, unknown *blank) {
	for _, j := range s.of(m.Owner).Joints {
		front, behind := s.parts[j.A], s.parts[j.B]
		if front == nil || behind == nil || front.Role != part.DrawerFront || front.Moves != m.ID && s.mover(front) != m {
			continue
		}
		at, name := s.at(front.Owner, front.Mark), s.name(front)
		fast, long, ok := s.screw(j.Fastener)
		w := s.wood(front, 2, false)
		switch {
		case !ok || j.Count == 0:
			unknown.add("the size of screw "+j.Fastener, "Give diameter, root and length of the screw under hardware:.", name, at)
			continue
		case w.sg <= 0:
			unknown.add("the specific gravity of "+w.what, "Give specific-gravity of its material under materials:.", name, at)
			continue
		}
		into := math.Min(long-mm(behind.Size[2]), mm(front.Size[2]))
		per, _ := fast.Withdrawal(w.sg)
		may := per * math.Max(into, 0) * float64(j.Count) * float64(nds.TenMinutes)
		x := verdict(finding.Finding{Code: FrontScrews, At: at, Demand: pull, Capacity: may, Unit: "N", Source: frontSource}, overload(pull/may, in.assumed))
		x.Text = fmt.Sprintf("%s is pulled with %s; its %s would hold %s.", name, s.push(pull, jerk), many(j.Count, "screw"), s.force(may))
		x.Working = []string{"Load: " + in.from + ".", fmt.Sprintf("%s, %s into %s (G %.2f): %s × %s × %d × 1.6 = %s. Ratio %.2f.", fast.Name, s.exact(into), w.what, w.sg, s.perLong(per), s.exact(math.Max(into, 0)), j.Count, s.force(may), x.Ratio())}
		if x.Verdict == finding.Fails {
			if most := may*2/newtons(1) - box; most > 0 && jerk <= may {
				x.Hint = fmt.Sprintf("Keep no more than %s in it (ratio 1.00).", s.atMost(most))
			}
		}
		f.Add(x)
	}
}

// grooved judges the wood below the groove of a drawer's bottom.
func (s *Scene) grooved(m *part.Motion, in load, f *finding.List, unknown *blank) {
	for _, p := range s.of(m.Owner).Parts {
		if p.Role != part.BoxBottom || s.mover(p) != m {
			continue
		}
		own, _ := s.weight(p)
		v := p.Box().Size()
		short := math.Min(mm(v.X), mm(v.Y))
		q := newtons(in.kg+own) / (mm(v.X) * mm(v.Y))
		line := 0.505 * q * short // N/mm at the middle of a long edge
		for _, j := range s.of(m.Owner).Joints {
			side := s.parts[j.A]
			if j.B != p.Mark || j.Kind != part.Loose || side == nil {
				continue
			}
			at, name := s.at(p.Owner, p.Mark), s.name(p)
			if !s.layered(side) || side.Material == part.Stick {
				unknown.add("the shear strength of "+s.wood(side, 0, true).what+" below a groove", "Use plywood, or screw the bottom on from below.", name, at)
				return
			}
			c := j.Contact.Size()
			deep := math.Min(mm(c.X), mm(c.Y))
			below := mm(p.Box().Min.Z - side.Box().Min.Z)
			if deep <= 0 || below <= 0 {
				continue
			}
			r := math.Max(1.5*line/below/rolling, line/deep/faceBears)
			x := verdict(finding.Finding{Code: DrawerGroove, At: at, Demand: r, Capacity: 1, Unit: "of its strength", Source: grooveSource}, overload(r, in.assumed))
			x.Text = fmt.Sprintf("%s lies %s deep in a groove with %s of wood below it, which bears %.2f of what can be counted on under %s.", name, s.long(deep), s.long(below), r, s.carries(in))
			x.Working = []string{"Load: " + in.from + ".", fmt.Sprintf("It bears %s. Greatest edge load 0.505 × %s × %s = %s.", s.pressure(q), s.pressure(q), s.exact(short), s.perLong(line)),
				fmt.Sprintf("Shear below the groove 1.5 × %s / %s = %s of %s; bearing %s / %s = %s of %s. Ratio %.2f.", s.perLong(line), s.exact(below), s.stress(1.5*line/below), s.stress(rolling), s.perLong(line), s.exact(deep), s.stress(line/deep), s.stress(faceBears), x.Ratio())}
			if x.Verdict == finding.Fails {
				var words []string
				if up := math.Ceil(1.5 * line / rolling); line/deep <= faceBears {
					words = append(words, fmt.Sprintf("set the groove %s above the lower edge, box-groove-up: under practice: (ratio %.2f)", s.long(up), math.Max(1.5*line/up/rolling, line/deep/faceBears)))
				}
				words = append(append(words, fmt.Sprintf("keep no more than %s in it (ratio 1.00)", s.atMost((in.kg+own)/r-own))), s.fromBelow(p, in, own)...)
				x.Hint = hint(words)
			}
			f.Add(x)
			return // its edges are alike
		}
	}
}

// fromBelow is the remedy of a bottom that is screwed on from below, as the shop would do it; nothing where its screws would
// not hold, or that is not known.
func (s *Scene) fromBelow(bottom *part.Part, in load, own float64) []string {
	shop := joinery.Shop{Practice: s.Job.Practice, Catalogue: s.Job.Catalogue}
	item, _ := shop.Screw("wood", bottom.Size[2]+25*length.MM)
	fast, long, ok := s.screw(item.ID)
	var side *part.Part
	for _, p := range s.riding[bottom.Moves] {
		if p.Role == part.BoxSide {
			side = p
		}
	}
	if !ok || fast.Head <= 0 || side == nil || !s.layered(side) {
		return nil
	}
	v := bottom.Box().Size()
	wood, board := s.wood(side, 2, false), s.wood(bottom, 2, false)
	if wood.sg <= 0 || board.sg <= 0 {
		return nil
	}
	share, worst := 1.0, 0.0
	if side.Material != part.Stick {
		share = leastPlies
	}
	per, _ := fast.Withdrawal(wood.sg)
	t := mm(bottom.Size[2])
	may := math.Min(per*math.Max(long-t, 0)*share, nds.PullThrough(fast.Head, math.Max(t-(fast.Head-fast.D)/2, 0), board.sg)) * permanent
	line := 0.505 * newtons(in.kg+own) / (mm(v.X) * mm(v.Y)) * math.Min(mm(v.X), mm(v.Y))
	for _, reach := range []L{v.X, v.Y} {
		worst = math.Max(worst, line*mm(reach)/float64(len(joinery.Places(reach, 50*length.MM, 150*length.MM, 2)))/may)
	}
	if worst > 1 {
		return nil
	}
	return []string{fmt.Sprintf("screw the bottom on from below, box-bottom-how: under under practice: (ratio %.2f)", worst)}
}

// hangingBottom judges a bottom that is screwed on from below: what is in the drawer pulls at its screws.
func (s *Scene) hangingBottom(m *part.Motion, in load, f *finding.List, unknown *blank) {
	for _, p := range s.riding[m.ID] {
		if p.Role != part.BoxBottom {
			continue
		}
		own, ok := s.weight(p)
		if !ok {
			continue // said with its slides
		}
		v := p.Box().Size()
		at, name := s.at(p.Owner, p.Mark), s.name(p)
		short := math.Min(mm(v.X), mm(v.Y))
		q := newtons(in.kg+own) / (mm(v.X) * mm(v.Y))
		line := 0.505 * q * short // N/mm at the middle of a long edge
		var worst finding.Finding
		for _, j := range s.of(m.Owner).Joints {
			side := s.parts[j.B]
			if j.A != p.Mark || j.Kind != part.WoodScrew || side == nil {
				continue
			}
			fast, long, ok := s.screw(j.Fastener)
			wood, board := s.wood(side, 2, false), s.wood(p, 2, false)
			switch {
			case !ok || fast.Head <= 0 || j.Count == 0:
				unknown.add("the size of screw "+j.Fastener, "Give diameter, root, head and length of the screw under hardware:.", name, at)
				return
			case wood.sg <= 0 || board.sg <= 0:
				unknown.add("the specific gravity of "+board.what+" or "+wood.what, "Give specific-gravity of its material under materials:.", name, at)
				return
			case !s.layered(side):
				unknown.add("what a screw in an edge of "+wood.what+" holds", "Use plywood or solid wood for the box, or put the bottom in grooves, box-bottom-how: grooved under practice:.", name, at)
				return
			}
			share := 1.0
			if side.Material != part.Stick {
				share = leastPlies
			}
			c := j.Contact.Size()
			reach := math.Max(mm(c.X), mm(c.Y))
			into := math.Max(long-mm(p.Size[2]), 0)
			per, _ := fast.Withdrawal(wood.sg)
			under := math.Max(mm(p.Size[2])-(fast.Head-fast.D)/2, 0)
			out, through := per*into*share*permanent, nds.PullThrough(fast.Head, under, board.sg)*permanent
			pull, may := line*reach/float64(j.Count), math.Min(out, through)
			x := finding.Finding{Code: BottomScrews, At: at, Demand: pull, Capacity: may, Unit: "N", Source: underSource}
			if worst.Code != "" && worst.Ratio() >= x.Ratio() {
				continue
			}
			worst = verdict(x, overload(pull/may, in.assumed))
			worst.Text = fmt.Sprintf("%s hangs from its screws, which each carry %s under %s; one holds %s.", name, s.force(pull), s.carries(in), s.force(may))
			worst.Working = []string{"Load: " + in.from + ".",
				fmt.Sprintf("Greatest edge load 0.505 × %s × %s = %s; %s along %s: %s each.", s.pressure(q), s.exact(short), s.perLong(line), many(j.Count, "screw"), s.exact(reach), s.force(pull)),
				fmt.Sprintf("Withdrawal %s × %s × %.2f × 0.9 = %s; the head of %s through %s of bottom, × 0.9: %s. Ratio %.2f.", s.perLong(per), s.exact(into), share, s.force(out), s.exact(fast.Head), s.exact(under), s.force(through), worst.Ratio())}
			if worst.Verdict == finding.Fails {
				if most := (in.kg+own)/worst.Ratio() - own; most > 0 {
					worst.Hint = fmt.Sprintf("Keep no more than %s in it (ratio 1.00).", s.atMost(most))
				}
			}
		}
		if worst.Code != "" {
			f.Add(worst)
		}
	}
}
