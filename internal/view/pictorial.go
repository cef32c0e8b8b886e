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

// extent is the rectangle that segments take, in the picture's millimetres.
func extent(segs []hidden.Segment) (lo, hi hidden.Point) {
	lo, hi = hidden.Point{X: math.Inf(1), Y: math.Inf(1)}, hidden.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, g := range segs {
		for _, p := range []hidden.Point{g.A, g.B} {
			lo = hidden.Point{X: min(lo.X, p.X), Y: min(lo.Y, p.Y)}
			hi = hidden.Point{X: max(hi.X, p.X), Y: max(hi.Y, p.Y)}
		}
	}
	return lo, hi
}

// fit maps a picture into the middle of a rectangle, as large as it goes but no larger than
// most paper for real, and says what area it takes.
func fit(segs []hidden.Segment, r draw.Rect, most float64) (at func(hidden.Point) draw.Point, took draw.Rect) {
	lo, hi := extent(segs)
	w, h := max(hi.X-lo.X, 1), max(hi.Y-lo.Y, 1)
	k := min(r.W/w, r.H/h, most)
	x, y := r.X+(r.W-w*k)/2, r.Y+(r.H+h*k)/2
	return func(p hidden.Point) draw.Point { return draw.Pt(x+(p.X-lo.X)*k, y-(p.Y-lo.Y)*k) },
		draw.Rect{X: x, Y: y - h*k, W: w * k, H: h * k}
}

// Pictorial draws parts as they stand, hidden lines removed, in cabinet projection for what is
// wide and isometric for one case, and gives the area it takes. It is not to scale.
func Pictorial(s *draw.Sheet, r draw.Rect, parts []Part, standing []Box, iso bool) draw.Rect {
	v := hidden.Cabinet(false)
	if iso {
		v = hidden.Isometric(false)
	}
	list := solids(parts, 20*length.MM)
	for i, b := range standing {
		list = append(list, hidden.Solid{ID: len(parts) + i, Boxes: []Box{b}})
	}
	segs := hidden.Lines(v, list, false)
	if len(segs) == 0 {
		return draw.Rect{X: r.X, Y: r.Y}
	}
	was := s.Layer
	s.Layer = "Pictorial"
	defer func() { s.Layer = was }()
	at, took := fit(segs, r, 0.2)
	line := draw.Edge
	if len(parts) > 60 {
		line = draw.Narrow
	}
	paint(s, segs, at, line, draw.NoLine)
	return took
}

// Apart is one owner's parts drawn apart, with names on leaders.
type Apart struct {
	parts []Part
	names map[string]string
	segs  []hidden.Segment
	side  float64 // room for the widest name
}

// NewApart moves one owner's parts apart. Those have a leader that have a name by their mark
// (all, with their marks, when names is nil).
func NewApart(parts []Part, own Box, names map[string]string) Apart {
	a := Apart{parts: parts, names: names, side: 24}
	if len(parts) == 0 {
		return a
	}
	list := solids(parts, 4*length.MM)
	shift := apart(parts, own)
	for i := range list {
		list[i].Shift = shift[i]
	}
	a.segs = a.apart(list, own)
	for _, p := range parts {
		t := draw.Text{Text: a.name(p), Size: draw.LeastCap, Bold: true}
		a.side = max(a.side, t.Width()+12)
	}
	return a
}

