// Package job reads the one file that a maker writes, checks it, and hands on a job in which
// every size is stated, every name is known and every pattern is merged. It builds nothing.
package job

import (
	"stowright/internal/carcass"
	"stowright/internal/mass"
	"stowright/internal/schema"
	"stowright/internal/stock"
)

type L = stock.L

// File is a job as it is written.
type File struct {
	Version    int                        `job:"stowright,required" min:"1" max:"1" doc:"version of the file format"`
	Name       string                     `job:"name" doc:"what the job is called"`
	Author     string                     `job:"author" doc:"who drew it up; title blocks say it under Drawn by"`
	Date       string                     `job:"date" doc:"date printed in title blocks" eg:"2026-11-25"`
	TitleBlock TitleBlock                 `job:"title-block" doc:"what else title blocks say, in the fields of ISO 7200"`
	Unit       string                     `job:"unit" one:"in|mm" doc:"what a bare number means; the practice's when not stated"`
	Print      string                     `job:"print" one:"in|mm|both" doc:"unit on paper; the job's when not stated; both prints the job's with the other in brackets"`
	Currency   string                     `job:"currency" doc:"currency of the prices" eg:"USD"`
	Library    []string                   `job:"library" doc:"a maker's own library files, beside the job"`
	Practice   Practice                   `job:"practice" doc:"the shop's rules: a shipped practice and what differs from it"`
	Sizes      schema.Map[L]              `job:"sizes" doc:"named sizes, used by name wherever a length is asked for"`
	People     People                     `job:"people" doc:"who uses it"`
	Walls      schema.Map[Wall]           `job:"walls" doc:"surveyed walls, seen from the room"`
	Room       Room                       `job:"room" doc:"what else is in the room"`
	Boards     schema.Map[stock.Board]    `job:"boards" doc:"sheets, over the shipped ones"`
	Sticks     schema.Map[stock.Stick]    `job:"sticks" doc:"solid lumber, over the shipped ones"`
	Edgings    schema.Map[stock.Edging]   `job:"edgings" doc:"edging, over the shipped ones"`
	Hardware   schema.Map[stock.Hardware] `job:"hardware" doc:"hardware, over the shipped ones"`
	Materials  schema.Map[stock.Material] `job:"materials" doc:"what boards are made of, over the shipped ones"`
	Species    schema.Map[stock.Species]  `job:"species" doc:"kinds of solid wood, over the shipped ones"`
	Practices  schema.Map[Practice]       `job:"practices" doc:"practices to start from, in a library"`
	Containers schema.Map[stock.Goods]    `job:"containers" doc:"everyday containers that goods are like, in a library"`
	Families   schema.Map[Family]         `job:"families" doc:"shared sizes"`
	Patterns   schema.Map[Pattern]        `job:"patterns" doc:"cases with named sizes that others derive from"`
	Cases      schema.Map[Case]           `job:"cases" doc:"the cases"`
	Standing   schema.Map[Standing]       `job:"standing" doc:"what is already there and stays, as built"`
	Runs       schema.Map[Run]            `job:"runs" doc:"cases side by side along a wall"`
	Counters   schema.Map[Counter]        `job:"counters" doc:"worktops over part of a run, and free benches"`
	Hutches    schema.Map[Hutch]          `job:"hutches" doc:"hook boards on frames over a bench"`
	Bases      schema.Map[Base]           `job:"bases" doc:"separate levelled bases under part of a run"`
	Machines   schema.Map[Machine]        `job:"machines" doc:"machines that stand on or beside a counter"`
	NotBuilt   []string                   `job:"not-built" names:"runs|cases|counters|hutches|bases" doc:"what is only an alternative: read, and left out of everything else"`
	Goods      schema.Map[stock.Goods]    `job:"goods" doc:"what has to be stored"`
	Stages     []Stage                    `job:"stages" doc:"what is built first, each stage usable and safe alone"`
	Wishes     []string                   `job:"wishes" doc:"what wins where wants conflict, and anything else that is only said; the first sheet of the plan set says it too"`
	Kept       schema.Map[Kept]           `job:"kept" doc:"cases that have already been cut, by name, with the sizes they keep whatever their family says"`
	Accept     []Accepted                 `job:"accept" doc:"findings that the maker knows of and accepts, each with a reason"`
}

