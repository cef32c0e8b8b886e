package plan_test

import (
	"context"
	"fmt"
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
goods: {pots: {width: 100, depth: 50, height: 200, count: 5}, pans: {width: 100, depth: 50, height: 200, count: 4}}
`
	for board, screws := range map[string]int{"birch-6": 18, "hook-board-6": 0} {
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
		if hooks != 9 || driven != screws {
			t.Errorf("%s: %d hooks and %d screws for 9 things", board, hooks, driven)
		}
		put := 0
		for _, s := range r.Steps {
			for _, f := range s.Fits {
				if h, _ := c.Catalogue.Item(f.ID); s.Phase == shop.Install && h.Kind == "hook" {
					put += f.Count
				}
			}
		}
		if put != 9 {
			t.Errorf("%s: %d hooks are put on", board, put)
		}
	}
}
