// Package drawers makes a bank of drawers, one above the other: boxes on slides, with
// overlay fronts, or without where they stand behind doors.
package drawers

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/finding"
	"stowright/internal/fitting"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/mass"
	"stowright/internal/part"
	"stowright/internal/schema"
	"stowright/internal/stock"
)

type L = length.Length

// Codes of the findings of this package.
const (
	// NoSlide: the slide is not known or none is short enough.
	NoSlide finding.Code = "drawers-no-slide"
	// LowFront: a front is too low for a box on its slide. Example: "drawer 1 has 52 mm for its box and its slides need 60 mm".
	LowFront finding.Code = "drawers-low-front"
	// Tight: a low drawer gets less room above and below its box than the practice says.
	Tight finding.Code = "drawers-tight"
	// Fronts: the given heights do not fill the bank.
	Fronts finding.Code = "drawers-fronts"
	// Narrow: the opening is too narrow for a box.
	Narrow finding.Code = "drawers-narrow"
	// NoBoard: a board is not known.
	NoBoard finding.Code = "drawers-no-board"
	// Wide: a drawer is wider than its slides steer well.
	Wide finding.Code = "drawers-wide"
	// UnderBottom: under slides go below a bottom held in grooves, which this shop cannot make.
	UnderBottom finding.Code = "drawers-under-bottom"
	// NoLock: a front has no place for a lock.
	NoLock finding.Code = "drawers-no-lock"
	// NoCatch: locks of drawers that each have their own have nothing to catch behind.
	NoCatch finding.Code = "drawers-no-catch"
	// NoScrew: no screw of the catalogue is right for a front. Example: fronts of 6 mm on sides of 9 mm.
	NoScrew finding.Code = "drawers-no-screw"
)

// Common practice, no source.
const (
	boxLeast   = 45 * mm  // lowest box
	tight      = 3 * mm   // least room above and below a box
	heavyWidth = 500 * mm // a bottom wider than this is the heavy one
	heavyLoad  = 10 * mass.Kilogram
	bottomRoom = 1 * mm // a bottom is smaller than its grooves, in all
	frontHole  = 6 * mm // so that a front can be set
	handlePlay = 2 * mm // as much as the holes for handles are wider in the box
	lockDia    = 19 * mm
)

// Spec is what a job says of a bank of drawers.
type Spec struct {
	Count   int          `job:"count" min:"1" max:"20" doc:"how many; as many as heights are listed, else 3"`
	Fronts  string       `job:"fronts" one:"equal|arithmetic|geometric" default:"equal" doc:"how the heights of the fronts grow downwards"`
	Step    *L           `job:"step" doc:"arithmetic: each front higher than the one above by this" eg:"1 in"`
	Ratio   schema.Ratio `job:"ratio" default:"1.2" doc:"geometric: each front this many times the one above"`
	Heights []L          `job:"heights" doc:"heights of the fronts from the top instead; drawers that count asks for beyond them share what is left"`
	Slide   string       `job:"slide" doc:"slide instead of the practice's"`
	Handle  string       `job:"handle" doc:"handle instead of the practice's"`
	Lock    bool         `job:"lock" doc:"can be locked"`
	OneOnly bool         `job:"one-at-a-time" doc:"a bar lets only one drawer open at a time"`
}

// Kind is what a job calls it.
func Kind() fitting.Kind {
	return fitting.Kind{Name: "drawers", Doc: "a bank of drawers on slides", Where: fitting.InBay, New: func() fitting.Spec {
		return &Spec{Fronts: "equal", Ratio: schema.NewRatio(6, 5)}
	}}
}

// Locks reports whether the bank is to be locked.
func (s *Spec) Locks() bool { return s.Lock }

// Claim wants no room of others.
func (*Spec) Claim(fitting.Env, fitting.Space) fitting.Claim { return fitting.Claim{} }

// bank is one bank being made.
type bank struct {
	*Spec
	env   fitting.Env
	s     fitting.Space
	shop  joinery.Shop
	r     fitting.Result
	slide stock.Hardware
	long  L // of the slide and the box
	side  L // thickness of box sides
	front L // y of the boxes' front
	count int
	x0, w L // outside of the boxes

	changes  []joinery.Change
	low      []string // drawers whose box has no room, with their heights
	squeezed []string // drawers with less room than the practice's
	noLock   []string // drawers whose front has no place for a lock
}