// TitleBlock is what title blocks say besides the name, the author and the date of the job.
type TitleBlock struct {
	Owner    string `job:"owner" doc:"whom the drawings belong to; the author when not stated"`
	Number   string `job:"number" doc:"number that the set is kept under" eg:"FS-1"`
	Revision string `job:"revision" doc:"letter or number of this issue, where an earlier one is in somebody's hands" eg:"B"`
	Approved string `job:"approved" doc:"who has gone through it and lets it be built"`
}

// Practice names a shipped or library practice and overrides any of its rules.
type Practice struct {
	From string `job:"from" names:"practices" doc:"practice to start from" eg:"inch-shop"`
	stock.Practice
	Tools schema.Map[stock.Tool] `job:"tools" doc:"machines and hand tools, by name"`
}

// People says who uses the place.
type People struct {
	Shortest   *L    `job:"shortest" doc:"height of the shortest user"`
	Tallest    *L    `job:"tallest" doc:"height of the tallest user"`
	Children   *bool `job:"children" doc:"whether children come in"`
	Wheelchair bool  `job:"wheelchair" doc:"whether reach follows ADA 308, knee spaces 306 and worktops 902"`
	Alone      *bool `job:"alone" doc:"whether one person builds alone"`
}

// Wall is a straight stretch of wall.
type Wall struct {
	Length    L                    `job:"length,required" doc:"along the floor"`
	Height    *L                   `job:"height" doc:"floor at the left end to the ceiling"`
	Kind      string               `job:"kind" one:"stud|masonry|concrete|steel-stud|not-known" default:"not-known" doc:"what it is made of"`
	Lining    *Lining              `job:"lining" doc:"what covers it; none when it says thickness 0"`
	From      string               `job:"surveyed-from" one:"left|right" default:"left" doc:"which end the measures along it start from"`
	Corner    *Corner              `job:"corner" doc:"where it meets another wall"`
	Studs     *Studs               `job:"studs" doc:"where they are"`
	Anchor    *Anchor              `job:"anchor" doc:"what one anchor carries in masonry, concrete or a steel stud, as published by its maker"`
	Lean      *L                   `job:"leans-out-at-top" doc:"out of plumb at its full height; towards the room is positive"`
	Hollow    []Hollow             `job:"hollow" doc:"places where it falls back from, or stands proud of, a straight line"`
	Floor     Floor                `job:"floor" doc:"heights of the floor"`
	Ceiling   []Height             `job:"ceiling" doc:"heights of a sloped ceiling above the floor at the left end"`
	Openings  schema.Map[Opening]  `job:"openings" doc:"windows and doors"`
	Clear     schema.Map[Keep]     `job:"keep-clear" doc:"what must stay clear, by kind"`
	Obstacles schema.Map[Obstacle] `job:"obstacles" doc:"curbs, pipes, skirting, tracks: what stands out from it"`
}

// Lining covers studs.
type Lining struct {
	Name      string `job:"name" doc:"what it is" eg:"drywall"`
	Thickness *L     `job:"thickness" doc:"its thickness, not stated when not known"`
	Board     string `job:"board" names:"boards" doc:"board it is made of, when it carries screws"`
}

// Corner says where a wall starts in relation to another.
type Corner struct {
	With  string `job:"with,required" names:"walls" doc:"the other wall"`
	At    string `job:"at" one:"left|right" default:"left" doc:"which end of this wall meets it"`
	Angle string `job:"angle" default:"90" doc:"inside angle between the two, degrees"`
}

// Studs says where the studs are: by spacing, by a list, or both.
type Studs struct {
	Species string `job:"species" names:"species" doc:"wood, a name in the shipped table"`
	First   *L     `job:"first" doc:"centre of the first"`
	Spacing *L     `job:"spacing" doc:"centre to centre"`
	Width   *L     `job:"width" doc:"face width"`
	Depth   *L     `job:"depth" doc:"depth into the wall"`
	Listed  []L    `job:"listed" doc:"measured centres; with spacing, added to it"`
	Missing []L    `job:"missing" doc:"centres by spacing that are not there"`
}

