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

// Racking: a push along the wall folds a case, a bench or a hook board on its frame.
const Racking finding.Code = "racking"

const rackingSource = "statics; screws NDS 2018 12.3.1A with CD 1.6 (2.3.2, a short push); the push, 222 N (50 lb) or a tenth of the weight, common practice, no source"

func racking() Rule {
	return Rule{Name: "racking", Codes: []finding.Code{Racking},
		Doc:     "A push along the wall at the top of a floor case, a free bench or a hook board on its frame, of 222 N (50 lb) or a tenth of its weight if that is more (a case's with all that is in it and on it, and that of the neighbours that it is joined to), goes into the wall by its screws or those of the neighbours it is joined to, or round the edges of a back or panel that is screwed on. The frame of a bench or a hook board holds by the screws of its corners, as groups that turn. What glue, the corners of a case and a loose panel in grooves do against it is not counted: nothing published tells.",
		Source:  rackingSource,
		Example: "A case with a back held by two screws at the top, that stands free.",
		Run:     checkRacking}
}

func checkRacking(s *Scene) finding.List {
	var f finding.List
	unknown := blank{code: Racking, source: rackingSource}
	for i := range s.All.Owners {
		o := &s.All.Owners[i]
		stands := o.Kind == "case" && !o.Hung || o.Kind == "hutch" || o.Kind == "counter" && s.legged(o.ID)
		if o.Standing || !stands {
			continue
		}
		at := s.at(o.ID, "")
		corner, screwed := "Screw a back or a panel round its four edges, brace it with a panel (brace: panel), or fix its top to the wall or to a neighbour.", "Fix its top to the wall or to a neighbour; or say back: applied, which is screwed on round its edges."
		if s.unfixed(o) {
			corner, screwed = "Screw a back or a panel round its four edges, or brace it with a panel (brace: panel).", "Say back: applied, which is screwed on round its edges."
		}
		l := s.bare(o)
		if o.Kind == "case" {
			l = s.gross(o.ID)
		}
		if !l.known {
			for _, x := range l.lacks {
				unknown.add(x, "Give density of the material, weighs: to the goods, or load: to the bay.", o.Name, at)
			}
			continue
		}
		push, why, way := math.Max(lean, 0.1*newtons(l.kg)), "", "along the wall"
		if o.Wall == "" {
			way = "along its length"
		}
		said := fmt.Sprintf("Push "+way+": %s, or a tenth of what it weighs, 0.1 × %s = %s, if that is more: %s.", stated(lean), s.force(newtons(l.kg)), s.force(0.1*newtons(l.kg)), s.push(push, lean))
		if push > lean && l.assumed {
			why = ", a tenth of a weight that is partly assumed,"
		}
		if l.assumed {
			said += " Some of its load is assumed, by the practice."
		}
		x := finding.Finding{Code: Racking, At: at, Demand: push, Unit: "N", Source: rackingSource}
		x.Working = []string{said}
		// What it is joined to pushes at the same time, on the same screws, held by the wall itself or not.
		all := l
		for _, id := range s.joinedTo(o.ID) {
			m := s.gross(id)
			all.kg, all.assumed, all.lacks = all.kg+m.kg, all.assumed || m.assumed, append(all.lacks, m.lacks...)
		}
		if len(all.lacks) > 0 {
			for _, x := range all.lacks {
				unknown.add(x, "Give density of the material, weighs: to the goods, or load: to the bay.", o.Name, at)
			}
			continue
		}
		alone, lone := push, why
		if with := 0.1 * newtons(all.kg); with > push {
			push, x.Demand = with, with
			if all.assumed {
				why = ", a tenth of their weight, which is partly assumed,"
			} else {
				why = ", a tenth of their weight,"
			}
			x.Working = append(x.Working, fmt.Sprintf("It and the neighbours that it is joined to lean on the same screws: 0.1 × %s = %s.", s.force(newtons(all.kg)), s.force(push)))
		}
		may, n, by, words := s.alongWall(o)
		if _, to := s.tied(o.ID); len(to) > 0 {
			by = "into the wall by its screws and its neighbours'"
			if may <= 0 {
				by = "by its neighbours into the wall"
			}
			for _, id := range to {
				m, k, _, w := s.alongWall(s.owners[id])
				may, n, words = may+m, n+k, append(words, w...)
			}
		}
		// By itself, and so does each of its neighbours, where no wall holds it or its own back holds it better.
		if p, round, said := s.panelled(o, 0); may <= 0 || p > 0 && alone/p < push/may {
			push, why, x.Demand, x.Working = alone, lone, alone, x.Working[:1]
			may, by, words, n = p, round, said, 0
		}
		if corners, said := s.corners(o); corners > may && may < push {
			// Both are bounds from below; what is more is proved.
			may, by, words = corners, "into the joints of its frame", said
			n = 0
			if may < push {
				unknown.add(fmt.Sprintf("what its corners hold besides their screws, which alone hold %s of a push of %s %s,", s.force(may), s.push(push, lean), way), corner, o.Name, at)
				continue
			}
		}
		if may <= 0 {
			unknown.add("what its corners and a loose back hold against a push "+way, screwed, o.Name, at)
			continue
		}
		x.Capacity = may
		x = verdict(x, finding.Warning)
		x.Text = fmt.Sprintf("A push of %s%s %s at the top of %s goes %s, which would hold %s.", s.push(push, lean), why, way, o.Name, by, s.force(may))
		x.Working = append(append(x.Working, words...), fmt.Sprintf("Ratio %.2f.", x.Ratio()))
		if x.Verdict == finding.Fails {
			var words []string
			if n == 0 {
				if pitch, r := s.closer(o, push); pitch > 0 {
					words = append(words, fmt.Sprintf("screw it on all round at every %s, back-screws: under practice: (ratio %.2f)", s.long(pitch), r))
				}
			}
			if push > lean { // a tenth of what it weighs
				words = append(words, fmt.Sprintf("put %s less into it (ratio 1.00)", s.kg((push-math.Max(may, lean))*10/newtons(1))))
			}
			if n == 0 && o.Kind == "case" {
				words = append(words, s.pushWall(o, push)...)
			}
			x.Hint = hint(words)
		}
		f.Add(x)
	}
	f.Add(unknown.findings("Racking", finding.Note)...)
	return f
}

