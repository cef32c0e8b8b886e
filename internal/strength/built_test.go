package strength_test

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/strength"
)

// swap replaces a text that must stand in a job by another.
func swap(t *testing.T, text string, pairs ...string) string {
	t.Helper()
	for i := 0; i < len(pairs); i += 2 {
		if !strings.Contains(text, pairs[i]) {
			t.Fatalf("%q is not in the job", pairs[i])
		}
		text = strings.Replace(text, pairs[i], pairs[i+1], 1)
	}
	return text
}

// changed is an input whose assembly is another's, changed.
func changed(in strength.Input, change func(a *part.Assembly)) strength.Input {
	a := *in.All
	a.Parts, a.Joints, a.Fixings, a.Feet, a.Bays = slices.Clone(a.Parts), slices.Clone(a.Joints), slices.Clone(a.Fixings), slices.Clone(a.Feet), slices.Clone(a.Bays)
	a.Fronts, a.Spans = slices.Clone(a.Fronts), slices.Clone(a.Spans)
	change(&a)
	in.All = &a
	return in
}

// A remedy is what a check advises, and how it is done: in the job where the job has a word for it,
// else in what was built from it.
type remedy struct {
	job, code, at string
	says          string // a pattern of the advice; what it catches goes to done
	done          func(t *testing.T, text string, in strength.Input, m []string) strength.Input
	near          float64 // how far the printed ratio may be off; 0 for its last figure
}

// written does a remedy in the job's text; $1 is what the advice catches.
func written(pairs ...string) func(*testing.T, string, strength.Input, []string) strength.Input {
	return func(t *testing.T, text string, _ strength.Input, m []string) strength.Input {
		pairs := slices.Clone(pairs)
		for i := range pairs {
			if len(m) > 1 {
				pairs[i] = strings.ReplaceAll(pairs[i], "$1", m[1])
			}
		}
		return whole(t, swap(t, text, pairs...))
	}
}

// twice states for two drawers what one may hold.
func twice(old string) func(*testing.T, string, strength.Input, []string) strength.Input {
	return func(t *testing.T, text string, _ strength.Input, m []string) strength.Input {
		return whole(t, swap(t, text, old, fmt.Sprintf("load: %.1f kg", 2*number(m))))
	}
}

func number(m []string) float64 {
	v, _ := strconv.ParseFloat(m[1], 64)
	return v
}

