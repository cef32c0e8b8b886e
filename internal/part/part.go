// Package part is the middle language: what a case is once nobody needs to know what
// kind of case it was. Carcasses, fittings, counters and bases are turned into parts,
// joints, spans, bays, fronts, motions, fixings and hardware; drawings, cutting, strength,
// cost and shop steps read only these.
//
// A study that needs to know more makes this vocabulary grow, on purpose and rarely.
package part

import (
	"slices"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/mass"
)

type (
	L    = length.Length
	Box  = geom.Box
	Vec  = geom.Vec
	Pose = geom.Pose
)

// Face is one of the six faces of a board in its own frame: u along the grain 0..Size[0],
// v across it 0..Size[1], w through the thickness 0..Size[2].
//
// A place on a face is given by two of those coordinates, never mirrored:
// Upper and Lower by (u, v), Start and End by (v, w), Near and Far by (u, w).
type Face uint8

// The faces.
const (
	Upper Face = iota // w = thickness
	Lower             // w = 0
	Start             // u = 0, an end across the grain
	End               // u = length
	Near              // v = 0, an edge along the grain
	Far               // v = width
)

var faceNames = [...]string{"upper", "lower", "start", "end", "near", "far"}

func (f Face) String() string { return faceNames[f] }

// Grain says which way the face grain of a part may lie on the sheet.
type Grain uint8

// Along: the part's first size runs with the sheet's grain. Free: either way.
const (
	Along Grain = iota
	Across
	Free
)

var grainNames = [...]string{"along", "across", "free"}

func (g Grain) String() string { return grainNames[g] }

// OpKind is a way of working a part after it is sawn to size.
type OpKind uint8

// Kinds of working. Round ones use X, Y as the centre and Dia; straight ones use X, Y as
// the corner nearest the face's origin, L along the face's first coordinate and W along
// its second.
const (
	Hole        OpKind = iota // round, any depth; through when Depth reaches the other face
	Cup                       // flat-bottomed round recess for a hinge
	Pocket                    // slanted screw pocket: X, Y where the screw leaves the END at the edge; see Angle, Towards
	Groove                    // straight recess away from the edges or stopped at them
	Rabbet                    // straight recess along an edge
	Notch                     // a rectangle taken out of a corner or an edge, through
	Cutout                    // a rectangle taken out of the middle, through
	Slot                      // a narrow through or blind opening with round ends
	Bevel                     // an edge sawn at Angle; Face says which edge, Depth how far it eats into the face at most
	Taper                     // an edge sawn along a slant: Depth at one end (Y at u=0, Depth at u=length)
	Countersink               // conical seat, Dia at the surface
)

var opNames = [...]string{"hole", "cup", "pocket", "groove", "rabbet", "notch", "cutout", "slot", "bevel", "taper", "countersink"}

func (k OpKind) String() string { return opNames[k] }

// Op is one working of one face.
type Op struct {
	Kind    OpKind
	Face    Face
	X, Y    L      // on the face; see Face and OpKind
	L, W    L      // straight kinds only
	Dia     L      // round kinds only
	Depth   L      // from the face
	Angle   int    // degrees, pockets and bevels
	Towards Face   // pockets: the end or edge that the screw comes out of. Bevels: the face whose corner is sawn off
	Tool    string // id of the tool in the practice that makes it
	For     string // what it is for: "shelf pin", "hinge cup", "slide", ...
}

// Edge bands of a part, in the order Start, End, Near, Far.
const (
	BandStart = iota
	BandEnd
	BandNear
	BandFar
)

// Band is edging on one edge.
type Band struct {
	Edging    string // stock id, "" for none
	Thickness L      // added by the edging
	Deduct    bool   // the sawn size is less by Thickness
}

// Material says what kind of stock a part is cut from.
type Material uint8

// Board is cut from sheets by the cutting plan; Stick is crosscut (and ripped) from solid
// lumber; Bought comes as it is.
const (
	Board Material = iota
	Stick
	Bought
)

// Role says what a part is for; studies and steps may ask for it, but a part means the
// same wherever it comes from.
type Role string

