package plan_test

import (
	"context"
	"fmt"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/plan"
	"stowright/internal/strength"
)

// A case stands on as many feet as its load asks for: four of 50 kg hold no more than 200 kg (arithmetic), so more of them
// are put under one that weighs more, and what no number of them holds is told.
func TestFeetFollowTheLoad(t *testing.T) {
	for _, c := range []struct {
		load  int // kg on the floor and on each of two shelves
		feet  []int
		fails bool
	}{{10, []int{4}, false}, {90, []int{8, 10}, false}, {300, []int{4}, true}} {
		text := fmt.Sprintf("stowright: 1\nunit: mm\npractice: {from: metric-shop}\ncases: {a: {width: 700, height: 868, depth: 580, stands-on: {kind: feet, height: 100}, inside: {shelves: {count: 2}, load: %d kg}}}\n", c.load)
		r := plan.Make(context.Background(), parse(t, "feet", []byte(text)), plan.Want{})
		if n := len(r.Assembly.Feet); n != c.feet[0] && n != c.feet[len(c.feet)-1] {
			t.Errorf("%d kg on each board: %d feet, want %v", c.load, n, c.feet)
		}
		for _, f := range r.Findings {
			if f.Code == strength.FootLoad && (f.Verdict == finding.Fails) != c.fails {
				t.Errorf("%d kg on each board: %s", c.load, f.Text)
			}
		}
		if bad := sound(&r); len(bad) > 0 {
			t.Error(bad)
		}
	}
}
