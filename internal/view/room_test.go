package view_test

import (
	"testing"

	"stowright/internal/draw"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/view"
)

// What is written at a board stands within the paper that its figure says it takes, at every scale and of thin strips too: so
// that nothing stands over its neighbours or outside the frame. Letters of both ends with the angles of their mitres are the widest.
func TestWordsStandInTheRoomOfTheirFigure(t *testing.T) {
	const mm = length.MM
	n := 0
	for _, thick := range []length.Length{4 * mm, 20 * mm, 70 * mm} {
		for _, size := range [][2]length.Length{{1406 * mm, 45 * mm}, {300 * mm, 45 * mm}, {300 * mm, 30 * mm}, {120 * mm, 600 * mm}, {705 * mm, 400 * mm}} {
			for k := range 4 {
				f, bored := part.Face(k%2), k > 1 // figures of what is bored in an end stand beside it, and make room
				p := part.New("edge", part.Side, "edge", "ash", geom.B(0, 0, 0, size[0], size[1], thick), geom.Right, geom.Back)
				for _, e := range []part.Face{part.Start, part.End} {
					p.Ops = append(p.Ops, part.Op{Kind: part.Bevel, Face: e, Towards: f.Not(), Angle: 45, L: size[1], Depth: thick})
					if !bored {
						continue
					}
					p.Ops = append(p.Ops, part.Op{Kind: part.Hole, Face: e, X: size[1] / 2, Y: thick / 2, Dia: 5 * mm, Depth: 30 * mm})
				}
				if bored {
					p.Ops = append(p.Ops, part.Op{Kind: part.Hole, Face: f, X: 60 * mm, Y: size[1] / 2, Dia: 5 * mm, Depth: thick / 2})
				}
				u := view.Units{Unit: length.Millimetres}
				for _, c := range view.Scales(u) {
					for _, g := range view.Board(p, u) {
						var s draw.Sheet
						at := draw.Pt(500, 500)
						w, h := view.Put(&s, at, c, g)
						room := draw.Rect{X: at.X, Y: at.Y, W: w, H: h}
						for _, it := range s.Items {
							if x, ok := it.(*draw.Text); ok && x.Text != "" {
								n++
								if !room.Inset(-0.05).Has(x.Box()) {
									t.Errorf("%v x %v x %v at %v, %s: %q at %v is outside %v", size[0], size[1], thick, c, g.Title, x.Text, x.Box(), room)
								}
							}
						}
					}
				}
			}
		}
	}
	if n == 0 {
		t.Error("nothing is written at any board")
	}
}
