package strength

import (
	"fmt"
	"math"
	"slices"

	"stowright/internal/finding"
	"stowright/internal/part"
	"stowright/internal/strength/beam"
)

// ledgered judges the screws from a case's rails into its ledgers, by the method that judges those in studs.
func (s *Scene) ledgered(f *finding.List, unknown *blank) {
	for _, o := range s.hung() {
		list := s.inLedgers(o.ID)
		if len(list) == 0 {
			continue
		}
		h := s.hangingBy(o, list)
		if len(h.lacks) > 0 {
			continue // said with its fixing
		}
		if len(h.upper) == 0 {
			continue // said with its rail
		}
		at := s.at(o.ID, h.upper[0].Part)
		w, fact, find := s.strained(h)
		if fact != "" {
			unknown.add(fact, find, o.Name, at)
			continue
		}
		load := math.Hypot(w.v, w.t)
		x := finding.Finding{Code: WallFixing, At: at, Demand: load, Unit: "N", Source: fixingSource}
		if !w.grip.none {
			x.Capacity = load / w.ratio
		}
		x = verdict(x, finding.Error)
		assumed := ""
		if h.assumed {
			assumed = ", some of it assumed"
		}
		x.Text = fmt.Sprintf("The most loaded of %s from the rails of %s (%s with what is in it%s) into its ledgers takes %s, %s down and %s out; it holds %s so.", many(len(list), "screw"), o.Name, s.kg(h.all.kg), assumed, s.force(load), s.force(w.v), s.force(w.t), s.force(x.Capacity))
		x.Working = append(append(append([]string{}, h.from...), w.grip.words...), fmt.Sprintf("Both at once: %s against %s. Ratio %.2f.", s.force(load), s.force(x.Capacity), x.Ratio()))
		if x.Verdict == finding.Fails {
			x.Hint = hint(s.lessIn(h, w.ratio))
			if l := s.onLedgers(o); l != "" {
				x.Hint = hint([]string{l})
			} else if w.grip.none {
				x.Hint = "" // nothing that is listed is thick enough
			}
		}
		f.Add(x)
	}
}

// ledgersBend judges the bending of ledgers: on edge under what the rail's screws bring down, and flat under
// what they pull, over the studs that hold it.
func (s *Scene) ledgersBend(f *finding.List, unknown *blank) {
	for _, o := range s.hung() {
		list := s.inLedgers(o.ID)
		if fact, _ := s.unknownWall(o); len(list) == 0 || fact != "" {
			continue
		}
		h := s.hangingBy(o, list)
		if len(h.lacks) > 0 || len(h.upper) == 0 {
			continue
		}
		all := s.hanging(o)
		for _, p := range s.of(o.ID).Parts {
			if p.Role != part.Ledger {
				continue
			}
			at := s.at(o.ID, p.Mark)
			down, out := s.wood(p, 0, true), s.wood(p, 0, false)
			if down.f <= 0 || out.f <= 0 {
				unknown.add("the bending strength of "+out.what, "Give strength (or design-bending) of its species, with the source.", s.name(p), at)
				continue
			}
			thick, high := mm(p.Box().Size().Y), mm(p.Box().Size().Z)
			edge, flat := all.over(s.held(o.ID), p.Mark, thick, high)
			weight, pull := 0.0, 0.0
			for k := range edge.Points {
				weight += edge.Points[k].Force
				pull += flat.Points[k].Force
			}
			r, ok := edge.Solve()
			q, also := flat.Solve()
			if !ok || !also {
				unknown.add("what holds it at two places", "Give the wall two studs or more that it reaches.", s.name(p), at)
				continue
			}
			mz, my := math.Max(r.Sagging.Value, r.Hogging.Value), math.Max(q.Sagging.Value, q.Hogging.Value)
			a, c := edge.Section.Stress(0, mz), flat.Section.Stress(0, my)
			ratio := a/down.strength(permanent) + c/out.strength(permanent)
			x := verdict(finding.Finding{Code: RailBending, At: at, Demand: ratio, Capacity: 1, Unit: "of its strength", Source: strengthSource + "; strength: " + out.source}, finding.Error)
			x.Text = fmt.Sprintf("%s, over %d studs, is stressed to %.2f of what can be counted on.", s.name(p), len(edge.Supports), ratio)
			x.Working = append(append([]string{}, h.from...), fmt.Sprintf("Its rail's screws bring %s down and pull with %s.", s.force(weight), s.force(pull)),
				fmt.Sprintf("A beam over %d supports, %s by %s. On edge: greatest moment %s, stressed to %s of %s. Flat: %s, stressed to %s of %s. The two shares added: %.2f.", len(edge.Supports), s.exact(thick), s.exact(high), s.turning(mz/1000), s.stress(a), s.stress(down.strength(permanent)), s.turning(my/1000), s.stress(c), s.stress(out.strength(permanent)), ratio))
			if x.Verdict == finding.Fails {
				x.Hint = hint(s.lessIn(h, ratio))
				if l := s.onLedgers(o); l != "" {
					x.Hint = hint([]string{l})
				}
			}
			f.Add(x)
		}
	}
}

