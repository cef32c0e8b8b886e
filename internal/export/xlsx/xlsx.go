// Package xlsx writes one workbook for spreadsheets: cutting list, shopping, hardware, sheets
// and findings. Numbers are numbers, their units stand in the headings; sizes stand as a tape
// shows them and, exactly, in millimetres. The only formulas are costs and totals of the
// shopping list, so that a price filled in is counted. It counts nothing itself.
package xlsx

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"stowright/internal/bill"
	"stowright/internal/cutlist"
	"stowright/internal/cutting"
	"stowright/internal/finding"
	"stowright/internal/length"
	"stowright/internal/money"
	"stowright/internal/part"
	"stowright/internal/stock"
)

// Input is what the workbook tells.
type Input struct {
	Assembly  part.Assembly
	Plan      cutting.Plan
	Marks     [][]string // of the plan's pieces, sheet by sheet
	Bill      bill.Bill
	Findings  finding.List
	Catalogue stock.Catalogue
	Print     length.Unit
}

// Write gives the bytes of lists.xlsx.
func Write(in Input) []byte {
	return workbook([]table{in.parts(), in.shopping(), in.hardware(), in.sheets(), in.findings()})
}

// mm is a length exactly, in millimetres.
func mm(l length.Length) cell { return cell{style: millimetres, number: l.MM()} }

// tape is a length as a tape shows it, in the unit of print.
func (in *Input) tape(l length.Length) cell {
	if in.Print == length.Millimetres {
		return cell{style: millimetres, number: l.Near(in.Print.Step()).MM()}
	}
	return float(float64(l.Near(in.Print.Step()))/float64(length.Inch), fraction)
}

func amount(a money.Amount, s style) cell { return cell{style: s, number: a.String()} }

func (in *Input) parts() table {
	u := " (" + in.Print.String() + ")"
	t := table{name: "Cutting list",
		head: []string{"mark", "count", "name", "for", "stock", "grain", "cut length" + u, "cut width" + u, "cut length (mm)", "cut width (mm)", "thickness (mm)",
			"finished length (mm)", "finished width (mm)", "edging start", "edging end", "edging near", "edging far", "all marks"},
		width: []float64{12, 6, 22, 14, 28, 8, 10, 10, 10, 10, 10, 10, 10, 12, 12, 12, 12, 40}}
	for _, g := range cutlist.Groups(in.Assembly.Parts) {
		p, cut := g.Part, g.Part.Cut()
		row := []cell{words(p.Mark), count(len(g.Marks)), words(p.Name), words(p.Owner), words(in.stock(p)), words(p.Grain.String()),
			in.tape(cut[0]), in.tape(cut[1]), mm(cut[0]), mm(cut[1]), mm(cut[2]), mm(p.Size[0]), mm(p.Size[1])}
		for _, b := range p.Bands {
			row = append(row, words(b.Edging))
		}
		t.rows = append(t.rows, append(row, cell{style: long, text: strings.Join(g.Marks, " ")}))
	}
	return t
}

func (in *Input) stock(p part.Part) string {
	switch p.Material {
	case part.Board:
		if b, ok := in.Catalogue.Board(p.Stock); ok && b.Name != "" {
			return b.Name
		}
	case part.Stick:
		if s, ok := in.Catalogue.Stick(p.Stock); ok && s.Name != "" {
			return s.Name
		}
	}
	return p.Stock
}

func (in *Input) shopping() table {
	cur := in.Bill.Currency
	if cur != "" {
		cur = " (" + cur + ")"
	}
	t := table{name: "Shopping", head: []string{"item", "kind", "name", "needed", "on hand", "buy", "unit", "price" + cur, "cost" + cur, "over", "stage"},
		width: []float64{22, 12, 36, 12, 9, 7, 14, 10, 11, 16, 10}}
	for _, l := range in.Bill.Lines {
		row := []cell{words(l.Item), words(l.Kind), words(l.Name), words(l.Need), count(l.OnHand), count(l.Buy), words(l.Unit)}
		if n, ok := plainNumber(l.Need); ok {
			row[3] = n
		}
		r := strconv.Itoa(len(t.rows) + 2)
		p := cell{}
		if l.Price != nil {
			p = amount(*l.Price, price)
		}
		cost, known := l.Cost()
		c := cell{style: price, formula: "IF(F" + r + "=0,0,IF(ISNUMBER(H" + r + "),F" + r + "*H" + r + ",0))", number: "0"}
		if known {
			c.number = cost.String()
		}
		t.rows = append(t.rows, append(row, p, c, words(l.Over), words(l.Stage)))
	}
	last := strconv.Itoa(len(t.rows) + 1)
	t.foot = append(t.foot, []cell{{style: strong, text: "Total of the lines with a price"}, {}, {}, {}, {}, {}, {}, {},
		{style: sum, formula: "SUM(I2:I" + last + ")", number: in.Bill.Total.String()}})
	if len(t.rows) == 0 {
		t.foot = nil
	}
	if len(in.Bill.Asked) > 0 {
		t.foot = append(t.foot, []cell{words("Not in the total, no price known: " + strings.Join(in.Bill.Asked, "; ") + ". Fill in the price and it is counted.")})
	}
	return t
}

