package view

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"stowright/internal/draw"
	"stowright/internal/length"
	"stowright/internal/part"
)

// Face names, as the drawings of parts call them: edges by what the drawing shows.
var faceNames = [...]string{"face side", "other side", "start end", "far end", "face edge", "far edge"}

// FaceName says which face of a part's drawing is meant.
func FaceName(f part.Face) string { return faceNames[f] }

// through tells whether a working reaches the other face.
func through(o part.Op, size [3]L) bool { return o.Through(size) }

// Board draws one part as a board on the bench: the face that has more work, seen straight on,
// the grain lying, its datum corner (where both tapes are hooked) marked; the other face below
// it, turned over about its long edge, so that the same end stays at the left, or, of a board that stands
// on paper, the same edge below; and the edges that are worked, folded out beside the first face.
func Board(p Part, u Units) []Figure {
	n := [6]int{}
	first := FirstFace(p)
	p.Ops = slices.Clone(p.Ops)
	for i := range p.Ops {
		p.Ops[i] = facing(p.Ops[i], first, p.Size)
		n[p.Ops[i].Face]++
	}
	list := []Figure{face(p, first, u, true)}
	if n[first.Not()] > 0 {
		list = append(list, face(p, first.Not(), u, false))
	}
	return list
}

// lettersOf gives the letters of the workings that are on a face, together, that of an end's bevel with its angle.
func lettersOf(works []Work, f part.Face) string {
	t := ""
	for _, w := range works {
		if w.Face == f {
			t += " " + w.Letter
			if w.op.Kind == part.Bevel && (f == part.Start || f == part.End) {
				t += fmt.Sprintf(" %d°", w.op.Angle)
			}
		}
	}
	return strings.TrimSpace(t)
}

// closeOnPaper is the pitch on paper, in mm, below which the grooves of a row would run together.
const closeOnPaper = 1.8

// crowded tells which workings are inner ones of a row of more than four grooves alike, each no further from the next than a
// pitch: a drawing leaves them out where their lines would run together, and shows the first and the last.
func crowded(ops []part.Op, pitch L) map[int]bool {
	out := map[int]bool{}
	at := func(o part.Op, axis int) L { return [2]L{o.X, o.Y}[axis] }
	for axis := range 2 {
		rows := map[part.Op][]int{}
		for i, o := range ops {
			if o.Kind == part.Groove {
				k := o
				if axis == 0 {
					k.X = 0
				} else {
					k.Y = 0
				}
				rows[k] = append(rows[k], i)
			}
		}
		for _, row := range rows {
			slices.SortFunc(row, func(a, b int) int { return cmp.Compare(at(ops[a], axis), at(ops[b], axis)) })
			far := false
			for k := 1; k < len(row); k++ {
				far = far || at(ops[row[k]], axis)-at(ops[row[k-1]], axis) > pitch
			}
			if len(row) <= 4 || far {
				continue
			}
			for _, i := range row[1 : len(row)-1] {
				out[i] = true
			}
		}
	}
	return out
}

// gapEdge is the paper between a face and an edge folded out beside it, in mm.
const gapEdge = 3.0

