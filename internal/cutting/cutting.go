// Package cutting is the vocabulary of cutting plans: what has to be cut from
// what (Problem), and how it is cut (Plan). It decides nothing: cutting/solve
// finds plans, cutting/judge re-checks them, cutting/bound proves how good a
// plan can be at best.
//
// A sheet lies with its length along x and its width along y, its lower left
// corner at 0,0. A rectangle is given by that corner and its extent along x (L)
// and y (W).
package cutting

import (
	"strings"

	"stowright/internal/length"
	"stowright/internal/money"
)

// Axis is the direction in which a cut's place is measured.
type Axis uint8

// A cut on axis X stands at one x and runs along y, across the sheet's length; a cut on
// axis Y stands at one y and runs along x.
const (
	X Axis = iota
	Y
)

func (a Axis) String() string {
	if a == X {
		return "x"
	}
	return "y"
}

// Grain says how the grain of a sheet runs.
type Grain uint8

// On a sheet without grain every part may be turned.
const (
	NoGrain Grain = iota
	GrainX        // along the sheet's length
	GrainY        // along the sheet's width
)

// Lay says how a part has to lie to the grain.
type Lay uint8

// The ways to lie.
const (
	Free   Lay = iota // either way
	Along             // the part's length follows the grain
	Across            // the part's length crosses the grain
)

// Unlimited is the count of a stock that can be bought in any number.
const Unlimited = -1

// Rect is a rectangle on a sheet.
type Rect struct{ X, Y, L, W length.Length }

// Area of the rectangle in square ticks; exact for rectangles up to 70 m square.
func (r Rect) Area() int64 { return int64(r.L) * int64(r.W) }

// Kerf is the width that a blade turns to dust: X is taken out of sizes along x (by
// cuts on axis X), Y out of sizes along y. They differ where one saw rips and another crosscuts.
type Kerf struct{ X, Y length.Length }

// Trim is what is cut off each edge of a sheet before anything else, the blade's kerf included.
// 0 keeps the factory edge.
type Trim struct{ Left, Right, Bottom, Top length.Length }

// Stock is one kind of sheet. An offcut on hand is a stock of its own with a count of 1.
type Stock struct {
	ID     string
	L, W   length.Length // full size, before trimming
	Count  int           // how many there are, or Unlimited
	Price  money.Amount  // of one sheet; 0 = not known
	OnHand bool          // there already: costs nothing and is used first where that saves money
	Grain  Grain
	Trim   Trim
	Kerf   Kerf
	Damage []Rect // places that no part may touch
	Mass   int64  // grams a square metre; 0 = not known
}

// Usable is the sheet without its trims.
func (s *Stock) Usable() Rect {
	return Rect{s.Trim.Left, s.Trim.Bottom, s.L - s.Trim.Left - s.Trim.Right, s.W - s.Trim.Bottom - s.Trim.Top}
}

// InCorner gives the place of a size, such as a damaged one, in a corner of the sheet: start-near, start-far, end-near or
// end-far, start and end along its length.
func (s *Stock) InCorner(corner string, l, w length.Length) Rect {
	r := Rect{L: l, W: w}
	if strings.HasPrefix(corner, "end") {
		r.X = max(0, s.L-l)
	}
	if strings.HasSuffix(corner, "far") {
		r.Y = max(0, s.W-w)
	}
	return r
}

// Weight of a piece of this stock in grams, rounded down; 0 where the stock's mass is not known. The
// area is taken in whole mm².
func (s *Stock) Weight(r Rect) int64 {
	return r.Area() / areaUnit * s.Mass / 1_000_000
}

// Allows tells whether a part may lie on this stock as given (its length along x) and
// turned (its length along y), by grain alone.
func (s *Stock) Allows(lay Lay) (straight, turned bool) {
	if s.Grain == NoGrain || lay == Free {
		return true, true
	}
	straight = (lay == Along) == (s.Grain == GrainX)
	return straight, !straight
}

// Part is one size of part, wanted Count times.
type Part struct {
	ID     string
	L, W   length.Length // as sawn
	Count  int
	Lay    Lay
	Stocks []string // ids of the stocks it may be cut from; none = any
	Group  string   // id of the group that it belongs to, or ""
	Value  int64    // what one is worth where the stock does not suffice for all; 0 = its area in mm²
	// Later keeps room for it only: where it would lie an offcut is left, that it can be cut from another time.
	Later bool
}

