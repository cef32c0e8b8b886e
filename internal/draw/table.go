package draw

import (
	"slices"
)

// Column is one column of a table.
type Column struct {
	Head  string
	Align Align   // numbers: End
	Most  float64 // most width in mm; 0: as wide as its texts
	Grow  bool    // takes its share of width left over
	Whole bool    // no text of it is broken over lines
}

// Cell is one field of a table.
type Cell struct {
	Text string
	Bold bool
	Ink  Ink
	Tick bool      // a box to tick instead of text
	Link string    // anchor that the cell leads to
	wide float64   // of its text on one line
	set  *measured // where it is broken over lines
}

// Row is one row of a table. One with a Group is a heading across all columns.
type Row struct {
	Cells []Cell
	Group string
	Name  string // anchor
	Total bool   // set off by a rule above
}

// spills tells whether a sum stands over the empty cells before it too: its own column need not be as wide. Its
// column is one of figures.
func (r Row) spills(i int) bool {
	return r.Total && i > 1 && r.Cells[i].Text != "" && r.Cells[i-1] == (Cell{})
}

// Table is columns and rows.
type Table struct {
	Columns []Column
	Rows    []Row
	Again   string // what it is of, in a few words: said over its head at the top of every sheet that it runs on to
	Soon    bool   // it begins on a sheet of paper that has room for its first two rows only

	set  []float64 // widths of the columns, when they are found already
	said bool      // its texts are in the language of the paper already
}

// First is the table with its first rows alone, no more than n.
func (t Table) First(n int) Table {
	t.Rows = t.Rows[:min(len(t.Rows), n)]
	return t
}

// Texts makes a row of plain cells.
func Texts(cells ...string) Row {
	var r Row
	for _, c := range cells {
		r.Cells = append(r.Cells, Cell{Text: c})
	}
	return r
}

const (
	cellGap = 3.4      // between columns
	cellPad = 0.95     // above and below the text of a row
	cellRow = BodyLine // from line to line within a cell of facts
)

// widths measures the columns: each as wide as its texts when there is room; else the
// widest give way first, down to their longest word.
func (t *Table) widths(total float64) []float64 {
	n := len(t.Columns)
	nat, least := make([]float64, n), make([]float64, n)
	feel := func(i int, c Cell, bold bool) {
		if c.Tick {
			nat[i], least[i] = max(nat[i], 3.4), max(least[i], 3.4)
			return
		}
		w := Text{Text: c.Text, Size: BodyCap, Bold: bold || c.Bold}
		nat[i] = max(nat[i], w.Width()+0.01)
		least[i] = max(least[i], longestWord(c.Text, w.Bold))
	}
	for i, c := range t.Columns {
		feel(i, Cell{Text: c.Head}, true)
		least[i] = nat[i] // heads stand on one line
	}
	for _, r := range t.Rows {
		for i := range r.Cells {
			if c := &r.Cells[i]; i < n && !r.spills(i) {
				feel(i, *c, r.Total)
				x := Text{Text: c.Text, Size: BodyCap, Bold: c.Bold || r.Total}
				c.wide, c.set = x.Width(), measureText(c.Text, BodyCap, x.Bold)
			}
		}
	}
	for i, c := range t.Columns {
		if c.Whole {
			least[i] = nat[i]
		}
		if c.Most > 0 {
			nat[i] = max(least[i], min(nat[i], c.Most))
		}
	}
	room := total - cellGap*float64(n-1)
	whole, sure := slices.Clone(least), 0.0 // figures stand on one line where words can give way
	for i, c := range t.Columns {
		if c.Align == End {
			whole[i] = nat[i]
		}
		sure += whole[i]
	}
	if sure <= room {
		least = whole
	}
	for i := range nat { // no column is wider than the room
		nat[i] = max(least[i], min(nat[i], room))
	}
	sum := 0.0
	for _, w := range nat {
		sum += w
	}
	if sum <= room {
		grow := 0
		for _, c := range t.Columns {
			if c.Grow {
				grow++
			}
		}
		for i, c := range t.Columns {
			if c.Grow {
				nat[i] += (room - sum) / float64(grow)
			}
		}
		return nat
	}
	w := slices.Clone(nat)
	broken := map[[3]int]int{} // lines of a cell at a width
	for sum > room+1e-9 {
		best, lowest, give := -1, 0, 0.0
		for i := range w { // the column that gives way at the least cost, of those alike the widest
			step := min(1, sum-room, w[i]-least[i])
			if step < 1e-6 {
				continue
			}
			w[i] -= step
			n := t.cost(w, broken)
			w[i] += step
			if best < 0 || n < lowest || n == lowest && w[i] > w[best] {
				best, lowest, give = i, n, step
			}
		}
		if best < 0 {
			break
		}
		w[best] -= give
		sum -= give
	}
	// what one step at a time does not find: width that saves lines in another column
	for n := t.cost(w, broken); ; {
		from, to, wide, fewest := -1, 0, 0.0, n
		for i := range w {
			for k := range w {
				for _, d := range []float64{2, 4, 8, 12, 16, 24} {
					if i == k || w[i]-d < least[i] || w[k] >= nat[k] {
						continue
					}
					w[i], w[k] = w[i]-d, w[k]+d
					if m := t.cost(w, broken); m < fewest {
						from, to, wide, fewest = i, k, d, m
					}
					w[i], w[k] = w[i]+d, w[k]-d
				}
			}
		}
		if from < 0 {
			break
		}
		w[from], w[to], n = w[from]-wide, w[to]+wide, fewest
	}
	if sum > room+1e-9 { // even single words are too wide: all give way alike, words are broken
		for i := range w {
			w[i] *= room / sum
		}
	}
	return w
}

