package plan_test

import (
	"context"
	"regexp"
	"slices"
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/shop"
)

// The set of one stage sets up what it builds as the whole does, among what earlier stages built: it is joined to
// these, and what lies on it from before is not told as missing.
func TestAStageIsSetUpAmongThoseBeforeIt(t *testing.T) {
	number := regexp.MustCompile(`[Ss]tep \d+`)
	n, joined, own := 0, 0, 0
	for _, name := range []string{"fennel-street", "ostler-row"} {
		all := plantest.Result(t, name)
		for _, stage := range all.Stages {
			one := plan.Make(context.Background(), all.Job, plan.Want{Stage: stage})
			told := func(r plan.Result) (list []string) {
				of := map[string]string{}
				for _, o := range r.Assembly.Owners {
					of[o.ID] = o.Stage
				}
				for _, s := range r.Steps {
					if s.Phase == shop.Install && s.Owner != "" && of[s.Owner] == stage {
						_, text, ok := strings.Cut(s.Text, " begins here. ")
						if !ok {
							text = s.Text
						}
						list = append(list, number.ReplaceAllString(text, "step"))
						if strings.HasPrefix(text, "Clamp ") {
							joined++
						}
					}
				}
				slices.Sort(list)
				return list
			}
			for _, f := range one.Findings { // what is only of others, and need not be changed, stays with their stage
				kind, id, _ := strings.Cut(f.At, "/")
				id, _, _ = strings.Cut(id, "/")
				i := slices.IndexFunc(all.Assembly.Owners, func(o part.Owner) bool { return o.ID == id })
				if i < 0 || kind == "goods" || all.Assembly.Owners[i].Stage == stage || all.Assembly.Owners[i].Standing || f.Severity == finding.Error {
					own++
					continue
				}
				if !slices.ContainsFunc(all.Assembly.Owners, func(o part.Owner) bool {
					return o.Stage == stage && (strings.Contains(strings.ToLower(f.Text), strings.ToLower(o.ID)) || o.Name != "" && strings.Contains(strings.ToLower(f.Text), strings.ToLower(o.Name)))
				}) {
					t.Errorf("%s, stage %s tells of %s: %s", name, stage, f.At, f.Text)
				}
			}
			want, got := told(all), told(one)
			n += len(want)
			if lacks, has := differ(want, got); len(lacks)+len(has) > 0 {
				t.Errorf("%s, stage %s alone:\n%s\nin the whole:\n%s", name, stage, strings.Join(has, "\n"), strings.Join(lacks, "\n"))
			}
		}
	}
	if n < 20 || joined < 4 || own < 20 {
		t.Errorf("%d steps, %d that join, %d findings", n, joined, own)
	}
}
