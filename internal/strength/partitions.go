package strength

import (
	"fmt"
	"math"
	"strings"

	"stowright/internal/part"
	"stowright/internal/strength/beam"
)

// stand is a partition that stands on a board and brings it what it carries.
type stand struct {
	at    float64 // its middle, mm from the board's start
	wide  float64 // mm along the board
	force float64 // N
	name  string
}

// told is what a sum of loads rests on.
type told struct {
	assumed bool     // some of it is the practice's
	lacks   []string // what of it is not known
}

func (t *told) also(o told) { t.assumed, t.lacks = t.assumed || o.assumed, append(t.lacks, o.lacks...) }

// Distances, mm: how deep a board is let into another, and how far from a partition ends a shelf on pins or
// runs a drawer on slides.
const (
	letIn  = 12.0
	beside = 15.0
	slid   = 80.0
)

// partitionsOn gives the partitions that stand on a bottom or a fixed shelf. They hang on nothing: what holds a
// partition's upper end, a stretcher, a top or a thin back, is not counted to carry it.
func (s *Scene) partitionsOn(p *part.Part) (list []stand, by told) {
	if p.Role != part.Bottom && p.Role != part.FixedShelf {
		return nil, by
	}
	box := p.Box()
	for _, q := range s.of(p.Owner).Parts {
		if q.Role != part.Partition || q.Moves != p.Moves {
			continue
		}
		c := q.Box()
		foot := mm(c.Min.Z)
		if foot < mm(box.Max.Z)-letIn || foot > mm(box.Max.Z)+touching || mm(c.Max.Z) < mm(box.Max.Z)+letIn || c.Min.X < box.Min.X || c.Max.X > box.Max.X || c.Max.Y <= box.Min.Y || c.Min.Y >= box.Max.Y {
			continue
		}
		n, of := s.bears(q)
		by.also(of)
		list = append(list, stand{at: mm(c.Min.X+c.Max.X)/2 - mm(box.Min.X), wide: mm(c.Max.X - c.Min.X), force: n, name: q.Name})
	}
	return list, by
}

// bears is what a partition brings to what it stands on, N: its own weight, its share of every board that ends at
// it or runs over it, and half of every drawer and tray beside it.
func (s *Scene) bears(q *part.Part) (n float64, by told) {
	kg, ok := s.weight(q)
	if !ok {
		by.lacks = append(by.lacks, weightOf(q))
	}
	n = newtons(kg)
	c := q.Box()
	lo, hi := mm(c.Min.X), mm(c.Max.X)
	seen := map[string]bool{}
	for i := range s.All.Spans {
		sp := &s.All.Spans[i]
		p := s.parts[sp.Part]
		if p == nil || p.Owner != q.Owner || p.Moves != "" || sp.Along.Axis() != 0 || seen[p.Mark] {
			continue
		}
		box := p.Box()
		if mm(box.Min.Z) < mm(c.Min.Z)+touching || mm(box.Min.Z) > mm(c.Max.Z)+touching {
			continue
		}
		at := s.supports(p, sp, 0)
		for k, x := range at {
			if abs := x + mm(box.Min.X); abs > lo-beside && abs < hi+beside {
				seen[p.Mark] = true
				r, of := s.reaction(p, sp, at, k)
				n += r
				by.also(of)
			}
		}
	}
	for _, m := range s.of(q.Owner).Motions {
		if m.Kind != part.Slide || m.Closed.Max.Z <= c.Min.Z || m.Closed.Min.Z >= c.Max.Z {
			continue
		}
		left, right := mm(m.Closed.Min.X), mm(m.Closed.Max.X)
		if b := s.boxOf(m); b != nil {
			left, right = mm(b.Box().Min.X), mm(b.Box().Max.X)
		}
		if math.Abs(left-hi) > slid && math.Abs(lo-right) > slid {
			continue
		}
		box, in, missing := s.moving(m)
		if may := m.Rating.Kilograms(); in.bare && may > 0 {
			in.kg = math.Min(in.kg, math.Max(may-box, 0))
		}
		n += newtons(box+in.kg) / 2
		by.also(told{in.assumed, missing})
	}
	return n, by
}

// boxOf is the bottom of what slides, nil where there is none.
func (s *Scene) boxOf(m *part.Motion) *part.Part {
	for _, mark := range m.Parts {
		if p := s.parts[mark]; p != nil && (p.Role == part.BoxBottom || p.Role == part.TrayBase) {
			return p
		}
	}
	return nil
}

// overMiddle is how much more a middle support takes of a board that runs on over it than of one cut there: 10/8 of
// it, of two equal ways under an even load (statics).
const overMiddle = 1.25

