// Package stock is the vocabulary of what a shop buys, owns and goes by: boards, sticks,
// edging, hardware, goods and practices, each with the source of its figures. Shipped
// catalogues are text in the same format as a job (see embed.go) and a job may override any
// entry. The package knows nothing of cases.
//
// Tags: `job` names the key in a file, `doc` is the one description used for the schema and
// for help, `names` says what the text must be a name of: "boards", "hardware/hinge" for one
// kind of hardware, "sticks|boards" for either, "=floor" for the word itself.
package stock

import (
	"cmp"
	"stowright/internal/length"
	"stowright/internal/mass"
	"stowright/internal/money"
)

type (
	L    = length.Length
	Mass = mass.Mass
)

// Board is a kind of sheet goods as it lies in the shop.
type Board struct {
	ID        string        `job:"-"`
	Name      string        `job:"name" doc:"what a shop calls it"`
	Material  string        `job:"material" names:"materials" doc:"name of a material in the shipped table of properties" eg:"birch-plywood"`
	Nominal   L             `job:"called" doc:"thickness by name" eg:"3/4 in"`
	Thickness L             `job:"measures" doc:"measured thickness; every part, groove and hole follows it" eg:"0.705 in"`
	Length    L             `job:"length" doc:"one side of the sheet"`
	Width     L             `job:"width" doc:"the other side of the sheet"`
	Grain     string        `job:"grain" one:"along-length|along-width|none" default:"along-length" doc:"which side of the sheet the face grain runs along"`
	Price     *money.Amount `job:"price" doc:"price of one sheet"`
	OnHand    int           `job:"on-hand" min:"0" max:"10000" doc:"whole sheets already in the shop"`
	Trim      *L            `job:"trim" doc:"taken off every factory edge that is used; the practice says otherwise"`
	Damaged   []Damage      `job:"damaged" doc:"spoilt corners or places on sheets on hand, one sheet each"`
	Offcuts   []Offcut      `job:"offcuts" doc:"usable pieces on hand"`
	Source    string        `job:"source" doc:"where the figures come from"`
}

// Damage is a rectangle of a sheet on hand that must not be used.
type Damage struct {
	Corner string `job:"corner" one:"start-near|start-far|end-near|end-far" default:"start-near" doc:"corner of the sheet, start and end along its length"`
	Length L      `job:"length,required" doc:"along the sheet's length"`
	Width  L      `job:"width,required" doc:"along the sheet's width"`
}

// Offcut is a usable piece on hand.
type Offcut struct {
	Length L      `job:"length,required" doc:"one side"`
	Width  L      `job:"width,required" doc:"the other side"`
	Grain  string `job:"grain" one:"along-length|along-width|none" default:"along-length" doc:"which side the face grain runs along"`
	Count  int    `job:"count" min:"1" max:"1000" default:"1" doc:"how many"`
}

// Stick is solid lumber bought by the length.
type Stick struct {
	ID        string        `job:"-"`
	Name      string        `job:"name" doc:"what a yard calls it"`
	Species   string        `job:"species" names:"species" doc:"name in the shipped table of species" eg:"sugar-maple"`
	Thickness L             `job:"thickness" doc:"dressed thickness"`
	Width     L             `job:"width" doc:"dressed width"`
	Length    L             `job:"length" doc:"length as sold"`
	Price     *money.Amount `job:"price" doc:"price of one"`
	OnHand    int           `job:"on-hand" min:"0" max:"10000" doc:"already in the shop"`
	Treated   bool          `job:"treated" doc:"preservative treated, fit to lie on a slab"`
	Source    string        `job:"source" doc:"where the figures come from"`
}

// Edging is banding by the length.
type Edging struct {
	ID        string        `job:"-"`
	Name      string        `job:"name" doc:"what a shop calls it"`
	Thickness L             `job:"thickness" doc:"added to the edge"`
	Width     L             `job:"width" doc:"width as sold"`
	Roll      L             `job:"roll" doc:"length of one roll or pack"`
	Price     *money.Amount `job:"price" doc:"price of one roll"`
	Deduct    *bool         `job:"deduct" doc:"whether parts are sawn smaller by it; by default from 0.8 mm up; doors and drawer fronts always are, for their gaps"`
	Source    string        `job:"source" doc:"where the figures come from"`
}

// Sunk reports whether a thing is a screw with a flat head, for which its hole is countersunk: those for wood, for
// joining sides and for construction are (common practice, no source); those for walls, slides, fronts and pockets
// have heads that lie on the wood.
func (h Hardware) Sunk() bool {
	return h.Kind == "screw" && (h.Use == "wood" || h.Use == "joining" || h.Use == "floor")
}

