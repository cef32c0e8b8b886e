package beam_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"stowright/internal/strength/beam"
	"stowright/internal/strength/plainfe"
	"stowright/internal/strength/unit"
)

// near fails unless got lies within share of want.
func near(t *testing.T, what string, got, want, share float64) {
	t.Helper()
	if math.Abs(got-want) > share*math.Abs(want)+1e-12 {
		t.Errorf("%s: %.8g, want %.8g within %g %%", what, got, want, share*100)
	}
}

// AWI/AWMAC/WI Architectural Woodwork Standards, edition 1 (2009): longest
// adjustable shelves in inches at span/144; printed lengths are rounded down
// (one row up from 45.98).
func TestArchitecturalWoodworkSpans(t *testing.T) {
	for _, c := range []struct{ mpsi, th, psf, printed float64 }{
		{0.95, 0.75, 40, 40}, {0.95, 0.75, 50, 37}, {0.95, 1, 40, 53}, {0.95, 1, 50, 49},
		{1.8, 0.75, 40, 49}, {1.8, 0.75, 50, 46}, {1.8, 1, 40, 66}, {1.8, 1, 50, 61},
	} {
		const depth = 300
		s := beam.Rect(depth, c.th*unit.Inch, c.mpsi*1e6*unit.PSI, 0)
		// The sag over the span grows with the span: the longest is found by halving.
		lo, hi := 100.0, 5000.0
		for range 60 {
			l := (lo + hi) / 2
			if b, v := beam.UniformSimple.Sag(c.psf*unit.PSF*depth*l, l, s); b+v <= l/144 {
				lo = l
			} else {
				hi = l
			}
		}
		got := lo / unit.Inch
		if !(got-1 < c.printed && c.printed <= got+0.03) {
			t.Errorf("E %g Mpsi, %g in, %g psf: %.2f in, printed %g", c.mpsi, c.th, c.psf, got, c.printed)
		}
	}
}

// Wood Handbook equation 9-2 worked by hand: a yellow birch shelf, thin panels,
// and the same beam in a panel maker's rounded form for MDF.
func TestHandbookShelf(t *testing.T) {
	e := 13_900.0
	b, v := beam.UniformSimple.Sag(500, 900, beam.Rect(250, 19, e, beam.ShearModulus(e)))
	near(t, "yellow birch, bending", b, 2.3895, 1e-4)
	near(t, "yellow birch, shear", v, 0.01636, 1e-3)
	for _, c := range [][3]float64{{10_048, 620, 1.7494}, {7_452, 620, 2.3588}} {
		b, v = beam.UniformSimple.Sag(0.001*400*900, 900, beam.Rect(400, 18, c[0], c[1]))
		near(t, "18 mm panel, bending", b, c[2], 1e-4)
		near(t, "18 mm panel, shear", v, 0.0109, 0.01)
	}
	_, v = beam.UniformSimple.Sag(0.001*400*900, 900, beam.Rect(400, 18, 10_048, 155))
	near(t, "18 mm panel, planar shear", v, 0.0435, 0.003)
	for _, c := range [][4]float64{{800, 18, 20, 3.588}, {600, 18, 20, 1.514}, {1000, 25, 30, 3.924}} {
		b, _ = beam.UniformSimple.Sag(9.81*c[2], c[0], beam.Rect(300, c[1], 2_500, 0))
		near(t, "MDF shelf", b, c[3], 1e-3)
	}
	// ANSI/KCMA A161.1: 15 lb/ft² and its limit.
	b, _ = beam.UniformSimple.Sag(15*unit.PSF*300*900, 900, beam.Rect(300, 18, 10_048, 0))
	near(t, "KCMA load", b, 1.256, 1e-3)
	near(t, "KCMA limit", beam.KCMALimit(900), 4.69, 1e-3)
	near(t, "KCMA limit in all", beam.KCMALimit(2000), 6.35, 1e-9)
}