// say adds a finding about the bank, or about its case where what is owned is at fault; a thing
// that is true of every drawer is said once.
func (b *bank) say(c finding.Code, sev finding.Severity, text, hint string) {
	at := "case/" + b.env.Owner
	if c != joinery.NoBit && c != joinery.NoTool && c != NoBoard {
		at += "/" + b.s.ID
	}
	f := finding.Finding{Code: c, Severity: sev, At: at, Text: text, Hint: hint, Source: "common practice, no source"}
	if !slices.ContainsFunc(b.r.Findings, func(g finding.Finding) bool { return g.Code == c && g.At == at && g.Text == text }) {
		b.r.Findings.Add(f)
	}
}

// told adds what is true of several drawers, once each.
func (b *bank) told() {
	are := func(list []string) string {
		if len(list) == 1 {
			return "drawer " + list[0] + " is"
		}
		return "drawers " + strings.Join(list, ", ") + " are"
	}
	if len(b.low) > 0 {
		b.say(LowFront, finding.Error, are(b.low)+" too low for a box on its slides and left out", "fewer drawers, or other heights")
	}
	if len(b.squeezed) > 0 {
		b.say(Tight, finding.Note, fmt.Sprintf("%s low: the box has %s of room above and below instead of the practice's", are(b.squeezed), b.text(tight)), "a higher front, or leave it so: ball-bearing slides need no room to lift out")
	}
	if b.Lock && !b.OneOnly {
		b.say(NoCatch, finding.Warning, "the cam of a drawer's lock catches behind a rail over the drawer, and this bank has none: the drawers are not counted as locked", "one-at-a-time: yes, whose bar locks the whole bank, or doors with a lock")
	}
	if len(b.noLock) > 0 {
		b.say(NoLock, finding.Error, are(b.noLock)+" too low for a lock clear of the handle", "higher fronts, or another handle")
	}
	b.r.Findings = append(b.r.Findings, joinery.Tell("case/"+b.env.Owner+"/"+b.s.ID, b.changes)...)
}

func (b *bank) text(l L) string {
	if b.env.Practice.InInches() {
		return l.In(length.Inches)
	}
	return l.In(length.Millimetres)
}

// usual is how many drawers a bank has when nothing says.
const usual = 3

// heights gives the fronts' heights from the top, and what to say of them where those that are stated do not add.
func (c *Spec) heights(total, gap, step L, text func(L) string) (list []L, odd string) {
	n := cmp.Or(c.Count, len(c.Heights), usual)
	n = max(n, len(c.Heights))
	h := total - gap*L(n-1)
	switch {
	case len(c.Heights) > 0:
		out := append([]L(nil), c.Heights...)
		sum := L(0)
		for _, x := range out {
			sum += x
		}
		if more := n - len(out); more > 0 {
			if h-sum < 40*mm*L(more) {
				return Equal(h, n), fmt.Sprintf("the heights of %d fronts leave %s of %s for %s: all %d are made equal", len(out), text(h-sum), text(h), map[bool]string{true: "one more", false: fmt.Sprintf("%d more", more)}[more == 1], n)
			}
			return append(out, Equal(h-sum, more)...), ""
		}
		if h-sum+out[n-1] < 40*mm {
			return Equal(h, n), fmt.Sprintf("the heights of the fronts add to %s, and there is %s for them: all %d are made equal", text(sum), text(h), n)
		}
		if (h - sum).Abs() > 2*mm {
			odd = fmt.Sprintf("the heights of the fronts add to %s, and there is %s for them: the lowest is made %s", text(sum), text(h), text(h-sum+out[n-1]))
		}
		return rest(out, h, 1), odd
	case c.Fronts == "arithmetic":
		d := step * 10
		if c.Step != nil {
			d = *c.Step
		}
		return Round(Arithmetic(h, n, d), h, step), ""
	case c.Fronts == "geometric":
		num, den := c.Ratio.Num(), c.Ratio.Den()
		if num <= 0 {
			num, den = 6, 5
		}
		return Round(Geometric(h, n, num, den), h, step), ""
	}
	return Equal(h, n), ""
}

