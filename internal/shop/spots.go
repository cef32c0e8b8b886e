package shop

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/part"
)

// Screws whose holes are no workings of their boards are bored on the spot: the step says with which
// bits, from which side, and how they are spaced over what they go into.

// held says how joints are held, and where the holes are that are bored on the spot, with lines of their
// own for the rows.
func (w *maker) held(js []part.Joint) (text string, points []string) {
	text = w.with(js)
	type lot struct {
		screw, head string
		from        geom.Dir
	}
	var lots []lot
	into := map[lot]map[string][]string{} // how spaced -> what the screws go into
	var how []string
	for _, j := range js {
		if joinery.Bored(w.parts[j.A], w.parts[j.B], j) || j.Fastener == "" {
			continue
		}
		h, _ := w.Catalogue.Item(j.Fastener)
		s := joinery.Spots(w.parts[j.A], w.parts[j.B], j, h.Length, w.Print == length.Inches)
		k := lot{j.Fastener, s.Head, s.From}
		if into[k] == nil {
			lots, into[k] = append(lots, k), map[string][]string{}
		}
		t := w.spaced(s, joinery.Thin(j.Contact), j.Contact, w.parts[s.Head])
		if !slices.Contains(how, t) {
			how = append(how, t)
		}
		if !slices.Contains(into[k][t], s.Into) {
			into[k][t] = append(into[k][t], s.Into)
		}
	}
	var heads []string
	var first lot
	for _, k := range lots {
		if len(heads) == 0 {
			first = k
		}
		if !slices.Contains(heads, k.head) {
			heads = append(heads, k.head)
		}
	}
	if len(lots) == 0 {
		return w.sunkIn(text, js), nil
	}
	through := "each of them"
	if len(heads) == 1 {
		through = w.label(heads[0])
	}
	sides := ""
	if !slices.ContainsFunc(lots, func(k lot) bool { return k.from != first.from }) {
		sides = " " + [6]string{"from the right", "from the left", "from behind", "from the front", "from above", "from below"}[first.from]
	}
	sink := w.sink(fasteners(js)...) // when they are bored
	text = strings.TrimSuffix(text, sink) + " " + w.onSpot(first.screw, through, sides) + sink
	seen := map[string]int{} // rows of so many kinds go into a board
	for _, t := range how {
		for _, k := range lots {
			for _, m := range into[k][t] {
				if seen[m+t] == 0 {
					seen[m]++
				}
				seen[m+t]++
			}
		}
	}
	for _, t := range how {
		var list, through []string
		twice := false
		for _, k := range lots {
			for _, m := range into[k][t] {
				if !slices.Contains(list, m) {
					list = append(list, m)
				}
				if !slices.Contains(through, k.head) {
					through = append(through, k.head)
				}
				twice = twice || seen[m] > 1
			}
		}
		if len(list) == 0 {
			continue
		}
		where := "Into " + w.named(list)
		if twice && len(heads) > 1 { // two kinds of rows go into one board: which is whose
			where = "Through " + w.named(through) + " into " + w.named(list)
		}
		if len(list) > 1 {
			where += ", each"
		}
		points = append(points, where+": "+t)
	}
	return text, points
}

// onSpotDrills gives the room of the drill at the screws of a joint that are bored for on the spot.
func (w *maker) onSpotDrills(a, b part.Part, j part.Joint) (drill []chuck) {
	if j.Fastener == "" || j.Kind == part.PocketScrew || joinery.Bored(a, b, j) {
		return nil
	}
	h, _ := w.Catalogue.Item(j.Fastener)
	s := joinery.Spots(a, b, j, h.Length, w.Print == length.Inches)
	head := a.Box()
	if s.Head == b.Mark {
		head = b.Box()
	}
	for _, v := range s.At {
		drill = append(drill, chuckAt(v, s.From, head.Face(s.From)))
	}
	return drill
}

// onSpot says with which bits the holes of a screw are bored when the boards are at their places.
func (s *steps) onSpot(screw, through, sides string) string {
	js := s.joiner()
	h, _ := s.Catalogue.Item(screw)
	clear, _, _ := js.Pilot(cmp.Or(h.Clearance, 9*length.MM/2))
	pilot, _, _ := js.Pilot(cmp.Or(h.Pilot, 3*length.MM))
	t := fmt.Sprintf("Bore for them on the spot%s: with the %s through %s", sides, clear, through)
	if clear == pilot {
		return t + " and on into the wood that it lies on, no deeper than the screws go."
	}
	return t + fmt.Sprintf(", with the %s on into the wood that it lies on, no deeper than the screws go.", pilot)
}

