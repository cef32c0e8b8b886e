package view

import (
	"slices"

	"stowright/internal/draw"
)

// Sizes of the mark of a datum corner, in mm on paper.
const (
	datumMost  = 3.2 // along either edge,
	datumLeast = 1.2 // and no less than can be seen in a black and white print
	datumAir   = 0.3 // from it to a working
	datumOff   = 0.5 // from the corner, where it stands outside
	datumOut   = 2.2 // its size there
)

// datumMark gives the filled triangle that marks the datum corner of a face, the place where both tapes are hooked: in the
// corner, no more than a third of the face's narrow side, and smaller where it would lie on a working; where that leaves too little, outside
// the corner, its point towards it. right and up say which way on paper the board lies from the corner: 1 or -1.
func datumMark(corner draw.Point, right, up float64, face draw.Rect, works []draw.Rect) [3]draw.Point {
	size := min(datumMost, min(face.W, face.H)/3)
	for _, w := range works {
		size = min(size, cornerRoom(corner, right, up, w)-2*datumAir)
	}
	if size < datumLeast {
		corner, size = corner.Add(draw.Pt(-right*datumOff, -up*datumOff)), -datumOut
	}
	return [3]draw.Point{corner, corner.Add(draw.Pt(right*size, 0)), corner.Add(draw.Pt(0, up*size))}
}

// cornerRoom is how large a triangle in a corner may be before it meets a rectangle.
func cornerRoom(corner draw.Point, right, up float64, r draw.Rect) float64 {
	least := func(a, b, at, way float64) float64 { return max(0, min((a-at)*way, (b-at)*way)) }
	return least(r.X, r.Right(), corner.X, right) + least(r.Y, r.Bottom(), corner.Y, up)
}

// boxOf is the rectangle around a triangle.
func boxOf(t [3]draw.Point) draw.Rect {
	x, y := min(t[0].X, t[1].X, t[2].X), min(t[0].Y, t[1].Y, t[2].Y)
	return draw.Rect{X: x, Y: y, W: max(t[0].X, t[1].X, t[2].X) - x, H: max(t[0].Y, t[1].Y, t[2].Y) - y}
}

// onMark tells whether a line from a to b meets a triangle.
func onMark(t [3]draw.Point, a, b draw.Point) bool {
	inside := boxOf(t).Has(draw.Rect{X: b.X, Y: b.Y}) || boxOf(t).Has(draw.Rect{X: a.X, Y: a.Y})
	return inside || slices.ContainsFunc([]int{0, 1, 2}, func(i int) bool { return draw.Cross(a, b, t[i], t[(i+1)%3]) })
}
