package view

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"sync"

	"stowright/internal/cutting"
	"stowright/internal/draw"
)

// pictureRoom is what stands in the picture of a sheet already, so that nothing else may: texts and dots with their air, the
// rings of cuts, and leaders.
type pictureRoom struct {
	whole   draw.Rect   // the sheet
	cells   []draw.Rect // pieces and what is left
	pieces  []draw.Rect
	cuts    [][2]draw.Point // as drawn
	texts   []draw.Rect
	dots    []draw.Rect
	circles []draw.Rect
	leaders [][2]draw.Point
}

// In the picture of a sheet, mm:
const (
	ringAir    = 0.15 // round the ring of a cut
	cellAir    = 0.2  // what a leader may touch of a piece that it does not run over
	dotSize    = 0.5  // radius of the dot at the end of a leader
	leaderLong = 60.0 // the longest that a letter has
	leaderLean = 0.25 // the share of its length that a leader through other pieces has along either side of the sheet at least: a cut has none
)

// struck tells whether a leader runs through something that stands there, but for the cell that it begins in.
func (g *pictureRoom) struck(a, b draw.Point, own draw.Point) bool {
	strikes := func(r draw.Rect) bool { return r.Struck(a, b) }
	if slices.ContainsFunc(g.texts, strikes) || slices.ContainsFunc(g.circles, strikes) {
		return true
	}
	if slices.ContainsFunc(g.dots, func(r draw.Rect) bool { return r.Mid() != own && r.Struck(a, b) }) {
		return true
	}
	return slices.ContainsFunc(g.leaders, func(l [2]draw.Point) bool { return draw.Cross(a, b, l[0], l[1]) })
}

// taken tells whether something stands in a box.
func (g *pictureRoom) taken(box draw.Rect) bool {
	return slices.ContainsFunc(g.texts, box.Meets) || slices.ContainsFunc(g.circles, box.Meets) || slices.ContainsFunc(g.dots, box.Meets) ||
		slices.ContainsFunc(g.leaders, func(l [2]draw.Point) bool { return box.Struck(l[0], l[1]) })
}

// near gives what stands no further from a point than so many mm, along and across.
func (g *pictureRoom) near(p draw.Point, most float64) *pictureRoom {
	square := draw.Rect{X: p.X, Y: p.Y}.Inset(-most)
	some := func(list []draw.Rect) (out []draw.Rect) {
		for _, r := range list {
			if r.Meets(square) {
				out = append(out, r)
			}
		}
		return out
	}
	lines := func(list [][2]draw.Point) (out [][2]draw.Point) {
		for _, l := range list {
			if square.Struck(l[0], l[1]) {
				out = append(out, l)
			}
		}
		return out
	}
	return &pictureRoom{
		whole: g.whole, pieces: some(g.pieces), texts: some(g.texts), dots: some(g.dots), circles: some(g.circles),
		cuts: lines(g.cuts), leaders: lines(g.leaders),
	}
}

// dotOn is the room of the dot at the end of the leader of a cut.
func dotOn(p draw.Point) draw.Rect { return draw.Rect{X: p.X, Y: p.Y}.Inset(-dotSize - ringAir) }

// onOther tells whether a dot on a cut stands on another one too.
func (g *pictureRoom) onOther(c *ringed, on draw.Point) bool {
	dot := draw.Rect{X: on.X, Y: on.Y}.Inset(-dotSize)
	return slices.ContainsFunc(g.cuts, func(o [2]draw.Point) bool { return dot.Struck(o[0], o[1]) && o != [2]draw.Point{c.a, c.b} })
}

