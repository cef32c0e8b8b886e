package plan_test

import (
	"context"
	"testing"

	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
)

// Trays on both sides of one partition, whose packing is screwed to it at the same heights.
const twoSides = `
stowright: 1
unit: mm
practice: {from: metric-shop}
cases:
  c:
    width: 1200
    height: 780
    depth: 560
    inside:
      across:
        - {trays: {count: 2, heights: [60, 350]}, doors: {count: 1, hinge: right}}
        - {trays: {count: 2, heights: [60, 350]}, doors: {count: 1, hinge: left}}
`

// Screws that are bored for on the spot, and come into a board from both of its faces further than it is thick, are not
// opposite each other (geometry).
func TestScrewsOfTwoSidesDoNotMeet(t *testing.T) {
	r := plan.Make(context.Background(), parse(t, "job.yaml", []byte(twoSides)), plan.Want{})
	parts := map[string]part.Part{}
	for _, p := range r.Assembly.Parts {
		parts[p.Mark] = p
	}
	type point struct {
		at   geom.Vec
		into string
		from geom.Dir
		deep length.Length
	}
	var all []point
	for _, j := range r.Assembly.Joints {
		if j.Kind != part.WoodScrew || joinery.Bored(parts[j.A], parts[j.B], j) {
			continue
		}
		h, _ := r.Job.Catalogue.Item(j.Fastener)
		s := joinery.Spots(parts[j.A], parts[j.B], j, h.Length, false)
		for _, v := range s.At {
			all = append(all, point{v, s.Into, s.From, h.Length - parts[s.Head].Size[2]})
		}
	}
	pairs := 0
	for i, a := range all {
		for _, b := range all[:i] {
			if a.into != b.into || a.from != b.from.Not() || a.deep+b.deep <= parts[a.into].Size[2] {
				continue
			}
			pairs++
			if d := a.at.Sub(b.at).With(a.from.Axis(), 0); max(d.X.Abs(), d.Y.Abs(), d.Z.Abs()) < 10*length.MM {
				t.Errorf("two screws meet in %s at %v", a.into, a.at)
			}
		}
	}
	if pairs == 0 {
		t.Error("nothing is screwed on from two sides")
	}
}
