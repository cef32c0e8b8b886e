package view

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"sync"

	"stowright/internal/cutting"
	"stowright/internal/draw"
	"stowright/internal/draw/font"
)

// besideSheet is the room at the left and right of a sheet's picture for what has none in it, mm.
const besideSheet = 9.0

// Key is a letter in the picture of a sheet, for pieces of one size that have no room for their marks.
type Key struct {
	Letter string
	Pieces []int // of the sheet
}

// Keys gives the letters of a sheet's picture at a scale, none where every piece has room for its mark.
func Keys(sh cutting.Sheet, marks []string, c draw.Scale) []Key {
	var out []Key
	at := map[[2]L]int{}
	for i, p := range sh.Pieces {
		if i >= len(marks) {
			break
		}
		if _, _, _, ok := fits(draw.Rect{W: c.MM(p.L), H: c.MM(p.W)}, marks[i:i+1], true); ok {
			continue
		}
		k := [2]L{max(p.L, p.W), min(p.L, p.W)}
		n, ok := at[k]
		if !ok {
			n = len(out)
			at[k] = n
			out = append(out, Key{Letter: clearLetter(n)})
		}
		out[n].Pieces = append(out[n].Pieces, i)
	}
	return out
}

// clearLetters are those that nobody takes for a line, a ring or a figure.
const clearLetters = "abcdefghjkmnpqrstuvwxyz"

// clearLetter gives the letter of a number, then pairs of them.
func clearLetter(n int) string {
	if k := len(clearLetters); n >= k {
		return clearLetter(n/k-1) + clearLetter(n%k)
	}
	return clearLetters[n : n+1]
}

// letterHigh is how high a piece is at least that its letter stands in, mm.
const letterHigh = draw.LeastCap*(font.Rise+font.Drop) + 0.1

// belowSheet is the room below a sheet's picture, in mm.
const belowSheet = 1.0

// letterPieces sets the letters of pieces: in the piece, or, of strips that are thinner than letters, at the nearer end of
// their row, beside the sheet, in the order in which they lie; where that is taken, at the other end or a little further.
func letterPieces(s *draw.Sheet, v draw.View, sh cutting.Sheet, keys []Key) {
	whole := v.Rect(0, 0, sh.L, sh.W)
	type thin struct {
		r      draw.Rect
		letter string
	}
	rows := map[[2]L][]thin{}
	var order [][2]L
	var away []thin // what has no room in its row
	for _, k := range keys {
		for _, i := range k.Pieces {
			p := sh.Pieces[i]
			r := v.Rect(p.X, p.Y, p.X+p.L, p.Y+p.W)
			t := draw.Text{Text: k.Letter, Size: draw.LeastCap, Bold: true}
			if r.H >= letterHigh && r.W >= t.Width()+1 {
				s.Text(draw.Pt(r.Mid().X, r.Mid().Y+draw.LeastCap*(font.Rise-font.Drop)/2), draw.LeastCap, k.Letter, draw.Middle).Bold = true
				continue
			}
			if p.W > p.L {
				if !label(s, r, []string{k.Letter}, true) {
					away = append(away, thin{r, k.Letter})
				}
				continue
			}
			at := [2]L{p.Y, p.W}
			if rows[at] == nil {
				order = append(order, at)
			}
			rows[at] = append(rows[at], thin{r, k.Letter})
		}
	}
	slices.SortFunc(order, func(a, b [2]L) int { return cmp.Compare(b[0], a[0]) })
	var taken []draw.Rect
	var led [][2]draw.Point
	for _, at := range order {
		row := rows[at]
		slices.SortFunc(row, func(a, b thin) int { return cmp.Compare(a.r.X, b.r.X) })
		text := ""
		for _, x := range row {
			text += x.letter
		}
		first, last := row[0].r, row[len(row)-1].r
		put := func(right bool, dy float64) bool {
			t := draw.Text{Text: text, Size: draw.LeastCap, Bold: true, Align: draw.End, At: draw.Pt(whole.X-1.4, first.Mid().Y+draw.LeastCap/2+dy)}
			from, edge, to := draw.Pt(whole.X-1.2, first.Mid().Y+dy), draw.Pt(whole.X, first.Mid().Y), draw.Pt(first.X+1.2, first.Mid().Y)
			if right {
				t.Align, t.At.X = draw.Start, whole.Right()+1.4
				from, edge, to = draw.Pt(whole.Right()+1.2, first.Mid().Y+dy), draw.Pt(whole.Right(), first.Mid().Y), draw.Pt(last.Right()-1.2, first.Mid().Y)
			}
			box := t.Box()
			if t.Width() > besideSheet-2 || box.Bottom() > whole.Bottom()+belowSheet || slices.ContainsFunc(taken, box.Inset(0.2).Meets) || slices.ContainsFunc(s.Items, func(it draw.Item) bool {
				x, ok := it.(*draw.Text)
				return ok && (x.Box().Struck(edge, to) || x.Box().Struck(from, edge) || x.Box().Meets(box))
			}) || slices.ContainsFunc(led, func(l [2]draw.Point) bool { return box.Struck(l[0], l[1]) }) {
				return false
			}
			s.Poly(draw.Fine, from, edge, to)
			dot := s.Circle(draw.NoLine, to, 0.5)
			dot.Filled, dot.Fill = true, draw.Black
			taken, led = append(taken, box), append(led, [2]draw.Point{from, edge}, [2]draw.Point{edge, to})
			s.Text(t.At, t.Size, t.Text, t.Align).Bold = true
			return true
		}
		near := whole.Right()-last.Right() < first.X-whole.X
		if !slices.ContainsFunc([]float64{0, 1.2, -1.2, 2.4, -2.4, 3.6, -3.6, 5, -5}, func(dy float64) bool { return put(near, dy) || put(!near, dy) }) {
			away = append(away, row...)
		}
	}
	for _, x := range away {
		letterAway(s, v, sh, x.r, x.letter)
	}
}