// Anchor is what an anchor in masonry, concrete or a steel stud may carry.
type Anchor struct {
	Hardware string     `job:"hardware" names:"hardware/anchor" doc:"anchor, a name in hardware"`
	Shear    *mass.Mass `job:"shear" doc:"safe load along the wall"`
	Tension  *mass.Mass `job:"tension" doc:"safe load out of the wall"`
	Into     *L         `job:"into" doc:"least depth of the anchor in masonry, concrete or behind the face of a steel stud that this is for; half of its length when not stated"`
	Source   string     `job:"source" doc:"where the rating is published"`
}

// Hollow is a place where the wall is not straight.
type Hollow struct {
	At L  `job:"at,required" doc:"along the wall"`
	Up *L `job:"up" doc:"height, all heights when not stated"`
	By L  `job:"by,required" doc:"how far it falls back; negative stands proud"`
}

// Floor gives heights of the floor, up positive, from the floor at the wall's left end.
type Floor struct {
	Every     *L       `job:"every" doc:"distance between the listed heights, starting at the end the survey starts from"`
	AtWall    []L      `job:"at-wall" doc:"heights at the wall, every so far"`
	Points    []Height `job:"points" doc:"heights at named places instead; a step is two heights at one place"`
	Out       *L       `job:"out" doc:"how far out the second row of heights was taken"`
	AtOut     []L      `job:"at-out" doc:"heights out from the wall, every so far"`
	OutPoints []Height `job:"out-points" doc:"heights out from the wall at named places"`
	Falls     *L       `job:"falls-along" doc:"even fall from the left end to the right end instead; up is negative"`
	FallsOut  *Fall    `job:"falls-out" doc:"even fall away from the wall instead"`
	Within    *L       `job:"level-within" doc:"how true the heights are"`
	Slab      *bool    `job:"slab" doc:"concrete on the ground: damp comes up"`
	Kind      string   `job:"kind" doc:"what it is made of" eg:"timber"`
}

// Fall is a drop over a distance.
type Fall struct {
	By L `job:"by,required" doc:"drop"`
	In L `job:"in,required" doc:"over this distance"`
}

// Height is a height at a place along the wall.
type Height struct {
	At L `job:"at,required" doc:"along the wall"`
	Z  L `job:"height,required" doc:"height"`
}

// Opening is a window or a door in a wall.
type Opening struct {
	Kind    string  `job:"kind,required" one:"window|door|garage-door|hatch" doc:"what it is"`
	From    L       `job:"from,required" doc:"left edge"`
	To      L       `job:"to,required" doc:"right edge"`
	Sill    *L      `job:"sill" doc:"lower edge above the floor; 0 for doors"`
	Head    *L      `job:"head" doc:"upper edge"`
	Casing  *L      `job:"casing" doc:"trim round it, each side"`
	Framing []L     `job:"framing" doc:"centres of the studs that frame it; not known when not stated"`
	Header  *Header `job:"header" doc:"what spans over it"`
	Swings  string  `job:"swings" one:"in|out|slides|no|not-known" default:"not-known" doc:"which way a door opens"`
	Hinge   string  `job:"hinge" one:"left|right" doc:"its hinged side seen from this room"`
}

// Header spans over an opening and can take screws.
type Header struct {
	Species string `job:"species" names:"species" doc:"wood"`
	Height  L      `job:"height,required" doc:"from the opening's head upwards"`
	Depth   *L     `job:"depth" doc:"into the wall"`
}

