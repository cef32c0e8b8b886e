package solve

import (
	"sort"

	"stowright/internal/cutting"
	"stowright/internal/length"
)

// finish puts the cuts of all sheets in the order of work, sets the fence, warns and adds up.
func finish(p *cutting.Problem, plan *cutting.Plan) {
	place := map[string]int{}
	for i := range p.Stocks {
		place[p.Stocks[i].ID] = i
	}
	sort.SliceStable(plan.Sheets, func(a, b int) bool { return place[plan.Sheets[a].Stock] < place[plan.Sheets[b].Stock] })
	for i := range plan.Sheets {
		fence(p, &plan.Sheets[i], &p.Stocks[place[plan.Sheets[i].Stock]])
	}
	order(p, plan, place)
	warn(p, plan, place)
	total(p, plan, place)
}

// fence decides what is set for each cut: the size of what comes off, or of what remains where only
// that gives a part its size, or where only that is within the fence and gives none. A part is never
// what is left over of a setting; what is beyond the fence is cut with a straightedge.
func fence(p *cutting.Problem, s *cutting.Sheet, st *cutting.Stock) {
	most := p.Limits.Largest
	far := func(l length.Length) bool { return most > 0 && l > most }
	for i := range s.Cuts {
		c := &s.Cuts[i]
		if c.Work <= cutting.Recut { // trimming, rough cuts and what follows on them are set already
			c.Hand = c.Hand || far(c.Setting)
			continue
		}
		if d := p.Rough(st); d != nil && c.Of == st.Usable() {
			c.Hand = true // a strip of parts as large as the sheet
		}
		off, rest := c.Of, c.Of
		one, other := &off.L, &rest.L
		if c.Axis == cutting.X {
			off.L = c.At - c.Of.X
			rest.X, rest.L = c.At+c.Kerf, c.Of.X+c.Of.L-c.At-c.Kerf
		} else {
			one, other = &off.W, &rest.W
			off.W = c.At - c.Of.Y
			rest.Y, rest.W = c.At+c.Kerf, c.Of.Y+c.Of.W-c.At-c.Kerf
		}
		offSizes, restSizes := sizes(s, off, c.Axis), *other > 0 && sizes(s, rest, c.Axis)
		if !offSizes && !restSizes { // a whole row of parts may fill one of them, with nothing over
			offSizes, restSizes = filled(s, off, c.Axis), *other > 0 && filled(s, rest, c.Axis)
		}
		switch {
		case restSizes && !offSizes:
			c.Setting = *other
		case !offSizes && far(*one) && *other > 0 && !far(*other):
			c.Setting = *other
		case offSizes:
			c.Setting = *one
		}
		c.Hand = c.Hand || far(c.Setting)
	}
}

// filled reports whether parts fill a region from side to side along an axis, so that what it lacks is
// lacking of a part.
func filled(s *cutting.Sheet, r cutting.Rect, axis cutting.Axis) bool {
	beside := func(a, b cutting.Rect) bool {
		if axis == cutting.X {
			return a.Y < b.Y+b.W && b.Y < a.Y+a.W
		}
		return a.X < b.X+b.L && b.X < a.X+a.L
	}
	for _, q := range s.Pieces {
		if !holds(r, q.Rect) {
			continue
		}
		over := false
		for _, o := range s.Offcuts {
			over = over || holds(r, o.Rect) && beside(q.Rect, o.Rect)
		}
		if !over {
			return true
		}
	}
	return false
}

// sizes reports whether a part takes its size along an axis from a region: none of its cuts comes
// after.
func sizes(s *cutting.Sheet, r cutting.Rect, axis cutting.Axis) bool {
	for _, q := range s.Pieces {
		if !holds(r, q.Rect) {
			continue
		}
		if axis == cutting.X && q.X == r.X && q.L == r.L || axis == cutting.Y && q.Y == r.Y && q.W == r.W {
			return true
		}
	}
	return false
}

