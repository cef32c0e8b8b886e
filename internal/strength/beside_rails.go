package strength

import (
	"fmt"
	"math"
	"slices"

	"stowright/internal/part"
	"stowright/internal/strength/beam"
)

// railEnds is what the weaker end of a rail under a counter holds by its screws, N, under a load that stays: by
// those in the sides of cases, or by its joints with legs. 0 where that is not known.
func (s *Scene) railEnds(q *part.Part) float64 {
	b := q.Box()
	mid := (b.Min.X + b.Max.X) / 2
	var left, right float64
	put := func(x part.L, n float64) {
		if x < mid {
			left += n
		} else {
			right += n
		}
	}
	pocket := slices.ContainsFunc(q.Ops, func(o part.Op) bool { return o.Kind == part.Pocket })
	for _, f := range s.All.Fixings {
		if f.Kind != part.ToCase || f.Part != q.Mark {
			continue
		}
		for _, a := range s.of(f.Stud).Parts {
			if a.Role != part.Side || (a.Box().Max.X-f.At.X).Abs() > 40_000 && (a.Box().Min.X-f.At.X).Abs() > 40_000 {
				continue
			}
			kind := part.WoodScrew // through the side into the rail's end
			if pocket {
				kind = part.PocketScrew
			}
			h, fact, _ := s.holdOf(part.Joint{Kind: kind, Fastener: f.Screw, Count: 1}, a, q)
			if fact == "" {
				put(f.At.X, h.all)
			}
			break
		}
	}
	for _, j := range s.joints[q.Mark] {
		a := s.parts[j.A]
		if j.B != q.Mark {
			a = s.parts[j.B]
		}
		if a == nil || a.Role != part.Leg {
			continue
		}
		if h, fact, _ := s.holdOf(*j, a, q); fact == "" {
			put((j.Contact.Min.X+j.Contact.Max.X)/2, h.all)
		}
	}
	return math.Min(left, right)
}

// borne is what stands at one end of the longest way between supports, N: half of what is spread, and of each
// point what it brings to the nearer one.
func (b board) borne() float64 {
	n := b.line * b.reach / 2
	lo := b.middle() - b.reach/2
	for _, p := range b.points {
		if x := p.At - lo; x > 0 && x < b.reach {
			n += p.Force * math.Max(x, b.reach-x) / b.reach
		}
	}
	return n + b.thing/2
}

// eased is the board, for its strength, with its rails counted for no more than their end screws hold: a rail that
// would take more gives there, and what it does not take the board does. (Its sag is that of both, for screws do
// not slip so soon.) Load is what stands at one end, in N.
func (b board) eased(load, cd float64) board {
	if len(b.beside) == 0 {
		return b
	}
	rails, may := 0.0, 0.0
	for _, x := range b.beside {
		rails += beam.Rect(x.wide, x.high, x.e, x.g).EI
		may += x.ends * cd / permanent
	}
	own := beam.Compose(b.pieces()...).EI
	if load*rails/(rails+own) <= may {
		return b
	}
	k := may * own / ((load - may) * rails)
	b.beside = slices.Clone(b.beside)
	for i := range b.beside {
		b.beside[i].e *= k
		b.beside[i].g *= k
	}
	if may <= 0 {
		b.beside = nil
	}
	return b
}

// propped is the board with its rails eased, or without them where it is worked less hard so: what they would be
// stressed to is then nothing that it needs.
func (b board) propped(load, cd float64, ratio func(board) float64) board {
	if len(b.beside) == 0 {
		return b
	}
	alone := b
	alone.beside = nil
	if n := b.eased(load, cd); ratio(n) <= ratio(alone) {
		return n
	}
	return alone
}

// eases says in words what is counted of its rails.
func (s *Scene) eases(b board) []string {
	if len(b.beside) == 0 {
		return nil
	}
	n, may := b.eased(b.borne(), permanent), 0.0
	for _, x := range b.beside {
		may += x.ends
	}
	if share := n.section().EI; share < b.section().EI {
		return []string{fmt.Sprintf("The screws at its rails' ends hold %s together: of %s that stands at one end they are counted for that much.", s.force(may), s.force(b.borne()))}
	}
	return []string{fmt.Sprintf("The screws at its rails' ends hold %s together, which is enough for their share of %s.", s.force(may), s.force(b.borne()))}
}
