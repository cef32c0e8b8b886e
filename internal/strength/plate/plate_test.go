package plate_test

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"stowright/internal/strength/plainfe"
	"stowright/internal/strength/plate"
)

// near fails unless got lies within share of want.
func near(t *testing.T, what string, got, want, share float64) {
	t.Helper()
	if math.Abs(got-want) > share*math.Abs(want) {
		t.Errorf("%s: %.6g, want %.6g within %g %%", what, got, want, share*100)
	}
}

// long stands for an infinite side in the tables.
const long = 8

// Roark's Formulas for Stress and Strain, table 11.4, case 1a: all edges
// simply supported, uniform load, ν = 0.3; within 1 %.
func TestRoarkUniform(t *testing.T) {
	for _, c := range []struct{ ab, beta, alpha float64 }{
		{1.0, 0.2874, 0.0444}, {1.2, 0.3762, 0.0616}, {1.4, 0.4530, 0.0770}, {1.6, 0.5172, 0.0906},
		{1.8, 0.5688, 0.1017}, {2.0, 0.6102, 0.1110}, {3.0, 0.7134, 0.1335}, {4.0, 0.7410, 0.1400},
		{5.0, 0.7476, 0.1417}, {long, 0.7500, 0.1421},
	} {
		const e, th, b, q = 10_000.0, 12.0, 400.0, 0.002
		r := plate.Uniform(plate.Isotropic(th, e, 0.3), c.ab*b, b, q)
		s := r.At(c.ab*b/2, b/2)
		near(t, "alpha", s.Sag, c.alpha*q*b*b*b*b/(e*th*th*th), 0.01)
		near(t, "beta", r.Stress(s.My), c.beta*q*b*b/(th*th), 0.01)
	}
}

// Roark, table 11.4, case 1b: a load on a small central circle; the patch is
// a square of a fiftieth of the side. Within 1 %.
func TestRoarkPatch(t *testing.T) {
	for ab, alpha := range map[float64]float64{1.0: 0.1267, 1.2: 0.1478, 1.4: 0.1621, 1.6: 0.1715, 1.8: 0.1770, 2.0: 0.1805, long: 0.1851} {
		const e, th, b, w, side = 10_000.0, 12.0, 400.0, 300.0, 8.0
		a := ab * b
		r := plate.Rect{Board: plate.Isotropic(th, e, 0.3), A: a, B: b,
			Loads: []plate.Patch{{a/2 - side/2, a/2 + side/2, b/2 - side/2, b/2 + side/2, w / side / side}}}
		near(t, "alpha of case 1b", r.At(a/2, b/2).Sag, alpha*w*b*b/(e*th*th*th), 0.01)
	}
}

// Timoshenko and Woinowsky-Krieger, table 8: b/a, w/(q a⁴/D), Mx/(q a²), My/(q
// a²), a the short side, ν = 0.3. The printed table has three figures in
// places; the numbers are its series worked out, so 0.6 %.
func TestTimoshenkoTable8(t *testing.T) {
	for _, c := range [][4]float64{
		{1.0, .00406, .0479, .0479}, {1.1, .00487, .0555, .0493}, {1.2, .00565, .0627, .0501}, {1.3, .00639, .0694, .0503},
		{1.4, .00708, .0755, .0502}, {1.5, .00772, .0812, .0498}, {1.6, .00831, .0862, .0493}, {1.7, .00884, .0908, .0486},
		{1.8, .00932, .0948, .0479}, {1.9, .00974, .0985, .0471}, {2.0, .01013, .1017, .0464}, {3.0, .01223, .1189, .0406},
		{4.0, .01282, .1235, .0384}, {5.0, .01297, .1246, .0377},
	} {
		const e, th, a, q = 9_000.0, 10.0, 300.0, 0.001
		s := plate.Uniform(plate.Isotropic(th, e, 0.3), a, c[0]*a, q).At(a/2, c[0]*a/2)
		d := e * th * th * th / 12 / (1 - 0.09)
		near(t, "w", s.Sag, c[1]*q*a*a*a*a/d, 0.006)
		near(t, "Mx", s.Mx, c[2]*q*a*a, 0.006)
		near(t, "My", s.My, c[3]*q*a*a, 0.006)
	}
}

