package carcass

import (
	"cmp"
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/part"
)

// A drill has wallRoom from a wall screw to what lies over or under it in the case, as far as the screw
// keeps railEdge from its rail's edge (two and a half diameters of 6 mm, NDS commentary C12.1, and a
// little). Common practice, no source.
const (
	wallRoom = 45 * mm
	railEdge = 19 * mm
)

// railRoom is the room between the sides that hang rails have: over the bottom, or what stands out at the
// wall where they reach over that, and under the top or the rear stretcher.
func (b *build) railRoom(s shell) geom.Box {
	t, front := b.t, b.d-s.behind-s.t
	y := b.d - t
	switch {
	case s.railsIn:
		y = front - t
	case s.nook.deep > 0 && !s.hung: // against its back; packed out at the wall
		y = front + s.t + s.air
	}
	zl, zt := b.zb+t, b.h
	if b.full() || s.railsIn {
		zt -= t
	}
	if y+t > b.d-s.nook.deep {
		zl = max(zl, s.nook.high)
	}
	return geom.B(t, y, zl, b.w-t, y+t, zt)
}

// railHigh is how high rails in a room are: a third of what is between bottom and top at most.
func (b *build) railHigh(s shell, room geom.Box) L { return min(s.railW, (room.Max.Z-b.zb-b.t)/3) }

// rails makes hang rails or a cleat, and says where the case is fixed to the wall.
func (b *build) rails(s shell) {
	t, w, h := b.t, b.w, b.h
	kind := b.joint
	if kind == "dado" {
		kind = cmp.Or(b.env.Practice.JointElse, "wood-screw")
	}
	room := b.railRoom(s)
	y0, y1, zl, zt := room.Min.Y, room.Max.Y, room.Min.Z, room.Max.Z
	fixed := b.spec.Loose == "" || b.spec.Loose == "no"
	rear := b.d // of what is fixed to the wall
	switch {
	case s.nook.deep == 0 || s.hung || s.kind == "rabbet" || s.kind == "flush":
	case s.rails && s.railsIn || !s.rails:
		rear = s.front + s.t
	default:
		rear = y1
	}
	layers := func(rail bool) []part.Layer {
		var l []part.Layer
		back := part.Layer{Name: "back", Stock: s.board, Thickness: s.t}
		r := part.Layer{Name: "hang rail", Stock: b.board, Thickness: t}
		switch {
		case rail && s.railsIn && s.kind != "none":
			l = []part.Layer{r, back}
		case rail && s.kind != "none":
			l = []part.Layer{back, r}
			if air := y0 - s.front - s.t; air > 0 { // a back in grooves does not touch its rail
				l = []part.Layer{back, {Name: "air", Thickness: air}, r}
			}
		case rail:
			l = []part.Layer{r}
		default:
			l = []part.Layer{back}
		}
		return l
	}
	want := func(p string, z L, row string, rail bool) {
		if b.off > 0 && rail {
			b.ledger(p, z, row, layers(rail))
		} else if fixed {
			b.a.Wanted = append(b.a.Wanted, part.Wanted{Part: p, From: t + 20*mm, To: w - t - 20*mm, Y: rear, Z: z, Low: z, High: z, Row: row, Layers: layers(rail)})
		}
	}
	// between has it as near to the middle of a rail as the drill has room there.
	between := func(p string, low, high L, row string) {
		box := b.part(p).Box()
		high = max(low, high)
		want(p, min(max((box.Min.Z+box.Max.Z)/2, low), high), row, true)
		if n := len(b.a.Wanted); fixed && b.off == 0 {
			b.a.Wanted[n-1].Low, b.a.Wanted[n-1].High = low, high
		}
	}
	rail := func(local, name string, role part.Role, z0, z1 L) {
		// Outside the sides' depth (a cleat behind an applied back) it spans between their lines.
		p := part.New(local, role, name, b.board, geom.B(t, y0, z0, w-t, y1, z1), geom.Right, geom.Up)
		if role == part.Cleat { // before its ends are bored, clear of it
			p.Ops = append(p.Ops, part.Op{Kind: part.Bevel, Face: part.Near, L: p.Size[0], W: t, Depth: t, Angle: 45, Towards: p.Facing(geom.Front), Tool: b.beveller(), For: "cleat"})
		}
		b.put(p)
		pockets := []geom.Dir{geom.Back}
		if y1 <= b.part("side-l").Box().Max.Y {
			b.least = b.site.Hold.Ends
			b.ends(local, kind, pockets)
			b.least = 0
			// The sides of a wall case hang by its rails: the top and the bottom help to bring
			// their load there.
			if b.wall && b.part("top") != nil && b.part("top").Box().Min.Z == z1 {
				b.join("top", local, geom.Up, kind, pockets, b.headsOf("top"), 0)
			}
			if b.wall && b.part("bottom").Box().Max.Z == z0 {
				b.join("bottom", local, geom.Down, kind, pockets, b.headsOf("bottom"), 0)
			}
		}
		if s.kind == "let-in" || y1 > b.part("side-l").Box().Max.Y {
			on := "back"
			for i := range s.seams {
				if b.part(backName(i+1)).Box().Min.Z < z1 {
					on = backName(i + 1)
				}
			}
			low := z0
			if role == part.Cleat {
				low += t // its bevel takes so much of the face that the back lies on
			}
			c := geom.B(t, y0, low, w-t, y0, z1).And(b.part(on).Box())
			hw, _ := b.shop.Screw("wood", s.t+t-4*mm)
			n := 2 * len(joinery.Places(w-2*t, 50*mm, 150*mm, 2))
			b.a.Joints = append(b.a.Joints, part.Joint{Kind: part.WoodScrew, A: local, B: on, Contact: c, Fastener: cmp.Or(hw.ID, "wood-screw"), Count: n, Glue: true})
			b.item(part.Item{ID: cmp.Or(hw.ID, "wood-screw"), Kind: "screw", Count: n, Length: hw.Length, For: "rails"})
		}
	}
	b.battens(s, kind)
	rw := b.railHigh(s, room)
	low := b.spec.Hangs.Lower == nil || *b.spec.Hangs.Lower
	under := h - t // the top's or the rear stretcher's underside, below which the driver comes in
	switch {
	case s.hung:
		b.cleat(s, zt, y0, y1, rail)
		if low {
			rail("rail-lower", "lower rail", part.HangRail, zl, zl+rw)
			between("rail-lower", min(zl+wallRoom, zl+rw-railEdge), zl+rw-railEdge, "lower")
		}
	case s.rails:
		rail("rail-upper", "upper rail", part.HangRail, zt-rw, zt)
		between("rail-upper", zt-rw+railEdge, under-wallRoom, "upper")
		if b.wall && low || !b.wall && s.kind == "captured" {
			rail("rail-lower", "lower rail", part.HangRail, zl, zl+rw)
			if b.wall {
				between("rail-lower", min(zl+wallRoom, zl+rw-railEdge), zl+rw-railEdge, "lower")
			}
		}
		if z, _, ok := b.middle(s); ok {
			rail("rail-middle", "middle rail", part.HangRail, z-rw/2, z-rw/2+rw)
			want("rail-middle", z, "middle", true)
		}
	case s.kind != "none":
		want(backName(len(s.seams)), under-wallRoom, "upper", false)
		if b.wall && low {
			want("back", zl+wallRoom, "lower", false)
		}
	}
}

