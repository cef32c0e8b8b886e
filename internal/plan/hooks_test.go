package plan_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/shop"
)

// What hangs on a hook board has a hook each, on the list and in a step: screwed into a plain board by screws that
// stay short of the wall, hooked into one with holes.
func TestHooksAreBoughtAndPutOn(t *testing.T) {
	const text = `
stowright: 1
unit: mm
practice: {from: metric-shop}
walls: {north: {length: 3000, height: 2400, kind: masonry}}
cases: {a: {height: 800, width: 900, depth: 600, inside: {shelves: {count: 1}}}}
runs: {low: {wall: north, start: 100, order: [{case: a}]}}
counters: {top: {over: [a], layers: [{board: birch-18}]}}
hutches: {h: {on: top, width: 880, height: 700, board: %s, goods: [pots, pans]}}
goods: {pots: {width: 100, depth: 50, height: 200, count: 5}, pans: {width: 100, depth: 50, height: 200, count: 4, hooks: 2}}
`
	for board, screws := range map[string]int{"birch-6": 26, "hook-board-6": 0} {
		c := plantest.Parse(t, "hooks", fmt.Appendf(nil, text, board))
		r := plan.Make(context.Background(), c, plan.Want{})
		hooks, driven := 0, 0
		for _, h := range r.Assembly.Hardware {
			if h.For != part.HangsOnBoard {
				continue
			}
			if h.Kind == "hook" {
				hooks += h.Count
				continue
			}
			driven += h.Count
			if b, _ := c.Catalogue.Board(board); h.Length > b.Thickness+19*length.MM-2*length.MM || h.Length < b.Thickness+4*length.MM {
				t.Errorf("%s: screws of %v in a board of %v with air behind it", board, h.Length, b.Thickness)
			}
		}
		if hooks != 13 || driven != screws {
			t.Errorf("%s: %d hooks and %d screws for 5 things on one hook each and 4 on two", board, hooks, driven)
		}
		put := 0
		for _, s := range r.Steps {
			for _, f := range s.Fits {
				if h, _ := c.Catalogue.Item(f.ID); s.Phase == shop.Install && h.Kind == "hook" {
					put += f.Count
				}
			}
		}
		if put != 13 {
			t.Errorf("%s: %d hooks are put on", board, put)
		}
	}
}

// screwedOn gives a sentence for every thing whose feet or castors are screwed on and lack screws, have some that
// come out of their board, or are nowhere told a place.
func screwedOn(r plan.Result) (bad []string, n int) {
	want := map[string]int{}
	thick := map[string]length.Length{}
	feet, base := map[string]int{}, map[string]bool{}
	for _, o := range r.Assembly.Owners {
		base[o.ID] = o.Kind == "base"
	}
	for _, f := range r.Assembly.Feet {
		h, _ := r.Job.Catalogue.Item(f.Hardware)
		if h.ScrewsEach == 0 || base[f.Owner] { // a foot under the edge of a base's rail has no room for its plate's screws
			continue
		}
		n++
		feet[f.Owner]++
		want[f.Owner] += h.ScrewsEach
		for _, p := range r.Assembly.Parts {
			if b := p.Box(); p.Owner == f.Owner && (b.Min.Z-f.At.Z).Abs() < length.MM && b.Min.X < f.At.X && f.At.X < b.Max.X && b.Min.Y < f.At.Y && f.At.Y < b.Max.Y {
				thick[f.Owner] = b.Size().Z
			}
		}
	}
	for o, n := range want {
		have := 0
		for _, h := range r.Assembly.Hardware {
			if h.Owner == o && h.For == part.StandsOn && h.Kind == "screw" {
				if have += h.Count; h.Length >= thick[o] {
					bad = append(bad, fmt.Sprintf("%s: screws of %v under a board of %v", o, h.Length, thick[o]))
				}
			}
		}
		if have != n {
			bad = append(bad, fmt.Sprintf("%s: %d screws for feet that take %d", o, have, n))
		}
		told := 0
		for _, s := range r.Steps {
			for _, p := range s.Points {
				k := 0
				switch {
				case s.Owner == o && strings.HasPrefix(p, "1 in the middle of the lower side of "):
					k = 1
				case s.Owner == o && strings.HasPrefix(p, "Under "):
					_, rest, _ := strings.Cut(p, ": ")
					fmt.Sscanf(rest, "%d,", &k)
				}
				told += k
			}
		}
		if own(r, o) && told != feet[o] {
			bad = append(bad, fmt.Sprintf("%s: %d of %d feet have a place", o, told, feet[o]))
		}
	}
	return bad, n
}

// own reports whether an owner is put together by steps of its own, not by those of one that is built alike.
func own(r plan.Result, o string) bool {
	for _, s := range r.Steps {
		if s.Owner == o && s.Phase == shop.Assemble {
			return true
		}
	}
	return false
}

func TestFeetAreScrewedOn(t *testing.T) {
	inExamples(t, append(plantest.Examples(), "hollis-court"), screwedOn, "no foot is screwed on")
	bad, n := screwedOn(planned(t, `
stowright: 1
unit: mm
practice: {from: metric-shop}
cases:
  feet: {width: 800, height: 860, depth: 560, stands-on: {kind: feet}}
  castors: {width: 600, height: 700, depth: 500, free: rolls, stands-on: {kind: castors}}
`))
	if n < 8 {
		t.Errorf("%d feet and castors are screwed on, want four of each", n)
	}
	for _, s := range bad {
		t.Error(s)
	}
}
