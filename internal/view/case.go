package view

import (
	"stowright/internal/draw"
	"stowright/internal/draw/hidden"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
)

// Body is one owner with its parts, drawn by itself with its left, lowest, front carcass
// corner at zero, so that sizes read from where a tape is hooked.
type Body struct {
	Owner part.Owner
	Parts []Part
	Unit  Units
	off   map[string]bool
	bays  []part.Bay
	feet  []part.Foot
}

// BodyOf gives an owner by itself.
func BodyOf(a *part.Assembly, o part.Owner, u Units) Body {
	b := Body{Owner: o, Unit: u, off: Fronts(a)}
	d := geom.V(0, 0, 0).Sub(o.Carcass.Min)
	if o.Carcass.Empty() {
		d = geom.V(0, 0, 0).Sub(o.Box.Min)
	}
	for _, p := range Of(a, o.ID) {
		p.Pose = p.Pose.Shift(d)
		b.Parts = append(b.Parts, p)
	}
	for _, x := range a.Bays {
		if x.Owner == o.ID {
			x.Box = x.Box.Shift(d)
			b.bays = append(b.bays, x)
		}
	}
	for _, x := range a.Feet {
		if x.Owner == o.ID && x.Height > 0 {
			x.At = x.At.Add(d)
			b.feet = append(b.feet, x)
		}
	}
	b.Owner.Box, b.Owner.Carcass = o.Box.Shift(d), o.Carcass.Shift(d)
	if o.Carcass.Empty() {
		b.Owner.Carcass = b.Owner.Box
	}
	return b
}

// bare gives the parts that stay when fronts are off and drawers out.
func (b Body) bare() []Part {
	var out []Part
	for _, p := range b.Parts {
		if !b.off[p.Mark] && p.Moves == "" {
			out = append(out, p)
		}
	}
	return out
}

// extents gives the box around parts.
func extents(parts []Part) Box {
	var b Box
	for _, p := range parts {
		b = b.Or(p.Box())
	}
	return b
}

// edges gives the places along an axis where fixed boards that are thin along it begin and
// end, and apart from those the lower faces of boards that lift out.
func (b Body) edges(parts []Part, axis int) (fixed, loose []L) {
	for _, p := range parts {
		x := p.Box()
		thin := true
		for k := range 3 {
			thin = thin && x.Size().At(axis) <= x.Size().At(k)
		}
		if !thin {
			continue
		}
		if p.Removable {
			loose = append(loose, x.Min.At(axis))
		} else {
			fixed = append(fixed, x.Min.At(axis), x.Max.At(axis))
		}
	}
	e := extents(parts)
	return append(fixed, e.Min.At(axis), e.Max.At(axis)), loose
}

// rect frames a figure around a box in a plane.
func rect(f Figure, b Box, right, up int) Figure {
	f.X0, f.X1, f.Z0, f.Z1 = b.Min.At(right), b.Max.At(right), b.Min.At(up), b.Max.At(up)
	return f
}

