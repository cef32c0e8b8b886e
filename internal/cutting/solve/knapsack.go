package solve

import "math/bits"

// knapsack fills sheets with much value by dynamic programming over all sizes that a piece can have (Gilmore and Gomory,
// "Multistage cutting stock problems of two and more dimensions", Operations Research 1965). A piece is a part or is cut in two. Since
// every part is there so often and no more, of each size the best few ways are kept that differ in their parts, and two pieces go
// together where there are parts enough for both: what comes of it is good, and need not be the best.
type knapsack struct {
	st     *state
	stock  int32
	px, py []int32 // the sizes that pieces can have along x and y, 0 first
	dx, dy []int32 // of every length, the place of the greatest of them that is no longer
	even   bool    // a piece turned is as good
	v, w   []int32 // greatest values by x and y, and by y and x; the same table where even
	cells  []cell  // by x and y
	leaves [][]int32
	field  []field // of each type
	bias   taken
	guard  taken
	boxes  []box
	scale  float64 // from a value to a whole number
	steps  int64   // of the budget that solving it takes
}

// taken counts the parts of a piece: a field of bits for each type, which with the bias added to it spills over into its
// guard bit when there are more than wanted.
type taken [4]uint64

type field struct {
	word  int
	shift int
}

// way is how to get a value from a piece: a part, as in a node, or two pieces, which are ways of two cells.
type way struct {
	v      int32
	kind   int32 // cutX, cutY or the part
	a, b   int32 // the cells
	i, j   int8  // the ways of those
	ta, tb bool  // whether those pieces lie turned
	taken  taken
}

// cell holds the best ways for a size of piece, the best first.
type cell [ways]way

// ways is how many are kept. A table has at most mostSizes sizes along a side, of at most longSide units, and there is one for each of at
// most mostTables stocks, of some 5 MB. About opsInStep pairs of pieces are looked at in the time of a step of the search.
const (
	ways       = 3
	mostSizes  = 170
	longSide   = 2000
	mostTables = 8
	opsInStep  = 1000
)

// newKnapsack prepares for what is out and stock k; nil where that is too much for it, or the stock is not plain.
func (st *state) newKnapsack(k int32, scale float64) *knapsack {
	in := st.in
	s := &in.stocks[k]
	if in.stages > 0 || s.rough() || len(s.around) > 0 || max(s.x, s.y) > longSide || len(in.stocks) > mostTables {
		return nil
	}
	kn := &knapsack{st: st, stock: k, even: s.x == s.y, scale: scale, field: make([]field, len(in.types))}
	var xs, ys []int32
	word, bit := 0, 0
	for _, t := range st.outs {
		o := kn.option(t)
		most := int32(0)
		for _, w := range [2][2]int32{{o.x0, o.y0}, {o.x1, o.y1}} {
			if w[0] == never {
				continue
			}
			most = max(most, min(st.out[t], (s.x/w[0])*(s.y/w[1])))
			for range min(st.out[t], s.x/w[0]) {
				xs = append(xs, w[0])
			}
			for range min(st.out[t], s.y/w[1]) {
				ys = append(ys, w[1])
			}
		}
		kn.even = kn.even && (o.square() || o.x0 == o.y1 && o.y0 == o.x1)
		if most == 0 {
			continue
		}
		size := bits.Len32(uint32(most))
		if bit+size+1 > 64 {
			word, bit = word+1, 0
		}
		if word == len(kn.bias) {
			return nil
		}
		kn.field[t] = field{word, bit}
		kn.bias[word] |= uint64(int32(1)<<size-1-most) << bit
		kn.guard[word] |= 1 << (bit + size)
		bit += size + 1
	}
	kn.px, kn.dx = sums(xs, s.x)
	kn.py, kn.dy = sums(ys, s.y)
	nx, ny := len(kn.px), len(kn.py)
	if nx > mostSizes || ny > mostSizes {
		return nil
	}
	kn.steps = int64(1 + nx*ny*(nx+ny)/4/opsInStep)
	kn.v = make([]int32, nx*ny)
	if kn.w = kn.v; kn.even {
		kn.steps = 1 + kn.steps/2
	} else {
		kn.w = make([]int32, nx*ny)
	}
	for len(st.cells) <= int(k) {
		st.cells = append(st.cells, nil)
	}
	if len(st.cells[k]) < nx*ny {
		st.cells[k] = make([]cell, nx*ny)
	}
	kn.cells = st.cells[k][:nx*ny]
	clear(kn.cells[:ny])
	for x := range nx {
		kn.cells[x*ny] = cell{}
	}
	kn.leaves = make([][]int32, nx*ny)
	for _, t := range st.outs {
		o := kn.option(t)
		for r, w := range [2][2]int32{{o.x0, o.y0}, {o.x1, o.y1}} {
			if w[0] != never {
				at := kn.dx[w[0]]*int32(ny) + kn.dy[w[1]]
				kn.leaves[at] = append(kn.leaves[at], t<<1|int32(r))
			}
		}
	}
	return kn
}

func (kn *knapsack) option(t int32) *option {
	return &kn.st.in.opts[t*int32(len(kn.st.in.stocks))+kn.stock]
}

// square tells whether a part is the same turned; one that is square with its kerfs need not be where those differ.
func (o *option) square() bool { return o.x0 == o.y0 && o.x0 != never && o.x1 == never }

