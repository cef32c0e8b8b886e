package job

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"stowright/internal/fitting"
	"stowright/internal/length"
	"stowright/internal/schema"
	"stowright/internal/source"
)

// Question is one thing that `stowright new` asks.
type Question struct {
	Key     string // of the answer
	Ask     string
	Default string // taken for an empty answer
	Eg      string
}

// Questions are what is needed to start a job, in order: few, since a file is easier to correct
// than a dialogue.
func Questions() []Question {
	return []Question{
		{"name", "What is the job called?", "Workshop storage", ""},
		{"unit", "Inches or millimetres (in, mm)?", "in", ""},
		{"wall", "How long is the wall?", "10 ft", "12 ft 6 in, or 3 800 mm"},
		{"studs", "How far apart are its studs, or is it masonry, concrete, or not known?", "not-known", "16 in, masonry"},
		{"bench", "A bench over the cases: standing, sitting, or none?", "standing", ""},
		{"goods", "What is to be stored, and how many of each? Separate by commas.", "", "20 quart-can, 12 spray-can, 6 toolbox-20in"},
	}
}

// start is what the answers come to.
type start struct {
	name, kind, bench string
	unit              length.Unit
	wall, spacing     L
	goods             []source.Entry // key: container, value: count
}

// Start writes a job from answers by the keys of Questions; an empty or absent answer takes its
// default. Mistakes are given by key, each in words to show before the question is asked again;
// with any, there is no text.
func Start(answers map[string]string, shipped *source.Node) (text string, mistakes map[string]string) {
	mistakes = map[string]string{}
	a := map[string]string{}
	for _, q := range Questions() {
		a[q.Key] = strings.TrimSpace(answers[q.Key])
		if a[q.Key] == "" {
			a[q.Key] = q.Default
		}
	}
	s := start{name: a["name"], bench: a["bench"], kind: "not-known"}
	if len(s.name) > 100 || strings.ContainsAny(s.name, "\n\r") {
		mistakes["name"] = "a name is one line of at most 100 letters"
	}
	var err error
	if s.unit, err = length.ParseUnit(a["unit"]); err != nil {
		mistakes["unit"] = "write in or mm"
	}
	if s.wall, err = length.Parse(a["wall"], s.unit); err != nil {
		mistakes["wall"] = err.Error()
	} else if s.wall < 12*length.Inch || s.wall > 100_000*length.MM {
		mistakes["wall"] = "a wall is between 1 ft and 100 m long"
	}
	switch k := source.Normal(a["studs"]); k {
	case "masonry", "concrete", "steel-stud", "not-known":
		s.kind = k
	default:
		s.kind = "stud"
		if s.spacing, err = length.Parse(a["studs"], s.unit); err != nil {
			mistakes["studs"] = "write how far apart they are, like 16 in; or masonry, concrete, steel-stud, not-known"
		} else if s.spacing < 4*length.Inch || s.spacing > 1500*length.MM {
			mistakes["studs"] = "studs are between 4 in and 1.5 m apart"
		}
	}
	if !slices.Contains([]string{"standing", "sitting", "none"}, s.bench) {
		mistakes["bench"] = "write standing, sitting or none"
	}
	if m := s.list(a["goods"], shipped.Get("containers")); m != "" {
		mistakes["goods"] = m
	}
	if len(mistakes) > 0 {
		return "", mistakes
	}
	return s.text(), nil
}

// list reads "20 quart-can, 12 spray-can".
func (s *start) list(answer string, known *source.Node) string {
	var names []string
	for _, e := range entries(known) {
		names = append(names, e.Key)
	}
	for _, item := range strings.Split(answer, ",") {
		f := strings.Fields(item)
		if len(f) == 0 {
			continue
		}
		n, err := strconv.Atoi(f[0])
		if err != nil || n < 1 || n > 10_000 || len(f) < 2 {
			return fmt.Sprintf("%q: write how many and of what, like 20 quart-can", short(strings.TrimSpace(item)))
		}
		what := source.Normal(strings.Join(f[1:], " "))
		if !slices.Contains(names, what) {
			return fmt.Sprintf("no container %q is known: %s. Anything else is easily added to the file", short(what), choices(what, names))
		}
		if slices.ContainsFunc(s.goods, func(e source.Entry) bool { return e.Key == what }) {
			return fmt.Sprintf("%q is there twice", what)
		}
		s.goods = append(s.goods, source.Entry{Key: what, Value: &source.Node{Kind: source.Number, Text: strconv.Itoa(n)}})
	}
	if len(s.goods) > 50 {
		return "start with at most 50 kinds; more are easily added to the file"
	}
	return ""
}