// looksCut tells whether a leader from a cut to a ring would be read as a cut of what it runs over, or the ring as that of
// another: where it crosses another cut, or more than one piece, or a piece that its own cut does not bound.
func (g *pictureRoom) looksCut(c *ringed, on, at draw.Point, ring draw.Rect) bool {
	for _, o := range g.cuts {
		if ring.Struck(o[0], o[1]) || draw.Cross(on, at, o[0], o[1]) && o != [2]draw.Point{c.a, c.b} {
			return true
		}
	}
	over := 0
	for _, p := range g.pieces {
		if p.Inset(cellAir).Struck(on, at) {
			if over++; over > 1 || !p.Inset(-cellAir-c.half).Struck(c.a, c.b) {
				return true
			}
		}
	}
	return false
}

// letter sets the letter of a piece that is too thin for it beside or above the sheet, on a leader from a dot in the piece; false
// where there is no place from which it would be read as that of this piece.
func (g *pictureRoom) letter(s *draw.Sheet, own draw.Rect, letter string) bool {
	t := draw.Text{Text: letter, Size: draw.LeastCap, Bold: true, Align: draw.Middle}
	half := t.Width() / 2
	var mids []draw.Point
	w := g.whole
	for _, off := range []float64{1.2 + half, 4.6 + half} {
		for y := w.Y; y < w.Bottom(); y += 1.2 {
			mids = append(mids, draw.Pt(w.X-off, y), draw.Pt(w.Right()+off, y))
		}
	}
	for _, off := range []float64{2.4, 5.6} {
		for x := w.X + half; x < w.Right()-grainRoom; x += 1.2 {
			mids = append(mids, draw.Pt(x, w.Y-off))
		}
	}
	type lead struct {
		on, mid draw.Point
		cost    float64
	}
	var leads []lead
	for i, k := range []float64{0.5, 0.25, 0.75, 0.1, 0.9} {
		on := draw.Pt(own.X+own.W*k, own.Mid().Y)
		if own.H > own.W {
			on = draw.Pt(own.Mid().X, own.Y+own.H*k)
		}
		dot := draw.Rect{X: on.X, Y: on.Y}.Inset(-dotSize - 0.3)
		if g.taken(dot) || i > 0 && max(own.W, own.H) < 6 {
			continue
		}
		for _, m := range mids {
			if far := m.Sub(on).Len(); far <= leaderLong {
				leads = append(leads, lead{on, m, far})
			}
		}
	}
	slices.SortStableFunc(leads, func(a, b lead) int { return cmp.Compare(a.cost, b.cost) })
	for _, l := range leads {
		t.At = l.mid.Add(draw.Pt(0, draw.LeastCap/2))
		box := t.Box()
		d := l.mid.Sub(l.on)
		end := l.mid
		for step := d.Times(0.2 / d.Len()); box.Inset(-0.3).Has(draw.Rect{X: end.X, Y: end.Y}); {
			end = end.Sub(step)
		}
		if g.taken(box.Inset(-0.3)) || g.struck(l.on, end, l.on) {
			continue
		}
		through := slices.ContainsFunc(g.cells, func(c draw.Rect) bool { return !c.Inset(-0.1).Has(own) && c.Inset(0.3).Struck(l.on, end) })
		if long := end.Sub(l.on).Len(); through && min(math.Abs(d.X), math.Abs(d.Y)) < leaderLean*d.Len() || long < 0.8 {
			continue
		}
		s.Poly(draw.Fine, end, l.on)
		dot := s.Circle(draw.NoLine, l.on, dotSize)
		dot.Filled, dot.Fill = true, draw.Black
		s.Text(t.At, t.Size, t.Text, t.Align).Bold = true
		g.texts = append(g.texts, box.Inset(-0.2))
		g.dots = append(g.dots, draw.Rect{X: l.on.X, Y: l.on.Y}.Inset(-dotSize-0.2))
		g.leaders = append(g.leaders, [2]draw.Point{end, l.on})
		return true
	}
	return false
}

// The grid of nearestPlace.
const (
	placeStep  = 1.5 // mm
	placesOut  = 16  // steps each way
	placesNear = 8   // for a leader that runs over nothing but what its cut bounds
)