// face gives the figure of one face as somebody sees it who looks straight at it, the start end
// left. The near edge is then below on the upper face and above on the lower one, which shows
// the board turned over about its long edge; of a board that is higher than wide that edge stands, so that
// the near edge stays below and the start end is at the right. Nothing is ever drawn as its mirror image.
func face(p Part, f part.Face, u Units, first bool) Figure {
	l, w, t := p.Size[0], p.Size[1], p.Size[2]
	g := Figure{Title: FaceName(f), X1: l, Z1: w}
	if !first {
		g.Pad[3] = 1.2 // a thick line of edging may lie below it, and its name stands clear of that
	}
	flip, turn := f == part.Lower && w <= l, f == part.Lower && w > l
	y := func(v L) L {
		if flip {
			return w - v
		}
		return v
	}
	x := func(v L) L {
		if turn {
			return l - v
		}
		return v
	}
	works := Works(p, u)
	var worked [6]bool
	for _, o := range p.Ops {
		worked[o.Face] = true
	}
	// edges folded out only beside the first face; their thickness is drawn to scale
	fold := func(e part.Face) bool { return first && worked[e] }
	pad := func(e part.Face, c draw.Scale) float64 {
		if fold(e) {
			return gapEdge + c.MM(t)
		}
		return 0
	}
	left, right := part.Start, part.End
	if turn {
		left, right = right, left
	}
	// An edge is folded out about its arris on the face that is shown: that arris is the side of the strip next to the face. fit
	// gives where the strip lies, and how far right of, or above, its corner a height in the board is.
	fit := func(e part.Face, v draw.View) (strip draw.View, across func(L) L, long bool) {
		below := e == part.Near && !flip || e == part.Far && flip
		strip, long = v, e == part.Near || e == part.Far
		switch {
		case long && below:
			strip.Zero = strip.Zero.Add(draw.Pt(0, gapEdge+v.Scale.MM(t)))
		case long:
			strip.Zero = strip.Zero.Add(draw.Pt(0, -v.Scale.MM(w)-gapEdge))
		case (e == part.Start) != turn: // at the left
			strip.Zero = strip.Zero.Add(draw.Pt(-gapEdge-v.Scale.MM(t), 0))
		default:
			strip.Zero = strip.Zero.Add(draw.Pt(v.Scale.MM(l)+gapEdge, 0))
		}
		return strip, func(z L) L {
			if long && below || !long && (e == part.Start) != turn {
				z = t - z
			}
			if f == part.Upper {
				z = t - z
			}
			return z
		}, long
	}
	paint := func(s *draw.Sheet, v draw.View) (outside string) { // the letters that stand beside the face
		s.Layer = "Part"
		outline := v.Rect(0, 0, l, w)
		s.Rect(draw.Visible, outline)
		close := crowded(p.Ops, L(closeOnPaper*float64(v.Scale.Real)/float64(v.Scale.Paper)*float64(length.MM)))
		for i, o := range p.Ops {
			switch {
			case close[i]:
				if o.Face == f { // its middle alone: it is as the first and the last of its row
					b := v.Rect(min(x(o.X), x(o.X+o.L)), min(y(o.Y), y(o.Y+o.W)), max(x(o.X), x(o.X+o.L)), max(y(o.Y), y(o.Y+o.W)))
					if m := b.Mid(); b.H > b.W {
						s.Poly(draw.Fine, draw.Pt(m.X, b.Y), draw.Pt(m.X, b.Bottom()))
					} else {
						s.Poly(draw.Fine, draw.Pt(b.X, m.Y), draw.Pt(b.Right(), m.Y))
					}
				}
			case o.Face == f:
				paintOp(s, v, o, x, y, draw.Edge)
			case o.Face == f.Not() && through(o, p.Size):
				paintOp(s, v, o, x, y, draw.Edge)
			case o.Face == f.Not() && (o.Kind == part.Groove || o.Kind == part.Rabbet):
				paintOp(s, v, o, x, y, draw.Hidden)
			}
		}
		for i, b := range p.Bands {
			if b.Edging == "" {
				continue
			}
			// a banded edge: a second, thick line outside
			k, sign := 1.1, 1.0
			if turn {
				sign = -1
			}
			var a, c draw.Point
			switch i {
			case part.BandStart:
				a, c = v.At(x(0), 0).Add(draw.Pt(-sign*k, 0)), v.At(x(0), w).Add(draw.Pt(-sign*k, 0))
			case part.BandEnd:
				a, c = v.At(x(l), 0).Add(draw.Pt(sign*k, 0)), v.At(x(l), w).Add(draw.Pt(sign*k, 0))
			default:
				e := y(0)
				if i == part.BandFar {
					e = y(w)
				}
				d := k
				if e == w {
					d = -k
				}
				a, c = v.At(0, e).Add(draw.Pt(0, d)), v.At(l, e).Add(draw.Pt(0, d))
			}
			s.Poly(draw.Outline, a, c)
		}
		for _, e := range []part.Face{part.Start, part.End, part.Near, part.Far} {
			if !fold(e) {
				continue
			}
			strip, across, long := fit(e, v)
			if long {
				s.Rect(draw.Edge, strip.Rect(0, 0, l, t))
			} else {
				s.Rect(draw.Edge, strip.Rect(0, 0, t, w))
			}
			for _, o := range p.Ops {
				if o.Face != e {
					continue
				}
				if long {
					paintOp(s, strip, o, x, across, draw.Edge)
					continue
				}
				a, b := across(o.Y), across(o.Y+o.W) // (v, w): thickness to the right
				o.X, o.Y, o.L, o.W = min(a, b), o.X, o.W, o.L
				paintOp(s, strip, o, same, y, draw.Edge)
			}
			// what is worked in an end has its letters under the strip, in an edge at one of its ends, where nothing
			// else stands
			text := lettersOf(works, e)
			mid := strip.At(0, t/2).Y + draw.LeastCap/2
			ways := []draw.Text{{At: draw.Pt(strip.X(0)-1.4, mid), Align: draw.End}, {At: draw.Pt(strip.X(l)+1.4, mid), Align: draw.Start}}
			for _, out := range []float64{5.4, 9.4} { // beyond the letters of the ends
				ways = append(ways, draw.Text{At: draw.Pt(strip.X(0)-out, mid), Align: draw.End}, draw.Text{At: draw.Pt(strip.X(l)+out, mid), Align: draw.Start})
			}
			if !long {
				x, align := t/2, draw.Middle
				if len(text) > 1 { // away from the line of the length's figure
					if x, align = t, draw.End; (e == part.Start) == turn {
						x, align = 0, draw.Start
					}
				}
				ways = []draw.Text{{At: strip.At(x, 0).Add(draw.Pt(0, draw.LeastCap+1.2)), Align: align}}
			}
			for _, x := range ways {
				x.Text, x.Size, x.Bold = text, draw.LeastCap, true
				if text != "" && !onInk(s, x.Box().Inset(-0.2)) {
					s.Text(x.At, x.Size, x.Text, x.Align).Bold = true
					break
				}
			}
		}
		// the datum corner and the grain
		in, up := 1.0, -1.0
		if flip {
			up = 1
		}
		if turn {
			in = -1
		}
		var shown []draw.Rect
		for _, o := range p.Ops {
			if o.Kind != part.Bevel && o.Kind != part.Taper && (o.Face == f || o.Face == f.Not() && through(o, p.Size)) {
				shown = append(shown, spread(v, o, x, y))
			}
		}
		mark := datumMark(v.At(x(0), y(0)), in, up, outline, shown)
		s.Area(draw.Black, mark[:]...)
		datum := boxOf(mark)
		slants(s, v, p, f, x, y) // after all that an angle could stand on
		outside = letters(s, v, p.Size, works, f, x, y, pad(left, v.Scale), pad(right, v.Scale), mark, !fold(map[bool]part.Face{false: part.Near, true: part.Far}[flip]))
		grain(s, outline, p.Grain, datum)
		s.Layer = ""
		return outside
	}
	g.Paint = func(s *draw.Sheet, v draw.View) { paint(s, v) }
	g.Dims = func(d *draw.Dims, v draw.View) {
		r := d.View
		c := v.Scale
		above := part.Far
		if flip {
			above = part.Near
		}
		beside := 1.0
		if text := lettersOf(works, f); text != "" && r.H <= narrowFace { // they stand beside a face that is too narrow for them
			var s draw.Sheet
			if len(works) > 1 { // or below it
				text = paint(&s, v)
			}
			if x := (draw.Text{Text: text, Size: draw.LeastCap, Bold: true}); text != "" {
				beside = 2.4 + x.Width()
			}
		}
		// and those of an end reach out beyond its strip
		out := func(e part.Face) float64 {
			if !fold(e) {
				return beside
			}
			x := draw.Text{Text: lettersOf(works, e), Size: draw.LeastCap, Bold: true}
			return max(beside, x.Width()-c.MM(t)+1)
		}
		d.View = draw.Rect{X: r.X - pad(left, c) - out(left), Y: r.Y - pad(above, c) - 1, W: r.W + pad(left, c) + out(left) + pad(right, c) + out(right), H: r.H + pad(part.Far, c) + pad(part.Near, c) + 2}
		// what is worked in edges and ends that are folded out has its figures in the same rows
		xs := taped(works, l, func(k Work) ([]L, L) {
			if k.Face == f || fold(k.Face) && (k.Face == part.Near || k.Face == part.Far) {
				return k.X, k.op.L
			}
			return nil, 0
		})
		ys := taped(works, w, func(k Work) ([]L, L) {
			switch {
			case k.Face == f:
				return k.Y, k.op.W
			case fold(k.Face) && (k.Face == part.Start || k.Face == part.End):
				return k.X, k.op.L
			}
			return nil, 0
		})
		up, down := halves(xs, int((r.W+beyond)/figure))
		if first { // each size once
			if len(down) > 0 { // the length ends their row
				down = append(down, l)
			} else {
				d.Single(draw.Below, v.X(0), v.X(l), u.Mark(l))
			}
			d.Single(draw.Left, v.Y(0), v.Y(w), u.Mark(w))
		}
		hook(d, draw.Above, v.X(x(0)), sorted(up), func(a L) (float64, string) { return v.X(x(a)), u.Mark(a) })
		hook(d, draw.Below, v.X(x(0)), sorted(down), func(a L) (float64, string) { return v.X(x(a)), u.Mark(a) })
		hook(d, draw.Right, v.Y(y(0)), sorted(slices.Concat(ys...)), func(a L) (float64, string) { return v.Y(y(a)), u.Mark(a) })
		for _, e := range []part.Face{part.Start, part.End, part.Near, part.Far} { // up the thickness, where the words do not say the middle
			if !fold(e) {
				continue
			}
			up := slices.Concat(taped(works, t, func(k Work) ([]L, L) {
				if k.Face != e || k.middle() {
					return nil, 0
				}
				return k.Y, k.op.W
			})...)
			strip, across, long := fit(e, v)
			side, at := draw.Above, strip.X
			if long {
				side, at = draw.Right, strip.Y
			}
			hook(d, side, at(across(0)), sorted(up), func(a L) (float64, string) { return at(across(a)), u.Mark(a) })
		}
	}
	return g
}

