package plan_test

import (
	"strings"
	"testing"

	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/shop"
)

// What has been screwed tight to studs does not move: a wall case that is to be drawn flush with one that hangs already
// has its first screws a turn loose until the step that joins the two, which has them driven tight. The batten under it goes on to the next case, and comes down,
// when all of its screws are in.
func TestWallCasesAreJoinedBeforeTheyAreTight(t *testing.T) {
	seen := 0
	everywhere(t, func(name string, r plan.Result) {
		hung, loose := map[string]bool{}, map[string]string{}
		waits := map[string]bool{} // cases that hang by some of their screws
		called := map[string]string{}
		for _, o := range r.Assembly.Owners {
			called[o.ID] = o.Name
		}
		for _, s := range r.Steps {
			if s.Phase != shop.Install {
				continue
			}
			if strings.HasPrefix(s.Text, "Hang ") {
				beside, first := false, false
				for _, f := range r.Assembly.Fixings {
					if f.Kind == part.ToCase && f.Row == "joining" {
						beside = beside || f.Owner == s.Owner && hung[f.Stud] || f.Stud == s.Owner && hung[f.Owner]
					}
					first = first || f.Owner == s.Owner && f.Row == "upper" && f.Kind != part.ToCase && f.Kind != part.NoStud
				}
				if strings.Contains(s.Text, " batten") {
					for id := range loose {
						t.Errorf("%s: the batten leaves %s, which hangs by screws a turn loose, for %s", name, id, s.Owner)
					}
					for id := range waits {
						t.Errorf("%s: the batten leaves %s, some of whose screws are not in, for %s", name, id, s.Owner)
					}
				}
				if strings.Contains(s.Text, " wait until it is joined") {
					waits[s.Owner] = true
				}
				if hung[s.Owner] = true; beside && first {
					if seen++; !strings.Contains(s.Text, " a turn loose") {
						t.Errorf("%s: %s is screwed tight before it is flush: %s", name, s.Owner, s.Text)
					}
					loose[s.Owner] = s.Text
				}
			}
			if strings.HasPrefix(s.Text, "Drive the other screws of ") {
				delete(waits, s.Owner)
			}
			if strings.HasPrefix(s.Text, "Clamp ") {
				for id := range loose {
					if strings.Contains(s.Text, " Now drive the screws of the upper rail of "+called[id]) {
						delete(loose, id)
					}
				}
			}
			if strings.HasPrefix(s.Text, "Take the batten down") || strings.HasPrefix(s.Text, "Drive the other screws of ") && loose[s.Owner] != "" {
				for id := range loose {
					t.Errorf("%s: %s is never driven tight", name, id)
				}
				if strings.HasPrefix(s.Text, "Take") && len(waits) > 0 {
					t.Errorf("%s: the batten comes down from under %v, whose screws are not all in", name, waits)
				}
			}
		}
	})
	if seen == 0 {
		t.Error("no wall case is joined to another")
	}
}
