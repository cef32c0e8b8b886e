package nds_test

import (
	"math"
	"testing"

	"stowright/internal/strength/nds"
	"stowright/internal/strength/unit"
)

// Wood Handbook (FPL-GTR-190/282) table 8-4, every cell at both ends of its range of specific
// gravity, and beyond them (read in a transcription that cites the page).
func TestTable84(t *testing.T) {
	for _, c := range []struct {
		hard   bool
		lo, hi float64
		want   Group
	}{
		{true, 0.33, 0.47, Group{Nail: 50.04, Screw: 23.17, Lag: 26.34}},
		{true, 0.48, 0.56, Group{Nail: 69.50, Screw: 31.99, Lag: 29.51}},
		{true, 0.57, 0.74, Group{Nail: 94.52, Screw: 44.13, Lag: 34.13}},
		{false, 0.29, 0.42, Group{Nail: 50.04, Screw: 23.17, Lag: 23.30}},
		{false, 0.43, 0.47, Group{Nail: 62.55, Screw: 29.79, Lag: 26.34}},
		{false, 0.48, 0.52, Group{Nail: 76.45, Screw: 36.40, Lag: 29.51}},
	} {
		for _, g := range []float64{c.lo, (c.lo + c.hi) / 2, c.hi} {
			if got, ok := Lateral(g, c.hard); !ok || got != c.want {
				t.Errorf("G %.3f, hardwood %v: %v %v, table %v", g, c.hard, got, ok, c.want)
			}
		}
	}
	for g, hard := range map[float64]bool{0.32: true, 0.75: true, 0.28: false, 0.53: false} {
		if _, ok := Lateral(g, hard); ok {
			t.Errorf("G %g, hardwood %v lies outside the table", g, hard)
		}
	}
}

// Tables 8-10 (lag screws, side member's thickness over diameter; read) and 8-11 (load across the
// grain by diameter in mm; the last three rows from a transcription), every row, and half way
// between rows.
func TestTables810And811(t *testing.T) {
	side := [][2]float64{{2, 0.62}, {2.5, 0.77}, {3, 0.93}, {3.5, 1.00}, {4, 1.07}, {4.5, 1.13}, {5, 1.18}, {5.5, 1.21}, {6, 1.22}, {6.5, 1.22}}
	across := [][2]float64{{4.8, 1.00}, {6.4, 0.97}, {7.9, 0.85}, {9.5, 0.76}, {11.1, 0.70}, {12.7, 0.65}, {15.9, 0.60}, {19.0, 0.55}, {22.2, 0.52}, {25.4, 0.50}}
	rows := func(name string, f func(float64) (float64, bool), rows [][2]float64) {
		for i, r := range rows {
			if got, ok := f(r[0]); !ok || got != r[1] {
				t.Errorf("table %s at %g: %g %v, printed %g", name, r[0], got, ok, r[1])
			}
			if i > 0 {
				x, y := (r[0]+rows[i-1][0])/2, (r[1]+rows[i-1][1])/2
				if got, ok := f(x); !ok || math.Abs(got-y) > 1e-9 {
					t.Errorf("table %s at %g: %g, between its rows %g", name, x, got, y)
				}
			}
		}
	}
	rows("8-10", LagSide, side)
	rows("8-11", LagAcross, across)
	for _, d := range []float64{4.7, 25.5} {
		if _, ok := LagAcross(d); ok {
			t.Errorf("%g mm lies outside table 8-11", d)
		}
	}
}

// Equations 8-1, 8-2a, 8-9, 8-10, 8-14 with the constants as printed in N and mm, and the inch twins
// that convert to them (15,700 and 8,100 from memory).
func TestWithdrawalConstants(t *testing.T) {
	const g, d, l = 0.48, 4.83, 25.0
	for name, c := range map[string][2]float64{
		"wood screw 8-10": {WoodScrew(g, d, l), 108.25 * g * g * d * l},
		"lag screw 8-14":  {LagScrew(g, d, l), 125.4 * math.Sqrt(g*g*g) * math.Sqrt(math.Sqrt(d*d*d)) * l},
		"common nail 8-1": {SmoothNail(g, d, l), 54.12 * g * g * math.Sqrt(g) * d * l},
		"ring nail 8-2a":  {RingNail(g, d, l), 77.57 * g * g * d * l},
		"drift bolt 8-9":  {DriftBolt(g, d, l), 45.51 * g * g * d * l},
	} {
		if math.Abs(c[0]-c[1]) > 1e-9*c[1] {
			t.Errorf("%s: %g, %g", name, c[0], c[1])
		}
	}
	psi := 1 / unit.PSI
	near(t, "15,700 psi", 108.25*psi, 15_700, 1e-4)
	near(t, "8,100 lb, in", 125.4*math.Pow(25.4, 1.75)/unit.PoundForce, 8_100, 3e-4)
	near(t, "7,850 psi", 54.12*psi, 7_850, 2e-4)
}

// Equation 8-16 half way, and the twist of a round bar (page 9-5): 10 N·m on 500 mm of 25 mm, G 700
// MPa: 10,000 × 500 / (700 × π × 25⁴ / 32) = 0.1863.
func TestHankinsonAndTwist(t *testing.T) {
	near(t, "Hankinson at 45 degrees", Hankinson(40, 20, 45), 2*40*20/(40.+20), 1e-12)
	near(t, "Hankinson at 30 degrees", Hankinson(40, 20, 30), 40*20/(40*0.25+20*0.75), 1e-12)
	near(t, "twist", TwistRound(10_000, 500, 700, 25), 0.1863, 1e-3)
	// The older allowable form, 2,850 G² D, printed without its decimals: G 0.45, No. 10, 109 lb/in
	// (Civil Engineering Formulas).
	f, _ := nds.Screw(10)
	w, _ := f.Withdrawal(0.45)
	near(t, "109 lb/in", math.Floor(w/unit.PoundPerInch), 109, 0)
}