// birch is an 18 mm birch plywood: moduli as the Finnish handbook's means.
func birch(along, across float64) plate.Board {
	return plate.Board{T: 18, Ex: along, Ey: across, G: 620}
}

// The orthotropic series by hand: 900 × 400 mm, 1 kPa.
func TestOrthotropicWorked(t *testing.T) {
	near(t, "face grain along 900", plate.Uniform(birch(10_048, 7_452), 900, 400, 0.001).At(450, 200).Sag, 0.0987, 0.001)
	near(t, "face grain along 400", plate.Uniform(birch(7_452, 10_048), 900, 400, 0.001).At(450, 200).Sag, 0.0737, 0.001)
}

// shelf is an isotropic shelf under uniform load in the units of the tables.
func shelf(ratio float64, front, back plate.Hold) plate.Shelf {
	const a = 900
	return plate.Shelf{
		Board: plate.Isotropic(18, 10_000, 0.3), Span: a, Depth: ratio * a,
		Front: plate.Edge{Hold: front}, Back: plate.Edge{Hold: back},
		Loads: []plate.Patch{{0, a, 0, ratio * a, 0.001}},
	}
}

func unitless(s plate.Shelf, sag float64) float64 {
	d := s.Ex * s.T * s.T * s.T / 12 / (1 - s.Nu*s.Nu)
	return sag * d / (0.001 * math.Pow(s.Span, 4))
}

// Three edges supported and the front free: Roark, table 11.4, case 2 (from
// memory: 0.080, 0.106, 0.140, 0.160, 0.165, 0.167 by depth/span, ν = 0.3, in
// units of q a⁴/(E t³)) and Lévy's series to three figures.
func TestBackSupported(t *testing.T) {
	for _, c := range [][2]float64{{0.3, 0.00336}, {0.4, 0.00526}, {0.5, 0.00709}, {0.667, 0.00968}, {1.0, 0.01285}, {1.5, 0.01461}, {2.0, 0.01507}, {4.0, 0.01522}} {
		s := shelf(c[0], plate.Free, plate.Supported)
		near(t, "back supported", unitless(s, s.Solve(0).At(450, 0).Sag), c[1], 0.002)
	}
	for _, c := range [][2]float64{{0.5, 0.080}, {0.667, 0.106}, {1.0, 0.140}, {1.5, 0.160}, {2.0, 0.165}, {4.0, 0.167}} {
		s := shelf(c[0], plate.Free, plate.Supported)
		near(t, "Roark case 2 (from memory)", 12*(1-0.09)*unitless(s, s.Solve(0).At(450, 0).Sag), c[1], 0.035)
	}
}

// Both long edges free: Lévy's series, centre and edge; and the beam's
// 5/384 with EI in the same units lies between.
func TestPlainShelf(t *testing.T) {
	for _, c := range [][3]float64{{0.3, 0.01405, 0.01446}, {0.5, 0.01371, 0.01464}, {1.0, 0.01309, 0.01501}, {2.0, 0.01289, 0.01520}} {
		s := shelf(c[0], plate.Free, plate.Free)
		b := s.Solve(0)
		near(t, "centre", unitless(s, b.At(450, s.Depth/2).Sag), c[1], 0.002)
		near(t, "edge", unitless(s, b.At(450, 0).Sag), c[2], 0.002)
		near(t, "other edge", b.At(450, s.Depth).Sag, b.At(450, 0).Sag, 1e-9)
	}
	s := shelf(0.4, plate.Free, plate.Free)
	near(t, "a shelf is a beam", s.Solve(0).At(450, 0).Sag, 5./384*0.001*math.Pow(900, 4)/(10_000*18*18*18/12), 0.02)
}

