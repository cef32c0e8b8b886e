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

// tabLeader is the leader of a tab, from it to what it names; none where it lies on that.
type tabLeader struct{ from, to draw.Point }

// placed is where a tab stands.
type placed struct {
	tab
	box  draw.Rect
	line tabLeader
}

// tabbing is where names find their places: within an area, on nothing that is covered, on no text and in the way of none.
type tabbing struct {
	in             draw.Rect
	covered, texts []draw.Rect
}

// tabs sets names on what they name, or as near as they cover none of what is covered, no text, no other name and nothing that a
// name would hide; what does not lie on its thing has a leader to it, which strikes no text. Names that find no place so
// choose first in another try; who has none in the best of the tries is named by the table of the chapter alone.
func tabs(s *draw.Sheet, in draw.Rect, covered []draw.Rect, list []tab) {
	set := tabbing{in: in, covered: covered, texts: textBoxes(s)}
	best, without := set.places(list)
	for range list {
		if len(without) == 0 {
			break
		}
		for _, n := range list {
			if !slices.Contains(without, n) {
				without = append(without, n)
			}
		}
		list = without
		var got []placed
		got, without = set.places(list)
		if len(got) > len(best) {
			best = got
		}
		if slices.Equal(without, list[:len(without)]) {
			break // they would choose in the same order again
		}
	}
	for _, n := range best {
		if n.line != (tabLeader{}) {
			s.Leader(false, n.line.from, n.line.to)
		}
		s.Pill(n.box, n.text, draw.LeastCap)
		if n.to != "" {
			s.Link(n.box, n.to)
		}
	}
}

// places finds the places of names, the first of the list first, and gives those that find none.
func (set *tabbing) places(list []tab) (got []placed, without []tab) {
	taken := append(slices.Clone(set.covered), set.texts...)
	for _, n := range list {
		if n.small() {
			taken = append(taken, n.own)
		}
	}
	for _, n := range list {
		best, ok := set.place(n, taken, got)
		if !ok {
			without = append(without, n)
			continue
		}
		got, taken = append(got, best), append(taken, best.box)
	}
	return got, without
}

// place finds the place of a name that is the cheapest beside what is taken and the names that have theirs; false where it has none.
func (set *tabbing) place(n tab, taken []draw.Rect, got []placed) (best placed, ok bool) {
	least := math.Inf(1)
	for k := -16; k <= 16; k++ {
		for m := -8; m <= 8; m++ {
			d := draw.Pt(float64(m)*4.5, float64(k)*2.7)
			q := n.box(n.at.Add(d))
			cost := math.Abs(d.X)*1.2 + math.Abs(d.Y)
			if !n.small() && n.own.W > q.W && n.own.H > q.H && !n.own.Has(q) {
				cost += 6 // over its edge, so that it may be another's
			}
			if cost >= least || !set.in.Has(q) || slices.ContainsFunc(taken, q.Inset(-0.4).Meets) {
				continue
			}
			line := tabLeader{}
			if n.small() || !n.own.Meets(q) {
				end := n.own.Mid()
				if !n.small() { // the nearest place of it
					end.X, end.Y = min(max(q.Mid().X, n.own.X+1), n.own.Right()-1), min(max(q.Mid().Y, n.own.Y+n.own.H*0.3), n.own.Bottom()-n.own.H*0.3)
				}
				line = tabLeader{draw.Pt(min(max(end.X, q.X+2), q.Right()-2), min(max(end.Y, q.Y), q.Bottom())), end}
				strikes := func(o draw.Rect) bool { return o.Inset(-0.4).Struck(line.from, line.to) }
				if slices.ContainsFunc(set.texts, strikes) || slices.ContainsFunc(got, func(o placed) bool { return strikes(o.box) }) {
					continue
				}
				cost += 3
				if slices.ContainsFunc(taken, func(o draw.Rect) bool { return o != n.own && o.Struck(line.from, line.to) }) {
					cost += 30
				}
			}
			if cost < least && !slices.ContainsFunc(got, func(o placed) bool { return q.Inset(-0.4).Struck(o.line.from, o.line.to) }) {
				best, least, ok = placed{n, q, line}, cost, true
			}
		}
	}
	return best, ok
}
