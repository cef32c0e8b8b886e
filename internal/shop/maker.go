package shop

import (
	"cmp"
	"fmt"
	"strings"

	"stowright/internal/part"
)

// maker puts together one owner, and those that are built like it.
type maker struct {
	*steps
	owner part.Owner
	own   part.Assembly // what is of it: its parts, feet and fronts, and the joints at its parts
	name  string
	phase Phase
	of    string   // " of drawer 3": left out of the names of boards; "" for none
	begun []string // boards that come in with the step and are not placed by it
}

func (s *steps) maker(o part.Owner, name string, p Phase) maker {
	w := maker{steps: s, owner: o, name: name, phase: p}
	mine := s.whose.Of(o.ID)
	for _, p := range mine.Parts {
		w.own.Parts = append(w.own.Parts, *p)
	}
	for _, f := range mine.Fronts {
		w.own.Fronts = append(w.own.Fronts, *f)
	}
	w.own.Feet, w.own.Joints = mine.Feet, s.joints[o.ID]
	return w
}

func (w *maker) step(st Step) {
	st.Phase, st.Owner, st.Head = cmp.Or(st.Phase, w.phase), w.owner.ID, capital(w.name)
	st.Text = capital(st.Text)
	w.add(st)
}

// label names a board: "left side (A.left)".
func (w *maker) label(mark string) string {
	return fmt.Sprintf("%s (%s)", strings.TrimSuffix(w.parts[mark].Name, w.of), mark)
}

// named lists boards by name and mark: "left side (A.left) and bottom (A.bottom)".
func (w *maker) named(marks []string) string {
	var out []string
	for _, m := range marks {
		out = append(out, w.label(m))
	}
	return and(out)
}
