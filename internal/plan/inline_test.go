package plan_test

import (
	"testing"

	"stowright/internal/length"
	"stowright/internal/plan"
)

// What hangs on one wall at one stated height hangs in one line, though the floor below falls from one bench to the next:
// upper and lower edges a little apart would be seen (common practice, no source: 25 mm are more than a floor falls).
func TestWhatHangsIsInOneLine(t *testing.T) {
	seen := 0
	everywhere(t, func(name string, r plan.Result) {
		stated := map[string]bool{} // whose heights are their own
		for _, n := range r.Job.Runs {
			if n.Value.Top != nil || n.Value.Bottom != nil || n.Value.Align != "" {
				for _, e := range n.Value.Order {
					stated[e.Case] = true
				}
			}
		}
		for _, c := range r.Job.Cases {
			stated[c.ID] = stated[c.ID] || c.Case.Up != nil
		}
		for i, a := range r.Room.Seats {
			for _, b := range r.Room.Seats[:i] {
				if !a.Hung || !b.Hung || a.Wall == "" || a.Wall != b.Wall || stated[a.ID] || stated[b.ID] {
					continue
				}
				seen++
				if d, e := (a.Top - b.Top).Abs(), (a.Box.Min.Z - b.Box.Min.Z).Abs(); d > 0 && d <= 25*length.MM && e > 0 && e <= 25*length.MM {
					t.Errorf("%s: %s and %s hang %v apart", name, a.ID, b.ID, d)
				}
			}
		}
	})
	if seen == 0 {
		t.Error("nothing hangs beside something")
	}
}
