package joinery

import "stowright/internal/part"

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