// Keep is an area that must stay clear.
type Keep struct {
	Kind    string `job:"kind,required" one:"outlet|switch|electrical-panel|heater|pipe|window|vent|valve|light|other" doc:"what it is"`
	At      *L     `job:"at" doc:"centre along the wall, with width"`
	Up      *L     `job:"up" doc:"centre above the floor, with height"`
	Width   *L     `job:"width" doc:"size along the wall"`
	Height  *L     `job:"height" doc:"size upwards"`
	From    *L     `job:"from" doc:"left edge instead"`
	To      *L     `job:"to" doc:"right edge instead"`
	Bottom  *L     `job:"bottom" doc:"lower edge instead"`
	Top     *L     `job:"top" doc:"upper edge instead"`
	Out     *L     `job:"out" doc:"how far into the room it must stay clear; by its kind when not stated"`
	Beside  *L     `job:"beside" doc:"kept clear on each side too"`
	Volts   *int   `job:"volts" doc:"panel: volts to ground"`
	Facing  string `job:"opposite" one:"nothing|grounded|live" doc:"panel over 150 volts: what is opposite within its working space; concrete, brick and tile count as grounded; the deepest space when not stated"`
	Ignites *bool  `job:"ignites" doc:"whether it is a source of ignition or heat"`
	MayCut  *bool  `job:"may-be-behind" doc:"may be behind a case with an opening in its back"`
}

// Obstacle stands out from the wall.
type Obstacle struct {
	Kind         string `job:"kind,required" one:"curb|pipe|skirting|casing|door-track|platform|duct|column|other" doc:"what it is"`
	From         *L     `job:"from" doc:"left end; the wall's when not stated"`
	To           *L     `job:"to" doc:"right end; the wall's when not stated"`
	Bottom       *L     `job:"bottom" doc:"lower edge above the floor there"`
	Top          *L     `job:"top" doc:"upper edge; to the ceiling when not stated for a track"`
	Height       *L     `job:"height" doc:"height from its lower edge instead of top"`
	Out          L      `job:"out,required" doc:"how far it stands out from the lining"`
	FollowsFloor bool   `job:"follows-floor" doc:"its height is above the floor where it is"`
	MayCut       bool   `job:"may-be-cut" doc:"may be cut away"`
}

// Room is what else is in the room.
type Room struct {
	Depth *L                `job:"depth" doc:"from this wall to the one opposite"`
	Aisle *L                `job:"aisle" doc:"floor that must stay free to walk, between anything open and what stands opposite"`
	Fixed schema.Map[Thing] `job:"things" doc:"what stands on the floor: stands, machines, a platform"`
	Cars  schema.Map[Car]   `job:"cars" doc:"what parks here"`
}

// Thing stands in the room, away from the wall.
type Thing struct {
	Wall   string `job:"wall" names:"walls" doc:"wall it is measured from"`
	At     L      `job:"at,required" doc:"its centre along the wall"`
	Out    L      `job:"out,required" doc:"its centre out from the wall"`
	Across L      `job:"across,required" doc:"its size, round or square"`
	Height *L     `job:"height" doc:"its height"`
	Moves  bool   `job:"can-be-moved" doc:"can be moved aside"`
}

// Car is a parked car.
type Car struct {
	Wall       string `job:"wall" names:"walls" doc:"wall it stands along"`
	From       L      `job:"from,required" doc:"its end nearest the wall's left end"`
	Length     L      `job:"length,required" doc:"its length"`
	Out        L      `job:"out,required" doc:"its near side without mirrors, from the wall"`
	Width      L      `job:"width,required" doc:"without mirrors"`
	Mirrors    *L     `job:"mirrors" doc:"how far a mirror stands out, each side"`
	MirrorFrom *L     `job:"mirror-from" doc:"mirror: lower edge above the floor"`
	MirrorTo   *L     `job:"mirror-to" doc:"mirror: upper edge"`
	DoorFrom   *L     `job:"doors-from" doc:"its doors along the wall"`
	DoorTo     *L     `job:"doors-to" doc:"its doors along the wall"`
	DoorRoom   *L     `job:"door-room" doc:"what a door needs to get out"`
	Moves      bool   `job:"out-when-working" doc:"is out while work is done"`
}