// What a joining bolt has beside the boards that it holds, in its diameters: a washer under its head, and a washer and a nut at
// its other end. Nuts are 7/32 in high for 1/4 in (ASME B18.2.2, as tabled by a seller of nuts) and 6.8 mm for M8 (ISO 4032,
// from memory), washers 0.065 in and 1.6 mm thick (from memory).
func (h Hardware) Washer() L { return h.Dia * 26 / 100 }

// Nut is how high the nut of a bolt is.
func (h Hardware) Nut() L { return h.Dia * 9 / 10 }

// Clamps reports whether a bolt for joining is long enough for boards so thick together: its nut has all of its thread.
func (h Hardware) Clamps(grip L) bool {
	return h.Kind == "bolt" && h.Use == "joining" && h.Length >= grip+2*h.Washer()+h.Nut()
}

// Hardware is anything bought by the piece. Kind says which of the further fields matter.
type Hardware struct {
	ID     string        `job:"-"`
	Kind   string        `job:"kind" one:"hinge|plate|slide|screw|anchor|pin|foot|castor|handle|lock|rail-flange|hook|dowel|insert|bolt|light|glue|finish|tape|clip|shim|ballast|sandpaper|bit|other" doc:"what sort of thing it is"`
	Name   string        `job:"name" doc:"what a shop calls it, without a brand"`
	Price  *money.Amount `job:"price" doc:"price of one pack"`
	Pack   int           `job:"pack" min:"1" default:"1" doc:"how many in a pack"`
	Least  int           `job:"least" min:"1" default:"1" doc:"least number of packs that can be bought"`
	OnHand int           `job:"on-hand" min:"0" doc:"pieces already in the shop"`
	Mass   *Mass         `job:"mass" doc:"weight of one"`
	Source string        `job:"source" doc:"where the figures come from"`
	Sold   string        `job:"sold-in" one:"in|mm|both" default:"both" doc:"shops it is usual in: inch, metric, or both"`

	// Screws, bolts, anchors, dowels, pins.
	Dia       L      `job:"diameter" doc:"nominal diameter"`
	Root      L      `job:"root" doc:"diameter at the root of the thread"`
	Head      L      `job:"head" doc:"diameter of the head"`
	Length    L      `job:"length" doc:"length of a screw, dowel or pin"`
	Gauge     int    `job:"gauge" doc:"screw number"`
	Use       string `job:"use" doc:"what the screw is for; packing for flat packers that go behind what is screwed to a wall" one:"pocket|connecting|wood|wall|joining|slide|hinge|front|anchor|steel-stud|floor|packing"`
	Pilot     L      `job:"pilot" doc:"hole in the piece that takes the thread"`
	Clearance L      `job:"clearance" doc:"hole in the piece that the shank passes"`

	// Hinges: overlay = constant + boring - plate.
	Overlay      L     `job:"overlay-constant" doc:"overlay at boring distance 0 and plate height 0"`
	Boring       L     `job:"boring" doc:"cup edge to door edge"`
	Plate        L     `job:"plate" doc:"height of the plate"`
	Plates       []L   `job:"plates" doc:"heights of plates sold"`
	BoringLeast  L     `job:"boring-least" doc:"least boring distance"`
	BoringMost   L     `job:"boring-most" doc:"greatest boring distance"`
	CupDia       L     `job:"cup" doc:"diameter of the cup"`
	CupDepth     L     `job:"cup-depth" doc:"depth of the cup"`
	CupScrews    L     `job:"cup-screws" doc:"distance between the two cup screws"`
	CupScrewBack L     `job:"cup-screw-back" doc:"from the cup's centre line back to its screws"`
	PlateRow     L     `job:"plate-row" doc:"plate screws behind the carcass edge"`
	PlatePitch   L     `job:"plate-pitch" doc:"between the two plate screws"`
	Opens        int   `job:"opens" doc:"opening angle, degrees" min:"60" max:"180"`
	Rating       *Mass `job:"rating" doc:"most it may carry: a pair of slides, one foot, one castor, one pin, a hook, an anchor"`

	// Slides.
	SlideKind  string `job:"mount" one:"side|under" doc:"beside the box or under it"`
	Lengths    []L    `job:"lengths" doc:"lengths sold"`
	Section    L      `job:"section" doc:"thickness of a side slide, or what an under slide needs beside the box"`
	SideRoom   L      `job:"side-room" doc:"from the opening's wall to the outside of the box, each side (side) or to the inside of the box (under)"`
	Height     L      `job:"height" doc:"height of the slide's section, or overall height of a foot or castor at its least"`
	Extends    string `job:"extends" one:"full|three-quarter" doc:"how far it comes out"`
	RatedTo    L      `job:"rated-to" doc:"widest drawer or tray for which their maker gives the rating in full; without it the rating counts for less where one is wider than the slides are long, or 24 in and more"`
	ScrewsEach int    `job:"screws-each" doc:"screws for one member"`

	// Feet and castors.
	Greatest L      `job:"greatest" doc:"height at its greatest"`
	TurnFrom string `job:"turned-from" doc:"how it is turned once the case is in place" one:"front|above|beside"`
	Insert   string `job:"insert" names:"hardware/insert" doc:"threaded insert that its bolt turns in, one for each foot"`
	Swivel   L      `job:"swivel" doc:"radius a castor's wheel needs to turn in"`
	Locks    bool   `job:"locks" doc:"whether it has a brake"`
	Alike    bool   `job:"alike" doc:"locks that all have one key"`
	// Tubes for hanging rails; length and mass are of one as sold, and mass goes with length.
	Tube    L     `job:"tube-wall" doc:"thickness of a tube's wall"`
	Modulus Ratio `job:"modulus" doc:"a tube's modulus, MPa"`
	Yield   Ratio `job:"yield" doc:"a tube's yield strength, MPa"`

	Coverage string `job:"coverage" doc:"what one pack covers: an area for finish and glue, a length for tape" eg:"12 m2"`
}

