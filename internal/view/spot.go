package view

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/draw"
	"stowright/internal/length"
	"stowright/internal/part"
)

// spots gives the workings that hardware hangs on at larger scale, as the boards show them: a
// hinge cup with its screws, the plate of a hinge, and the beginning of a row of shelf pins.
func (b Body) spots() []Figure {
	type kind struct {
		title string
		role  part.Role
		fors  []string
	}
	var list []Figure
	for _, k := range []kind{
		{"Hinge cup, %s", part.Door, []string{"hinge cup", "hinge screw"}},
		{"Hinge plate, %s", part.Side, []string{"hinge plate"}},
		{"Shelf pins, %s", part.Side, []string{"shelf pin"}},
	} {
		for _, p := range b.Parts {
			if p.Role != k.role {
				continue
			}
			if f, ok := spot(fmt.Sprintf(k.title, p.Mark), p, k.fors, b.Unit, part.About(b.Parts).Called(p)); ok {
				list = append(list, f)
				break
			}
		}
	}
	return list
}

// spot gives the first place of a board where something of one of the uses stands: the corner
// of its face or the stretch of its edge, with the distances from it and from hole to hole.
func spot(title string, p Part, fors []string, u Units, names part.FaceNames) (Figure, bool) {
	var least Figure
	for k := range 24 { // from 60 to 90 mm into the board, then the same over longer stretches of it
		deep, reach := L(60+6*(k%6))*length.MM, L(75+30*(k/6))*length.MM
		f, sizes, ok := spotted(title, p, fors, u, names, deep, reach)
		if !ok {
			return f, false
		}
		if least.Paint == nil {
			least = f
		}
		var s draw.Sheet // as large as it takes that every hole is told
		f.Paint(&s, draw.View{Scale: draw.Scale{Paper: 1, Real: 2}})
		said := 0
		for _, it := range s.Items {
			if t, ok := it.(*draw.Text); ok && strings.HasSuffix(t.Text, " deep") {
				said++
			}
		}
		if said >= sizes {
			return f, true
		}
	}
	return least, true
}

