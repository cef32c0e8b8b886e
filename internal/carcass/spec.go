// Package carcass builds one case: the box, the tree of bays inside it, its doors, and what
// it stands on or hangs by. It settles what the fittings claim, has each of them built in its
// clear space, and works their holes into the boards that bound them.
//
// Frame of a case: x from its left outer side, y from the carcass's front edge (fronts are at
// negative y) to its rear, z from the level line it stands on (floor cases: top of the base,
// or the floor's high point under feet and toe recess; wall cases: its lower edge).
package carcass

import (
	"stowright/internal/schema"
	"stowright/internal/stock"
)

type L = stock.L

// Spec is one case as a job says it, family and pattern already merged in, every size a length.
type Spec struct {
	Name       string   `job:"name" doc:"what the case is called on paper"`
	Level      string   `job:"level" one:"floor|wall" default:"floor" doc:"stands on the floor or hangs on the wall"`
	Width      *L       `job:"width" doc:"overall width of the carcass" eg:"30 in"`
	Steps      int      `job:"steps" min:"1" max:"20" doc:"width in steps of the family instead"`
	Height     *L       `job:"height" doc:"overall height: floor to the top of the carcass, what it stands on included" eg:"34 1/2 in"`
	Depth      *L       `job:"depth" doc:"overall depth, fronts included" eg:"18 1/2 in"`
	Fronts     *bool    `job:"fronts-in-depth" doc:"whether depth counts the fronts; yes when not stated"`
	Board      string   `job:"board" names:"boards" doc:"board for the carcass instead of the practice's"`
	FrontBoard string   `job:"front-board" names:"boards" doc:"board for its fronts instead of the practice's"`
	BackBoard  string   `job:"back-board" names:"boards" doc:"board for its back instead of the practice's"`
	Grain      string   `job:"grain" one:"upright|level|either" default:"upright" doc:"how the grain of sides, partitions, dividers and fronts runs; either leaves it to the cutting plan"`
	Joint      string   `job:"joint" one:"pocket-screw|connecting-screw|dowel|dado|wood-screw" doc:"instead of the practice's"`
	Back       string   `job:"back" one:"captured|applied|full|none" doc:"instead of the practice's; an applied back of a case on a cleat is let in before the cleat"`
	Top        string   `job:"top" one:"full|stretchers" doc:"of a floor case, instead of the practice's; wall cases, and locked cases with nothing on them, and those with dividers up to the top, have a whole one"`
	Stands     Stands   `job:"stands-on" doc:"what a floor case stands on"`
	Hangs      Hangs    `job:"hangs-by" doc:"what a wall case hangs by"`
	Exposed    []string `job:"exposed" one:"left|right|bottom|top" doc:"sides that can be seen and must be clean"`
	EndPanels  []string `job:"end-panels" one:"left|right" doc:"sides that get an applied panel"`
	Loose      string   `job:"free" one:"no|standing|rolls|slides" default:"no" doc:"not fixed to the wall: stands free, rolls on castors, or slides on glides"`
	Inside     Bay      `job:"inside" doc:"the tree of bays"`
}

// Stands says what a floor case stands on.
type Stands struct {
	Kind   string `job:"kind" one:"toe|feet|toe-feet|base|castors|floor" doc:"toe recess, adjustable feet, a toe recess on feet, a separate base, castors, or its own bottom"`
	Height *L     `job:"height" min:"1 mm" doc:"height of the toe recess, feet or castors at the floor's high point"`
	Recess *L     `job:"recess" min:"0 mm" doc:"toe recess behind the fronts, no more than half of the depth behind them"`
	Foot   string `job:"foot" names:"hardware" doc:"foot or castor instead of the practice's"`
	Pairs  int    `job:"pairs" min:"0" max:"8" doc:"pairs of feet, one in front and one behind, evenly apart; as many as its width and its load ask for when not stated"`
}

// MostPairs is how many pairs of feet a job may state.
const MostPairs = 8

// Hangs says what a wall case hangs by.
type Hangs struct {
	Kind   string `job:"kind" one:"rail|cleat" default:"rail" doc:"hang rails screwed to the wall, or a bevelled cleat"`
	Width  *L     `job:"width" min:"1 mm" doc:"width of rails or of the split cleat strip"`
	Lower  *bool  `job:"lower-rail" doc:"a second rail at the bottom; yes when not stated"`
	Middle bool   `job:"middle-rail" doc:"one more rail between the two"`
	// Ledger holds the case off the wall by its thickness, which the depth of the case includes.
	Ledger string `job:"ledger" names:"sticks|boards" doc:"stick or board across the wall behind each rail, from stud to stud past both sides, where the rails alone cross fewer than two studs; the rails are screwed to it, and the depth of the case counts it" eg:"two-by-four"`
}

// Bay is a clear space, or a space split into bays. At most one of Across, Up and a fitting.
type Bay struct {
	At      schema.Place
	Width   *L          `job:"width" min:"1 mm" doc:"clear width in a bay split across; what is left is shared"`
	Height  *L          `job:"height" min:"1 mm" doc:"clear height in a bay split up; what is left is shared"`
	Front   *L          `job:"front" min:"1 mm" doc:"height or width of the front before it instead"`
	Across  []Bay       `job:"across" doc:"bays from left to right, a partition between each two"`
	Up      []Bay       `job:"up" doc:"bays from the bottom to the top, a fixed shelf between each two"`
	Fitting schema.Plug `job:",plug" plug:"bay"`
	Doors   *Doors      `job:"doors" doc:"doors before this bay and all in it"`
	Use     string      `job:"use" one:"storage|books|work|tools" doc:"what it is for, where its goods are not given"`
	Load    *stock.Mass `job:"load" doc:"weight on its floor and on each of its shelves, or in all of its drawers or trays together, where its goods are not given"`
	Goods   []string    `job:"goods" names:"goods" doc:"goods that are kept here"`
	Ballast *stock.Mass `job:"ballast" doc:"weight of steel or lead that is held down for good in the rear half of this bay, so that the case does not tip" eg:"30 kg"`
}

// Doors are one or two overlay doors.
type Doors struct {
	Count  int    `job:"count" min:"1" max:"2" doc:"one leaf or a pair; by the opening's width when not stated"`
	Hinge  string `job:"hinge" one:"left|right" doc:"side of a single door's hinges"`
	Lock   bool   `job:"lock" doc:"can be locked"`
	Hinges string `job:"hinges" names:"hardware/hinge" doc:"hinge instead of the practice's"`
	Board  string `job:"board" names:"boards" doc:"board instead of the practice's"`
	Handle string `job:"handle" names:"hardware/handle" doc:"handle instead of the practice's"`
	Left   []Rack `job:"left" doc:"racks on the left or only leaf, from the lowest"`
	Right  []Rack `job:"right" doc:"racks on the right leaf, from the lowest"`
}

// Rack is a fitting on a door.
type Rack struct {
	At      schema.Place
	Up      *L          `job:"up" doc:"its lower edge above the opening's lower edge; stacked on the one below when not stated"`
	Fitting schema.Plug `job:",plug" plug:"door"`
	Goods   []string    `job:"goods" names:"goods" doc:"goods that are kept here"`
	Load    *stock.Mass `job:"load" doc:"weight of what stands in it, where its goods are not given"`
}
