package solve

// state is a partial solution: sheets in use and what is still out. A step of the search changes it in
// place and can be undone: each sheet is copied before it is first touched.
type state struct {
	in          *instance
	sheets      []sheet // slots
	tops        []top   // of each slot
	open        []int32 // slots in use
	idle        []int32 // slots not in use
	used        []int32 // sheets of each stock in use
	cost        int64
	out         []int32 // copies of each type that are not placed
	outs        []int32 // the types with any
	place       []int32 // where a type stands in outs
	short       int64   // value of what is out
	rnd         rng
	least       int64 // no complete solution costs less
	goal        int64 // a cost that is enough
	sheetsLeast int   // sheets of all stocks that no complete plan can be under
	proof       int   // work that may be done to raise that

	one  [1]int32
	home []int32 // the slot that holds the parts of each group
	held []int32 // how many of them

	near *solution // the least that was out in a search that its budget ended

	// undo
	stamp    []uint64 // step in which a slot was saved
	step     uint64
	saved    []sheet
	touched  []int32
	wasOpen  []int32
	wasIdle  []int32
	wasUsed  []int32
	wasOut   []int32
	wasOuts  []int32
	wasHome  []int32
	wasHeld  []int32
	wasCost  int64
	wasShort int64

	// scratch of recreate
	pend   []int32
	ways   []int32
	blink  uint64
	thrift bool // new sheets are the cheapest for their size, not any
	keys   []int64
	cells  [][]cell // of the knapsack of each stock

	tally *tally  // settings in use, while tidying
	fond  float64 // how much a place is preferred where the saw is set already
	loose bool    // only settings and cuts count
	set   int32   // settings when it was tidied
	any   bool    // settings do not count
}

// spot is where a part goes: a leftover of a sheet, and how.
type spot struct {
	slot int32
	at   int32 // index in sheet.los
	way  int32 // 2*turned, plus 1 where the first cut is on axis Y
}

// top is the largest x and y size among a sheet's leftovers, to pass over sheets quickly.
type top struct {
	size  size
	stock int32
}

func newState(in *instance, seed uint64) *state {
	st := &state{in: in, rnd: rng(seed)}
	n := len(in.types)
	st.used = make([]int32, len(in.stocks))
	st.out = make([]int32, n)
	st.place = make([]int32, n)
	st.ways = make([]int32, n)
	st.home, st.held = make([]int32, len(in.groups)), make([]int32, len(in.groups))
	for t := range in.types {
		st.out[t] = in.types[t].count
		st.place[t] = int32(t)
		st.outs = append(st.outs, int32(t))
		st.short += in.types[t].value * int64(in.types[t].count)
	}
	return st
}

// value of a leftover: the square of its share of the sheet, so that one big
// place is worth more than two small ones.
func (st *state) value(scale float64, x, y int32) float64 {
	a := float64(int64(x)*int64(y)) * scale
	return float64(a * a) // rounded, so that no machine fuses it with a sum
}

func (st *state) putOut(t int32) {
	if st.out[t] == 0 {
		st.place[t] = int32(len(st.outs))
		st.outs = append(st.outs, t)
	}
	st.out[t]++
	st.short += st.in.types[t].value
}

func (st *state) takeIn(t int32) {
	st.out[t]--
	st.short -= st.in.types[t].value
	if st.out[t] == 0 {
		last := st.outs[len(st.outs)-1]
		st.outs[st.place[t]] = last
		st.place[last] = st.place[t]
		st.outs = st.outs[:len(st.outs)-1]
	}
}

// start opens a sheet of a stock for a part of type t and gives its slot.
func (st *state) start(stock, t int32) int32 {
	var i int32
	if n := len(st.idle); n > 0 {
		i = st.idle[n-1]
		st.idle = st.idle[:n-1]
		st.save(i)
	} else {
		i = int32(len(st.sheets))
		st.sheets = append(st.sheets, sheet{})
		st.saved = append(st.saved, sheet{})
		st.tops = append(st.tops, top{})
		st.stamp = append(st.stamp, st.step)
	}
	s := &st.sheets[i]
	k := &st.in.stocks[stock]
	s.hole = none
	s.los = s.los[:0]
	s.stock = stock
	s.parts = 0
	s.area = 0
	s.cuts, s.offs = s.cuts[:0], s.offs[:0]
	plain := node{up: none, down: none, next: none, prev: none, x: k.x, y: k.y, kind: free}
	if len(k.around) == 0 {
		s.nodes = append(s.nodes[:0], plain)
		st.offer(s, 0)
	} else {
		s.nodes = append(s.nodes[:0], k.around[st.choose(stock, t)]...)
		for n := range s.nodes {
			if s.nodes[n].kind == free {
				st.offer(s, int32(n))
			}
		}
	}
	st.survey(i)
	st.open = append(st.open, i)
	st.used[stock]++
	st.cost += k.cost
	return i
}

