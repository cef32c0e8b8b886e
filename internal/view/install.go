package view

import (
	"math"
	"slices"

	"stowright/internal/draw"
	"stowright/internal/length"
	"stowright/internal/part"
)

// tag sets a text beside a place, as near as it lies on no ink and on none of the texts set so
// far, on a short leader where it had to move away; it says whether it found room.
func tag(s *draw.Sheet, in draw.Rect, at draw.Point, text string, bold bool) bool {
	return place(s, in, at, text, bold, 0)
}

// inked is the paper that a mark on a point takes.
func inked(p draw.Point) draw.Rect { return draw.Rect{X: p.X - 1.2, Y: p.Y - 1.2, W: 2.4, H: 2.4} }

// tagged is a text that belongs beside a place.
type tagged struct {
	at   draw.Point
	text string
}

// tags sets texts beside their places: where some find no room, they are set anew with these before the others.
func tags(s *draw.Sheet, in draw.Rect, list []tagged, bold bool) {
	from, fewest := len(s.Items), len(list)+1
	var best []draw.Item
	for range 8 {
		s.Items = s.Items[:from:from]
		var lost, set []tagged
		for _, x := range list {
			if tag(s, in, x.at, x.text, bold) {
				set = append(set, x)
			} else {
				lost = append(lost, x)
			}
		}
		if len(lost) < fewest {
			fewest, best = len(lost), s.Items
		}
		if len(lost) == 0 {
			break
		}
		list = append(lost, set...)
	}
	s.Items = best
}

// lead is tag for a hole of a radius on paper: the text stands off it, and always has a leader.
func lead(s *draw.Sheet, in draw.Rect, at draw.Point, text string, hole float64) bool {
	return place(s, in, at, text, false, max(hole, 0.4))
}

// rings is how many steps a text goes from its place until it has room, and turns in how many ways at each.
const (
	rings = 30
	turns = 48
)

func place(s *draw.Sheet, in draw.Rect, at draw.Point, text string, bold bool, hole float64) bool {
	return hole == 0 && placed(s, in, at, text, bold, hole, true) || placed(s, in, at, text, bold, hole, false)
}

// placed is place, where own is asked for on the same side of every wide line as what it belongs to.
func placed(s *draw.Sheet, in draw.Rect, at draw.Point, text string, bold bool, hole float64, own bool) bool {
	t := draw.Text{Text: text, Size: draw.LeastCap, Bold: bold, Align: draw.Middle}
	w := t.Width()
	for ring := range rings {
		if own && ring > 4 {
			return false
		}
		d := 2.2 + 1.6*float64(ring)
		if hole > 0 {
			d += 3 + hole
		}
		for k := range turns {
			sin, cos := math.Sincos(float64(k) * 2 * math.Pi / turns)
			c := at.Add(draw.Pt(cos*(d+w/2), sin*d))
			t.At = c.Add(draw.Pt(0, draw.LeastCap/2))
			b := t.Box().Inset(-0.4)
			if !in.Has(b) || onInk(s, b) || hole == 0 && besideText(s, b) {
				continue
			}
			if own && beyondLine(s, at, b.Mid()) {
				continue
			}
			if ring > 1 || hole > 0 {
				near := b.Inset(-0.4) // the leader ends at the text's edge
				end := draw.Pt(min(max(at.X, near.X), near.Right()), min(max(at.Y, near.Y), near.Bottom()))
				from := at
				if way := end.Sub(at); hole > 0 && way.Len() > hole {
					from = at.Add(way.Times(hole / way.Len()))
				}
				leader := &draw.Path{Line: draw.Fine, Layer: s.Layer}
				leader.Poly(false, from, end)
				if slices.ContainsFunc(s.Items, func(it draw.Item) bool {
					x, ok := it.(*draw.Text)
					return ok && leader.Strikes(x.Box())
				}) {
					continue
				}
				s.Add(leader)
			}
			s.Text(t.At, t.Size, text, draw.Middle).Bold = bold
			return true
		}
	}
	return false
}

// beyondLine tells whether an outline parts two places.
func beyondLine(s *draw.Sheet, a, b draw.Point) bool {
	return slices.ContainsFunc(s.Items, func(it draw.Item) bool {
		p, ok := it.(*draw.Path)
		if !ok || p.Line != draw.Visible && p.Line != draw.Outline {
			return false
		}
		for k, st := range p.Steps {
			from := p.Steps[max(k-1, 0)].P[0]
			to := st.P[0]
			if st.Op == draw.Close {
				to = p.Steps[0].P[0]
			}
			if k > 0 && st.Op != draw.Move && st.Op != draw.Curve && draw.Cross(a, b, from, to) {
				return true
			}
		}
		return false
	})
}

