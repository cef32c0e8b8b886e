package plan_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"

	"stowright/internal/builtin"
	"stowright/internal/fitting"
)

// writer makes up a job, as text, and remembers what came up.
type writer struct {
	*rand.Rand
	strings.Builder
	unit string // in, mm, or both: millimetres with inches between
	seen map[string]bool
	// exact writes every length as sixteenths, in inches or as millimetres with decimals, so that a
	// job in either is of the same sizes; "" for neither.
	exact string
	inch  bool // the shop's boards and hardware are inch ones

	// A handed job has one wall, and its mirror is drawn from the same numbers.
	handed, mirror bool

	walls  []*madeWall
	stages []string
	// what is written after the cases, which comes up while they are laid out
	runs, counters, bases, hutches, machines []string
	top, deep, wallDeep                      int // of the family
	stands                                   string
	n                                        int // of names
	lastCorner                               string
}

// madeWall is a wall being filled.
type madeWall struct {
	id         string
	length     int
	free, upto int // of the floor that is not taken yet
	gap        int // between two that stand
}

func random(seed uint64) *writer {
	return &writer{Rand: rand.New(rand.NewPCG(seed, 7)), seen: map[string]bool{}}
}

// hand gives a side as it is called in a mirror, where the job is one.
func (w *writer) hand(side string) string {
	if w.mirror {
		switch side {
		case "left":
			return "right"
		case "right":
			return "left"
		}
	}
	return side
}

// row gives entries from left to right.
func (w *writer) row(list []string) string {
	if w.mirror {
		list = slices.Clone(list)
		slices.Reverse(list)
	}
	return strings.Join(list, ", ")
}

func (w *writer) p(format string, args ...any) { fmt.Fprintf(&w.Builder, format, args...) }

// mm gives a length of so many millimetres in the job's unit: whole millimetres or sixteenths.
func (w *writer) mm(mm int) string {
	if w.exact == "mm" { // a sixteenth is 1.5875 mm
		n, sign := mm*16*10/254*15875, ""
		if n < 0 {
			n, sign = -n, "-"
		}
		return fmt.Sprintf("%s%d.%04d", sign, n/10000, n%10000)
	}
	if w.unit == "mm" || w.unit == "both" && w.IntN(2) == 0 {
		return fmt.Sprint(mm)
	}
	n, sign := mm*16*10/254, ""
	if n < 0 {
		n, sign = -n, "-"
	}
	s := sign + fmt.Sprintf("%d %d/16", n/16, n%16)
	if n%16 == 0 {
		s = sign + fmt.Sprint(n/16)
	} else if n < 16 {
		s = sign + fmt.Sprintf("%d/16", n)
	}
	if w.unit == "both" {
		s += " in"
	}
	return s
}

func (w *writer) between(lo, hi int) int { return lo + w.IntN(hi-lo+1) }

// size gives a length between two in millimetres, in the job's unit.
func (w *writer) size(lo, hi int) string { return w.mm(w.between(lo, hi)) }

func (w *writer) one(kind string, of ...string) string {
	s := of[w.IntN(len(of))]
	w.seen[kind+" "+s] = true
	return s
}

// yes is true once in so many times, and remembers it.
func (w *writer) yes(label string, in int) bool {
	y := w.IntN(in) == 0
	if y {
		w.seen[label] = true
	}
	return y
}

// fit gives a fitting with some of its options.
func (w *writer) fit(name string) string {
	var o []string
	add := func(format string, args ...any) { o = append(o, fmt.Sprintf(format, args...)) }
	if w.IntN(3) == 0 {
		return fmt.Sprintf("{%s: {}}", name)
	}
	switch name {
	case "shelves":
		add("count: %d", w.between(0, 5))
		if w.yes("fixed shelves", 3) {
			add("fixed: yes")
		}
		if w.yes("half shelves", 3) {
			add("depth: half")
		} else if w.yes("part shelves", 4) {
			add("part-depth: %s", w.size(120, 260))
		}
		if w.yes("strips", 4) {
			add("strip: yes")
		}
	case "dividers":
		add("count: %d", w.between(1, 8))
		if w.IntN(2) == 0 {
			add("pitch: %s", w.size(20, 64))
		}
	case "drawers":
		add("count: %d", w.between(1, 5))
		switch w.one("fronts", "equal", "arithmetic", "geometric", "given") {
		case "given":
			add("heights: [%s, %s]", w.size(80, 160), w.size(100, 250))
		case "arithmetic":
			add("fronts: arithmetic, step: %s", w.size(10, 30))
		case "geometric":
			add("fronts: geometric, ratio: 1.2")
		}
		if w.yes("under slides", 3) {
			add("slide: %s", map[bool]string{true: "under-slide-in", false: "under-slide"}[w.inch])
		}
		if w.yes("drawer lock", 4) {
			add("lock: yes")
		}
		if w.yes("one at a time", 4) {
			add("one-at-a-time: yes")
		}
	case "trays":
		add("count: %d", w.between(1, 4))
		if w.IntN(3) == 0 {
			add("lip: %s", w.size(30, 90))
		}
	case "hanging":
		add("rail-below-top: %s", w.size(50, 90))
	case "can-shelves":
		add("diameter: %s, height: %s", w.size(50, 66), w.size(120, 240))
		if w.IntN(2) == 0 {
			add("tiers: %d", w.between(1, 3))
		}
	case "can-rack":
		add("diameter: %s, height: %s, rows: %d", w.size(50, 100), w.size(90, 220), w.between(1, 2))
	case "bottle-rack":
		add("width: %s, depth: %s, height: %s", w.size(50, 90), w.size(40, 80), w.size(150, 260))
	case "cartridge-rack":
		add("diameter: %s, height: %s, rows: %d", w.size(35, 62), w.size(150, 240), w.between(1, 2))
	case "box-holder":
		add("width: %s, depth: %s, height: %s", w.size(80, 240), w.size(40, 90), w.size(80, 200))
	}
	return fmt.Sprintf("{%s: {%s}}", name, strings.Join(o, ", "))
}

