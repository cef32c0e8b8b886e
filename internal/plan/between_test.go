package plan_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/shop"
)

// wedged gives a sentence for every thing that goes in at the wall between two faces that are there already and is as
// long as the room between them: a step's new boards, or the whole of what it sets. No play, and it goes in only by force
// (common practice, no source: 1 mm between what is put in and what stands, half of that where it is told).
func wedged(r plan.Result) (bad []string, n int) {
	const least = length.MM / 4
	of := map[string][]part.Part{}
	for _, p := range r.Assembly.Parts {
		if p.Moves == "" {
			of[p.Owner] = append(of[p.Owner], p)
		}
	}
	wall, kind := map[string]string{}, map[string]string{}
	for _, o := range r.Assembly.Owners {
		wall[o.ID], kind[o.ID] = o.Wall, o.Kind
	}
	stands := map[string]bool{} // owners
	hangs := map[string]bool{}  // single boards, by mark
	for _, s := range r.Steps {
		if s.Phase != shop.Install || s.Owner == "" {
			continue
		}
		var now []part.Part // what this step sets
		whole := false
		switch k := kind[s.Owner]; {
		case k == "counter" && strings.Contains(s.Text, " the rails of "):
			for _, p := range of[s.Owner] {
				end := slices.ContainsFunc(p.Ops, func(o part.Op) bool { return o.For == part.BoltedRail })
				if slices.Contains(s.Parts, p.Mark) || end {
					now = append(now, p)
				}
			}
		case k == "counter" && strings.Contains(s.Text, " in its place, left end "), k == "hutch" && strings.HasPrefix(s.Text, "Put the frame of "),
			strings.Contains(s.Text, ": set the "), strings.HasPrefix(s.Text, "Hang "):
			for _, p := range of[s.Owner] {
				if !hangs[p.Mark] {
					now = append(now, p)
				}
			}
			whole = true
		}
		for _, p := range now {
			a := p.Box()
			for axis := range 3 {
				low, high := "", ""
				for _, q := range r.Assembly.Parts {
					if q.Moves != "" || !stands[q.Owner] && !hangs[q.Mark] || wall[q.Owner] != wall[p.Owner] || q.Owner == p.Owner && !hangs[q.Mark] {
						continue
					}
					b, faces := q.Box(), true
					for k := range 3 {
						faces = faces && (k == axis || min(a.Max.At(k), b.Max.At(k))-max(a.Min.At(k), b.Min.At(k)) > 3*length.MM)
					}
					if faces && (a.Min.At(axis)-b.Max.At(axis)).Abs() < least {
						low = q.Mark
					}
					if faces && (b.Min.At(axis)-a.Max.At(axis)).Abs() < least {
						high = q.Mark
					}
				}
				n++
				if low != "" && high != "" {
					bad = append(bad, fmt.Sprintf("%s goes in between %s and %s, which are there, with no play: %s", p.Mark, low, high, s.Text))
				}
			}
		}
		for _, p := range now {
			hangs[p.Mark] = true
		}
		stands[s.Owner] = stands[s.Owner] || whole
	}
	return bad, n
}

// Nothing that goes in between what stands already is as long as the room.
func TestWhatGoesInBetweenHasPlay(t *testing.T) {
	inExamples(t, shipped, wedged, "nothing is set between others")
}

// late gives a sentence for every end panel that comes on when the back is in already: between that and its rear screws there
// is no room for a drill.
func late(r plan.Result) (bad []string, n int) {
	backed := map[string]string{}
	for _, s := range r.Steps {
		for _, m := range s.New {
			i := slices.IndexFunc(r.Assembly.Parts, func(p part.Part) bool { return p.Mark == m })
			if i < 0 || r.Assembly.Parts[i].Moves != "" {
				continue
			}
			switch p := r.Assembly.Parts[i]; p.Role {
			case part.BackPanel:
				backed[p.Owner] = m
			case part.EndPanel:
				if n++; backed[p.Owner] != "" {
					bad = append(bad, fmt.Sprintf("%s is screwed on from inside when %s is in: %s", m, backed[p.Owner], s.Text))
				}
			}
		}
	}
	return bad, n
}

// The screws of an end panel are driven while the back is off.
func TestEndPanelsComeOnBeforeTheBack(t *testing.T) {
	inExamples(t, shipped, late, "no end panel")
}
