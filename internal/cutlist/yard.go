package cutlist

import (
	"fmt"
	"slices"
	"strings"

	"stowright/internal/cutting"
	"stowright/internal/length"
	"stowright/internal/order"
	"stowright/internal/part"
	"stowright/internal/stock"
)

// Yard is the stock of a shop while the stages of a job are sawn one after the other: what is on hand is
// used up, and what one stage leaves is there for the next.
type Yard struct {
	cat    stock.Catalogue
	pr     stock.Practice
	used   map[string]int             // sheets of a limited stock, by its id
	left   map[string][]cutting.Stock // of sheets, by board
	number int                        // of leftovers named so far
	sticks rack
}

// NewYard gives the stock before anything is sawn.
func NewYard(cat stock.Catalogue, pr stock.Practice) *Yard {
	return &Yard{cat: cat, pr: pr, used: map[string]int{}, left: map[string][]cutting.Stock{}, sticks: rack{used: map[string]int{}, left: map[string][]L{}}}
}

// LeftOver reports whether a stock of a cutting problem is what an earlier stage has left of a sheet.
func LeftOver(stockID string) bool { return strings.Contains(stockID, "/left-") }

// From says where a sheet of a plan comes from, and that it is a damaged one.
func From(s cutting.Sheet) string {
	from := "bought"
	switch {
	case LeftOver(s.Stock):
		from = "left by an earlier stage"
	case s.OnHand:
		from = "on hand"
	}
	if len(s.Damage) > 0 {
		from += ", damaged"
	}
	return from
}

// LeftOvers counts the pieces among a plan's sheets that an earlier stage leaves.
func LeftOvers(sheets []cutting.Sheet) (n int) {
	for _, s := range sheets {
		if LeftOver(s.Stock) {
			n++
		}
	}
	return n
}

// Counted says how many sheets a plan cuts, and how many pieces beside them that an earlier stage leaves.
func Counted(sheets []cutting.Sheet) string {
	count := func(n int, what string) string {
		if n != 1 {
			what += "s"
		}
		return fmt.Sprintf("%d %s", n, what)
	}
	over := LeftOvers(sheets)
	text := count(len(sheets)-over, "sheet")
	if over > 0 {
		text += " and " + count(over, "piece") + " that an earlier stage leaves"
	}
	return text
}

// Sheets gives the cutting problem of the next stage, as the function Sheets does for a job without stages.
func (y *Yard) Sheets(parts []part.Part, seed uint64) (cutting.Problem, Sizes) {
	p, sizes := Sheets(parts, y.cat, y.pr, seed)
	var all []cutting.Stock
	ids := map[string][]string{}
	seen := map[string]bool{}
	for _, s := range p.Stocks {
		if s.Count != cutting.Unlimited {
			s.Count = max(0, s.Count-y.used[s.ID])
		}
		if b := Board(s.ID); !seen[b] {
			seen[b] = true
			for _, l := range y.left[b] {
				all = append(all, l)
				ids[b] = append(ids[b], l.ID)
			}
		}
		all = append(all, s)
	}
	p.Stocks = all
	for i := range p.Parts {
		if of := p.Parts[i].Stocks; len(of) > 0 {
			p.Parts[i].Stocks = append(slices.Clone(of), ids[Board(of[0])]...)
		}
	}
	return p, sizes
}

// Spare adds to the problem of a stage parts of later ones that room is kept for, where it cuts from their boards.
func (y *Yard) Spare(p *cutting.Problem, later []part.Part) {
	of := map[string][]string{} // stocks of the stage, by board
	for _, s := range p.Stocks {
		of[Board(s.ID)] = append(of[Board(s.ID)], s.ID)
	}
	q, _ := Sheets(later, y.cat, y.pr, p.Seed)
	for _, x := range q.Parts {
		x.Stocks = of[Board(x.Stocks[0])]
		if len(x.Stocks) > 0 {
			x.ID, x.Group, x.Later = "later "+x.ID, "", true
			p.Parts = append(p.Parts, x)
		}
	}
}

