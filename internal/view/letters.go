package view

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"stowright/internal/draw"
	"stowright/internal/part"
)

// A letter is read as that of the working it stands nearest to. In mm on paper:
const (
	letterNear = 2.6 // so near its own working a letter needs no leader,
	letterSure = 1.2 // where every other is so much further off
	letterFree = 0.8 // and with a leader it stands so far from all others
)

// between is the distance between two rectangles, 0 where they meet.
func between(a, b draw.Rect) float64 {
	return math.Hypot(max(0, a.X-b.Right(), b.X-a.Right()), max(0, a.Y-b.Bottom(), b.Y-a.Bottom()))
}

// lettering sets the letters of a face.
type lettering struct {
	s       *draw.Sheet
	outline draw.Rect
	datum   [3]draw.Point // the filled triangle, see datumMark
	plain   bool          // not in bold
	names   []draw.Rect   // that stand there already
	inside  bool          // on the same side of every outline as what it belongs to, where that can be
	others  []draw.Rect
	leaders [][2]draw.Point
}

// letterSpot is a place that a letter may lead to: the room of a working, a point in it, and how far off it ends.
type letterSpot struct {
	room draw.Rect
	at   draw.Point
	r    float64
}

// letterSpots gives the places of a working, the middle first.
func letterSpots(room draw.Rect) (list []letterSpot) {
	r := max(1.2, min(room.W, room.H)/2+0.8)
	for _, k := range []float64{0.5, 0.25, 0.75, 0.08, 0.92} {
		at := draw.Pt(room.X+room.W*k, room.Mid().Y)
		if room.H > room.W {
			at = draw.Pt(room.Mid().X, room.Y+room.H*k)
		}
		list = append(list, letterSpot{room, at, r})
		if max(room.W, room.H) < 8 {
			break
		}
	}
	return list
}

// letters sets the letter of every working on the face that shows it: beside one of its places where no other working is nearly
// as near, else on a leader that crosses no other; or, on a face that is too narrow, beside it, as far before or
// behind it on paper as what is folded out there; or below one that is full, where low says that nothing is folded out there.
// The list beside the drawing says what each is. It gives those that stand beside the face.
func letters(s *draw.Sheet, v draw.View, size [3]L, works []Work, f part.Face, x, y func(L) L, before, behind float64, datum [3]draw.Point, low bool) (outside string) {
	outline := v.Rect(0, 0, size[0], size[1])
	set := lettering{s: s, outline: outline, datum: datum}
	var texts []string
	var rooms [][]draw.Rect
	for _, w := range works {
		if w.Face != f || w.op.Kind == part.Bevel || w.op.Kind == part.Taper {
			continue
		}
		var list []draw.Rect
		for _, o := range w.ops {
			list = append(list, spread(v, o, x, y))
		}
		texts, rooms = append(texts, w.Letter), append(rooms, list)
	}
	ways := []letterWay{beside, led, inHole, ledAnyhow, ledAcross}
	if outline.H <= narrowFace { // there is a place outside
		ways = ways[:3]
	}
	without := set.texts(texts, rooms, ways)
	ends := before > 0 && behind > 0                               // a letter beside them would be read as that of an end
	if low && (outline.H > narrowFace || len(texts) > 1 || ends) { // one alone needs no leader
		slices.SortStableFunc(without, func(a, b int) int { return cmp.Compare(rooms[a][0].Mid().X, rooms[b][0].Mid().X) }) // so that no leaders need cross
		without = slices.DeleteFunc(without, func(i int) bool { return set.under(texts, rooms, i) })
		slices.Sort(without)
	}
	if outline.W <= narrowFace {
		without = slices.DeleteFunc(without, func(i int) bool { return set.aside(texts, rooms, i) })
	}
	left := "" // without room on the face
	for _, i := range without {
		left = strings.TrimSpace(left + " " + texts[i])
	}
	if left == "" || outline.H > narrowFace {
		return ""
	}
	sides := []draw.Text{{At: draw.Pt(outline.Right()+behind+1.4, 0), Align: draw.Start}, {At: draw.Pt(outline.X-before-1.4, 0), Align: draw.End}}
	if behind > 0 && before == 0 { // beside the face, not beside its end
		slices.Reverse(sides)
	}
	for _, t := range sides {
		t.At.Y, t.Text, t.Size, t.Bold = outline.Mid().Y+draw.LeastCap/2, left, draw.LeastCap, true
		if !onInk(s, t.Box().Inset(-0.2)) {
			s.Text(t.At, t.Size, t.Text, t.Align).Bold = true
			return left
		}
	}
	return ""
}

// texts sets short texts, each at one of its rooms, and gives those that find no place.
func (set *lettering) texts(texts []string, rooms [][]draw.Rect, ways []letterWay) []int {
	order := make([]int, len(texts)) // those that have few places choose first
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(len(rooms[a]), len(rooms[b])) })
	var without []int
	items := len(set.s.Items)
	for range texts {
		set.s.Items, set.leaders = set.s.Items[:items], nil
		without = set.all(texts, rooms, ways, order, len(without))
		if len(without) == 0 || slices.Equal(without, order[:len(without)]) {
			break
		}
		order = append(slices.Clone(without), slices.DeleteFunc(order, func(i int) bool { return slices.Contains(without, i) })...) // who had no place chooses first
	}
	slices.Sort(without)
	return without
}

