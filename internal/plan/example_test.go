package plan_test

import (
	"context"
	"testing"

	"stowright/examples"
	"stowright/internal/builtin"
	"stowright/internal/job"
	"stowright/internal/plan"
	"stowright/internal/source/json"
	"stowright/internal/source/yaml"
	"stowright/internal/stock"
)

// read reads a shipped example; a mistake in it fails the test.
func read(t testing.TB, name string) job.Checked {
	t.Helper()
	b, err := examples.FS.ReadFile(name + "/job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return parse(t, name, b)
}

func parse(t testing.TB, name string, b []byte) job.Checked {
	t.Helper()
	n, p := yaml.Read(name, b)
	shipped, q := json.Read("shipped tables", stock.Shipped())
	p.Add(q...)
	if len(p) > 0 {
		t.Fatal(p)
	}
	c, p := job.Read(job.Sources{Shipped: shipped, Job: n}, builtin.Fittings())
	for _, x := range p {
		t.Error(x)
	}
	if len(p) > 0 {
		t.FailNow()
	}
	return c
}

func TestExamples(t *testing.T) {
	for _, name := range []string{"one-case", "fennel-street", "hollis-court", "hollis-court-friend", "marram-point", "ostler-row"} {
		t.Run(name, func(t *testing.T) {
			r := plan.Make(context.Background(), read(t, name), plan.Want{})
			t.Logf("%d owners, %d parts, %d sheets, total %v", len(r.Assembly.Owners), len(r.Assembly.Parts), len(r.Plan.Sheets), r.Bill.Total)
			for _, f := range r.Findings {
				t.Logf("%s %s %s: %s (%s)", f.Severity, f.Code, f.At, f.Text, f.Hint)
			}
		})
	}
}