// grain draws the arrow along the grain on a face, in its middle or as near to it as it lies on nothing that is drawn
// there and off the mark of the datum corner, shorter where no long one has room.
func grain(s *draw.Sheet, face draw.Rect, g part.Grain, datum draw.Rect) {
	long, wide := face.W, face.H
	if g == part.Across {
		long, wide = wide, long
	}
	if g == part.Free || long < 12 || wide < 6.5 {
		return
	}
	const clear = 1.3 // paper beside it
	most := min(12, long/4)
	for _, half := range []float64{most, most * 0.75, most * 0.5, 3.4} {
		for _, along := range []float64{0, -1, 1, -2, 2} {
			for step := range int(wide / 2) {
				for _, across := range []float64{float64(step), -float64(step)} {
					m, d, box := face.Mid(), draw.Pt(half, 0), draw.Pt(half+0.6, clear)
					if g == part.Across {
						m = m.Add(draw.Pt(across, along*long/9))
						d, box = draw.Pt(0, half), draw.Pt(clear, half+0.6)
					} else {
						m = m.Add(draw.Pt(along*long/9, across))
					}
					r := draw.Rect{X: m.X - box.X, Y: m.Y - box.Y, W: 2 * box.X, H: 2 * box.Y}
					if half < 3.3 || !face.Inset(0.5).Has(r) || onInk(s, r) || r.Meets(datum) {
						continue
					}
					was := s.Layer
					s.Layer = "Grain"
					s.Poly(draw.Narrow, m.Sub(d), m.Add(d))
					s.Arrow(m, m.Add(d))
					s.Arrow(m, m.Sub(d))
					s.Layer = was
					return
				}
			}
		}
	}
}

