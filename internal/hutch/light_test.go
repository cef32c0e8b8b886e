package hutch_test

import (
	"testing"

	"stowright/internal/carcass/carcasstest"
	"stowright/internal/geom"
	"stowright/internal/hutch"
	"stowright/internal/length"
	"stowright/internal/part"
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
					case p.Role == part.HookBoard:
						hole = at
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
