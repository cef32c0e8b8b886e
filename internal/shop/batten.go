package shop

import (
	"cmp"
	"fmt"

	"stowright/internal/length"
	"stowright/internal/part"
)

// onBatten says how a case is propped on the batten that serves all wall cases, one after the other: it goes on to the next
// when the one it leaves hangs by all of its screws. Its length is that for the widest of them. With it come the screws that
// are taken for it, which may have been counted with another case than the first that hangs.
func (s *steps) onBatten() (string, []Fit) {
	var long length.Length
	for _, o := range s.owners("case") {
		if o.Hung {
			long = max(long, reachOf(s.fixings(o, func(f part.Fixing) bool { return f.Kind == part.ToStud && !s.onWall(f) })))
		}
	}
	size := "no wider than " + s.coarse(battenRoom, 9*length.Inch/4)
	if long > 0 {
		size = fmt.Sprintf("%s long at least and %s", s.in((long + s.step(100*length.MM, 4*length.Inch)).Up(s.step(10*length.MM, length.Inch))), size)
	}
	if s.batten {
		return "propped from below on the same batten, which is now screwed to two studs here with the same screws, its upper edge level at that height", nil
	}
	var taken []Fit
	for _, o := range s.owners("case") {
		for _, f := range s.take(o.ID, func(h part.Item) bool { return h.For == part.BattenUse }) {
			taken = fitted(taken, f)
		}
	}
	held := "screws"
	switch {
	case len(taken) > 0:
		s.battened, held = taken, s.things(taken)
	case len(s.battened) > 0:
		held = "the screws that held it before"
	}
	return fmt.Sprintf("propped from below on a batten, a straight offcut %s, that is screwed to two studs with %s, its upper edge level at that height", size, held), taken
}

// battenHoles says how the screws of a batten come through it into the studs.
func (s *steps) battenHoles(screw string) string {
	h, ok := s.Catalogue.Item(screw)
	if !ok || h.Pilot == 0 && h.Root == 0 {
		return ""
	}
	js := s.joiner()
	clear, _, _ := js.Pilot(cmp.Or(h.Clearance, h.Dia))
	pilot, dia, _ := js.Pilot(cmp.Or(h.Pilot, h.Root))
	return fmt.Sprintf(" The batten itself is bored with the %s, and the stud behind it with the %s, %s deep from its front.", clear, s.bored(pilot, dia, h.Length), s.in(h.Length))
}

// battenRoom is as much as a batten takes under a case (common practice, no source).
const battenRoom = 60 * length.MM

// below names the case that hangs close under one, and how far under it; "" where there is room for a batten.
func (s *steps) below(o part.Owner) (string, length.Length) {
	for _, x := range s.Assembly.Owners {
		gap := o.Carcass.Min.Z - x.Carcass.Max.Z
		if x.ID != o.ID && x.Wall == o.Wall && x.Hung && !x.Standing && gap >= 0 && gap < battenRoom && x.Carcass.Min.X < o.Carcass.Max.X-battenRoom && x.Carcass.Max.X > o.Carcass.Min.X+battenRoom {
			return s.called(x), gap
		}
	}
	return "", 0
}