// spotted is spot as far into the board as deep and along it as reach, and tells how many sizes of holes it shows.
func spotted(title string, p Part, fors []string, u Units, names part.FaceNames, deep, reach L) (Figure, int, bool) {
	var ops []part.Op
	for _, o := range p.Ops {
		if o.Face <= part.Lower && slices.Contains(fors, o.For) {
			ops = append(ops, o)
		}
	}
	if len(ops) == 0 {
		return Figure{}, 0, false
	}
	// the edge that it stands at: along it from the first, and into the board
	at := func(o part.Op, axis int) L { return [2]L{o.X, o.Y}[axis] }
	near := func(o part.Op, axis int) L { return min(at(o, axis), p.Size[axis]-at(o, axis)) }
	along := 0
	if i := slices.IndexFunc(ops, func(o part.Op) bool { return o.For == fors[0] }); i >= 0 {
		places := [2]map[L]bool{{}, {}}
		for _, o := range ops {
			if o.For == fors[0] {
				places[0][o.X], places[1][o.Y] = true, true
			}
		}
		if d := len(places[0]) - len(places[1]); d < 0 || d == 0 && near(ops[i], 0) < near(ops[i], 1) {
			along = 1
		}
	}
	in := 1 - along
	slices.SortStableFunc(ops, func(a, b part.Op) int { return cmp.Compare(at(a, along), at(b, along)) })
	first := ops[0]
	for _, o := range ops { // of those that begin alike, the one nearest to its edge
		if at(o, along) == at(first, along) && near(o, in) < near(first, in) {
			first = o
		}
	}
	deep = max(deep, near(first, in)+24*length.MM)
	var lo, hi [2]L
	lo[along], hi[along] = max(0, at(first, along)-25*length.MM), min(p.Size[along], at(first, along)+reach)
	if lo[along] < 60*length.MM {
		lo[along] = 0
	}
	far := at(first, in) > p.Size[in]/2
	lo[in], hi[in] = 0, min(p.Size[in], deep)
	if far {
		lo[in], hi[in] = max(0, p.Size[in]-deep), p.Size[in]
	}
	var shown []part.Op
	for _, o := range ops {
		if o.Face == first.Face && at(o, along) >= lo[along] && at(o, along) <= hi[along]-8*length.MM && at(o, in) >= lo[in] && at(o, in) <= hi[in] {
			shown = append(shown, o)
		}
	}
	// what is told of each size, the largest hole first, or the smallest where that leaves none without room, at any of its holes
	var sizes [][]part.Op
	for _, o := range shown {
		i := slices.IndexFunc(sizes, func(l []part.Op) bool { return l[0].Dia == o.Dia && l[0].Depth == o.Depth })
		if i < 0 {
			sizes = append(sizes, []part.Op{o})
		} else {
			sizes[i] = append(sizes[i], o)
		}
	}
	slices.SortStableFunc(sizes, func(a, b []part.Op) int { return cmp.Compare(b[0].Dia, a[0].Dia) })
	plate := fors[0] == "hinge plate" && len(shown) == 2
	l, w := p.Size[0], p.Size[1]
	x, y := same, same
	if first.Face == part.Lower && w > l { // turned over as its drawing is
		x = func(v L) L { return l - v }
	} else if first.Face == part.Lower {
		y = func(v L) L { return w - v }
	}
	x0, x1 := min(x(lo[0]), x(hi[0])), max(x(lo[0]), x(hi[0]))
	z0, z1 := min(y(lo[1]), y(hi[1])), max(y(lo[1]), y(hi[1]))
	edge := [2][2]part.Face{{part.Start, part.End}, {part.Near, part.Far}}[in][0]
	if far {
		edge = [2][2]part.Face{{part.Start, part.End}, {part.Near, part.Far}}[in][1]
	}
	f := Figure{Title: title + ", " + names[first.Face] + ", at its " + names[edge], X0: x0, X1: x1, Z0: z0, Z1: z1}
	f.Paint = func(s *draw.Sheet, v draw.View) {
		s.Layer = "Detail"
		r := v.Rect(x0, z0, x1, z1)
		s.Rect(draw.Ghost, r)
		edge := func(on bool, a, b draw.Point) {
			if on {
				s.Poly(draw.Outline, a, b)
			}
		}
		edge(x0 == 0, draw.Pt(r.X, r.Y), draw.Pt(r.X, r.Bottom()))
		edge(x1 == l, draw.Pt(r.Right(), r.Y), draw.Pt(r.Right(), r.Bottom()))
		edge(z0 == 0, draw.Pt(r.X, r.Bottom()), draw.Pt(r.Right(), r.Bottom()))
		edge(z1 == w, draw.Pt(r.X, r.Y), draw.Pt(r.Right(), r.Y))
		if plate {
			ring, mid := outline(shown)
			h := v.Rect(min(x(ring[0].X), x(ring[1].X)), min(y(ring[0].Y), y(ring[1].Y)), max(x(ring[0].X), x(ring[1].X)), max(y(ring[0].Y), y(ring[1].Y)))
			s.Rect(draw.Ghost, h)
			c := v.At(x(mid.X), y(mid.Y))
			if along == 0 {
				s.Poly(draw.Centre, draw.Pt(c.X, h.Y-3), draw.Pt(c.X, h.Bottom()+3))
			} else {
				s.Poly(draw.Centre, draw.Pt(h.X-3, c.Y), draw.Pt(h.Right()+3, c.Y))
			}
		}
		for _, o := range shown {
			paintOp(s, v, o, x, y, draw.Visible)
		}
		from := len(s.Items)
		order := slices.Clone(sizes)
		for range 2 {
			s.Items = s.Items[:from:from]
			all := true
			for _, l := range order {
				text := told(l[0], u)
				all = slices.ContainsFunc(l, func(o part.Op) bool {
					return lead(s, r.Inset(1), v.At(x(o.X), y(o.Y)), text, v.Scale.MM(o.Dia)/2)
				}) && all
			}
			if all {
				break
			}
			slices.Reverse(order)
		}
		s.Layer = ""
	}
	f.Dims = func(d *draw.Dims, v draw.View) {
		var ends [2][]L // the edges of the board that the window shows
		for axis := range 2 {
			if lo[axis] == 0 {
				ends[axis] = append(ends[axis], 0)
			} else if hi[axis] == p.Size[axis] && axis == in {
				ends[axis] = append(ends[axis], p.Size[axis])
			}
		}
		var xs, ys []L
		for _, e := range ends[0] {
			xs = append(xs, x(e))
		}
		for _, e := range ends[1] {
			ys = append(ys, y(e))
		}
		for _, o := range shown {
			xs, ys = append(xs, x(o.X)), append(ys, y(o.Y))
		}
		if plate { // the hinge's own height lies between its screws
			_, mid := outline(shown)
			if along == 0 {
				xs = append(xs, x(mid.X))
			} else {
				ys = append(ys, y(mid.Y))
			}
		}
		exact(d, draw.Below, v, xs, u)
		exact(d, draw.Left, v, ys, u)
	}
	return f, len(sizes), true
}

// told says how wide and how deep a hole is.
func told(o part.Op, u Units) string {
	return bare(o.Dia.Bit(u.Unit), u) + " dia., " + bare(o.Depth.Stop(u.Unit), u) + " deep"
}

// outline gives about where a hinge's plate lies on its screws, as corners, and the middle between them.
func outline(screws []part.Op) (corners [2]struct{ X, Y L }, mid struct{ X, Y L }) {
	const rim = 10 * length.MM // common practice, no source
	lo, hi := screws[0], screws[0]
	for _, o := range screws {
		lo.X, lo.Y, hi.X, hi.Y = min(lo.X, o.X), min(lo.Y, o.Y), max(hi.X, o.X), max(hi.Y, o.Y)
	}
	corners[0].X, corners[0].Y, corners[1].X, corners[1].Y = lo.X-rim, lo.Y-rim, hi.X+rim, hi.Y+rim
	mid.X, mid.Y = (lo.X+hi.X)/2, (lo.Y+hi.Y)/2
	return corners, mid
}
