package strength

import (
	"cmp"
	"fmt"
	"math"

	"stowright/internal/finding"
	"stowright/internal/part"
	"stowright/internal/strength/beam"
	"stowright/internal/strength/plate"
	"stowright/internal/strength/unit"
)

// CounterPerson: a counter does not bear somebody who stands on it.
const CounterPerson finding.Code = "counter-person"

func person() Rule {
	return Rule{Name: "person", Codes: []finding.Code{CounterPerson},
		Doc:     "A counter bears a person of 100 kg who stands on a place 250 mm square at its front edge, in the middle of any way between supports or over any joint of its layers, and on the corner of each end and on the middle of the front where they stand out over what is below, on top of what it carries; the stress may be that of a short load.",
		Source:  strengthSource + "; 100 kg, and a load that spreads at 45 degrees on its way to a support, common practice, no source",
		Example: "A counter of one 12 mm board over a knee space of 1500 mm.",
		Run:     checkPerson}
}

func checkPerson(s *Scene) finding.List {
	var f finding.List
	unknown, ignore := blank{code: CounterPerson, source: strengthSource}, blank{}
	for _, b := range s.carriers(&ignore) {
		if b.part.Role != part.CounterLayer {
			continue
		}
		s.overhangs(b, &f, &unknown)
		may := b.wood.strength(brief)
		if may <= 0 {
			unknown.add("the bending strength of "+b.wood.what, "Give strength-along and strength-across of its material, with the source.", s.name(b.part), b.at)
			continue
		}
		r, wide, where, ok := b.trodden()
		if !ok {
			continue
		}
		if r.weak {
			unknown.add("the strength of what stiffens it", "Give strength of its species, with the source.", s.name(b.part), b.at)
			continue
		}
		of := ""
		if n := len(b.treads()); n > 1 {
			of = fmt.Sprintf(", the worst of %d places", n)
		}
		// Strips and rails are given with their strength under a load that stays.
		stress := math.Max(r.stress, r.strips*permanent/brief*may)
		if r.over && round(stress) > round(may) {
			unknown.add("the modulus across the grain of "+b.wood.what, "Give modulus-across and shear-panel of its material under materials:.", s.name(b.part), b.at)
			continue
		}
		x := verdict(finding.Finding{Code: CounterPerson, At: b.at, Demand: stress, Capacity: may, Unit: "MPa", Source: strengthSource + "; " + plateSource}, overload(stress/may, false))
		x.Working = append(append(append(b.working, s.butted(b)...), s.eases(b)...), fmt.Sprintf("A person of %s stands at the front edge, %s %s between supports%s.", s.kg(personKg), where.where, s.exact(where.hi-where.lo), of),
			fmt.Sprintf("As a plate it bends as a beam %s deep would under the same person.", s.exact(wide)),
			fmt.Sprintf("Stress %s; counted on for a short load: %s. Ratio %.2f.", s.stress(stress), s.counted(b.wood, b.wood.f, brief), x.Ratio()))
		x.Text = fmt.Sprintf("%s, %s between supports, is stressed to %s with a person of %s on it; %s can be counted on.", s.name(b.part), s.long(b.reach), s.stress(stress), s.kg(personKg), s.stress(may))
		if x.Verdict == finding.Fails {
			x.Hint = hint(s.remedies(b, func(n board) float64 {
				r, _, _, ok := n.trodden()
				if !ok || r.weak {
					return math.Inf(1)
				}
				return math.Max(r.stress/n.wood.strength(brief), r.strips*permanent/brief)
			}))
		}
		f.Add(x)
	}
	f.Add(unknown.findings("Whether a person may stand on it", finding.Note)...)
	return f
}

// tread is a place at which a person stands on a counter, mm along, between two supports.
type tread struct {
	at, lo, hi float64
	where      string
}

// treads are the places where a person bends a counter most: the middle of every way between supports, and
// every joint of its layers.
func (b board) treads() []tread {
	var list []tread
	for i := 1; i < len(b.supports); i++ {
		lo, hi := b.supports[i-1], b.supports[i]
		if hi-lo < oneTwo {
			continue
		}
		list = append(list, tread{(lo + hi) / 2, lo, hi, "in the middle of"})
		for _, c := range b.cuts {
			if c.at > lo+oneTwo && c.at < hi-oneTwo {
				list = append(list, tread{c.at, lo, hi, "over the joint of the " + c.name + " in"})
			}
		}
	}
	return list
}

