package view

import (
	"math"
	"slices"

	"stowright/internal/draw"
	"stowright/internal/draw/hidden"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
)

// onWall gives the owners on the scene's wall.
func (c Scene) onWall() []part.Owner {
	var out []part.Owner
	for _, o := range c.Assembly.Owners {
		if (c.Wall == nil || o.Wall == c.Wall.ID) && (c.only == nil || c.only(o)) {
			out = append(out, o)
		}
	}
	return out
}

// parts gives the parts on the scene's wall.
func (c Scene) parts() []Part {
	keep := map[string]bool{}
	for _, o := range c.onWall() {
		keep[o.ID] = true
	}
	var out []Part
	for _, p := range c.Assembly.Parts {
		if keep[p.Owner] {
			out = append(out, p)
		}
	}
	return out
}

// Parts gives the parts on the scene's wall and the boxes of what stands there already.
func (c Scene) Parts() ([]Part, []Box) {
	var standing []Box
	for _, o := range c.onWall() {
		if o.Standing {
			standing = append(standing, o.Box)
		}
	}
	return c.parts(), standing
}

// floorAt reads the floor line.
func (w *Wall) floorAt(x L) L {
	if len(w.Floor) == 0 {
		return 0
	}
	for i := 1; i < len(w.Floor); i++ {
		a, b := w.Floor[i-1], w.Floor[i]
		if x <= b.X && b.X > a.X {
			return a.Z + (b.Z-a.Z).MulDiv(int64(max(0, x-a.X)), int64(b.X-a.X))
		}
	}
	return w.Floor[len(w.Floor)-1].Z
}

// top gives the height to draw the wall to.
func (c Scene) top() L {
	w := c.Wall
	top := w.Height
	for _, p := range w.Ceiling {
		top = max(top, p.Z)
	}
	for _, o := range c.onWall() {
		top = max(top, o.Box.Max.Z)
	}
	if top == 0 {
		top = 2400 * length.MM
	}
	return top
}

// ends gives where the drawings of the wall begin and end along it: at its ends, or past them at what
// stands beyond.
func (c Scene) ends() (from, to L) {
	to = c.Wall.Length
	for _, o := range c.onWall() {
		from, to = min(from, o.Box.Min.X), max(to, o.Box.Max.X)
	}
	return from, to
}

func (c Scene) bottom() L {
	low := L(0)
	for _, p := range c.Wall.Floor {
		low = min(low, p.Z)
	}
	return low
}

// datum is that of all heights of a wall: the one of the steps of setting up.
const datum = "; heights from the floor at its left end"

// already is behind the name of what stands already.
const already = "*"

// Elevation gives the wall seen straight on, with its two rods: sizes along it below, heights
// at the left. With fronts off, bays, shelves, studs and fixings show. What stands free before the wall has a drawing
// of its own.
func (c Scene) Elevation(off bool, link func(owner string) string) Figure {
	c.only = func(o part.Owner) bool { return !free(o) }
	f := Figure{Title: "Elevation of wall " + c.Wall.ID + ", fronts on" + datum}
	low := slices.ContainsFunc(c.onWall(), func(o part.Owner) bool { return !o.Hung && o.Kind != "base" })
	if off {
		f.Title = "Elevation of wall " + c.Wall.ID + ", fronts off: bays, shelves, studs (dash-dot), fixings (crosses)"
		if len(c.Wall.Studs) > 0 {
			f.Notes = []string{"widths and heights stand on the elevation with fronts on"}
		}
		f.Notes = append(f.Notes, c.surveyed()...)
	}
	if slices.ContainsFunc(c.onWall(), func(o part.Owner) bool { return o.Standing && o.Kind != "filler" }) {
		f.Title += "; " + already + " is not made here"
	}
	return c.elevation(f, off, off || !low, link)
}

// Free gives what stands free before a wall, seen as its elevation is; false when nothing does.
func (c Scene) Free(link func(owner string) string) (Figure, bool) {
	c.only = free
	if len(c.onWall()) == 0 {
		return Figure{}, false
	}
	w := *c.Wall
	c.Wall = &Wall{ID: w.ID, Length: w.Length, Floor: w.Floor, Level: w.Level}
	return c.elevation(Figure{Title: "What stands free before wall " + c.Wall.ID + datum}, false, false, link), true
}

