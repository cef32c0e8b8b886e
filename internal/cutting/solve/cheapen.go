package solve

// cheapen moves what is on a sheet, as it lies, to the cheapest other stock that is large enough for it.
func (st *state) cheapen() {
	if len(st.in.stocks) == 1 {
		return
	}
	for _, i := range st.open {
		s := &st.sheets[i]
		root := s.nodes[0].kind
		if root != cutX && root != cutY || len(st.in.stocks[s.stock].around) > 0 || st.in.stocks[s.stock].rough() {
			continue
		}
		st.neaten(i)
		if root = s.nodes[0].kind; root != cutX && root != cutY {
			continue
		}
		var need [2]int32 // along the root's cuts and across them
		need[0] = *s.along(0, root)
		if f := s.leftoverOf(0); f != none {
			need[0] -= *s.along(f, root)
		}
		need[1] = *s.along(0, cutX+cutY-root) - st.spare(s, 0, cutX+cutY-root)
		if root == cutY {
			need[0], need[1] = need[1], need[0]
		}
		best := s.stock
		for k := range st.in.stocks {
			o := &st.in.stocks[k]
			if o.cost < st.in.stocks[best].cost && st.used[k] < o.count && len(o.around) == 0 && !o.rough() &&
				need[0] <= o.x && need[1] <= o.y && st.alike(s, int32(k)) {
				best = int32(k)
			}
		}
		if best != s.stock {
			st.restock(s, best)
			st.survey(i)
			s.weigh()
		}
	}
}

// alike tells whether the parts of a sheet may lie on a stock as they do now, and have the same sizes there.
func (st *state) alike(s *sheet, stock int32) bool {
	ns := len(st.in.stocks)
	for n := range s.nodes {
		k := s.nodes[n].kind
		if k < 0 {
			continue
		}
		a, b := &st.in.opts[int(k>>1)*ns+int(s.stock)], &st.in.opts[int(k>>1)*ns+int(stock)]
		if k&1 == 0 && a.p0 != b.p0 || k&1 == 1 && a.p1 != b.p1 {
			return false
		}
	}
	// A part that spans the sheet is cut once more where the sheet is wider.
	o := &st.in.stocks[stock]
	cross, size := cutY, o.y
	if s.nodes[0].kind == cutY {
		cross, size = cutX, o.x
	}
	if st.in.stages > 0 && size > *s.along(0, cross) {
		return false
	}
	return true
}

// restock gives a sheet the size of another stock that is large enough.
func (st *state) restock(s *sheet, stock int32) {
	o := &st.in.stocks[stock]
	st.used[s.stock]--
	st.used[stock]++
	st.cost += o.cost - st.in.stocks[s.stock].cost
	s.stock = stock
	root := s.nodes[0].kind
	cross := cutX + cutY - root
	along, across := o.x-s.nodes[0].x, o.y-s.nodes[0].y
	if root == cutY {
		along, across = across, along
	}
	s.nodes[0].x, s.nodes[0].y = o.x, o.y
	if across != 0 {
		for c, next := s.nodes[0].down, none; c != none; c = next {
			next = s.nodes[c].next // c itself may go
			*s.along(c, cross) += across
			switch k := s.nodes[c].kind; {
			case k == free:
			case k == cross:
				st.stretch(s, c, cross, across)
			case across > 0: // a part: a strip of its own now, with what is left beside it
				p := s.alloc()
				nd := s.nodes
				nd[p] = node{up: c, down: none, next: none, prev: none, x: nd[c].x, y: nd[c].y, kind: k}
				*s.along(p, cross) -= across
				nd[c].kind, nd[c].down = cross, p
				st.grow(s, c, cross, across)
			}
		}
	}
	if along != 0 {
		st.stretch(s, 0, root, along)
	}
	// Leftovers are worth something else on another stock, and those across have new sizes.
	for i := range s.los {
		nd := &s.nodes[s.los[i].node]
		s.los[i].size, s.los[i].val = sized(nd.x, nd.y), st.value(o.scale, nd.x, nd.y)
	}
}

// stretch gives v to the leftover of n along its cuts, or takes -v from it.
func (st *state) stretch(s *sheet, n, axis, v int32) {
	if v > 0 {
		st.grow(s, n, axis, v)
		return
	}
	st.resize(s, s.leftoverOf(n), axis, v)
	e := s.nodes[n].down
	if s.nodes[e].next != none {
		return
	}
	if up := s.nodes[n].up; up != none {
		st.lift(s, up, n, e)
		return
	}
	nd := s.nodes
	nd[n].kind, nd[n].down = nd[e].kind, nd[e].down
	for g := nd[e].down; g != none; g = nd[g].next {
		nd[g].up = n
	}
	s.drop(e)
}
