package plan_test

import (
	"context"
	"strings"
	"testing"

	"stowright/internal/plan"
)

// On a wall that leans back the rails of a case on a cleat grow with their packing, and the case with its rails:
// it comes to rest all the same, whatever it holds.
func TestEveryCaseComesToRest(t *testing.T) {
	const text = `stowright: 1
unit: in
practice: {from: inch-shop}
walls:
  w: {length: 120, height: 96, kind: stud, lining: {name: drywall, thickness: 1/2}, studs: {species: spruce-pine-fir, first: 8, spacing: 16, width: 1 1/2}, floor: {falls-along: 0}, leans-out-at-top: LEAN}
cases:
  d: {level: wall, wall: w, at: 50, up: 54, width: 36, height: 30, depth: 14, hangs-by: {kind: KIND}, inside: {shelves: {count: 2}, load: KG lb}}
`
	for _, lean := range []string{"-2", "0", "2"} {
		for _, kind := range []string{"cleat", "rail"} {
			for _, load := range []string{"10", "30", "45", "60", "90"} {
				r := plan.Make(context.Background(), parse(t, "leans", []byte(strings.NewReplacer("LEAN", lean, "KIND", kind, "KG", load).Replace(text))), plan.Want{})
				if l := r.Findings.With(plan.NotSettled); len(l) > 0 {
					t.Errorf("leans %s, %s, %s lb: %s", lean, kind, load, l[0].Text)
				}
			}
		}
	}
}