var remediesBuilt = []remedy{
	// Drawers.
	{alone(strings.Replace(floor, "600", "900", 1) + "    inside: {drawers: {count: 2}, load: 200 kg}\n"), "drawer-bottom", "1bottom", `make it of (\S+), .*? thick`,
		written("from: metric-shop", "from: metric-shop, box-bottom: $1, box-bottom-heavy: $1"), 0.02},
	{alone(strings.Replace(floor, "600", "900", 1) + "    inside: {drawers: {count: 2}, load: 200 kg}\n"), "drawer-bottom", "1bottom", `use two drawers side by side`,
		func(t *testing.T, _ string, in strength.Input, _ []string) strength.Input { // one of the two plates that are left
			n := changed(in, func(a *part.Assembly) {
				for i := range a.Parts {
					if p := &a.Parts[i]; p.Role == part.BoxBottom {
						k := 0
						if p.Pose.U.Axis() != 0 {
							k = 1
						}
						p.Size[k] /= 2
					}
				}
				for i := range a.Bays {
					a.Bays[i].Load /= 2
				}
			})
			n.Masses = masses(in.Job, n.All.Parts)
			return n
		}, 0},
	{alone(floor + "    inside: {drawers: {count: 2}, load: 900 kg}\n"), "drawer-bottom", "1bottom", `[Kk]eep no more than (\S+) kg in it`, twice("load: 900 kg"), 0.01},
	{alone(floor + "    inside: {drawers: {count: 2}, load: 120 kg}\n"), "slide-load", "in-drawer-1", `[Kk]eep no more than (\S+) kg`, twice("load: 120 kg"), 0.01},
	{alone(floor + "    inside: {drawers: {count: 2, slide: side-slide-35}, load: 70 kg}\n"), "slide-load", "in-drawer-1", `take [^(]*slide: (\S+)`, written("side-slide-35", "$1"), 0.01},
	{alone(strings.Replace(floor, "600", "800", 1) + "    inside: {drawers: {count: 2}, load: 8 kg}\n"), "drawer-wide", "in-drawer-1", `make it no wider than (\S+) mm`,
		func(t *testing.T, text string, in strength.Input, m []string) strength.Input {
			box := 0.0
			for _, p := range in.All.Parts {
				if p.Role == part.BoxBottom {
					box = mmOf(p.Box().Size().X)
				}
			}
			return whole(t, swap(t, text, "width: 800", fmt.Sprintf("width: %.1f", 800-box+number(m))))
		}, 0.01},
	{alone(floor + "    inside: {drawers: {count: 2}, load: 500 kg}\n"), "front-screws", "1face", `[Kk]eep no more than (\S+) kg in it`, twice("load: 500 kg"), 0.01},
	{alone(floor + "    inside: {drawers: {count: 2}, load: 900 kg}\n"), "drawer-groove", "1bottom", `keep no more than (\S+) kg in it`, twice("load: 900 kg"), 0.01},
	{alone(floor + "    inside: {drawers: {count: 2}, load: 900 kg}\n"), "drawer-groove", "1bottom", `set the groove (\S+) mm above`,
		func(t *testing.T, _ string, in strength.Input, m []string) strength.Input {
			return changed(in, func(a *part.Assembly) {
				for i := range a.Parts {
					if p := &a.Parts[i]; p.Role == part.BoxBottom {
						p.Pose.Origin.Z += length.Length(number(m)*40_000) + sideUnder(a, p) - p.Box().Min.Z
					}
				}
			})
		}, 0.01},
	// Counters.
	{strings.Replace(bench("birch-18", 1900), "metric-shop}", "metric-shop, counter-load: 500 kg/m2}", 1), "counter-person", "Top.layer", `glue two boards of \S+ together`,
		written("layers: [{board: birch-18}]", "layers: [{board: birch-18}, {board: birch-18}]"), 0},
	{bench("birch-12", 1900), "shelf-strength", "Top.layer", `glue two boards of \S+ together`, written("layers: [{board: birch-12}]", "layers: [{board: birch-12}, {board: birch-12}]"), 0},
	{bench("birch-12", 1900), "shelf-sag", "Top.layer", `[Mm]ake its span (\S+) mm`, shortBench, 0.03},
	{bench("birch-12", 1900), "counter-person", "Top.layer", `[Mm]ake its span (\S+) mm`, shortBench, 0.03},
	{strings.Replace(bench("birch-18", 1200), "free: {at: 100,", "free: {at: 500, out: 900, brace: panel,", 1) + "hutches:\n  hb: {on: bench, height: 900, board: birch-6, frame: spruce-strip, spacer: 20, brace: 450}\n", "tip-over", "counter/bench", `floor: anchor-sleeve-10 under free:, it and floor-angle with rating: (\S+ kg) or more`,
		written("free: {at: 500,", "free: {floor: anchor-sleeve-10, at: 500,", "boards:\n", "hardware:\n  floor-angle: {rating: $1}\n  anchor-sleeve-10: {rating: $1}\nboards:\n"), 0.12},
	{strings.Replace(strings.Replace(bench("birch-18", 2400), "free: {at: 100,", "free: {at: 500, out: 900, brace: panel,", 1), "depth: 600", "depth: 900", 1) + "hutches:\n  hb: {on: bench, height: 300, board: birch-6, frame: spruce-strip, spacer: 20, brace: 450}\n", "tip-over", "counter/bench", `glue 1 more layer of birch-18 under its top`,
		written("layers: [{board: birch-18}]", "layers: [{board: birch-18}, {board: birch-18}]"), 0.02},
	// Fixed shelves.
	{alone(strings.Replace(floor, "600", "1000", 1) + "    inside: {shelves: {count: 1, fixed: yes}, load: 90 kg}\n"), "shelf-sag", "A.fixed", `put a partition under its middle, across: of the bay below`, halfway("fixed"), 0},
	{alone(strings.Replace(floor, "600", "1000", 1) + "    inside: {shelves: {count: 1, fixed: yes}, load: 90 kg}\n"), "shelf-sag", "A.fixed", `[Mm]ake its span (\S+) mm`,
		func(t *testing.T, text string, in strength.Input, m []string) strength.Input {
			reach := 0.0
			for _, sp := range in.All.Spans {
				if strings.Contains(sp.Part, "fixed") {
					reach = mmOf(sp.Supports[len(sp.Supports)-1].At - sp.Supports[0].At)
				}
			}
			return whole(t, swap(t, text, "width: 1000", fmt.Sprintf("width: %.1f", 1000-reach+number(m))))
		}, 0.02},
	// Doors.
	{alone(wall + "    inside: {open: {}, load: 8 kg, doors: {count: 1, hinge: left, left: [{box-holder: {}, load: 45 kg}]}}\n"), "door-heavy", "door", `no more than (\S+) kg`, written("load: 45 kg", "load: $1 kg"), 0.01},
	{alone(wall + "    inside: {open: {}, load: 8 kg, doors: {count: 1, hinge: left, left: [{box-holder: {}, load: 45 kg}]}}\n"), "hinge-screws", "door", `no more than (\S+) kg`, written("load: 45 kg", "load: $1 kg"), 0.01},
	{alone(wall + "    inside: {open: {}, load: 8 kg, doors: {count: 1, hinge: left, left: [{box-holder: {}, load: 12 kg}]}}\n"), "door-heavy", "door", `make it two leaves, count: 2, half of its racks on each, left: and right:`,
		written("doors: {count: 1, hinge: left, left: [{box-holder: {}, load: 12 kg}]}", "doors: {count: 2, left: [{box-holder: {}, load: 6 kg}], right: [{box-holder: {}, load: 6 kg}]}"), 0.03},
	{alone(wall + "    inside: {open: {}, load: 8 kg, doors: {count: 1, hinge: left, left: [{box-holder: {}, load: 45 kg}]}}\n"), "hinge-screws", "door", `make it two leaves, count: 2, half of its racks on each, left: and right:`,
		written("doors: {count: 1, hinge: left, left: [{box-holder: {}, load: 45 kg}]}", "doors: {count: 2, left: [{box-holder: {}, load: 22.5 kg}], right: [{box-holder: {}, load: 22.5 kg}]}"), 0.05},
	{alone(wall + "    inside: {open: {}, load: 8 kg, doors: {count: 1, hinge: left, left: [{box-holder: {}, load: 45 kg}]}}\n"), "door-wide", "door", `Use two leaves, count: 2`, written("doors: {count: 1, hinge: left,", "doors: {count: 2,"), 0.01},
	// Walls.
	{strings.Replace(alone("    board: thin-mdf\n"+strings.Replace(wall, "700", "900", 1)+"    inside: {shelves: {count: 2}, load: 20 kg}\n"), "    at: 400\n", "    at: 470\n", 1), "rail-bending", "hang2", `make the rail (\S+) mm high`,
		written("    up: 1400\n", "    up: 1400\n    hangs-by: {width: $1}\n"), 0.02},
	{strings.Replace(alone("    board: thin-mdf\n"+strings.Replace(wall, "700", "900", 1)+"    inside: {shelves: {count: 2}, load: 20 kg}\n"), "    at: 400\n", "    at: 470\n", 1), "rail-bending", "hang2", `move it to the left, at: (\S+) mm`, written("    at: 470\n", "    at: $1\n"), 0.02},
	{alone("    hangs-by: {kind: cleat}\n" + wall + "    inside: {shelves: {count: 2}, load: 32 kg}\n"), "carcass-joint", "case/a", `hang it by an upper and a lower rail`, written("kind: cleat", "kind: rail"), 0.1},
	{alone("    hangs-by: {kind: cleat}\n" + wall + "    inside: {open: {}, load: 40 kg}\n"), "wall-fixing", "case/a", `[Hh]ang it by an upper and a lower rail`, written("kind: cleat", "kind: rail"), 0.1},
	{alone("    joint: wood-screw\n" + wall + "    inside: {open: {}, load: 900 kg}\n"), "carcass-joint", "A.bottom", `[Pp]ut (\S+) kg less on it`,
		func(t *testing.T, text string, _ strength.Input, m []string) strength.Input {
			return whole(t, swap(t, text, "load: 900 kg", fmt.Sprintf("load: %.1f kg", 899-number(m))))
		}, 0.01},
	// What stands.
	{alone(floor + "    inside: {shelves: {count: 2}, load: 90 kg}\n"), "foot-load", "case/a", `put it on \d+ feet, pairs: (\d+)`, written("{kind: feet, height: 100, recess: 50}", "{kind: feet, height: 100, recess: 50, pairs: $1}"), 0.01},
	{alone(floor + "    inside: {shelves: {count: 2}, load: 90 kg}\n"), "foot-load", "case/a", `take [^(]*foot: (\S+) under`, written("{kind: feet, height: 100, recess: 50}", "{kind: feet, height: 100, recess: 50, foot: $1}"), 0.01},
	{alone(floor + "    inside: {shelves: {count: 2}, load: 90 kg}\n"), "foot-load", "case/a", `put (\S+) kg less into it`,
		func(t *testing.T, text string, _ strength.Input, m []string) strength.Input {
			return whole(t, swap(t, text, "load: 90 kg", fmt.Sprintf("load: %.2f kg", 90-(number(m)+0.3)/3)))
		}, 0},
	{alone(floor + "    inside: {open: {}, load: 400 kg}\n"), "racking", "case/a", `[Pp]ut (\S+) kg less into it`,
		func(t *testing.T, text string, _ strength.Input, m []string) strength.Input {
			return whole(t, swap(t, text, "load: 400 kg", fmt.Sprintf("load: %.1f kg", 399-number(m))))
		}, 0.02},
	{strings.Replace(alone(floor+"    free: standing\n    back: applied\n    inside: {open: {}, load: 400 kg}\n"), "from: metric-shop", "from: inch-shop, unit: mm", 1), "racking", "case/a", `screw it on all round at every (\S+) mm, back-screws:`,
		written("unit: mm}", "unit: mm, back-screws: $1}"), 0},
	{strings.Replace(alone(floor+"    free: standing\n    back: applied\n    inside: {open: {}, load: 400 kg}\n"), "from: metric-shop", "from: inch-shop, unit: mm", 1), "racking", "case/a", `put (\S+) kg less into it`,
		func(t *testing.T, text string, _ strength.Input, m []string) strength.Input {
			return whole(t, swap(t, text, "load: 400 kg", fmt.Sprintf("load: %.1f kg", 399-number(m))))
		}, 0.02},
	{alone(floor + "    free: standing\n    inside: {up: [{open: {}, load: 4 kg}, {drawers: {count: 3}, load: 12 kg}]}\n"), "tip-over", "case/a", `hold (\S+) kg of ballast down in its rear half`,
		written("{open: {}, load: 4 kg}", "{open: {}, ballast: $1 kg}"), 0.02},
	{alone(floor + "    free: standing\n    inside: {up: [{open: {}, ballast: 40 kg}, {drawers: {count: 3}, load: 30 kg}]}\n"), "tip-over", "case/a", `lets out one drawer at a time`,
		written("drawers: {count: 3}", "drawers: {count: 3, one-at-a-time: yes}"), 0},
	{alone(floor + "    inside: {up: [{open: {}, ballast: 1 kg}, {drawers: {count: 3}, load: 105 kg}]}\n"), "tip-over", "case/a", `[Hh]old (\S+) kg more of ballast`,
		func(t *testing.T, text string, _ strength.Input, m []string) strength.Input {
			return whole(t, swap(t, text, "ballast: 1 kg", fmt.Sprintf("ballast: %.1f kg", 1+number(m))))
		}, 0.02},
	{alone(strings.Replace(floor, "600", "1500", 1) + "    inside: {hanging: {}, load: 80 kg}\n"), "hanging-rail", "rail1", `Hang no more than (\S+) kg`, written("load: 80 kg", "load: $1 kg"), 0.01},
	// Bottoms of cases.
	{alone(floor + "    inside: {open: {}, load: 400 kg}\n"), "shelf-sag", "A.bottom", `put a pair of feet under its middle, pairs: 3`, written("{kind: feet, height: 100, recess: 50}", "{kind: feet, height: 100, recess: 50, pairs: 3}"), 0.03},
}

