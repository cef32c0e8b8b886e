package strength

import (
	"math"
	"slices"

	"stowright/internal/carcass"
	"stowright/internal/finding"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/order"
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
	kept := map[string][]carcass.Hung{} // what is in the racks of each leaf, by its case
	for _, l := range s.leaves() {
		if l.in > 0 && len(l.lacks) == 0 {
			kept[l.part.Owner] = append(kept[l.part.Owner], carcass.Hung{Motion: l.front.Motion, Mass: grams(l.in)})
		}
	}
	var list []Settled
	for i := range s.All.Owners {
		o := &s.All.Owners[i]
		if o.Kind != "case" || o.Standing {
			continue
		}
		list = append(list, Settled{Owner: o.ID, Doors: kept[o.ID], Hold: s.stands(o)})
	}
	return list
}

// stands is how a case is fixed to its wall, and on how many feet it stands.
func (s *Scene) stands(o *part.Owner) part.Hold {
	h := s.fixed(o)
	h.Pairs = s.pairs(o)
	return h
}

const (
	inHand     = finding.Close // choices are made to this ratio: beyond it a verdict is "near"
	mostScrews = 4             // in one stud
	mostEnds   = 8             // screws or dowels at one end of a rail
)

// ends is how many screws or dowels the ends of a hung case's rails need to keep their joints in
// hand, no more than mostEnds, and the height of rail that has room for them; 0 where the practice's
// are enough.
func (s *Scene) ends(o *part.Owner) (most int, high L) {
	s.settled(o, []part.Role{part.HangRail, part.Cleat}, func(j *part.Joint, a, b *part.Part, down, out, own float64) {
		more, _ := s.byWay(a, b)
		n := int(math.Ceil((math.Hypot(down, out)/inHand - more.all) / own * float64(j.Count)))
		n = min(n, mostEnds)
		switch {
		case n > j.Count:
			most = max(most, n)
			// A cleat's bevel takes a part of its height from the joint.
			long := j.Contact.Size().Z
			if n > joinery.Room(j.Kind, long) {
				high = max(high, (joinery.LengthFor(j.Kind, n) + b.Box().Size().Z - long).Up(s.railStep()))
			}
		case j.Count > s.Job.Practice.JointLeast:
			most = max(most, n)
		}
	})
	return most, high
}

// settled calls f with every joint of a case between a side or a partition and a board of the roles whose number of
// screws or dowels can be settled, with the load that passes it downwards and outwards and what its own hold
// in all (N). What lacks a fact gives none.
func (s *Scene) settled(o *part.Owner, roles []part.Role, f func(j *part.Joint, a, b *part.Part, down, out, own float64)) {
	h := s.hanging(o)
	if o.Hung && len(h.lacks) > 0 {
		return
	}
	for _, j := range s.of(o.ID).Joints {
		a, b := s.parts[j.A], s.parts[j.B]
		if b == nil || a.Role != part.Side && a.Role != part.Partition || !slices.Contains(roles, b.Role) || j.Count == 0 || !o.Hung && !s.spanning(b) ||
			!slices.Contains([]part.JointKind{part.PocketScrew, part.WoodScrew, part.ConnectingScrew, part.Dowel}, j.Kind) {
			continue
		}
		down, out, _, carries := s.passes(o, h, a, b)
		own, fact, _ := s.holdOf(*j, a, b)
		if !carries || fact != "" || own.all <= 0 {
			continue
		}
		f(j, a, b, down, out, own.all)
	}
}

// floors is how many screws or dowels the ends of a hung case's bottom and fixed shelves need to keep their joints in hand,
// as many as there is room for; 0 where the practice's are enough.
func (s *Scene) floors(o *part.Owner) (most int) {
	s.settled(o, []part.Role{part.Bottom, part.FixedShelf}, func(j *part.Joint, _, _ *part.Part, down, _, own float64) {
		n := int(math.Ceil(down / inHand / own * float64(j.Count)))
		n = min(n, joinery.Room(j.Kind, j.Contact.Size().Y))
		if n > j.Count || j.Count > s.Job.Practice.JointLeast && n == j.Count {
			most = max(most, n)
		}
	})
	return most
}

// railStep is what the heights of rails are whole numbers of.
func (s *Scene) railStep() L {
	if s.inch() {
		return length.Inch / 2
	}
	return 10 * length.MM
}

// fixed chooses the fixing of a case; the zero Hold where the practice's screw is enough, or where
// nothing is known.
func (s *Scene) fixed(o *part.Owner) part.Hold {
	only := part.Hold{}
	if o.Hung {
		only.Ends, only.Rail = s.ends(o)
	}
	only.Floors = s.floors(o)
	if fact, _ := s.unknownWall(o); fact != "" || s.Room.Wall(o.Wall).Kind != "stud" {
		return only
	}
	one := single(s.held(o.ID))
	if len(one) == 0 {
		return only
	}
	need := s.asks(o)
	if need == nil {
		return only
	}
	best, least := part.Hold{}, math.Inf(1)
	for _, screw := range s.screws(one[0]) {
		h := part.Hold{Screw: screw, Pitch: s.pitch(screw)}
		for h.Screws = 1; h.Screws <= mostScrews && least > inHand; h.Screws++ {
			if n, ok := need(h); ok && n < least {
				best, least = h, n
			}
		}
	}
	if best.Screw == one[0].Screw && best.Screws <= 1 {
		best = part.Hold{}
	}
	best.Rail = max(railFor(best), only.Rail)
	best.Ends, best.Floors = only.Ends, only.Floors
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
	order.Stable(more, func(a, b stock.Hardware) int { return int(a.Dia - b.Dia) })
	for _, h := range more {
		list = append(list, h.ID)
	}
	return list
}

