package plan_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/part"
	"stowright/internal/plan"
)

// No step of a job that may be built tells a length below nought, for no tape shows one; "the lowest first" is said where some lie lower than others; and a divider that
// stands in slots is told by which slot, from the left.
func TestNoStepTellsWhatNoTapeShows(t *testing.T) {
	minus := regexp.MustCompile(`(^|[ (])[-−][0-9]`)
	slots := 0
	everywhere(t, func(name string, r plan.Result) {
		if slices.ContainsFunc(r.Findings, func(f finding.Finding) bool { return f.Severity == finding.Error && f.Verdict != finding.Holds }) {
			return
		}
		at := map[string]part.Part{}
		for _, p := range r.Assembly.Parts {
			at[p.Mark] = p
		}
		for _, s := range r.Steps {
			whole := s.Whole()
			if minus.MatchString(whole) {
				t.Errorf("%s: step %d: %s", name, s.N, whole)
			}
			slots += strings.Count(strings.ToLower(whole), ": in slot ")
			if !strings.Contains(s.Text, "ut what lies loose in its place") {
				continue
			}
			low, high := at[s.Parts[0]].Box().Min.Z, at[s.Parts[0]].Box().Min.Z
			for _, m := range s.Parts {
				low, high = min(low, at[m].Box().Min.Z), max(high, at[m].Box().Min.Z)
			}
			if strings.Contains(s.Text, "lowest first") != (high > low) {
				t.Errorf("%s: step %d: from %s to %s up: %s", name, s.N, low, high, s.Text)
			}
			for _, m := range s.Parts {
				if p := at[m]; p.Role == part.Divider && strings.Contains(s.Text, "upper slot") && !strings.Contains(whole, "("+m+"): In slot ") && !strings.Contains(whole, "("+m+"): in slot ") {
					t.Errorf("%s: step %d does not tell the slot of %s: %s", name, s.N, m, whole)
				}
			}
		}
	})
	if slots < 9 {
		t.Errorf("%d dividers in slots", slots)
	}
}