// All edges supported must be Navier's plate, by bands instead of series.
func TestBandsEqualNavier(t *testing.T) {
	board := birch(7_452, 10_048)
	patch := []plate.Patch{{100, 400, 50, 220, 0.003}, {0, 800, 0, 450, 0.001}}
	r := plate.Rect{Board: board, A: 800, B: 450, Loads: patch}
	s := plate.Shelf{Board: board, Span: 800, Depth: 450, Loads: patch,
		Front: plate.Edge{Hold: plate.Supported}, Back: plate.Edge{Hold: plate.Supported}}
	b := s.Solve(59)
	for _, at := range [][2]float64{{400, 225}, {250, 140}, {600, 300}} {
		want, got := r.At(at[0], at[1]), b.At(at[0], at[1])
		near(t, "sag", got.Sag, want.Sag, 1e-4)
		near(t, "Mx", got.Mx, want.Mx, 0.005)
		near(t, "My", got.My, want.My, 0.005)
	}
}

// nosed is a plywood shelf with a hardwood strip under its front edge.
func nosed() plate.Shelf {
	return plate.Shelf{
		Board: birch(10_048, 7_452), Span: 900, Depth: 288,
		Front: plate.Edge{Strips: []plate.Strip{{Width: 19, Height: 38, Drop: 10, E: 12_500, G: 12_500. / 16}}},
		Loads: []plate.Patch{{0, 900, 0, 288, 0.002}},
	}
}

func element(s plate.Shelf, nx, ny int) *plainfe.Model {
	m := &plainfe.Model{
		Material: plainfe.Material{T: s.T, Ex: s.Ex, Ey: s.Ey, G: s.G, Nu: s.Nu},
		A:        s.Span, B: s.Depth, NX: nx, NY: ny,
		Held: func(i, j int) (u, v, w, tx, ty bool) {
			end := i == 0 || i == nx
			// One node keeps the board from sliding as a whole.
			return 2*i == nx && j == 0, end, end, false, end
		},
		Pressure: func(x, y float64) float64 {
			q := 0.0
			for _, p := range s.Loads {
				if p.X1 < x && x < p.X2 && p.Y1 < y && y < p.Y2 {
					q += p.Pressure
				}
			}
			return q
		},
	}
	for _, e := range []struct {
		j    int
		edge plate.Edge
	}{{0, s.Front}, {ny, s.Back}} {
		for _, st := range e.edge.Strips {
			m.Bars = append(m.Bars, plainfe.Bar{J: e.j, Width: st.Width, Height: st.Height, Drop: st.Drop, E: st.E, G: st.G})
		}
	}
	return m
}

// A shelf with an edge strip along the front, and one along both edges,
// against finite elements, at the front, the middle and the back: 2 %.
func TestStripAgainstElements(t *testing.T) {
	one := nosed()
	both := nosed()
	both.Back = both.Front
	for name, s := range map[string]plate.Shelf{"front strip": one, "both strips": both} {
		m := element(s, 36, 12)
		m.Solve()
		b := s.Solve(0)
		for j, y := range map[int]float64{0: 0, 6: s.Depth / 2, 12: s.Depth} {
			near(t, name, b.At(450, y).Sag, m.Sag(18, j), 0.02)
			t.Logf("%s at depth %g: bands %.4f mm, elements %.4f mm", name, y, b.At(450, y).Sag, m.Sag(18, j))
		}
	}
}

// The stress of a shelf that glued strips make a flange, bending and
// stretching together, against finite elements: 2 %. On a narrow shelf with
// strips along both edges it is that of the composite section (W L/8).
func TestStressWithStrips(t *testing.T) {
	for name, deep := range map[string]float64{"shelf": 288, "narrow": 76} {
		s := nosed()
		s.Depth = deep
		s.Loads[0].Y2 = deep
		s.Front.Strips[0].Drop = 28
		s.Back = s.Front
		b := s.Solve(0)
		m := element(s, 60, 12)
		m.Solve()
		for j, y := range map[int]float64{0: 0, 3: deep / 4, 6: deep / 2} {
			near(t, name+" stress", s.Along(b.At(450, y)), m.Along(30, j), 0.02)
		}
		if deep > 100 {
			continue
		}
		i := 2*(12_500*19*math.Pow(38, 3)/12) + 10_048*deep*math.Pow(18, 3)/12
		strip, board := 2*12_500*19*38., 10_048*deep*18.
		axis := strip * 28 / (strip + board) // below the board's middle
		i += board*axis*axis + strip*(28-axis)*(28-axis)
		moment := 0.002 * deep * 900 * 900 / 8
		mean := (s.Along(b.At(450, 0)) + 4*s.Along(b.At(450, deep/4)) + s.Along(b.At(450, deep/2))) / 6
		near(t, "composite section, mean", mean, 10_048*moment*(axis+9)/i, 0.02)
	}
}

