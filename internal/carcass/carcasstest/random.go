package carcasstest

import (
	"fmt"

	"pgregory.net/rapid"

	"stowright/internal/carcass"
	"stowright/internal/fitting"
	"stowright/internal/schema"
)

// Case is one random case with the shop and the place it is built in.
type Case struct {
	Env  fitting.Env
	Spec carcass.Spec
	Site carcass.Site
	Seen map[string]bool // what came up, for tests that nothing is left out
}

// Words lists everything that a generator must reach, fittings by name.
func Words(kinds Set) []string {
	w := []string{
		"joint pocket-screw", "joint connecting-screw", "joint dowel", "joint dado", "joint wood-screw",
		"back captured", "back applied", "back full", "back none", "top full", "top stretchers",
		"stands toe", "stands feet", "stands toe-feet", "stands base", "stands castors", "stands floor",
		"hangs rail", "hangs cleat", "unit mm", "unit in", "across", "up", "one door", "two doors", "site base", "joined", "end panel",
	}
	for _, k := range kinds {
		w = append(w, "fitting "+k.Name)
	}
	return w
}

// Draw gives a random case. Sizes are whole millimetres or sixteenths.
func Draw(t *rapid.T, kinds Set) Case {
	c := Case{Seen: map[string]bool{}}
	pick := func(label string, of ...string) string {
		s := rapid.SampledFrom(of).Draw(t, label)
		c.Seen[label+" "+s] = true
		return s
	}
	c.Env = Metric()
	unit := mm
	if pick("unit", "mm", "in") == "in" {
		c.Env, unit = Inch(), in/16
	} else if rapid.IntRange(0, 5).Draw(t, "one saw") == 0 {
		c.Env = OneSaw()
	}
	size := func(label string, lo, hi L) *L {
		l := L(rapid.Int64Range(int64(lo/unit), int64(hi/unit)).Draw(t, label)) * unit
		return &l
	}
	s := &c.Spec
	s.Width, s.Height, s.Depth = size("width", 300*mm, 1100*mm), size("height", 450*mm, 2100*mm), size("depth", 300*mm, 620*mm)
	s.Joint = pick("joint", "pocket-screw", "connecting-screw", "dowel", "dado", "wood-screw")
	s.Back = pick("back", "captured", "applied", "full", "none")
	s.Level = rapid.SampledFrom([]string{"floor", "wall"}).Draw(t, "level")
	if s.Level == "wall" {
		s.Hangs.Kind = pick("hangs", "rail", "cleat")
	} else {
		s.Top = pick("top", "full", "stretchers")
		s.Stands.Kind = pick("stands", "toe", "feet", "toe-feet", "base", "castors", "floor")
		if s.Stands.Kind == "base" {
			c.Site.Base = 89 * mm
			c.Seen["site base"] = true
		}
		if s.Stands.Kind == "castors" {
			s.Loose = "rolls"
		}
	}
	if rapid.IntRange(0, 3).Draw(t, "join") == 0 {
		c.Site.JoinLeft, c.Site.JoinRight, c.Seen["joined"] = true, true, true
	}
	if rapid.IntRange(0, 4).Draw(t, "panel") == 0 {
		s.EndPanels, c.Seen["end panel"] = []string{"left"}, true
	}
	if rapid.IntRange(0, 3).Draw(t, "shows") == 0 {
		s.Exposed = []string{"right", "bottom"}
	}
	s.Inside = drawBay(t, &c, kinds, 2, false)
	return c
}

func drawBay(t *rapid.T, c *Case, kinds Set, deep int, behind bool) carcass.Bay {
	var b carcass.Bay
	what := "fitting"
	if deep > 0 {
		what = rapid.SampledFrom([]string{"fitting", "across", "up", "fitting"}).Draw(t, "bay")
	}
	if !behind && rapid.IntRange(0, 2).Draw(t, "doors") == 0 {
		b.Doors = &carcass.Doors{Count: rapid.IntRange(0, 2).Draw(t, "leaves"), Hinge: rapid.SampledFrom([]string{"", "left", "right"}).Draw(t, "hinge")}
		b.Doors.Lock = rapid.Bool().Draw(t, "lock")
		if rapid.IntRange(0, 3).Draw(t, "wide") == 0 {
			b.Doors.Hinges = "h155"
		}
		if b.Doors.Count == 1 {
			c.Seen["one door"] = true
		} else if b.Doors.Count == 2 {
			c.Seen["two doors"] = true
		}
		behind = true
	}
	switch what {
	case "fitting":
		k := rapid.SampledFrom(kinds).Draw(t, "kind")
		c.Seen["fitting "+k.Name] = true
		b.Fitting = schema.Plug{Kind: k.Name, Value: k.New()}
	default:
		c.Seen[what] = true
		n := rapid.IntRange(2, 3).Draw(t, "bays")
		list := make([]carcass.Bay, n)
		for i := range list {
			list[i] = drawBay(t, c, kinds, deep-1, behind)
		}
		if what == "across" {
			b.Across = list
		} else {
			b.Up = list
		}
	}
	return b
}

// String gives the case for a failing test.
func (c Case) String() string {
	return fmt.Sprintf("%s: %+v at %+v", c.Env.Practice.ID, c.Spec, c.Site)
}
