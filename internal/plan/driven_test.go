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

// undriven gives a sentence for every screw to the wall that a fixed board of its case stands before: no driver comes
// to it. A wall's half of a cleat is fixed before its case hangs there.
func undriven(a part.Assembly) (bad []string, seen int) {
	for _, f := range a.Fixings {
		if f.Kind != part.ToStud && f.Kind != part.ToWall {
			continue
		}
		var rail part.Part
		for _, p := range a.Parts {
			if p.Mark == f.Part {
				rail = p
			}
		}
		if rail.Role == part.WallCleat {
			continue
		}
		seen++
		for _, p := range a.Parts {
			b := p.Box()
			if p.Owner == rail.Owner && p.Mark != rail.Mark && p.Moves == "" && !p.Removable && p.Role != part.BackPanel && p.Role != part.HangRail && p.Role != part.Side && b.Max.Y <= rail.Box().Max.Y &&
				b.Max.Y-b.Min.Y > 60*length.MM && b.Min.X-8*length.MM < f.At.X && f.At.X < b.Max.X+8*length.MM && b.Min.Z-8*length.MM < f.At.Z && f.At.Z < b.Max.Z+8*length.MM {
				bad = append(bad, fmt.Sprintf("%s: the screw at %s along, %s up is behind %s", f.Part, f.At.X, f.At.Z, p.Mark))
			}
		}
	}
	return bad, seen
}

// Every screw to a wall is reached from within its case.
func TestWallScrewsAreReached(t *testing.T) {
	n := 0
	for _, name := range shipped {
		bad, seen := undriven(plantest.Result(t, name).Assembly)
		n += seen
		for _, b := range bad {
			t.Errorf("%s: %s", name, b)
		}
	}
	if n == 0 {
		t.Error("no screw")
	}
}

// A stud behind a partition takes no screw, and a row that a fixed shelf hides goes where the driver comes, or is told.
func TestScrewsBehindBoardsAreLeftOut(t *testing.T) {
	for _, inside := range []string{"{across: [{shelves: {}}, {shelves: {}}]}", "{up: [{height: 1 1/4}, {shelves: {}}, {height: 1 1/4}]}"} {
		for _, at := range []string{"5 1/2", "6", "7"} {
			job := fmt.Sprintf(`stowright: 1
unit: in
walls:
  s: {length: 100, height: 98, kind: stud, lining: {thickness: 1/2}, studs: {species: spruce-pine-fir, first: 8, spacing: 16, width: 1 1/2}, floor: {points: [{at: 0, height: 0}, {at: 100, height: 0}]}}
cases:
  u: {level: wall, width: 36, height: 30, depth: 12, wall: s, at: %s, up: 54, inside: %s}
  v: {width: 36, height: 34 1/2, depth: 24, wall: s, at: %s, stands-on: {kind: toe, height: 4, recess: 3}, inside: %s}
`, at, inside, at, inside)
			r := plan.Make(context.Background(), parse(t, "reach", []byte(job)), plan.Want{})
			bad, _ := undriven(r.Assembly)
			for _, b := range bad {
				t.Errorf("%s at %s: %s", inside, at, b)
			}
		}
	}
}

// The head of a bolt through a case's side has room beside what slides out past it.
func TestBoltsClearWhatSlides(t *testing.T) {
	const head, half = 5 * length.MM, 6 * length.MM // a flat head of M8: common practice, no source
	seen := 0
	for _, name := range shipped {
		a := plantest.Result(t, name).Assembly
		for _, f := range a.Fixings {
			if f.Row != part.BoltedRail {
				continue
			}
			seen++
			for _, side := range a.Parts {
				s := side.Box()
				if side.Owner != f.Stud || side.Role != part.Side || s.Min.X > f.At.X+length.MM || s.Max.X < f.At.X-length.MM {
					continue
				}
				in := s.Max.X
				if f.At.X > (s.Min.X+s.Max.X)/2 { // its outer face is at the right
					in = s.Min.X - head
				}
				for _, p := range a.Parts {
					b := p.Box()
					if p.Owner == f.Stud && p.Moves != "" && p.Role != part.Door && b.Min.X < in+head && b.Max.X > in && b.Min.Z < f.At.Z+half && b.Max.Z > f.At.Z-half && b.Max.Y > f.At.Y-half {
						t.Errorf("%s: %s runs past the bolt at %s along, %s up", name, p.Mark, f.At.X, f.At.Z)
					}
				}
			}
		}
	}
	if seen == 0 {
		t.Error("no bolt")
	}
}
