package solve

import (
	"math"
	"slices"

	"stowright/internal/cutting"
	"stowright/internal/length"
)

// realise turns a solution into sheets with real sizes and cuts, added to the plan, and tells
// what it does not hold.
func (in *instance) realise(s *solution, plan *cutting.Plan) []cutting.Unplaced {
	left := make(map[int]int) // copies of each part still to be given a place
	for _, t := range in.types {
		for _, i := range t.of {
			left[i] = in.p.Parts[i].Count
		}
	}
	at := make([]int, len(in.types))
	take := func(t int32) int {
		of := in.types[t].of
		for at[t] < len(of)-1 && left[of[at[t]]] == 0 {
			at[t]++
		}
		left[of[at[t]]]--
		return of[at[t]]
	}
	whole := make([]bool, len(in.types)) // strips that have their place
	plan.Sheets = slices.Grow(plan.Sheets, len(s.sheets))
	for i := range s.sheets {
		k := &in.stocks[s.sheets[i].stock]
		d := drawer{in: in, s: &s.sheets[i], st: &in.p.Stocks[k.index], fixed: len(k.around) > 0, rough: in.p.Rough(&in.p.Stocks[k.index]), take: take, whole: whole}
		d.out = cutting.Sheet{Stock: d.st.ID, OnHand: d.st.OnHand, L: d.st.L, W: d.st.W, Grain: d.st.Grain, Damage: d.st.Damage}
		d.trim()
		d.lay(0, d.st.Usable(), 1, len(d.out.Cuts)-1)
		d.count(in.p, k)
		if i > 0 && s.sheets[i].same == s.sheets[i-1].same {
			share(&d.out, &plan.Sheets[len(plan.Sheets)-1])
		}
		d.out.Cuts = slices.Clone(d.out.Cuts) // of no greater capacity than it needs
		plan.Sheets = append(plan.Sheets, d.out)
	}
	var un []cutting.Unplaced
	for t := range in.types {
		k := &in.types[t]
		why := in.why(s, int32(t))
		if k.strip == nil {
			for _, i := range k.of {
				if left[i] > 0 && !in.p.Parts[i].Later {
					un = append(un, cutting.Unplaced{Part: in.p.Parts[i].ID, Count: left[i], Why: why})
				}
			}
			continue
		}
		if whole[t] {
			continue
		}
		last := -1
		for _, i := range k.strip.parts {
			if i != last {
				un = append(un, cutting.Unplaced{Part: in.p.Parts[i].ID, Count: in.p.Parts[i].Count, Why: why})
			}
			last = i
		}
	}
	return un
}

// why tells why parts of type t have no place, all of which fit some sheet by their size: where there are more of such sheets, it
// is not for want of them.
func (in *instance) why(s *solution, t int32) cutting.Why {
	used := make([]int32, len(in.stocks))
	for i := range s.sheets {
		used[s.sheets[i].stock]++
	}
	for k := range in.stocks {
		st := &in.stocks[k]
		if o := &in.opts[int(t)*len(in.stocks)+k]; used[k] < st.count && o.fits(sized(st.x, st.y)) > 0 {
			switch {
			case in.types[t].group >= 0:
				return cutting.Apart
			case in.stages > 0:
				return cutting.Stages
			}
		}
	}
	return cutting.UsedUp
}

// share lets a sheet refer to the lists of one that is cut alike, so that very many of them take little memory. Only the
// cuts, which are numbered, remain its own.
func share(s, o *cutting.Sheet) {
	if slices.Equal(s.Pieces, o.Pieces) {
		s.Pieces = o.Pieces
	}
	if slices.Equal(s.Offcuts, o.Offcuts) {
		s.Offcuts = o.Offcuts
	}
	for i := range s.Cuts {
		if i == len(o.Cuts) {
			break
		}
		a, b := &s.Cuts[i], &o.Cuts[i]
		if slices.Equal(a.Frees, b.Frees) {
			a.Frees = b.Frees
		}
		if slices.Equal(a.Leaves, b.Leaves) {
			a.Leaves = b.Leaves
		}
	}
}

// drawer draws one sheet.
type drawer struct {
	in    *instance
	s     *sheet
	st    *cutting.Stock
	fixed bool           // there are damaged places: nothing may change its place
	rough *cutting.Rough // how the first cuts are made, where they are rough
	take  func(int32) int
	whole []bool
	out   cutting.Sheet
}

