package carcass

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
	"stowright/internal/order"
	"stowright/internal/part"
)

const mm = length.MM

// Codes of the findings of this package.
const (
	// CaseSize: the sizes leave no room for a case. Example: "a case of 300 mm is too narrow for two sides of 200 mm".
	CaseSize finding.Code = "case-size"
	// NoBoard: a board that is named is not in the catalogue.
	NoBoard finding.Code = "no-board"
	// NoHardware: hardware that is named is not in the catalogue.
	NoHardware finding.Code = "no-hardware"
	// BaysTooLarge: the bays ask for more than there is.
	BaysTooLarge finding.Code = "bays-too-large"
	// BaysLeftOver: all bays have given sizes and do not fill the case.
	BaysLeftOver finding.Code = "bays-left-over"
	// BayFront: the front that a bay is stated by is no larger than the boards that it covers.
	// Example: "a front of 10 mm only covers the boards beside it".
	BayFront finding.Code = "bay-front"
	// FootHeight: a foot does not reach the height that it stands at.
	FootHeight finding.Code = "foot-height"
	// FootTurn: no hole can be bored over a foot to turn it from above.
	// Example: slots for dividers close together over it.
	FootTurn finding.Code = "foot-turn"
	// RailCut: an opening in the back takes the end of a rail, or all of its height.
	// Example: an outlet behind the upper rail, close to a side.
	RailCut finding.Code = "rail-cut"
	// NotchMoves: a drawer or tray reaches into what a case is notched round.
	// Example: a drawer close over the floor, before a pipe 60 mm high and 45 mm out.
	NotchMoves finding.Code = "notch-moves"
	// NotchBack: an applied back becomes a captured one because what stands out from the wall takes
	// the place behind it.
	// Example: a skirting that reaches above a case's bottom.
	NotchBack finding.Code = "notch-back"
	// CleatRoom: a cleat cannot be lifted off under the ceiling.
	CleatRoom finding.Code = "cleat-room"
	// RackRoom: racks do not fit on their door.
	RackRoom finding.Code = "rack-room"
	// RackRaised: a rack is not as low as asked for, because of the rack under it.
	// Example: "the rack asked for 100 mm up is made 240 mm up".
	RackRaised finding.Code = "rack-raised"
	// HingeOverlay: no hinge of the catalogue gives the overlay.
	HingeOverlay finding.Code = "hinge-overlay"
	// HingeLoad: a door is too heavy or too wide for cup hinges.
	HingeLoad finding.Code = "hinge-load"
	// HingePlace: no place for a hinge is clear of shelves and holes, or a door is too small for two and is left out.
	HingePlace finding.Code = "hinge-place"
	// LockPlace: no place for a lock is clear of the handle, or its cam finds nothing to turn behind.
	// Example: a pair of doors with a partition 2 in beside the place where they meet.
	LockPlace finding.Code = "lock-place"
	// LockTop: a locked case gets a whole top, where nothing lies on it.
	// Example: doors with lock: yes in a case that stands free, in a practice whose tops are stretchers.
	LockTop finding.Code = "lock-top"
	// FootInsert: the insert of a foot's bolt is longer than the block that takes it is thick.
	// Example: an insert of 20 mm in a block of 17.7 mm.
	FootInsert finding.Code = "foot-insert"
	// SlotTop: a case whose dividers go up to its top gets a whole one, whatever it says.
	// Example: top: stretchers of a case with dividers in one bay.
	SlotTop finding.Code = "slot-top"
	// HandlePlace: no place for a handle is clear of what hangs on the inside of the door.
	// Example: a rack as wide and as high as its door.
	HandlePlace finding.Code = "handle-place"
	// PinsLeft: shelf holes that are not bored because a hinge plate or a fastener is there.
	// Example: "4 shelf holes are left out where hinge plates are, in left side, so high above the carcass's lower edge: 96 mm, 128 mm".
	PinsLeft finding.Code = "pins-left"
)