// besideText tells whether a text stands beside another on its line, nearer than the two can be told apart as belonging to
// different places.
func besideText(s *draw.Sheet, b draw.Rect) bool {
	b.X, b.W = b.X-2.2, b.W+4.4
	return slices.ContainsFunc(s.Items, func(it draw.Item) bool {
		t, ok := it.(*draw.Text)
		return ok && t.Box().Meets(b)
	})
}

// frontRoom is drawn before what stands on the floor, for the figures of its points.
const frontRoom = 500 * length.MM

// Levels gives the map of what stands on the floor: from above, with the height of every foot,
// shim and castor beside its place. Nil when nothing stands on any.
func (c Scene) Levels() *Figure {
	w := c.Wall
	var feet []part.Foot
	mine := map[string]bool{}
	for _, o := range c.onWall() {
		mine[o.ID] = true
	}
	low := L(0)
	for _, f := range c.Assembly.Feet {
		if mine[f.Owner] && f.Height > 0 {
			feet = append(feet, f)
			low = min(low, f.At.Y)
		}
	}
	if len(feet) == 0 {
		return nil
	}
	for _, o := range c.onWall() {
		if !o.Hung && !o.Standing {
			low = min(low, o.Box.Min.Y)
		}
	}
	f := Figure{Title: "Levelling: the height from the floor to the underside at every point", Z0: low - frontRoom, Z1: 60 * length.MM, Pad: [4]float64{2, 2, 4, 2}}
	f.X0, f.X1 = c.ends()
	if far := c.lastStanding() + 400*length.MM; far < f.X1*3/4 { // a wall that stands empty beyond is not drawn to its end
		f.X1 = far
	}
	f.Paint = func(s *draw.Sheet, v draw.View) {
		s.Layer = "Levels"
		s.Hatch(draw.WallHatch, v.Rect(0, 0, min(w.Length, f.X1), 60*length.MM).Corners())
		s.Poly(draw.Outline, v.At(0, 0), v.At(min(w.Length, f.X1), 0))
		for _, o := range c.onWall() {
			if !o.Hung && (o.Kind == "case" || o.Kind == "base") {
				b := o.Carcass
				if b.Empty() {
					b = o.Box
				}
				line := draw.Edge
				if o.Standing {
					line = draw.Ghost
				}
				s.Rect(line, v.Rect(b.Min.X, b.Min.Y, b.Max.X, b.Max.Y))
			}
		}
		for _, x := range feet {
			p := v.At(x.At.X, x.At.Y)
			if x.Kind == "shim" {
				s.Rect(draw.Edge, draw.Rect{X: p.X - 1, Y: p.Y - 1, W: 2, H: 2})
			} else {
				s.Circle(draw.Edge, p, 1)
			}
		}
		in := v.Rect(f.X0, f.Z0, f.X1, f.Z1).Inset(-1)
		var taken []draw.Rect // names cover no point
		for _, x := range feet {
			taken = append(taken, inked(v.At(x.At.X, x.At.Y)))
		}
		var names []tab
		for _, o := range c.onWall() {
			if !o.Hung && (o.Kind == "case" || o.Kind == "base") && !o.Standing {
				r := v.Rect(o.Box.Min.X, o.Box.Min.Y, o.Box.Max.X, o.Box.Max.Y)
				names = append(names, tab{Code(c.Assembly, o.ID), r, r.Mid(), ""})
			}
		}
		tabs(s, in, taken, names)
		var heights []tagged
		for _, x := range feet {
			heights = append(heights, tagged{v.At(x.At.X, x.At.Y), x.Tape(c.Unit.Unit)})
		}
		tags(s, in, heights, true)
		s.Layer = ""
	}
	f.Dims = func(d *draw.Dims, v draw.View) {
		var xs, ys []L
		for _, x := range feet {
			xs, ys = append(xs, x.At.X), append(ys, x.At.Y)
		}
		tape(d, draw.Below, v, 0, xs, c.Unit)
		hook(d, draw.Left, v.Y(0), sorted(ys), func(y L) (float64, string) { return v.Y(y), c.Unit.Mark(-y) })
	}
	return &f
}

// lastStanding is how far along the wall anything on the floor reaches.
func (c Scene) lastStanding() (x L) {
	for _, o := range c.onWall() {
		if !o.Hung {
			x = max(x, o.Box.Max.X)
		}
	}
	return x
}

