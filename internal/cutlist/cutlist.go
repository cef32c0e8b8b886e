// Package cutlist turns the parts of a job into what the saws have to do: identical parts
// grouped, a cutting problem for sheets, and sticks crosscut from lengths. It finds no
// cutting plan itself; marks are given to the pieces of a plan afterwards.
package cutlist

import (
	"fmt"
	"slices"
	"strings"

	"stowright/internal/cutting"
	"stowright/internal/length"
	"stowright/internal/mass"
	"stowright/internal/money"
	"stowright/internal/part"
	"stowright/internal/stock"
)

// L is a length.
type L = length.Length

// mostGauge is the longest cut that is made against a mitre gauge: a wider piece hangs off the front of the table before the
// blade meets it (common practice, no source).
const mostGauge = 24 * length.Inch

// Sheets gives the cutting problem for all parts cut from sheets. Identical sizes are one
// part of the problem; Marks gives the marks back. It panics at a part with no size, which no maker can have asked for.
func Sheets(parts []part.Part, cat stock.Catalogue, pr stock.Practice, seed uint64) (cutting.Problem, Sizes) {
	saw := BreakDown(pr)
	rip, cross := saw.Kerf, saw.Kerf
	p := cutting.Problem{Seed: seed, Keep: cutting.Keep{Least: 100 * length.MM, Area: int64(500*length.MM) * int64(100*length.MM)}}
	p.Limits.Heaviest = int64(pr.Lift) / int64(mass.Mass(1_000_000))
	hand := handSaw(pr)
	if !hasPanelSaw(pr) {
		for _, t := range pr.Tools {
			if t.Kind == "table-saw" && t.Rip != nil {
				p.Limits.Largest = max(p.Limits.Largest, *t.Rip)
			}
		}
		if p.Limits.Largest > 0 && Led(pr) != handHeld {
			p.Limits.Gauge, p.Limits.Led, p.Limits.Carries = mostGauge, true, LeastHeld
		}
		if hand != nil && p.Limits.Largest > 0 && pr.RoughAllowance > 0 {
			p.Limits.Rough = &cutting.Rough{Kerf: *hand.Kerf, Allowance: pr.RoughAllowance}
		}
	}
	p.Limits.Narrow = 19 * length.MM // narrower strips are cut on the far side of the blade: common practice, no source

	sizes := Sizes{}
	strips := matched{}
	used := map[string]bool{}
	for _, q := range parts {
		if q.Material != part.Board {
			continue
		}
		used[q.Stock] = true
		c := q.Cut()
		if c[0] <= 0 || c[1] <= 0 {
			panic(fmt.Sprintf("cutlist: %s of %s is to be cut %d by %d", q.Name, q.Owner, c[0], c[1]))
		}
		lay := cutting.Along
		switch q.Grain {
		case part.Across:
			lay = cutting.Across
		case part.Free:
			lay = cutting.Free
		}
		group := strips.of(q, c, cat, rip, pr.Trim)
		k := sizeKey{q.Stock, c[0], c[1], lay, group}
		i, ok := sizes.at[k]
		if !ok {
			if sizes.at == nil {
				sizes.at = map[sizeKey]int{}
			}
			i = len(p.Parts)
			sizes.at[k] = i
			p.Parts = append(p.Parts, cutting.Part{ID: q.Mark, L: c[0], W: c[1], Lay: lay, Stocks: stockIDs(cat, q.Stock), Group: group})
			sizes.marks = append(sizes.marks, nil)
		}
		p.Parts[i].Count++
		sizes.marks[i] = append(sizes.marks[i], q.Mark)
		if group != "" && !slices.ContainsFunc(p.Groups, func(g cutting.Group) bool { return g.ID == group }) {
			p.Groups = append(p.Groups, cutting.Group{ID: group, Strip: true, Axis: cutting.Across})
		}
	}
	for i := range p.Parts {
		if sizes.ids == nil {
			sizes.ids = map[string]int{}
		}
		sizes.ids[p.Parts[i].ID] = i
	}
	for _, b := range cat.Boards {
		if !used[b.ID] {
			continue
		}
		p.Stocks = append(p.Stocks, stocks(b, cat, pr, cutting.Kerf{X: cross, Y: rip})...)
	}
	return p, sizes
}

// matched puts fronts whose figure should run on from one to the next into strips, side by
// side across the grain: fronts of one case, board and length, as many as a sheet is wide.
type matched map[string]*strip

type strip struct {
	n    int
	used L
}

