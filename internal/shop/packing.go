package shop

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/length"
	"stowright/internal/part"
)

// Packing goes on to the rear of a thing before it comes to the wall: nobody reaches behind a case that stands between
// others, and tapered shims are too thick for a narrow gap.

// packing takes so many flat packers.
func (s *steps) packing(o part.Owner, n int) []Fit {
	is := func(h part.Item) bool { return h.For == part.PackingUse }
	for _, h := range s.left[o.ID] {
		if is(h) && n > 0 {
			if n = s.draw(o.ID, h.ID, n, is); n > 0 {
				return []Fit{{ID: h.ID, Count: n}}
			}
		}
	}
	return nil
}

// packs says how packing goes on to what is screwed to a wall, with the packers for it: nothing where none of its
// screws has any.
func (s *steps) packs(o part.Owner, list []part.Fixing) (text string, fits []Fit, points []string) {
	most, n := length.Length(0), 0
	for _, f := range list {
		most, n = max(most, f.Packing), n+part.Packers(f.Packing, s.Print)
	}
	if n == 0 {
		return "", nil, nil
	}
	t := "Where packing is told, flat packers go on before the thing comes to the wall: stick them with masking tape to its rear, the slot about the screw's hole, or about the place where one will be bored, together as thick as told; card or veneer makes up what is less than a packer."
	if most > shimPair {
		t += fmt.Sprintf(" Where more than %s is wanted, a piece of board is the first of them.", s.coarse(shimPair, length.Inch/2))
	}
	if slices.ContainsFunc(list, func(f part.Fixing) bool { return f.Packing >= part.ShimLeast && f.AtBench() }) {
		t += " Where the wall is marked through its holes, push a thin rod through each until it meets the wall: how deep it goes, less the wood, is the true gap; make the packing so while the thing is away from the wall."
	}
	fits = s.packing(o, n)
	return s.rule("packing", t), fits, []string{"packing: " + s.things(fits) + ", at those of these screws that are packed out"}
}

// packBehind is the step that puts the packing on to the rear of a thing, before it comes to the wall.
func (s *steps) packBehind(o part.Owner, list []part.Fixing) {
	text, fits, packed := s.packs(o, list)
	if text == "" {
		return
	}
	var points, marks []string
	rails := map[string]int{} // in the order of the list, those of a rail from below, those of a height from the left
	for _, f := range list {
		if _, ok := rails[f.Part]; !ok {
			rails[f.Part] = len(rails)
		}
	}
	list = slices.Clone(list)
	slices.SortStableFunc(list, func(a, b part.Fixing) int {
		return cmp.Or(cmp.Compare(rails[a.Part], rails[b.Part]), cmp.Compare(a.At.Z, b.At.Z), cmp.Compare(a.At.X, b.At.X))
	})
	for i := 0; i < len(list); {
		f, from := list[i], i
		var places []string
		x0, z0, inside := s.inside(o, f.Part, f.At.Z)
		if !inside {
			x0 = s.parts[f.Part].Box().Min.X
		}
		for ; i < len(list) && list[i].Part == f.Part && list[i].At.Z == f.At.Z; i++ {
			if list[i].Packing >= part.ShimLeast {
				places = append(places, fmt.Sprintf("%s at %s", s.in(list[i].Packing), s.in(list[i].At.X-x0)))
			}
		}
		if len(places) == 0 || from == i {
			continue
		}
		at, up := " from its left end", s.in(f.At.Z-s.parts[f.Part].Box().Min.Z)+" over its lower edge"
		if inside {
			at, up = " from the inside of the left side", s.in(f.At.Z-z0)+" over the bottom"
		}
		places[0] += at
		points = append(points, fmt.Sprintf("behind %s (%s), %s: %s", s.parts[f.Part].Name, f.Part, up, strings.Join(places, "; ")))
		marks = append(marks, f.Part)
	}
	s.add(Step{Phase: Install, Owner: o.ID, Tool: "tape, masking tape", Parts: marks, Fits: fits, Points: append(points, packed...),
		Text: fmt.Sprintf("Pack out %s behind its screws. Left is left as seen from the front.%s", s.called(o), text)})
}
