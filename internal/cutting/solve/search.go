package solve

import (
	"math"
	"slices"
)

// budget counts steps, and asks now and then whether to go on.
type budget struct {
	steps, most int64
	each        int64 // how much of it a step takes: more where there are very many parts, whose steps are longer
	ticks       int64
	share       func() float64 // share of the budget used where it is not counted in steps
	stop        func() bool
	until       float64 // share of the budget that the lot at hand may come to
	stopped     bool    // from outside
	over        bool    // the share is used
}

// spent is the share of the budget that is gone.
func (b *budget) spent() float64 {
	if b.share != nil {
		return b.share()
	}
	return float64(b.steps) / float64(max(1, b.most))
}

// part lets f have a share of what is left for the lot at hand.
func (b *budget) part(share float64, f func()) {
	until, from, each := b.until, b.spent(), b.each
	b.until = from + max(0, until-from)*share
	f()
	b.until, b.over, b.each = until, false, each
}

// lasts tells whether a share of what is left for the lot at hand may be more than some steps; always where it is not
// counted in steps.
func (b *budget) lasts(share float64, steps int64) bool {
	return b.share != nil || share*(b.until*float64(b.most)-float64(b.steps)) > float64(steps)
}

// has tells whether some more steps may be taken; always where it is not counted in steps.
func (b *budget) has(steps int64) bool {
	return b.share != nil || float64(b.steps+steps) <= b.until*float64(b.most)
}

// spend counts work that takes as long as some steps.
func (b *budget) spend(steps int64) { b.steps += steps }

// step counts one step and tells whether there is budget for it.
func (b *budget) step() bool {
	if b.share == nil {
		b.over = float64(b.steps) >= b.until*float64(b.most)
	}
	if b.over || b.stopped {
		return false
	}
	b.steps += max(1, b.each)
	if b.ticks++; b.ticks&63 == 0 {
		b.stopped = b.stop()
		b.over = b.share != nil && b.share() >= b.until
	}
	return !b.stopped
}

// solution is a complete plan in the solver's terms.
type solution struct {
	sheets []sheet
	cost   int64
	worth  float64
	out    int64 // value of what is not placed; 0 when complete
}

func (st *state) solution() *solution {
	s := &solution{cost: st.cost, out: st.short}
	for _, i := range st.open {
		var c sheet
		copySheet(&c, &st.sheets[i])
		s.sheets = append(s.sheets, c)
	}
	s.worth = st.worth()
	return s
}

// record is a solution that was met in a search. It is brought up to date by the sheets that have changed since.
type record struct {
	sheets []sheet
	stamp  []uint64 // the step in which each was changed last
	open   []int32
	cost   int64
	out    int64
}

// note makes the record equal to the state.
func (r *record) note(st *state) {
	for len(r.sheets) < len(st.sheets) {
		r.sheets = append(r.sheets, sheet{})
		r.stamp = append(r.stamp, 0)
	}
	for _, i := range st.open {
		if r.stamp[i] != st.stamp[i] {
			r.stamp[i] = st.stamp[i]
			copySheet(&r.sheets[i], &st.sheets[i])
		}
	}
	r.open = append(r.open[:0], st.open...)
	r.cost, r.out = st.cost, st.short
}

// solution is what was recorded, until the next note.
func (r *record) solution() *solution {
	s := &solution{cost: r.cost, out: r.out}
	for _, i := range r.open {
		s.sheets = append(s.sheets, r.sheets[i])
	}
	return s
}

// load makes the state equal to a solution; what it does not hold is out.
func (st *state) load(s *solution) {
	st.step++
	st.open, st.idle, st.outs = st.open[:0], st.idle[:0], st.outs[:0]
	clear(st.used)
	st.cost, st.short = 0, 0
	clear(st.held)
	for t := range st.out {
		st.out[t] = 0
	}
	for t := range st.in.types {
		k := &st.in.types[t]
		st.out[t], st.place[t] = k.count, int32(len(st.outs))
		st.outs = append(st.outs, int32(t))
		st.short += k.value * int64(k.count)
	}
	for len(st.sheets) < len(s.sheets) {
		st.sheets = append(st.sheets, sheet{})
		st.saved = append(st.saved, sheet{})
		st.tops = append(st.tops, top{})
		st.stamp = append(st.stamp, 0)
	}
	for i := range st.sheets {
		if i >= len(s.sheets) {
			st.idle = append(st.idle, int32(i))
			continue
		}
		sh := &st.sheets[i]
		copySheet(sh, &s.sheets[i])
		st.open = append(st.open, int32(i))
		st.stamp[i] = st.step
		st.used[sh.stock]++
		st.cost += st.in.stocks[sh.stock].cost
		st.revalue(sh)
		st.survey(int32(i))
		for j := range sh.nodes {
			if k := sh.nodes[j].kind; k >= 0 {
				st.takeIn(k >> 1)
				st.join(k>>1, int32(i))
			}
		}
	}
}

// revalue works out what the leftovers of a sheet are worth.
func (st *state) revalue(s *sheet) {
	scale := st.in.stocks[s.stock].scale
	for i := range s.los {
		s.los[i].val = st.value(scale, s.los[i].size.x(), s.los[i].size.y())
	}
	s.weigh()
}

// emptiest takes the sheet out that holds least for its cost.
func (st *state) emptiest() {
	at, least := 0, math.Inf(1)
	for i, slot := range st.open {
		s := &st.sheets[slot]
		if v := float64(s.area) / float64(max(1, st.in.stocks[s.stock].cost)); v < least {
			at, least = i, v
		}
	}
	slot := st.open[at]
	st.save(slot)
	st.empty(slot)
	st.shut(at)
}

