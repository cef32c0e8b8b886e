package draw

import "math"

// columnRows is how many rows of a table stand in a column at least, for it to begin on a sheet.
const columnRows = 4

// TableColumns sets a narrow table in n columns beside each other, each with its head: sheet by sheet, down
// the first column, then down the next. The last columns end at one height.
func (f *Flow) TableColumns(t Table, n int, gap float64) {
	t = f.saidTable(t)
	wide := (f.Width() - gap*float64(n-1)) / float64(n)
	t.set = t.widths(wide)
	head, _ := t.head()
	_, top := t.wrap(head, true, t.set, f.lead())
	high := make([]float64, len(t.Rows))
	for i, r := range t.Rows {
		_, high[i] = t.wrap(r, false, t.set, f.lead())
	}
	const below = 3.2 // under the last row
	// goesOn gives the name of the group that a row goes on with, which stands at the head of its column, -1 for none
	goesOn := func(row int) int {
		for i := row; i >= 0 && i < len(t.Rows); i-- {
			if t.Rows[i].Group != "" {
				return map[bool]int{true: -1, false: i}[i == row]
			}
		}
		return -1
	}
	// fill gives the row behind the last of each column, and how high the highest is
	fill := func(from int, room float64) (ends []int, most float64) {
		for range n {
			used := top + below
			i := from
			if goesOn(from) >= 0 {
				used += high[goesOn(from)]
			}
			for i < len(t.Rows) && used+high[i] <= room {
				used += high[i]
				i++
			}
			for i > from && i < len(t.Rows) && t.Rows[i-1].Group != "" { // its name stays with its first row
				i--
				used -= high[i]
			}
			ends, from, most = append(ends, i), i, max(most, used)
		}
		return ends, most
	}
	for from := 0; from < len(t.Rows); {
		f.open()
		room := f.Left()
		ends, most := fill(from, room)
		if ends[0]-from < min(columnRows, (len(t.Rows)-from+n-1)/n) && !f.Top() {
			f.Break()
			f.Height()
			continue
		}
		if ends[0] == from { // a row that is higher than a sheet
			f.Table(Table{Columns: t.Columns, Rows: t.Rows[from:]})
			return
		}
		for ends[n-1] == len(t.Rows) {
			try, lower := fill(from, most-1)
			if try[n-1] < len(t.Rows) || lower >= most {
				break
			}
			ends, most = try, lower
		}
		f.Block(most, func(s *Sheet, r Rect) {
			first := from
			for i, end := range ends {
				if end > first {
					x := t
					x.Rows = t.Rows[first:end]
					if g := goesOn(first); g >= 0 {
						x.Rows = append([]Row{t.Rows[g]}, x.Rows...)
					}
					within(f, s, Rect{r.X + float64(i)*(wide+gap), r.Y, wide, math.MaxInt32}).Table(x)
				}
				first = end
			}
		})
		from = ends[n-1]
	}
}
