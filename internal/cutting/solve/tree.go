package solve

// A sheet is kept as a tree of guillotine cuts. Leaves are parts or leftovers; the
// children of a column node (cutX) lie side by side at its full y size, those of a row node
// (cutY) are stacked at its full x size, and the two kinds alternate from level to level. No
// places are stored, so siblings may change places, every tree can be sawn, and the depth is
// the number of stages. All sizes are real sizes plus one kerf, which makes kerf vanish from the arithmetic: n
// pieces and n-1 kerfs fit exactly when n inflated pieces fit the inflated whole.

// Kinds of node below zero; a part is its type*2, plus 1 where it lies turned.
const (
	free   int32 = -1 // a leftover
	cutX   int32 = -2
	cutY   int32 = -3
	fixed  int32 = -4 // a damaged place
	unused int32 = -5
)

const none int32 = -1

// node is one place in a sheet's tree; links are indices in sheet.nodes.
type node struct {
	up, down   int32
	next, prev int32
	x, y       int32
	kind       int32
	lo         int32 // index in sheet.los of a leftover
}

// size is an x and a y size in one word, so that one subtraction compares both: each has a bit above it,
// set in what is there and clear in what is wanted, and a bit that is borrowed from tells that it is too small.
type size uint64

const (
	guards size = 1<<63 | 1<<31
	sizeY  size = 1<<31 - 1
)

// sized is the size of a place; without guards it is the size of a part.
func sized(x, y int32) size { return size(x)<<32 | size(y) | guards }

func (z size) x() int32 { return int32(z >> 32 & sizeY) }
func (z size) y() int32 { return int32(z & sizeY) }

// holds tells whether a place of size z is large enough for a part of size p.
func (z size) holds(p size) bool { return (z-p)&guards == guards }

// leftover is a free place, copied out of its node so that a search reads one flat list.
type leftover struct {
	size size
	node int32
	up   int32 // kind of the parent node, or free at the root
	val  float64
}

// sheet is one sheet in use: its tree, root first.
type sheet struct {
	nodes []node
	hole  int32 // first unused node, linked by next
	los   []leftover
	val   float64 // sum of the leftovers' values
	stock int32
	parts int32
	area  int64 // of the parts
	same  int32 // of sheets cut alike: the first of them

	// for tidy alone
	cuts []uint64 // the settings of its cuts
	offs []int32  // the node that comes off with each
	left float64  // value of what is left
}

func (s *sheet) alloc() int32 {
	if h := s.hole; h != none {
		s.hole = s.nodes[h].next
		return h
	}
	s.nodes = append(s.nodes, node{})
	return int32(len(s.nodes) - 1)
}

func (s *sheet) drop(n int32) {
	s.nodes[n].kind = unused
	s.nodes[n].next = s.hole
	s.hole = n
}

// before links c as a child of p in front of m.
func (s *sheet) before(c, m int32) {
	nd := s.nodes
	p := nd[m].up
	nd[c].up, nd[c].next, nd[c].prev = p, m, nd[m].prev
	if q := nd[m].prev; q != none {
		nd[q].next = c
	} else {
		nd[p].down = c
	}
	nd[m].prev = c
}

func (s *sheet) unlink(c int32) {
	n := &s.nodes[c]
	if n.prev != none {
		s.nodes[n.prev].next = n.next
	} else {
		s.nodes[n.up].down = n.next
	}
	if n.next != none {
		s.nodes[n.next].prev = n.prev
	}
}

// offer puts leftover node n on the list.
func (st *state) offer(s *sheet, n int32) {
	nd := &s.nodes[n]
	nd.lo = int32(len(s.los))
	up := free
	if nd.up != none {
		up = s.nodes[nd.up].kind
	}
	v := st.value(st.in.stocks[s.stock].scale, nd.x, nd.y)
	s.los = append(s.los, leftover{sized(nd.x, nd.y), n, up, v})
}

// retract takes the leftover at place i off the list.
func (s *sheet) retract(i int32) {
	last := int32(len(s.los) - 1)
	if i != last {
		s.los[i] = s.los[last]
		s.nodes[s.los[i].node].lo = i
	}
	s.los = s.los[:last]
}

// gap is what a cut on an axis takes more than a kerf when it parts node n, or the block that n is a leftover of: something
// where first cuts are rough and it is one of them.
func (st *state) gap(s *sheet, n, up, axis int32) int32 {
	g := st.in.stocks[s.stock].gap[cutX-axis]
	if g > 0 && (n == 0 || up == axis && s.nodes[n].up == 0) {
		return g
	}
	return 0
}

