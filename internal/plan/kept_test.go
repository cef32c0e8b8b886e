package plan_test

import (
	"fmt"
	"strings"
	"testing"

	"stowright/internal/cutlist"
	"stowright/internal/plan/plantest"
	"stowright/internal/shop"
)

// What a later stage is cut from is told to be kept by the step that leaves it, which is an earlier one.
func TestOffcutsForLaterStagesAreKept(t *testing.T) {
	looked := 0
	for _, name := range plantest.Examples() {
		r := plantest.Result(t, name)
		for i, sh := range r.Plan.Sheets {
			if !cutlist.LeftOver(sh.Stock) {
				continue
			}
			looked++
			from := 0
			for k, before := range r.Plan.Sheets {
				for _, o := range before.Offcuts {
					if o.Keeps == i+1 {
						from++
						if k >= i || cutlist.Board(before.Stock) != cutlist.Board(sh.Stock) || min(o.L, o.W) != min(sh.L, sh.W) || max(o.L, o.W) != max(sh.L, sh.W) {
							t.Errorf("%s: sheet %d, %v, is no offcut %v of sheet %d", name, i+1, [2]any{sh.L, sh.W}, o.Rect, k+1)
						}
					}
				}
			}
			if from != 1 {
				t.Errorf("%s: %d offcuts are sheet %d", name, from, i+1)
			}
			at := 0
			for n, s := range r.Steps {
				if s.Phase == shop.Saw && strings.HasPrefix(s.Text, fmt.Sprintf("Sheet %d,", i+1)) {
					if at == 0 {
						t.Errorf("%s: sheet %d is cut before anything said to keep it", name, i+1)
					}
				}
				for _, p := range s.Points {
					if strings.HasPrefix(p, "Keep the offcut of ") && strings.Contains(p, fmt.Sprintf("write “sheet %d” on it", i+1)) {
						at = n + 1
					}
				}
			}
		}
	}
	if looked == 0 && !testing.Short() {
		t.Error("no stage is cut from what an earlier one leaves")
	}
}
