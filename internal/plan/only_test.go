package plan_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/strength"
)

// One case alone is judged as it stands in the whole job, among neighbours that hold it and that it holds: everything
// that is proved of it there is said of it here, in the same words.
func TestOneCaseIsJudgedAmongItsNeighbours(t *testing.T) {
	codes := map[finding.Code]bool{}
	for _, r := range strength.All() {
		for _, c := range r.Codes {
			codes[c] = true
		}
	}
	n, tips := 0, 0
	for _, name := range append(plantest.Examples(), "fennel-street") {
		all := plantest.Result(t, name)
		for _, o := range all.Assembly.Owners {
			if o.Standing || testing.Short() && name == "fennel-street" && o.ID != "knee drawers" {
				continue
			}
			one := plan.Make(context.Background(), all.Job, plan.Want{Owner: o.ID})
			proved := func(r plan.Result) (list []string) {
				for _, f := range r.Findings {
					for _, at := range append([]string{f.At}, f.Also...) {
						_, id, _ := strings.Cut(at, "/")
						id, _, _ = strings.Cut(id, "/")
						if codes[f.Code] && id == o.ID {
							list = append(list, at+" "+f.Verdict.String()+" "+f.Severity.String()+" "+f.Text)
							if f.Code == strength.TipOver {
								tips++
							}
						}
					}
				}
				slices.Sort(list)
				return list
			}
			want, got := proved(all), proved(one)
			n += len(want)
			if lacks, has := differ(want, got); len(lacks)+len(has) > 0 {
				t.Errorf("%s, %s alone:\n%s\nin the whole:\n%s", name, o.ID, strings.Join(has, "\n"), strings.Join(lacks, "\n"))
			}
			for _, p := range one.Assembly.Parts {
				if p.Owner != o.ID {
					t.Errorf("%s, %s alone has %s", name, o.ID, p.Mark)
				}
			}
		}
	}
	if n == 0 || tips == 0 {
		t.Errorf("%d verdicts, %d of tipping: nothing is compared", n, tips)
	}
}
