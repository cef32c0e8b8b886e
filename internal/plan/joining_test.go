package plan_test

import (
	"fmt"
	"slices"
	"testing"

	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan/plantest"
)

// unbored gives a sentence for every screw or bolt between cases that has no hole on its way: one
// through the side that it is driven from, and one for its thread or its end in the side that it
// goes into.
func unbored(a part.Assembly) (bad []string) {
	side := func(owner string, x length.Length) (near part.Part) {
		for _, p := range a.Parts {
			if p.Owner == owner && p.Role == part.Side && (near.Mark == "" || (p.Box().Min.X-x).Abs() < (near.Box().Min.X-x).Abs()) {
				near = p
			}
		}
		return near
	}
	bored := func(p part.Part, f part.Fixing) bool {
		return slices.ContainsFunc(p.Ops, func(o part.Op) bool {
			q := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size))
			return o.Kind == part.Hole && o.For == "joining screw" && (q.Y-f.At.Y).Abs() < length.MM && (q.Z-f.At.Z).Abs() < length.MM
		})
	}
	kind := map[string]string{}
	standing := map[string]bool{}
	for _, o := range a.Owners {
		kind[o.ID], standing[o.ID] = o.Kind, o.Standing
	}
	for _, f := range a.Fixings {
		if f.Kind != part.ToCase || kind[f.Owner] != "case" {
			continue
		}
		for _, id := range []string{f.Owner, f.Stud} {
			if standing[id] {
				continue
			}
			if p := side(id, f.At.X); p.Mark != "" && !bored(p, f) {
				bad = append(bad, fmt.Sprintf("%s to %s at %s: no hole in %s", f.Part, f.Stud, f.At.Z, p.Mark))
			}
		}
	}
	return bad
}

// astray gives a sentence for every joining hole of a side that no screw or bolt goes through: those of two
// sides coincide where the cases stand in the room.
func astray(a part.Assembly) (bad []string) {
	for _, p := range a.Parts {
		for _, o := range p.Ops {
			if o.Kind != part.Hole || o.For != "joining screw" {
				continue
			}
			q := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size))
			if !slices.ContainsFunc(a.Fixings, func(f part.Fixing) bool {
				return f.Kind == part.ToCase && (f.Part == p.Mark || f.Stud == p.Owner) && (q.Y-f.At.Y).Abs() < length.MM/10 && (q.Z-f.At.Z).Abs() < length.MM/10
			}) {
				bad = append(bad, fmt.Sprintf("%s: the joining hole at %s out, %s up meets none of its neighbour's", p.Mark, q.Y, q.Z))
			}
		}
	}
	return bad
}

// What joins neighbours has its holes in the sides of both, and no hole is without its other.
func TestJoiningHolesAreBored(t *testing.T) {
	for _, name := range shipped {
		a := plantest.Result(t, name).Assembly
		for _, s := range append(unbored(a), astray(a)...) {
			t.Errorf("%s: %s", name, s)
		}
	}
}
