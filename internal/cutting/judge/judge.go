// Package judge re-checks cutting plans, exactly and from the plan alone: it replays every cut on the
// sheets as a saw would and compares what is left with what the plan claims. It knows nothing of how
// plans are found, and imports nothing but the vocabulary.
package judge

import (
	"fmt"
	"math/big"
	"slices"
	"sort"

	"stowright/internal/cutting"
	"stowright/internal/length"
)

// Fault is one thing that is wrong with a plan.
type Fault struct {
	Code  string // kebab-case and stable
	Sheet int    // index in Plan.Sheets, or -1
	Text  string
}

func (f Fault) String() string {
	if f.Sheet < 0 {
		return f.Code + ": " + f.Text
	}
	return fmt.Sprintf("%s: sheet %d: %s", f.Code, f.Sheet, f.Text)
}

// Check gives everything that is wrong with a plan for p; none means that the plan is sound.
func Check(p *cutting.Problem, plan *cutting.Plan) []Fault {
	j := &judge{p: p, plan: plan, stocks: map[string]*cutting.Stock{}, parts: map[string]*cutting.Part{}}
	for i := range p.Stocks {
		j.stocks[p.Stocks[i].ID] = &p.Stocks[i]
	}
	for i := range p.Parts {
		j.parts[p.Parts[i].ID] = &p.Parts[i]
	}
	j.counts()
	j.sequence()
	for i := range plan.Sheets {
		j.sheet(i)
	}
	j.groups()
	j.warnings()
	j.totals()
	return j.faults
}

type judge struct {
	p      *cutting.Problem
	plan   *cutting.Plan
	stocks map[string]*cutting.Stock
	parts  map[string]*cutting.Part
	faults []Fault
	near   *near // the pieces of the sheet at hand
}

func (j *judge) fault(code string, sheet int, format string, args ...any) {
	j.faults = append(j.faults, Fault{code, sheet, fmt.Sprintf(format, args...)})
}

// counts checks that every part is there as often as it is wanted, and no stock is used up twice.
func (j *judge) counts() {
	got := map[string]int{}
	for _, s := range j.plan.Sheets {
		for _, pc := range s.Pieces {
			got[pc.Part]++
		}
	}
	for _, u := range j.plan.Unplaced {
		if u.Count <= 0 {
			j.fault("unplaced-count", -1, "part %s unplaced %d times", u.Part, u.Count)
		}
		got[u.Part] += u.Count
	}
	for i := range j.p.Parts {
		pt := &j.p.Parts[i]
		if n := got[pt.ID]; n < pt.Count {
			j.fault("part-lost", -1, "part %s wanted %d times, found %d", pt.ID, pt.Count, n)
		} else if n > max(0, pt.Count) {
			j.fault("part-doubled", -1, "part %s wanted %d times, found %d", pt.ID, pt.Count, n)
		}
		delete(got, pt.ID)
	}
	var odd []string
	for id := range got {
		odd = append(odd, id)
	}
	sort.SliceStable(odd, func(a, b int) bool { return odd[a] < odd[b] })
	for _, id := range odd {
		j.fault("part-unknown", -1, "part %s is not in the problem", id)
	}
	used := map[string]int{}
	for i, s := range j.plan.Sheets {
		if j.stocks[s.Stock] == nil {
			j.fault("stock-unknown", i, "stock %s is not in the problem", s.Stock)
		}
		used[s.Stock]++
	}
	for i := range j.p.Stocks {
		st := &j.p.Stocks[i]
		if st.Count != cutting.Unlimited && used[st.ID] > st.Count {
			j.fault("count-exceeded", -1, "stock %s used %d times, there are %d", st.ID, used[st.ID], st.Count)
		}
	}
}

