package view

import (
	"fmt"
	"math"
	"slices"

	"stowright/internal/draw"
	"stowright/internal/draw/hidden"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
)

// detail gives a corner of an owner cut by a plane, as large as its boards can be measured in
// the drawing: what is within the window, every board and gap that is cut dimensioned.
func detail(title string, parts []Part, c plane, window Box, u Units) Figure {
	window = trimmed(parts, c, window)
	f := rect(Figure{Title: title, Pad: [4]float64{2: besideDetail, 3: underDetail}}, window, c.right, c.up)
	inside := make([][]Box, len(parts))
	rings := map[int][][2]L{} // of bevelled boards that are cut across
	for i, p := range parts {
		if r, ok := profile(p, c, window); ok {
			rings[i] = r
		}
		for _, b := range Boxes(p) {
			if x := b.And(window); !x.Empty() {
				inside[i] = append(inside[i], x)
			}
		}
	}
	f.Notes = boredIn(f, parts, inside, c, u)
	f.Paint = func(s *draw.Sheet, v draw.View) {
		s.Layer = "Detail"
		var behind []hidden.Solid
		for i, boxes := range inside {
			if rings[i] != nil {
				continue
			}
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
		for i, boxes := range inside {
			var mine []Box
			for _, b := range boxes {
				if !c.cutBy(b) {
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
				if rings[i] == nil {
					s.Hatch(h, r.Corners())
					continue
				}
				var ring []draw.Point
				for _, at := range rings[i] {
					ring = append(ring, v.At(at[0], at[1]))
				}
				s.Hatch(h, ring)
				s.Shape(draw.Visible, ring...)
			}
			if len(mine) > 0 && rings[i] == nil {
				paint(s, hidden.Lines(c.view, []hidden.Solid{{ID: i, Boxes: mine}}, false), flat(v), draw.Visible, draw.NoLine)
			}
		}
		frame := v.Rect(f.X0, f.Z0, f.X1, f.Z1)
		var bored []draw.Rect
		for i, p := range parts {
			if len(inside[i]) > 0 {
				taken, _ := bores(s, v, p, c, frame)
				bored = append(bored, taken...)
			}
		}
		s.Rect(draw.Ghost, frame.Inset(-0.8))
		var list []named // what is cut is named
		for i, boxes := range inside {
			n := named{name: parts[i].Mark}
			for _, b := range boxes {
				if c.cutBy(b) {
					n.cut = append(n.cut, v.Rect(b.Min.At(c.right), b.Min.At(c.up), b.Max.At(c.right), b.Max.At(c.up)))
				}
			}
			if len(n.cut) > 0 {
				list = append(list, n)
			}
		}
		nameBoards(s, frame, list, bored)
		s.Layer = ""
	}
	f.Dims = func(d *draw.Dims, v draw.View) {
		d.View = d.View.Inset(-0.8)
		var xs, zs []L
		for i, boxes := range inside {
			for _, b := range boxes {
				if !c.cutBy(b) {
					continue
				}
				// boards seen on their edge: their two faces are places, unless the window cuts
				// the board there
				w, h := b.Max.At(c.right)-b.Min.At(c.right), b.Max.At(c.up)-b.Min.At(c.up)
				whole := func(axis int) bool {
					return b.Min.At(axis) > window.Min.At(axis) && b.Max.At(axis) < window.Max.At(axis) || slices.ContainsFunc(Boxes(parts[i]), func(x Box) bool {
						return x.Min.At(axis) == b.Min.At(axis) && x.Max.At(axis) == b.Max.At(axis)
					})
				}
				if w <= h && whole(c.right) {
					xs = append(xs, b.Min.At(c.right), b.Max.At(c.right))
				}
				if h <= w && whole(c.up) {
					zs = append(zs, b.Min.At(c.up), b.Max.At(c.up))
				}
			}
		}
		exact(d, draw.Below, v, xs, u)
		exact(d, draw.Left, v, zs, u)
	}
	return f
}

// cutBy tells whether a plane cuts a box.
func (c plane) cutBy(b Box) bool { return b.Min.At(c.axis) < c.at && c.at < b.Max.At(c.axis) }

// sliver is the least of a board that is shown at the edge of a detail: what is thinner on paper is no more than a black line.
const sliver = 8 * length.MM

// trimmed moves the sides of a detail's window where no more than a sliver of a board would show: out to all of it where that is near,
// else back from it.
func trimmed(parts []Part, c plane, window Box) Box {
	out, back := window, window
	for _, p := range parts {
		for _, b := range Boxes(p) {
			if b.And(window).Empty() || !c.cutBy(b) {
				continue
			}
			for _, axis := range [2]int{c.right, c.up} {
				lo, hi, from, to := b.Min.At(axis), b.Max.At(axis), window.Min.At(axis), window.Max.At(axis)
				switch {
				case lo < from && hi < from+sliver && lo > from-2*sliver:
					out.Min = out.Min.With(axis, min(out.Min.At(axis), lo))
				case lo < from && hi < from+sliver:
					back.Min = back.Min.With(axis, max(back.Min.At(axis), hi))
				case hi > to && lo > to-sliver && hi < to+2*sliver:
					out.Max = out.Max.With(axis, max(out.Max.At(axis), hi))
				case hi > to && lo > to-sliver:
					back.Max = back.Max.With(axis, min(back.Max.At(axis), lo))
				}
			}
		}
	}
	for axis := range 3 {
		if back.Min.At(axis) == window.Min.At(axis) {
			back.Min = back.Min.With(axis, out.Min.At(axis))
		}
		if back.Max.At(axis) == window.Max.At(axis) {
			back.Max = back.Max.With(axis, out.Max.At(axis))
		}
	}
	return back
}

// boards counts the boards that a plane cuts in a window.
func boards(parts []Part, c plane, window Box) (n int) {
	for _, p := range parts {
		if slices.ContainsFunc(Boxes(p), func(b Box) bool { return !b.And(window).Empty() && c.cutBy(b) }) {
			n++
		}
	}
	return n
}

// besideDetail is the room at the right of a detail for the names that have none in it, mm.
const besideDetail = 19.0

// underDetail is what is kept between the lines of a detail's sizes and its title, mm.
const underDetail = 1.5

// exact stands a chain between places with exact sizes: thicknesses and gaps are no tape sizes.
func exact(d *draw.Dims, side draw.Side, v draw.View, at []L, u Units) {
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
			text := ""
			if l-at[i-1] > length.MM*2/5 { // the air of a groove is no size to measure
				text = finely(l-at[i-1], u)
			}
			texts = append(texts, text)
		}
	}
	d.Chain(side, on, texts)
}