// Size gives the length by which hardware of an id and a kind is told from others, which is as long as said: what is sold in
// lengths, rails, which are sawn to theirs, and locks, whose cams reach so far; 0 for what has one length, which nobody chooses.
func (c Catalogue) Size(id, kind string, long L) L {
	if x, ok := c.Item(id); ok && len(x.Lengths) == 0 && kind != "rail" && kind != "lock" {
		return 0
	}
	return long
}

// Sized says what behind its name tells hardware of one size from that of another.
func (h Hardware) Sized(size L, u length.Unit) string {
	if h.Kind == "lock" {
		return ", its cam reaching " + size.In(u)
	}
	return ", " + size.In(u)
}

// Goods is a kind of thing to be stored.
type Goods struct {
	ID      string   `job:"-"`
	Name    string   `job:"name" doc:"what it is called"`
	Like    string   `job:"like" names:"containers" doc:"a shipped container that it is like: size and weight come from there" eg:"quart-can"`
	Count   int      `job:"count" min:"1" max:"10000" doc:"how many"`
	Dia     *L       `job:"diameter" doc:"round things: across"`
	Wide    *L       `job:"width" doc:"left to right as it is stored"`
	Deep    *L       `job:"depth" doc:"front to back as it is stored"`
	Tall    *L       `job:"height" doc:"upwards as it is stored"`
	Each    *Mass    `job:"weighs" doc:"one of them, full"`
	Used    string   `job:"used" one:"daily|weekly|monthly|seasonal|not-known" default:"not-known" doc:"how often it is reached for"`
	Lies    string   `job:"lies" one:"any|upright|flat|on-edge|on-end|hung|rolled" default:"any" doc:"how it may be stored"`
	Hazards []string `job:"hazards" one:"flammable|corrosive|toxic|pyrotechnic|fuelled|charging|sparks|oily|sharp|medical" doc:"what could hurt"`
	Locked  bool     `job:"locked" doc:"must be behind a lock"`
	Place   string   `job:"place" names:"cases|counters|hutches|standing|=bench|=floor|=bracket|=rail|=hook|=open" doc:"where it must or does go: bench, floor, bracket, rail, hook, open, or the id of a case, counter, hutch or standing thing" eg:"bench"`
	Below   *L       `job:"below" doc:"no higher than this above the floor"`
	Above   *L       `job:"above" doc:"no lower than this above the floor"`
	Apart   []string `job:"apart-from" names:"goods|=flammable|=corrosive|=toxic|=pyrotechnic|=fuelled|=charging|=sparks|=oily|=sharp|=medical" doc:"goods or hazards that must not be in the same case"`
	Hooks   int      `job:"hooks" min:"1" max:"20" doc:"how many hooks of a hook board one of them hangs on; 1 when it says nothing"`
	Stack   int      `job:"stack" min:"1" max:"100" doc:"how many may stand on each other; 1 when it says nothing"`
	Group   string   `job:"with" names:"goods" doc:"goods that it is kept with"`
	Source  string   `job:"source" doc:"where the figures come from"`
}

