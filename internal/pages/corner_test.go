package pages_test

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/geom"
	"stowright/internal/pages"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/rules"
	"stowright/internal/view"
)

// What stands round a corner is on the plan of either wall, with its doors as far open as they go, and nothing of it leaves
// the drawing: on the west wall's own line its distance from the corner is what is left of its length (arithmetic).
func TestPlansShowTheirCorners(t *testing.T) {
	if testing.Short() {
		t.Skip("the example with a corner is large")
	}
	r := plantest.Result(t, "marram-point")
	walls := pages.Walls(r)
	at := map[string]view.Wall{}
	for _, w := range walls {
		at[w.ID] = w
	}
	for _, o := range r.Assembly.Owners {
		if o.Kind != "case" {
			continue
		}
		other := map[string]string{"north": "west", "west": "north"}[o.Wall]
		code := view.Code(&r.Assembly, o.ID)
		i := slices.IndexFunc(at[other].Round, func(x view.Round) bool { return x.Name == code })
		if i < 0 {
			t.Errorf("%s at wall %s is not on the plan of wall %s", code, o.Wall, other)
			continue
		}
		x := at[other].Round[i]
		doors := 0
		for _, m := range r.Assembly.Motions {
			if m.Owner == o.ID && m.Kind == part.Swing && (m.Hinge == geom.Left || m.Hinge == geom.Right) {
				doors++
			}
		}
		if len(x.Leaves) != doors || len(x.Ways) != doors {
			t.Errorf("%s has %d doors, %d are on the plan of wall %s", code, doors, len(x.Leaves), other)
		}
		if o.Wall == "west" { // the corner is at the right end of it and at the left of the other; a corner of 90 degrees
			near := slices.MaxFunc(x.Outline, func(a, b geom.Vec) int { return int(a.Y - b.Y) }).Y
			if left := at["west"].Length - o.Box.Max.X; -near != left {
				t.Errorf("%s is drawn %v from the corner, and stands %v from it", code, -near, left)
			}
		}
	}
	for _, w := range walls {
		c := view.Scene{Assembly: &r.Assembly, Wall: &w, Unit: view.Units{Unit: r.Job.Print}}
		f := c.Plan()
		s := draw.Sheet{}
		view.Put(&s, draw.Pt(0, 0), draw.Scale{Paper: 1, Real: 25}, f)
		lines := 0
		for _, it := range s.Items {
			if p, ok := it.(*draw.Path); ok && p.Layer == "Round" {
				lines++
			}
		}
		if lines < 3 {
			t.Errorf("the plan of wall %s shows %d lines of what stands round the corner", w.ID, lines)
		}
		if notes := strings.Join(f.Notes, "\n"); !strings.Contains(notes, "A.1door and H.3door") || !strings.Contains(notes, "With A.1door open") {
			t.Errorf("the plan of wall %s does not say which doors are in each other's way: %s", w.ID, notes)
		}
	}
}

// Two leaves beside each other, hinged at where their cases meet: the one at 110 degrees leans 20 before the other, which comes
// to it at 70, less by what two leaves 18 thick and the few mm between their pivots take (geometry): at R = 440
// asin(40/440) = 5 degrees.
func TestLeavesThatMeetWideOpen(t *testing.T) {
	r := plan.Make(context.Background(), plantest.Parse(t, "two", []byte(`
stowright: 1
unit: mm
practice: {from: metric-shop}
walls: {north: {length: 3000, height: 2400, kind: masonry}}
cases:
  a: {height: 800, width: 900, depth: 600, inside: {shelves: {count: 1}, doors: {count: 2}}}
  b: {height: 800, width: 900, depth: 600, inside: {shelves: {count: 1}, doors: {count: 2}}}
runs: {low: {wall: north, start: 600, order: [{case: a}, {case: b}]}}
`)), plan.Want{})
	list := rules.Meetings(&r.Job, &r.Room, &r.Assembly)
	if len(list) != 1 || list[0].First.Mark != "A.2door" || list[0].Second.Mark != "B.1door" || list[0].By != 0 {
		t.Fatalf("%+v", list)
	}
	for i, d := range list[0].Degrees {
		if list[0].Stops[i] != 110 || math.Abs(float64(d)-67.5) > 3.5 {
			t.Errorf("door %d of 110 degrees opens to %d beside the other", i, d)
		}
	}
	f := r.Findings.With(rules.OneAtATime)
	if len(f) != 1 || !strings.Contains(f[0].Text, "past 90 degrees: open both to 90, or one at a time") {
		t.Error(f)
	}
}