// order numbers the cuts: stock by stock, kind of work by kind of work, and within each
// one setting after the other from wide to narrow, so that the fence is set once for all sheets.
func order(p *cutting.Problem, plan *cutting.Plan, place map[string]int) {
	type ref struct {
		sheet, cut int
		stock      int
		c          *cutting.Cut
	}
	var all []ref
	for i := range plan.Sheets {
		s := &plan.Sheets[i]
		for j := range s.Cuts {
			all = append(all, ref{i, j, place[s.Stock], &s.Cuts[j]})
		}
	}
	// A wider piece is always cut off before a narrower one of the same piece, but where a sheet is
	// damaged or the fence is set to what remains; there the cuts keep their order of making.
	late := make([][]length.Length, len(plan.Sheets)) // the setting that each cut sorts by
	for i := range plan.Sheets {
		s := &plan.Sheets[i]
		late[i] = make([]length.Length, len(s.Cuts))
		for j := range s.Cuts {
			c := &s.Cuts[j]
			late[i][j] = c.Setting
			for k := j - 1; k >= 0; k-- {
				b := &s.Cuts[k]
				if b.Work == c.Work && b.Rank == c.Rank && holds(b.Of, c.Of) {
					late[i][j] = min(late[i][j], late[i][k])
				}
			}
		}
	}
	sort.SliceStable(all, func(a, b int) bool {
		x, y := all[a], all[b]
		switch {
		case x.stock != y.stock:
			return x.stock < y.stock
		case x.c.Work != y.c.Work:
			return x.c.Work < y.c.Work
		case x.c.Work == cutting.Trimming:
			return x.cut < y.cut // one edge of all sheets after the other
		case x.c.Rank != y.c.Rank:
			return x.c.Rank > y.c.Rank
		}
		return late[x.sheet][x.cut] > late[y.sheet][y.cut]
	})
	for i, r := range all {
		r.c.Seq = i + 1
	}
	last := cutting.Cut{}
	seen := map[length.Length]bool{}
	for i, r := range all {
		if i == 0 || r.c.Setting != last.Setting || r.c.Hand != last.Hand || r.stock != all[i-1].stock {
			plan.Totals.Settings++
		}
		seen[r.c.Setting] = true
		last = *r.c
	}
	plan.Totals.Distinct = len(seen)
	for i := range plan.Sheets {
		c := plan.Sheets[i].Cuts
		sort.Slice(c, func(a, b int) bool { return c[a].Seq < c[b].Seq })
	}
}

func holds(a, b cutting.Rect) bool {
	return a.X <= b.X && a.Y <= b.Y && a.X+a.L >= b.X+b.L && a.Y+a.W >= b.Y+b.W
}

// warn marks the cuts where a piece is too heavy for one person or too narrow to be safe.
func warn(p *cutting.Problem, plan *cutting.Plan, place map[string]int) {
	for i := range plan.Sheets {
		s := &plan.Sheets[i]
		st := &p.Stocks[place[s.Stock]]
		for _, c := range s.Cuts {
			if m := st.Weight(c.Of); p.Limits.Heaviest > 0 && m > p.Limits.Heaviest {
				plan.Warnings = append(plan.Warnings, cutting.Warning{Kind: cutting.TooHeavy, Sheet: i, Seq: c.Seq, Mass: m})
			}
			if c.Setting < p.Limits.Narrow {
				plan.Warnings = append(plan.Warnings, cutting.Warning{Kind: cutting.TooNarrow, Sheet: i, Seq: c.Seq, Size: c.Setting})
			}
		}
	}
}

func total(p *cutting.Problem, plan *cutting.Plan, place map[string]int) {
	t := &plan.Totals
	t.Priced = p.Priced()
	var parts, all float64
	for i := range plan.Sheets {
		s := &plan.Sheets[i]
		k := place[s.Stock]
		t.Cost += p.Cost(k)
		plan.Bounds.Stocks[k].Used++
		t.Sheets++
		if !s.OnHand {
			t.Bought++
		}
		parts += float64(s.Area.Parts)
		all += float64(s.L) * float64(s.W)
		t.Cuts += len(s.Cuts)
		for _, c := range s.Cuts {
			if c.Axis == cutting.X {
				t.CutRun += c.Of.W
			} else {
				t.CutRun += c.Of.L
			}
		}
		for _, o := range s.Offcuts {
			t.Kept += o.Value
		}
	}
	if all > 0 {
		t.Yield = int(parts/all*10000 + 0.5)
	}
}
