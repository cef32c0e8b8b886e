// Package list reads a plain list of parts and sizes of stock, as text that a spreadsheet writes, into a
// cutting problem, and writes a cutting plan out again as text and as rows. It is for cutting without
// a job; it finds no plan, and it touches no file.
package list

import (
	"bytes"
	"cmp"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"stowright/internal/cutting"
	"stowright/internal/length"
	"stowright/internal/money"
	"stowright/internal/source"
)

// table is rows of text with the place of every field.
type table struct {
	file   *source.File
	starts []int
	at     map[string]int // column by its name
	rows   [][]field
}

type field struct {
	text string
	span source.Span
}

// most is how many copies of a part, or sheets, a list can ask for in one line.
const most = 100_000

// read splits a file into fields and finds its columns.
func read(name string, data []byte, columns, needed []string) (*table, source.Problems) {
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	t := &table{file: source.NewFile(name, data), starts: []int{0}, at: map[string]int{}}
	for i, b := range data {
		if b == '\n' {
			t.starts = append(t.starts, i+1)
		}
	}
	var ps source.Problems
	r := csv.NewReader(bytes.NewReader(data))
	r.FieldsPerRecord, r.TrimLeadingSpace, r.LazyQuotes, r.Comment = -1, true, true, '#'
	if first, _, _ := bytes.Cut(data, []byte("\n")); bytes.Count(first, []byte(";")) > bytes.Count(first, []byte(",")) {
		r.Comma = ';' // as spreadsheets write where the comma is the decimal sign
	}
	for {
		rec, err := r.Read()
		if err == io.EOF {
			break
		}
		var pe *csv.ParseError
		if errors.As(err, &pe) {
			at := t.offset(pe.Line, 1)
			ps.Add(source.Problem{Span: source.Span{File: t.file, Start: at, End: at}, Text: "this line does not read as a row of a list", Hint: "close the quotation marks"})
			return t, ps
		}
		if err != nil {
			ps.Add(source.Problem{Text: err.Error()})
			return t, ps
		}
		row := make([]field, len(rec))
		for i, s := range rec {
			line, col := r.FieldPos(i)
			at := t.offset(line, col)
			row[i] = field{strings.TrimSpace(s), source.Span{File: t.file, Start: at, End: min(len(data), at+max(1, len(s)))}}
		}
		t.rows = append(t.rows, row)
	}
	if len(t.rows) == 0 {
		ps.Add(source.Problem{Span: source.Span{File: t.file}, Text: "the list is empty", Hint: "the first line names the columns: " + strings.Join(needed, ",")})
		return t, ps
	}
	meant := map[string]bool{}
	for i, f := range t.rows[0] {
		c := source.Normal(f.text)
		if c == "" {
			continue
		}
		if !slices.Contains(columns, c) {
			p := source.Problem{Span: f.span, Text: fmt.Sprintf("there is no column %q", f.text), Hint: "the columns are " + strings.Join(columns, ", ")}
			if near := source.Nearest(c, columns); near != "" {
				p.Hint, meant[near] = "did you mean "+near+"?", true
			}
			ps.Add(p)
			continue
		}
		if _, twice := t.at[c]; twice {
			ps.Add(source.Problem{Span: f.span, Text: fmt.Sprintf("the column %q is there twice", c), Hint: "leave one"})
		}
		t.at[c] = i
	}
	for _, c := range needed {
		if _, ok := t.at[c]; !ok && !meant[c] {
			ps.Add(source.Problem{Span: t.rows[0][0].span, Text: fmt.Sprintf("the column %q is missing", c), Hint: "the first line names the columns: " + strings.Join(needed, ",")})
		}
	}
	t.rows = t.rows[1:]
	return t, ps
}

func (t *table) offset(line, col int) int {
	return t.starts[min(max(line, 1), len(t.starts))-1] + col - 1
}

// get gives a field by its column; one that is not there is empty and stands at the row's first.
func (t *table) get(row []field, column string) field {
	i, ok := t.at[column]
	if !ok || i >= len(row) {
		return field{span: row[0].span}
	}
	return row[i]
}

// size reads a size over nothing.
func (t *table) size(row []field, column string, u length.Unit, ps *source.Problems) length.Length {
	f := t.get(row, column)
	l, err := length.Parse(f.text, u)
	var le *length.Error
	switch {
	case f.text == "":
		ps.Add(source.Problem{Span: f.span, Text: "the " + column + " is missing", Hint: "write it like 762 or 30 1/4 in"})
	case errors.As(err, &le):
		ps.Add(source.Problem{Span: f.span, Text: fmt.Sprintf("the %s %q %s", column, f.text, le.Msg), Hint: le.Hint})
	case l <= 0:
		ps.Add(source.Problem{Span: f.span, Text: "the " + column + " is nothing or less", Hint: "write the size as sawn"})
	}
	return l
}

