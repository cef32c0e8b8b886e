package strength_test

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"stowright/internal/builtin"
	"stowright/internal/finding"
	"stowright/internal/job"
	"stowright/internal/plan/plantest"
	"stowright/internal/source/yaml"
	"stowright/internal/strength"
)

// What a maker may leave out of a job, in its own words: what things are made of and hold, and what
// they weigh; and loads, for which there is a default.
var (
	resistance = []string{"weighs", "rating", "shear", "tension", "anchor", "lining", "species", "studs", "spacing", "kind", "root", "head", "gauge", "diameter", "specific-gravity", "modulus", "modulus-along", "modulus-across", "design-bending", "strength", "strength-along", "strength-across", "shear-panel", "shear-planar", "density", "creep", "mass", "ballast", "locks", "yield", "tube-wall", "thickness", "listed", "first", "swivel", "holds", "rated-to", "into", "like", "board-measures", "locked", "lock"}
	loads      = []string{"load", "shelf-load", "drawer-load", "counter-load", "count", "goods"}
)

// without gives a job's text without one key, at each place where it stands with its value on one line.
func without(text, key string) (list []string, what []string) {
	value := regexp.MustCompile(`(?m)(^ *|[{,] *)` + regexp.QuoteMeta(key) + `: *(\{[^{}]*\}|\[[^\]\n]*\]|[^,{}\[\]\n#]+?)(, *| *$|\})`)
	for _, m := range value.FindAllStringSubmatchIndex(text, -1) {
		end := m[1]
		if text[m[6]:m[7]] == "}" {
			end = m[6] // the bracket stays
		}
		before := text[:m[3]]
		if end == m[6] {
			before = strings.TrimRight(before, ", ")
		}
		list = append(list, before+text[end:])
		what = append(what, strings.TrimSpace(text[m[2]:m[1]]))
	}
	return list, what
}

// Anything that describes a resistance or a mass, left out of any of the examples at any one place,
// never makes hold what failed or was not known; and what holds because a load was left to its default
// says that the load is assumed. A job that can no longer be read says so, and passes nothing.
func TestLeftOutOfTheJob(t *testing.T) {
	sets := names
	if testing.Short() {
		sets = []string{"one-case", "ostler-row"}
	}
	every := 1
	if testing.Short() {
		every = 8
	}
	for _, name := range sets {
		t.Run(name, func(t *testing.T) {
			tried, refused := leftOut(t, text(t, name), every)
			t.Logf("%d left out, %d more that the job cannot do without", tried, refused)
			if tried < 2 {
				t.Errorf("only %d things were left out", tried)
			}
		})
	}
	// Jobs that fail, each for a reason of its own; and one that states what its walls, boards and hardware are.
	for i, x := range trials {
		if i%every == 0 {
			t.Run(string(x.code), func(t *testing.T) { leftOut(t, x.bad, every) })
		}
	}
	t.Run("spelled out", func(t *testing.T) {
		if tried, _ := leftOut(t, spelled, every); tried < 40/every {
			t.Errorf("only %d things were left out", tried)
		}
	})
}

// spelled is a job that states, instead of taking it from a table, what things are made of, weigh and hold; too much
// is in it everywhere.
const spelled = `stowright: 1
unit: mm
practice: {from: metric-shop, case-board: mine, shelf-board: mine, front-board: mine, back-board: thin, box-bottom: thin, box-side: mine, wall-screw: long, foot: leg, slide: run, shelf-load: 300 kg/m2, drawer-load: 300 kg/m2, counter-load: 600 kg/m2}
people: {shortest: 1600, children: yes}
materials:
  wood: {modulus-along: 9000, modulus-across: 6000, strength-along: 36, strength-across: 28, shear-panel: 600, shear-planar: 100, density: 690, creep: 0.8, specific-gravity: 0.42, source: a trial}
species:
  stuff: {modulus: 9000, strength: 60, density: 450, creep: 0.6, specific-gravity: 0.42, design-bending: 6, source: a trial}
boards:
  mine: {material: wood, called: 18, measures: 17.7, length: 2440, width: 1220, grain: along-length}
  thin: {material: wood, called: 6, measures: 6, length: 2440, width: 1220, grain: along-length}
hardware:
  long: {kind: screw, use: wall, name: a screw, gauge: 8, diameter: 4.2 mm, root: 3 mm, head: 8 mm, length: 75 mm, clearance: 4.5 mm}
  leg: {kind: foot, name: a leg, height: 95 mm, greatest: 125 mm, turned-from: front, rating: 20 kg, mass: 0.2 kg, screws-each: 4}
  run: {kind: slide, name: a slide, mount: side, lengths: [300 mm, 400 mm], section: 12.7 mm, side-room: 13 mm, height: 45 mm, extends: full, rating: 20 kg, rated-to: 500 mm, mass: 1 kg, screws-each: 4}
walls:
  back:
    length: 6000
    height: 2500
    kind: stud
    lining: {name: drywall, thickness: 12.7}
    studs: {species: spruce-pine-fir, first: 200, spacing: 400, width: 38}
    floor: {points: [{at: 0, height: 0}, {at: 6000, height: 0}], kind: timber, slab: no}
  side:
    length: 3000
    height: 2500
    kind: masonry
    lining: {name: plaster, thickness: 10}
    anchor: {hardware: anchor-sleeve-10, shear: 5 kg, tension: 4 kg, into: 30 mm, source: a trial}
    floor: {points: [{at: 0, height: 0}, {at: 3000, height: 0}], kind: timber, slab: no}
cases:
  a: {wall: back, at: 400, width: 1000, height: 800, depth: 500, stands-on: {kind: feet, height: 100, recess: 50}, inside: {shelves: {count: 2}, goods: [anvils, tins], doors: {count: 2}}}
  b: {wall: back, at: 1500, width: 800, height: 800, depth: 500, free: standing, stands-on: {kind: feet, height: 100, recess: 50}, inside: {up: [{open: {}, ballast: 2 kg}, {drawers: {count: 2}, load: 90 kg}]}}
  c: {wall: back, level: wall, at: 400, width: 800, height: 700, depth: 320, up: 1500, inside: {shelves: {count: 2}, load: 80 kg, doors: {count: 1, hinge: left, left: [{box-holder: {}, load: 30 kg}]}}}
  d: {wall: side, level: wall, at: 400, width: 800, height: 700, depth: 320, up: 1500, inside: {shelves: {count: 2}, load: 80 kg}}
standing:
  old: {wall: back, kind: cupboard, from: 2300, to: 2900, depth: 500, top: 800, board-measures: 18, weighs: 30 kg, holds: 40 kg, locked: yes}
counters:
  top: {over: [a], layers: [{board: mine}], point-loads: [{name: vice, at: 500, weighs: 80 kg}]}
goods:
  anvils: {width: 300, depth: 200, height: 150, weighs: 60 kg, count: 3, hazards: [toxic], locked: yes}
  tins: {like: quart-can, count: 200}
`