// choose gives one of the stock's trees that has a place for a part of type t.
func (st *state) choose(stock, t int32) int {
	k := &st.in.stocks[stock]
	n := len(k.around)
	from := st.rnd.below(n)
	o := &st.in.opts[int(t)*len(st.in.stocks)+int(stock)]
	for i := range n {
		c := (from + i) % n
		for j := range k.around[c] {
			if nd := &k.around[c][j]; nd.kind == free && o.fits(sized(nd.x, nd.y)) > 0 {
				return c
			}
		}
	}
	return from
}

// shut closes the empty sheet at place i of the open list.
func (st *state) shut(i int) {
	slot := st.open[i]
	s := &st.sheets[slot]
	st.used[s.stock]--
	st.cost -= st.in.stocks[s.stock].cost
	st.open[i] = st.open[len(st.open)-1]
	st.open = st.open[:len(st.open)-1]
	st.idle = append(st.idle, slot)
}

// begin starts a step that can be undone.
func (st *state) begin() {
	st.step++
	st.touched = st.touched[:0]
	st.wasOpen = append(st.wasOpen[:0], st.open...)
	st.wasIdle = append(st.wasIdle[:0], st.idle...)
	st.wasUsed = append(st.wasUsed[:0], st.used...)
	st.wasOuts = append(st.wasOuts[:0], st.outs...)
	st.wasOut = st.wasOut[:0]
	for _, t := range st.outs {
		st.wasOut = append(st.wasOut, st.out[t])
	}
	st.wasCost, st.wasShort = st.cost, st.short
	st.wasHome, st.wasHeld = append(st.wasHome[:0], st.home...), append(st.wasHeld[:0], st.held...)
}

// save keeps a copy of slot i, once a step.
func (st *state) save(i int32) {
	if st.stamp[i] == st.step {
		return
	}
	st.stamp[i] = st.step
	st.touched = append(st.touched, i)
	copySheet(&st.saved[i], &st.sheets[i])
}

// undo takes back everything since begin.
func (st *state) undo() {
	for _, i := range st.touched {
		st.sheets[i], st.saved[i] = st.saved[i], st.sheets[i]
		st.survey(i)
	}
	// Slots that were added in this step are idle again.
	fresh := len(st.wasOpen) + len(st.wasIdle)
	st.open = append(st.open[:0], st.wasOpen...)
	st.idle = append(st.idle[:0], st.wasIdle...)
	for i := fresh; i < len(st.sheets); i++ {
		st.idle = append(st.idle, int32(i))
	}
	copy(st.used, st.wasUsed)
	for _, t := range st.outs {
		st.out[t] = 0
	}
	st.outs = append(st.outs[:0], st.wasOuts...)
	for i, t := range st.outs {
		st.out[t] = st.wasOut[i]
		st.place[t] = int32(i)
	}
	st.cost, st.short = st.wasCost, st.wasShort
	copy(st.home, st.wasHome)
	copy(st.held, st.wasHeld)
}

// survey brings the top of slot i up to date.
func (st *state) survey(i int32) {
	s := &st.sheets[i]
	var x, y size
	for j := range s.los {
		z := s.los[j].size
		x, y = max(x, z>>32), max(y, z&sizeY)
	}
	st.tops[i] = top{x<<32 | y | guards, s.stock}
}

func copySheet(to, from *sheet) {
	nodes, los, cuts, offs := to.nodes, to.los, to.cuts, to.offs
	*to = *from
	to.nodes = append(nodes[:0], from.nodes...)
	to.los = append(los[:0], from.los...)
	to.cuts, to.offs = append(cuts[:0], from.cuts...), append(offs[:0], from.offs...)
}

// worth is the sum of the values of all leftovers.
func (st *state) worth() float64 {
	sum := 0.0
	for _, i := range st.open {
		sum += st.sheets[i].val
	}
	return sum
}

func (s *sheet) weigh() {
	v := 0.0
	for i := range s.los {
		v += s.los[i].val
	}
	s.val = v
}
