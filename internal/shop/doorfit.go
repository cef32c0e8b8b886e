package shop

import (
	"fmt"
	"slices"
	"strings"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
)

// handleScrews says how long the screws of handles are that go through fronts, each with the board
// behind it that moves with it and is bored for them too.
func (w *maker) handleScrews(marks []string) (points []string) {
	bored := func(p part.Part) bool {
		return slices.ContainsFunc(p.Ops, func(o part.Op) bool { return o.For == "handle" })
	}
	for _, m := range marks {
		p := w.parts[m]
		if !bored(p) {
			continue
		}
		thick, under := p.Size[2], length.Length(0)
		_, high, washed := w.joiner().HandleWasher()
		for _, q := range w.whose.Of(p.Owner).Parts {
			if q.Moves == p.Moves && q.Mark != m && bored(*q) {
				thick, under = thick+q.Size[2], high
			}
		}
		id, long, own, ok := w.joiner().HandleScrew(thick + under)
		if !ok {
			continue
		}
		unit := length.Millimetres
		if w.Practice.Unit == "in" {
			unit = length.Inches
		}
		t := fmt.Sprintf("Screws of the handles: %s, %s long for %s of wood. ", w.fastener(id), long.In(unit), w.in(thick))
		if under > 0 && washed {
			t += "A washer goes under the head of each, in the box, where the holes are wide so that the front can be set: the head alone would sink in. "
		}
		if own {
			t += "They come with most handles: measure them, and buy these where they are of another length"
		} else {
			t += "Those that come with most handles are of another length: these are on the shopping list"
		}
		if !slices.Contains(points, t) {
			points = append(points, t)
		}
	}
	return points
}

// locks says where locks and catches go and what holds them.
func (w *maker) locks() (points []string) {
	for _, f := range w.own.Fronts {
		p := w.parts[f.Part]
		if p.Owner != w.owner.ID || f.Kind != part.DoorFront || !f.Lock {
			continue
		}
		box := p.Box()
		other, pair := w.otherLeaf(f)
		i := slices.IndexFunc(p.Ops, func(o part.Op) bool { return o.For == part.Lock })
		if i >= 0 {
			at := p.Pose.Point(p.Ops[i].Face.Point(p.Ops[i].X, p.Ops[i].Y, p.Size))
			edge := box.Max.X - at.X
			if f.Hinge == geom.Right {
				edge = at.X - box.Min.X
			}
			if pair && !slices.ContainsFunc(other.Ops, func(o part.Op) bool { return o.For == part.Lock }) {
				gap := max(other.Box().Min.X-box.Max.X, box.Min.X-other.Box().Max.X)
				reach := part.CamReach(at, other.Box())
				way := "down"
				if part.CamUp(at, box) {
					way = "up"
				}
				points = append(points, fmt.Sprintf("Lock in the bored hole of %s: its cam points %s when it is open and turns behind %s when it locks; it reaches %s from the lock's middle, no more and hardly less, %s to the edge, %s of gap and %s behind the other leaf", p.Mark, way, other.Mark, w.in(reach), w.in(edge), w.in(gap), w.in(reach-edge-gap)))
			} else {
				points = append(points, w.struck(p, f, at))
			}
			continue
		}
		if !pair {
			continue
		}
		over, under := w.bounds(f, box)
		where := ""
		switch {
		case over != "" && under != "":
			where = fmt.Sprintf("one strike under %s, one on %s", over, under)
		case over != "":
			where = "its strike under " + over
		case under != "":
			where = "its strike on " + under
		}
		points = append(points, fmt.Sprintf("Catches inside %s, their middle %s from the edge away from its hinges, %s: hold each in its place with the leaf shut, mark its screws and the strike's, and bore %s deep for them with a bit as thick as their core", p.Mark, w.in(part.CatchIn), where, w.in(p.Size[2]/2)))
	}
	return points
}

// struck says where the angle is that the cam of a leaf's lock turns behind: on the face of the nearest upright
// beside the lock, away from its hinges.
func (w *maker) struck(p part.Part, f part.Front, at geom.Vec) string {
	var board part.Part
	face, name := length.Length(0), "left"
	for _, q := range w.whose.Of(w.owner.ID).Parts {
		b := q.Box()
		if q.Moves != "" || q.Role != part.Side && q.Role != part.Partition || at.Z < b.Min.Z || at.Z > b.Max.Z {
			continue
		}
		switch {
		case f.Hinge == geom.Left && b.Min.X >= at.X && (board.Mark == "" || b.Min.X < face):
			board, face, name = *q, b.Min.X, "left"
		case f.Hinge == geom.Right && b.Max.X <= at.X && (board.Mark == "" || b.Max.X > face):
			board, face, name = *q, b.Max.X, "right"
		}
	}
	if board.Mark == "" {
		return fmt.Sprintf("Lock in the bored hole of %s: by its own paper", p.Mark)
	}
	way := "down"
	if part.CamUp(at, p.Box()) {
		way = "up"
	}
	return fmt.Sprintf("Lock in the bored hole of %s: its cam points %s when it is open and turns behind the steel angle when it locks; it reaches %s from the lock's middle at least, and less than %s. The angle is screwed to the %s face of %s, its middle %s up from the %s of that, one leg standing out: with the leaf open measure from its inner face to the front of the cam, take off %s, and set the back of that leg so far behind the front edge of %s. Its screws go in no deeper than %s, and meet none from the other side",
		p.Mark, way, w.in(part.AngleReach(at, face)), w.in((face - at.X).Abs()), name, w.label(board.Mark), w.in(at.Z-board.Box().Min.Z), feature(board, 2, false), w.in(board.Box().Min.Y-p.Box().Max.Y), w.label(board.Mark), w.in(board.Size[2]/2))
}

