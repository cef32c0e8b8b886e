package shop

import (
	"fmt"
	"slices"

	"stowright/internal/geom"
	"stowright/internal/order"
	"stowright/internal/part"
)

// Alike gives, for every owner that is built, the first owner that is built exactly like it in the
// same stage: the same boards, worked alike, in the same places, with the same hardware. What is
// put on when things stand at the wall does not count.
func Alike(a *part.Assembly) map[string]string {
	like, out := map[string]string{}, map[string]string{}
	parts, hardware := map[string][]part.Part{}, map[string][]part.Item{}
	for _, p := range a.Parts {
		parts[p.Owner] = append(parts[p.Owner], p)
	}
	for _, h := range a.Hardware {
		hardware[h.Owner] = append(hardware[h.Owner], h)
	}
	for _, o := range a.Owners {
		if o.Standing {
			continue
		}
		d := geom.V(0, 0, 0).Sub(o.Carcass.Min)
		k := o.Kind + "\n" + o.Stage + "\n"
		for _, p := range parts[o.ID] {
			p.Pose = p.Pose.Shift(d)
			k += fmt.Sprintln(p.Local, p.Role, p.Name, p.Material, p.Stock, p.Size, p.Grain, p.Bands, p.Ops, p.Pose, p.Moves != "", p.Removable)
		}
		var things []string
		for _, h := range hardware[o.ID] {
			if !atWall(h) {
				things = append(things, fmt.Sprintln(h.ID, h.Kind, h.Count, h.Length, h.For))
			}
		}
		order.Up(things)
		k += fmt.Sprint(things)
		first, ok := like[k]
		if !ok {
			first = o.ID
			like[k] = first
		}
		out[o.ID] = first
	}
	return out
}

// share has the steps from a place on serve owners that are built like the first: they bring in
// the boards of all and take the hardware of all.
func (s *steps) share(from int, twins []part.Owner) {
	for i := from; i < len(s.list); i++ {
		st := &s.list[i]
		one := *st
		st.New, st.Parts, st.Fits = slices.Clone(one.New), slices.Clone(one.Parts), slices.Clone(one.Fits)
		for _, t := range twins {
			st.Also = append(st.Also, t.ID)
			st.New = append(st.New, s.twin(one.New, t.ID)...)
			st.Parts = append(st.Parts, s.twin(one.Parts, t.ID)...)
			for _, f := range one.Fits {
				if n := s.draw(t.ID, f.ID, f.Count, func(h part.Item) bool { return !atWall(h) }); n > 0 {
					st.Fits = fit(st.Fits, f.ID, n)
				}
			}
		}
	}
}

// twin gives the marks of another owner's boards that are those of a list.
func (s *steps) twin(marks []string, other string) []string {
	var out []string
	for _, m := range marks {
		if t, ok := s.local[[2]string{other, s.parts[m].Local}]; ok {
			out = append(out, t)
		}
	}
	return out
}