// letterAway sets the letter of a piece in the nearest place that has room for it, with a line to the piece.
func letterAway(s *draw.Sheet, v draw.View, sh cutting.Sheet, r draw.Rect, letter string) {
	whole := v.Rect(0, 0, sh.L, sh.W)
	var cells []draw.Rect // within which no edge is crossed
	for _, p := range sh.Pieces {
		cells = append(cells, v.Rect(p.X, p.Y, p.X+p.L, p.Y+p.W))
	}
	for _, o := range sh.Offcuts {
		cells = append(cells, v.Rect(o.X, o.Y, o.X+o.L, o.Y+o.W))
	}
	for _, x := range []float64{whole.X - besideSheet, whole.Right()} {
		cells = append(cells, draw.Rect{X: x, Y: whole.Y, W: besideSheet, H: whole.H})
	}
	var texts []draw.Rect
	for _, it := range s.Items {
		if t, ok := it.(*draw.Text); ok {
			texts = append(texts, t.Box())
		}
	}
	t := draw.Text{Text: letter, Size: draw.LeastCap, Bold: true, Align: draw.Middle}
	on := r.Mid()
	nearestPlace(whole.Inset(-besideSheet), on, func(at draw.Point) bool {
		t.At = at.Add(draw.Pt(0, draw.LeastCap/2))
		box := t.Box().Inset(-0.3)
		if r.Meets(box) || !slices.ContainsFunc(cells, func(c draw.Rect) bool { return c.Has(box) }) ||
			slices.ContainsFunc(texts, func(q draw.Rect) bool { return q.Meets(box) || q.Struck(on, at) }) {
			return false
		}
		end := at.Add(on.Sub(at).Times(min(1, (box.H/2+0.4)/max(0.1, math.Hypot(on.X-at.X, on.Y-at.Y)))))
		s.Poly(draw.Fine, end, on)
		dot := s.Circle(draw.NoLine, on, 0.5)
		dot.Filled, dot.Fill = true, draw.Black
		s.Area(draw.White, box.Corners()...)
		s.Text(t.At, t.Size, letter, t.Align).Bold = true
		return true
	})
}

