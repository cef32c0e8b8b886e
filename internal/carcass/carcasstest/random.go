package carcasstest

import (
	"fmt"

	"pgregory.net/rapid"

	"stowright/internal/carcass"
	"stowright/internal/fitting"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/schema"
	"stowright/internal/source/yaml"
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
		"hangs rail", "hangs cleat", "unit mm", "unit in", "across", "up", "one door", "two doors", "site base", "end panel",
		"grain upright", "grain level", "grain either", "cut-out", "notch", "large", "clean",
	}
	for _, k := range kinds {
		w = append(w, "fitting "+k.Name)
		for _, o := range options(k.Name) {
			w = append(w, k.Name+" "+o)
		}
	}
	return w
}

// options gives settings of a fitting, as a job writes them, that change what is built.
func options(kind string) []string {
	return map[string][]string{
		"shelves":        {"count: 4", "count: 3\nfixed: yes", "count: 2\ndepth: half", "count: 3\npart-depth: 180 mm", "count: 2\nstrip: yes"},
		"dividers":       {"count: 5\npitch: 40 mm", "count: 9"},
		"drawers":        {"count: 4\nlock: yes", "count: 3\nfronts: arithmetic\nstep: 20 mm", "count: 4\nfronts: geometric", "count: 2\none-at-a-time: yes", "count: 2\nslide: under-m", "count: 1"},
		"trays":          {"count: 3", "count: 1\nlip: 40 mm"},
		"hanging":        {"rail-below-top: 80 mm"},
		"can-shelves":    {"tiers: 2", "diameter: 55 mm\nheight: 120 mm"},
		"can-rack":       {"rows: 2", "diameter: 90 mm\nheight: 110 mm"},
		"bottle-rack":    {"rows: 2"},
		"cartridge-rack": {"diameter: 40 mm\nrows: 2"},
		"box-holder":     {"count: 1"},
	}[kind]
}

// plug gives a fitting with its defaults, or with one of its settings.
func plug(t *rapid.T, c *Case, k fitting.Kind) schema.Plug {
	v := k.New()
	list := append([]string{""}, options(k.Name)...)
	if o := rapid.SampledFrom(list).Draw(t, "setting"); o != "" {
		c.Seen[k.Name+" "+o] = true
		n, _ := yaml.Read("setting", []byte(o+"\n"))
		if p := schema.Decode(n, v, schema.Options{Unit: length.Millimetres}); len(p) > 0 {
			panic(fmt.Sprintf("carcasstest: %s: %s: %v", k.Name, o, p))
		}
	}
	return schema.Plug{Kind: k.Name, Value: v}
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
	if rapid.IntRange(0, 7).Draw(t, "large") == 0 { // larger than a sheet is wide: the back is divided
		c.Seen["large"] = true
		s.Width, s.Height = size("width", 1300*mm, 1700*mm), size("height", 1300*mm, 2300*mm)
	}
	s.Grain = pick("grain", "upright", "level", "either")
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
	if rapid.IntRange(0, 4).Draw(t, "panel") == 0 {
		s.EndPanels, c.Seen["end panel"] = []string{"left"}, true
	}
	if rapid.IntRange(0, 3).Draw(t, "shows") == 0 {
		s.Exposed, c.Seen["clean"] = []string{"right", "bottom"}, true
	}
	if rapid.IntRange(0, 4).Draw(t, "outlet") == 0 { // behind it, whole or over an edge of its back
		x, z := *size("outlet along", 0, *s.Width), *size("outlet up", 0, *s.Height)
		c.Site.Cutouts, c.Seen["cut-out"] = []geom.Box{geom.B(x-50*mm, *s.Depth-25*mm, z-50*mm, x+50*mm, *s.Depth, z+50*mm)}, true
	}
	if rapid.IntRange(0, 4).Draw(t, "pipe") == 0 {
		out, up := *size("pipe out", 5*mm, 60*mm), *size("pipe up", 20*mm, 120*mm)
		rear := *s.Depth
		c.Site.Notches, c.Seen["notch"] = []geom.Box{geom.B(-50*mm, rear-out-30*mm, 0, *s.Width+50*mm, rear, up)}, true
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
		b.Fitting = plug(t, c, k)
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
