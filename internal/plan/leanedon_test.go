package plan_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/shop"
)

// leanedOn gives a sentence for every bench on legs with a hook board that no wall holds, of which the two are not judged
// as one body, and for angles at its legs that no step puts in before the board stands, or that nobody buys.
func leanedOn(r plan.Result) (bad []string, seen int) {
	say := func(format string, args ...any) { bad = append(bad, fmt.Sprintf(format, args...)) }
	name := map[string]string{}
	for _, o := range r.Assembly.Owners {
		name[o.ID] = o.Name
	}
	for _, n := range r.Job.Hutches {
		bench := n.Value.On
		legs, held, angles := 0, false, 0
		for _, p := range r.Assembly.Parts {
			if p.Owner == bench && p.Role == part.Leg {
				legs++
			}
		}
		for _, f := range r.Assembly.Fixings {
			held = held || f.Owner == n.ID && (f.Kind == part.ToStud || f.Kind == part.ToWall)
			if f.Owner == bench && f.Kind == part.ToFloor {
				angles++
			}
		}
		if legs == 0 || held || name[n.ID] == "" {
			continue
		}
		seen++
		judged := false
		for _, f := range r.Findings {
			judged = judged || f.Code == "tip-over" && f.At == "counter/"+bench && (strings.Contains(f.Text, "with "+name[n.ID]+" on it") || strings.Contains(f.Text, "is not known"))
		}
		if !judged {
			say("%s: nothing says whether it stands with %s on it", bench, n.ID)
		}
		if angles == 0 {
			continue
		}
		bought := map[string]int{}
		for _, h := range r.Assembly.Hardware {
			if h.Owner == bench && h.For == part.ToFloorUse {
				bought[h.ID] += h.Count
			}
		}
		for id, k := range bought {
			if k != angles {
				say("%s: %d of %s are bought for %d angles", bench, k, id, angles)
			}
		}
		down := slices.IndexFunc(r.Steps, func(s shop.Step) bool {
			return s.Owner == bench && s.Phase == shop.Install && strings.Contains(s.Text, " into the floor, each through a steel angle")
		})
		up := slices.IndexFunc(r.Steps, func(s shop.Step) bool { return s.Owner == n.ID && s.Phase == shop.Install })
		if len(bought) != 2 || down < 0 || up < down {
			say("%s: its %d angles (%v) are put in at step %d of the list, its board at %d", bench, angles, bought, down, up)
		}
	}
	return bad, seen
}

// A bench and the hook board on it are judged as one, and what holds them is in before anybody can lean on the board.
func TestBenchAndBoardAreOneBody(t *testing.T) {
	seen := 0
	for _, name := range shipped {
		bad, n := leanedOn(plantest.Result(t, name))
		for _, s := range bad {
			t.Errorf("%s: %s", name, s)
		}
		seen += n
	}
	for _, floor := range []string{"", ", floor: anchor-sleeve-10", ", floor: wall-screw-6-80"} {
		for _, high := range []int{350, 900} {
			text := fmt.Sprintf("stowright: 1\nunit: mm\npractice: {from: saw-and-drill}\nwalls:\n  north: {length: 4000, height: 2500, kind: masonry, lining: {thickness: 10}}\n"+
				"counters:\n  bench: {layers: [{board: birch-18}, {board: birch-18}], free: {at: 600, out: 1800, length: 1400, legs: spruce-leg, brace: panel%s}, depth: 650, height: 900}\n"+
				"hutches:\n  hooks: {on: bench, width: 1400, height: %d, board: birch-6, frame: spruce-strip, brace: 300, spacer: 20}\n", floor, high)
			bad, n := leanedOn(plan.Make(context.Background(), parse(t, "bench", []byte(text)), plan.Want{}))
			for _, s := range bad {
				t.Errorf("%s, %d: %s", floor, high, s)
			}
			if seen += n; n != 1 {
				t.Errorf("%s, %d: no bench was looked at", floor, high)
			}
		}
	}
	if seen < 7 {
		t.Errorf("only %d benches with hook boards", seen)
	}
}
