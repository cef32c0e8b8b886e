package plan_test

import (
	"context"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
)

// Common practice, no source: three equal cases of 30 in make 90 in, and are topped from one length of 8 ft: the layer
// of the counter and its edging are each of one piece.
func TestThreeCasesUnderOneLength(t *testing.T) {
	r := plan.Make(context.Background(), parse(t, "three", []byte(`
stowright: 1
unit: in
practice: {from: inch-shop}
walls: {w: {length: 120, height: 96, kind: stud, lining: {name: drywall, thickness: 1/2}, studs: {species: spruce-pine-fir, first: 8, spacing: 16, width: 1 1/2, depth: 3 1/2}}}
cases:
  a: {width: 30, height: 34 1/2, depth: 22, inside: {shelves: {}}}
  b: {width: 30, height: 34 1/2, depth: 22, inside: {shelves: {}}}
  c: {width: 30, height: 34 1/2, depth: 22, inside: {shelves: {}}}
runs: {r: {wall: w, start: 10, order: [{case: a}, {case: b}, {case: c}]}}
counters: {top: {over: [r], layers: [{board: maple-three-quarter}], edge: {stick: maple-strip, sides: [front]}, over-left: 1, over-right: 1}}
`)), plan.Want{})
	lo, hi := length.Length(math.MaxInt64), length.Length(0)
	for _, o := range r.Assembly.Owners {
		if o.Kind == "case" {
			lo, hi = min(lo, o.Carcass.Min.X), max(hi, o.Carcass.Max.X)
		}
	}
	if hi-lo != 90*length.Inch {
		t.Errorf("the three are %s wide", (hi - lo).Exact(length.Inches))
	}
	n := map[part.Role]int{}
	for _, p := range r.Assembly.Parts {
		if p.Role == part.CounterLayer || p.Role == part.CounterEdge {
			n[p.Role]++
			if p.Cut()[0] < 92*length.Inch || p.Cut()[0] > 96*length.Inch {
				t.Errorf("%s is %s long", p.Name, p.Cut()[0].Exact(length.Inches))
			}
		}
	}
	if n[part.CounterLayer] != 1 || n[part.CounterEdge] != 1 {
		t.Errorf("pieces: %v", n)
	}
	if len(r.Plan.Unplaced) > 0 {
		t.Errorf("not cut: %v", r.Plan.Unplaced)
	}
}

// The diagonals that steps give are those of their rectangles (Pythagoras), to the nearest half millimetre.
func TestDiagonalsInSteps(t *testing.T) {
	said := regexp.MustCompile(`[Dd]iagonals[^,]*, ([\d.]+) mm by ([\d.]+) mm[,:] (?:they )?should read ([\d.]+) mm`)
	r := plan.Make(context.Background(), parse(t, "square", []byte("stowright: 1\nunit: mm\npractice: {from: metric-shop}\ncases: {a: {width: 600, height: 720, depth: 400, stands-on: {kind: floor}, inside: {drawers: {}}}, b: {width: 437, height: 911, depth: 333, inside: {shelves: {}}}}\n")), plan.Want{})
	n := 0
	for _, s := range r.Steps {
		for _, m := range said.FindAllStringSubmatch(s.Text, -1) {
			n++
			var v [3]float64
			for i := range v {
				v[i], _ = strconv.ParseFloat(m[i+1], 64)
			}
			if d := math.Hypot(v[0], v[1]); math.Abs(d-v[2]) > 0.26 {
				t.Errorf("%q: the diagonal is %.2f mm", m[0], d)
			}
		}
		if strings.Contains(s.Text, "iagonals") && !said.MatchString(s.Text) {
			t.Errorf("no size: %q", s.Text)
		}
	}
	if n < 2 {
		t.Errorf("%d diagonals are told", n)
	}
}
