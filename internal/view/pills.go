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

// tabbing is where names find their places: within an area, on nothing that is covered, on no text and in the way of none; over as few
// lines as can be, and in no other thing that has a name.
type tabbing struct {
	in             draw.Rect
	covered, texts []draw.Rect
	lines          [][2]draw.Point
	things         []draw.Rect
}

// linesIn gives the straight lines of a sheet that come into an area, of curves their chords.
func linesIn(s *draw.Sheet, in draw.Rect) (out [][2]draw.Point) {
	for _, it := range s.Items {
		p, ok := it.(*draw.Path)
		if !ok || p.Line == draw.NoLine {
			continue
		}
		var at, start draw.Point
		for _, st := range p.Steps {
			to := start
			switch st.Op {
			case draw.Move:
				at, start = st.P[0], st.P[0]
				continue
			case draw.Go:
				to = st.P[0]
			case draw.Curve:
				to = st.P[2]
			}
			if in.Struck(at, to) {
				out = append(out, [2]draw.Point{at, to})
			}
			at = to
		}
	}
	return out
}

// over gives the length of lines that a place covers, mm.
func (set *tabbing) over(q draw.Rect) (sum float64) {
	for _, l := range set.lines {
		if q.Struck(l[0], l[1]) {
			if a, b, ok := clipped(q, l[0], l[1]); ok {
				sum += b.Sub(a).Len()
			}
		}
	}
	return sum
}

// crossed counts the lines that a leader crosses.
func (set *tabbing) crossed(l tabLeader) (n int) {
	for _, o := range set.lines {
		if draw.Cross(l.from, l.to, o[0], o[1]) {
			n++
		}
	}
	return n
}

// strange tells whether something meets a thing that is beside what is named, neither in it nor around it.
func (set *tabbing) strange(n tab, meets func(o draw.Rect) bool) bool {
	mine := n.own.Inset(0.3)
	return slices.ContainsFunc(set.things, func(o draw.Rect) bool { return !o.Meets(mine) && meets(o) })
}

// tabs sets names on what they name, or as near as they cover none of what is covered, no text, no other name and nothing that a
// name would hide; what does not lie on its thing has a leader to it, which strikes no text. The name that has
// the dearest place, or none, chooses first in another try; who has none in the best of the tries is named by the table of the chapter alone.
func tabs(s *draw.Sheet, in draw.Rect, covered []draw.Rect, list []tab) {
	set := tabbing{in: in, covered: covered, texts: textBoxes(s), lines: linesIn(s, in)}
	for _, n := range list {
		set.things = append(set.things, n.own)
	}
	list = slices.Clone(list)
	best, dearest := set.places(list)
	for range list {
		if dearest <= 0 {
			break // it chose first, so the order stays
		}
		n := list[dearest]
		list = slices.Insert(slices.Delete(list, dearest, dearest+1), 0, n)
		var got naming
		if got, dearest = set.places(list); got.cost < best.cost {
			best = got
		}
	}
	for _, n := range best.placed {
		if n.line != (tabLeader{}) {
			s.Leader(false, n.line.from, n.line.to)
		}
		s.Pill(n.box, n.text, draw.LeastCap)
		if n.to != "" {
			s.Link(n.box, n.to)
		}
	}
}

// naming is where all names stand, and what that costs.
type naming struct {
	placed []placed
	cost   float64
}

// A name without a place costs more than any place; one that costs as much as dear is beside its thing or over another's.
const (
	nowhere = 1000.0
	dear    = 8.0
)

// places finds the places of names, the first of the list first, and gives which of them has the dearest, -1 when none is dear.
func (set *tabbing) places(list []tab) (got naming, dearest int) {
	most := dear
	dearest = -1
	taken := append(slices.Clone(set.covered), set.texts...)
	for _, n := range list {
		if n.small() {
			taken = append(taken, n.own)
		}
	}
	for i, n := range list {
		best, cost := set.place(n, taken, got.placed)
		if got.cost += cost * cost; cost > most { // squared, so that none is far off for the sake of many
			dearest, most = i, cost
		}
		if cost < nowhere {
			got.placed, taken = append(got.placed, best), append(taken, best.box)
		}
	}
	return got, dearest
}

// place finds the place of a name that is the cheapest beside what is taken and the names that have theirs; it costs nowhere where there
// is none.
func (set *tabbing) place(n tab, taken []draw.Rect, got []placed) (best placed, least float64) {
	least = nowhere
	for k := -16; k <= 16; k++ {
		for m := -8; m <= 8; m++ {
			d := draw.Pt(float64(m)*4.5, float64(k)*2.7)
			q := n.box(n.at.Add(d))
			free := 0.0
			if n.own.H < q.H { // a long thing as thin as a line: along it is nearly as good as at its middle
				free = max(0, (n.own.W-q.W)/2-2)
			}
			cost := min(math.Abs(d.X), free)*0.4 + max(0, math.Abs(d.X)-free)*1.2 + math.Abs(d.Y)
			if !n.small() && n.own.W > q.W && n.own.H > q.H && !n.own.Has(q) {
				cost += 14 // over its edge, so that it may be another's
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
			if cost < least && set.strange(n, q.Meets) {
				cost += 25 // it would be read as the name of the other
			}
			if cost < least {
				cost += set.over(q) / 4
			}
			if cost < least && line != (tabLeader{}) {
				cost += 2 * float64(set.crossed(line))
				if set.strange(n, func(o draw.Rect) bool { return o.Struck(line.from, line.to) }) {
					cost += 15
				}
			}
			if cost < least && !slices.ContainsFunc(got, func(o placed) bool { return q.Inset(-0.4).Struck(o.line.from, o.line.to) }) {
				best, least = placed{n, q, line}, cost
			}
		}
	}
	return best, least
}
