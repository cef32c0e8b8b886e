package carcass

import (
	"cmp"
	"fmt"
	"slices"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/part"
)

// shell is how the rear of a case is made, settled before any board is sized.
type shell struct {
	kind     string // captured, rabbet, flush, full, none
	board    string
	t        L // of the panel
	groove   L // depth of its groove or rabbet
	front    L // y of its front
	behind   L // room behind it, to the rear of the sides
	rails    bool
	railsIn  bool // rails stand before the back, in the clear space
	sideRear L    // y of the sides' rear edge
	hung     bool // by a cleat
	railW    L
	seams    []seam // where a back larger than its sheets is divided, from the lowest
}

// rear settles the back.
func (b *build) rear() shell {
	p := b.env.Practice
	s := shell{kind: cmp.Or(b.spec.Back, p.Back, "captured"), sideRear: b.d}
	s.hung = b.wall && b.spec.Hangs.Kind == "cleat"
	s.railW = or(b.spec.Hangs.Width, p.RailWidth)
	if s.railW == 0 {
		s.railW = 80 * mm
	}
	if s.hung {
		s.railW = max(or(b.spec.Hangs.Width, cleatWidth), 2*b.t)
	}
	s.railW = max(s.railW, b.site.Hold.Rail)
	fixed := b.spec.Loose == "" || b.spec.Loose == "no"
	s.board = cmp.Or(b.spec.BackBoard, p.BackBoard, b.board)
	if s.kind == "full" {
		s.board = cmp.Or(b.spec.BackBoard, b.board)
	}
	if s.kind != "none" {
		s.t = b.thick(s.board, "back")
	}
	_, canGroove := b.shop.Groover()
	if s.kind == "captured" && !canGroove {
		b.say(joinery.NoTool, finding.Warning, "", "no tool of the shop makes the groove for a captured back: it is applied instead", "state back: applied, or add a tool that grooves")
		s.kind = "applied"
	}
	s.groove = p.DadoDepth
	if s.groove == 0 {
		s.groove = 6 * mm
	}
	s.groove = min(s.groove, (b.t / 2).Down(mm/10))
	if s.kind == "applied" {
		s.kind = "flush"
		if canGroove && s.t <= b.t {
			s.kind = "rabbet"
		}
	}
	switch s.kind {
	case "captured":
		s.rails = fixed || b.wall
		s.behind = p.BackSetback
		if s.rails || s.hung {
			s.behind = max(s.behind, b.t)
		}
	case "rabbet", "flush":
		if s.hung {
			s.behind = b.t
			s.sideRear = b.d - b.t
		}
		if s.kind == "flush" {
			s.sideRear = b.d - s.behind - s.t
		}
		s.rails = (fixed || b.wall) && s.t < screwedBack
		s.railsIn = s.rails
	case "full":
		if s.hung {
			s.behind = b.t
		}
	case "none":
		s.rails = true
		s.railsIn = true
		if s.hung {
			s.behind = b.t
			s.railsIn = false
		}
	}
	b.divide(&s)
	s.front = b.d - s.behind - s.t
	if s.hung && s.behind > 0 && !s.railsIn {
		s.rails = true
	}
	b.backs = s.t
	b.held = s.kind == "full" || s.t >= screwedBack
	b.yb = s.front
	if s.railsIn {
		b.yb = s.front - b.t
	}
	return s
}

// full reports whether the top is a whole board.
func (b *build) full() bool {
	return b.wall || cmp.Or(b.spec.Top, b.env.Practice.Top) != "stretchers"
}