// Every row of Wood Handbook table 9-1 against the general solution.
func TestTable91ByStiffness(t *testing.T) {
	const l, w = 900.0, 500.0
	s := beam.Rect(250, 40, 10_000, 100) // soft in shear, so that it counts
	simple := []beam.Support{{At: 0}, {At: l}}
	clamped := []beam.Support{{0, true}, {l, true}}
	canti := []beam.Support{{0, true}}
	all := []beam.Uniform{{0, l, w / l}}
	for _, c := range []struct {
		c  beam.Case
		b  beam.Beam
		at float64
	}{
		{beam.UniformSimple, beam.Beam{Supports: simple, Uniforms: all}, l / 2},
		{beam.UniformClamped, beam.Beam{Supports: clamped, Uniforms: all}, l / 2},
		{beam.CentreSimple, beam.Beam{Supports: simple, Points: []beam.Point{{l / 2, w}}}, l / 2},
		{beam.CentreClamped, beam.Beam{Supports: clamped, Points: []beam.Point{{l / 2, w}}}, l / 2},
		{beam.QuartersSimple, beam.Beam{Supports: simple, Points: []beam.Point{{l / 4, w / 2}, {3 * l / 4, w / 2}}}, l / 2},
		{beam.QuartersAtLoad, beam.Beam{Supports: simple, Points: []beam.Point{{l / 4, w / 2}, {3 * l / 4, w / 2}}}, l / 4},
		{beam.UniformCantilever, beam.Beam{Supports: canti, Uniforms: all}, l},
		{beam.EndCantilever, beam.Beam{Supports: canti, Points: []beam.Point{{l, w}}}, l},
	} {
		c.b.Length, c.b.Section = l, s
		r, ok := c.b.Solve()
		if !ok {
			t.Fatalf("%s: not held", c.c.Name)
		}
		bend, shear := c.c.Sag(w, l, s)
		near(t, c.c.Name+": sag", r.SagAt(c.at), bend+shear, 1e-9)
		near(t, c.c.Name+": moment", math.Max(r.Sagging.Value, r.Hogging.Value), c.c.Moment*w*l, 1e-9)
		up := 0.0
		for _, v := range r.Supports {
			up += v
		}
		near(t, c.c.Name+": reactions", up, w, 1e-9)
	}
}

// Two and three equal spans under uniform load, as in every handbook (Roark;
// AISC's beam tables): reactions 3/8, 5/4 and 0.4, 1.1 of q l; hogging q l²/8
// and q l²/10; greatest sag 0.0054 and 0.0069 q l⁴/EI.
func TestContinuousTables(t *testing.T) {
	const l, q = 600.0, 0.8
	s := beam.Rect(300, 18, 10_000, 0)
	two, _ := beam.Beam{Length: 2 * l, Section: s, Supports: []beam.Support{{At: 0}, {At: l}, {At: 2 * l}}, Uniforms: []beam.Uniform{{0, 2 * l, q}}}.Solve()
	near(t, "two spans, end", two.Supports[0], 0.375*q*l, 1e-9)
	near(t, "two spans, middle", two.Supports[1], 1.25*q*l, 1e-9)
	near(t, "two spans, hogging", two.Hogging.Value, q*l*l/8, 1e-9)
	near(t, "two spans, sagging", two.Sagging.Value, 9./128*q*l*l, 1e-9)
	near(t, "two spans, sag", two.Sag.Value, 0.0054*q*math.Pow(l, 4)/s.EI, 0.005)
	near(t, "two spans, where", math.Min(two.Sag.At, 2*l-two.Sag.At), 0.4215*l, 0.001)
	three, _ := beam.Beam{Length: 3 * l, Section: s, Supports: []beam.Support{{At: 0}, {At: l}, {At: 2 * l}, {At: 3 * l}}, Uniforms: []beam.Uniform{{0, 3 * l, q}}}.Solve()
	near(t, "three spans, end", three.Supports[0], 0.4*q*l, 1e-9)
	near(t, "three spans, inner", three.Supports[1], 1.1*q*l, 1e-9)
	near(t, "three spans, hogging", three.Hogging.Value, 0.1*q*l*l, 1e-9)
	near(t, "three spans, sag", three.Sag.Value, 0.0069*q*math.Pow(l, 4)/s.EI, 0.005)
}

