package carcass

import (
	"stowright/internal/geom"
	"stowright/internal/mass"
	"stowright/internal/part"
)

// Site is what placing tells a case about where it stands. The zero Site is a case alone.
type Site struct {
	Base      L          // height of a separate base under it; Spec.Height includes it
	JoinLeft  bool       // a neighbour's side touches on the left: joining holes are drilled
	JoinRight bool       // and on the right
	FromLeft  bool       // the neighbour on the left stands already: the screws into it are driven from inside this one
	Cutouts   []geom.Box // openings wanted in its back, in the case's frame: outlets, valves
	Notches   []geom.Box // what it must be notched round at its lower rear: skirting, pipes, curbs
	TopUnder  bool       // a counter lies on it
	Joining   *Joining   // where neighbours are joined, by family; common practice when nil
	Studs     Studs      // where the studs are that its ledgers go to, in the case's frame
	RoomAbove L          // free height above a wall case, 0 when not known; a cleat needs it to lift off
	// What only the loads say, once they are known: see strength.Settle.
	Doors []Hung    // what is kept in the racks of each leaf
	Hold  part.Hold // how it is fixed to the wall
}

// Hung is the weight of what is kept on a leaf, by the leaf's motion.
type Hung struct {
	Motion string
	Mass   mass.Mass
}

// Joining is where the screws that join neighbours go, every size from the nearest edge of the
// carcass: behind its front edge, before its back, above its bottom's lower edge, below its top.
type Joining struct {
	Front, Rear, Low, High L
	Screw                  string // hardware id, "" for whatever fits
}
