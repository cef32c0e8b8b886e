package packet_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/length"
)

// The leader of a size crosses no other line of a size, no other leader and no text: on no sheet of an example, in both units, on
// any paper.
func TestLeadersOfSizesCrossNothing(t *testing.T) {
	papers := []draw.Paper{draw.A4(), draw.Letter(), draw.A3()}
	n := 0
	judge := func(what string, doc draw.Document) {
		var faults []string
		for i := range doc.Pages {
			leaders, crossings := crossed(&doc.Pages[i])
			n += leaders
			for _, f := range crossings {
				t.Logf("%s, sheet %d: %s", what, i+1, f)
				faults = append(faults, fmt.Sprintf("leader %d that crosses something", len(faults)+1))
			}
		}
		known(t, "leaders of sizes, "+what, faults)
	}
	for _, name := range some() {
		if testing.Short() || !slices.Contains(names, name) {
			judge(name, set(t, name))
			continue
		}
		for _, u := range []length.Unit{length.Inches, length.Millimetres} {
			for _, p := range papers {
				judge(fmt.Sprintf("%s, %s in %s", name, p.Name, u), setOn(t, name, u, p))
			}
		}
	}
	if n < 50 {
		t.Errorf("%d leaders", n)
	}
}

// crossed counts the leaders of sizes on a sheet, and says what they cross.
func crossed(s *draw.Sheet) (n int, out []string) {
	type seg struct{ a, b draw.Point }
	var lines []seg
	var leaders [][]seg
	for _, it := range s.Items {
		p, ok := it.(*draw.Path)
		if !ok || p.Layer != "Dimensions" || p.Line != draw.Narrow || len(p.Steps) < 2 || p.Steps[1].Op != draw.Go {
			continue
		}
		var l []seg
		for k := 1; k < len(p.Steps); k++ {
			if p.Steps[k].Op == draw.Go {
				l = append(l, seg{p.Steps[k-1].P[0], p.Steps[k].P[0]})
			}
		}
		d := l[0].b.Sub(l[0].a)
		if len(l) == 2 || math.Abs(d.X) > 0.05 && math.Abs(d.Y) > 0.05 {
			leaders = append(leaders, l)
		} else {
			lines = append(lines, l...)
		}
	}
	for i, l := range leaders {
		for _, x := range l {
			for _, y := range lines {
				if draw.Cross(x.a, x.b, y.a, y.b) {
					out = append(out, fmt.Sprintf("leader to %.0f,%.0f crosses a line", x.b.X, x.b.Y))
				}
			}
			for _, m := range leaders[:i] {
				for _, y := range m {
					if draw.Cross(x.a, x.b, y.a, y.b) {
						out = append(out, fmt.Sprintf("leader to %.0f,%.0f crosses a leader", x.b.X, x.b.Y))
					}
				}
			}
			for _, it := range s.Items {
				if t, ok := it.(*draw.Text); ok && t.Box().Inset(0.3).Struck(x.a, x.b) {
					out = append(out, fmt.Sprintf("leader to %.0f,%.0f strikes %q", x.b.X, x.b.Y, t.Text))
				}
			}
		}
	}
	return len(leaders), out
}
