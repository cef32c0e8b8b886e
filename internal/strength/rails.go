package strength

import (
	"fmt"
	"math"

	"stowright/internal/finding"
	"stowright/internal/length"
	"stowright/internal/order"
	"stowright/internal/part"
)

// RailBending: the hang rail or cleat of a wall case bends too hard between its screws and the
// case's sides.
const RailBending finding.Code = "rail-bending"

func rails() Rule {
	return Rule{Name: "rails", Codes: []finding.Code{RailBending},
		Doc:     "The upper rail or cleat of a wall case, on edge, carries the case's weight from its two sides to the screws, and flat, the pull; the bending stress is within what can be counted on. So does a ledger, as a beam over its studs under what the rail's screws bring. Plywood whose strength across its face grain is not known counts by the plies that surely run its way.",
		Source:  strengthSource + "; statics",
		Example: "A rail of 12 mm MDF whose screws stand 500 mm from a side that brings 60 kg.",
		Run:     checkRails}
}

// rail is the upper rail or cleat of a wall case, a lever from its last screw to a side.
type rail struct {
	part         *part.Part
	high, thick  float64 // mm
	arm          float64
	weight, pull float64 // that a side brings to its end, N
	fa, fb       float64 // strength on edge and flat, MPa
	source       string
	from         []string
	least        string // whose strength is a bound from below, "" where it is known
	lacks        string // whose strength is not known
}

// at is the sum of its two stresses over its strengths, were it so high.
func (r rail) at(high float64) float64 {
	return 6*r.weight*r.arm/(r.thick*high*high)/r.fa + 6*r.pull*r.arm/(high*r.thick*r.thick)/r.fb
}

func (r rail) ratio() float64 { return r.at(r.high) }

// railOf gives the upper rail of a wall case; false where it has none, or its load is not known,
// and with lacks where its strength is not.
func (s *Scene) railOf(o *part.Owner) (rail, bool) {
	h := s.hanging(o)
	if list := s.inLedgers(o.ID); len(list) > 0 {
		h = s.hangingBy(o, list)
	}
	if len(h.lacks) > 0 || len(h.upper) == 0 {
		return rail{}, false
	}
	p := s.parts[h.upper[0].Part]
	if p == nil {
		return rail{}, false
	}
	down, out := s.wood(p, 0, true), s.wood(p, 0, false)
	if out.f <= 0 {
		return rail{part: p, lacks: out.what}, false
	}
	if down.f <= 0 {
		return rail{part: p, lacks: down.what}, false
	}
	least := ""
	if down.least {
		least = down.what
	}
	var xs []float64
	for _, x := range h.upper {
		xs = append(xs, mm(x.At.X))
	}
	order.Up(xs)
	left, right := mm(o.Carcass.Min.X), mm(o.Carcass.Max.X)
	// Each side brings its share of the weight and of the pull at the rail's end; the rail is a
	// lever to the nearest screw, or a beam between.
	side := 0.5
	if right > left {
		side = math.Max(h.all.x-left, right-h.all.x) / (right - left)
	}
	share := side
	if !h.cleat && len(h.low) > 0 {
		share /= 2 // the lower rail carries as much
	}
	v := p.Box().Size()
	return rail{part: p, high: mm(v.Z), thick: mm(v.Y), arm: math.Max(xs[0]-left, right-xs[len(xs)-1]),
		weight: newtons(h.all.kg) * share, pull: h.pull * side, fa: down.strength(permanent), fb: out.strength(permanent), source: out.source, from: h.from, least: least}, true
}

// stiffer are the changes that bring a rail's stress to what can be counted on: a higher rail, as far
// as a third of its case, and a stud nearer to the side.
func (s *Scene) stiffer(o *part.Owner, r rail) (words []string) {
	step := mm(s.railStep())
	for high := math.Ceil(r.high/step+1e-6) * step; high <= mm(o.Carcass.Size().Z)/3; high += step {
		if n := r.at(high); n <= 1 {
			words = append(words, fmt.Sprintf("make the rail %s high, hangs-by: {width: …} (ratio %.2f)", s.long(high), n))
			break
		}
	}
	if m := s.between(o, r); m != "" {
		words = append(words, m)
	}
	return append(words, s.lessIn(s.hanging(o), r.ratio())...)
}

