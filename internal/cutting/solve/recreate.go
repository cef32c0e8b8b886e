package solve

import (
	"math"
	"slices"
)

// fits counts the ways in which an option lies in a place.
func (o *option) fits(z size) int32 {
	var n int32
	if z.holds(o.p0) {
		n++
	}
	if z.holds(o.p1) {
		n++
	}
	return n
}

// turn is the order in which parts are put back.
type turn uint8

const (
	byWays turn = iota // always one of those with the fewest ways left
	byArea
	byLength
	byWidth
	atRandom
	turns
)

// draw gives an order at random, those that serve best more often.
func (st *state) draw() turn {
	switch r := st.rnd.below(100); {
	case r < 20:
		return byWays
	case r < 53:
		return byArea
	case r < 86:
		return byLength
	}
	return atRandom
}

// recreate puts parts back, each in the place where it spoils the least. A new sheet is opened while the cost stays
// under limit. What finds no place stays out.
func (st *state) recreate(order turn, limit int64) {
	for g := range st.in.groups {
		st.gather(int32(g), limit)
	}
	switch order {
	case byWays:
		st.few(limit)
	case byArea:
		st.inTurn(limit, func(t int32) int64 { return st.in.types[t].area })
	case byLength:
		st.inTurn(limit, func(t int32) int64 { return int64(st.in.types[t].long) })
	case byWidth:
		st.inTurn(limit, func(t int32) int64 { return st.in.types[t].area / int64(st.in.types[t].long) })
	default:
		st.inTurn(limit, func(int32) int64 { return int64(st.rnd.next() >> 2) })
	}
	for _, i := range st.open {
		if st.stamp[i] == st.step {
			st.sheets[i].weigh()
		}
	}
}

// pending lists the types that are out, but for those of groups, which have had their turn.
func (st *state) pending() {
	st.pend = append(st.pend[:0], st.outs...)
	if len(st.in.groups) > 0 {
		st.pend = slices.DeleteFunc(st.pend, func(t int32) bool { return st.in.types[t].group >= 0 })
	}
}

// inTurn puts parts back from the highest key to the lowest.
func (st *state) inTurn(limit int64, key func(int32) int64) {
	st.pending()
	st.keys = st.keys[:0]
	p := st.pend
	for i, t := range p {
		k := key(t)
		st.keys = append(st.keys, k)
		for ; i > 0 && st.keys[i-1] < k; i-- {
			p[i], st.keys[i] = p[i-1], st.keys[i-1]
		}
		p[i], st.keys[i] = t, k
	}
	for _, t := range p {
		for st.out[t] > 0 {
			sp, ok := st.find(t)
			if !ok {
				if st.another(t, limit) == none {
					break
				}
				if sp, ok = st.findSure(t); !ok {
					st.shut(len(st.open) - 1) // the limit of stages forbids it
					break
				}
			}
			st.lay(t, sp)
			// A sheet that was opened just now is closed again where an older place was better after all.
			if last := len(st.open) - 1; st.sheets[st.open[last]].parts == 0 {
				st.shut(last)
			}
		}
	}
}

// few puts parts back, always one of those with the fewest ways left.
func (st *state) few(limit int64) {
	st.pending()
	for _, t := range st.pend {
		n := int32(0)
		for _, i := range st.open {
			n += st.waysIn(t, i)
		}
		st.ways[t] = n
	}
	count := func(slot, sign int32) {
		for _, u := range st.pend {
			st.ways[u] += sign * st.waysIn(u, slot)
		}
	}
	for len(st.pend) > 0 {
		best, ties := 0, 1
		for i := 1; i < len(st.pend); i++ {
			a, b := st.ways[st.pend[i]], st.ways[st.pend[best]]
			if a < b {
				best, ties = i, 1
			} else if a == b {
				ties++
				if st.rnd.below(ties) == 0 {
					best = i
				}
			}
		}
		t := st.pend[best]
		var sp spot
		ok := false
		if st.ways[t] > 0 {
			sp, ok = st.find(t)
		} else if fresh := st.another(t, limit); fresh != none {
			count(fresh, 1)
			if sp, ok = st.findSure(t); !ok {
				count(fresh, -1)
				st.shut(len(st.open) - 1)
			}
		}
		if !ok {
			st.skip(best) // no way, or each was passed over
			continue
		}
		count(sp.slot, -1)
		st.lay(t, sp)
		count(sp.slot, 1)
		if fresh := st.open[len(st.open)-1]; st.sheets[fresh].parts == 0 {
			count(fresh, -1)
			st.shut(len(st.open) - 1)
		}
		if st.out[t] == 0 {
			st.skip(best)
		}
	}
}

// stages counts the directions of cutting that something in leftover lo needs, the first cut on the given axis, with those
// within it.
func (s *sheet) stages(lo *leftover, axis int32, in within, rest bool) int {
	n, last := 0, free
	for p := s.nodes[lo.node].up; p != none; p = s.nodes[p].up {
		if k := s.nodes[p].kind; k != last { // around damaged places one direction can take several levels
			n, last = n+1, k
		}
	}
	if axis != lo.up {
		n++
	}
	if rest {
		n++
		axis = cutX + cutY - axis
	}
	if in.axis == axis { // the strip is parted by cuts of the direction that frees it
		n--
	}
	return n + in.n
}

// within is how many directions of cutting part what is cut as one, and the axis of the first; 0 and none where it is one part.
type within struct {
	n    int
	axis int32
}