// Build makes the bank.
func (c *Spec) Build(env fitting.Env, s fitting.Space) fitting.Result {
	p := env.Practice
	b := &bank{Spec: c, env: env, s: s, shop: joinery.Shop{Practice: p, Catalogue: env.Catalogue, Owner: env.Owner}}
	id := cmp.Or(c.Slide, p.Slide)
	var ok bool
	if b.slide, ok = env.Catalogue.Item(id); !ok || b.slide.Kind != "slide" {
		b.say(NoSlide, finding.Error, fmt.Sprintf("the slide %q is not known: no drawers are made", id), "name a slide of the catalogue")
		return b.r
	}
	side, ok := env.Catalogue.Board(p.BoxSide)
	if !ok {
		b.say(NoBoard, finding.Error, fmt.Sprintf("the drawers are to be of board %q, which is not known: none are made", p.BoxSide), "name a board of the catalogue")
		return b.r
	}
	b.side = side.Thickness
	open := len(s.Doors) == 0 && !s.FrontArea.Empty()
	b.front = -p.DoorAir
	if !open {
		b.front = s.Setback(s.Box.Min.Z, s.Box.Max.Z) + 2*mm
	}
	b.long, ok = joinery.SlideLength(b.slide, s.Box.Max.Y-max(b.front, 0))
	if !ok {
		b.say(NoSlide, finding.Error, fmt.Sprintf("no slide of %q is short enough for %s of depth", id, b.text(s.Depth())), "choose another slide, or a deeper case")
		return b.r
	}
	passL, passR := s.PassLeft, s.PassRight
	if open {
		passL, passR = 0, 0
	}
	opening := s.Width() - passL - passR
	b.w = joinery.BoxOutside(b.slide, opening, b.side)
	b.x0 = s.Box.Min.X + passL + (opening-b.w)/2
	if b.w < 2*b.side+60*mm {
		b.say(Narrow, finding.Error, fmt.Sprintf("an opening of %s is too narrow for drawers", b.text(opening)), "make the bay wider")
		return b.r
	}
	if b.w > 2*b.long {
		b.say(Wide, finding.Note, fmt.Sprintf("drawers %s wide on slides of %s rack; up to %s is usual", b.text(b.w), b.text(b.long), b.text(b.long*3/2)), "longer or heavier slides, or two banks")
	}
	lo, hi, gap := s.Box.Min.Z, s.Box.Max.Z, L(0)
	if open {
		lo, hi, gap = s.FrontArea.Min.Z, s.FrontArea.Max.Z, p.FrontGap
	}
	step := length.MM
	if p.Unit == "in" {
		step = length.Inch / 16
	}
	list, odd := c.heights(hi-lo, gap, step, b.text)
	if odd != "" {
		b.say(Fronts, finding.Warning, odd, fmt.Sprintf("change the heights, or write count: %d for one more drawer in what is left", len(c.Heights)+1))
	}
	z := hi
	b.count = len(list)
	var ids []string
	for i, h := range list {
		f := geom.B(s.FrontArea.Min.X, s.FrontArea.Min.Y, z-h, s.FrontArea.Max.X, s.FrontArea.Max.Y, z)
		n := len(list) - i // counted from the lowest up
		if h < 30*mm || !b.drawer(n, f, open, &ids) {
			b.low = append(b.low, fmt.Sprintf("%d (%s)", n, b.text(h)))
		}
		z -= h + gap
	}
	if c.OneOnly && len(ids) > 1 {
		b.r.Hardware = append(b.r.Hardware, part.Item{ID: "lock-one-drawer", Kind: "lock", Count: 1, For: "one drawer at a time"})
	} else if c.Lock && len(ids) > 0 {
		b.r.Hardware = append(b.r.Hardware, part.Item{ID: cmp.Or(p.Lock, "lock"), Kind: "lock", Count: len(ids), For: "drawers"})
	}
	b.told()
	return b.r
}

