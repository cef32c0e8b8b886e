// Package fitting is the socket that everything inside a case or on its doors plugs into:
// shelves, drawers, racks, rails. A fitting first claims room, the carcass settles all
// claims, and then each fitting is built in the clear space that it was given.
//
// A fitting is one folder under fittings and one line in builtin, and passes the promises of
// fitting/fittingtest.
package fitting

import (
	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/stock"
)

type L = length.Length

// Where a fitting may be put.
type Where string

// Places for fittings.
const (
	InBay  Where = "bay"
	OnDoor Where = "door"
)

// Kind is one kind of fitting that a job can name.
type Kind struct {
	Name  string // the key in a job file: "shelves"
	Doc   string // one sentence for help and the schema
	Where Where
	New   func() Spec // a pointer to a struct with schema tags and its defaults
}

// Set is the kinds that a program knows, in the order help lists them.
type Set []Kind

// Find gives the kind of a name.
func (s Set) Find(name string, w Where) (Kind, bool) {
	for _, k := range s {
		if k.Name == name && k.Where == w {
			return k, true
		}
	}
	return Kind{}, false
}

// Spec is what a job says about one fitting.
type Spec interface {
	// Claim says what room the fitting wants, before anything is built. It must not depend on
	// other fittings' claims.
	Claim(env Env, s Space) Claim
	// Build makes the fitting in its clear space. It must not fail: what cannot be built is a
	// finding, and the nearest sensible thing (or nothing) is built instead.
	Build(env Env, s Space) Result
}

// Env is all that a fitting may know of the shop.
type Env struct {
	Practice  stock.Practice
	Catalogue stock.Catalogue
	Owner     string // id of the case
	Joint     string // kind of joint that its boards are held by
}

// Wall is a board that bounds a space.
type Wall struct {
	Part      string // Local name, "" where there is none
	Thickness L
	Both      bool // a partition or fixed shelf with a space on its other side too
	Heads     bool // heads of screws may be seen on its far side
	// Far is the partitions and fixed shelves that lie against its far side already: no driver gets there.
	Far []geom.Box
}

// Door is what stands before a space.
type Door struct {
	Part   string   // Local name of the door board
	Hinge  geom.Dir // Left or Right
	Opens  int      // degrees
	Box    geom.Box // the door board when closed
	Motion string
	Locked bool
	Pair   bool // one of two leaves
}

// Space is where one fitting goes, in the frame of its case. For a bay, Box is the clear
// space from the carcass's front plane to its back. For a door, Box is the room behind the
// door leaf within its opening: x over the clear opening on the leaf's side, y from the
// carcass's front plane inwards as deep as the leaf's racks may go, z over the opening.
type Space struct {
	ID    string
	Box   geom.Box
	Walls [6]Wall // by geom.Dir; Front is empty
	Doors []Door  // the leaves before it; for a fitting on a door its own leaf alone
	// Kept is how much of the front of a bay belongs to what hangs on the doors, clearance
	// included: by leaf, one entry for every door rack, in the order of Doors.
	Kept []Keep
	// Pass is how far a tray or drawer must keep from the left and right wall to pass the
	// doors' hinges and edges at their real opening.
	PassLeft, PassRight L
	// DrawerFronts: where fronts of drawers in this space may reach, for overlay fronts: the
	// box of the front plane including overlay on its boards, gaps already taken off at its
	// outer sides. Empty when the space is behind doors.
	FrontArea geom.Box
	Use       part.Use
	Load      stock.Mass // stated for the bay, 0 when not
	Grain     string     // of boards that stand, as the case says: "upright" or "", "level", "either"
}

// Keep is a part of a bay's front that a door rack sweeps or fills.
type Keep struct {
	Box  geom.Box // in the case's frame, clearance included
	Rack string
}

// Claim is the room that a fitting wants.
type Claim struct {
	// Depth from the front plane inwards: what a rack on a door takes, clearance included; for
	// a bay fitting the least depth it needs at the back.
	Depth L
	// Height it needs, 0 for whatever there is.
	Height L
	// Lift is how much more must be free over it, the door open, to take out what stands in it: a rack above
	// on the same door stands so much higher.
	Lift L
	// Width it needs.
	Width L
}

// Bore is a working that a fitting wants in a board that bounds its space. At is a point on
// that board's surface, in the case's frame.
type Bore struct {
	Wall  geom.Dir
	Kind  part.OpKind
	At    geom.Vec
	Size  geom.Vec // straight kinds: extents in the case's frame, zero along the wall's normal
	Dia   L
	Depth L
	Tool  string
	For   string
}

// Result is a built fitting: parts with Local names unique in its case (they start with the
// space's id), and what it wants of its neighbours.
type Result struct {
	part.Assembly
	Bores    []Bore
	Findings finding.List
}

// driverHalf is half of what a driver needs beside a screw (common practice, no source).
const driverHalf = 8 * length.MM

// Meets reports whether one of some boxes lies beyond a contact in a direction, in the way of a driver.
func Meets(far []geom.Box, to geom.Dir, contact geom.Box) bool {
	for _, q := range far {
		hit := true
		for i := range 3 {
			hit = hit && (i == to.Axis() || min(q.Max.At(i), contact.Max.At(i)+driverHalf) > max(q.Min.At(i), contact.Min.At(i)-driverHalf))
		}
		if hit {
			return true
		}
	}
	return false
}
