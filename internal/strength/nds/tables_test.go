package nds_test

import (
	"math"
	"testing"

	"stowright/internal/strength/nds"
	"stowright/internal/strength/unit"
)

// NDS 2018 table L3 (wood screws: shank, root, head, in) and table L2 (lag screws: root, tip), every
// row that was read; Wood Handbook table 8-9 has the shanks in mm.
func TestScrewSizes(t *testing.T) {
	for n, r := range map[int][3]float64{6: {.138, .113, .262}, 7: {.151, .122, .287}, 8: {.164, .131, .312}, 9: {.177, .142, .337}, 10: {.190, .152, .363}, 12: {.216, .171, .414}, 14: {.242, .196, .480}, 16: {.268, .209, .515}, 18: {.294, .232, .602}} {
		f := screw(t, n)
		for i, got := range []float64{f.D, f.Root, f.Head, f.Tip / 2} {
			if want := append(r[:], r[0])[i]; math.Abs(got/unit.Inch-want) > 1e-9 {
				t.Errorf("No. %d, column %d: %g in, table L3 %g", n, i, got/unit.Inch, want)
			}
		}
	}
	for size, r := range map[string][3]float64{"1/4": {.25, .173, 5. / 32}, "5/16": {.3125, .227, 3. / 16}, "3/8": {.375, .265, 7. / 32}, "7/16": {.4375, .328, 9. / 32}, "1/2": {.5, .371, 5. / 16}} {
		f := lag(t, size)
		for i, got := range []float64{f.D, f.Root, f.Tip} {
			if math.Abs(got/unit.Inch-r[i]) > 1e-9 {
				t.Errorf("lag %s, column %d: %g in, table L2 %g", size, i, got/unit.Inch, r[i])
			}
		}
	}
	// Wood Handbook table 8-9: the rows that NDS has no screw for follow 0.060 + 0.013 N too.
	for n, mm := range map[int]float64{4: 2.84, 5: 3.18, 6: 3.51, 7: 3.84, 8: 4.17, 9: 4.50, 10: 4.83, 11: 5.16, 12: 5.49, 14: 6.15, 16: 6.81, 18: 7.47, 20: 8.13, 24: 9.45} {
		if got := (0.060 + 0.013*float64(n)) * 25.4; math.Abs(got-mm) > 0.011 {
			t.Errorf("No. %d: %.3f mm by the rule, table 8-9 %g", n, got, mm)
		}
		if f, ok := nds.Screw(n); ok && math.Abs(f.D-mm) > 0.011 {
			t.Errorf("No. %d: %.3f mm, table 8-9 %g", n, f.D, mm)
		}
	}
	// Common nails, table L4 and Wood Handbook table 8-1: D and length in inches, D in mm.
	for name, r := range map[string][3]float64{"6d common": {.113, 2, 2.87}, "8d common": {.131, 2.5, 3.33}, "10d common": {.148, 3, 3.76}, "16d common": {.162, 3.5, 4.11}, "20d common": {.192, 4, 4.88}} {
		f, long, _ := nds.NailSize(name)
		if math.Abs(f.D/25.4-r[0]) > 1e-9 || math.Abs(long/25.4-r[1]) > 1e-9 || math.Abs(f.D-r[2]) > 0.006 {
			t.Errorf("%s: %g x %g in, printed %v", name, f.D/25.4, long/25.4, r)
		}
	}
}

// NDS 2018 tables 12.3.1B (reduction), 2.3.2 (duration), 11.3.3 (wet service), 12.5.2 (end grain,
// toe-nails), and the bearing strength of steel side plates, as printed.
func TestFactors(t *testing.T) {
	for name, c := range map[string][2]float64{
		"permanent": {float64(nds.Permanent), 0.9}, "ten years": {float64(nds.TenYears), 1.0}, "two months": {float64(nds.TwoMonths), 1.15}, "seven days": {float64(nds.SevenDays), 1.25}, "ten minutes": {float64(nds.TenMinutes), 1.6},
		"wet, lateral": {nds.WetLateral, 0.7}, "wet, withdrawal": {nds.WetWithdrawal, 0.7}, "end grain": {nds.EndGrainLateral, 0.67}, "toe-nail": {nds.ToeNailLateral, 0.83}, "toe-nail, withdrawal": {nds.ToeNailWithdrawal, 0.67},
		"A653 grade 33": {nds.SteelSheet / unit.PSI, 61_850}, "A36 1/4 in": {nds.SteelPlate / unit.PSI, 87_000},
	} {
		if math.Abs(c[0]-c[1]) > 1e-9*c[1] {
			t.Errorf("%s: %g, printed %g", name, c[0], c[1])
		}
	}
	// KD: 2.2 up to 0.17 in, 10 D + 0.5 to 0.25 in, by what mode Im comes to: D lm Fem / Rd.
	for n, kd := range map[int]float64{10: 2.2, 12: 10*0.171 + 0.5, 14: 10*0.196 + 0.5} {
		f := screw(t, n)
		got := nds.Joint{Fastener: f, Side: nds.Member{G: 0.5, Bearing: 12}, Main: nds.Member{G: 0.5, Bearing: 30}}.Lateral()
		if want := f.Root * 30 * got.FeMain / kd; math.Abs(got.Modes[nds.ModeIm]-want) > 1e-9*want {
			t.Errorf("No. %d: Im %g N, with KD %g it is %g", n, got.Modes[nds.ModeIm], kd, want)
		}
	}
	if f, ok := lag(t, "1/4").EndGrain(); !ok || f != 0.75 {
		t.Errorf("lag screw from end grain: %g %v, 12.2.1.4 says 0.75", f, ok)
	}
	for _, f := range []nds.Fastener{screw(t, 10), nail(t, "8d common")} {
		if _, ok := f.EndGrain(); ok {
			t.Errorf("%s is not pulled from end grain", f.Name)
		}
	}
}