// drawer makes one; false when its box has no room.
func (b *bank) drawer(n int, f geom.Box, open bool, ids *[]string) bool {
	p, s := b.env.Practice, b.s
	under := b.slide.SlideKind == "under"
	low, high := max(f.Min.Z, s.Box.Min.Z), min(f.Max.Z, s.Box.Max.Z)
	room := p.BoxUnder
	if under {
		room = max(room, b.slide.Height+mm)
	}
	z0, z1 := low+room, high-max(p.BoxOver, 3*mm)
	if least := max(boxLeast, b.slide.Height+2*mm); !under && z1-z0 < least && high-low-2*tight >= least {
		z0, z1 = low+tight, high-tight
		b.squeezed = append(b.squeezed, fmt.Sprint(n))
	}
	if z1-z0 < max(boxLeast, b.slide.Height+2*mm) && !(under && z1-z0 >= boxLeast) {
		return false
	}
	id := fmt.Sprintf("%s-drawer-%d", s.ID, n)
	motion := b.env.Owner + "/" + id
	box := geom.B(b.x0, b.front, z0, b.x0+b.w, b.front+b.long, z1)
	from := len(b.r.Parts)
	inside := b.box(id, n, box, under)
	if open {
		b.frontBoard(id, n, f, box, motion)
	}
	var parts []string
	body := box
	for i := from; i < len(b.r.Parts); i++ {
		q := &b.r.Parts[i]
		q.Moves = motion
		parts = append(parts, q.Local)
		body = body.Or(q.Box())
	}
	// Slides: screws in the walls and in the box.
	wall := min(s.Walls[geom.Left].Thickness, s.Walls[geom.Right].Thickness)
	screw := b.slideScrew(wall)
	short := screw
	if !under {
		short = b.slideScrew(b.side)
	}
	tool, pilot, ok := b.shop.Pilot(cmp.Or(screw.Pilot, 3*mm))
	if !ok {
		b.say(joinery.NoBit, finding.Warning, "no "+tool+" for slides is owned", "add it to the practice's bits")
	}
	h := z1 - z0
	zs := z0 + min(h/2, 45*mm)
	if under {
		zs = z0 - b.slide.Height/2
	}
	at := joinery.SlideScrews(b.long, b.slide.ScrewsEach)
	y0 := max(b.front, 0) // where both members of a slide begin when it is shut
	for _, y := range at {
		for _, w := range []geom.Dir{geom.Left, geom.Right} {
			x := s.Box.Min.X
			if w == geom.Right {
				x = s.Box.Max.X
			}
			if !open && (w == geom.Left && s.PassLeft > 0 || w == geom.Right && s.PassRight > 0) {
				continue // in the packing, from its own face
			}
			b.r.Bores = append(b.r.Bores, fitting.Bore{Wall: w, Kind: part.Hole, At: geom.V(x, y0+y, zs), Dia: pilot, Depth: 12 * mm, Tool: tool, For: "slide"})
		}
	}
	if !under {
		for i := from; i < len(b.r.Parts); i++ {
			q := &b.r.Parts[i]
			if q.Role != part.BoxSide {
				continue
			}
			d := geom.Left
			if q.Box().Min.X > box.Min.X+b.w/2 {
				d = geom.Right
			}
			deep := joinery.Blind(10*mm, b.side, 2*mm)
			if deep == 0 {
				b.r.Findings.Add(b.shop.Thin("slide", b.side))
				break
			}
			for _, y := range at {
				q.Bore(part.Hole, q.Facing(d), geom.V(0, y0+y, zs), pilot, deep, tool, "slide")
			}
		}
	}
	sw := body
	travel := joinery.Travel(b.slide, b.long)
	sw.Min.Y -= travel
	m := part.Motion{ID: motion, Owner: b.env.Owner, Kind: part.Slide, Parts: parts, Closed: body, Dir: geom.Front, Travel: travel, Swept: sw, Hardware: b.slide.ID}
	if b.slide.Rating != nil {
		m.Rating = *b.slide.Rating
	}
	if !open {
		m.Needs = s.Needs()
	}
	b.r.Motions = append(b.r.Motions, m)
	*ids = append(*ids, motion)
	bay := s.Bay(b.env, "drawers", fmt.Sprintf("drawer-%d", n), inside)
	bay.Floor, bay.Moves, bay.Most = id+"-bottom", motion, m.Rating
	bay.Locked = bay.Locked || b.Lock && b.OneOnly
	bay.Load /= stock.Mass(max(b.count, 1))
	b.r.Bays = append(b.r.Bays, bay)
	b.r.Spans = append(b.r.Spans, b.bottomSpan(id, bay.ID))
	b.r.Hardware = append(b.r.Hardware,
		part.Item{ID: b.slide.ID, Kind: "slide", Count: 1, Length: b.long, For: "drawers"},
		part.Item{ID: cmp.Or(screw.ID, "slide-screw"), Kind: "screw", Count: 2 * len(at), Length: screw.Length, For: "slides"})
	if !under { // else the box hooks on; its clips come with their screws
		b.r.Hardware = append(b.r.Hardware, part.Item{ID: cmp.Or(short.ID, "slide-screw"), Kind: "screw", Count: 2 * len(at), Length: short.Length, For: part.SlidesOnBoxes})
	}
	return true
}