// finely prints a thickness or a gap: a fraction that a tape has, else to 0.001 in or 0.01 mm.
func finely(l L, u Units) string {
	switch {
	case l.IsTape(u.Unit):
		return u.Mark(l)
	case u.Unit == length.Inches:
		return fmt.Sprintf("%.3f\"", float64(l)/float64(length.Inch)) + u.more(l)
	}
	return l.Near(length.MM/100).MM() + u.more(l)
}

// bores draws the round workings of a part whose axes lie in a section's plane, as the holes
// they leave; of a pocket the way of its screw. It gives the rectangles of paper that they take, and which workings they are.
func bores(s *draw.Sheet, v draw.View, p Part, c plane, frame draw.Rect) (taken []draw.Rect, shown []part.Op) {
	in := frame.Inset(-0.01)
	for _, o := range p.Ops {
		at := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size))
		if (at.At(c.axis) - c.at).Abs() > 6*length.MM {
			continue
		}
		m := v.At(at.At(c.right), at.At(c.up))
		inward := p.Pose.Dir(o.Face.Normal()).Not()
		if inward.Axis() == c.axis {
			continue
		}
		way := func(d geom.Dir) draw.Point {
			w := d.Vec(length.MM)
			return draw.Pt(v.Scale.MM(w.At(c.right)), -v.Scale.MM(w.At(c.up)))
		}
		mm := func(l L) float64 { return float64(l) / float64(length.MM) }
		switch o.Kind {
		case part.Hole, part.Cup:
			d := way(inward)
			across := draw.Pt(-d.Y, d.X).Times(mm(o.Dia) / 2)
			deep := d.Times(mm(o.Depth))
			ring := []draw.Point{m.Add(across), m.Add(across).Add(deep), m.Sub(across).Add(deep), m.Sub(across)}
			if !within(in, ring) {
				continue
			}
			a := s.Shape(draw.Edge, ring...)
			a.Filled, a.Fill = true, draw.White
			taken, shown = append(taken, spanned(ring...)), append(shown, o)
		case part.Pocket:
			// it leaves the end in the middle of the thickness, from the face it is bored in
			out := way(p.Pose.Dir(o.Towards.Normal()))
			_, _, deep := o.Face.Extent(p.Size)
			m = m.Add(way(inward).Times(mm(deep) / 2))
			slope := way(inward).Times(math.Tan(float64(o.Angle) * math.Pi / 180))
			line := out.Add(slope)
			from, to := m.Sub(line.Times(mm(deep)/2/max(0.1, math.Tan(float64(o.Angle)*math.Pi/180)))), m.Add(line.Times(16))
			if within(in, []draw.Point{from, to}) {
				s.Poly(draw.Centre, from, to)
				s.Arrow(m, to)
				taken, shown = append(taken, spanned(from, to)), append(shown, o)
			}
		}
	}
	return taken, shown
}

