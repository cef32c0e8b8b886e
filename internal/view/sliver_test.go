package view

import (
	"math/rand/v2"
	"testing"

	"stowright/internal/geom"
	"stowright/internal/length"
)

// The sides of a detail's window leave no sliver of a board that they cut off: it is shown whole where that is near, or not at all; and a
// window that cuts nothing off so stays as it is.
func TestDetailsShowNoSlivers(t *testing.T) {
	const mm = length.MM
	moved, stayed := 0, 0
	for seed := range uint64(400) {
		r := rand.New(rand.NewPCG(seed, 17))
		at := func(lo, hi int) L { return L(lo+r.IntN(hi-lo)) * mm }
		window := geom.B(0, 0, 0, 84*mm, 60*mm, 74*mm)
		c := front(30 * mm)
		x, z := at(-60, 90), at(-60, 80)
		b := geom.B(x, 0, z, x+at(6, 120), 60*mm, z+at(6, 120))
		size := b.Size()
		p := Part{Size: [3]L{size.X, size.Y, size.Z}, Pose: geom.Pose{Origin: b.Min, U: geom.Right, V: geom.Back}}
		if got := p.Box(); got != b {
			t.Fatalf("%v is not %v", got, b)
		}
		got := trimmed([]Part{p}, c, window)
		if got == window {
			stayed++
		} else {
			moved++
		}
		seen := b.And(got)
		if seen.Empty() {
			continue
		}
		for _, axis := range []int{c.right, c.up} {
			if n := seen.Size().At(axis); n < sliver && n < b.Size().At(axis) {
				t.Errorf("seed %d: %v of %v shows, window %v", seed, n, b, got)
			}
		}
	}
	if moved < 40 || stayed < 40 {
		t.Errorf("%d windows moved, %d stayed", moved, stayed)
	}
}
