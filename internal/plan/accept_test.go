package plan_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"stowright/examples"
	"stowright/internal/builtin"
	"stowright/internal/finding"
	"stowright/internal/job"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/source/yaml"
	"stowright/internal/strength"
)

// What the job accepts is no failure to mend any more, and says why; a place that holds others
// takes them with it, and what is not there is said.
func TestAccepted(t *testing.T) {
	b, err := examples.FS.ReadFile("one-case/job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	wide := strings.Replace(string(b), "width: 30", "width: 42", 1) // too wide for its shelves
	r := plan.Make(context.Background(), parse(t, "accepts", []byte(wide+`
accept:
  - {finding: shelf-sag, at: case/shelves/A.shelf1, because: it holds empty boxes}
  - {finding: shelf-sag, at: case/nowhere, because: it was mended}
`)), plan.Want{})
	accepted, left := 0, 0
	for _, f := range r.Findings.With(strength.ShelfSag) {
		switch {
		case f.Accepted != "":
			accepted++
			if f.At != "case/shelves/A.shelf1" || f.Severity != finding.Note || f.Verdict != finding.Fails || f.Accepted != "it holds empty boxes" {
				t.Errorf("%+v", f)
			}
		case f.Verdict == finding.Fails:
			left++
		}
	}
	if accepted != 1 || left == 0 {
		t.Errorf("%d accepted, %d left", accepted, left)
	}
	if l := r.Findings.With(plan.AcceptsNothing); len(l) != 1 || l[0].At != "case/nowhere" {
		t.Errorf("%+v", l)
	}
	r = plan.Make(context.Background(), parse(t, "accepts", []byte(wide+`
accept:
  - {finding: shelf-sag, at: case/shelves, because: all of it holds empty boxes}
`)), plan.Want{})
	for _, f := range r.Findings.With(strength.ShelfSag) {
		if f.Verdict == finding.Fails && f.Accepted == "" {
			t.Errorf("the case is accepted, and this is not: %+v", f)
		}
	}
}

// What hangs and what could fall is refused, with the line.
func TestNeverAccepted(t *testing.T) {
	b, _ := examples.FS.ReadFile("one-case/job.yaml")
	for _, code := range job.NeverAccepted() {
		text := string(b) + "\naccept:\n  - {finding: " + code + ", at: case/shelves, because: it has always held}\n"
		n, _ := yaml.Read("job.yaml", []byte(text))
		_, p := job.Read(job.Sources{Shipped: plantest.Shipped(), Job: n}, builtin.Fittings())
		if len(p) != 1 || !strings.Contains(p[0].Text, "cannot be accepted") || !strings.Contains(p[0].Excerpt(), "finding: "+code) {
			t.Errorf("%s: %v", code, p)
		}
	}
	for _, rule := range strength.All() {
		for _, c := range rule.Codes {
			if strength.Acceptable(c) == slices.Contains(job.NeverAccepted(), string(c)) {
				t.Errorf("the job and the checks disagree on whether %s can be accepted", c)
			}
		}
	}
}