// box makes sides, bottom, top, back, rails, and what it stands on.
func (b *build) box(s shell) {
	t, w, h, dd := b.t, b.w, b.h, b.dd
	// Rear of boards between the sides: behind a captured back they go to the rear.
	inner := b.d
	if s.kind == "rabbet" || s.kind == "flush" {
		inner = s.front
	}
	left := b.stand("side-l", part.Side, "left side", b.board, geom.B(0, 0, b.zs, t, s.sideRear, h), geom.Back)
	right := b.stand("side-r", part.Side, "right side", b.board, geom.B(w-t, 0, b.zs, w, s.sideRear, h), geom.Back)
	b.band(&left, geom.Front)
	b.band(&right, geom.Front)
	b.put(left)
	b.put(right)
	bottom := part.New("bottom", part.Bottom, "bottom", b.board, geom.B(t-dd, 0, b.zb, w-t+dd, inner, b.zb+t), geom.Right, geom.Back)
	b.band(&bottom, geom.Front)
	b.put(bottom)
	down := []geom.Dir{geom.Down}
	if b.exposed("bottom") {
		down = nil
	}
	full := b.full()
	up := []geom.Dir{geom.Up}
	if b.exposed("top") && !b.site.TopUnder {
		up = []geom.Dir{geom.Down}
	}
	if full {
		p := part.New("top", part.Top, "top", b.board, geom.B(t-dd, 0, h-t, w-t+dd, inner, h), geom.Right, geom.Back)
		b.band(&p, geom.Front)
		b.put(p)
		b.top = []string{"top"}
	} else {
		sw := b.env.Practice.StretcherWidth
		if sw == 0 {
			sw = 90 * mm
		}
		sw = min(sw, b.yb/2-10*mm)
		f := part.New("stretcher-f", part.Stretcher, "front stretcher", b.board, geom.B(t, 0, h-t, w-t, sw, h), geom.Right, geom.Back)
		b.band(&f, geom.Front)
		b.put(f)
		b.put(part.New("stretcher-r", part.Stretcher, "rear stretcher", b.board, geom.B(t, b.yb-sw, h-t, w-t, b.yb, h), geom.Right, geom.Back))
		b.top = []string{"stretcher-f", "stretcher-r"}
	}
	// Workings of the back come first: dados and fasteners then see the boards as they are.
	b.back(s, full)
	b.ends("bottom", b.joint, down)
	for _, n := range b.top {
		b.ends(n, b.joint, up)
	}
	b.rails(s, full)
}

// backBox gives the extents of the whole back panel.
func (b *build) backBox(s shell) geom.Box {
	t, w, h := b.t, b.w, b.h
	y := b.d - s.behind - s.t
	topZ := h
	if b.full() {
		topZ = h - t
	}
	switch s.kind {
	case "captured":
		z := topZ
		if b.full() {
			z += s.groove - panelRoom
		}
		return geom.B(t-s.groove+panelRoom, y, b.zb+t-s.groove+panelRoom, w-t+s.groove-panelRoom, y+s.t, z)
	case "rabbet":
		g := min(s.groove, t/2)
		return geom.B(t-g, y, b.zb, w-t+g, y+s.t, h)
	case "flush":
		return geom.B(0, y, max(b.zs, b.zb), w, y+s.t, h)
	}
	return geom.B(t, y, b.zb+t, w-t, y+s.t, topZ)
}

