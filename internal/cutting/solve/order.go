package solve

import (
	"cmp"
	"slices"
	"sort"

	"stowright/internal/cutting"
	"stowright/internal/length"
)

// finish puts the cuts of all sheets in the order of work, with few settings where that counts, sets the fence, warns and adds up.
func finish(p *cutting.Problem, plan *cutting.Plan, few bool) {
	place := map[string]int{}
	for i := range p.Stocks {
		place[p.Stocks[i].ID] = i
	}
	sort.SliceStable(plan.Sheets, func(a, b int) bool { return place[plan.Sheets[a].Stock] < place[plan.Sheets[b].Stock] })
	for i := range plan.Sheets {
		fence(p, &plan.Sheets[i], &p.Stocks[place[plan.Sheets[i].Stock]])
	}
	order(p, plan, place, few)
	warn(p, plan, place)
	total(p, plan, place)
}

// fence decides what is set for each cut: the size of what comes off, or of what remains where only
// that gives a part its size, or where only that is within the fence and gives none. A part is never
// what is left over of a setting; what is beyond the fence, too wide for a mitre gauge or too heavy to
// push is cut with a straightedge.
func fence(p *cutting.Problem, s *cutting.Sheet, st *cutting.Stock) {
	most := p.Limits.Largest
	far := func(l length.Length) bool { return most > 0 && l > most }
	led := func(c *cutting.Cut) bool {
		along, across := c.Sides()
		wide := c.Work > cutting.Recut && p.Limits.Gauge > 0 && along < across && along > p.Limits.Gauge
		return wide || p.Limits.Led && p.Limits.Heaviest > 0 && st.Mass > 0 && st.Weight(c.Of) > p.Limits.Heaviest
	}
	at := newCorners(s.Pieces)
	for i := range s.Cuts {
		c := &s.Cuts[i]
		c.Hand = c.Hand || led(c)
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
		offSizes, restSizes := at.sizes(off, c.Axis), *other > 0 && at.sizes(rest, c.Axis)
		if !offSizes && !restSizes { // a whole row of parts may fill one of them, with nothing over
			offSizes, restSizes = at.filled(s, off, c.Axis), *other > 0 && at.filled(s, rest, c.Axis)
		}
		switch {
		case restSizes && !offSizes:
			c.Setting = *other
		case !offSizes && far(*one) && *other > 0 && !far(*other):
			c.Setting = *other
		case offSizes:
			c.Setting = *one
		}
		c.Hand = c.Hand || far(c.Setting) && !p.Limits.Slim(c)
	}
}

// corners finds the pieces of a sheet by where their lower left corners are along x or y.
type corners struct {
	pieces []cutting.Piece
	x, y   []int32 // places in pieces, from left to right and from the lower edge up
}

func newCorners(pieces []cutting.Piece) *corners {
	k := &corners{pieces: pieces, x: make([]int32, len(pieces)), y: make([]int32, len(pieces))}
	for i := range pieces {
		k.x[i], k.y[i] = int32(i), int32(i)
	}
	slices.SortStableFunc(k.x, func(a, b int32) int { return cmp.Compare(pieces[a].X, pieces[b].X) })
	slices.SortStableFunc(k.y, func(a, b int32) int { return cmp.Compare(pieces[a].Y, pieces[b].Y) })
	return k
}

// in gives the places of pieces among which are all that lie in a region.
func (k *corners) in(r cutting.Rect) []int32 {
	x := k.x[sort.Search(len(k.x), func(i int) bool { return k.pieces[k.x[i]].X >= r.X }):]
	x = x[:sort.Search(len(x), func(i int) bool { return k.pieces[x[i]].X >= r.X+r.L })]
	y := k.y[sort.Search(len(k.y), func(i int) bool { return k.pieces[k.y[i]].Y >= r.Y }):]
	y = y[:sort.Search(len(y), func(i int) bool { return k.pieces[y[i]].Y >= r.Y+r.W })]
	if len(x) < len(y) {
		return x
	}
	return y
}

