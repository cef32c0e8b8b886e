package carcass_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"stowright/internal/carcass"
	"stowright/internal/carcass/carcasstest"
	"stowright/internal/geom"
	"stowright/internal/part"
)

// mirrored gives the box seen in a mirror across the case.
func mirrored(b geom.Box, w L) geom.Box {
	b.Min.X, b.Max.X = w-b.Max.X, w-b.Min.X
	return b
}

// TestMirroredDoor: a case with its door hinged on the other side is the mirror of the first:
// the same boxes across the case, and the same workings on every door at the same places.
func TestMirroredDoor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		env := carcasstest.Metric()
		w := L(rapid.Int64Range(300, 600).Draw(t, "width")) * mm
		h := L(rapid.Int64Range(400, 2000).Draw(t, "height")) * mm
		build := func(hinge string) part.Assembly {
			a, _ := carcass.Build(env, "c", carcass.Spec{Width: &w, Height: &h, Depth: size(400 * mm), Level: "floor", Stands: carcass.Stands{Kind: "toe"},
				Inside: carcass.Bay{Doors: &carcass.Doors{Count: 1, Hinge: hinge}}}, carcass.Site{})
			return a
		}
		a, b := build("left"), build("right")
		if len(a.Parts) != len(b.Parts) || len(a.Motions) != 1 || len(b.Motions) != 1 {
			t.Fatalf("%d and %d parts", len(a.Parts), len(b.Parts))
		}
		if got, want := b.Motions[0].Swept, mirrored(a.Motions[0].Swept, w); got != want {
			t.Errorf("swept %v, want %v", got, want)
		}
		if a.Motions[0].Swept.Min.X >= 0 || a.Motions[0].Pivot.X > w/2 {
			t.Errorf("a left-hinged door turns at %v and sweeps %v", a.Motions[0].Pivot, a.Motions[0].Swept)
		}
		for _, p := range a.Parts {
			i := slices.IndexFunc(b.Parts, func(q part.Part) bool { return q.Box() == mirrored(p.Box(), w) && q.Role == p.Role })
			if i < 0 {
				t.Errorf("%s has no mirror", p.Local)
				continue
			}
			q := b.Parts[i]
			if p.Size != q.Size || len(p.Ops) != len(q.Ops) {
				t.Errorf("%s: %v with %d workings, its mirror %s %v with %d", p.Local, p.Size, len(p.Ops), q.Local, q.Size, len(q.Ops))
			}
			if p.Role != part.Door {
				continue
			}
			for _, o := range p.Ops {
				o.Face = o.Face.Not()
				if !slices.Contains(q.Ops, o) {
					t.Errorf("the mirrored door lacks %+v", o)
				}
			}
		}
	})
}
