package strength

import (
	"fmt"
	"math"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/part"
)

// stoodOut judges a counter over cases with a person who stands on an edge of it that is past what the cases stand on: counter
// and cases, empty, are one body, and screws in the wall hold it too. Nothing where no edge is so far out.
func (s *Scene) stoodOut(o *part.Owner, f *finding.List, unknown *blank) {
	at := s.at(o.ID, "")
	var cases []*part.Owner
	for i := range s.All.Owners {
		if c := &s.All.Owners[i]; c.Kind == "case" && !c.Hung && c.Wall == o.Wall && over(o.Box, c.Carcass) {
			cases = append(cases, c)
		}
	}
	if len(cases) == 0 {
		return
	}
	own, lacks := s.bodies(o.ID, false)
	lo, hi, front := math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, c := range cases {
		in, more := s.bodies(c.ID, false)
		if c.Standing {
			more = append(more, "the weight of "+c.Name)
		}
		own, lacks = append(own, in...), append(append(lacks, more...), s.swings(c.ID)...)
		front = math.Max(front, s.fulcrum(c))
		left, right := mm(c.Carcass.Min.X), mm(c.Carcass.Max.X)
		feet := [2]float64{math.Inf(1), math.Inf(-1)}
		for _, x := range s.All.Feet {
			if x.Owner == c.ID {
				feet[0], feet[1] = math.Min(feet[0], mm(x.At.X)+s.trail(x)), math.Max(feet[1], mm(x.At.X)-s.trail(x))
			}
		}
		if !math.IsInf(feet[0], 0) {
			left, right = feet[0], feet[1]
		}
		lo, hi = math.Min(lo, left), math.Max(hi, right)
	}
	top := o.Carcass
	var worst finding.Finding
	for _, e := range []struct {
		name, word string
		axis       int
		line, to   float64 // that it turns about, and 1 where it stands behind that towards higher places, -1 towards lower ones
		out        float64 // of the edge past that line
	}{
		{"front", "over-front", 1, front, 1, front - mm(top.Min.Y)},
		{"left end", "over-left", 0, lo, 1, lo - mm(top.Min.X)},
		{"right end", "over-right", 0, hi, -1, mm(top.Max.X) - hi},
	} {
		lever := e.out - personWay/2
		if lever <= 0 {
			continue
		}
		if len(lacks) > 0 {
			for _, x := range lacks {
				unknown.add(x, "Give density of the material, mass: to bought parts, or swivel: to the castor.", o.Name, at)
			}
			return
		}
		c := sum(own)
		back := e.to * (c.y - e.line)
		if e.axis == 0 {
			back = e.to * (c.x - e.line)
		}
		weight := newtons(c.kg) * back
		wall, n, fact, find := s.heldBack(cases, func(x part.Fixing) (arm float64, pulled bool) {
			if e.axis == 0 {
				return e.to * (mm(x.At.X) - e.line), false
			}
			return mm(x.At.Z - s.owners[x.Owner].Box.Min.Z), true
		})
		x := finding.Finding{Code: TipOver, At: at, Demand: newtons(personKg) * lever / 1000, Capacity: math.Max(weight+wall, 0) / 1000, Unit: "N·m", Source: "statics; a person of 100 kg on a place 250 mm square at the edge, common practice, no source; " + fixingSource}
		if fact != "" && x.Demand > x.Capacity {
			unknown.add(fact, find, o.Name, at)
			return
		}
		if worst.Code != "" && worst.Ratio() >= x.Ratio() {
			continue
		}
		worst = verdict(x, finding.Error)
		worst.Text = fmt.Sprintf("%s with a person of %s on its %s, %s past what its cases stand on, tips with %s; counter and cases, empty, hold %s.", o.Name, s.kg(personKg), e.name, s.long(e.out), s.turning(x.Demand), s.turning(math.Max(weight, 0)/1000))
		worst.Working = []string{
			fmt.Sprintf("The middle of the person stands %s past that line: %s × %s = %s.", s.exact(lever), s.force(newtons(personKg)), s.exact(lever), s.turning(x.Demand)),
			fmt.Sprintf("Counter and cases weigh %s empty, their centre %s behind it: %s.", s.kg(c.kg), s.exact(back), s.turning(weight/1000))}
		if n > 0 {
			worst.Text += fmt.Sprintf(" %s in the wall hold %s more.", many(n, "screw"), s.turning(wall/1000))
			worst.Working = append(worst.Working, fmt.Sprintf("%s in the wall, each by its distance from that line, × 1.6 for a short load: %s.", many(n, "screw"), s.turning(wall/1000)))
		}
		worst.Working = append(worst.Working, fmt.Sprintf("Ratio %.2f.", worst.Ratio()))
		if worst.Verdict == finding.Fails {
			stated := s.statedOver(cases, e.word, top)
			most := math.Floor((stated-(lever-math.Max(weight+wall, 0)/newtons(personKg)))/s.step()) * s.step()
			if most > 0 {
				worst.Hint = hint([]string{fmt.Sprintf("let it stand out no more than %s, %s: (ratio %.2f)", s.long(most), e.word, newtons(personKg)*(lever-(stated-most))/math.Max(weight+wall, 1))})
			}
		}
	}
	if worst.Code != "" {
		f.Add(worst)
	}
}

