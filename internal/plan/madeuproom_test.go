package plan_test

import (
	"fmt"
	"strings"
)

// job makes up a whole job: one to three walls, what stands at them already, runs, counters,
// bases, hook boards, machines and stages.
func (w *writer) job() string {
	w.unit = w.one("unit", "in", "mm", "both")
	if w.handed {
		w.unit = "mm"
	}
	if w.exact != "" {
		w.unit = w.exact
	}
	practice := w.one("practice", "inch-shop", "metric-shop", "saw-and-drill")
	w.inch = practice == "inch-shop"
	unit := w.unit
	if unit == "both" {
		unit = "mm"
	}
	own := ""
	if w.IntN(2) == 0 {
		own = ", box-joint: " + w.one("box joint", "butt-screw", "pocket-screw", "rabbet", "lock-rabbet", "finger", "dowel")
	}
	if w.IntN(2) == 0 {
		own += ", box-bottom-how: " + w.one("box bottom", "grooved", "under")
	}
	w.p("stowright: 1\nname: made up\nunit: %s\npractice: {from: %s%s}\n", unit, practice, own)
	if w.exact != "" {
		w.p("print: mm\n") // backs are set out from the wall by whole marks of the tape
	}
	if w.yes("people", 4) {
		w.p("people: {shortest: %s, children: yes}\n", w.size(1500, 1800))
	}
	if w.yes("stages", 5) {
		w.stages = []string{"one", "two"}
	}
	w.room()
	w.stands = w.one("stands", "toe", "feet", "toe-feet", "base", "floor")
	w.top, w.deep, w.wallDeep = w.between(720, 900), w.between(380, 600), w.between(280, 400)
	w.p("families:\n  all:\n    depth: %s\n    wall-depth: %s\n    top-line: %s\n    wall-height: %s\n    wall-top-line: %s\n    stands-on: {kind: %s, height: 100 mm}\n    hangs-by: {kind: %s}\n",
		w.mm(w.deep), w.mm(w.wallDeep), w.mm(w.top), w.size(500, 800), w.size(2000, 2150), w.stands, w.one("hangs", "rail", "cleat"))
	if w.yes("joining", 3) {
		w.p("    joining: {front: %s, rear: %s, low: %s, high: %s}\n", w.size(40, 60), w.size(40, 60), w.size(60, 110), w.size(60, 110))
	}
	w.standing()
	w.p("cases:\n")
	for i, x := range w.walls {
		w.gapCase(x)
		if i == 0 || w.IntN(3) > 0 {
			w.floorRun(x)
		}
		if w.IntN(3) > 0 {
			w.wallRun(x)
		}
	}
	w.freeBench()
	for _, s := range []struct {
		key  string
		list []string
	}{{"runs", w.runs}, {"counters", w.counters}, {"bases", w.bases}, {"hutches", w.hutches}, {"machines", w.machines}} {
		if len(s.list) > 0 {
			w.p("%s:\n%s", s.key, strings.Join(s.list, ""))
		}
	}
	if w.yes("goods", 3) {
		w.p("goods:\n  tins: {like: %s, count: %d}\n  long: {width: %s, depth: %s, height: %s, weighs: 3 kg, count: 4}\n", w.one("goods", "pint-can", "tin-1l", "spray-can"), w.between(1, 30), w.size(300, 900), w.size(100, 300), w.size(50, 200))
	}
	if len(w.stages) > 0 {
		w.p("stages: [{id: one}, {id: two, name: later}]\n")
	}
	return w.String()
}

// room makes up the walls.
func (w *writer) room() {
	n := 1
	switch w.IntN(4) {
	case 0:
		n = 2
	case 1:
		n = 3
	}
	if w.handed {
		n = 1
	}
	w.seen[fmt.Sprintf("walls %d", n)] = true
	w.p("walls:\n")
	for i := range n {
		x := &madeWall{id: [...]string{"back", "side", "far"}[i], length: w.between(3000, 6000)}
		x.free, x.upto = 150, x.length-150
		w.walls = append(w.walls, x)
		w.wall(i, x)
	}
	if w.handed {
		return
	}
	if w.yes("car", 12) {
		w.p("room:\n  depth: %s\n  cars:\n    car: {wall: back, from: %s, length: %s, out: %s, width: 1800 mm}\n", w.size(5000, 6000), w.size(0, 300), w.size(2500, 2900), w.size(900, 2500))
	} else if w.yes("aisle", 6) {
		w.p("room:\n  depth: %s\n  aisle: %s\n  things:\n    stand: {wall: back, at: %s, out: %s, across: %s}\n", w.size(2500, 4000), w.size(600, 900), w.size(600, 2000), w.size(1500, 2200), w.size(300, 700))
	}
}