// back makes the back panel and its groove or rabbet.
func (b *build) back(s shell, full bool) {
	if s.kind == "none" {
		return
	}
	t, w, h := b.t, b.w, b.h
	tool, _ := b.shop.Groover()
	box := b.backBox(s)
	pieces := s.pieces(box)
	switch s.kind {
	case "captured":
		y0, y1 := s.front, s.front+s.t+joinery.GrooveRoom
		x0, x1 := t-s.groove, w-t+s.groove
		b.part("side-l").Recess(part.Groove, b.part("side-l").Facing(geom.Right), geom.B(x0, y0, b.zs, t, y1, h), tool, "back")
		b.part("side-r").Recess(part.Groove, b.part("side-r").Facing(geom.Left), geom.B(w-t, y0, b.zs, x1, y1, h), tool, "back")
		b.part("bottom").Recess(part.Groove, part.Upper, geom.B(0, y0, b.zb+t-s.groove, w, y1, b.zb+t), tool, "back")
		if full {
			b.part("top").Recess(part.Groove, part.Lower, geom.B(0, y0, h-t, w, y1, h-t+s.groove), tool, "back")
		}
		b.panels(s, pieces)
		for i, c := range pieces {
			b.loose("side-l", backName(i), geom.B(c.Min.X, c.Min.Y, c.Min.Z, t, c.Max.Y, c.Max.Z))
			b.loose("side-r", backName(i), geom.B(w-t, c.Min.Y, c.Min.Z, c.Max.X, c.Max.Y, c.Max.Z))
		}
		b.loose("bottom", "back", geom.B(t, box.Min.Y, box.Min.Z, w-t, box.Max.Y, b.zb+t))
	case "rabbet":
		g := min(s.groove, t/2)
		for _, n := range []string{"side-l", "side-r"} {
			in, x0, x1 := geom.Right, t-g, t
			if n == "side-r" {
				in, x0, x1 = geom.Left, w-t, w-t+g
			}
			p := b.part(n)
			p.Recess(part.Rabbet, p.Facing(in), geom.B(x0, s.front, b.zs, x1, s.sideRear+s.t, h), tool, "back")
		}
		b.panels(s, pieces)
		b.applied(pieces)
	case "flush":
		b.panels(s, pieces)
		b.applied(pieces)
	case "full":
		b.panels(s, pieces)
		back := []geom.Dir{geom.Back}
		kind := b.joint
		if kind == "dado" {
			kind = cmp.Or(b.env.Practice.JointElse, "wood-screw")
		}
		for i := range pieces {
			b.ends(backName(i), kind, back)
		}
		b.join("bottom", "back", geom.Down, kind, back, b.headsOf("bottom"), 0)
		if full {
			b.join("top", backName(len(pieces)-1), geom.Up, kind, back, b.headsOf("top"), 0)
		}
	}
}

// loose records that a groove holds a panel.
func (b *build) loose(a, c string, contact geom.Box) {
	b.a.Joints = append(b.a.Joints, part.Joint{Kind: part.Loose, A: a, B: c, Contact: contact})
}

// panels puts the back, in one piece or more. A thin one may lie either way on its sheet.
func (b *build) panels(s shell, pieces []geom.Box) {
	for i, box := range pieces {
		name := "back"
		if len(pieces) > 1 {
			name = [...]string{"lower back", "upper back"}[min(i, 1)]
			if i > 0 && i < len(pieces)-1 {
				name = "middle back"
			}
		}
		p := part.New(backName(i), part.BackPanel, name, s.board, box, geom.Up, geom.Right)
		if s.kind == "full" {
			p = b.stand(backName(i), part.BackPanel, name, s.board, box, geom.Right)
		}
		p.Grain = b.backGrain(s)
		b.put(p)
	}
}

// applied screws a back over the rear edges of the boards it covers.
func (b *build) applied(pieces []geom.Box) {
	for i, box := range pieces {
		for _, a := range append([]string{"side-l", "side-r", "bottom"}, b.top...) {
			p := b.part(a)
			c := p.Box()
			if p.Role == part.Stretcher {
				continue
			}
			rear := c.Max.Y
			if p.Role == part.Side && rear > box.Min.Y { // rabbet
				rear = box.Min.Y
			}
			if rear != box.Min.Y {
				continue
			}
			contact := geom.B(max(c.Min.X, box.Min.X), box.Min.Y, max(c.Min.Z, box.Min.Z), min(c.Max.X, box.Max.X), box.Min.Y, min(c.Max.Z, box.Max.Z))
			if contact.Max.X <= contact.Min.X || contact.Max.Z <= contact.Min.Z {
				continue
			}
			long := max(contact.Max.X-contact.Min.X, contact.Max.Z-contact.Min.Z)
			n := len(joinery.Places(long, 50*mm, 150*mm, 2))
			h, _ := b.shop.Screw("wood", b.backs+25*mm)
			b.a.Joints = append(b.a.Joints, part.Joint{Kind: part.WoodScrew, A: a, B: backName(i), Contact: contact, Fastener: cmp.Or(h.ID, "wood-screw"), Count: n, Glue: b.env.Practice.Glue})
			b.item(part.Item{ID: cmp.Or(h.ID, "wood-screw"), Kind: "screw", Count: n, Length: h.Length, For: "backs"})
		}
	}
}

