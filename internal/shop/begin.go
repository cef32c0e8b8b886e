package shop

import (
	"fmt"
	"slices"
	"strings"

	"stowright/internal/part"
)

// opening says how the first boards of a thing are held.
func (w *maker) opening(p part.Part, tool string, b *bench) (text string) {
	if p.Role == part.CounterLayer {
		text = "Lay it top face down on blankets: what a step puts under it, or screws to it from below, goes on from above. "
	}
	switch {
	case strings.HasPrefix(tool, "drill"):
		text += "Clamp every joint flush while its screws are driven. "
	case strings.Contains(tool, "mallet"): // dowels
		text += w.goes(b)
	case strings.HasPrefix(tool, "clamps"):
		text += "Pull every joint up with clamps, and leave them on until the glue holds. "
	}
	return text
}

// dowelsAtOnce is how many dowels one person brings glue to while that of the first is still open, some 10 minutes
// (common practice, no source).
const dowelsAtOnce = 24

// goes says in how many goes what stands on dowels is glued: where it has too many for one, all but the side that
// comes last first, with that side on dry to keep it square.
func (w *maker) goes(b *bench) string {
	all, last, mark := 0, 0, ""
	turns := b.order(rank)
	for _, j := range b.joints {
		if j.Kind == part.Dowel {
			all += j.Count
		}
	}
	for i := len(turns) - 1; i >= 0 && mark == ""; i-- {
		for _, j := range b.joints {
			if m := turns[i].part.Mark; (j.A == m || j.B == m) && j.Kind == part.Dowel && closes(turns[i].part) {
				last, mark = last+j.Count, m
			}
		}
	}
	if all <= dowelsAtOnce || mark == "" || last == all {
		return "Put all of it together in one go, while the glue is open; then pull every joint up with clamps, and leave them on until it holds. "
	}
	text := fmt.Sprintf("It has %d dowels, too many to glue in one go while the glue is open, some 10 minutes. Glue first what comes before %s, with %s pushed on dry: clamp it, see that it is square, and let it hold. Then draw %s off and glue it. ", all, w.label(mark), mark, mark)
	if most := max(all-last, last); most > dowelsAtOnce {
		text += fmt.Sprintf("With %d at once two people spread the glue. ", most)
	}
	return text
}

// pocketsOf says on which faces the pockets of boards are that others begin with.
func (w *maker) pocketsOf(marks []string) (text string) {
	var faces []string
	on := map[string][]string{}
	for _, m := range marks {
		for _, o := range w.parts[m].Ops {
			if o.Kind != part.Pocket {
				continue
			}
			face := w.around.Called(w.parts[m])[o.Face]
			if on[face] == nil {
				faces = append(faces, face)
			}
			on[face] = append(on[face], m)
			break
		}
	}
	if len(faces) == 1 && len(on[faces[0]]) > 2 && len(on[faces[0]]) == len(marks) {
		return fmt.Sprintf(" Their pockets are on the %s.", faces[0])
	}
	for _, f := range faces {
		text += fmt.Sprintf(" The pockets of %s are on the %s.", w.named(on[f]), f)
	}
	return text
}

// theirs gives the boards that stand already and whose own pockets hold a board that has pockets too: else its step says of
// all of its screws that their pockets are on it.
func (w *maker) theirs(p part.Part, js []part.Joint, begin []string) (marks []string) {
	own := false
	for _, j := range js {
		if j.Kind != part.PocketScrew {
			continue
		}
		if j.B == p.Mark {
			own = true
		} else if !slices.Contains(begin, j.B) && !slices.Contains(marks, j.B) {
			marks = append(marks, j.B)
		}
	}
	if !own {
		return nil
	}
	return marks
}

// pockets says which way the pockets of a board face.
func (w *maker) pockets(p part.Part) string {
	face, edge := "", ""
	for _, o := range p.Ops {
		if o.Kind != part.Pocket {
			continue
		}
		face = w.around.Called(p)[o.Face]
		if o.Towards == part.Near || o.Towards == part.Far {
			edge = w.around.Called(p)[o.Towards]
		}
	}
	switch {
	case face == "":
		return ""
	case edge != "":
		return fmt.Sprintf(" Its pockets are on the %s, those along it towards the %s: turn it so.", face, edge)
	}
	return fmt.Sprintf(" Its pockets are on the %s.", face)
}
