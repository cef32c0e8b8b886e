package plan_test

import (
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/plan"
)

// A shop without a saw is told, one with a hand saw cuts by its kerf, and a kerf that nobody stated is said to be assumed.
func TestNoSaw(t *testing.T) {
	const one = "stowright: 1\nunit: in\npractice: {from: saw-and-drill, tools: {circular saw: nullTOOLS}}\ncases:\n  a: {width: 24, height: 30, depth: 12, inside: {shelves: {count: 1}}}\n"
	for tools, want := range map[string]finding.Verdict{", hand saw: null": finding.Fails, "": finding.NotKnown, ", hand saw: {kerf: 0.04}": finding.None} {
		r := planned(t, strings.Replace(one, "TOOLS", tools, 1))
		said := r.Findings.With(plan.NoSaw)
		if len(said) != min(1, int(want)) || len(said) == 1 && said[0].Verdict != want {
			t.Errorf("%q: %v", tools, said)
		}
		for _, s := range r.Plan.Sheets {
			for _, c := range s.Cuts {
				if c.Kerf == 0 {
					t.Errorf("%q: a cut takes nothing", tools)
				}
			}
		}
	}
}
