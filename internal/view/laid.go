package view

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"stowright/internal/cutting"
	"stowright/internal/draw"
	"stowright/internal/draw/font"
)

// Laid is a sheet of a cutting plan, or a piece of one, as it is drawn.
type Laid struct {
	Sheet  cutting.Sheet
	Marks  []string // of the pieces of the whole sheet
	pieces []int    // which of those the ones here are
	number []int    // of every cut in the order of the sheet; 0 of one that trims it
	told   []bool   // cuts that lie between two others of a run, so that they need no circle
	unit   Units
	link   func(mark string) string
	plain  map[draw.Scale]plainDrawn // drawn already
}

type plainDrawn struct {
	*Drawn
	keys Keys
}

// ManyCuts is the number of cuts of a sheet up to which every one has a circle; of more, those between the ends of a run have none.
const ManyCuts = 40

// Lay gives a sheet with the marks of its pieces as it is drawn. Of many cuts those between two others of a run have no
// circle: ends has the numbers of those that begin or end one; without it a run is what follows each other at one setting.
func Lay(sh cutting.Sheet, marks []string, ends map[int]bool, u Units, link func(mark string) string) *Laid {
	l := &Laid{Sheet: sh, Marks: marks, unit: u, link: link}
	for i := range sh.Pieces {
		l.pieces = append(l.pieces, i)
	}
	n := 0
	var last *cutting.Cut
	begins := make([]bool, len(sh.Cuts)+2)
	for i := range sh.Cuts {
		c := &sh.Cuts[i]
		if c.Work == cutting.Trimming {
			l.number = append(l.number, 0)
			continue
		}
		n++
		l.number = append(l.number, n)
		begins[n] = last == nil || c.Work != last.Work || c.Axis != last.Axis || c.Setting != last.Setting
		last = c
	}
	begins[n+1] = true
	for _, k := range l.number {
		end := k > 0 && (begins[k] || begins[k+1])
		if ends != nil {
			end = ends[k]
		}
		l.told = append(l.told, n > ManyCuts && !end)
	}
	return l
}

// OnEnd gives a sheet stood on its left end, for a picture that is higher than wide.
func (l *Laid) OnEnd() *Laid {
	out := *l
	out.Sheet, out.plain = onEnd(l.Sheet), nil
	return &out
}

// Part gives what lies in a rectangle of a sheet that one of its cuts divides.
func (l *Laid) Part(of cutting.Rect) *Laid {
	out := *l
	out.plain = nil
	sh := &out.Sheet
	sh.L, sh.W = of.L, of.W
	sh.Pieces, sh.Cuts, sh.Offcuts, sh.Damage = nil, nil, nil, nil
	out.pieces, out.number, out.told = nil, nil, nil
	move := func(r cutting.Rect) cutting.Rect {
		r.X, r.Y = r.X-of.X, r.Y-of.Y
		return r
	}
	for i, p := range l.Sheet.Pieces {
		if lies(of, p.Rect) {
			p.Rect = move(p.Rect)
			sh.Pieces, out.pieces = append(sh.Pieces, p), append(out.pieces, l.pieces[i])
		}
	}
	for _, o := range l.Sheet.Offcuts {
		if lies(of, o.Rect) {
			o.Rect = move(o.Rect)
			sh.Offcuts = append(sh.Offcuts, o)
		}
	}
	for _, d := range l.Sheet.Damage { // as far as it lies there: its edge is trimmed off with that of the sheet
		x, y := max(d.X, of.X), max(d.Y, of.Y)
		if d.L, d.W = min(d.X+d.L, of.X+of.L)-x, min(d.Y+d.W, of.Y+of.W)-y; d.L > 0 && d.W > 0 {
			d.X, d.Y = x, y
			sh.Damage = append(sh.Damage, move(d))
		}
	}
	for i, c := range l.Sheet.Cuts {
		if l.number[i] > 0 && lies(of, c.Of) {
			c.Of = move(c.Of)
			if c.Axis == cutting.X {
				c.At -= of.X
			} else {
				c.At -= of.Y
			}
			sh.Cuts, out.number, out.told = append(sh.Cuts, c), append(out.number, l.number[i]), append(out.told, l.told[i])
		}
	}
	return &out
}

// lies tells whether r is in a rectangle.
func lies(of, r cutting.Rect) bool {
	return r.X >= of.X && r.Y >= of.Y && r.X+r.L <= of.X+of.L && r.Y+r.W <= of.Y+of.W
}

// Key is a letter in the picture of a sheet, for pieces of one size that have no room for their marks.
type Key struct {
	Letter string
	Pieces []int  // of the sheet; none of what is left over
	L, W   L      // as sawn, the length of pieces first
	What   string // what is left over is called
}

// Keys are the letters of a picture and of what is drawn larger beside it.
type Keys struct {
	List []Key
	at   map[keyed]int
}

// keyed is what has one letter: pieces of one size, or one size of what is left over.
type keyed struct {
	long, short L
	left        string // what it is called
}