// Family states shared sizes once.
type Family struct {
	Step       *L              `job:"width-step" doc:"widths are a whole number of these"`
	Depth      *L              `job:"depth" doc:"overall depth of floor cases, fronts included"`
	WallDepth  *L              `job:"wall-depth" doc:"overall depth of wall cases, fronts included"`
	TopLine    *L              `job:"top-line" doc:"top of the carcass of floor cases above the floor's high point"`
	WallTop    *L              `job:"wall-top-line" doc:"top of wall cases above the floor's high point"`
	WallHeight *L              `job:"wall-height" doc:"height of wall cases"`
	Stands     *carcass.Stands `job:"stands-on" doc:"what floor cases stand on"`
	Hangs      *carcass.Hangs  `job:"hangs-by" doc:"what wall cases hang by"`
	FrontGrid  *L              `job:"front-grid" doc:"heights of fronts with their gap are whole numbers of these"`
	HoleRows   *HoleRows       `job:"hole-rows" doc:"shelf holes shared by the family"`
	Sizes      schema.Map[L]   `job:"sizes" doc:"named sizes of the family, for its patterns and cases"`
	Joining    *Joining        `job:"joining" doc:"holes for the screws that join neighbours"`
}

// HoleRows are shared shelf holes.
type HoleRows struct {
	Pitch *L `job:"pitch" doc:"one above the other"`
	Front *L `job:"front" doc:"front row from the front edge"`
	First *L `job:"first" doc:"lowest hole above the carcass's lower edge"`
}

// Joining is where neighbours are screwed together.
type Joining struct {
	Front *L     `job:"front" doc:"from the front edge"`
	Rear  *L     `job:"rear" doc:"from the rear edge"`
	Low   *L     `job:"low" doc:"above the carcass's lower edge"`
	High  *L     `job:"high" doc:"below the carcass's top"`
	Screw string `job:"screw" names:"hardware/screw" doc:"joining screw"`
}

// Pattern is a case that others derive from.
type Pattern struct {
	From   string        `job:"from" names:"patterns" doc:"pattern it derives from"`
	Family string        `job:"family" names:"families" doc:"family whose sizes it shares"`
	Doc    string        `job:"about" doc:"what it is good for, one line"`
	Sizes  schema.Map[L] `job:"sizes" doc:"named sizes that a case may change"`
	carcass.Spec
}

// Case is one case.
type Case struct {
	Pattern string        `job:"pattern" names:"patterns" doc:"pattern it derives from"`
	Family  string        `job:"family" names:"families" doc:"family whose sizes it shares"`
	Sizes   schema.Map[L] `job:"sizes" doc:"named sizes, over those of its pattern and family"`
	Wall    string        `job:"wall" names:"walls" doc:"wall it is on, when it is in no run"`
	At      *L            `job:"at" doc:"its left side along the wall, when it is in no run"`
	Up      *L            `job:"up" doc:"lower edge of a wall case above the floor's high point, when neither run nor family says"`
	Stage   string        `job:"stage" names:"stages" doc:"stage it is built in"`
	Gap     *Gap          `job:"in-gap" doc:"it goes between two neighbours and takes its size from the gap"`
	Rolls   string        `job:"knee-space" names:"counters" doc:"counter whose knee space it slides or rolls into"`
	carcass.Spec
}

// Gap is a measured gap between two that stand.
type Gap struct {
	Left      string `job:"left,required" names:"cases|standing" doc:"neighbour on the left"`
	Right     string `job:"right,required" names:"cases|standing" doc:"neighbour on the right"`
	Widths    []L    `job:"widths,required" doc:"widths measured: at the floor, higher up, in front"`
	Clearance *L     `job:"clearance" doc:"taken off the smallest; the practice's when not stated"`
}