// An orthotropic tray bottom with a load on a part of it, against finite
// elements: 2 %.
func TestTrayBottomAgainstElements(t *testing.T) {
	board := plate.Board{T: 9, Ex: 11_395, Ey: 6_105, G: 620}
	r := plate.Rect{Board: board, A: 600, B: 450, Loads: []plate.Patch{{0, 600, 0, 450, 0.0005}, {100, 300, 75, 225, 0.004}}}
	s := plate.Shelf{Board: board, Span: r.A, Depth: r.B, Loads: r.Loads}
	m := element(s, 24, 18)
	m.Held = func(i, j int) (u, v, w, tx, ty bool) {
		x, y := i == 0 || i == 24, j == 0 || j == 18
		return true, true, x || y, y, x
	}
	m.Solve()
	worst := 0.0
	for i := 1; i < 24; i++ {
		for j := 1; j < 18; j++ {
			worst = math.Max(worst, r.At(r.A*float64(i)/24, r.B*float64(j)/18).Sag)
		}
	}
	near(t, "greatest sag", worst, m.Greatest(), 0.02)
	near(t, "sag at the middle", r.At(300, 225).Sag, m.Sag(12, 9), 0.02)
}

// The bands are fine enough: a strip's shelf loaded by a patch changes little
// when seen by elements twice as fine, and half waves beyond 25 add nothing.
func TestStripsConverge(t *testing.T) {
	s := nosed()
	near(t, "half waves", s.Solve(25).At(450, 0).Sag, s.Solve(99).At(450, 0).Sag, 1e-4)
	s.Loads = []plate.Patch{{440, 460, 10, 30, 1}}
	near(t, "half waves, small patch", s.Solve(59).At(450, 20).Sag, s.Solve(199).At(450, 20).Sag, 2e-3)
}

// work is the mean sag over the shelf, for the work of a uniform load. That it
// grows with every softening is a theorem. The greatest sag at one point is not
// bound by it: a weak strip along one edge lets the other edge sag a hundredth
// more, as the load shifts, and a long shelf clamped along the back sags most
// near its ends.
func work(s plate.Shelf) float64 {
	b, sum := s.Solve(9), 0.0
	for i := 0; i < 4; i++ {
		for j := 0; j < 24; j++ {
			sum += b.At(s.Span*(float64(i)+0.5)/8, s.Depth*(float64(j)+0.5)/24).Sag
		}
	}
	return sum / 96
}

// More load, longer, thinner, softer, no strip: never better, in the work of
// the load; nor in the greatest sag for load and thickness.
func TestMonotone(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		f := func(lo, hi float64, name string) float64 { return rapid.Float64Range(lo, hi).Draw(rt, name) }
		span, depth := f(300, 1500, "span"), f(150, 700, "depth")
		s := plate.Shelf{
			Board: plate.Board{T: f(6, 30, "t"), Ex: f(2000, 14000, "ex"), Ey: f(2000, 12000, "ey"), G: f(200, 1500, "g"), Nu: 0},
			Span:  span, Depth: depth,
			Back: plate.Edge{Hold: plate.Hold(rapid.IntRange(0, 2).Draw(rt, "back"))},
		}
		q := f(0.0002, 0.005, "q")
		full := func(s plate.Shelf) plate.Shelf {
			s.Loads = []plate.Patch{{0, s.Span, 0, s.Depth, q}}
			return s
		}
		strip := plate.Strip{Width: f(5, 40, "w"), Height: f(5, 60, "h"), E: f(5000, 14000, "e")}
		strip.Drop = strip.Height/2 - s.T/2
		s.Front.Strips = []plate.Strip{strip}
		base, _, _, _ := full(s).Solve(9).Worst(6)
		done := work(full(s))
		check := func(what string, k plate.Shelf) {
			if got := work(k); got < done*(1-1e-5) {
				rt.Fatalf("%s lowered the work from %g to %g", what, done, got)
			}
			if what != "more load" && what != "thinner board" {
				return
			}
			if got, _, _, _ := k.Solve(9).Worst(6); got.Sag < base.Sag*0.99 {
				rt.Fatalf("%s lowered the sag from %g to %g", what, base.Sag, got.Sag)
			}
		}
		less := f(0.6, 0.99, "less")
		k := full(s)
		k.Loads[0].Pressure /= less
		check("more load", k)
		k = s
		k.Ex *= less
		check("softer along", full(k))
		k = s
		k.Ey *= less
		check("softer across", full(k))
		k = s
		k.Front.Strips = nil
		check("no strip", full(k))
		k = s
		k.Span /= less
		check("longer span", full(k))
		k = s
		k.T *= less
		k.Front.Strips = []plate.Strip{strip}
		check("thinner board", full(k))
	})
}

