package plan_test

import (
	"context"
	"fmt"
	"testing"

	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
)

// onHeads gives a sentence for every screw of a thing that comes down on the head of one which holds it to the wall, or
// whose hole is where that goes: heads of wall screws are up to 12 mm wide (washer heads of number 10: common practice,
// no source), and 2 mm of wood stay beside them.
func onHeads(a part.Assembly) (bad []string, seen int) {
	const half = 8 * length.MM
	for _, f := range a.Fixings {
		if f.Kind != part.ToStud && f.Kind != part.ToWall {
			continue
		}
		for _, p := range a.Parts {
			b := p.Box()
			if p.Owner != f.Owner || p.Moves != "" || f.At.X < b.Min.X || f.At.X > b.Max.X || f.At.Z < b.Min.Z || f.At.Z > b.Max.Z || b.Max.Y < f.At.Y-80*length.MM {
				continue // another, or far before it
			}
			seen++
			for _, o := range p.Ops {
				if o.Kind != part.Hole || p.Pose.Dir(o.Face.Normal()).Axis() != 1 {
					continue
				}
				at := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size))
				own := o.For == "screw to the wall" && at.X == f.At.X && at.Z == f.At.Z
				if d := at.Sub(f.At); !own && d.X.Abs() < half+o.Dia/2 && d.Z.Abs() < half+o.Dia/2 {
					bad = append(bad, fmt.Sprintf("%s: a hole (%s) at %s along, %s up is at the wall screw of %s at %s along, %s up", p.Mark, o.For,
						at.X.In(length.Inches), at.Z.In(length.Inches), f.Part, f.At.X.In(length.Inches), f.At.Z.In(length.Inches)))
				}
			}
		}
	}
	return bad, seen
}

// No screw comes down on the head of another.
func TestScrewsMissTheHeadsOfWallScrews(t *testing.T) {
	n := 0
	for _, name := range shipped {
		bad, seen := onHeads(plantest.Result(t, name).Assembly)
		n += seen
		for _, b := range bad {
			t.Errorf("%s: %s", name, b)
		}
	}
	if n == 0 {
		t.Error("no screw")
	}
}

// Wherever the studs are, and into masonry: the screws of a hook board go beside those of its frame, whatever its rails are of.
func TestHookBoardsMissTheHeadsOfWallScrews(t *testing.T) {
	n := 0
	for _, kind := range []string{"stud", "masonry"} {
		for _, spacer := range []string{"3/4", "1 1/4"} {
			for first := 1; first <= 16; first++ {
				wall := fmt.Sprintf("kind: stud, lining: {thickness: 1/2}, studs: {species: spruce-pine-fir, first: %d, spacing: 16, width: 1 1/2}", first)
				if kind == "masonry" {
					if wall = fmt.Sprintf("kind: masonry, lining: {thickness: %d/16}", first); first%4 != 0 {
						continue
					}
				}
				job := fmt.Sprintf(`stowright: 1
unit: in
walls:
  s: {length: 100, height: 98, %s, floor: {points: [{at: 0, height: 0}, {at: 100, height: 0}]}}
cases:
  v: {width: 36, height: 34 1/2, depth: 24, inside: {shelves: {count: 1}}, stands-on: {kind: toe, height: 4, recess: 3}}
runs: {r: {wall: s, start: 10, order: [{case: v}]}}
counters: {top: {over: [r], layers: [{board: birch-18}], height: 35 1/4}}
hutches: {hooks: {on: top, height: 20, board: birch-6, spacer: %s}}
`, wall, spacer)
				r := plan.Make(context.Background(), parse(t, "hooks", []byte(job)), plan.Want{})
				bad, seen := onHeads(r.Assembly)
				n += seen
				for _, b := range bad {
					t.Errorf("%s, spacer %s, %d: %s", kind, spacer, first, b)
				}
			}
		}
	}
	if n == 0 {
		t.Error("no screw")
	}
}
