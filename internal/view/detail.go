package view

import (
	"fmt"

	"stowright/internal/draw"
	"stowright/internal/draw/hidden"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
)

// detail gives a corner of an owner cut by a plane, as large as its boards can be measured in
// the drawing: what is within the window, every board and gap that is cut dimensioned.
func detail(title string, parts []Part, c plane, window Box, u length.Unit) Figure {
	f := rect(Figure{Title: title}, window, c.right, c.up)
	within := make([][]Box, len(parts))
	for i, p := range parts {
		for _, b := range Boxes(p) {
			if x := b.And(window); !x.Empty() {
				within[i] = append(within[i], x)
			}
		}
	}
	cut := func(b Box) bool { return b.Min.At(c.axis) < c.at && c.at < b.Max.At(c.axis) }
	f.Paint = func(s *draw.Sheet, v draw.View) {
		s.Layer = "Detail"
		var behind []hidden.Solid
		for i, boxes := range within {
			so := hidden.Solid{ID: i}
			for _, b := range boxes {
				if c.above {
					b.Min = b.Min.With(c.axis, max(b.Min.At(c.axis), c.at))
				} else {
					b.Max = b.Max.With(c.axis, min(b.Max.At(c.axis), c.at))
				}
				if !b.Empty() {
					so.Boxes = append(so.Boxes, b)
				}
			}
			if len(so.Boxes) > 0 {
				behind = append(behind, so)
			}
		}
		paint(s, hidden.Lines(c.view, behind, false), flat(v), draw.Fine, draw.NoLine)
		for i, boxes := range within {
			var mine []Box
			for _, b := range boxes {
				if !cut(b) {
					continue
				}
				mine = append(mine, b)
				r := v.Rect(b.Min.At(c.right), b.Min.At(c.up), b.Max.At(c.right), b.Max.At(c.up))
				h := draw.CutBoard
				if r.H > r.W {
					h = draw.CutBoard2
				}
				if parts[i].Material == part.Stick {
					h = draw.EndGrain
				}
				s.Hatch(h, r.Corners())
			}
			if len(mine) > 0 {
				paint(s, hidden.Lines(c.view, []hidden.Solid{{ID: i, Boxes: mine}}, false), flat(v), draw.Visible, draw.NoLine)
			}
		}
		s.Rect(draw.Ghost, v.Rect(f.X0, f.Z0, f.X1, f.Z1).Inset(-0.8))
		s.Layer = ""
	}
	f.Dims = func(d *draw.Dims, v draw.View) {
		d.View = d.View.Inset(-0.8)
		var xs, zs []L
		for _, boxes := range within {
			for _, b := range boxes {
				if !cut(b) {
					continue
				}
				// boards seen on their edge: their two faces are places
				w, h := b.Max.At(c.right)-b.Min.At(c.right), b.Max.At(c.up)-b.Min.At(c.up)
				if w <= h {
					xs = append(xs, b.Min.At(c.right), b.Max.At(c.right))
				}
				if h <= w {
					zs = append(zs, b.Min.At(c.up), b.Max.At(c.up))
				}
			}
		}
		exact(d, draw.Below, v, xs, u)
		exact(d, draw.Left, v, zs, u)
	}
	return f
}

// exact stands a chain between places with exact sizes: thicknesses and gaps are no tape sizes.
func exact(d *draw.Dims, side draw.Side, v draw.View, at []L, u length.Unit) {
	at = sorted(at)
	if len(at) < 2 || len(at) > 9 {
		return
	}
	var on []float64
	var texts []string
	for i, l := range at {
		if side == draw.Left {
			on = append(on, v.Y(l))
		} else {
			on = append(on, v.X(l))
		}
		if i > 0 {
			texts = append(texts, finely(l-at[i-1], u))
		}
	}
	d.Chain(side, on, texts)
}

// finely prints a thickness or a gap: a fraction that a tape has, else to 0.001 in or 0.01 mm.
func finely(l L, u length.Unit) string {
	switch {
	case l.IsTape(u):
		return l.Marked(u)
	case u == length.Inches:
		return fmt.Sprintf("%.3f\"", float64(l)/float64(length.Inch))
	}
	return l.Near(length.MM / 100).MM()
}

// Details gives corners of an owner at larger scale: its front lower and its rear upper corner
// cut from the right, a front corner from above, and the space beside a drawer from the front.
func (b Body) Details() []Figure {
	all, c := extents(b.Parts), b.Owner.Carcass
	bare := b.bare()
	if len(bare) == 0 || c.Empty() {
		return nil
	}
	const a, h = 110 * length.MM, 100 * length.MM
	xs, _ := b.edges(bare, 0)
	zs, looseZ := b.edges(bare, 2)
	cx, cz := clear(xs, extents(bare), 0), clear(append(zs, looseZ...), extents(bare), 2)
	box := func(x0, x1, y0, y1, z0, z1 L) Box { return geom.B(x0, y0, z0, x1, y1, z1) }
	list := []Figure{
		detail("Front lower corner, cut from front to back", b.Parts, fromRight(cx), box(all.Min.X, all.Max.X, all.Min.Y, all.Min.Y+a, c.Min.Z, c.Min.Z+h+40*length.MM), b.Unit),
		detail("Rear upper corner, cut from front to back", b.Parts, fromRight(cx), box(all.Min.X, all.Max.X, all.Max.Y-a, all.Max.Y, all.Max.Z-h, all.Max.Z), b.Unit),
		detail("Front left corner, from above", b.Parts, down(cz), box(all.Min.X, all.Min.X+a, all.Min.Y, all.Min.Y+h, all.Min.Z, all.Max.Z), b.Unit),
	}
	for _, p := range b.Parts {
		if p.Role == part.BoxSide {
			x := p.Box()
			y := (x.Min.Y + x.Max.Y) / 2
			list = append(list, detail("Beside a drawer, from the front", b.Parts, front(y), box(c.Min.X, c.Min.X+a, all.Min.Y, all.Max.Y, x.Min.Z-30*length.MM, x.Min.Z+h-30*length.MM), b.Unit))
			break
		}
	}
	return list
}
