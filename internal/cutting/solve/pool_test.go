package solve_test

import (
	"context"
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"stowright/internal/cutting"
	"stowright/internal/cutting/solve"
	"stowright/internal/length"
)

// TestManyAlike: a few sizes in large numbers, where sheets come from patterns, give sound and complete plans.
func TestManyAlike(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := func(label string, lo, hi int) length.Length {
			return length.Length(rapid.IntRange(lo, hi).Draw(t, label)) * mm
		}
		p := panel(1000, 700, 3*mm)
		p.Seed = rapid.Uint64().Draw(t, "seed")
		if rapid.Bool().Draw(t, "two stocks") {
			second(p, 800, 600, cutting.Unlimited, 70)
		}
		if rapid.Bool().Draw(t, "rough") {
			p.Limits.Rough = &cutting.Rough{Kerf: 2 * mm, Allowance: size("allowance", 0, 6)}
		}
		p.Limits.Stages = rapid.SampledFrom([]int{0, 2, 3}).Draw(t, "stages")
		for i := range rapid.IntRange(1, 5).Draw(t, "sizes") {
			p.Parts = append(p.Parts, cutting.Part{ID: fmt.Sprint("p", i), L: size("l", 60, 500), W: size("w", 60, 400), Count: rapid.IntRange(10, 60).Draw(t, "n"),
				Lay: rapid.SampledFrom([]cutting.Lay{cutting.Free, cutting.Along, cutting.Across}).Draw(t, "lay")})
		}
		pl := solve.Solve(context.Background(), p, solve.Effort{Steps: 1500, Proof: 1_000_000}, nil)
		sound(t, p, pl)
		if len(pl.Unplaced) > 0 {
			t.Errorf("%v not cut", pl.Unplaced)
		}
	})
}

// TestAQuarterOfAMillionParts: patterns are made once and cut many times over.
func TestAQuarterOfAMillionParts(t *testing.T) {
	if testing.Short() {
		t.Skip("long: plans of thousands of sheets")
	}
	p := panel(2440, 1220, 3*mm, [3]int{700, 560, 50_000}, [3]int{564, 540, 50_000}, [3]int{797, 196, 50_000}, [3]int{330, 120, 100_000})
	pl := solve.Solve(context.Background(), p, solve.First, nil)
	sound(t, p, pl)
	if len(pl.Unplaced) > 0 || pl.Totals.Sheets > pl.Bounds.Sheets*11/10 {
		t.Errorf("%d sheets, at least %d, not cut %v", pl.Totals.Sheets, pl.Bounds.Sheets, pl.Unplaced)
	}
}