// apart gives the lines of parts that are moved. Rails behind a back that hides them are moved on until they are seen, or
// as far as shows most of the one that is hidden most.
func (a Apart) apart(list []hidden.Solid, own Box) []hidden.Segment {
	const enough = 0.25 // of the length of its edges that is seen when nothing is before it
	v := hidden.Isometric(false)
	best := hidden.Lines(v, list, false)
	var rails []int
	whole := map[int]float64{}
	for i, p := range a.parts {
		if a.name(p) != "" && (p.Role == part.HangRail || p.Role == part.Cleat) {
			rails = append(rails, i)
			whole[i] = long(hidden.Lines(v, list[i:i+1], false), list[i].ID)
		}
	}
	seen := func(segs []hidden.Segment, i int) float64 { return long(segs, list[i].ID) / max(1, whole[i]) }
	for _, i := range rails {
		if seen(best, i) >= enough {
			continue
		}
		size, from := own.Size(), list[i].Shift
		at := from
		for _, d := range []geom.Vec{
			geom.V(0, size.Y*6/10, 0), geom.V(0, size.Y*12/10, 0), geom.V(0, 0, -size.Z*4/10), geom.V(0, 0, -size.Z*7/10),
			geom.V(0, size.Y, -size.Z*4/10), geom.V(0, size.Y*2, 0), geom.V(0, size.Y*3, 0),
		} {
			list[i].Shift = from.Add(d)
			segs := hidden.Lines(v, list, false)
			least := true // and no other rail is hidden by it
			for _, k := range rails {
				least = least && (k == i || seen(segs, k) >= min(enough, seen(best, k)))
			}
			if least && seen(segs, i) > seen(best, i)+0.02 {
				best, at = segs, list[i].Shift
			}
			if seen(best, i) >= enough {
				break
			}
		}
		list[i].Shift = at
	}
	return best
}

// long gives the length of the lines of one solid.
func long(segs []hidden.Segment, id int) (sum float64) {
	for _, g := range segs {
		if g.ID == id {
			sum += math.Hypot(g.B.X-g.A.X, g.B.Y-g.A.Y)
		}
	}
	return sum
}

func (a Apart) name(p Part) string {
	if a.names == nil {
		return p.Mark
	}
	return a.names[p.Mark]
}

const apartAir = 5.0 // above and below what is drawn apart

// High gives the height that the drawing takes in a width, no more than most, and no less than
// its names need, one under the other in two columns.
func (a Apart) High(wide, most float64) float64 {
	n := 0
	for _, p := range a.parts {
		if a.name(p) != "" {
			n++
		}
	}
	least := float64((n+1)/2)*6.5 + 2*apartAir
	if len(a.segs) == 0 {
		return least
	}
	at, took := fit(a.segs, draw.Rect{W: wide - 2*a.side, H: max(most, least) - 2*apartAir}, 0.2)
	named := (&draw.Sheet{}).Marks(took, a.marks(at, nil)) // with names above and below where the sides are full
	return max(least, took.H+2*apartAir, named.H+2)
}

// Draw draws it in a rectangle; every name leads to the anchor that link gives.
func (a Apart) Draw(s *draw.Sheet, r draw.Rect, link func(mark string) string) {
	if len(a.segs) == 0 {
		return
	}
	in := draw.Rect{X: r.X + a.side, Y: r.Y + apartAir, W: r.W - 2*a.side, H: r.H - 2*apartAir}
	at, took := fit(a.segs, in, 0.2)
	for range 4 { // smaller, until names above and below it stay in the rectangle
		named := (&draw.Sheet{}).Marks(took, a.marks(at, nil))
		above, below := max(0, r.Y-named.Y), max(0, named.Bottom()-r.Bottom())
		if above+below < 0.01 || in.H < above+below+20 {
			break
		}
		in.Y, in.H = in.Y+above, in.H-above-below
		at, took = fit(a.segs, in, 0.2)
	}
	was := s.Layer
	s.Layer = "Exploded"
	paint(s, a.segs, at, draw.Edge, draw.NoLine)
	s.Layer = was
	s.Marks(took, a.clearly(took, r, at, a.marks(at, link)))
}

// marks gives the names of the parts: each points at an edge that is seen of its part, the middle of the longest or, where
// another part's edge lies there, the next place of it that is its alone.
func (a Apart) marks(at func(hidden.Point) draw.Point, link func(mark string) string) []draw.Mark {
	own, all := a.strokes(at)
	var marks []draw.Mark
	for i, p := range a.parts {
		if list := own[i]; len(list) > 0 && a.name(p) != "" {
			m := draw.Mark{Text: a.name(p), At: alone(list, all, 1)[0]}
			if link != nil {
				m.Link = link(p.Mark)
			}
			marks = append(marks, m)
		}
	}
	return marks
}

