package plan_test

import (
	"fmt"
	"strings"
)

// floorRun lays cases along what is free of a wall, with a counter, a base and a knee space.
func (w *writer) floorRun(x *madeWall) {
	room := x.upto - x.free
	if room < 700 {
		return
	}
	id := "floor " + x.id
	var order []string
	knee, kneeWide := -1, 0
	counter := w.yes("counter", 2)
	if counter && room > 2400 && w.yes("knee", 2) {
		knee, kneeWide = 1, w.between(560, 900)
	}
	total, cases := 0, []string{}
	for len(cases) < 5 {
		if len(cases) == knee {
			order = append(order, w.knee(id, kneeWide))
			total += kneeWide
			knee = -1
		}
		wide := w.between(320, 920)
		if total+wide > room-60 {
			break
		}
		w.n++
		c := fmt.Sprintf("f%d", w.n)
		w.oneCase(c, wide, false)
		cases = append(cases, c)
		e := "case: " + c
		if len(w.machines) == 0 && w.yes("machine", 12) {
			w.machines = append(w.machines, fmt.Sprintf("  saw: {width: %s, depth: %s, bed: %s, swing-width: %s, weighs: 20 kg}\n", w.mm(min(wide, 500)), w.size(300, 500), w.size(60, 120), w.mm(min(wide, 500))))
			e += ", machine: saw"
		}
		order = append(order, "{"+e+"}")
		total += wide
		if w.yes("space", 10) {
			s := w.between(20, 120)
			order = append(order, fmt.Sprintf("{space: %s}", w.mm(s)))
			total += s
		}
	}
	if len(cases) == 0 {
		return
	}
	if knee >= 0 { // one case alone: the knee space ends the run
		order = append(order, w.knee(id, kneeWide))
		total += kneeWide
	}
	// Sixteenths may make each width a little less, never more.
	r := fmt.Sprintf("  %s: {wall: %s, level: floor, order: [%s]", id, x.id, w.row(order))
	slack := max(room-total, 0)
	switch from := w.one("start", "left", "right", "centre", "between", "around"); from {
	case "left":
		r += fmt.Sprintf(", from: %s, start: %s", w.hand("left"), w.mm(x.free+w.IntN(slack/2+1)))
	case "right":
		r += fmt.Sprintf(", from: %s, start: %s", w.hand("right"), w.mm(x.length-x.upto+w.IntN(slack/2+1)))
	case "centre":
		r += fmt.Sprintf(", from: centre, start: %s", w.mm(x.at(w, x.free+room/2, 0)))
	case "between":
		if w.handed { // it starts from its left end
			r += fmt.Sprintf(", from: %s, start: %s", w.hand("left"), w.mm(x.free))
			break
		}
		r += fmt.Sprintf(", from: between, start: %s, to: %s, fill: %s, filler: 200 mm", w.mm(x.free), w.mm(x.upto), w.one("fill", "none", "left", "right", "both"))
	case "around":
		r += fmt.Sprintf(", around: yes, from: %s, start: %s", w.hand(w.one("around from", "left", "right")), w.mm(x.free))
	}
	w.runs = append(w.runs, r+"}\n")
	if w.stands == "base" {
		w.base("base "+x.id, id)
	}
	if counter {
		w.counter("top "+x.id, id, total)
	}
}

// knee gives a knee space, with or without a case that slides or rolls into it.
func (w *writer) knee(run string, wide int) string {
	e := fmt.Sprintf("knee: {width: %s", w.mm(wide))
	if w.yes("sits", 2) {
		e += ", sits: yes"
	}
	switch w.one("knee", "empty", "rolls", "slides", "later") {
	case "rolls":
		w.n++
		c := fmt.Sprintf("k%d", w.n)
		w.p("  %s:\n    width: %s\n    height: %s\n    depth: %s\n    free: rolls\n    stands-on: {kind: castors, foot: %s}\n", c, w.mm(wide-20), w.mm(w.top-110), w.mm(w.deep-20), w.one("castor", "castor-75", "castor-50"))
		w.body(wide-20, false)
		e += ", reserved-for: " + c
	case "slides":
		w.n++
		c := fmt.Sprintf("k%d", w.n)
		w.p("  %s:\n    width: %s\n    height: %s\n    depth: %s\n    free: slides\n    stands-on: {kind: floor}\n", c, w.mm(wide-20), w.mm(w.top-110), w.mm(w.deep-20))
		w.body(wide-20, false)
		e += ", reserved-for: " + c
	case "later":
		w.n++
		c := fmt.Sprintf("k%d", w.n)
		w.p("  %s:\n    width: %s\n    height: %s\n    depth: %s\n    stands-on: {kind: %s, height: 100 mm}\n", c, w.mm(wide-20), w.mm(w.top-110), w.mm(w.deep-20), w.one("knee stands", "feet", "toe-feet", "toe"))
		w.body(wide-20, false)
		e += ", reserved-for: " + c
	}
	return "{" + e + "}}"
}

func (w *writer) base(id, run string) {
	b := fmt.Sprintf("  %s: {under: [%s]", id, run)
	switch w.one("base of", "two-by-four", "ply", "practice") {
	case "two-by-four":
		b += ", stock: two-by-four-treated, height: " + w.size(70, 88)
	case "ply":
		b += ", stock: " + w.board() + ", height: " + w.size(70, 120)
	default:
		b += ", height: " + w.size(60, 88)
	}
	if how := w.one("levels by", "shims", "taper", "steps", "feet", "floor"); how != "floor" {
		b += ", levels-by: " + how
	}
	if w.yes("damp strip", 4) {
		b += ", damp: strip"
	}
	if w.yes("back from wall", 4) {
		b += ", back-from-wall: " + w.size(10, 60)
	}
	w.bases = append(w.bases, b+"}\n")
}

