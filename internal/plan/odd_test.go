package plan_test

import (
	"context"
	"regexp"
	"runtime/debug"
	"strings"
	"testing"

	"stowright/internal/builtin"
	"stowright/internal/finding"
	"stowright/internal/job"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/source/yaml"
)

// oddRoom has every kind of thing whose sizes a job states by itself.
const oddRoom = `stowright: 1
unit: in
practice: {from: inch-shop}
walls:
  s: {length: 200, height: 98, kind: stud, lining: {thickness: 1/2}, studs: {species: spruce-pine-fir, first: 8, spacing: 16, width: 1 1/2}, floor: {points: [{at: 0, height: 0}, {at: 200, height: 1/4}]}}
cases:
  a: {width: 30, height: 34 1/2, depth: 24, stands-on: {kind: base}, inside: {shelves: {}}}
  b: {width: 31, height: 34 1/2, depth: 24, stands-on: {kind: base}, inside: {drawers: {}}}
  d: {width: 20, height: 36, depth: 23, stands-on: {kind: toe, height: 4, recess: 3}, inside: {trays: {lip: 3}}}
  w: {level: wall, width: 30, height: 28, depth: 12, hangs-by: {kind: cleat, width: 5}, inside: {across: [{width: 9}, {}]}}
runs:
  floor: {start: 2, order: [{case: a}, {knee: {width: 27, height: 25}}, {case: b}, {space: 10}]}
  up: {level: wall, start: 2.5, bottom-line: 60, order: [{case: w}]}
  other: {start: 120, order: [{case: d}], off-wall: 1}
bases: {x: {under: [floor], height: 3.5, recess: 2, rungs: 15}}
counters:
  c: {over: [floor], layers: [{board: birch-three-quarter}], edge: {stick: maple-strip, sides: [front, left]}, blocking: {width: 2.5, every: 16}, rails: {stick: maple-strip, height: 1.5, clear-under: 20}, over-front: 1.1, over-left: 0.5, over-right: 0.6, depth: 25}
  e: {wall: s, free: {at: 150, out: 30, length: 48, legs: two-by-four}, layers: [{board: birch-three-quarter}], depth: 26, height: 37}
hutches: {h: {on: c, from: 4, width: 32, height: 33, spacer: 0.9, hook-pitch: 1.2, brace: 12.5, light: {length: 17, cable-hole: 1.4}}}
`

// sizes that nobody means.
var oddSizes = []string{"-70", "-1", "0", "1 mm", "0.4", "7", "100", "700"}

// Each number of a job, by itself, becomes one that nobody means: the job is refused with a line, or planned; nothing
// panics, and what cannot be built is an error.
func TestOddSizesAreSaid(t *testing.T) {
	number := regexp.MustCompile(`(?:: |\[)(\d+(?:[ .]\d+)?(?:/\d+)?)[,}\]]`)
	head := strings.Index(oddRoom, "cases:")
	n, every := 0, 1
	if testing.Short() {
		every = 29
	}
	for _, m := range number.FindAllStringSubmatchIndex(oddRoom, -1) {
		if m[0] < head {
			continue
		}
		for _, odd := range oddSizes {
			if n++; n%every != 0 {
				continue
			}
			triedOut(t, oddRoom[:m[2]]+odd+oddRoom[m[3]:], oddRoom[max(0, m[2]-25):m[2]]+odd)
		}
	}
	if n < 200 {
		t.Errorf("only %d were tried", n)
	}
}

// What a slip of the pen makes of a hook board, a counter and a toe.
func TestSlipsOfThePenAreSaid(t *testing.T) {
	for _, x := range []struct{ from, to, says string }{
		{"hook-pitch: 1.2", "hook-pitch: 100", "hutch-small"},
		{"{stick: maple-strip, sides: [front, left]}", "{stick: spruce-leg, sides: [front, back]}", "counter-small"},
		{"over-left: 0.5", "over-left: -170", "nothing-under"},
		{"over-front: 1.1, over-left: 0.5, over-right: 0.6, depth: 25", "over-front: -30", "nothing-under"},
		{"blocking: {width: 2.5", "blocking: {width: -2", "out of range"},
		{"every: 16", "every: 1 mm", ""},
		{"height: 4, recess: 3", "height: -4, recess: 3", "out of range"},
		{"hook-pitch: 1.2", "hook-pitch: -1", "out of range"},
		{"kind: cleat, width: 5", "kind: cleat, width: -3", "out of range"},
	} {
		text := oddRoom
		if x.says == "counter-small" {
			text = strings.Replace(text, "depth: 25", "depth: 4", 1)
		}
		if !strings.Contains(text, x.from) {
			t.Fatal(x.from)
		}
		r, said := triedOut(t, strings.Replace(text, x.from, x.to, 1), x.to)
		for _, f := range r.Findings {
			if f.Severity == finding.Error {
				said += " " + string(f.Code)
			}
		}
		if !strings.Contains(said, x.says) {
			t.Errorf("%s: no %s in %s", x.to, x.says, said)
		}
	}
}