// rails makes hang rails or a cleat, and says where the case is fixed to the wall.
func (b *build) rails(s shell, full bool) {
	t, w, h := b.t, b.w, b.h
	kind := b.joint
	if kind == "dado" {
		kind = cmp.Or(b.env.Practice.JointElse, "wood-screw")
	}
	zt := h
	if full {
		zt = h - t
	}
	if !full && s.railsIn {
		zt = h - t // under the rear stretcher
	}
	fixed := b.spec.Loose == "" || b.spec.Loose == "no"
	var y0, y1 L
	switch {
	case s.railsIn:
		y0, y1 = b.yb, b.yb+t
	default:
		y0, y1 = b.d-t, b.d
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
		case rail:
			l = []part.Layer{r}
		default:
			l = []part.Layer{back}
		}
		return l
	}
	want := func(p string, z L, row string, rail bool) {
		if fixed {
			b.a.Wanted = append(b.a.Wanted, part.Wanted{Part: p, From: t + 20*mm, To: w - t - 20*mm, Y: b.d, Z: z, Row: row, Layers: layers(rail)})
		}
	}
	rail := func(local, name string, role part.Role, z0, z1 L) {
		// Outside the sides' depth (a cleat behind an applied back) it spans between their lines.
		p := part.New(local, role, name, b.board, geom.B(t, y0, z0, w-t, y1, z1), geom.Right, geom.Up)
		b.put(p)
		pockets := []geom.Dir{geom.Back}
		if y1 <= b.part("side-l").Box().Max.Y {
			b.ends(local, kind, pockets)
			// The sides of a wall case hang by its rails: the top and the bottom help to bring
			// their load there.
			if b.wall && b.part("top") != nil && b.part("top").Box().Min.Z == z1 {
				b.join("top", local, geom.Up, kind, pockets, b.headsOf("top"), 0)
			}
			if b.wall && b.part("bottom").Box().Max.Z == z0 {
				b.join("bottom", local, geom.Down, kind, pockets, b.headsOf("bottom"), 0)
			}
		} else {
			on := "back"
			for i := range s.seams {
				if b.part(backName(i+1)).Box().Min.Z < z1 {
					on = backName(i + 1)
				}
			}
			c := geom.B(t, y0, z0, w-t, y0, z1).And(b.part(on).Box())
			hw, _ := b.shop.Screw("wood", s.t+t-4*mm)
			n := 2 * len(joinery.Places(w-2*t, 50*mm, 150*mm, 2))
			b.a.Joints = append(b.a.Joints, part.Joint{Kind: part.WoodScrew, A: local, B: on, Contact: c, Fastener: cmp.Or(hw.ID, "wood-screw"), Count: n, Glue: true})
			b.item(part.Item{ID: cmp.Or(hw.ID, "wood-screw"), Kind: "screw", Count: n, Length: hw.Length, For: "rails"})
		}
	}
	b.battens(s, kind)
	rw := min(s.railW, (zt-b.zb-t)/3)
	low := b.spec.Hangs.Lower == nil || *b.spec.Hangs.Lower
	zl := b.zb + t
	switch {
	case s.hung:
		b.cleat(s, zt, y0, y1, rail)
		if low {
			rail("rail-lower", "lower rail", part.HangRail, zl, zl+rw)
			want("rail-lower", zl+rw/2, "lower", true)
		}
	case s.rails:
		rail("rail-upper", "upper rail", part.HangRail, zt-rw, zt)
		want("rail-upper", zt-rw/2, "upper", true)
		if b.wall && low || !b.wall && s.kind == "captured" {
			rail("rail-lower", "lower rail", part.HangRail, zl, zl+rw)
			if b.wall {
				want("rail-lower", zl+rw/2, "lower", true)
			}
		}
		if h-b.zb > midRailFrom {
			z := (zl+zt)/2 - rw/2
			rail("rail-middle", "middle rail", part.HangRail, z, z+rw)
			want("rail-middle", z+rw/2, "middle", true)
		}
	case s.kind != "none":
		want(backName(len(s.seams)), zt-40*mm, "upper", false)
		if b.wall && low {
			want("back", zl+40*mm, "lower", false)
		}
	}
}