// slideScrew gives the screw that fixes a slide to a board, and says so where its point comes out.
func (b *bank) slideScrew(board L) stock.Hardware {
	h, ok := b.shop.SlideScrew(board)
	if !ok {
		text, hint := b.shop.SlideScrewLong(h, board)
		b.say(joinery.NoScrew, finding.Warning, text, hint)
	}
	return h
}

// bottomSpan gives the span of a drawer's bottom across the drawer: in its grooves, or on the
// screws under the sides. Front and back hold it along its other edges.
func (b *bank) bottomSpan(id, bay string) part.Span {
	sp := part.Span{Part: id + "-bottom", Along: geom.Right, Bay: bay, Use: b.s.Use, BackHeld: true}
	box := map[string]geom.Box{}
	for _, p := range b.r.Parts {
		box[p.Local] = p.Box()
	}
	bottom, left, right := box[id+"-bottom"], box[id+"-side-l"], box[id+"-side-r"]
	for _, x := range [][2]L{{bottom.Min.X, left.Max.X}, {right.Min.X, bottom.Max.X}} {
		sp.Supports = append(sp.Supports, part.Support{At: (x[0]+x[1])/2 - bottom.Min.X, Width: x[1] - x[0]})
	}
	return sp
}

// frontBoard makes the applied front and its screws.
func (b *bank) frontBoard(id string, n int, f, box geom.Box, motion string) {
	p := b.env.Practice
	board := cmp.Or(p.FrontBoard, p.Case)
	q := fitting.Standing(id+"-front", part.DrawerFront, fmt.Sprintf("front of drawer %d", n), board, f, geom.Right, b.s.Grain)
	if q.Grain == part.Along {
		q.Group = b.env.Owner + "/fronts"
	}
	if e, ok := b.env.Catalogue.Edging(p.Edging); ok {
		for f := part.Start; f <= part.Far; f++ {
			if d := q.Pose.Dir(f.Normal()); d == geom.Left || d == geom.Right || p.BandAll {
				fitting.Band(&q, f, e)
			}
		}
	}
	screw, fits := b.shop.Screw("front", b.side+f.Max.Y-f.Min.Y-4*mm)
	if !fits {
		b.say(NoScrew, finding.Warning, fmt.Sprintf("no screw of the catalogue goes through the %s of a box into a front of %s and stays in it: none is counted", b.text(b.side), b.text(f.Max.Y-f.Min.Y)), "take a thicker front, or list a screw of use: front under hardware:")
	}
	tool, dia, _ := b.shop.Pilot(frontHole)
	ptool, pilot, _ := b.shop.Pilot(cmp.Or(screw.Pilot, 3*mm))
	bf := b.boxFront()
	c := bf.Box().And(f.Shift(geom.V(0, b.front-f.Max.Y, 0)))
	c.Max.Y = c.Min.Y
	inset := min(30*mm, (box.Max.Z-box.Min.Z)/3)
	mid := (box.Min.X + box.Max.X) / 2
	handle := cmp.Or(b.Handle, p.Handle)
	hw, handled := b.env.Catalogue.Item(handle)
	var spots []L // of the handle's screws, from the middle
	if handled {
		spots = []L{0}
		if hw.Length > 0 && f.Max.X-f.Min.X > hw.Length+60*mm {
			spots = []L{-hw.Length / 2, hw.Length / 2}
		}
	}
	ht, hd, _ := b.shop.Pilot(cmp.Or(hw.Clearance, 5*mm))
	wt, wide, _ := b.shop.Pilot(hd + handlePlay)
	lo, hi, hz := b.handleUp(f, bf.Box(), box, id, hd)
	floor := b.floor(id, bf.Box().Min.Z)
	zs := []L{max(box.Min.Z+max(inset, p.BoxGrooveUp+20*mm), floor+dia/2+part.Web), box.Max.Z - inset}
	if zs[1]-zs[0] < 15*mm {
		zs = []L{(max(box.Min.Z+p.BoxGrooveUp+10*mm, floor) + box.Max.Z) / 2}
	}
	xs := b.frontScrews(box, (f.Min.X+f.Max.X)/2, spots, func(x L) bool { // off the pockets of the box
		return !slices.ContainsFunc(zs, func(z L) bool {
			o := part.Op{Kind: part.Hole, Face: bf.Facing(geom.Back), Dia: dia, Depth: b.side}
			o.X, o.Y = bf.OnFace(o.Face, geom.V(x, 0, z))
			return !bf.Clear(o, part.Web)
		})
	})
	screws := 0
	for _, x := range xs {
		for _, z := range zs {
			at := geom.V(x, 0, z)
			if nearHandle(x, (f.Min.X+f.Max.X)/2, spots) && (z-hz).Abs() < handleClear {
				at.Z = box.Max.Z - 8*mm // clear of a handle's screws
			}
			screws++
			bf.Bore(part.Hole, bf.Facing(geom.Back), at, dia, b.side, tool, "front screw")
			if deep := joinery.Blind(12*mm, q.Size[2], 4*mm); deep > 0 {
				q.Bore(part.Hole, q.Facing(geom.Back), at, pilot, deep, ptool, "front screw")
			} else {
				b.r.Findings.Add(b.shop.Thin("front screw", q.Size[2]))
			}
		}
	}
	b.r.Joints = append(b.r.Joints, part.Joint{Kind: part.Undone, A: q.Local, B: bf.Local, Contact: c, Fastener: cmp.Or(screw.ID, "front-screw"), Count: screws})
	if fits {
		b.r.Hardware = append(b.r.Hardware, part.Item{ID: screw.ID, Kind: "screw", Count: screws, Length: screw.Length, For: "fronts"})
	}
	if handled {
		centre := geom.V((f.Min.X+f.Max.X)/2, 0, hz)
		thick, washers := q.Size[2], 0
		washer, high, _ := b.shop.HandleWasher()
		for _, dx := range spots {
			at := centre.Add(geom.V(dx, 0, 0))
			q.Bore(part.Hole, q.Facing(geom.Front), at, hd, q.Size[2], ht, "handle")
			if (at.X-mid).Abs() < bf.Size[0]/2-10*mm && lo <= hz && hz <= hi {
				bf.Bore(part.Hole, bf.Facing(geom.Back), at, wide, b.side, wt, "handle")
				thick = q.Size[2] + b.side + high
				washers++
			}
		}
		if washers > 0 {
			b.r.Hardware = append(b.r.Hardware, part.Item{ID: washer, Kind: "washer", Count: washers, For: part.ForDrawerHandles})
		}
		b.r.Hardware = append(b.r.Hardware, part.Item{ID: handle, Kind: "handle", Count: 1, For: "drawers"})
		b.r.Hardware = append(b.r.Hardware, b.shop.HandleScrews(len(spots), thick, part.ForDrawerHandles)...)
	}
	if b.Lock && !b.OneOnly && !b.lock(id, &q, bf, mid, box) {
		b.noLock = append(b.noLock, fmt.Sprint(n))
	}
	b.r.Parts = append(b.r.Parts, q)
	b.r.Fronts = append(b.r.Fronts, part.Front{Part: q.Local, Kind: part.Drawer, Opening: geom.B(b.s.Box.Min.X, 0, f.Min.Z, b.s.Box.Max.X, 0, f.Max.Z), Motion: motion, Handle: handle, Lock: b.Lock})
}

