package carcass

import (
	"cmp"
	"slices"
	"strings"

	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/order"
	"stowright/internal/part"
)

// spans says how the boards of the box that carry goods are supported, now that all of it
// stands: the bottom, fixed shelves, and a top that no counter lies on. A bottom that lies on
// the floor or on a separate base does not span.
func (b *build) spans() {
	for _, p := range slices.Clone(b.a.Parts) {
		switch {
		case p.Local == "bottom" && (b.wall || b.zb > 0):
		case p.Local == "top" && !b.site.TopUnder:
			b.a.Spans = append(b.a.Spans, b.span(p, ""))
			continue
		case p.Role == part.FixedShelf && strings.HasSuffix(p.Local, "-fixed-shelf"):
		default:
			continue
		}
		if b.bearsPartition(p) && !slices.ContainsFunc(b.a.Bays, func(y part.Bay) bool { return y.Floor == p.Local }) {
			b.a.Spans = append(b.a.Spans, b.span(p, ""))
		}
		for _, y := range b.a.Bays {
			if y.Floor == p.Local {
				s := b.span(p, y.ID)
				s.Use = y.Use
				b.a.Spans = append(b.a.Spans, s)
			}
		}
	}
}

// bearsPartition says that a partition stands on a board.
func (b *build) bearsPartition(p part.Part) bool {
	return slices.ContainsFunc(b.a.Joints, func(j part.Joint) bool {
		a, c := b.part(j.A), b.part(j.B)
		up := func(q *part.Part) bool {
			return q != nil && q.Role == part.Partition && q.Box().Max.Z > p.Box().Max.Z && q.Box().Min.Z >= p.Box().Min.Z
		}
		return j.A == p.Local && up(c) || j.B == p.Local && up(a)
	})
}

// span gives a level board's supports along x: the boards its ends are joined to, partitions
// that stand under it, and feet between the sides.
func (b *build) span(p part.Part, bay string) part.Span {
	box := p.Box()
	s := part.Span{Part: p.Local, Along: geom.Right, Bay: bay, BackHeld: b.heldAtBack(p)}
	for _, j := range b.a.Joints {
		u := part.Support{Fixed: j.Kind == part.Dado && j.Glue, Width: max(j.Contact.Max.X-j.Contact.Min.X, 1)}
		u.At = (j.Contact.Min.X+j.Contact.Max.X)/2 - box.Min.X
		a, c := b.part(j.A), b.part(j.B)
		switch {
		case a == nil || c == nil:
			continue
		case j.B == p.Local && (a.Role == part.Side || a.Role == part.Partition):
		case j.A == p.Local && c.Role == part.Partition && c.Box().Min.Z < box.Min.Z:
		default:
			continue
		}
		s.Supports = append(s.Supports, u)
	}
	if p.Local == "bottom" {
		for _, f := range b.a.Feet {
			if f.At.X > b.w/3 && f.At.X < 2*b.w/3 && f.At.Y < b.d/2 {
				s.Supports = append(s.Supports, part.Support{At: f.At.X - box.Min.X, Width: blockSize})
			}
		}
	}
	order.Stable(s.Supports, func(u, v part.Support) int { return cmp.Compare(u.At, v.At) })
	s.Supports = slices.CompactFunc(s.Supports, func(u, v part.Support) bool { return u.At == v.At })
	return s
}

// heldAtBack reports whether a board is joined along its rear edge to the back, or to a rail that
// is screwed to the wall.
func (b *build) heldAtBack(p part.Part) bool {
	return slices.ContainsFunc(b.a.Joints, func(j part.Joint) bool {
		o := j.A
		if o == p.Local {
			o = j.B
		}
		q := b.part(o)
		return (j.A == p.Local || j.B == p.Local) && q != nil && (q.Role == part.BackPanel || b.wall && q.Role == part.HangRail) && j.Kind != part.Loose
	})
}

// hold screws a back that is thick enough to the fixed shelves and partitions before it.
func (b *build) hold(s shell) {
	if !b.held {
		return
	}
	for _, p := range slices.Clone(b.a.Parts) {
		if p.Role != part.FixedShelf && p.Role != part.Partition || p.Moves != "" {
			continue
		}
		for i := range len(s.seams) + 1 {
			n := backName(i)
			c := p.Box().And(b.part(n).Box())
			long := max(c.Max.X-c.Min.X, c.Max.Z-c.Min.Z)
			if c.Max.Y != c.Min.Y || c.Max.X-c.Min.X < 5*mm || c.Max.Z-c.Min.Z < 5*mm || long < 40*mm ||
				slices.ContainsFunc(b.a.Joints, func(j part.Joint) bool { return j.A == p.Local && j.B == n }) {
				continue
			}
			hw, _ := b.shop.Screw("wood", s.t+25*mm)
			count := len(joinery.Places(long, 50*mm, 150*mm, 2))
			b.a.Joints = append(b.a.Joints, part.Joint{Kind: part.WoodScrew, A: p.Local, B: n, Contact: c, Fastener: cmp.Or(hw.ID, "wood-screw"), Count: count, Glue: b.env.Practice.Glue})
			b.item(part.Item{ID: cmp.Or(hw.ID, "wood-screw"), Kind: "screw", Count: count, Length: hw.Length, For: "backs"})
		}
	}
}
