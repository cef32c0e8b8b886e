package counter_test

import (
	"testing"

	"stowright/internal/counter"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/part"
	"stowright/internal/part/parttest"
	"stowright/internal/stock"
)

// benches are free benches of legs that are square, flat and of board, from sticks a shop buys.
func benches(t *testing.T) map[string]part.Assembly {
	e := shop(false)
	e.Catalogue.Sticks = append(e.Catalogue.Sticks, stock.Stick{ID: "70x70", Species: "spruce", Thickness: 70 * mm, Width: 70 * mm, Length: 2400 * mm})
	e.Catalogue.Hardware = long(e.Catalogue.Hardware)
	out := map[string]part.Assembly{}
	for _, legs := range []string{"70x70", "2x4", "m18"} {
		for _, brace := range []string{"panel", "rails", "shelf"} {
			a, found := counter.Build(e, "b", counter.Spec{Layers: []string{"m18", "m18"}, Box: geom.B(0, -650*mm, 864600*mm/1000, 1400*mm, 0, 900*mm), Free: &counter.Free{Legs: legs, Brace: brace}})
			if found.Blocking() || len(found.With(counter.TopLoose)) > 0 {
				t.Errorf("%s, %s: %v", legs, brace, found)
			}
			out[legs+", "+brace] = a
		}
	}
	return out
}

// long adds long construction screws, 6 mm, and a wood screw of 45 (sizes from memory).
func long(list []stock.Hardware) []stock.Hardware {
	list = append(list, stock.Hardware{ID: "wood-45", Kind: "screw", Use: "wood", Sold: "both", Length: 45 * mm, Dia: 4 * mm, Pilot: 3 * mm, Clearance: 4500 * mm / 1000})
	for _, l := range []L{70 * mm, 90 * mm, 120 * mm, 140 * mm} {
		list = append(list, stock.Hardware{ID: "long-" + l.Exact(0), Kind: "screw", Use: "floor", Sold: "both", Length: l, Dia: 6 * mm, Pilot: 4 * mm, Clearance: 6 * mm})
	}
	return list
}

// Every screw through a leg holds at least six diameters in the rail's end (NDS 2018 12.1.4 to 12.1.6:
// with less no value is published), its point stays in the rail, and leg and rail are bored for it.
func TestScrewsThroughLegsHoldInTheRails(t *testing.T) {
	e := shop(false)
	e.Catalogue.Hardware = long(e.Catalogue.Hardware)
	for name, a := range benches(t) {
		at := map[string]part.Part{}
		for _, p := range a.Parts {
			at[p.Local] = p
		}
		n := 0
		for _, j := range a.Joints {
			leg, rail := at[j.A], at[j.B]
			if leg.Role != part.Leg {
				continue
			}
			n++
			axis := 0
			for j.Contact.Size().At(axis) != 0 {
				axis++
			}
			h, ok := e.Catalogue.Item(j.Fastener)
			passes := leg.Box().Size().At(axis)
			if in := h.Length - passes; !ok || in < 6*h.Dia || in > rail.Box().Size().At(axis)-2*mm {
				t.Errorf("%s: %s of %s goes %s into %s through %s of %s", name, j.Fastener, h.Length.Exact(0), in.Exact(0), rail.Local, passes.Exact(0), leg.Local)
			}
			if j.Count != 2 {
				t.Errorf("%s: %d screws from %s to %s", name, j.Count, leg.Local, rail.Local)
			}
		}
		if n < 14 {
			t.Errorf("%s: %d joints of legs", name, n)
		}
	}
}

