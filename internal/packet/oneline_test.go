package packet

import (
	"testing"

	"stowright/internal/draw"
)

// Sheets that follow each other and are alike stand on one line, with the parts of each; no other line is lost or changed.
func TestSheetsAlikeStandOnOneLine(t *testing.T) {
	row := func(n, stock, parts, from string) draw.Row {
		return draw.Row{Cells: []draw.Cell{{Tick: true}, {Text: n}, {Text: stock}, {Text: "60 × 60"}, {Text: parts}, {Text: from}}}
	}
	rows := []draw.Row{row("1", "ply", "86", "bought"), row("2", "ply", "9", "bought"), row("3", "ply", "3", "bought"), row("4", "ply", "8", "on hand"), row("5", "board", "1", "on hand")}
	got := oneLine(rows)
	if len(got) != 3 || got[0].Cells[1].Text != "1–3" || got[0].Cells[4].Text != "86, 9, 3" || got[1].Cells[1].Text != "4" || got[2].Cells[2].Text != "board" {
		t.Errorf("%+v", got)
	}
	if rows[0].Cells[1].Text != "1" {
		t.Error("the rows themselves were changed")
	}
}
