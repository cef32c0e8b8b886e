package packet_test

import (
	"slices"
	"strings"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan/plantest"
)

// Every point on the floor has its height on the sheet of levelling, and every packed screw its packing on that of
// fixing, on every paper, of surveys on their own: none is left out for want of room.
func TestEveryPointHasItsFigure(t *testing.T) {
	n := 0
	for _, name := range some() {
		r := plantest.Result(t, name)
		feet, packed := 0, 0
		for _, x := range r.Assembly.Feet {
			if x.Height > 0 {
				feet++
			}
		}
		for _, x := range r.Assembly.Fixings {
			if x.Packing > 0 && (x.Kind == part.ToStud || x.Kind == part.ToWall || x.Kind == part.NoStud) {
				packed++
			}
		}
		papers, units := []draw.Paper{draw.Letter(), draw.A3()}, []length.Unit{length.Inches, length.Millimetres}
		asIs := testing.Short() || !slices.Contains(plantest.Examples(), name)
		if asIs {
			papers, units = []draw.Paper{paperOf(r.Job.Print)}, []length.Unit{r.Job.Print} // as it is printed
		}
		for _, paper := range papers {
			for _, unit := range units {
				doc := setOn(t, name, unit, paper)
				levels, packings := 0, 0
				for i := range doc.Pages {
					for _, it := range doc.Pages[i].Items {
						x, ok := it.(*draw.Text)
						if !ok {
							continue
						}
						figure := strings.ContainsAny(x.Text, "0123456789") && strings.Trim(x.Text, "0123456789 /.+") == ""
						if x.Layer == "Levels" && figure {
							levels++
						}
						if x.Layer == "Fixing" && figure && strings.HasPrefix(x.Text, "+") {
							packings++
						}
					}
				}
				n += levels + packings
				if levels < feet || packings < packed {
					t.Errorf("%s on %.0f by %.0f in %s: %d of %d heights, %d of %d packings", name, paper.W, paper.H, unit, levels, feet, packings, packed)
				}
			}
		}
	}
	if n < 30 {
		t.Errorf("%d figures", n)
	}
}
