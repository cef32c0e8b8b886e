package lift_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"stowright/internal/strength/lift"
)

// DHHS (NIOSH) 94-110, table 5: every cell, V below 30 in / V of 30 in and more where they differ, and
// a row beyond its last. Read in a transcription.
const table5 = `
0.2  1.00      .95       .85
0.5  .97       .92       .81
1    .94       .88       .75
2    .91       .84       .65
3    .88       .79       .55
4    .84       .72       .45
5    .80       .60       .35
6    .75       .50       .27
7    .70       .42       .22
8    .60       .35       .18
9    .52       .30       .00/.15
10   .45       .26       .00/.13
11   .41       .00/.23   .00
12   .37       .00/.21   .00
13   .00/.34   .00       .00
14   .00/.31   .00       .00
15   .00/.28   .00       .00
15.5 .00       .00       .00
`

func TestTable5(t *testing.T) {
	last := [3][2]float64{}
	at := 0.0
	for _, line := range strings.Split(strings.TrimSpace(table5), "\n") {
		row := strings.Fields(line)
		f, _ := strconv.ParseFloat(row[0], 64)
		for w, cell := range row[1:] {
			low, high, two := strings.Cut(cell, "/")
			if !two {
				high = low
			}
			for k, c := range []string{low, high} {
				want, _ := strconv.ParseFloat(c, 64)
				if got := lift.Frequency(f, k == 1, lift.Work(w)); math.Abs(got-want) > 1e-12 {
					t.Errorf("FM at %g a minute, duration %d, high %v: %g, table %g", f, w, k == 1, got, want)
				}
				// Straight lines between its rows, up to its last.
				if at > 0 && f <= 15 {
					if got := lift.Frequency((at+f)/2, k == 1, lift.Work(w)); math.Abs(got-(last[w][k]+want)/2) > 1e-12 {
						t.Errorf("FM half way to %g: %g", f, got)
					}
				}
				last[w][k] = want
			}
		}
		at = f
	}
	if got := lift.Frequency(0.01, true, lift.EightHoursOrLess); got != .85 {
		t.Errorf("fewer than 0.2 a minute: %g, as 0.2", got)
	}
}

// Tables 1 to 3 and 7 of the manual as its equations make them: the two sets of constants, each limit
// on both its sides. Printed cells that differ from the equations by rounding are HM .46 at 22 in
// (.45), .44 at 23 in (.43), DM .86 at 130 cm (.85).
func TestMultipliers(t *testing.T) {
	inch := func(h, v, a, to float64) lift.Multipliers {
		p := lift.Place{H: h * in, V: v * in, A: a}
		return lift.Lift{Origin: p, Destination: lift.Place{H: h * in, V: to * in}}.At(p)
	}
	cm := func(h, v, a, to float64) lift.Multipliers {
		p := lift.Place{H: h * 10, V: v * 10, A: a}
		return lift.Lift{Origin: p, Destination: lift.Place{H: h * 10, V: to * 10}, Metric: true}.At(p)
	}
	same := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-9 {
			t.Errorf("%s: %.6g, %.6g", what, got, want)
		}
	}
	same("LC in", inch(10, 30, 0, 30).LC, 51*pound)
	same("LC cm", cm(25, 75, 0, 75).LC, 23)
	for h, hm := range map[float64]float64{5: 1, 10: 1, 12: 10. / 12, 16: .625, 20: .5, 22: 10. / 22, 23: 10. / 23, 25: .4, 25.1: 0} {
		same("HM in", inch(h, 30, 0, 30).H, hm)
	}
	for h, hm := range map[float64]float64{20: 1, 25: 1, 40: .625, 50: .5, 63: 25. / 63, 63.1: 0} {
		same("HM cm", cm(h, 75, 0, 75).H, hm)
	}
	for v, vm := range map[float64]float64{0: .775, 15: .8875, 30: 1, 40: .925, 59: .7825, 70: .7, 70.1: 0} {
		same("VM in", inch(10, v, 0, v).V, vm)
	}
	for v, vm := range map[float64]float64{0: .775, 75: 1, 100: .925, 175: .7, 175.1: 0} {
		same("VM cm", cm(25, v, 0, v).V, vm)
	}
	for d, dm := range map[float64]float64{0: 1, 10: 1, 20: .91, 37: .82 + 1.8/37, 40: .865, 70: .82 + 1.8/70, 70.1: 0} {
		same("DM in", inch(10, 0, 0, d).D, dm)
	}
	for d, dm := range map[float64]float64{25: 1, 50: .91, 130: .82 + 4.5/130, 175: .82 + 4.5/175} {
		same("DM cm", cm(25, 0, 0, d).D, dm)
	}
	for a, am := range map[float64]float64{0: 1, 30: .904, 45: .856, 90: .712, 135: .568, 136: 0} {
		same("AM", inch(10, 30, a, 30).A, am)
	}
	for _, c := range []struct {
		grip      lift.Coupling
		low, high float64
	}{{lift.Good, 1, 1}, {lift.Fair, .95, 1}, {lift.Poor, .90, .90}} {
		same("CM below 30 in", lift.Grip(c.grip, false), c.low)
		same("CM from 30 in", lift.Grip(c.grip, true), c.high)
	}
	// H by the manual (page 8): 8 in + W/2 with the hands at 10 in or more, 10 in + W/2 below.
	same("H high", lift.Reach(12*in, 10*in), 14*in)
	same("H low", lift.Reach(12*in, 9.9*in), 16*in)
}