// taped gives the places of a drawing that have a figure, along it or across, from the datum corner, working by
// working: both sides of straight work and every hole, of an even row its first and last, for the list beside the
// drawing has the step. None is left out for want of room: the figures spread, and the drawing takes the paper
// that they need. at gives a working's places, none for what is not shown, and how far its straight work goes;
// most is the board's size.
func taped(works []Work, most L, at func(Work) ([]L, L)) (told [][]L) {
	for _, k := range works {
		own, wide := at(k)
		if len(own) == 0 || k.op.Kind == part.Bevel || k.op.Kind == part.Taper {
			continue
		}
		if _, even := evenStep(own); even {
			own = []L{own[0], own[len(own)-1]}
		}
		own = slices.Clone(own)
		switch k.op.Kind {
		case part.Groove, part.Rabbet, part.Notch, part.Cutout, part.Slot:
			for _, o := range own[:len(own):len(own)] {
				own = append(own, o+wide)
			}
		}
		told = append(told, slices.DeleteFunc(own, func(a L) bool { return a <= 0 || a >= most }))
	}
	return told
}

// halves gives the places of workings that stand in a row above a drawing and, where they are more than that has room for,
// those that stand in one below it: the later half of the workings.
func halves(told [][]L, room int) (above, below []L) {
	all := slices.Concat(told...)
	if len(sorted(all)) <= room {
		return all, nil
	}
	for _, own := range told {
		if len(above) == 0 || len(sorted(append(slices.Clone(above), own...))) <= (len(sorted(all))+1)/2 {
			above = append(above, own...)
		} else {
			below = append(below, own...)
		}
	}
	return above, below
}

