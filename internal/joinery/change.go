package joinery

import (
	"fmt"
	"slices"
	"strings"

	"stowright/internal/finding"
)

// Change is a joint that could not go where it was wanted.
type Change struct {
	From, To string // kinds of joint
	Why      string
	A, B     string // names of the boards
	Shows    bool   // nothing hides there: screw heads are seen
}

// Tell gives one finding for every change of a kind, naming the joints, so that a case of many
// joints says a thing once.
func Tell(at string, list []Change) finding.List {
	var out finding.List
	for i, c := range list {
		same := func(d Change) bool {
			return c.From == d.From && c.To == d.To && c.Why == d.Why && c.Shows == d.Shows
		}
		if slices.ContainsFunc(list[:i], same) {
			continue
		}
		var names []string
		for _, d := range list[i:] {
			if s := d.B + " to " + d.A; same(d) && !slices.Contains(names, s) {
				names = append(names, s)
			}
		}
		f := finding.Finding{
			Code: JointElsewhere, Severity: finding.Note, At: at,
			Text: fmt.Sprintf("%s instead of %s (%s): %s", c.To, c.From, c.Why, strings.Join(names, ", ")),
			Hint: "state another joint for the case, or leave it so", Source: "common practice, no source",
		}
		if c.Shows {
			f.Code, f.Severity = JointShows, finding.Warning
			f.Text = fmt.Sprintf("no joint of this shop hides (%s), so screw heads will be seen: %s", c.Why, strings.Join(names, ", "))
			f.Hint = "plug the heads, add an end panel, or own a dowel jig"
		}
		out.Add(f)
	}
	return out
}
