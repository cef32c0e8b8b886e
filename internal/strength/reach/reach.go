// Package reach is how high, low and far a person reaches: the accessible
// ranges of the 2010 ADA Standards for Accessible Design (section 308), and a
// working range from a user's height by rules of practice.
//
// All sizes are in mm above the floor. The package knows no goods and no
// shelves; what must lie in which range is the caller's.
package reach

import "stowright/internal/strength/unit"

// Range is what a hand reaches, mm above the floor.
type Range struct{ Low, High float64 }

// Holds says whether a height in mm lies in the range, ends included.
func (r Range) Holds(z float64) bool { return r.Low <= z && z <= r.High }

// Forward is the range for somebody facing the wall, over an obstruction that
// stands out depth mm (0 for none): 15 to 48 in; to 44 in where the depth is
// 20 to 25 in; none beyond (ADA 2010 308.2).
func Forward(depth float64) (Range, bool) {
	switch {
	case depth <= 20*unit.Inch:
		return Range{15 * unit.Inch, 48 * unit.Inch}, true
	case depth <= 25*unit.Inch:
		return Range{15 * unit.Inch, 44 * unit.Inch}, true
	}
	return Range{}, false
}

// Side is the range for somebody beside the wall, over an obstruction of the
// given height and depth in mm: 15 to 48 in up to 10 in deep; else to 46 in,
// and none where it is higher than 34 or deeper than 24 in (ADA 2010 308.3).
func Side(height, depth float64) (Range, bool) {
	switch {
	case depth <= 10*unit.Inch && height <= 34*unit.Inch, depth == 0:
		return Range{15 * unit.Inch, 48 * unit.Inch}, true
	case depth <= 24*unit.Inch && height <= 34*unit.Inch:
		return Range{15 * unit.Inch, 46 * unit.Inch}, true
	}
	return Range{}, false
}

// Ease is how a standing user gets at a height.
type Ease int

// The eases, best first.
const (
	Handy  Ease = iota // between knuckle and shoulder: for daily and heavy things
	Easy               // between knee and eye
	Usable             // between the floor and the hand stretched up
	Beyond             // needs a step
)

// Of is the ease of height z for a standing user of the given height, both in
// mm. The landmarks are shares of the body's height, common practice without a
// source: knee 0.285, knuckle 0.38, shoulder 0.82, eye 0.93, the gripping
// hand stretched up 1.2.
func Of(z, user float64) Ease {
	switch {
	case z >= 0.38*user && z <= 0.82*user:
		return Handy
	case z >= 0.285*user && z <= 0.93*user:
		return Easy
	case z >= 0 && z <= 1.2*user:
		return Usable
	}
	return Beyond
}
