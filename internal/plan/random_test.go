package plan_test

import (
	"bytes"
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"stowright/internal/builtin"
	"stowright/internal/cutting"
	"stowright/internal/cutting/judge"
	"stowright/internal/fitting"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/output"
	"stowright/internal/part"
	"stowright/internal/part/parttest"
	"stowright/internal/plan"
)

// writer makes up a job, as text, and remembers what came up.
type writer struct {
	*rand.Rand
	strings.Builder
	unit string
	seen map[string]bool
}

func (w *writer) p(format string, args ...any) { fmt.Fprintf(&w.Builder, format, args...) }

// size gives a length between two in millimetres, in the job's unit: whole millimetres or
// sixteenths.
func (w *writer) size(lo, hi int) string {
	mm := lo + w.IntN(hi-lo+1)
	if w.unit == "mm" {
		return fmt.Sprint(mm)
	}
	n := mm * 16 * 10 / 254
	if n%16 == 0 {
		return fmt.Sprint(n / 16)
	}
	return fmt.Sprintf("%d %d/16", n/16, n%16)
}

func (w *writer) one(kind string, of ...string) string {
	s := of[w.IntN(len(of))]
	w.seen[kind+" "+s] = true
	return s
}

func (w *writer) yes(label string, of int) bool {
	y := w.IntN(of) == 0
	if y {
		w.seen[label] = true
	}
	return y
}