// Group keeps parts together, for fronts whose figure runs on from one to the next.
type Group struct {
	ID    string
	Strip bool // side by side in one strip, in the order of Problem.Parts; otherwise only on one sheet
	Axis  Lay  // Strip only: Along = one after the other along the grain, Across = beside each other across it
}

// Limits of the person and the machines. Zero means no limit.
type Limits struct {
	Stages   int           // how many times the direction of cutting may change, the first cuts counted as 1
	Heaviest int64         // grams that one person handles; heavier pieces are warned of
	Largest  length.Length // the widest that the fence can be set; wider cuts are made with a straightedge
	Gauge    length.Length // the longest cut against a mitre gauge, of a piece too short along the fence; longer ones are made with a straightedge
	Carries  length.Length // the narrowest piece across which a straightedge lies; a narrower one goes against the gauge, wherever its cut is set
	Led      bool          // pieces heavier than Heaviest are not pushed through the saw: they are cut with a straightedge
	Narrow   length.Length // the narrowest safe rip; narrower is warned of
	Rough    *Rough        // how sheets too heavy for one person are broken down, where another saw does that; see Problem.Rough
}

// Slim reports whether a cut goes across a piece that is too narrow to carry a straightedge, so that it is made against a gauge or at a
// mitre saw.
func (l *Limits) Slim(c *Cut) bool {
	along, across := c.Sides()
	return c.Work > Recut && along < across && along < l.Carries
}

// Rough describes first cuts by a hand-held saw: pieces come off with Allowance to
// spare at each such edge and are cut to size later. Kerf is the hand-held saw's.
type Rough struct{ Kerf, Allowance length.Length }

// Rough gives how whole sheets of stock s are broken down, nil where they are cut to size at once: where
// Limits.Rough is not given, where one person handles a whole sheet, and around damaged places. Where weights
// are not known it holds for every sheet that is bought.
func (p *Problem) Rough(s *Stock) *Rough {
	switch {
	case p.Limits.Rough == nil || len(s.Damage) > 0:
		return nil
	case p.Limits.Heaviest > 0 && s.Mass > 0:
		if s.Weight(Rect{L: s.L, W: s.W}) <= p.Limits.Heaviest {
			return nil
		}
	case s.OnHand:
		return nil
	}
	return p.Limits.Rough
}

// Keep says which leftovers are worth keeping as offcuts.
type Keep struct {
	Least length.Length // smaller than this in either direction is scrap
	Area  int64         // smaller than this in square ticks is scrap
}

// Problem is what has to be cut from what.
type Problem struct {
	Stocks []Stock
	Parts  []Part
	Groups []Group
	Limits Limits
	Keep   Keep
	Seed   uint64
}

// Cost of one sheet of stock s, as a money.Amount where any bought stock has a price: a stock without
// price then counts by its area at the dearest known rate. Without any price it is the area in
// mm², at least 1. What is on hand costs nothing.
func (p *Problem) Cost(s int) int64 {
	st := &p.Stocks[s]
	if st.OnHand {
		return 0
	}
	if st.Price > 0 {
		return int64(st.Price)
	}
	rate := 0.0
	for i := range p.Stocks {
		if o := &p.Stocks[i]; !o.OnHand && o.Price > 0 {
			rate = max(rate, float64(o.Price)/float64(int64(o.L)*int64(o.W)))
		}
	}
	if rate > 0 {
		return max(1, int64(float64(int64(st.L)*int64(st.W))*rate+0.5))
	}
	return max(1, int64(st.L)*int64(st.W)/areaUnit)
}

// areaUnit is 1 mm² in square ticks: the coin where no price is known.
const areaUnit = int64(length.MM) * int64(length.MM)

// Worth is what one part is worth where the stock does not suffice for all.
func (pt *Part) Worth() int64 {
	if pt.Value > 0 {
		return pt.Value
	}
	return max(1, int64(pt.L)*int64(pt.W)/areaUnit)
}

// Priced tells whether all bought stocks that can be used have a price, so that costs are money.
func (p *Problem) Priced() bool {
	for i := range p.Stocks {
		if s := &p.Stocks[i]; !s.OnHand && s.Count != 0 && s.Price == 0 {
			return false
		}
	}
	return true
}