// Tool is a machine or hand tool that a shop has.
type Tool struct {
	ID      string `job:"-"`
	Kind    string `job:"kind" one:"table-saw|track-saw|circular-saw|panel-saw|mitre-saw|router|router-table|drill|drill-press|pocket-jig|dowel-jig|biscuit-jointer|planer|hand" doc:"what it is"`
	Name    string `job:"name" doc:"how the steps call it"`
	Kerf    *L     `job:"kerf" doc:"width of the cut"`
	Rip     *L     `job:"rip" doc:"widest rip against its fence"`
	Bevels  bool   `job:"bevels" doc:"can saw a bevel"`
	Grooves bool   `job:"grooves" doc:"can make a groove, rabbet or dado"`
}

// Practice is a shop's own rules.
type Practice struct {
	ID   string `job:"-"`
	Name string `job:"name" doc:"what the practice is called"`
	Unit string `job:"unit" one:"in|mm" doc:"what a bare number means and what paper prints"`

	Joint          string `job:"joint" one:"pocket-screw|connecting-screw|dowel|dado|wood-screw" doc:"how carcass boards are held together"`
	JointElse      string `job:"joint-where-it-cannot-go" one:"pocket-screw|connecting-screw|dowel|dado|wood-screw" doc:"joint for places the first one does not fit"`
	JointFirst     L      `job:"joint-first" doc:"first fastener from the end of a joint"`
	JointPitch     L      `job:"joint-pitch" doc:"fasteners no further apart than this"`
	BackScrews     L      `job:"back-screws" doc:"screws round an applied back or a hook board no further apart than this; 150 mm (6 in) for backs and 400 mm (16 in) for hook boards when not stated"`
	JointLeast     int    `job:"joint-least" min:"1" max:"20" doc:"fewest fasteners in a joint"`
	Glue           bool   `job:"glue" doc:"whether joints are glued too"`
	DadoDepth      L      `job:"dado-depth" doc:"depth of a dado or of a groove for a back"`
	Back           string `job:"back" one:"captured|applied|full|none" doc:"how a back is held"`
	BackSetback    L      `job:"back-setback" doc:"groove for a captured back from the rear edge"`
	Top            string `job:"top" one:"full|stretchers" doc:"top of a floor case"`
	StretcherWidth L      `job:"stretcher-width" doc:"width of top stretchers"`
	RailWidth      L      `job:"rail-width" doc:"width of hang rails"`

	FrontGap    L `job:"front-gap" doc:"between neighbouring fronts"`
	SideGap     L `job:"side-gap" doc:"from a front's edge to the carcass's outer side"`
	TopGap      L `job:"top-gap" doc:"from the highest front to the carcass's top"`
	BottomGap   L `job:"bottom-gap" doc:"from the lowest front to the carcass's bottom"`
	DoorAir     L `job:"door-air" doc:"between a front's back and the carcass edge"`
	LeastMargin L `job:"least-margin" doc:"least wood between a hole and an edge it runs along"`

	GridPitch    L  `job:"grid-pitch" doc:"shelf holes, one above the other"`
	GridFront    L  `job:"grid-front" doc:"front row of shelf holes from the front edge"`
	GridRear     L  `job:"grid-rear" doc:"rear row from the rear of the clear depth, at least"`
	GridStep     *L `job:"grid-step" doc:"rear row a whole number of these behind the front row; free when not stated"`
	GridEnds     L  `job:"grid-ends" doc:"no holes nearer the bottom and top than this"`
	PinDia       L  `job:"pin" doc:"shelf pin hole"`
	PinDepth     L  `job:"pin-depth" doc:"depth of a shelf pin hole"`
	ShelfEnd     L  `job:"shelf-end" doc:"room at each end of a loose shelf"`
	ShelfSetback L  `job:"shelf-setback" doc:"loose shelf behind the carcass front"`

	BoxJoint       string `job:"box-joint" one:"butt-screw|pocket-screw|rabbet|lock-rabbet|finger|dowel" doc:"corner joint of drawer boxes"`
	BoxSide        string `job:"box-side" names:"boards" doc:"board for drawer sides"`
	BoxBottom      string `job:"box-bottom" names:"boards" doc:"board for drawer bottoms"`
	BoxBottomHeavy string `job:"box-bottom-heavy" names:"boards" doc:"board for wide or heavy drawer bottoms"`
	BoxGroove      L      `job:"box-groove" doc:"depth of the groove for a bottom"`
	BoxGrooveUp    L      `job:"box-groove-up" doc:"lower edge of the groove above the box's lower edge"`
	BoxBottomHow   string `job:"box-bottom-how" one:"grooved|under" doc:"bottom in a groove, or screwed under"`
	BoxUnder       L      `job:"box-under" doc:"room under a drawer box in its opening"`
	BoxOver        L      `job:"box-over" doc:"room over a drawer box in its opening"`

	Case       string `job:"case-board" names:"boards" doc:"board for carcasses"`
	FrontBoard string `job:"front-board" names:"boards" doc:"board for fronts"`
	BackBoard  string `job:"back-board" names:"boards" doc:"board for backs"`
	ShelfBoard string `job:"shelf-board" names:"boards" doc:"board for shelves"`
	Edging     string `job:"edging" names:"edgings" doc:"edging for front edges"`
	BandAll    bool   `job:"band-fronts-all-round" doc:"fronts banded on four edges"`
	Hinge      string `job:"hinge" names:"hardware/hinge" doc:"hinge for overlay doors"`
	Slide      string `job:"slide" names:"hardware/slide" doc:"slide for drawers and trays"`
	Pin        string `job:"shelf-pin" names:"hardware/pin" doc:"shelf pin"`
	Foot       string `job:"foot" names:"hardware/foot" doc:"adjustable foot"`
	Castor     string `job:"castor" names:"hardware/castor" doc:"castor"`
	Handle     string `job:"handle" names:"hardware/handle" doc:"handle"`
	Lock       string `job:"lock" names:"hardware/lock" doc:"lock"`

	RackSide   string `job:"rack-board" names:"boards" doc:"board for door racks"`
	StripStick string `job:"strip" names:"sticks" doc:"stick for rails, edging and lips"`
	BaseStick  string `job:"base-stick" names:"sticks|boards" doc:"stick or board for a separate base"`

	Tools          []Tool `job:"-"`
	Paper          string `job:"-"` // "in" or "mm": what findings print; the shop's unit when empty
	Bits           []L    `job:"bits" doc:"drill bits owned, by diameter"`
	HoleSaws       []L    `job:"hole-saws" doc:"hole saws and large bits owned, by diameter"`
	Trim           L      `job:"trim" doc:"taken off every factory edge that is used"`
	RoughAllowance L      `job:"rough-allowance" doc:"left on by first cuts with a hand-held saw"`

	Sag             int          `job:"sag-limit" min:"60" max:"1000" default:"240" doc:"a shelf may sag its span divided by this"`
	ShelfLoad       mass.PerArea `job:"shelf-load" doc:"load on a shelf whose goods are not given"`
	CounterLoad     mass.PerArea `job:"counter-load" doc:"load on a counter"`
	DrawerLoad      mass.PerArea `job:"drawer-load" doc:"load in a drawer whose goods are not given"`
	Lift            mass.Mass    `job:"one-person-lift" doc:"heaviest piece one person handles alone"`
	Clearance       L            `job:"gap-clearance" doc:"taken from the smallest measured gap when a case goes between two others"`
	Spares          int          `job:"spares" min:"0" max:"100" doc:"screws and pins bought over, percent"`
	Coats           int          `job:"coats" min:"0" max:"10" doc:"coats of finish on a carcass"`
	CoatsTop        int          `job:"coats-top" min:"0" max:"10" doc:"coats of finish on a counter"`
	Finish          string       `job:"finish" names:"hardware/finish" doc:"finish"`
	GlueStock       string       `job:"glue-stock" names:"hardware/glue" doc:"glue"`
	WallScrew       string       `job:"wall-screw" names:"hardware/screw" doc:"screw that holds hang rails to studs"`
	LeastThread     L            `job:"thread-in-stud" doc:"least thread in a stud"`
	ShimMost        L            `job:"shim-most" doc:"a base is tapered or stepped where shims would pass this"`
	CounterOverhang L            `job:"counter-overhang" doc:"counter past the fronts"`
	CounterBlocking L            `job:"counter-blocking" doc:"blocking under a counter of one layer no further apart than this"`
}

// InInches reports whether findings print inches: by the unit of the paper, else by the shop's.
func (p Practice) InInches() bool { return cmp.Or(p.Paper, p.Unit) == "in" }