func (w *writer) inside(depth int, doors bool, width int) string {
	if depth < 2 && w.IntN(3) == 0 && width > 500 {
		w.seen["across"] = true
		return fmt.Sprintf("{across: [%s]}", w.row([]string{w.inside(depth+2, doors, width/2), w.inside(depth+2, doors, width/2)}))
	}
	if depth < 2 && w.IntN(3) == 0 {
		w.seen["up"] = true
		return fmt.Sprintf("{up: [%s, %s]}", w.inside(depth+2, doors, width), w.inside(depth+2, doors, width))
	}
	var names []string
	for _, k := range builtin.Fittings() {
		if k.Where == fitting.InBay && (k.Name != "drawers" || !doors) {
			names = append(names, k.Name)
		}
	}
	return w.fit(w.one("fitting", names...))
}

// racks gives what hangs on a door, "" for nothing.
func (w *writer) racks(side string) string {
	if w.IntN(2) == 0 {
		return ""
	}
	var names []string
	for _, k := range builtin.Fittings() {
		if k.Where == fitting.OnDoor {
			names = append(names, k.Name)
		}
	}
	return fmt.Sprintf(", %s: [%s]", side, w.fit(w.one("fitting", names...)))
}

// body gives the rest of a case: joints, back, top and inside.
func (w *writer) body(wide int, wall bool) {
	doors := w.yes("doors", 2)
	if w.IntN(3) == 0 {
		w.p("    back: %s\n", w.one("back", "captured", "applied", "full", "none"))
	}
	if !wall && w.IntN(3) == 0 {
		w.p("    top: %s\n", w.one("top", "full", "stretchers"))
	}
	if w.IntN(3) == 0 {
		w.p("    joint: %s\n", w.one("joint", "pocket-screw", "connecting-screw", "dowel", "dado", "wood-screw"))
	}
	if w.IntN(5) == 0 {
		w.p("    grain: %s\n", w.one("grain", "upright", "level", "either"))
	}
	if w.IntN(6) == 0 {
		w.p("    exposed: [%s]\n", w.hand(w.one("exposed", "left", "right", "bottom", "top")))
	}
	if w.IntN(8) == 0 {
		w.p("    end-panels: [%s]\n", w.hand(w.one("end panel", "left", "right")))
	}
	in := w.inside(0, doors, wide)
	if doors {
		n := 1 + w.IntN(2)
		racks := w.racks("left")
		if n == 2 && w.mirror {
			racks = strings.Replace(racks, "left:", "right:", 1)
		}
		d := fmt.Sprintf("count: %d", n) + racks
		if w.IntN(3) == 0 || w.handed && n == 1 {
			d += fmt.Sprintf(", hinge: %s", w.hand(w.one("hinge", "left", "right")))
		}
		if w.yes("door lock", 4) && (!w.handed || n == 1) { // of a pair the right leaf locks
			d += ", lock: yes"
		}
		if w.yes("wide hinges", 6) {
			d += ", hinges: hinge-155"
		}
		in = strings.TrimSuffix(in, "}") + fmt.Sprintf(", doors: {%s}}", d)
	}
	w.p("    inside: %s\n", in)
}

func (w *writer) oneCase(id string, wide int, wall bool) {
	w.p("  %s:\n    width: %s\n    family: all\n", id, w.mm(wide))
	if !wall && w.yes("tall", 12) {
		w.p("    height: %s\n", w.size(1400, 2300))
	}
	if wall {
		w.p("    level: wall\n")
	}
	if len(w.stages) > 0 && w.IntN(2) == 0 {
		w.p("    stage: %s\n", w.stages[w.IntN(len(w.stages))])
	}
	w.body(wide, wall)
}
