package shop

import (
	"fmt"
	"slices"
	"strings"

	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/part"
)

// take gives the hardware of an owner that no step has taken yet and that is wanted here, and
// takes it.
func (s *steps) take(owner string, want func(part.Item) bool) []Fit {
	var out []Fit
	for i := range s.left[owner] {
		h := &s.left[owner][i]
		if h.Count > 0 && want(*h) {
			out = fitted(out, Fit{ID: h.ID, Count: h.Count, Size: s.Catalogue.Size(h.ID, h.Kind, h.Length)})
			h.Count = 0
		}
	}
	return out
}

func fit(list []Fit, id string, n int) []Fit { return fitted(list, Fit{ID: id, Count: n}) }

// fitted adds hardware to a list, to its own kind and size where that is there.
func fitted(list []Fit, more Fit) []Fit {
	if i := slices.IndexFunc(list, func(f Fit) bool { return f.ID == more.ID && f.Size == more.Size }); i >= 0 {
		list[i].Count += more.Count
		return list
	}
	return append(list, more)
}

// atWall reports whether hardware is driven when things are set up, not when they are made.
func atWall(h part.Item) bool {
	return h.For == "wall fixing" || h.For == part.BattenUse || h.For == part.LightOnBoard || strings.HasPrefix(h.For, "joining") || strings.HasPrefix(h.For, "counter to") || strings.HasPrefix(h.For, "hutch to") || strings.HasPrefix(h.For, "rails over") || h.For == part.ToBases || h.For == part.BedsOnBase || h.For == part.ButtsInCorner
}

// fits takes the fasteners of joints for a step.
func (w *maker) fits(st *Step, js []part.Joint) {
	for _, j := range js {
		if j.Count > 0 && j.Fastener != "" {
			st.Fits = fit(st.Fits, j.Fastener, w.draw(w.owner.ID, j.Fastener, j.Count, func(h part.Item) bool { return !atWall(h) }))
		}
	}
	st.Fits = slices.DeleteFunc(st.Fits, func(f Fit) bool { return f.Count == 0 })
	if w.splits(js) && !strings.Contains(st.Caution, thinEdge) {
		st.Caution = strings.TrimSpace(st.Caution + " " + thinEdge)
	}
}

// splits reports whether screws go into edges of boards no three times as thick as they: common practice, no
// source.
func (w *maker) splits(js []part.Joint) bool {
	for _, j := range js {
		h, ok := w.Catalogue.Item(j.Fastener)
		if !ok || h.Kind != "screw" || j.Count == 0 || j.Kind != part.WoodScrew {
			continue
		}
		for _, m := range []string{j.A, j.B} {
			p, n := w.parts[m], joinery.Thin(j.Contact)
			if p.Material == part.Board && p.Pose.W().Axis() != n && 3*h.Dia > p.Size[2] {
				return true
			}
		}
	}
	return false
}

// draw takes up to n of one kind from an owner's hardware and says how many there were.
func (s *steps) draw(owner, id string, n int, want func(part.Item) bool) int {
	got := 0
	for i := range s.left[owner] {
		h := &s.left[owner][i]
		if h.ID != id || !want(*h) {
			continue
		}
		k := min(h.Count, n-got)
		h.Count -= k
		got += k
	}
	return got
}

// things lists hardware under the names of the shopping list: "4 × foot and 16 × wood screw".
func (s *steps) things(list []Fit) string {
	var out []string
	for _, f := range list {
		name := s.fastener(f.ID)
		if f.Size > 0 {
			unit := length.Millimetres
			if s.Practice.Unit == "in" {
				unit = length.Inches
			}
			x, _ := s.Catalogue.Item(f.ID)
			name += x.Sized(f.Size, unit)
		}
		out = append(out, fmt.Sprintf("%d × %s", f.Count, name))
	}
	return and(out)
}

// rest fits what no other step of an owner takes, so that nothing that is bought is forgotten.
func (s *steps) rest(o part.Owner, name string) {
	byUse := map[string][]Fit{}
	var uses []string
	for i := range s.left[o.ID] {
		h := &s.left[o.ID][i]
		if h.Count == 0 {
			continue
		}
		if byUse[h.For] == nil {
			uses = append(uses, h.For)
		}
		byUse[h.For] = fit(byUse[h.For], h.ID, h.Count)
		h.Count = 0
	}
	for _, u := range uses {
		text := fmt.Sprintf("%s: fit %s", name, s.things(byUse[u]))
		if u != "" {
			text += ", for " + u
		}
		s.add(Step{Phase: Install, Owner: o.ID, Tool: "drill", Fits: byUse[u], Text: text + "."})
	}
}

// once leaves each caution where it first matters in its phase, for each thing that is made.
// That something is too heavy is said wherever it is.
func (s *steps) once() {
	type key struct {
		phase Phase
		owner string
		text  string
	}
	said := map[key]bool{}
	for i := range s.list {
		st := &s.list[i]
		var keep []string
		for _, c := range sentences(st.Caution) {
			k := key{st.Phase, "", c}
			if st.Phase.Bench() {
				k.phase, k.owner = Assemble, st.Owner
			}
			if !said[k] || strings.HasPrefix(c, "Too heavy") {
				keep = append(keep, c)
			}
			said[k] = true
		}
		st.Caution = strings.Join(keep, " ")
	}
}

func sentences(t string) []string {
	var out []string
	for _, c := range strings.SplitAfter(t, ". ") {
		if c = strings.TrimSpace(c); c != "" {
			out = append(out, c)
		}
	}
	return out
}
