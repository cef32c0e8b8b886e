package plate_test

import (
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"stowright/internal/strength/plate"
)

// Bottoms of eight shapes of four materials against finite differences (testdata/cells.csv).
func TestPlatesOfAnotherProgram(t *testing.T) {
	b, err := os.ReadFile("testdata/cells.csv")
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, line := range strings.Split(strings.TrimSpace(string(b)), "\n") {
		if strings.HasPrefix(line, "#") {
			continue
		}
		var v [7]float64
		for i, w := range strings.Split(line, ",") {
			if v[i], err = strconv.ParseFloat(w, 64); err != nil {
				t.Fatal(line, err)
			}
		}
		r := plate.Uniform(plate.Board{T: 6, Ex: v[2], Ey: v[3], G: v[4], Nu: v[5]}, v[0], v[1], 0.001)
		if got := r.At(v[0]/2, v[1]/2).Sag; math.Abs(got/v[6]-1) > 0.005 {
			t.Errorf("%s: %.5f", line, got)
		}
		n++
	}
	if n != 32 {
		t.Errorf("%d plates", n)
	}
}
