package plan_test

import (
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/strength"
)

// A bottom that more pockets than it has room for would have to hold is told to be screwed through the sides, and holds so:
// how many screws it takes is settled from its load.
func TestWoodScrewsInPlaceOfPockets(t *testing.T) {
	const job = `stowright: 1
unit: mm
practice: {from: inch-shop, unit: mm}
walls: {back: {length: 4000, height: 2500, kind: stud, lining: {name: drywall, thickness: 12.7}, studs: {species: spruce-pine-fir, first: 200, spacing: 400, width: 38}, floor: {points: [{at: 0, height: 0}, {at: 4000, height: 0}]}}}
cases:
  a:
    wall: back
    at: 400
    width: 600
    height: 800
    depth: 500
    stands-on: {kind: feet, height: 100, recess: 50}
    inside: {open: {}, load: 420 kg}
`
	joint := func(text string) finding.Finding {
		for _, f := range made(t, "advice", text).Findings.With(strength.CarcassJoint) {
			if strings.Contains(f.At, "bottom") {
				return f
			}
		}
		t.Fatal("no joint of a bottom")
		return finding.Finding{}
	}
	f := joint(job)
	if f.Verdict != finding.Fails || !strings.Contains(f.Hint, "joint: wood-screw") {
		t.Fatalf("%s: %s | %s", f.Verdict, f.Text, f.Hint)
	}
	if g := joint(strings.Replace(job, "    inside:", "    joint: wood-screw\n    inside:", 1)); g.Verdict == finding.Fails {
		t.Errorf("advised %s: %s", f.Hint, g.Text)
	}
}