// filled reports whether parts fill a region from side to side along an axis, so that what it lacks is
// lacking of a part.
func (k *corners) filled(s *cutting.Sheet, r cutting.Rect, axis cutting.Axis) bool {
	beside := func(a, b cutting.Rect) bool {
		if axis == cutting.X {
			return a.Y < b.Y+b.W && b.Y < a.Y+a.W
		}
		return a.X < b.X+b.L && b.X < a.X+a.L
	}
	for _, i := range k.in(r) {
		q := &k.pieces[i]
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
func (k *corners) sizes(r cutting.Rect, axis cutting.Axis) bool {
	for _, i := range k.in(r) {
		q := &k.pieces[i]
		if !holds(r, q.Rect) {
			continue
		}
		if axis == cutting.X && q.X == r.X && q.L == r.L || axis == cutting.Y && q.Y == r.Y && q.W == r.W {
			return true
		}
	}
	return false
}

// order numbers the cuts: stock by stock, phase by phase, and within each all cuts of one setting before the next, so
// that the fence is set once for all sheets as far as the pieces are there.
func order(p *cutting.Problem, plan *cutting.Plan, place map[string]int, few bool) {
	all := 0
	for i := range plan.Sheets {
		all += len(plan.Sheets[i].Cuts)
	}
	tasks := make([]task, all)
	var stocks [][phases][]*task
	of := make([]int, len(p.Stocks)) // 1 + the place of a stock in stocks
	for i := range plan.Sheets {
		s := &plan.Sheets[i]
		k := &of[place[s.Stock]]
		if *k == 0 {
			stocks = append(stocks, [phases][]*task{})
			*k = len(stocks)
		}
		list := &stocks[*k-1]
		made := tasks[:len(s.Cuts)]
		tasks = tasks[len(s.Cuts):]
		for j := range s.Cuts {
			t := &made[j]
			t.c, t.cut = &s.Cuts[j], int32(j)
			for k := j - 1; k >= 0; k-- { // the cut that its piece came off with
				if holds(made[k].c.Of, t.c.Of) {
					made[k].wait(t)
					break
				}
			}
			list[t.c.Work] = append(list[t.c.Work], t)
		}
	}
	seq := 0
	seen := map[length.Length]bool{}
	for i := range stocks { // they lie in the order of the problem's stocks
		list := &stocks[i]
		if few {
			together(list)
		}
		var last *cutting.Cut
		for work := range list {
			for _, t := range arranged(cutting.Work(work), list[work], last) {
				seq++
				t.c.Seq = seq
				if !sameSetting(last, t.c) {
					plan.Totals.Settings++
				}
				seen[t.c.Setting] = true
				last = t.c
			}
		}
	}
	plan.Totals.Distinct = len(seen)
	for i := range plan.Sheets {
		c := plan.Sheets[i].Cuts
		sort.Slice(c, func(a, b int) bool { return c[a].Seq < c[b].Seq })
	}
}

// phases is the number of kinds of work.
const phases = int(cutting.Crosscut) + 1

// task is a cut to be put in order. Its kind of work is the phase in which it is made.
type task struct {
	c           *cutting.Cut
	from        *task // the cut that its piece comes off with
	first, last *task // of those whose pieces come off with this one
	next        *task // that comes off with the same as this one
	cut         int32 // of its sheet
}

// wait makes u wait for t.
func (t *task) wait(u *task) {
	u.from = t
	if t.first == nil {
		t.first = u
	} else {
		t.last.next = u
	}
	t.last = u
}

// waits tells whether the piece of t comes off in the same phase.
func (t *task) waits() bool { return t.from != nil && t.from.c.Work == t.c.Work }

func sameSetting(a, b *cutting.Cut) bool {
	return a != nil && a.Setting == b.Setting && a.Hand == b.Hand
}

// arranged puts the cuts of one phase in order, after the cut last.
func arranged(work cutting.Work, list []*task, last *cutting.Cut) []*task {
	if work == cutting.Trimming { // one edge of all sheets after the other
		sort.SliceStable(list, func(a, b int) bool { return list[a].cut < list[b].cut })
		return list
	}
	return inSettings(list, last)
}

// mostArranged is the greatest number of cuts of a stock that are tried in other phases.
const mostArranged = 1500

// together moves cuts between the phases of breaking down, strips and cuts to size, where the fence has to be set
// less often: all cuts at a setting that two phases need are made in the one, as far as their pieces are there
// then and nothing waits for them.
func together(list *[phases][]*task) {
	n := 0
	for work := cutting.Breaking; work <= cutting.Crosscut; work++ {
		n += len(list[work])
	}
	if n > mostArranged {
		return
	}
	count := func() int {
		n := 0
		var last *cutting.Cut
		for work := cutting.Breaking; work <= cutting.Crosscut; work++ {
			for _, t := range inSettings(list[work], last) {
				if !sameSetting(last, t.c) {
					n++
				}
				last = t.c
			}
		}
		return n
	}
	// move makes all cuts of phase a at c's setting in phase b, or gives false and changes nothing where that cannot be.
	move := func(c cutting.Cut, a, b cutting.Work) bool {
		var stay, moved []*task
		for _, t := range list[a] {
			if !sameSetting(&c, t.c) {
				stay = append(stay, t)
				continue
			}
			with := func(u *task) bool { return u.c.Work == a && sameSetting(&c, u.c) }
			if t.from != nil && t.from.c.Work > b && !with(t.from) {
				return false // its piece is not there yet
			}
			for u := t.first; u != nil; u = u.next {
				if u.c.Work < b && !with(u) {
					return false // that waits for it
				}
			}
			moved = append(moved, t)
		}
		if len(moved) == 0 {
			return false
		}
		for _, t := range moved {
			t.c.Work = b
		}
		list[a], list[b] = stay, append(list[b], moved...)
		return true
	}
	least := count()
	for again := true; again; {
		again = false
		for a := cutting.Breaking; a <= cutting.Crosscut; a++ {
			for b := cutting.Breaking; b <= cutting.Crosscut; b++ {
				if a == b {
					continue
				}
				for _, c := range settingsOf(list[a], list[b]) {
					wasA, wasB := list[a], slices.Clip(list[b])
					list[b] = wasB
					if !move(c, a, b) {
						continue
					}
					if n := count(); n < least {
						least, again = n, true
						continue
					}
					for _, t := range list[b][len(wasB):] {
						t.c.Work = a
					}
					list[a], list[b] = wasA, wasB
				}
			}
		}
	}
}

// settingsOf gives a cut for each setting that both lists need.
func settingsOf(a, b []*task) []cutting.Cut {
	type setting struct {
		size length.Length
		hand bool
	}
	in := map[setting]bool{}
	for _, t := range b {
		in[setting{t.c.Setting, t.c.Hand}] = true
	}
	var out []cutting.Cut
	for _, t := range a {
		if k := (setting{t.c.Setting, t.c.Hand}); in[k] {
			in[k] = false
			out = append(out, *t.c)
		}
	}
	return out
}

// inSettings puts cuts of one phase in order, from wide to narrow, after the cut held: a setting is taken when all that
// are cut at it are there or come off at it, and only where there is none such the widest of those that there are.
func inSettings(list []*task, held *cutting.Cut) []*task {
	type setting struct {
		size  length.Length
		hand  bool
		left  int // cuts still to be made
		ready []*task
	}
	at := map[[2]int64]*setting{}
	var all []*setting
	of := func(c *cutting.Cut) *setting {
		key := [2]int64{int64(c.Setting)}
		if c.Hand {
			key[1] = 1
		}
		if at[key] == nil {
			at[key] = &setting{size: c.Setting, hand: c.Hand}
			all = append(all, at[key])
		}
		return at[key]
	}
	for _, t := range list {
		s := of(t.c)
		s.left++
		if !t.waits() {
			s.ready = append(s.ready, t)
		}
	}
	sort.Slice(all, func(a, b int) bool {
		if all[a].size != all[b].size {
			return all[a].size > all[b].size
		}
		return all[a].hand && !all[b].hand
	})
	// reach counts the cuts that can be made at a setting now, those that come off with others of it included.
	var reach func(s *setting, t *task) int
	reach = func(s *setting, t *task) int {
		n := 1
		for u := t.first; u != nil; u = u.next {
			if u.waits() && of(u.c) == s {
				n += reach(s, u)
			}
		}
		return n
	}
	whole := func(s *setting) bool {
		n := 0
		for _, t := range s.ready {
			n += reach(s, t)
		}
		return n == s.left
	}
	out := make([]*task, 0, len(list))
	for len(out) < len(list) {
		var pick *setting
		if held != nil { // as the fence stands from the phase before
			if s := of(held); s.left > 0 && whole(s) {
				pick = s
			}
			held = nil
		}
		if pick == nil {
			for _, s := range all {
				if len(s.ready) == 0 {
					continue
				}
				if pick == nil {
					pick = s
				}
				if whole(s) {
					pick = s
					break
				}
			}
		}
		for len(pick.ready) > 0 {
			t := pick.ready[0]
			pick.ready = pick.ready[1:]
			pick.left--
			out = append(out, t)
			for u := t.first; u != nil; u = u.next {
				if u.waits() {
					s := of(u.c)
					s.ready = append(s.ready, u)
				}
			}
		}
		all = slices.DeleteFunc(all, func(s *setting) bool { return s.left == 0 })
	}
	return out
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
