package step

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/geom"
	"stowright/internal/part"
)

// Shape is a solid by its boundary: every edge belongs to two faces and is walked once each
// way.
type Shape struct {
	Points []geom.Vec
	Edges  []Edge
	Faces  []Face
	Off    map[part.OpKind]int // workings that the solid does not show
}

// Edge runs from one point to another, straight; a Round one is a circle about Axis through
// Centre that begins and ends in From, anticlockwise as seen against Axis.
type Edge struct {
	From, To int
	Round    bool
	Centre   geom.Vec
	Axis     geom.Dir
	Dia      l
}

// Use is an edge as a loop walks it.
type Use struct {
	Edge    int
	Forward bool
}

// Face is a plane that looks in direction Out through At, or the wall of a bore about Out. The
// first loop is the outer one, anticlockwise as seen from outside.
type Face struct {
	Out   geom.Dir
	At    geom.Vec
	Bore  bool
	Dia   l
	Loops [][]Use
}

// LeftOff says what the solid does not show, "" for nothing.
func (s Shape) LeftOff() string {
	var kinds []part.OpKind
	for k := range s.Off {
		kinds = append(kinds, k)
	}
	slices.Sort(kinds)
	var out []string
	for _, k := range kinds {
		out = append(out, fmt.Sprintf("%d %s", s.Off[k], k))
	}
	if len(out) == 0 {
		return ""
	}
	return "left off: " + strings.Join(out, ", ")
}

// Solid gives a part's solid in its own frame: the board less its straight workings and the
// round holes that lie clear of edges, of straight workings and of each other. Pockets,
// bevels, tapers and countersinks are left off; slots have square ends.
func Solid(p part.Part) Shape {
	box := geom.B(0, 0, 0, p.Size[0], p.Size[1], p.Size[2])
	s := Shape{Off: map[part.OpKind]int{}}
	var gone []geom.Box
	var straight []part.OpKind
	var bores []bore
	for _, o := range p.Ops {
		switch o.Kind {
		case part.Groove, part.Rabbet, part.Notch, part.Cutout, part.Slot:
			if b := o.Removed(p.Size).And(box); !b.Empty() {
				gone, straight = append(gone, b), append(straight, o.Kind)
			}
		case part.Hole, part.Cup:
			d := o.Face.Normal()
			deep := box.Size().At(d.Axis())
			bores = append(bores, bore{kind: o.Kind, at: o.Face.Point(o.X, o.Y, p.Size), out: d, dia: o.Dia, depth: min(o.Depth, deep), through: o.Depth >= deep})
		default:
			s.Off[o.Kind]++
		}
	}
	g := newGrid(box, gone)
	if !s.planes(g) { // workings that touch along an edge: the plain board, and say so
		s = Shape{Off: s.Off}
		for _, k := range straight {
			s.Off[k]++
		}
		g = newGrid(box, nil)
		s.planes(g)
	}
	var kept []bore
	for _, b := range bores {
		if !g.clear(b) || slices.ContainsFunc(kept, b.meets) {
			s.Off[b.kind]++
			continue
		}
		kept = append(kept, b)
		s.bore(g, b)
	}
	return s
}

// bore is a round hole from a point of the surface, against out.
type bore struct {
	kind    part.OpKind
	at      geom.Vec
	out     geom.Dir
	dia     l
	depth   l
	through bool
}

// box is the space around the bore.
func (b bore) box() geom.Box {
	end := b.at.Add(b.out.Not().Vec(b.depth))
	r := (b.dia + 1) / 2
	x := geom.Box{Min: geom.V(min(b.at.X, end.X), min(b.at.Y, end.Y), min(b.at.Z, end.Z)), Max: geom.V(max(b.at.X, end.X), max(b.at.Y, end.Y), max(b.at.Z, end.Z))}
	for a := range 3 {
		if a != b.out.Axis() {
			x.Min, x.Max = x.Min.With(a, x.Min.At(a)-r), x.Max.With(a, x.Max.At(a)+r)
		}
	}
	return x
}

// meets tells whether two bores share space or nearly do.
func (b bore) meets(c bore) bool {
	if !b.box().Grow(2).Meets(c.box()) {
		return false
	}
	if b.out.Axis() != c.out.Axis() {
		return true
	}
	d := b.at.Sub(c.at).With(b.out.Axis(), 0)
	sum := float64(b.dia+c.dia)/2 + 2
	x, y, z := float64(d.X), float64(d.Y), float64(d.Z)
	return float64(x*x)+float64(y*y)+float64(z*z) < float64(sum*sum)
}

// grid cuts the board into cells at every plane of a working.
type grid struct {
	cut   [3][]l
	solid []bool
	face  map[square]int // the face of the shape that a square of the surface belongs to
}

// square is one side of a cell that is surface: of the cell, looking in direction d.
type square struct {
	cell [3]int
	d    geom.Dir
}

