package plan_test

import (
	"strings"
	"testing"

	"stowright/internal/part"
)

// bothSides is a case with fixed shelves at one height, or nearly, on both sides of a partition.
const bothSides = `stowright: 1
unit: in
practice: {from: PRACTICE, joint: JOINT}
cases:
  a: {width: 48, height: 34 1/2, depth: 20, stands-on: {kind: toe, height: 4, recess: 3}, inside: {across: [{up: [{height: 12}, {}]}, {up: [{height: RIGHT}, {}]}]}}
  b: {width: 48, height: 34 1/2, depth: 20, stands-on: {kind: toe, height: 4, recess: 3}, inside: {up: [{across: [{}, {}]}, {across: [{}, {}]}]}}
  c: {width: 48, height: 34 1/2, depth: 20, stands-on: {kind: toe, height: 4, recess: 3}, inside: {across: [{shelves: {count: 2, fixed: yes}}, {shelves: {count: 2, fixed: yes}}]}}
`

// Every screw can be driven in the order that is printed: no head lies under a board that is there already. The same
// boards by screws through the partition alone would not be; that it is said is seen in a bay too narrow for a drill.
func TestScrewsOfBothSidesAreReached(t *testing.T) {
	screwed := 0
	for _, practice := range []string{"saw-and-drill", "inch-shop", "metric-shop"} {
		for _, joint := range []string{"wood-screw", "connecting-screw", "pocket-screw", "dowel"} {
			for _, right := range []string{"12", "12.3", "12.6", "16"} {
				text := strings.NewReplacer("PRACTICE", practice, "JOINT", joint, "RIGHT", right).Replace(bothSides)
				r := planned(t, text)
				for _, f := range r.Findings.With("screw-hidden") {
					t.Errorf("%s, %s, %s: %s", practice, joint, right, f.Text)
				}
				for _, j := range r.Assembly.Joints {
					if j.Kind == part.WoodScrew && j.Count > 0 {
						screwed++
					}
				}
			}
			if testing.Short() {
				break
			}
		}
	}
	if screwed == 0 {
		t.Error("nothing is screwed through")
	}
	narrow := strings.NewReplacer("PRACTICE", "inch-shop", "JOINT", "pocket-screw", "across: [{up: [{height: 12}, {}]}, {up: [{height: RIGHT}", "across: [{width: 3, up: [{height: 12}, {}]}, {up: [{height: 14}").Replace(bothSides)
	if len(planned(t, narrow).Findings.With("screw-hidden")) == 0 {
		t.Error("pockets in a bay 3 in wide, and nobody says that no driver gets there")
	}
}
