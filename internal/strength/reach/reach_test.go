package reach_test

import (
	"math"
	"testing"

	"stowright/internal/strength/reach"
	"stowright/internal/strength/unit"
)

// 2010 ADA Standards, 308.2 and 308.3: heights and depths in inches.
func TestADAReach(t *testing.T) {
	in := unit.Inch
	for _, c := range []struct{ depth, high float64 }{{0, 48}, {20, 48}, {20.1, 44}, {25, 44}, {25.1, 0}} {
		r, ok := reach.Forward(c.depth * in)
		if ok != (c.high > 0) || ok && (math.Abs(r.High/in-c.high) > 1e-9 || math.Abs(r.Low/in-15) > 1e-9) {
			t.Errorf("forward over %g in: %+v %v, want to %g in", c.depth, r, ok, c.high)
		}
	}
	for _, c := range []struct{ height, depth, high float64 }{{0, 0, 48}, {34, 10, 48}, {34, 10.1, 46}, {34, 24, 46}, {34, 24.1, 0}, {34.1, 20, 0}} {
		r, ok := reach.Side(c.height*in, c.depth*in)
		if ok != (c.high > 0) || ok && math.Abs(r.High/in-c.high) > 1e-9 {
			t.Errorf("beside, over %g × %g in: %+v %v, want to %g in", c.height, c.depth, r, ok, c.high)
		}
	}
	r, _ := reach.Forward(0)
	if r.Holds(14.9*in) || !r.Holds(15*in) || !r.Holds(48*in) || r.Holds(48.1*in) {
		t.Errorf("ends of %+v", r)
	}
}

// Common practice, no source: top shelves up to 72 to 76 in for most adults.
func TestEase(t *testing.T) {
	const user = 1700
	last := reach.Handy
	for _, z := range []float64{1000, 1450, 1900, 2100} {
		e := reach.Of(z, user)
		if e < last {
			t.Errorf("%g mm is easier than what is lower", z)
		}
		last = e
	}
	if reach.Of(1930, user) != reach.Usable || last != reach.Beyond || reach.Of(-1, user) != reach.Beyond {
		t.Error("landmarks")
	}
}
