package packet_test

import (
	"slices"
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/plan/plantest"
)

// Paper calls what is built by its name and its letter: where the job's own word for it is another, nobody with the
// paper alone could tell which is meant. Two doors that meet have their marks, for a case may have two left ones.
func TestPaperCallsThingsByTheirNames(t *testing.T) {
	told, pairs := 0, 0
	for _, name := range []string{"fennel-street", "marram-point"} {
		r := plantest.Result(t, name)
		text := strings.ToLower(strings.Join(strings.Fields(words(set(t, name))), " "))
		for _, o := range r.Assembly.Owners {
			id := strings.ToLower(o.ID)
			other := func(s string) bool { return strings.Contains(strings.ToLower(s), id) }
			if o.Name == "" || !strings.Contains(id, " ") || other(o.Name) || slices.ContainsFunc(r.Job.File.Wishes, other) {
				continue
			}
			told++
			if strings.Contains(text, id) {
				at := strings.Index(text, id)
				t.Errorf("%s: the paper says %q for %s: %s", name, id, o.Name, text[max(0, at-60):min(len(text), at+60)])
			}
		}
		for _, x := range r.Findings {
			if x.Code != "one-at-a-time" || x.Verdict == finding.Holds {
				continue
			}
			if pairs++; strings.Count(x.Text, "(") < 2 {
				t.Errorf("%s: of which doors: %s", name, x.Text)
			}
		}
	}
	if told == 0 || pairs == 0 {
		t.Errorf("%d words of the job, %d pairs of doors", told, pairs)
	}
}