// count reads a whole number, 1 where nothing is written.
func (t *table) count(row []field, ps *source.Problems) int {
	f := t.get(row, "count")
	if f.text == "" {
		return 1
	}
	n, err := strconv.Atoi(f.text)
	if err != nil || n < 0 || n > most {
		ps.Add(source.Problem{Span: f.span, Text: fmt.Sprintf("the count %q is no whole number from 0 to %d", f.text, most), Hint: "write how many are wanted, like 4"})
		return 0
	}
	return n
}

func blank(row []field) bool {
	return !slices.ContainsFunc(row, func(f field) bool { return f.text != "" })
}

// Columns of a list of parts, in the order in which they are explained.
var Columns = []string{"mark", "length", "width", "count", "grain", "stock", "group", "name"}

// Parts reads a list of parts. Bare numbers take the unit u. Without a column for the grain, parts may be turned.
// known are the stocks that the column stock may name; several are parted by a space. Parts of one group
// come from one strip, side by side across their length, in the order of the list.
func Parts(name string, data []byte, u length.Unit, known []string) ([]cutting.Part, []cutting.Group, source.Problems) {
	t, ps := read(name, data, Columns, []string{"mark", "length", "width"})
	if len(ps) > 0 {
		return nil, nil, ps
	}
	var parts []cutting.Part
	var groups []cutting.Group
	seen := map[string]source.Span{}
	for _, row := range t.rows {
		if blank(row) {
			continue
		}
		mark := t.get(row, "mark")
		p := cutting.Part{ID: mark.text, L: t.size(row, "length", u, &ps), W: t.size(row, "width", u, &ps), Count: t.count(row, &ps), Group: t.get(row, "group").text}
		if p.ID == "" {
			ps.Add(source.Problem{Span: mark.span, Text: "the mark is missing", Hint: "give every line a mark of its own, like A or shelf"})
		} else if first, twice := seen[p.ID]; twice {
			ps.Add(source.Problem{Span: mark.span, Text: fmt.Sprintf("the mark %q is there twice", p.ID), Hint: "give every line a mark of its own",
				Also: []source.Also{{Span: first, Text: "here first"}}})
		}
		seen[p.ID] = mark.span
		switch g := t.get(row, "grain"); strings.ToLower(g.text) {
		case "along":
			p.Lay = cutting.Along
		case "across":
			p.Lay = cutting.Across
		case "", "free":
		default:
			pr := source.Problem{Span: g.span, Text: fmt.Sprintf("the grain %q is not known", g.text), Hint: "write along, across or free"}
			if near := source.Nearest(g.text, []string{"along", "across", "free"}); near != "" {
				pr.Hint = "did you mean " + near + "?"
			}
			ps.Add(pr)
		}
		for id := range strings.FieldsSeq(t.get(row, "stock").text) {
			if !slices.Contains(known, id) {
				pr := source.Problem{Span: t.get(row, "stock").span, Text: fmt.Sprintf("there is no stock %q", id), Hint: "name it with --stock " + id + ":LENGTHxWIDTH"}
				if near := source.Nearest(id, known); near != "" {
					pr.Hint = "did you mean " + near + "?"
				}
				ps.Add(pr)
			}
			p.Stocks = append(p.Stocks, id)
		}
		if p.Group != "" && !slices.ContainsFunc(groups, func(g cutting.Group) bool { return g.ID == p.Group }) {
			groups = append(groups, cutting.Group{ID: p.Group, Strip: true, Axis: cutting.Across})
		}
		parts = append(parts, p)
	}
	if len(parts) == 0 && len(ps) == 0 {
		ps.Add(source.Problem{Span: source.Span{File: t.file}, Text: "the list has no parts", Hint: "write one line for each size of part below the names of the columns"})
	}
	return parts, groups, ps
}

