package view_test

import (
	"testing"

	"stowright/internal/draw"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/view"
)

// A face is drawn as it is seen, never as its mirror image: three holes in a row from the start
// corner along the board and then across it turn the same way on paper as they do for somebody
// who looks at that face (right-hand rule: u, v, w). Of a board that is higher than wide the near edge is below on
// either face.
func TestFacesAreNotMirrored(t *testing.T) {
	const mm = length.MM
	for k := range 4 {
		f, l, w := part.Face(k%2), 400*mm, 200*mm
		high := k > 1
		if high {
			l, w = w, l
		}
		p := part.New("side", part.Side, "side", "ply", geom.B(0, 0, 0, l, w, 18*mm), geom.Right, geom.Back)
		hole := func(x, y length.Length) {
			p.Ops = append(p.Ops, part.Op{Kind: part.Hole, Face: f, X: x, Y: y, Dia: 5 * mm, Depth: 10 * mm})
		}
		hole(50*mm, 50*mm)
		hole(l-50*mm, 50*mm)
		hole(l-50*mm, w-50*mm)
		figures := view.Board(p, view.Units{Unit: length.Millimetres})
		if len(figures) != 1 {
			t.Fatalf("%d figures, want the face with the holes", len(figures))
		}
		var s draw.Sheet
		figures[0].Paint(&s, draw.View{Scale: draw.Scale{Paper: 1, Real: 1}})
		var at []draw.Point
		for _, it := range s.Items {
			if q, ok := it.(*draw.Path); ok && len(q.Steps) > 1 && q.Steps[1].Op == draw.Curve {
				a := q.Steps[0].P[0] // the circle's right end
				at = append(at, draw.Pt(a.X-2.5, a.Y))
			}
		}
		if len(at) != 3 {
			t.Fatalf("%d circles, want 3", len(at))
		}
		turn := (at[1].X-at[0].X)*(at[2].Y-at[1].Y) - (at[1].Y-at[0].Y)*(at[2].X-at[1].X)
		// Paper's y runs down: seen from above the upper face the holes turn to the left, which
		// is negative; seen from the other side they turn to the right.
		if want := map[part.Face]bool{part.Upper: true, part.Lower: false}[f]; (turn < 0) != want {
			t.Errorf("the %s is drawn as its mirror image: holes at %v", view.FaceName(f), at)
		}
		if right := at[1].X < at[0].X; right != (high && f == part.Lower) {
			t.Errorf("the %s of a board of %s × %s has its start end right: %v", view.FaceName(f), l, w, right)
		}
		if above := at[2].Y > at[1].Y; above != (!high && f == part.Lower) {
			t.Errorf("the %s of a board of %s × %s has its near edge above: %v", view.FaceName(f), l, w, above)
		}
	}
}
