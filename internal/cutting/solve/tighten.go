package solve

// tighten moves room that a whole block has to spare along its parent's cuts to the leftover beside the block,
// wherever that makes the leftovers worth more: what is left when parts were taken out of a strip's full
// width is gathered again. It works from the leaves up.
func (st *state) tighten(s *sheet, n int32) {
	axis := s.nodes[n].kind
	if axis != cutX && axis != cutY {
		return
	}
	// Beside rough cuts only what is a leftover already can take more.
	settled := n == 0 && st.in.stocks[s.stock].gap[cutX-axis] > 0 && s.leftoverOf(0) == none
	for c := s.nodes[n].down; c != none; {
		next := s.nodes[c].next
		st.tighten(s, c)
		if settled {
			c = next
			continue
		}
		if k := s.nodes[c].kind; k == cutX || k == cutY {
			if v := st.spare(s, c, axis); v > 0 && st.gains(s, n, c, axis, v) {
				st.shrink(s, c, axis, v)
				st.grow(s, n, axis, v)
			}
		}
		c = next
	}
}

// along gives the size of a node along an axis.
func (s *sheet) along(n, axis int32) *int32 {
	if axis == cutX {
		return &s.nodes[n].x
	}
	return &s.nodes[n].y
}

// leftoverOf gives the leftover among the children of n, or none.
func (s *sheet) leftoverOf(n int32) int32 {
	c := s.nodes[n].down
	for c != none && s.nodes[c].kind != free {
		c = s.nodes[c].next
	}
	return c
}

// spare tells by how much block c, cut across the axis, can be made smaller along it.
func (st *state) spare(s *sheet, c, axis int32) int32 {
	least := *s.along(c, axis)
	for d := s.nodes[c].down; d != none; d = s.nodes[d].next {
		switch k := s.nodes[d].kind; {
		case k == free:
		case k == axis:
			f := s.leftoverOf(d)
			if f == none {
				return 0
			}
			least = min(least, *s.along(f, axis))
		default:
			return 0
		}
	}
	if least == *s.along(c, axis) {
		return 0 // nothing but leftovers: cannot be
	}
	return least
}

// gains tells whether the leftovers are worth more when block c of n gives v to the leftover beside it.
func (st *state) gains(s *sheet, n, c, axis, v int32) bool {
	scale := st.in.stocks[s.stock].scale
	worth := func(f, by int32) float64 {
		x, y := s.nodes[f].x, s.nodes[f].y
		if axis == cutX {
			x += by
		} else {
			y += by
		}
		return st.value(scale, x, y)
	}
	gain := 0.0
	if f := s.leftoverOf(n); f != none {
		gain = worth(f, v) - s.los[s.nodes[f].lo].val
	} else if axis == cutX {
		gain = st.value(scale, v, s.nodes[n].y)
	} else {
		gain = st.value(scale, s.nodes[n].x, v)
	}
	for d := s.nodes[c].down; d != none; d = s.nodes[d].next {
		f := d
		if s.nodes[d].kind != free {
			f = s.leftoverOf(d)
		}
		gain += worth(f, -v) - s.los[s.nodes[f].lo].val
	}
	return gain > 0
}

// resize changes the size of leftover f along an axis; one that vanishes is taken out.
func (st *state) resize(s *sheet, f, axis, by int32) {
	p := s.along(f, axis)
	*p += by
	if *p == 0 {
		s.retract(s.nodes[f].lo)
		s.unlink(f)
		s.drop(f)
		return
	}
	nd := &s.nodes[f]
	lo := &s.los[nd.lo]
	lo.size = sized(nd.x, nd.y)
	lo.val = st.value(st.in.stocks[s.stock].scale, nd.x, nd.y)
}

// grow gives v more to the leftover among the children of n.
func (st *state) grow(s *sheet, n, axis, v int32) {
	if f := s.leftoverOf(n); f != none {
		st.resize(s, f, axis, v)
		return
	}
	f := s.alloc()
	nd := s.nodes
	nd[f] = node{up: n, down: none, next: none, prev: none, x: nd[n].x, y: nd[n].y, kind: free}
	*s.along(f, axis) = v
	s.before(f, nd[n].down)
	st.offer(s, f)
}

// shrink makes block c smaller by v along the axis that it is cut across.
func (st *state) shrink(s *sheet, c, axis, v int32) {
	*s.along(c, axis) -= v
	for d := s.nodes[c].down; d != none; {
		next := s.nodes[d].next
		if s.nodes[d].kind == free {
			st.resize(s, d, axis, -v)
		} else {
			*s.along(d, axis) -= v
			st.resize(s, s.leftoverOf(d), axis, -v)
			if e := s.nodes[d].down; s.nodes[e].next == none {
				st.lift(s, c, d, e)
			}
		}
		d = next
	}
}

// lift puts e, the only child that is left of d, in the place of d among the children of c.
func (st *state) lift(s *sheet, c, d, e int32) {
	nd := s.nodes
	if nd[e].kind >= 0 {
		nd[d].kind, nd[d].down = nd[e].kind, none
		s.drop(e)
		return
	}
	// e is cut the same way as c: its children join those of c, with one leftover among them.
	old := s.leftoverOf(c)
	for g := nd[e].down; g != none; {
		next := nd[g].next
		if nd[g].kind == free && old != none {
			axis := nd[c].kind
			size := *s.along(g, axis)
			s.retract(nd[g].lo)
			s.drop(g)
			st.resize(s, old, axis, size)
		} else {
			s.before(g, d)
			if nd[g].kind == free {
				s.los[nd[g].lo].up = nd[c].kind
			}
		}
		g = next
	}
	s.unlink(d)
	s.drop(d)
	s.drop(e)
}