// nearPlaces are the steps to the places of the grid round a point, the nearest first.
var nearPlaces = sync.OnceValue(func() [][2]float64 {
	var list [][2]float64
	for x := -placesOut; x <= placesOut; x++ {
		for y := -placesOut; y <= placesOut; y++ {
			list = append(list, [2]float64{float64(x), float64(y)})
		}
	}
	slices.SortStableFunc(list, func(a, b [2]float64) int { return cmp.Compare(a[0]*a[0]+a[1]*a[1], b[0]*b[0]+b[1]*b[1]) })
	return list
})

// nearestPlace tries the places of a rectangle within so many steps each way of a point, the nearest first, until one does.
func nearestPlace(in draw.Rect, from draw.Point, steps int, try func(draw.Point) bool) bool {
	most := placeStep * float64(steps)
	left, top := math.Ceil((max(in.X, from.X-most)-from.X)/placeStep), math.Ceil((max(in.Y, from.Y-most)-from.Y)/placeStep)
	right, foot := min(in.Right(), from.X+most), min(in.Bottom(), from.Y+most)
	for _, p := range nearPlaces() {
		if p[0]*p[0]+p[1]*p[1] > 2*float64(steps*steps) {
			break
		}
		at := draw.Pt(from.X+p[0]*placeStep, from.Y+p[1]*placeStep)
		if p[0] >= left && at.X < right && p[1] >= top && at.Y < foot && try(at) {
			return true
		}
	}
	return false
}

// grainRoom is what the arrow of the grain and its word take at the right above a sheet, mm.
const grainRoom = 40.0

// mostUncircled is the number of cuts without a place for their rings from which no more are looked for.
const mostUncircled = 3

// ringed is a cut that is to have its number in a ring.
type ringed struct {
	n    int
	a, b draw.Point
	half float64 // of its kerf, on paper
	axis cutting.Axis
}

func (c *ringed) long() float64 { return c.b.Sub(c.a).Len() }

// rings numbers cuts: on the line where nothing else stands, at its end beside the sheet, or beside the line on a leader. It
// gives those that find no place; they are tried again before all others first.
func (g *pictureRoom) rings(s *draw.Sheet, cuts []ringed) (without []int) {
	slices.SortStableFunc(cuts, func(a, b ringed) int { return cmp.Compare(a.long(), b.long()) }) // the shortest has the fewest places
	items, leaders, dots := len(s.Items), len(g.leaders), len(g.dots)
	for range 3 {
		s.Items, g.circles, g.leaders, g.dots = s.Items[:items], nil, g.leaders[:leaders], g.dots[:dots]
		var first, rest []ringed
		without = nil
		for _, c := range cuts {
			if len(without) > mostUncircled || !g.ring(s, c, cuts) {
				first, without = append(first, c), append(without, c.n)
				continue
			}
			rest = append(rest, c)
		}
		if len(without) == 0 || len(without) > mostUncircled {
			break
		}
		cuts = append(first, rest...)
	}
	slices.Sort(without)
	return without
}

