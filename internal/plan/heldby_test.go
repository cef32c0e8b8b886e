package plan_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"stowright/internal/assemble"
	"stowright/internal/part"
	"stowright/internal/plan/plantest"
)

// Nobody is told to fix a case to the wall that only its neighbours hold; and where two are joined by screws of their own, the note says from
// what height to what height they are, as they are bored.
func TestWhatNeighboursHoldIsJoinedToThem(t *testing.T) {
	held, joined := 0, 0
	for _, name := range append(plantest.Examples(), plantest.Surveys()...) {
		r := plantest.Result(t, name)
		for _, o := range r.Assembly.Owners {
			mine, theirs := false, false
			for _, f := range r.Assembly.Fixings {
				mine = mine || f.Owner == o.ID && f.Kind != part.ToCase
				theirs = theirs || f.Kind == part.ToCase && (f.Owner == o.ID || f.Stud == o.ID)
			}
			if o.Kind != "case" || o.Moves || mine || !theirs {
				continue
			}
			held++
			for _, st := range r.Steps {
				if st.Owner == o.ID && len(st.Also) == 0 && strings.Contains(st.Caution, "fix it to the wall") {
					t.Errorf("%s: step %d: %s has no screw into the wall: %q", name, st.N, o.ID, st.Caution)
				}
			}
		}
		for _, f := range r.Findings.With(assemble.JoinByHand) {
			_, holes, ok := strings.Cut(f.Text, "join them, from ")
			if !ok {
				continue
			}
			joined++
			if !slices.ContainsFunc(r.Assembly.Fixings, func(a part.Fixing) bool {
				return a.Kind == part.ToCase && a.Row == "joining" && slices.ContainsFunc(r.Assembly.Fixings, func(b part.Fixing) bool {
					return b.Owner == a.Owner && b.Stud == a.Stud && b.Row == a.Row && holes == fmt.Sprintf("%s to %s up.", a.At.Z.In(r.Job.Print), b.At.Z.In(r.Job.Print))
				})
			}) {
				t.Errorf("%s: %q: no screws are there", name, f.Text)
			}
		}
	}
	if !testing.Short() && (held == 0 || joined == 0) {
		t.Errorf("%d cases are held by neighbours, %d pairs are joined by hand", held, joined)
	}
}
