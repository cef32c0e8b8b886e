package plan_test

import (
	"context"
	"fmt"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
)

// What is shipped holds: every pattern in every shipped practice, at a wall that is ordinary for it; in
// the short form each in one of them.
// One error is right: a shop with a saw and a drill cuts no slots for dividers.
func TestShippedPatternsHold(t *testing.T) {
	const head = `
stowright: 1
practice: {from: %s}
walls:
  north: {length: 4 m, height: 2.5 m, kind: stud, lining: {name: drywall, thickness: 12.5 mm}, studs: {species: spruce-pine-fir, first: 200 mm, spacing: 400 mm, width: 38 mm, depth: 89 mm}}
`
	practices, patterns := shippedNames(t)
	for i, practice := range practices {
		for k, pattern := range patterns {
			if testing.Short() && k%len(practices) != i {
				continue
			}
			t.Run(practice+"/"+pattern, func(t *testing.T) {
				family, steps := "inch-bench", 10 // 30 in
				if practice == "metric-shop" {
					family, steps = "metric-bench", 8 // 800 mm
				}
				text := fmt.Sprintf(head, practice) + fmt.Sprintf("cases: {it: {wall: north, at: 500 mm, family: %s, steps: %d, pattern: %s}}\n", family, steps, pattern)
				r := plan.Make(context.Background(), parse(t, "pattern", []byte(text)), plan.Want{})
				for _, f := range r.Findings {
					if practice == "saw-and-drill" && pattern == "floor-dividers" && f.Code == "dividers-no-slots" {
						continue
					}
					if f.Severity == finding.Error {
						t.Errorf("%s %s: %s [%s]", f.Severity, f.At, f.Text, f.Code)
					}
				}
			})
		}
	}
}

func shippedNames(t *testing.T) (practices, patterns []string) {
	t.Helper()
	n := plantest.Shipped()
	for _, x := range []struct {
		key string
		to  *[]string
	}{{"practices", &practices}, {"patterns", &patterns}} {
		for _, e := range n.Get(x.key).Entries {
			*x.to = append(*x.to, e.Key)
		}
	}
	if len(practices) < 3 || len(patterns) < 5 {
		t.Fatalf("shipped: practices %v, patterns %v", practices, patterns)
	}
	return
}
