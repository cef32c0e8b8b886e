package hutch

import (
	"fmt"

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

// through bores the board for it.
func (c cable) through(board *part.Part) {
	board.Bore(part.Hole, board.Facing(geom.Front), geom.V(c.x, board.Box().Max.Y, c.z), c.dia, board.Size[2], c.tool, part.LightCable)
}