// Roark, table 11.4, case 1a, gamma: the reaction at the middle of the long edge over q b, by the
// same series as the sag (ν 0.3): R = D (∂³w/∂y³ + (2 − ν) ∂³w/∂x²∂y). 0.505 is the most, which the
// check of a drawer's groove takes.
func TestRoarkEdge(t *testing.T) {
	most := 0.0
	for _, c := range [][2]float64{{1.0, 0.420}, {1.2, 0.455}, {1.4, 0.478}, {1.6, 0.491}, {1.8, 0.499}, {2.0, 0.503}, {3.0, 0.505}, {4.0, 0.502}, {5.0, 0.501}} {
		const n = 701
		sum := 0.0
		for i := 1; i < n; i += 2 {
			for j := 1; j < n; j += 2 {
				m, k := float64(i)*math.Pi/c[0], float64(j)*math.Pi // b is 1
				w := 16 / (math.Pi * math.Pi * float64(i*j)) / ((m*m + k*k) * (m*m + k*k))
				if i%4 == 3 {
					w = -w
				}
				sum += w * (k*k*k + 1.7*m*m*k)
			}
		}
		near(t, "gamma", sum, c[1], 0.01)
		most = math.Max(most, c[1])
	}
	if most != 0.505 {
		t.Errorf("the most is %g", most)
	}
}

// Shelves that differ in anything have keys that differ, and equal ones share theirs: each number of a shelf,
// of a strip and of a load is changed in turn.
func TestKeysTellShelvesApart(t *testing.T) {
	s := nosed()
	s.Back = plate.Edge{Hold: plate.Supported, Strips: []plate.Strip{s.Front.Strips[0], {Width: 1}}}
	keys := map[string]string{s.Key(): "the shelf as it is"}
	n := 0
	var each func(v reflect.Value, at string)
	each = func(v reflect.Value, at string) {
		switch v.Kind() {
		case reflect.Struct:
			for i := range v.NumField() {
				each(v.Field(i), at+"."+v.Type().Field(i).Name)
			}
		case reflect.Slice:
			for i := range v.Len() {
				each(v.Index(i), fmt.Sprint(at, i))
			}
			was := reflect.ValueOf(v.Interface())
			v.Set(was.Slice(0, v.Len()-1))
			tell(t, keys, s.Key(), at+" less")
			v.Set(was)
		case reflect.Float64:
			n++
			was := v.Float()
			v.SetFloat(math.Nextafter(was, 1e9))
			tell(t, keys, s.Key(), at)
			v.SetFloat(was)
		case reflect.Int:
			n++
			was := v.Int()
			v.SetInt(was + 7)
			tell(t, keys, s.Key(), at)
			v.SetInt(was)
		default:
			t.Fatalf("%s is of a kind that nobody changes", at)
		}
	}
	each(reflect.ValueOf(&s).Elem(), "")
	if n < 7+2+3*6+5 || keys[s.Key()] != "the shelf as it is" {
		t.Errorf("%d numbers were changed", n)
	}
}

func tell(t *testing.T, keys map[string]string, key, what string) {
	t.Helper()
	if other, ok := keys[key]; ok {
		t.Errorf("%s is not told from %s", what, other)
	}
	keys[key] = what
}