// sums gives all that sizes can add up to within whole, each taken once, and whole; and of every length the place of the greatest of
// those that is no longer.
func sums(sizes []int32, whole int32) (p, down []int32) {
	can := make([]bool, whole+1)
	can[0], can[whole] = true, true
	top := int32(0)
	for _, w := range sizes {
		top = min(whole, top+w)
		for v := top; v >= w; v-- {
			can[v] = can[v] || can[v-w]
		}
	}
	down = make([]int32, whole+1)
	for v := range can {
		if can[v] {
			p = append(p, int32(v))
		}
		down[v] = int32(len(p) - 1)
	}
	return p, down
}

// solve fills the table for given values of the types.
func (kn *knapsack) solve(v []float64) {
	nx, ny := int32(len(kn.px)), int32(len(kn.py))
	clear(kn.v)
	clear(kn.w)
	for x := int32(1); x < nx; x++ {
		most := ny - 1
		if kn.even {
			most = x
		}
		for y := int32(1); y <= most; y++ {
			at := x*ny + y
			c := &kn.cells[at]
			*c = kn.cells[at-1] // a little narrower
			if !kn.even || x > y {
				for i, d := 0, &kn.cells[at-ny]; i < ways && d[i].v > c[ways-1].v; i++ {
					c.take(&d[i])
				}
			}
			for _, kind := range kn.leaves[at] {
				n := way{v: int32(v[kind>>1] * kn.scale), kind: kind}
				if f := kn.field[kind>>1]; n.v > c[ways-1].v {
					n.taken[f.word] = 1 << f.shift
					c.take(&n)
				}
			}
			row := kn.w[y*nx : y*nx+nx]
			for a := int32(1); 2*kn.px[a] <= kn.px[x]; a++ {
				if b := kn.dx[kn.px[x]-kn.px[a]]; row[a]+row[b] > c[ways-1].v {
					kn.join(c, a, y, b, y, cutX)
				}
			}
			column := kn.v[x*ny : x*ny+ny]
			for a := int32(1); 2*kn.py[a] <= kn.py[y]; a++ {
				if b := kn.dy[kn.py[y]-kn.py[a]]; column[a]+column[b] > c[ways-1].v {
					kn.join(c, x, a, x, b, cutY)
				}
			}
			kn.v[at], kn.w[y*nx+x] = c[0].v, c[0].v
		}
	}
}

// join puts two pieces together in every way that is good enough.
func (kn *knapsack) join(c *cell, ax, ay, bx, by, axis int32) {
	n := way{kind: axis, ta: kn.even && ax < ay, tb: kn.even && bx < by}
	if n.ta {
		ax, ay = ay, ax
	}
	if n.tb {
		bx, by = by, bx
	}
	n.a, n.b = ax*int32(len(kn.py))+ay, bx*int32(len(kn.py))+by
	p, q := &kn.cells[n.a], &kn.cells[n.b]
	for i := range p {
		if p[i].v == 0 || p[i].v+q[0].v <= c[ways-1].v {
			return
		}
	next:
		for j := range q {
			n.v = p[i].v + q[j].v
			if q[j].v == 0 || n.v <= c[ways-1].v {
				break
			}
			for k := range n.taken {
				n.taken[k] = p[i].taken[k] + q[j].taken[k]
				if (n.taken[k]+kn.bias[k])&kn.guard[k] != 0 {
					continue next
				}
			}
			n.i, n.j = int8(i), int8(j)
			c.take(&n)
		}
	}
}

// take puts a way in its place, unless there is one of the same parts.
func (c *cell) take(n *way) {
	at := ways
	for i := ways - 1; i >= 0; i-- {
		if c[i].taken == n.taken && c[i].v > 0 {
			return
		}
		if c[i].v < n.v {
			at = i
		}
	}
	if at < ways {
		copy(c[at+1:], c[at:ways-1])
		c[at] = *n
	}
}

// sheet cuts the whole sheet in way i, and leaves the state as it was; false where there is no such way.
func (kn *knapsack) sheet(i int, to *sheet) bool {
	at := int32(len(kn.cells) - 1)
	if kn.cells[at][i].v == 0 {
		return false
	}
	kn.boxes = kn.boxes[:0]
	root := kn.box(at, int8(i), false)
	st := kn.st
	slot := st.start(kn.stock, st.outs[0])
	st.whole(slot, &kn.boxes[root], func(b *box) (p, q *box) { return &kn.boxes[b.a], &kn.boxes[b.b] })
	copySheet(to, &st.sheets[slot])
	st.empty(slot)
	st.shut(len(st.open) - 1)
	return true
}

// box gives way i of a cell as boxes, turned where that is asked, and the place of the last of them.
func (kn *knapsack) box(at int32, i int8, turned bool) int32 {
	c := &kn.cells[at][i]
	b := box{kind: c.kind}
	if c.kind >= 0 {
		o := kn.option(c.kind >> 1)
		if turned && !o.square() {
			b.kind ^= 1
		}
		if b.x, b.y = o.x0, o.y0; b.kind&1 == 1 {
			b.x, b.y = o.x1, o.y1
		}
	} else {
		b.a, b.b = kn.box(c.a, c.i, turned != c.ta), kn.box(c.b, c.j, turned != c.tb)
		p, q := &kn.boxes[b.a], &kn.boxes[b.b]
		if turned {
			b.kind = cutX + cutY - c.kind
		}
		if b.kind == cutX {
			b.x, b.y = p.x+q.x, max(p.y, q.y)
		} else {
			b.x, b.y = max(p.x, q.x), p.y+q.y
		}
	}
	kn.boxes = append(kn.boxes, b)
	return int32(len(kn.boxes) - 1)
}