// shortCell is the width of a text that is read as one word, and broken over lines as late as can be.
const shortCell = 30.0

// cost weighs how the rows of a table stand in columns of given widths: three for every line, one for a short
// text that is broken over lines. broken keeps what it found for cells that are.
func (t *Table) cost(w []float64, broken map[[3]int]int) int {
	sum := 0
	for k, r := range t.Rows {
		most := 1
		for i, c := range r.Cells {
			if i >= len(w) || w[i] <= 0 || c.wide <= w[i] {
				continue
			}
			at := [3]int{k, i, int(w[i] * 20)}
			n, ok := broken[at]
			if !ok {
				n = c.set.count(w[i])
				broken[at] = n
			}
			most = max(most, n)
			if c.wide <= shortCell {
				sum++
			}
		}
		sum += 3 * most
	}
	return sum
}

// longestWord gives the width of the widest piece of a text that is not broken over lines: a word, or a
// figure with its unit.
func longestWord(text string, bold bool) float64 {
	w := 0.0
	for _, x := range words(text) {
		t := Text{Text: x, Size: BodyCap, Bold: bold}
		w = max(w, t.Width()+0.01)
	}
	return w
}

// Table sets a table; its head is repeated on every sheet it runs on to. Rows are never
// broken over sheets unless one alone is higher than a sheet.
func (f *Flow) Table(t Table) {
	t = f.saidTable(t)
	w := t.set
	if w == nil {
		w = t.widths(f.Width())
	}
	x := make([]float64, len(w)+1)
	for i := range w {
		x[i+1] = x[i] + w[i] + cellGap
	}
	wide := x[len(w)] - cellGap
	head, named := t.head()
	rule := func(s *Sheet, l Line, ink Ink) {
		s.Poly(l, Pt(f.area.X, f.y), Pt(f.area.X+wide, f.y)).Ink = ink
	}
	set := func(s *Sheet, r Row, lines [][]string, h float64, top bool) {
		for i, ls := range lines {
			x0 := f.area.X + x[i]
			if i < len(r.Cells) && r.Cells[i].Tick {
				s.Checkbox(Pt(x0+(w[i]-3.2)/2*alignShare(t.Columns[i].Align), f.y+cellPad+BodyCap+0.35), 3.2)
				continue
			}
			y := f.y + cellPad + BodyCap
			if top { // heads stand on the rule
				y = f.y + h - cellPad - float64(len(ls)-1)*f.lead()
			}
			for _, l := range ls {
				tx := s.Text(Pt(x0+w[i]*alignShare(t.Columns[i].Align)/2, y), BodyCap, l, t.Columns[i].Align)
				tx.Bold, tx.Ink = r.Cells[i].Bold || r.Total, r.Cells[i].Ink
				y += f.lead()
			}
			if r.Cells[i].Link != "" {
				s.Link(Rect{x0, f.y, w[i], h}, r.Cells[i].Link)
			}
		}
		f.y += h
	}
	headLines, headH := t.wrap(head, true, w, f.lead())
	putHead := func(s *Sheet, begun bool) {
		if begun && t.Again != "" {
			s.Text(Pt(f.area.X, f.y+BodyCap+1), BodyCap, t.Again, Start).Bold = true
			f.y += BodyLine
		}
		if named {
			set(s, head, headLines, headH, true)
			rule(s, Edge, Black)
		} else {
			rule(s, Narrow, Black)
		}
	}
	var s *Sheet
	for i, r := range t.Rows {
		lines, h := t.wrap(r, false, w, f.lead())
		ask := h + 0.2
		with := 0 // rows that stay with it: the first of a group with its name, a sum, and the last, so that it heads no sheet alone
		if n := len(t.Rows) - i - 1; n == 2 && t.Rows[i+1].Group != "" {
			with = 2
		} else if n == 1 || n > 0 && (r.Group != "" || t.Rows[i+1].Total) {
			with = 1
		}
		for _, x := range t.Rows[i+1 : i+1+with] {
			_, next := t.wrap(x, false, w, f.lead())
			ask += next
		}
		if i == 0 {
			n := len(f.sheets)
			more := min(20, float64(len(t.Rows)-1)*h)
			if t.Soon && len(t.Rows) > 1 {
				_, next := t.wrap(t.Rows[1], false, w, f.lead())
				more = min(more, next)
			}
			s = f.need(headH + ask + more)
			putHead(s, len(f.sheets) > n)
		} else if f.y+ask > f.area.Bottom() {
			rule(s, Narrow, Black)
			f.Break()
			s = f.need(0)
			putHead(s, true)
		}
		if r.Name != "" {
			s.Anchor(r.Name, Pt(f.area.X, f.y))
		}
		switch {
		case r.Group != "":
			f.y += 1.5
			for k, l := range lines[0] {
				s.Text(Pt(f.area.X, f.y+cellPad+BodyCap+float64(k)*f.lead()), BodyCap, l, Start).Bold = true
			}
			f.y += h - 1.5
		default:
			if r.Total {
				rule(s, Narrow, Black)
			}
			set(s, r, lines, h, false)
		}
		if i+1 < len(t.Rows) && !t.Rows[i+1].Total {
			rule(s, Rule, Light)
		}
	}
	if s != nil {
		rule(s, Narrow, Black)
	}
	f.y += 3
}