// reaction is what a board brings to one of its supports, N: each load by its distances from the two that it is
// between.
func (s *Scene) reaction(p *part.Part, sp *part.Span, at []float64, k int) (n float64, by told) {
	even, bays, on, by := s.laid(p, sp)
	length := mm(p.Box().Size().X)
	share := func(x float64) float64 {
		switch {
		case k > 0 && x < at[k] && x > at[k-1]:
			return (x - at[k-1]) / (at[k] - at[k-1])
		case k+1 < len(at) && x >= at[k] && x < at[k+1]:
			return (at[k+1] - x) / (at[k+1] - at[k])
		case k == 0 && x <= at[0], k == len(at)-1 && x >= at[k]:
			return 1
		}
		return 0
	}
	const pieces = 64
	spread := func(from, to, line float64) {
		step := (to - from) / pieces
		for i := range pieces {
			n += line * step * share(from+(float64(i)+0.5)*step)
		}
	}
	spread(0, length, even)
	for _, u := range bays {
		spread(u.From, u.To, u.Line)
	}
	for _, x := range on {
		n += x.force * share(x.at)
	}
	if k > 0 && k < len(at)-1 {
		n *= overMiddle
	}
	return n, by
}

// laid gives what lies on a board, from its start: N/mm all along, its own weight and what is of no bay of its own;
// the loads of its bays, each over its own stretch; and the partitions on it.
func (s *Scene) laid(p *part.Part, sp *part.Span) (even float64, bays []beam.Uniform, on []stand, by told) {
	kg, ok := s.weight(p)
	if !ok {
		by.lacks = append(by.lacks, weightOf(p))
	}
	l := s.on(p, sp, &board{part: p})
	by.also(told{l.assumed, l.lacks})
	box := p.Box()
	for _, y := range s.of(p.Owner).Bays {
		if y.Floor != p.Mark {
			continue
		}
		from, to := math.Max(mm(y.Box.Min.X-box.Min.X), 0), math.Min(mm(y.Box.Max.X-box.Min.X), mm(box.Size().X))
		if x := s.loads[y.ID]; x.kg > 0 && to > from {
			bays = append(bays, beam.Uniform{From: from, To: to, Line: newtons(x.kg) / (to - from)})
			l.kg -= x.kg
		}
	}
	on, of := s.partitionsOn(p)
	by.also(of)
	return newtons(kg+math.Max(l.kg, 0)) / mm(box.Size().X), bays, on, by
}

// uneven is what the loads of a board's bays, each over its own stretch, add to and take from the same spread
// evenly over its whole length; nil where there is one bay, or all are loaded alike.
func (s *Scene) uneven(p *part.Part, sp *part.Span) []beam.Uniform {
	if p.Role != part.Bottom && p.Role != part.FixedShelf {
		return nil
	}
	_, bays, _, _ := s.laid(p, sp)
	if len(bays) < 2 {
		return nil
	}
	all, most, least := 0.0, 0.0, math.Inf(1)
	for _, u := range bays {
		all, most, least = all+u.Line*(u.To-u.From), math.Max(most, u.Line), math.Min(least, u.Line)
	}
	if most < least*1.02 {
		return nil
	}
	length := mm(p.Box().Size().X)
	return append(bays, beam.Uniform{From: 0, To: length, Line: -all / length})
}

// toSide is what a board between two sides brings to one of them, kg: its own weight, the loads of its bays and
// the partitions on it, each by its distance from the other.
func (s *Scene) toSide(b, side *part.Part) (kg float64, by told) {
	box := b.Box()
	at := []float64{0, mm(box.Size().X)}
	k := 0
	if mid := side.Box().Min.X + side.Box().Max.X; mid > box.Min.X+box.Max.X {
		k = 1
	}
	n, by := s.reaction(b, &part.Span{Part: b.Mark}, at, k)
	return n / newtons(1), by
}

// standingOn says in words what stands on a board.
func (s *Scene) standingOn(list []stand) (words []string) {
	for _, x := range list {
		words = append(words, fmt.Sprintf("%s stands on it %s from its left end and brings %s: its own weight, its share of the boards that end at it and half of the drawers and trays beside it.", strings.ToUpper(x.name[:1])+x.name[1:], s.exact(x.at), s.force(x.force)))
	}
	return words
}

// footed says that a partition stands on what does not give under it: on a bottom that lies on a base or on the
// floor, or that a foot holds up there.
func (s *Scene) footed(q *part.Part) bool {
	c := q.Box()
	for i := range s.All.Spans {
		sp := &s.All.Spans[i]
		p := s.parts[sp.Part]
		if p == nil || p.Owner != q.Owner || p.Role != part.Bottom && p.Role != part.FixedShelf {
			continue
		}
		box := p.Box()
		if mm(c.Min.Z) < mm(box.Max.Z)-letIn || mm(c.Min.Z) > mm(box.Max.Z)+touching || c.Min.X < box.Min.X || c.Max.X > box.Max.X {
			continue
		}
		x, held := mm(c.Min.X+c.Max.X)/2-mm(box.Min.X), false
		for _, at := range s.supports(p, sp, 0) {
			held = held || math.Abs(at-x) < oneTwo
		}
		if !held {
			return false
		}
	}
	return true
}
