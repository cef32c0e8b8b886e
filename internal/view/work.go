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

// Work is one line of a table of workings: all that one setting of a tool makes on one face,
// at every crossing of X and Y.
type Work struct {
	Letter string // a, b ...: on the drawing too
	What   string // "hole", "groove" ...
	Face   part.Face
	X, Y   []L // from the start end, from the near edge; see Places
	Size   string
	Depth  string
	Tool   string
	For    string
	Count  int
	thick  L       // the board's
	op     part.Op // the first
	ops    []part.Op
	unit   Units
}

// Text says what is done: "shelf pin: hole 1/4 dia., 7/16 deep".
func (w Work) Text() string {
	t := w.What
	if w.Size != "" {
		t += " " + w.Size
	}
	switch w.Depth {
	case "":
	case "through":
		t += ", through"
	default:
		t += ", " + w.Depth + " deep"
	}
	if w.For != "" && w.For != w.What {
		t = w.For + ": " + t
	}
	if w.Count > 1 {
		t = fmt.Sprintf("%d × %s", w.Count, t)
	}
	return t
}

// Places says where, as distances from the datum corner: along the board and across it on a
// face; on an end, across the board and up its thickness; on an edge, along and up. What stands in the middle of the thickness is said to.
func (w Work) Places() string {
	x, y := "along ", "across "
	switch w.Face {
	case part.Start, part.End:
		x, y = "across ", "up "
	case part.Near, part.Far:
		y = "up "
	}
	switch w.op.Kind {
	case part.Bevel, part.Taper:
		return ""
	}
	at := x + series(w.X, w.unit) + "; " + y + series(w.Y, w.unit)
	if w.middle() {
		at += ", the middle"
	}
	return at
}

// middle tells whether what is worked in an end or an edge stands in the middle of its thickness.
func (w Work) middle() bool {
	return w.Face > part.Lower && len(w.Y) == 1 && (2*w.Y[0]+w.op.W-w.thick).Abs() < length.MM/10
}

// series prints distances: one by one, or the first, the step and the last where they are even.
func series(at []L, u Units) string {
	if step, even := evenStep(at); even {
		return fmt.Sprintf("%s, then every %s to %s (%d places)", Sure(at[0], u), Sure(step, u), Sure(at[len(at)-1], u), len(at))
	}
	var out []string
	for _, l := range at {
		out = append(out, Sure(l, u))
	}
	return strings.Join(out, ", ")
}

// evenStep gives the step of a row of more than four even places.
func evenStep(at []L) (L, bool) {
	if len(at) <= 4 {
		return 0, false
	}
	step := at[1] - at[0]
	for i := 2; i < len(at); i++ {
		if (at[i] - at[i-1] - step).Abs() > 2 {
			return 0, false
		}
	}
	return step, true
}

// Sure prints a length as a tape shows it and, where that is not the whole truth, the exact
// size behind it, to 0.001 in or 0.01 mm; or, where both units are asked for, the other.
func Sure(l L, u Units) string {
	t := l.Tape(u.Unit)
	if u.Too && l != 0 {
		if x := l.Near(length.MM / 100); u.Unit == length.Millimetres {
			t = x.MM()
		}
		return t + " (" + u.Other(l) + ")"
	}
	if (l - l.Near(u.Step())).Abs() < length.MM/20 { // no tape and no saw shows less
		return t
	}
	if u.Unit == length.Millimetres {
		if x := l.Near(length.MM / 100); !x.IsTape(u.Unit) {
			return t + " (" + x.MM() + ")" // the figure before it is that of the drawings and the tape
		}
		return t
	}
	x := l.Near(length.Inch / 1000)
	if x.IsTape(u.Unit) {
		return t
	}
	return fmt.Sprintf("%s (%.3f)", t, float64(x)/float64(length.Inch))
}

// bare takes the paper's own unit off a printed size.
func bare(t string, u Units) string { return strings.TrimSuffix(t, " "+u.Unit.String()) }