// fittings that need a board with holes or goods to size by take their defaults.
func (w *writer) inside(depth int, doors bool, width int) string {
	if depth < 2 && w.IntN(3) == 0 && width > 500 {
		w.seen["across"] = true
		return fmt.Sprintf("{across: [%s, %s]}", w.inside(depth+2, doors, width/2), w.inside(depth+2, doors, width/2))
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
	return fmt.Sprintf("{%s: {}}", w.one("fitting", names...))
}

func (w *writer) one1(id string, wide int, wall bool) {
	doors := w.yes("doors", 2)
	w.p("  %s:\n    width: %s\n    family: all\n", id, w.size(wide, wide+30))
	if wall {
		w.p("    level: wall\n")
	}
	if w.IntN(3) == 0 {
		w.p("    back: %s\n", w.one("back", "captured", "applied", "full"))
	}
	if !wall && w.IntN(3) == 0 {
		w.p("    top: %s\n", w.one("top", "full", "stretchers"))
	}
	if w.IntN(3) == 0 {
		w.p("    joint: %s\n", w.one("joint", "pocket-screw", "connecting-screw", "dowel", "dado", "wood-screw"))
	}
	in := w.inside(0, doors, wide)
	if doors {
		var racks string
		if w.IntN(2) == 0 {
			var on []string
			for _, k := range builtin.Fittings() {
				if k.Where == fitting.OnDoor {
					on = append(on, k.Name)
				}
			}
			if len(on) > 0 {
				racks = fmt.Sprintf(", left: [{%s: {}}]", w.one("fitting", on...))
			}
		}
		in = strings.TrimSuffix(in, "}") + fmt.Sprintf(", doors: {count: %d%s}}", 1+w.IntN(2), racks)
	}
	w.p("    inside: %s\n", in)
}

// job makes up a whole job on one wall.
func (w *writer) job() string {
	w.unit = w.one("unit", "in", "mm")
	practice := w.one("practice", "inch-shop", "metric-shop", "saw-and-drill")
	w.p("stowright: 1\nname: made up\nunit: %s\npractice: {from: %s}\n", w.unit, practice)
	wall := 3000 + w.IntN(3000)
	w.p("walls:\n  back:\n    length: %s\n    height: %s\n    kind: %s\n    lining: {thickness: %s}\n", w.size(wall, wall), w.size(2400, 2700), w.one("wall", "stud", "masonry", "concrete", "not-known"), w.size(0, 16))
	w.p("    surveyed-from: %s\n", w.one("from", "left", "right"))
	if w.IntN(2) == 0 {
		w.p("    studs: {species: spruce-pine-fir, first: %s, spacing: %s, width: 38 mm}\n", w.size(50, 300), w.size(400, 600))
	}
	w.p("    floor: {every: %s, at-wall: [0, -%s, %s, -%s], out: 600 mm, at-out: [-%s, 0, %s, 0]}\n", w.size(wall/3, wall/3), w.size(1, 12), w.size(1, 12), w.size(1, 20), w.size(1, 8), w.size(1, 8))
	stands := w.one("stands", "toe", "feet", "toe-feet", "base", "floor")
	w.p("families:\n  all:\n    depth: %s\n    wall-depth: %s\n    top-line: %s\n    wall-height: %s\n    wall-top-line: %s\n    stands-on: {kind: %s, height: 100 mm}\n    hangs-by: {kind: %s}\n",
		w.size(380, 600), w.size(280, 400), w.size(820, 900), w.size(500, 800), w.size(2100, 2200), stands, w.one("hangs", "rail", "cleat"))
	w.p("cases:\n")
	at, n, m := 150, 0, 0
	for ; at < wall-1100 && n < 5; n++ {
		wide := 320 + w.IntN(600)
		w.one1(fmt.Sprintf("f%d", n), wide, false)
		at += wide + 30
	}
	for at = 150; at < wall-1200 && m < 3 && w.IntN(4) > 0; m++ {
		wide := 420 + w.IntN(500)
		w.one1(fmt.Sprintf("w%d", m), wide, true)
		at += wide + 30
	}
	order := func(prefix string, n int) string {
		var s []string
		for i := range n {
			s = append(s, fmt.Sprintf("{case: %s%d}", prefix, i))
		}
		return strings.Join(s, ", ")
	}
	w.p("runs:\n  floor: {wall: back, from: %s, start: %s, order: [%s]}\n", w.one("start", "left", "right"), w.size(100, 140), order("f", n))
	if m > 0 {
		w.p("  upper: {wall: back, level: wall, start: %s, order: [%s]}\n", w.size(100, 140), order("w", m))
	}
	if stands == "base" {
		w.p("bases:\n  plinth: {under: [floor], height: 100 mm}\n")
	}
	if w.yes("counter", 2) {
		board := "birch-18"
		if w.unit == "in" {
			board = "maple-three-quarter"
		}
		layers := "{board: " + board + "}"
		blocking := ""
		if w.yes("two layers", 2) {
			layers += ", " + layers
		} else {
			blocking = "\n    blocking: {}"
		}
		w.p("counters:\n  top:\n    over: [floor]\n    layers: [%s]%s\n    over-front: %s\n", layers, blocking, w.size(10, 40))
	}
	return w.String()
}

func random(seed uint64) *writer {
	return &writer{Rand: rand.New(rand.NewPCG(seed, 7)), seen: map[string]bool{}}
}

// Every made-up job: nothing shares space, everything is in its envelope, joints touch, holes
// stay in their face, sawn sizes equal the model's, sheets add up to the tick, and making it
// twice gives the same bytes.
func TestRandomJobs(t *testing.T) {
	n := uint64(2000)
	if testing.Short() {
		n = 60
	}
	seen := map[string]bool{}
	failed := 0
	for seed := range n {
		w := random(seed)
		text := w.job()
		for k := range w.seen {
			seen[k] = true
		}
		bad := judgeJob(t, text, seed%50 == 0)
		if len(bad) > 0 {
			failed++
			t.Errorf("seed %d:\n%s\n%s", seed, strings.Join(bad[:min(len(bad), 6)], "\n"), text)
			if failed > 5 {
				t.Fatal("and so on")
			}
		}
	}
	if testing.Short() {
		return
	}
	for _, k := range builtin.Fittings() {
		if !seen["fitting "+k.Name] {
			t.Errorf("no job had %s", k.Name)
		}
	}
	for _, want := range []string{"unit in", "unit mm", "practice saw-and-drill", "stands base", "stands feet", "stands toe-feet", "hangs cleat", "hangs rail",
		"joint pocket-screw", "joint connecting-screw", "joint dowel", "joint dado", "joint wood-screw", "back captured", "back applied", "back full", "across", "up", "doors", "counter", "two layers", "from right", "start right"} {
		if !seen[want] {
			t.Errorf("no job had %q", want)
		}
	}
}

// Jobs in which a fault was found once, each saying which in its first line: they keep the same
// promises as the made-up ones.
func TestFoundFaults(t *testing.T) {
	files, err := filepath.Glob("testdata/jobs/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatal("no jobs", err)
	}
	for _, f := range files {
		t.Run(strings.TrimSuffix(filepath.Base(f), ".yaml"), func(t *testing.T) {
			b, err := os.ReadFile(f)
			if err != nil {
				t.Fatal(err)
			}
			for _, s := range judgeJob(t, string(b), true) {
				t.Error(s)
			}
		})
	}
}

func judgeJob(t *testing.T, text string, twice bool) (bad []string) {
	defer func() {
		if r := recover(); r != nil {
			bad = append(bad, fmt.Sprintf("panic: %v", r))
		}
	}()
	c := parse(t, "random", []byte(text))
	r := plan.Make(context.Background(), c, plan.Want{})
	a := r.Assembly
	bad = parttest.Check(a, parttest.Options{})
	box := map[string]geom.Box{}
	for _, o := range a.Owners {
		box[o.ID] = o.Box
	}
	for _, p := range a.Parts {
		if p.Material == part.Bought || p.Role == part.WallCleat {
			continue
		}
		if b := box[p.Owner]; !b.Has(p.Box()) {
			bad = append(bad, fmt.Sprintf("%s %s: %v is outside its owner's %v", p.Mark, p.Name, p.Box(), b))
		}
	}
	if f := judge.Check(&r.Problem, &r.Plan); len(f) > 0 {
		bad = append(bad, "the judge: "+f[0].String())
	}
	bad = append(bad, sheetsAddUp(r)...)
	for _, f := range r.Findings {
		if f.Code == "" || f.At == "" || f.Text == "" {
			bad = append(bad, fmt.Sprintf("a finding without code, place or text: %+v", f))
		}
		if strings.Contains(f.Text, "%!") {
			bad = append(bad, "a finding with a broken sentence: "+f.Text)
		}
	}
	if twice {
		again := plan.Make(context.Background(), c, plan.Want{})
		if !bytes.Equal(output.Plan(r), output.Plan(again)) {
			bad = append(bad, "making it twice gives two results")
		}
	}
	return bad
}

// sheetsAddUp: every part once on a sheet at its sawn size, and every sheet's area is parts,
// offcuts, kerf and trim, exactly.
func sheetsAddUp(r plan.Result) (bad []string) {
	size := map[string][2]length.Length{}
	for _, p := range r.Assembly.Parts {
		if p.Material == part.Board {
			size[p.Mark] = [2]length.Length{p.Cut()[0], p.Cut()[1]}
		}
	}
	unplaced := 0
	for _, u := range r.Plan.Unplaced {
		unplaced += u.Count
	}
	n := 0
	for i, s := range r.Plan.Sheets {
		var sum int64
		for k, p := range s.Pieces {
			n++
			got := [2]length.Length{p.L, p.W}
			if p.Turned {
				got[0], got[1] = got[1], got[0]
			}
			m := r.Marks[i][k]
			if size[m] != got {
				bad = append(bad, fmt.Sprintf("%s is cut %v, modelled %v", m, got, size[m]))
			}
			delete(size, m)
			sum += p.Area()
		}
		if a := s.Area; sum != a.Parts || a.Parts+a.Offcuts+a.Kerf+a.Trim != (cutting.Rect{L: s.L, W: s.W}).Area() {
			bad = append(bad, fmt.Sprintf("sheet %d does not add up: %+v", i, a))
		}
	}
	if len(size) != unplaced {
		bad = append(bad, fmt.Sprintf("%d parts are on no sheet, %d were said to be", len(size), unplaced))
	}
	return bad
}

// The same shop in inches and in millimetres: sizes that are equal give equal parts.
func TestUnitsDoNotMatter(t *testing.T) {
	job := func(unit string, sizes ...string) plan.Result {
		text := fmt.Sprintf("stowright: 1\nunit: %s\npractice: {from: metric-shop}\ncases:\n  a: {width: %s, height: %s, depth: %s, stands-on: {kind: toe, height: %s}, inside: {shelves: {count: 2}, doors: {count: 2}}}\n", unit, sizes[0], sizes[1], sizes[2], sizes[3])
		return plan.Make(context.Background(), parse(t, unit, []byte(text)), plan.Want{})
	}
	a := job("mm", "762", "876.3", "469.9", "101.6")
	b := job("in", "30", "34 1/2", "18 1/2", "4")
	if !slices.EqualFunc(a.Assembly.Parts, b.Assembly.Parts, func(p, q part.Part) bool { return fmt.Sprint(p) == fmt.Sprint(q) }) {
		t.Error("inches and millimetres give different parts")
	}
}
