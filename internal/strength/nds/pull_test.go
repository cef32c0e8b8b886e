package nds_test

import (
	"math"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"stowright/internal/strength/nds"
	"stowright/internal/strength/unit"
)

func itoa(n int) string     { return strconv.Itoa(n) }
func ftoa(f float64) string { return strconv.FormatFloat(f, 'g', -1, 64) }

// NDS 2018 tables 12.2A (lag), 12.2B (wood screw), 12.2C (nail): pounds per
// inch, printed to 1.
func TestWithdrawalTables(t *testing.T) {
	for _, c := range []struct {
		cell   string
		f      nds.Fastener
		g      float64
		perIn  float64
		memory bool
	}{
		{"12.2B No. 10", screw(t, 10), 0.50, 135, false},
		{"12.2C 0.131", nail(t, "8d common"), 0.50, 32, false},
		{"12.2A 1/4", lag(t, "1/4"), 0.50, 225, false},
		{"12.2A 3/8", lag(t, "3/8"), 0.42, 235, false},
		{"12.2A 1/2", lag(t, "1/2"), 0.55, 437, false},
		{"12.2A 1-1/4", lag(t, "1-1/4"), 0.73, 1327, false},
		{"12.2A 5/16 (from memory)", lag(t, "5/16"), 0.50, 266, true},
		{"12.2A 3/8 (from memory)", lag(t, "3/8"), 0.50, 305, true},
		{"12.2A 3/4 (from memory)", lag(t, "3/4"), 0.50, 513, true},
		{"12.2A 1 (from memory)", lag(t, "1"), 0.50, 636, true},
	} {
		w, known := c.f.Withdrawal(c.g)
		if !known {
			t.Fatalf("%s: no withdrawal value", c.cell)
		}
		pounds(t, "NDS 2018 table "+c.cell+" per inch", w*unit.Inch, c.perIn, 1)
	}
}

// Whole rows of the same tables, from memory: 12.2A by species, 12.2B and 12.2C at G 0.50.
func TestWithdrawalRowsFromMemory(t *testing.T) {
	species := []float64{0.73, 0.67, 0.58, 0.55, 0.50}
	for size, row := range map[string][]float64{
		"1/4": {397, 349, 281, 260, 225}, "5/16": {469, 413, 332, 307, 266}, "3/8": {538, 473, 381, 352, 305}, "7/16": {604, 531, 428, 395, 342},
	} {
		for i, g := range species {
			w, _ := lag(t, size).Withdrawal(g)
			pounds(t, "table 12.2A "+size+" at G "+ftoa(g), w*unit.Inch, row[i], 1)
		}
	}
	for n, want := range map[int]float64{6: 98, 7: 108, 8: 117, 9: 126, 10: 135, 12: 154, 14: 172, 16: 191, 18: 209, 20: 228, 24: 265} {
		w, _ := screw(t, n).Withdrawal(0.50)
		pounds(t, "table 12.2B No. "+itoa(n), w*unit.Inch, want, 1)
	}
	for name, want := range map[string]float64{"6d common": 28, "8d common": 32, "10d common": 36, "16d common": 40, "20d common": 47} {
		w, _ := nail(t, name).Withdrawal(0.50)
		pounds(t, "table 12.2C "+name, w*unit.Inch, want, 1)
	}
}

// AWC's solved examples E2.1a and E2.3 (inputs as published; the products
// follow from table 12.2), and a wall rail's screw in a stud.
func TestWithdrawalWorked(t *testing.T) {
	w, _ := nail(t, "8d common").Withdrawal(0.42)
	pounds(t, "E2.1a nail 0.131 x 2.5 through a strap", w*2.395*unit.Inch, 49.50, 0.02)
	w, _ = lag(t, "1/2").Withdrawal(0.55)
	pounds(t, "E2.3 lag 1/2 x 4", w*2.1875*unit.Inch, 955.0, 0.2)
	w, _ = screw(t, 10).Withdrawal(0.42)
	pounds(t, "No. 10, 1.5 in in spruce-pine-fir", w*1.5*unit.Inch, 143.3, 0.1)
	if _, known := nds.FullBolt(12).Withdrawal(0.5); known {
		t.Error("a bolt has no withdrawal value")
	}
	if _, allowed := screw(t, 10).EndGrain(); allowed {
		t.Error("NDS 2018 12.2.2 allows no wood screw in withdrawal from end grain")
	}
}

