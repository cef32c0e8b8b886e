package strength

import (
	"math"
	"slices"

	"stowright/internal/carcass"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/stock"
)

// Settled is what only loads can say of a case, and its geometry must then make room for.
type Settled struct {
	Owner string
	Doors []carcass.Hung
	Hold  part.Hold
}

// Settle weighs what hangs on doors and chooses how each case is fixed to its wall: the fewest
// screws in each stud that leave something in hand, of the practice's size first, then of the
// thicker wall screws that are listed. Where no choice is enough the best one is given, and the
// checks say so. It answers for the assembly as it stands: assemble again with the answer, and ask
// again.
func Settle(in Input) []Settled {
	s := NewScene(in)
	var list []Settled
	for i := range s.All.Owners {
		o := &s.All.Owners[i]
		if o.Kind != "case" || o.Standing {
			continue
		}
		list = append(list, Settled{Owner: o.ID, Doors: s.kept(o.ID), Hold: s.fixed(o)})
	}
	return list
}

// kept is what is in the racks of each leaf of a case.
func (s *Scene) kept(owner string) []carcass.Hung {
	var list []carcass.Hung
	for _, l := range s.leaves() {
		if l.part.Owner == owner && l.in > 0 && len(l.lacks) == 0 {
			list = append(list, carcass.Hung{Motion: l.front.Motion, Mass: grams(l.in)})
		}
	}
	return list
}

const (
	inHand     = 0.85 // choices are made to this ratio: beyond it a verdict is "near"
	mostScrews = 4    // in one stud
)

// fixed chooses the fixing of a case; the zero Hold where the practice's screw is enough, or where
// nothing is known.
func (s *Scene) fixed(o *part.Owner) part.Hold {
	if fact, _ := s.unknownWall(o); fact != "" || s.Room.Wall(o.Wall).Kind != "stud" {
		return part.Hold{}
	}
	one := single(s.held(o.ID))
	if len(one) == 0 {
		return part.Hold{}
	}
	need := s.asks(o, one)
	if need == nil {
		return part.Hold{}
	}
	best, least := part.Hold{}, math.Inf(1)
	for _, screw := range s.screws(one[0]) {
		r, ok := need(screw)
		if !ok {
			continue
		}
		h := part.Hold{Screw: screw, Pitch: s.pitch(screw)}
		for h.Screws = 1; h.Screws <= mostScrews; h.Screws++ {
			if n := r / float64(h.Screws); n < least {
				best, least = h, n
			}
			if least <= inHand {
				break
			}
		}
		if least <= inHand {
			break
		}
	}
	if best.Screw == one[0].Screw && best.Screws <= 1 {
		best = part.Hold{}
	}
	if best.Screws > 1 {
		best.Rail = L(best.Screws-1)*best.Pitch + 2*railEdge
	}
	if o.Hung {
		best.Rail = max(best.Rail, s.tall(o))
	}
	return best
}

// railEdge is the wood between a screw and the edge of its rail: over four diameters (NDS 2018
// Table 12.5.1C) of screws to 4.7 mm, and over two and a half (C12.1) of 7 mm.
const railEdge = 3 * length.Inch / 4

// single gives one screw for each stud in each row.
func single(list []part.Fixing) []part.Fixing {
	var out []part.Fixing
	for _, f := range list {
		if !slices.ContainsFunc(out, func(x part.Fixing) bool { return x.Row == f.Row && x.At.X == f.At.X }) {
			out = append(out, f)
		}
	}
	return out
}

// pitch is ten diameters, to the next mark on a tape: the advice of the NDS commentary (C12.1) for
// screws in a row along the grain, in bored holes.
func (s *Scene) pitch(screw string) L {
	h, _ := s.Job.Catalogue.Item(screw)
	step := 5 * length.MM
	if s.inch() {
		step = length.Inch / 4
	}
	return (10 * h.Dia).Up(step)
}

// screws are the wall screws that may be taken: that of a fixing, then thicker ones that are sold
// in the same unit, the thinnest first, one of each diameter.
func (s *Scene) screws(f part.Fixing) []string {
	own, ok := s.Job.Catalogue.Item(f.Screw)
	if !ok {
		return nil
	}
	list := []string{f.Screw}
	var more []stock.Hardware
	for _, h := range s.Job.Catalogue.Hardware {
		if h.Kind != "screw" || h.Use != "wall" || h.Dia <= own.Dia || h.Length < own.Length || h.Sold != own.Sold && h.Sold != "both" ||
			slices.ContainsFunc(more, func(x stock.Hardware) bool { return x.Dia == h.Dia }) {
			continue
		}
		more = append(more, h)
	}
	slices.SortStableFunc(more, func(a, b stock.Hardware) int { return int(a.Dia - b.Dia) })
	for _, h := range more {
		list = append(list, h.ID)
	}
	return list
}

// asks gives the ratio of the most loaded screw with one screw of a kind in each stud; nil where
// nothing is asked of the wall, or something is not known.
func (s *Scene) asks(o *part.Owner, one []part.Fixing) func(screw string) (float64, bool) {
	as := func(f part.Fixing, screw string) (grip, bool) {
		h, _ := s.Job.Catalogue.Item(screw)
		f.Into += h.Length - f.Length
		f.Screw, f.Length = screw, h.Length
		g, fact, _ := s.gripOf(f)
		return g, fact == ""
	}
	if !o.Hung {
		t := s.moments(o, s.oneAtATime(o.ID))
		leans, _ := s.leaning(o.ID)
		t.Tipping += leans
		if len(t.lacks) > 0 || t.Ratio(1) <= 1 || o.Moves {
			return nil
		}
		return func(screw string) (float64, bool) {
			may := 0.0
			for _, f := range one {
				g, ok := as(f, screw)
				if !ok {
					return 0, false
				}
				if !g.none {
					may += g.w * mm(f.At.Z-o.Box.Min.Z)
				}
			}
			return (t.Tipping - t.Holding) / may, may > 0
		}
	}
	h := s.hanging(o)
	if len(h.lacks) > 0 || len(h.upper) == 0 {
		return nil
	}
	h.upper, h.low = single(h.upper), single(h.low)
	carry, v, t := h.asked()
	return func(screw string) (float64, bool) {
		worst := 0.0
		for i, f := range carry {
			g, ok := as(f, screw)
			if !ok || g.none {
				return 0, false
			}
			worst = math.Max(worst, g.fast.Ratio(v[i], t[i], g.z, g.w))
		}
		return worst, true
	}
}

// tall is the height of the rails of a wall case that keeps their bending in hand, 0 for as they
// are; no more than twice that.
func (s *Scene) tall(o *part.Owner) L {
	r, ok := s.railOf(o)
	if !ok || r.ratio() <= inHand {
		return 0
	}
	step := 10 * length.MM
	if s.inch() {
		step = length.Inch / 2
	}
	high := L(r.high * float64(length.MM)).Up(step)
	for most := 2 * high; high < most && r.at(mm(high)) > inHand; {
		high += step
	}
	return high
}
