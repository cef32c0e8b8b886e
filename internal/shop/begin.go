package shop

import (
	"fmt"
	"strings"

	"stowright/internal/part"
)

// opening says how the first boards of a thing are held.
func (w *maker) opening(p part.Part, tool string) (text string) {
	if p.Role == part.CounterLayer {
		text = "Lay it top face down on blankets: what comes under it, from below, then comes on to it from above. "
	}
	switch {
	case strings.HasPrefix(tool, "drill"):
		text += "Clamp every joint flush while its screws are driven. "
	case strings.Contains(tool, "mallet"): // dowels
		text += "Put all of it together in one go, while the glue is open; then pull every joint up with clamps, and leave them on until it holds. "
	case strings.HasPrefix(tool, "clamps"):
		text += "Pull every joint up with clamps, and leave them on until the glue holds. "
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
