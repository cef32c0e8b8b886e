package plan_test

import (
	"testing"

	"stowright/internal/finding"
	"stowright/internal/plan"
)

// One rule gives the verdict of every comparison, by its ratio alone: over 1 it fails, over 0.85 it is near, be it a load, a
// distance, a height or a count (what the sheet "Proof" says of its table).
func TestVerdictsGoByTheRatioAlone(t *testing.T) {
	seen := map[finding.Verdict]int{}
	everywhere(t, func(name string, r plan.Result) {
		for _, f := range r.Findings {
			if f.Capacity == 0 || f.Verdict == finding.None || f.Verdict == finding.NotKnown {
				continue
			}
			want := finding.Holds
			switch r := f.Demand / f.Capacity; {
			case r > 1:
				want = finding.Fails
			case r > 0.85:
				want = finding.Near
			}
			if seen[want]++; f.Verdict != want {
				t.Errorf("%s: %s, %s: %v of %v %s is said to be %q, not %q: %s", name, f.Code, f.At, f.Demand, f.Capacity, f.Unit, f.Verdict, want, f.Text)
			}
		}
	})
	if seen[finding.Holds] == 0 || seen[finding.Near] == 0 || seen[finding.Fails] == 0 {
		t.Error("not every verdict is tried: ", seen)
	}
}
