package plan_test

import (
	"testing"

	"stowright/internal/length"
	"stowright/internal/part/parttest"
	"stowright/internal/plan"
)

// What the goods sheet puts in a rack on a door comes out of it under the rack over it: the slot between what keeps it in
// and what hangs above is higher than its least side (plane geometry: it fills the rack from front to back and does not tip).
func TestStowedGoodsComeOutOfRacks(t *testing.T) {
	tried := 0
	everywhere(t, func(name string, r plan.Result) {
		for _, b := range r.Assembly.Bays {
			kept, above, ok := parttest.Slot(r.Assembly, b)
			if !ok {
				continue
			}
			for _, s := range r.Stowed {
				if s.Bay != b.ID {
					continue
				}
				for _, g := range r.Job.Goods {
					if g.ID != s.Goods {
						continue
					}
					tall := length.Length(0)
					for _, l := range []*length.Length{g.Dia, g.Wide, g.Deep, g.Tall} {
						if l != nil && (tall == 0 || *l < tall) {
							tall = *l
						}
					}
					tried++
					if above-kept < tall {
						t.Errorf("%s: %s in %s are %v at least and come out under %v", name, g.ID, b.ID, tall, above-kept)
					}
				}
			}
		}
	})
	if tried == 0 {
		t.Error("nothing is tried")
	}
}