// of gives the group of a part, "" for none.
func (m matched) of(q part.Part, cut [3]L, cat stock.Catalogue, kerf, trim L) string {
	b, ok := cat.Board(q.Stock)
	if q.Group == "" || !ok || q.Grain == part.Free {
		return ""
	}
	wide := b.Width
	if b.Grain == "along-width" {
		wide = b.Length
	}
	if b.Trim != nil {
		trim = *b.Trim
	}
	key := fmt.Sprint(q.Owner, "/", q.Group, "/", q.Stock, "/", cut[0])
	s := m[key]
	if s == nil {
		s = &strip{}
		m[key] = s
	}
	if s.used += cut[1] + kerf; s.used-kerf > wide-2*trim {
		s.n, s.used = s.n+1, cut[1]+kerf
	}
	return fmt.Sprint(key, "/", s.n)
}

type sizeKey struct {
	stock string
	l, w  L
	lay   cutting.Lay
	group string
}

// Sizes remembers which marks have which size.
type Sizes struct {
	at    map[sizeKey]int
	ids   map[string]int
	marks [][]string
}

// Marks gives a mark to every piece of a plan, sheet by sheet, in the order of the parts.
func (s Sizes) Marks(plan cutting.Plan) [][]string {
	next := make([]int, len(s.marks))
	out := make([][]string, len(plan.Sheets))
	for i, sh := range plan.Sheets {
		for _, p := range sh.Pieces {
			k, ok := s.ids[p.Part]
			if !ok || next[k] >= len(s.marks[k]) {
				panic("cutlist: the plan has a piece that nobody asked for: " + p.Part)
			}
			out[i] = append(out[i], s.marks[k][next[k]])
			next[k]++
		}
	}
	return out
}

// Board gives the board that a stock of the cutting problem is cut from: offcuts and damaged
// sheets are stocks of their own there.
func Board(stockID string) string {
	id, _, _ := strings.Cut(stockID, "/")
	return id
}

func stockIDs(cat stock.Catalogue, board string) []string {
	b, ok := cat.Board(board)
	if !ok {
		return []string{board}
	}
	var ids []string
	for _, s := range stocks(b, cat, stock.Practice{}, cutting.Kerf{}) {
		ids = append(ids, s.ID)
	}
	return ids
}

// stocks gives a board's stocks: offcuts, spoilt sheets on hand, whole sheets on hand, and
// sheets to buy.
func stocks(b stock.Board, cat stock.Catalogue, pr stock.Practice, k cutting.Kerf) []cutting.Stock {
	trim := pr.Trim
	if b.Trim != nil {
		trim = *b.Trim
	}
	var price money.Amount
	if b.Price != nil {
		price = *b.Price
	}
	grams := int64(0)
	if m, ok := cat.Material(b.Material); ok {
		if d, ok := m.Density.Whole(); ok {
			// kg/m3 × thickness in m = kg/m2; in grams: d × thickness in mm.
			grams = d * int64(b.Thickness) / int64(length.MM)
		}
	}
	base := cutting.Stock{L: b.Length, W: b.Width, Grain: grain(b.Grain), Kerf: k, Mass: grams,
		Trim: cutting.Trim{Left: trim, Right: trim, Bottom: trim, Top: trim}}
	var out []cutting.Stock
	for i, o := range b.Offcuts {
		s := base
		s.ID = fmt.Sprintf("%s/offcut-%d", b.ID, i+1)
		s.L, s.W, s.Count, s.OnHand, s.Grain = o.Length, o.Width, max(1, o.Count), true, grain(o.Grain)
		s.Trim = cutting.Trim{}
		out = append(out, s)
	}
	spoilt := min(len(b.Damaged), b.OnHand)
	for i, d := range b.Damaged[:spoilt] {
		s := base
		s.ID = fmt.Sprintf("%s/spoilt-%d", b.ID, i+1)
		s.Count, s.OnHand = 1, true
		s.Damage = []cutting.Rect{s.InCorner(d.Corner, d.Length, d.Width)}
		out = append(out, s)
	}
	if n := b.OnHand - spoilt; n > 0 {
		s := base
		s.ID, s.Count, s.OnHand = b.ID+"/on-hand", n, true
		out = append(out, s)
	}
	s := base
	s.ID, s.Count, s.Price = b.ID, cutting.Unlimited, price
	return append(out, s)
}

func grain(g string) cutting.Grain {
	switch g {
	case "along-length":
		return cutting.GrainX
	case "along-width":
		return cutting.GrainY
	}
	return cutting.NoGrain
}

func hasPanelSaw(pr stock.Practice) bool {
	return slices.ContainsFunc(pr.Tools, func(t stock.Tool) bool { return t.Kind == "panel-saw" })
}

func handSaw(pr stock.Practice) *stock.Tool {
	for _, k := range []string{"track-saw", "circular-saw"} {
		for i, t := range pr.Tools {
			if t.Kind == k && t.Kerf != nil {
				return &pr.Tools[i]
			}
		}
	}
	return nil
}
