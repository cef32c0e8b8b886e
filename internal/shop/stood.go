package shop

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/length"
	"stowright/internal/mass"
	"stowright/internal/part"
)

// A pair of tapered shims makes up so much; under more, a piece of board goes first. Less than part.ShimLeast
// is nothing. Common practice, no source.
const (
	shimPair = 12 * length.MM
)

// underneath tells the heights of what a thing stands on, and takes the shims that it is packed with.
func (s *steps) underneath(o part.Owner) (points []string, fits []Fit) {
	var heights []string
	kind, flat, unsure, high := "", 0, false, length.Length(0)
	for _, f := range s.whose.Of(o.ID).Feet {
		kind = f.Kind
		if f.Kind == "shim" {
			unsure = unsure || f.Unsure
			high = max(high, f.Height)
			if f.Height < part.ShimLeast {
				flat++
				continue
			}
		}
		heights = append(heights, fmt.Sprintf("%s at %s along, %s", s.in(f.Height), s.in(f.At.X), s.outAt(f.At.Y)))
	}
	if len(heights) > 0 {
		t := fmt.Sprintf("Height of every %s, from the floor to the wood over it: %s", kind, strings.Join(heights, "; "))
		if flat > 0 {
			t += "; at the other points it stands on the floor"
		}
		points = append(points, t)
	}
	if t := s.drawnOn(o); t != "" && len(heights) > 0 {
		points = append(points, t+": set them by the level, and where one does not reach, put a piece of board under it")
	}
	fits = s.take(o.ID, func(h part.Item) bool { return h.Kind == "shim" && h.For == "levelling" })
	switch {
	case len(fits) > 0:
		t := "Pack it with " + s.things(fits) + ", a pair pushed together from both sides, thin ends first, at each point; one alone or a slip of card under less than " + s.coarse(3*length.MM, length.Inch/8)
		if kind == "" || unsure {
			t += ", wherever the level asks: the floor was not measured here"
		}
		if high > shimPair {
			t += fmt.Sprintf("; where more than %s is wanted, on a piece of board", s.coarse(shimPair, length.Inch/2))
		}
		points = append(points, t+". Saw off what stands out")
	case kind == "shim" && flat > 0:
		points = append(points, "By the floor as it was measured it needs no shims")
	}
	return points, fits
}

// drawnOn says that the floor under a thing was not measured as far out as it stands, and what its heights are then; "" where
// it was.
func (s *steps) drawnOn(o part.Owner) string {
	for _, w := range s.Walls {
		if w.ID != o.Wall || w.Guess == nil || !w.Guess(-o.Box.Min.Y) {
			continue
		}
		if w.Out > 0 {
			return fmt.Sprintf("The floor was measured no further than %s out: here its slope up to there is drawn on, and heights are a guess", s.in(w.Out))
		}
		return "The floor was measured at the wall alone: here heights are a guess"
	}
	return ""
}

// toBase screws a case down to the base that it stands on.
func (s *steps) toBase(o part.Owner) {
	list := s.fixings(o, func(f part.Fixing) bool { return f.Kind == part.ToBase })
	if len(list) == 0 {
		return
	}
	f := list[0]
	fits := fit(nil, f.Screw, s.draw(o.ID, f.Screw, len(list), func(h part.Item) bool { return h.For == part.ToBases }))
	s.add(Step{Phase: Install, Owner: o.ID, Tool: "drill, driver bits" + s.sinker(f.Screw), Parts: []string{f.Part}, Fits: fits,
		Text: fmt.Sprintf("Screw %s down to %s: %s through the holes in %s (%s) into the rails below.%s", s.called(o), s.name(f.Stud), s.things(fits), s.parts[f.Part].Name, f.Part, s.sink(f.Screw))})
}

// rolling reports whether a case stands on castors, so that it comes to its place with its ballast in it.
func (s *steps) rolling(o part.Owner) bool {
	return slices.ContainsFunc(s.whose.Of(o.ID).Feet, func(f part.Foot) bool { return f.Kind == "castor" })
}

// held gives the ballast of a case, 0 for none.
func (s *steps) held(o part.Owner) (sum mass.Mass) {
	for _, y := range s.whose.Of(o.ID).Bays {
		sum += y.Ballast
	}
	return sum
}