func (w *writer) wall(i int, x *madeWall) {
	height := w.between(2400, 2700)
	w.p("  %s:\n    length: %s\n    height: %s\n", x.id, w.mm(x.length), w.mm(height))
	kind := w.one("wall", "stud", "masonry", "concrete", "steel-stud", "not-known")
	w.p("    kind: %s\n", kind)
	if w.yes("lining known", 2) {
		w.p("    lining: {thickness: %s}\n", w.size(0, 16))
	}
	w.p("    surveyed-from: %s\n", w.hand(w.one("from", "left", "right")))
	if i > 0 {
		with := w.walls[w.IntN(i)].id
		at := w.one("corner at", "left", "right")
		if i == 2 { // each end meets one wall
			with, at = w.walls[1].id, w.lastCorner
		}
		w.lastCorner = at
		w.p("    corner: {with: %s, at: %s, angle: %s}\n", with, at, w.one("angle", "90", "90", "135", "100", "75"))
	}
	switch w.IntN(4) {
	case 0:
		w.p("    studs: {species: spruce-pine-fir, first: %s, spacing: %s, width: 38 mm}\n", w.size(50, 300), w.size(400, 600))
	case 1:
		w.seen["studs listed"] = true
		var at []string
		for k := w.between(20, 300); k < x.length-20; k += w.between(300, 650) {
			at = append(at, w.mm(k))
		}
		w.p("    studs: {species: spruce, listed: [%s], width: 45 mm}\n", strings.Join(at, ", "))
	case 2:
		w.seen["studs missing"] = true
		w.p("    studs: {species: southern-pine, first: 100 mm, spacing: 400 mm, width: 38 mm, missing: [500 mm, 1700 mm]}\n")
	}
	if kind == "masonry" && w.IntN(2) == 0 {
		w.p("    anchor: {hardware: anchor-hollow-6, shear: 40 kg, tension: 30 kg, source: made up}\n")
	}
	if w.yes("leans", 3) && !w.handed { // out of plumb is from the floor at the left end
		w.p("    leans-out-at-top: %s\n", w.size(-15, 15))
	}
	if w.yes("hollow", 3) {
		w.p("    hollow: [{at: %s, by: %s}, {at: %s, by: %s}]\n", w.mm(x.length/3), w.size(2, 12), w.mm(x.length*2/3), w.size(-8, -1))
	}
	switch w.one("floor", "rows", "points", "falls", "level") {
	case "rows":
		w.p("    floor: {every: %s, at-wall: [0, -%s, %s, -%s], out: 600 mm, at-out: [-%s, 0, %s, 0]}\n", w.mm(x.length/3), w.size(1, 12), w.size(1, 12), w.size(1, 20), w.size(1, 8), w.size(1, 8))
	case "points":
		step := w.between(600, x.length-600)
		w.p("    floor: {points: [{at: 0, height: 0}, {at: %[1]s, height: %[2]s}, {at: %[1]s, height: %[3]s}, {at: %[4]s, height: %[3]s}], slab: %[5]s}\n", w.same(step), w.size(-4, 4), w.same(w.between(8, 30)), w.same(x.length), w.one("slab", "yes", "no"))
	case "falls":
		falls := w.between(-40, 40)
		if w.handed { // whatever is surveyed, its heights are from the floor at the left end
			falls = 0
		}
		w.p("    floor: {falls-along: %s, falls-out: {by: %s, in: 1000 mm}, slab: yes}\n", w.mm(falls), w.size(0, 12))
	}
	if w.yes("sloped ceiling", 5) {
		w.p("    ceiling: [{at: 0, height: %s}, {at: %s, height: %s}]\n", w.mm(height), w.same(x.length), w.size(1900, 2300))
	}
	w.openings(x)
	w.keepClear(x)
	w.obstacles(x)
}

// at gives the left side of something so wide, so far from the end that the wall is filled from.
func (x *madeWall) at(w *writer, from, wide int) int {
	if w.mirror {
		return x.length - from - wide
	}
	return from
}

// same gives a length that must be the same in two places: always millimetres.
func (w *writer) same(mm int) string { return fmt.Sprintf("%d mm", mm) }

func (w *writer) openings(x *madeWall) {
	if !w.yes("opening", 3) {
		return
	}
	from := w.between(400, x.length-1400)
	to := from + w.between(600, 900)
	w.p("    openings:\n")
	switch kind := w.one("opening", "window", "door", "hatch"); kind {
	case "door":
		w.p("      hole: {kind: door, from: %s, to: %s, sill: 0, head: 2000 mm, casing: %s, swings: %s, hinge: %s}\n", w.same(from), w.same(to), w.size(40, 80), w.one("swings", "in", "out", "slides", "not-known"), w.hand(w.one("door hinge", "left", "right")))
	default:
		w.p("      hole: {kind: %s, from: %s, to: %s, sill: %s, head: 2000 mm, framing: [%s, %s]}\n", kind, w.same(from), w.same(to), w.size(900, 1200), w.same(from-30), w.same(to+30))
	}
}

