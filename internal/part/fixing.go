package part

// FixKind is a way to hold something to the room.
type FixKind string

// Kinds of fixing.
const (
	ToStud   FixKind = "stud"
	ToWall   FixKind = "wall" // masonry or concrete anchor
	ToFloor  FixKind = "floor"
	ToCase   FixKind = "case"    // to a neighbour
	ToLedger FixKind = "ledger"  // a rail to the ledger behind it
	ToBase   FixKind = "base"    // a case to the base that it stands on
	NoStud   FixKind = "no stud" // wanted, but nothing to hold in
)

// Layer is one thing a screw passes through on its way.
type Layer struct {
	Name      string // "hang rail", "back", "packing", "lining"
	Stock     string
	Thickness L
}

// Thick is how thick layers are together.
func Thick(layers []Layer) (thick L) {
	for _, l := range layers {
		thick += l.Thickness
	}
	return thick
}

// Fixing is one screw or anchor to wall, floor or neighbour.
type Fixing struct {
	Owner   string
	Kind    FixKind
	Wall    string
	Part    string // the part it holds
	At      Vec    // in the wall's frame; for a neighbour in the owner's frame
	Stud    string // id of the stud, "" for none
	Screw   string // hardware id
	Length  L      // length of the screw
	Layers  []Layer
	Into    L      // thread in the last member; 0 where it does not reach that
	Least   L      // anchors: the least Into that their rating is for, 0 for screws
	Packing L      // packing behind, where the wall is hollow
	Row     string // "upper", "lower": which rail
}

// Own is what a screw passes of the thing that it holds: its boards, and the air between them.
func (f Fixing) Own() (thick L) {
	for _, l := range f.Layers {
		if l.Stock != "" || l.Name == "air" {
			thick += l.Thickness
		}
	}
	return thick
}

// AtBench reports whether a screw to the room has its clearance hole bored at the bench: its place follows from the
// thing that it holds and not from a stud.
func (f Fixing) AtBench() bool { return f.Kind == ToLedger || f.Kind == ToWall && f.Stud == "" }

// Wanted is a place along a part where a fixing is wanted; place turns it into Fixings at
// studs. It runs along x at height Z of the owner's frame.
type Wanted struct {
	Part      string
	From, To  L // along x
	Y         L // the part's back plane (towards the wall)
	Z         L
	Low, High L // heights between which a drill has room, the same where it is not limited
	Row       string
	Layers    []Layer
}

// Hold says how a case is fixed to its wall where the practice's screw, one in each stud, is not
// enough. The zero Hold is that one screw.
type Hold struct {
	Screws int    // in each stud that a rail crosses, one above the other
	Screw  string // hardware id; its diameter decides, its length follows what it passes
	Pitch  L      // from screw to screw in one stud
	Rail   L      // least height of the rails, 0 for the practice's
	Ends   int    // screws or dowels at each end of a rail, 0 for the practice's
	Floors int    // screws or dowels at each end of the bottom and of fixed shelves, 0 for the practice's
	Pairs  int    // of feet, one in front and one behind, 0 for as many as the width asks for
}
