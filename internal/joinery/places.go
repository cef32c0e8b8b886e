package joinery

import (
	"slices"

	"stowright/internal/order"
	"stowright/internal/part"
)

// Places gives where the fasteners of a joint of a length go, from its start: the first and
// the last so far from the ends, the others evenly between and no further apart than pitch;
// at least least. A joint too short for that has two near its ends, and a very short one has
// one in the middle.
func Places(along, first, pitch L, least int) []L {
	if along < 2*narrowFirst+connectDia+3*mm { // two of the widest would meet
		return []L{along / 2}
	}
	if along < 2*first+25*mm {
		first, least = narrowFirst, 2
	}
	n := max(least, 1+int((along-2*first).DivUp(int64(max(pitch, mm)))), 2)
	for n > 2 && (along-2*first)/L(n-1) < 20*mm {
		n--
	}
	at := make([]L, n)
	for i := range at {
		at[i] = first + (along-2*first).MulDiv(int64(i), int64(n-1))
	}
	return at
}

// Room gives how many fasteners of a kind a joint so long takes at most: dowels on a pitch of 32 mm,
// screws 20 mm apart.
func Room(kind part.JointKind, along L) int {
	if kind == part.Dowel {
		return max(int(along/dowelStep), 1)
	}
	return max(1+int((along-2*narrowFirst)/(20*mm)), 1)
}

// LengthFor is the least length of a joint with room for n fasteners of a kind.
func LengthFor(kind part.JointKind, n int) L {
	if kind == part.Dowel {
		return L(n) * dowelStep
	}
	return 2*narrowFirst + L(n-1)*20*mm
}

// DowelPlaces gives where dowels go: on a pitch of 32 mm from the first, no further apart than
// pitch.
func DowelPlaces(along, first, pitch L) []L {
	if along < 2*first+dowelStep {
		if along < 48*mm {
			return []L{along / 2}
		}
		gap := (along - 32*mm).Down(dowelStep)
		if gap == 0 {
			return []L{along / 2}
		}
		lo := (along - gap) / 2
		return []L{lo, lo + gap}
	}
	room := (along - 2*first).Down(dowelStep)
	steps := int64(room / dowelStep)
	most := max(int64(pitch/dowelStep), 1)
	n := (steps + most - 1) / most // gaps
	n = max(n, 1)
	at := make([]L, n+1)
	last := first + dowelStep*L(steps)
	for i := range at {
		// The same from both ends, so that a mirrored board is a true mirror.
		switch k := int64(i); {
		case 2*k < n:
			at[i] = first + dowelStep*L((steps*k+n-1)/n)
		case 2*k > n:
			at[i] = last - dowelStep*L((steps*(n-k)+n-1)/n)
		default:
			at[i] = (first + last) / 2
		}
	}
	return at
}

// apart moves fasteners of a joint so long off what is worked there already: all of them inwards
// from both ends, evenly, as little as is enough; where that does not do, each to the nearest place
// that is free. One that has none is left out where others hold the joint; false where none has any.
func apart(at []L, along L, free func(L) bool) ([]L, bool) {
	taken := func(x L) bool { return !free(x) }
	if len(at) == 0 || !slices.ContainsFunc(at, taken) {
		return at, true
	}
	first, last := at[0], at[len(at)-1]
	if n := len(at); n > 1 {
		for in := aside; in <= (last-first)/4; in += aside {
			try := make([]L, n)
			for i := range try {
				try[i] = first + in + (last-first-2*in).MulDiv(int64(i), int64(n-1))
			}
			if try[1]-try[0] >= least && !slices.ContainsFunc(try, taken) {
				return try, true
			}
		}
	}
	var moved []L
	for i, x := range at {
	search:
		for off := L(0); off <= along; off += aside {
			for _, y := range inwards(x, off, along) {
				near := func(z L) bool { return (z - y).Abs() < least }
				rest := func(z L) bool { return near(z) && free(z) }
				if y >= leastEdge && y <= along-leastEdge && free(y) && !slices.ContainsFunc(moved, near) && !slices.ContainsFunc(at[i+1:], rest) {
					moved = append(moved, y)
					break search
				}
			}
		}
	}
	order.Up(moved)
	return moved, len(moved) > 0
}

// inwards gives both places so far from one, that towards the middle of the joint first.
func inwards(x, off, along L) []L {
	if 2*x > along {
		return []L{x - off, x + off}
	}
	return []L{x + off, x - off}
}

// How far fasteners are moved at a time, and how near to each other and to an end they may come.
const (
	aside     = 2 * mm
	least     = 18 * mm
	leastEdge = 8 * mm
)