// sequence checks that the cuts of all sheets are numbered 1, 2, 3 ... without gap, rising in each sheet.
func (j *judge) sequence() {
	n := 0
	for i := range j.plan.Sheets {
		n += len(j.plan.Sheets[i].Cuts)
	}
	seen := make([]bool, n+1)
	for i := range j.plan.Sheets {
		last := 0
		for k := range j.plan.Sheets[i].Cuts {
			seq := j.plan.Sheets[i].Cuts[k].Seq
			if seq <= last {
				j.fault("order", i, "cut %d comes after cut %d", seq, last)
			}
			last = seq
			if seq > 0 && seq <= n {
				seen[seq] = true
			}
		}
	}
	// As many numbers as there are cuts: where none is missing, none is double.
	for i, ok := range seen[1:] {
		if !ok {
			j.fault("order", -1, "cut number %d is missing or double", i+1)
			return
		}
	}
}

// sheet replays the cuts of one sheet.
func (j *judge) sheet(i int) {
	s := &j.plan.Sheets[i]
	st := j.stocks[s.Stock]
	if st == nil {
		return
	}
	if s.L != st.L || s.W != st.W || s.OnHand != st.OnHand || s.Grain != st.Grain {
		j.fault("sheet-changed", i, "the sheet is not as stock %s", st.ID)
	}
	usable := st.Usable()
	for n, pc := range s.Pieces {
		j.piece(i, n, st, usable, &pc)
	}
	j.near = pieces(s.Pieces)
	have := []cutting.Rect{{L: st.L, W: st.W}} // the pieces that lie on the bench
	born := []int{-1}                          // the cut that made each
	depth := []int{0}                          // directions of cutting that it has behind it
	lastAxis := []cutting.Axis{cutting.X}
	rough := j.p.Rough(st)
	edges := []edge{0} // of each piece, those as a rough cut left them
	ruined := false
	for n, c := range s.Cuts {
		at := -1
		for k, r := range have {
			if r == c.Of && r.L > 0 && r.W > 0 {
				at = k
			}
		}
		if at < 0 {
			j.fault("not-through", i, "cut %d is through %v, which is not a piece on the bench", c.Seq, c.Of)
			ruined = true
			break
		}
		lo, hi, ok := split(c)
		if !ok {
			j.fault("cut-outside", i, "cut %d at %d is outside its piece", c.Seq, c.At)
			ruined = true
			break
		}
		j.kerf(i, st, &c, hi)
		j.setting(i, &c, lo, hi)
		deep := depth[at]
		if c.Work == cutting.Trimming {
			if !inside(usable, lo) && !inside(usable, hi) {
				j.fault("trim", i, "cut %d is no trimming cut", c.Seq)
			}
		} else if deep == 0 || c.Axis != lastAxis[at] {
			deep++
		}
		if m := j.p.Limits.Stages; m > 0 && deep > m {
			j.fault("stages", i, "cut %d is the %dth direction of cutting, %d are allowed", c.Seq, deep, m)
		}
		low, high := j.rough(i, rough, &c, usable, edges[at])
		edges[at] = low
		edges = append(edges, high)
		depth[at], lastAxis[at] = deep, c.Axis
		depth, lastAxis = append(depth, deep), append(lastAxis, c.Axis)
		have[at], born[at] = lo, n
		have, born = append(have, hi), append(born, n)
	}
	if !ruined {
		j.remains(i, st, have, born)
		for k, r := range have {
			if edges[k] != 0 && slices.ContainsFunc(s.Pieces, func(pc cutting.Piece) bool { return pc.Rect == r }) {
				j.fault("rough", i, "%v is a piece with an edge that was never cut to size", r)
			}
		}
	}
}

