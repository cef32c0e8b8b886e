package packet_test

import (
	"fmt"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/length"
)

// Where parts are drawn apart no leader ends on or beside another's dot, and none runs over the dot of another: on no sheet of an
// example in both units.
func TestLeadersApartAreTold(t *testing.T) {
	n := 0
	judge := func(what string, doc draw.Document) {
		for i := range doc.Pages {
			leaders := apartLeaders(&doc.Pages[i])
			n += len(leaders)
			for k, l := range leaders {
				for m, o := range leaders {
					if m < k && l[1].Sub(o[1]).Len() < 2 {
						t.Errorf("%s, sheet %d: two leaders end at %.0f,%.0f", what, i+1, l[1].X, l[1].Y)
					}
					if m != k && (draw.Rect{X: o[1].X, Y: o[1].Y}).Inset(-0.7).Struck(l[0], l[1]) {
						t.Errorf("%s, sheet %d: a leader to %.0f,%.0f runs over the dot at %.0f,%.0f", what, i+1, l[1].X, l[1].Y, o[1].X, o[1].Y)
					}
				}
			}
		}
	}
	if testing.Short() {
		for _, name := range some() {
			judge(name, set(t, name))
		}
		return
	}
	for _, name := range names {
		for _, u := range []length.Unit{length.Inches, length.Millimetres} {
			judge(fmt.Sprintf("%s in %s", name, u), setOn(t, name, u, draw.A4()))
		}
	}
	if n < 500 {
		t.Errorf("%d leaders", n)
	}
}

// apartLeaders gives the leaders of names round what is drawn apart, each from its name to its dot.
func apartLeaders(s *draw.Sheet) (out [][2]draw.Point) {
	for _, it := range s.Items {
		if p, ok := it.(*draw.Path); ok && p.Layer == "Marks" && p.Line == draw.Narrow && !p.Filled && len(p.Steps) == 2 {
			out = append(out, [2]draw.Point{p.Steps[0].P[0], p.Steps[1].P[0]})
		}
	}
	return out
}
