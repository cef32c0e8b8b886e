package strength

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"stowright/internal/part"
	"stowright/internal/strength/beam"
)

// wood is what a part is made of, in the direction in which it spans; 0 is not known.
type wood struct {
	what   string  // "birch plywood of 18 mm along its face grain"
	e, f   float64 // modulus and bending strength along the span, MPa
	across float64 // modulus across the span
	crossF float64 // bending strength across the span
	other  float64 // modulus with the grain turned; 0 where that is not known or no better
	otherF float64
	g      float64 // panel shear modulus
	design float64 // of graded lumber: what it may be stressed to in bending, MPa; its strength is then given as what would allow that
	planar float64 // shear modulus through the thickness
	creep  float64
	crept  bool // the creep factor is known
	sg     float64
	source string
	solid  bool
	least  bool // its strength is a bound from below
}

// Shares of the published bending strength that are counted on under a load that stays: the
// strength that 19 of 20 reach (1 - 1.645 x 0.16; Wood Handbook Table 5-6, scatter 16 %), over
// 2.1 for duration and safety (ASTM D245, from memory), times 0.9 for permanent load (NDS 2018
// 2.3.2). Short loads (a person) may use 1.6 in place of 0.9.
const (
	countedOn = 0.737 / 2.1
	permanent = 0.9
	brief     = 1.6
)

// leastPlies is the part of a plywood's thickness that runs along a way at least: PS 1 wants no more than 70 % of
// it to run across the faces, and no less than 33 % (from memory).
const leastPlies = 0.30

const strengthSource = "published bending strength x 0.737 (Wood Handbook Table 5-6) / 2.1 (ASTM D245, from memory) x CD (NDS 2018 2.3.2)"

// wood gives what a part is made of, spanning along axis (0, 1, 2 for x, y, z). Upright says
// that it stands on its edge.
func (s *Scene) wood(p *part.Part, axis int, upright bool) wood {
	onU := p.Pose.U.Axis() == axis
	switch p.Material {
	case part.Stick:
		st, _ := s.Job.Catalogue.Stick(p.Stock)
		sp, ok := s.Job.Catalogue.SpeciesOf(st.Species)
		w := wood{what: cmp.Or(sp.Name, "the wood of "+p.Stock), source: sp.Source, solid: true}
		if !ok {
			return w
		}
		e, _ := sp.E.Float()
		f, _ := sp.F.Float()
		if d, ok := sp.Design.Float(); ok {
			f, w.design = d/countedOn, d
		}
		w.sg, _ = sp.Gravity.Float()
		w.creep, w.crept = sp.Creep.Float()
		if onU {
			w.e, w.f, w.across, w.g, w.planar = e, f, e/20, beam.ShearModulus(e), beam.ShearModulus(e)
		} else {
			w.what += " across its grain" // not known: nobody should span wood so
		}
		return w
	case part.Board:
		b, _ := s.Job.Catalogue.Board(p.Stock)
		m, ok := s.Job.Catalogue.Material(b.Material)
		w := wood{what: cmp.Or(m.Name, "the material of "+p.Stock), source: m.Source}
		if !ok {
			return w
		}
		al, _ := m.ELong.Float()
		ac, _ := m.EAcross.Float()
		fl, _ := m.FLong.Float()
		fc, _ := m.FAcross.Float()
		w.g, _ = m.GPanel.Float()
		w.planar, _ = m.GPlanar.Float()
		w.sg, _ = m.Gravity.Float()
		w.creep, w.crept = m.Creep.Float()
		if w.g <= 0 && al > 0 && al == ac {
			w.g = al / 2.6 // alike both ways: E/2(1+ν), ν 0.3
		}
		// A sheet that is said to have no grain is cut either way.
		free := p.Grain == part.Free || b.Grain == "none"
		if upright {
			// Bent in its own plane: the plies that run the other way hardly help.
			w.what += " on edge"
			w.e, w.f = (al+ac)/2, math.Min(fl, fc)
			if w.f < leastPlies*fl && strings.Contains(m.ID, "plywood") {
				if w.f, w.least = leastPlies*fl, fc <= 0; w.least {
					w.what += ", by the plies that surely run its way"
				}
			}
			if free || onU != (p.Grain == part.Along) {
				w.e = math.Min(al, ac)
			}
			w.across = w.e
			return w
		}
		switch {
		case free && al > 0 && ac > 0:
			w.e, w.f, w.across = math.Min(al, ac), math.Min(fl, fc), math.Min(al, ac)
			w.crossF = w.f
			if al != ac {
				w.what += ", grain either way"
			}
			if al > ac {
				w.other, w.otherF = al, fl
			}
		case free:
			w.what += ", grain either way"
		case onU == (p.Grain == part.Along):
			w.e, w.f, w.across, w.crossF = al, fl, ac, fc
			if al != ac {
				w.what += " along its face grain"
			}
			if ac > al {
				w.other, w.otherF = ac, fc
			}
		default:
			w.e, w.f, w.across, w.crossF = ac, fc, al, fl
			w.what += " across its face grain"
			if al > ac {
				w.other, w.otherF = al, fl
			}
		}
		return w
	}
	h, _ := s.Job.Catalogue.Item(p.Stock)
	return wood{what: cmp.Or(h.Name, p.Stock), source: h.Source}
}