// all sets texts in an order, the first so many whichever way and then the others in the best way that each can, and
// gives those that find no place, in that order.
func (set *lettering) all(texts []string, rooms [][]draw.Rect, ways []letterWay, order []int, first int) []int {
	put := func(i int, ways ...letterWay) bool {
		set.others = slices.Clone(set.names)
		for k, r := range rooms {
			if k != i {
				set.others = append(set.others, r...)
			}
		}
		return slices.ContainsFunc(ways, func(way letterWay) bool { return set.put(texts[i], rooms[i], way) })
	}
	rest := slices.Clone(order)
	rest = slices.DeleteFunc(rest, func(i int) bool { return slices.Index(order, i) < first && put(i, ways...) })
	for _, way := range ways {
		rest = slices.DeleteFunc(rest, func(i int) bool { return put(i, way) })
	}
	return rest
}

// letterWay is how a letter is set.
type letterWay uint8

const (
	beside    letterWay = iota // near its working and to no other
	led                        // on a leader that crosses nothing else that has a letter
	inHole                     // in a hole that is wide enough
	ledAnyhow                  // on a leader
	ledAcross                  // on a leader that crosses others
)

// put sets a letter at one of the rooms of its working, the first of its list first.
func (set *lettering) put(letter string, rooms []draw.Rect, way letterWay) bool {
	const most = 6 // places that are tried
	var spots []letterSpot
	for _, r := range rooms[:min(len(rooms), most)] {
		spots = append(spots, letterSpots(r)...)
	}
	from, to := 1.6, 4.0
	if way != beside {
		from, to = 3, 30
	}
	t := draw.Text{Text: letter, Size: draw.LeastCap, Bold: !set.plain, Align: draw.Middle}
	wide := max(0, t.Width()/2-0.8) // as much more of it than of a letter stands on either side
	if way == inHole {
		for _, r := range rooms {
			t.At = r.Mid().Add(draw.Pt(0, draw.LeastCap/2))
			box := t.Box()
			if math.Hypot(box.W, box.H) > min(r.W, r.H)-0.4 || max(r.W, r.H) > 2*min(r.W, r.H) {
				return false
			}
			set.s.Area(draw.White, box.Inset(-0.3).Corners()...)
			set.s.Text(t.At, t.Size, t.Text, draw.Middle).Bold = true
			return true
		}
	}
	for far := from; far < to; far += 1.4 {
		for _, sp := range spots {
			for k := range 16 {
				turn := math.Pi * (0.25 + float64(k)/8)
				d := draw.Pt(math.Cos(turn), math.Sin(turn))
				m := sp.at.Add(d.Times(sp.r + far)).Add(draw.Pt(d.X*wide, 0))
				t.At = m.Add(draw.Pt(0, draw.LeastCap/2))
				box := t.Box().Inset(-0.3)
				if !set.outline.Inset(0.3).Has(box) || boxOf(set.datum).Meets(box) || onInk(set.s, box) || set.ends(box) || set.plain && besideText(set.s, box) {
					continue
				}
				if set.inside && way <= ledAnyhow && beyondLine(set.s, sp.at, m) {
					continue
				}
				if way == beside {
					if !set.sure(sp.room, box) {
						continue
					}
				} else if !set.lead(sp, t.Box(), m, way) {
					continue
				}
				set.s.Text(t.At, t.Size, t.Text, draw.Middle).Bold = t.Bold
				return true
			}
		}
	}
	return false
}

// under sets a letter below a face that has no room, on a leader from one of the rooms of its working, which crosses no other
// where that can be.
func (set *lettering) under(texts []string, rooms [][]draw.Rect, i int) bool {
	t := draw.Text{Text: texts[i], Size: draw.LeastCap, Bold: true, Align: draw.Middle}
	face := set.outline
	var spots []letterSpot
	for _, r := range rooms[i] {
		spots = append(spots, letterSpots(r)...)
	}
	for try := range 3 {
		air, clear := 0.0, try == 0
		if clear {
			air = 0.5
		}
		for k := range 4 * int(face.W) { // the shortest leader first
			for _, sp := range spots {
				r := sp.room
				gap := [2]float64{1.3, 2}[k%2] // to the face, or to the edging drawn under it
				t.At = draw.Pt(sp.at.X+float64((1-2*(k/2%2))*(k/2+1)/2), face.Bottom()+gap+draw.LeastCap)
				size := math.Abs(t.At.X-face.Mid().X) < 10 && gap > 1.5 // where that of the face stands
				if b := t.Box(); b.X < face.X+1 || b.Right() > face.Right()-1 || size || onInk(set.s, b.Inset(-air)) {
					continue
				}
				from, to := sp.at, draw.Pt(t.At.X, t.At.Y-draw.LeastCap-0.4)
				if clear && slices.ContainsFunc(rooms, func(list []draw.Rect) bool {
					return slices.ContainsFunc(list, func(o draw.Rect) bool { return !o.Meets(r) && o.W < face.W-1 && o.Inset(-0.2).Struck(from, to) })
				}) {
					continue
				}
				if try < 2 && set.crossed(from, to) || !set.line(from, to) {
					continue
				}
				set.leaders = append(set.leaders, [2]draw.Point{from, to})
				set.s.Text(t.At, t.Size, t.Text, draw.Middle).Bold = true
				return true
			}
		}
	}
	return false
}

