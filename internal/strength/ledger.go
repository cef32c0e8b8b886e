package strength

import (
	"fmt"
	"math"

	"stowright/internal/geom"
	"stowright/internal/order"
	"stowright/internal/part"
	"stowright/internal/strength/beam"
)

// ledgers are two boards across the studs beside a case that finds fewer than two of them: one behind
// each of its rails, to which the rails are bolted. It says how long they are, how many screws each
// stud takes and how hard the worse of screws and boards is worked; "" where no such boards hold.
func (s *Scene) ledgers(o *part.Owner) string {
	w := s.Room.Wall(o.Wall)
	h := s.hanging(o)
	p, screw := s.railPart(o), s.wallScrew(o)
	if w == nil || len(h.lacks) > 0 || p == nil || screw == "" {
		return ""
	}
	left, right := mm(o.Carcass.Min.X), mm(o.Carcass.Max.X)
	var at []part.Fixing
	item, _ := s.Job.Catalogue.Item(screw)
	lining := w.Lining
	v := p.Box().Size()
	thick, high := p.Size[2], v.Z
	for _, st := range w.Studs {
		at = append(at, part.Fixing{Owner: o.ID, Kind: part.ToStud, Part: p.Mark, Wall: w.ID, Stud: st.ID, Screw: screw, Length: item.Length, At: geom.V(st.At, o.Carcass.Max.Y, 0)})
	}
	order.Stable(at, func(a, b part.Fixing) int { return int(a.At.X - b.At.X) })
	// The studs between, and the next on each side.
	first, last := 0, len(at)-1
	for i, f := range at {
		if mm(f.At.X) <= left {
			first = i
		}
		if x := len(at) - 1 - i; mm(at[x].At.X) >= right {
			last = x
		}
	}
	if last <= first {
		return ""
	}
	at = at[first : last+1]
	upper, lower := o.Carcass.Max.Z-high, o.Carcass.Min.Z+high
	h.cleat, h.bear = false, mm(lower)
	down, out := s.wood(p, 0, true), s.wood(p, 0, false)
	if down.f <= 0 || out.f <= 0 {
		return ""
	}
	for _, double := range []float64{1, 2} {
		for k := 1; k <= mostScrews; k++ {
			h.face = mm(o.Carcass.Max.Y) + mm(thick)*double // the ledgers hold the case off
			n := h
			n.upper, n.low = nil, nil
			for _, f := range at {
				t := thick * L(double)
				f.Into = item.Length - t - lining
				f.Layers = []part.Layer{{Name: "ledger rail", Stock: p.Stock, Thickness: t}, {Name: "lining", Thickness: lining}}
				f.At.Z, f.Row = upper, "upper"
				n.upper = append(n.upper, f)
				f.At.Z, f.Row = lower, "lower"
				n.low = append(n.low, f)
			}
			n = doubled(n, k, s.pitch(screw))
			worst, fact, _ := s.strained(n)
			if fact != "" {
				return ""
			}
			_, sum, squares := n.arms()
			pull := newtons(h.all.kg) * math.Max(n.face-h.all.y, 0) * sum / squares
			bent := across(at, left, right, h.all.x, newtons(h.all.kg)/2, mm(thick)*double, mm(high), true)/down.strength(permanent) +
				across(at, left, right, h.all.x, pull, mm(thick)*double, mm(high), false)/out.strength(permanent)
			if r := math.Max(worst.ratio, bent); r <= 1 {
				made := fmt.Sprintf("%s by %s", s.long(mm(thick)*double), s.long(mm(high)))
				return fmt.Sprintf("screw two ledgers of %s across the wall, behind its upper and its lower rail, from %s to %s along, with %d × %s in each of %d studs, and bolt its rails to them (ratio %.2f)",
					made, s.long(mm(at[0].At.X)-50), s.long(mm(at[len(at)-1].At.X)+50), k, item.Name, len(at), r)
			}
		}
	}
	return ""
}

// across is the greatest bending stress in MPa of a board over studs, under a load that a case's two
// sides bring to it, by where the load's centre is; on edge or flat.
func across(at []part.Fixing, left, right, centre, load, thick, high float64, edge bool) float64 {
	m := beam.Beam{Section: beam.Rect(thick, high, 10_000, 600)}
	if !edge {
		m.Section = beam.Rect(high, thick, 10_000, 600)
	}
	x0 := math.Min(mm(at[0].At.X), left)
	for _, f := range at {
		m.Supports = append(m.Supports, beam.Support{At: mm(f.At.X) - x0})
	}
	m.Length = math.Max(mm(at[len(at)-1].At.X), right) - x0
	share := (right - centre) / (right - left)
	m.Points = []beam.Point{{At: left - x0, Force: load * share}, {At: right - x0, Force: load * (1 - share)}}
	r, ok := m.Solve()
	if !ok {
		return math.Inf(1)
	}
	return m.Section.Stress(0, math.Max(r.Sagging.Value, r.Hogging.Value))
}

// railPart is the board by which a wall case hangs.
func (s *Scene) railPart(o *part.Owner) *part.Part {
	var best *part.Part
	for i := range s.All.Parts {
		if p := &s.All.Parts[i]; p.Owner == o.ID && (p.Role == part.HangRail || p.Role == part.WallCleat) && (best == nil || p.Box().Max.Z > best.Box().Max.Z) {
			best = p
		}
	}
	return best
}

// wallScrew is the screw that holds a case to its wall, or the shortest that is listed that holds in a
// stud behind a board of its rail's thickness.
func (s *Scene) wallScrew(o *part.Owner) string {
	for _, f := range s.held(o.ID) {
		return f.Screw
	}
	w, p := s.Room.Wall(o.Wall), s.railPart(o)
	best, id := L(0), ""
	for _, x := range s.Job.Catalogue.Hardware {
		if x.Kind != "screw" || x.Use != "wall" || x.Sold != "both" && x.Sold != s.Job.Practice.Unit || w == nil || p == nil {
			continue
		}
		fast, _, ok := s.screw(x.ID)
		if !ok {
			continue
		}
		if _, allowed := fast.PenetrationFactor(mm(x.Length - p.Size[2] - w.Lining)); allowed && (best == 0 || x.Length < best) {
			best, id = x.Length, x.ID
		}
	}
	return id
}
