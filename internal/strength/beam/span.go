package beam

import "math"

// Case is a load and support arrangement of one span with its coefficients:
// sag = Bend·W L³/EI + Slide·W L/GA', greatest moment = Moment·W L, W being
// the total load.
type Case struct {
	Name                string
	Bend, Slide, Moment float64
}

// The cases of Wood Handbook table 9-1 (equation 9-2); moments are statics.
// The handbook labels the last of the quarter-point rows as clamped; it is
// the simply supported beam at its load points.
var (
	UniformSimple     = Case{"uniform load, simple supports", 5. / 384, 1. / 8, 1. / 8}
	UniformClamped    = Case{"uniform load, clamped ends", 1. / 384, 1. / 8, 1. / 12}
	CentreSimple      = Case{"centre load, simple supports", 1. / 48, 1. / 4, 1. / 4}
	CentreClamped     = Case{"centre load, clamped ends", 1. / 192, 1. / 4, 1. / 8}
	QuartersSimple    = Case{"quarter-point loads, simple supports, at midspan", 11. / 768, 1. / 8, 1. / 8}
	QuartersAtLoad    = Case{"quarter-point loads, simple supports, at a load", 1. / 96, 1. / 8, 1. / 8}
	UniformCantilever = Case{"uniform load, cantilever", 1. / 8, 1. / 2, 1. / 2}
	EndCantilever     = Case{"end load, cantilever", 1. / 3, 1, 1}
)

// Sag is the deflection in mm of a span in mm under the total load w in N,
// in its two parts: Wood Handbook equation 9-2.
func (c Case) Sag(w, span float64, s Section) (bending, shear float64) {
	return c.Bend * w * span * span * span / s.EI, c.Slide * w * span / s.GA
}

// Longest is the greatest span in mm whose sag under line N/mm (the whole
// load is line × span) stays within span/ratio: the sag over the span grows
// with the span, so it is found by halving. Loads that do not grow with the
// span are not this function's.
func (c Case) Longest(line, ratio float64, s Section) float64 {
	if !(line > 0 && ratio > 0) {
		return math.Inf(1)
	}
	within := func(l float64) bool {
		b, v := c.Sag(line*l, l, s)
		return b+v <= l/ratio
	}
	lo, hi := 0.0, 1.0
	for within(hi) {
		lo, hi = hi, 2*hi
	}
	for i := 0; i < 60; i++ {
		mid := (lo + hi) / 2
		if within(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

// KCMALimit is the sag in mm that ANSI/KCMA A161.1 allows a shelf or bottom
// of a span in mm after seven days under 15 lb/ft²: 1/16 in per foot (1.6 mm
// per 305 mm) and 1/4 in (6.4 mm) at most. 1/16 per 12 in is span/192.
func KCMALimit(span float64) float64 {
	return math.Min(span/192, 25.4/4)
}

// Creep factors multiply the first sag under a permanent load to give the
// sag after years.
const (
	// CreepHandbook: after several years indoors, at ordinary stress, creep
	// may about equal the first deflection (Wood Handbook, chapter 5).
	CreepHandbook = 2.0

	// CreepSeasoned and CreepUnseasoned are NDS 2018 3.5.2.
	CreepSeasoned   = 1.5
	CreepUnseasoned = 2.0
)

// Product is a sort of board in EN 1995-1-1 table 3.2.
type Product int

// The products of table 3.2 that storage is built from.
const (
	SolidTimber   Product = iota // also glued laminated and LVL
	Plywood                      // from memory
	OSB3                         // from memory
	ParticleP5                   // from memory
	MDFServiceOne                // from memory
)

// Kdef is the creep coefficient of EN 1995-1-1 table 3.2 for a product in
// service class 1 (heated), 2 (covered, as a garage) or 3 (wet). The solid
// timber row was read; the other rows are from memory. Where the table
// has no value it is not known.
func Kdef(p Product, class int) (k float64, known bool) {
	if class < 1 || class > 3 || p < SolidTimber || p > MDFServiceOne {
		return 0, false
	}
	k = [...][3]float64{
		SolidTimber:   {0.60, 0.80, 2.00},
		Plywood:       {0.80, 1.00, 2.50},
		OSB3:          {1.50, 2.25, 0},
		ParticleP5:    {2.25, 3.00, 0},
		MDFServiceOne: {2.25, 0, 0},
	}[p][class-1]
	return k, k > 0
}

// LongTerm is the final sag under a permanent load, u (1 + kdef): EN 1995-1-1
// 2.2.3.
func LongTerm(sag, kdef float64) float64 { return sag * (1 + kdef) }
