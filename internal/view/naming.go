package view

import (
	"math"
	"slices"

	"stowright/internal/draw"
)

// named is a board that a detail cuts: its name and where it is cut, on paper.
type named struct {
	name string
	cut  []draw.Rect
}

// largest gives the largest stretch of a cut board.
func (n named) largest() draw.Rect {
	return slices.MaxFunc(n.cut, func(a, b draw.Rect) int { return int(1000 * (a.W*a.H - b.W*b.H)) })
}

// nameIn is the least thickness of a cut board, in mm of paper, that takes its name inside.
const nameIn = 4.9

// inside tells where the name of a cut board stands in it: level where it has room, else upwards, on the middle or
// as near to it as it keeps off what is bored; false where it has no room.
func (n named) inside(bored []draw.Rect) (draw.Text, draw.Rect, bool) {
	t := draw.Text{Text: n.name, Size: draw.LeastCap, Bold: true, Align: draw.Middle}
	wide := t.Width() + 2.4
	for _, r := range n.cut {
		if min(r.W, r.H) < nameIn || max(r.W, r.H) < wide {
			continue
		}
		t.Up = r.W < wide
		for off := 0.0; off <= (max(r.W, r.H)-wide)/2; off += 1 {
			for _, way := range []float64{off, -off} {
				m := r.Mid()
				if t.Up {
					t.At = m.Add(draw.Pt(draw.LeastCap/2, way))
				} else {
					t.At = m.Add(draw.Pt(way, draw.LeastCap/2))
				}
				box := t.Box().Inset(-0.45)
				if box.W > r.W-0.6 || box.H > r.H-0.6 { // tails of letters: a hair less air in a thin board
					box = t.Box().Inset(-0.1)
				}
				if !slices.ContainsFunc(bored, box.Meets) {
					return t, box, true
				}
			}
		}
	}
	return t, draw.Rect{}, false
}

// nameBoards names every board that a detail cuts: in the board where it has room, else beside it within the frame or at
// its right, on a leader that ends in the board with a dot and crosses no other board where that can
// be. Bored is what is bored in them.
func nameBoards(s *draw.Sheet, frame draw.Rect, boards []named, bored []draw.Rect) {
	var rest []named
	for _, n := range boards {
		t, box, ok := n.inside(bored)
		if !ok {
			rest = append(rest, n)
			continue
		}
		s.Area(draw.White, box.Corners()...)
		x := s.Text(t.At, t.Size, t.Text, t.Align)
		x.Up, x.Bold = t.Up, true
	}
	slices.SortStableFunc(rest, func(a, b named) int { return int(1000 * (a.largest().Mid().Y - b.largest().Mid().Y)) })
	for _, n := range rest {
		n.beside(s, frame, boards, bored)
	}
}

// beside sets a board's name outside of it.
func (n named) beside(s *draw.Sheet, frame draw.Rect, boards []named, bored []draw.Rect) {
	t := draw.Text{Text: n.name, Size: draw.LeastCap, Bold: true}
	wide := t.Width()
	var at []draw.Point // places in the board
	for _, r := range n.cut {
		long := draw.Pt(0, r.H/2-min(0.8, r.H/2))
		if r.W > r.H {
			long = draw.Pt(r.W/2-min(0.8, r.W/2), 0)
		}
		for k := -4; k <= 4; k++ {
			p := r.Mid().Add(long.Times(float64(k) / 4))
			if !slices.ContainsFunc(bored, func(b draw.Rect) bool { return b.Inset(-0.6).Has(draw.Rect{X: p.X, Y: p.Y}) }) {
				at = append(at, p)
			}
		}
	}
	var places []draw.Point // of the name's left end, on the baseline
	for y := frame.Y + 4; y < frame.Bottom()-1; y += 1.4 {
		places = append(places, draw.Pt(frame.Right()+3, y))
		for x := frame.X + 1.5; x+wide < frame.Right()-1; x += 1.6 {
			places = append(places, draw.Pt(x, y))
		}
	}
	best, bestFrom, least := draw.Path{}, t, math.Inf(1)
	for _, p := range places {
		t.At = p
		box := t.Box().Inset(-0.6)
		if onInk(s, box) || slices.ContainsFunc(boards, func(o named) bool { return slices.ContainsFunc(o.cut, box.Meets) }) {
			continue
		}
		for _, from := range at {
			near := box.Inset(0.2)
			to := draw.Pt(min(max(from.X, near.X), near.Right()), p.Y-draw.LeastCap/2)
			if from.X > near.X && from.X < near.Right() { // above or below the name
				to.Y = min(max(from.Y, near.Y), near.Bottom())
			}
			cost := to.Sub(from).Len()
			if cost >= least {
				continue
			}
			leader := draw.Path{Line: draw.Fine, Layer: s.Layer}
			leader.Poly(false, from, to)
			for _, o := range boards {
				if o.name != n.name && slices.ContainsFunc(o.cut, func(r draw.Rect) bool { return r.Inset(0.2).Struck(from, to) }) {
					cost += 40
				}
			}
			for _, b := range bored {
				if b.Struck(from, to) {
					cost += 20
				}
			}
			if cost >= least || slices.ContainsFunc(s.Items, func(it draw.Item) bool {
				x, ok := it.(*draw.Text)
				return ok && leader.Strikes(x.Box())
			}) {
				continue
			}
			best, bestFrom, least = leader, t, cost
		}
	}
	if math.IsInf(least, 1) {
		return
	}
	s.Add(&best)
	dot := s.Circle(draw.NoLine, best.Steps[0].P[0], 0.5)
	dot.Filled, dot.Fill = true, draw.Black
	s.Text(bestFrom.At, t.Size, n.name, draw.Start).Bold = true
}
