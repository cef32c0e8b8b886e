// Package parttest judges an assembly by the plain rules that every built thing keeps,
// whatever made it: no two parts share space, boards touch where a joint says so, workings
// stay in their face. It sees only the vocabulary, so that it can judge any package.
package parttest

import (
	"fmt"
	"slices"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
)

type L = length.Length

// Options bound what is judged.
type Options struct {
	// Margin is the least wood between a round working and the edge of its face, 0 for none.
	Margin L
	// Envelope is the box that every part must lie in; an empty box is not judged.
	Envelope geom.Box
}

// Check gives one sentence for every promise that the assembly breaks, in a stable order. Parts
// are told apart by Mark, or by Local before marks are given.
func Check(a part.Assembly, o Options) []string {
	var bad []string
	say := func(format string, args ...any) { bad = append(bad, fmt.Sprintf(format, args...)) }
	at := map[string]part.Part{}
	for _, p := range a.Parts {
		n := Name(p)
		if _, twice := at[n]; twice || n == "" {
			say("the name %q is used twice or is empty", n)
		}
		at[n] = p
		for i, s := range p.Size {
			if s <= 0 || p.Cut()[i] <= 0 {
				say("%s: size %v, cut %v", n, p.Size, p.Cut())
				break
			}
		}
		if !o.Envelope.Empty() && !o.Envelope.Has(p.Box()) {
			say("%s: %v is outside the envelope %v", n, p.Box(), o.Envelope)
		}
		for _, op := range p.Ops {
			if s := op1(p, op, o.Margin); s != "" {
				say("%s: %s", n, s)
			}
		}
		if s := holesMeet(p); s != "" {
			say("%s: %s", n, s)
		}
	}
	solids := make([]solid, len(a.Parts))
	for i, p := range a.Parts {
		solids[i] = solidOf(p)
	}
	for i := range solids {
		for k := i + 1; k < len(solids); k++ {
			if c := solids[i].meets(solids[k]); !c.Empty() {
				say("%s and %s share %v", Name(a.Parts[i]), Name(a.Parts[k]), c)
			}
		}
	}
	for _, j := range a.Joints {
		p, ok := at[j.A]
		q, ok2 := at[j.B]
		if !ok || !ok2 {
			say("joint of %q and %q: a part is missing", j.A, j.B)
			continue
		}
		if s := touch(p, q, j.Contact); s != "" {
			say("joint of %s and %s: %s", j.A, j.B, s)
		}
	}
	for _, s := range a.Spans {
		p, ok := at[s.Part]
		if !ok {
			say("span on %q: the part is missing", s.Part)
			continue
		}
		long := p.Box().Size().At(s.Along.Axis())
		for _, u := range s.Supports {
			if u.At < 0 || u.At > long || u.Width <= 0 {
				say("span on %s: a support at %d of %d, %d wide", s.Part, u.At, long, u.Width)
			}
		}
	}
	bays := map[string]bool{}
	for _, b := range a.Bays {
		if bays[b.ID] {
			say("bay %s is there twice", b.ID)
		}
		bays[b.ID] = true
		if b.Box.Empty() {
			say("bay %s encloses nothing: %v", b.ID, b.Box)
		}
		if _, ok := at[b.Floor]; b.Floor != "" && !ok {
			say("bay %s stands on %q, which is missing", b.ID, b.Floor)
		}
		for i, s := range solids {
			if c := s.meets(solid{boxes: []geom.Box{b.Box}}); !c.Empty() {
				say("bay %s and %s share %v", b.ID, Name(a.Parts[i]), c)
			}
		}
	}
	motions := map[string]bool{}
	for _, m := range a.Motions {
		if motions[m.ID] {
			say("motion %s is there twice", m.ID)
		}
		motions[m.ID] = true
		for _, n := range m.Parts {
			if _, ok := at[n]; !ok {
				say("motion %s carries %q, which is missing", m.ID, n)
			}
		}
		if !m.Swept.Has(m.Closed) && m.Kind != part.Swing {
			say("motion %s sweeps %v, less than where it rests, %v", m.ID, m.Swept, m.Closed)
		}
	}
	for _, m := range a.Motions {
		if m.Needs != "" && !motions[m.Needs] {
			say("motion %s needs %q, which is missing", m.ID, m.Needs)
		}
	}
	for _, p := range a.Parts {
		if p.Moves != "" && !motions[p.Moves] {
			say("%s moves with %q, which is missing", Name(p), p.Moves)
		}
	}
	for _, f := range a.Fronts {
		p, ok := at[f.Part]
		if !ok {
			say("front %q is missing", f.Part)
			continue
		}
		for _, h := range f.Hinges {
			if h < 0 || h > max(p.Size[0], p.Size[1]) {
				say("front %s: a hinge at %d", f.Part, h)
			}
		}
	}
	return bad
}

