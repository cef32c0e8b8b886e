package packet_test

import (
	"strings"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/length"
	"stowright/internal/pages"
	"stowright/internal/plan/plantest"
)

// The sheets of a wall say where along it and how high everything is that was surveyed there, and how the floor
// falls or steps: it is named under the elevation with its fronts off, and what stands in the room under the plan.
func TestWhatWasSurveyedIsOnItsSheets(t *testing.T) {
	n := 0
	for _, name := range some() {
		r := plantest.Result(t, name)
		all := words(set(t, name))
		for _, w := range pages.Walls(r) {
			in := func(l length.Length) string { return l.Marked(r.Job.Print) }
			want := func(s string) {
				n++
				if !strings.Contains(all, s) {
					t.Errorf("%s, wall %s: nowhere is %q", name, w.ID, s)
				}
			}
			for _, a := range w.Openings {
				want(a.ID + ": " + in(max(a.Box.Min.X, 0)) + " to " + in(min(a.Box.Max.X, w.Length)) + " along, ")
			}
			for _, a := range w.Clear {
				want(a.ID + ": " + in(max(a.Box.Min.X, 0)) + " to " + in(min(a.Box.Max.X, w.Length)) + " along, ")
			}
			for _, a := range w.Obstacles {
				want(a.ID + ": ")
			}
			for _, x := range w.Things {
				want(x.ID + ": " + in(x.Box.Min.X) + " to " + in(x.Box.Max.X) + " along, ")
			}
			flat := true
			for i, p := range w.Floor {
				flat = flat && p.Z == 0
				if i > 0 && w.Floor[i-1].X == p.X {
					want("a step to " + in(p.Z) + " there")
				}
			}
			if !flat {
				want("floor at the wall: " + in(w.Floor[0].Z) + " at " + in(0))
			}
		}
	}
	if n < 15 {
		t.Errorf("%d things surveyed", n)
	}
}

// words gives all text of a set, a space between its lines.
func words(doc draw.Document) string {
	var t strings.Builder
	for i := range doc.Pages {
		for _, it := range doc.Pages[i].Items {
			if x, ok := it.(*draw.Text); ok {
				t.WriteString(x.Text + " ")
			}
		}
	}
	return t.String()
}
