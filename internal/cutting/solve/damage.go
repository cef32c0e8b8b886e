package solve

import (
	"math"

	"stowright/internal/cutting"
	"stowright/internal/length"
)

// region is a piece of a sheet with damaged places, parted by cuts until each piece is clear or
// wholly damaged.
type region struct {
	rect cutting.Rect
	kind int32    // free, fixed, cutX or cutY
	of   []region // in order of place
}

// around parts the usable sheet of a stock around its damaged places, beginning with cuts on the given
// axis. Where that would take more than stages directions of cutting (0 = any number), the piece that
// the damage lies in is lost whole.
func around(st *cutting.Stock, first int32, stages int) region {
	if stages == 0 {
		stages = math.MaxInt
	}
	return part(st, st.Usable(), first, free, stages)
}

// part parts one piece, which came off a cut on the axis last, with left more changes of direction.
func part(st *cutting.Stock, r cutting.Rect, first, last int32, left int) region {
	for _, d := range st.Damage {
		// A place wide enough for the kerfs on both its sides.
		d.L, d.W = max(d.L, 2*st.Kerf.X+1), max(d.W, 2*st.Kerf.Y+1)
		x0, y0 := max(d.X, r.X), max(d.Y, r.Y)
		x1, y1 := min(d.X+d.L, r.X+r.L), min(d.Y+d.W, r.Y+r.W)
		if x0 >= x1 || y0 >= y1 {
			continue
		}
		if x0 == r.X && x1 == r.X+r.L && y0 == r.Y && y1 == r.Y+r.W {
			return region{rect: r, kind: fixed}
		}
		axis := first
		if left == 0 {
			axis = last
		}
		if x0 == r.X && x1 == r.X+r.L {
			axis = cutY
		} else if y0 == r.Y && y1 == r.Y+r.W {
			axis = cutX
		}
		if axis != last {
			if left == 0 {
				return region{rect: r, kind: fixed}
			}
			left--
		}
		lo, hi, k, from, to := x0, x1, st.Kerf.X, r.X, r.X+r.L
		if axis == cutY {
			lo, hi, k, from, to = y0, y1, st.Kerf.Y, r.Y, r.Y+r.W
		}
		piece := func(a, b length.Length) cutting.Rect {
			q := r
			if axis == cutX {
				q.X, q.L = a, b-a
			} else {
				q.Y, q.W = a, b-a
			}
			return q
		}
		// The kerf is taken out of the damaged strip.
		a, b := lo, hi
		if lo > from {
			a += k
		}
		if hi < to {
			b -= k
		}
		if b <= a {
			return region{rect: r, kind: fixed} // no room between the kerfs at the sheet's edge
		}
		// Two pieces at a time, so that a clear one never has a clear sibling: leftovers join their siblings
		// wherever they lie, and would join across the damage.
		rest := part(st, piece(a, b), cutX+cutY-axis, axis, left)
		if hi < to {
			rest = region{rect: piece(a, to), kind: axis, of: []region{rest, part(st, piece(hi, to), first, axis, left)}}
		}
		if lo > from {
			rest = region{rect: r, kind: axis, of: []region{part(st, piece(from, lo), first, axis, left), rest}}
		}
		return rest
	}
	return region{rect: r, kind: free}
}

// clear gives the clear pieces.
func (g region) clear() []cutting.Rect {
	if g.kind == free {
		return []cutting.Rect{g.rect}
	}
	var list []cutting.Rect
	for _, o := range g.of {
		list = append(list, o.clear()...)
	}
	return list
}

// nodes turns a region into a sheet's tree; sizes are inflated and in units.
func (g region) nodes(st *cutting.Stock, unit int64) []node {
	var list []node
	var add func(g region, up int32) int32
	add = func(g region, up int32) int32 {
		n := int32(len(list))
		list = append(list, node{
			up: up, down: none, next: none, prev: none, kind: g.kind,
			x: int32(int64(g.rect.L+st.Kerf.X) / unit), y: int32(int64(g.rect.W+st.Kerf.Y) / unit),
		})
		last := none
		for _, o := range g.of {
			c := add(o, n)
			if last == none {
				list[n].down = c
			} else {
				list[last].next = c
				list[c].prev = last
			}
			last = c
		}
		return n
	}
	add(g, none)
	return list
}

// sizes calls f with every inflated size in a region, for their common divisor.
func (g region) sizes(st *cutting.Stock, f func(int64)) {
	f(int64(g.rect.L + st.Kerf.X))
	f(int64(g.rect.W + st.Kerf.Y))
	for _, o := range g.of {
		o.sizes(st, f)
	}
}