// beyond is how much longer than a board the row of its figures may be on paper, in mm, before they stand in two.
const beyond = 20.0

// figure is the paper that a figure at the end of an extension line takes, in mm.
const figure = 4.4

// same places a coordinate where it is.
func same(v L) L { return v }

// paintOp draws one working as its face shows it; x and y place its coordinates.
func paintOp(s *draw.Sheet, v draw.View, o part.Op, x, y func(L) L, l draw.Line) {
	switch o.Kind {
	case part.Hole, part.Cup, part.Countersink:
		r := max(v.Scale.MM(o.Dia)/2, 0.35)
		p := s.Circle(l, v.At(x(o.X), y(o.Y)), r)
		if r < 0.8 {
			p.Line = draw.Fine
		}
		if o.Kind == part.Cup || r > 1.5 {
			c := v.At(x(o.X), y(o.Y))
			s.Poly(draw.Fine, c.Add(draw.Pt(-r-1, 0)), c.Add(draw.Pt(r+1, 0)))
			s.Poly(draw.Fine, c.Add(draw.Pt(0, -r-1)), c.Add(draw.Pt(0, r+1)))
		}
	case part.Pocket:
		// an arrow from the pocket to the edge that the screw leaves by
		c, from, w := pocket(v, o, x, y)
		s.Shape(draw.Fine, from.Add(w), c.Add(w.Times(0.3)), c.Sub(w.Times(0.3)), from.Sub(w))
	case part.Bevel, part.Taper: // see slant
	default:
		a, b := y(o.Y), y(o.Y+o.W)
		left, right := x(o.X), x(o.X+o.L)
		r := v.Rect(min(left, right), min(a, b), max(left, right), max(a, b))
		if o.Kind == part.Notch || o.Kind == part.Cutout {
			s.Area(draw.White, r.Inset(-0.3).Corners()...)
			s.Rect(l, r)
			s.Poly(draw.Fine, draw.Pt(r.X, r.Y), draw.Pt(r.Right(), r.Bottom()))
			return
		}
		s.Rect(l, r)
	}
}

// pocket gives where on the paper the screw of a pocket leaves the board, where its drill goes in, and half the drill's
// width across.
func pocket(v draw.View, o part.Op, x, y func(L) L) (c, from, half draw.Point) {
	c = v.At(x(o.X), y(o.Y))
	d := draw.Pt(1, 0)
	if x(1) < x(0) {
		d = draw.Pt(-1, 0)
	}
	switch o.Towards {
	case part.Start:
		d = d.Times(-1)
	case part.Near, part.Far:
		d = draw.Pt(0, 1)
		if (o.Towards == part.Far) == (y(1) > y(0)) {
			d = draw.Pt(0, -1)
		}
	}
	long := max(3, v.Scale.MM(40*length.MM))
	return c, c.Sub(d.Times(long)), draw.Pt(-d.Y, d.X).Times(max(0.5, v.Scale.MM(9*length.MM)/2))
}

// spread gives the room that a working takes on the paper.
func spread(v draw.View, o part.Op, x, y func(L) L) draw.Rect {
	switch o.Kind {
	case part.Hole, part.Cup, part.Countersink:
		r := max(v.Scale.MM(o.Dia)/2, 0.35)
		c := v.At(x(o.X), y(o.Y))
		return draw.Rect{X: c.X - r, Y: c.Y - r, W: 2 * r, H: 2 * r}
	case part.Pocket:
		c, from, w := pocket(v, o, x, y)
		w = draw.Pt(math.Abs(w.X), math.Abs(w.Y))
		lo, hi := draw.Pt(min(c.X, from.X), min(c.Y, from.Y)).Sub(w), draw.Pt(max(c.X, from.X), max(c.Y, from.Y)).Add(w)
		return draw.Rect{X: lo.X, Y: lo.Y, W: hi.X - lo.X, H: hi.Y - lo.Y}
	}
	a, b, left, right := y(o.Y), y(o.Y+o.W), x(o.X), x(o.X+o.L)
	return v.Rect(min(left, right), min(a, b), max(left, right), max(a, b))
}