// Standing is a case or bought cupboard that is already there.
type Standing struct {
	Wall   string     `job:"wall" names:"walls" doc:"wall it stands at"`
	Kind   string     `job:"kind" one:"case|cupboard|counter|machine|other" default:"case" doc:"what it is"`
	Name   string     `job:"name" doc:"what it is called"`
	From   L          `job:"from,required" doc:"left side"`
	To     L          `job:"to,required" doc:"right side"`
	Depth  L          `job:"depth,required" doc:"out from the wall"`
	Bottom *L         `job:"bottom" doc:"lower edge above the floor's high point; 0 when not stated"`
	Top    L          `job:"top,required" doc:"upper edge above the floor's high point"`
	Board  *L         `job:"board-measures" doc:"thickness of its boards; a cupboard is joined to only where it is stated, for one of steel has none"`
	Feet   bool       `job:"on-feet" doc:"stands on feet"`
	Mass   *mass.Mass `job:"weighs" doc:"weight, empty"`
	Goods  []string   `job:"goods" names:"goods" doc:"goods that are kept in it"`
	Inside *mass.Mass `job:"holds" doc:"weight of what is in it"`
	Locked bool       `job:"locked" doc:"can be locked"`
	Clear  *L         `job:"clear-under" doc:"clear height under a counter"`
}

// Run is cases side by side.
type Run struct {
	Wall   string  `job:"wall" names:"walls" doc:"wall; the only one when there is one"`
	Level  string  `job:"level" one:"floor|wall" default:"floor" doc:"on the floor or on the wall"`
	From   string  `job:"from" one:"left|right|centre|between" default:"left" doc:"where it starts"`
	Start  *L      `job:"start" doc:"distance of its first side from the wall's end, or of its centre from the left end"`
	To     *L      `job:"to" doc:"for between: its far side from the wall's left end"`
	Off    *L      `job:"off-wall" doc:"distance of its backs from the wall, to stand clear of skirting, a pipe or a curb instead of being notched round it"`
	Around bool    `job:"around" doc:"steps over keep-clear areas and openings that a case would meet"`
	Order  []Entry `job:"order,required" doc:"cases and spaces from left to right"`
	Top    *L      `job:"top-line" doc:"upper edge above the floor's high point, instead of the family's"`
	Bottom *L      `job:"bottom-line" doc:"lower edge of a wall run instead"`
	Align  string  `job:"align-tops-with" names:"runs" doc:"another run whose upper edge it shares"`
	Fill   string  `job:"fill" one:"none|left|right|both" default:"none" doc:"fillers between the run's ends and walls"`
	Filler *L      `job:"filler" doc:"widest filler"`
	Scribe *L      `job:"scribe" doc:"left on a filler to be fitted to the wall; 1/2 in or 12 mm when not stated"`
	Stage  string  `job:"stage" names:"stages" doc:"stage it is built in"`
	Bench  string  `job:"level-with" names:"machines" doc:"machine whose bed the counter over this run is level with"`
}

// Entry is a case, or a space, in a run.
type Entry struct {
	At      schema.Place
	Case    string `job:"case" names:"cases" doc:"case"`
	Space   *L     `job:"space" doc:"empty width"`
	Knee    *Knee  `job:"knee" doc:"space to sit at"`
	Stand   string `job:"standing" names:"standing" doc:"a standing case that is part of the run"`
	Machine string `job:"machine" names:"machines" doc:"a machine that stands here"`
}

// Knee is a space to sit at, which may be reserved for a case to come.
type Knee struct {
	Width  L      `job:"width,required" doc:"clear width"`
	Height *L     `job:"height" doc:"clear height wanted under the counter"`
	Depth  *L     `job:"depth" doc:"clear depth wanted"`
	For    string `job:"reserved-for" names:"cases" doc:"case of the job, of a later stage perhaps, that will slide or roll in; checked from the start"`
	Sits   bool   `job:"sits" doc:"somebody sits here"`
}