// handleHead is left from the edge of a handle's hole to what is beside its screw's head; common
// practice, no source.
const handleHead = 6 * mm

// floor is the upper face of a box's bottom, or a height where it is above that.
func (b *bank) floor(id string, up L) L {
	for _, q := range b.r.Parts {
		if q.Local == id+"-bottom" {
			up = max(up, q.Box().Max.Z+joinery.GrooveRoom)
		}
	}
	return up
}

// handleUp gives how high a handle's screws go through a front f: its middle, or the nearest height
// at which they pass the box front clear of the box's bottom, or pass over the box or under it. Lo and
// hi are the heights between which they pass the box front.
func (b *bank) handleUp(f, wood, box geom.Box, id string, dia L) (lo, hi, z L) {
	floor := b.floor(id, wood.Min.Z)
	lo, hi = floor+dia/2+handleHead, wood.Max.Z-dia/2-handleHead
	middle := (f.Min.Z + f.Max.Z) / 2
	over, under := wood.Max.Z+dia/2+handleHead, min(box.Min.Z, wood.Min.Z)-dia/2-handleHead
	if lo <= middle && middle <= hi || middle >= over || middle <= under {
		return lo, hi, middle
	}
	z = middle
	best := L(-1)
	for _, c := range []struct {
		z  L
		ok bool
	}{{min(max(middle, lo), hi), lo <= hi}, {over, over <= f.Max.Z-2*handleHead}, {under, under >= f.Min.Z+2*handleHead}} {
		if d := (c.z - middle).Abs(); c.ok && (best < 0 || d < best) {
			best, z = d, c.z
		}
	}
	return lo, hi, z
}

