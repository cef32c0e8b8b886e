package view

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/draw/drawtest"
)

// Beside crosses in rows on studs every figure is set once, on nothing, and is nearer to its own cross than to any other or on a leader
// to it that strikes no other cross; few leaders cross, and no two figures stand as one.
func TestFiguresStandAtTheirCrosses(t *testing.T) {
	figures, crossing := 0, 0
	for seed := range uint64(60) {
		r := rand.New(rand.NewPCG(seed, 7))
		s := draw.A4().Sheet(true)
		in := draw.Rect{X: 40, Y: 30, W: 170, H: 90}
		var at []draw.Point
		var texts []string
		for range 3 + r.IntN(5) {
			x := in.X + 12 + r.Float64()*140
			for range 2 + r.IntN(3) {
				p := draw.Pt(x, in.Y+8+r.Float64()*70)
				if slices.ContainsFunc(at, func(q draw.Point) bool { return q.Sub(p).Len() < 2.2 }) {
					continue
				}
				at, texts = append(at, p), append(texts, fmt.Sprintf("+%d/32", 1+len(at)))
				s.Poly(draw.Edge, p.Add(draw.Pt(-1, -1)), p.Add(draw.Pt(1, 1)))
				s.Poly(draw.Edge, p.Add(draw.Pt(-1, 1)), p.Add(draw.Pt(1, -1)))
			}
		}
		n := len(s.Items)
		tags(s, in, at, texts)
		for i, text := range texts {
			figures++
			k := slices.IndexFunc(s.Items, func(it draw.Item) bool { x, ok := it.(*draw.Text); return ok && x.Text == text })
			if k < 0 {
				t.Errorf("seed %d: %s is not set", seed, text)
				continue
			}
			from := s.Items[k].(*draw.Text).Box()
			if p, ok := s.Items[k-1].(*draw.Path); ok && k-1 >= n { // its leader
				from = draw.Rect{X: p.Steps[0].P[0].X, Y: p.Steps[0].P[0].Y}
			}
			room := func(p draw.Point) draw.Rect { return draw.Rect{X: p.X, Y: p.Y} }
			for m, q := range at {
				if m != i && between(room(q), from) < between(room(at[i]), from) {
					t.Errorf("seed %d: %s stands nearer to another cross", seed, text)
				}
			}
		}
		var leaders [][2]draw.Point
		for _, it := range s.Items[n:] {
			if p, ok := it.(*draw.Path); ok {
				leaders = append(leaders, [2]draw.Point{p.Steps[0].P[0], p.Steps[1].P[0]})
			}
		}
		for i, a := range leaders {
			for _, b := range leaders[i+1:] {
				if draw.Cross(a[0], a[1], b[0], b[1]) {
					crossing++
				}
			}
		}
		for _, f := range drawtest.Strikes(s) {
			t.Errorf("seed %d: %s", seed, f)
		}
		var set []*draw.Text
		for _, it := range s.Items[n:] {
			if x, ok := it.(*draw.Text); ok {
				set = append(set, x)
			}
		}
		for i, a := range set { // two figures on a line are read as two
			wide := a.Box()
			wide.X, wide.W = wide.X-1.4, wide.W+2.8
			for _, b := range set[i+1:] {
				if b.Box().Meets(wide) {
					t.Errorf("seed %d: %s and %s stand as one", seed, a.Text, b.Text)
				}
			}
		}
	}
	t.Logf("%d figures, %d leaders cross", figures, crossing)
	if figures < 500 || crossing*100 > figures {
		t.Errorf("%d figures, %d crossings of leaders", figures, crossing)
	}
}