// trim takes the edges off, the long ones first.
func (d *drawer) trim() {
	st := d.st
	r := cutting.Rect{L: st.L, W: st.W}
	kerf := st.Kerf
	if d.rough != nil {
		kerf = cutting.Kerf{X: d.rough.Kerf, Y: d.rough.Kerf}
	}
	cut := func(ax cutting.Axis, at, kerf, setting length.Length) {
		d.out.Cuts = append(d.out.Cuts, cutting.Cut{Axis: ax, At: at, Kerf: kerf, Of: r, Setting: setting, Work: cutting.Trimming, Hand: d.rough != nil})
	}
	if t := st.Trim.Bottom; t > 0 {
		k := min(t, kerf.Y)
		cut(cutting.Y, t-k, k, st.W-t)
		r.Y, r.W = t, r.W-t
	}
	if t := st.Trim.Top; t > 0 {
		cut(cutting.Y, st.W-t, min(t, kerf.Y), r.W-t)
		r.W -= t
	}
	if t := st.Trim.Left; t > 0 {
		k := min(t, kerf.X)
		cut(cutting.X, t-k, k, st.L-t)
		r.X, r.L = t, r.L-t
	}
	if t := st.Trim.Right; t > 0 {
		cut(cutting.X, st.L-t, min(t, kerf.X), r.L-t)
		r.L -= t
	}
}

// lay draws node n, which fills r and came off with cut by. It gives how many directions of cutting
// are still to come in it.
func (d *drawer) lay(n int32, r cutting.Rect, stage, by int) int {
	nd := &d.s.nodes[n]
	switch {
	case nd.kind >= 0 && d.in.types[nd.kind>>1].strip != nil:
		d.whole[nd.kind>>1] = true
		return d.strip(d.in.types[nd.kind>>1].strip, nd.kind&1 == 1, r, stage, by)
	case nd.kind >= 0:
		d.piece(d.take(nd.kind>>1), nd.kind&1 == 1, r, by)
		return 0
	case nd.kind == free || nd.kind == fixed:
		d.offcut(r, by)
		return 0
	case d.spared(n):
		d.skip(n)
		d.offcut(r, by)
		return 0
	}
	unit := length.Length(d.in.unit)
	axis := cutting.X
	if nd.kind == cutY {
		axis = cutting.Y
	}
	var kids []int32
	for c := nd.down; c != none; c = d.s.nodes[c].next {
		kids = append(kids, c)
	}
	if !d.fixed {
		d.arrange(kids, nd.kind)
	}
	sizes := make([]length.Length, len(kids))
	for i, c := range kids {
		if axis == cutting.X {
			sizes[i] = length.Length(d.s.nodes[c].x)*unit - d.st.Kerf.X
		} else {
			sizes[i] = length.Length(d.s.nodes[c].y)*unit - d.st.Kerf.Y
		}
	}
	next := func(i int, r cutting.Rect, by int) int { return d.lay(kids[i], r, stage+1, by) }
	if n == 0 && d.rough != nil {
		last := len(kids) - 1
		over := d.s.nodes[kids[last]].kind == free
		if over && sizes[last] <= 0 { // less than a cut takes: the piece beside it is cut to size from the edge
			sizes, over = sizes[:last], false
		}
		return d.roughRow(axis, r, sizes, over, by, next)
	}
	return d.row(axis, r, sizes, stage, by, next)
}

// roughRow cuts the usable sheet r into pieces of the given sizes along an axis by rough first cuts, and every
// piece to size by re-cuts; the last remains as it is where it is left over. It gives how many directions of
// cutting that makes.
func (d *drawer) roughRow(axis cutting.Axis, r cutting.Rect, sizes []length.Length, over bool, by int, next func(i int, r cutting.Rect, by int) int) int {
	type todo struct {
		i, by int
		r     cutting.Rect
	}
	var list []todo
	kerf := d.st.Kerf.X
	at, run := &r.X, &r.L // of what remains of the sheet
	if axis == cutting.Y {
		kerf, at, run = d.st.Kerf.Y, &r.Y, &r.W
	}
	span := func(from, size length.Length) cutting.Rect {
		q := r
		if axis == cutting.X {
			q.X, q.L = from, size
		} else {
			q.Y, q.W = from, size
		}
		return q
	}
	between := max(kerf, d.rough.Kerf+2*d.rough.Allowance)
	cut := func(work cutting.Work, of cutting.Rect, at, kerf, setting length.Length, hand bool) int {
		d.out.Cuts = append(d.out.Cuts, cutting.Cut{Axis: axis, At: at, Kerf: kerf, Of: of, Setting: setting, Stage: 1, Rank: 1, Work: work, Hand: hand})
		return len(d.out.Cuts) - 1
	}
	lead := length.Length(0) // what is to be cut off the near edge of what remains
	for i, size := range sizes {
		piece := span(*at, *run)
		whole := *run
		from, last := *at+lead, i == len(sizes)-1
		whose := by
		if last && over {
			list = append(list, todo{i, by, piece})
			break
		}
		if !last {
			by = cut(cutting.Roughing, piece, from+size+d.rough.Allowance, d.rough.Kerf, lead+size+d.rough.Allowance, true)
			whose = by
			whole = lead + size + d.rough.Allowance
			piece = span(*at, whole)
			*run -= whole + d.rough.Kerf
			*at += whole + d.rough.Kerf
		}
		near := from - lead
		if lead > 0 {
			k := min(kerf, lead)
			whose = cut(cutting.Recut, piece, from-k, k, whole-lead, false)
			d.sliver(span(near, lead-k), whose)
			piece, whole = span(from, whole-lead), whole-lead
		}
		if far := whole - size; far > 0 {
			k := min(kerf, far)
			whose = cut(cutting.Recut, piece, from+size, k, size, len(sizes) == 1)
			d.sliver(span(from+size+k, far-k), whose)
		}
		list = append(list, todo{i, whose, span(from, size)})
		lead = between - d.rough.Allowance - d.rough.Kerf
	}
	height := 0
	for _, t := range list {
		height = max(height, next(t.i, t.r, t.by))
	}
	return height + 1
}

