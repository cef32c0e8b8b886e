package solve

import (
	"math"

	"stowright/internal/cutting"
)

// merit is how good a complete plan of given cost is, beyond its cost: few sheets (an offcut on hand that is
// not needed stays whole), then what is left in big pieces, then few settings, then few cuts at settings that few others
// need, which are the next to go.
type merit struct {
	sheets, left, settings, rare int32
}

func (m merit) better(o merit) bool {
	switch {
	case m.sheets != o.sheets:
		return m.sheets < o.sheets
	case m.left != o.left:
		return m.left > o.left
	case m.settings != o.settings:
		return m.settings < o.settings
	}
	return m.rare < o.rare
}

// leftStep is the share of a sheet's price in which what is left is compared: less than that is not worth
// a setting more.
const leftStep = 0.2

// tally counts how often each setting is needed; a setting counts once for each stock and kind of cut, since the
// cuts of one kind are made together on all sheets.
type tally struct {
	keys  []uint64 // 0 = empty; open addressing, its length a power of 2
	count []int32
	used  int
	live  int32 // settings with a count over 0
	rare  int32 // sum of rarity over them
}

// rarity adds up to less where cuts are at few settings: of a number of cuts at one, 100 times the binary logarithm of one more.
var rarity = func() (r [64]int32) {
	for n := range r {
		r[n] = int32(100 * math.Log2(float64(1+n)))
	}
	return r
}()

// has tells whether the saw is set to a size for any kind of cut of a stock.
func (t *tally) has(stock, size int32) bool {
	for kind := uint64(cutting.Breaking); kind <= uint64(cutting.Crosscut); kind++ {
		if t.of(uint64(stock+1)<<48|kind<<32|uint64(size)) > 0 {
			return true
		}
	}
	return false
}

// of gives the count of a setting.
func (t *tally) of(key uint64) int32 {
	mask := uint64(len(t.keys) - 1)
	for i := key * 0x9e3779b97f4a7c15 >> 20 & mask; t.keys[i] != 0; i = (i + 1) & mask {
		if t.keys[i] == key {
			return t.count[i]
		}
	}
	return 0
}

// note counts a setting by times more.
func (t *tally) note(key uint64, by int32) {
	if 2*t.used >= len(t.keys) {
		t.enlarge()
	}
	mask := uint64(len(t.keys) - 1)
	i := key * 0x9e3779b97f4a7c15 >> 20 & mask
	for t.keys[i] != key {
		if t.keys[i] == 0 {
			t.keys[i] = key
			t.used++
			break
		}
		i = (i + 1) & mask
	}
	was := t.count[i]
	t.count[i] += by
	last := int32(len(rarity) - 1)
	t.rare += rarity[min(t.count[i], last)] - rarity[min(was, last)]
	switch {
	case was == 0:
		t.live++
	case t.count[i] == 0:
		t.live--
	}
}

func (t *tally) enlarge() {
	keys, count := t.keys, t.count
	n := 1024
	for n < 8*int(t.live) {
		n *= 2
	}
	t.keys, t.count, t.used, t.live, t.rare = make([]uint64, n), make([]int32, n), 0, 0, 0
	for i, k := range keys {
		if count[i] > 0 {
			t.note(k, count[i])
		}
	}
}

// measure works out what a sheet's cuts need and what it leaves.
func (st *state) measure(s *sheet) {
	s.cuts, s.offs = s.cuts[:0], s.offs[:0]
	st.settings(s, 0, 1)
	s.left = 0
	k := &st.in.stocks[s.stock]
	for i := range s.los {
		s.left += st.in.kept(k, s.los[i].size.x(), s.los[i].size.y())
	}
}

// settings lists the settings of the cuts below node n, with the nodes that come off, and gives how many directions of
// cutting it needs.
func (st *state) settings(s *sheet, n, stage int32) int32 {
	nd := s.nodes
	switch k := nd[n].kind; {
	case k >= 0:
		return int32(st.in.types[k>>1].inner)
	case k != cutX && k != cutY:
		return 0
	}
	axis := nd[n].kind
	high := int32(0)
	last, least := none, int32(math.MaxInt32)
	for c := nd[n].down; c != none; c = nd[c].next {
		high = max(high, st.settings(s, c, stage+1))
		// The last piece is what remains: the leftover, or else the smallest.
		size := *s.along(c, axis)
		if nd[c].kind == free {
			size = -1
		}
		if size < least {
			last, least = c, size
		}
	}
	high++
	kind := uint64(work(int(stage), int(high)))
	for c := nd[n].down; c != none; c = nd[c].next {
		if c != last {
			s.cuts = append(s.cuts, uint64(s.stock+1)<<48|kind<<32|uint64(*s.along(c, axis)))
			s.offs = append(s.offs, c)
		}
	}
	return high
}

// kept is the value of a leftover worth keeping, as a share of the price of the dearest sheet; sizes are inflated.
func (in *instance) kept(k *stock, x, y int32) float64 {
	st := &in.p.Stocks[k.index]
	l, w := int64(x)*in.unit-int64(st.Kerf.X), int64(y)*in.unit-int64(st.Kerf.Y)
	if l <= 0 || w <= 0 || min(l, w) < int64(in.p.Keep.Least) || l*w < in.p.Keep.Area {
		return 0
	}
	s := float64(l) * float64(w) / (float64(st.L) * float64(st.W))
	return k.worth * (s * math.Sqrt(math.Sqrt(s)))
}

