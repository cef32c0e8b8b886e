package strength

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"stowright/internal/part"
	"stowright/internal/strength/nds"
)

// grip is what one screw holds in its stud.
type grip struct {
	z, w        float64 // lateral, and the lesser of withdrawal and pull-through, N, CD counted
	through     float64
	fast        nds.Fastener
	mode        nds.Mode
	gap, side   float64
	into, least float64
	words       []string
	none        bool // too little penetration for any published value
}

// behind is what a screw's thread is in: a stud, a header, or a ledger; its specific gravity and name.
func (s *Scene) behind(f part.Fixing) (gravity float64, name, fact, find string) {
	if f.Kind == part.ToLedger {
		p := s.ledgerAt(f)
		if p == nil {
			return 0, "", "the ledger behind " + f.Part, "Give the case ledgers that are known: hangs-by: {ledger: two-by-four}."
		}
		w := s.wood(p, 0, false)
		if w.sg <= 0 {
			return 0, "", "the specific gravity of " + w.what, "Give specific-gravity of its species or material."
		}
		return w.sg, "a ledger of " + w.what, "", ""
	}
	wall, species := s.Room.Wall(f.Wall), ""
	for _, x := range wall.Studs {
		if x.ID == f.Stud {
			species = x.Species
		}
	}
	for _, x := range wall.Headers {
		if x.ID == f.Stud {
			species = x.Species
		}
	}
	sp, known := s.Job.Catalogue.SpeciesOf(species)
	g, has := sp.Gravity.Float()
	if !known || !has {
		return 0, "", "the wood of the studs of wall " + f.Wall, "Say studs: {species: …}; spruce-pine-fir-south is the weakest that is listed."
	}
	return g, sp.Name, "", ""
}

// ledgerAt is the ledger that a rail's screw is in.
func (s *Scene) ledgerAt(f part.Fixing) *part.Part {
	for _, p := range s.of(f.Owner).Parts {
		if p.Role == part.Ledger && p.Box().Min.Z < f.At.Z && f.At.Z < p.Box().Max.Z {
			return p
		}
	}
	return nil
}

// gripOf works out one screw; fact names what is not known.
func (s *Scene) gripOf(f part.Fixing) (g grip, fact, find string) {
	fast, _, ok := s.screw(f.Screw)
	if !ok {
		return g, "the size of screw " + f.Screw, "Give diameter, root and length of the screw under hardware:."
	}
	if s.brittle(f.Screw) {
		g.fast, g.none = fast, true
		g.words = []string{fast.Name + " is a drywall screw, hard and brittle: nothing is counted for it."}
		return g, "", ""
	}
	gm, main, fact, find := s.behind(f)
	if fact != "" {
		return g, fact, find
	}
	// The rail is the last board with a stock that is fastened to the case; what lies between it
	// and the stud is a gap.
	side := -1
	for i, l := range f.Layers {
		if strings.Contains(l.Name, "rail") || strings.Contains(l.Name, "cleat") || strings.Contains(l.Name, "frame") || l.Name == "ledger" {
			side = i
		}
	}
	p := s.parts[f.Part]
	if side < 0 && p != nil && p.Role == part.BackPanel { // a whole back between the sides, screwed to the wall itself
		side = slices.IndexFunc(f.Layers, func(l part.Layer) bool { return l.Stock == p.Stock })
	}
	if side < 0 {
		return g, "which board the screws hold", "Give the case a hang rail or a cleat."
	}
	w := wood{what: f.Layers[side].Stock}
	if p != nil {
		w = s.wood(p, 0, false)
	}
	if w.sg <= 0 {
		return g, "the specific gravity of " + w.what, "Give specific-gravity of its material under materials:."
	}
	g.fast = fast
	g.side = mm(f.Layers[side].Thickness)
	for _, l := range f.Layers[side+1:] {
		g.gap += mm(l.Thickness)
	}
	g.into, g.least = mm(f.Into), fast.LeastPenetration()
	if _, allowed := fast.PenetrationFactor(g.into); !allowed {
		g.none = true
		g.words = []string{fmt.Sprintf("%s reaches %s into what is behind; below %s there is no published value.", fast.Name, s.long(g.into), s.long(g.least))}
		return g, "", ""
	}
	cd := float64(nds.Permanent)
	lat := nds.Joint{Fastener: fast, Gap: g.gap,
		Side: nds.Member{G: w.sg, Bearing: g.side, Angle: 90},
		Main: nds.Member{G: gm, Bearing: fast.MainBearing(g.into)}}.Lateral()
	per, _ := fast.Withdrawal(gm)
	thread := math.Min(g.into, mm(f.Length)*2/3)
	g.z, g.mode = lat.Z*cd, lat.Mode
	out := per * thread * cd
	g.w = out
	g.words = []string{
		fmt.Sprintf("%s, %s into %s (G %.2f), through %s of %s (G %.2f) and a gap of %s.", fast.Name, s.exact(g.into), main, gm, s.exact(g.side), f.Layers[side].Name, w.sg, s.exact(g.gap)),
		fmt.Sprintf("Six ways to yield: root %s, bending yield %s; bearing %s over %s of the rail, %s over %s of what is behind; Rd %.2f.", s.exact(fast.Root), s.stress(fast.Fyb), s.stress(lat.FeSide), s.exact(g.side), s.stress(lat.FeMain), s.exact(fast.MainBearing(g.into)), lat.Rd),
		fmt.Sprintf("Lateral: the lowest, mode %v, Z %s × 0.9 = %s.", lat.Mode, s.force(lat.Z), s.force(g.z)),
		fmt.Sprintf("Withdrawal: %s × %s of thread × 0.9 = %s.", s.perLong(per), s.exact(thread), s.force(out)),
	}
	if fast.Head <= 0 {
		return g, "the head of screw " + f.Screw, "Give head: of the screw under hardware:."
	}
	g.through = nds.PullThrough(fast.Head, g.side, w.sg) * cd
	g.words = append(g.words, fmt.Sprintf("Head of %s pulled through the rail: %s with × 0.9.", s.exact(fast.Head), s.force(g.through)))
	g.w = math.Min(out, g.through)
	return g, "", ""
}
