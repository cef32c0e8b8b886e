package cutlist

import (
	"cmp"
	"strings"

	"stowright/internal/cutting"
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

// Led names the saw of a practice that is led along a straightedge, as its tools call it.
func Led(pr stock.Practice) string {
	for _, t := range pr.Tools {
		if t.Kind == "track-saw" || t.Kind == "circular-saw" {
			return cmp.Or(t.Name, t.ID)
		}
	}
	return "hand-held saw"
}

// ByGauge reports whether a cut is made against the mitre gauge of a table saw: the piece would lie along the
// fence with its short side, where it turns and is thrown back (common practice, no source).
func ByGauge(pr stock.Practice, c cutting.Cut) bool {
	if c.Hand || c.Work == cutting.Trimming || BreakDown(pr).Kind != "table-saw" {
		return false
	}
	if c.Axis == cutting.X {
		return c.Of.W < c.Of.L
	}
	return c.Of.L < c.Of.W
}

// Mitre names the mitre saw of a practice, "" for none.
func Mitre(pr stock.Practice) string {
	for _, t := range pr.Tools {
		if t.Kind == "mitre-saw" {
			return cmp.Or(t.Name, t.ID)
		}
	}
	return ""
}
