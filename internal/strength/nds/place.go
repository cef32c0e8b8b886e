package nds

import "math"

// Duration is the load duration factor CD of NDS 2018 table 2.3.2; it
// multiplies Z, W and wood's strength, never stiffness or metal.
type Duration float64

// The durations of NDS 2018 table 2.3.2. Impact's factor does not apply to
// connections and is left out.
const (
	Permanent  Duration = 0.9
	TenYears   Duration = 1.0
	TwoMonths  Duration = 1.15
	SevenDays  Duration = 1.25
	TenMinutes Duration = 1.6
)

// The wet service factors CM of NDS 2018 table 11.3.3, for wood above 19 %
// moisture in service: lateral load on any dowel, and withdrawal of screws
// and lag screws. In dry service they are 1.
const (
	WetLateral    = 0.7
	WetWithdrawal = 0.7
)

// LeastPenetration is the length in mm that must reach into the main member
// for a lateral design value to exist at all: 6D for wood screws and nails,
// the tip counted; 4D for lag screws, the tip not counted (NDS 2018 12.1.4 to
// 12.1.6). A bolt passes through and has none.
func (f Fastener) LeastPenetration() float64 {
	switch f.Kind {
	case WoodScrew, Nail:
		return 6 * f.D
	case LagScrew:
		return 4 * f.D
	}
	return 0
}

// FullPenetration is the length in mm that the specification's tables of
// lateral values assume: 10D (lag screws 8D). See PenetrationFactor.
func (f Fastener) FullPenetration() float64 {
	switch f.Kind {
	case WoodScrew, Nail:
		return 10 * f.D
	case LagScrew:
		return 8 * f.D
	}
	return 0
}

// PenetrationFactor multiplies a value that was read from a table (or worked
// out for FullPenetration) where the fastener reaches only p mm: p/10D (lag
// p/8D), at most 1; no value below LeastPenetration (NDS 2018, notes of
// tables 12J to 12R). A value that Lateral works out with the real
// bearing length needs no such factor.
func (f Fastener) PenetrationFactor(p float64) (factor float64, allowed bool) {
	// The slack absorbs mm-to-inch rounding: 6D entered is 6D reached.
	if p < f.LeastPenetration()*(1-1e-9) {
		return 0, false
	}
	full := f.FullPenetration()
	if full == 0 {
		return 1, true
	}
	return math.Min(1, p/full), true
}

// Distances are least distances of a fastener's centre, in mm.
type Distances struct {
	Edge       float64 // unloaded edge, across the grain
	LoadedEdge float64 // edge towards which the load pushes the fastener
	EndToward  float64 // end towards which it pushes
	EndAway    float64 // other end
	AlongGrain float64 // between fasteners in a row along the grain
	Across     float64 // between fasteners in a row across the grain
	Rows       float64 // between rows
}

// Spacing is the distances for a fastener in wood.
//
// Below 1/4 in they are the advice of the NDS commentary (C12.1) for wood to
// wood, with or without a bored lead hole. From 1/4 in they are those of NDS
// 2018 tables 12.5.1A to D for the full design value: the end towards which
// the load pulls 7D in softwood, 5D in hardwood; other ends 4D.
func (f Fastener) Spacing(bored, hardwood bool) Distances {
	d := f.D
	if inches(d) < 0.25 {
		if bored {
			return Distances{Edge: 2.5 * d, LoadedEdge: 2.5 * d, EndToward: 10 * d, EndAway: 5 * d,
				AlongGrain: 10 * d, Across: 5 * d, Rows: 3 * d}
		}
		return Distances{Edge: 2.5 * d, LoadedEdge: 2.5 * d, EndToward: 15 * d, EndAway: 10 * d,
			AlongGrain: 15 * d, Across: 10 * d, Rows: 5 * d}
	}
	toward := 7 * d
	if hardwood {
		toward = 5 * d
	}
	return Distances{Edge: 1.5 * d, LoadedEdge: 4 * d, EndToward: toward, EndAway: 4 * d,
		AlongGrain: 4 * d, Across: 4 * d, Rows: 1.5 * d}
}

// Geometry is the factor CΔ for a fastener of 1/4 in or more that stands
// nearer to an end, or to its neighbour, than the full distance: actual over
// full, and no value below half (least spacing in a row: 3D of 4D). NDS 2018
// 12.5.1. Smaller fasteners have no such factor; for them it is 1.
func (f Fastener) Geometry(actual, full, least float64) (factor float64, allowed bool) {
	if inches(f.D) < 0.25 {
		return 1, true
	}
	if actual < least*(1-1e-9) {
		return 0, false
	}
	return math.Min(1, actual/full), true
}
