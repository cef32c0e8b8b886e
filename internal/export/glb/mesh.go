package glb

import (
	"math"
	"slices"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
)

type l = length.Length

// mesh is triangles in the part's own frame, in metres. It has no normals: a viewer then shades
// every triangle flat, as the format says, and triangles can share their corners.
type mesh struct {
	at    [][3]float32
	index []uint32
	seen  map[[3]float32]uint32
}

// corners gives how many a round hole is drawn with: enough for the eye, few enough for a phone.
func corners(dia float64) int {
	switch {
	case dia < float64(10*length.MM):
		return 8
	case dia < float64(30*length.MM):
		return 12
	}
	return 24
}

// meshOf gives a part's solid: the board, less its straight workings, with its round holes
// sunk into the faces that they are bored from. Bevels and tapers are shown square; slanted
// pockets are left out.
func meshOf(p part.Part) mesh {
	var m mesh
	box := geom.B(0, 0, 0, p.Size[0], p.Size[1], p.Size[2])
	var gone []geom.Box
	round := map[geom.Dir][]disc{}
	for _, o := range p.Ops {
		switch o.Kind {
		case part.Groove, part.Rabbet, part.Notch, part.Cutout, part.Slot:
			if b := removed(o, p.Size).And(box); !b.Empty() {
				gone = append(gone, b)
			}
		case part.Hole, part.Cup, part.Countersink:
			d := o.Face.Normal()
			depth := min(o.Depth, box.Size().At(d.Axis()))
			c := disc{at: o.Face.Point(o.X, o.Y, p.Size), dia: o.Dia, depth: depth, through: depth == box.Size().At(d.Axis())}
			round[d] = append(round[d], c)
			if c.through {
				back := c
				back.at = back.at.With(d.Axis(), box.Size().At(d.Axis())-c.at.At(d.Axis()))
				back.open = true
				round[d.Not()] = append(round[d.Not()], back)
			}
		}
	}
	g := newGrid(box, gone)
	for d := geom.Right; d <= geom.Down; d++ {
		for _, f := range g.faces(d) {
			m.face(f, d, round[d])
		}
		for _, c := range round[d] {
			if !c.open && g.solidAt(c.at.Sub(d.Vec(length.MM/100))) {
				m.sink(c, d)
			}
		}
	}
	return m
}

// disc is a round opening in a face: its centre on the face, and how deep it goes.
type disc struct {
	at      geom.Vec
	dia     l
	depth   l
	through bool // there is no floor
	open    bool // the far end of a through hole: only the opening
}

// removed gives the space that a straight working takes out.
func removed(o part.Op, size [3]l) geom.Box {
	a := o.Face.Point(o.X, o.Y, size)
	b := o.Face.Point(o.X+o.L, o.Y+o.W, size)
	in := o.Face.Normal().Not().Vec(o.Depth)
	c := b.Add(in)
	return geom.Box{
		Min: geom.V(min(a.X, c.X), min(a.Y, c.Y), min(a.Z, c.Z)),
		Max: geom.V(max(a.X, c.X), max(a.Y, c.Y), max(a.Z, c.Z)),
	}
}

// grid cuts the board into cells at every plane of a working.
type grid struct {
	cut   [3][]l
	solid []bool
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
	g.solid = make([]bool, g.n(0)*g.n(1)*g.n(2))
	for i := range g.n(0) {
		for j := range g.n(1) {
			for k := range g.n(2) {
				c := g.cell([3]int{i, j, k})
				g.solid[g.at([3]int{i, j, k})] = !slices.ContainsFunc(gone, func(b geom.Box) bool { return b.Meets(c) })
			}
		}
	}
	return g
}

func (g grid) n(a int) int     { return len(g.cut[a]) - 1 }
func (g grid) at(c [3]int) int { return (c[0]*g.n(1)+c[1])*g.n(2) + c[2] }
func (g grid) cell(c [3]int) geom.Box {
	return geom.B(g.cut[0][c[0]], g.cut[1][c[1]], g.cut[2][c[2]], g.cut[0][c[0]+1], g.cut[1][c[1]+1], g.cut[2][c[2]+1])
}