// otherLeaf gives the leaf that shuts against a front.
func (w *maker) otherLeaf(f part.Front) (part.Part, bool) {
	box := w.parts[f.Part].Box()
	for _, g := range w.own.Fronts {
		q := w.parts[g.Part]
		if g.Part == f.Part || q.Owner != w.owner.ID || g.Kind != part.DoorFront || !g.Lock || g.Hinge == f.Hinge {
			continue
		}
		b := q.Box()
		near := max(b.Min.X-box.Max.X, box.Min.X-b.Max.X)
		if b.Min.Z == box.Min.Z && near >= 0 && near < 20*length.MM {
			return q, true
		}
	}
	return part.Part{}, false
}

// bounds names the boards over and under the opening that a leaf shuts, at its free edge.
func (w *maker) bounds(f part.Front, box geom.Box) (over, under string) {
	x := box.Max.X - part.CatchIn
	if f.Hinge == geom.Right {
		x = box.Min.X + part.CatchIn
	}
	at := func(z length.Length) string {
		q := geom.V(x, w.owner.Carcass.Min.Y+10*length.MM, z)
		spot := geom.Box{Min: q, Max: q}.Grow(length.MM)
		for _, p := range w.whose.Of(w.owner.ID).Parts {
			if p.Moves == "" && !p.Removable && p.Box().Meets(spot) {
				return strings.TrimSpace(w.label(p.Mark))
			}
		}
		return ""
	}
	return at(f.Opening.Max.Z + 5*length.MM), at(f.Opening.Min.Z - 5*length.MM)
}

// hung says where doors are when they are set right: how high, and what they cover of the upright that they
// hang on.
func (w *maker) hung(marks []string) (points []string) {
	for _, f := range w.own.Fronts {
		if f.Kind != part.DoorFront || !slices.Contains(marks, f.Part) || f.Hinge > geom.Left {
			continue
		}
		door := w.parts[f.Part]
		for _, q := range w.whose.Of(door.Owner).Parts {
			if q.Role != part.Side && q.Role != part.Partition || !slices.ContainsFunc(q.Ops, func(o part.Op) bool { return o.For == "hinge plate" }) {
				continue
			}
			a, b := door.Box(), q.Box()
			cover := b.Max.X - a.Min.X
			if f.Hinge == geom.Right {
				cover = a.Max.X - b.Min.X
			}
			if cover <= 0 || cover > b.Size().X {
				continue
			}
			at := w.in((a.Min.Z - b.Min.Z).Abs()) + " up from"
			switch {
			case a.Min.Z == b.Min.Z:
				at = "flush with"
			case a.Min.Z < b.Min.Z:
				at = w.in(b.Min.Z-a.Min.Z) + " below"
			}
			points = append(points, fmt.Sprintf("%s: %s %s the %s of %s, of whose front edge it covers %s", door.Mark, feature(door, 2, false), at, feature(*q, 2, false), q.Mark, w.in(cover)))
			break
		}
	}
	return points
}

// facesAt says where the fronts of drawers are, the lowest first: how high the lowest, and how far from the left
// face of the case each.
func (w *maker) facesAt(marks []string) string {
	var side part.Part
	for _, p := range w.whose.Of(w.owner.ID).Parts {
		if p.Role == part.Side && (side.Mark == "" || p.Box().Min.X < side.Box().Min.X) {
			side = *p
		}
	}
	if side.Mark == "" {
		return "Their places are on the drawing."
	}
	end := "the " + feature(side, 2, false) + " of the sides"
	low := w.parts[marks[0]].Box().Min.Z - side.Box().Min.Z
	at := w.in(low) + " up from " + end
	switch {
	case low == 0:
		at = "flush with " + end
	case low < 0:
		at = w.in(-low) + " below " + end
	}
	var off, of []string
	for _, m := range marks {
		d := w.in(w.parts[m].Box().Min.X - side.Box().Min.X)
		if i := slices.Index(off, d); i < 0 {
			off, of = append(off, d), append(of, m)
		} else {
			of[i] += ", " + m
		}
	}
	if len(off) == 1 {
		return fmt.Sprintf("The lower edge of the lowest is %s, their left edges are %s from the left face of %s.", at, off[0], side.Mark)
	}
	var each []string
	for i := range off {
		each = append(each, fmt.Sprintf("of %s %s", of[i], off[i]))
	}
	return fmt.Sprintf("The lower edge of the lowest is %s, the left edges are, from the left face of %s: %s.", at, side.Mark, strings.Join(each, "; "))
}
