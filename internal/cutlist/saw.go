package cutlist

import (
	"cmp"
	"fmt"
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
	return handHeld
}

const handHeld = "hand-held saw"

// ByGauge reports whether a cut is made against the mitre gauge of a table saw: the piece would lie along the
// fence with its short side, where it turns and is thrown back (common practice, no source).
func ByGauge(pr stock.Practice, c cutting.Cut) bool {
	if c.Hand || c.Work == cutting.Trimming || BreakDown(pr).Kind != "table-saw" || Small(pr, c) {
		return false
	}
	along, across := c.Sides()
	return along < across
}

// Small reports whether a cut is of a piece so short both ways that hands have no place on it beside a blade, as LeastHeld
// has it for sticks: it is clamped on a sled, and a saw that is led over it gets a bed of offcuts. A hand saw cuts it as
// anything.
func Small(pr stock.Practice, c cutting.Cut) bool {
	k := BreakDown(pr).Kind
	return max(c.Of.L, c.Of.W) < LeastHeld && k != "hand" && k != ""
}

// Wasted reports whether what a cut's setting measures is nothing but scrap, as no part has its size from the other side either.
func Wasted(s cutting.Sheet, c cutting.Cut) bool {
	set := c.Of
	if c.Axis == cutting.X {
		if set.L = c.At - c.Of.X; set.L != c.Setting {
			set.X, set.L = c.At+c.Kerf, c.Of.X+c.Of.L-c.At-c.Kerf
		}
	} else if set.W = c.At - c.Of.Y; set.W != c.Setting {
		set.Y, set.W = c.At+c.Kerf, c.Of.Y+c.Of.W-c.At-c.Kerf
	}
	for _, k := range c.Leaves {
		if o := s.Offcuts[k]; o.Scrap && o.Rect == set {
			return true
		}
	}
	return false
}

// Shaving reports whether a cut leaves nothing on one side of the blade but dust: the piece is larger than its setting by no
// more than the blade is wide.
func Shaving(c cutting.Cut) bool {
	from, to := c.Of.X, c.Of.X+c.Of.L
	if c.Axis == cutting.Y {
		from, to = c.Of.Y, c.Of.Y+c.Of.W
	}
	return c.Work > cutting.Recut && (c.At+c.Kerf >= to || c.At <= from)
}

// ShavingWord is how the tables of cuts call such a cut, and ShavingHow what has to be known of it (common practice, no source).
const (
	ShavingWord = "shaving"
	ShavingHow  = "Shaving: the piece is larger than the setting by no more than the blade is wide, which cuts on one side only: keep the piece hard against the fence or stop, and do not halt on the way."
)

// Holder is how small pieces are held at the saw of a practice: the word for the work, the tool that it takes, "" for
// none, and what has to be known of it (common practice, no source).
func Holder(pr stock.Practice, least string) (work, tool, how string) {
	switch BreakDown(pr).Kind {
	case "table-saw":
		return "on the sled", "sled with toggle clamps", fmt.Sprintf("On the sled: a piece under %s both ways, where neither hand nor push stick has a place beside the blade. It never goes along the fence nor against the bare gauge: clamp it with toggle clamps on a sled, a flat board that runs in the table's slots with a straight fence across, the kept side against a stop at the setting, and keep both hands at the sled's ends. Without one saw it by hand beside the line, in a vice, and plane to the line.", least)
	case "panel-saw":
		return "clamped", "toggle clamps", fmt.Sprintf("Clamped: a piece under %s both ways, where no hand has a place beside the blade. It never goes along the fence: clamp it down on the sliding table against a stop at the setting, and keep both hands off it. Or saw it by hand beside the line, in a vice, and plane to the line.", least)
	}
	return "on a bed", "double-sided tape", fmt.Sprintf("On a bed: a piece under %s both ways carries neither saw nor straightedge. Lay it on scrap between two offcuts as thick as it, all stuck down with double-sided tape, so that the straightedge lies on them; or saw it by hand beside the line, in a vice, and plane to the line.", least)
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