func (w *writer) keepClear(x *madeWall) {
	if !w.yes("keep clear", 2) {
		return
	}
	w.p("    keep-clear:\n")
	for i := range w.between(1, 3) {
		at := w.between(200, x.length-200)
		switch kind := w.one("keep", "outlet", "switch", "electrical-panel", "heater", "pipe", "window", "vent", "valve", "light", "other"); kind {
		case "outlet", "switch", "valve":
			w.p("      k%d: {kind: %s, at: %s, up: %s, width: 90 mm, height: 90 mm, may-be-behind: %s}\n", i, kind, w.mm(at), w.size(200, 1200), w.one("behind", "yes", "no"))
		case "electrical-panel":
			w.p("      k%d: {kind: %s, from: %s, to: %s, bottom: 1100 mm, top: 1800 mm, volts: 230}\n", i, kind, w.same(at-180), w.same(at+180))
		default:
			w.p("      k%d: {kind: %s, from: %s, to: %s, bottom: %s, top: %s, out: %s}\n", i, kind, w.same(at-100), w.same(at+100), w.size(0, 400), w.size(500, 2000), w.size(50, 300))
		}
	}
}

func (w *writer) obstacles(x *madeWall) {
	if !w.yes("obstacle", 3) {
		return
	}
	w.p("    obstacles:\n")
	switch kind := w.one("obstacle", "curb", "pipe", "skirting", "casing", "door-track", "platform", "duct", "column", "other"); kind {
	case "curb", "pipe", "skirting":
		ends := ""
		if w.yes("short obstacle", 2) {
			a := w.between(0, x.length/2)
			ends = fmt.Sprintf("from: %s, to: %s, ", w.same(a), w.same(min(a+w.between(200, 2000), x.length-100)))
		}
		w.p("      o: {kind: %s, %sbottom: 0, height: %s, out: %s, follows-floor: yes, may-be-cut: %s}\n", kind, ends, w.size(40, 120), w.size(10, 60), w.one("may be cut", "yes", "no"))
	case "door-track":
		w.p("      o: {kind: door-track, from: 0, to: %s, bottom: 2100 mm, out: %s}\n", w.same(x.length/2), w.size(100, 250))
	default:
		at := w.between(200, x.length-400)
		w.p("      o: {kind: %s, from: %s, to: %s, bottom: 0, height: %s, out: %s}\n", kind, w.same(at), w.same(at+200), w.size(300, 2200), w.size(20, 200))
	}
}

// standing puts two old cases with a gap at the first wall, with or without a counter across.
func (w *writer) standing() {
	if !w.yes("standing", 5) {
		return
	}
	x := w.walls[0]
	gap := w.between(500, 950)
	a := x.free
	w.p("standing:\n")
	top := w.between(800, 880)
	left, right := "old left", "old right"
	if w.mirror {
		left, right = right, left
	}
	old := func(name string, at int, more string) {
		w.p("  %s: {wall: back, from: %s, to: %s, depth: %s, top: %s, board-measures: 18 mm%s}\n", name, w.same(x.at(w, at, 500)), w.same(x.at(w, at, 500)+500), w.same(w.deep), w.same(top), more)
	}
	old(left, a, ", on-feet: yes")
	old(right, a+500+gap, "")
	if w.yes("standing counter", 2) {
		w.p("  old counter: {wall: back, kind: counter, from: %s, to: %s, depth: %s, bottom: %s, top: %s}\n", w.same(x.at(w, a, 1000+gap)), w.same(x.at(w, a, 1000+gap)+1000+gap), w.same(w.deep), w.same(top), w.same(top+38))
		if w.yes("hutch on standing", 2) {
			w.hutch("old counter", 1000+gap)
		}
	}
	x.gap, x.free = gap, a+1000+gap+w.between(0, 200)
}

// gapCase is a case between the two that stand.
func (w *writer) gapCase(x *madeWall) {
	if x.gap == 0 {
		return
	}
	w.seen["in gap"] = true
	w.p("  between:\n    wall: back\n    in-gap: {left: old left, right: old right, widths: [%s, %s], clearance: %s}\n    height: 700 mm\n    depth: %s\n    stands-on: {kind: %s, height: 100 mm}\n",
		w.same(x.gap), w.same(x.gap+w.between(-3, 3)), w.size(1, 8), w.mm(w.deep), w.one("gap stands", "feet", "toe", "toe-feet", "floor"))
	w.body(x.gap, false)
}
