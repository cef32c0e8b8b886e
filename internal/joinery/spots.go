package joinery

import (
	"cmp"
	"strings"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/order"
	"stowright/internal/part"
)

// A thin panel, a packing strip or the layer of a counter is screwed on when the boards lie at their
// places: its holes are bored on the spot, in rows along the longer side of where the two meet, by a
// rule that can be told in a line. Holes bored beforehand would only have to be brought over each other.

// Spread is that rule for one joint.
type Spread struct {
	Head, Into string // names of the boards: the screws go through the first into the second
	From       geom.Dir
	Rows, Each int
	First      L   // from the left, front or lower end of where they meet to the first screw
	Last       L   // from the other end to the last
	Pitch      L   // from screw to screw in a row
	Run        int // axis along the rows
	In         L   // from each side of where they meet to the outer rows; of a single row, to its middle
	Middle     bool
	Beside     bool       // screws of the row that would meet another working lie close beside it
	At         []geom.Vec // on the contact, in the frame of the parts
}

// Common practice, no source.
const (
	rowFirst   = 50 * mm
	rowShort   = 12 * mm // where the boards meet over less than two firsts
	rowsFrom   = 60 * mm // so wide a contact has two rows
	rowsIn     = 50 * mm
	asideSteps = 4       // of 5 mm or 1/4 in: how far screws of the two sides of a partition are apart
	rowClear   = 2 * mm  // wood left between a screw and another hole, at the least
	rowApart   = 5 * mm  // and where there is room: a bit that slips meets no steel
	rowsClose  = 20 * mm // from row to row, at the least
	rowsChuck  = 25 * mm // so far in from where they meet a drill's chuck passes a board that stands there
)

// Bored reports whether the holes of a joint are workings of its boards: pockets and dowels are; screws
// are when as many holes of the two lie over each other as there are screws.
func Bored(a, b part.Part, j part.Joint) bool {
	if j.Count == 0 || j.Kind == part.PocketScrew || j.Kind == part.Dowel {
		return true
	}
	n := Thin(j.Contact)
	over := 0
	for _, v := range holes(a, n) {
		for _, w := range holes(b, n) {
			d := v.Sub(w).With(n, 0)
			if max(d.X.Abs(), d.Y.Abs(), d.Z.Abs()) < mm/20 && inContact(v, j.Contact, n) {
				over++
				break
			}
		}
	}
	return over >= j.Count
}

func inContact(v geom.Vec, c geom.Box, n int) bool {
	for i := range 3 {
		if i != n && (v.At(i) < c.Min.At(i) || v.At(i) > c.Max.At(i)) {
			return false
		}
	}
	return true
}

// holes gives the places of a board's screw holes along an axis.
func holes(p part.Part, n int) (out []geom.Vec) {
	for _, o := range p.Ops {
		if o.Kind == part.Hole && strings.Contains(o.For, "screw") && p.Pose.Dir(o.Face.Normal()).Axis() == n {
			out = append(out, p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size)))
		}
	}
	return out
}

// Thin gives the axis across a contact.
func Thin(c geom.Box) int {
	s, n := c.Size(), 0
	for i := range 3 {
		if s.At(i) < s.At(n) {
			n = i
		}
	}
	return n
}

// Spots gives the rule for the screws of a joint that is bored on the spot; inches: its sizes are those
// of a tape in inches. It shifts the rows until every screw is clear of what else is worked in the two
// boards; long is the length of the screw.
func Spots(a, b part.Part, j part.Joint, long L, inches bool) Spread {
	for _, web := range []L{rowApart, (rowApart + rowClear) / 2} {
		if s, ok := spots(a, b, j, long, web, inches); ok {
			return s
		}
	}
	s, _ := spots(a, b, j, long, rowClear, inches)
	return s
}

