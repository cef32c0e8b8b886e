package plan_test

import (
	"context"
	"fmt"
	"testing"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
)

// asMade is the box of a part as it comes from the saw and has its edging put on, its datum edge
// where the plan has it: edging that is not deducted stands out.
func asMade(p part.Part) geom.Box {
	var from [2]length.Length
	size := p.Cut()
	for i, x := range p.Bands {
		if x.Edging == "" {
			continue
		}
		size[i/2] += x.Thickness
		if i%2 == 0 && !x.Deduct {
			from[i/2] = -x.Thickness
		}
	}
	return p.Pose.Box(geom.B(from[0], from[1], 0, from[0]+size[0], from[1]+size[1], size[2]))
}

// jammed gives a sentence for every two fronts of an owner that, sawn and edged as told, stand
// nearer to each other than the practice's gap, and for every front that comes off another size
// than its drawing has. Gaps are those of the practice (common practice, no source).
func jammed(r plan.Result) (bad []string, pairs int) {
	var fronts []part.Part
	for _, p := range r.Assembly.Parts {
		if p.Role == part.Door || p.Role == part.DrawerFront || p.Role == part.FalseFront {
			if asMade(p) != p.Box() {
				bad = append(bad, fmt.Sprintf("%s: made it is %v, drawn %v", p.Mark, asMade(p), p.Box()))
			}
			fronts = append(fronts, p)
		}
	}
	for i, p := range fronts {
		for _, q := range fronts[:i] {
			a, b := asMade(p), asMade(q)
			if p.Owner != q.Owner || a.Min.Y != b.Min.Y {
				continue
			}
			x := max(a.Min.X-b.Max.X, b.Min.X-a.Max.X)
			z := max(a.Min.Z-b.Max.Z, b.Min.Z-a.Max.Z)
			if gap := max(x, z); gap < 20*length.MM {
				pairs++
				if gap < r.Job.Practice.FrontGap {
					bad = append(bad, fmt.Sprintf("%s and %s: %s apart, the gap is %s", p.Mark, q.Mark, gap.In(length.Millimetres), r.Job.Practice.FrontGap.In(length.Millimetres)))
				}
			}
		}
	}
	return bad, pairs
}

// Doors and drawer fronts keep their gaps with their edging on, whatever it is: the gap of a pair
// of leaves would else lose two thicknesses of it.
func TestFrontsKeepTheirGapsEdged(t *testing.T) {
	inExamples(t, plantest.Examples(), jammed, "no two fronts stand side by side")
	for _, deduct := range []string{"yes", "no"} {
		text := fmt.Sprintf("stowright: 1\nunit: mm\npractice: {from: metric-shop, edging: thick}\nedgings: {thick: {thickness: 1.3, width: 22, roll: 20 m, deduct: %s}}\ncases:\n  box: {width: 750, height: 700, depth: 400, inside: {shelves: {count: 1}, doors: {count: 2}}}\n  bank: {width: 600, height: 700, depth: 500, inside: {drawers: {count: 3}}}\n", deduct)
		r := plan.Make(context.Background(), parse(t, "edged", []byte(text)), plan.Want{})
		bad, n := jammed(r)
		for _, s := range bad {
			t.Errorf("deduct: %s: %s", deduct, s)
		}
		if n != 3 {
			t.Errorf("deduct: %s: %d pairs of fronts, want 3", deduct, n)
		}
	}
}
