package strength_test

import (
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/strength"
)

// The rating of an anchor is for what lies against the wall (EN 1992-4, 6.2.2.3, from memory: bedding of up to
// half of its thickness has no lever arm). A wall that falls back 5 mm between the ends of a rail leaves it so, with
// hard packing; one that falls back 60 mm does not, whatever the rating, and the case is not said to hold.
func TestAnchorsThatStandOff(t *testing.T) {
	for by, want := range map[string]finding.Verdict{"5": finding.Holds, "60": finding.NotKnown} {
		text := swap(t, alone(wall+"    inside: {shelves: {count: 1}, load: 10 kg}\n"), "kind: stud", "kind: concrete\n    anchor: {hardware: anchor-sleeve-10, shear: 200 kg, tension: 150 kg, source: a trial}\n    hollow: [{at: 400, by: 0}, {at: 800, by: "+by+"}, {at: 1200, by: 0}]")
		l := strength.Check(whole(t, text)).With(strength.WallFixing)
		if len(l) != 1 || l[0].Verdict != want {
			t.Errorf("%s mm: %v", by, l)
		} else if want == finding.NotKnown && !strings.Contains(l[0].Text, "packed ") {
			t.Errorf("%s mm: %s", by, l[0].Text)
		}
	}
}