// of gives the letter of a piece, the length of what is sawn first.
func (k *Keys) of(p cutting.Piece, i int) string {
	l, w := p.L, p.W
	if p.Turned {
		l, w = w, l
	}
	n := k.letter(l, w, "")
	k.List[n].Pieces = append(k.List[n].Pieces, i)
	return k.List[n].Letter
}

// left gives the letter of what is left over.
func (k *Keys) left(o cutting.Offcut, what string) string {
	n := k.letter(o.L, o.W, what)
	k.List[n].What = what
	return k.List[n].Letter
}

func (k *Keys) letter(l, w L, left string) int {
	size := keyed{max(l, w), min(l, w), left}
	n, ok := k.at[size]
	if !ok {
		n = len(k.List)
		if k.at == nil {
			k.at = map[keyed]int{}
		}
		k.at[size] = n
		k.List = append(k.List, Key{Letter: clearLetter(n), L: l, W: w})
	}
	return n
}

// clone gives keys that grow apart from these.
func (k *Keys) clone() Keys {
	out := Keys{List: slices.Clone(k.List), at: maps.Clone(k.at)}
	for i := range out.List {
		out.List[i].Pieces = slices.Clone(out.List[i].Pieces)
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

// Drawn is the picture of a sheet or of a part of one on paper, its upper left corner at 0, 0. What found no room in it is not
// drawn: pieces of the sheet, and cuts by their numbers.
type Drawn struct {
	Scale      draw.Scale
	Wide, High float64
	Nameless   []int
	Uncircled  []int
	TooFull    bool // so that the search for places was given up
	at         draw.Point
	items      []draw.Item
	grain      cutting.Grain
	whole      draw.Rect
}

// Room round the picture of a sheet, mm.
const (
	BesideSheet = 9.0
	aboveSheet  = 8.4
	belowSheet  = 1.0
)

// Draw draws a sheet at a scale: pieces with their marks and sizes as sawn, or with letters, numbered cuts, and what is left
// hatched. Larger are rectangles of it that are drawn larger elsewhere; they have their letters instead.
func (l *Laid) Draw(c draw.Scale, keys *Keys, apart []Larger) *Drawn {
	sh := l.Sheet
	d := &Drawn{Scale: c, grain: sh.Grain}
	d.whole = draw.Rect{X: BesideSheet, Y: aboveSheet, W: c.MM(sh.L), H: c.MM(sh.W)}
	d.Wide, d.High = d.whole.W+2*BesideSheet, d.whole.H+aboveSheet+belowSheet
	v := draw.View{Scale: c, Zero: draw.Pt(d.whole.X, d.whole.Bottom())}
	at := func(r cutting.Rect) draw.Rect { return v.Rect(r.X, r.Y, r.X+r.L, r.Y+r.W) }
	elsewhere := func(r cutting.Rect) bool {
		return slices.ContainsFunc(apart, func(a Larger) bool { return lies(a.Of, r) })
	}
	s := &draw.Sheet{Layer: "Sheet"}
	for _, o := range sh.Offcuts {
		hatch := draw.KeepClear
		if o.Scrap {
			hatch = draw.GroundHatch
		}
		s.Hatch(hatch, at(o.Rect).Corners())
		s.Rect(draw.Fine, at(o.Rect))
	}
	s.Rect(draw.Outline, d.whole)
	room := pictureRoom{whole: d.whole}
	type thin struct {
		r      draw.Rect
		letter string
		piece  int
	}
	var thins []thin
	for i, p := range sh.Pieces {
		r := at(p.Rect)
		a := s.Rect(draw.Edge, r)
		a.Filled, a.Fill = true, draw.White
		room.cells, room.pieces = append(room.cells, r), append(room.pieces, r)
		k := l.pieces[i]
		if k >= len(l.Marks) {
			continue
		}
		if to := l.link(l.Marks[k]); to != "" {
			s.Link(r, to)
		}
		if !elsewhere(p.Rect) && !name(s, r, l.Marks[k], p, l.unit) {
			thins = append(thins, thin{r, keys.of(p, k), k})
		}
	}
	s.Layer = "Offcuts"
	for _, o := range sh.Offcuts {
		room.cells = append(room.cells, at(o.Rect))
		if o.Scrap || elsewhere(o.Rect) {
			continue
		}
		long, wide, what := o.L.Tape(l.unit.Unit), o.W.Tape(l.unit.Unit), "offcut"
		if o.Keeps > 0 {
			what = fmt.Sprintf("keep: sheet %d", o.Keeps)
		}
		if !label(s, at(o.Rect), []string{what, long + " × " + wide}, false) && !label(s, at(o.Rect), []string{what, long + " ×", wide}, false) &&
			!label(s, at(o.Rect), []string{what + "  " + long + " × " + wide}, false) {
			thins = append(thins, thin{at(o.Rect), keys.left(o, what), leftOver})
		}
	}
	for _, o := range sh.Damage { // crossed out from corner to corner, over the hatch
		if elsewhere(o) {
			continue
		}
		r := at(o)
		s.Poly(draw.Visible, r.Corners()[0], r.Corners()[2])
		s.Poly(draw.Visible, r.Corners()[1], r.Corners()[3])
		s.Rect(draw.Visible, r)
		if !label(s, r, []string{BadPlace}, false) && !label(s, r, strings.Fields(BadPlace), false) && !label(s, r, strings.Fields(BadPlace)[:1], false) {
			thins = append(thins, thin{r, keys.left(cutting.Offcut{Rect: o}, BadPlace), leftOver})
		}
	}
	s.Layer = "Sheet"
	for _, a := range apart {
		r := at(a.Of)
		s.Rect(draw.Visible, r)
		if !label(s, r, []string{a.says()}, false) {
			thins = append(thins, thin{r, a.Letter, detailed})
		}
	}
	room.texts = airy(textBoxes(s))
	var outside []thin
	for _, x := range thins {
		t := draw.Text{Text: x.letter, Size: draw.LeastCap, Bold: true, Align: draw.Middle, At: draw.Pt(x.r.Mid().X, x.r.Mid().Y+draw.LeastCap*(font.Rise-font.Drop)/2)}
		if x.r.H >= letterHigh && x.r.W >= t.Width()+1 {
			if x.piece < 0 {
				s.Area(draw.White, t.Box().Inset(-0.4).Corners()...)
			}
			s.Text(t.At, t.Size, t.Text, t.Align).Bold = true
			room.texts = append(room.texts, t.Box().Inset(-0.2))
			continue
		}
		outside = append(outside, x)
	}
	s.Layer = "Letters"
	for _, x := range outside {
		if !room.letter(s, x.r, x.letter) {
			d.Nameless = append(d.Nameless, x.piece)
		}
	}
	s.Layer = "Cuts"
	var cuts []ringed
	for i, c := range sh.Cuts {
		if l.number[i] == 0 {
			continue
		}
		x := ringed{n: l.number[i], axis: c.Axis, half: d.Scale.MM(c.Kerf) / 2}
		mid := c.At + c.Kerf/2
		if c.Axis == cutting.X {
			x.a, x.b = v.At(mid, c.Of.Y), v.At(mid, c.Of.Y+c.Of.W)
		} else {
			x.a, x.b = v.At(c.Of.X, mid), v.At(c.Of.X+c.Of.L, mid)
		}
		if elsewhere(c.Of) {
			continue
		}
		s.Poly(draw.Narrow, x.a, x.b)
		room.cuts = append(room.cuts, [2]draw.Point{x.a, x.b})
		if !l.told[i] {
			cuts = append(cuts, x)
		}
	}
	d.Uncircled = room.rings(s, cuts)
	d.TooFull = len(d.Uncircled) > mostUncircled
	d.items = s.Items
	return d
}

// BadPlace is written where a sheet on hand is damaged.
const BadPlace = "bad place"

// What is no piece and has a letter.
const (
	leftOver = -1
	detailed = -2
)

// airy gives boxes with the air that other things leave them.
func airy(boxes []draw.Rect) []draw.Rect {
	for i := range boxes {
		boxes[i] = boxes[i].Inset(-0.4)
	}
	return boxes
}

// letterHigh is how high a piece is at least that its letter stands in, mm.
const letterHigh = draw.LeastCap*(font.Rise+font.Drop) + 0.1

// Put sets a picture on paper.
func (d *Drawn) Put(s *draw.Sheet, at draw.Point) {
	for _, it := range d.items {
		s.Add(draw.Moved(it, at))
	}
	if d.grain == cutting.NoGrain {
		return
	}
	w := d.whole.Shift(at)
	was := s.Layer
	s.Layer = "Grain"
	word := draw.Fit(s.Said("grain"), draw.LeastCap, false, grainWord)
	if d.grain == cutting.GrainX {
		g := draw.Pt(w.Right()-4-grainArrow, w.Y-5)
		grainLine(s, g, g.Add(draw.Pt(grainArrow, 0)))
		s.Text(g.Add(draw.Pt(-2, 1)), draw.LeastCap, word, draw.End)
	} else {
		foot := draw.Pt(w.Right()-3, w.Y-1.8)
		grainLine(s, foot, foot.Add(draw.Pt(0, -grainArrow)))
		s.Text(draw.Pt(foot.X-2, foot.Y-2.4), draw.LeastCap, word, draw.End) // over the rings of cuts on the edge
	}
	s.Layer = was
}

// grainLine draws the arrow along the grain, which has two heads, lying and upright.
func grainLine(s *draw.Sheet, a, b draw.Point) {
	s.Poly(draw.Edge, a, b)
	s.Arrow(a, b)
	s.Arrow(b, a)
}

// grainArrow is how long it is, in mm: so long as it stands above a sheet.
const grainArrow = 6.4

// grainWord is the paper that the word beside the arrow takes at most, in mm.
const grainWord = 11