// triedOut reads and plans a job, and gives what is said against reading it.
func triedOut(t *testing.T, text, what string) (r plan.Result, said string) {
	t.Helper()
	defer func() {
		if x := recover(); x != nil {
			t.Errorf("%s: %v\n%s", what, x, debug.Stack())
		}
	}()
	n, p := yaml.Read("odd", []byte(text))
	if len(p) > 0 {
		t.Fatal(p)
	}
	c, p := job.Read(job.Sources{Shipped: plantest.Shipped(), Job: n}, builtin.Fittings())
	for _, x := range p {
		said += x.Text + "\n"
	}
	if len(p) == 0 {
		r = plan.Make(context.Background(), c, plan.Want{})
	}
	return r, said
}

// Boards so thin that no wood screw stays in them are glued, and it is said: no screw is bought that nobody sells, and
// none holds by a thread or two.
func TestThinBoardsAreNotScrewed(t *testing.T) {
	for _, x := range []struct{ from, to, says string }{
		{"layers: [{board: birch-three-quarter}], edge", "layers: [{board: birch-quarter}, {board: birch-quarter}], edge", "and stays in 7/32 in of upper layer"},
		{"a: {width: 30", "a: {board: ply-half, front-board: birch-quarter, end-panels: [left], width: 30", "left end panel: they are only glued"},
		{"start: 120, order: [{case: d}]", "start: 0.3, fill: left, order: [{case: d}]", "nothing holds the filler there"},
		{"start: 120", "start: 121", ""},
	} {
		if !strings.Contains(oddRoom, x.from) {
			t.Fatal(x.from)
		}
		r, said := triedOut(t, strings.Replace(oddRoom, x.from, x.to, 1), x.to)
		for _, h := range r.Assembly.Hardware {
			if _, ok := r.Job.Catalogue.Item(h.ID); !ok && h.Kind == "screw" {
				t.Errorf("%s: %d x %s %s, which is in no catalogue", x.to, h.Count, h.ID, h.For)
			}
		}
		for _, f := range r.Findings {
			said += "\n" + f.Text
		}
		if !strings.Contains(said, x.says) {
			t.Errorf("%s: nobody says %q", x.to, x.says)
		}
	}
}

// A start that what stands in the run makes void is said; what is on hand of a thing sold in lengths is not counted
// for two lengths.
func TestStartAndOnHandAreNotForgotten(t *testing.T) {
	head := oddRoom[:strings.Index(oddRoom, "cases:")]
	for _, x := range []struct {
		start string
		said  int
	}{{"start: 2, ", 1}, {"start: 30, ", 0}, {"", 0}, {"from: right, start: 2, ", 1}, {"from: right, start: 80, ", 0}} {
		r, said := triedOut(t, head+`cases:
  a: {width: 30, height: 34 1/2, depth: 24, inside: {open: {}}}
  b: {width: 30, height: 34 1/2, depth: 24, inside: {open: {}}}
standing: {old: {from: 60, to: 90, depth: 24, top: 34 1/2, board-measures: 0.7}}
runs: {floor: {`+x.start+`order: [{case: a}, {standing: old}, {case: b}]}}
`, x.start)
		if n := len(r.Findings.With("run-start")); n != x.said || said != "" {
			t.Errorf("%s: %d say that it does not start there, not %d; %s", x.start, n, x.said, said)
		}
	}
	for _, x := range []struct {
		deep            string
		lines, had, say int
	}{{"18", 2, 0, 1}, {"24", 1, 3, 0}} {
		r, said := triedOut(t, head+`cases:
  a: {width: 30, height: 34 1/2, depth: 24, inside: {drawers: {}}}
  b: {width: 30, height: 34 1/2, depth: `+x.deep+`, inside: {drawers: {}}}
hardware: {side-slide-100: {on-hand: 3}}
runs: {floor: {order: [{case: a}, {case: b}]}}
`, x.deep)
		lines, had := 0, 0
		for _, l := range r.Bill.Lines {
			if l.Item == "side-slide-100" {
				lines, had = lines+1, had+l.OnHand
			}
		}
		if n := len(r.Findings.With("on-hand-unsized")); lines != x.lines || had != x.had || n != x.say || said != "" {
			t.Errorf("%s in deep: %d lines take %d from what is on hand, %d say so; %s", x.deep, lines, had, n, said)
		}
	}
}