// Counter is a worktop.
type Counter struct {
	Over       []string    `job:"over" names:"runs|cases|standing" doc:"runs or cases that it lies on"`
	Wall       string      `job:"wall" names:"walls" doc:"wall, when it lies on no case"`
	From       *L          `job:"from" doc:"left end instead of the first case's side"`
	To         *L          `job:"to" doc:"right end instead of the last case's side"`
	Butts      string      `job:"butts" names:"counters" doc:"counter on the wall round the corner, against whose front edge its end butts; both are at one height"`
	Layers     []Layer     `job:"layers,required" doc:"boards from the top down"`
	Edge       *Edge       `job:"edge" doc:"hardwood edging"`
	Blocking   *Blocking   `job:"blocking" doc:"strips under a counter of one layer"`
	OverFront  *L          `job:"over-front" doc:"past the fronts"`
	OverLeft   *L          `job:"over-left" doc:"past the left end"`
	OverRight  *L          `job:"over-right" doc:"past the right end"`
	Depth      *L          `job:"depth" doc:"overall, instead of the cases' depth and overhang"`
	Height     *L          `job:"height" doc:"top above the floor's high point; checked against the cases, needed for a free bench"`
	Rails      *Rails      `job:"rails" doc:"rails that carry it over a knee space"`
	Free       *FreeBench  `job:"free" doc:"legs of a bench that stands on its own"`
	Level      string      `job:"level-with" names:"machines" doc:"machine whose bed its top is level with"`
	Stage      string      `job:"stage" names:"stages" doc:"stage it is built in"`
	Work       string      `job:"work" one:"sitting|standing-light|standing-heavy|standing-precise|support|none" default:"none" doc:"what is done at it"`
	PointLoads []PointLoad `job:"point-loads" doc:"vices, grinders"`
	Goods      []string    `job:"goods" names:"goods" doc:"goods that stand on it"`
}

// Layer is one layer of a counter.
type Layer struct {
	Board string `job:"board,required" names:"boards" doc:"board"`
}

// Edge is hardwood edging round a counter.
type Edge struct {
	Stick   string   `job:"stick,required" names:"sticks" doc:"stick"`
	Sides   []string `job:"sides" one:"front|left|right|back" doc:"edges it goes on; front and open ends when not stated"`
	Corners string   `job:"corners" one:"mitre|butt" default:"mitre" doc:"how it meets at corners"`
}

// Blocking is strips under a thin counter.
type Blocking struct {
	Board string `job:"board" names:"boards" doc:"board; the counter's when not stated"`
	Width *L     `job:"width" min:"1 mm" doc:"width of a strip"`
	Every *L     `job:"every" min:"1 mm" doc:"no further apart than this"`
}

// Rails carry a counter over a knee space.
type Rails struct {
	Stick  string `job:"stick" names:"sticks" doc:"stick; or strips of the carcass board when not stated"`
	Height *L     `job:"height" min:"1 mm" doc:"height of a rail"`
	Clear  *L     `job:"clear-under" min:"0 mm" doc:"clear height wanted under them"`
}

// FreeBench is a bench that stands on its own.
type FreeBench struct {
	At     *L     `job:"at" doc:"its left end along the wall, when it stands at one"`
	Out    *L     `job:"out" doc:"its back edge from the wall"`
	Length L      `job:"length,required" doc:"of the top"`
	Legs   string `job:"legs" names:"sticks|boards" doc:"stick or board for legs"`
	Brace  string `job:"brace" one:"panel|rails|shelf|none" default:"rails" doc:"what keeps it from racking"`
	Feet   string `job:"feet" names:"hardware/foot|hardware/castor" doc:"feet or castors under its legs"`
	Floor  string `job:"floor" names:"hardware/anchor|hardware/screw" doc:"anchor or screw that holds a steel angle at each leg to the floor, so that it does not go over"`
}

// PointLoad is a heavy thing on a counter.
type PointLoad struct {
	Name string    `job:"name" doc:"what it is"`
	At   L         `job:"at,required" doc:"from the counter's left end"`
	Mass mass.Mass `job:"weighs,required" doc:"its weight"`
}

