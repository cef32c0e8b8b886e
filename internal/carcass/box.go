package carcass

import (
	"cmp"
	"slices"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/part"
)

// shell is how the rear of a case is made, settled before any board is sized.
type shell struct {
	kind     string // captured, rabbet, flush, full, none
	board    string
	t        L    // of the panel
	groove   L    // depth of its grooves or rabbets into the sides
	front    L    // y of its front
	behind   L    // room behind it, to the rear of the sides
	air      L    // by which boards before and behind it keep clear of one that slides in between
	nook     nook // what it keeps clear of at its lower rear
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
	if n := b.nook(); !s.hung && n.inside(b, s.t) { // a cleat stays at the wall, and its case is notched
		s.nook = n
		if canGroove && (s.kind == "rabbet" || s.kind == "flush") {
			b.say(NotchBack, finding.Note, "", "the bottom ends before what stands out from the wall, so an applied back would have nothing behind it there: it stands in grooves, in front of that", "let the run stand off the wall to have it applied")
			s.kind = "captured"
		}
	}
	if s.hung && s.kind != "captured" && s.kind != "full" && s.kind != "none" {
		s.kind = "let-in" // behind a back that lies over the sides' edges the wall's half could not hook in
	}
	if s.kind == "rabbet" { // its screws have as much wood on both sides as the lip is thick (common practice, no source)
		s.groove = (b.t * 2 / 3).Down(mm / 10)
	}
	switch s.kind {
	case "captured":
		s.rails = fixed || b.wall
		s.behind = p.BackSetback
		if s.rails || s.hung {
			s.behind = max(s.behind, b.t)
		}
	case "let-in":
		s.behind = b.t
	case "rabbet", "flush":
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
	if b.off > 0 && s.behind == 0 && !s.rails { // a thick back needs no rails, a ledger does
		s.rails, s.railsIn = true, true
	}
	if b.site.Hold.Screws > 1 && !b.full() && !s.railsIn {
		s.railW = max(s.railW, b.site.Hold.Rail+b.t) // the rear stretcher is before its upper part
	}
	switch {
	case s.nook.deep == 0 || s.kind == "rabbet" || s.kind == "flush":
	case s.kind == "captured":
		s.behind = max(s.behind, s.nook.deep+nookWeb)
	default:
		s.behind = max(s.behind, s.nook.deep)
	}
	b.divide(&s)
	if s.kind == "captured" {
		s.air = panelAir // before a back that is screwed to what carries its joints, on both sides of a whole one
		if len(s.seams) == 0 && (s.rails || s.hung) && s.behind == b.t {
			s.behind += s.air
		}
	}
	s.front = b.d - s.behind - s.t
	if s.hung && s.behind > 0 && !s.railsIn {
		s.rails = true
	}
	b.backs = s.t
	b.held = s.kind == "full" || s.t >= screwedBack
	b.yb = s.front - s.air
	if s.railsIn {
		b.yb = s.front - b.t
	}
	b.yb = min(b.yb, b.d-s.nook.deep)
	return s
}

// full reports whether the top is a whole board: that of a locked case with nothing on it is, for a lock keeps
// nothing in an open box; and one that what is under it is let into.
func (b *build) full() bool {
	return b.wall || cmp.Or(b.spec.Top, b.env.Practice.Top) != "stretchers" || b.lockedTop() || slotted(b.spec.Inside)
}

// slotted reports whether something directly under a case's top is let into it.
func slotted(y Bay) bool {
	switch l, ok := y.Fitting.Value.(interface{ Slots() bool }); {
	case ok && l.Slots():
		return true
	case len(y.Up) > 0:
		return slotted(y.Up[len(y.Up)-1])
	}
	return slices.ContainsFunc(y.Across, slotted)
}

// lockedTop reports whether a case that would have stretchers gets a whole top for its lock's sake.
func (b *build) lockedTop() bool {
	return !b.wall && cmp.Or(b.spec.Top, b.env.Practice.Top) == "stretchers" && !b.site.TopUnder && locked(b.spec.Inside)
}

// locked reports whether something in a tree of bays is to be locked.
func locked(y Bay) bool {
	l, ok := y.Fitting.Value.(interface{ Locks() bool })
	return ok && l.Locks() || y.Doors != nil && y.Doors.Lock || slices.ContainsFunc(y.Across, locked) || slices.ContainsFunc(y.Up, locked)
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
	bottom := part.New("bottom", part.Bottom, "bottom", b.board, geom.B(t-dd, 0, b.zb, w-t+dd, min(inner, b.d-s.nook.deep), b.zb+t), geom.Right, geom.Back)
	b.band(&bottom, geom.Front)
	b.put(bottom)
	down := []geom.Dir{geom.Down}
	if b.exposed("bottom") {
		down = nil
	}
	full := b.full()
	if b.lockedTop() {
		b.say(LockTop, finding.Note, "", "it is locked and nothing lies on it: its top is a whole board, not stretchers", "a counter over it, or no lock, to have stretchers")
	}
	if !b.wall && cmp.Or(b.spec.Top, b.env.Practice.Top) == "stretchers" && slotted(b.spec.Inside) {
		b.say(SlotTop, finding.Note, "", "what stands under its top is let into it: its top is a whole board, not stretchers", "a fixed shelf above the dividers, to have stretchers")
	}
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
	b.least = b.site.Hold.Floors
	b.ends("bottom", b.joint, down)
	b.least = 0
	for _, n := range b.top {
		b.ends(n, b.joint, up)
	}
	b.rails(s)
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
		g := s.groove - letInPlay
		return geom.B(t-g, y, max(b.zb, s.nook.high), w-t+g, y+s.t, h)
	case "flush":
		return geom.B(0, y, max(b.zs, b.zb, s.nook.high), w, y+s.t, h)
	}
	z := b.zb + t
	if y+s.t > b.d-s.nook.deep {
		z = max(z, s.nook.high)
	}
	box := geom.B(t, y, z, w-t, y+s.t, topZ)
	if s.kind == "let-in" { // it is pushed in past finished faces
		box.Min.X, box.Min.Z, box.Max.X, box.Max.Z = box.Min.X+letInPlay, box.Min.Z+letInPlay, box.Max.X-letInPlay, box.Max.Z-letInPlay
	}
	return box
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
		if full {
			b.loose("top", backName(len(pieces)-1), geom.B(t, box.Min.Y, h-t, w-t, box.Max.Y, box.Max.Z))
		}
	case "rabbet":
		g := s.groove
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
	case "let-in": // the cleat and the lower rail carry it
		b.panels(s, pieces)
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
			n := len(joinery.Places(long, 50*mm, cmp.Or(b.env.Practice.BackScrews, 150*mm), 2))
			h, _ := b.shop.Screw("wood", b.backs+25*mm)
			b.a.Joints = append(b.a.Joints, part.Joint{Kind: part.WoodScrew, A: a, B: backName(i), Contact: contact, Fastener: cmp.Or(h.ID, "wood-screw"), Count: n, Glue: b.env.Practice.Glue})
			b.item(part.Item{ID: cmp.Or(h.ID, "wood-screw"), Kind: "screw", Count: n, Length: h.Length, For: "backs"})
		}
	}
}

// shims are where a case that stands on its sides is packed up from a floor that falls: under
// both ends of each side.
func (b *build) shims(front L) {
	for _, n := range []string{"side-l", "side-r"} {
		box := b.part(n).Box()
		x := (box.Min.X + box.Max.X) / 2
		rear := box.Max.Y
		if n := b.nook(); n.high > b.zs {
			rear = min(rear, b.d-n.deep)
		}
		for _, y := range []L{max(front, box.Min.Y), rear} {
			b.a.Feet = append(b.a.Feet, part.Foot{Owner: b.id, Kind: "shim", At: geom.V(x, y, b.zs)})
		}
	}
}
