package plan_test

import (
	"strings"
	"testing"

	"stowright/internal/plan"
)

// Two ways of building over one bench stand in one job: a hook board up to the window, or wall cases.
const twoWays = `
stowright: 1
unit: in
practice: {from: inch-shop}
walls:
  w: {length: 120, height: 96, kind: stud, lining: {thickness: 1/2}, studs: {species: spruce-pine-fir, first: 16, spacing: 16, width: 1 1/2}}
cases:
  a: {width: 30, height: 34 1/2, depth: 24, inside: {shelves: {count: 1}}}
  b: {width: 30, height: 34 1/2, depth: 24, inside: {shelves: {count: 1}}}
  u: {pattern: wall-shelves, width: 30, height: 30, depth: 13, inside: {load: 20 lb, goods: [cans]}}
runs:
  f: {wall: w, start: 12, order: [{case: a}, {case: b}]}
  upper: {wall: w, level: wall, start: 12, bottom-line: 54, order: [{case: u}]}
counters:
  bench: {over: [f], layers: [{board: birch-three-quarter}, {board: birch-three-quarter}]}
hutches:
  hooks: {on: bench, height: 30, board: hook-board-quarter, goods: [hammers]}
goods:
  hammers: {width: 5, depth: 2, height: 13, weighs: 2 lb, count: 2}
  cans: {like: quart-can, count: 2}
not-built: [LEFT]
`

// One word swaps them: the rest is built as before, and nothing is said, cut, bought or hung of what is left out.
func TestOneEditSwapsAHutchForWallCases(t *testing.T) {
	made := map[string]plan.Result{}
	for _, left := range []string{"upper", "hooks"} {
		made[left] = planned(t, strings.Replace(twoWays, "LEFT", left, 1))
	}
	for left, gone := range map[string]string{"upper": "u", "hooks": "hooks"} {
		r := made[left]
		for _, o := range r.Assembly.Owners {
			if o.ID == gone {
				t.Errorf("without %s there is %s", left, o.ID)
			}
		}
		for _, f := range r.Findings {
			if _, id, _ := strings.Cut(f.At, "/"); id == gone || strings.HasPrefix(id, gone+"/") {
				t.Errorf("without %s: %s [%s]", left, f.Text, f.Code)
			}
		}
		if strings.Contains(string(r.Job.Homeless()[0]), map[string]string{"upper": "hammers", "hooks": "cans"}[left]) {
			t.Errorf("without %s: %v have no place", left, r.Job.Homeless())
		}
	}
	count := func(r plan.Result, owner string) (n int) {
		for _, p := range r.Assembly.Parts {
			if p.Owner == owner {
				n++
			}
		}
		return n
	}
	for owner, want := range map[string]bool{"a": true, "b": true, "bench": true} {
		if x, y := count(made["upper"], owner), count(made["hooks"], owner); (x > 0) != want || x != y {
			t.Errorf("%s has %d parts in one way and %d in the other", owner, x, y)
		}
	}
	if count(made["upper"], "hooks") == 0 || count(made["hooks"], "u") == 0 {
		t.Error("what is built has no parts")
	}
}

// A base that is left out takes nothing from the cases that would stand on it, and a case that is left out leaves the
// place of its end panels too.
func TestLeftOutLeavesTheRestAsItIs(t *testing.T) {
	const job = `
stowright: 1
unit: in
practice: {from: inch-shop}
walls: {w: {length: 160, height: 98, kind: stud, studs: {first: 8, spacing: 16}}}
cases:
  a: {width: 30, height: 34 1/2, depth: 18, stands-on: {kind: toe, height: 4, recess: 3}, end-panels: [left, right]}
  b: {width: 30, height: 34 1/2, depth: 18}
runs: {r: {wall: w, start: 10, order: [{case: a}, {case: b}]}}
bases: {below: {under: [a], stock: two-by-four-treated, height: 3 1/2}}
not-built: [LEFT]
`
	made := func(left string) plan.Result { return planned(t, strings.Replace(job, "LEFT", left, 1)) }
	toes := 0
	r := made("below")
	for _, p := range r.Assembly.Parts {
		if p.Owner == "a" && p.Name == "toe board" {
			toes++
		}
	}
	if toes != 1 {
		t.Errorf("without its base the case has %d toe boards, want 1", toes)
	}
	without := made("a, below")
	if x, y := r.Room.Seat("b").Box.Min.X, without.Room.Seat("b").Box.Min.X; x != y {
		t.Errorf("beside a the case b stands at %v, without it at %v", x, y)
	}
}