// handleClear is left between the centres of a front's screws and of its handle's; common
// practice, no source.
const handleClear = 10 * mm

// frontScrews gives where along a box its front is screwed on, clear of a handle's screws, which
// are given from the front's middle; the third points of a narrow box.
func (b *bank) frontScrews(box geom.Box, middle L, handle []L, free func(x L) bool) []L {
	lo, hi := box.Min.X+b.side, box.Max.X-b.side
	past := part.PocketRun(b.side) + frontHole/2 + part.Web
	for _, in := range []L{40 * mm, 20 * mm, 30 * mm, 55 * mm, past, 70 * mm, past + 20*mm} {
		if a, c := lo+in, hi-in; c-a >= 40*mm && !nearHandle(a, middle, handle) && !nearHandle(c, middle, handle) && free(a) && free(c) {
			return []L{a, c}
		}
	}
	third := (box.Max.X - box.Min.X) / 6
	mid := (box.Min.X + box.Max.X) / 2
	return []L{mid - third, mid + third}
}

func nearHandle(x, middle L, handle []L) bool {
	return slices.ContainsFunc(handle, func(d L) bool { return (x - middle - d).Abs() < handleClear })
}

// lock bores for a cam lock through a front and the box behind it, under the box's upper edge;
// false when a handle is there.
func (b *bank) lock(id string, q, bf *part.Part, x L, box geom.Box) bool {
	hw, _ := b.env.Catalogue.Item(cmp.Or(b.env.Practice.Lock, "lock"))
	dia := cmp.Or(hw.Dia, lockDia)
	tool, ok := b.shop.Bit(dia)
	if !ok {
		b.say(joinery.NoBit, finding.Warning, "no "+tool+" for locks is owned", "add it to the practice's bits or hole saws")
	}
	at := geom.V(x, 0, box.Max.Z-dia/2-6*mm)
	if at.Z-dia/2 < max(box.Min.Z+b.env.Practice.BoxGrooveUp+8*mm, b.floor(id, box.Min.Z)+part.Web) {
		return false
	}
	for _, p := range []*part.Part{q, bf} {
		for _, o := range p.Ops {
			c := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size))
			if r := (dia+o.Dia)/2 + 3*mm; o.Kind == part.Hole && (c.X-at.X).Abs() < r && (c.Z-at.Z).Abs() < r {
				return false
			}
		}
	}
	q.Bore(part.Hole, q.Facing(geom.Front), at, dia, q.Size[2], tool, "lock")
	bf.Bore(part.Hole, bf.Facing(geom.Front), at, dia, b.side, tool, "lock")
	return true
}

// boxFront gives the front of the box that was made last.
func (b *bank) boxFront() *part.Part {
	for i := len(b.r.Parts) - 1; i >= 0; i-- {
		if b.r.Parts[i].Role == part.BoxFront {
			return &b.r.Parts[i]
		}
	}
	panic("drawers: a box without a front")
}