// plainNumber makes a whole number of what is one.
func plainNumber(s string) (cell, bool) {
	n, err := strconv.Atoi(s)
	return count(n), err == nil
}

func (in *Input) hardware() table {
	t := table{name: "Hardware", head: []string{"for", "kind", "item", "name", "count", "length (mm)", "use", "stage"},
		width: []float64{18, 12, 24, 36, 8, 11, 24, 10}}
	for _, h := range in.Assembly.Hardware {
		name := ""
		if x, ok := in.Catalogue.Item(h.ID); ok {
			name = x.Name
		} else if x, ok := in.Catalogue.Edging(h.ID); ok {
			name = x.Name
		}
		long := cell{}
		if h.Length > 0 {
			long = mm(h.Length)
		}
		t.rows = append(t.rows, []cell{words(h.Owner), words(h.Kind), words(h.ID), words(name), count(h.Count), long, words(h.For), words(h.Stage)})
	}
	return t
}

func (in *Input) sheets() table {
	t := table{name: "Sheets", head: []string{"sheet", "stock", "where from", "sheet length (mm)", "sheet width (mm)", "what", "mark", "from the left (mm)", "from below (mm)", "along the sheet (mm)", "across the sheet (mm)", "turned"},
		width: []float64{7, 30, 11, 11, 11, 9, 14, 11, 11, 11, 11, 8}}
	for i, s := range in.Plan.Sheets {
		name := cutlist.Board(s.Stock)
		if b, ok := in.Catalogue.Board(name); ok && b.Name != "" {
			name = b.Name
		}
		row := func(what, mark string, r cutting.Rect, turned string) {
			t.rows = append(t.rows, []cell{count(i + 1), words(name), words(cutlist.From(s)), mm(s.L), mm(s.W), words(what), words(mark), mm(r.X), mm(r.Y), mm(r.L), mm(r.W), words(turned)})
		}
		for k, p := range s.Pieces {
			mark, turned := p.Part, ""
			if i < len(in.Marks) && k < len(in.Marks[i]) {
				mark = in.Marks[i][k]
			}
			if p.Turned {
				turned = "turned"
			}
			row("part", mark, p.Rect, turned)
		}
		for _, o := range s.Offcuts {
			if !o.Scrap {
				row("offcut", "", o.Rect, "")
			}
		}
	}
	return t
}

func (in *Input) findings() table {
	t := table{name: "Findings", head: []string{"severity", "verdict", "code", "where", "what", "what to do", "demand", "capacity", "unit", "ratio", "source"},
		width: []float64{9, 10, 18, 22, 60, 48, 11, 11, 8, 8, 40}}
	for _, f := range in.Findings {
		row := []cell{words(f.Severity.String()), words(f.Verdict.String()), words(string(f.Code)), words(f.At), {style: long, text: f.Text}, {style: long, text: f.Hint}, {}, {}, words(f.Unit), {}, {style: long, text: f.Source}}
		if f.Verdict != finding.None && f.Capacity != 0 && !slices.ContainsFunc([]float64{f.Demand, f.Capacity}, odd) {
			row[6], row[7], row[9] = float(f.Demand, plain), float(f.Capacity, plain), float(math.Round(f.Ratio()*1e4)/1e4, ratio)
		}
		t.rows = append(t.rows, row)
	}
	if len(t.rows) == 0 {
		t.foot = [][]cell{{words("Nothing was found.")}}
	}
	return t
}

// odd tells whether f is no number that a cell can hold.
func odd(f float64) bool { return math.IsNaN(f) || math.IsInf(f, 0) }