// spaced says how the screws of a joint lie over where its boards meet: rows beside each other from the edge of the
// board that they go through, for it hides where it lies on the other.
func (s *steps) spaced(x joinery.Spread, n int, c geom.Box, over part.Part) string {
	head := over.Box()
	if x.Rows*x.Each == 1 {
		return "1 in the middle of where they meet"
	}
	t := fmt.Sprintf("%d in a row along the middle of where they meet, ", x.Each)
	switch {
	case x.Rows > 1:
		wide := (n + 1) % 3
		if wide == x.Run {
			wide = (n + 2) % 3
		}
		low, high := c.Min.At(wide)+x.In-head.Min.At(wide), c.Max.At(wide)-x.In-head.Min.At(wide)
		edge := [3]string{"left", "front", "lower"}[wide]
		if across := head.Size().At(wide); low+high > across {
			low, high, edge = across-high, across-low, [3]string{"right", "rear", "upper"}[wide]
		}
		outer := ""
		if x.Rows > 2 {
			outer = "the outer ones "
		}
		t = fmt.Sprintf("%d rows of %d, %s%s and %s from the %s edge of the %s, ", x.Rows, x.Each, outer, s.in(low), s.in(high), edge, over.Name)
	case !x.Middle:
		run, wide := (n+1)%3, (n+2)%3
		if c.Size().At(run) < c.Size().At(wide) {
			wide = run
		}
		t = fmt.Sprintf("%d in a row %s from the %s side of where they meet, ", x.Each, s.in(x.In), [3]string{"left", "front", "lower"}[wide])
	}
	if x.First == x.Last {
		t += fmt.Sprintf("the first and the last %s from its ends", s.in(x.First))
	} else {
		t += fmt.Sprintf("the first %s from its %s end, the last %s from the other", s.in(x.First), [3]string{"left", "front", "lower"}[x.Run], s.in(x.Last))
	}
	if x.Each > 2 {
		t += fmt.Sprintf(", %s apart", s.in(x.Pitch))
		if told, err := length.Parse(s.in(x.Pitch), s.Print); err == nil && (told-x.Pitch).Abs()*length.Length(x.Each-1) > length.MM/2 {
			t += ", stepped off from both ends"
		}
	}
	if x.Beside {
		t += "; one that would meet an opening or a hole goes close beside it"
	}
	return t
}

// sink says that holes are countersunk where one of some screws has a flat head.
func (s *steps) sink(screws ...string) string {
	for _, id := range screws {
		if h, ok := s.Catalogue.Item(id); ok && h.Sunk() {
			return " Countersink for the heads."
		}
	}
	return ""
}

// sunkIn says in which faces the heads of screws are sunk where the drawing of one of their boards shows the holes, which go
// through, from the other face.
func (w *maker) sunkIn(text string, js []part.Joint) string {
	var faces []string
	of, turned := map[string][]string{}, false
	for _, j := range js {
		h, _ := w.Catalogue.Item(j.Fastener)
		if j.Kind != part.WoodScrew || j.Count == 0 || !h.Sunk() {
			continue
		}
		p, out := w.head(j)
		face := p.Facing(out)
		turned = turned || face == p.First().Not()
		t := w.around.Called(p)[face]
		if of[t] == nil {
			faces = append(faces, t)
		}
		if !slices.Contains(of[t], p.Mark) {
			of[t] = append(of[t], p.Mark)
		}
	}
	if !turned {
		return text
	}
	var in []string
	for _, t := range faces {
		in = append(in, "the "+t+" of "+and(of[t]))
	}
	return strings.Replace(text, "Countersink for the heads.", "Countersink for the heads in "+and(in)+".", 1)
}

// head gives the board that the heads of a bored joint's screws are in, its first, and the way in which they look.
func (s *steps) head(j part.Joint) (p part.Part, out geom.Dir) {
	p = s.parts[j.A]
	n := joinery.Thin(j.Contact)
	out = geom.Dir(2 * n)
	if a, b := p.Box(), s.parts[j.B].Box(); a.Min.At(n)+a.Max.At(n) < b.Min.At(n)+b.Max.At(n) {
		out = out.Not()
	}
	return p, out
}

// sinker names the tool for that.
func (s *steps) sinker(screws ...string) string {
	if s.sink(screws...) != "" {
		return ", countersink"
	}
	return ""
}

// fasteners gives what holds joints.
func fasteners(js []part.Joint) (ids []string) {
	for _, j := range js {
		if j.Count > 0 && j.Fastener != "" {
			ids = append(ids, j.Fastener)
		}
	}
	return ids
}