// trodden is the stress with a person at the front edge, at the worst of the treads.
func (b board) trodden() (worst bent, wide float64, where tread, ok bool) {
	base, ok := b.bendBeam()
	if !ok || b.reach <= 0 {
		return bent{}, 0, where, false
	}
	most, may := -1.0, b.wood.strength(brief)
	for _, p := range b.treads() {
		r, w, ok := b.bears(p)
		if !ok {
			return bent{}, 0, where, false
		}
		if alone := b; len(b.beside) > 0 {
			// What its rails would be stressed to is nothing that it needs where it does better without them.
			alone.beside = nil
			if x, w2, ok := alone.bears(p); ok && !x.weak && (r.weak || math.Max(x.stress, x.strips*permanent/brief*may) < math.Max(r.stress, r.strips*permanent/brief*may)) {
				r, w = x, w2
			}
		}
		if now := math.Max(r.stress, r.strips*permanent/brief*may); now > most {
			most, worst, wide, where = now, r, w, p
		}
	}
	worst.weak = worst.weak || base.weak && len(b.beside) == 0
	return worst, wide, where, most >= 0
}

// bears is a board with a person on one place. One person on a wide board does not bend its whole depth alike:
// the plate of one way, without strips, gives how much of the depth works, and the beam over all supports is
// loaded with the person times the whole depth over that.
func (b board) bears(p tread) (bent, float64, bool) {
	ey, g, over := b.wood.across, b.wood.g, false
	if ey <= 0 { // the softer it is across, the less of its depth works
		ey, over = b.wood.e/50, true
	}
	if g <= 0 {
		g, over = b.wood.e/100, true
	}
	reach := p.hi - p.lo
	side := math.Min(personWay, math.Min(reach, b.depth))
	load := newtons(personKg)
	x := math.Min(math.Max(p.at-p.lo, side/2), reach-side/2)
	sh := plate.Shelf{Board: plate.Board{T: b.t, Ex: b.wood.e, Ey: ey, G: g}, Span: reach, Depth: b.depth,
		Loads: []plate.Patch{{X1: x - side/2, X2: x + side/2, Y1: 0, Y2: side, Pressure: load / side / side}}}
	bends, solved := 0.0, sh.Solve(halfWaves)
	for k := range 21 {
		bends = math.Max(bends, math.Abs(solved.At(x, b.depth*float64(k)/20).Mx))
	}
	// The same patch on a beam: M = F (x (L - x)/L - side/8).
	even := load * (x*(reach-x)/reach - side/8) / b.depth
	wide := b.depth * math.Min(1, even/bends)

	b = b.eased(b.borne()+load/2, brief)
	m := b.beam()
	m.Points = append(append([]beam.Point{}, b.points...), beam.Point{At: p.at, Force: load * b.depth / wide})
	r, ok := m.Solve()
	if !ok || r.Sag.Value > b.length {
		return bent{}, 0, false
	}
	out := b.along(m.Section, r)
	b.atCuts(&out, r.MomentAt)
	out.over = over
	return out, wide, true
}

// middle is the middle of the longest way between supports.
func (b board) middle() float64 {
	w := way(b.supports)
	for i := 1; i < len(b.supports); i++ {
		if b.supports[i]-b.supports[i-1] == w {
			return (b.supports[i] + b.supports[i-1]) / 2
		}
	}
	return b.length / 2
}

// ledge is a part of a counter that stands out over what carries it, loaded by a person at its edge.
type ledge struct {
	where     string
	out, wide float64 // mm past the support; width that works at the support
	f         float64 // strength of the board, the way it stands out, MPa
	unknown   string
	stress    float64                   // MPa
	at        func(out float64) float64 // the stress if it stood out so far
}

// ledges are a counter's two ends, and its front, where they stand out so far that a person's place
// has its middle past the support.
func (s *Scene) ledges(b board) []ledge {
	const half = personWay / 2
	var list []ledge
	first, last := b.supports[0], b.supports[len(b.supports)-1]
	for _, x := range []struct {
		where string
		out   float64
	}{{"left end", first}, {"right end", b.length - last}} {
		if x.out <= half {
			continue
		}
		// On the corner the load spreads to one side only.
		l := ledge{where: x.where, out: x.out, wide: math.Min(b.depth, personWay+x.out-half), f: b.wood.f}
		l.at = func(out float64) float64 {
			n := b
			n.depth = math.Min(b.depth, personWay+out-half)
			r := n.stresses(n.section(), newtons(personKg)*(out-half)+b.line*out*out/2*n.depth/b.depth)
			if r.weak {
				l.unknown = "the strength of what stiffens it"
			}
			return math.Max(r.stress, r.strips*permanent*b.wood.strength(1))
		}
		l.stress = l.at(x.out)
		list = append(list, l)
	}
	out := s.overFront(b)
	if out > half {
		l := ledge{where: "front", out: out, wide: math.Min(b.length, personWay+2*(out-half)), f: b.wood.crossF}
		square := b.t * b.t
		for _, x := range b.layers {
			if x.wide > 0.9*b.depth {
				square += x.high * x.high // a layer below bends beside it
			}
		}
		l.at = func(out float64) float64 {
			wide := math.Min(b.length, personWay+2*(out-half))
			return (newtons(personKg)*(out-half) + b.line/b.depth*out*out/2*wide) / (square * wide / 6)
		}
		l.stress = l.at(out)
		if l.f <= 0 {
			l.unknown = "the strength across the grain of " + b.wood.what
		}
		list = append(list, l)
	}
	return list
}

