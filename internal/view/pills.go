package view

import (
	"math"
	"slices"

	"stowright/internal/draw"
)

// tab is a name in a rounded outline for something on a drawing.
type tab struct {
	text string
	own  draw.Rect // what it names
	at   draw.Point
	to   string // anchor that it leads to, "" for none
}

// box is the paper that a tab takes with its middle at a place.
func (n tab) box(mid draw.Point) draw.Rect {
	t := draw.Text{Text: n.text, Size: draw.LeastCap, Bold: true}
	return draw.Rect{X: mid.X - t.Width()/2 - 1.5, Y: mid.Y - 2.4, W: t.Width() + 3, H: 4.8}
}

// small tells whether its tab would hide what it names.
func (n tab) small() bool {
	b := n.box(n.at)
	return n.own.W < b.W*1.1 && n.own.H < b.H*2.6
}

// tabs sets names on what they name, or as near as they cover none of what is covered, no other name and nothing that a
// name would hide; what does not lie on its thing has a leader to it.
func tabs(s *draw.Sheet, in draw.Rect, covered []draw.Rect, list []tab) {
	taken := slices.Clone(covered)
	for _, n := range list {
		if n.small() {
			taken = append(taken, n.own)
		}
	}
	type leader struct{ from, to draw.Point }
	var leaders []leader
	for _, n := range list {
		best, bestLine, least := draw.Rect{}, leader{}, math.Inf(1)
		for k := -16; k <= 16; k++ {
			for m := -8; m <= 8; m++ {
				d := draw.Pt(float64(m)*4.5, float64(k)*2.7)
				q := n.box(n.at.Add(d))
				cost := math.Abs(d.X)*1.2 + math.Abs(d.Y)
				if !n.small() && n.own.W > q.W && n.own.H > q.H && !n.own.Has(q) {
					cost += 6 // over its edge, so that it may be another's
				}
				if cost >= least || !in.Has(q) || slices.ContainsFunc(taken, q.Inset(-0.4).Meets) {
					continue
				}
				line := leader{}
				if n.small() || !n.own.Meets(q) {
					end := n.own.Mid()
					if !n.small() { // the nearest place of it
						end.X, end.Y = min(max(q.Mid().X, n.own.X+1), n.own.Right()-1), min(max(q.Mid().Y, n.own.Y+n.own.H*0.3), n.own.Bottom()-n.own.H*0.3)
					}
					line = leader{draw.Pt(min(max(end.X, q.X+2), q.Right()-2), min(max(end.Y, q.Y), q.Bottom())), end}
					cost += 3
					if slices.ContainsFunc(taken, func(o draw.Rect) bool { return o != n.own && o.Struck(line.from, line.to) }) {
						cost += 30
					}
				}
				if slices.ContainsFunc(leaders, func(l leader) bool { return q.Inset(-0.4).Struck(l.from, l.to) }) {
					continue
				}
				if cost < least {
					best, bestLine, least = q, line, cost
				}
			}
		}
		if math.IsInf(least, 1) {
			continue // no room: the table of the chapter names it
		}
		if bestLine != (leader{}) {
			s.Leader(false, bestLine.from, bestLine.to)
			leaders = append(leaders, bestLine)
		}
		s.Pill(best, n.text, draw.LeastCap)
		if n.to != "" {
			s.Link(best, n.to)
		}
		taken = append(taken, best)
	}
}
