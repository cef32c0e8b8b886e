package packet_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/length"
)

// The leader of a cut's circle ends in a dot on its cut and cannot be read as a cut itself: it crosses no other cut, and no piece
// but one that its cut bounds; where there is no such place near it slants, as no cut does. On all sheets of all examples, in both units and on every paper in the long form.
func TestLeadersOfCutsAreNoCuts(t *testing.T) {
	n, slanted := 0, 0
	judge := func(what string, doc draw.Document) {
		for i := range doc.Pages {
			leaders, over, faults := cutLeaders(&doc.Pages[i])
			n, slanted = n+leaders, slanted+over
			for _, f := range faults {
				t.Errorf("%s, sheet %d: %s", what, i+1, f)
			}
		}
	}
	for _, name := range some() {
		if testing.Short() || !slices.Contains(names, name) {
			judge(name, set(t, name))
			continue
		}
		for _, u := range []length.Unit{length.Inches, length.Millimetres} {
			for _, p := range []draw.Paper{draw.A4(), draw.Letter(), draw.A3()} {
				judge(fmt.Sprintf("%s, %s in %s", name, p.Name, u), setOn(t, name, u, p))
			}
		}
	}
	t.Logf("%d leaders, %d of them slanting over what their cut does not bound", n, slanted)
	if n < 20 || slanted*2 > n {
		t.Errorf("%d leaders were read, %d of them run over what their cut does not bound", n, slanted)
	}
}

// cutLeaders counts the leaders of the circles of cuts on a sheet of paper, and says what is wrong with them.
func cutLeaders(s *draw.Sheet) (n, slanted int, faults []string) {
	type seg struct{ a, b draw.Point }
	var leaders, cuts []seg
	var dots, pieces []draw.Rect
	for _, it := range s.Items {
		p, ok := it.(*draw.Path)
		if !ok {
			continue
		}
		line := len(p.Steps) == 2 && p.Steps[1].Op == draw.Go
		switch {
		case p.Layer == "Cuts" && line && p.Line == draw.Narrow:
			cuts = append(cuts, seg{p.Steps[0].P[0], p.Steps[1].P[0]})
		case p.Layer == "Cuts" && line && p.Line == draw.Fine:
			leaders = append(leaders, seg{p.Steps[0].P[0], p.Steps[1].P[0]})
		case p.Layer == "Cuts" && p.Filled && p.Fill == draw.Black:
			dots = append(dots, around(p))
		case p.Layer == "Sheet" && p.Filled && p.Fill == draw.White && p.Line == draw.Edge:
			pieces = append(pieces, around(p))
		}
	}
	for _, l := range leaders {
		at := func(p draw.Point) draw.Rect { return draw.Rect{X: p.X, Y: p.Y} }
		own := slices.IndexFunc(cuts, func(c seg) bool { return at(l.a).Inset(-0.05).Struck(c.a, c.b) })
		if own < 0 || !slices.ContainsFunc(dots, func(d draw.Rect) bool { return d.Mid().Sub(l.a).Len() < 0.05 }) {
			faults = append(faults, fmt.Sprintf("the leader from %.1f, %.1f does not end in a dot on a cut", l.a.X, l.a.Y))
			continue
		}
		crosses := false
		for k, c := range cuts {
			crosses = crosses || k != own && draw.Cross(l.a, l.b, c.a, c.b)
		}
		over := 0
		for _, p := range pieces {
			if p.Inset(0.3).Struck(l.a, l.b) {
				over++
				crosses = crosses || over > 1 || !p.Inset(-1).Struck(cuts[own].a, cuts[own].b) // as far as half a kerf
			}
		}
		if !crosses {
			continue
		}
		slanted++
		if d := l.b.Sub(l.a); min(math.Abs(d.X), math.Abs(d.Y)) < 0.24*d.Len() {
			faults = append(faults, fmt.Sprintf("the leader from %.1f, %.1f lies as a cut over what its cut does not bound", l.a.X, l.a.Y))
		}
	}
	return len(leaders), slanted, faults
}