// Common practice, no source: sizes used where neither job nor practice says otherwise.
const (
	toeHeight   = 100 * mm
	toeRecess   = 75 * mm
	sideClear   = 10 * mm // lower edge of sides that stand on feet inside a toe recess
	blockSize   = 75 * mm
	wideFeet    = 750 * mm // six feet beyond this width
	panelRoom   = mm / 2   // a captured panel is smaller than its grooves, each end
	panelAir    = mm / 2   // and has so much before and behind it where it slides between boards
	letInPlay   = mm / 2   // about a back that is let in: between the sides before a cleat, or between the lips of their rabbets
	midRailFrom = 1524 * mm
	screwedBack = 12 * mm // a back this thick needs no rails
	cleatWidth  = 100 * mm
	cleatLift   = 3 * mm
	leastJoint  = 16 * mm // shorter contacts get no fastener
)

// build is one case being made.
type build struct {
	env  fitting.Env
	shop joinery.Shop
	id   string
	spec Spec
	site Site
	a    part.Assembly
	f    finding.List

	board   string // carcass board
	joint   string
	w, h, d L // carcass: width, top above z=0, depth of its sides
	t       L // thickness of the carcass board
	tf, air L // fronts
	zs, zb  L // lower edge of the sides, of the bottom
	yb      L // front of the back: rear of the clear space
	dd      L // depth of dados
	top     []string
	backs   L // thickness of the back panel, 0 for none
	wall    bool
	held    bool // shelves are fixed along the back
	cams    []cam
	pins    []pin
	unbored []lost
	changes []joinery.Change
	least   int // screws in the joints being made, 0 for the practice's

	off, ledgerHigh L // of ledgers: their thickness, 0 for none, and height
	ledgerOf        part.Material
}

// pin is a bore that waits until the hinges have their places.
type pin struct {
	part string
	op   part.Op
}

// lost is a shelf hole that is not bored, what is there instead, and its height.
type lost struct {
	part, why string
	z         L
}

// pinsLeft says which shelf holes are not bored, so that nobody looks for them.
func (b *build) pinsLeft() {
	for _, why := range []string{"hinge plates", "fasteners"} {
		n, boards := 0, []string{}
		var zs []L
		for _, x := range b.unbored {
			if x.why != why {
				continue
			}
			n++
			if p := b.part(x.part); !slices.Contains(boards, p.Name) {
				boards = append(boards, p.Name)
			}
			if !slices.Contains(zs, x.z) {
				zs = append(zs, x.z)
			}
		}
		if n == 0 {
			continue
		}
		holes := fmt.Sprintf("%d shelf holes are", n)
		if n == 1 {
			holes = "1 shelf hole is"
		}
		order.Up(zs)
		heights := make([]string, len(zs))
		for i, z := range zs {
			heights[i] = b.text(z - b.zb)
		}
		b.say(PinsLeft, finding.Note, "", fmt.Sprintf("%s left out where %s are, in %s, so high above the carcass's lower edge: %s", holes, why, strings.Join(boards, " and "), strings.Join(heights, ", ")), "shelves go on the holes above and below")
	}
}

// Build makes one case in its own frame. Local names are unique in the case; ids of bays and
// motions start with the case's id. Nothing fails: what cannot be built is a finding and the
// nearest sensible thing is built.
func Build(env fitting.Env, id string, spec Spec, site Site) (part.Assembly, finding.List) {
	env.Owner = id
	b := &build{env: env, id: id, spec: spec, site: site, shop: joinery.Shop{Practice: env.Practice, Catalogue: env.Catalogue, Owner: id}}
	if b.measure() {
		b.env.Joint = b.joint
		s := b.rear()
		b.box(s)
		b.inside()
		b.camNotches()
		b.seamed(s)
		b.hold(s)
		b.stands()
		b.spans()
		b.place(s)
		b.finish()
	}
	b.f.Sort()
	return b.a, b.f
}

func (b *build) at(path string) string {
	if path == "" {
		return "case/" + b.id
	}
	return "case/" + b.id + "/" + path
}

