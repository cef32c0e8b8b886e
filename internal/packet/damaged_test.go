package packet_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/geom"
	"stowright/internal/pages"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
)

// A damaged sheet on hand is told from the sound ones wherever it stands: in the list of sheets, above its picture, in its step and on the
// shopping list; its bad place is crossed out in the picture, and no part lies in it. In every corner, and in every example and survey.
func TestADamagedSheetIsToldFromTheSoundOnes(t *testing.T) {
	found := 0
	judged := func(name string, r plan.Result, read func() draw.Document) {
		for i, s := range r.Plan.Sheets {
			if len(s.Damage) == 0 {
				if strings.Contains(s.Stock, "/spoilt-") {
					t.Errorf("%s: sheet %d is cut from %s and has no bad place", name, i+1, s.Stock)
				}
				continue
			}
			found++
			for _, d := range s.Damage {
				for _, p := range s.Pieces {
					if geom.B(p.X, p.Y, 0, p.X+p.L, p.Y+p.W, 1).Meets(geom.B(d.X, d.Y, 0, d.X+d.L, d.Y+d.W, 1)) {
						t.Errorf("%s: sheet %d: %s lies in the bad place", name, i+1, p.Part)
					}
				}
			}
			head, listed, step, bought, crossed := false, false, false, false, false
			doc := read()
			for k := range doc.Pages {
				var words strings.Builder
				for _, it := range doc.Pages[k].Items {
					if x, ok := it.(*draw.Text); ok {
						words.WriteString(x.Text + " ")
					}
				}
				all := strings.Join(strings.Fields(words.String()), " ")
				here := strings.Contains(all, fmt.Sprintf("Sheet %d of %d:", i+1, len(r.Plan.Sheets)))
				head = head || here && strings.Contains(all, ", on hand, damaged")
				step = step || here && strings.Contains(all, "the damaged one on hand") && strings.Contains(all, "Take the sheet with the bad place, "+s.Damage[0].L.Tape(r.Job.Print))
				listed = listed || strings.Contains(all, "on hand, damaged")
				bought = bought || strings.Contains(all, "1 damaged")
				crossed = crossed || here && (strings.Contains(all, " bad ") || strings.Contains(all, " bad place, "))
			}
			for what, ok := range map[string]bool{"above its picture": head, "in its step": step, "in the picture": crossed, "in the list of sheets": listed || len(r.Plan.Sheets) < 2, "on the shopping list": bought} {
				if !ok {
					t.Errorf("%s: sheet %d is not told %s from one that is sound", name, i+1, what)
				}
			}
		}
	}
	for _, corner := range []string{"start-near", "start-far", "end-near", "end-far"} {
		text := strings.Replace(string(plantest.Text(t, "one-case")), "cases:\n", "boards:\n  birch-three-quarter: {on-hand: 1, damaged: [{corner: "+corner+", length: 6 in, width: 9 in}]}\ncases:\n", 1)
		r := plan.Make(context.Background(), plantest.Parse(t, "one-case", []byte(text)), plan.Want{})
		n := found
		judged(corner, r, func() draw.Document { return pages.Of(r, draw.Letter(), "", "") })
		if found == n {
			t.Errorf("%s: the damaged sheet is not cut", corner)
		}
	}
	list := plantest.Examples()
	if !testing.Short() {
		list = slices.Concat(list, plantest.Surveys())
	}
	for _, name := range list {
		judged(name, plantest.Result(t, name), func() draw.Document { return set(t, name) })
	}
}