// Figures gives the views of an owner: front with fronts off, a section seen from the right, a
// section seen from above, and the front with fronts on where there are any.
func (b Body) Figures() (front, side, plan, closed *Figure) {
	bare := b.bare()
	if len(bare) == 0 {
		bare = b.Parts
	}
	all := extents(b.Parts)
	core := extents(bare)
	line := func(v draw.View) draw.Line {
		if v.Scale.Real > 12*v.Scale.Paper {
			return draw.Edge
		}
		return draw.Visible
	}
	xs, looseX := b.edges(bare, 0)
	zs, looseZ := b.edges(bare, 2)
	ys, _ := b.edges(bare, 1)
	// shelves are told from where their step measures them: the lower end of the sides
	foot := core.Min.Z
	for _, p := range bare {
		if p.Role == part.Side {
			foot = p.Box().Min.Z
		}
	}
	// Where feet are levelled the floor is at no one height: it is drawn, and nothing is measured to it.
	high := all
	core, all = b.footed(core), b.footed(all)
	if !b.uneven() {
		high = all
	}
	f := rect(Figure{Title: "Front, fronts off"}, core, 0, 2)
	if len(b.Parts) == len(bare) {
		f.Title = "Front"
	}
	f.Paint = func(s *draw.Sheet, v draw.View) {
		s.Layer = "Front"
		paintFeet(s, v, b.feet, bare, 0)
		paint(s, hidden.Lines(hidden.Front(), solids(bare, 0), false), flat(v), line(v), draw.NoLine)
		s.Layer = ""
	}
	f.Dims = func(d *draw.Dims, v draw.View) {
		rod(d, draw.Below, v, xs, b.Unit)
		rod(d, draw.Left, v, zs, b.Unit)
		tape(d, draw.Right, v, foot, looseZ, b.Unit)
		tape(d, draw.Above, v, core.Min.X, looseX, b.Unit)
	}
	front = &f
	// cut where no upright stands: in the middle of the widest clear stretch
	cx, cz := clear(xs, core, 0), clear(append(zs, looseZ...), core, 2)
	g := rect(Figure{Title: "Section, from the right"}, all, 1, 2)
	g.Paint = func(s *draw.Sheet, v draw.View) {
		s.Layer = "Front"
		paintFeet(s, v, b.feet, b.Parts, 1)
		section(s, v, b.Parts, fromRight(cx), 4*length.MM)
		s.Layer = ""
	}
	g.Dims = func(d *draw.Dims, v draw.View) {
		at := append([]L{all.Min.Y, all.Max.Y}, ys...)
		if b.Owner.Kind == "case" { // fronts, the room before the back, the back and what is behind it
			at = []L{all.Min.Y, all.Max.Y, b.Owner.Carcass.Min.Y}
			toe := false
			for _, p := range bare {
				x := p.Box()
				switch {
				case p.Role == part.BackPanel && len(at) == 3:
					at = append(at, x.Min.Y, x.Max.Y)
				case p.Role == part.ToeBoard && !toe && x.Size().Y < x.Size().X:
					toe = true
					d.Single(draw.Below, v.X(b.Owner.Carcass.Min.Y), v.X(x.Min.Y), b.Unit.Sized(x.Min.Y-b.Owner.Carcass.Min.Y))
				}
			}
		}
		rod(d, draw.Below, v, at, b.Unit)
		d.Single(draw.Right, v.Y(high.Min.Z), v.Y(high.Max.Z), b.Unit.Sized(high.Max.Z-high.Min.Z))
	}
	side = &g
	h := rect(Figure{Title: "Section, from above"}, all, 0, 1)
	h.Paint = func(s *draw.Sheet, v draw.View) {
		var low []Part // what is left to be seen; the outline of all of it is told where that reaches less far (ISO 128-2: in front of the plane)
		for _, p := range b.Parts {
			if p.Box().Min.Z < cz {
				low = append(low, p)
			}
		}
		if e := extents(low); e.Min.X-all.Min.X > length.MM || all.Max.X-e.Max.X > length.MM || e.Min.Y-all.Min.Y > length.MM || all.Max.Y-e.Max.Y > length.MM {
			s.Layer = "Section"
			s.Rect(draw.Ghost, v.Rect(all.Min.X, all.Min.Y, all.Max.X, all.Max.Y))
		}
		section(s, v, b.Parts, down(cz), 0)
		s.Layer = ""
	}
	h.Dims = func(d *draw.Dims, v draw.View) {
		var shelves []L
		for _, p := range bare {
			if p.Role == part.Shelf || p.Role == part.FixedShelf || p.Role == part.Bottom {
				x := p.Box()
				shelves = append(shelves, x.Min.Y, x.Max.Y)
			}
		}
		d.Single(draw.Below, v.X(all.Min.X), v.X(all.Max.X), b.Unit.Sized(all.Max.X-all.Min.X))
		rod(d, draw.Right, v, append(shelves, all.Max.Y), b.Unit)
	}
	plan = &h
	if len(b.Parts) == len(bare) {
		return front, side, plan, nil
	}
	k := rect(Figure{Title: "Front, fronts on"}, all, 0, 2)
	k.Paint = func(s *draw.Sheet, v draw.View) {
		s.Layer = "Front"
		paintFeet(s, v, b.feet, b.Parts, 0)
		paint(s, hidden.Lines(hidden.Front(), solids(b.Parts, 0), false), flat(v), line(v), draw.NoLine)
		s.Layer = ""
	}
	k.Dims = func(d *draw.Dims, v draw.View) {
		var low, left []L
		for _, p := range b.Parts {
			if p.Role == part.Door || p.Role == part.DrawerFront || p.Role == part.FalseFront {
				x := p.Box()
				low = append(low, x.Min.Z, x.Max.Z)
				left = append(left, x.Min.X, x.Max.X)
			}
		}
		fronts(d, draw.Right, v, append(low, high.Min.Z, high.Max.Z), b.Unit)
		fronts(d, draw.Below, v, append(left, all.Min.X, all.Max.X), b.Unit)
	}
	return front, side, plan, &k
}

// clear gives the middle of the widest stretch between places, a little off the middle of the
// whole so that it does not run along a board's centre.
func clear(at []L, b Box, axis int) L {
	at = sorted(append(at, b.Min.At(axis), b.Max.At(axis)))
	best := b.Min.At(axis) + b.Size().At(axis)/2
	wide := L(0)
	for i := 1; i < len(at); i++ {
		if d := at[i] - at[i-1]; d > wide {
			wide, best = d, at[i-1]+d*9/20
		}
	}
	return best
}