func (b *build) say(code finding.Code, sev finding.Severity, path, text, hint string) {
	b.once(finding.Finding{Code: code, Severity: sev, At: b.at(path), Text: text, Hint: hint, Source: "common practice, no source"})
}

// text prints a length for a finding in the practice's unit.
func (b *build) text(l L) string {
	if b.env.Practice.InInches() {
		return l.In(length.Inches)
	}
	return l.In(length.Millimetres)
}

// thick gives the measured thickness of a board.
func (b *build) thick(id, what string) L {
	if x, ok := b.env.Catalogue.Board(id); ok {
		return x.Thickness
	}
	b.say(NoBoard, finding.Error, "", fmt.Sprintf("the %s is to be of board %q, which is not known", what, id), "name a board of the job or the catalogue")
	return 18 * mm
}

func or(p *L, otherwise L) L {
	if p != nil {
		return *p
	}
	return otherwise
}

// CountsFronts reports whether the depth of a case counts fronts: where the job does not say, it
// does when the case has any.
func (s Spec) CountsFronts() bool {
	if s.Fronts != nil {
		return *s.Fronts
	}
	return hasFronts(s.Inside)
}

// hasFronts reports whether anything in the tree has a front at the front plane.
func hasFronts(y Bay) bool {
	return y.Doors != nil || y.Fitting.Kind == "drawers" || slices.ContainsFunc(y.Across, hasFronts) || slices.ContainsFunc(y.Up, hasFronts)
}

// measure settles the sizes of the box; false when there can be no case.
func (b *build) measure() bool {
	p := b.env.Practice
	b.board = cmp.Or(b.spec.Board, p.Case)
	b.t = b.thick(b.board, "carcass")
	b.joint = cmp.Or(b.spec.Joint, p.Joint, "wood-screw")
	b.wall = b.spec.Level == "wall"
	b.tf = b.thick(cmp.Or(b.spec.FrontBoard, p.FrontBoard, b.board), "fronts")
	b.air = p.DoorAir
	if b.spec.Width == nil || b.spec.Height == nil || b.spec.Depth == nil {
		b.say(CaseSize, finding.Error, "", "the case has no width, height or depth", "state all three, or a family that has them")
		return false
	}
	b.w, b.h, b.d = *b.spec.Width, *b.spec.Height, *b.spec.Depth
	if b.spec.CountsFronts() {
		b.d -= b.tf + b.air
	}
	b.ledgerStock()
	if !b.wall {
		b.h -= b.site.Base
		switch b.spec.Stands.Kind {
		case "toe":
			b.zb = or(b.spec.Stands.Height, toeHeight)
		case "toe-feet":
			b.zb = or(b.spec.Stands.Height, toeHeight)
			b.zs = sideClear
		case "feet", "castors":
			usual := L(toeHeight)
			if hw, ok := b.env.Catalogue.Item(cmp.Or(b.spec.Stands.Foot, b.env.Practice.Castor)); ok && b.spec.Stands.Kind == "castors" {
				usual = hw.Height // a castor is as high as it is
			}
			b.zb = or(b.spec.Stands.Height, usual)
			b.zs = b.zb
		}
	}
	if b.w < 2*b.t+60*mm || b.h-b.zb < 2*b.t+60*mm || b.d < 100*mm {
		b.say(CaseSize, finding.Error, "", fmt.Sprintf("a carcass %s wide, %s high and %s deep leaves no room inside", b.text(b.w), b.text(b.h-b.zb), b.text(b.d)), "make it larger")
		return false
	}
	if b.joint == "dado" {
		b.dd = b.shop.Depth("dado", b.t)
		if b.dd == 0 {
			b.say(joinery.NoTool, finding.Warning, "", "no tool of the shop makes a dado: the carcass is joined otherwise", "state a joint that the shop can make")
			b.joint = cmp.Or(p.JointElse, "wood-screw")
			if b.joint == "dado" {
				b.joint = "wood-screw"
			}
		}
	}
	return true
}

