// Package lift is the revised NIOSH lifting equation: how heavy a thing one
// person should lift, by where it is and how often (Waters, Putz-Anderson and
// Garg, Applications Manual for the Revised NIOSH Lifting Equation, DHHS
// (NIOSH) publication 94-110, revised September 2021).
//
// The equation's own conditions are the caller's to check: two hands, standing,
// room to move, a stable load, no pushing, no stairs, at most eight hours, a
// sound floor, 19 to 26 °C. The package knows no goods and no shelves.
package lift

import (
	"math"

	"stowright/internal/strength/unit"
)

// Coupling is how well the hands hold the thing.
type Coupling int

// The couplings of the manual's table 6.
const (
	Good Coupling = iota // handles, or a comfortable grip
	Fair
	Poor // bulky, sharp, sagging, hard to hold
)

// Work is how long lifting goes on without a rest, the manual's table 5.
type Work int

// The durations of the manual's table 5.
const (
	HourOrLess Work = iota
	TwoHoursOrLess
	EightHoursOrLess
)

// Place is one end of a lift.
type Place struct {
	H float64 // hands in front of the ankles, mm
	V float64 // hands above the floor, mm
	A float64 // turn of the body away from straight ahead, degrees
}

// Lift is a lift from Origin to Destination.
type Lift struct {
	Origin, Destination Place
	PerMinute           float64 // lifts a minute; 0.2 or fewer count as 0.2
	Work                Work
	Coupling            Coupling

	// Placed says that the thing must be set down with care (significant
	// control), so that the destination counts too.
	Placed bool

	// Metric takes the manual's metric constants instead of those in inches
	// and pounds. The two sets differ by a few hundredths.
	Metric bool
}

// Multipliers are the load constant LC in kg and the six factors of one end of
// a lift, each 0 to 1.
type Multipliers struct{ LC, H, V, D, A, F, C float64 }

// RWL is the recommended weight limit in kg: LC·HM·VM·DM·AM·FM·CM.
func (m Multipliers) RWL() float64 { return m.LC * m.H * m.V * m.D * m.A * m.F * m.C }

// form is one of the manual's two sets of constants; lengths in mm.
type form struct {
	load                       float64 // LC, kg
	near, far                  float64 // HM 1 up to near, 0 beyond far
	knuckle, high, perMM       float64 // VM 1 at knuckle, 0 above high, slope
	travel, leastTravel, reach float64 // DM = 0.82 + travel/D, from leastTravel to reach
}

var (
	inchForm   = form{51 * unit.Pound, 10 * in, 25 * in, 30 * in, 70 * in, 0.0075 / in, 1.8 * in, 10 * in, 70 * in}
	metricForm = form{23, 250, 630, 750, 1750, 0.0003, 45, 250, 1750}
)

const in = unit.Inch

func (l Lift) form() form {
	if l.Metric {
		return metricForm
	}
	return inchForm
}

// At are the multipliers at one end of the lift, inches (metric, cm):
//
//	LC = 51 lb (23 kg)
//	HM = 10/H (25/H), 1 below 10 in, 0 beyond 25 in (63 cm)
//	VM = 1 − 0.0075 |V − 30| (1 − 0.003 |V − 75|), 0 above 70 in (175 cm)
//	DM = 0.82 + 1.8/D (0.82 + 4.5/D), 1 below 10 in, 0 beyond 70 in
//	AM = 1 − 0.0032 A, 0 beyond 135 degrees
//
// FM and CM are tables 5 and 7; FM between rows is interpolated.
func (l Lift) At(p Place) Multipliers {
	c := l.form()
	above := p.V >= c.knuckle-slack
	m := Multipliers{LC: c.load, F: Frequency(l.PerMinute, above, l.Work), C: Grip(l.Coupling, above)}
	if p.H <= c.far+slack {
		m.H = math.Min(1, c.near/p.H)
	}
	if p.V >= 0 && p.V <= c.high+slack {
		m.V = 1 - c.perMM*math.Abs(p.V-c.knuckle)
	}
	if d := math.Abs(l.Destination.V - l.Origin.V); d <= c.reach+slack {
		m.D = math.Min(1, 0.82+c.travel/math.Max(d, c.leastTravel))
	}
	if a := math.Abs(p.A); a <= 135 {
		m.A = 1 - 0.0032*a
	}
	return m
}

