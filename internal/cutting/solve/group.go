package solve

// Parts of a group that comes from one sheet are put in together, before all others, and taken out together where the rest has
// no place beside them.

// join notes that a part of type t lies in slot i.
func (st *state) join(t, i int32) {
	if g := st.in.types[t].group; g >= 0 {
		st.home[g] = i
		st.held[g]++
	}
}

// tries is in how many open sheets a group is tried before a new one is opened for it.
const tries = 3

// gather puts what is out of group g where the rest of it lies, or all of it on another sheet; it stays out
// whole where none has room.
func (st *state) gather(g int32, limit int64) {
	if st.held[g] == st.in.groups[g] {
		return
	}
	if st.held[g] > 0 {
		if st.together(g, st.home[g]) {
			return
		}
		st.part(g)
	}
	for n := 0; n < min(tries, len(st.open)); n++ {
		if st.together(g, st.open[st.rnd.below(len(st.open))]) {
			return
		}
		st.part(g)
	}
	for t := range st.in.types {
		if st.in.types[t].group != g {
			continue
		}
		slot := st.another(int32(t), limit)
		if slot == none {
			continue
		}
		if st.together(g, slot) {
			return
		}
		st.part(g)
		break
	}
}

// together puts all parts of group g that are out into a slot, largest first, and tells whether all have a place.
func (st *state) together(g, slot int32) bool {
	all := st.open
	defer func() { st.open = all }()
	st.one[0] = slot
	st.open = st.one[:]
	for {
		next := none
		for _, t := range st.outs {
			if k := &st.in.types[t]; k.group == g && (next == none || k.area > st.in.types[next].area) {
				next = t
			}
		}
		if next == none {
			return true
		}
		sp, ok := st.findSure(next)
		if !ok {
			return false
		}
		st.lay(next, sp)
	}
}

// part takes group g out, and closes the sheet that is empty then.
func (st *state) part(g int32) {
	if st.held[g] > 0 {
		i := st.home[g]
		st.save(i)
		s := &st.sheets[i]
		for n := 0; n < len(s.nodes); n++ {
			if k := s.nodes[n].kind; k >= 0 && st.in.types[k>>1].group == g {
				st.remove(s, int32(n))
				n = -1 // nodes have moved
			}
		}
		st.survey(i)
	}
	for i := len(st.open) - 1; i >= 0; i-- {
		if st.sheets[st.open[i]].parts == 0 {
			st.shut(i)
		}
	}
}