// unfixed reports whether an owner rolls or slides out of its place, so that nothing fixes it there.
func (s *Scene) unfixed(o *part.Owner) bool {
	return s.loose(o.ID) == "rolls" || s.loose(o.ID) == "slides"
}

// pushWall is the remedy of a case that stands free at a wall of known studs, and is fixed to it; nothing where that would not
// be enough against a push or is not known.
func (s *Scene) pushWall(o *part.Owner, push float64) []string {
	if s.loose(o.ID) != "standing" {
		return nil
	}
	n, g := s.wouldHold(o)
	for k := 1; k <= mostScrews && n > 0; k++ {
		if r := push / (float64(n*k) * g.z / permanent * brief); r <= inHand || r <= 1 && k == mostScrews {
			return []string{fmt.Sprintf("fix its top to the wall in %s, without free: (ratio %.2f)", many(n, "stud"), r)}
		}
	}
	return nil
}

// bare is what an owner weighs by itself.
func (s *Scene) bare(o *part.Owner) load {
	own, lacks := s.bodies(o.ID, false)
	t := sum(own)
	l := load{kg: t.kg + s.hardware(o.ID, t.kg)}
	l.lacks = append(l.lacks, lacks...)
	l.known = len(l.lacks) == 0
	return l
}

// legged says that a counter stands on legs of its own.
func (s *Scene) legged(owner string) bool {
	for _, p := range s.of(owner).Parts {
		if p.Role == part.Leg {
			return true
		}
	}
	return false
}

// alongWall is what screws in studs hold along the wall, N; 0 where there are none, or they are
// not known.
func (s *Scene) alongWall(o *part.Owner) (may float64, n int, by string, words []string) {
	for _, x := range s.held(o.ID) {
		if x.Kind != part.ToStud {
			return 0, 0, "", nil
		}
		if fact, _ := s.unknownWall(o); fact != "" {
			return 0, 0, "", nil
		}
		g, fact, _ := s.gripOf(x)
		if fact != "" || g.none {
			continue
		}
		may += g.z / float64(nds.Permanent) * float64(nds.TenMinutes)
		n++
	}
	return may, n, "into the wall by its screws", []string{fmt.Sprintf("%s in studs can carry %s together, × 1.6 for a short push.", many(n, "screw"), s.force(may))}
}

// closer is the widest pitch of the screws round a case's back or a hook board, mm, at which they hold a push, and the
// ratio then; 0 for none.
func (s *Scene) closer(o *part.Owner, push float64) (pitch, ratio float64) {
	step := 5.0
	if s.inch() {
		step = unit.Inch / 4
	}
	for k := 80; float64(k)*step >= 40; k-- {
		if may, _, _ := s.panelled(o, float64(k)*step); push <= may {
			return float64(k) * step, push / may
		}
	}
	return 0, 0
}

// rescrewed is how many screws go round a panel along an edge at a pitch, all lengths in mm.
func rescrewed(role part.Role, long, pitch float64) int {
	if role == part.HookBoard {
		return max(2, int(long/pitch)+1)
	}
	of := func(v float64) L { return L(math.Round(v * float64(length.MM))) }
	return len(joinery.Places(of(long), 50*length.MM, of(pitch), 2))
}

