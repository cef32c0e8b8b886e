package view

import (
	"slices"

	"stowright/internal/draw"
	"stowright/internal/length"
	"stowright/internal/part"
)

// Section gives a cut across the wall at x, seen from the right.
func (c Scene) Section(x L) Figure {
	w := c.Wall
	f := Figure{Title: "Section at " + x.In(c.Unit.Unit) + " along, from the right; heights as on the elevation", X1: 60 * length.MM, Z0: c.bottom(), Z1: c.top(), Pad: [4]float64{2, 2, 8, 4}}
	if w.Uneven && slices.ContainsFunc(c.onWall(), free) {
		f.Title += "; depths from a plumb line, not from the wall"
	}
	var mine []Part
	parts := c.parts()
	low := L(0)
	var old []Box // what stands already, of which nothing but its outside is known
	heights, depths := []L{}, []L{0}
	for _, o := range c.onWall() {
		if x <= o.Box.Min.X || o.Box.Max.X <= x {
			continue
		}
		shown := o.Box // of what is built, what the cut leaves to be seen
		if !o.Standing {
			low := o.Box.Min.Z
			if slices.ContainsFunc(c.Assembly.Feet, func(f part.Foot) bool { return f.Owner == o.ID }) {
				low = w.floorAt(x) // its box ends where the floor is highest under it
			}
			heights = append(heights, low, o.Box.Max.Z)
			var left []Part
			for _, p := range parts {
				if p.Owner == o.ID {
					mine = append(mine, p)
					if p.Box().Min.X < x {
						left = append(left, p)
					}
				}
			}
			shown = extents(left)
		}
		if o.Standing {
			old = append(old, o.Box)
			heights = append(heights, o.Box.Min.Z, o.Box.Max.Z)
		}
		low = min(low, shown.Min.Y)
		depths = append(depths, shown.Min.Y)
		if free(o) {
			depths = append(depths, shown.Max.Y)
		}
	}
	f.X0 = low
	if w.Height > 0 {
		heights = append(heights, c.ceilingAt(x))
	}
	f.Paint = func(s *draw.Sheet, v draw.View) {
		s.Layer = "Wall"
		band := v.Rect(0, w.floorAt(x), 60*length.MM, c.ceilingAt(x))
		s.Hatch(draw.WallHatch, band.Corners())
		s.Poly(draw.Outline, v.At(0, w.floorAt(x)), v.At(0, c.ceilingAt(x)))
		fl := v.Rect(low, w.floorAt(x)-40*length.MM, 60*length.MM, w.floorAt(x))
		s.Hatch(draw.GroundHatch, fl.Corners())
		s.Poly(draw.Outline, v.At(low, w.floorAt(x)), v.At(60*length.MM, w.floorAt(x)))
		for _, b := range old {
			s.Rect(draw.Fine, v.Rect(b.Min.Y, max(b.Min.Z, w.floorAt(x)), b.Max.Y, b.Max.Z))
		}
		section(s, v, mine, fromRight(x), 0)
		s.Layer = ""
	}
	f.Dims = func(d *draw.Dims, v draw.View) {
		tape(d, draw.Left, v, 0, heights, c.Unit)
		depths := sorted(depths)
		hook(d, draw.Below, v.X(0), depths[:len(depths)-1], func(y L) (float64, string) { return v.X(y), c.Unit.Mark(-y) })
	}
	return f
}

// Busiest gives the place along the wall where a section cuts the most owners, in the middle
// of the widest stretch of them.
func (c Scene) Busiest() L {
	var ends []L
	for _, o := range c.onWall() {
		if !o.Standing {
			ends = append(ends, o.Carcass.Min.X, o.Carcass.Max.X)
		}
	}
	ends = sorted(ends)
	best, most := L(0), -2
	var wide L
	parts := c.parts()
	for i := 1; i < len(ends); i++ {
		x := ends[i-1] + (ends[i]-ends[i-1])*2/5
		n := 0
		for _, o := range c.onWall() {
			if !o.Standing && o.Box.Min.X < x && x < o.Box.Max.X {
				n++
			}
		}
		for _, p := range parts { // a cut along an upright shows nothing behind it
			if b := p.Box(); (p.Role == part.Side || p.Role == part.Partition || p.Role == part.EndPanel) && b.Min.X <= x && x <= b.Max.X {
				n = -1
			}
		}
		if n > most || n == most && ends[i]-ends[i-1] > wide {
			best, most, wide = x, n, ends[i]-ends[i-1]
		}
	}
	return best
}