// sliver is what a re-cut takes off beside its kerf.
func (d *drawer) sliver(r cutting.Rect, by int) {
	if r.L > 0 && r.W > 0 {
		d.offcut(r, by)
		d.out.Offcuts[len(d.out.Offcuts)-1].Scrap = true
	}
}

// arrange puts siblings in the order of cutting: largest first, equal ones together, the leftover last.
func (d *drawer) arrange(kids []int32, axis int32) {
	key := func(c int32) int32 {
		n := &d.s.nodes[c]
		switch {
		case n.kind == free:
			return 0
		case axis == cutX:
			return n.x
		}
		return n.y
	}
	for i := 1; i < len(kids); i++ {
		for k := i; k > 0 && key(kids[k]) > key(kids[k-1]); k-- {
			kids[k], kids[k-1] = kids[k-1], kids[k]
		}
	}
}

// row cuts r into pieces of the given sizes along an axis, the last being what remains, and lays each by
// next. It gives how many directions of cutting that makes.
func (d *drawer) row(axis cutting.Axis, r cutting.Rect, sizes []length.Length, stage, by int, next func(i int, r cutting.Rect, by int) int) int {
	type todo struct {
		i, by int
		r     cutting.Rect
	}
	var list []todo
	from := len(d.out.Cuts)
	for i, size := range sizes {
		got := r
		cut := cutting.Cut{Axis: axis, Of: r, Stage: stage, Setting: size}
		kerf, whole := d.st.Kerf.X, r.L
		if axis == cutting.Y {
			kerf, whole = d.st.Kerf.Y, r.W
		}
		if size <= 0 { // a shaving less than a kerf, beside a damaged place
			kerf, size = kerf+size, 0
			cut.Setting = whole - kerf
		}
		if axis == cutting.X {
			got.L = size
			cut.At, cut.Kerf = r.X+size, min(kerf, r.L-size)
			r.X, r.L = cut.At+cut.Kerf, r.L-size-cut.Kerf
		} else {
			got.W = size
			cut.At, cut.Kerf = r.Y+size, min(kerf, r.W-size)
			r.Y, r.W = cut.At+cut.Kerf, r.W-size-cut.Kerf
		}
		if i == len(sizes)-1 {
			got = cut.Of
		} else if got != cut.Of {
			by = len(d.out.Cuts)
			d.out.Cuts = append(d.out.Cuts, cut)
		}
		if got.L > 0 && got.W > 0 {
			list = append(list, todo{i, by, got})
		}
	}
	to := len(d.out.Cuts)
	height := 0
	for _, t := range list {
		height = max(height, next(t.i, t.r, t.by))
	}
	for c := from; c < to; c++ {
		d.out.Cuts[c].Work = work(stage, height+1)
		d.out.Cuts[c].Rank = height + 1
	}
	return height + 1
}

// work names cuts by how many directions of cutting came before and are to come, themselves counted.
func work(stage, height int) cutting.Work {
	switch {
	case height > 2:
		return cutting.Breaking
	case height == 2 || stage == 1:
		return cutting.Strips
	}
	return cutting.Crosscut
}

