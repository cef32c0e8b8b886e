package cutting

import "stowright/internal/length"

// Plan is how everything is cut.
type Plan struct {
	Sheets   []Sheet    // in the order of the problem's stocks, then as cut
	Unplaced []Unplaced // what could not be cut, and why; empty for a complete plan
	Totals   Totals
	Bounds   Bounds
	Warnings []Warning
	Trade    []Choice // good plans that were found, from fewest settings to most; the plan itself included, and one with a
	// sheet more where that saves many settings; empty as long as no search for fewer settings is made
	Ways      []*Plan // the plans of Trade, to take one of them instead; nil for the plan itself
	Cancelled bool    // the search was stopped from outside before its budget was used
	Steps     int64   // search steps taken
}

// Sheet is one sheet with its pieces, and the cuts that free them.
type Sheet struct {
	Stock   string
	OnHand  bool
	L, W    length.Length
	Grain   Grain
	Pieces  []Piece
	Cuts    []Cut // in the order of Seq
	Offcuts []Offcut
	Damage  []Rect // the stock's places that no part touches
	Area    Areas
}

// Piece is a part where it lies on the sheet.
type Piece struct {
	Part   string
	Rect          // as it lies, Rect.L along x
	Turned bool   // the part's length runs along y
	Group  string // as in the part
}

// Work is the kind of work that a cut is.
type Work uint8

// In the order in which they are done.
const (
	Trimming Work = iota // taking an edge off the sheet
	Roughing             // breaking a sheet down with a hand-held saw, an allowance left on
	Recut                // cutting a rough edge to size
	Breaking             // breaking a sheet down
	Strips               // cutting strips
	Crosscut             // cutting parts off strips
)

var workNames = [...]string{"trim", "rough cut", "re-cut", "break down", "strip", "crosscut"}

func (w Work) String() string { return workNames[w] }

// Says is the name for people, who also read whether a cut is a rip or a crosscut.
func (w Work) Says() string {
	if w == Crosscut {
		return "to size"
	}
	return w.String()
}

// Cut goes from edge to edge through one piece of the sheet and parts it in two.
type Cut struct {
	Seq     int           // place in the order over all sheets, from 1
	Axis    Axis          // X: a line at one x
	At      length.Length // where the kerf begins, on the side of 0
	Kerf    length.Length // what the blade takes; less than the saw's where it runs out over an edge
	Of      Rect          // the piece that is cut
	Setting length.Length // what the fence or stop is set to: the size of what comes off, or of what remains; a part is never what is left over of it
	Stage   int           // 1 for the first direction of cutting, 2 for the next
	Work    Work
	Rank    int   // how many directions of cutting are still to come in what is cut, this one counted
	Hand    bool  // with a hand-held saw and straightedge: too wide for the fence, or a rough first cut
	Frees   []int // the pieces (index in Sheet.Pieces) that are done with this cut
	Leaves  []int // the offcuts (index in Sheet.Offcuts) that come off with it
}

// Sides gives the sizes of the piece that is cut: along the cut and across it.
func (c *Cut) Sides() (along, across length.Length) {
	if c.Axis == Y {
		return c.Of.L, c.Of.W
	}
	return c.Of.W, c.Of.L
}

// Offcut is what is left. Scrap is too small to keep.
type Offcut struct {
	Rect
	Scrap bool
	Keeps int   // the sheet of the plan, counted from 1, that it is for a later stage; 0 for none
	Value int64 // share of the sheet's price that it is worth, as Problem.Cost counts
}

// Areas of a sheet in square ticks; Parts + Offcuts + Kerf + Trim is the sheet exactly.
type Areas struct{ Parts, Offcuts, Kerf, Trim int64 }

// Unplaced is a part that the stock cannot give, wholly or in part.
type Unplaced struct {
	Part    string
	Count   int
	Why     Why
	Nearest string        // the stock that comes nearest to being large enough, or ""
	Over    length.Length // by how much the part is larger than that
	L, W    length.Length // the usable size that would do on Nearest's kind
}

// Why a part was not placed.
type Why uint8

// The reasons.
const (
	TooLarge    Why = iota // no stock that it may be cut from is large enough
	NoStock                // there is no stock that it may be cut from
	UsedUp                 // the sheets there are do not suffice, or none was found to
	Stages                 // with so few changes of the direction of cutting no way was found
	Apart                  // it belongs to a group for which no one sheet was found
	RowTooLarge            // no stock is large enough for the strip that its group comes from; L and W are the strip's
)

var whyNames = [...]string{"larger than every sheet", "no stock for it", "the stock is used up", "no way was found with so few changes of the cutting direction",
	"no one sheet was found for its group", "the row that it belongs to is larger than every sheet"}

func (w Why) String() string { return whyNames[w] }

// Totals over a plan.
type Totals struct {
	Sheets   int
	Bought   int
	Cost     int64 // of the bought sheets, as Problem.Cost counts it: money where Priced
	Priced   bool
	Yield    int // area of the parts in the area of the sheets, in 1/100 %
	Settings int // how often the fence or stop is set anew in the order of cuts
	Distinct int // how many different settings there are
	Cuts     int
	CutRun   length.Length // length of all cuts together
	Kept     int64         // value of the offcuts worth keeping, as Problem.Cost counts
}

// Bounds say how good any plan for the problem can be at best.
type Bounds struct {
	Stocks []StockBound // one for each stock of the problem
	Cost   int64        // no complete plan costs less
	Sheets int          // no complete plan uses fewer sheets, over all stocks
}

// StockBound is about one stock.
type StockBound struct {
	ID    string
	Used  int // sheets used by the plan
	Least int // no complete plan uses fewer
}

// Warning is a caution about one cut.
type Warning struct {
	Kind  Caution
	Sheet int // index in Plan.Sheets
	Seq   int // of the cut
	Mass  int64
	Size  length.Length
}

// Caution is the kind of a warning.
type Caution uint8

// The cautions.
const (
	TooHeavy  Caution = iota // the piece to be cut is heavier than one person handles
	TooNarrow                // what comes off is narrower than is safe
)

// Choice is one end of the trade between sheets, offcuts and settings.
type Choice struct {
	Sheets   int
	Cost     int64
	Settings int
	Kept     int64 // value of the offcuts worth keeping
}

// Fewest gives the plan of Trade with the fewest settings, which may take a sheet more; the plan itself where no other was found.
func (p *Plan) Fewest() *Plan {
	if len(p.Ways) == 0 || p.Ways[0] == nil {
		return p
	}
	q := *p.Ways[0]
	q.Trade, q.Steps, q.Cancelled = p.Trade, p.Steps, p.Cancelled
	return &q
}