// The grid of nearestPlace.
const (
	placeStep = 1.5 // mm
	placesOut = 16  // steps each way
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

// nearestPlace tries the places of a rectangle within 24 mm of a point, a grid of 1.5 mm, the nearest first, until one does.
func nearestPlace(in draw.Rect, from draw.Point, try func(draw.Point) bool) bool {
	const most = placeStep * placesOut
	left, top := math.Ceil((max(in.X, from.X-most)-from.X)/placeStep), math.Ceil((max(in.Y, from.Y-most)-from.Y)/placeStep)
	right, foot := min(in.Right(), from.X+most), min(in.Bottom(), from.Y+most)
	for _, p := range nearPlaces() {
		at := draw.Pt(from.X+p[0]*placeStep, from.Y+p[1]*placeStep)
		if p[0] >= left && at.X < right && p[1] >= top && at.Y < foot && try(at) {
			return true
		}
	}
	return false
}

// areas are those of a drawing where something stands.
type areas []draw.Rect

// meet tells whether one of them meets a rectangle.
func (list areas) meet(r draw.Rect) bool {
	for _, q := range list {
		if q.Meets(r) {
			return true
		}
	}
	return false
}

// struck tells whether a fine line strikes one of them.
func (list areas) struck(a, b draw.Point) bool {
	for _, q := range list {
		if q.Inset(-draw.Fine.Width()/2).Struck(a, b) {
			return true
		}
	}
	return false
}

// near gives those that are no further from a point than so many mm, along and across.
func (list areas) near(p draw.Point, most float64) (out areas) {
	square := draw.Rect{X: p.X - most, Y: p.Y - most, W: 2 * most, H: 2 * most}
	for _, q := range list {
		if q.Meets(square) {
			out = append(out, q)
		}
	}
	return out
}

// grainRoom is what the arrow of the grain and its word take at the right above a sheet, mm.
const grainRoom = 40.0

// paintCuts draws the kerfs and numbers them: on the line where nothing else stands, at its end beside the sheet, or
// beside the line on a leader.
func paintCuts(s *draw.Sheet, v draw.View, sh cutting.Sheet) {
	type cut struct {
		a, b draw.Point
		axis cutting.Axis
		same bool // at the setting of the one before
	}
	var cuts []cut
	var last cutting.Cut
	for _, c := range sh.Cuts {
		if c.Work == cutting.Trimming {
			continue
		}
		x := cut{axis: c.Axis, same: len(cuts) > 0 && c.Work == last.Work && c.Axis == last.Axis && c.Setting == last.Setting}
		last = c
		at := c.At + c.Kerf/2
		if c.Axis == cutting.X {
			x.a, x.b = v.At(at, c.Of.Y), v.At(at, c.Of.Y+c.Of.W)
		} else {
			x.a, x.b = v.At(c.Of.X, at), v.At(c.Of.X+c.Of.L, at)
		}
		s.Poly(draw.Narrow, x.a, x.b)
		cuts = append(cuts, x)
	}
	// of a long run at one setting the first and the last have a number
	inRun := func(n int) bool {
		return cuts[n].same && n+1 < len(cuts) && cuts[n+1].same && len(cuts) > 40
	}
	var taken areas // by texts and rings
	for _, it := range s.Items {
		if t, ok := it.(*draw.Text); ok {
			taken = append(taken, t.Box().Inset(-0.4))
		}
	}
	type leader struct{ on, at draw.Point }
	var leaders []leader
	full := 0 // so many have found no room: a larger picture is wanted, and no more are looked for so long
	whole := v.Rect(0, 0, sh.L, sh.W)
	in := whole.Inset(-2)
	in.X, in.W = in.X-3.4, in.W+6.8
	// over is with the room above the sheet, as far as the arrow of its grain
	over := draw.Rect{X: in.X, Y: in.Y - 5, W: in.W - grainRoom, H: in.H + 5}
	var turn []int // the shortest first, which has the fewest places
	for n := range cuts {
		if !inRun(n) {
			turn = append(turn, n)
		}
	}
	slices.SortStableFunc(turn, func(i, j int) int {
		far := func(n int) float64 { d := cuts[n].b.Sub(cuts[n].a); return d.X*d.X + d.Y*d.Y }
		return cmp.Compare(far(i), far(j))
	})
	var mids []draw.Point // of cuts that are no longer than a ring is wide, which none may cover
	for _, n := range turn {
		if d := cuts[n].b.Sub(cuts[n].a); math.Hypot(d.X, d.Y) < 9 {
			mids = append(mids, cuts[n].a.Add(cuts[n].b).Times(0.5))
		}
	}
	for _, n := range turn {
		c := cuts[n]
		text := fmt.Sprint(n + 1)
		t := draw.Text{Text: text, Size: draw.LeastCap}
		r := max(2.2, t.Width()/2+0.9)
		near := taken    // as far as this ring and its leader can reach
		crowded := false // a ring may lie over the leader of another
		side := draw.Pt(1, 0)
		if c.axis == cutting.Y {
			side = draw.Pt(0, 1)
		}
		put := func(on, at draw.Point) bool {
			ring := draw.Rect{X: at.X - r, Y: at.Y - r, W: 2 * r, H: 2 * r}
			if !in.Has(ring) && !over.Has(ring) || near.meet(ring) {
				return false
			}
			if !crowded && slices.ContainsFunc(mids, func(p draw.Point) bool {
				return p != c.a.Add(c.b).Times(0.5) && ring.Has(draw.Rect{X: p.X, Y: p.Y})
			}) {
				return false
			}
			led := on != at
			crossed := func(l leader) bool { return ring.Struck(l.on, l.at) }
			if led && near.struck(on, at) || !crowded && slices.ContainsFunc(leaders, crossed) {
				return false
			}
			if led {
				s.Poly(draw.Fine, on, at)
				leaders = append(leaders, leader{on, at})
			}
			taken = append(taken, ring)
			p := s.Circle(draw.Fine, at, r)
			p.Filled, p.Fill = true, draw.White
			s.Text(at.Add(draw.Pt(0, draw.LeastCap/2)), draw.LeastCap, text, draw.Middle)
			return true
		}
		search := func(off float64) bool {
			for k := range 24 {
				on := c.a.Add(c.b.Sub(c.a).Times((0.5 + float64(k)) / 24))
				if put(on, on.Add(side.Times(off))) {
					return true
				}
			}
			return false
		}
		beside := func() bool { // at an end that meets the left or right edge
			if c.axis != cutting.Y {
				return false
			}
			for _, up := range []float64{0, 1, -1, 2, -2, 3, -3} {
				if c.a.X < whole.X+3 && put(draw.Pt(whole.X, c.a.Y), draw.Pt(whole.X-r-0.8, c.a.Y+up*2.4)) ||
					c.b.X > whole.Right()-3 && put(draw.Pt(whole.Right(), c.b.Y), draw.Pt(whole.Right()+r+0.8, c.b.Y+up*2.4)) {
					return true
				}
			}
			return false
		}
		if search(0) || beside() || slices.ContainsFunc([]float64{4.5, -4.5, 8, -8, 11, -11, 15, -15}, search) {
			continue
		}
		// anywhere near, the nearest place first: only where there is none at all does the table of cuts stand alone
		found := full > 2
		for _, crowded = range []bool{false, true} {
			if found = found || slices.ContainsFunc([]float64{0.5, 0.3, 0.7, 0.1, 0.9, 0.2, 0.8, 0.4, 0.6, 0.03, 0.97}, func(k float64) bool {
				on := c.a.Add(c.b.Sub(c.a).Times(k))
				near = taken.near(on, placeStep*placesOut+2*r)
				try := func(at draw.Point) bool { return put(on, at) }
				above := over // what is within the first has been tried
				above.H = max(0, in.Y-over.Y)
				return nearestPlace(in, on, try) || nearestPlace(above, on, try)
			}); found {
				break
			}
		}
		if !found {
			full++
		}
	}
}