// Take takes what a plan uses out of the yard and lays its offcuts there.
func (y *Yard) Take(p *cutting.Problem, plan cutting.Plan) {
	of := map[string]*cutting.Stock{}
	for i := range p.Stocks {
		of[p.Stocks[i].ID] = &p.Stocks[i]
	}
	for _, s := range plan.Sheets {
		b := Board(s.Stock)
		y.used[s.Stock]++
		y.left[b] = slices.DeleteFunc(y.left[b], func(l cutting.Stock) bool { return l.ID == s.Stock })
	}
	for _, s := range plan.Sheets {
		st, b := of[s.Stock], Board(s.Stock)
		for _, o := range s.Offcuts {
			if o.Scrap || st == nil {
				continue
			}
			y.number++
			l := cutting.Stock{ID: fmt.Sprintf("%s/left-%d", b, y.number), L: o.L, W: o.W, Count: 1, OnHand: true, Grain: st.Grain, Kerf: st.Kerf, Mass: st.Mass}
			if r := p.Rough(st); r != nil {
				l.Trim = RoughEdges(s.Cuts, o.Rect, r.Allowance)
			}
			for _, d := range st.Damage {
				if x, ok := within(d, o.Rect); ok {
					l.Damage = append(l.Damage, x)
				}
			}
			y.left[b] = append(y.left[b], l)
		}
	}
}

// RoughEdges gives what is to be trimmed off an offcut, on the edges where a rough cut has left it: what is left on there
// for a part.
func RoughEdges(cuts []cutting.Cut, o cutting.Rect, allowance L) (t cutting.Trim) {
	for _, c := range cuts {
		switch {
		case c.Work != cutting.Roughing || !meets(c.Of, o):
		case c.Axis == cutting.X && c.At+c.Kerf == o.X:
			t.Left = allowance
		case c.Axis == cutting.X && c.At == o.X+o.L:
			t.Right = allowance
		case c.Axis == cutting.Y && c.At+c.Kerf == o.Y:
			t.Bottom = allowance
		case c.Axis == cutting.Y && c.At == o.Y+o.W:
			t.Top = allowance
		}
	}
	return t
}

func meets(a, b cutting.Rect) bool {
	return a.X < b.X+b.L && b.X < a.X+a.L && a.Y < b.Y+b.W && b.Y < a.Y+a.W
}

// within gives the part of a rectangle that lies in another, from that one's corner; false for none.
func within(d, in cutting.Rect) (cutting.Rect, bool) {
	x0, y0 := max(d.X, in.X), max(d.Y, in.Y)
	x1, y1 := min(d.X+d.L, in.X+in.L), min(d.Y+d.W, in.Y+in.W)
	return cutting.Rect{X: x0 - in.X, Y: y0 - in.Y, L: x1 - x0, W: y1 - y0}, x1 > x0 && y1 > y0
}

// Sticks lays the parts of the next stage out on sticks: on what earlier stages have left, on sticks on hand,
// on sticks to buy.
func (y *Yard) Sticks(parts []part.Part) ([]Stick, []Unfit) {
	return sticks(parts, y.cat, y.pr, &y.sticks)
}