// halfway puts one more support under the middle of a board.
func halfway(board string) func(*testing.T, string, strength.Input, []string) strength.Input {
	return func(t *testing.T, _ string, in strength.Input, _ []string) strength.Input {
		return changed(in, func(a *part.Assembly) {
			for i := range a.Spans {
				if sp := &a.Spans[i]; strings.Contains(sp.Part, board) && len(sp.Supports) == 2 {
					m := sp.Supports[0]
					m.At = (sp.Supports[0].At + sp.Supports[1].At) / 2
					sp.Supports = []part.Support{sp.Supports[0], m, sp.Supports[1]}
				}
			}
		})
	}
}

// sideUnder is the lower edge of the drawer's side that a bottom lies in.
func sideUnder(a *part.Assembly, bottom *part.Part) length.Length {
	for _, j := range a.Joints {
		if j.B != bottom.Mark || j.Kind != part.Loose {
			continue
		}
		for _, p := range a.Parts {
			if p.Mark == j.A {
				return p.Box().Min.Z
			}
		}
	}
	return 0
}

// shortBench makes a bench so much shorter that its longest way is as advised.
func shortBench(t *testing.T, text string, in strength.Input, m []string) strength.Input {
	lo, hi := length.Length(1<<60), length.Length(0)
	for _, p := range in.All.Parts {
		if p.Role == part.Leg {
			lo, hi = min(lo, (p.Box().Min.X+p.Box().Max.X)/2), max(hi, (p.Box().Min.X+p.Box().Max.X)/2)
		}
	}
	return whole(t, swap(t, text, "length: 1900", fmt.Sprintf("length: %.1f", 1900-mmOf(hi-lo)+number(m))))
}

