package plan_test

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/shop"
)

// Small surveys as somebody writes them who has read the docs alone, and what the check must and must not say of them.
// What is right of each is arithmetic or common practice (no source).
func TestSurveysFromTheDocsAlone(t *testing.T) {
	for _, c := range []struct {
		name, text string
		says, not  []finding.Code
		parts      []string // roles that must be among the parts
	}{
		{"dividers up to the top of a case whose practice has stretchers", `
stowright: 1
unit: mm
practice: {from: metric-shop}
cases: {it: {width: 600, height: 720, depth: 420, inside: {dividers: {count: 6, pitch: 64}}}}
`, []finding.Code{"slot-top"}, []finding.Code{"dividers-no-slots"}, []string{"top", "divider"}},
		{"the same, with stretchers asked for", `
stowright: 1
unit: mm
practice: {from: metric-shop}
cases: {it: {width: 900, height: 720, depth: 420, top: stretchers, inside: {across: [{width: 300, dividers: {count: 3, pitch: 64}}, {open: {}}]}}}
`, []finding.Code{"slot-top"}, []finding.Code{"dividers-no-slots"}, []string{"top", "divider"}},
		{"dividers under a fixed shelf leave the stretchers", `
stowright: 1
unit: mm
practice: {from: metric-shop}
cases: {it: {width: 600, height: 720, depth: 420, inside: {up: [{height: 400, dividers: {count: 3, pitch: 64}}, {open: {}}]}}}
`, nil, []finding.Code{"dividers-no-slots", "slot-top"}, []string{"stretcher", "divider"}},
		{"a tall case off a leaning wall, before a window", `
stowright: 1
unit: mm
practice: {from: metric-shop}
walls:
  port: {length: 3400, height: 1900, kind: stud, lining: {thickness: 9}, studs: {species: spruce, first: 120, spacing: 400, width: 38}, leans-out-at-top: 110,
    openings: {porthole: {kind: window, from: 1500, to: 1900, sill: 1180, head: 1580}}}
cases: {coats: {wall: port, at: 1650, width: 500, height: 1780, depth: 480, inside: {open: {}}}}
`, []finding.Code{"blocks-opening"}, nil, nil},
		{"a whole back holds its case to the studs", `
stowright: 1
unit: mm
practice: {from: metric-shop, back: full}
walls: {w: {length: 3400, height: 2400, kind: stud, lining: {thickness: 9}, studs: {species: spruce, first: 120, spacing: 400, width: 38}}}
cases: {books: {wall: w, at: 250, up: 1300, level: wall, width: 900, height: 320, depth: 220, inside: {open: {}, load: 20 kg}}}
`, []finding.Code{"wall-fixing"}, []finding.Code{"wall-fixing not known"}, nil},
		{"3 1/2 in written as 89 mm", `
stowright: 1
unit: mm
practice: {from: metric-shop}
walls: {w: {length: 3400, height: 2400, kind: masonry, floor: {slab: yes, falls-along: 0}}}
cases: {kegs: {wall: w, at: 60, width: 1200, height: 780, depth: 600, stands-on: {kind: base}, inside: {open: {}}}}
bases: {left: {under: [kegs], stock: two-by-four-treated, height: 89, levels-by: shims}}
`, []finding.Code{"base-as-stick"}, []finding.Code{"base-stock-low", "stick-too-narrow"}, nil},
		{"a pipe that passes a counter from below to above", strings.Replace(riser, "OUT", "70", 1), []finding.Code{"notched"}, []finding.Code{"clash-obstacle"}, nil},
		{"the same, too far out to be notched round", strings.Replace(riser, "OUT", "170", 1), []finding.Code{"clash-obstacle"}, []finding.Code{"notched"}, nil},
		{"two counters that meet in a square corner", strings.Replace(corner, "ANGLE", "90", 1), []finding.Code{"counter-butts"}, []finding.Code{"clash", "tops-differ"}, nil},
		{"the same in a corner of 94 degrees", strings.Replace(corner, "ANGLE", "94", 1), []finding.Code{"counter-butts"}, []finding.Code{"clash", "tops-differ"}, nil},
		{"the same in a corner of 86 degrees", strings.Replace(corner, "ANGLE", "86", 1), []finding.Code{"counter-butts"}, []finding.Code{"clash", "tops-differ"}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := plan.Make(context.Background(), parse(t, "job.yaml", []byte(c.text)), plan.Want{})
			codes := map[finding.Code]bool{}
			for _, f := range r.Findings {
				codes[f.Code] = true
				if f.Verdict == finding.NotKnown {
					codes[f.Code+" not known"] = true
				}
			}
			for _, k := range c.says {
				if !codes[k] {
					t.Errorf("%s is not said", k)
				}
			}
			for _, k := range c.not {
				if codes[k] {
					t.Errorf("%s is said", k)
				}
			}
			for _, want := range c.parts {
				if !slices.ContainsFunc(r.Assembly.Parts, func(p part.Part) bool { return string(p.Role) == want }) {
					t.Errorf("there is no %s", want)
				}
			}
		})
	}
}

// riser is a room in which a pipe goes up behind a counter, OUT from the wall.
const riser = `stowright: 1
unit: mm
practice: {from: metric-shop}
walls:
  w: {length: 4000, height: 2400, kind: stud, lining: {thickness: 12}, studs: {species: spruce, first: 300, spacing: 600, width: 45}, floor: {falls-along: 4},
    obstacles: {riser: {kind: pipe, from: 1500, to: 1560, bottom: 0, height: 2400, out: OUT}}}
cases:
  a: {width: 900, height: 780, depth: 560, inside: {open: {}}}
  b: {width: 900, height: 780, depth: 560, inside: {open: {}}}
runs: {r: {wall: w, start: 400, order: [{case: a}, {space: 400}, {case: b}]}}
counters: {top: {over: [r], layers: [{board: birch-18}, {board: birch-18}], rails: {height: 60}}}
`

