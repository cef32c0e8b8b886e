package plan_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/shop"
)

// unturned gives a sentence for every board with pockets that a step brings in and does not say which way to
// turn; and how many such boards there are.
func unturned(r plan.Result) (bad []string, n int) {
	at := byMark(r.Assembly)
	for _, s := range r.Steps {
		if s.Phase != shop.Assemble {
			continue
		}
		for _, m := range s.New {
			if !slices.ContainsFunc(at[m].Ops, func(o part.Op) bool { return o.Kind == part.Pocket }) {
				continue
			}
			if n++; !strings.Contains(s.Whole(), "ockets ") {
				bad = append(bad, fmt.Sprintf("step %d does not say where the pockets of %s are: %s", s.N, m, s.Text))
			}
		}
	}
	return bad, n
}

func TestPocketsAreTurned(t *testing.T) {
	inExamples(t, []string{"one-case", "fennel-street"}, unturned, "no board has pockets")
}
