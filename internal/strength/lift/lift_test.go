package lift_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"stowright/internal/strength/lift"
)

const (
	in    = 25.4
	pound = 0.45359237
)

// rounded is the weight limit in lb as the manual's worksheets work it out:
// multipliers to two places, the product to one.
func rounded(m lift.Multipliers) float64 {
	p := m.LC / pound
	for _, f := range []float64{m.H, m.V, m.D, m.A, m.F, m.C} {
		p *= math.Round(f*100) / 100
	}
	return math.Round(p*10) / 10
}

// DHHS (NIOSH) 94-110: example 4, package inspection, as printed (its
// destination's H from memory); examples 1 to 3 from memory. Example 1 takes
// HM .44 from a table cell that its own formula does not give (.43).
func TestManualExamples(t *testing.T) {
	place := func(h, v, a float64) lift.Place { return lift.Place{H: h * in, V: v * in, A: a} }
	for _, c := range []struct {
		name              string
		l                 lift.Lift
		origin, dest, off float64
	}{
		{"4 package inspection", lift.Lift{Origin: place(10, 22, 0), Destination: place(20, 59, 0), PerMinute: 3, Coupling: lift.Fair, Placed: true}, 34.9, 15.2, 0},
		{"1 punch press stock (from memory)", lift.Lift{Origin: place(23, 15, 0), Destination: place(23, 64, 0), Coupling: lift.Fair, Placed: true}, 16.3, 14.5, 0.4},
		{"2 supply rolls (from memory)", lift.Lift{Origin: place(20, 27, 0), Destination: place(20, 10, 0), Coupling: lift.Poor, Placed: true}, 20.9, 18.1, 0},
		{"3 bags into hopper (from memory)", lift.Lift{Origin: place(18, 15, 45), Destination: place(10, 36, 0), Coupling: lift.Fair}, 18.9, 0, 0},
	} {
		o, d := c.l.At(c.l.Origin), c.l.At(c.l.Destination)
		if got := rounded(o); math.Abs(got-c.origin) > c.off+0.01 {
			t.Errorf("example %s: origin %.1f lb, manual %g", c.name, got, c.origin)
		}
		if got := rounded(d); c.dest > 0 && math.Abs(got-c.dest) > c.off+0.01 {
			t.Errorf("example %s: destination %.1f lb, manual %g", c.name, got, c.dest)
		}
		if c.l.Placed && math.Abs(c.l.RWL()-math.Min(o.RWL(), d.RWL())) > 1e-9 {
			t.Errorf("example %s: the worse end rules", c.name)
		}
		k := c.l
		k.Metric = true
		if a, b := k.RWL(), c.l.RWL(); math.Abs(a/b-1) > 0.035 {
			t.Errorf("example %s: metric constants %.2f kg, inch ones %.2f kg", c.name, a, b)
		}
	}
}

// 94-110, table 5, at both heights; page 16's rate of 10 lifts a minute for 8
// of 15 minutes is 5.33 and lies a third of the way from row 5 to row 6.
func TestFrequency(t *testing.T) {
	for _, c := range []struct {
		f, v float64
		w    lift.Work
		fm   float64
	}{
		{0, 50, lift.HourOrLess, 1}, {0.1, 50, lift.EightHoursOrLess, .85}, {0.5, 90, lift.TwoHoursOrLess, .92},
		{1, 50, lift.EightHoursOrLess, .75}, {4, 50, lift.TwoHoursOrLess, .72}, {8, 80, lift.EightHoursOrLess, .18},
		{9, 50, lift.EightHoursOrLess, 0}, {9, 80, lift.EightHoursOrLess, .15}, {10, 80, lift.EightHoursOrLess, .13},
		{11, 50, lift.TwoHoursOrLess, 0}, {11, 80, lift.TwoHoursOrLess, .23}, {12, 80, lift.TwoHoursOrLess, .21},
		{12, 50, lift.HourOrLess, .37}, {13, 50, lift.HourOrLess, 0}, {13, 80, lift.HourOrLess, .34}, {14, 80, lift.HourOrLess, .31},
		{15, 80, lift.HourOrLess, .28}, {15.1, 80, lift.HourOrLess, 0}, {16. / 3, 50, lift.HourOrLess, .80 - .05/3},
	} {
		if got := lift.Frequency(c.f, c.v >= 75, c.w); math.Abs(got-c.fm) > 1e-9 {
			t.Errorf("FM at %g a minute, V %g, duration %d: %g, table %g", c.f, c.v, c.w, got, c.fm)
		}
	}
}

func TestLimits(t *testing.T) {
	at := func(h, v, a float64) lift.Multipliers {
		p := lift.Place{H: h * 10, V: v * 10, A: a}
		return lift.Lift{Origin: p, Destination: lift.Place{H: 10 * h, V: 10*v + 100}, Metric: true}.At(p)
	}
	if m := at(20, 75, 0); math.Abs(m.RWL()-23) > 1e-9 {
		t.Errorf("best place: %g kg, the load constant is 23", m.RWL())
	}
	for _, m := range []lift.Multipliers{at(63.1, 75, 0), at(25, 175.1, 0), at(25, 75, 136)} {
		if m.RWL() != 0 {
			t.Errorf("beyond the limits: %+v", m)
		}
	}
	if i := (lift.Lift{Origin: lift.Place{H: 700, V: 750}}).Index(5); !math.IsInf(i, 1) {
		t.Errorf("no weight is recommended, index %g", i)
	}
	if h := lift.Reach(12*in, 5*in); math.Abs(h-16*in) > 1e-9 {
		t.Errorf("H of a 12 in thing near the floor: %g mm, 10 + 6 in", h)
	}
}

// Farther, more twisted, more often, longer, worse held: never lighter work.
func TestMonotone(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		f := func(lo, hi float64, n string) float64 { return rapid.Float64Range(lo, hi).Draw(rt, n) }
		l := lift.Lift{Origin: lift.Place{H: f(150, 630, "h"), V: f(0, 1750, "v"), A: f(0, 135, "a")},
			Destination: lift.Place{H: 300, V: f(0, 1750, "to")}, PerMinute: f(0, 14, "f")}
		base, more := l.RWL(), f(0, 100, "more")
		for what, change := range map[string]func(*lift.Lift){
			"farther":   func(k *lift.Lift) { k.Origin.H += more },
			"twisted":   func(k *lift.Lift) { k.Origin.A += more },
			"oftener":   func(k *lift.Lift) { k.PerMinute += more },
			"longer":    func(k *lift.Lift) { k.Work = lift.TwoHoursOrLess },
			"fair grip": func(k *lift.Lift) { k.Coupling = lift.Fair },
			"placed":    func(k *lift.Lift) { k.Placed = true },
		} {
			k := l
			change(&k)
			if k.RWL() > base+1e-12 {
				rt.Fatalf("%s raised the limit from %g to %g", what, base, k.RWL())
			}
		}
	})
}