// elevation draws what a scene shows; bare leaves room for the ground where no chain stands below.
func (c Scene) elevation(f Figure, off, bare bool, link func(string) string) Figure {
	w := c.Wall
	f.Z0, f.Z1, f.Pad = c.bottom(), c.top(), [4]float64{2, 1, 2, 1}
	f.X0, f.X1 = c.ends()
	if bare {
		f.Pad[3] = 4 // the ground is hatched below the line, and no chain may stand there
	}
	f.Paint = func(s *draw.Sheet, v draw.View) { c.paintElevation(s, v, off, link) }
	f.Dims = func(d *draw.Dims, v draw.View) {
		var floor, hung []span        // what stands on the floor has its chain below, what is over it above
		heights, high := []L{}, []L{} // of what stands, at the left; of what hangs, at the right
		for _, o := range c.onWall() {
			x := span{o.Box.Min.X, o.Box.Max.X, Code(c.Assembly, o.ID)}
			switch {
			case o.Hung || o.Kind == "hutch" || o.Standing && o.Box.Min.Z > 300*length.MM:
				hung = append(hung, x)
			case o.Kind != "base":
				floor = append(floor, x)
			}
			if o.Kind == "filler" {
				continue
			}
			switch {
			case o.Standing:
			case o.Hung || o.Kind == "hutch":
				high = append(high, o.Box.Min.Z, o.Box.Max.Z)
			default:
				heights = append(heights, o.Box.Min.Z, o.Box.Max.Z)
			}
		}
		if w.Height > 0 {
			heights = append(heights, w.Height)
		}
		if off && len(w.Studs) > 0 {
			var studs []L
			for _, st := range w.Studs {
				studs = append(studs, st.At)
			}
			tape(d, draw.Below, v, 0, studs, c.Unit)
			return
		}
		spans(d, draw.Below, v, floor, 0, w.Length, c.Unit)
		spans(d, draw.Above, v, hung, 0, w.Length, c.Unit)
		tape(d, draw.Left, v, 0, heights, c.Unit)
		if len(high) > 0 {
			tape(d, draw.Right, v, 0, high, c.Unit)
		}
	}
	return f
}