// between is the remedy of a case that stands alone and is moved so that the last screws of its rail stand as far from
// its one side as from the other; "" where that is not enough.
func (s *Scene) between(o *part.Owner, r rail) string {
	if !s.alone(o.ID) {
		return ""
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, f := range s.hanging(o).upper {
		lo, hi = math.Min(lo, mm(f.At.X)), math.Max(hi, mm(f.At.X))
	}
	left, right := lo-mm(o.Carcass.Min.X), mm(o.Carcass.Max.X)-hi
	by := L(math.Round((left-right)/2)) * length.MM // the case goes right by so much
	arm := (left + right) / 2
	n := r
	n.arm = arm
	if ratio := n.ratio(); by != 0 && ratio <= 1 && s.vacant(o, o.Carcass.Min.X+by, o.Carcass.Max.X+by) {
		return fmt.Sprintf("move it to the %s, at: %s, so that its last screws stand %s from either side (ratio %.2f)", map[bool]string{true: "right", false: "left"}[by > 0], s.long(mm(o.Carcass.Min.X+by)), s.long(arm), ratio)
	}
	return ""
}

func checkRails(s *Scene) finding.List {
	var f finding.List
	unknown := blank{code: RailBending, source: strengthSource}
	for _, o := range s.hung() {
		if fact, _ := s.unknownWall(o); fact != "" {
			continue // said with its fixing
		}
		r, ok := s.railOf(o)
		if r.part == nil {
			continue
		}
		at := s.at(o.ID, r.part.Mark)
		if !ok {
			unknown.add("the bending strength of "+r.lacks, "Give strength-along and strength-across of its material, with the source.", s.name(r.part), at)
			continue
		}
		if r.least != "" && round(r.ratio()) > 1 {
			unknown.add("the bending strength of "+r.least, "Give strength-across of its material, with the source.", s.name(r.part), at)
			continue
		}
		x := verdict(finding.Finding{Code: RailBending, At: at, Demand: r.ratio(), Capacity: 1, Unit: "of its strength", Source: strengthSource + "; strength: " + r.source}, finding.Error)
		x.Text = fmt.Sprintf("%s, whose last screw stands %s from a side, is stressed to %.2f of what can be counted on.", s.name(r.part), s.long(r.arm), r.ratio())
		mz, my := r.weight*r.arm, r.pull*r.arm
		a, b := 6*mz/(r.thick*r.high*r.high), 6*my/(r.high*r.thick*r.thick)
		x.Working = append(r.from, fmt.Sprintf("A side brings %s down and %s out to the rail's end, %s from the last screw.", s.force(r.weight), s.force(r.pull), s.exact(r.arm)),
			fmt.Sprintf("On edge, %s by %s: %s × %s = %s, stressed to %s of %s. Flat: %s × %s = %s, stressed to %s of %s. The two shares added: %.2f.", s.exact(r.thick), s.exact(r.high), s.force(r.weight), s.exact(r.arm), s.turning(mz/1000), s.stress(a), s.stress(r.fa), s.force(r.pull), s.exact(r.arm), s.turning(my/1000), s.stress(b), s.stress(r.fb), r.ratio()))
		if r.least != "" {
			x.Working = append(x.Working, "The strength of "+r.least+" is 0.30 of that along its face grain: PS 1 lets no more than 70 % of its thickness run across (from memory).")
		}
		if x.Verdict == finding.Fails {
			x.Hint = hint(s.stiffer(o, r))
		}
		f.Add(x)
	}
	s.ledgersBend(&f, &unknown)
	f.Add(unknown.findings("The strength of the rail", finding.Note)...)
	return f
}