// Works gives a part's workings, those on the upper and lower face first.
func Works(p Part, u Units) []Work {
	type key struct {
		k          part.OpKind
		f          part.Face
		l, w       L
		dia, deep  L
		tool, use  string
		angle, tow int
		from, to   L // tapers
	}
	at := map[key][]part.Op{}
	var order []key
	first := FirstFace(p)
	for _, o := range p.Ops {
		o = facing(o, first, p.Size)
		k := key{o.Kind, o.Face, o.L, o.W, o.Dia, o.Depth, o.Tool, o.For, o.Angle, int(o.Towards), 0, 0}
		switch o.Kind {
		case part.Taper:
			k.from, k.to = o.Y, o.Depth
		case part.Pocket: // both ends, or both edges, are one setting of the jig
			k.tow &^= 1
		}
		if at[k] == nil {
			order = append(order, k)
		}
		at[k] = append(at[k], o)
	}
	slices.SortStableFunc(order, func(a, b key) int {
		return cmp.Or(cmp.Compare(a.f, b.f), cmp.Compare(a.k, b.k), cmp.Compare(at[a][0].Y, at[b][0].Y), cmp.Compare(at[a][0].X, at[b][0].X))
	})
	var out []Work
	for _, k := range order {
		for _, ops := range grids(at[k]) {
			w := Work{Letter: letter(len(out)), What: k.k.String(), Face: k.f, Tool: k.tool, For: k.use, Count: len(ops), thick: p.Size[2], op: ops[0], ops: ops, unit: u}
			for _, o := range ops {
				w.X, w.Y = append(w.X, o.X), append(w.Y, o.Y)
			}
			slices.Sort(w.X)
			slices.Sort(w.Y)
			w.X, w.Y = slices.Compact(w.X), slices.Compact(w.Y)
			describe(&w, p)
			out = append(out, w)
		}
	}
	return out
}

func letter(n int) string {
	if n < 26 {
		return string(rune('a' + n))
	}
	return letter(n/26-1) + letter(n%26)
}

// grids parts workings of one setting into sets that stand at every crossing of some distances
// along with some distances across: first by line across, then lines that share their places.
func grids(ops []part.Op) [][]part.Op {
	lines := map[L][]part.Op{}
	var ys []L
	for _, o := range ops {
		if lines[o.Y] == nil {
			ys = append(ys, o.Y)
		}
		lines[o.Y] = append(lines[o.Y], o)
	}
	slices.Sort(ys)
	at := map[string]int{}
	var out [][]part.Op
	for _, y := range ys {
		l := lines[y]
		slices.SortFunc(l, func(a, b part.Op) int { return cmp.Compare(a.X, b.X) })
		k := ""
		for _, o := range l {
			k += fmt.Sprint(int64(o.X), " ")
		}
		i, ok := at[k]
		if !ok {
			i = len(out)
			at[k] = i
			out = append(out, nil)
		}
		out[i] = append(out[i], l...)
	}
	return out
}

func describe(w *Work, p Part) {
	o, u := w.op, w.unit
	_, _, deep := o.Face.Extent(p.Size)
	if o.Kind == part.Pocket {
		w.What = "pocket to the " + FaceName(o.Towards)
		if n := len(w.X); n > 1 && w.X[0] == 0 && w.X[n-1] == p.Size[0] {
			w.What = "pocket to either end"
		} else if n := len(w.Y); n > 1 && w.Y[0] == 0 && w.Y[n-1] == p.Size[1] {
			w.What = "pocket to either edge"
		}
	}
	switch {
	case o.Kind == part.Bevel:
		w.What = fmt.Sprintf("bevel at %d°, the whole %s: cut back on the %s, full width on the other", o.Angle, FaceName(o.Face), FaceName(o.Towards))
		return
	case o.Kind == part.Taper:
		w.What = fmt.Sprintf("taper on the %s: %s off at the start end, %s off at the far end", FaceName(o.Face), Sure(o.Y, u), Sure(o.Depth, u))
		return
	case o.Dia > 0:
		w.Size = bare(o.Dia.Bit(u.Unit), u) + " dia."
	case o.Kind == part.Notch || o.Kind == part.Cutout:
		w.Size = Sure(o.L, u) + " × " + Sure(o.W, u)
	case o.L > 0 || o.W > 0:
		w.Size = Sure(o.L, u) + " long, " + bare(o.W.Set(u.Unit), u) + " wide"
		if o.L < o.W {
			w.Size = Sure(o.W, u) + " long across the board, " + bare(o.L.Set(u.Unit), u) + " wide"
		}
	}
	switch {
	case o.Depth == 0:
	case through(o, p.Size) || o.Depth >= deep:
		w.Depth = "through"
	case o.Kind == part.Hole || o.Kind == part.Cup:
		w.Depth = bare(o.Depth.Stop(u.Unit), u)
	default:
		w.Depth = bare(o.Depth.Set(u.Unit), u)
	}
	if o.Kind == part.Pocket && o.Angle != 0 {
		w.Size += fmt.Sprintf(" at %d°", o.Angle)
	}
}