// NDS 2018 table 12.2F, and the continuity of its two branches.
func TestPullThrough(t *testing.T) {
	pounds(t, "table 12.2F head 0.234, side 5/16", nds.PullThrough(0.234*unit.Inch, 5./16*unit.Inch, 0.5), 40, 1)
	h := 0.363
	thick := nds.PullThrough(h*unit.Inch, 2*unit.Inch, 0.42) / unit.PoundForce
	if want := 1725 * math.Pi * h * h * 0.42 * 0.42; math.Abs(thick-want) > 1e-6 {
		t.Errorf("thick side member: %g lb, 1,725 π DH² G² is %g", thick, want)
	}
}

// NDS 2018 12.4 with equal values: a nail's limit is V = T = 50 where Z = Wp =
// 100, a screw's 70.71. The other angles are the equation by hand.
func TestCombined(t *testing.T) {
	ten, common := screw(t, 10), nail(t, "16d common")
	if r := common.Ratio(50, 50, 100, 100); math.Abs(r-1) > 1e-12 {
		t.Errorf("nail at 50 and 50 of 100: ratio %g", r)
	}
	if r := ten.Ratio(70.71, 70.71, 100, 100); math.Abs(r-1) > 1e-4 {
		t.Errorf("screw at 70.71 and 70.71 of 100: ratio %g", r)
	}
	for angle, want := range map[float64]float64{0: 106.55, 30: 112.54, 45: 119.25, 60: 126.80, 90: 135.38} {
		if got := ten.Combined(106.55, 135.38, angle); math.Abs(got-want) > 0.006 {
			t.Errorf("screw at %g degrees: %.3f, by hand %.2f", angle, got, want)
		}
	}
	if r := ten.Ratio(0, 0, 100, 100); r != 0 {
		t.Errorf("no load: ratio %g", r)
	}
}

func TestFastenerTables(t *testing.T) {
	// Wood Handbook table 8-9, shank by gauge in mm.
	for n, mm := range map[int]float64{6: 3.51, 7: 3.84, 8: 4.17, 9: 4.50, 10: 4.83, 12: 5.49, 14: 6.15, 16: 6.81, 18: 7.47, 20: 8.13, 24: 9.45} {
		if f := screw(t, n); math.Abs(f.D-mm) > 0.011 {
			t.Errorf("No. %d: shank %.3f mm, Wood Handbook %g", n, f.D, mm)
		}
	}
	// NDS 2018, bending yield by diameter, psi.
	for d, psi := range map[float64]float64{0.099: 100e3, 0.142: 100e3, 0.148: 90e3, 0.177: 90e3, 0.19: 80e3, 0.236: 80e3, 0.242: 70e3, 0.273: 70e3, 0.3125: 60e3, 0.344: 60e3, 0.375: 45e3, 0.5: 45e3} {
		got, known := nds.BendingYield(d * unit.Inch)
		if !known || math.Abs(got/unit.PSI-psi) > 1e-6 {
			t.Errorf("Fyb at %g in: %g psi, want %g", d, got/unit.PSI, psi)
		}
	}
	if _, known := nds.BendingYield(0.08 * unit.Inch); known {
		t.Error("Fyb below 0.099 in is not known")
	}
	if _, ok := nds.Screw(11); ok {
		t.Error("NDS has no No. 11 screw")
	}
}