// ballast lays in what keeps a case from tipping: into what rolls before anything slides out of it, into others when they stand
// in their place.
func (s *steps) ballast(o part.Owner, phase Phase, head string) {
	for _, y := range s.whose.Of(o.ID).Bays {
		if y.Ballast == 0 {
			continue
		}
		stop, floor := part.Part{}, s.parts[y.Floor]
		for _, j := range s.Assembly.Joints {
			if p := s.parts[j.B]; j.A == y.Floor && p.Role == part.Spacer && p.Note != "" && p.Box().Min.Z == y.Box.Min.Z {
				stop = p
			}
		}
		fits := s.take(o.ID, func(h part.Item) bool { return h.For == "ballast" })
		if len(fits) == 0 || stop.Mark == "" {
			continue
		}
		left := y.Box.Max.Y - stop.Box().Max.Y
		text := fmt.Sprintf("Lay the ballast of %s on %s (%s) behind %s (%s), bedded in adhesive, in pieces no higher than %s, which go in over that stop: %s. Its room there is %s wide, %s deep and %s high: lay flat pieces close to one another. Without it the case tips: let the adhesive harden before anything slides out of it.",
			s.called(o), floor.Name, floor.Mark, stop.Name, stop.Mark, s.in((y.Box.Max.Z - stop.Box().Max.Z).Down(s.easy())), s.things(fits), s.in(y.Box.Size().X.Down(s.easy())), s.in(left.Down(s.easy())), s.in(y.Box.Size().Z.Down(s.easy())))
		caution := s.tipping(o)
		if slices.ContainsFunc(fits, func(f Fit) bool { return strings.HasPrefix(f.ID, "lead-") }) {
			caution = strings.TrimSpace(caution + " " + leadCare)
		}
		s.add(Step{Phase: phase, Owner: o.ID, Head: head, Tool: "hand", Parts: []string{floor.Mark, stop.Mark}, Fits: fits, Caution: caution, Text: text})
	}
}

// whereItStands says how a case is fixed to a wall that nobody has surveyed: through which board, how high,
// by which rule. It does not pretend to know the wall.
func (s *steps) whereItStands(o part.Owner) {
	if o.Wall != "" || o.Moves || o.Hung {
		return
	}
	fits := s.take(o.ID, func(h part.Item) bool { return h.For == part.WhereItStands })
	packers := s.packing(o, 2*2)
	for _, x := range s.Assembly.Wanted {
		p := s.parts[x.Part]
		if p.Owner != o.ID || x.Row != "upper" || len(fits) == 0 {
			continue
		}
		bottom := ""
		for _, q := range s.whose.Of(o.ID).Parts {
			if q.Role == part.Bottom {
				bottom = fmt.Sprintf(", %s over the bottom", s.in(x.Z-q.Box().Max.Z))
			}
		}
		var other []string
		for _, q := range s.whose.Of(o.ID).Parts {
			if q.Role == part.HangRail && q.Box().Max.Z < p.Box().Min.Z {
				other = append(other, fmt.Sprintf("%s (%s) keeps the sides apart behind the back and needs no screws to the wall", capital(q.Name), q.Mark))
			}
		}
		var sides []string
		for _, q := range s.whose.Of(o.ID).Parts {
			if q.Role == part.Side && q.Moves == "" {
				sides = append(sides, q.Mark)
			}
		}
		h, _ := s.Catalogue.Item(fits[0].ID)
		list := []part.Fixing{{Kind: part.ToStud, Screw: fits[0].ID, Length: h.Length, Layers: x.Layers}}
		s.add(Step{Phase: Install, Owner: o.ID, Tool: "drill, driver bits, level" + s.roomBits(list), Parts: []string{p.Mark}, Fits: append(fits, packers...), Caution: wall + " " + s.tipping(o),
			Text: fmt.Sprintf("Where it will stand, fix the top of %s to the wall: %s (%s) is there for that. Find at least two studs behind it and drive %s, one into each, %s up%s; the lining alone holds nothing.%s%s", s.called(o), p.Name, p.Mark, s.things(fits), s.in(x.Z), bottom, s.drawersOut(o), s.pilots(list)),
			Points: append([]string{
				fmt.Sprintf("Skirting: a skirting board holds %s off the wall by its thickness. Where its shape was not sawn out of their lower rear corners before the case was put together, saw the skirting away where the case goes, or leave the gap and pack it", and(sides)),
				fmt.Sprintf("Packing: measure the gap behind the rail where each screw goes while the case stands in its place, and draw it out again. Stick so much of flat packers (%s) with masking tape to its rear about each place, over a piece of board where the gap is wide, and push it back", cmp.Or(s.things(packers), "flat packers")),
				fmt.Sprintf("Length: %s to pass, the gap behind the rail, the lining, and %s of thread in the stud; these are long enough for a lining of %s and no gap. Measure the lining at an outlet, and where there is more take screws that are longer by as much", s.in(part.Thick(x.Layers)), s.in(s.Practice.LeastThread), s.coarse(25*length.MM/2, length.Inch/2)),
				"A wall of masonry or steel studs takes anchors, as long and as many as their maker says",
				"One stud only: fix it to a neighbour that is fixed, or screw a board across two studs first",
			}, other...)})
		return
	}
}