// apart gives every part the way it is moved in an exploded view: away from the middle of its
// owner along the axis it was put in from, what moves together staying together.
func apart(parts []Part, own Box) []geom.Vec {
	size := own.Size()
	mid := geom.V((own.Min.X+own.Max.X)/2, (own.Min.Y+own.Max.Y)/2, (own.Min.Z+own.Max.Z)/2)
	out := make([]geom.Vec, len(parts))
	for i, p := range parts {
		b := p.Box()
		c := geom.V((b.Min.X+b.Max.X)/2, (b.Min.Y+b.Max.Y)/2, (b.Min.Z+b.Max.Z)/2)
		switch p.Role {
		case part.Side, part.EndPanel:
			d := size.X * 45 / 100
			if c.X < mid.X {
				d = -d
			}
			out[i] = geom.V(d, 0, 0)
		case part.Door, part.DrawerFront, part.FalseFront:
			out[i] = geom.V(0, -size.Y*3/2, 0)
			if p.Role == part.DrawerFront {
				out[i] = geom.V(0, -size.Y*17/10, lifted(parts, p.Moves))
			}
		case part.BackPanel, part.HangRail, part.Cleat, part.WallCleat, part.Ledger:
			out[i] = geom.V(0, size.Y*8/10, 0)
			if p.Role != part.BackPanel {
				out[i] = geom.V(0, size.Y*13/10, 0)
			}
		case part.Top, part.Stretcher:
			out[i] = geom.V(0, 0, size.Z*35/100)
		case part.CounterLayer: // the upper the further, so that what is under each is seen
			out[i] = geom.V(0, 0, size.Y*35/100*L(1+below(parts, part.CounterLayer, c.Z)))
		case part.CounterEdge:
			d := size.Y * 30 / 100
			switch {
			case b.Size().X < b.Size().Y && c.X < mid.X:
				out[i] = geom.V(-d, 0, 0)
			case b.Size().X < b.Size().Y:
				out[i] = geom.V(d, 0, 0)
			case c.Y < mid.Y:
				out[i] = geom.V(0, -d, 0)
			default:
				out[i] = geom.V(0, d, 0)
			}
		case part.HookBoard:
			out[i] = geom.V(0, -size.Z*7/10, 0)
		case part.Bottom:
			out[i] = geom.V(0, 0, -size.Z*25/100)
		case part.ToeBoard, part.BaseRail:
			out[i] = geom.V(0, -size.Y*6/10, -size.Z*30/100)
		default:
			if p.Moves != "" {
				out[i] = geom.V(0, -size.Y*8/10, lifted(parts, p.Moves))
			}
		}
	}
	return out
}

// lifted gives how far up what moves together is moved, so that drawers one over the other lie apart.
func lifted(parts []Part, moves string) L {
	at := map[string]L{} // how high the lower edge of each drawer's front is
	var edges []L
	high := L(0)
	for _, p := range parts {
		if b := p.Box(); p.Role == part.DrawerFront && p.Moves != "" {
			at[p.Moves], edges, high = b.Min.Z, append(edges, b.Min.Z), max(high, b.Size().Z)
		}
	}
	slices.Sort(edges)
	edges = slices.Compact(edges)
	z, ok := at[moves]
	if !ok {
		return 0
	}
	return high * 4 / 10 * L(2*slices.Index(edges, z)-len(edges)+1) / 2
}

// below tells how many heights there are at which parts of a role lie lower than one.
func below(parts []Part, role part.Role, z L) int {
	seen := map[L]bool{}
	for _, p := range parts {
		if b := p.Box(); p.Role == role && (b.Min.Z+b.Max.Z)/2 < z {
			seen[(b.Min.Z+b.Max.Z)/2] = true
		}
	}
	return len(seen)
}