// Holes through a leg that cross leave 5 mm of wood between them (common practice, no source).
func TestHolesThroughALegMissEachOther(t *testing.T) {
	for name, a := range benches(t) {
		for _, p := range a.Parts {
			for i, o := range p.Ops {
				for _, q := range p.Ops[i+1:] {
					if p.Role != part.Leg || o.Face.Normal().Axis() == q.Face.Normal().Axis() {
						continue
					}
					// Up the leg is the first coordinate of each of its long faces.
					if d := (o.X - q.X).Abs() - (o.Dia+q.Dia)/2; d < 5*mm {
						t.Errorf("%s: holes at %s and %s up %s leave %s between them", name, o.X.Exact(0), q.X.Exact(0), p.Local, d.Exact(0))
					}
				}
			}
		}
	}
}

// Screws up through the cleats hold six diameters in a top of two boards (as above), and stay in it.
func TestScrewsHoldInTheTop(t *testing.T) {
	e := shop(false)
	e.Catalogue.Hardware = long(e.Catalogue.Hardware)
	for name, a := range benches(t) {
		at := map[string]part.Part{}
		for _, p := range a.Parts {
			at[p.Local] = p
		}
		for _, j := range a.Joints {
			if at[j.A].Role != part.CounterLayer || at[j.B].Role != part.Spacer {
				continue
			}
			h, _ := e.Catalogue.Item(j.Fastener)
			cleat := at[j.B].Box().Size().Z
			if in := h.Length - cleat; in < 6*h.Dia || in > 2*at[j.A].Size[2]-2*mm {
				t.Errorf("%s: %s goes %s into the top", name, j.Fastener, in.Exact(0))
			}
		}
	}
}

// Every board of a bench is joined, over others, to its legs: the top too.
func TestTheTopOfABenchIsFixedToItsFrame(t *testing.T) {
	for name, a := range benches(t) {
		held := map[string]bool{"leg-front-left": true}
		for range a.Joints {
			for _, j := range a.Joints {
				if held[j.A] || held[j.B] {
					held[j.A], held[j.B] = true, true
				}
			}
		}
		for _, p := range a.Parts {
			if !held[p.Local] {
				t.Errorf("%s: nothing holds %s to the frame", name, p.Local)
			}
		}
		// Screws into the top come through the cleats, which are bored for them.
		up := 0
		for _, p := range a.Parts {
			for _, o := range p.Ops {
				if p.Role == part.Spacer && p.Pose.Dir(o.Face.Normal()) == geom.Down {
					up++
				}
			}
		}
		if up < 4 {
			t.Errorf("%s: %d screws up into the top", name, up)
		}
	}
}

// The bolt of a foot has its hole in the end of every leg, as deep as it goes in; legs that it, or a plate's screws, would
// split are refused.
func TestFeetGoInTheirLegs(t *testing.T) {
	e := shop(false)
	e.Catalogue.Hardware = long(e.Catalogue.Hardware)
	for _, foot := range []string{"foot-bolt", "foot-100"} {
		for _, legs := range []string{"2x4", "m18"} {
			a, found := counter.Build(e, "b", counter.Spec{Layers: []string{"m18"}, Box: geom.B(0, -650*mm, 800*mm, 1400*mm, 0, 818*mm), Free: &counter.Free{Legs: legs, Brace: "rails", Feet: foot}})
			if thin := len(found.With(joinery.BoardThin)) > 0; thin != (legs == "m18") {
				t.Errorf("%s in legs of %s: %v", foot, legs, found)
			}
			item, _ := e.Catalogue.Item(foot)
			for _, p := range a.Parts {
				if p.Role != part.Leg {
					continue
				}
				n := 0
				for _, o := range p.Ops {
					if o.For == "foot" && o.Dia >= item.Dia && o.Depth >= item.Greatest-item.Height {
						n++
					}
				}
				if want := map[string]int{"foot-bolt": 1}[foot]; n != want || len(a.Feet) != 4 {
					t.Errorf("%s: %d holes in %s, want %d", foot, n, p.Local, want)
				}
			}
			if legs == "m18" {
				continue
			}
			for _, bad := range parttest.Check(a, parttest.Options{}) {
				t.Error(bad)
			}
		}
	}
}
