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

// breaksOut gives a sentence for every round working that comes within 5 mm of a bevel of its board, or is in what
// the bevel takes off: measured square to the sawn plane.
func breaksOut(p part.Part) (bad []string, seen int) {
	for _, b := range p.Ops {
		if b.Kind != part.Bevel {
			continue
		}
		_, _, across := b.Face.Extent(p.Size)
		_, _, through := b.Towards.Extent(p.Size)
		in := func(f part.Face, v geom.Vec, whole length.Length) length.Length { // from a face inwards
			d := v.At(f.Normal().Axis())
			if f.Normal().Sign() > 0 {
				return whole - d
			}
			return d
		}
		for _, o := range p.Ops {
			if o.Kind != part.Hole && o.Kind != part.Cup {
				continue
			}
			seen++
			from := o.Face.Point(o.X, o.Y, p.Size)
			for _, v := range []geom.Vec{from, from.Add(o.Face.Normal().Not().Vec(o.Depth))} {
				off := in(b.Face, v, across) + in(b.Towards, v, through) - b.Depth // times the root of 2, at 45 degrees
				if need := o.Dia/2 + 5*length.MM; b.Angle == 45 && off*7/10 < need {
					bad = append(bad, fmt.Sprintf("%s: the %s hole at %v is %v from its bevel, %v are wanted", p.Mark, o.For, v, off*7/10, need))
				}
			}
		}
	}
	return bad, seen
}

// What is bored in a cleat keeps clear of its bevel, however wide it is and by however many screws it is held.
func TestCleatsAreNotBoredThroughTheirBevels(t *testing.T) {
	seen := 0
	for _, wide := range []int{70, 85, 100, 130, 150} {
		for _, load := range []int{10, 60, 120} {
			for _, wall := range []string{"kind: masonry, lining: {name: plaster, thickness: 10}, anchor: {hardware: anchor-hollow-6, shear: 90 kg, tension: 60 kg, source: made up}",
				"kind: stud, lining: {thickness: 12}, studs: {species: spruce-pine-fir, first: 200, spacing: 400, width: 45}"} {
				text := fmt.Sprintf("stowright: 1\nunit: mm\npractice: {from: saw-and-drill}\nwalls: {north: {length: 4000, height: 2500, %s}}\n"+
					"cases: {a: {level: wall, wall: north, at: 700, up: 1400, width: 900, height: 720, depth: 320, hangs-by: {kind: cleat, width: %d}, inside: {shelves: {count: 2}, load: %d kg}}}\n", wall, wide, load)
				r := plan.Make(context.Background(), parse(t, "cleat", []byte(text)), plan.Want{})
				for _, p := range r.Assembly.Parts {
					bad, n := breaksOut(p)
					seen += n
					for _, s := range bad {
						t.Errorf("%d wide, %d kg: %s", wide, load, s)
					}
				}
			}
		}
	}
	if seen < 200 {
		t.Errorf("only %d holes in cleats", seen)
	}
}
