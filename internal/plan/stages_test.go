package plan_test

import (
	"context"
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/length"
	"stowright/internal/plan"
)

// staged is two base cases under one counter; STAGE is the stage of the right one.
const staged = `
stowright: 1
practice: {from: inch-shop}
unit: in
stages: [{id: first}, {id: later}]
walls: {north: {length: 120, height: 96, kind: stud, studs: {first: 0.75, spacing: 16}, lining: {thickness: 0.5}}}
cases:
  left: {width: 30, height: 34.5, depth: 24, stage: first, inside: {shelves: {count: 1}}}
  right: {width: 30, height: 34.5, depth: 24, stage: STAGE, inside: {shelves: {count: 1}}}
runs: {low: {wall: north, start: 16, order: [{case: left}, {case: right}], stage: first}}
counters: {top: {over: [left, right], layers: [{board: maple-three-quarter}], stage: first}}
`

// A stage must stand alone: a counter of the first needs its cases.
func TestStageStandsAlone(t *testing.T) {
	for stage, want := range map[string]string{"first": "", "later": "top is built in stage first, but needs right, which is built in stage later."} {
		r := plan.Make(context.Background(), parse(t, "staged", []byte(strings.Replace(staged, "STAGE", stage, 1))), plan.Want{})
		got := ""
		for _, f := range r.Findings {
			if f.Code == plan.StageAlone {
				if f.Severity != finding.Error || f.At != "counter/top" {
					t.Errorf("%s at %s", f.Severity, f.At)
				}
				got += f.Text
			}
		}
		if got != want {
			t.Errorf("right in stage %s: %q, want %q", stage, got, want)
		}
	}
}

// What has been cut keeps its sizes when its family changes, and the plan says that it differs.
func TestKeptSizesStay(t *testing.T) {
	const text = `
stowright: 1
practice: {from: inch-shop}
unit: in
families: {garage: {depth: 24, top-line: 34.5, width-step: 3}}
cases:
  old: {family: garage, steps: 10, inside: {shelves: {count: 1}}}
  new: {family: garage, steps: 10, inside: {shelves: {count: 1}}}
kept: {old: {depth: 22, note: cut in spring}}
`
	r := plan.Make(context.Background(), parse(t, "kept", []byte(text)), plan.Want{})
	for _, o := range r.Assembly.Owners {
		if want := map[string]length.Length{"old": 22, "new": 24}[o.ID] * length.Inch; o.Box.Size().Y != want {
			t.Errorf("%s is %s deep, want %s", o.ID, o.Box.Size().Y, want)
		}
	}
	told := 0
	for _, f := range r.Findings {
		if f.Code == "family-break" && f.At == "case/old" && strings.Contains(f.Text, "depth") {
			told++
		}
	}
	if told != 1 {
		t.Errorf("the difference is told %d times: %v", told, r.Findings)
	}
}
