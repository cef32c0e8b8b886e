package plan_test

import (
	"context"
	"strings"
	"testing"

	"stowright/internal/cutlist"
	"stowright/internal/cutting/solve"
	"stowright/internal/finding"
	"stowright/internal/length"
	"stowright/internal/money"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
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

// A stage must stand alone: cases of the first need the base that they stand on.
func TestStageStandsOnItsBase(t *testing.T) {
	for stage, want := range map[string]int{"first": 0, "later": 2} {
		text := strings.NewReplacer("STAGE", "first", "counters: {top: {over: [left, right], layers: [{board: maple-three-quarter}], stage: first}}", "bases: {plinth: {under: [low], stage: "+stage+"}}", "inside:", "stands-on: {kind: base}, inside:").Replace(staged)
		r := plan.Make(context.Background(), parse(t, "based", []byte(text)), plan.Want{})
		n := 0
		for _, f := range r.Findings {
			if f.Code == plan.StageAlone && strings.Contains(f.Text, "needs plinth, which is built in stage later") {
				n++
			}
		}
		if n != want {
			t.Errorf("base of stage %s: said of %d cases, want %d", stage, n, want)
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

// Stages cost what is bought for them, all of them the whole; each of them alone is the same part of the whole; what one
// stage leaves of a sheet or a stick serves a later one, once, and is no larger than what was left.
func TestStagesAddUp(t *testing.T) {
	names := []string{"ostler-row", "fennel-street"}
	if testing.Short() {
		names = names[:1]
	}
	for _, name := range names {
		whole := plantest.Result(t, name)
		job := whole.Job
		sum, sheets, lines := money.Amount(0), 0, 0
		for i, s := range whole.Stages {
			one := plan.Make(context.Background(), job, plan.Want{Stage: s})
			if one.Bill.Total != whole.Bill.Stages[i].Cost {
				t.Errorf("%s, stage %s alone costs %s, as part of the whole %s", name, s, one.Bill.Total, whole.Bill.Stages[i].Cost)
			}
			for _, o := range one.Assembly.Owners {
				if !o.Standing && o.Stage != s {
					t.Errorf("%s: %s of stage %s is in stage %s", name, o.ID, o.Stage, s)
				}
			}
			sum, sheets, lines = sum+one.Bill.Total, sheets+len(one.Plan.Sheets), lines+len(one.Bill.Lines)
			if len(one.Findings) == 0 || len(one.Steps) == 0 {
				t.Errorf("%s: stage %s has no findings or no steps", name, s)
			}
		}
		if sum != whole.Bill.Total || sheets != len(whole.Plan.Sheets) || lines != len(whole.Bill.Lines) {
			t.Errorf("%s: stages cost %s on %d sheets in %d lines, the whole %s, %d, %d", name, sum, sheets, lines, whole.Bill.Total, len(whole.Plan.Sheets), len(whole.Bill.Lines))
		}
		for i, s := range whole.Plan.Sheets {
			for _, m := range whole.Marks[i] {
				for _, p := range whole.Assembly.Parts {
					if p.Mark == m && p.Stock != cutlist.Board(s.Stock) {
						t.Errorf("%s: %s of %s is on a sheet of %s", name, m, p.Stock, s.Stock)
					}
				}
			}
		}
	}
}

// Two stages of one case each, small enough that a sheet is left: the second buys nothing that the first has left.
func TestLeftOversServeTheNextStage(t *testing.T) {
	const text = `
stowright: 1
practice: {from: inch-shop}
unit: in
stages: [{id: first}, {id: later}]
boards: {maple-three-quarter: {price: 100}, pine-three-quarter: {price: 10}, ply-quarter: {price: 1}}
cases:
  a: {width: 24, height: 30, depth: 12, stage: first, joint: pocket-screw, inside: {shelves: {count: 1}}}
  b: {width: 12, height: 16, depth: 8, stage: later, inside: {shelves: {count: 1}}}
`
	r := plan.Make(context.Background(), parse(t, "left", []byte(text)), plan.Want{})
	if len(r.Bill.Stages) != 2 {
		t.Fatal(r.Bill.Stages)
	}
	for _, l := range r.Bill.Lines {
		if l.Kind == "sheet" && l.Stage == "later" {
			t.Errorf("the second stage buys %d of %s", l.Buy, l.Item)
		}
	}
	over := 0
	for _, s := range r.Plan.Sheets {
		if !cutlist.LeftOver(s.Stock) {
			continue
		}
		over++
		from := false
		for _, x := range r.Plan.Sheets {
			for _, o := range x.Offcuts {
				from = from || !o.Scrap && cutlist.Board(x.Stock) == cutlist.Board(s.Stock) && o.L == s.L && o.W == s.W && x.Grain == s.Grain
			}
		}
		if !from {
			t.Errorf("%s, %s by %s, is the offcut of no sheet", s.Stock, s.L, s.W)
		}
	}
	if over == 0 {
		t.Error("nothing is cut from what the first stage has left")
	}
}

// A stage buys no sheet for what has room on sheets that an earlier one buys anyway: the stages together cost less than
// with each cut for itself, one after the other, and none of them costs more.
func TestLaterPartsShareSheets(t *testing.T) {
	job := parse(t, "shared", []byte(`
stowright: 1
practice: {from: inch-shop}
unit: in
stages: [{id: first}, {id: later}]
cases:
  a: {width: 30, height: 30, depth: 18, stage: first, inside: {shelves: {count: 2}}}
  b: {width: 17, height: 29, depth: 16, stage: later, inside: {shelves: {count: 2}}}
`))
	ctx := context.Background()
	r := plan.Make(ctx, job, plan.Want{})
	stage := map[string]string{}
	for _, o := range r.Assembly.Owners {
		stage[o.ID] = o.Stage
	}
	yard := cutlist.NewYard(job.Catalogue, job.Practice)
	shared, apart := 0, 0
	for _, s := range r.Stages {
		var parts []part.Part
		for _, p := range r.Assembly.Parts {
			if stage[p.Owner] == s {
				parts = append(parts, p)
			}
		}
		problem, _ := yard.Sheets(parts, 1)
		own := solve.Solve(ctx, &problem, solve.First, nil)
		yard.Take(&problem, *own)
		one := plan.Make(ctx, job, plan.Want{Stage: s})
		shared, apart = shared+one.Plan.Totals.Bought, apart+own.Totals.Bought
		if shared > apart {
			t.Errorf("up to stage %s %d sheets are bought, with each stage cut for itself %d", s, shared, apart)
		}
	}
	if shared >= apart || shared != r.Plan.Totals.Bought {
		t.Errorf("%d sheets are bought, %d by the stages; with each cut for itself %d", r.Plan.Totals.Bought, shared, apart)
	}
}
