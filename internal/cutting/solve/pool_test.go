package solve_test

import (
	"context"
	"fmt"
	"reflect"
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

// TestFewSizes: where sheets and parts have few sizes, so that patterns are filled by dynamic programming, plans are sound and complete, and the
// same for the same seed.
func TestFewSizes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := func(label string, lo, hi int) length.Length {
			return length.Length(rapid.IntRange(lo, hi).Draw(t, label)) * mm
		}
		p := panel(22, 22, length.Length(rapid.IntRange(0, 2).Draw(t, "kerf"))*mm)
		p.Seed = rapid.Uint64().Draw(t, "seed")
		if rapid.Bool().Draw(t, "oblong") {
			p.Stocks[0].W = 17 * mm
		}
		if rapid.Bool().Draw(t, "two stocks") {
			second(p, 18, 15, cutting.Unlimited, 70)
		}
		for i := range rapid.IntRange(2, 12).Draw(t, "sizes") {
			p.Parts = append(p.Parts, cutting.Part{ID: fmt.Sprint("p", i), L: size("l", 3, 15), W: size("w", 3, 14), Count: rapid.IntRange(1, 4).Draw(t, "n"),
				Lay: rapid.SampledFrom([]cutting.Lay{cutting.Free, cutting.Free, cutting.Along, cutting.Across}).Draw(t, "lay")})
		}
		e := solve.Effort{Steps: 8000, Proof: 1_000_000}
		pl := solve.Solve(context.Background(), p, e, nil)
		sound(t, p, pl)
		if len(pl.Unplaced) > 0 {
			t.Errorf("%v not cut", pl.Unplaced)
		}
		if again := solve.Solve(context.Background(), p, e, nil); !reflect.DeepEqual(pl, again) {
			t.Errorf("another plan for the same seed")
		}
	})
}

// TestLessThanACutBesideRoughCuts: what rough cuts leave at the far edge is narrower than a kerf. Beside the last piece no
// rough cut has room then: it is cut to size from the sheet's edge.
func TestLessThanACutBesideRoughCuts(t *testing.T) {
	p := panel(1000, 700, 3*mm, [3]int{60, 63, 31}, [3]int{60, 60, 10}, [3]int{60, 60, 10}, [3]int{61, 139, 43})
	for i := range p.Parts {
		p.Parts[i].Lay = cutting.Free
	}
	p.Limits.Stages = 2
	p.Limits.Rough = &cutting.Rough{Kerf: 2 * mm, Allowance: 1 * mm}
	pl := solve.Solve(context.Background(), p, solve.Effort{Steps: 1500, Proof: 1_000_000}, nil)
	sound(t, p, pl)
	if len(pl.Unplaced) > 0 {
		t.Errorf("%v not cut", pl.Unplaced)
	}
	// One piece, for all the last millimetres that can be over beside it.
	for _, r := range []cutting.Rough{{}, {Kerf: 2 * mm}, {Kerf: 2 * mm, Allowance: mm}, {Kerf: 5 * mm}, {Kerf: 4 * mm, Allowance: 5 * mm}} {
		for over := length.Length(0); over <= 20*mm; over += mm / 2 {
			p := panel(1000, 700, 3*mm)
			p.Limits.Rough = &r
			p.Parts = []cutting.Part{{ID: "a", L: 1000*mm - over, W: 700 * mm, Count: 2, Lay: cutting.Along}}
			pl := solve.Solve(context.Background(), p, solve.First, nil)
			sound(t, p, pl)
			if len(pl.Unplaced) > 0 {
				t.Errorf("%v over: %v not cut", over, pl.Unplaced)
			}
		}
	}
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
