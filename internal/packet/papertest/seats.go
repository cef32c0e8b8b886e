package papertest

import (
	"strings"
)

// Where parts sit on each other, as steps tell it.

// seat reads a seat on a part that lies in a box: where it puts the sides of what sits there, by
// axis, and how these are called. Turned round, it reads the seat of the box's part on another, and
// gives where that puts the sides of the other.
func (b *build) seat(seat string, q box, round bool) (placed map[int]place, faces []string, why string) {
	placed = map[int]place{}
	for _, one := range strings.Split(seat, ", ") {
		if one == "" {
			continue
		}
		m := aSeat.FindStringSubmatch(one)
		if m == nil {
			return nil, nil, "its seat is not understood: " + one
		}
		ours, theirs, sign := m[1], m[4], 1.0
		if round {
			ours, theirs, sign = m[4], m[1], -1
		}
		k, high, _ := axis(ours)
		k2, high2, _ := axis(theirs)
		if k < 0 || k != k2 {
			return nil, nil, "its seat is not understood: " + one
		}
		faces = append(faces, ours)
		v := q.lo[k]
		if high2 {
			v = q.hi[k]
		}
		if m[2] != "" {
			d := sign * b.size(m[2])
			if m[3] == "to the left of" || m[3] == "in front of" || m[3] == "below" {
				d = -d
			}
			v += d
		}
		placed[k] = place{high, v}
	}
	return placed, faces, ""
}

// seats gives the lines of a step that tell where parts sit on one part, by their marks: mark and seat of each.
func (b *build) seats(mark string) (list [][2]string) {
	for _, m := range point.FindAllStringSubmatch(strings.ReplaceAll(b.text, " – ", " –  – "), -1) {
		if ref := marksIn(m[5]); len(ref) == 1 && ref[0] == mark {
			list = append(list, [2]string{m[1], m[4]})
		}
	}
	return list
}

// joined gives where a part lies that others of a unit, which have their places, are told to sit on.
func (b *build) joined(mark, unit string) (placed map[int]place, faces []string) {
	placed = map[int]place{}
	for _, x := range b.seats(mark) {
		q, ok := b.at[x[0]]
		if !ok {
			continue
		}
		some, names, _ := b.seat(x[1], q, true)
		faces = append(faces, names...)
		for k, p := range some {
			if _, has := placed[k]; !has && b.unit[x[0]] == unit {
				placed[k] = p
			}
		}
	}
	return placed, faces
}

// bring moves the other units that are told to sit on a part to where they touch it on an axis, beyond it or before it.
func (b *build) bring(mark string, contact int, beyond bool) {
	at := b.at[mark]
	for _, x := range b.seats(mark) {
		q, ok := b.at[x[0]]
		if !ok || b.unit[x[0]] == b.unit[mark] {
			continue
		}
		placed, _, _ := b.seat(x[1], at, false)
		to, known := q, 0
		for k := range 3 {
			size := q.hi[k] - q.lo[k]
			p, told := placed[k]
			switch {
			case told && p.high:
				to.lo[k] = p.at - size
			case told:
				to.lo[k] = p.at
			case k == contact && beyond:
				to.lo[k] = at.hi[k]
			case k == contact:
				to.lo[k] = at.lo[k] - size
			default:
				continue
			}
			to.hi[k] = to.lo[k] + size
			known++
		}
		if known == 3 {
			b.move(x[0], to, mark)
		}
	}
}