func TestPenetrationAndDistances(t *testing.T) {
	ten, quarter := screw(t, 10), lag(t, "1/4")
	if got := ten.LeastPenetration() / unit.Inch; math.Abs(got-1.14) > 1e-9 {
		t.Errorf("No. 10: least penetration %g in, 6D is 1.14", got)
	}
	if f, ok := ten.PenetrationFactor(1.52 * unit.Inch); !ok || math.Abs(f-0.8) > 1e-9 {
		t.Errorf("No. 10 at 8D: factor %g %v, p/10D is 0.8", f, ok)
	}
	if f, ok := quarter.PenetrationFactor(1 * unit.Inch); !ok || math.Abs(f-0.5) > 1e-9 {
		t.Errorf("1/4 lag at 4D: factor %g %v, p/8D is 0.5", f, ok)
	}
	if d := ten.Spacing(true, false); math.Abs(d.Edge-2.5*ten.D) > 1e-9 || math.Abs(d.EndToward-10*ten.D) > 1e-9 {
		t.Errorf("No. 10 bored: %+v", d)
	}
	if d := quarter.Spacing(true, false); math.Abs(d.EndToward-7*6.35) > 1e-9 || math.Abs(d.LoadedEdge-4*6.35) > 1e-9 {
		t.Errorf("1/4 lag: %+v", d)
	}
	if f, ok := quarter.Geometry(33.3375, 44.45, 22.225); !ok || math.Abs(f-0.75) > 1e-9 {
		t.Errorf("end distance three quarters of full: CΔ %g %v", f, ok)
	}
	if _, ok := quarter.Geometry(20, 44.45, 22.225); ok {
		t.Error("an end distance below half of full has no value")
	}
}

// Softer wood, a thinner side, a shorter reach, a smaller screw and a wider
// gap never raise a value.
func TestMonotone(t *testing.T) {
	sizes := []int{6, 7, 8, 9, 10, 12}
	rapid.Check(t, func(rt *rapid.T) {
		i := rapid.IntRange(0, len(sizes)-1).Draw(rt, "size")
		f := screw(t, sizes[i])
		j := nds.Joint{
			Fastener: f,
			Side:     nds.Member{G: rapid.Float64Range(0.31, 0.73).Draw(rt, "gs"), Bearing: rapid.Float64Range(2, 60).Draw(rt, "ls")},
			Main:     nds.Member{G: rapid.Float64Range(0.31, 0.73).Draw(rt, "gm"), Bearing: rapid.Float64Range(5, 90).Draw(rt, "lm")},
			Gap:      rapid.Float64Range(0, 30).Draw(rt, "gap"),
		}
		z := j.Lateral().Z
		worse := func(what string, change func(*nds.Joint)) {
			k := j
			change(&k)
			if got := k.Lateral().Z; got > z*(1+1e-12) {
				rt.Fatalf("%s raised Z from %g to %g N", what, z, got)
			}
		}
		less := rapid.Float64Range(0.5, 1).Draw(rt, "less")
		worse("softer side", func(k *nds.Joint) { k.Side.G *= less })
		worse("softer main", func(k *nds.Joint) { k.Main.G *= less })
		worse("thinner side", func(k *nds.Joint) { k.Side.Bearing *= less })
		worse("shorter reach", func(k *nds.Joint) { k.Main.Bearing *= less })
		worse("wider gap", func(k *nds.Joint) { k.Gap += 10 * (1 - less) })
		w, _ := f.Withdrawal(j.Main.G)
		softer, _ := f.Withdrawal(j.Main.G * less)
		if softer > w {
			rt.Fatalf("softer wood raised withdrawal from %g to %g", w, softer)
		}
		if nds.PullThrough(f.Head, j.Side.Bearing*less, j.Side.G) > nds.PullThrough(f.Head, j.Side.Bearing, j.Side.G) {
			rt.Fatal("thinner side raised pull-through")
		}
		v, pull := rapid.Float64Range(0, 500).Draw(rt, "v"), rapid.Float64Range(0, 500).Draw(rt, "t")
		if f.Ratio(v, pull, z*less, w*20) < f.Ratio(v, pull, z, w*20)-1e-12 {
			rt.Fatal("a weaker shear value lowered the ratio")
		}
		if f.Ratio(v*less, pull, z, w*20) > f.Ratio(v, pull, z, w*20)+1e-12 || f.Ratio(v, pull*less, z, w*20) > f.Ratio(v, pull, z, w*20)+1e-12 {
			rt.Fatal("less load raised the ratio")
		}
	})
}
