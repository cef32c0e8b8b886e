package carcass

import (
	"stowright/internal/geom"
	"stowright/internal/mass"
	"stowright/internal/part"
)

// Site is what placing tells a case about where it stands. The zero Site is a case alone.
type Site struct {
	Base      L          // height of a separate base under it; Spec.Height includes it
	Cutouts   []geom.Box // openings wanted in its back, in the case's frame: outlets, valves
	Notches   []geom.Box // what it must be notched round at its lower rear: skirting, pipes, curbs
	TopUnder  bool       // a counter lies on it
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
