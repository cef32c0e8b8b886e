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

// KCMALimit is the sag in mm that ANSI/KCMA A161.1 allows a shelf or bottom
// of a span in mm after seven days under 15 lb/ft²: 1/16 in per foot (1.6 mm
// per 305 mm) and 1/4 in (6.4 mm) at most. 1/16 per 12 in is span/192.
func KCMALimit(span float64) float64 {
	return math.Min(span/192, 25.4/4)
}