// Both layers of a counter are notched round a pipe with room beside and before it, the rail over
// the gap stands before it, and nothing of the counter is where the pipe is.
func TestCounterGoesRoundAPipe(t *testing.T) {
	r := plan.Make(context.Background(), parse(t, "job.yaml", []byte(strings.Replace(riser, "OUT", "70", 1))), plan.Want{})
	pipe := geom.B(1500*length.MM, -70*length.MM, 0, 1560*length.MM, 0, 2400*length.MM)
	n := 0
	for _, p := range r.Assembly.Parts {
		if p.Owner != "top" {
			continue
		}
		notched := slices.ContainsFunc(p.Ops, func(o part.Op) bool { return o.Kind == part.Notch && o.For == part.RoundWall && o.Depth == p.Size[2] })
		if notched {
			n++
		}
		if p.Box().Meets(pipe) && !notched {
			t.Errorf("%s is where the pipe is", p.Name)
		}
	}
	if n != 2 {
		t.Errorf("%d boards are notched", n)
	}
}

// corner is a room of two walls whose floors differ; the counter on the second butts against the front of that on the first.
const corner = `
stowright: 1
unit: in
practice: {from: inch-shop}
walls:
  east: {length: 120, height: 96, kind: masonry, floor: {points: [{at: 0, height: 0}, {at: 120, height: 1/2}]}}
  south: {length: 100, height: 96, kind: masonry, corner: {with: east, at: left, angle: ANGLE}, floor: {points: [{at: 0, height: 1/2}, {at: 100, height: 1/4}]}}
cases:
  one: {width: 60, height: 34 1/2, depth: 23, inside: {open: {}}}
  three: {width: 33, height: 34 1/2, depth: 23, inside: {open: {}}}
runs:
  east run: {wall: east, from: right, start: 0, order: [{case: one}]}
  south run: {wall: south, start: 29, order: [{case: three}]}
counters:
  south top: {over: [south run], butts: east top, over-front: 1, layers: [{board: birch-three-quarter}, {board: birch-three-quarter}], edge: {stick: maple-strip}}
  east top: {over: [east run], over-front: 1, layers: [{board: birch-three-quarter}, {board: birch-three-quarter}], edge: {stick: maple-strip}}
`

// Where a counter butts against another, its end is at the front of that: 24 in from the corner where the corner is square;
// the wedge of one that is not is the depth times the tangent of what it is off (24 tan 4 = 1.68 in). Both are at one
// height, the end gets no edging, and the bead between them is bought and told.
func TestCountersButtInACorner(t *testing.T) {
	for angle, wedge := range map[string]float64{"90": 0, "94": 24 * math.Tan(4*math.Pi/180), "86": 24 * math.Tan(4*math.Pi/180)} {
		r := plan.Make(context.Background(), parse(t, "job.yaml", []byte(strings.Replace(corner, "ANGLE", angle, 1))), plan.Want{})
		east, south := r.Room.Seat("east top"), r.Room.Seat("south top")
		at := float64(south.Box.Min.X) / float64(length.Inch)
		if want := 24.0; angle == "90" && south.Box.Min.X != 24*length.Inch || angle == "86" && math.Abs(at-want/math.Cos(4*math.Pi/180)-wedge) > 0.1 {
			t.Errorf("%s: it begins at %.3f in", angle, at)
		}
		a, b := r.Room.Wall("east").Frame.Point(geom.V(0, 0, east.Top)), r.Room.Wall("south").Frame.Point(geom.V(0, 0, south.Top))
		if a.Z != b.Z {
			t.Errorf("%s: the tops differ: %v and %v", angle, a.Z, b.Z)
		}
		said := 0.0
		for _, f := range r.Findings.With("counter-butts") {
			said = max(said, f.Demand/25.4)
		}
		if math.Abs(said-wedge) > 0.02 {
			t.Errorf("%s: a wedge of %.3f in is said, %.3f wanted", angle, said, wedge)
		}
		for _, p := range r.Assembly.Parts {
			if p.Owner == "south top" && p.Role == part.CounterEdge && strings.Contains(p.Name, "left") {
				t.Errorf("%s: the end that butts has edging", angle)
			}
		}
		told := slices.ContainsFunc(r.Steps, func(s shop.Step) bool {
			return s.Owner == "south top" && strings.Contains(strings.Join(s.Points, " "), "butts against the counter round the corner")
		})
		if n := slices.IndexFunc(r.Assembly.Hardware, func(h part.Item) bool { return h.For == part.ButtsInCorner }); n < 0 || !told {
			t.Errorf("%s: adhesive bought %t, told %t", angle, n >= 0, told)
		}
	}
}

// Whole surveys that were written from the docs alone, ordinary and awkward: each reads without a mistake and is planned,
// and whatever stands against building it has its remedy.
func TestWholeSurveysFromTheDocsAlone(t *testing.T) {
	for _, name := range plantest.Surveys() {
		t.Run(name, func(t *testing.T) {
			r := plantest.Result(t, name)
			if len(r.Assembly.Parts) == 0 || len(r.Steps) == 0 || len(r.Bill.Lines) == 0 {
				t.Error("nothing is planned")
			}
			for _, f := range r.Findings {
				if f.Text == "" || f.At == "" || f.Severity == finding.Error && f.Hint == "" {
					t.Errorf("%s at %q has no remedy: %s", f.Code, f.At, f.Text)
				}
			}
		})
	}
}
