package solve

import "math"

// fits counts the ways in which an option lies in a place of size x, y.
func (o *option) fits(x, y int32) int32 {
	var n int32
	if o.x0 <= x && o.y0 <= y {
		n++
	}
	if o.x1 <= x && o.y1 <= y {
		n++
	}
	return n
}

// under tells whether an option may lie under a top.
func (o *option) under(t *top) bool {
	return o.x0 <= t.x && o.y0 <= t.y || o.x1 <= t.x && o.y1 <= t.y
}

// recreate puts parts back, each in the place where it spoils the least. Which part comes first is drawn
// anew each time: the one with the fewest ways left, the largest, the longest, or any. A new sheet is opened while
// the cost stays under limit. What finds no place stays out.
func (st *state) recreate(limit int64) {
	switch r := st.rnd.below(100); {
	case st.blink == 0 || r < 20:
		st.few(limit)
	case r < 53:
		st.inTurn(limit, func(t int32) int64 { return st.in.types[t].area })
	case r < 86:
		st.inTurn(limit, func(t int32) int64 { return int64(st.in.types[t].long) })
	default:
		st.inTurn(limit, func(int32) int64 { return int64(st.rnd.next() >> 2) })
	}
	for _, i := range st.open {
		if st.stamp[i] == st.step {
			st.sheets[i].weigh()
		}
	}
}

// inTurn puts parts back from the highest key to the lowest.
func (st *state) inTurn(limit int64, key func(int32) int64) {
	st.pend = append(st.pend[:0], st.outs...)
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
	st.blind = true
	for _, t := range p {
		for st.out[t] > 0 {
			if st.put(t) {
				continue
			}
			if st.another(t, limit) == none {
				break
			}
			if !st.putSure(t) {
				break
			}
		}
	}
	st.blind = false
}

// putSure is put without passing over any way, after a sheet was opened for the part. A sheet that
// does not serve is closed again: by the limit of stages, or because an older place was better after all.
func (st *state) putSure(t int32) bool {
	b := st.blink
	st.blink = 0
	ok := st.put(t)
	st.blink = b
	if last := len(st.open) - 1; st.sheets[st.open[last]].parts == 0 {
		st.shut(last)
	}
	return ok
}

// few puts parts back, always one of those with the fewest ways left.
func (st *state) few(limit int64) {
	in := st.in
	ns := len(in.stocks)
	st.pend = append(st.pend[:0], st.outs...)
	for _, t := range st.pend {
		n := int32(0)
		o := in.opts[int(t)*ns:]
		for _, i := range st.open {
			tp := &st.tops[i]
			os := &o[tp.stock]
			if !os.under(tp) {
				continue
			}
			s := &st.sheets[i]
			for j := range s.los {
				n += os.fits(s.los[j].x, s.los[j].y)
			}
		}
		st.ways[t] = n
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
		if st.ways[t] == 0 {
			slot := st.another(t, limit)
			if slot == none {
				st.skip(best)
				continue
			}
			s := &st.sheets[slot]
			count := func(sign int32) {
				for j := range s.los {
					for _, u := range st.pend {
						st.ways[u] += sign * in.opts[int(u)*ns+int(s.stock)].fits(s.los[j].x, s.los[j].y)
					}
				}
			}
			count(1)
			ok := st.putSure(t)
			if s.parts == 0 {
				count(-1)
			}
			if !ok {
				st.skip(best)
				continue
			}
			if st.out[t] == 0 {
				st.skip(best)
			}
			continue
		}
		if !st.put(t) {
			st.skip(best) // every way was passed over
			continue
		}
		if st.out[t] == 0 {
			st.skip(best)
		}
	}
}

// stages counts the directions of cutting that a part in leftover lo needs, the first cut on the given axis.
func (s *sheet) stages(lo *leftover, axis int32, rest bool) int {
	n := 0
	for p := s.nodes[lo.node].up; p != none; p = s.nodes[p].up {
		n++
	}
	if axis != lo.up {
		n++
	}
	if rest {
		n++
	}
	return n
}

func (st *state) skip(i int) {
	st.pend[i] = st.pend[len(st.pend)-1]
	st.pend = st.pend[:len(st.pend)-1]
}

// another opens a sheet for a part of type t, or gives none.
func (st *state) another(t int32, limit int64) int32 {
	in := st.in
	pick, n := none, 0
	for k := range in.stocks {
		s := &in.stocks[k]
		o := &in.opts[int(t)*len(in.stocks)+k]
		if st.used[k] >= s.count || st.cost+s.cost >= limit || o.fits(s.x, s.y) == 0 {
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

// put places one part of type t where it costs least.
func (st *state) put(t int32) bool {
	in := st.in
	ns := len(in.stocks)
	opts := in.opts[int(t)*ns:]
	deep := in.stages > 0
	most := in.stages - in.types[t].inner
	best := math.Inf(1)
	var slot, at, turned, axis int32
	for _, i := range st.open {
		tp := &st.tops[i]
		o := &opts[tp.stock]
		if !o.under(tp) {
			continue
		}
		s := &st.sheets[i]
		scale := in.stocks[s.stock].scale
		for j := range s.los {
			lo := &s.los[j]
			for r := int32(0); r < 2; r++ {
				x, y := o.x0, o.y0
				if r == 1 {
					x, y = o.x1, o.y1
				}
				if x > lo.x || y > lo.y {
					continue
				}
				if x < lo.x && (!deep || s.stages(lo, cutX, y < lo.y) <= most) {
					if st.blink == 0 || st.rnd.next()>>54 >= st.blink {
						c := lo.val - st.value(scale, lo.x-x, lo.y) - st.value(scale, x, lo.y-y)
						if c < best {
							best, slot, at, turned, axis = c, i, int32(j), r, cutX
						}
					}
				}
				if (y < lo.y || x == lo.x) && (!deep || s.stages(lo, cutY, x < lo.x) <= most) {
					if st.blink == 0 || st.rnd.next()>>54 >= st.blink {
						c := lo.val - st.value(scale, lo.x, lo.y-y) - st.value(scale, lo.x-x, y)
						if c < best {
							best, slot, at, turned, axis = c, i, int32(j), r, cutY
						}
					}
				}
			}
		}
	}
	if math.IsInf(best, 1) {
		return false
	}
	st.save(slot)
	s := &st.sheets[slot]
	o := &opts[s.stock]
	x, y := o.x0, o.y0
	if turned == 1 {
		x, y = o.x1, o.y1
	}
	// The ways of the parts that wait change with this place alone.
	lo := s.los[at]
	had := len(s.los)
	if st.blind {
		st.insert(s, at, t<<1|turned, x, y, axis)
		st.takeIn(t)
		st.survey(slot)
		return true
	}
	for _, u := range st.pend {
		st.ways[u] -= in.opts[int(u)*ns+int(s.stock)].fits(lo.x, lo.y)
	}
	st.insert(s, at, t<<1|turned, x, y, axis)
	st.takeIn(t)
	st.survey(slot)
	if x < lo.x || y < lo.y { // the place itself shrank
		a := s.los[at]
		for _, u := range st.pend {
			st.ways[u] += in.opts[int(u)*ns+int(s.stock)].fits(a.x, a.y)
		}
	}
	for j := had; j < len(s.los); j++ {
		a := s.los[j]
		for _, u := range st.pend {
			st.ways[u] += in.opts[int(u)*ns+int(s.stock)].fits(a.x, a.y)
		}
	}
	return true
}