func (c Scene) paintElevation(s *draw.Sheet, v draw.View, off bool, link func(string) string) {
	w := c.Wall
	top, low := c.top(), c.bottom()
	s.Layer = "Wall"
	// studs first: what stands before them covers them when the fronts are on
	for _, st := range w.Studs {
		s.Poly(draw.Centre, v.At(st.At, w.floorAt(st.At)), v.At(st.At, c.ceilingAt(st.At)))
	}
	floor := []draw.Point{}
	line := w.Floor
	if len(line) == 0 {
		line = []At{{0, 0}, {w.Length, 0}}
	}
	for _, p := range line {
		floor = append(floor, v.At(p.X, p.Z))
	}
	deep := v.Y(low) + 3
	ring := append(slices.Clone(floor), draw.Pt(v.X(line[len(line)-1].X), deep), draw.Pt(v.X(line[0].X), deep))
	s.Hatch(draw.GroundHatch, ring)
	s.Poly(draw.Outline, floor...)
	s.Poly(draw.Narrow, v.At(0, w.floorAt(0)), v.At(0, c.ceilingAt(0)))
	s.Poly(draw.Narrow, v.At(w.Length, w.floorAt(w.Length)), v.At(w.Length, c.ceilingAt(w.Length)))
	var ceil []draw.Point
	if len(w.Ceiling) > 1 {
		for _, p := range w.Ceiling {
			ceil = append(ceil, v.At(p.X, p.Z))
		}
	} else if w.Height > 0 {
		ceil = []draw.Point{v.At(0, w.Height), v.At(w.Length, w.Height)}
	}
	s.Poly(draw.Visible, ceil...)
	within := func(b Box) (Box, bool) {
		b.Min.X, b.Max.X = max(0, b.Min.X), min(w.Length, b.Max.X)
		b.Min.Z, b.Max.Z = max(low, b.Min.Z), min(top, b.Max.Z)
		return b, b.Max.X > b.Min.X && b.Max.Z > b.Min.Z
	}
	var names []tab
	for _, o := range w.Openings {
		b, ok := within(o.Box)
		if !ok {
			continue
		}
		r := v.Rect(b.Min.X, b.Min.Z, b.Max.X, b.Max.Z)
		a := s.Rect(draw.Edge, r)
		a.Filled, a.Fill = true, draw.White
		s.Poly(draw.Fine, draw.Pt(r.X, r.Bottom()), draw.Pt(r.Right(), r.Y))
		s.Poly(draw.Fine, draw.Pt(r.X, r.Y), draw.Pt(r.Right(), r.Bottom()))
		names = append(names, tab{o.ID, r, r.Mid(), ""})
	}
	for _, o := range w.Obstacles {
		b, ok := within(o.Box)
		if !ok {
			continue
		}
		s.Rect(draw.Narrow, v.Rect(b.Min.X, b.Min.Z, b.Max.X, b.Max.Z))
	}
	s.Layer = "Cases"
	parts, standing := c.Parts()
	if off {
		parts = Without(parts, Fronts(c.Assembly))
	}
	if !off {
		for _, o := range c.onWall() {
			s.Area(draw.White, v.Rect(o.Box.Min.X, o.Box.Min.Z, o.Box.Max.X, o.Box.Max.Z).Corners()...)
		}
	}
	var feet []part.Foot
	for _, f := range c.Assembly.Feet {
		if slices.ContainsFunc(c.onWall(), func(o part.Owner) bool { return o.ID == f.Owner }) {
			feet = append(feet, f)
		}
	}
	paintFeet(s, v, feet, parts, 0)
	list := solids(parts, 0)
	for i, b := range standing {
		list = append(list, hidden.Solid{ID: len(parts) + i, Boxes: []Box{b}})
	}
	at := draw.Edge
	if v.Scale.Real > 15*v.Scale.Paper {
		at = draw.Narrow
	}
	paint(s, hidden.Lines(hidden.Front(), list, false), flat(v), at, draw.NoLine)
	for _, o := range c.onWall() {
		if o.Kind == "case" && !o.Standing {
			s.Rect(draw.Visible, v.Rect(o.Carcass.Min.X, o.Carcass.Min.Z, o.Carcass.Max.X, o.Carcass.Max.Z))
		}
	}
	s.Layer = "Keep clear"
	for _, z := range w.Clear {
		b, ok := within(z.Box)
		if !ok {
			continue
		}
		r := v.Rect(b.Min.X, b.Min.Z, b.Max.X, b.Max.Z)
		s.Hatch(draw.KeepClear, r.Corners())
		s.Rect(draw.Ghost, r)
		names = append(names, tab{z.ID, r, r.Mid(), ""})
	}
	var screws []draw.Rect // names cover none
	if off {
		s.Layer = "Fixings"
		c.ledgers(s, v, draw.Ghost)
		for _, fx := range c.Assembly.Fixings {
			if fx.Wall == w.ID && (fx.Kind == part.ToStud || fx.Kind == part.ToWall) {
				p := v.At(fx.At.X, fx.At.Z)
				s.Poly(draw.Edge, p.Add(draw.Pt(-0.9, -0.9)), p.Add(draw.Pt(0.9, 0.9)))
				s.Poly(draw.Edge, p.Add(draw.Pt(-0.9, 0.9)), p.Add(draw.Pt(0.9, -0.9)))
				screws = append(screws, inked(p))
			}
		}
	}
	s.Layer = "Marks"
	if w.Level != 0 || len(w.Floor) > 1 {
		s.Poly(draw.Ghost, v.At(0, w.Level), v.At(w.Length, w.Level))
	}
	var owners []tab
	for _, o := range c.onWall() {
		if o.Kind == "filler" {
			continue
		}
		r := v.Rect(o.Box.Min.X, o.Box.Min.Z, o.Box.Max.X, o.Box.Max.Z)
		text, to := Code(c.Assembly, o.ID), ""
		if o.Standing {
			text += already
		} else {
			to = link(o.ID)
		}
		owners = append(owners, tab{text, r, r.Mid(), to})
	}
	tabs(s, v.Rect(0, low, w.Length, top), screws, append(owners, names...))
	s.Layer = ""
}

// free tells whether something stands free in the room, away from the wall.
func free(o part.Owner) bool { return !o.Hung && o.Box.Max.Y < -600*length.MM }

func (c Scene) ceilingAt(x L) L {
	w := c.Wall
	if len(w.Ceiling) < 2 {
		return c.top()
	}
	for i := 1; i < len(w.Ceiling); i++ {
		a, b := w.Ceiling[i-1], w.Ceiling[i]
		if x <= b.X && b.X > a.X {
			return a.Z + (b.Z-a.Z).MulDiv(int64(max(0, x-a.X)), int64(b.X-a.X))
		}
	}
	return w.Ceiling[len(w.Ceiling)-1].Z
}

// reach gives how far into the room anything of the scene comes, open or closed.
func (c Scene) reach() L {
	y := L(0)
	for _, o := range c.onWall() {
		y = min(y, o.Box.Min.Y)
	}
	for _, m := range c.motions() {
		y = min(y, m.Swept.Min.Y)
	}
	if w := c.Wall; w != nil {
		if w.Aisle > 0 {
			y -= w.Aisle
		}
		if w.Depth > 0 {
			y = max(y, -w.Depth)
		}
		for _, t := range w.Things {
			y = min(y, t.Box.Min.Y)
		}
		for _, o := range w.Openings {
			if o.Swings {
				y = min(y, o.Box.Min.X-o.Box.Max.X)
			}
		}
	}
	return y
}

