package xlsx_test

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"stowright/internal/cutlist"
	"stowright/internal/export/xlsx"
	"stowright/internal/finding"
	"stowright/internal/length"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
)

func input(r plan.Result) xlsx.Input {
	return xlsx.Input{Assembly: r.Assembly, Plan: r.Plan, Marks: r.Marks, Bill: r.Bill, Findings: r.Findings, Catalogue: r.Job.Catalogue, Print: r.Job.Print}
}

// book reads a workbook with excelize, which we do not write with.
func book(t *testing.T, b []byte) *excelize.File {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(b))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	return f
}

// sheet gives the rows of a worksheet by heading, as raw values.
func sheet(t *testing.T, f *excelize.File, name string) []map[string]string {
	t.Helper()
	rows, err := f.GetRows(name, excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]string
	for _, r := range rows[1:] {
		m := map[string]string{}
		for i, v := range r {
			m[rows[0][i]] = v
		}
		out = append(out, m)
	}
	return out
}

func number(t *testing.T, m map[string]string, heading string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(m[heading], 64)
	if err != nil {
		t.Errorf("%q under %q is no number in %v", m[heading], heading, m)
	}
	return v
}

func mm(l length.Length) float64 { return float64(l) / float64(length.MM) }

func same(a, b float64) bool { return math.Abs(a-b) < 1e-9 }

// The workbook, read back by a reader that is not ours, says what the plan says.
func TestReadBack(t *testing.T) {
	for _, example := range plantest.Examples() {
		t.Run(example, func(t *testing.T) {
			r := plantest.Result(t, example)
			b := xlsx.Write(input(r))
			plantest.Keep(t, example+".xlsx", b)
			if !bytes.Equal(b, xlsx.Write(input(r))) {
				t.Error("two writings differ")
			}
			f := book(t, b)
			if got := fmt.Sprint(f.GetSheetList()); got != "[Cutting list Shopping Hardware Sheets Findings]" {
				t.Errorf("sheets %s", got)
			}

			parts := sheet(t, f, "Cutting list")
			groups := cutlist.Groups(r.Assembly.Parts)
			if len(parts) != len(groups) {
				t.Fatalf("%d rows, %d distinct parts", len(parts), len(groups))
			}
			unit := r.Job.Print
			per := float64(length.MM)
			if unit == length.Inches {
				per = float64(length.Inch)
			}
			for i, g := range groups {
				m, cut := parts[i], g.Part.Cut()
				if m["mark"] != g.ID || m["all marks"] != strings.Join(g.Marks, " ") || int(number(t, m, "count")) != len(g.Marks) {
					t.Errorf("row %v is not %s", m, g.ID)
				}
				for k, h := range map[string]length.Length{"cut length (mm)": cut[0], "cut width (mm)": cut[1], "thickness (mm)": cut[2], "finished length (mm)": g.Part.Size[0], "finished width (mm)": g.Part.Size[1]} {
					if !same(number(t, m, k), mm(h)) {
						t.Errorf("%s: %s is %s, want %s", g.ID, k, m[k], h)
					}
				}
				tape := number(t, m, "cut length ("+unit.String()+")")
				if d := math.Abs(tape*per - float64(cut[0])); d > float64(unit.Step())/2+1e-3 {
					t.Errorf("%s: %v on a tape, is %s", g.ID, tape, cut[0])
				}
			}

			// Formulas, worked out by the reader, give the bill's costs.
			lines := sheet(t, f, "Shopping")
			total := 0.0
			for i, l := range r.Bill.Lines {
				got, err := f.CalcCellValue("Shopping", fmt.Sprintf("I%d", i+2), excelize.Options{RawCellValue: true})
				if err != nil {
					t.Fatal(err)
				}
				v, _ := strconv.ParseFloat(got, 64)
				c, _ := l.Cost()
				if want := float64(c) / 1e4; math.Abs(v-want) > 1e-6 {
					t.Errorf("%s: cost works out to %s, want %v", l.Item, got, want)
				}
				if h := "cost (" + r.Bill.Currency + ")"; r.Bill.Currency != "" && !same(number(t, lines[i], h), float64(c)/1e4) {
					t.Errorf("%s: cost is shown as %s", l.Item, lines[i][h])
				}
				total += float64(c) / 1e4
				if int(number(t, lines[i], "buy")) != l.Buy || lines[i]["item"] != l.Item {
					t.Errorf("line %d is %v", i, lines[i])
				}
			}
			at := fmt.Sprintf("I%d", len(r.Bill.Lines)+2)
			if got, err := f.CalcCellValue("Shopping", at, excelize.Options{RawCellValue: true}); err != nil {
				t.Error(err)
			} else if v, _ := strconv.ParseFloat(got, 64); math.Abs(v-float64(r.Bill.Total)/1e4) > 1e-6 || math.Abs(v-total) > 1e-6 {
				t.Errorf("the total works out to %s, want %s", got, r.Bill.Total)
			}

			items := sheet(t, f, "Hardware")
			if len(items) != len(r.Assembly.Hardware) {
				t.Errorf("%d rows of hardware, want %d", len(items), len(r.Assembly.Hardware))
			}
			for i, h := range r.Assembly.Hardware {
				if items[i]["item"] != h.ID || int(number(t, items[i], "count")) != h.Count {
					t.Errorf("hardware %v, want %d %s", items[i], h.Count, h.ID)
				}
			}

			// Every part that is cut from a sheet lies on one, at its sawn size.
			on := map[string]map[string]string{}
			for _, m := range sheet(t, f, "Sheets") {
				if m["what"] == "part" {
					if on[m["mark"]] != nil {
						t.Errorf("%s lies twice", m["mark"])
					}
					on[m["mark"]] = m
				}
			}
			n := 0
			for _, s := range r.Marks {
				n += len(s)
			}
			if n != len(on) {
				t.Errorf("%d pieces, want %d", len(on), n)
			}
			for _, p := range r.Assembly.Parts {
				m := on[p.Mark]
				if m == nil {
					continue
				}
				a, b := number(t, m, "along the sheet (mm)"), number(t, m, "across the sheet (mm)")
				if m["turned"] == "turned" {
					a, b = b, a
				}
				if cut := p.Cut(); !same(a, mm(cut[0])) || !same(b, mm(cut[1])) {
					t.Errorf("%s lies as %v by %v, is %s by %s", p.Mark, a, b, cut[0], cut[1])
				}
			}

			said := sheet(t, f, "Findings")
			for i, x := range r.Findings {
				if said[i]["what"] != x.Text || said[i]["code"] != string(x.Code) {
					t.Errorf("finding %d is %v", i, said[i])
				}
				if x.Verdict != finding.None && x.Capacity != 0 && !same(number(t, said[i], "demand"), x.Demand) {
					t.Errorf("finding %d: demand %s, want %v", i, said[i]["demand"], x.Demand)
				}
			}
		})
	}
}