// overFront is how far a counter stands out past the foremost of what carries it, mm.
func (s *Scene) overFront(b board) float64 {
	o := s.owners[b.part.Owner]
	box := s.whole(b.part)
	front := math.Inf(1)
	for i := range s.All.Parts {
		q := &s.All.Parts[i]
		if q.Role != part.Side && q.Role != part.Partition && q.Role != part.Leg && (q.Role != part.Rail || q.Owner != o.ID) || s.owners[q.Owner] == nil || s.owners[q.Owner].Wall != o.Wall {
			continue
		}
		c := q.Box()
		if math.Abs(mm(c.Max.Z)-s.underside(o.ID)) <= touching && c.Max.X > box.Min.X && c.Min.X < box.Max.X && c.Max.Y > box.Min.Y && c.Min.Y < box.Max.Y {
			front = math.Min(front, mm(c.Min.Y))
		}
	}
	if math.IsInf(front, 1) {
		return 0
	}
	return front - mm(box.Min.Y)
}

// inset is how far what carries a counter at an edge lies behind what its job counts from there: the outer sides of its
// cases, and their fronts, mm.
func (s *Scene) inset(b board, l ledge) float64 {
	top := s.owners[b.part.Owner]
	box := s.whole(b.part)
	lo, hi, front := math.Inf(1), math.Inf(-1), math.Inf(1)
	for i := range s.All.Owners {
		if o := &s.All.Owners[i]; o.Kind == "case" && o.Wall == top.Wall && over(top.Box, o.Carcass) {
			lo, hi, front = math.Min(lo, mm(o.Carcass.Min.X)), math.Max(hi, mm(o.Carcass.Max.X)), math.Min(front, mm(o.Box.Min.Y))
		}
	}
	stated := 0.0
	switch l.where {
	case "left end":
		stated = lo - mm(box.Min.X)
	case "right end":
		stated = mm(box.Max.X) - hi
	case "front":
		stated = front - mm(box.Min.Y)
	}
	if math.IsInf(stated, 0) {
		return 0
	}
	return math.Max(l.out-stated, 0)
}

// overhangs judges a person at the edge of what stands out.
func (s *Scene) overhangs(b board, f *finding.List, unknown *blank) {
	for _, l := range s.ledges(b) {
		at, name := b.at+"/"+l.where, s.name(b.part)+", its "+l.where
		if l.unknown != "" || l.f <= 0 {
			unknown.add(cmp.Or(l.unknown, "the bending strength of "+b.wood.what), "Give strength-along and strength-across of its material, with the source.", name, at)
			continue
		}
		may := l.f * countedOn * brief
		arm := l.out - personWay/2
		x := verdict(finding.Finding{Code: CounterPerson, At: at, Demand: l.stress, Capacity: may, Unit: "MPa", Source: strengthSource + "; statics"}, overload(l.stress/may, false))
		x.Text = fmt.Sprintf("%s stands out %s past what carries it and is stressed to %s with a person of %s at its edge; %s can be counted on.", name, s.long(l.out), s.stress(l.stress), s.kg(personKg), s.stress(may))
		x.Working = []string{
			fmt.Sprintf("A person of %s on a place %s square at the edge: %s × %s past the support, on a width of %s.", s.kg(personKg), s.exact(personWay), s.force(newtons(personKg)), s.exact(arm), s.exact(l.wide)),
			fmt.Sprintf("Counted on for a short load: %s. Ratio %.2f.", s.counted(b.wood, l.f, brief), x.Ratio())}
		if x.Verdict == finding.Fails {
			lo, hi := personWay/2, l.out
			for range 40 {
				if mid := (lo + hi) / 2; l.at(mid) <= may {
					lo = mid
				} else {
					hi = mid
				}
			}
			step := 5.0
			if s.inch() {
				step = unit.Inch / 4
			}
			out := math.Floor(lo/step) * step
			out -= math.Ceil(s.inset(b, l)/step-1e-6) * step
			x.Hint = fmt.Sprintf("Let it stand out no more than %s, %s: (ratio %.2f).", s.long(out), map[string]string{"front": "over-front", "left end": "over-left", "right end": "over-right"}[l.where], l.at(out+s.inset(b, l))/may)
		}
		f.Add(x)
	}
}
