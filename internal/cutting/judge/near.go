package judge

import (
	"sort"

	"stowright/internal/cutting"
)

// near holds the pieces of a sheet twice: from left to right and from the lower edge up, by their corners, so that those in a region are
// found without going through all.
type near struct{ right, up []cutting.Piece }

func pieces(list []cutting.Piece) *near {
	n := &near{append([]cutting.Piece(nil), list...), append([]cutting.Piece(nil), list...)}
	sort.Slice(n.right, func(a, b int) bool { return n.right[a].X < n.right[b].X })
	sort.Slice(n.up, func(a, b int) bool { return n.up[a].Y < n.up[b].Y })
	return n
}

// among gives pieces among which are all that lie in a region.
func (n *near) among(r cutting.Rect) []cutting.Piece {
	from := sort.Search(len(n.right), func(i int) bool { return n.right[i].X >= r.X })
	to := sort.Search(len(n.right), func(i int) bool { return n.right[i].X >= r.X+r.L })
	low := sort.Search(len(n.up), func(i int) bool { return n.up[i].Y >= r.Y })
	high := sort.Search(len(n.up), func(i int) bool { return n.up[i].Y >= r.Y+r.W })
	switch {
	case to <= from || high <= low:
		return nil
	case to-from < high-low:
		return n.right[from:to]
	}
	return n.up[low:high]
}

// sizes reports whether a part is as long as a piece of the sheet along an axis.
func (j *judge) sizes(r cutting.Rect, axis cutting.Axis) bool {
	for _, q := range j.near.among(r) {
		if inside(q.Rect, r) && (axis == cutting.X && q.L == r.L || axis == cutting.Y && q.W == r.W) {
			return true
		}
	}
	return false
}

// full reports whether parts take up a piece of the sheet along an axis somewhere, with no offcut beside
// them that a wrong size could come out of.
func (j *judge) full(i int, r cutting.Rect, axis cutting.Axis) bool {
	s := &j.plan.Sheets[i]
	for _, q := range j.near.among(r) {
		if !inside(q.Rect, r) {
			continue
		}
		line := r // all that lies in line with the part
		if axis == cutting.X {
			line.Y, line.W = q.Y, q.W
		} else {
			line.X, line.L = q.X, q.L
		}
		spare := false
		for _, o := range s.Offcuts {
			spare = spare || inside(o.Rect, r) && overlap(o.Rect, line)
		}
		if !spare {
			return true
		}
	}
	return false
}
