package packet

import (
	"testing"

	"stowright/internal/length"
)

// A rule in words is printed only of a size that changes evenly: with it, and the planned size, come both of the sizes beside it.
func TestRuleIsOfEvenSizes(t *testing.T) {
	const mm = length.MM
	for _, x := range []struct {
		thin, plan, thick L
		want              string
	}{
		{565 * mm, 564 * mm, 563 * mm, "less 2"},
		{199 * mm, 200 * mm, 201 * mm, "more 2"},
		{5645 * mm / 10, 564 * mm, 5635 * mm / 10, "less 1"},
		{565 * mm, 56425 * mm / 100, 5635 * mm / 10, "less 1 1/2"},
		{5652 * mm / 10, 56495 * mm / 100, 5647 * mm / 10, "less 1/2"},
		{565135 * mm / 1000, 564 * mm, 562865 * mm / 1000, asShown}, // a rack that swings
		{4572 * mm / 10, 4572 * mm / 10, 4318 * mm / 10, inSteps},   // a row of holes less
		{4875 * mm / 10, 487 * mm, 486 * mm, inSteps},
	} {
		if got := rule(x.thin-x.plan, x.plan-x.thick, mm/2); got != x.want {
			t.Errorf("%v, %v, %v: %q, want %q", x.thin, x.plan, x.thick, got, x.want)
		}
	}
}