func (g grid) isSolid(c [3]int) bool {
	for a := range 3 {
		if c[a] < 0 || c[a] >= g.n(a) {
			return false
		}
	}
	return g.solid[g.at(c)]
}

func (g grid) solidAt(p geom.Vec) bool {
	var c [3]int
	for a := range 3 {
		i, _ := slices.BinarySearch(g.cut[a], p.At(a)+1)
		c[a] = i - 1
	}
	return g.isSolid(c)
}

// faces gives the rectangles (flat boxes) of the surface that look in direction d, cells in a
// row joined.
func (g grid) faces(d geom.Dir) []geom.Box {
	a := d.Axis()
	b, c := (a+1)%3, (a+2)%3
	var out []geom.Box
	for i := range g.n(a) {
		for j := range g.n(b) {
			open := -1
			for k := 0; k <= g.n(c); k++ {
				var at, next [3]int
				at[a], at[b], at[c] = i, j, k
				next = at
				next[a] += int(d.Sign())
				shown := k < g.n(c) && g.isSolid(at) && !g.isSolid(next)
				if shown && open < 0 {
					open = k
				}
				if !shown && open >= 0 {
					var first, last [3]int
					first[a], first[b], first[c] = i, j, open
					last[a], last[b], last[c] = i, j, k-1
					r := g.cell(first).Or(g.cell(last))
					plane := r.Max.At(a)
					if d.Sign() < 0 {
						plane = r.Min.At(a)
					}
					r.Min, r.Max = r.Min.With(a, plane), r.Max.With(a, plane)
					out = append(out, r)
					open = -1
				}
			}
		}
	}
	return out
}

// face adds one flat rectangle looking in direction d, less the discs in its plane.
func (m *mesh) face(r geom.Box, d geom.Dir, discs []disc) {
	a := d.Axis()
	b, c := (a+1)%3, (a+2)%3
	plane := float64(r.Min.At(a))
	lo, hi := [2]float64{float64(r.Min.At(b)), float64(r.Min.At(c))}, [2]float64{float64(r.Max.At(b)), float64(r.Max.At(c))}
	var holes [][][2]float64
	ys := []float64{lo[1], hi[1]}
	for _, h := range discs {
		if h.at.At(a) != r.Min.At(a) {
			continue
		}
		x, y, q := float64(h.at.At(b)), float64(h.at.At(c)), float64(h.dia)/2
		if x+q <= lo[0] || x-q >= hi[0] || y+q <= lo[1] || y-q >= hi[1] {
			continue
		}
		poly := ring(x, y, q)
		holes = append(holes, poly)
		for i, p := range poly {
			n := poly[(i+1)%len(poly)]
			ys = append(ys, p[1])
			for _, x := range []float64{lo[0], hi[0]} {
				if (p[0]-x)*(n[0]-x) < 0 {
					ys = append(ys, p[1]+(n[1]-p[1])*(x-p[0])/(n[0]-p[0]))
				}
			}
		}
	}
	slices.Sort(ys)
	ys = slices.Compact(ys)
	for i := 0; i+1 < len(ys); i++ {
		y0, y1 := ys[i], ys[i+1]
		if y0 < lo[1] || y1 > hi[1] || y1-y0 < 1 {
			continue
		}
		type gap struct{ a0, b0, a1, b1 float64 } // from, to at y0 and at y1
		var gaps []gap
		for _, h := range holes {
			if l0, r0, l1, r1, ok := crossing(h, y0, y1); ok {
				gaps = append(gaps, gap{l0, r0, l1, r1})
			}
		}
		slices.SortFunc(gaps, func(p, q gap) int {
			if p.a0+p.a1 < q.a0+q.a1 {
				return -1
			}
			return 1
		})
		x0, x1 := lo[0], lo[0]
		for _, h := range gaps {
			m.quad(d, plane, [4][2]float64{{x0, y0}, {h.a0, y0}, {h.a1, y1}, {x1, y1}}, lo[0], hi[0])
			x0, x1 = h.b0, h.b1
		}
		m.quad(d, plane, [4][2]float64{{x0, y0}, {hi[0], y0}, {hi[0], y1}, {x1, y1}}, lo[0], hi[0])
	}
}

