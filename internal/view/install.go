package view

import (
	"cmp"
	"math"
	"slices"

	"stowright/internal/draw"
	"stowright/internal/length"
	"stowright/internal/part"
)

// inked is the paper that a mark on a point takes.
func inked(p draw.Point) draw.Rect { return draw.Rect{X: p.X - 1.2, Y: p.Y - 1.2, W: 2.4, H: 2.4} }

// tags sets texts beside their places, as the letters on a board's drawing stand at its holes; their leaders keep off the names
// that stand there.
func tags(s *draw.Sheet, in draw.Rect, at []draw.Point, texts []string) {
	set := lettering{s: s, outline: in, plain: true, inside: true}
	for _, b := range textBoxes(s) {
		set.names = append(set.names, b.Inset(-1.5))
	}
	rooms := make([][]draw.Rect, len(at))
	for i, p := range at {
		rooms[i] = []draw.Rect{{X: p.X - 0.7, Y: p.Y - 0.7, W: 1.4, H: 1.4}}
	}
	set.texts(texts, rooms, []letterWay{beside, led, ledAnyhow, ledAcross})
}

// lead sets a text beside a hole of a radius on paper, as near as it lies on no ink and on no text, on a leader; it
// says whether it found room.
func lead(s *draw.Sheet, in draw.Rect, at draw.Point, text string, hole float64) bool {
	hole = max(hole, 0.4)
	t := draw.Text{Text: text, Size: draw.LeastCap, Align: draw.Middle}
	w := t.Width()
	for ring := range rings {
		d := 5.2 + hole + 1.6*float64(ring)
		for k := range turns {
			sin, cos := math.Sincos(float64(k) * 2 * math.Pi / turns)
			c := at.Add(draw.Pt(cos*(d+w/2), sin*d))
			t.At = c.Add(draw.Pt(0, draw.LeastCap/2))
			b := t.Box().Inset(-0.4)
			if !in.Has(b) || onInk(s, b) {
				continue
			}
			near := b.Inset(-0.4) // the leader ends at the text's edge
			end := draw.Pt(min(max(at.X, near.X), near.Right()), min(max(at.Y, near.Y), near.Bottom()))
			from := at
			if way := end.Sub(at); way.Len() > hole {
				from = at.Add(way.Times(hole / way.Len()))
			}
			leader := &draw.Path{Line: draw.Fine, Layer: s.Layer}
			leader.Poly(false, from, end)
			if overText(s, leader) {
				continue
			}
			s.Add(leader)
			s.Text(t.At, t.Size, text, draw.Middle)
			return true
		}
	}
	return false
}

// rings is how many steps a text goes from its place until it has room, and turns in how many ways at each.
const (
	rings = 30
	turns = 48
)

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

// lane is how far from what is drawn, on paper in mm, the heights of feet begin.
const lane = 2.0

// file is owners whose feet are told in one pair of lanes, behind them and before them.
type file struct {
	owners    map[string]Box
	low, high L // before and behind, across the room
}

// widest is the paper that a lane of the heights of feet takes, in mm.
func (c Scene) widest(feet []part.Foot) (room float64) {
	for _, x := range feet {
		t := draw.Text{Text: x.Tape(c.Unit.Unit), Size: draw.LeastCap, Bold: true}
		room = max(room, lane+1.2+t.Width())
	}
	return room
}