// strip parts a group's strip into its parts, in the same stage where cuts of that direction free it.
func (d *drawer) strip(it *item, turned bool, r cutting.Rect, stage, by int) int {
	axis := cutting.Y
	if it.down == turned {
		axis = cutting.X
	}
	if by >= 0 && stage > 1 && d.out.Cuts[by].Axis == axis && d.out.Cuts[by].Stage == stage-1 {
		stage--
	}
	kerf := d.st.Kerf.X
	if axis == cutting.Y {
		kerf = d.st.Kerf.Y
	}
	var sizes []length.Length
	total := -kerf
	at := func(i int) (l, w length.Length) {
		l, w = d.in.p.Parts[i].L, d.in.p.Parts[i].W
		if turned {
			l, w = w, l
		}
		return l, w
	}
	for _, i := range it.parts {
		l, w := at(i)
		if axis == cutting.Y {
			l = w
		}
		sizes = append(sizes, l)
		total += l + kerf
	}
	return d.row(axis, r, sizes, stage, by, func(n int, r cutting.Rect, by int) int {
		i := it.parts[n]
		l, w := at(i)
		if l == r.L && w == r.W {
			d.piece(i, turned, r, by)
			return 0
		}
		// Narrower than the strip: cut to size.
		sizes, other := []length.Length{w, 0}, cutting.Y
		if axis == cutting.Y {
			sizes, other = []length.Length{l, 0}, cutting.X
		}
		return d.row(other, r, sizes, stage+1, by, func(n int, r cutting.Rect, by int) int {
			if n == 0 {
				d.piece(i, turned, r, by)
			} else {
				d.offcut(r, by)
			}
			return 0
		})
	})
}

// spared reports whether nothing is cut from a node now: it holds only what room is kept for. Then it stays in one piece.
func (d *drawer) spared(n int32) bool {
	nd := &d.s.nodes[n]
	switch {
	case nd.kind >= 0:
		k := &d.in.types[nd.kind>>1]
		return k.strip == nil && d.in.p.Parts[k.of[0]].Later
	case nd.kind == free || nd.kind == fixed:
		return nd.kind == free
	}
	for c := nd.down; c != none; c = d.s.nodes[c].next {
		if !d.spared(c) {
			return false
		}
	}
	return true
}

// skip counts what lies in a node as given a place.
func (d *drawer) skip(n int32) {
	nd := &d.s.nodes[n]
	if nd.kind >= 0 {
		d.take(nd.kind >> 1)
		return
	}
	for c := nd.down; c != none; c = d.s.nodes[c].next {
		d.skip(c)
	}
}

func (d *drawer) piece(i int, turned bool, r cutting.Rect, by int) {
	p := &d.in.p.Parts[i]
	if p.Later {
		d.offcut(r, by)
		return
	}
	if by >= 0 {
		d.out.Cuts[by].Frees = append(d.out.Cuts[by].Frees, len(d.out.Pieces))
	}
	d.out.Pieces = append(d.out.Pieces, cutting.Piece{Part: p.ID, Rect: r, Turned: turned, Group: p.Group})
}

func (d *drawer) offcut(r cutting.Rect, by int) {
	if by >= 0 {
		d.out.Cuts[by].Leaves = append(d.out.Cuts[by].Leaves, len(d.out.Offcuts))
	}
	d.out.Offcuts = append(d.out.Offcuts, cutting.Offcut{Rect: r})
}

// count adds up areas and values what is left.
func (d *drawer) count(p *cutting.Problem, k *stock) {
	a := &d.out.Area
	for _, q := range d.out.Pieces {
		a.Parts += q.Area()
	}
	whole := int64(d.st.L) * int64(d.st.W)
	for i := range d.out.Offcuts {
		o := &d.out.Offcuts[i]
		a.Offcuts += o.Area()
		o.Scrap = o.Scrap || min(o.L, o.W) < p.Keep.Least || o.Area() < p.Keep.Area
		for _, r := range d.st.Damage {
			o.Scrap = o.Scrap || o.X < r.X+r.L && r.X < o.X+o.L && o.Y < r.Y+r.W && r.Y < o.Y+o.W
		}
		if !o.Scrap {
			// Big offcuts are worth more a square metre: the share of the area to the power 5/4.
			s := float64(o.Area()) / float64(whole)
			o.Value = int64(float64(price(p, k.index)) * (s * math.Sqrt(math.Sqrt(s))))
		}
	}
	u := d.st.Usable()
	a.Trim = whole - u.Area()
	a.Kerf = u.Area() - a.Parts - a.Offcuts
}

// price is what a sheet is worth, bought or on hand.
func price(p *cutting.Problem, s int) int64 {
	if st := &p.Stocks[s]; st.OnHand {
		return int64(st.Price)
	}
	return p.Cost(s)
}
