package plan_test

import (
	"context"
	"regexp"
	"testing"

	"stowright/internal/plan"
)

// What a maker reads has each unit once and no sentence that stops short.
func TestTextReadsRight(t *testing.T) {
	bad := regexp.MustCompile(`\b(in in|mm mm)\b|, then \.|  `)
	for _, name := range []string{"one-case", "fennel-street", "hollis-court", "marram-point", "ostler-row"} {
		r := plan.Make(context.Background(), read(t, name), plan.Want{})
		for _, s := range r.Steps {
			if m := bad.FindString(s.Text); m != "" {
				t.Errorf("%s, step %d has %q: %s", name, s.N, m, s.Text)
			}
		}
		for _, l := range r.Bill.Lines {
			if m := bad.FindString(l.Name + " " + l.Need); m != "" {
				t.Errorf("%s, %s has %q", name, l.Name, m)
			}
		}
	}
}