// asks gives the ratio of the most loaded screw, were a case held so; nil where nothing is asked of
// the wall, or something is not known.
func (s *Scene) asks(o *part.Owner) func(part.Hold) (float64, bool) {
	list := s.held(o.ID)
	if o.Hung {
		h := s.hanging(o)
		if len(h.lacks) > 0 || len(h.upper) == 0 {
			return nil
		}
		return func(x part.Hold) (float64, bool) {
			n := h
			n.upper, n.low = s.with(single(h.upper), x), s.with(single(h.low), x)
			n.bear = mm(o.Carcass.Min.Z)
			for _, f := range n.low {
				n.bear = math.Max(n.bear, mm(f.At.Z))
			}
			w, fact, _ := s.strained(n)
			return w.ratio, fact == "" && !math.IsInf(w.ratio, 1)
		}
	}
	tips, racks := s.tipAsks(o, list), s.rackAsks(o, list)
	if tips == nil || racks == nil {
		if tips == nil {
			return racks
		}
		return tips
	}
	return func(x part.Hold) (float64, bool) {
		a, ok := tips(x)
		b, also := racks(x)
		return math.Max(a, b), ok && also
	}
}

// rackAsks is the same for a push along the wall, where the screws of a floor case and its neighbours, one in each
// stud, are not enough in hand.
func (s *Scene) rackAsks(o *part.Owner, list []part.Fixing) func(part.Hold) (float64, bool) {
	l := s.gross(o.ID)
	if !l.known || o.Moves {
		return nil
	}
	others := 0.0
	_, to := s.tied(o.ID)
	for _, id := range s.joinedTo(o.ID) {
		m := s.gross(id)
		if !m.known {
			return nil
		}
		l.kg += m.kg
	}
	for _, id := range to {
		m, _, _, _ := s.alongWall(s.owners[id])
		others += m
	}
	push := math.Max(lean, 0.1*newtons(l.kg))
	ask := func(x part.Hold) (float64, bool) {
		may := others
		for _, f := range s.with(single(list), x) {
			g, fact, _ := s.gripOf(f)
			if fact != "" {
				return 0, false
			}
			if !g.none {
				may += g.z / permanent * brief
			}
		}
		return push / may, may > 0
	}
	if own := single(list); len(own) > 0 {
		if now, ok := ask(part.Hold{Screws: 1, Screw: own[0].Screw}); ok && now <= inHand {
			return nil
		}
	}
	return ask
}

// tipAsks is the same for what tips a floor case that does not stand by itself.
func (s *Scene) tipAsks(o *part.Owner, list []part.Fixing) func(part.Hold) (float64, bool) {
	t := s.moments(o, s.oneAtATime(o.ID))
	leans, _, _ := s.leaning(o.ID)
	t.Tipping += leans
	if len(t.lacks) > 0 || t.Ratio(1) <= 1 || o.Moves || !t.opens && leans == 0 {
		return nil
	}
	return func(x part.Hold) (float64, bool) {
		may := 0.0
		for _, f := range s.with(single(list), x) {
			g, fact, _ := s.gripOf(f)
			if fact != "" {
				return 0, false
			}
			if !g.none {
				may += g.w * mm(f.At.Z-o.Box.Min.Z)
			}
		}
		return (t.Tipping - t.Holding) / may, may > 0
	}
}

// with gives the screws of a case as they will stand when it is held so: a rail that grows does so
// inwards.
func (s *Scene) with(one []part.Fixing, x part.Hold) []part.Fixing {
	var out []part.Fixing
	for _, f := range one {
		h, _ := s.Job.Catalogue.Item(x.Screw)
		// The next length sold that reaches as far.
		for _, y := range s.Job.Catalogue.Hardware {
			if y.Kind == "screw" && y.Use == "wall" && y.Dia == h.Dia && y.Length >= f.Length && (h.Length < f.Length || y.Length < h.Length) {
				h = y
			}
		}
		f.Into += h.Length - f.Length
		f.Screw, f.Length = h.ID, h.Length
		if p := s.parts[f.Part]; p != nil && p.Role != part.BackPanel {
			box := p.Box()
			high := max(box.Max.Z-box.Min.Z, railFor(x))
			// As near to its middle as the drill has room to the board over or under it.
			off := max(high/2, drillRoom+x.Pitch*L(max(x.Screws-1, 0))/2)
			mid := box.Max.Z - off
			if f.Row == "lower" {
				mid = box.Min.Z + off
			}
			if p.Role == part.WallCleat {
				mid -= high - (box.Max.Z - box.Min.Z) // the case's half above it grows too
			}
			f.At.Z = mid
		}
		f.At.Z -= x.Pitch * L(x.Screws-1) / 2
		for range x.Screws {
			out = append(out, f)
			f.At.Z += x.Pitch
		}
	}
	return out
}

// drillRoom is what a drill needs beyond the outermost screw of a rail, to the board that lies there
// (common practice, no source).
const drillRoom = 45 * length.MM

// railFor is the least height of a rail for so many screws, one above the other.
func railFor(x part.Hold) L {
	if x.Screws < 2 {
		return 0
	}
	return L(x.Screws-1)*x.Pitch + railEdge + drillRoom
}

// tall is the height of the rails of a wall case that keeps their bending in hand, 0 for as they
// are; no more than twice that.
func (s *Scene) tall(o *part.Owner) L {
	r, ok := s.railOf(o)
	if !ok || r.ratio() <= inHand {
		return 0
	}
	step := s.railStep()
	high := L(r.high * float64(length.MM)).Up(step)
	for most := 2 * high; high < most && r.at(mm(high)) > inHand; {
		high += step
	}
	return high
}
