package view

import (
	"fmt"
	"slices"

	"stowright/internal/cutting"
	"stowright/internal/draw"
	"stowright/internal/draw/font"
)

// Filling gives the picture of one sheet of a cutting plan: pieces with their marks and sizes
// as sawn, grain, numbered cuts, and what is left hatched. Pieces without room for their mark have a letter, see Keys.
func Filling(sh cutting.Sheet, marks []string, u Units, link func(mark string) string) Figure {
	f := Figure{X1: sh.L, Z1: sh.W, Pad: [4]float64{besideSheet, 8.4, besideSheet, belowSheet}}
	f.Paint = func(s *draw.Sheet, v draw.View) {
		s.Layer = "Sheet"
		for _, o := range sh.Offcuts {
			r := v.Rect(o.X, o.Y, o.X+o.L, o.Y+o.W)
			if o.Scrap {
				s.Hatch(draw.GroundHatch, r.Corners())
			} else {
				s.Hatch(draw.KeepClear, r.Corners())
			}
			s.Rect(draw.Fine, r)
		}
		s.Rect(draw.Outline, v.Rect(0, 0, sh.L, sh.W))
		for i, p := range sh.Pieces {
			r := v.Rect(p.X, p.Y, p.X+p.L, p.Y+p.W)
			a := s.Rect(draw.Edge, r)
			a.Filled, a.Fill = true, draw.White
			if i < len(marks) {
				name(s, r, marks[i], p, u)
				if to := link(marks[i]); to != "" {
					s.Link(r, to)
				}
			}
		}
		s.Layer = "Offcuts"
		for _, o := range sh.Offcuts {
			if o.Scrap {
				continue
			}
			r := v.Rect(o.X, o.Y, o.X+o.L, o.Y+o.W)
			l, w := o.L.Tape(u.Unit), o.W.Tape(u.Unit)
			what := "offcut"
			if o.Keeps > 0 {
				what = fmt.Sprintf("keep: sheet %d", o.Keeps)
			}
			_ = label(s, r, []string{what, l + " × " + w}, false) || label(s, r, []string{what, l + " ×", w}, false)
		}
		s.Layer = "Sheet"
		letterPieces(s, v, sh, Keys(sh, marks, v.Scale))
		s.Layer = "Cuts"
		paintCuts(s, v, sh)
		s.Layer = "Grain"
		if sh.Grain == cutting.GrainX {
			long := max(5, min(18, v.Scale.MM(sh.L)-16)) // the word has room beside it
			g := draw.Pt(v.X(sh.L)-4-long, v.Y(sh.W)-5)
			s.Poly(draw.Edge, g, g.Add(draw.Pt(long, 0)))
			s.Arrow(g, g.Add(draw.Pt(long, 0)))
			s.Arrow(g.Add(draw.Pt(long, 0)), g)
			s.Text(g.Add(draw.Pt(-2, 1)), draw.LeastCap, draw.Fit(s.Said("grain"), draw.LeastCap, false, grainWord), draw.End)
		} else if sh.Grain == cutting.GrainY {
			foot, head := draw.Pt(v.X(sh.L)-3, v.Y(sh.W)-2.6), draw.Pt(v.X(sh.L)-3, v.Y(sh.W)-8)
			s.Poly(draw.Edge, foot, head)
			s.Arrow(foot, head)
			s.Text(draw.Pt(foot.X-2, foot.Y-0.9), draw.LeastCap, draw.Fit(s.Said("grain"), draw.LeastCap, false, grainWord), draw.End)
		}
		s.Layer = ""
	}
	return f
}

// grainWord is the paper that the word beside the arrow takes at most, in mm.
const grainWord = 11

// OnEnd gives a sheet of a cutting plan stood on its left end, for a picture that is higher than wide.
func OnEnd(sh cutting.Sheet) cutting.Sheet {
	turn := func(r cutting.Rect) cutting.Rect {
		return cutting.Rect{X: sh.W - r.Y - r.W, Y: r.X, L: r.W, W: r.L}
	}
	out := sh
	out.L, out.W = sh.W, sh.L
	switch sh.Grain {
	case cutting.GrainX:
		out.Grain = cutting.GrainY
	case cutting.GrainY:
		out.Grain = cutting.GrainX
	}
	out.Pieces, out.Cuts, out.Offcuts = slices.Clone(sh.Pieces), slices.Clone(sh.Cuts), slices.Clone(sh.Offcuts)
	for i := range out.Pieces {
		p := &out.Pieces[i]
		p.Rect, p.Turned = turn(p.Rect), !p.Turned
	}
	for i := range out.Offcuts {
		out.Offcuts[i].Rect = turn(out.Offcuts[i].Rect)
	}
	for i := range out.Cuts {
		c := &out.Cuts[i]
		c.Of = turn(c.Of)
		if c.Axis == cutting.X {
			c.Axis = cutting.Y
		} else {
			c.Axis, c.At = cutting.X, sh.W-c.At-c.Kerf
		}
	}
	return out
}

// name writes a piece's mark and size where they fit: lying or standing, in two lines, one or
// three; or the mark alone.
func name(s *draw.Sheet, r draw.Rect, mark string, p cutting.Piece, u Units) {
	l, w := p.L, p.W
	if p.Turned {
		l, w = w, l
	}
	size := l.Tape(u.Unit) + " × " + w.Tape(u.Unit)
	for _, lines := range [][]string{{mark, size}, {mark + "  " + size}, {mark, l.Tape(u.Unit) + " ×", w.Tape(u.Unit)}, {mark}} {
		if label(s, r, lines, true) {
			return
		}
	}
}

// fits tells whether lines have room in the middle of a rectangle, and whether they read upwards there.
func fits(r draw.Rect, lines []string, named bool) (wide, high float64, up, ok bool) {
	const row, air = 4.0, 1.0
	for i, l := range lines {
		t := draw.Text{Text: l, Size: draw.LeastCap, Bold: named && i == 0}
		wide = max(wide, t.Width())
	}
	high = row*float64(len(lines)) - (row - draw.LeastCap)
	need := high + 2.2
	if len(lines) == 1 { // a strip need be no higher than its letters
		need = draw.LeastCap*(font.Rise+font.Drop) + 0.1
	}
	switch {
	case wide+2*air <= r.W && need <= r.H:
		return wide, high, false, true
	case wide+2*air <= r.H && need <= r.W:
		return wide, high, true, true
	}
	return wide, high, false, false
}

// label sets lines in the middle of a rectangle, lying or reading upwards, and says whether
// they fit. The first line is bold when it is a name.
func label(s *draw.Sheet, r draw.Rect, lines []string, named bool) bool {
	const row = 4.0
	wide, high, up, ok := fits(r, lines, named)
	if !ok {
		return false
	}
	m := r.Mid()
	if !named { // on a hatch: a white ground
		bg := draw.Rect{X: m.X - wide/2 - 1, Y: m.Y - high/2 - 1, W: wide + 2, H: high + 2}
		if up {
			bg = draw.Rect{X: m.X - high/2 - 1, Y: m.Y - wide/2 - 1, W: high + 2, H: wide + 2}
		}
		s.Area(draw.White, bg.Corners()...)
	}
	for i, l := range lines {
		off := -high/2 + draw.LeastCap + row*float64(i)
		if len(lines) == 1 {
			off = draw.LeastCap * (font.Rise - font.Drop) / 2
		}
		t := s.Text(draw.Pt(m.X, m.Y+off), draw.LeastCap, l, draw.Middle)
		t.Bold = named && i == 0
		if up {
			t.At, t.Up = draw.Pt(m.X+off, m.Y), true
		}
	}
	return true
}