// head gives the row of heads, and whether any column has one.
func (t *Table) head() (head Row, named bool) {
	for _, c := range t.Columns {
		head.Cells = append(head.Cells, Cell{Text: c.Head, Bold: true})
		named = named || c.Head != ""
	}
	return head, named
}

// wrap breaks the cells of a row into lines of a pitch in columns of given widths, and says how high the row is.
func (t *Table) wrap(r Row, head bool, w []float64, pitch float64) (lines [][]string, h float64) {
	if r.Group != "" {
		wide := -cellGap
		for _, x := range w {
			wide += x + cellGap
		}
		l := Wrap(r.Group, BodyCap, true, wide)
		return [][]string{l}, float64(len(l)-1)*pitch + BodyCap + 2*cellPad + 1.5
	}
	most := 1
	for i := range w {
		var l []string
		switch {
		case i >= len(r.Cells) || r.Cells[i].Tick:
		case r.spills(i) && t.Columns[i].Align == End:
			l = []string{r.Cells[i].Text}
		default:
			l = Wrap(r.Cells[i].Text, BodyCap, head || r.Cells[i].Bold || r.Total, w[i])
		}
		lines = append(lines, l)
		most = max(most, len(l))
	}
	return lines, float64(most)*pitch + 2*cellPad - (pitch - BodyCap)
}

// alignShare is 0, 1 or 2 halves of a width.
func alignShare(a Align) float64 { return float64(a) }

// saidTable gives a table in the language of the paper.
func (f *Flow) saidTable(t Table) Table {
	if f.Say == nil || t.said {
		return t
	}
	columns, rows := slices.Clone(t.Columns), slices.Clone(t.Rows)
	for i := range columns {
		columns[i].Head = f.Say(columns[i].Head)
	}
	for i := range rows {
		rows[i].Group = f.Say(rows[i].Group)
		rows[i].Cells = slices.Clone(rows[i].Cells)
		for k := range rows[i].Cells {
			rows[i].Cells[k].Text = f.Say(rows[i].Cells[k].Text)
		}
	}
	t.Columns, t.Rows, t.Again, t.said = columns, rows, f.Say(t.Again), true
	return t
}