// text writes the job. Its cases are such that they hold: no drawer wider than its slides bear, no
// door wider than its hinges, and stated loads that slides, shelves and feet carry with something
// in hand, also under a bench.
func (s *start) text() string {
	var b strings.Builder
	p := func(format string, args ...any) { fmt.Fprintf(&b, format, args...) }
	inch := s.unit == length.Inches
	unit, family, currency, wide, knees, free := "mm", "metric-bench", "EUR", 500*length.MM, 650*length.MM, 25*length.MM
	all, each := "40 kg", "15 kg" // in drawers or trays; on a shelf
	if inch {
		unit, family, currency, wide, knees, free = "in", "inch-bench", "USD", 21*length.Inch, 27*length.Inch, 1*length.Inch
		all, each = "160 lb", "60 lb"
	}
	p("# Started by stowright new. A bare number is in %s; write 30 1/4 in, 2' 6\" or 762 mm anywhere.\n", map[bool]string{true: "inches", false: "millimetres"}[inch])
	p("stowright: 1\nname: %s\nunit: %s\ncurrency: %s\n\n", strconv.Quote(s.name), unit, currency)
	p("# The shop: from inch-shop, metric-shop or saw-and-drill, and below it what differs.\npractice:\n  from: %s\n\n", map[bool]string{true: "inch-shop", false: "metric-shop"}[inch])
	p("walls:\n  wall:\n    length: %s\n    # height: floor to ceiling\n    kind: %s\n", s.wall.Exact(s.unit), s.kind)
	if s.kind == "stud" {
		p("    studs:\n      spacing: %s\n      # first: centre of the first stud from the left end; until it is measured no screw can be placed\n", s.spacing.Exact(s.unit))
	}
	middle := s.wall / 2 / length.MM // in whole numbers of the unit
	outlet, heights := "up: 1100, width: 80, height: 120", "[0, 3, -2]"
	if inch {
		middle = s.wall / 2 / length.Inch
		outlet, heights = "up: 44, width: 3, height: 4 1/2", "[0, 1/8, -1/8]"
	}
	p("    # keep-clear:\n    #   outlet: {kind: outlet, at: %d, %s}\n    # floor: {every: %d, at-wall: %s}   # heights at the wall, for feet and shims\n\n", middle, outlet, middle, heights)
	count := int((s.wall - 2*free) / wide)
	patterns := []string{"floor-drawers", "floor-shelves", "floor-trays"}
	if s.bench == "sitting" { // too low for doors of that width, and with a space for knees
		patterns = []string{"floor-drawers", "floor-open", "floor-open"}
		if count >= 3 {
			count = max(2, int((s.wall-2*free-knees)/wide)+1)
		}
	}
	count = max(1, min(count, 6))
	if s.wall < wide+2*free { // a wall shorter than one case and its fillers
		wide = max(leastCase, s.wall-2*free)
	}
	if !inch && s.bench == "sitting" { // whole steps of 32 mm for the fronts
		p("# What all cases share, where it differs from what is shipped: the line of their tops.\nfamilies:\n  %s: {top-line: 676 mm, stands-on: {kind: toe, height: 100 mm, recess: 60 mm}}\n\n", family)
	}
	p("# Each case derives from a shipped pattern and says what differs. load: what you put in all its\n# drawers or trays together, or on its floor and on each of its shelves: write yours.\ncases:\n")
	var ids []string
	knee := -1
	if s.bench == "sitting" && count >= 3 {
		knee = 1
	}
	for i := range count {
		if i == knee {
			ids = append(ids, "")
			continue
		}
		id := fmt.Sprintf("case %d", i+1)
		ids = append(ids, id)
		p("  %s: {pattern: %s, family: %s, width: %s", id, patterns[i%len(patterns)], family, wide.Exact(s.unit))
		if s.bench == "sitting" {
			p(", height: %s", map[bool]string{true: "27 1/2 in", false: "676 mm"}[inch])
		}
		switch pattern := patterns[i%len(patterns)]; {
		case pattern == "floor-drawers" && s.bench == "sitting" && !inch:
			p(", inside: {load: %s, drawers: {count: 3}}", all)
		case pattern == "floor-drawers" || pattern == "floor-trays":
			p(", inside: {load: %s}", all)
		default:
			p(", inside: {load: %s}", each)
		}
		if i == 0 || i == count-1 {
			var sides []string
			if i == 0 {
				sides = append(sides, "left")
			}
			if i == count-1 {
				sides = append(sides, "right")
			}
			p(", exposed: [%s]", strings.Join(sides, ", "))
		}
		p("}\n")
	}
	p("\nruns:\n  floor:\n    wall: wall\n    start: %s\n    order:\n", free.Exact(s.unit))
	for _, id := range ids {
		if id == "" {
			p("      - knee: {width: %s, sits: yes}\n", knees.Exact(s.unit))
		} else {
			p("      - case: %s\n", id)
		}
	}
	if s.bench != "none" {
		board := map[bool]string{true: "maple-three-quarter", false: "birch-18"}[inch]
		p("\ncounters:\n  bench:\n    over: [floor]\n    layers: [{board: %s}, {board: %s}]\n    work: %s\n", board, board, map[string]string{"standing": "standing-light", "sitting": "sitting"}[s.bench])
		if knee >= 0 {
			p("    rails: {height: %s}\n", map[bool]string{true: "1 1/2 in", false: "45 mm"}[inch])
		}
	}
	if len(s.goods) > 0 {
		p("\n# `like` takes size and weight from a shipped container; measure yours.\ngoods:\n")
		for _, g := range s.goods {
			p("  %s: {like: %s, count: %s}\n", g.Key, g.Key, g.Value.Text)
		}
	} else {
		p("\n# goods:\n#   quarts: {like: quart-can, count: 20, used: weekly}\n")
	}
	return b.String()
}

// Schema gives the JSON Schema of a job file for editors.
func Schema(kinds fitting.Set) []byte {
	return schema.JSON(File{}, "Stowright job", Options(kinds))
}