// cleat makes both halves of a bevelled cleat. The case's half hooks down behind the wall's:
// its long face is at the rear.
func (b *build) cleat(s shell, zt, y0, y1 L, rail func(local, name string, role part.Role, z0, z1 L)) {
	t := b.t
	tool, ok := b.shop.Beveller()
	if !ok {
		tool = b.shop.Saw()
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
	p := b.part("cleat")
	p.Ops = append(p.Ops, part.Op{Kind: part.Bevel, Face: part.Near, L: p.Size[0], W: t, Depth: t, Angle: 45, Towards: p.Facing(geom.Front), Tool: tool, For: "cleat"})
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

// stands makes what a floor case stands on.
func (b *build) stands() {
	if b.wall {
		return
	}
	t, w := b.t, b.w
	st := b.spec.Stands
	inset := L(0)
	if st.Kind == "toe" || st.Kind == "toe-feet" {
		inset = max(or(st.Recess, toeRecess)-b.tf-b.air, 0)
		saw := b.shop.Saw()
		for _, n := range []string{"side-l", "side-r"} {
			p := b.part(n)
			box := p.Box()
			if inset > 0 {
				p.Recess(part.Notch, part.Upper, geom.B(box.Min.X, 0, b.zs, box.Max.X, inset, b.zb), saw, "toe recess")
			}
		}
		b.put(part.New("toe-board", part.ToeBoard, "toe board", b.board, geom.B(t, inset, b.zs, w-t, inset+t, b.zb), geom.Right, geom.Up))
		kind := b.joint
		if kind == "dado" {
			kind = cmp.Or(b.env.Practice.JointElse, "wood-screw")
		}
		b.ends("toe-board", kind, []geom.Dir{geom.Back})
	}
	var id string
	switch st.Kind {
	case "feet", "toe-feet":
		id = cmp.Or(st.Foot, b.env.Practice.Foot)
	case "castors":
		id = cmp.Or(st.Foot, b.env.Practice.Castor)
	case "toe", "floor":
		if b.spec.Loose != "rolls" && b.spec.Loose != "slides" {
			b.shims(inset)
		}
		return
	default:
		return
	}
	hw, ok := b.env.Catalogue.Item(id)
	if !ok {
		b.say(NoHardware, finding.Error, "", fmt.Sprintf("it stands on %q, which is not known", id), "name a foot or castor of the catalogue")
	}
	kind, name := "foot", "foot"
	if st.Kind == "castors" {
		kind, name = "castor", "castor"
	}
	y0 := 20 * mm
	x0 := t
	if st.Kind == "toe-feet" {
		y0 = inset + t
	}
	if st.Kind != "toe-feet" {
		y0 = 10 * mm
	}
	y1 := min(b.part("bottom").Box().Max.Y, b.yb) - blockSize
	xs := []L{x0, w - x0 - blockSize}
	if w > wideFeet {
		xs = []L{x0, (w - blockSize) / 2, w - x0 - blockSize}
	}
	blocks := st.Kind != "castors" && (st.Kind == "toe-feet" || hw.Dia > 0) && b.zb-t >= hw.Height
	top := b.zb
	if blocks {
		top -= t
	}
	least, most := hw.Height, max(hw.Greatest, hw.Height)
	if ok && (top < least || kind == "foot" && top > most || kind == "castor" && top != least) {
		b.say(FootHeight, finding.Error, "", fmt.Sprintf("the %s is %s to %s high and would have to be %s", name, b.text(least), b.text(most), b.text(top)), "change the height it stands at, or the "+name)
	}
	var rating = part.Foot{}.Rating
	if hw.Rating != nil {
		rating = *hw.Rating
	}
	n := 0
	for _, y := range []L{y0, y1} {
		for _, x := range xs {
			n++
			c := b.footSpot(geom.V(x+blockSize/2, y+blockSize/2, top), hw.TurnFrom == "above" && kind == "foot")
			if blocks {
				local := fmt.Sprintf("foot-block-%d", n)
				p := part.New(local, part.Blocking, "block over a foot", b.board, geom.B(x, y, b.zb-t, x+blockSize, y+blockSize, b.zb), geom.Right, geom.Back)
				p.Grain = part.Free
				if hw.Dia > 0 {
					tool, dia, okb := b.shop.Pilot(hw.Dia)
					if hw.Clearance > 0 {
						tool, dia, okb = b.shop.Pilot(hw.Clearance)
					}
					if !okb {
						b.say(joinery.NoBit, finding.Warning, "", "no "+tool+" for the feet is owned", "add it to the practice's bits")
					}
					p.Bore(part.Hole, part.Lower, c, dia, t, tool, "foot")
				}
				b.put(p)
				b.a.Joints = append(b.a.Joints, part.Joint{Kind: part.WoodScrew, A: "bottom", B: local, Contact: geom.B(x, y, b.zb, x+blockSize, y+blockSize, b.zb), Fastener: b.screwID("wood", 2*t-4*mm), Count: 4, Glue: true})
				b.item(part.Item{ID: b.screwID("wood", 2*t-4*mm), Kind: "screw", Count: 4, For: "blocks"})
			}
			if hw.TurnFrom == "above" && kind == "foot" {
				tool, dia, okb := b.shop.Pilot(10 * mm)
				if okb {
					p := b.part("bottom")
					p.Bore(part.Hole, part.Upper, c, dia, t, tool, "turning a foot")
				}
			}
			b.a.Feet = append(b.a.Feet, part.Foot{Owner: b.id, Kind: kind, At: c, Hardware: id, Height: top, Least: least, Greatest: most, Rating: rating})
		}
	}
	b.item(part.Item{ID: id, Kind: kind, Count: n, For: "standing"})
}

// shims are where a case that stands on its sides is packed up from a floor that falls: under
// both ends of each side.
func (b *build) shims(front L) {
	for _, n := range []string{"side-l", "side-r"} {
		box := b.part(n).Box()
		x := (box.Min.X + box.Max.X) / 2
		for _, y := range []L{max(front, box.Min.Y), box.Max.Y} {
			b.a.Feet = append(b.a.Feet, part.Foot{Owner: b.id, Kind: "shim", At: geom.V(x, y, b.zs)})
		}
	}
}

// footSpot moves a foot within its block to where a hole to turn it from above is clear of
// boards and of other holes.
func (b *build) footSpot(at geom.Vec, turned bool) geom.Vec {
	if !turned {
		return at
	}
	p := b.part("bottom")
	z := p.Box().Max.Z
	in := 20 * mm // away from the side first
	if 2*at.X > b.w {
		in = -in
	}
	for _, d := range [][2]L{{0, 0}, {0, 20 * mm}, {0, -20 * mm}, {in, 0}, {-in, 0}, {in, 20 * mm}, {-in, 20 * mm}} {
		q := at.Add(geom.V(d[0], d[1], 0))
		x, y := p.OnFace(part.Upper, q)
		over := geom.B(q.X-7*mm, q.Y-7*mm, z, q.X+7*mm, q.Y+7*mm, z+50*mm)
		if clear(p, x, y, 10*mm, 3*mm) && !slices.ContainsFunc(b.a.Parts, func(o part.Part) bool { return o.Moves == "" && o.Box().Meets(over) }) {
			return q
		}
	}
	return at
}

func (b *build) screwID(use string, long L) string {
	h, _ := b.shop.Screw(use, long)
	return cmp.Or(h.ID, use+"-screw")
}

// place works what the place asks for: joining holes, openings in the back, notches, panels.
func (b *build) place(s shell) {
	saw := b.shop.Saw()
	if s.t > 0 {
		for _, c := range b.site.Cutouts {
			for i := range len(s.seams) + 1 {
				p := b.part(backName(i))
				box := p.Box()
				c.Min.Y, c.Max.Y = box.Min.Y, box.Max.Y
				kind := part.Cutout
				if c.Min.X <= box.Min.X || c.Max.X >= box.Max.X || c.Min.Z <= box.Min.Z || c.Max.Z >= box.Max.Z {
					kind = part.Notch
				}
				p.Recess(kind, part.Upper, c, saw, "opening")
			}
			for _, n := range []string{"rail-upper", "rail-lower", "rail-middle", "batten-1", "batten-2", "batten-3"} {
				if r := b.part(n); r != nil && r.Box().Meets(geom.B(c.Min.X, r.Box().Min.Y, c.Min.Z, c.Max.X, r.Box().Max.Y, c.Max.Z)) {
					r.Recess(part.Notch, part.Upper, geom.B(c.Min.X, r.Box().Min.Y, c.Min.Z, c.Max.X, r.Box().Max.Y, c.Max.Z), saw, "opening")
				}
			}
		}
	}
	b.endPanels()
	var stopped []string
	for _, c := range b.site.Notches {
		for i := range b.a.Parts {
			p := &b.a.Parts[i]
			if p.Role == part.WallCleat || !p.Box().Meets(c) {
				continue
			}
			if p.Moves != "" { // a notched drawer is none
				if !slices.Contains(stopped, p.Moves) {
					stopped = append(stopped, p.Moves)
					b.say(NotchMoves, finding.Error, p.Local, fmt.Sprintf("its rear comes %s into what stands out from the wall, round which the case is notched", b.text(p.Box().And(c).Size().Y)), "a shorter slide, or a case that stands higher or further out")
				}
				continue
			}
			box := p.Box().And(c)
			// Through the board's thickness.
			ax := p.Pose.W().Axis()
			box.Min, box.Max = box.Min.With(ax, p.Box().Min.At(ax)), box.Max.With(ax, p.Box().Max.At(ax))
			p.Recess(part.Notch, part.Upper, box, saw, "room for what stands out from the wall")
		}
	}
}

// endPanels covers sides that can be seen, fronts' edges included.
func (b *build) endPanels() {
	board := cmp.Or(b.spec.FrontBoard, b.env.Practice.FrontBoard, b.board)
	t := b.thick(board, "end panel")
	for _, side := range []string{"left", "right"} {
		if !slices.Contains(b.spec.EndPanels, side) {
			continue
		}
		local, on, x, z0 := "panel-l", "side-l", L(0), b.zs
		box := geom.B(-t, -b.tf-b.air, z0, 0, b.d, b.h)
		if side == "right" {
			local, on, x = "panel-r", "side-r", b.w
			box = geom.B(b.w, -b.tf-b.air, z0, b.w+t, b.d, b.h)
		}
		p := b.stand(local, part.EndPanel, side+" end panel", board, box, geom.Back)
		b.band(&p, geom.Front)
		b.put(p)
		c := b.part(on).Box()
		h, _ := b.shop.ScrewFor("wood", b.t, t)
		b.a.Joints = append(b.a.Joints, part.Joint{Kind: part.Undone, A: on, B: local, Contact: geom.B(x, c.Min.Y, c.Min.Z, x, c.Max.Y, c.Max.Z), Fastener: cmp.Or(h.ID, "wood-screw"), Count: 6})
		b.item(part.Item{ID: cmp.Or(h.ID, "wood-screw"), Kind: "screw", Count: 6, Length: h.Length, For: "end panels"})
	}
}

// joining bores for the screws that join neighbours: through the right side, from inside, and a
// pilot in the left side of the case that stands to the right. Beside one that stands already on
// the left, which nobody has bored, they go through the left side from inside too.
func (b *build) joining() {
	j := Joining{Front: 50 * mm, Rear: 50 * mm, Low: 100 * mm, High: 100 * mm}
	if b.site.Joining != nil {
		j = *b.site.Joining
	}
	n := 0
	for _, right := range []bool{false, true} {
		local, join := "side-l", b.site.JoinLeft
		if right {
			local, join = "side-r", b.site.JoinRight
		}
		if !join {
			continue
		}
		p := b.part(local)
		hw, ok := b.env.Catalogue.Item(j.Screw)
		if !ok {
			hw, _ = b.shop.ScrewFor("joining", b.t, b.t)
		}
		dia, depth, face := L(4500*length.MM/1000), b.t, p.Facing(geom.Left)
		if hw.Clearance > 0 {
			dia = hw.Clearance
		}
		if !right && b.site.FromLeft {
			face = p.Facing(geom.Right)
		} else if !right {
			dia, depth = 3*mm, b.t-5*mm
			if hw.Pilot > 0 {
				dia = hw.Pilot
			}
		}
		tool, d, okb := b.shop.Pilot(dia)
		if !okb {
			b.say(joinery.NoBit, finding.Warning, "", "no "+tool+" for joining screws is owned", "add it to the practice's bits")
		}
		zs := []L{b.zb + j.Low, b.h - j.High}
		if b.h-b.zb > 914*mm { // over 36 in: a third pair
			zs = append(zs, (zs[0]+zs[1])/2)
		}
		for _, z := range zs {
			for _, y := range []L{j.Front, b.yb - j.Rear} {
				q, free := b.clearSpot(p, face, geom.V(p.Box().Min.X, y, z), d)
				if !free {
					continue
				}
				p.Bore(part.Hole, face, q, d, depth, tool, "joining screw")
				if right {
					n++
				}
			}
		}
		if right {
			b.item(part.Item{ID: cmp.Or(hw.ID, "joining-screw"), Kind: "screw", Count: n, Length: hw.Length, For: "joining neighbours"})
		}
	}
}

// clearSpot says whether a hole at q is clear of the holes already bored in a part.
func (b *build) clearSpot(p *part.Part, f part.Face, q geom.Vec, dia L) (geom.Vec, bool) {
	x, y := p.OnFace(f, q)
	ex, ey, _ := f.Extent(p.Size)
	if x < dia || y < dia || x > ex-dia || y > ey-dia {
		return q, false
	}
	return q, clear(p, x, y, dia, 3*mm)
}

// clear reports whether a hole through the broad faces at (u, v) keeps web of wood to every other round working of
// those faces.
func clear(p *part.Part, u, v, dia, web L) bool {
	for _, o := range p.Ops {
		if o.Face != part.Upper && o.Face != part.Lower {
			continue
		}
		switch o.Kind {
		case part.Hole, part.Cup:
			r := (dia+o.Dia)/2 + web
			du, dv := o.X-u, o.Y-v
			if du.Abs() < r && dv.Abs() < r && int64(du/100)*int64(du/100)+int64(dv/100)*int64(dv/100) < int64(r/100)*int64(r/100) {
				return false
			}
		case part.Groove, part.Rabbet, part.Notch, part.Cutout:
			if u+dia/2 > o.X && u-dia/2 < o.X+o.L && v+dia/2 > o.Y && v-dia/2 < o.Y+o.W {
				return false
			}
		}
	}
	return true
}