// coverNear is how far over a case a thing may be that covers it: a counter on rails, with air for a
// case that slides under it. Common practice, no source.
const coverNear = 200 * length.MM

// openTops says of cases with stretchers over which nothing lies that their top is not in this set, and what
// one needs.
func (s *steps) openTops(cases []part.Owner) {
	var names, points, parts []string
	pockets := false
	thick := length.Length(0)
	for _, o := range cases {
		rails := s.bareRails(o)
		if len(rails) == 0 || s.covered(o) {
			continue
		}
		for _, m := range rails {
			thick = max(thick, s.parts[m].Size[2])
			pockets = pockets || slices.ContainsFunc(s.parts[m].Ops, func(w part.Op) bool { return w.Kind == part.Pocket })
		}
		size := o.Carcass.Size()
		names, parts = append(names, s.called(o)), append(parts, rails...)
		points = append(points, fmt.Sprintf("%s: at least %s by %s, on its sides and %s", capital(s.called(o)), s.in(size.X), s.in(size.Y), (&maker{steps: s}).named(rails)))
	}
	if len(names) == 0 {
		return
	}
	text := fmt.Sprintf("Nothing that lies on %s is part of this set: %s open at the top. A board does, laid on and held by four screws that go up from inside through the stretchers, as long as %s and two thirds of the board's thickness together.",
		and(names), plural(len(names), "it is", "they are"), s.in(thick))
	if pockets {
		text += " Until then the pockets in the stretchers are in view."
	}
	s.add(Step{Phase: Install, Tool: "drill, driver bits", Parts: parts, Text: text, Points: points})
}

// bareRails gives the stretchers that are the top of a case, none where it has a whole one.
func (s *steps) bareRails(o part.Owner) (rails []string) {
	for _, p := range s.whose.Of(o.ID).Parts {
		if p.Role == part.Top {
			return nil
		}
		if p.Owner == o.ID && p.Role == part.Stretcher && p.Box().Max.Z == o.Carcass.Max.Z {
			rails = append(rails, p.Mark)
		}
	}
	return rails
}

// covered reports whether another thing lies over most of a case, or near over it.
func (s *steps) covered(o part.Owner) bool {
	c := o.Carcass
	for _, x := range s.Assembly.Owners {
		b := x.Box
		if x.ID == o.ID || x.Wall != o.Wall || o.Wall == "" || b.Min.Z > c.Max.Z+coverNear || b.Max.Z < c.Max.Z+length.MM {
			continue
		}
		if over := min(b.Max.X, c.Max.X) - max(b.Min.X, c.Min.X); 2*over > c.Size().X && b.Min.Y < c.Max.Y && b.Max.Y > c.Min.Y {
			return true
		}
	}
	return false
}

// outAt says how far out from the line of a wall a place is, or how far behind it where the wall is hollow: no tape shows less
// than nothing.
func (s *steps) outAt(y length.Length) string {
	if y > 0 && s.in(y) != s.in(0) {
		return s.in(y) + " behind the line of the wall, which is hollow there"
	}
	return s.in(max(0, -y)) + " out"
}