func (b *build) exposed(side string) bool {
	return slices.Contains(b.spec.Exposed, side) && !slices.Contains(b.spec.EndPanels, side)
}

// put adds a part and gives its local name.
func (b *build) put(p part.Part) string {
	p.Owner = b.id
	b.a.Parts = append(b.a.Parts, p)
	return p.Local
}

// part finds a part by its local name. The pointer is good until the next put.
func (b *build) part(local string) *part.Part {
	for i := range b.a.Parts {
		if b.a.Parts[i].Local == local {
			return &b.a.Parts[i]
		}
	}
	return nil
}

// band puts the practice's edging on the edges of a part that look in these directions.
func (b *build) band(p *part.Part, edges ...geom.Dir) {
	id := b.env.Practice.Edging
	e, ok := b.env.Catalogue.Edging(id)
	if id == "" || !ok {
		return
	}
	for _, d := range edges {
		fitting.Band(p, p.Facing(d), e)
	}
}

// stand makes a board that stands, its grain as the case says.
func (b *build) stand(local string, role part.Role, name, board string, box geom.Box, level geom.Dir) part.Part {
	return fitting.Standing(local, role, name, board, box, level, b.spec.Grain)
}

// join joins board B's edge to board A's face; b must be at its final place. Where a dado is
// wanted, the contact reaches dd into A.
func (b *build) join(a, c string, to geom.Dir, kind string, pockets []geom.Dir, heads bool, shift L) {
	pa, pb := b.part(a), b.part(c)
	if pa == nil || pb == nil {
		return
	}
	contact := pa.Box().And(pb.Box())
	ax := to.Axis()
	// Boards that only touch have a contact with no thickness; And gives it exactly.
	for i := range 3 {
		if contact.Max.At(i) < contact.Min.At(i) || i != ax && contact.Max.At(i) == contact.Min.At(i) {
			return
		}
	}
	// A board set back for a door rack may only graze a stretcher: no fastener goes there.
	if run := 3 - ax - pb.Pose.W().Axis(); contact.Size().At(run) < leastJoint {
		return
	}
	r := b.shop.Make(kind, joinery.Between{
		A: pa, B: pb, To: to, Contact: contact, Pockets: pockets, Heads: heads && !b.faced(pa, to, contact), Shift: shift, Least: b.least,
		Shut: pb.Role == part.ToeBoard,
		Butt: contact.Max.At(ax) == contact.Min.At(ax),
	})
	b.a.Joints = append(b.a.Joints, r.Joint)
	b.a.Hardware = append(b.a.Hardware, r.Items...)
	if r.Change != nil {
		b.changes = append(b.changes, *r.Change)
	}
	for _, f := range r.Findings {
		if f.Code != joinery.JointElsewhere && f.Code != joinery.JointShows {
			b.once(f)
		}
	}
}

// housed is the most that a board goes into another whose far face it stands at.
const housed = 12 * mm

// faced reports whether a partition or a fixed shelf lies against the far face of a board right behind a contact: no
// driver gets there.
func (b *build) faced(a *part.Part, to geom.Dir, contact geom.Box) bool {
	return fitting.Meets(b.far(a, to), to, contact)
}

// far gives the partitions and fixed shelves that lie against that face of a board.
func (b *build) far(a *part.Part, face geom.Dir) (out []geom.Box) {
	ax := face.Axis()
	at := func(box geom.Box, d geom.Dir) L {
		if d.Sign() > 0 {
			return box.Max.At(ax)
		}
		return box.Min.At(ax)
	}
	for _, q := range b.a.Parts {
		if (q.Role == part.Partition || q.Role == part.FixedShelf) && q.Local != a.Local && (at(q.Box(), face.Not())-at(a.Box(), face)).Abs() <= housed {
			out = append(out, q.Box())
		}
	}
	return out
}

// once adds a finding that says what none has said of the case.
func (b *build) once(f finding.Finding) {
	if !slices.ContainsFunc(b.f, func(g finding.Finding) bool { return g.Code == f.Code && g.At == f.At && g.Text == f.Text }) {
		b.f.Add(f)
	}
}

