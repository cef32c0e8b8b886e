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
