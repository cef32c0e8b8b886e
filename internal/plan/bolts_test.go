package plan_test

import (
	"testing"

	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
)

// A bolt through the sides of two cases that were bored weeks apart has play in its holes: NDS 2018 12.1.3.2 has them 1/32 in to
// 1/16 in larger than the bolt.
func TestBoltsHavePlay(t *testing.T) {
	const least, most = 79 * length.MM / 100, 159 * length.MM / 100
	seen := 0
	everywhere(t, func(name string, r plan.Result) {
		for _, f := range r.Assembly.Fixings {
			h, _ := r.Job.Catalogue.Item(f.Screw)
			if h.Kind != "bolt" || f.Kind != part.ToCase {
				continue
			}
			for _, p := range r.Assembly.Parts {
				for _, o := range p.Ops {
					if o.Kind != part.Hole || o.For != part.JoiningBolt && o.For != part.BoltedRail || p.Owner != f.Owner && p.Owner != f.Stud {
						continue
					}
					if at := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size)); (at.Y-f.At.Y).Abs() > length.MM || (at.Z-f.At.Z).Abs() > length.MM {
						continue
					}
					if seen++; o.Dia < h.Dia+least || o.Dia > h.Dia+most {
						t.Errorf("%s: a hole of %v in %s for a bolt of %v", name, o.Dia, p.Mark, h.Dia)
					}
				}
			}
		}
	})
	if seen == 0 {
		t.Error("nothing is bolted")
	}
}