// A price that somebody fills in is counted.
func TestFilledInPriceCounts(t *testing.T) {
	r := plantest.Result(t, "one-case")
	in := input(r)
	lines := append(in.Bill.Lines[:0:0], in.Bill.Lines...)
	lines[0].Price, lines[0].Buy = nil, 3
	in.Bill.Lines = lines
	f := book(t, xlsx.Write(in))
	if v, _ := f.CalcCellValue("Shopping", "I2"); v != "0" && v != "0.00" {
		t.Errorf("no price and cost %s", v)
	}
	if err := f.SetCellFloat("Shopping", "H2", 2.5, -1, 64); err != nil {
		t.Fatal(err)
	}
	if v, _ := f.CalcCellValue("Shopping", "I2", excelize.Options{RawCellValue: true}); v != "7.5" {
		t.Errorf("3 at 2.5 cost %s", v)
	}
}

// What a name may hold does no harm: no formula comes of it, and letters that XML has not are gone.
func TestOddNames(t *testing.T) {
	r := plantest.Result(t, "one-case")
	in := input(r)
	in.Findings = finding.List{{Code: "x", At: "=1+1", Text: "a<b>&\"c\"\x01 d", Hint: " two  blanks "}}
	f := book(t, xlsx.Write(in))
	if v, _ := f.GetCellFormula("Findings", "D2"); v != "" {
		t.Errorf("a name became the formula %s", v)
	}
	m := sheet(t, f, "Findings")[0]
	if m["where"] != "=1+1" || m["what"] != "a<b>&\"c\"\uFFFD d" || m["what to do"] != " two  blanks " {
		t.Errorf("%q", m)
	}
}