func newGrid(box geom.Box, gone []geom.Box) grid {
	var g grid
	for a := range 3 {
		g.cut[a] = []l{box.Min.At(a), box.Max.At(a)}
		for _, b := range gone {
			g.cut[a] = append(g.cut[a], b.Min.At(a), b.Max.At(a))
		}
		slices.Sort(g.cut[a])
		g.cut[a] = slices.Compact(g.cut[a])
	}
	g.face = map[square]int{}
	g.solid = make([]bool, g.n(0)*g.n(1)*g.n(2))
	g.each(func(c [3]int) {
		x := g.box(c)
		g.solid[g.index(c)] = !slices.ContainsFunc(gone, x.Meets)
	})
	return g
}

func (g grid) n(a int) int        { return len(g.cut[a]) - 1 }
func (g grid) index(c [3]int) int { return (c[0]*g.n(1)+c[1])*g.n(2) + c[2] }
func (g grid) corner(c [3]int) geom.Vec {
	return geom.V(g.cut[0][c[0]], g.cut[1][c[1]], g.cut[2][c[2]])
}

func (g grid) box(c [3]int) geom.Box {
	return geom.Box{Min: g.corner(c), Max: g.corner([3]int{c[0] + 1, c[1] + 1, c[2] + 1})}
}

func (g grid) each(do func([3]int)) {
	for i := range g.n(0) {
		for j := range g.n(1) {
			for k := range g.n(2) {
				do([3]int{i, j, k})
			}
		}
	}
}

func (g grid) is(c [3]int) bool {
	for a := range 3 {
		if c[a] < 0 || c[a] >= g.n(a) {
			return false
		}
	}
	return g.solid[g.index(c)]
}

// shown tells whether a cell's side is surface.
func (g grid) shown(q square) bool {
	next := q.cell
	next[q.d.Axis()] += int(q.d.Sign())
	return g.is(q.cell) && !g.is(next)
}

// clear tells whether a bore lies in whole wood, opens into the air and, where it goes through,
// comes out in the air, away from every edge.
func (g grid) clear(b bore) bool {
	a := b.out.Axis()
	in := b.box()
	for k := range 3 {
		if k != a {
			in.Min, in.Max = in.Min.With(k, in.Min.At(k)-1), in.Max.With(k, in.Max.At(k)+1)
		}
	}
	if !b.through { // and wood behind its floor
		if b.out.Sign() > 0 {
			in.Min = in.Min.With(a, in.Min.At(a)-1)
		} else {
			in.Max = in.Max.With(a, in.Max.At(a)+1)
		}
	}
	whole := geom.Box{Min: g.corner([3]int{}), Max: g.corner([3]int{g.n(0), g.n(1), g.n(2)})}
	if b.depth <= 0 || !whole.Has(in) {
		return false
	}
	ok := true
	g.each(func(c [3]int) { ok = ok && (!g.box(c).Meets(in) || g.is(c)) })
	// The bores begin on the board's own faces, so that there is air outside.
	return ok
}

// planes makes the flat faces of the grid's surface: squares that lie in one plane and touch
// along an edge are one face. It fails where an edge would belong to more than two faces.
func (s *Shape) planes(g grid) bool {
	points := map[[3]int]int{}
	point := func(c [3]int) int {
		i, ok := points[c]
		if !ok {
			i = len(s.Points)
			points[c] = i
			s.Points = append(s.Points, g.corner(c))
		}
		return i
	}
	edges := map[[2]int]int{}
	used := map[Use]int{}
	use := func(from, to [3]int) Use {
		a, b := point(from), point(to)
		forward := cmp.Or(cmp.Compare(from[0], to[0]), cmp.Compare(from[1], to[1]), cmp.Compare(from[2], to[2])) < 0
		if !forward {
			a, b = b, a
		}
		i, ok := edges[[2]int{a, b}]
		if !ok {
			i = len(s.Edges)
			edges[[2]int{a, b}] = i
			s.Edges = append(s.Edges, Edge{From: a, To: b})
		}
		u := Use{i, forward}
		used[u]++
		return u
	}
	for d := geom.Right; d <= geom.Down; d++ {
		g.each(func(c [3]int) {
			q := square{c, d}
			if _, done := g.face[q]; done || !g.shown(q) {
				return
			}
			n := len(s.Faces)
			patch := g.patch(q, n)
			at := c
			if d.Sign() > 0 {
				at[d.Axis()]++
			}
			f := Face{Out: d, At: g.corner(at)}
			for _, loop := range outline(g, patch, d) {
				var uses []Use
				for i := range loop {
					uses = append(uses, use(loop[i], loop[(i+1)%len(loop)]))
				}
				f.Loops = append(f.Loops, uses)
			}
			s.Faces = append(s.Faces, f)
		})
	}
	for i := range s.Edges {
		if used[Use{i, true}] != 1 || used[Use{i, false}] != 1 {
			return false
		}
	}
	return true
}

