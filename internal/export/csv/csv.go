// Package csv writes the cutting list and the shopping list as comma-separated text for
// spreadsheets. Sizes are numbers in the job's unit.
package csv

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"

	"stowright/internal/bill"
	"stowright/internal/cutlist"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/stock"
)

// Parts writes the cutting list: one row for every group of identical parts, sawn sizes first,
// then what each becomes. Sizes are bare numbers in the job's unit, which stands in the head of
// the column: inches to four places, millimetres to three. The columns are told in docs/packet.md.
func Parts(parts []part.Part, cat stock.Catalogue, u length.Unit) []byte {
	in := " (" + u.String() + ")"
	rows := [][]string{{
		"marks", "count", "name", "for", "stock", "grain",
		"cut length" + in, "cut width" + in, "thickness" + in, "finished length" + in, "finished width" + in,
		"edging start", "edging end", "edging near", "edging far", "workings",
	}}
	for _, g := range cutlist.Groups(parts) {
		p := g.Part
		cut := p.Cut()
		rows = append(rows, []string{
			strings.Join(g.Marks, " "), fmt.Sprint(len(g.Marks)), p.Name, p.Owner, Name(p, cat), p.Grain.String(),
			number(cut[0], u), number(cut[1], u), number(cut[2], u), number(p.Size[0], u), number(p.Size[1], u),
			p.Bands[0].Edging, p.Bands[1].Edging, p.Bands[2].Edging, p.Bands[3].Edging, workings(p.Ops),
		})
	}
	return write(rows)
}

// number writes a size as a bare decimal number.
func number(l length.Length, u length.Unit) string {
	if u == length.Millimetres {
		return l.Near(length.MM / 1000).MM()
	}
	s := strconv.FormatFloat(float64(l)/float64(length.Inch), 'f', 4, 64)
	return strings.TrimRight(strings.TrimRight(s, "0"), ".")
}

// Name gives the stock of a part as a shop calls it.
func Name(p part.Part, cat stock.Catalogue) string {
	switch p.Material {
	case part.Board:
		if b, ok := cat.Board(p.Stock); ok && b.Name != "" {
			return b.Name
		}
	case part.Stick:
		if s, ok := cat.Stick(p.Stock); ok && s.Name != "" {
			return s.Name
		}
	}
	return p.Stock
}

// workings counts what is done to a part by kind: "12 × hole, 1 × groove".
func workings(ops []part.Op) string {
	var order []part.OpKind
	n := map[part.OpKind]int{}
	for _, o := range ops {
		if n[o.Kind] == 0 {
			order = append(order, o.Kind)
		}
		n[o.Kind]++
	}
	var out []string
	for _, k := range order {
		out = append(out, fmt.Sprintf("%d × %s", n[k], k))
	}
	return strings.Join(out, ", ")
}

// Shopping writes the shopping list. A price or cost that is not known is written so.
func Shopping(b bill.Bill) []byte {
	money := ""
	if b.Currency != "" {
		money = " (" + b.Currency + ")"
	}
	rows := [][]string{{"item", "kind", "name", "needed", "on hand", "buy", "unit", "price" + money, "cost" + money, "over", "stage"}}
	for _, l := range b.Lines {
		price, cost := "not known", "not known"
		if l.Price != nil {
			price = l.Price.String()
		}
		if c, ok := l.Cost(); ok {
			cost = c.String()
		}
		rows = append(rows, []string{l.Item, l.Kind, l.Name, l.Need, fmt.Sprint(l.OnHand), fmt.Sprint(l.Buy), l.Unit, price, cost, l.Over, l.Stage})
	}
	total := []string{"total of the lines with a price", "", "", "", "", "", "", "", b.Total.String(), "", ""}
	if len(b.Missing) > 0 {
		total[2] = "without " + strings.Join(b.Missing, ", ")
	}
	return write(append(rows, total))
}

func write(rows [][]string) []byte {
	var buf bytes.Buffer
	w := csv.NewWriter(&buf)
	for _, r := range rows {
		for i := range r {
			r[i] = safe(r[i])
		}
		if err := w.Write(r); err != nil {
			panic("csv: " + err.Error()) // a buffer takes everything
		}
	}
	w.Flush()
	return buf.Bytes()
}

// safe keeps a spreadsheet from taking a name for a formula.
func safe(s string) string {
	if s != "" && strings.ContainsRune("=+-@\t\r", rune(s[0])) && !numeric(s) {
		return "'" + s
	}
	return s
}

func numeric(s string) bool {
	return strings.Trim(s, "+-0123456789. /") == "" && strings.ContainsAny(s, "0123456789")
}