// boredIn says how wide and how deep the holes and pockets are that a detail shows, each size once.
func boredIn(f Figure, parts []Part, inside [][]Box, c plane, u Units) (out []string) {
	v := draw.View{Scale: draw.Scale{Paper: 1, Real: 1}}
	for i, p := range parts {
		if len(inside[i]) == 0 {
			continue
		}
		_, shown := bores(&draw.Sheet{}, v, p, c, v.Rect(f.X0, f.Z0, f.X1, f.Z1))
		for _, o := range shown {
			text := p.Mark + ": " + told(o, u)
			switch _, _, deep := o.Face.Extent(p.Size); {
			case o.Kind == part.Pocket:
				text = fmt.Sprintf("%s: pocket %s dia. at %d°", p.Mark, bare(o.Dia.Bit(u.Unit), u), o.Angle)
			case through(o, p.Size) || o.Depth >= deep:
				text = p.Mark + ": " + bare(o.Dia.Bit(u.Unit), u) + " dia., through"
			}
			if !slices.Contains(out, text) {
				out = append(out, text)
			}
		}
	}
	return out
}

// spanned is the rectangle around points.
func spanned(at ...draw.Point) draw.Rect {
	lo, hi := at[0], at[0]
	for _, p := range at {
		lo, hi = draw.Pt(min(lo.X, p.X), min(lo.Y, p.Y)), draw.Pt(max(hi.X, p.X), max(hi.Y, p.Y))
	}
	return draw.Rect{X: lo.X, Y: lo.Y, W: hi.X - lo.X, H: hi.Y - lo.Y}
}

func within(r draw.Rect, ring []draw.Point) bool {
	for _, p := range ring {
		if p.X < r.X || p.X > r.Right() || p.Y < r.Y || p.Y > r.Bottom() {
			return false
		}
	}
	return true
}

// Details gives corners of an owner at larger scale: its front lower and its rear upper corner
// cut from the right, a front corner from above, cut through a hinge where there is one, a lower
// corner from the front, cut through a fastener, and the space beside a drawer from the front;
// and the workings that the hardware hangs on, as their boards show them.
func (b Body) Details() []Figure {
	all, c := extents(b.Parts), b.Owner.Carcass
	bare := b.bare()
	if len(bare) == 0 || c.Empty() {
		return nil
	}
	const a, h = 84 * length.MM, 60 * length.MM
	xs, _ := b.edges(bare, 0)
	zs, looseZ := b.edges(bare, 2)
	cx, cz := clear(xs, extents(bare), 0), clear(append(zs, looseZ...), extents(bare), 2)
	box := func(x0, x1, y0, y1, z0, z1 L) Box { return geom.B(x0, y0, z0, x1, y1, z1) }
	corner := "Left front, from above"
	y := all.Min.Y + (all.Max.Y-all.Min.Y)/3
	low, rear := c.Min.Z, all.Min.Y // rear is of what lies between the sides, which go on behind it where something stands at the wall
	for _, p := range b.Parts {
		if p.Role == part.Bottom {
			low = p.Box().Min.Z
		}
		if p.Role != part.Side {
			rear = max(rear, p.Box().Max.Y)
		}
		for _, o := range p.Ops {
			at := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size))
			switch {
			case o.Kind == part.Cup && at.X < all.Min.X+a:
				corner, cz = "Left front at a hinge, from above", at.Z
			case p.Role == part.Bottom && (o.Kind == part.Pocket || o.Face == part.Start || o.Face == part.End) && at.X < all.Min.X+a:
				y = at.Y
			}
		}
	}
	var list []Figure
	add := func(title string, c plane, window Box) {
		if boards(b.Parts, c, window) > 1 { // of one board there is nothing to see but its thickness
			list = append(list, detail(title, b.Parts, c, window, b.Unit))
		}
	}
	foot := max(c.Min.Z, low-46*length.MM)
	add("Lower front, from the right", fromRight(cx), box(all.Min.X, all.Max.X, all.Min.Y, all.Min.Y+a, foot, foot+h+14*length.MM))
	add("Upper rear, from the right", fromRight(cx), box(all.Min.X, all.Max.X, rear-a, rear, all.Max.Z-h, all.Max.Z))
	add(corner, down(cz), box(all.Min.X, all.Min.X+a, all.Min.Y, all.Min.Y+h, all.Min.Z, all.Max.Z))
	foot = max(c.Min.Z, low-30*length.MM)
	add("Bottom and side, from the front", front(y), box(c.Min.X, c.Min.X+a, all.Min.Y, all.Max.Y, foot, foot+h))
	for _, p := range b.Parts {
		if p.Role == part.BoxSide {
			x := p.Box()
			y := (x.Min.Y + x.Max.Y) / 2
			add("Gap of a slide, from the front", front(y), box(c.Min.X, c.Min.X+a, all.Min.Y, all.Max.Y, x.Min.Z-30*length.MM, x.Min.Z+h-30*length.MM))
			break
		}
	}
	if f, ok := b.cleat(); ok {
		list = append(list, f)
	}
	if f, ok := b.foot(); ok {
		list = append(list, f)
	}
	return append(list, b.spots()...)
}