// A shelf over a partition, unequal spans, one loaded more, against a net of
// finite elements: 2 %. The board is narrow, as the plate's own bending across
// is not the beam's.
func TestPartitionAgainstElements(t *testing.T) {
	const a, depth, nx, ny = 1400.0, 200.0, 56, 8
	m := &plainfe.Model{
		Material: plainfe.Material{T: 18, Ex: 10_048, Ey: 7_452, G: 620}, A: a, B: depth, NX: nx, NY: ny,
		Held: func(i, j int) (u, v, w, tx, ty bool) {
			rest := i == 0 || i == 24 || i == nx
			return true, true, rest, false, rest
		},
		Pressure: func(x, y float64) float64 {
			if x > 600 {
				return 0.003
			}
			return 0.001
		},
	}
	m.Solve()
	b := beam.Beam{Length: a, Section: beam.Rect(depth, 18, 10_048, 620),
		Supports: []beam.Support{{At: 0}, {At: 600}, {At: a}},
		Uniforms: []beam.Uniform{{0, 600, 0.2}, {600, a, 0.6}}}
	r, ok := b.Solve()
	if !ok {
		t.Fatal("not held")
	}
	near(t, "greatest sag", r.Sag.Value, m.Greatest(), 0.02)
	for i := 28; i < nx; i += 4 {
		if off := r.SagAt(a*float64(i)/nx) - m.Sag(i, ny/2); math.Abs(off) > 0.02*r.Sag.Value {
			t.Errorf("at %g mm the sags differ by %g mm", a*float64(i)/nx, off)
		}
	}
}

// The composite section of a shelf with a strip: a trade check says that a
// 3/4 × 1-1/2 in strip, flush with the top, cuts the sag of an 11-1/4 in
// deep 23/32 fir shelf to about 39 % (common practice, no source). Two
// leaves glued flat are one board; a symmetric I by hand.
func TestCompose(t *testing.T) {
	in := unit.Inch
	plain := beam.Rect(11.25*in, 23./32*in, 0.95e6*unit.PSI, 0)
	with := beam.Compose(
		beam.Piece{Width: 11.25 * in, Height: 23. / 32 * in, Bottom: (1.5 - 23./32) * in, E: 0.95e6 * unit.PSI},
		beam.Piece{Width: 0.75 * in, Height: 1.5 * in, E: 1.5e6 * unit.PSI})
	near(t, "strip", plain.EI/with.EI, 0.39, 0.02)
	one := beam.Rect(300, 36, 9_000, 500)
	two := beam.Compose(beam.Piece{300, 18, 0, 9_000, 500}, beam.Piece{300, 18, 18, 9_000, 500})
	near(t, "two leaves, EI", two.EI, one.EI, 1e-12)
	near(t, "two leaves, GA", two.GA, 5./6*500*300*36, 1e-9)
	near(t, "two leaves, stress", two.Stress(1, 1e6), 1e6*6/(300*36*36.), 1e-9)
	near(t, "two leaves, shear", two.Shear(1000), 1.5*1000/(300*36.), 1e-6)
	i := beam.Compose(beam.Piece{100, 20, 0, 10_000, 600}, beam.Piece{20, 60, 20, 10_000, 600}, beam.Piece{100, 20, 80, 10_000, 600})
	near(t, "I section", i.EI/10_000, (100*math.Pow(100, 3)-80*math.Pow(60, 3))/12, 1e-9)
	near(t, "I section axis", i.Axis, 50, 1e-12)
}

func TestNotHeld(t *testing.T) {
	s := beam.Rect(300, 18, 10_000, 600)
	for _, sup := range [][]beam.Support{nil, {{At: 300}}} {
		if _, ok := (beam.Beam{Length: 900, Section: s, Supports: sup, Uniforms: []beam.Uniform{{0, 900, 1}}}).Solve(); ok {
			t.Errorf("supports %v do not hold a beam", sup)
		}
	}
	// A long light end lifts off its far support.
	r, _ := beam.Beam{Length: 900, Section: s, Supports: []beam.Support{{At: 0}, {At: 300}}, Points: []beam.Point{{900, 100}}}.Solve()
	near(t, "uplift", r.Supports[0], -200, 1e-9)
}

// A uniform load cut into many small forces tends to it, as 1/n².
func TestManySmallForces(t *testing.T) {
	s := beam.Rect(300, 18, 10_000, 600)
	sup := []beam.Support{{At: 0}, {At: 500}, {At: 1200}}
	whole, _ := beam.Beam{Length: 1200, Section: s, Supports: sup, Uniforms: []beam.Uniform{{0, 1200, 0.5}}}.Solve()
	last := math.Inf(1)
	for _, n := range []int{6, 24, 96, 384} {
		b := beam.Beam{Length: 1200, Section: s, Supports: sup}
		for i := 0; i < n; i++ {
			b.Points = append(b.Points, beam.Point{1200 * (float64(i) + 0.5) / float64(n), 600 / float64(n)})
		}
		r, _ := b.Solve()
		off := math.Abs(r.Sag.Value/whole.Sag.Value - 1)
		if off > last/4 {
			t.Errorf("%d forces: off by %g, with fewer %g", n, off, last)
		}
		last = off
	}
	if last > 1e-4 {
		t.Errorf("384 forces are still off by %g", last)
	}
}