// The advice of the NDS 2018 commentary below 1/4 in (C12.1: not bored, bored), and tables 12.5.1A to C
// from 1/4 in, in diameters.
func TestDistances(t *testing.T) {
	eight, half := screw(t, 8), nds.FullBolt(12.7)
	for _, c := range []struct {
		what string
		d    nds.Distances
		dia  float64
		want [3]float64 // edge, end away from, end towards
	}{
		{"No. 8, not bored", eight.Spacing(false, false), eight.D, [3]float64{2.5, 10, 15}},
		{"No. 8, bored", eight.Spacing(true, false), eight.D, [3]float64{2.5, 5, 10}},
		{"1/2 bolt, softwood", half.Spacing(true, false), 12.7, [3]float64{1.5, 4, 7}},
		{"1/2 bolt, hardwood", half.Spacing(true, true), 12.7, [3]float64{1.5, 4, 5}},
	} {
		for i, got := range []float64{c.d.Edge, c.d.EndAway, c.d.EndToward} {
			if math.Abs(got/c.dia-c.want[i]) > 1e-9 {
				t.Errorf("%s, column %d: %g diameters, %g", c.what, i, got/c.dia, c.want[i])
			}
		}
	}
	if d := half.Spacing(true, false).LoadedEdge / 12.7; math.Abs(d-4) > 1e-9 {
		t.Errorf("loaded edge of a bolt: %g diameters, 4", d)
	}
}

// NDS 2018 table 12.2F, cells read in a public fixture of another engine: head, net side thickness, G, printed lb.
// The last two are past 2.5 heads, where the thickness no longer counts.
func TestPullThroughCells(t *testing.T) {
	for _, c := range [][4]float64{{0.234, 5. / 16, 0.50, 40}, {0.312, 1, 0.50, 132}, {0.500, 1.5, 0.42, 239}} {
		if got := nds.PullThrough(c[0]*unit.Inch, c[1]*unit.Inch, c[2]) / unit.PoundForce; math.Abs(got-c[3]) > 0.5 {
			t.Errorf("head %g, %g in of G %g: %.2f lb, printed %g", c[0], c[1], c[2], got, c[3])
		}
	}
}

// Table 12.3.1B, note 1, and the clause on penetration, by what another engine's reading of the printed
// specification gives: a 1/4 in lag has its reduction from its root, 10 × 0.173 + 0.5 = 2.23, × 1.25 across the
// grain, and the printed cells of 12J are 120 and 80; and no screw has a value at 6 D less a hair (12.1.5.6), a
// lag at 4 D without its tip (12.1.4.6).
func TestRootsAndLimitsAtTheirEdges(t *testing.T) {
	l := lag(t, "1/4")
	along := tabulated(l, 0.5, 0.5, 0, 0, 0).Lateral()
	across := tabulated(l, 0.5, 0.5, 0, 90, 90).Lateral()
	if got := along.Z / unit.PoundForce; math.Abs(got-119.1) > 0.06 {
		t.Errorf("along: %.2f lb, 119.1", got)
	}
	if got := across.Z / unit.PoundForce; math.Abs(got-82.4) > 0.2 {
		t.Errorf("across: %.2f lb, 82.4", got)
	}
	for _, f := range []nds.Fastener{screw(t, 6), screw(t, 10), screw(t, 14), l} {
		least := 6 * f.D
		if f.Kind == nds.LagScrew {
			least = 4 * f.D
		}
		if _, ok := f.PenetrationFactor(least * 1.0001); !ok {
			t.Errorf("%s at its least penetration has no value", f.Name)
		}
		if _, ok := f.PenetrationFactor(least * 0.999); ok {
			t.Errorf("%s below its least penetration has a value", f.Name)
		}
	}
}

// The same equations over tables of this shape whose printed cells were not seen: No. 10 in 3/4 in of
// G 0.50 is 106.55 lb by hand (IIIs), which the table would print as 107; head pull-through by its
// formula over the head sizes and thicknesses of table 12.2F.
func TestCellsByHand(t *testing.T) {
	j := tabulated(screw(t, 10), 0.75, 0.5, 0, 0, 0).Lateral()
	if lb := j.Z / unit.PoundForce; math.Abs(lb-106.55) > 0.006 || j.Mode != nds.ModeIIIs {
		t.Errorf("No. 10, 3/4 in: %.2f lb by %v, by hand 106.55 by IIIs", lb, j.Mode)
	}
	for _, h := range []float64{0.234, 0.262, 0.312, 0.363, 0.414} {
		for _, ts := range []float64{5. / 16, 3. / 8, 1. / 2, 3. / 4, 1.5} {
			for _, g := range []float64{0.36, 0.42, 0.50, 0.67} {
				want := 690 * math.Pi * h * g * g * ts
				if ts > 2.5*h {
					want = 1725 * math.Pi * h * h * g * g
				}
				if got := nds.PullThrough(h*25.4, ts*25.4, g) / unit.PoundForce; math.Abs(got-want) > 1e-6 {
					t.Errorf("head %g, side %g, G %g: %g lb, 12.2.5 %g", h, ts, g, got, want)
				}
			}
		}
	}
}
