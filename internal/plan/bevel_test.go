package plan_test

import (
	"slices"
	"strings"
	"testing"

	"stowright/internal/cutting"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan/plantest"
	"stowright/internal/shop"
)

// A strip that is bevelled with a saw led by hand has something that carries the saw: the wide piece that it is
// ripped from, where a cut of the plan runs along it there, or offcuts beside it.
func TestBevelsHaveWhatCarriesTheSaw(t *testing.T) {
	wide, alone, mitres := 0, 0, 0
	for _, name := range append([]string{"hollis-court-friend"}, shipped...) {
		r := plantest.Result(t, name)
		boring := ""
		named := map[string]int{} // the sheet whose step has a part bevelled
		for _, s := range r.Steps {
			if s.Phase == shop.Bore && strings.Contains(s.Text, "edge sawn at") {
				boring += s.Text
			}
			for _, p := range s.Points {
				list, ok := strings.CutPrefix(p, "Bevelled: ")
				if !ok || s.Phase != shop.Saw {
					continue
				}
				list, _, _ = strings.Cut(list, ". Before each")
				code := ""
				for _, m := range strings.Split(list, ", ") {
					if c, _, dotted := strings.Cut(m, "."); dotted {
						code = c
					} else {
						m = code + "." + m
					}
					named[m] = slices.IndexFunc(r.Marks, func(marks []string) bool { return slices.Contains(marks, m) })
				}
			}
		}
		for _, p := range r.Assembly.Parts {
			if slices.ContainsFunc(p.Ops, func(o part.Op) bool { return o.For == part.Mitre }) {
				mitres++ // never along the fence: a short end turns there
				if !slices.ContainsFunc(r.Steps, func(s shop.Step) bool {
					return s.Phase == shop.Bore && slices.Contains(s.Parts, p.Mark) && strings.Contains(s.Text, "end sawn at") && !strings.Contains(s.Text, "runs along the fence") &&
						(s.Tool == "mitre saw" && strings.Contains(s.Text, "Turn the saw") || strings.Contains(s.Text, "mitre gauge") || strings.Contains(s.Text, "double-sided tape"))
				}) {
					t.Errorf("%s: nobody says how the mitre of %s is sawn", name, p.Mark)
				}
				continue
			}
			if !slices.ContainsFunc(p.Ops, func(o part.Op) bool { return o.Kind == part.Bevel }) {
				continue
			}
			sheet, ok := named[p.Mark]
			if !ok {
				alone++
				if !strings.Contains(boring, "double-sided tape") && !strings.Contains(boring, "along the fence") {
					t.Errorf("%s: nothing carries the saw at %s", name, p.Mark)
				}
				continue
			}
			wide++
			at := r.Plan.Sheets[sheet].Pieces[slices.Index(r.Marks[sheet], p.Mark)].Rect
			if !slices.ContainsFunc(r.Plan.Sheets[sheet].Cuts, func(c cutting.Cut) bool {
				lo, hi, of := at.Y, at.Y+at.W, c.Of.W
				if c.Axis == cutting.X {
					lo, hi, of = at.X, at.X+at.L, c.Of.L
				}
				return of >= 200*length.MM && (c.At == hi || c.At+c.Kerf == lo)
			}) {
				t.Errorf("%s: no cut rips %s from a wide piece", name, p.Mark)
			}
		}
	}
	if wide == 0 || alone == 0 || mitres == 0 {
		t.Errorf("%d bevelled on wide pieces, %d alone", wide, alone)
	}
}
