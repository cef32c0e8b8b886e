package solve

import (
	"math"
)

// exact cuts a lot of a few parts in the cheapest way there is, by going through all of them: every set of
// parts, a number of copies of each type, is made from two smaller sets side by side or one above
// the other, and of the boxes that hold a set only those are kept that no other is inside of. It knows no
// damaged sheets, strips or limits of stages.
type exact struct {
	in     *instance
	step   []int32   // a set's number is the sum of count times step over the types
	sets   int32     // how many there are; the last holds everything
	fronts [][][]box // of each stock, of each set
	work   int
	parts  []int32 // count of each type in the set that is looked at
}

// box is one way to cut a set of parts from a piece of size x, y: a part, or two boxes.
type box struct {
	x, y int32
	kind int32 // cutX, cutY, or the part as in a node
	a, b int32 // the sets of the two
	i, j int32 // the places of their boxes in the fronts
}

// A lot is few enough where its sets and the pairs of them are. One unit of work is two boxes put together.
const (
	mostPairs = 60_000
	mostWork  = 4_000_000
	mostTaken = 64
)

// fewest gives the cheapest complete solution; ok is false where the lot is too large for it or there is none.
func (st *state) fewest() (s *solution, ok bool) {
	in := st.in
	e := &exact{in: in, sets: 1, parts: make([]int32, len(in.types))}
	if in.stages > 0 || len(in.groups) > 0 {
		return nil, false
	}
	for i := range in.stocks {
		if len(in.stocks[i].around) > 0 || in.stocks[i].rough() {
			return nil, false
		}
	}
	pairs := 1
	for t := range in.types {
		k := &in.types[t]
		if k.strip != nil {
			return nil, false
		}
		n := int(k.count)
		if pairs *= (n + 1) * (n + 2) / 2; pairs > mostPairs {
			return nil, false
		}
		e.step = append(e.step, e.sets)
		e.sets *= k.count + 1
	}
	for s := range in.stocks {
		if !e.boxes(s) {
			return nil, false
		}
	}
	return e.buy(st)
}

// below calls f with every set within set v, the empty one and v among them, rising.
func (e *exact) below(v int32, f func(u int32)) {
	n := len(e.step)
	var at func(t int, v, u int32)
	at = func(t int, v, u int32) {
		if t < 0 {
			f(u)
			return
		}
		c := v / e.step[t]
		for k := range c + 1 {
			at(t-1, v-c*e.step[t], u+k*e.step[t])
		}
	}
	at(n-1, v, 0)
}

// boxes finds the boxes of every set that fit stock s; false where that is too much work.
func (e *exact) boxes(s int) bool {
	k := &e.in.stocks[s]
	front := make([][]box, e.sets)
	put := func(v int32, b box) {
		if b.x > k.x || b.y > k.y {
			return
		}
		f := front[v]
		n := 0
		for _, o := range f {
			if o.x <= b.x && o.y <= b.y {
				return
			}
		}
		for _, o := range f {
			if o.x < b.x || o.y < b.y {
				f[n] = o
				n++
			}
		}
		front[v] = append(f[:n], b)
	}
	for t := range e.in.types {
		o := &e.in.opts[t*len(e.in.stocks)+s]
		put(e.step[t], box{x: o.x0, y: o.y0, kind: int32(t) * 2})
		put(e.step[t], box{x: o.x1, y: o.y1, kind: int32(t)*2 + 1})
	}
	for v := int32(1); v < e.sets; v++ {
		e.below(v, func(a int32) {
			b := v - a
			if a < b || b == 0 || e.work > mostWork {
				return
			}
			for i, p := range front[a] {
				for j, q := range front[b] {
					e.work++
					put(v, box{p.x + q.x, max(p.y, q.y), cutX, a, b, int32(i), int32(j)})
					put(v, box{max(p.x, q.x), p.y + q.y, cutY, a, b, int32(i), int32(j)})
				}
			}
		})
	}
	e.fronts = append(e.fronts, front)
	return e.work <= mostWork
}

