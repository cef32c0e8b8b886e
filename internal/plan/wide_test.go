package plan_test

import (
	"fmt"
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/mass"
	"stowright/internal/part"
	"stowright/internal/strength"
)

// However wide a wall case is, the ends of its bottom and of its fixed shelves have as many screws or dowels as what
// stands on them asks for, where there is room for them.
func TestWideCasesHoldTheirFloors(t *testing.T) {
	const one = `
stowright: 1
unit: mm
practice: {from: PRACTICE}
walls: {w: {length: 4000, height: 2500, kind: stud, lining: {thickness: 12.7}, studs: {species: spruce-pine-fir, first: 200, spacing: 400, width: 38}}}
cases:
  a: {wall: w, at: 400, level: wall, up: 1400, width: WIDE, height: 720, depth: 320, inside: INSIDE}
`
	widths := []int{750, 900, 1050, 1200}
	if testing.Short() {
		widths = []int{750, 1200}
	}
	judged := 0
	for _, practice := range []string{"inch-shop", "metric-shop", "saw-and-drill"} {
		for _, wide := range widths {
			for _, inside := range []string{"{shelves: {count: 1}, load: 50 kg}", "{up: [{open: {}, load: 40 kg}, {open: {}, load: 40 kg}]}", "{across: [{open: {}, load: 50 kg}, {open: {}, load: 50 kg}]}"} {
				text := strings.NewReplacer("PRACTICE", practice, "WIDE", fmt.Sprint(wide), "INSIDE", inside).Replace(one)
				r := planned(t, text)
				for _, f := range r.Findings.With(strength.CarcassJoint) {
					for _, p := range r.Assembly.Parts {
						if !strings.HasSuffix(f.At, "/"+p.Mark) || p.Role != part.Bottom && p.Role != part.FixedShelf {
							continue
						}
						judged++
						if f.Verdict == finding.Fails {
							t.Errorf("%s, %d wide, %s: %s", practice, wide, inside, f.Text)
						}
					}
				}
			}
		}
	}
	if judged < 18 {
		t.Errorf("only %d joints were judged", judged)
	}
}

// A load of a bank of drawers is of all of them together, however their number is said.
func TestLoadOfDrawers(t *testing.T) {
	for _, how := range []string{"{}", "{count: 3}", "{heights: [150, 200, 250]}", "{count: 3, heights: [150]}"} {
		r := planned(t, "stowright: 1\nunit: mm\ncases: {a: {width: 600, height: 750, depth: 500, inside: {load: 30 kg, drawers: "+how+"}}}\n")
		n := 0
		for _, b := range r.Assembly.Bays {
			if b.Kind == "drawers" {
				if n++; b.Load != 10*mass.Kilogram {
					t.Errorf("%s: %s holds %v", how, b.ID, b.Load)
				}
			}
		}
		if n != 3 {
			t.Errorf("%s: %d drawers", how, n)
		}
	}
}
