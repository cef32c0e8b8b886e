package cutlist

import (
	"cmp"
	"strings"

	"stowright/internal/length"
	"stowright/internal/stock"
)

// Saw is the saw that cuts sheets to parts in a shop.
type Saw struct {
	Name    string // "" where the shop has none
	Kind    string
	Kerf    L
	Assumed bool // its kerf is not stated
}

// Kerfs that are reckoned where none is stated (common practice, no source).
const (
	usualKerf = length.Inch / 8
	handKerf  = length.Inch / 16
)

// BreakDown gives the saw of a practice that cuts sheets: a panel saw before a table saw, a track saw and a circular
// saw, and a hand saw where there is no other. Of each kind one with a stated kerf is taken first.
func BreakDown(pr stock.Practice) Saw {
	for _, k := range [...]string{"panel-saw", "table-saw", "track-saw", "circular-saw", "hand"} {
		best := Saw{}
		for _, t := range pr.Tools {
			name := cmp.Or(t.Name, t.ID)
			switch {
			case t.Kind != k || k == "hand" && t.Kerf == nil && !strings.Contains(strings.ToLower(name), "saw"):
			case t.Kerf != nil && (best.Name == "" || best.Assumed):
				best = Saw{name, k, *t.Kerf, false}
			case best.Name == "" && k == "hand":
				best = Saw{name, k, handKerf, true}
			case best.Name == "":
				best = Saw{name, k, usualKerf, true}
			}
		}
		if best.Name != "" {
			return best
		}
	}
	return Saw{Kerf: usualKerf, Assumed: true}
}