// ring gives a polygon round a hole.
func ring(x, y, r float64) [][2]float64 {
	out := make([][2]float64, corners(2*r))
	for i := range out {
		s, c := math.Sincos(2 * math.Pi * (float64(i) + 0.5) / float64(len(out)))
		out[i] = [2]float64{math.Round(x + r*c), math.Round(y + r*s)}
	}
	return out
}

// crossing gives where a convex polygon lies between two heights.
func crossing(h [][2]float64, y0, y1 float64) (l0, r0, l1, r1 float64, ok bool) {
	mid := (y0 + y1) / 2
	l0, l1, r0, r1 = math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for i, p := range h {
		n := h[(i+1)%len(h)]
		if (p[1]-mid)*(n[1]-mid) >= 0 {
			continue
		}
		at := func(y float64) float64 { return p[0] + (n[0]-p[0])*(y-p[1])/(n[1]-p[1]) }
		a, b := at(y0), at(y1)
		if a+b < l0+l1 {
			l0, l1 = a, b
		}
		if a+b > r0+r1 {
			r0, r1 = a, b
		}
		ok = true
	}
	return l0, r0, l1, r1, ok
}

func (m *mesh) quad(d geom.Dir, plane float64, q [4][2]float64, lo, hi float64) {
	for i := range q {
		q[i][0] = min(max(q[i][0], lo), hi)
	}
	if q[1][0]-q[0][0] < 1 && q[2][0]-q[3][0] < 1 {
		return
	}
	a := d.Axis()
	b, c := (a+1)%3, (a+2)%3
	var p [4][3]float64
	for i := range q {
		p[i][a], p[i][b], p[i][c] = plane, q[i][0], q[i][1]
	}
	if d.Sign() < 0 {
		p[1], p[3] = p[3], p[1]
	}
	m.tri(p[0], p[1], p[2])
	m.tri(p[0], p[2], p[3])
}

// sink adds the wall of a round hole, and its floor when it does not go through.
func (m *mesh) sink(h disc, d geom.Dir) {
	a := d.Axis()
	b, c := (a+1)%3, (a+2)%3
	top := float64(h.at.At(a))
	low := top - float64(d.Sign())*float64(h.depth)
	r := ring(float64(h.at.At(b)), float64(h.at.At(c)), float64(h.dia)/2)
	point := func(q [2]float64, z float64) [3]float64 {
		var p [3]float64
		p[a], p[b], p[c] = z, q[0], q[1]
		return p
	}
	for i := range r {
		p, q := r[i], r[(i+1)%len(r)]
		if d.Sign() < 0 {
			p, q = q, p
		}
		m.tri(point(p, top), point(q, top), point(q, low))
		m.tri(point(p, top), point(q, low), point(p, low))
		if !h.through {
			m.tri(point([2]float64{float64(h.at.At(b)), float64(h.at.At(c))}, low), point(p, low), point(q, low))
		}
	}
}

func (m *mesh) tri(p, q, r [3]float64) {
	const metre = float64(1000 * length.MM)
	var k [3]uint32
	for i, v := range [...][3]float64{p, q, r} {
		at := [3]float32{float32(v[0] / metre), float32(v[1] / metre), float32(v[2] / metre)}
		n, ok := m.seen[at]
		if !ok {
			if m.seen == nil {
				m.seen = map[[3]float32]uint32{}
			}
			n = uint32(len(m.at))
			m.seen[at] = n
			m.at = append(m.at, at)
		}
		k[i] = n
	}
	if k[0] != k[1] && k[1] != k[2] && k[2] != k[0] {
		m.index = append(m.index, k[:]...)
	}
}