// board gives a board of the shop's for carcasses.
func (w *writer) board() string {
	if w.inch {
		return "maple-three-quarter"
	}
	return "birch-18"
}

// layers gives the layers of a counter and its blocking or edging.
func (w *writer) layers() string {
	n := w.one("layers", "1", "2", "3")
	list := strings.Repeat("{board: "+w.board()+"}, ", int(n[0]-'0'))
	s := "layers: [" + strings.TrimSuffix(list, ", ") + "]"
	if n == "1" && w.yes("blocking", 2) {
		s += ", blocking: {}"
	}
	if w.yes("edging", 2) {
		s += fmt.Sprintf(", edge: {stick: %s, corners: %s", w.one("edge of", "maple-strip", "ash-strip"), w.one("corners", "mitre", "butt"))
		if w.IntN(2) == 0 {
			s += ", sides: [" + strings.NewReplacer("left", w.hand("left"), "right", w.hand("right")).Replace(w.one("edge sides", "front", "front, left", "front, left, right, back")) + "]"
		}
		s += "}"
	}
	return s
}

func (w *writer) counter(id, run string, long int) {
	c := fmt.Sprintf("  %s: {over: [%s], %s, over-front: %s", id, run, w.layers(), w.size(0, 60))
	if long > 2500 {
		w.seen["counter longer than a sheet"] = true
	}
	if w.yes("over ends", 3) {
		c += fmt.Sprintf(", over-%s: %s, over-%s: %s", w.hand("left"), w.size(0, 30), w.hand("right"), w.size(0, 30))
	}
	if w.yes("rails", 2) {
		c += ", rails: {}"
		if w.IntN(2) == 0 {
			c = strings.TrimSuffix(c, "{}") + fmt.Sprintf("{stick: %s, height: %s}", w.one("rails of", "maple-strip", "ash-strip"), w.size(30, 38))
		}
	}
	if len(w.machines) > 0 && w.yes("level with", 2) {
		c += ", level-with: saw"
	}
	w.counters = append(w.counters, c+"}\n")
	if w.yes("hutch", 3) {
		w.hutch(id, long)
	}
}

func (w *writer) hutch(on string, long int) {
	w.n++
	h := fmt.Sprintf("  h%d: {on: %s, height: %s", w.n, on, w.size(350, 650))
	if w.IntN(2) == 0 && !w.handed { // from its left end
		h += ", width: " + w.mm(min(long, 1180)-w.IntN(100))
	}
	switch w.one("hutch frame", "practice", "strip", "board") {
	case "strip":
		h += ", frame: maple-strip"
	case "board":
		h += ", frame: " + w.board()
	}
	if w.yes("spacer", 2) {
		h += ", spacer: " + w.size(12, 45)
	}
	if w.yes("light", 3) && !w.handed { // its cable is at its right end

		h += fmt.Sprintf(", light: {length: %s, cable-hole: %s}", w.size(300, 900), w.size(8, 14))
	}
	w.hutches = append(w.hutches, h+"}\n")
}

// freeBench stands in the room, in front of the first wall's cases.
func (w *writer) freeBench() {
	if !w.yes("free bench", 4) {
		return
	}
	long, at := w.between(900, 2800), w.between(100, 600)
	b := fmt.Sprintf("  bench: {wall: back, %s, depth: %s, height: %s, free: {at: %s, out: %s, length: %s, brace: %s", w.layers(), w.size(500, 800), w.size(750, 950), w.mm(w.walls[0].at(w, at, long)), w.size(1800, 2200), w.mm(long), w.one("brace", "panel", "rails", "shelf", "none"))
	switch w.one("legs", "stick", "board", "practice") {
	case "stick":
		b += ", legs: " + w.one("legs of", "spruce-leg", "two-by-four")
	case "board":
		b += ", legs: " + w.board()
	}
	if w.yes("bench feet", 3) {
		b += ", feet: foot-bolt"
	} else if w.yes("bench angles", 3) {
		b += ", floor: " + w.one("angle by", "anchor-sleeve-10", "wall-screw-6-80")
	}
	w.counters = append(w.counters, b+"}}\n")
	if w.yes("hutch on bench", 3) {
		w.hutch("bench", long)
	}
}

func (w *writer) wallRun(x *madeWall) {
	var order []string
	total := 0
	for len(order) < 3 {
		wide := w.between(420, 900)
		if total+wide > x.length-320 {
			break
		}
		w.n++
		c := fmt.Sprintf("w%d", w.n)
		w.oneCase(c, wide, true)
		order = append(order, fmt.Sprintf("{case: %s}", c))
		total += wide
		if w.IntN(4) == 0 {
			break
		}
	}
	if len(order) == 0 {
		return
	}
	r := fmt.Sprintf("  upper %s: {wall: %s, level: wall, start: %s, from: %s", x.id, x.id, w.size(120, 160), w.hand(w.one("wall start", "left", "right")))
	if w.yes("bottom line", 4) {
		r += ", bottom-line: " + w.size(1300, 1450)
	}
	if w.yes("wall run around", 4) {
		r += ", around: yes"
	}
	w.runs = append(w.runs, r+", order: ["+w.row(order)+"]}\n")
}
