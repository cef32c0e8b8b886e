package plan_test

import (
	"context"
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/plan"
)

// What has to be locked is not counted as locked by drawers whose locks have nothing to catch behind; a bar locks a bank.
func TestOnlyWhatCatchesLocks(t *testing.T) {
	for drawers, locked := range map[string]bool{"{count: 3, lock: yes}": false, "{count: 3, lock: yes, one-at-a-time: yes}": true} {
		job := strings.Replace(`stowright: 1
unit: in
people: {children: yes, shortest: 60}
cases:
  a: {width: 24, height: 34 1/2, depth: 24, inside: {drawers: DRAWERS, goods: [poison]}}
goods:
  poison: {width: 3, depth: 3, height: 5, weighs: 1 lb, count: 10, hazards: [toxic], locked: yes}
`, "DRAWERS", drawers, 1)
		r := plan.Make(context.Background(), parse(t, "locks", []byte(job)), plan.Want{})
		holds, told := false, false
		for _, f := range r.Findings {
			holds = holds || f.Code == "lock-needed" && f.Verdict == finding.Holds
			told = told || f.Code == "drawers-no-catch"
		}
		if holds != locked || told == locked {
			t.Errorf("%s: lock-needed holds: %v, told that nothing catches: %v", drawers, holds, told)
		}
	}
}