// shear gives the shear modulus through the thickness; where it is not known, little enough
// that the sag comes out no smaller than it is.
func (w wood) shear() float64 {
	if w.planar > 0 {
		return w.planar
	}
	return w.e / 100
}

// missing says in words what of a wood is not known that a sag needs; "" when nothing is.
func (w wood) missing() (fact, find string) {
	switch {
	case w.e <= 0:
		return "the bending modulus of " + w.what, "Give modulus-along and modulus-across of its material (or modulus of its species) under materials: or species:, with the source."
	case !w.crept:
		return "the creep of " + strings.TrimSuffix(w.what, " along its face grain"), "Give creep of its material under materials:."
	}
	return "", ""
}

// counted says in words what of its strength is counted on.
func (s *Scene) counted(w wood, f, cd float64) string {
	if w.design > 0 {
		return fmt.Sprintf("%s (reference design value) × %.1f = %s", s.stress(w.design), cd, s.stress(w.design*cd))
	}
	return fmt.Sprintf("%s × 0.737 / 2.1 × %.1f = %s", s.stress(f), cd, s.stress(f*countedOn*cd))
}

// strengthOf gives the bending stress in MPa that may stay, 0 when it is not known.
func (w wood) strength(cd float64) float64 { return w.f * countedOn * cd }

// board is a board that carries, made ready for the methods: sizes in mm along the span.
type board struct {
	part     *part.Part
	at       string
	wood     wood
	t        float64   // height: thickness of a board that lies flat
	depth    float64   // width across the span
	length   float64   // of the board
	supports []float64 // centres
	reach    float64   // longest clear way between centres of supports
	back     bool      // held along its back edge
	front    []strip
	rear     []strip
	layers   []layer    // glued under it
	beside   []layer    // rails that share its load without being glued to it
	cuts     []cut      // where layers are butted
	lacks    []string   // what is glued to it and has no known weight
	railed   [2]float64 // where rails beside it begin and end, mm along

	line    float64 // N/mm, all that stays and is spread: goods and its own weight
	own     float64 // N/mm of it that the board itself weighs
	lump    lump    // of a counter: its heaviest thing, where that counts
	thing   float64 // N, the heaviest single thing on it, in the middle of its longest way
	foot    float64 // mm along that the thing stands on
	points  []beam.Point
	stands  []stand        // partitions on it
	uneven  []beam.Uniform // what bays that are loaded unlike add to and take from line; in all nothing
	load    load
	working []string
	across  bool // spans from front to back

	solved solved // plates that were bent; none of a board that stands alone
}

// strip is an edge strip glued along an edge.
type strip struct {
	name         string
	wide, high   float64
	drop         float64 // its centre below the board's
	e, f, g      float64
	source       string
	wood         string
	width, creep float64
}

// layer is a board glued below, or a rail beside.
type layer struct {
	name       string
	wide, high float64
	bottom     float64 // its lower face above the top board's lower face (negative is below)
	e, g, f    float64
	ends       float64 // of a rail: what its weaker end holds, N
}

// describe says what the board is, for the working.
func (s *Scene) describe(b board) string {
	e := "E " + s.modulus(b.wood.e)
	t := fmt.Sprintf("%s, %s thick and %s deep, %s", b.wood.what, s.exact(b.t), s.exact(b.depth), e)
	for _, x := range b.front {
		t += fmt.Sprintf(", %s %s by %s along its front", x.name, s.exact(x.wide), s.exact(x.high))
	}
	for _, x := range b.rear {
		t += fmt.Sprintf(", %s %s by %s along its back", x.name, s.exact(x.wide), s.exact(x.high))
	}
	for _, x := range b.layers {
		side := "under"
		if x.bottom >= 0 {
			side = "on"
		}
		t += fmt.Sprintf(", %s, %s thick, glued %s it", x.name, s.exact(x.high), side)
	}
	for _, x := range b.beside {
		t += fmt.Sprintf(", with %s %s by %s under it", x.name, s.exact(x.wide), s.exact(x.high))
	}
	return t
}
