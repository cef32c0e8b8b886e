package strength

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"stowright/internal/finding"
	"stowright/internal/part"
	"stowright/internal/stock"
	"stowright/internal/strength/nds"
)

// held by its neighbours: a floor case whose own rail finds no stud is screwed to the cases beside
// it, and those to the wall.

// tied are the screws between a case and neighbours that are themselves fixed to the wall, by
// neighbour, in the order of the assembly.
func (s *Scene) tied(owner string) (screws []part.Fixing, to []string) {
	for _, t := range s.of(owner).ties {
		if len(s.held(t.other)) == 0 {
			continue
		}
		screws = append(screws, t.Fixing)
		if !slices.Contains(to, t.other) {
			to = append(to, t.other)
		}
	}
	return screws, to
}

// joinedTo gives the cases that an owner is screwed to, whether they are fixed to the wall or not.
func (s *Scene) joinedTo(owner string) (to []string) {
	for _, t := range s.of(owner).ties {
		if s.kind(owner) == "case" && s.kind(t.other) == "case" && !slices.Contains(to, t.other) {
			to = append(to, t.other)
		}
	}
	return to
}

// missing is the moment that tips a case over and that its weight does not hold, N·mm; 0 when it stands, or when that is not known.
func (s *Scene) missing(o *part.Owner) float64 {
	t := s.moments(o, s.oneAtATime(o.ID))
	if !t.opens || len(t.lacks) > 0 || o.Moves || o.Hung {
		return 0
	}
	return math.Max(t.Tipping-t.Holding, 0)
}

// leaning is what an owner must hold back of neighbours that no stud holds, N·mm: each brings an
// equal share to every neighbour that is fixed. Lacks names what is not known of them.
func (s *Scene) leaning(owner string) (all float64, names, lacks []string) {
	if len(s.held(owner)) == 0 {
		return 0, nil, nil
	}
	for i := range s.All.Owners {
		o := &s.All.Owners[i]
		if o.ID == owner || o.Kind != "case" || o.Standing || len(s.held(o.ID)) > 0 {
			continue
		}
		if _, to := s.tied(o.ID); slices.Contains(to, owner) {
			if t := s.moments(o, s.oneAtATime(o.ID)); t.opens && !o.Moves {
				lacks = append(lacks, t.lacks...)
			}
			if m := s.missing(o); m > 0 {
				all += m / float64(len(to))
				names = append(names, s.called(o.ID))
			}
		}
	}
	return all, names, lacks
}

// bolted is the remedy for a case whose screws to its neighbours reach too little wood for any
// published value: bolts through both sides in their places. "" where it has none, or bolts do not do.
func (s *Scene) bolted(o *part.Owner, t stance) string {
	screws, to := s.tied(o.ID)
	var best stock.Hardware
	for _, h := range s.Job.Catalogue.Hardware {
		if h.Kind == "bolt" && h.Use == "joining" && (h.Sold == s.Job.Practice.Unit || h.Sold == "both") && (best.ID == "" || h.Length < best.Length) {
			best = h
		}
	}
	fast, _, ok := s.screw(best.ID)
	if !ok || len(to) == 0 {
		return ""
	}
	may := 0.0
	for _, f := range screws {
		p := s.parts[f.Part]
		if p == nil {
			continue
		}
		if w := s.wood(p, 2, false); w.sg > 0 {
			thick := mm(p.Size[2])
			may += nds.Joint{Fastener: fast, Gap: mm(f.Packing), Side: nds.Member{G: w.sg, Bearing: thick}, Main: nds.Member{G: w.sg, Bearing: thick}}.Lateral().Z * float64(nds.Permanent) * mm(f.At.Z-o.Box.Min.Z)
		}
	}
	r := (t.Tipping - t.Holding) / may
	if may <= 0 || r > 1 {
		return ""
	}
	return fmt.Sprintf("join it to its neighbours by %s in place of its %s, screw: %s under joining: of their family (ratio %.2f)", best.Name, many(len(screws), "screw"), best.ID, r)
}

// beside judges a case that only its neighbours hold: the screws to them in shear, each with its
// height above the floor as its lever. False when there are none.
func (s *Scene) beside(o *part.Owner, t stance, x finding.Finding) (finding.Finding, bool) {
	screws, to := s.tied(o.ID)
	may := 0.0
	high := 0.0
	var z float64
	var fast nds.Fastener
	for _, f := range screws {
		p := s.parts[f.Part]
		if p == nil {
			continue
		}
		w := s.wood(p, 2, false)
		if y, _, ok := s.screw(f.Screw); ok && w.sg > 0 {
			fast = y
			if _, allowed := fast.PenetrationFactor(mm(f.Into)); !allowed {
				continue
			}
			z = nds.Joint{Fastener: fast, Gap: mm(f.Packing), Side: nds.Member{G: w.sg, Bearing: mm(p.Size[2])}, Main: nds.Member{G: w.sg, Bearing: fast.MainBearing(mm(f.Into))}}.Lateral().Z * float64(nds.Permanent)
			up := mm(f.At.Z - o.Box.Min.Z)
			may += z * up
			high = math.Max(high, up)
		}
	}
	if may <= 0 {
		return x, false
	}
	sort := "screw"
	if fast.Kind == nds.Bolt {
		sort = "bolt"
	}
	var names []string
	for _, id := range to {
		names = append(names, s.called(id))
	}
	need := t.Tipping - t.Holding
	x.Demand, x.Capacity, x.Unit, x.Source = need/1000, may/1000, "N·m", tipSource+"; "+fixingSource
	x = verdict(x, finding.Error)
	x.Text += fmt.Sprintf(" Its neighbours must hold back %s; %s to %s would hold %s.", s.turning(need/1000), many(len(screws), "joining "+sort), strings.Join(names, " and "), s.turning(may/1000))
	x.Working = append(x.Working, fmt.Sprintf("%s in shear, side to side: %s each with × 0.9; each with its height as its lever, %s at most: %s. Ratio %.2f.", fast.Name, s.force(z), s.exact(high), s.turning(may/1000), x.Ratio()))
	if x.Verdict == finding.Fails {
		words := s.ballast(o, t, may)
		if n := s.moments(o, true); n.Ratio(1) <= 1 {
			words = append(words, fmt.Sprintf("fit a bar that lets out one drawer at a time, one-at-a-time: yes (ratio %.2f)", n.Ratio(1)))
		}
		x.Hint = hint(words)
	}
	return x, true
}