// headsOf tells whether screw heads may show on a side.
func (b *build) headsOf(side string) bool {
	switch side {
	case "left", "right":
		return !b.exposed(side)
	case "top":
		return b.site.TopUnder || !b.exposed("top")
	}
	return !b.exposed(side)
}

func (b *build) ends(c, kind string, pockets []geom.Dir) {
	b.join("side-l", c, geom.Left, kind, pockets, b.headsOf("left"), 0)
	b.join("side-r", c, geom.Right, kind, pockets, b.headsOf("right"), 0)
}

// item adds hardware.
func (b *build) item(it part.Item) {
	it.Owner = b.id
	if it.Count > 0 {
		b.a.Hardware = append(b.a.Hardware, it)
	}
}

// finish gathers hardware, edging and the owner's extents.
func (b *build) finish() {
	for _, p := range b.pins {
		// A shelf hole gives way to a fastener that comes through the same wood.
		if q := b.part(p.part); free(q, p.op) {
			q.Ops = append(q.Ops, p.op)
		} else {
			b.unbored = append(b.unbored, lost{p.part, "fasteners", q.Pose.Point(p.op.Face.Point(p.op.X, p.op.Y, q.Size)).Z})
		}
	}
	b.pinsLeft()
	b.turnPockets()
	joinery.Settle(b.a.Parts)
	b.railsCut()
	b.f = append(b.f, joinery.Tell(b.at(""), b.changes)...)
	b.large()
	b.a.Hardware = gather(b.a.Hardware)
	o := part.Owner{ID: b.id, Kind: "case", Name: cmp.Or(b.spec.Name, b.id), Hung: b.wall, Moves: b.spec.Loose != "" && b.spec.Loose != "no"}
	o.Carcass = geom.B(0, 0, b.zs, b.w, b.d, b.h)
	o.Box, o.Off, o.Hollow = o.Carcass, b.off, b.root().box
	for _, p := range b.a.Parts {
		if p.Role != part.Ledger { // on the wall, past its sides
			o.Box = o.Box.Or(p.Box())
		}
	}
	if !b.wall {
		o.Box.Min.Z = min(o.Box.Min.Z, 0)
	}
	b.a.Owners = append([]part.Owner{o}, b.a.Owners...)
	if k := b.spec.Loose; k == "rolls" || k == "slides" {
		sw := o.Box
		sw.Min.Y -= o.Box.Max.Y - o.Box.Min.Y
		m := part.Motion{ID: b.id + "/roll", Owner: b.id, Kind: part.Roll, Closed: o.Box, Dir: geom.Front, Travel: o.Box.Max.Y - o.Box.Min.Y, Swept: sw}
		for _, p := range b.a.Parts {
			m.Parts = append(m.Parts, p.Local)
		}
		for _, x := range b.a.Motions {
			m.With = append(m.With, x.ID)
		}
		b.a.Motions = append(b.a.Motions, m)
	}
}

// free reports whether a hole in a broad face meets no other round working, depths counted.
func free(p *part.Part, h part.Op) bool {
	for _, o := range p.Ops {
		if o.Kind != part.Hole && o.Kind != part.Cup || o.Face != part.Upper && o.Face != part.Lower {
			continue
		}
		if o.Face != h.Face && o.Depth+h.Depth <= p.Size[2] {
			continue
		}
		if r := (o.Dia + h.Dia) / 2; (o.X-h.X).Abs() < r && (o.Y-h.Y).Abs() < r {
			return false
		}
	}
	return true
}

// gather adds up hardware of one id, length and use, in the order of first use.
func gather(list []part.Item) []part.Item {
	var out []part.Item
	for _, it := range list {
		i := slices.IndexFunc(out, func(o part.Item) bool {
			return o.ID == it.ID && o.Kind == it.Kind && (o.Length == it.Length) && o.For == it.For && o.Stage == it.Stage
		})
		if i < 0 {
			out = append(out, it)
		} else {
			out[i].Count += it.Count
		}
	}
	return out
}