// files parts what stands on feet by how far it stands in the room, from the wall on: what stands side by side is one file,
// and so is what has no room between for two lanes as wide as gap.
func (c Scene) files(feet []part.Foot, gap L) (list []file) {
	owners := c.onWall()
	slices.SortStableFunc(owners, func(a, b part.Owner) int { return cmp.Compare(b.Box.Max.Y, a.Box.Max.Y) })
	for _, o := range owners {
		if !slices.ContainsFunc(feet, func(f part.Foot) bool { return f.Owner == o.ID }) {
			continue
		}
		b := o.Carcass
		if b.Empty() {
			b = o.Box
		}
		if n := len(list); n > 0 && list[n-1].low-o.Box.Max.Y < gap {
			list[n-1].low = min(list[n-1].low, o.Box.Min.Y)
			list[n-1].owners[o.ID] = b
			continue
		}
		list = append(list, file{map[string]Box{o.ID: b}, o.Box.Min.Y, o.Box.Max.Y})
	}
	return list
}

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
	f := Figure{Title: "Levelling: the height from the floor to the underside at every point", Z0: low, Z1: 60 * length.MM, Pad: [4]float64{2, 2, 4, 2}}
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
					if b.Min.X >= f.X1 {
						continue
					}
					b.Max.X = min(b.Max.X, f.X1)
					line = draw.Ghost
				}
				s.Rect(line, v.Rect(b.Min.X, b.Min.Y, b.Max.X, b.Max.Y))
			}
		}
		for _, x := range feet {
			p := v.At(x.At.X, x.At.Y)
			line, half := draw.Edge, 1.0
			for _, o := range feet { // of two that nearly touch each stands on its own side of its place
				if d := v.At(o.At.X, o.At.Y).Sub(p); d.Len() > 0 && d.Len() < 2.8 && math.Abs(d.Y) < 2 {
					line, half = draw.Narrow, 0.7
					p.X += half * math.Copysign(max(0, 1-math.Abs(d.X)/2.8), -d.X)
					break
				}
			}
			if x.Kind == "shim" {
				s.Rect(line, draw.Rect{X: p.X - half, Y: p.Y - half, W: 2 * half, H: 2 * half})
			} else {
				s.Circle(line, p, half)
			}
		}
		lanes := len(s.Items)
		wide := c.widest(feet)
		files := c.files(feet, L(2*wide/v.Scale.MM(length.MM)*float64(length.MM)))
		for i, x := range files {
			behind, before := v.Y(x.high)-lane, v.Y(x.low)+lane
			if i == 0 {
				behind = v.Y(60*length.MM) - lane
			}
			if i == len(files)-1 {
				before = v.Y(low) + lane
			}
			var marks [2][]draw.Mark
			for _, f := range feet {
				if b, ok := x.owners[f.Owner]; ok {
					side := 0
					if f.At.Y < (b.Min.Y+b.Max.Y)/2 {
						side = 1
					}
					marks[side] = append(marks[side], draw.Mark{Text: f.Tape(c.Unit.Unit), At: v.At(f.At.X, f.At.Y)})
				}
			}
			s.Lane(draw.Above, behind, marks[0], true)
			s.Lane(draw.Below, before, marks[1], true)
		}
		var taken []draw.Rect // names cover no point and no leader of a height
		for _, x := range feet {
			taken = append(taken, inked(v.At(x.At.X, x.At.Y)))
		}
		for _, it := range s.Items[lanes:] {
			if p, ok := it.(*draw.Path); ok {
				a, b := p.Steps[0].P[0], p.Steps[1].P[0]
				taken = append(taken, draw.Rect{X: min(a.X, b.X), Y: min(a.Y, b.Y), W: math.Abs(b.X - a.X), H: math.Abs(b.Y - a.Y)}.Inset(-0.2))
			}
		}
		var names []tab
		for _, o := range c.onWall() {
			if !o.Hung && (o.Kind == "case" || o.Kind == "base") && !o.Standing {
				r := v.Rect(o.Box.Min.X, o.Box.Min.Y, o.Box.Max.X, o.Box.Max.Y)
				names = append(names, tab{Code(c.Assembly, o.ID), r, r.Mid(), ""})
			}
		}
		tabs(s, v.Rect(f.X0, f.Z0, f.X1, f.Z1).Inset(-1), taken, names)
		s.Layer = ""
	}
	f.Dims = func(d *draw.Dims, v draw.View) {
		room := c.widest(feet)
		d.View.Y, d.View.H = d.View.Y-room, d.View.H+2*room
		var xs, ys []L
		for _, x := range feet {
			xs, ys = append(xs, x.At.X), append(ys, x.At.Y)
		}
		tape(d, draw.Below, v, 0, xs, c.Unit)
		hook(d, draw.Left, v.Y(0), sorted(ys), func(y L) (float64, string) { return v.Y(y), c.Unit.Mark(-y) })
	}
	return &f
}

// lastStanding is how far along the wall anything that is set up on the floor reaches.
func (c Scene) lastStanding() (x L) {
	for _, o := range c.onWall() {
		if !o.Hung && !o.Standing {
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
	held := map[string]bool{}
	for _, x := range list {
		held[x.Owner] = true
	}
	last := slices.Max(xs)
	for _, o := range c.onWall() {
		if held[o.ID] {
			last = max(last, o.Box.Max.X)
		}
	}
	end := w.Length
	if far := last + 400*length.MM; far < f.X1*3/4 { // a wall that nothing is screwed to beyond is not drawn to its end
		f.X1, end = far, far
	}
	f.Paint = func(s *draw.Sheet, v draw.View) {
		s.Layer = "Fixing"
		for _, st := range w.Studs {
			if st.At <= end {
				s.Poly(draw.Centre, v.At(st.At, w.floorAt(st.At)), v.At(st.At, c.ceilingAt(st.At)))
			}
		}
		s.Poly(draw.Outline, v.At(0, w.floorAt(0)), v.At(end, w.floorAt(end)))
		s.Poly(draw.Narrow, v.At(0, w.floorAt(0)), v.At(0, c.ceilingAt(0)))
		if end == w.Length {
			s.Poly(draw.Narrow, v.At(w.Length, w.floorAt(w.Length)), v.At(w.Length, c.ceilingAt(w.Length)))
		}
		area := func(b Box, line draw.Line) {
			if b.Min.X < end {
				s.Rect(line, v.Rect(max(0, b.Min.X), max(f.Z0, b.Min.Z), min(end, b.Max.X), min(f.Z1, b.Max.Z)))
			}
		}
		for _, o := range w.Openings {
			area(o.Box, draw.Narrow)
		}
		for _, z := range w.Clear {
			area(z.Box, draw.Ghost)
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
		var at []draw.Point
		var packing []string // behind, where the wall is hollow
		for _, x := range list {
			if x.Packing > 0 {
				at, packing = append(at, v.At(x.At.X, x.At.Z)), append(packing, "+"+x.Packing.Tape(c.Unit.Unit))
			}
		}
		tags(s, in, at, packing)
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