// spots gives the rule with so much wood left beside every screw; false where no even rows leave it.
func spots(a, b part.Part, j part.Joint, long, web L, inches bool) (Spread, bool) {
	n := Thin(j.Contact)
	head, into := b, a // the screws come through the board that lies flat, the later of two that do
	if j.Kind == part.Undone || b.Pose.W().Axis() != n {
		head, into = a, b
	}
	s := Spread{Head: nameOf(head), Into: nameOf(into), From: geom.Dir(2 * n)}
	h, i := head.Box(), into.Box()
	if h.Min.At(n)+h.Max.At(n) < i.Min.At(n)+i.Max.At(n) {
		s.From = s.From.Not()
	}
	size := j.Contact.Size()
	run, wide := (n+1)%3, (n+2)%3
	if size.At(run) < size.At(wide) {
		run, wide = wide, run
	}
	step := 5 * mm
	if inches {
		step = length.Inch / 4
	}
	all := rows(size.At(run), size.At(wide), j.Count)
	try := func(r, in int, d [2]int) (Spread, bool) {
		s.Rows, s.Each = r, j.Count/r
		first := s.first(size.At(run), inches, web > rowClear)
		ends := [2]L{first + L(d[0])*step, first + L(d[1])*step}
		if d != [2]int{} && (min(ends[0], ends[1]) < rowShort/2 || 5*(ends[0]+ends[1]) > 4*size.At(run) || s.Each == 1 && d[0] != -d[1]) {
			return s, false
		}
		side := s.ins(size.At(wide), inches, web > rowClear)[in]
		if web > rowClear && r > 1 && (size.At(run) >= 3*rowsChuck && min(ends[0], ends[1]) < rowsChuck || size.At(wide) >= 3*rowsChuck && side < rowsChuck) {
			return s, false
		}
		if in > 0 && r > 1 && size.At(wide)-2*side < L(r-1)*rowsClose {
			return s, false
		}
		x := s.lay(j.Contact, run, wide, ends, side, n)
		return x, x.meets(head, into, n, long, web) == ""
	}
	plain, ok := try(all[0], 0, [2]int{})
	// What is screwed on from the right lies further along than what is from the left, where their points would meet in
	// a partition between the two.
	if into.Role == part.Partition && n == 0 && s.From == geom.Right && 2*(long-head.Size[2]) > into.Size[2] {
		if x, aside := try(all[0], 0, [2]int{asideSteps, -asideSteps}); aside {
			return x, true
		}
	}
	if ok {
		return plain, true
	}
	for _, r := range all {
		for in := range 3 {
			for d := range shifts {
				if web > rowClear && max(d[0], -d[0], d[1], -d[1]) > asideSteps {
					continue // rather less wood than a row that is far from its ends
				}
				if x, ok := try(r, in, d); ok {
					return x, true
				}
			}
		}
	}
	if web > rowClear {
		return plain, false
	}
	// No even row is clear: each that would meet something goes beside it.
	plain.Beside = true
	for i, v := range plain.At {
		one := plain
		for k := range 200 {
			d := L(k/2+1) * step / 2
			if k%2 == 1 {
				d = -d
			}
			one.At = []geom.Vec{v}
			if k > 0 {
				one.At[0] = v.With(run, v.At(run)+d)
			}
			if x := one.At[0].At(run); x < j.Contact.Min.At(run)+4*mm || x > j.Contact.Max.At(run)-4*mm {
				continue
			}
			if one.meets(head, into, n, long, web) == "" {
				plain.At[i] = one.At[0]
				break
			}
		}
	}
	return plain, true
}

// shifts gives by how many steps the first and the last screw of a row may lie elsewhere than where they
// are wanted: the least of both together first, and what is the same at both ends before others.
func shifts(yield func([2]int) bool) {
	const most, uneven = 20, 5 // what differs counts as five steps more
	for far := range 2*most + uneven + 1 {
		for a := -most; a <= most; a++ {
			b := far - uneven - max(a, -a)
			both := far == 2*max(a, -a)
			differs := 0 <= b && b <= most
			if both && a <= 0 && !yield([2]int{a, a}) ||
				differs && -b != a && !yield([2]int{a, -b}) ||
				differs && b != a && b > 0 && !yield([2]int{a, b}) ||
				both && a > 0 && !yield([2]int{a, a}) {
				return
			}
		}
	}
}

func nameOf(p part.Part) string {
	if p.Mark != "" {
		return p.Mark
	}
	return p.Local
}

// rows says in how many rows n screws may lie over an area: those that leave the squarest cells first.
func rows(long, wide L, n int) (list []int) {
	for r := 1; r <= n; r++ {
		if n%r == 0 && (r == 1 || n/r > 1 && wide >= rowsFrom) {
			list = append(list, r)
		}
	}
	off := func(r int) L {
		d := (long*L(r)/L(n) - wide/L(r)).Abs()
		if r == 1 && wide >= rowsFrom && long/L(n) < wide { // one row would let it cup
			d += long
		}
		return d
	}
	order.Stable(list, func(a, b int) int { return cmp.Compare(off(a), off(b)) })
	return list
}

// first is how far from the ends a row begins.
func (s Spread) first(long L, inches, chuck bool) L {
	f, short := rowFirst, rowShort
	if inches {
		f, short = 2*length.Inch, length.Inch/2
	}
	switch {
	case s.Each == 1:
		return long / 2
	case s.Rows > 1 && long < 5*f:
		return fifth(long, inches, chuck)
	case long < 2*f+25*mm:
		return min(short, long/4)
	}
	return f
}