// Stock reads a size of sheet as it is typed at a command: [NAME:]LENGTHxWIDTH[=COUNT][@PRICE].
func Stock(text string, u length.Unit) (cutting.Stock, error) {
	fail := func(format string, args ...any) (cutting.Stock, error) {
		return cutting.Stock{}, fmt.Errorf("%q "+format+"; write a stock like 2440x1220, 96x48in=3@54.50 or birch:2440x1220", append([]any{text}, args...)...)
	}
	s := cutting.Stock{Count: cutting.Unlimited}
	rest := text
	if name, after, ok := strings.Cut(rest, ":"); ok {
		if s.ID = strings.TrimSpace(name); s.ID == "" || strings.ContainsAny(s.ID, " /,") {
			return fail("has no plain name before the colon")
		}
		rest = after
	}
	rest, price, priced := strings.Cut(rest, "@")
	if priced {
		a, err := money.Parse(price)
		if err != nil || a < 0 {
			return fail("has no price after the @")
		}
		s.Price = a
	}
	rest, count, counted := strings.Cut(rest, "=")
	if counted {
		n, err := strconv.Atoi(strings.TrimSpace(count))
		if err != nil || n < 0 || n > most {
			return fail("has no count after the =")
		}
		s.Count = n
	}
	a, b, ok := strings.Cut(strings.ReplaceAll(strings.ToLower(rest), "×", "x"), "x")
	if !ok {
		return fail("has no two sizes")
	}
	// A unit after the second size holds for both.
	if t := strings.TrimSpace(b); strings.HasSuffix(t, "mm") {
		u = length.Millimetres
	} else if strings.HasSuffix(t, "in") || strings.HasSuffix(t, `"`) {
		u = length.Inches
	}
	var err error
	if s.L, err = length.Parse(a, u); err == nil {
		s.W, err = length.Parse(b, u)
	}
	if err != nil {
		return fail("has a size that does not read (%v)", err)
	}
	if s.L <= 0 || s.W <= 0 {
		return fail("has a size of nothing")
	}
	s.ID = cmp.Or(s.ID, strings.TrimSpace(rest))
	return s, nil
}

// offcutColumns of the file in which a shop keeps what is left.
var offcutColumns = []string{"stock", "length", "width", "count", "grain"}

// Offcuts reads the offcuts on hand. Each becomes a stock of its own with the id "NAME/offcut-N".
func Offcuts(name string, data []byte, u length.Unit) ([]cutting.Stock, source.Problems) {
	if len(bytes.TrimSpace(data)) == 0 {
		return nil, nil
	}
	t, ps := read(name, data, offcutColumns, []string{"stock", "length", "width"})
	if len(ps) > 0 {
		return nil, ps
	}
	var list []cutting.Stock
	for _, row := range t.rows {
		if blank(row) {
			continue
		}
		s := cutting.Stock{OnHand: true, L: t.size(row, "length", u, &ps), W: t.size(row, "width", u, &ps), Count: t.count(row, &ps)}
		s.ID = fmt.Sprintf("%s/offcut-%d", t.get(row, "stock").text, len(list)+1)
		switch g := t.get(row, "grain"); strings.ToLower(g.text) {
		case "", "along":
			s.Grain = cutting.GrainX
		case "across":
			s.Grain = cutting.GrainY
		case "none":
		default:
			ps.Add(source.Problem{Span: g.span, Text: fmt.Sprintf("the grain %q of an offcut is not known", g.text), Hint: "write along (its length), across, or none"})
		}
		list = append(list, s)
	}
	return list, ps
}

// Kind is the stock that an offcut was cut from, or the stock itself.
func Kind(id string) string {
	k, _, _ := strings.Cut(id, "/")
	return k
}

// Left writes the offcuts that are on hand when a plan is done, in the form that Offcuts reads: those that
// were there and are not used, and those that the plan leaves. Sizes are exact.
func Left(p *cutting.Problem, plan *cutting.Plan) []byte {
	used := map[string]int{}
	for _, s := range plan.Sheets {
		used[s.Stock]++
	}
	rows := [][]string{offcutColumns}
	add := func(id string, l, w length.Length, n int, g cutting.Grain) {
		if n > 0 {
			word := [...]string{cutting.NoGrain: "none", cutting.GrainX: "along", cutting.GrainY: "across"}[g]
			rows = append(rows, []string{Kind(id), l.MM() + " mm", w.MM() + " mm", strconv.Itoa(n), word})
		}
	}
	for i := range p.Stocks {
		if s := &p.Stocks[i]; s.OnHand {
			add(s.ID, s.L, s.W, s.Count-used[s.ID], s.Grain)
		}
	}
	for _, s := range plan.Sheets {
		for _, o := range s.Offcuts {
			if !o.Scrap {
				add(s.Stock, o.L, o.W, 1, s.Grain)
			}
		}
	}
	return rowsOf(rows)
}

func rowsOf(rows [][]string) []byte {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	if err := w.WriteAll(rows); err != nil {
		panic("list: a buffer cannot be written: " + err.Error())
	}
	return b.Bytes()
}

// From lets the parts that are cut from a stock be cut from its offcuts too. A part that names no stock may be cut
// from any.
func From(parts []cutting.Part, stocks []cutting.Stock) []cutting.Part {
	for i := range parts {
		named := parts[i].Stocks
		for k := range stocks {
			if id := stocks[k].ID; slices.Contains(named, Kind(id)) && !slices.Contains(named, id) {
				parts[i].Stocks = append(parts[i].Stocks, id)
			}
		}
	}
	return parts
}