// crossed tells whether a leader from a to b would cross another.
func (set *lettering) crossed(a, b draw.Point) bool {
	return slices.ContainsFunc(set.leaders, func(l [2]draw.Point) bool { return draw.Cross(a, b, l[0], l[1]) })
}

// aside sets a letter beside a face that is too narrow for it, level with one of the rooms of its working, on a leader to that.
func (set *lettering) aside(texts []string, rooms [][]draw.Rect, i int) bool {
	const off = 4.0 // past the edging that is drawn there
	t := draw.Text{Text: texts[i], Size: draw.LeastCap, Bold: true, Align: draw.Middle}
	face := set.outline
	for _, r := range rooms[i] {
		for _, x := range []float64{face.X - off, face.X - off - 2, face.Right() + off} {
			t.At = draw.Pt(x, r.Mid().Y+draw.LeastCap/2)
			box := t.Box()
			if onInk(set.s, box.Inset(-0.4)) {
				continue
			}
			to := draw.Pt(box.X-0.4, r.Mid().Y)
			if x < face.X {
				to.X = box.Right() + 0.4
			}
			struck := func(o draw.Rect) bool { return !o.Meets(r) && o.Struck(r.Mid(), to) }
			if slices.ContainsFunc(slices.Concat(rooms...), struck) || !set.line(r.Mid(), to) {
				continue
			}
			set.s.Text(t.At, t.Size, t.Text, draw.Middle).Bold = true
			return true
		}
	}
	return false
}

// line draws a leader; false, and none, where it would strike a text or the mark of the datum corner.
func (set *lettering) line(from, to draw.Point) bool {
	if onMark(set.datum, from, to) {
		return false
	}
	if overText(set.s, set.s.Poly(draw.Fine, from, to)) {
		set.s.Items = set.s.Items[:len(set.s.Items)-1]
		return false
	}
	return true
}

// sure tells whether a letter in a box is read as that of the working in a room.
func (set *lettering) sure(room, box draw.Rect) bool {
	own := between(room, box)
	return own <= letterNear && !slices.ContainsFunc(set.others, func(o draw.Rect) bool {
		return !o.Meets(room) && between(o, box) < own+letterSure
	})
}

// lead draws the leader of a letter whose middle is at m, from its working; false where it would not be read as that.
func (set *lettering) lead(sp letterSpot, box draw.Rect, m draw.Point, way letterWay) bool {
	d := m.Sub(sp.at)
	d = d.Times(1 / d.Len())
	a := draw.Pt(min(max(sp.at.X+d.X*sp.r, sp.room.X), sp.room.Right()), min(max(sp.at.Y+d.Y*sp.r, sp.room.Y), sp.room.Bottom()))
	if max(sp.room.W, sp.room.H) >= 8 && min(sp.room.W, sp.room.H) < 3 { // into straight work
		a = sp.at
	}
	b := m
	for box.Inset(-0.4).Has(draw.Rect{X: b.X, Y: b.Y}) { // up to the letter
		b = b.Sub(d.Times(0.1))
	}
	if b.Sub(a).Len() < 0.8 {
		return false
	}
	if way == led && slices.ContainsFunc(set.others, func(o draw.Rect) bool {
		return !o.Meets(sp.room) && (between(o, box) < letterFree || o.Inset(-0.2).Struck(a, b))
	}) {
		return false
	}
	if way != ledAcross && set.crossed(a, b) {
		return false
	}
	end := draw.Rect{X: b.X - letterFree, Y: b.Y - letterFree, W: 2 * letterFree, H: 2 * letterFree}
	if anyText(set.s, end.Meets) || !set.line(a, b) {
		return false
	}
	set.leaders = append(set.leaders, [2]draw.Point{a, b})
	return true
}

// besideText tells whether a text stands so near before or behind another on its line that the two would be read as one.
func besideText(s *draw.Sheet, b draw.Rect) bool {
	const gap = 1.6
	b.X, b.W = b.X-gap, b.W+2*gap
	return anyText(s, b.Meets)
}

// ends tells whether the leader of another letter ends so near a box that it could be taken for that of what stands there.
func (set *lettering) ends(box draw.Rect) bool {
	return slices.ContainsFunc(set.leaders, func(l [2]draw.Point) bool { return box.Inset(-0.7).Has(draw.Rect{X: l[1].X, Y: l[1].Y}) })
}

// narrowFace is the height on paper, in mm, up to which letters without room on a face stand beside it.
const narrowFace = 9.0
