package strength_test

import (
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/strength"
)

// Where nothing is said of what is in a drawer, it is filled to what its slides carry and no more,
// and that is said. A load or goods that are stated are what they are.
func TestAssumedLoadIsWhatSlidesCarry(t *testing.T) {
	wide := alone(strings.Replace(floor, "600", "900", 1) + "    inside: {drawers: {count: 1}%}\n")
	f := find(t, strength.Check(whole(t, strings.Replace(wide, "%", "", 1))), strength.SlideLoad, "in-drawer-1")
	if f.Verdict != finding.Near || f.Demand != f.Capacity || !strings.Contains(f.Text, "put no more than ") || !strings.Contains(strings.Join(f.Working, " "), "assumed: no more than the slides carry") {
		t.Errorf("%s: %v of %v: %s %q", f.Verdict, f.Demand, f.Capacity, f.Text, f.Working)
	}
	for _, load := range []string{", load: 60 kg", ", goods: [anvil]"} {
		text := strings.Replace(wide, "%", load, 1) + "goods:\n  anvil: {width: 300, depth: 200, height: 150, weighs: 60 kg, count: 1}\n"
		if f := find(t, strength.Check(whole(t, text)), strength.SlideLoad, "in-drawer-1"); f.Verdict != finding.Fails || strings.Contains(f.Text, "put no more than") {
			t.Errorf("%s: %s: %s", load, f.Verdict, f.Text)
		}
	}
}