// ring sets the ring of a cut.
func (g *pictureRoom) ring(s *draw.Sheet, c ringed, cuts []ringed) bool {
	t := draw.Text{Text: fmt.Sprint(c.n), Size: draw.LeastCap}
	r := max(2.2, t.Width()/2+0.9)
	in := g.whole.Inset(-2)
	in.X, in.W = in.X-3.4, in.W+6.8
	// over is with the room above the sheet, as far as the arrow of its grain
	over := draw.Rect{X: in.X, Y: in.Y - 5, W: in.W - grainRoom, H: in.H + 5}
	side := draw.Pt(1, 0)
	if c.axis == cutting.Y {
		side = draw.Pt(0, 1)
	}
	var mids []draw.Rect // of other cuts that are no longer than a ring is wide, which none may cover
	for _, o := range cuts {
		if o.n != c.n && o.long() < 9 {
			p := o.a.Add(o.b).Times(0.5)
			mids = append(mids, draw.Rect{X: p.X, Y: p.Y})
		}
	}
	room := g     // as far as this ring and its leader can reach
	lean := false // its leader may run over other pieces and cuts, but slants so that it is none
	put := func(on, at draw.Point) bool {
		ring := draw.Rect{X: at.X - r, Y: at.Y - r, W: 2 * r, H: 2 * r}
		if !in.Has(ring) && !over.Has(ring) || room.taken(ring.Inset(-ringAir)) || slices.ContainsFunc(mids, ring.Has) {
			return false
		}
		if on != at {
			d := at.Sub(on)
			if lean && min(math.Abs(d.X), math.Abs(d.Y)) < leaderLean*d.Len() || !lean && room.looksCut(&c, on, at, ring) || room.struck(on, at, on) {
				return false
			}
			s.Poly(draw.Fine, on, at)
			end := s.Circle(draw.NoLine, on, dotSize)
			end.Filled, end.Fill = true, draw.Black
			g.leaders, g.dots = append(g.leaders, [2]draw.Point{on, at}), append(g.dots, dotOn(on))
		}
		g.circles = append(g.circles, ring)
		p := s.Circle(draw.Fine, at, r)
		p.Filled, p.Fill = true, draw.White
		s.Text(at.Add(draw.Pt(0, draw.LeastCap/2)), draw.LeastCap, t.Text, draw.Middle)
		return true
	}
	var known, may [24]bool
	free := func(k int, on draw.Point) bool { // whether the dot of a leader has room there
		if !known[k] {
			known[k], may[k] = true, !g.taken(dotOn(on)) && !g.onOther(&c, on)
		}
		return may[k]
	}
	search := func(off float64) bool {
		for k := range 24 {
			on := c.a.Add(c.b.Sub(c.a).Times((0.5 + float64(k)) / 24))
			if (off == 0 || free(k, on)) && put(on, on.Add(side.Times(off))) {
				return true
			}
		}
		return false
	}
	beside := func() bool { // at an end that meets the left, right or upper edge
		w := g.whole
		set := func(on, at draw.Point) bool { return !g.taken(dotOn(on)) && !g.onOther(&c, on) && put(on, at) }
		for _, up := range []float64{0, 1, -1, 2, -2, 3, -3} {
			if c.axis == cutting.Y && (c.a.X < w.X+3 && set(c.a, draw.Pt(w.X-r-0.8, c.a.Y+up*2.4)) || c.b.X > w.Right()-3 && set(c.b, draw.Pt(w.Right()+r+0.8, c.b.Y+up*2.4))) ||
				c.axis == cutting.X && c.b.Y < w.Y+3 && set(c.b, draw.Pt(c.b.X+up*2.4, w.Y-r-0.8)) {
				return true
			}
		}
		return false
	}
	if search(0) || beside() || slices.ContainsFunc([]float64{4.5, -4.5, 8, -8, 11, -11, 15, -15}, search) {
		return true
	}
	// anywhere near, the nearest place first: only where there is none at all does the table of cuts stand alone
	near := func(most int) bool {
		return slices.ContainsFunc([]float64{0.5, 0.3, 0.7, 0.1, 0.9, 0.2, 0.8, 0.4, 0.6, 0.03, 0.97}, func(k float64) bool {
			on := c.a.Add(c.b.Sub(c.a).Times(k))
			room = g.near(on, placeStep*float64(most)+2*r)
			if room.taken(dotOn(on)) || !lean && room.onOther(&c, on) {
				return false
			}
			try := func(at draw.Point) bool { return put(on, at) }
			above := over // what is within the first has been tried
			above.H = max(0, in.Y-over.Y)
			return nearestPlace(in, on, most, try) || nearestPlace(above, on, most, try)
		})
	}
	if near(placesNear) {
		return true
	}
	lean = true
	return near(placesOut)
}