// More load, thinner, softer: never better; a longer span neither.
func TestMonotone(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		f := func(lo, hi float64, name string) float64 { return rapid.Float64Range(lo, hi).Draw(rt, name) }
		l, mid, th, e, g, q, p := f(300, 2000, "l"), f(0.3, 0.7, "mid"), f(6, 40, "t"), f(1500, 14_000, "e"), f(50, 900, "g"), f(0.05, 3, "q"), f(0, 900, "p")
		solve := func(l, th, e, g, q, p float64) beam.Result {
			r, ok := beam.Beam{Length: l, Section: beam.Rect(300, th, e, g), Supports: []beam.Support{{At: 0}, {At: l}},
				Uniforms: []beam.Uniform{{0, l, q}}, Points: []beam.Point{{l * mid, p}}}.Solve()
			if !ok {
				rt.Fatal("not held")
			}
			return r
		}
		base, less := solve(l, th, e, g, q, p), f(0.5, 0.999, "less")
		for what, r := range map[string]beam.Result{
			"more line load": solve(l, th, e, g, q/less, p), "more force": solve(l, th, e, g, q, p/less),
			"longer": solve(l/less, th, e, g, q, p), "thinner": solve(l, th*less, e, g, q, p),
			"softer": solve(l, th, e*less, g, q, p), "softer in shear": solve(l, th, e, g*less, q, p),
		} {
			if r.Sag.Value < base.Sag.Value*(1-1e-9) || r.Sagging.Value < base.Sagging.Value*(1-1e-9) {
				rt.Fatalf("%s: sag %g from %g, moment %g from %g", what, r.Sag.Value, base.Sag.Value, r.Sagging.Value, base.Sagging.Value)
			}
		}
	})
}

// A joint in one layer of two, by virtual work: a beam on two supports under W in its middle sags by W L³/48EI
// and, for a stretch of half the length d that is as stiff as EI/8 about a place a from an end, by
// ∫ M m (8 - 1)/EI over it, M = W x/2 and m = x/2; and its moments are statics.
func TestWeakStretch(t *testing.T) {
	const l, w, a, d = 1000.0, 500.0, 300.0, 40.0
	whole, thin := beam.Rect(600, 36, 10_000, 0), beam.Rect(600, 18, 10_000, 0)
	near(t, "an eighth", thin.EI*8, whole.EI, 1e-9)
	b := beam.Beam{Length: l, Section: whole, Supports: []beam.Support{{At: 0}, {At: l}}, Points: []beam.Point{{At: l / 2, Force: w}},
		Weak: []beam.Weak{{From: a - d, To: a + d, Section: thin}}}
	r, ok := b.Solve()
	if !ok {
		t.Fatal("not held")
	}
	cube := func(x float64) float64 { return x * x * x / 3 }
	more := w / 4 * (cube(a+d) - cube(a-d)) * 7 / whole.EI
	near(t, "sag in the middle", r.SagAt(l/2), w*l*l*l/48/whole.EI+more, 1e-9)
	near(t, "moment at the joint", r.MomentAt(a), w*a/2, 1e-9)
	// A hinge over the middle one of three supports makes two beams of one.
	hinged := beam.Beam{Length: 2 * l, Section: whole, Supports: []beam.Support{{At: 0}, {At: l}, {At: 2 * l}}, Uniforms: []beam.Uniform{{From: 0, To: 2 * l, Line: 1}},
		Weak: []beam.Weak{{From: l - 1, To: l + 1, Section: beam.Rect(600, 36, 10_000e-6, 0)}}}
	r, ok = hinged.Solve()
	if !ok {
		t.Fatal("not held")
	}
	s, _ := beam.UniformSimple.Sag(l, l, whole)
	near(t, "two beams", r.Sag.Value, s, 2e-3)
}
