package plan_test

import (
	"slices"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/job"
	"stowright/internal/plan/plantest"
)

func parse(t testing.TB, name string, b []byte) job.Checked {
	t.Helper()
	return plantest.Parse(t, name, b)
}

// truths are the warnings that an example keeps, as a maker wants to read them; a comment in the job
// says why. A new one fails the test, and so does one that is gone.
func truths(example string) []string {
	return map[string][]string{
		"fennel-street":       {"no-bit case/shelves", "no-bit case/spray case", "no-bit case/trays", "no-bit case/tyres left", "no-bit case/tyres middle"},
		"hollis-court":        {"drawer-wide case/gap drawers/in-drawer-1", "drawer-wide case/gap drawers/in-drawer-2", "drawer-wide case/gap drawers/in-drawer-3"},
		"hollis-court-friend": {"drawer-wide case/wide drawers/in-drawer-1", "drawer-wide case/wide drawers/in-drawer-2", "drawer-wide case/wide drawers/in-drawer-3"},
		"ostler-row":          {"lift-index case/saw case/in/planer"},
	}[example]
}

// Every shipped example is a plan to build from: no error, nothing accepted away, no warning but
// its truths, every case built and every part cut, and five ratios to show that it was judged.
func TestExamples(t *testing.T) {
	for _, name := range []string{"one-case", "fennel-street", "hollis-court", "hollis-court-friend", "marram-point", "ostler-row"} {
		t.Run(name, func(t *testing.T) {
			r := plantest.Result(t, name)
			var warned []string
			for _, f := range r.Findings {
				switch {
				case f.Severity == finding.Error:
					t.Errorf("%s %s: %s", f.Code, f.At, f.Text)
				case f.Severity == finding.Warning && f.Verdict != finding.NotKnown:
					warned = append(warned, string(f.Code)+" "+f.At)
				}
				if f.Accepted != "" {
					t.Errorf("%s %s is accepted away", f.Code, f.At)
				}
			}
			slices.Sort(warned)
			if want := truths(name); !slices.Equal(warned, want) {
				t.Errorf("warnings\n%q\nwant\n%q", warned, want)
			}
			if n := len(r.Findings.Worst(5)); n != 5 {
				t.Errorf("%d worst ratios", n)
			}
			built := map[string]bool{}
			for _, p := range r.Assembly.Parts {
				built[p.Owner] = true
			}
			for _, x := range r.Job.Cases {
				if !built[x.ID] {
					t.Errorf("case %s has no parts", x.ID)
				}
			}
			if len(r.Plan.Unplaced) > 0 {
				t.Errorf("not cut: %+v", r.Plan.Unplaced)
			}
		})
	}
}
