package solve

import (
	"math"
	"slices"
)

// Sequential value correction: sheets are filled one after the other, each with what is worth most of the parts
// that are left, and cut as often as there are parts for it. Then parts that ended on sheets with much waste are worth more, and
// all begins anew (Mukhacheva and others; for boards Arbib, Di Iorio and Marinelli among others). It serves where parts repeat: a
// pattern is made once for many sheets.

// repeats is how many parts there are of a size, on average, for sequential value correction to be tried.
const repeats = 2

// corrected is the share of the budget that goes to it there.
const corrected = 0.15

// fillSteps is how many steps of ruin and recreate a sheet is filled in, at first where patterns are put together.
const fillSteps = 40

// stale is after how many passes without a better plan it ends.
const stale = 12

// worths are the values to begin with: areas, the larger a little more.
func (in *instance) worths() []float64 {
	v := make([]float64, len(in.types))
	for t := range v {
		v[t] = math.Pow(float64(in.types[t].area)*in.stocks[0].scale, 1.1)
	}
	return v
}

// correct looks for solutions better than best by sequential value correction, at most passes times.
func (st *state) correct(best *solution, passes int, b *budget) *solution {
	in := st.in
	if len(in.groups) > 0 {
		return best
	}
	base := in.worths()
	v := slices.Clone(base)
	idle := 0
	for n := 0; n < passes && idle < stale; n++ {
		s, ok := st.pass(v, b)
		if !ok {
			break
		}
		idle++
		if s.out < best.out || s.out == best.out && s.cost < best.cost {
			best, idle = s, 0
		}
		if !st.above(best) {
			break
		}
		for i := 0; i < len(s.sheets); {
			sh := &s.sheets[i]
			k := &in.stocks[sh.stock]
			use := max(0.05, float64(sh.area)*k.scale)
			j := i + 1 // the same pattern again
			for j < len(s.sheets) && s.sheets[j].same == sh.same {
				j++
			}
			share := 0.5 + 0.4*float64(st.rnd.below(100))/100
			for n := range sh.nodes {
				if kd := sh.nodes[n].kind; kd >= 0 {
					t := kd >> 1
					now := base[t] / math.Pow(use, 1.5)
					v[t] = float64(v[t]*share) + float64(now*(1-share))
				}
			}
			i = j
		}
	}
	return best
}

// pass makes one solution for given values; ok is false where the budget ended first.
func (st *state) pass(v []float64, b *budget) (*solution, bool) {
	in := st.in
	st.load(&solution{})
	out := &solution{}
	var top sheet
	for len(st.outs) > 0 {
		at, high := none, 0.0
		for k := range in.stocks {
			if st.used[k] >= in.stocks[k].count {
				continue
			}
			var s sheet
			worth, ok := st.fill(int32(k), v, nil, fillSteps, b, &s)
			if !ok {
				return nil, false
			}
			rate := worth / max(1e-9, float64(in.stocks[k].cost)/float64(in.stocks[0].area))
			if worth > 0 && rate > high {
				at, high, top = int32(k), rate, s
			}
		}
		if at == none {
			break
		}
		times := in.stocks[at].count - st.used[at]
		count := make([]int32, len(in.types))
		for n := range top.nodes {
			if k := top.nodes[n].kind; k >= 0 {
				count[k>>1]++
			}
		}
		for t, n := range count {
			if n > 0 {
				times = min(times, st.out[t]/n)
			}
		}
		top.same = int32(len(out.sheets))
		for range times {
			out.sheets = append(out.sheets, top) // solutions are never changed, so that sheets can share a tree
		}
		st.used[at] += times
		out.cost += int64(times) * in.stocks[at].cost
		for t := range in.types {
			for range count[t] * times {
				st.takeIn(int32(t))
			}
		}
	}
	out.out = st.short
	return out, true
}

// fill makes a sheet of stock k that holds much value of what is out, in some steps from a sheet that is full already or nil,
// and leaves the state as it was.
func (st *state) fill(k int32, v []float64, from *sheet, steps int, b *budget, best *sheet) (float64, bool) {
	most := st.outs[0]
	for _, t := range st.outs {
		if v[t] > v[most] {
			most = t
		}
	}
	slot := st.start(k, most)
	if from != nil {
		st.become(slot, from)
	}
	st.begin()
	limit := int64(math.MinInt64) // no other sheet
	value := func() float64 {
		sum := 0.0
		s := &st.sheets[slot]
		for n := range s.nodes {
			if kd := s.nodes[n].kind; kd >= 0 {
				sum += v[kd>>1]
			}
		}
		return sum
	}
	noisy := func(t int32) int64 { return int64(v[t] * float64(600+st.rnd.below(800)) * (1 << 20)) }
	st.inTurn(limit, noisy)
	now := value()
	high := now
	copySheet(best, &st.sheets[slot])
	ok := true
	for range steps {
		if st.sheets[slot].parts == 0 {
			break // nothing that is left fits
		}
		if ok = b.step(); !ok {
			break
		}
		st.begin()
		st.strip(slot)
		if st.rnd.below(2) == 0 {
			st.inTurn(limit, noisy)
		} else {
			st.recreate(st.draw(), limit)
		}
		next := value()
		if next < now {
			st.undo()
			continue
		}
		now = next
		if now > high {
			high = now
			copySheet(best, &st.sheets[slot])
		}
	}
	st.empty(slot)
	st.shut(0)
	return high, ok
}

// become makes the empty sheet in slot i equal to one of the same stock whose parts are out.
func (st *state) become(i int32, from *sheet) {
	s := &st.sheets[i]
	copySheet(s, from)
	st.revalue(s)
	st.survey(i)
	for n := range s.nodes {
		if k := s.nodes[n].kind; k >= 0 {
			st.takeIn(k >> 1)
		}
	}
}

// strip takes one to three parts or blocks out of slot i.
func (st *state) strip(i int32) {
	st.save(i)
	s := &st.sheets[i]
	for n := 1 + st.rnd.below(3); n > 0 && s.parts > 0; n-- {
		st.pluck(s)
	}
	st.survey(i)
}
