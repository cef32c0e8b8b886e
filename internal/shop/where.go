package shop

import (
	"fmt"
	"slices"
	"strings"

	"stowright/internal/joinery"
	"stowright/internal/part"
)

// Where a board sits is told as a maker sets it out: from an end, an edge or a face of the board
// that it is joined to, with a tape hooked there.

// feature names the low or the high side of a board along an axis of the room: an end across its
// grain, an edge along it, or a broad face.
func feature(p part.Part, axis int, high bool) string {
	side := [3][2]string{{"left", "right"}, {"front", "rear"}, {"lower", "upper"}}[axis][0]
	if high {
		side = [3][2]string{{"left", "right"}, {"front", "rear"}, {"lower", "upper"}}[axis][1]
	}
	switch axis {
	case p.Pose.U.Axis():
		return side + " end"
	case p.Pose.V.Axis():
		return side + " edge"
	}
	if axis == 2 { // as part.Called has it
		return map[bool]string{true: "top face", false: "underside"}[high]
	}
	return side + " face"
}

// seat says where board p sits on board q, over the two axes along which they can be shifted
// against each other: "underside 4 in up from its lower end, front edges flush". Nothing where
// they cover each other wholly.
func (s *steps) seat(p, q part.Part, across int) string {
	a, b := p.Box(), q.Box()
	var out []string
	for _, axis := range []int{2, 1, 0} {
		lo, hi := a.Min.At(axis)-b.Min.At(axis), b.Max.At(axis)-a.Max.At(axis)
		if axis == across || lo == 0 && hi == 0 {
			continue
		}
		its := feature(q, axis, false)
		way := [3]string{"from", "behind", "up from"}[axis]
		switch {
		case lo == 0:
			out = append(out, feature(p, axis, false)+" flush with the "+its)
		case hi == 0:
			out = append(out, feature(p, axis, true)+" flush with the "+feature(q, axis, true))
		case lo < 0:
			out = append(out, fmt.Sprintf("%s %s %s the %s", feature(p, axis, false), s.in(-lo), [3]string{"to the left of", "in front of", "below"}[axis], its))
		default:
			out = append(out, fmt.Sprintf("%s %s %s the %s", feature(p, axis, false), s.in(lo), way, its))
		}
	}
	return strings.Join(out, ", ")
}

// seats says where a board sits on those that it is joined to, in one phrase when it sits alike on
// all of them.
func (w *maker) seats(p part.Part, js []part.Joint) string {
	var on []string // what it sits on, by phrase
	phrases := map[string][]string{}
	for _, j := range js {
		m := j.A
		if m == p.Mark {
			m = j.B
		}
		if t := w.seat(p, w.parts[m], joinery.Thin(j.Contact)); t != "" {
			if phrases[t] == nil {
				on = append(on, t)
			}
			if len(phrases[t]) == 0 || phrases[t][len(phrases[t])-1] != m {
				phrases[t] = append(phrases[t], m)
			}
		}
	}
	if len(on) == 0 {
		return ""
	}
	// One tells enough: what has its place before what only comes in now, then a side of the case before
	// others; what else it touches follows from it.
	worth := func(o string) int {
		n := 0
		if slices.ContainsFunc(phrases[o], func(m string) bool { return !slices.Contains(w.begun, m) }) {
			n += 2
		}
		if w.parts[phrases[o][0]].Role == part.Side {
			n++
		}
		return n
	}
	t := on[0]
	for _, o := range on {
		if worth(o) > worth(t) {
			t = o
		}
	}
	marks := phrases[t]
	sides := true
	for _, m := range marks {
		sides = sides && w.parts[m].Role == part.Side
	}
	switch {
	case sides && len(marks) > 1:
		return t + " of the sides"
	default:
		return t + " of " + w.label(marks[0])
	}
}

// spread says where the boards that others begin with lie along the one that joins them, where one
// seat does not tell it of all.
func (w *maker) spread(p part.Part, js []part.Joint, begin []string) []string {
	told := w.seats(p, js)
	var out []string
	for _, j := range js {
		m := j.A
		if m == p.Mark {
			m = j.B
		}
		if t := w.seat(p, w.parts[m], joinery.Thin(j.Contact)); !slices.Contains(begin, m) || t != "" && strings.HasPrefix(told, t+" of ") {
			continue
		}
		if t := w.seat(w.parts[m], p, joinery.Thin(j.Contact)); t != "" {
			out = append(out, fmt.Sprintf("%s: %s of %s", m, t, w.label(p.Mark)))
		}
	}
	return out
}
