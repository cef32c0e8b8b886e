package plan_test

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/place"
	"stowright/internal/plan"
)

// What a finding says that something must be moved by is what clears it: cases of real boards,
// moved by it, no longer meet, and by 1/16 in less they still do (arithmetic).
func TestMoveThatIsAdvisedClears(t *testing.T) {
	const text = `
stowright: 1
practice: {from: inch-shop}
unit: in
walls: {north: {length: 200, height: 96, kind: stud, studs: {first: 8, spacing: 16}, lining: {thickness: 0.5},
  openings: {gate: {kind: door, from: 120, to: 150, head: 80, casing: 0, swings: out}},
  keep-clear: {socket: {kind: outlet, at: 75, up: 20, width: 4, height: 4, out: 30}}}}
cases:
  a: {wall: north, at: 10, width: 30, height: 34.5, depth: 24, inside: {shelves: {count: 1}}}
  b: {wall: north, at: %v, width: 30, height: 34.5, depth: 24, inside: {shelves: {count: 1}}}
  c: {wall: north, at: %v, width: 20, height: 34.5, depth: 24, inside: {shelves: {count: 1}}}
`
	try := func(b, c float64, code string) (float64, bool) {
		r := plan.Make(context.Background(), parse(t, "clear", fmt.Appendf(nil, text, b, c)), plan.Want{})
		for _, f := range r.Findings {
			if string(f.Code) == code {
				return f.Demand / 25.4, true
			}
		}
		return 0, false
	}
	for _, x := range []struct {
		code string
		at   func(by float64) (b, c float64)
		want float64
	}{
		{"clash", func(by float64) (float64, float64) { return 15 + by, 170 }, 25},
		{"blocks-opening", func(by float64) (float64, float64) { return 40, 140 + by }, 10},
		{"blocks-clear", func(by float64) (float64, float64) { return 40, 72 + by }, 5},
	} {
		b, c := x.at(0)
		if got, _ := try(b, c, x.code); got != x.want {
			t.Errorf("%s: %v in, want %v", x.code, got, x.want)
		}
		b, c = x.at(x.want)
		if _, still := try(b, c, x.code); still {
			t.Errorf("%s: still there when moved by %v in", x.code, x.want)
		}
		b, c = x.at(x.want - 1.0/16)
		if _, still := try(b, c, x.code); !still {
			t.Errorf("%s: gone when moved by 1/16 in less than %v in", x.code, x.want)
		}
	}
}

// A gap that is surveyed in two ways which do not agree, and a case in it that says another size.
func TestGapsAgree(t *testing.T) {
	const text = `
stowright: 1
practice: {from: inch-shop}
unit: in
walls: {north: {length: 100, height: 96, kind: masonry}}
standing:
  l: {wall: north, from: 0, to: 20, depth: 24, top: 34, board-measures: 0.7}
  r: {wall: north, from: %v, to: 80, depth: 24, top: 34, board-measures: 0.7}
cases: {a: {height: %s, depth: 24, in-gap: {left: l, right: r, widths: [20, 20 1/8]}, inside: {shelves: {count: 1}}}}
`
	for _, x := range []struct {
		right  float64
		stated string
		want   []finding.Code
	}{

		{40, "34", nil},
		{40, "30", []finding.Code{place.GapStated}},
		{30, "34", []finding.Code{place.GapDiffers}},
	} {
		r := plan.Make(context.Background(), parse(t, "gap", fmt.Appendf(nil, text, x.right, x.stated)), plan.Want{})
		var got []finding.Code
		for _, f := range r.Findings {
			if f.Code == place.GapStated || f.Code == place.GapDiffers {
				got = append(got, f.Code)
			}
		}
		if !slices.Equal(got, x.want) {
			t.Errorf("right neighbour at %v, %q: %v, want %v", x.right, x.stated, got, x.want)
		}
	}
}
