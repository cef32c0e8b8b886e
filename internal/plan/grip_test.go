package plan_test

import (
	"testing"

	"stowright/internal/plan/plantest"
	"stowright/internal/rules"
)

// NDS 2018 12.1.4: a wood screw reaches six diameters into the last member, or nothing is published for what it
// carries across its length. Over all joints of all examples, each that reaches less is counted in what its
// owner is told.
func TestShortScrewsAreTold(t *testing.T) {
	screws, told := 0, 0
	names := []string{"one-case", "fennel-street", "hollis-court", "hollis-court-friend", "marram-point", "ostler-row"}
	for _, name := range names {
		res := plantest.Result(t, name)
		parts := byMark(res.Assembly)
		short := map[string]bool{}
		for _, j := range res.Assembly.Joints {
			h, ok := res.Job.Catalogue.Item(j.Fastener)
			if !ok || j.Count == 0 {
				continue
			}
			into, least, ok := rules.Reach(j, parts[j.A], parts[j.B], h.Dia, h.Length)
			if !ok {
				continue
			}
			screws += j.Count
			if least != 6*h.Dia {
				t.Fatalf("%s: least reach %v", h.ID, least)
			}
			if into < least {
				short[parts[j.A].Owner] = true
			}
		}
		for owner := range short {
			found := false
			for _, f := range res.Findings.With(rules.ShortScrew) {
				found = found || f.At == "case/"+owner || f.At == "counter/"+owner || f.At == "hutch/"+owner || f.At == "base/"+owner
			}
			if !found {
				t.Errorf("%s: screws of %s are short, and nothing says so", name, owner)
			} else {
				told++
			}
		}
	}
	if screws < 1000 || told < 5 {
		t.Errorf("%d screws in joints, %d owners told", screws, told)
	}
}