// within tells it of type t, turned where way is 2.
func (in *instance) within(t, way int32) within {
	k := &in.types[t]
	switch {
	case k.strip == nil:
		return within{}
	case k.strip.down == (way == 2):
		return within{k.inner, cutX}
	}
	return within{k.inner, cutY}
}

func (st *state) skip(i int) {
	st.pend[i] = st.pend[len(st.pend)-1]
	st.pend = st.pend[:len(st.pend)-1]
}

// another opens a sheet for a part of type t, or gives none.
func (st *state) another(t int32, limit int64) int32 {
	in := st.in
	pick, n := none, 0
	best := math.Inf(1)
	for k := range in.stocks {
		s := &in.stocks[k]
		o := &in.opts[int(t)*len(in.stocks)+k]
		if st.used[k] >= s.count || st.cost+s.cost >= limit || o.fits(sized(s.x, s.y)) == 0 {
			continue
		}
		if st.thrift { // what is cheapest for its size, the larger of equals
			if v := float64(s.cost) * s.scale; v < best || v == best && s.area > in.stocks[pick].area {
				best, pick = v, int32(k)
			}
			continue
		}
		n++
		if st.rnd.below(n) == 0 {
			pick = int32(k)
		}
	}
	if pick == none {
		return none
	}
	return st.start(pick, t)
}

// find gives the place where one part of type t costs least; ok is false where there is none, or each was passed over.
func (st *state) find(t int32) (sp spot, ok bool) {
	in := st.in
	best := math.Inf(1)
	ns := len(in.stocks)
	opts := in.opts[int(t)*ns : int(t)*ns+ns]
	deep := in.stages > 0
	for _, i := range st.open {
		tp := &st.tops[i]
		o := &opts[tp.stock]
		if !tp.size.holds(o.p0) && !tp.size.holds(o.p1) {
			continue
		}
		s := &st.sheets[i]
		scale := in.stocks[s.stock].scale
		rough := in.stocks[s.stock].rough()
		for j := range s.los {
			lo := &s.los[j]
			a, b := lo.size.holds(o.p0), lo.size.holds(o.p1)
			if !a && !b {
				continue
			}
			lx, ly := lo.size.x(), lo.size.y()
			gx, gy := int32(0), int32(0)
			if rough {
				gx, gy = st.gap(s, lo.node, lo.up, cutX), st.gap(s, lo.node, lo.up, cutY)
			}
			for r := int32(0); r < 4; r += 2 {
				x, y := o.x0, o.y0
				if r == 0 && !a {
					continue
				}
				if r == 2 {
					if !b {
						break
					}
					x, y = o.x1, o.y1
				}
				if x < lx && (!deep || s.stages(lo, cutX, in.within(t, r), y < ly) <= in.stages) {
					v := lo.val - st.value(scale, max(0, lx-x-gx), ly) - st.value(scale, x, ly-y)
					if st.fond > 0 {
						v -= st.liking(s, x, y, ly)
					}
					if v < best && (st.blink == 0 || st.rnd.next()>>54 >= st.blink) {
						best, sp = v, spot{i, int32(j), r}
					}
				}
				if (y < ly || x == lx) && (!deep || s.stages(lo, cutY, in.within(t, r), x < lx) <= in.stages) {
					v := lo.val - st.value(scale, lx, max(0, ly-y-gy)) - st.value(scale, lx-x, y)
					if st.fond > 0 {
						v -= st.liking(s, y, x, lx)
					}
					if v < best && (st.blink == 0 || st.rnd.next()>>54 >= st.blink) {
						best, sp = v, spot{i, int32(j), r + 1}
					}
				}
			}
		}
	}
	return sp, !math.IsInf(best, 1)
}

// liking is how much a place is preferred whose first cut is set to a, and the next, across a rest of b in whole, to
// c: each counts where the saw is set to it already on any sheet of the stock.
func (st *state) liking(s *sheet, a, c, whole int32) float64 {
	v := 0.0
	if st.tally.has(s.stock, a) {
		v += st.fond
	}
	if c == whole || st.tally.has(s.stock, c) {
		v += st.fond
	}
	return v
}

// findSure is find without passing over any way.
func (st *state) findSure(t int32) (sp spot, ok bool) {
	b := st.blink
	st.blink = 0
	sp, ok = st.find(t)
	st.blink = b
	return sp, ok
}

// waysIn counts the places and turns that slot i offers to type t.
func (st *state) waysIn(t, i int32) int32 {
	tp := &st.tops[i]
	o := &st.in.opts[int(t)*len(st.in.stocks)+int(tp.stock)]
	if !tp.size.holds(o.p0) && !tp.size.holds(o.p1) {
		return 0
	}
	n := int32(0)
	s := &st.sheets[i]
	for j := range s.los {
		n += o.fits(s.los[j].size)
	}
	return n
}

// lay puts one part of type t where find found it best.
func (st *state) lay(t int32, sp spot) {
	st.save(sp.slot)
	s := &st.sheets[sp.slot]
	o := &st.in.opts[int(t)*len(st.in.stocks)+int(s.stock)]
	x, y, axis := o.x0, o.y0, cutX
	if sp.way >= 2 {
		x, y = o.x1, o.y1
	}
	if sp.way&1 == 1 {
		axis = cutY
	}
	st.insert(s, sp.at, t<<1|sp.way>>1, x, y, axis)
	st.takeIn(t)
	st.join(t, sp.slot)
	st.survey(sp.slot)
}