// buy chooses the sheets: the cheapest that together hold everything.
func (e *exact) buy(st *state) (*solution, bool) {
	// Of a stock with fewer sheets than parts the number taken counts too.
	taken, by := int32(1), make([]int32, len(e.in.stocks))
	for s := range e.in.stocks {
		if n := e.in.stocks[s].count; int(n) < e.in.parts {
			by[s] = taken
			if taken *= n + 1; taken > mostTaken {
				return nil, false
			}
		}
	}
	type choice struct {
		cost     int64
		stock, u int32
	}
	best := make([]choice, taken*e.sets)
	for c := range taken {
		for v := int32(1); v < e.sets; v++ {
			here := choice{cost: math.MaxInt64}
			first := v
			for t := range e.step { // the sheet with a part of the first type is chosen first
				if n := v / e.step[t] % (e.in.types[t].count + 1); n > 0 {
					first = int32(t)
					break
				}
			}
			e.below(v, func(u int32) {
				if u/e.step[first]%(e.in.types[first].count+1) == 0 {
					return
				}
				for s := range e.in.stocks {
					from := c
					if n := e.in.stocks[s].count; by[s] > 0 {
						if c/by[s]%(n+1) == 0 {
							continue
						}
						from = c - by[s]
					}
					if len(e.fronts[s][u]) == 0 {
						continue
					}
					if rest := best[from*e.sets+v-u].cost; rest < math.MaxInt64 && rest+e.in.stocks[s].cost < here.cost {
						here = choice{rest + e.in.stocks[s].cost, int32(s), u}
					}
				}
			})
			best[c*e.sets+v] = here
		}
	}
	c, v := taken-1, e.sets-1
	if best[c*e.sets+v].cost == math.MaxInt64 {
		return nil, false
	}
	st.load(&solution{})
	for v > 0 {
		k := best[c*e.sets+v]
		e.lay(st, k.stock, k.u)
		if by[k.stock] > 0 {
			c -= by[k.stock]
		}
		v -= k.u
	}
	return st.solution(), true
}

// lay opens a sheet and cuts a set from it.
func (e *exact) lay(st *state, stock, u int32) {
	i := 0
	front := e.fronts[stock][u]
	for j := range front {
		if int64(front[j].x)*int64(front[j].y) < int64(front[i].x)*int64(front[i].y) {
			i = j
		}
	}
	st.whole(st.start(stock, 0), &front[i], func(b *box) (p, q *box) { return &e.fronts[stock][b.a][b.i], &e.fronts[stock][b.b][b.j] })
}

// whole cuts a box from the new sheet in a slot; in gives the two boxes in one.
func (st *state) whole(slot int32, b *box, in func(b *box) (p, q *box)) {
	s := &st.sheets[slot]
	k := &st.in.stocks[s.stock]
	s.retract(0)
	root := &s.nodes[0]
	switch {
	case b.kind >= 0 && b.x == k.x && b.y == k.y:
		root.kind = b.kind
		st.took(s, b.kind)
	case b.kind == cutY, b.kind >= 0 && b.x == k.x:
		root.kind = cutY
		st.put(s, 0, b, k.x, k.y, in)
	default:
		root.kind = cutX
		st.put(s, 0, b, k.x, k.y, in)
	}
	s.weigh()
	st.survey(slot)
}

func (st *state) took(s *sheet, kind int32) {
	t := kind >> 1
	st.takeIn(t)
	s.parts++
	s.area += st.in.types[t].area
}

// put adds a box to the children of node up, where it has the size x, y; what is over becomes a leftover.
func (st *state) put(s *sheet, up int32, b *box, x, y int32, in func(b *box) (p, q *box)) {
	axis := s.nodes[up].kind
	run, bx := x, b.x // along the parent's axis
	if axis == cutY {
		run, bx = y, b.y
	}
	add := func(run, kind int32) int32 {
		n := s.alloc()
		nd := node{up: up, down: none, next: none, prev: none, x: run, y: y, kind: kind}
		if axis == cutY {
			nd.x, nd.y = x, run
		}
		last := none
		for c := s.nodes[up].down; c != none; c = s.nodes[c].next {
			last = c
		}
		if nd.prev = last; last == none {
			s.nodes[up].down = n
		} else {
			s.nodes[last].next = n
		}
		s.nodes[n] = nd
		return n
	}
	switch {
	case b.kind == axis:
		p, q := in(b)
		if axis == cutX {
			st.put(s, up, p, p.x, y, in)
			st.put(s, up, q, x-p.x, y, in)
		} else {
			st.put(s, up, p, x, p.y, in)
			st.put(s, up, q, x, y-p.y, in)
		}
		return
	case b.kind >= 0 && (axis == cutX && b.y == y || axis == cutY && b.x == x):
		add(bx, b.kind)
		st.took(s, b.kind)
	default: // a strip cut the other way
		n := add(bx, cutX+cutY-axis)
		if axis == cutX {
			st.put(s, n, b, b.x, y, in)
		} else {
			st.put(s, n, b, x, b.y, in)
		}
	}
	if bx < run {
		st.offer(s, add(run-bx, free))
	}
}
