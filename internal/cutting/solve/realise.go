package solve

import (
	"stowright/internal/cutting"
	"stowright/internal/length"
)

// realise turns a solution into sheets with real sizes and cuts, added to the plan, and tells
// what it does not hold.
func (in *instance) realise(s *solution, plan *cutting.Plan) []cutting.Unplaced {
	left := make([]int, len(in.p.Parts)) // copies of each part still to be given a place
	at := make([]int, len(in.types))
	for _, t := range in.types {
		for _, i := range t.of {
			left[i] = in.p.Parts[i].Count
		}
	}
	for i := range s.sheets {
		d := drawer{in: in, s: &s.sheets[i], st: &in.p.Stocks[in.stocks[s.sheets[i].stock].index]}
		d.take = func(t int32) int {
			of := in.types[t].of
			for left[of[at[t]]] == 0 {
				at[t]++
			}
			left[of[at[t]]]--
			return of[at[t]]
		}
		plan.Sheets = append(plan.Sheets, d.draw())
	}
	var un []cutting.Unplaced
	for _, t := range in.types {
		for _, i := range t.of {
			if left[i] > 0 {
				un = append(un, cutting.Unplaced{Part: in.p.Parts[i].ID, Count: left[i], Why: cutting.UsedUp})
			}
		}
	}
	return un
}

// drawer draws one sheet.
type drawer struct {
	in   *instance
	s    *sheet
	st   *cutting.Stock
	take func(int32) int
	out  cutting.Sheet
}

func (d *drawer) draw() cutting.Sheet {
	st := d.st
	d.out = cutting.Sheet{Stock: st.ID, OnHand: st.OnHand, L: st.L, W: st.W, Grain: st.Grain}
	d.trim()
	d.lay(0, st.Usable(), 1)
	a := &d.out.Area
	for _, p := range d.out.Pieces {
		a.Parts += p.Area()
	}
	for _, o := range d.out.Offcuts {
		a.Offcuts += o.Area()
	}
	u := st.Usable()
	a.Trim = int64(st.L)*int64(st.W) - u.Area()
	a.Kerf = u.Area() - a.Parts - a.Offcuts
	return d.out
}

// trim takes the edges off.
func (d *drawer) trim() {
	st := d.st
	r := cutting.Rect{L: st.L, W: st.W}
	cut := func(ax cutting.Axis, at, kerf, setting length.Length) {
		d.out.Cuts = append(d.out.Cuts, cutting.Cut{Axis: ax, At: at, Kerf: kerf, Of: r, Setting: setting, Work: cutting.Trimming})
	}
	if t := st.Trim.Bottom; t > 0 {
		k := min(t, st.Kerf.Y)
		cut(cutting.Y, t-k, k, st.W-t)
		r.Y, r.W = t, r.W-t
	}
	if t := st.Trim.Top; t > 0 {
		k := min(t, st.Kerf.Y)
		cut(cutting.Y, st.W-t, k, r.W-t)
		r.W -= t
	}
	if t := st.Trim.Left; t > 0 {
		k := min(t, st.Kerf.X)
		cut(cutting.X, t-k, k, st.L-t)
		r.X, r.L = t, r.L-t
	}
	if t := st.Trim.Right; t > 0 {
		k := min(t, st.Kerf.X)
		cut(cutting.X, st.L-t, k, r.L-t)
		r.L -= t
	}
}

// lay draws node n, which fills r, and gives what it is: a piece or an offcut done, or more to cut.
func (d *drawer) lay(n int32, r cutting.Rect, stage int) (frees, leaves []int) {
	nd := &d.s.nodes[n]
	if nd.kind >= 0 {
		i := d.take(nd.kind >> 1)
		p := &d.in.p.Parts[i]
		d.out.Pieces = append(d.out.Pieces, cutting.Piece{Part: p.ID, Rect: r, Turned: nd.kind&1 == 1, Group: p.Group})
		return []int{len(d.out.Pieces) - 1}, nil
	}
	if nd.kind == free || nd.kind == fixed {
		d.out.Offcuts = append(d.out.Offcuts, cutting.Offcut{Rect: r})
		return nil, []int{len(d.out.Offcuts) - 1}
	}
	type todo struct {
		n   int32
		r   cutting.Rect
		cut int // that frees it
	}
	var rest []todo
	var last int32 = none // the leftover comes last
	unit := length.Length(d.in.unit)
	var order []int32
	for c := nd.down; c != none; c = d.s.nodes[c].next {
		if d.s.nodes[c].kind == free {
			last = c
		} else {
			order = append(order, c)
		}
	}
	if last != none {
		order = append(order, last)
	}
	whole := r
	for i, c := range order {
		x, y := length.Length(d.s.nodes[c].x)*unit, length.Length(d.s.nodes[c].y)*unit
		if i == len(order)-1 {
			if r.L > 0 && r.W > 0 {
				rest = append(rest, todo{c, r, len(d.out.Cuts) - 1})
			}
			break
		}
		cut := cutting.Cut{Of: r, Stage: stage}
		got := r
		if nd.kind == cutX {
			k := d.st.Kerf.X
			got.L = x - k
			cut.Axis, cut.At, cut.Setting = cutting.X, r.X+got.L, got.L
			cut.Kerf = min(k, r.L-got.L)
			r.X, r.L = r.X+x, r.L-x
		} else {
			k := d.st.Kerf.Y
			got.W = y - k
			cut.Axis, cut.At, cut.Setting = cutting.Y, r.Y+got.W, got.W
			cut.Kerf = min(k, r.W-got.W)
			r.Y, r.W = r.Y+y, r.W-y
		}
		if cut.Kerf > 0 || got != cut.Of {
			d.out.Cuts = append(d.out.Cuts, cut)
		}
		rest = append(rest, todo{c, got, len(d.out.Cuts) - 1})
	}
	_ = whole
	for _, t := range rest {
		f, l := d.lay(t.n, t.r, stage+1)
		if t.cut >= 0 {
			c := &d.out.Cuts[t.cut]
			c.Frees = append(c.Frees, f...)
			c.Leaves = append(c.Leaves, l...)
		}
	}
	return nil, nil
}

// finish numbers the cuts and adds up.
func finish(p *cutting.Problem, plan *cutting.Plan) {
	seq := 0
	t := &plan.Totals
	t.Priced = p.Priced()
	used := make(map[string]int)
	var parts, all float64
	for i := range plan.Sheets {
		s := &plan.Sheets[i]
		for j := range s.Cuts {
			seq++
			s.Cuts[j].Seq = seq
		}
		used[s.Stock]++
		t.Sheets++
		if !s.OnHand {
			t.Bought++
		}
		parts += float64(s.Area.Parts)
		all += float64(s.L) * float64(s.W)
		t.Cuts += len(s.Cuts)
	}
	for i := range p.Stocks {
		n := used[p.Stocks[i].ID]
		t.Cost += int64(n) * p.Cost(i)
		if i < len(plan.Bounds.Stocks) {
			plan.Bounds.Stocks[i].Used = n
		}
	}
	if all > 0 {
		t.Yield = int(parts/all*10000 + 0.5)
	}
}
