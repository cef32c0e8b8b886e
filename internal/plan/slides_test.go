package plan_test

import (
	"fmt"
	"slices"
	"testing"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
)

// standsOut gives one sentence for every side slide whose member on the box would, the drawer shut, not lie beside its
// member in the case: both are bored by one pattern, so their screws lie in one line across.
func standsOut(a part.Assembly) (bad []string) {
	holes := map[string][]geom.Vec{} // by owner, of what stands still
	for _, p := range a.Parts {
		if p.Moves == "" {
			holes[p.Owner] = append(holes[p.Owner], slideHoles(p)...)
		}
	}
	for _, p := range a.Parts {
		if p.Moves == "" {
			continue
		}
		for _, at := range slideHoles(p) {
			if !slices.ContainsFunc(holes[p.Owner], func(q geom.Vec) bool {
				return q.Y == at.Y && q.Z == at.Z && (q.X-at.X).Abs() < 2*p.Size[2]+30*length.MM
			}) {
				bad = append(bad, fmt.Sprintf("%s: no screw of the case lies beside that at %v of its slide", p.Mark, at))
			}
		}
	}
	return bad
}

func slideHoles(p part.Part) (out []geom.Vec) {
	for _, o := range p.Ops {
		if o.For == "slide" {
			out = append(out, p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size)))
		}
	}
	return out
}

func TestSlidesShut(t *testing.T) {
	seen := 0
	everywhere(t, func(name string, r plan.Result) {
		for _, s := range standsOut(r.Assembly) {
			t.Errorf("%s: %s", name, s)
		}
		for _, p := range r.Assembly.Parts {
			seen += len(slideHoles(p))
		}
	})
	if seen == 0 {
		t.Error("no slide was seen")
	}
}
