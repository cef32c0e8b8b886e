package plan_test

import (
	"context"
	"testing"

	"stowright/internal/length"
	"stowright/internal/plan"
)

// A case on its own sides is packed up to the level line wherever the floor falls (arithmetic:
// 1 in along 100 in and 1/4 in a foot outwards).
func TestCaseOnItsSidesIsShimmed(t *testing.T) {
	const text = `
stowright: 1
practice: {from: inch-shop}
unit: in
walls: {north: {length: 100, height: 96, floor: {falls-along: 1, falls-out: {by: 1/4, in: 12}}}}
cases: {a: {wall: north, at: 20, width: 30, height: 34.5, depth: 24, stands-on: {kind: toe, height: 4, recess: 3}, inside: {shelves: {count: 1}}}}
`
	a := plan.Make(context.Background(), parse(t, "shims", []byte(text)), plan.Want{}).Assembly
	if len(a.Feet) != 4 {
		t.Fatalf("%d shims, want 4", len(a.Feet))
	}
	for _, f := range a.Feet {
		want := (f.At.X-20*length.Inch)/100 - f.At.Y/48 // the high point is at its left rear corner
		if d := f.Height - want; f.Kind != "shim" || d.Abs() > length.MM/2 {
			t.Errorf("%s at %s, %s: %s, want %s", f.Kind, f.At.X, f.At.Y, f.Height, want)
		}
	}
}