// FirstFace is the face of a board that its drawing shows first: the one with more work.
func FirstFace(p Part) part.Face { return p.First() }

// facing gives a working that goes through a board as one of the first face: it is the same
// from either.
func facing(o part.Op, first part.Face, size [3]L) part.Op {
	if o.Face <= part.Lower && through(o, size) && o.Kind != part.Countersink && o.Kind != part.Pocket {
		o.Face = first
	}
	return o
}

// slants draws what bevels and tapers take off a face: a taper as the slanting line it leaves,
// a bevel as the line where it meets the face; the angle of an edge's stands beside
// that, the one of an end's at its letter.
func slants(s *draw.Sheet, v draw.View, p Part, f part.Face, x, y func(L) L) {
	l, w, t := p.Size[0], p.Size[1], p.Size[2]
	for _, o := range p.Ops {
		switch o.Kind {
		case part.Taper:
			a, b := y(o.Y), y(o.Depth)
			if o.Face == part.Far {
				a, b = y(w-o.Y), y(w-o.Depth)
			}
			if o.Face == part.Near || o.Face == part.Far {
				s.Poly(draw.Visible, v.At(x(0), a), v.At(x(l), b))
			}
		case part.Bevel:
			in := o.Depth // how far it eats into the face that Towards names
			if a := math.Abs(math.Tan(float64(o.Angle) * math.Pi / 180)); in == 0 && a > 0 {
				in = L(float64(t) * a)
			}
			line := draw.Hidden
			if o.Towards == f {
				line = draw.Edge
			}
			var a, b draw.Point
			switch o.Face {
			case part.Near:
				a, b = v.At(0, y(in)), v.At(l, y(in))
			case part.Far:
				a, b = v.At(0, y(w-in)), v.At(l, y(w-in))
			case part.Start:
				a, b = v.At(x(in), 0), v.At(x(in), w)
			case part.End:
				a, b = v.At(x(l-in), 0), v.At(x(l-in), w)
			default:
				continue
			}
			s.Poly(line, a, b)
			if o.Face == part.Near || o.Face == part.Far {
				angle(s, v.Rect(0, 0, l, w), a, b, fmt.Sprintf("%d°", o.Angle))
			}
		}
	}
}

// angle sets the angle of a bevel on a face beside the line from a to b, on one of its sides, clear of all that is drawn; on a
// face that is too narrow for it the list beside the drawing alone has it.
func angle(s *draw.Sheet, face draw.Rect, a, b draw.Point, text string) {
	for _, along := range []float64{0.25, 0.75, 0.4, 0.6, 0.85, 0.15} {
		for _, off := range []float64{-0.9, draw.LeastCap + 0.9} {
			t := draw.Text{At: a.Add(b.Sub(a).Times(along)).Add(draw.Pt(0, off)), Text: text, Size: draw.LeastCap, Align: draw.Middle}
			if face.Inset(0.2).Has(t.Box()) && !onInk(s, t.Box()) {
				s.Text(t.At, t.Size, t.Text, t.Align)
				return
			}
		}
	}
}

// overText tells whether a line meets a text that is on the sheet.
func overText(s *draw.Sheet, line *draw.Path) bool {
	return anyText(s, line.Strikes)
}

// anyText tells whether something is so of the paper that a text of a sheet takes.
func anyText(s *draw.Sheet, is func(draw.Rect) bool) bool {
	return slices.ContainsFunc(s.Items, func(it draw.Item) bool {
		t, ok := it.(*draw.Text)
		return ok && is(t.Box())
	})
}

// textBoxes gives the paper that the texts of a sheet take.
func textBoxes(s *draw.Sheet) (list []draw.Rect) {
	for _, it := range s.Items {
		if t, ok := it.(*draw.Text); ok {
			list = append(list, t.Box())
		}
	}
	return list
}

// onInk tells whether a rectangle meets a text or a line that is on the sheet already.
func onInk(s *draw.Sheet, r draw.Rect) bool {
	for _, it := range s.Items {
		switch x := it.(type) {
		case *draw.Text:
			if x.Meets(r) {
				return true
			}
		case *draw.Path:
			if x.Strikes(r) {
				return true
			}
		}
	}
	return false
}
