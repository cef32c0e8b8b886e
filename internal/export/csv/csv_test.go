package csv_test

import (
	stdcsv "encoding/csv"
	"strings"
	"testing"

	"stowright/internal/bill"
	"stowright/internal/export/csv"
	"stowright/internal/length"
	"stowright/internal/money"
	"stowright/internal/part"
	"stowright/internal/stock"
)

func TestCuttingListReadsBack(t *testing.T) {
	p := part.Part{Mark: "A1", Name: "=side, left", Owner: "a", Stock: "ply", Size: [3]length.Length{700 * length.MM, 500 * length.MM, 18 * length.MM}}
	p.Bands[part.BandNear] = part.Band{Edging: "abs", Thickness: length.MM, Deduct: true}
	q := p
	q.Mark = "A2"
	rows, err := stdcsv.NewReader(strings.NewReader(string(csv.Parts([]part.Part{p, q}, stock.Catalogue{}, length.Inches)))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 2 || rows[1][0] != "A1 A2" || rows[1][1] != "2" {
		t.Fatalf("rows %q", rows)
	}
	if rows[1][2] != "'=side, left" {
		t.Errorf("name %q would be run as a formula", rows[1][2])
	}
	// 700 mm are 27.5591 in, 499 mm 19.6457, 500 mm 19.685: numbers, the unit in the head.
	if got := strings.Join(rows[1][6:11], " "); got != "27.5591 19.6457 0.7087 27.5591 19.685" {
		t.Errorf("sizes %q; the edging must be off the cut width only", got)
	}
	if rows[0][6] != "cut length (in)" || rows[0][8] != "thickness (in)" {
		t.Errorf("head %q", rows[0])
	}
	rows, _ = stdcsv.NewReader(strings.NewReader(string(csv.Parts([]part.Part{p}, stock.Catalogue{}, length.Millimetres)))).ReadAll()
	if got := strings.Join(rows[1][6:11], " "); got != "700 499 18 700 500" || rows[0][6] != "cut length (mm)" {
		t.Errorf("%q: sizes %q", rows[0], got)
	}
}

func TestShoppingSaysWhatIsNotKnown(t *testing.T) {
	five := 5 * money.Unit
	b := bill.Bill{Lines: []bill.Line{{Item: "screw", Buy: 2, Price: &five}, {Item: "knob", Buy: 1}}, Total: 10 * money.Unit, Missing: []string{"knob"}}
	rows, err := stdcsv.NewReader(strings.NewReader(string(csv.Shopping(b)))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if rows[0][7] != "price" || rows[0][8] != "cost" {
		t.Errorf("head %q", rows[0])
	}
	if rows[1][8] != "10.00" || rows[2][7] != "not known" || rows[2][8] != "not known" || !strings.Contains(rows[3][2], "knob") {
		t.Errorf("rows %q", rows)
	}
}