// hinged gives a door as many hinges as advised, evenly apart.
func hinged(t *testing.T, _ string, in strength.Input, m []string) strength.Input {
	return changed(in, func(a *part.Assembly) {
		for i := range a.Fronts {
			h := a.Fronts[i].Hinges
			if len(h) < 2 {
				continue
			}
			n := int(number(m))
			var list []part.L
			for k := range n {
				list = append(list, h[0]+(h[len(h)-1]-h[0])*part.L(k)/part.L(n-1))
			}
			a.Fronts[i].Hinges = list
		}
	})
}

// Every other remedy that is printed is built, and the check is run again: the ratio is then what was
// printed, where one was, and no more than 1.
func TestRemediesAreBuilt(t *testing.T) {
	for _, x := range remediesBuilt {
		t.Run(x.code+" "+x.says, func(t *testing.T) {
			in := whole(t, x.job)
			f := find(t, strength.Check(in), finding.Code(x.code), x.at)
			if f.Verdict != finding.Fails {
				t.Fatalf("does not fail: %s", say(f))
			}
			m := regexp.MustCompile(x.says + `[^;]*?(?: \(ratio (\d+\.\d+)\))?(?:[.;,]|$)`).FindStringSubmatch(f.Hint)
			if m == nil {
				t.Fatalf("not advised: %s", say(f))
			}
			if !strings.Contains(x.says, "(") {
				m = append([]string{m[0], ""}, m[1:]...)
			}
			g := find(t, strength.Check(x.done(t, x.job, in, m)), finding.Code(x.code), x.at)
			if g.Ratio() > 1 {
				t.Errorf("advised: %s\nbuilt: %s", f.Hint, say(g))
			}
			if want, err := strconv.ParseFloat(m[len(m)-1], 64); err == nil && max(g.Ratio()-want, want-g.Ratio()) > max(0.0051, x.near) {
				t.Errorf("%q: ratio %.4f when built, %.2f printed", m[0], g.Ratio(), want)
			}
		})
	}
}

