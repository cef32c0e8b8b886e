package view

import (
	"strings"

	"stowright/internal/draw"
	"stowright/internal/length"
)

// Units says what sizes are printed in, and whether the other unit stands behind them in
// brackets.
type Units struct {
	length.Unit
	Too bool
}

// Mark prints a size for a dimension: as a tape shows it, and in the other unit where both are
// asked for and there is room.
func (u Units) Mark(l L) string { return l.Marked(u.Unit) + u.more(l) }

// Sized prints a size of what is made for a dimension, as tables print it: Mark, with the exact size
// behind it where a tape does not show it and there is room.
func (u Units) Sized(l L) string {
	if _, exact, ok := strings.Cut(Sure(l, Units{Unit: u.Unit}), " ("); ok && !u.Too {
		return l.Marked(u.Unit) + draw.More + " (" + exact
	}
	return u.Mark(l)
}

// more gives the other unit as what a dimension prints where it has room.
func (u Units) more(l L) string {
	if !u.Too {
		return ""
	}
	return draw.More + " (" + u.Other(l) + ")"
}

// Other prints a size in the other unit: to 0.1 mm, or as an inch tape shows it.
func (u Units) Other(l L) string {
	if u.Unit == length.Inches {
		return l.Near(length.MM / 10).MM()
	}
	return l.Marked(length.Inches)
}

// String names the units for a title block.
func (u Units) String() string {
	switch {
	case !u.Too && u.Unit == length.Inches:
		return "inches"
	case !u.Too:
		return "mm"
	case u.Unit == length.Inches:
		return "in (mm)"
	}
	return "mm (in)"
}
