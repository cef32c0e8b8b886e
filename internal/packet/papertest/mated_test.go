package papertest

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"stowright/internal/length"
	"stowright/internal/plan/plantest"
)

// Every dowel and every screw that is bored in both boards finds its hole in the other: by the places of
// the boards that the steps tell, and the places of the holes on the drawings of the parts.
func TestHolesMeet(t *testing.T) {
	for _, name := range append(plantest.Examples(), plantest.Surveys()...) {
		for _, u := range []length.Unit{length.Inches, length.Millimetres} {
			t.Run(fmt.Sprint(name, " in ", u), func(t *testing.T) {
				pages, _ := printed(t, name, u, own(u))
				n, wrong := Read(pages).Rebuild().mated()
				for _, w := range wrong {
					t.Error(w)
				}
				t.Logf("%d holes have their partners", n)
			})
		}
	}
}

// A hole that is bored elsewhere is missed by its partner.
func TestMovedHolesAreMissed(t *testing.T) {
	pages, _ := printed(t, "hollis-court", length.Millimetres, own(length.Millimetres))
	whole := Read(pages)
	all, wrong := whole.Rebuild().mated()
	for _, w := range wrong {
		t.Error(w)
	}
	moved := 0
	for i, p := range whole.Parts {
		for k, o := range p.Ops {
			if !joins(o) || moved == 12 || i%3 > 0 {
				continue
			}
			s := whole
			s.Parts = slices.Clone(whole.Parts)
			s.Parts[i].Ops = slices.Clone(p.Ops)
			s.Parts[i].Ops[k].X += 4
			if n, wrong := s.Rebuild().mated(); n >= all || len(wrong) == 0 {
				t.Errorf("%s: a hole for %s on its %s is moved by 4 mm and not missed", p.Mark, o.For, o.Face)
			}
			moved++
			break
		}
	}
	if moved < 12 {
		t.Errorf("only %d holes were moved", moved)
	}
}

// A row of screws that are bored on the spot has as many as the step takes.
func TestShortRowsAreMissed(t *testing.T) {
	pages, _ := printed(t, "hollis-court", length.Millimetres, own(length.Millimetres))
	s := Read(pages)
	for _, w := range rows(s.Steps) {
		t.Error(w)
	}
	told := 0
	for i, st := range s.Steps {
		if spotted.MatchString(st.Text) {
			told++
			one := slices.Clone(s.Steps)
			one[i].Text = strings.Replace(strings.Replace(st.Text, " in a row", "1 in a row", 1), " rows of ", "1 rows of ", 1)
			if len(rows(one)) == 0 {
				t.Errorf("step %d: too many screws in a row are not seen", st.N)
			}
		}
	}
	if told < 4 {
		t.Errorf("only %d steps bore on the spot", told)
	}
}