// slack in mm keeps a limit that was converted from inches on its right side.
const slack = 1e-6

// RWL is the recommended weight limit of the lift in kg: that of the origin,
// or of the worse end where the thing is Placed.
func (l Lift) RWL() float64 {
	w := l.At(l.Origin).RWL()
	if l.Placed {
		w = math.Min(w, l.At(l.Destination).RWL())
	}
	return w
}

// Index is the lifting index of a thing of mass kg: mass over RWL, +Inf where
// no weight is recommended. The manual's target is 1; above 3 many would be
// hurt.
func (l Lift) Index(mass float64) float64 {
	if mass == 0 {
		return 0
	}
	return mass / l.RWL()
}

// Grip is the coupling multiplier of table 7; above says that the hands are
// at 30 in (75 cm) or more.
func Grip(c Coupling, above bool) float64 {
	switch {
	case c == Poor:
		return 0.90
	case c == Fair && !above:
		return 0.95
	}
	return 1
}

// frequency is table 5 for V below 30 in: lifts a minute against HourOrLess,
// TwoHoursOrLess, EightHoursOrLess.
var frequency = [...]struct {
	f float64
	m [3]float64
}{
	{0.2, [3]float64{1.00, .95, .85}}, {0.5, [3]float64{.97, .92, .81}}, {1, [3]float64{.94, .88, .75}},
	{2, [3]float64{.91, .84, .65}}, {3, [3]float64{.88, .79, .55}}, {4, [3]float64{.84, .72, .45}},
	{5, [3]float64{.80, .60, .35}}, {6, [3]float64{.75, .50, .27}}, {7, [3]float64{.70, .42, .22}},
	{8, [3]float64{.60, .35, .18}}, {9, [3]float64{.52, .30, 0}}, {10, [3]float64{.45, .26, 0}},
	{11, [3]float64{.41, 0, 0}}, {12, [3]float64{.37, 0, 0}}, {13, [3]float64{}}, {14, [3]float64{}}, {15, [3]float64{}},
}

// frequencyHigh are the cells of table 5 that differ for V of 30 in and more.
func frequencyHigh(row int, w Work) float64 {
	switch f := frequency[row].f; {
	case w == EightHoursOrLess && f == 9:
		return .15
	case w == EightHoursOrLess && f == 10:
		return .13
	case w == TwoHoursOrLess && f == 11:
		return .23
	case w == TwoHoursOrLess && f == 12:
		return .21
	case w == HourOrLess && f == 13:
		return .34
	case w == HourOrLess && f == 14:
		return .31
	case w == HourOrLess && f == 15:
		return .28
	}
	return frequency[row].m[w]
}

// Frequency is the frequency multiplier of table 5 for lifts a minute, by
// straight lines between its rows; 0 beyond its last. Above says that the
// hands are at 30 in (75 cm) or more.
func Frequency(perMinute float64, above bool, w Work) float64 {
	cell := func(row int) float64 {
		if above {
			return frequencyHigh(row, w)
		}
		return frequency[row].m[w]
	}
	if perMinute <= frequency[0].f {
		return cell(0)
	}
	for i := 1; i < len(frequency); i++ {
		a, b := frequency[i-1].f, frequency[i].f
		if perMinute <= b {
			t := (perMinute - a) / (b - a)
			return cell(i-1) + t*(cell(i)-cell(i-1))
		}
	}
	return 0
}

// Reach is the manual's estimate of H in mm for a thing of depth mm, front to
// back, held at v mm: 8 in + W/2, or 10 in + W/2 with the hands below 10 in.
func Reach(depth, v float64) float64 {
	if v < 10*in {
		return 10*in + depth/2
	}
	return 8*in + depth/2
}