// Roles.
const (
	Side         Role = "side"
	Bottom       Role = "bottom"
	Top          Role = "top"
	Stretcher    Role = "stretcher"
	BackPanel    Role = "back"
	HangRail     Role = "hang rail"
	Cleat        Role = "cleat"
	WallCleat    Role = "wall cleat"
	Ledger       Role = "ledger"
	Partition    Role = "partition"
	FixedShelf   Role = "fixed shelf"
	Shelf        Role = "shelf"
	Divider      Role = "divider"
	Door         Role = "door"
	DrawerFront  Role = "drawer front"
	FalseFront   Role = "false front"
	BoxSide      Role = "box side"
	BoxFront     Role = "box front"
	BoxBack      Role = "box back"
	BoxBottom    Role = "box bottom"
	TrayBase     Role = "tray base"
	Lip          Role = "lip"
	Spacer       Role = "spacer"
	Rail         Role = "rail"
	RackSide     Role = "rack side"
	RackShelf    Role = "rack shelf"
	ToeBoard     Role = "toe board"
	BaseRail     Role = "base rail"
	BaseRung     Role = "base rung"
	Plate        Role = "plate" // behind the joint of two rails
	Filler       Role = "filler"
	EndPanel     Role = "end panel"
	CounterLayer Role = "counter layer"
	CounterEdge  Role = "counter edge"
	Blocking     Role = "blocking"
	Leg          Role = "leg"
	HookBoard    Role = "hook board"
	Frame        Role = "frame"
	EdgeStrip    Role = "edge strip"
)

// Part is one piece cut from stock (or bought ready), worked and placed.
type Part struct {
	Mark      string // unique in the whole job; see package assemble
	Local     string // name unique in its owner before marks are given: "side-l", "shelf-2"
	Owner     string // id of a case, counter, base, hutch ...
	Role      Role
	Name      string // as a person would call it: "left side"
	Material  Material
	Stock     string // board, stick or hardware id
	Size      [3]L   // finished board without edging that is not deducted: along grain, across, thickness
	Grain     Grain
	Bands     [4]Band
	Ops       []Op
	Pose      Pose   // lays (u,v,w) into the owner's frame; after placing, into the wall's
	Group     string // parts of one group should come from one strip of sheet: grain-matched fronts
	Moves     string // id of the Motion that carries this part, "" for fixed
	Removable bool   // lifts out by hand: adjustable shelves, dividers
	Note      string // what is to be known of it beside its sizes and workings; stands on its card
}

// Box gives the part's extents where it is posed. Size is the finished size, edging included.
func (p Part) Box() Box {
	return p.Pose.Box(geom.B(0, 0, 0, p.Size[0], p.Size[1], p.Size[2]))
}

// Cut gives the size as sawn: Size less the edging that the practice deducts.
func (p Part) Cut() [3]L {
	c := p.Size
	for i, b := range p.Bands {
		if b.Edging != "" && b.Deduct {
			c[i/2] -= b.Thickness
		}
	}
	return c
}

// JointKind is a way to hold two boards together.
type JointKind string

// Kinds of joint.
const (
	PocketScrew     JointKind = "pocket screw"
	ConnectingScrew JointKind = "connecting screw" // through the face into the edge, thick coarse thread
	Dowel           JointKind = "dowel"
	Dado            JointKind = "dado"
	WoodScrew       JointKind = "wood screw"
	GlueOnly        JointKind = "glue"
	Loose           JointKind = "loose"         // held by a groove or by its weight
	Undone          JointKind = "joining screw" // neighbours, hutches: can be taken apart
)

// Joint holds part B to part A. Contact is the area where they touch, in the same frame as
// the parts' poses: a box with no thickness, or with the depth of a dado.
type Joint struct {
	Kind     JointKind
	A, B     string // Local names within one owner, marks after assembling. B's edge meets A's face
	Contact  Box
	Fastener string // hardware id, "" for glue alone
	Count    int
	Glue     bool
}

// Support is where a Span rests.
type Support struct {
	At    L    // centre of the support along the span, from the board's start
	Width L    // bearing width along the span
	Fixed bool // clamped (glued and screwed housing); otherwise it can turn
}