// split gives the two pieces on both sides of a cut's kerf.
func split(c cutting.Cut) (lo, hi cutting.Rect, ok bool) {
	lo, hi = c.Of, c.Of
	if c.Axis == cutting.X {
		lo.L = c.At - c.Of.X
		hi.X = c.At + c.Kerf
		hi.L = c.Of.X + c.Of.L - hi.X
		return lo, hi, lo.L >= 0 && hi.L >= 0 && c.Kerf >= 0
	}
	lo.W = c.At - c.Of.Y
	hi.Y = c.At + c.Kerf
	hi.W = c.Of.Y + c.Of.W - hi.Y
	return lo, hi, lo.W >= 0 && hi.W >= 0 && c.Kerf >= 0
}

// kerf checks the width of a cut: the saw's, or less where the blade runs out over the edge.
func (j *judge) kerf(i int, st *cutting.Stock, c *cutting.Cut, hi cutting.Rect) {
	want := st.Kerf.X
	lo, over := c.At-c.Of.X, hi.L
	if c.Axis == cutting.Y {
		want = st.Kerf.Y
		lo, over = c.At-c.Of.Y, hi.W
	}
	if r := j.p.Rough(st); r != nil && c.Work <= cutting.Roughing {
		want = r.Kerf
	}
	if c.Kerf == want || c.Kerf < want && (over == 0 || lo == 0) {
		return
	}
	j.fault("kerf", i, "cut %d takes %d, the saw takes %d", c.Seq, c.Kerf, want)
}

// edge tells which edges of a piece are as a rough cut left them.
type edge uint8

const (
	nearX edge = 1 << iota
	farX
	nearY
	farY
)

// rough checks a cut of a stock whose first cuts are rough (rule nil: of one where none is), through a piece with the
// given rough edges, and gives those of the two pieces that it makes.
func (j *judge) rough(i int, rule *cutting.Rough, c *cutting.Cut, usable cutting.Rect, edges edge) (low, high edge) {
	near, far := nearX, farX
	before, after := c.At+c.Kerf-c.Of.X, c.Of.X+c.Of.L-c.At
	if c.Axis == cutting.Y {
		near, far = nearY, farY
		before, after = c.At+c.Kerf-c.Of.Y, c.Of.Y+c.Of.W-c.At
	}
	low, high = edges&^far, edges&^near
	switch {
	case c.Work == cutting.Roughing && (rule == nil || !c.Hand || c.Stage != 1):
		j.fault("rough", i, "cut %d cannot be a rough first cut", c.Seq)
	case c.Work == cutting.Recut && rule == nil:
		j.fault("rough", i, "cut %d re-cuts what was never cut roughly", c.Seq)
	case rule != nil && !c.Hand && inside(usable, c.Of):
		j.fault("rough", i, "cut %d is through a whole sheet, which is broken down by hand", c.Seq)
	case c.Work > cutting.Recut && edges != 0:
		j.fault("rough", i, "cut %d is through a piece with an edge that is not cut to size", c.Seq)
	}
	switch c.Work {
	case cutting.Roughing:
		if rule == nil || rule.Allowance == 0 {
			break
		}
		low, high = low|edges&near|far, high|edges&far|near
	case cutting.Recut:
		// What falls off holds the rough edge, and all that was left on it.
		if edges&near != 0 && c.Setting != before-c.Kerf && rule != nil && before < rule.Allowance ||
			edges&far != 0 && c.Setting == before-c.Kerf && rule != nil && after < rule.Allowance {
			j.fault("rough", i, "cut %d takes less off than was left on", c.Seq)
		}
	}
	return low, high
}

