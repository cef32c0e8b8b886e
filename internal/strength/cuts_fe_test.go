package strength

import (
	"math"
	"testing"

	"stowright/internal/strength/plainfe"
)

// A whole stack bends as a beam with shear does (Wood Handbook 9-2): the elements are sound.
func TestTheStackOfElementsIsSound(t *testing.T) {
	for _, c := range []struct{ t, e, g float64 }{{17.7, 10048, 155}, {35.4, 10048, 620}} {
		s := plainfe.Stack{Length: 900, Layers: []plainfe.Layer{{T: c.t, E: c.e, Through: c.e / 20, G: c.g}}, Supports: []float64{0, 900}, Line: 0.002, Step: 5, Deep: 4}
		i := c.t * c.t * c.t / 12
		want := 5*0.002*math.Pow(900, 4)/(384*c.e*i) + 0.002*900*900/(8*c.g*c.t*5/6)
		if got := s.Greatest(); math.Abs(got/want-1) > 0.01 {
			t.Errorf("%v: %.4f mm, by the formula %.4f mm", c, got, want)
		}
	}
}

// Where a layer of two is butted the other carries alone, and both share again a little way on. The slip that
// says how far is held against elements that know no such rule: the sag is no less than theirs, and no more
// than a fifth above, for joints at the middle and beside it, in either layer, of plywood soft and stiff between its
// faces, and over three supports.
func TestJointsOfLayersAgainstElements(t *testing.T) {
	for _, c := range []struct {
		name     string
		t, e, g  float64
		supports []float64
		cuts     []plainfe.Butt
	}{
		{"lower at the middle", 17.7, 10048, 155, []float64{0, 900}, []plainfe.Butt{{Layer: 1, At: 450}}},
		{"upper at the middle", 17.7, 10048, 155, []float64{0, 900}, []plainfe.Butt{{Layer: 0, At: 450}}},
		{"lower at a third", 17.7, 10048, 155, []float64{0, 900}, []plainfe.Butt{{Layer: 1, At: 300}}},
		{"both, apart", 17.7, 10048, 155, []float64{0, 1200}, []plainfe.Butt{{Layer: 0, At: 400}, {Layer: 1, At: 800}}},
		{"stiff between faces", 17.7, 10048, 620, []float64{0, 900}, []plainfe.Butt{{Layer: 1, At: 450}}},
		{"over three supports", 17.7, 10048, 155, []float64{0, 800, 1600}, []plainfe.Butt{{Layer: 1, At: 400}}},
		{"thin", 12, 9000, 120, []float64{0, 600}, []plainfe.Butt{{Layer: 0, At: 240}}},
	} {
		n := len(c.supports) - 1
		length := c.supports[n]
		b := board{t: c.t, depth: 600, length: length, supports: c.supports, reach: way(c.supports), line: 1.2,
			wood:   wood{e: c.e, planar: c.g, f: 30},
			layers: []layer{{name: "layer 2", wide: 600, high: c.t, bottom: -c.t, e: c.e, g: c.g, f: 30}}}
		for _, x := range c.cuts {
			gone := which{of: 'b'}
			if x.Layer == 1 {
				gone = which{'l', 0}
			}
			b.cuts = append(b.cuts, cut{at: x.At, gone: []which{gone}})
		}
		if g := b.wood.shear(); g != c.g {
			t.Fatalf("the board is counted with G %v, not %v", g, c.g)
		}
		got, ok := b.bend()
		y := plainfe.Layer{T: c.t, E: c.e, Through: c.e / 20, G: c.g}
		fe := plainfe.Stack{Length: length, Layers: []plainfe.Layer{y, y}, Butts: c.cuts, Supports: c.supports, Line: b.line / b.depth, Step: 2, Deep: 4}
		want := fe.Greatest()
		t.Logf("%s: %.3f mm, by elements %.3f mm, ratio %.3f", c.name, got.sag, want, got.sag/want)
		if !ok || got.sag < want*0.995 || got.sag > want*1.20 {
			t.Errorf("%s: %.3f mm, by elements %.3f mm", c.name, got.sag, want)
		}
	}
}