// foot gives the first foot from the front, in the plane of its bolt: how far it stands from the
// side, and how high at its place.
func (b Body) foot() (Figure, bool) {
	if len(b.feet) == 0 || b.feet[0].Kind == "shim" { // where shims go is told when it is set up
		return Figure{}, false
	}
	x := b.feet[0]
	c := b.Owner.Carcass
	floor := x.At.Z - x.Height
	high := max(70*length.MM, x.Height+30*length.MM)
	f := detail("A "+x.Kind+", from the front", b.Parts, front(x.At.Y), geom.B(c.Min.X, b.Owner.Box.Min.Y, floor, c.Min.X+86*length.MM, b.Owner.Box.Max.Y, floor+high), b.Unit)
	paint, dims := f.Paint, f.Dims
	f.Paint = func(s *draw.Sheet, v draw.View) {
		s.Layer = "Detail"
		if x.Kind == "foot" { // its bolt and its pad, as any maker's look
			s.Rect(draw.Narrow, v.Rect(x.At.X-4*length.MM, floor+8*length.MM, x.At.X+4*length.MM, x.At.Z))
			s.Rect(draw.Edge, v.Rect(x.At.X-18*length.MM, floor, x.At.X+18*length.MM, floor+8*length.MM))
		} else {
			s.Rect(draw.Edge, v.Rect(x.At.X-18*length.MM, floor, x.At.X+18*length.MM, x.At.Z))
		}
		s.Poly(draw.Outline, v.At(f.X0, floor), v.At(f.X1, floor))
		s.Poly(draw.Centre, v.At(x.At.X, floor-3*length.MM), v.At(x.At.X, x.At.Z+10*length.MM))
		paint(s, v)
	}
	f.Dims = func(d *draw.Dims, v draw.View) {
		dims(d, v)
		d.Single(draw.Below, v.X(c.Min.X), v.X(x.At.X), finely(x.At.X-c.Min.X, b.Unit))
		high := finely(x.Height, b.Unit)
		if b.uneven() {
			high = "as levelled"
		}
		d.Single(draw.Left, v.Y(floor), v.Y(x.At.Z), high)
	}
	return f, true
}

// byWall is how near an end of a wall a filler is that is planed to the wall that stands there.
const byWall = 40 * length.MM

// Scribe gives a filler from above with the wall that it is planed to, false where it meets none.
func (c Scene) Scribe(o part.Owner) (Figure, bool) {
	w, b := c.Wall, o.Box
	left := b.Min.X < byWall
	if o.Kind != "filler" || w == nil || !left && b.Max.X < w.Length-byWall {
		return Figure{}, false
	}
	x0, x1, wall := -15*length.MM, b.Max.X+50*length.MM, L(0)
	if !left {
		x0, x1, wall = b.Min.X-50*length.MM, w.Length+15*length.MM, w.Length
	}
	z := b.Min.Z + b.Size().Z*2/3
	f := detail(Code(c.Assembly, o.ID)+" at the wall, from above", c.parts(), down(z), geom.B(x0, b.Min.Y-12*length.MM, b.Min.Z, x1, b.Min.Y+68*length.MM, b.Max.Z), c.Unit)
	paint := f.Paint
	f.Paint = func(s *draw.Sheet, v draw.View) {
		s.Layer = "Wall"
		band := v.Rect(x0, f.Z0, wall, f.Z1)
		if !left {
			band = v.Rect(wall, f.Z0, x1, f.Z1)
		}
		s.Hatch(draw.WallHatch, band.Corners())
		s.Poly(draw.Outline, v.At(wall, f.Z0), v.At(wall, f.Z1))
		paint(s, v)
	}
	dims := f.Dims
	f.Dims = func(d *draw.Dims, v draw.View) {
		dims(d, v)
		d.Single(draw.Below, v.X(b.Min.X), v.X(b.Max.X), finely(b.Size().X, c.Unit))
	}
	return f, true
}
