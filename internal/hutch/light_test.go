package hutch_test

import (
	"testing"

	"stowright/internal/carcass/carcasstest"
	"stowright/internal/geom"
	"stowright/internal/hutch"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/stock"
)

// The cable of a light comes out behind the board on the side where its outlet is: through a groove in that upright at the
// height of its hole, or over the upright where spacers hold the board off it.
func TestTheCableOfALightHasItsWayOut(t *testing.T) {
	for _, spacer := range []length.Length{0, 40 * mm} {
		for _, left := range []bool{false, true} {
			a, f := hutch.Build(carcasstest.Metric(), "h", hutch.Spec{Box: geom.B(0, -100*mm, 900*mm, 1200*mm, 0, 1500*mm), Board: "m6", Frame: "strip", Spacer: spacer,
				Light: &hutch.Light{Length: 600 * mm, Left: left}})
			var hole, out geom.Vec
			spacers, grooves := 0, 0
			for _, p := range a.Parts {
				if p.Role == part.Spacer {
					spacers++
				}
				for _, o := range p.Ops {
					at := p.Pose.Point(o.Face.Point(o.X+o.L/2, o.Y+o.W/2, p.Size))
					switch {
					case o.For != part.LightCable:
					case p.Role == part.HookBoard && o.Kind == part.Hole:
						hole = at
					case p.Role == part.HookBoard:
					default:
						out = at
						grooves++
						if p.Facing(geom.Front) != o.Face || o.Depth >= p.Size[2] {
							t.Errorf("groove of %v in face %v of %v", o.Depth, o.Face, p.Size)
						}
					}
				}
			}
			if hole == (geom.Vec{}) {
				t.Fatalf("no hole: %v", f)
			}
			if (hole.X < 600*mm) != left {
				t.Errorf("left %v: its hole is at %v", left, hole.X)
			}
			if (spacers > 0) == (grooves > 0) || grooves > 0 && (out.Z != hole.Z || (out.X < 600*mm) != left) {
				t.Errorf("left %v, %d spacers: %d grooves, hole %v, out %v", left, spacers, grooves, hole, out)
			}
		}
	}
}

// No plug goes through a hole for a cable (two flat pins alone stand 12.7 mm apart: ANSI/NEMA WD 6, 1-15): the way from
// the board's front to its back is open to its upper edge, as wide as the hole all along, with no screw of the board in it.
func TestTheCableIsLaidInFromTheEdge(t *testing.T) {
	tried, screws := 0, 0
	env := carcasstest.Metric()
	for _, l := range []length.Length{16 * mm, 35 * mm} { // through the board, and through it and its spacer
		env.Catalogue.Hardware = append(env.Catalogue.Hardware, stock.Hardware{ID: l.In(length.Millimetres), Kind: "screw", Use: "wood", Dia: 4 * mm, Length: l})
	}
	for _, spacer := range []length.Length{0, 40 * mm} {
		for wide := 500 * mm; wide < 2000*mm; wide += 37 * mm {
			for _, long := range []length.Length{300 * mm, 417 * mm, wide - 200*mm} {
				a, f := hutch.Build(env, "h", hutch.Spec{Box: geom.B(0, -100*mm, 900*mm, wide, 0, 1500*mm), Board: "m6", Frame: "strip", Spacer: spacer,
					Light: &hutch.Light{Length: long, Left: wide%2 == 0}})
				for _, p := range a.Parts {
					if p.Role != part.HookBoard {
						continue
					}
					way := func(o part.Op) (b geom.Box) {
						b.Min, b.Max = p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size)), p.Pose.Point(o.Face.Point(o.X+o.L, o.Y+o.W, p.Size))
						b.Min.X, b.Max.X = min(b.Min.X, b.Max.X)-o.Dia/2, max(b.Min.X, b.Max.X)+o.Dia/2
						b.Min.Z, b.Max.Z = min(b.Min.Z, b.Max.Z)-o.Dia/2, max(b.Min.Z, b.Max.Z)+o.Dia/2
						return b
					}
					var hole, slot geom.Box
					for _, o := range p.Ops {
						switch {
						case o.For == part.LightCable && o.Kind == part.Hole:
							hole = way(o)
						case o.For == part.LightCable && o.Kind == part.Notch && o.Depth >= p.Size[2]:
							slot = way(o)
						}
					}
					tried++
					if hole == (geom.Box{}) || slot.Min.X > hole.Min.X+mm/10 || slot.Max.X < hole.Max.X-mm/10 || slot.Min.Z > (hole.Min.Z+hole.Max.Z)/2 || slot.Max.Z != p.Box().Max.Z {
						t.Errorf("%v wide: hole %v, slot %v of %v: %v", wide, hole, slot, p.Box(), f)
					}
					for _, o := range p.Ops {
						if screws++; o.Kind != part.Hole {
							continue
						}
						if b := way(o); o.For != part.LightCable && b.Min.X < slot.Max.X && b.Max.X > slot.Min.X && b.Min.Z < slot.Max.Z && b.Max.Z > slot.Min.Z {
							t.Errorf("%v wide, light of %v: a screw in the slot, %v in %v", wide, long, b, slot)
						}
					}
				}
			}
		}
	}
	if tried == 0 || screws < 3*tried {
		t.Errorf("%d boards, %d holes: nothing is tried", tried, screws)
	}
}