// Span is a board that carries load between supports, or a board standing on them.
type Span struct {
	Part     string
	Along    geom.Dir // direction of the span in the frame of the parts
	Supports []Support
	BackHeld bool   // fixed along its back edge (to a back or a rail) over its whole length
	Stiff    string // Local name or mark of an edge strip glued along it, "" for none
	Bay      string // the bay whose goods it carries, "" when it is a counter or top
	Use      Use
}

// Use says what a surface or bay is for, where no goods are given: it selects the practice's
// stated load.
type Use string

// Uses.
const (
	Storage Use = "storage"
	Books   Use = "books"
	Work    Use = "work" // counters: a person may lean or stand on it
	Tools   Use = "tools"
)

// Bay is a clear space for goods.
type Bay struct {
	ID     string // unique in the job after assembling: owner/path
	Owner  string
	Box    Box       // clear space, in the frame of the parts
	Floor  string    // part that carries the goods, "" when hung or on a rack
	Kind   string    // name of the fitting that made it: "shelves", "drawers", "can-rack" ...
	Locked bool      // behind a lock
	Door   bool      // behind a door
	Moves  string    // Motion that brings it out
	Hung   bool      // goods hang in it
	Places []Place   // places for one thing each: bored holes, hooks; empty for an open bay
	Load   mass.Mass // stated load, 0 when not stated
	Most   mass.Mass // rating of what carries it (a slide), 0 when not known
	Range  [2]L      // how far its floor may move up and down from where it is (adjustable), 0,0 for fixed
	Use    Use
	// Ballast is weight that is held down for good in the rear half of the bay, 0 for none.
	Ballast mass.Mass
}

// Place is a place for one thing: a bored hole, a hook.
type Place struct {
	At  Vec // centre of its bottom
	Dia L
}

// FrontKind is a kind of front.
type FrontKind string

// Kinds of front.
const (
	DoorFront  FrontKind = "door"
	Drawer     FrontKind = "drawer"
	FixedFront FrontKind = "fixed"
)

// Front is a door or drawer front and the gaps beside it.
type Front struct {
	Part    string
	Kind    FrontKind
	Opening Box      // the opening it covers
	Hinge   geom.Dir // Left or Right for doors, Down or Up for flaps
	Hinges  []L      // heights of hinge centres above the front's own lower edge (along the hinged edge)
	Racks   []string // Local names or marks of what hangs on it
	Lock    bool
	Motion  string
	Handle  string
}

// MotionKind is a way something opens.
type MotionKind string

// Kinds of motion.
const (
	Swing MotionKind = "swing"
	Slide MotionKind = "slide"
	Roll  MotionKind = "roll" // a whole case that rolls or slides out
	Lift  MotionKind = "lift"
)

// Motion is what moves and the space that it sweeps.
type Motion struct {
	ID     string
	Owner  string
	Kind   MotionKind
	Parts  []string
	Closed Box // space of the moving body when closed
	// Swing: the vertical pivot line at (Pivot.X, Pivot.Y), opening Angle degrees from closed;
	// Hinge as on the front. Slide, Roll and Lift: Travel along Dir.
	Pivot    Vec
	Hinge    geom.Dir
	Angle    int
	Dir      geom.Dir
	Travel   L
	Swept    Box       // box around everything it sweeps
	With     []string  // motions that ride on this one, or must open first
	Needs    string    // motion that must be open before this one can move (a tray behind a door), "" for none
	Rating   mass.Mass // most that it may carry, 0 when not known
	Hardware string
}

// Leaf gives how wide the leaf of an upright door is from its pivot.
func (m Motion) Leaf() L {
	if m.Hinge == geom.Right {
		return m.Pivot.X - m.Closed.Min.X
	}
	return m.Closed.Max.X - m.Pivot.X
}

// ForPads is what a damp-proof strip is for that is cut to pieces, one under every point where a base stands.
const ForPads = "pads under a base"

// StripPad is how long each of these is (common practice, no source).
func StripPad(inches bool) L {
	if inches {
		return 4 * length.Inch
	}
	return 100 * length.MM
}

// ShimLeast: what is lower, or packed out by less, gets no shim (common practice, no source).
const ShimLeast = length.MM / 2