// Name gives a part's mark, or its local name before marks are given.
func Name(p part.Part) string {
	if p.Mark != "" {
		return p.Mark
	}
	return p.Local
}

// op1 judges one working on its own.
func op1(p part.Part, o part.Op, margin L) string {
	x, y, depth := o.Face.Extent(p.Size)
	if o.Tool == "" {
		return fmt.Sprintf("%s for %q names no tool", o.Kind, o.For)
	}
	switch o.Kind {
	case part.Hole, part.Cup, part.Countersink:
		m := margin
		if o.Face != part.Upper && o.Face != part.Lower {
			m = min(m, 2*length.MM) // in an edge the board's thickness is what there is
		}
		r := o.Dia/2 + m
		if o.X < r || o.Y < r || o.X > x-r || o.Y > y-r {
			return fmt.Sprintf("%s for %q at (%d, %d) of %d across leaves the %s face of %d by %d", o.Kind, o.For, o.X, o.Y, o.Dia, o.Face, x, y)
		}
		if o.Depth <= 0 || o.Depth > depth || o.Dia <= 0 {
			return fmt.Sprintf("%s for %q is %d deep in %d", o.Kind, o.For, o.Depth, depth)
		}
	case part.Groove, part.Rabbet, part.Notch, part.Cutout, part.Slot:
		if o.X < 0 || o.Y < 0 || o.L <= 0 || o.W <= 0 || o.X+o.L > x || o.Y+o.W > y || o.Depth <= 0 || o.Depth > depth {
			return fmt.Sprintf("%s for %q: (%d, %d) %d by %d, %d deep, leaves the %s face of %d by %d, %d thick", o.Kind, o.For, o.X, o.Y, o.L, o.W, o.Depth, o.Face, x, y, depth)
		}
		if o.Kind == part.Groove && o.Depth >= depth {
			return fmt.Sprintf("groove for %q goes through", o.For)
		}
	case part.Pocket:
		if o.X < 0 || o.Y < 0 || o.X > x || o.Y > y || o.Depth >= depth {
			return fmt.Sprintf("pocket for %q leaves its face", o.For)
		}
	}
	return ""
}

// holesMeet judges round holes of a part against each other: two from the broad faces must
// not run into each other.
func holesMeet(p part.Part) string {
	type disc struct {
		u, v, r, lo, hi L
		use             string
	}
	var list []disc
	for _, o := range p.Ops {
		if (o.Kind != part.Hole && o.Kind != part.Cup) || (o.Face != part.Upper && o.Face != part.Lower) {
			continue
		}
		d := disc{o.X, o.Y, o.Dia / 2, 0, o.Depth, o.For}
		if o.Face == part.Upper {
			d.lo, d.hi = p.Size[2]-o.Depth, p.Size[2]
		}
		list = append(list, d)
	}
	for i, a := range list {
		for _, b := range list[i+1:] {
			r, du, dv := a.r+b.r, a.u-b.u, a.v-b.v
			if a.lo >= b.hi || b.lo >= a.hi || du.Abs() >= r || dv.Abs() >= r {
				continue
			}
			if int64(du)*int64(du)+int64(dv)*int64(dv) < int64(r)*int64(r) {
				return fmt.Sprintf("the holes for %q at (%d, %d) and %q at (%d, %d) run into each other", a.use, a.u, a.v, b.use, b.u, b.v)
			}
		}
	}
	return ""
}

// touch judges a joint: the contact is an area, or a recess, that lies in both boards' boxes.
func touch(a, b part.Part, c geom.Box) string {
	thin := 0
	for i := range 3 {
		if c.Max.At(i) < c.Min.At(i) {
			return fmt.Sprintf("the contact %v is turned inside out", c)
		}
		if c.Max.At(i) == c.Min.At(i) {
			thin++
		}
	}
	if thin > 1 {
		return fmt.Sprintf("the contact %v has no area", c)
	}
	for _, p := range []part.Part{a, b} {
		if !p.Box().Has(c) {
			return fmt.Sprintf("the contact %v is not in %s, %v", c, Name(p), p.Box())
		}
	}
	return ""
}

// solid is a board less its straight workings: boxes, and half planes where it is bevelled.
type solid struct {
	boxes []geom.Box
	cuts  []half
}

// half keeps the points where a·p <= at.
type half struct {
	a  geom.Vec // each -1, 0 or 1
	at L
}