// Hinges are counted when a case is built; taken off again they are advised, and enough.
func TestHingesAsAdvised(t *testing.T) {
	in := whole(t, alone(wall+"    inside: {open: {}, load: 8 kg, doors: {count: 2, left: [{box-holder: {}, load: 9 kg}]}}\n"))
	two := changed(in, func(a *part.Assembly) {
		for i := range a.Fronts {
			h := a.Fronts[i].Hinges
			a.Fronts[i].Hinges = []part.L{h[0], h[len(h)-1]}
		}
	})
	f := find(t, strength.Check(two), strength.HingeCount, "1door")
	m := regexp.MustCompile(`Hang it on (\d+) hinges \(ratio (\S+)\)`).FindStringSubmatch(f.Hint)
	if f.Verdict != finding.Fails || m == nil {
		t.Fatal(say(f))
	}
	g := find(t, strength.Check(hinged(t, "", two, m)), strength.HingeCount, "1door")
	want, _ := strconv.ParseFloat(m[2], 64)
	printed(t, m[0], g.Ratio(), want)
}

// What may stay on a shelf's pins, put on it: its ratio is 1; and fastened to the sides it needs none.
func TestPinsAsAdvised(t *testing.T) {
	text := alone(floor + "    inside: {shelves: {count: 2}, load: 90 kg}\n")
	f := find(t, strength.Check(whole(t, text)), strength.ShelfPins, "shelf1")
	m := regexp.MustCompile(`keep no more than (\S+) kg on it \(ratio (\S+)\)`).FindStringSubmatch(f.Hint)
	if m == nil || !strings.Contains(f.Hint, "shelves: {fixed: yes}") {
		t.Fatal(say(f))
	}
	g := find(t, strength.Check(whole(t, swap(t, text, "load: 90 kg", "load: "+m[1]+" kg"))), strength.ShelfPins, "shelf1")
	if r := g.Ratio(); r > 1 || r < 0.99 {
		t.Errorf("%s: ratio %.4f", f.Hint, r)
	}
	if list := strength.Check(whole(t, swap(t, text, "count: 2", "count: 2, fixed: yes"))).With(strength.ShelfPins); len(list) > 0 {
		t.Errorf("a fixed shelf stands on pins: %s", say(list[0]))
	}
}