// cleat makes both halves of a bevelled cleat. The case's half hooks down behind the wall's:
// its long face is at the rear.
func (b *build) cleat(s shell, zt, y0, y1 L, rail func(local, name string, role part.Role, z0, z1 L)) {
	t := b.t
	tool := b.beveller()
	if _, ok := b.shop.Beveller(); !ok {
		b.say(joinery.NoTool, finding.Warning, "", "no tool of the shop is said to saw a bevel, which a cleat needs", "say bevels: yes of a saw, or hang the case by rails")
	}
	// Both halves and the lower rail stand one above the other.
	low := L(0)
	if b.spec.Hangs.Lower == nil || *b.spec.Hangs.Lower {
		low = min(s.railW, (zt-b.zb-t)/3)
	}
	wide := min(s.railW, (zt-b.zb-low)/2)
	zc := zt - wide
	rail("cleat", "cleat, case half", part.Cleat, zc, zt)
	room := 3 * mm // each end, so that it drops on
	wp := part.New("cleat-wall", part.WallCleat, "cleat, wall half", b.board, geom.B(t+room, y0, zc+t-wide, b.w-t-room, y1, zc+t), geom.Right, geom.Up)
	wp.Ops = append(wp.Ops, part.Op{Kind: part.Bevel, Face: part.Far, L: wp.Size[0], W: t, Depth: t, Angle: 45, Towards: wp.Facing(geom.Back), Tool: tool, For: "cleat"})
	wp.Note = "fixed to the wall first, level; the case is lifted on to it"
	b.put(wp)
	b.a.Joints = append(b.a.Joints, part.Joint{Kind: part.Loose, A: "cleat-wall", B: "cleat", Contact: geom.B(t+room, y0, zc, b.w-t-room, y1, zc+t)})
	b.a.Wanted = append(b.a.Wanted, part.Wanted{Part: "cleat-wall", From: t + 30*mm, To: b.w - t - 30*mm, Y: b.d, Z: zc + t - wide/2, Row: "upper", Layers: []part.Layer{{Name: "cleat", Stock: b.board, Thickness: t}}})
	if need := t + cleatLift; b.site.RoomAbove > 0 && b.site.RoomAbove < need {
		b.say(CleatRoom, finding.Error, "", fmt.Sprintf("a case on a cleat is lifted %s to come off, and has %s above it", b.text(need), b.text(b.site.RoomAbove)), "hang it by rails, or lower it")
	}
}

// beveller is what saws a bevel, or would have to.
func (b *build) beveller() string {
	if tool, ok := b.shop.Beveller(); ok {
		return tool
	}
	return b.shop.Saw()
}