// Hutch is a removable frame with a hook board.
type Hutch struct {
	On     string   `job:"on,required" names:"counters|standing" doc:"counter it stands on"`
	From   *L       `job:"from" doc:"left end along the wall; the counter's when not stated"`
	Width  *L       `job:"width" min:"1 mm" doc:"overall"`
	Height *L       `job:"height" min:"1 mm" doc:"above the counter"`
	To     string   `job:"up-to" names:"openings|runs" doc:"opening or run whose lower edge it reaches"`
	Board  string   `job:"board" names:"boards" doc:"hook board"`
	Frame  string   `job:"frame" names:"sticks|boards" doc:"stick or board of the frame"`
	Brace  *L       `job:"brace" min:"0 mm" doc:"length of feet that stand out on the counter before the board, each with a plate beside its upright, where no wall holds it" eg:"12 in"`
	Spacer *L       `job:"spacer" min:"0 mm" doc:"air behind the board for hooks"`
	Pitch  *L       `job:"hook-pitch" min:"1 mm" doc:"pitch of the board's holes"`
	Light  *Light   `job:"light" doc:"batten light"`
	Stage  string   `job:"stage" names:"stages" doc:"stage it is built in"`
	Goods  []string `job:"goods" names:"goods" doc:"goods that hang on it"`
}

// Light is a batten light.
type Light struct {
	Length L          `job:"length,required" doc:"its length"`
	Cable  *L         `job:"cable-hole" min:"1 mm" doc:"diameter of the hole for its cable; a slot as wide opens it to the upper edge of the board, so that no plug goes through it"`
	Mass   *mass.Mass `job:"weighs" doc:"its weight"`
}

// Base is a separate levelled base.
type Base struct {
	Under  []string `job:"under,required" names:"runs|cases" doc:"runs or cases that stand on it"`
	Stock  string   `job:"stock" names:"sticks|boards" doc:"stick or board it is made of; the practice's when not stated"`
	Height *L       `job:"height" min:"1 mm" doc:"at the floor's high point"`
	Recess *L       `job:"recess" min:"0 mm" doc:"behind the fronts"`
	Clears *L       `job:"back-from-wall" doc:"its rear from the wall: a curb, a pipe"`
	Rungs  *L       `job:"rungs" min:"1 mm" doc:"rungs no further apart than this"`
	Damp   string   `job:"damp" one:"treated|strip|none" doc:"how it is kept from damp; by the floor when not stated"`
	Strip  string   `job:"strip" names:"hardware|sticks" doc:"strip under it"`
	How    string   `job:"levels-by" one:"shims|taper|steps|feet" doc:"how it is levelled; by the floor when not stated"`
	Stage  string   `job:"stage" names:"stages" doc:"stage it is built in"`
}

// Machine stands on or beside a counter.
type Machine struct {
	Name       string     `job:"name" doc:"what it is"`
	Width      L          `job:"width,required" doc:"on its feet"`
	Depth      L          `job:"depth,required" doc:"on its feet"`
	Height     *L         `job:"height" doc:"overall"`
	Bed        *L         `job:"bed" doc:"its bed above its feet"`
	SwingWidth *L         `job:"swing-width" doc:"room it needs across when it works"`
	SwingDepth *L         `job:"swing-depth" doc:"room it needs in depth"`
	Longest    *L         `job:"longest-work" doc:"longest board that is worked"`
	Mass       *mass.Mass `job:"weighs" doc:"its weight"`
	Sparks     bool       `job:"sparks" doc:"throws sparks"`
	Heat       bool       `job:"heats" doc:"a source of heat or ignition"`
}

// Stage is a part of the work that is usable and safe alone.
type Stage struct {
	ID   string `job:"id,required" doc:"short name"`
	Name string `job:"name" doc:"what it brings"`
	When string `job:"when" doc:"when it is built, as the first sheet of the plan set says it"`
}

// Kept pins the sizes of a case that a maker has already cut by: its family and pattern may
// change, it does not.
type Kept struct {
	Width  *L     `job:"width" doc:"overall width it was cut to"`
	Height *L     `job:"height" doc:"overall height it was cut to"`
	Depth  *L     `job:"depth" doc:"overall depth it was cut to"`
	Note   string `job:"note" doc:"why"`
}

// Accepted is a finding that the maker accepts. Failures of wall fixing and tipping cannot be.
type Accepted struct {
	At      schema.Place
	Finding string `job:"finding,required" doc:"its code, as the check prints it in brackets" eg:"shelf-sag"`
	Place   string `job:"at,required" doc:"where, as the check prints it; everything in that place too" eg:"case/shelves/A.shelf1"`
	Because string `job:"because,required" doc:"why, for whoever reads the plan"`
}
