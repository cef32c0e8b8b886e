package plan_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/shop"
)

// cramped gives a sentence for every screw that is bored for on the spot beside a board that is there already and in the chuck's
// way (22 mm from its axis, 30 mm over the board: a drill's usual chuck and bit, common practice, no source), without a word of
// it in its step; for every one in rows over a field of 75 mm or more in a board that is not bored itself, told or not; and for every one with less than 2 mm of wood to a screw that crosses it.
func cramped(r plan.Result) (bad []string, n int) {
	at := byMark(r.Assembly)
	came := map[string]int{}
	for i, s := range r.Steps {
		for _, m := range s.New {
			came[m] = i
		}
	}
	for _, j := range r.Assembly.Joints {
		p, q := at[j.A], at[j.B]
		if j.Kind != part.WoodScrew || j.Fastener == "" || joinery.Bored(p, q, j) {
			continue
		}
		h, _ := r.Job.Catalogue.Item(j.Fastener)
		s := joinery.Spots(p, q, j, h.Length, r.Job.Print == length.Inches)
		head, into := at[s.Head], at[s.Into]
		axis := s.From.Axis()
		wide := min(j.Contact.Size().At((axis+1)%3), j.Contact.Size().At((axis+2)%3)) >= 75*length.MM && len(head.Ops) == 0
		top := head.Box().Max.At(axis)
		if s.From.Sign() < 0 {
			top = head.Box().Min.At(axis)
		}
		for _, v := range s.At {
			n++
			chuck := spanning(v.With(axis, top), v.With(axis, top).Add(s.From.Vec(60*length.MM))).Grow(22 * length.MM)
			for _, b := range r.Assembly.Parts {
				if b.Owner != head.Owner || b.Moves != "" || b.Mark == head.Mark || b.Mark == into.Mark || came[b.Mark] >= max(came[head.Mark], came[into.Mark]) {
					continue
				}
				out := (b.Box().Max.At(axis) - top) * length.Length(s.From.Sign())
				if s.From.Sign() < 0 {
					out = top - b.Box().Min.At(axis)
				}
				told := slices.ContainsFunc(r.Steps, func(s shop.Step) bool {
					return slices.Contains(s.Parts, head.Mark) && slices.Contains(s.Parts, into.Mark) && strings.Contains(s.Tool, "long driver bit") && strings.Contains(s.Text, "leaning a little away")
				})
				if out > 30*length.MM && b.Box().Meets(chuck) && (wide || !told) {
					bad = append(bad, fmt.Sprintf("a screw through %s into %s has no room for a drill beside %s (%s)", head.Mark, into.Mark, b.Mark, v))
				}
			}
			for _, b := range []part.Part{into, head} {
				for _, o := range b.Ops {
					dir := b.Pose.Dir(o.Face.Normal())
					if o.Kind != part.Hole || o.For != "wood screw" || dir.Axis() == axis || s.Beside {
						continue
					}
					from := b.Pose.Point(o.Face.Point(o.X, o.Y, b.Size))
					to := from.Add(dir.Not().Vec(o.Depth))
					hole := spanning(from, to)
					reach := v.Sub(s.From.Vec(h.Length - head.Box().Size().At(axis)))
					screw := spanning(v, reach)
					if b.Mark == head.Mark || !hole.Grow(10*length.MM).Meets(screw) {
						continue
					}
					apart := length.Length(0)
					for i := range 3 {
						apart = max(apart, max(hole.Min.At(i)-screw.Max.At(i), screw.Min.At(i)-hole.Max.At(i)))
					}
					if apart-4*length.MM < 2*length.MM {
						bad = append(bad, fmt.Sprintf("the screw through %s into %s at %s passes %s from one that crosses it in %s", head.Mark, into.Mark, v, apart.Exact(length.Millimetres), b.Mark))
					}
				}
			}
		}
	}
	slices.Sort(bad)
	return bad, n
}

// spanning gives the box from one point to another.
func spanning(a, b geom.Vec) geom.Box {
	for i := range 3 {
		lo, hi := min(a.At(i), b.At(i)), max(a.At(i), b.At(i))
		a, b = a.With(i, lo), b.With(i, hi)
	}
	return geom.Box{Min: a, Max: b}
}

// Screws that are bored for on the spot leave the drill its room, and wood to the screws that cross them.
func TestScrewsBoredOnTheSpotHaveRoom(t *testing.T) {
	inExamples(t, shipped, cramped, "nothing is bored for on the spot")
}
