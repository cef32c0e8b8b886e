package plan_test

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/shop"
)

var leastDeep = regexp.MustCompile(`no less than ([0-9.]+) mm deep`)

// shallowHoles gives a sentence for every anchor whose screw meets the end of a hole that was bored no deeper than its
// step says: how far a screw comes is its length less the boards before the wall, as they lie, and the packing.
func shallowHoles(r plan.Result, a part.Assembly, steps []shop.Step) (bad []string, seen int) {
	for _, f := range a.Fixings {
		if f.Kind != part.ToWall || f.Stud != "" {
			continue
		}
		rail := a.Parts[slices.IndexFunc(a.Parts, func(p part.Part) bool { return p.Mark == f.Part })]
		front := rail.Box().Max.Y
		for moved := true; moved; {
			moved = false
			for _, p := range a.Parts {
				b := p.Box()
				if p.Owner == rail.Owner && b.Max.Y == front && b.Min.Y < front && b.Min.X < f.At.X && f.At.X < b.Max.X && b.Min.Z < f.At.Z && f.At.Z < b.Max.Z {
					front, moved = b.Min.Y, true
				}
			}
		}
		comes := f.Length - (rail.Box().Max.Y - front) - f.Packing
		deep := length.Length(0)
		for _, s := range steps {
			if m := leastDeep.FindStringSubmatch(s.Text); m != nil && s.Owner == f.Owner && (rail.Role != part.Cleat || strings.Contains(s.Text, f.Part)) {
				d, err := length.Parse(m[1], length.Millimetres)
				if err == nil {
					deep = max(deep, d)
				}
			}
		}
		seen++
		if deep < comes {
			bad = append(bad, fmt.Sprintf("%s at %s: the screw comes %s into the wall, the hole %s", f.Part, f.At.X, comes, deep))
		}
	}
	return bad, seen
}

// One length of screw passes more or less packing along a rail: the holes are deep enough for the least.
func TestAnchorsAreBoredDeepEnough(t *testing.T) {
	r := plantest.Result(t, "hollis-court")
	bad, seen := shallowHoles(r, r.Assembly, r.Steps)
	if seen == 0 {
		t.Fatal("no anchor")
	}
	for _, b := range bad {
		t.Error(b)
	}
}

// A back that is let in before a cleat is pushed in past finished faces: it has play (common practice, no source).
func TestLetInBackHasPlay(t *testing.T) {
	r := plantest.Result(t, "hollis-court")
	seen := 0
	for _, back := range r.Assembly.Parts {
		if back.Role != part.BackPanel || back.Owner != "ink case" && back.Owner != "gauge case" {
			continue
		}
		b := back.Box()
		for _, p := range r.Assembly.Parts {
			c := p.Box()
			if p.Owner != back.Owner || p.Role != part.Side && p.Role != part.Top && p.Role != part.Bottom {
				continue
			}
			seen++
			air := max(b.Min.X-c.Max.X, c.Min.X-b.Max.X, b.Min.Z-c.Max.Z, c.Min.Z-b.Max.Z)
			if air < 4*length.MM/10 || air > length.MM {
				t.Errorf("%s lies %s from %s", back.Mark, air, p.Mark)
			}
		}
	}
	if seen == 0 {
		t.Error("no back")
	}
}
