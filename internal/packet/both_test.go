package packet_test

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/draw/drawtest"
	"stowright/internal/length"
	"stowright/internal/pages"
	"stowright/internal/plan/plantest"
)

// On paper in both units every size in brackets is the one before it, within what its tape can
// show (1/64 in, and 1/32 more for a piece that a chain's rounding moved; the inch is 25.4 mm:
// international yard and pound agreement, 1959), there are many of them in dimensions and in
// tables, and nothing lies over anything.
func TestBothUnits(t *testing.T) {
	r := plantest.Result(t, "one-case")
	r.Job.Both = true
	pair := regexp.MustCompile(`^(\d+(?: \d+/\d+)?|\d+/\d+)("?) \((\d+(?:\.\d)?)\)$`)
	doc := pages.Of(r, draw.Letter(), "", "")
	dims, cells := 0, 0
	for i := range doc.Pages {
		s := &doc.Pages[i]
		for _, f := range drawtest.Strikes(s) {
			t.Errorf("sheet %d: %s", i+1, f)
		}
		for _, it := range s.Items {
			x, ok := it.(*draw.Text)
			if !ok {
				continue
			}
			m := pair.FindStringSubmatch(x.Text)
			if m == nil {
				continue
			}
			in, err := length.Parse(m[1]+" in", length.Inches)
			if err != nil {
				t.Fatal(err)
			}
			mm, _ := strconv.ParseFloat(m[3], 64)
			if off := math.Abs(float64(in)/float64(length.MM) - mm); off > 25.4*3/64+0.06 {
				t.Errorf("sheet %d: %q: %.2f mm apart", i+1, x.Text, off)
			}
			if m[2] != "" {
				dims++
			} else {
				cells++
			}
		}
	}
	if dims < 20 || cells < 10 {
		t.Errorf("%d dimensions and %d cells have both units", dims, cells)
	}
	if f := doc.Faults(); len(f) > 0 {
		t.Error(strings.Join(f, "; "))
	}
}
