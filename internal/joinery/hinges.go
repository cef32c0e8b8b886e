package joinery

import (
	"stowright/internal/length"
	"stowright/internal/mass"
)

// DoorMost is the widest leaf that cup hinges carry without one more (hinge makers' guides).
const DoorMost = 600 * length.MM

// charts are, from two hinges up, the tallest and the heaviest door: the lesser of the charts that
// are printed in inches and pounds (40, 60, 80, 100 in; 15, 30, 45, 60 lb) and of those in metres
// and kilograms.
var charts = [...]struct {
	high L
	hung mass.Mass
}{
	{1000 * length.MM, 6 * mass.Kilogram},
	{60 * length.Inch, 12 * mass.Kilogram},
	{2000 * length.MM, 18 * mass.Kilogram},
	{2400 * length.MM, 23 * mass.Kilogram},
}

// HingesCarry gives the tallest door of a width, and the heaviest with all that hangs on it, that n
// cup hinges are enough for; a leaf wider than DoorMost needs one hinge more than its height and
// weight ask for. Nothing for fewer than two, and no more for six than for five.
func HingesCarry(n int, width L) (high L, hung mass.Mass) {
	if width > DoorMost {
		n--
	}
	if n < 2 {
		return 0, 0
	}
	c := charts[min(n, len(charts)+1)-2]
	return c.high, c.hung
}

// HingeCount gives how many hinges a door needs: by its height and by all the weight that hangs on
// it, whichever is more. What is beyond the charts gets one more than they end with.
func HingeCount(height, width L, hung mass.Mass) int {
	n := 2
	for ; n <= len(charts)+1; n++ {
		if h, m := HingesCarry(n, width); height <= h && hung <= m {
			break
		}
	}
	return n
}