// patch gives the squares of one face, and notes that they belong to it.
func (g grid) patch(q square, n int) []square {
	list := []square{q}
	g.face[q] = n
	for i := 0; i < len(list); i++ {
		for a := range 3 {
			if a == q.d.Axis() {
				continue
			}
			for _, step := range []int{-1, 1} {
				m := list[i]
				m.cell[a] += step
				if _, done := g.face[m]; !done && g.shown(m) {
					g.face[m] = n
					list = append(list, m)
				}
			}
		}
	}
	return list
}

// outline walks round a patch: its loops, the outer one first, anticlockwise as seen from
// outside, the others clockwise, as corners of the grid.
func outline(g grid, patch []square, d geom.Dir) [][][3]int {
	in := map[[3]int]bool{}
	for _, q := range patch {
		in[q.cell] = true
	}
	a := d.Axis()
	b, c := (a+1)%3, (a+2)%3
	if d.Sign() < 0 {
		b, c = c, b
	}
	// b, c and the outward direction are a right hand
	type step struct{ from, to [3]int }
	from := map[[3]int][]step{}
	var order []step
	for _, q := range patch {
		at := func(i, j int) [3]int {
			p := q.cell
			if d.Sign() > 0 {
				p[a]++
			}
			p[b] += i
			p[c] += j
			return p
		}
		for _, side := range []struct {
			axis, by int
			s        step
		}{
			{c, -1, step{at(0, 0), at(1, 0)}}, {b, 1, step{at(1, 0), at(1, 1)}},
			{c, 1, step{at(1, 1), at(0, 1)}}, {b, -1, step{at(0, 1), at(0, 0)}},
		} {
			next := q.cell
			next[side.axis] += side.by
			if !in[next] {
				from[side.s.from] = append(from[side.s.from], side.s)
				order = append(order, side.s)
			}
		}
	}
	left := func(x, y step) int { // > 0 when y turns left of x
		return (x.to[b]-x.from[b])*(y.to[c]-y.from[c]) - (x.to[c]-x.from[c])*(y.to[b]-y.from[b])
	}
	done := map[step]bool{}
	var loops [][][3]int
	for _, first := range order {
		if done[first] {
			continue
		}
		var loop [][3]int
		for e := first; !done[e]; {
			done[e] = true
			loop = append(loop, e.from)
			next := from[e.to]
			best := next[0]
			for _, n := range next[1:] { // where two corners of the patch touch, stay with this one
				if left(e, n) > left(e, best) {
					best = n
				}
			}
			e = best
		}
		loops = append(loops, loop)
	}
	area := func(loop [][3]int) float64 {
		sum := 0.0
		for i, p := range loop {
			q := loop[(i+1)%len(loop)]
			x0, y0, x1, y1 := float64(g.cut[b][p[b]]), float64(g.cut[c][p[c]]), float64(g.cut[b][q[b]]), float64(g.cut[c][q[c]])
			sum += float64(x0*y1) - float64(x1*y0)
		}
		return sum
	}
	slices.SortStableFunc(loops, func(x, y [][3]int) int { return cmp.Compare(area(y), area(x)) })
	return loops
}

// bore adds a round hole: its wall, its rim in the face that it opens, and its floor or its
// rim in the face behind.
func (s *Shape) bore(g grid, b bore) {
	end := b.at.Add(b.out.Not().Vec(b.depth))
	begin := across(b.out).Vec(b.dia / 2)
	n := len(s.Points)
	s.Points = append(s.Points, b.at.Add(begin), end.Add(begin))
	e := len(s.Edges)
	s.Edges = append(s.Edges,
		Edge{From: n, To: n, Round: true, Centre: b.at, Axis: b.out, Dia: b.dia},
		Edge{From: n + 1, To: n + 1, Round: true, Centre: end, Axis: b.out, Dia: b.dia},
		Edge{From: n, To: n + 1})
	near := &s.Faces[g.faceAt(b.at, b.out)]
	near.Loops = append(near.Loops, []Use{{e, false}})
	if b.through {
		far := &s.Faces[g.faceAt(end, b.out.Not())]
		far.Loops = append(far.Loops, []Use{{e + 1, true}})
	} else {
		s.Faces = append(s.Faces, Face{Out: b.out, At: end, Loops: [][]Use{{{e + 1, true}}}})
	}
	s.Faces = append(s.Faces, Face{Out: b.out, At: end, Bore: true, Dia: b.dia,
		Loops: [][]Use{{{e, true}, {e + 2, true}, {e + 1, false}, {e + 2, false}}}})
}

// faceAt gives the face that looks in direction d at a point of the surface.
func (g grid) faceAt(p geom.Vec, d geom.Dir) int {
	var c [3]int
	for a := range 3 {
		v := p.At(a)
		if a == d.Axis() {
			v -= d.Sign()
		}
		i, found := slices.BinarySearch(g.cut[a], v)
		if !found {
			i--
		}
		c[a] = min(i, g.n(a)-1)
	}
	f, ok := g.face[square{c, d}]
	if !ok {
		panic("step: a bore that begins in no face")
	}
	return f
}