// Of gives an owner's parts, in the assembly's order.
func Of(a *part.Assembly, owner string) []Part {
	var out []Part
	for _, p := range a.Parts {
		if p.Owner == owner {
			out = append(out, p)
		}
	}
	return out
}

// Without leaves parts out.
func Without(parts []Part, marks map[string]bool) []Part {
	return slices.DeleteFunc(slices.Clone(parts), func(p Part) bool { return marks[p.Mark] })
}

// Adding draws one step of putting parts together: those that come new strong, what stands
// already thin, hidden lines removed; from in front and above on the right, or from the corner where the
// new pieces are seen, which it then says; over when all of it lies upside down.
func Adding(s *draw.Sheet, r draw.Rect, parts []Part, fresh map[string]bool, over bool) {
	if len(parts) == 0 || r.H <= 0 {
		return
	}
	if over {
		parts = turnedOver(parts)
	}
	segs, from := seen(parts, fresh)
	if over {
		from = "upside down"
	}
	if len(segs) == 0 {
		return
	}
	was := s.Layer
	s.Layer = "Step"
	defer func() { s.Layer = was }()
	if from != "" {
		const room = 3.6
		lines := draw.Wrap(s.Said(from), draw.LeastCap, false, r.W)
		for i, l := range lines {
			s.Text(draw.Pt(r.X+r.W/2, r.Bottom()-0.4-room*float64(len(lines)-1-i)), draw.LeastCap, l, draw.Middle)
		}
		r.H -= room * float64(len(lines))
	}
	at, _ := fit(segs, r, 0.12)
	var old, now []hidden.Segment
	for _, g := range segs {
		if fresh[parts[g.ID].Mark] {
			now = append(now, g)
		} else {
			old = append(old, g)
		}
	}
	paint(s, old, at, draw.Fine, draw.NoLine)
	line := draw.Visible
	if len(old) == 0 {
		line = draw.Edge
	}
	paint(s, now, at, line, draw.NoLine)
}

// turnedOver gives parts turned about the line along the wall, so that what was below is above.
func turnedOver(parts []Part) []Part {
	turn := func(d geom.Dir) geom.Dir {
		if d.Axis() == 0 {
			return d
		}
		return d.Not()
	}
	out := slices.Clone(parts)
	for i := range out {
		at := &out[i].Pose
		at.Origin.Y, at.Origin.Z = -at.Origin.Y, -at.Origin.Z
		at.U, at.V = turn(at.U), turn(at.V)
	}
	return out
}

// corners are those a step may be seen from, the usual one first, with the words that say so.
var corners = []struct {
	x, y, z float64
	words   string
}{{1, -1, 1, ""}, {-1, -1, 1, "from the left"}, {1, 1, 1, "from behind"}, {-1, 1, 1, "from behind"}, {1, -1, -1, "from below"}, {1, 1, -1, "behind, below"}}

// seen gives the lines of parts from the first corner that shows a good part of the fresh ones, or
// from the one that shows most of them.
func seen(parts []Part, fresh map[string]bool) (best []hidden.Segment, from string) {
	const enough = 0.45
	all := solids(parts, 20*length.MM)
	var alone []hidden.Solid
	for i, p := range parts {
		if fresh[p.Mark] {
			alone = append(alone, all[i])
		}
	}
	long := func(segs []hidden.Segment) float64 {
		sum := 0.0
		for _, g := range segs {
			if fresh[parts[g.ID].Mark] {
				sum += math.Hypot(g.B.X-g.A.X, g.B.Y-g.A.Y)
			}
		}
		return sum
	}
	most := -1.0
	for _, c := range corners {
		v := hidden.Corner(c.x, c.y, c.z)
		segs := hidden.Lines(v, all, false)
		if len(alone) == 0 || len(alone) == len(all) {
			return segs, ""
		}
		share := long(segs) / max(1, long(hidden.Lines(v, alone, false)))
		if share >= enough {
			return segs, c.words
		}
		if share > most+0.05 {
			best, from, most = segs, c.words, share
		}
	}
	return best, from
}