// insert puts a part of size x, y and the given kind in leftover i of the sheet, the first cut on the
// given axis. Where the part has the leftover's full size along that axis the cut must be on the other.
func (st *state) insert(s *sheet, i int32, kind, x, y, axis int32) {
	n := s.los[i].node
	l, w := s.los[i].size.x(), s.los[i].size.y()
	s.parts++
	s.area += st.in.types[kind>>1].area
	if x == l && y == w {
		s.retract(i)
		s.nodes[n].kind = kind
		s.nodes[n].down = none
		return
	}
	gap := st.gap(s, n, s.los[i].up, axis)
	nx, ny := l, w
	if axis == cutX {
		nx = l - x - gap
	} else {
		ny = w - y - gap
	}
	c := s.alloc() // the strip that holds the part
	gone := nx <= 0 || ny <= 0
	switch {
	case gone && n == 0: // rough cuts leave nothing beside it
		s.retract(i)
		nd := s.nodes
		nd[0].kind, nd[0].down = axis, c
		nd[c].up, nd[c].prev, nd[c].next = 0, none, none
	case s.los[i].up == axis:
		s.before(c, n)
		if gone {
			s.retract(i)
			s.unlink(n)
			s.drop(n)
		}
	default:
		r := s.alloc() // what is left of the leftover
		nd := s.nodes
		nd[c].up, nd[c].prev, nd[c].next = n, none, r
		nd[r] = node{up: n, down: none, next: none, prev: c, kind: free}
		nd[n].kind, nd[n].down = axis, c
		s.los[i].node, s.los[i].up = r, axis
		nd[r].lo = i
		n = r
	}
	cn := &s.nodes[c]
	var rest bool
	var other int32
	if axis == cutX {
		cn.x, cn.y = x, w
		rest, other = y < w, cutY
	} else {
		cn.x, cn.y = l, y
		rest, other = x < l, cutX
	}
	if !gone {
		s.nodes[n].x, s.nodes[n].y = nx, ny
		lo := &s.los[i]
		lo.size = sized(nx, ny)
		lo.val = st.value(st.in.stocks[s.stock].scale, nx, ny)
	}
	if !rest {
		cn.kind, cn.down = kind, none
		return
	}
	cn.kind = other
	a, b := s.alloc(), s.alloc()
	nd := s.nodes
	nd[c].down = a
	nd[a] = node{up: c, down: none, next: b, prev: none, x: x, y: y, kind: kind}
	nd[b] = node{up: c, down: none, next: none, prev: a, x: x, y: w - y, kind: free}
	if axis == cutY {
		nd[b].x, nd[b].y = l-x, y
	}
	st.offer(s, b)
}

// remove takes node n, a part or a whole block, out of the sheet; its parts go out.
func (st *state) remove(s *sheet, n int32) {
	st.clear(s, n)
	nd := s.nodes
	nd[n].kind, nd[n].down = free, none
	for {
		p := nd[n].up
		if p == none {
			break
		}
		if p == 0 {
			if gap := st.in.stocks[s.stock].gap[cutX-nd[0].kind]; gap > 0 {
				st.widen(s, n, gap)
				if nd[n].prev == none && nd[n].next == none {
					s.drop(n)
					nd[0].kind, nd[0].down = free, none
					n = 0
				}
				break
			}
		}
		// One leftover among siblings is enough: they may change places.
		m := nd[p].down
		for m != none && (m == n || nd[m].kind != free) {
			m = nd[m].next
		}
		if m == none {
			break
		}
		if nd[p].kind == cutX {
			nd[n].x += nd[m].x
		} else {
			nd[n].y += nd[m].y
		}
		s.retract(nd[m].lo)
		s.unlink(m)
		s.drop(m)
		if nd[n].prev != none || nd[n].next != none {
			break
		}
		s.drop(n)
		nd[p].kind, nd[p].down = free, none
		n = p
	}
	st.offer(s, n)
}

// widen makes n, of which nothing is left, the one leftover beside rough cuts: all that they and its siblings do not take.
func (st *state) widen(s *sheet, n, gap int32) {
	nd := s.nodes
	axis := nd[0].kind
	size := *s.along(0, axis)
	for m := nd[0].down; m != none; {
		next := nd[m].next
		switch {
		case m == n:
		case nd[m].kind == free:
			s.retract(nd[m].lo)
			s.unlink(m)
			s.drop(m)
		default:
			size -= *s.along(m, axis) + gap
		}
		m = next
	}
	*s.along(n, axis) = size
}

// clear empties the subtree of n, n itself stays.
func (st *state) clear(s *sheet, n int32) {
	nd := &s.nodes[n]
	switch k := nd.kind; {
	case k >= 0:
		t := k >> 1
		st.putOut(t)
		if g := st.in.types[t].group; g >= 0 {
			st.held[g]--
		}
		s.parts--
		s.area -= st.in.types[t].area
	case k == free:
		s.retract(nd.lo)
	default:
		for c := nd.down; c != none; {
			next := s.nodes[c].next
			st.clear(s, c)
			s.drop(c)
			c = next
		}
	}
}