// over is a ledger as a beam over the studs, on edge under what its rail's screws bring down and flat under
// what they pull.
func (h hang) over(screws []part.Fixing, ledger string, thick, high float64) (edge, flat beam.Beam) {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, x := range screws {
		if x.Part == ledger {
			lo, hi = math.Min(lo, mm(x.At.X)), math.Max(hi, mm(x.At.X))
		}
	}
	for _, x := range h.brought {
		if x.ledger == ledger {
			lo, hi = math.Min(lo, x.x), math.Max(hi, x.x)
		}
	}
	edge = beam.Beam{Length: math.Max(hi-lo, 1), Section: beam.Rect(thick, high, 10_000, 0)}
	for _, x := range screws {
		if at := mm(x.At.X) - lo; x.Part == ledger && !slices.ContainsFunc(edge.Supports, func(y beam.Support) bool { return math.Abs(at-y.At) < touching }) {
			edge.Supports = append(edge.Supports, beam.Support{At: at})
		}
	}
	flat = edge
	flat.Section = beam.Rect(high, thick, 10_000, 0)
	for _, x := range h.brought {
		if x.ledger == ledger {
			edge.Points = append(edge.Points, beam.Point{At: x.x - lo, Force: x.v})
			flat.Points = append(flat.Points, beam.Point{At: x.x - lo, Force: x.t})
		}
	}
	return edge, flat
}

// reactions tells what a ledger brings to the stud of a screw, N down and out, and how many screws it has there; 0
// where the screw is not a ledger's. Each ledger is bent once.
func (h hang) reactions(carry []part.Fixing) func(f part.Fixing) (down, out, many float64) {
	type ledger struct {
		lo        float64
		edge      beam.Beam
		down, out []float64 // at its supports; none where it brings nothing
	}
	bent := map[string]ledger{}
	bend := func(id string) (l ledger) {
		edge, flat := h.over(carry, id, 38, 89)
		if len(edge.Points) == 0 || len(edge.Supports) < 2 {
			return l
		}
		r, ok := edge.Solve()
		q, also := flat.Solve()
		if !ok || !also {
			return l
		}
		l = ledger{math.Inf(1), edge, r.Supports, q.Supports}
		for _, x := range h.brought {
			if x.ledger == id {
				l.lo = math.Min(l.lo, x.x)
			}
		}
		for _, x := range carry {
			if x.Part == id {
				l.lo = math.Min(l.lo, mm(x.At.X))
			}
		}
		return l
	}
	return func(f part.Fixing) (down, out, many float64) {
		l, ok := bent[f.Part]
		if !ok {
			l = bend(f.Part)
			bent[f.Part] = l
		}
		if l.down == nil {
			return 0, 0, 1
		}
		for _, x := range carry {
			if x.Part == f.Part && x.At.X == f.At.X {
				many++
			}
		}
		for i, s := range l.edge.Supports {
			if math.Abs(s.At-(mm(f.At.X)-l.lo)) < touching {
				down, out = math.Max(l.down[i], 0), math.Max(l.out[i], 0)
			}
		}
		return down, out, many
	}
}