// solidOf gives a part's solid in the frame it is posed in. Round workings are left in: they
// take no space that another board could want.
func solidOf(p part.Part) solid {
	s := solid{boxes: []geom.Box{geom.B(0, 0, 0, p.Size[0], p.Size[1], p.Size[2])}}
	for _, o := range p.Ops {
		switch o.Kind {
		case part.Groove, part.Rabbet, part.Notch, part.Cutout, part.Slot:
			gone := o.Removed(p.Size)
			var left []geom.Box
			for _, b := range s.boxes {
				left = append(left, Minus(b, gone)...)
			}
			s.boxes = left
		case part.Bevel:
			if o.Angle != 45 {
				continue
			}
			// The corner between the edge and the face Towards is sawn off, so far along the edge.
			n, m := o.Face.Normal(), o.Towards.Normal()
			corner := geom.V(0, 0, 0)
			for _, d := range []geom.Dir{n, m} {
				if d.Sign() > 0 {
					corner = corner.With(d.Axis(), [3]L(p.Size)[d.Axis()])
				}
			}
			// In the part's frame keep n·(q-corner) + m·(q-corner) <= -depth.
			a := p.Pose.Dir(n).Vec(1).Add(p.Pose.Dir(m).Vec(1))
			c := p.Pose.Point(corner)
			s.cuts = append(s.cuts, half{a, a.X*c.X + a.Y*c.Y + a.Z*c.Z - o.Depth})
		}
	}
	for i, b := range s.boxes {
		s.boxes[i] = p.Pose.Box(b)
	}
	return s
}

// Minus gives what is left of b without c, as boxes that do not overlap.
func Minus(b, c geom.Box) []geom.Box {
	c = b.And(c)
	if c.Empty() {
		return []geom.Box{b}
	}
	var out []geom.Box
	for i := range 3 {
		if c.Min.At(i) > b.Min.At(i) {
			l := b
			l.Max = l.Max.With(i, c.Min.At(i))
			out = append(out, l)
			b.Min = b.Min.With(i, c.Min.At(i))
		}
		if c.Max.At(i) < b.Max.At(i) {
			h := b
			h.Min = h.Min.With(i, c.Max.At(i))
			out = append(out, h)
			b.Max = b.Max.With(i, c.Max.At(i))
		}
	}
	return out
}

// meets gives a box of space that both solids fill, empty when there is none. Where bevels
// part them, the two nearest half planes decide.
func (s solid) meets(t solid) geom.Box {
	cuts := slices.Concat(s.cuts, t.cuts)
	for _, a := range s.boxes {
		for _, b := range t.boxes {
			c := a.And(b)
			if c.Empty() || parted(c, cuts) {
				continue
			}
			return c
		}
	}
	return geom.Box{}
}

// parted reports whether half planes leave nothing of a box: one that keeps no corner of it,
// or two opposite ones that keep only a plane.
func parted(c geom.Box, cuts []half) bool {
	for _, h := range cuts {
		least := L(0)
		for i := range 3 {
			k := h.a.At(i)
			least += min(k*c.Min.At(i), k*c.Max.At(i))
		}
		if least >= h.at {
			return true
		}
	}
	for i, h := range cuts {
		for _, g := range cuts[i+1:] {
			if g.a.Add(h.a) == (geom.Vec{}) && g.at+h.at <= 0 {
				return true
			}
		}
	}
	return false
}

// Shared gives a box of space that two parts both fill, empty when there is none.
func Shared(p, q part.Part) geom.Box {
	if !p.Box().Meets(q.Box()) {
		return geom.Box{}
	}
	return solidOf(p).meets(solidOf(q))
}

// Fills gives a box of what a part fills of a space, empty when it leaves it free.
func Fills(p part.Part, space geom.Box) geom.Box {
	if !p.Box().Meets(space) {
		return geom.Box{}
	}
	return solidOf(p).meets(solid{boxes: []geom.Box{space}})
}

// Of gives what of an assembly belongs to one owner.
func Of(a part.Assembly, owner string) part.Assembly {
	var r part.Assembly
	names := map[string]bool{}
	for _, p := range a.Parts {
		if p.Owner == owner {
			r.Parts = append(r.Parts, p)
			names[Name(p)] = true
		}
	}
	for _, o := range a.Owners {
		if o.ID == owner {
			r.Owners = append(r.Owners, o)
		}
	}
	for _, j := range a.Joints {
		if names[j.A] || names[j.B] {
			r.Joints = append(r.Joints, j)
		}
	}
	for _, s := range a.Spans {
		if names[s.Part] {
			r.Spans = append(r.Spans, s)
		}
	}
	for _, b := range a.Bays {
		if b.Owner == owner {
			r.Bays = append(r.Bays, b)
		}
	}
	for _, f := range a.Fronts {
		if names[f.Part] {
			r.Fronts = append(r.Fronts, f)
		}
	}
	for _, m := range a.Motions {
		if m.Owner == owner {
			r.Motions = append(r.Motions, m)
		}
	}
	return r
}