// Fixing gives the map of what is screwed to the wall: the wall seen straight on with its
// studs, what hangs or is held, and every screw, dimensioned from the wall's left end and from
// the floor there. Nil when nothing is.
func (c Scene) Fixing() *Figure {
	w := c.Wall
	var list []part.Fixing
	var xs, left, right []L // heights of what is nearer to the left end, and to the right
	for _, x := range c.Assembly.Fixings {
		if x.Wall == w.ID && (x.Kind == part.ToStud || x.Kind == part.ToWall || x.Kind == part.NoStud) {
			list = append(list, x)
			xs = append(xs, x.At.X)
			if x.At.X < w.Length/2 {
				left = append(left, x.At.Z)
			} else {
				right = append(right, x.At.Z)
			}
		}
	}
	if len(list) == 0 {
		return nil
	}
	f := Figure{Title: "Fixing: crosses are screws (ringed: nothing to hold in), dash-dot studs, + packing behind", Z0: c.bottom(), Z1: c.top(), Pad: [4]float64{2, 4, 6, 2}}
	f.X0, f.X1 = c.ends()
	f.Paint = func(s *draw.Sheet, v draw.View) {
		s.Layer = "Fixing"
		for _, st := range w.Studs {
			s.Poly(draw.Centre, v.At(st.At, w.floorAt(st.At)), v.At(st.At, c.ceilingAt(st.At)))
		}
		s.Poly(draw.Outline, v.At(0, w.floorAt(0)), v.At(w.Length, w.floorAt(w.Length)))
		s.Poly(draw.Narrow, v.At(0, w.floorAt(0)), v.At(0, c.ceilingAt(0)))
		s.Poly(draw.Narrow, v.At(w.Length, w.floorAt(w.Length)), v.At(w.Length, c.ceilingAt(w.Length)))
		for _, o := range w.Openings {
			s.Rect(draw.Narrow, v.Rect(max(0, o.Box.Min.X), o.Box.Min.Z, min(w.Length, o.Box.Max.X), o.Box.Max.Z))
		}
		for _, z := range w.Clear {
			s.Rect(draw.Ghost, v.Rect(max(0, z.Box.Min.X), max(f.Z0, z.Box.Min.Z), min(w.Length, z.Box.Max.X), min(f.Z1, z.Box.Max.Z)))
		}
		held := map[string]bool{}
		for _, x := range list {
			held[x.Owner] = true
		}
		for _, o := range c.onWall() {
			if held[o.ID] {
				s.Rect(draw.Visible, v.Rect(o.Box.Min.X, o.Box.Min.Z, o.Box.Max.X, o.Box.Max.Z))
			}
		}
		c.ledgers(s, v, draw.Narrow)
		for _, x := range list {
			p := v.At(x.At.X, x.At.Z)
			s.Poly(draw.Edge, p.Add(draw.Pt(-1, -1)), p.Add(draw.Pt(1, 1)))
			s.Poly(draw.Edge, p.Add(draw.Pt(-1, 1)), p.Add(draw.Pt(1, -1)))
			if x.Kind == part.NoStud {
				s.Circle(draw.Edge, p, 2.2).Ink = draw.Accent
			}
		}
		in := v.Rect(f.X0, f.Z0, f.X1, f.Z1)
		var taken []draw.Rect // names cover no screw
		for _, x := range list {
			taken = append(taken, inked(v.At(x.At.X, x.At.Z)))
		}
		var names []tab
		for _, o := range c.onWall() {
			if held[o.ID] {
				r := v.Rect(o.Box.Min.X, o.Box.Min.Z, o.Box.Max.X, o.Box.Max.Z)
				names = append(names, tab{Code(c.Assembly, o.ID), r, r.Mid(), ""})
			}
		}
		tabs(s, in, taken, names)
		var packing []tagged // behind, where the wall is hollow
		for _, x := range list {
			if x.Packing > 0 {
				packing = append(packing, tagged{v.At(x.At.X, x.At.Z), "+" + x.Packing.Tape(c.Unit.Unit)})
			}
		}
		tags(s, in, packing, false)
		s.Layer = ""
	}
	f.Dims = func(d *draw.Dims, v draw.View) {
		tape(d, draw.Below, v, 0, xs, c.Unit)
		tape(d, draw.Left, v, 0, left, c.Unit)
		tape(d, draw.Right, v, 0, right, c.Unit)
	}
	return &f
}

// ledgers draws the boards on the wall that cases hang on, which reach past their sides.
func (c Scene) ledgers(s *draw.Sheet, v draw.View, line draw.Line) {
	for _, p := range c.parts() {
		if b := p.Box(); p.Role == part.Ledger {
			s.Rect(line, v.Rect(b.Min.X, b.Min.Z, b.Max.X, b.Max.Z))
		}
	}
}