// piece checks one piece by itself.
func (j *judge) piece(i, n int, st *cutting.Stock, usable cutting.Rect, pc *cutting.Piece) {
	pt := j.parts[pc.Part]
	if pt == nil {
		return
	}
	l, w := pt.L, pt.W
	if pc.Turned {
		l, w = w, l
	}
	if pc.L != l || pc.W != w {
		j.fault("size", i, "piece %d is %d x %d, part %s is %d x %d", n, pc.L, pc.W, pt.ID, l, w)
	}
	straight, turned := st.Allows(pt.Lay)
	if pc.Turned && !turned || !pc.Turned && !straight {
		j.fault("grain", i, "piece %d lies the wrong way of the grain", n)
	}
	if len(pt.Stocks) > 0 {
		ok := false
		for _, id := range pt.Stocks {
			ok = ok || id == st.ID
		}
		if !ok {
			j.fault("wrong-stock", i, "part %s may not be cut from %s", pt.ID, st.ID)
		}
	}
	if !inside(pc.Rect, usable) {
		j.fault("outside", i, "piece %d is not inside the usable sheet", n)
	}
	for _, d := range st.Damage {
		if overlap(pc.Rect, d) {
			j.fault("damaged", i, "piece %d touches a damaged place", n)
		}
	}
}

// groups checks that what belongs together comes from one sheet, or from one strip.
func (j *judge) groups() {
	type cut struct {
		sheet int
		cutting.Piece
	}
	of := map[string][]cut{} // the pieces of each group
	for i, s := range j.plan.Sheets {
		for _, pc := range s.Pieces {
			if pt := j.parts[pc.Part]; pt != nil && pt.Group != "" {
				of[pt.Group] = append(of[pt.Group], cut{i, pc})
			}
		}
	}
	for _, g := range j.p.Groups {
		sheet := -1
		var row []cutting.Piece
		for _, c := range of[g.ID] {
			if sheet >= 0 && sheet != c.sheet {
				j.fault("group-parted", c.sheet, "group %s is on sheets %d and %d", g.ID, sheet, c.sheet)
			}
			sheet = c.sheet
			row = append(row, c.Piece)
		}
		if g.Strip && len(row) > 1 {
			j.strip(g, sheet, row)
		}
	}
}

// strip checks that pieces lie in one row, a kerf apart, in the order of the problem's parts.
func (j *judge) strip(g cutting.Group, sheet int, row []cutting.Piece) {
	st := j.stocks[j.plan.Sheets[sheet].Stock]
	if st == nil {
		return
	}
	turned := row[0].Turned
	alongX := (g.Axis == cutting.Across) == turned
	at := func(pc cutting.Piece) (from, to, side length.Length) {
		if alongX {
			return pc.X, pc.X + pc.L + st.Kerf.X, pc.Y
		}
		return pc.Y, pc.Y + pc.W + st.Kerf.Y, pc.X
	}
	sort.SliceStable(row, func(a, b int) bool {
		x, _, _ := at(row[a])
		y, _, _ := at(row[b])
		return x < y
	})
	rank := map[string]int{}
	for i := range j.p.Parts {
		rank[j.p.Parts[i].ID] = i
	}
	for i, pc := range row {
		if i == 0 {
			continue
		}
		_, end, side := at(row[i-1])
		from, _, s := at(pc)
		if from != end || s != side || pc.Turned != turned || rank[pc.Part] < rank[row[i-1].Part] {
			j.fault("group-parted", sheet, "group %s is not one strip in order", g.ID)
			return
		}
	}
}

// warnings checks that each cut through a heavy piece and each narrow setting is warned of, and no other.
func (j *judge) warnings() {
	type key struct {
		kind       cutting.Caution
		sheet, seq int
	}
	want := map[key]bool{}
	for i, s := range j.plan.Sheets {
		st := j.stocks[s.Stock]
		if st == nil {
			continue
		}
		for _, c := range s.Cuts {
			if h := j.p.Limits.Heaviest; h > 0 && st.Weight(c.Of) > h {
				want[key{cutting.TooHeavy, i, c.Seq}] = true
			}
			if c.Setting < j.p.Limits.Narrow {
				want[key{cutting.TooNarrow, i, c.Seq}] = true
			}
		}
	}
	for _, w := range j.plan.Warnings {
		k := key{w.Kind, w.Sheet, w.Seq}
		if !want[k] {
			j.fault("warning", w.Sheet, "cut %d needs no such warning", w.Seq)
		}
		want[k] = false
	}
	missing := 0
	for _, w := range want {
		if w {
			missing++
		}
	}
	if missing > 0 {
		j.fault("warning", -1, "%d warnings are missing", missing)
	}
}

