package strength

import (
	"fmt"
	"math"
	"slices"

	"stowright/internal/finding"
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
