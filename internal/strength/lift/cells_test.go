package lift_test

import (
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"stowright/internal/strength/lift"
)

// 600 lifts with every multiplier, in both sets of constants, against a program that shares no code with this one.
func TestLiftsOfAnotherProgram(t *testing.T) {
	b, err := os.ReadFile("testdata/cells.csv")
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, line := range strings.Split(strings.TrimSpace(string(b)), "\n") {
		if strings.HasPrefix(line, "#") {
			continue
		}
		var v [9]float64
		for i, w := range strings.Split(line, ",") {
			if v[i], err = strconv.ParseFloat(w, 64); err != nil {
				t.Fatal(line, err)
			}
		}
		size, weight := float64(in), float64(pound)
		if v[0] == 1 {
			size, weight = 10, 1
		}
		l := lift.Lift{Origin: lift.Place{H: v[1] * size, V: v[2] * size, A: v[4]}, Destination: lift.Place{H: v[1] * size, V: (v[2] - v[3]) * size},
			PerMinute: v[5], Work: lift.Work(v[6]), Coupling: lift.Coupling(v[7]), Metric: v[0] == 1}
		if got := l.RWL() / weight; math.Abs(got-v[8]) > 1e-4 {
			t.Errorf("%s: %.5f", line, got)
		}
		if v[8] > 0 {
			n++
		}
	}
	if n < 300 {
		t.Errorf("%d lifts are allowed at all", n)
	}
}