// leftOut leaves every so many things that describe out of a job, one after another.
func leftOut(t *testing.T, whole string, every int) (tried, refused int) {
	t.Helper()
	all, ok := judge(whole)
	if !ok {
		t.Fatal("the job cannot be read")
	}
	before := map[key]finding.Finding{}
	for _, f := range all {
		before[key{f.Code, f.At}] = f
	}
	for _, k := range append(slices.Clone(resistance), loads...) {
		list, what := without(whole, k)
		for i, x := range list {
			if i%every > 0 {
				continue
			}
			after, ok := judge(x)
			if !ok {
				refused++
				continue
			}
			tried++
			for _, f := range after {
				was, known := before[key{f.Code, f.At}]
				if f.Verdict != finding.Holds && f.Verdict != finding.Near || !known || was.Verdict != finding.Fails && was.Verdict != finding.NotKnown {
					continue
				}
				if slices.Contains(loads, k) && strings.Contains(f.Text+strings.Join(f.Working, " "), "assumed") {
					continue
				}
				if gone(f, x, k) || geometry(what[i]) {
					continue
				}
				t.Errorf("without %q holds now: %s\nwas %s", what[i], say(f), say(was))
			}
		}
	}
	return tried, refused
}

// geometry says that what was left out is a shape, not what a thing is or weighs: how a case stands, or how many drawers
// and shelves it has.
func geometry(what string) bool {
	return strings.HasPrefix(what, "{kind: ") || strings.HasPrefix(what, "{count: ")
}

// gone says that a finding is about goods that the bay no longer names: nothing is left to judge, or less shares the
// bay; or that shelves were left out, not what is known of them: without one there is more room between the others.
func gone(f finding.Finding, _, k string) bool {
	if f.Code == strength.GoodsRoom && (k == "count" || k == "goods") {
		return true
	}
	return k == "goods" && (f.Code == strength.Flammables || f.Unit == "places")
}

// judge reads and proves a job; false when it cannot be read.
func judge(text string) (finding.List, bool) {
	n, p := yaml.Read("left out", []byte(text))
	if len(p) > 0 {
		return nil, false
	}
	c, p := job.Read(job.Sources{Shipped: plantest.Shipped(), Job: n}, builtin.Fittings())
	if len(p) > 0 {
		return nil, false
	}
	return strength.Check(input(c)), true
}

// The practice's default loads, each made a third heavier in each of the examples: every finding whose
// demand this changes says that its load is assumed, in its sentence or in its working; and none that a
// job states itself changes.
func TestDefaultLoadsAreCalledAssumedInTheExamples(t *testing.T) {
	sets := names
	if testing.Short() {
		sets = []string{"fennel-street", "one-case"}
	}
	for _, name := range sets {
		in := input(read(t, name, text(t, name)))
		before := judged(strength.Check(in))
		for k, what := range []string{"shelf-load", "drawer-load", "counter-load"} {
			n := in
			c := *in.Job
			p := &c.Practice
			switch k {
			case 0:
				p.ShelfLoad += p.ShelfLoad / 3
			case 1:
				p.DrawerLoad += p.DrawerLoad / 3
			case 2:
				p.CounterLoad += p.CounterLoad / 3
			}
			n.Job = &c
			changed := 0
			for at, f := range judged(strength.Check(n)) {
				if was := before[at]; was.Demand == f.Demand && was.Capacity == f.Capacity {
					continue
				}
				changed++
				if words := f.Text + strings.Join(f.Working, " "); !strings.Contains(words, "assumed") {
					t.Errorf("%s: a heavier %s changes this, and it does not say that it is assumed: %s", name, what, say(f))
				}
			}
			t.Log(fmt.Sprint(name, ": ", what, " changes ", changed))
		}
	}
}
