package tip_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"stowright/internal/strength/tip"
)

// Statics by hand in kg·m: 60 kg 300 mm behind, an open drawer of 5 kg 200 mm
// before, 50 lb (22.68 kg) 400 mm before: 18.00 against 10.07; with 44.5 N
// pulled at 1,422 mm against 16.52.
func TestByHand(t *testing.T) {
	w := []tip.Weight{{60, -300}, {5, 200}, {22.68, 400}}
	b := tip.About(0, w, nil)
	if h, d := b.Holding/9806.65, b.Tipping/9806.65; math.Abs(h-18) > 1e-9 || math.Abs(d-10.072) > 1e-3 {
		t.Errorf("%.3f against %.3f kg·m", h, d)
	}
	if f := b.Factor(); math.Abs(f-1.79) > 0.005 {
		t.Errorf("factor %.3f, by hand 1.79", f)
	}
	p := tip.About(0, w, []tip.Pull{{44.5, 1422}})
	if f := p.Factor(); math.Abs(f-1.09) > 0.005 {
		t.Errorf("factor with a pull %.3f, by hand 1.09", f)
	}
	if got := p.Ratio(1.5); math.Abs(got-1.5/p.Factor()) > 1e-12 {
		t.Errorf("ratio %g", got)
	}
	// An anchor that supplies the missing moment brings the factor to safety.
	r := p.Restraint(1.5, 1800)
	if got := (p.Holding + r*1800) / p.Tipping; r <= 0 || math.Abs(got-1.5) > 1e-9 {
		t.Errorf("restraint %g N gives factor %g", r, got)
	}
	if r := b.Restraint(1, 1800); r != 0 {
		t.Errorf("a case that stands needs no restraint: %g N", r)
	}
}

// The factor is the same wherever the origin of places lies; more weight in
// front, a stronger or higher pull never help; more behind never hurts.
func TestMonotone(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		f := func(lo, hi float64, n string) float64 { return rapid.Float64Range(lo, hi).Draw(rt, n) }
		back, front, shift, more := tip.Weight{f(1, 200, "m"), f(-600, -1, "x")}, tip.Weight{f(0, 80, "n"), f(1, 700, "y")}, f(-900, 900, "s"), f(0, 50, "more")
		pull := tip.Pull{f(0.1, 300, "p"), f(1, 2000, "h")}
		at := func(s float64, b, w tip.Weight, p tip.Pull) float64 {
			b.X, w.X = b.X+s, w.X+s
			return tip.About(s, []tip.Weight{b, w}, []tip.Pull{p}).Ratio(1.5)
		}
		base := at(0, back, front, pull)
		if got := at(shift, back, front, pull); math.Abs(got-base) > 1e-6*base {
			rt.Fatalf("shifted by %g: %g, was %g", shift, got, base)
		}
		heavier, stronger, higher, ballast := front, pull, pull, back
		heavier.Mass += more
		stronger.Force += more
		higher.Height += more
		ballast.Mass += more
		if at(0, back, heavier, pull) < base || at(0, back, front, stronger) < base || at(0, back, front, higher) < base || at(0, ballast, front, pull) > base {
			rt.Fatal("worse made better, or better worse")
		}
	})
}