// panelled is what a screwed-on back holds at its top, N: the same force for each length of its
// edges, so that the edge with the fewest screws for its length decides. Pitch is of screws, mm, 0 for those that are there.
func (s *Scene) panelled(o *part.Owner, pitch float64) (may float64, by string, words []string) {
	for _, p := range s.of(o.ID).Parts {
		if p.Role != part.BackPanel && p.Role != part.HookBoard {
			continue
		}
		v := p.Box().Size()
		wide, high := mm(v.X), mm(v.Z)
		if wide <= 0 || high <= 0 {
			continue
		}
		// Screws along its upright and its level edges, N each.
		var up, level float64
		for _, j := range s.joints[p.Mark] {
			other := j.A
			if other == p.Mark {
				other = j.B
			} else if j.B != p.Mark {
				continue
			}
			q := s.parts[other]
			if q == nil || j.Count == 0 || j.Kind != part.WoodScrew && j.Kind != part.Undone {
				continue
			}
			fast, long, ok := s.screw(j.Fastener)
			wp, wq := s.wood(p, 0, false), s.wood(q, 0, false)
			into := long - mm(p.Size[2])
			if !ok || into <= 0 || wp.sg <= 0 || wq.sg <= 0 {
				continue
			}
			each, _, _, known := s.lateralOf(fast, wp.sg, wq.sg, mm(p.Size[2]), into, s.layered(p) && s.layered(q))
			if !known {
				continue
			}
			c, n := j.Contact.Size(), j.Count
			if pitch > 0 {
				n = rescrewed(p.Role, math.Max(mm(c.X), mm(c.Z)), pitch)
			}
			z := each / permanent * brief * float64(n)
			if c.Z > c.X {
				up += z
			} else {
				level += z
			}
		}
		// Two upright and two level edges: each gets half.
		one := math.Min(level/2, up/2*wide/high)
		if one > 0 {
			may += one
			words = append(words, fmt.Sprintf("%s, %s by %s: its screws hold %s along a level edge and %s along an upright one (× 0.67 into edges, × 1.6 for a short push): %s at the top. The shear in the board itself is %s.",
				s.name(p), s.exact(wide), s.exact(high), s.force(level/2), s.force(up/2), s.force(one), s.stress(one/wide/mm(p.Size[2]))))
		}
	}
	return may, "round its back by screws", words
}

// corners is what the joints of a bench's or a hook board's frame hold along the wall at its top, N, by their screws
// alone: each end of each rail turns about the middle of its screws, each of which carries by its distance from
// there, and the moments of all ends carry the push at the top. Glue and the fit of the ends are not counted.
func (s *Scene) corners(o *part.Owner) (may float64, words []string) {
	if o.Kind != "counter" && o.Kind != "hutch" {
		return 0, nil
	}
	high := mm(o.Box.Max.Z - o.Box.Min.Z)
	if o.Kind == "counter" {
		for _, p := range s.of(o.ID).Parts {
			if p.Role == part.Leg {
				high = math.Max(high, mm(o.Box.Max.Z-p.Box().Min.Z))
			}
		}
	}
	ends, moment := 0, 0.0
	for _, j := range s.of(o.ID).Joints {
		a, b := s.parts[j.A], s.parts[j.B]
		if b == nil || j.Count < 2 {
			continue
		}
		if a.Role != part.Leg && a.Role != part.Frame {
			a, b = b, a
		}
		v := j.Contact.Size()
		if a.Role != part.Leg && a.Role != part.Frame || b.Role != part.Rail && b.Role != part.HangRail && b.Role != part.Frame || v.X > v.Y || v.X > v.Z {
			continue // across the push
		}
		h, fact, _ := s.holdOf(*j, a, b)
		if fact != "" {
			continue
		}
		ends++
		each := h.all / permanent * brief / float64(j.Count)
		moment += each * spread(a, *j)
	}
	if ends == 0 || high <= 0 {
		return 0, nil
	}
	may = moment / high
	return may, []string{fmt.Sprintf("%s of rails turn about the middle of their screws, each by its distance from it: %s together (× 1.6 for a short push), over %s high: %s.", many(ends, "end"), s.turning(moment/1000), s.exact(high), s.force(may))}
}

// spread is what the screws of a joint count for about their middle, by where they are bored, mm: the sum of the
// squares of their distances from it over the greatest; two a fifth of the joint's height from it where that is not
// known.
func spread(a *part.Part, j part.Joint) float64 {
	var at []float64
	mid := 0.0
	in := j.Contact.Grow(length.MM)
	for _, o := range a.Ops {
		if p := a.Pose.Point(o.Face.Point(o.X, o.Y, a.Size)); o.Kind == part.Hole && p.Y >= in.Min.Y && p.Y <= in.Max.Y && p.Z >= in.Min.Z && p.Z <= in.Max.Z {
			at = append(at, mm(p.Z))
			mid += mm(p.Z)
		}
	}
	if len(at) != j.Count {
		return 2 * mm(j.Contact.Size().Z) / 5
	}
	mid /= float64(len(at))
	sum, far := 0.0, 0.0
	for _, z := range at {
		sum += (z - mid) * (z - mid)
		far = math.Max(far, math.Abs(z-mid))
	}
	if far <= 0 {
		return 0
	}
	return sum / far
}