// ins are how far from the sides the outer rows may lie, as wanted first.
func (s Spread) ins(wide L, inches, chuck bool) []L {
	if s.Rows == 1 {
		in := wide / 2
		if wide >= 40*mm {
			return []L{in, tape(wide/4, inches), wide - tape(wide/4, inches)}
		}
		return []L{in, in, in}
	}
	in := rowsIn
	if inches {
		in = 2 * length.Inch
	}
	in = min(in, fifth(wide, inches, chuck))
	return []L{in, in + in/2, in / 2}
}

// fifth is a fifth of a length; where chuck is wanted, room for that of a drill where there is as much again between.
func fifth(l L, inches, chuck bool) L {
	in := tape(l/5, inches)
	if chuck && l >= 3*rowsChuck {
		in = max(in, tape(rowsChuck+mm/2, inches))
	}
	return in
}

// tape rounds to what is easily measured: 5 mm, or 1/8 in.
func tape(l L, inches bool) L {
	if inches {
		return max(l.Down(length.Inch/8), length.Inch/8)
	}
	return max(l.Down(5*mm), 5*mm)
}

// lay gives the spread with its places.
func (s Spread) lay(c geom.Box, run, wide int, ends [2]L, in L, n int) Spread {
	s.First, s.Last, s.In, s.Run = ends[0], ends[1], in, run
	long, across := c.Size().At(run), c.Size().At(wide)
	s.Middle = s.Rows == 1 && in == across/2
	if s.Each > 1 {
		s.Pitch = (long - s.First - s.Last) / L(s.Each-1)
	}
	s.At = nil
	for r := range s.Rows {
		y := in
		if s.Rows > 1 {
			y += (across - 2*in).MulDiv(int64(r), int64(s.Rows-1))
		}
		for k := range s.Each {
			x := s.First
			if s.Each > 1 {
				x += (long - s.First - s.Last).MulDiv(int64(k), int64(s.Each-1))
			}
			v := c.Min.With(run, c.Min.At(run)+x).With(wide, c.Min.At(wide)+y)
			s.At = append(s.At, v.With(n, (c.Min.At(n)+c.Max.At(n))/2))
		}
	}
	return s
}

// meets gives what of the workings of both boards a screw would run into, "" for nothing.
func (s Spread) meets(head, into part.Part, n int, long, web L) string {
	for _, v := range s.At {
		top := head.Box().Max.At(n)
		end := top - long - web
		if s.From.Sign() < 0 {
			end = head.Box().Min.At(n)
			top = end + long + web
		}
		for _, p := range []part.Part{head, into} { // in each board its own stretch of the screw
			lo, hi := end, v.At(n)
			if (p.Mark == head.Mark && p.Local == head.Local) == (s.From.Sign() > 0) {
				lo, hi = v.At(n), top
			}
			screw := geom.Box{Min: v.With(n, lo), Max: v.With(n, hi)}.Grow(2*mm + web)
			screw.Min, screw.Max = screw.Min.With(n, lo), screw.Max.With(n, hi)
			for _, o := range p.Ops {
				if gone := worked(p, o); gone.Meets(screw) {
					return nameOf(p) + ": " + o.For
				}
			}
		}
	}
	return ""
}

// worked gives the room that a working takes of its board.
func worked(p part.Part, o part.Op) geom.Box {
	at := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size))
	in := p.Pose.Dir(o.Face.Normal()).Not()
	switch o.Kind {
	case part.Hole, part.Cup, part.Countersink:
		wide := o.Dia
		if o.Kind == part.Hole && strings.Contains(o.For, "screw") { // a pilot is narrower than what is driven into it
			wide = max(wide, 4*mm)
		}
		b := geom.Box{Min: at, Max: at}.Grow(wide / 2)
		b = b.Or(b.Shift(in.Vec(o.Depth)))
		return b
	case part.Pocket: // the pocket, and its screw to the edge and beyond
		to := p.Pose.Dir(o.Towards.Normal())
		b := geom.Box{Min: at, Max: at}.Grow(6 * mm)
		b = b.Or(b.Shift(in.Vec(o.Depth)))
		return b.Or(b.Shift(to.Vec(40 * mm))).Or(b.Shift(to.Not().Vec(40 * mm)))
	case part.Groove, part.Rabbet, part.Notch, part.Cutout, part.Slot:
		return p.Pose.Box(o.Removed(p.Size))
	}
	return geom.Box{}
}
