package view

import (
	"slices"

	"stowright/internal/cutting"
	"stowright/internal/draw"
	"stowright/internal/draw/font"
)

// Filling gives the picture of one sheet of a cutting plan, see Laid.Draw.
func Filling(sh cutting.Sheet, marks []string, u Units, link func(mark string) string) Figure {
	f := Figure{X1: sh.L, Z1: sh.W, Pad: [4]float64{BesideSheet, aboveSheet, BesideSheet, belowSheet}}
	laid := Lay(sh, marks, nil, u, link)
	f.Paint = func(s *draw.Sheet, v draw.View) {
		at := v.At(0, sh.W)
		laid.Draw(v.Scale, &Keys{}, nil).Put(s, draw.Pt(at.X-BesideSheet, at.Y-aboveSheet))
	}
	return f
}

// onEnd gives a sheet of a cutting plan stood on its left end.
func onEnd(sh cutting.Sheet) cutting.Sheet {
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
	out.Damage = slices.Clone(sh.Damage)
	for i := range out.Damage {
		out.Damage[i] = turn(out.Damage[i])
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
func name(s *draw.Sheet, r draw.Rect, mark string, p cutting.Piece, u Units) bool {
	l, w := p.L, p.W
	if p.Turned {
		l, w = w, l
	}
	size := l.Tape(u.Unit) + " × " + w.Tape(u.Unit)
	for _, lines := range [][]string{{mark, size}, {mark + "  " + size}, {mark, l.Tape(u.Unit) + " ×", w.Tape(u.Unit)}, {mark}} {
		if label(s, r, lines, true) {
			return true
		}
	}
	return false
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