// merit adds up the sheets in use.
func (st *state) merit() merit {
	m := merit{sheets: int32(len(st.open)), settings: st.tally.live, rare: st.tally.rare}
	left := 0.0
	for _, i := range st.open {
		s := &st.sheets[i]
		left += s.left
	}
	m.left = int32(left / leftStep)
	if st.loose {
		m.sheets, m.left = 0, 0
	}
	if st.any {
		m.settings, m.rare = 0, 0
	}
	return m
}

// recount brings the tally from what the touched sheets were to what they are, or back.
func (st *state) recount(back bool) {
	sign := int32(1)
	if back {
		sign = -1
	}
	for _, i := range st.touched {
		for _, k := range st.saved[i].cuts {
			st.tally.note(k, -sign)
		}
		for _, k := range st.sheets[i].cuts {
			st.tally.note(k, sign)
		}
	}
}

// tidy looks for plans of the same cost with more merit: parts and blocks are taken out and put back as in search,
// preferring sizes that the saw is set to already, and only complete plans count.
func (st *state) tidy(best *solution, b *budget, steps int64) *solution {
	if best.out > 0 || len(best.sheets) == 0 {
		return best
	}
	st.load(best)
	return st.better(best, best.cost+1, b, steps)
}

// loosen looks for a plan with one sheet more that needs fewer settings; it gives nil where there is no sheet more.
func (st *state) loosen(best *solution, b *budget, steps int64) *solution {
	if best.out > 0 || len(best.sheets) == 0 {
		return nil
	}
	st.load(best)
	st.begin()
	st.ruin(shake)
	if st.pending(); len(st.pend) == 0 {
		return nil
	}
	t := st.pend[st.rnd.below(len(st.pend))]
	slot := st.another(t, math.MaxInt64)
	if slot == none {
		return nil
	}
	all := st.open
	st.open = []int32{slot} // a first part has to go there, or the sheet would be closed again
	sp, ok := st.findSure(t)
	st.open = all
	if !ok {
		return nil
	}
	st.lay(t, sp)
	limit := st.cost + 1
	st.recreate(st.draw(), limit)
	if st.short > 0 {
		return nil
	}
	st.loose = true
	best = st.better(st.solution(), limit, b, steps)
	st.loose = false
	return best
}

// better is the search of tidy, from the state as it is.
func (st *state) better(best *solution, limit int64, b *budget, steps int64) *solution {
	st.tally = &tally{}
	st.tally.enlarge()
	st.begin()
	for _, i := range st.idle { // which may have been in use when it was tidied before
		st.sheets[i].cuts, st.sheets[i].offs = nil, nil
	}
	for _, i := range st.open {
		s := &st.sheets[i]
		st.neaten(i)
		st.measure(s)
		for _, k := range s.cuts {
			st.tally.note(k, 1)
		}
	}
	now := st.merit()
	top := now
	best = st.solution()
	hist := make([]merit, 50)
	for i := range hist {
		hist[i] = now
	}
	at := 0
	for range steps {
		if b.steps++; b.steps&63 == 0 && b.stop() {
			b.stopped = true
			break
		}
		st.begin()
		if !st.any && st.rnd.below(100) < aimed {
			st.ruinRare()
			st.ruin(2)
		} else {
			st.ruin(3)
		}
		if !st.any {
			st.fond = fondness[st.rnd.below(len(fondness))]
		}
		st.recreate(st.draw(), limit)
		if st.short > 0 {
			st.undo()
			continue
		}
		for _, i := range st.touched {
			s := &st.sheets[i]
			s.cuts, s.offs = s.cuts[:0], s.offs[:0]
			if s.parts > 0 {
				st.neaten(i)
				st.measure(s)
			}
		}
		st.recount(false)
		next := st.merit()
		if !next.better(hist[at]) && now.better(next) {
			st.recount(true)
			st.undo()
			continue
		}
		now = next
		hist[at] = now
		if at++; at == len(hist) {
			at = 0
		}
		if now.better(top) {
			top = now
			best = st.solution()
		}
	}
	if !st.loose {
		st.set = top.settings
	}
	st.tally, st.fond = nil, 0
	return best
}

// How often, in 100, what comes off at a rare setting is taken out, and how many cuts a rare one has at most.
const (
	aimed   = 60
	fewCuts = 3
)

// ruinRare takes out what comes off at the rarest setting of a sheet, one of the rare that it has.
func (st *state) ruinRare() {
	i := st.rnd.below(len(st.open))
	slot := st.open[i]
	s := &st.sheets[slot]
	if len(s.cuts) == 0 || len(st.in.stocks[s.stock].around) > 0 {
		return
	}
	at, least := -1, int32(fewCuts+1)
	from := st.rnd.below(len(s.cuts))
	for j := range s.cuts {
		k := (from + j) % len(s.cuts)
		if n := st.tally.of(s.cuts[k]); n < least && (n > 1 || st.rnd.below(3) > 0) { // not always the first
			at, least = k, n
		}
	}
	if at < 0 {
		return
	}
	st.save(slot)
	st.remove(s, s.offs[at])
	st.survey(slot)
	if s.parts == 0 {
		st.shut(i)
	}
}

// fondness is how much a place is preferred where the saw is set already, in shares of a sheet squared.
var fondness = [...]float64{0, 0.001, 0.01, 0.05}

// neaten gathers the room that blocks of slot i have to spare.
func (st *state) neaten(i int32) {
	s := &st.sheets[i]
	if len(st.in.stocks[s.stock].around) == 0 {
		st.tighten(s, 0)
		st.survey(i)
		s.weigh()
	}
}

// neat gathers the room to spare on every sheet of a solution.
func (st *state) neat(s *solution) *solution {
	if len(s.sheets) == 0 {
		return s
	}
	st.load(s)
	st.begin()
	for _, i := range st.open {
		st.neaten(i)
	}
	return st.solution()
}
