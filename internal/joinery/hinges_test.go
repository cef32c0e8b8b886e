package joinery_test

import (
	"testing"

	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/mass"
)

// Common practice from hinge makers' charts, no published standard: 40, 60, 80 and 100 in and 15,
// 30, 45 and 60 lb for two to five hinges, and the metric ones where they are less.
func TestHingeCount(t *testing.T) {
	const mm, in = length.MM, length.Inch
	for _, c := range []struct {
		h, w length.Length
		kg   int64
		n    int
	}{
		{2000 * mm, 600 * mm, 14, 4}, {720 * mm, 600 * mm, 5, 2}, {720 * mm, 600 * mm, 13, 4}, {720 * mm, 640 * mm, 5, 3},
		{39 * in, 500 * mm, 5, 2}, {41 * in, 500 * mm, 5, 3}, {59 * in, 500 * mm, 5, 3}, {61 * in, 500 * mm, 5, 4}, {81 * in, 500 * mm, 5, 5},
		{720 * mm, 500 * mm, 23, 5}, {720 * mm, 500 * mm, 30, 6},
	} {
		n := joinery.HingeCount(c.h, c.w, mass.Mass(c.kg)*mass.Kilogram)
		if n != c.n {
			t.Errorf("%+v: %d hinges", c, n)
		}
		if h, m := joinery.HingesCarry(n, c.w); n < 6 && (h < c.h || m < mass.Mass(c.kg)*mass.Kilogram) {
			t.Errorf("%d hinges carry %v and %v, not %+v", n, h, m, c)
		}
	}
}
