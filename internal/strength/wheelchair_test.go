package strength_test

import (
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/strength"
)

// ADA 2010 308.2.2 and 308.3.2: over a counter 400 mm deep a hand goes forward to 48 in (1219 mm); over
// one of 630 mm, 20 to 25 in from its edge to the middle of a wall case of 200, to 44 in (1118 mm),
// and from beside, for the counter is over 34 in high, not at all; over a deeper one nowhere.
func TestWheelchairReach(t *testing.T) {
	job := func(depth, up string) finding.Finding {
		text := strings.Replace(frame, "shortest: 1600,", "wheelchair: yes,", 1) +
			"cases:\n  low: {name: below, wall: back, at: 400, width: 600, height: 850, depth: " + depth + ", stands-on: {kind: feet, height: 100, recess: 50}, inside: {open: {}, load: 8 kg}}\n" +
			"  high: {name: above, wall: back, at: 400, level: wall, width: 600, height: 300, depth: 200, up: " + up + ", inside: {open: {}, goods: [tins]}}\n" +
			"goods:\n  tins: {diameter: 80, height: 100, weighs: 0.3 kg, count: 6, used: daily}\n"
		return find(t, strength.Check(whole(t, text)), strength.OutOfReach, "tins")
	}
	for _, x := range []struct {
		depth, up string
		most      float64
		verdict   finding.Verdict
	}{
		{"400", "1100", 48 * 25.4, finding.Near}, {"400", "1200", 48 * 25.4, finding.Fails},
		{"630", "1000", 44 * 25.4, finding.Near}, {"630", "1100", 44 * 25.4, finding.Fails},
		{"760", "1000", 0, finding.Fails},
	} {
		f := job(x.depth, x.up)
		if f.Verdict != x.verdict || x.most > 0 && (f.Capacity < x.most-1 || f.Capacity > x.most+1) {
			t.Errorf("over %s, %s up: %s", x.depth, x.up, say(f))
		}
	}
}
