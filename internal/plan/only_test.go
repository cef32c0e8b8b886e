package plan_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/shop"
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
			saysNothingOfOthers(t, name, o, all, one)
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

// saysNothingOfOthers holds that the set of one owner finds nothing against others or against goods that are kept elsewhere,
// unless it is named there too, joins it to nothing that is not there, and tells of its own stage alone.
func saysNothingOfOthers(t *testing.T, name string, o part.Owner, all, one plan.Result) {
	t.Helper()
	other, stands, here := map[string]bool{}, map[string]bool{}, map[string]bool{}
	for _, x := range all.Assembly.Owners {
		other[x.ID], stands[x.ID] = x.ID != o.ID, x.Standing
	}
	for _, s := range all.Stowed {
		here[s.Goods] = here[s.Goods] || s.Owner == o.ID
	}
	code := ""
	for _, p := range one.Assembly.Parts {
		code = p.Code() + "."
	}
	for _, f := range one.Findings {
		kind, id, _ := strings.Cut(f.At, "/")
		id, _, _ = strings.Cut(id, "/")
		text := strings.ToLower(f.Text)
		if strings.Contains(text, strings.ToLower(o.ID)) || o.Name != "" && strings.Contains(text, strings.ToLower(o.Name)) || strings.Contains(f.Text, code) {
			continue
		}
		if kind == "goods" && !here[id] || kind != "goods" && other[id] {
			t.Errorf("%s, %s alone tells of %s: %s", name, o.ID, f.At, f.Text)
		}
	}
	for _, h := range one.Assembly.Hardware {
		if id, joins := strings.CutPrefix(h.For, part.Joins); joins && !stands[id] {
			t.Errorf("%s, %s alone has screws for joining %s, which is not there", name, o.ID, id)
		}
	}
	for _, s := range one.Steps {
		if strings.Contains(s.Text, "for "+part.Joins) {
			t.Errorf("%s, %s alone: step %q", name, o.ID, s.Text)
		}
	}
	if len(one.Stages) > 1 {
		t.Errorf("%s, %s alone is of the stages %q", name, o.ID, one.Stages)
	}
}

// One case beside what stands already is joined to it and set up beside it in its own set too.
func TestOneCaseIsJoinedToWhatStands(t *testing.T) {
	job := parse(t, "job", []byte(`
stowright: 1
unit: mm
practice: {from: saw-and-drill}
walls: {gable: {length: 2600, height: 2300, kind: stud, lining: {name: drywall, thickness: 12.5}, studs: {first: 300, spacing: 600, width: 45}, floor: {falls-along: 0}}}
standing: {old cupboard: {wall: gable, kind: cupboard, from: 0, to: 800, depth: 450, top: 900, board-measures: 18}}
cases:
  beside: {wall: gable, at: 802, width: 700, height: 880, depth: 450, stands-on: {kind: toe, height: 90, recess: 60}, inside: {shelves: {count: 2}}}
`))
	for _, w := range []plan.Want{{}, {Owner: "beside"}} {
		r := plan.Make(context.Background(), job, w)
		if !slices.ContainsFunc(r.Steps, func(s shop.Step) bool {
			return strings.HasPrefix(s.Text, "Clamp ") && strings.Contains(s.Text, "old cupboard")
		}) {
			t.Errorf("%q: no step joins it to what stands", w.Owner)
		}
	}
}
