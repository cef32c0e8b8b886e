package plan_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
)

// crowded gives a sentence for every two screws of a board that would split it: in one face nearer than four
// diameters of 4 mm from middle to middle (NDS 2018 Table 12.5.1B, from memory), or crossing with less than a
// screw's own thickness of 5 mm between them.
func crowded(p part.Part) (bad []string) {
	type shaft struct {
		o   part.Op
		box geom.Box // its middle line
	}
	var all []shaft
	for _, o := range p.Ops {
		if o.Kind != part.Hole || !strings.Contains(o.For, "screw") || o.For == "hinge screw" || o.For == "front screw" {
			continue
		}
		from := o.Face.Point(o.X, o.Y, p.Size)
		n := o.Face.Normal()
		to := from.Add(n.Not().Vec(o.Depth))
		all = append(all, shaft{o, geom.Box{Min: from, Max: from}.Or(geom.Box{Min: to, Max: to})})
	}
	between := func(a, b geom.Box, axis int) length.Length {
		return max(a.Min.At(axis)-b.Max.At(axis), b.Min.At(axis)-a.Max.At(axis), 0)
	}
	for i, a := range all {
		for _, b := range all[:i] {
			least := 16 * length.MM
			if a.o.Face/2 != b.o.Face/2 {
				least = (a.o.Dia+b.o.Dia)/2 + 5*length.MM
			}
			var d [3]length.Length
			for k := range 3 {
				d[k] = between(a.box, b.box, k)
			}
			if d[0]*d[0]/length.MM+d[1]*d[1]/length.MM+d[2]*d[2]/length.MM < least*least/length.MM {
				bad = append(bad, fmt.Sprintf("%s: the screw at %s, %s on its %s face is %v from that at %s, %s on its %s face", p.Mark, a.o.X, a.o.Y, a.o.Face, d, b.o.X, b.o.Y, b.o.Face))
			}
		}
	}
	return bad
}

// Rows of screws keep clear of those that are in the board already, on whatever face.
func TestScrewsDoNotSplitBoards(t *testing.T) {
	look := func(name string, r plan.Result) {
		for _, p := range r.Assembly.Parts {
			for _, s := range crowded(p) {
				t.Errorf("%s: %s", name, s)
			}
		}
	}
	for _, name := range shipped {
		look(name, plantest.Result(t, name))
	}
	for _, brace := range []int{200, 260, 333, 400, 480} {
		for _, high := range []int{500, 640, 700, 910} {
			text := fmt.Sprintf("stowright: 1\nunit: mm\npractice: {from: saw-and-drill}\nwalls: {north: {length: 4000, height: 2500}}\n"+
				"counters: {bench: {layers: [{board: birch-18}, {board: birch-18}], free: {at: 600, out: 1800, length: 1400, legs: spruce-leg, brace: panel}, depth: 650, height: 900}}\n"+
				"hutches: {hooks: {on: bench, width: 1400, height: %d, board: birch-6, frame: spruce-strip, brace: %d, spacer: 20}}\n", high, brace)
			look(fmt.Sprintf("%d high, brace %d", high, brace), plan.Make(context.Background(), parse(t, "hooks", []byte(text)), plan.Want{}))
		}
	}
}
