package packet

import "slices"

// cardSheet is the cards of one sheet in columns, how high these are, and whether the sheet is a new
// one.
type cardSheet struct {
	columns [][]card
	high    float64
	fresh   bool
}

// without gives the cards of a list that stand on none of some sheets.
func without(list []card, sheets ...cardSheet) []card {
	stand := map[int]bool{}
	for _, s := range sheets {
		for _, c := range slices.Concat(s.columns...) {
			stand[c.at] = true
		}
	}
	return slices.DeleteFunc(slices.Clone(list), func(c card) bool { return stand[c.at] })
}

// stackCards fills sheets of n columns with cards, the first with less room, where it takes at least so many.
func stackCards(list []card, n, least int, first, whole float64) (out []cardSheet) {
	room := first
	for len(list) > 0 {
		columns, rest := fillColumns(list, n, room, false)
		fresh := false
		if len(rest) > len(list)-min(least, len(list)) {
			room, fresh = whole, true
			columns, rest = fillColumns(list, n, room, true)
		}
		var now []card
		for _, column := range columns {
			for _, c := range column {
				c.small = nil
				now = append(now, c)
			}
		}
		for high := room - 4; high > 20; high -= 4 { // columns of one height
			try, over := fillColumns(now, n, high, false)
			if len(over) > 0 {
				break
			}
			columns = try
		}
		sheet := cardSheet{columns: columns, fresh: fresh}
		for _, column := range columns {
			used := 0.0
			for _, c := range column {
				used += c.high
			}
			sheet.high = max(sheet.high, used)
		}
		out = append(out, sheet)
		list, room = rest, 0
	}
	return out
}

// fillColumns tells which cards n columns of a height take; force puts one at least into each. What goes on from a card
// never comes before it.
func fillColumns(list []card, n int, high float64, force bool) (columns [][]card, rest []card) {
	rest = list
	waits := map[int]bool{} // cards that are not put yet, by their place in the chapter
	for _, c := range list {
		waits[c.at] = true
	}
	for range n {
		used := 0.0
		var column, left []card
	cards:
		for _, c := range rest {
			if c.more && waits[c.at-1] {
				left = append(left, c)
				continue
			}
			for _, s := range append([]card{c}, c.small...) {
				if used+s.high <= high || used == 0 && force {
					s.small = c.small
					used += s.high
					column = append(column, s)
					delete(waits, c.at)
					continue cards
				}
			}
			left = append(left, c)
		}
		columns, rest = append(columns, column), left
	}
	return columns, rest
}