// Join makes one problem and one plan of those of stages that follow each other in one yard. Bounds are
// summed up: no plan does better that leaves the same to each stage.
func Join(problems []cutting.Problem, plans []cutting.Plan) (cutting.Problem, cutting.Plan) {
	if len(plans) == 1 {
		return problems[0], plans[0]
	}
	var p cutting.Problem
	var plan cutting.Plan
	at := map[string]int{}
	least := map[string]int{}
	passed := map[string]bool{} // leftovers that a later stage uses
	for i, q := range problems {
		if i == 0 {
			p = q
			p.Stocks, p.Parts, p.Groups = nil, nil, nil
		}
		for _, s := range q.Stocks {
			if _, ok := at[s.ID]; !ok {
				at[s.ID] = len(p.Stocks)
				p.Stocks = append(p.Stocks, s)
			}
		}
		p.Parts, p.Groups = append(p.Parts, q.Parts...), append(p.Groups, q.Groups...)
		x := plans[i]
		sheets, cuts := len(plan.Sheets), plan.Totals.Cuts
		for _, s := range x.Sheets {
			s.Cuts = slices.Clone(s.Cuts)
			for k := range s.Cuts {
				s.Cuts[k].Seq += cuts
			}
			passed[s.Stock] = passed[s.Stock] || LeftOver(s.Stock)
			plan.Sheets = append(plan.Sheets, s)
		}
		for _, w := range x.Warnings {
			w.Sheet, w.Seq = w.Sheet+sheets, w.Seq+cuts
			plan.Warnings = append(plan.Warnings, w)
		}
		plan.Unplaced = append(plan.Unplaced, x.Unplaced...)
		plan.Cancelled = plan.Cancelled || x.Cancelled
		plan.Steps += x.Steps
		plan.Totals.Cuts += x.Totals.Cuts
		plan.Totals.CutRun += x.Totals.CutRun
		plan.Totals.Kept += x.Totals.Kept
		plan.Bounds.Cost += x.Bounds.Cost
		plan.Bounds.Sheets += x.Bounds.Sheets
		for _, b := range x.Bounds.Stocks {
			least[b.ID] += b.Least
		}
	}
	t := &plan.Totals
	t.Priced = p.Priced()
	used := map[string]int{}
	settings := map[L]bool{}
	var parts, area float64
	var steps []step
	for _, s := range plan.Sheets {
		t.Sheets++
		used[s.Stock]++
		t.Cost += p.Cost(at[s.Stock])
		if !s.OnHand {
			t.Bought++
		}
		if !LeftOver(s.Stock) {
			area += float64(s.L) * float64(s.W)
		}
		parts += float64(s.Area.Parts)
		for _, c := range s.Cuts {
			settings[c.Setting] = true
			steps = append(steps, step{c.Seq, c.Setting, c.Hand, s.Stock})
		}
	}
	if area > 0 {
		t.Yield = int(parts/area*10000 + 0.5)
	}
	t.Distinct = len(settings)
	order.Stable(steps, func(a, b step) int { return a.seq - b.seq })
	for i, s := range steps {
		if i == 0 || s.setting != steps[i-1].setting || s.hand != steps[i-1].hand || s.stock != steps[i-1].stock {
			t.Settings++
		}
	}
	for _, s := range p.Stocks {
		plan.Bounds.Stocks = append(plan.Bounds.Stocks, cutting.StockBound{ID: s.ID, Used: used[s.ID], Least: least[s.ID]})
	}
	keep(plan.Sheets)
	return p, plan
}

// keep tells of every offcut that a later stage is cut from which sheet it is: each of those is the first that is left of its
// size.
func keep(sheets []cutting.Sheet) {
	near := func(a, b L) bool { return (a - b).Abs() < length.MM }
	for i := range sheets {
		sheets[i].Offcuts = slices.Clone(sheets[i].Offcuts)
	}
	for k, later := range sheets {
		if !LeftOver(later.Stock) {
			continue
		}
	find:
		for _, s := range sheets[:k] {
			if Board(s.Stock) != Board(later.Stock) {
				continue
			}
			for n := range s.Offcuts {
				o := &s.Offcuts[n]
				if !o.Scrap && o.Keeps == 0 && (near(o.L, later.L) && near(o.W, later.W) || near(o.L, later.W) && near(o.W, later.L)) {
					o.Keeps = k + 1
					break find
				}
			}
		}
	}
}

// step is one cut as the person at the saw meets it.
type step struct {
	seq     int
	setting L
	hand    bool
	stock   string
}
