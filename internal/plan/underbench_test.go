package plan_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/plan"
)

// A case goes under a free bench between its legs and under its rails: of a bench of 1400 by 900 on legs of 70, 40 in
// from its ends, with a top of 36 and rails of 70, that is 1180 wide and some 794 high; 650 deep less 110 behind.
func TestACaseUnderAFreeBench(t *testing.T) {
	for _, c := range []struct {
		wide, high, deep int
		brace            string
		lacks            string
	}{
		{860, 780, 440, "panel", ""},
		{1170, 780, 440, "panel", ""},
		{1178, 780, 440, "panel", "1180 mm wide"},
		{860, 800, 440, "panel", "high under its rails"},
		{860, 780, 545, "panel", "540 mm deep"},
		{860, 780, 440, "shelf", "high under its rails"}, // there is a shelf in its way
	} {
		r := plan.Make(context.Background(), parse(t, "under", []byte(fmt.Sprintf(`stowright: 1
unit: mm
practice: {from: metric-shop}
cases:
  rack: {width: %d, height: %d, depth: %d, free: rolls, knee-space: bench, stands-on: {kind: castors}, top: full, exposed: [left, right], inside: {open: {}, load: 10 kg}}
counters:
  bench: {layers: [{board: birch-18}, {board: birch-18}], free: {length: 1400, legs: spruce-leg, brace: %s}, depth: 650, height: 900, work: standing-light}
`, c.wide, c.high, c.deep, c.brace))), plan.Want{})
		var bad []finding.Finding
		for _, f := range r.Findings {
			if f.Code == "knee-small" || f.Code == "clash" {
				bad = append(bad, f)
			}
		}
		switch {
		case c.lacks == "" && len(bad) > 0:
			t.Errorf("%+v: %v", c, bad)
		case c.lacks != "" && (len(bad) == 0 || !strings.Contains(fmt.Sprint(bad), c.lacks)):
			t.Errorf("%+v: %v", c, bad)
		}
	}
}
