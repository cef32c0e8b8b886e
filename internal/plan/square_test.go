package plan_test

import (
	"fmt"
	"strings"
	"testing"

	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/shop"
)

// setToo gives a sentence for every case that is squared when the glue has long set: after blocks, packing or
// panels have been glued into it; and how many cases are squared. That glue sets within an hour or less is
// common practice, no source.
func setToo(r plan.Result) (bad []string, squared int) {
	at := byMark(r.Assembly)
	late := map[string]string{} // owner -> what is in it already
	for _, s := range r.Steps {
		if s.Phase != shop.Assemble {
			continue
		}
		if strings.HasPrefix(s.Text, "Square it before the glue sets") {
			if squared++; late[s.Owner] != "" {
				bad = append(bad, fmt.Sprintf("step %d: %s is squared after %s", s.N, s.Owner, late[s.Owner]))
			}
		}
		for _, m := range s.New {
			switch p := at[m]; p.Role {
			case part.Blocking, part.Spacer, part.EndPanel, part.EdgeStrip:
				if p.Moves == "" {
					late[p.Owner] = m
				}
			}
		}
	}
	return bad, squared
}

func TestSquaredBeforeTheGlueSets(t *testing.T) {
	squared := 0
	for _, name := range plantest.Examples() {
		bad, n := setToo(plantest.Result(t, name))
		for _, s := range bad {
			t.Errorf("%s: %s", name, s)
		}
		squared += n
	}
	if squared == 0 {
		t.Error("no case is squared")
	}
}