// Foot is one point a case stands on.
type Foot struct {
	Owner           string
	Kind            string // "foot", "shim", "castor"
	At              Vec    // top of the foot, in the frame of the parts
	Hardware        string
	Height          L    // from the floor there; set by place
	Unsure          bool // nobody has measured the floor there
	Least, Greatest L
	Rating          mass.Mass
}

// Tape prints how high a foot is, as maps and steps tell it: 0 where it gets no shim.
func (f Foot) Tape(u length.Unit) string {
	if f.Kind == "shim" && f.Height < ShimLeast {
		return "0"
	}
	return f.Height.Tape(u)
}

// RailPlay is what a rail that goes in between two cases is short of the room at each of its ends: common practice, no source.
const RailPlay = length.MM

// JoiningScrew and JoiningBolt are what the holes through the sides of neighbours are for.
const (
	JoiningScrew = "joining screw"
	JoiningBolt  = "joining bolt"
)

// TurnsFoot is what the hole in a bottom is for through which a foot is turned from above.
const TurnsFoot = "turning a foot"

// BoltedRail is the row of the fixings that are bolts of a counter's rail through the side of a case, and
// what their holes are for.
const BoltedRail = "rail bolt"

// Lock is what the hole for a cam lock is for.
const Lock = "lock"

// Mitre is what a bevel across the end of a strip is for, which meets another at a corner.
const Mitre = "mitre"

// RoundWall is what a notch is for that a board has round a pipe, a curb or whatever else stands out from the wall.
const RoundWall = "room for what stands out from the wall"

// HutchToCounter is what the screws are for that hold a hook board to the counter that it stands on, and
// ScrewToCounter what their holes are for.
const (
	HutchToCounter = "hutch to the counter"
	ScrewToCounter = "screw to the counter"
)

// ButtsInCorner is what adhesive is for between the end of a counter and the front of the one round the corner.
const ButtsInCorner = "the joint of two counters in a corner"

// BedsOnBase is what adhesive is for on which a case is set that no screws hold to its base.
const BedsOnBase = "bedding a case on its base"

// ToBases is what the screws are for, and their holes, that hold a case to its base.
const ToBases = "case to its base"

// FloorAngle is the steel angle that holds a leg to the floor, with the screws that come with it for the leg, and
// ToFloorUse what it and its anchor are for.
const (
	FloorAngle = "floor-angle"
	ToFloorUse = "legs to the floor"
)

// PackingUse is what the packers are for that go behind rails where a wall is hollow.
const PackingUse = "packing at wall screws"

// Packers gives how many flat packers at most make up a packing as it is told, 0 where it is too thin for any: the thickest that
// is sold is 6 mm or 1/4 in (common practice, no source).
func Packers(packing L, u length.Unit) int {
	if packing < ShimLeast {
		return 0
	}
	most := 6 * length.MM
	if u == length.Inches {
		most = length.Inch / 4
	}
	return int(packing.Near(u.Step()).DivUp(int64(most)))
}

// StandsOn is what feet and castors, and their screws, are for.
const StandsOn = "standing"

// HangsOnBoard is what hooks and their screws are for.
const HangsOnBoard = "what hangs on the board"

// LightCable is what the hole and the groove for the cable of a hook board's light are for.
const LightCable = "cable of the light"

// ForDrawerHandles and ForDoorHandles are what screws of handles are for that do not come with them.
const (
	ForDrawerHandles = "handles of drawers"
	ForDoorHandles   = "handles of doors"
)

// LightOnBoard is what the light of a hook board is for.
const LightOnBoard = "light of the hook board"

// How far from the ends of a filler the first and the last of its screws are, and how far apart they are at most (common
// practice, no source).
const (
	FillerFirst = 100 * length.MM
	FillerPitch = 300 * length.MM
)

// BattenUse is what the screws are for that hold the batten on which wall cases are propped, the same ones for all.
const BattenUse = "batten that wall cases are propped on"

// WhereItStands is what the screws are for that fix a case to a wall that is not surveyed.
const WhereItStands = "its top to two studs, where it will stand"

// Joins begins what the screws are for that join an owner to the one of the name behind it.
const Joins = "joining "

// BoredPlace is what the holes are for that one thing each stands in.
const BoredPlace = "bored place"

