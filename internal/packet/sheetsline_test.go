package packet

import (
	"testing"

	"stowright/internal/bill"
	"stowright/internal/cutting"
)

// Lines of one board, for stages and for what is on hand, are one line here: the bound is for all of
// them together, and "1 sheet; no plan can use fewer than 3" would be false (arithmetic).
func TestOneLineForEachBoard(t *testing.T) {
	var b book
	b.Bill.Lines = []bill.Line{
		{Item: "ply", Kind: "sheet", Name: "plywood", Buy: 2, Stage: "one", Least: 3},
		{Item: "ply", Kind: "sheet", Name: "plywood", OnHand: 1, Stage: "one"},
		{Item: "ply", Kind: "sheet", Name: "plywood", Buy: 1, Stage: "two", Least: 3},
	}
	if got, want := b.sheetsLine(), "4 sheets of plywood (1 on hand, 3 bought); no plan can buy fewer than 3"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// The packet of one stage holds its own lines alone, and the bound of all is none of its sheets'. A range of one
// number is that number.
func TestNoBoundOfAllOnOneStage(t *testing.T) {
	b := book{}
	b.Stage = "one"
	b.Bill.Lines = []bill.Line{{Item: "ply", Kind: "sheet", Name: "plywood", Buy: 2, Stage: "one", Least: 3}}
	if got, want := b.sheetsLine(), "2 sheets of plywood"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	for want, r := range map[string][2]float64{"2 days": {2, 2}, "1 day": {1, 1}, "2 to 3 days": {2, 3}} {
		if got := span(r[0], r[1], "day"); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// Where more sheets are bought than the bound, the line says what stands between (arithmetic: 170 of 2 x 100).
func TestWhyMoreThanTheBound(t *testing.T) {
	b := book{}
	b.Bill.Lines = []bill.Line{{Item: "ply", Kind: "sheet", Name: "plywood", Buy: 3, Least: 2}}
	for _, parts := range []int64{60, 60, 50} {
		b.Plan.Sheets = append(b.Plan.Sheets, cutting.Sheet{Stock: "ply", L: 10, W: 10, Area: cutting.Areas{Parts: parts}})
	}
	if got, want := b.sheetsLine(), "3 sheets of plywood; no plan can use fewer than 2: those would have to be 85 % parts, and no such plan was found"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	b.Bill.Stages = make([]bill.StageCost, 2)
	if got, want := b.sheetsLine(), "3 sheets of plywood; no plan can use fewer than 2, and that only if all stages are cut at once"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	b.Bill.Lines[0].Buy, b.Plan.Sheets = 2, b.Plan.Sheets[:2]
	if got, want := b.sheetsLine(), "2 sheets of plywood; no plan can use fewer than 2"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