func (c Scene) motions() []part.Motion {
	keep := map[string]bool{}
	for _, o := range c.onWall() {
		keep[o.ID] = true
	}
	var out []part.Motion
	for _, m := range c.Assembly.Motions {
		if keep[m.Owner] {
			out = append(out, m)
		}
	}
	return out
}

// endWall is how much of a wall is drawn that stands at an end of this one.
const endWall = 60 * length.MM

// Plan gives the wall from above: what stands at it, its doors open and its drawers out, the
// floor that is kept free, and what else stands in the room.
func (c Scene) Plan() Figure {
	w := c.Wall
	f := Figure{Title: "Plan of wall " + w.ID + c.shows(), Z0: c.reach(), Z1: 120 * length.MM, Pad: [4]float64{2, 2, 6, 2}}
	f.Notes = append(c.inRoom(), c.Wall.Together...)
	f.X0, f.X1 = c.ends()
	stands := c.Wall.Ends
	for _, m := range c.motions() { // doors that open past the ends of the wall
		if !stands[0] {
			f.X0 = min(f.X0, m.Swept.Min.X)
		}
		if !stands[1] {
			f.X1 = max(f.X1, m.Swept.Max.X)
		}
	}
	if stands[0] {
		f.X0 = min(f.X0, -endWall)
	}
	if stands[1] {
		f.X1 = max(f.X1, w.Length+endWall)
	}
	f.Paint = func(s *draw.Sheet, v draw.View) { c.paintPlan(s, v) }
	f.Dims = func(d *draw.Dims, v draw.View) {
		// the deepest of what hangs, of what stands, and of what slides out
		var hung, stands, slides L
		for _, o := range c.onWall() {
			switch {
			case o.Kind == "filler" || o.Standing:
			case o.Hung:
				hung = min(hung, o.Box.Min.Y)
			default:
				stands = min(stands, o.Box.Min.Y)
			}
		}
		for _, m := range c.motions() {
			if m.Kind == part.Slide {
				slides = min(slides, m.Swept.Min.Y)
			}
		}
		depth := []L{0, hung, stands, slides}
		if w.Aisle > 0 {
			depth = append(depth, c.front()-w.Aisle)
		}
		for _, t := range w.Things {
			depth = append(depth, t.Box.Max.Y)
		}
		depth = sorted(depth)
		// distances from the wall, where the tape is hooked
		hook(d, draw.Left, v.Y(0), depth[:len(depth)-1], func(y L) (float64, string) { return v.Y(y), c.Unit.Mark(-y) })
	}
	return f
}

// front gives how far the cases of the floor come into the room, closed.
func (c Scene) front() L {
	y := L(0)
	for _, o := range c.onWall() {
		if !o.Hung && !o.Standing {
			y = min(y, o.Box.Min.Y)
		}
	}
	return y
}

