package draw

import (
	"fmt"

	"stowright/internal/length"
)

// Scale is a drawing scale: Paper to Real.
type Scale struct{ Paper, Real int }

func (c Scale) String() string { return fmt.Sprintf("%d:%d", c.Paper, c.Real) }

// MM is the size on paper of a real size.
func (c Scale) MM(l length.Length) float64 {
	return float64(l) * float64(c.Paper) / (float64(c.Real) * float64(length.MM))
}

// Scales are the recommended scales, largest drawing first: ISO 5455, or those that an
// inch rule reads (1:8 is 1 1/2 in to the foot, 1:12 one inch to the foot ...).
func Scales(inches bool) []Scale {
	if inches {
		return []Scale{{2, 1}, {1, 1}, {1, 2}, {1, 4}, {1, 8}, {1, 12}, {1, 16}, {1, 24}, {1, 32}, {1, 48}, {1, 96}}
	}
	return []Scale{{5, 1}, {2, 1}, {1, 1}, {1, 2}, {1, 5}, {1, 10}, {1, 20}, {1, 50}, {1, 100}, {1, 200}}
}

// FitScale gives the largest scale, not above the actual size, at which w by h fits in
// wide by high mm of paper; the smallest there is when none does.
func FitScale(inches bool, w, h length.Length, wide, high float64) Scale {
	all := Scales(inches)
	for _, c := range all {
		if c.Paper <= c.Real && c.MM(w) <= wide && c.MM(h) <= high {
			return c
		}
	}
	return all[len(all)-1]
}

// View maps a plane of the model, its second axis upwards, to the paper: the model's zero
// lands on Zero.
type View struct {
	Scale Scale
	Zero  Point
}

// X, Y and At give places on paper.
func (v View) X(l length.Length) float64    { return v.Zero.X + v.Scale.MM(l) }
func (v View) Y(l length.Length) float64    { return v.Zero.Y - v.Scale.MM(l) }
func (v View) At(x, up length.Length) Point { return Point{v.X(x), v.Y(up)} }
func (v View) Real(x, up float64) Point { // real millimetres, for projected views
	k := float64(v.Scale.Paper) / float64(v.Scale.Real)
	return Point{v.Zero.X + x*k, v.Zero.Y - up*k}
}

// Rect gives the place of a rectangle between two corners.
func (v View) Rect(x0, up0, x1, up1 length.Length) Rect {
	return Rect{v.X(x0), v.Y(up1), v.Scale.MM(x1 - x0), v.Scale.MM(up1 - up0)}
}

// Centred gives the view that puts the middle of the model's rectangle in the middle of r.
func Centred(c Scale, r Rect, x0, up0, x1, up1 length.Length) View {
	v := View{Scale: c}
	m := v.Rect(x0, up0, x1, up1).Mid()
	return View{c, r.Mid().Sub(m)}
}

// CheckBar draws a bar of 100 mm over one of 4 in, to be laid against a tape before
// anything is measured on the print; at is the left upper end. It takes 186 by 7 mm.
func (s *Sheet) CheckBar(at Point) {
	bar := func(y, total float64, parts int, label string, base float64) {
		step := total / float64(parts)
		for i := range parts {
			p := s.Rect(Narrow, Rect{at.X + float64(i)*step, y, step, 2})
			p.Filled, p.Fill = true, White
			if i%2 == 0 {
				p.Fill = Black
			}
		}
		s.Text(Pt(at.X+104, base), LeastCap, label, Start).Bold = true
	}
	bar(at.Y+0.8, 100, 10, "100 mm", at.Y+LeastCap)
	bar(at.Y+3.4, 101.6, 8, "4 in", at.Y+2*LeastCap+1.2)
	s.Text(Pt(at.X+120, at.Y+LeastCap), LeastCap, s.Said("Print at 100 %: lay a tape"), Start)
	s.Text(Pt(at.X+120, at.Y+2*LeastCap+1.2), LeastCap, s.Said("on both bars."), Start)
}
