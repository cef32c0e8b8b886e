package pages_test

import (
	"context"
	"math"
	"slices"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/pages"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/rules"
)

// No door on a plan opens into the wall that stands at an end of its own, though its hinges would go on: in the
// examples, and in a corner of two walls. Where the tip of its leaf is, by trigonometry.
func TestDoorsOnPlansStopAtWalls(t *testing.T) {
	results := map[string]plan.Result{"corner": plan.Make(context.Background(), plantest.Parse(t, "corner", []byte(`
stowright: 1
unit: mm
practice: {from: metric-shop}
walls:
  north: {length: 3000, height: 2400, kind: masonry, corner: {with: east, at: right}}
  east: {length: 2000, height: 2400, kind: masonry}
cases: {a: {height: 800, width: 900, depth: 600, inside: {shelves: {count: 1}, doors: {count: 2}}}}
runs: {low: {wall: north, start: 2060, order: [{case: a}]}}
`)), plan.Want{})}
	for _, name := range []string{"one-case", "fennel-street", "hollis-court", "marram-point", "ostler-row"} {
		results[name] = plantest.Result(t, name)
	}
	stopped := map[string]int{}
	for name, r := range results {
		for _, w := range pages.Walls(r) {
			stands, owner := w.Ends, map[string]bool{}
			for _, o := range r.Assembly.Owners {
				owner[o.ID] = o.Wall == w.ID
				if o.Kind == "filler" && o.Wall == w.ID { // planed to the wall there
					stands[0] = stands[0] || o.Box.Min.X == 0
					stands[1] = stands[1] || o.Box.Max.X == w.Length
				}
			}
			for _, m := range r.Assembly.Motions {
				if m.Kind != part.Swing || m.Hinge != geom.Left && m.Hinge != geom.Right || !owner[m.Owner] {
					continue
				}
				opens, known := w.Stops[m.ID]
				if !known {
					t.Errorf("%s: it is not known how far a door of %s opens", name, m.Owner)
				}
				if opens < 90 || opens > m.Angle {
					t.Errorf("%s: a door of %s is open by %d degrees of %d", name, m.Owner, opens, m.Angle)
				}
				if opens < m.Angle {
					stopped[name]++
					if !slices.ContainsFunc(r.Findings.With(rules.DoorStopped), func(f finding.Finding) bool {
						return f.At == "case/"+m.Owner && f.Capacity == float64(opens)
					}) {
						t.Errorf("%s: a door of %s is drawn as stopped at %d degrees, which no finding says", name, m.Owner, opens)
					}
				}
				wide := m.Closed.Max.X - m.Pivot.X
				if m.Hinge == geom.Right {
					wide = m.Pivot.X - m.Closed.Min.X
				}
				out := -math.Cos(float64(opens)*math.Pi/180) * float64(wide)
				if m.Hinge == geom.Left && stands[0] && float64(m.Pivot.X)-out < -1 || m.Hinge == geom.Right && stands[1] && float64(m.Pivot.X)+out > float64(w.Length)+1 {
					t.Errorf("%s: a door of %s is drawn in the wall beside it", name, m.Owner)
				}
			}
		}
	}
	for _, name := range []string{"corner", "fennel-street"} {
		if stopped[name] == 0 {
			t.Errorf("%s: no door is stopped by a wall: nothing is tried", name)
		}
	}
}
