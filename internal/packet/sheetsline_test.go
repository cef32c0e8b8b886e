package packet

import (
	"testing"

	"stowright/internal/bill"
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
	if got, want := b.sheetsLine(), "4 sheets of plywood (1 on hand); no plan can buy fewer than 3"; got != want {
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
