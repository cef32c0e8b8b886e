package plan_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"stowright/internal/plan"
)

// unsummed gives a sentence for every line of what is used by measure whose figures, as they are read, do not add up: what
// the stage before has left and what is bought, less what is needed, is what is over.
func unsummed(r plan.Result) (bad []string, n int) {
	figure := func(t string) (v float64) {
		fmt.Sscanf(t, "%g", &v)
		return v
	}
	left := map[string]float64{}
	for _, l := range r.Bill.Lines {
		_, of, ok := strings.Cut(l.Unit, " of ")
		if l.Kind != "edging" && l.Kind != "finish" && l.Kind != "glue" || !ok || strings.HasPrefix(l.Need, "under") {
			continue
		}
		n++
		had, need, over := figure(l.Had), figure(l.Need), figure(l.Over)
		if had > 0 && math.Abs(had-min(left[l.Item], need)) > 0.051 {
			bad = append(bad, fmt.Sprintf("%s for stage %s: %s on hand, %g are left and %g are needed", l.Item, l.Stage, l.Had, left[l.Item], need))
		}
		if want := left[l.Item] + float64(l.Buy)*figure(of) - need; math.Abs(want-over) > 0.051 {
			bad = append(bad, fmt.Sprintf("%s for stage %s: %s over, by the figures %.1f", l.Item, l.Stage, l.Over, want))
		}
		left[l.Item] = over
	}
	return bad, n
}

// The shopping list adds up as it is read.
func TestWhatIsUsedByMeasureAddsUp(t *testing.T) {
	inExamples(t, shipped, unsummed, "nothing is used by measure")
}