// SlidesOnBoxes is what the screws are for that fix members of slides to drawers and trays.
const SlidesOnBoxes = "slides, on drawers and trays"

// Item is hardware by count or by length.
type Item struct {
	Owner  string
	ID     string // hardware, edging, stick or finish id
	Kind   string // "hinge", "slide", "screw", "pin", "foot", "handle", "edging", ...
	Count  int
	Length L // slides and edging: length of one
	For    string
	Stage  string
}

// Owner is a case, counter, base, hutch or end panel: something with parts and a place.
type Owner struct {
	ID       string
	Kind     string // "case", "counter", "base", "hutch", "panel", "filler", "standing"
	Name     string
	Wall     string
	Box      Box    // extents with fronts closed, in the frame of the parts
	Carcass  Box    // extents of the carcass alone
	Hollow   Box    // cases: the clear room within the carcass's own boards
	Standing bool   // already there: not cut or bought
	Code     string // of one that an earlier stage built, whose boards are not here: what their marks begin with
	Stage    string
	Hung     bool   // carried by the wall
	Moves    bool   // stands in front of something and can be moved: a free bench, a rolling case
	Off      L      // its back from the wall, where ledgers lie behind it
	Play     [2]L   // beside a case in a gap, both sides together: at the narrowest and at the widest place measured
	Unfix    string // neighbour that is unfixed and drawn aside to let it in, "" for none
}

// Assembly is the whole of one owner in its own frame, or of the whole job in the frames of
// its walls.
type Assembly struct {
	Owners   []Owner
	Parts    []Part
	Joints   []Joint
	Spans    []Span
	Bays     []Bay
	Fronts   []Front
	Motions  []Motion
	Wanted   []Wanted
	Fixings  []Fixing
	Feet     []Foot
	Hardware []Item
}

// Only gives what belongs to the owners that keep reports; screws into others stay.
func Only(all Assembly, keep func(owner string) bool) Assembly {
	a := all
	not := func(owner string) bool { return !keep(owner) }
	marks := map[string]bool{}
	a.Parts = slices.DeleteFunc(slices.Clone(a.Parts), func(p Part) bool { return not(p.Owner) })
	for _, p := range a.Parts {
		marks[p.Mark] = true
	}
	a.Owners = slices.DeleteFunc(slices.Clone(a.Owners), func(o Owner) bool { return not(o.ID) })
	a.Joints = slices.DeleteFunc(slices.Clone(a.Joints), func(j Joint) bool { return !marks[j.A] || !marks[j.B] })
	a.Spans = slices.DeleteFunc(slices.Clone(a.Spans), func(s Span) bool { return !marks[s.Part] })
	a.Bays = slices.DeleteFunc(slices.Clone(a.Bays), func(b Bay) bool { return not(b.Owner) })
	a.Fronts = slices.DeleteFunc(slices.Clone(a.Fronts), func(f Front) bool { return !marks[f.Part] })
	a.Motions = slices.DeleteFunc(slices.Clone(a.Motions), func(m Motion) bool { return not(m.Owner) })
	a.Fixings = slices.DeleteFunc(slices.Clone(a.Fixings), func(f Fixing) bool { return not(f.Owner) })
	a.Feet = slices.DeleteFunc(slices.Clone(a.Feet), func(f Foot) bool { return not(f.Owner) })
	a.Hardware = slices.DeleteFunc(slices.Clone(a.Hardware), func(h Item) bool { return not(h.Owner) })
	return a
}

// Append puts b's lists after a's.
func (a *Assembly) Append(b Assembly) {
	a.Owners = append(a.Owners, b.Owners...)
	a.Parts = append(a.Parts, b.Parts...)
	a.Joints = append(a.Joints, b.Joints...)
	a.Spans = append(a.Spans, b.Spans...)
	a.Bays = append(a.Bays, b.Bays...)
	a.Fronts = append(a.Fronts, b.Fronts...)
	a.Motions = append(a.Motions, b.Motions...)
	a.Wanted = append(a.Wanted, b.Wanted...)
	a.Fixings = append(a.Fixings, b.Fixings...)
	a.Feet = append(a.Feet, b.Feet...)
	a.Hardware = append(a.Hardware, b.Hardware...)
}