func (c Scene) paintPlan(s *draw.Sheet, v draw.View) {
	w := c.Wall
	s.Layer = "Wall"
	band := v.Rect(0, 0, w.Length, 120*length.MM)
	s.Hatch(draw.WallHatch, band.Corners())
	stands := c.Wall.Ends
	for end, at := range [2]L{-endWall, w.Length} { // and those that stand at its ends
		if stands[end] {
			s.Hatch(draw.WallHatch, v.Rect(at, c.reach(), at+endWall, 120*length.MM).Corners())
			x := v.X(max(at, 0))
			s.Poly(draw.Outline, draw.Pt(x, v.Y(c.reach())), draw.Pt(x, v.Y(0)))
		}
	}
	for _, st := range w.Studs {
		r := v.Rect(st.At-st.Width/2, 15*length.MM, st.At+st.Width/2, 104*length.MM)
		a := s.Rect(draw.Narrow, r)
		a.Filled, a.Fill = true, draw.White
		s.Poly(draw.Fine, draw.Pt(r.X, r.Y), draw.Pt(r.Right(), r.Bottom()))
		s.Poly(draw.Fine, draw.Pt(r.X, r.Bottom()), draw.Pt(r.Right(), r.Y))
	}
	for _, o := range w.Openings {
		a := s.Rect(draw.Narrow, v.Rect(max(0, o.Box.Min.X), 0, min(w.Length, o.Box.Max.X), 120*length.MM))
		a.Filled, a.Fill = true, draw.White
		if o.Swings {
			r := v.Scale.MM(o.Box.Max.X - o.Box.Min.X)
			if o.HingeLeft {
				s.Arc(draw.Ghost, v.At(o.Box.Min.X, 0), r, 0, math.Pi/2)
				s.Poly(draw.Ghost, v.At(o.Box.Min.X, 0), v.At(o.Box.Min.X, 0).Add(draw.Pt(0, r)))
			} else {
				s.Arc(draw.Ghost, v.At(o.Box.Max.X, 0), r, math.Pi, math.Pi/2)
				s.Poly(draw.Ghost, v.At(o.Box.Max.X, 0), v.At(o.Box.Max.X, 0).Add(draw.Pt(0, r)))
			}
		}
	}
	s.Poly(draw.Outline, v.At(0, 0), v.At(w.Length, 0))
	s.Layer = "Cases"
	var names, over []tab
	for _, hung := range []bool{true, false} { // names of what hangs have less room, and choose first
		for _, o := range c.onWall() {
			if o.Hung != hung || o.Kind == "filler" || o.Kind == "base" {
				continue
			}
			r := v.Rect(o.Box.Min.X, o.Box.Min.Y, o.Box.Max.X, o.Box.Max.Y)
			line := draw.Visible
			if hung {
				line = draw.Hidden
			} else if o.Kind == "counter" || o.Standing {
				line = draw.Edge
			}
			s.Rect(line, r)
			if o.Kind == "case" || o.Kind == "counter" || o.Kind == "hutch" || o.Standing {
				p := r.Mid()
				if hung {
					p.Y = r.Y + r.H*0.3
				} else {
					p.Y = r.Y + r.H*0.7
				}
				text := Code(c.Assembly, o.ID)
				if n := (tab{text, r, p, ""}); o.Kind == "case" || o.Standing {
					names = append(names, n)
				} else { // what lies over others finds its place after them
					over = append(over, n)
				}
			}
		}
	}
	names = append(names, c.paintRound(s, v)...)
	s.Layer = "Motions"
	type seen struct{ a, b, c, d L }
	done := map[seen]bool{}
	for _, m := range c.motions() {
		switch m.Kind {
		case part.Swing:
			wide, opens := m.Leaf(), m.Angle
			if a, ok := w.Stops[m.ID]; ok {
				opens = a
			}
			k := seen{m.Pivot.X, m.Pivot.Y, wide, L(opens)}
			if done[k] || m.Hinge != geom.Left && m.Hinge != geom.Right {
				continue
			}
			done[k] = true
			r := v.Scale.MM(wide)
			p := v.At(m.Pivot.X, m.Pivot.Y)
			t := float64(opens) * math.Pi / 180
			a0, a1 := 0.0, t // clockwise on paper: from closed (to the right) down into the room
			if m.Hinge == geom.Right {
				a0, a1 = math.Pi, math.Pi-t
			}
			s.Arc(draw.Ghost, p, r, a0, a1)
			sin, cos := math.Sincos(a1)
			s.Poly(draw.Edge, p, p.Add(draw.Pt(r*cos, r*sin)))
		case part.Slide, part.Roll:
			b := m.Closed.Or(m.Closed.Shift(m.Dir.Vec(m.Travel)))
			k := seen{b.Min.X, b.Min.Y, b.Max.X, 0}
			if done[k] || m.Needs != "" {
				continue
			}
			done[k] = true
			s.Rect(draw.Ghost, v.Rect(b.Min.X, b.Min.Y, b.Max.X, m.Closed.Min.Y))
		}
	}
	s.Layer = "Room"
	if w.Aisle > 0 {
		y := c.front() - w.Aisle
		s.Poly(draw.Centre, v.At(0, y), v.At(w.Length, y))
		m := v.At(w.Length/2, y)
		names = append(names, tab{"aisle " + c.Unit.Mark(w.Aisle), draw.Rect{X: v.X(0), Y: m.Y, W: v.X(w.Length) - v.X(0)}, m, ""})
	}
	for _, t := range w.Things {
		r := v.Rect(max(0, t.Box.Min.X), max(c.reach(), t.Box.Min.Y), min(w.Length, t.Box.Max.X), t.Box.Max.Y)
		if r.W <= 0 || r.H <= 0 {
			continue
		}
		s.Rect(draw.Ghost, r)
		names = append(names, tab{t.ID, r, r.Mid(), ""})
	}
	s.Layer = "Marks"
	tabs(s, v.Rect(0, c.reach(), w.Length, 0), nil, append(names, over...))
	s.Layer = ""
}
