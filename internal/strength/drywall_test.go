package strength_test

import (
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/strength"
)

// A drywall screw carries nothing, whatever its size says; a wall screw of the same size does.
func TestDrywallScrewsCarryNothing(t *testing.T) {
	text := strings.NewReplacer("from: metric-shop", "from: metric-shop, wall-screw: black", "boards:\n", "hardware:\n  black: {kind: screw, use: wall, name: NAME, diameter: 5 mm, root: 3.2 mm, head: 9 mm, length: 80 mm}\nboards:\n").Replace(alone(wall + "    inside: {open: {}, load: 8 kg}\n"))
	for name, want := range map[string]finding.Verdict{"drywall screw 5 x 80": finding.Fails, "plasterboard screw 5 x 80": finding.Fails, "wall screw 5 x 80": finding.Holds} {
		list := strength.Check(whole(t, strings.Replace(text, "NAME", name, 1)))
		if f := find(t, list, strength.WallFixing, "case/a"); f.Verdict != want {
			t.Errorf("%s: %s", name, say(f))
		}
	}
}
