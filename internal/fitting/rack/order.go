package rack

import (
	"cmp"

	"stowright/internal/order"
)

// sortPoints puts places from left to right, then from the front.
func sortPoints(at []Point) {
	order.Stable(at, func(a, b Point) int { return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y)) })
}

// byRow puts places from the front, then from left to right.
func byRow(at []Point) []Point {
	order.Stable(at, func(a, b Point) int { return cmp.Or(cmp.Compare(a.Y, b.Y), cmp.Compare(a.X, b.X)) })
	return at
}