// empty takes all parts out of a sheet.
func (st *state) empty(slot int32) {
	s := &st.sheets[slot]
	if len(st.in.stocks[s.stock].around) == 0 {
		st.remove(s, 0)
		return
	}
	for n := 0; n < len(s.nodes); n++ { // the cuts around damaged places stay
		if s.nodes[n].kind >= 0 {
			st.remove(s, int32(n))
		}
	}
}

// pluck takes a random part or block out of a sheet that has one; of a damaged sheet a part.
func (st *state) pluck(s *sheet) {
	damaged := len(st.in.stocks[s.stock].around) > 0
	for {
		n := int32(st.rnd.below(len(s.nodes)))
		if kd := s.nodes[n].kind; kd != unused && kd != free && kd != fixed && (kd >= 0 || !damaged) {
			st.remove(s, n)
			return
		}
	}
}

// ruin takes a few random parts and blocks out: often several of one sheet, and rather from sheets with room to spare,
// where most is to be gained.
func (st *state) ruin(mean int) {
	for k := 1 + st.rnd.below(2*mean-1); k > 0 && len(st.open) > 0; k-- {
		i := st.pick()
		slot := st.open[i]
		st.save(slot)
		s := &st.sheets[slot]
		st.pluck(s)
		st.survey(slot)
		if s.parts == 0 {
			st.shut(i)
		}
	}
}

// How often, in 100, ruin takes again from a sheet that it took from in this step, and how often it takes from that of two
// sheets which has more room. Found by trial on instances like those of docs/benchmarks/cutting.txt, drawn with other seeds.
const (
	again = 60
	roomy = 40
)

// pick draws a place in the list of open sheets for ruin.
func (st *state) pick() int {
	if len(st.touched) > 0 && st.rnd.below(100) < again {
		slot := st.touched[st.rnd.below(len(st.touched))]
		if i := slices.Index(st.open, slot); i >= 0 {
			return i
		}
	}
	i := st.rnd.below(len(st.open))
	if st.rnd.below(100) < roomy {
		if j := st.rnd.below(len(st.open)); st.room(j) > st.room(i) {
			i = j
		}
	}
	return i
}

// room is the area that no part takes up on the sheet at place i of the open list.
func (st *state) room(i int) int64 {
	s := &st.sheets[st.open[i]]
	return st.in.stocks[s.stock].area - s.area
}

// patience is how many steps may pass without less being out before the search goes back to where the least was
// out and shakes that; shake is how much is taken out then, as the mean of ruin.
const (
	patience = 4000
	shake    = 15
)

// search looks for complete solutions cheaper than best by ruin and recreate with late
// acceptance, until the bound is met or the budget is used. It returns the best found.
func (st *state) search(best *solution, b *budget, history, mean int, found func(*solution)) *solution {
	st.load(best)
	if best.out == 0 {
		st.cheapen()
		best = st.solution()
	}
	limit := best.cost
	if best.out > 0 {
		limit = math.MaxInt64
	}
	for st.above(best) {
		near := st.aim(best, limit, b, history, mean)
		if near.out == 0 {
			st.cheapen()
			best = st.solution()
			limit = best.cost
			if found != nil {
				found(best)
			}
			continue
		}
		if near.out < best.out {
			best = near // not complete, but nearer to it than any
		}
		st.near = near
		break
	}
	st.prove(best, b.stop)
	return best
}

// doubt is after how many steps towards one goal it is asked whether the goal can be reached at all.
const doubt = 5000

// prove raises the bound as far as the work for it allows, once.
func (st *state) prove(best *solution, stop func() bool) {
	if st.proof > 0 && best.out == 0 && best.cost > st.least {
		st.least = max(st.least, st.in.prove(best, st.least, st.proof, stop))
		st.proof = 0
	}
}

// aim looks for a complete solution that costs less than limit, the cost of best, and ends with it in the state; where
// there is proved to be none or the budget ends first it gives the solution with the least out.
func (st *state) aim(best *solution, limit int64, b *budget, history, mean int) *solution {
	st.begin()
	if st.near != nil && st.near.cost < limit {
		st.load(st.near)
		st.begin()
	}
	st.near = nil
	for st.cost >= limit && len(st.open) > 0 {
		st.emptiest()
	}
	st.recreate(st.draw(), limit)
	now := st.mark()
	hist := make([]mark, history)
	for i := range hist {
		hist[i] = now
	}
	at := 0
	near := &record{}
	near.note(st)
	low, since := now.out, 0 // the least that was out since the last shake, and the steps since
	for tries := 0; st.short > 0; tries++ {
		if !b.step() {
			return near.solution()
		}
		if tries == doubt {
			if st.prove(best, b.stop); !st.above(best) {
				return near.solution()
			}
		}
		st.begin()
		st.ruin(mean)
		st.recreate(st.draw(), limit)
		next := st.mark()
		if next.less(hist[at]) || !now.less(next) {
			now = next
			hist[at] = now
			at++
			if at == len(hist) {
				at = 0
			}
			if now.out < low {
				low, since = now.out, 0
				if low <= near.out {
					near.note(st)
				}
			}
		} else {
			st.undo()
		}
		if since++; since > patience {
			st.load(near.solution())
			st.begin()
			st.ruin(shake)
			st.recreate(st.draw(), limit)
			now = st.mark()
			for i := range hist {
				hist[i] = now
			}
			low, since = now.out, 0
		}
	}
	return st.solution()
}

// mark is how good a partial solution is: first the value of what is out, then the leftovers.
type mark struct {
	out   int64
	worth float64
}

func (st *state) mark() mark { return mark{st.short, st.worth()} }

func (m mark) less(o mark) bool {
	if m.out != o.out {
		return m.out < o.out
	}
	return m.worth > o.worth
}