// pulledOut is what the drawers and trays of a case on a wall ask of it when they are out, all that can be at once, and
// somebody leans on the outermost with 222 N: the moment about its lower edge beyond the one with all of them in, N·mm, by
// what a load that stays counts against a short one; and where along they are.
func (s *Scene) pulledOut(o *part.Owner, face, in float64) (moment, at float64, words string) {
	sum, xs, kgs, far := 0.0, 0.0, 0.0, math.Inf(1)
	one := s.oneAtATime(o.ID)
	for _, m := range s.of(o.ID).Motions {
		if m.Kind != part.Slide {
			continue
		}
		box, goods, _ := s.moving(m)
		out := newtons(box+goods.kg) * mm(m.Travel)
		far = math.Min(far, mm(m.Closed.Min.Y-m.Travel))
		if one {
			sum = math.Max(sum, out)
		} else {
			sum += out
		}
		xs, kgs = xs+(box+goods.kg)*mm(m.Closed.Min.X+m.Closed.Max.X)/2, kgs+box+goods.kg
	}
	if kgs <= 0 {
		return 0, 0, ""
	}
	all := in + sum + lean*(face-far)
	if moment = permanent/brief*all - in; moment <= 0 {
		return 0, 0, ""
	}
	return moment, xs / kgs, fmt.Sprintf("With its drawers out and %s on the outermost, %s from the wall, %s turn it about its lower edge for a short while; × 0.9 / 1.6 that is %s more than with all of them in.",
		stated(lean), s.exact(face-far), s.turning(all/1000), s.turning(moment/1000))
}

// statedOver is how far a counter stands out past the cases under it as its job counts that, mm.
func (s *Scene) statedOver(cases []*part.Owner, word string, top geom.Box) float64 {
	lo, hi, front := math.Inf(1), math.Inf(-1), math.Inf(1)
	for _, c := range cases {
		lo, hi, front = math.Min(lo, mm(c.Carcass.Min.X)), math.Max(hi, mm(c.Carcass.Max.X)), math.Min(front, mm(c.Box.Min.Y))
	}
	switch word {
	case "over-left":
		return lo - mm(top.Min.X)
	case "over-right":
		return mm(top.Max.X) - hi
	}
	return front - mm(top.Min.Y)
}

// heldBack is the moment that the screws or anchors of cases in their wall hold about a line under a short load, N·mm: each by
// its arm, pulled out or in shear. A fact is what is not known of them.
func (s *Scene) heldBack(cases []*part.Owner, by func(part.Fixing) (arm float64, pulled bool)) (moment float64, n int, fact, find string) {
	for _, c := range cases {
		for _, x := range s.held(c.ID) {
			arm, pulled := by(x)
			if arm <= 0 {
				continue
			}
			if x.Kind == part.ToWall {
				w, _ := s.wallOf(c.Wall)
				if w.Anchor == nil || w.Anchor.Shear == nil || w.Anchor.Tension == nil {
					return moment, n, "the rating of the anchor in wall " + c.Wall, anchorHint
				}
				if fact, find := s.unlined(c); fact != "" {
					return moment, n, fact, find
				}
				may := w.Anchor.Shear.Kilograms()
				if pulled {
					may = w.Anchor.Tension.Kilograms()
				}
				if !shallow(x) {
					moment, n = moment+newtons(may)*arm, n+1
				}
				continue
			}
			if fact, find := s.unknownWall(c); fact != "" {
				return moment, n, fact, find
			}
			g, fact, find := s.gripOf(x)
			if fact != "" {
				return moment, n, fact, find
			}
			if g.none {
				continue
			}
			may := g.z
			if pulled {
				may = g.w
			}
			moment, n = moment+may*brief/permanent*arm, n+1
		}
		if fact, find := s.unknownWall(c); fact != "" && !c.Moves && len(s.held(c.ID)) == 0 {
			return moment, n, fact, find
		}
	}
	return moment, n, "", ""
}