func inside(a, b cutting.Rect) bool {
	return a.X >= b.X && a.Y >= b.Y && a.X+a.L <= b.X+b.L && a.Y+a.W <= b.Y+b.W
}

func overlap(a, b cutting.Rect) bool {
	return a.X < b.X+b.L && b.X < a.X+a.L && a.Y < b.Y+b.W && b.Y < a.Y+a.W
}

// remains compares what lies on the bench after the last cut with the pieces and offcuts of the plan.
func (j *judge) remains(i int, st *cutting.Stock, have []cutting.Rect, born []int) {
	s := &j.plan.Sheets[i]
	usable := st.Usable()
	frees := map[int]int{}
	leaves := map[int]int{}
	for n, c := range s.Cuts {
		for _, f := range c.Frees {
			if _, twice := frees[f]; twice {
				j.fault("frees", i, "piece %d is freed twice", f)
			}
			frees[f] = n
		}
		for _, f := range c.Leaves {
			if _, twice := leaves[f]; twice {
				j.fault("frees", i, "offcut %d comes off twice", f)
			}
			leaves[f] = n
		}
	}
	at := map[cutting.Rect]int{}
	for k, r := range have {
		if r.L > 0 && r.W > 0 {
			at[r] = k
		}
	}
	var parts, offcuts area
	taken := map[int]bool{}
	claim := func(what string, n int, r cutting.Rect, freed map[int]int) {
		k, ok := at[r]
		if !ok || taken[k] {
			j.fault("not-cut", i, "no cut frees %s %d", what, n)
			return
		}
		taken[k] = true
		f, named := freed[n]
		if !named {
			f = -1
		}
		if f != born[k] {
			j.fault("frees", i, "%s %d is not freed by the cut that says so", what, n)
		}
	}
	for n, pc := range s.Pieces {
		claim("piece", n, pc.Rect, frees)
		parts.add(pc.L, pc.W)
	}
	for n, o := range s.Offcuts {
		claim("offcut", n, o.Rect, leaves)
		offcuts.add(o.L, o.W)
	}
	for n := range frees {
		if n < 0 || n >= len(s.Pieces) {
			j.fault("frees", i, "there is no piece %d", n)
		}
	}
	for n := range leaves {
		if n < 0 || n >= len(s.Offcuts) {
			j.fault("frees", i, "there is no offcut %d", n)
		}
	}
	for k, r := range have {
		if !taken[k] && r.L > 0 && r.W > 0 && overlap(r, usable) {
			j.fault("forgotten", i, "%v is neither piece nor offcut", r)
		}
	}
	var kerf, trim, sheet, use area
	sheet.add(st.L, st.W)
	use.add(usable.L, usable.W)
	trim.sum.Sub(&sheet.sum, &use.sum)
	for _, c := range s.Cuts {
		kerf.addKerf(c, usable)
	}
	same := func(what string, v *big.Int, claimed int64) {
		if v.Cmp(big.NewInt(claimed)) != 0 {
			j.fault("area", i, "area of %s is %v, the plan says %d", what, v, claimed)
		}
	}
	same("parts", &parts.sum, s.Area.Parts)
	same("offcuts", &offcuts.sum, s.Area.Offcuts)
	same("kerf", &kerf.sum, s.Area.Kerf)
	same("trim", &trim.sum, s.Area.Trim)
	var all big.Int
	all.Add(&parts.sum, &offcuts.sum).Add(&all, &kerf.sum).Add(&all, &trim.sum)
	if all.Cmp(&sheet.sum) != 0 {
		j.fault("area", i, "parts, offcuts, kerf and trim make %v, the sheet is %v", &all, &sheet.sum)
	}
}
