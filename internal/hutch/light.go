package hutch

import (
	"fmt"
	"slices"

	"stowright/internal/finding"
	"stowright/internal/fitting"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/part"
)

// Light is a batten light on the board's face, along the upper rail, into which it is screwed through the board.
type Light struct {
	Length L
	Cable  L    // diameter of the hole for its cable, 0 for 16 mm
	Left   bool // its cable goes to the left, where the outlet is, or else to the right
}

// cable is where the cable of a light goes through the board.
type cable struct {
	dia, x, z L
	tool      string
}

// cableOf finds the hole for the cable of a light between the two highest rails, beside that end of the light where the
// cable goes; false where there is no light, and where no bit makes the hole, which is said.
func cableOf(shop joinery.Shop, env fitting.Env, s Spec, in geom.Box, w, rail, top L, text func(L) string, say func(finding.Code, finding.Severity, string, string, L)) (c cable, ok bool) {
	if s.Light == nil {
		return c, false
	}
	want := s.Light.Cable
	if want == 0 {
		want = 16 * mm
	}
	for _, d := range append(append([]L(nil), env.Practice.Bits...), env.Practice.HoleSaws...) {
		if d >= want && (c.dia == 0 || d < c.dia) {
			c.dia = d
		}
	}
	if c.dia == 0 {
		say(NoBit, finding.Warning, fmt.Sprintf("no bit or hole saw passes a cable of %s", text(want)), "add one to the practice", want)
		return c, false
	}
	c.tool, _ = shop.Bit(c.dia)
	c.z = min(rail-c.dia/2-20*mm, top-c.dia/2-10*mm)
	c.x = min((in.Min.X+in.Max.X+s.Light.Length)/2+c.dia, in.Max.X-w-c.dia)
	if s.Light.Left {
		c.x = in.Min.X + in.Max.X - c.x
	}
	return c, true
}

// leaveBy grooves the upright towards which the cable goes, in its face behind the board, half as deep as it is thick.
func (c cable) leaveBy(upright *part.Part) {
	b := upright.Box()
	b.Min.Z, b.Max.Z = c.z-c.dia/2, c.z+c.dia/2
	b.Max.Y = b.Min.Y + (b.Max.Y-b.Min.Y)/2
	upright.Recess(part.Groove, upright.Facing(geom.Front), b, joinery.HandSaw, part.LightCable)
}

// through bores the board for it, clear of its screws, and opens the hole to the upper edge: the plug of a cable is much
// wider than the cable (two flat pins alone are 12.7 mm apart: ANSI/NEMA WD 6, 1-15; 19 mm: EN 50075), so the cable is
// laid in from the edge and no plug goes through.
func (c cable) through(board *part.Part, left bool) {
	b := board.Box()
	out := mm // first towards its end
	if left {
		out = -mm
	}
	for k := range (b.Max.X - b.Min.X) / mm {
		there, back := c, c
		there.x, back.x = c.x+k*out, c.x-k*out
		if there.fits(board) {
			c = there
			break
		}
		if back.fits(board) {
			c = back
			break
		}
	}
	face := board.Facing(geom.Front)
	board.Bore(part.Hole, face, geom.V(c.x, b.Max.Y, c.z), c.dia, board.Size[2], c.tool, part.LightCable)
	b.Min.X, b.Max.X, b.Min.Z = c.x-c.dia/2, c.x-c.dia/2+c.dia, c.z
	board.Recess(part.Notch, face, b, joinery.HandSaw, part.LightCable)
}

// fits reports whether the slot has its place in the board, clear of its screws.
func (c cable) fits(board *part.Part) bool {
	b := board.Box()
	return c.x-c.dia > b.Min.X && c.x+c.dia < b.Max.X && !c.screwed(board)
}

// screwed reports whether a screw of the board stands in the slot or beside it.
func (c cable) screwed(board *part.Part) bool {
	return slices.ContainsFunc(board.Ops, func(o part.Op) bool {
		at := board.Pose.Point(o.Face.Point(o.X, o.Y, board.Size))
		return o.Kind == part.Hole && at.Z > c.z-c.dia && (at.X-c.x).Abs() < (c.dia+o.Dia)/2+footClear
	})
}
