package hutch

import (
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/part"
	"stowright/internal/stock"
)

// Common practice, no source.
const (
	leastBrace = 150 * mm // a shorter foot hardly helps
	braceGap   = 3 * mm   // between a foot and the hook board, which comes off
	braceFirst = 40 * mm  // of the screws of a plate, from its edges
	bracePitch = 70 * mm  // between them, no more
	footPitch  = 100 * mm // between those that hold a foot down, no more
)

// BraceShort: the feet of a brace are so short that they hardly help.
// Example: brace: 100 mm.
const BraceShort finding.Code = "hutch-brace-short"

// bracing keeps a hook board upright that no wall holds: beside each upright a plate that stands on the counter,
// screwed to the upright's edge and to the side of a foot, which lies on the counter before the board and is
// screwed down.
type bracing struct {
	shop        joinery.Shop
	s           Spec
	in          geom.Box // of the frame
	plate       stock.Board
	frame       string
	t, w        L
	rear, front L // planes: the frame's rear, the board's front
}

// high is how high the plates of feet so long are.
func (b bracing) high(long L) L { return min(b.in.Max.Z-b.in.Min.Z, max(long, 3*b.w)) }

func (b bracing) build(a *part.Assembly, add func(local string, role part.Role, name, stock string, m part.Material, x geom.Box, u, v geom.Dir) *part.Part, lie func(joinery.Flat, int, L), side geom.Dir, say func(finding.Code, finding.Severity, string, string, L)) {
	long := b.s.Brace
	if long < leastBrace {
		say(BraceShort, finding.Warning, "the feet of its brace stand out so little that they hardly help", "make the brace 150 mm or longer", leastBrace-long)
	}
	name, z, high := "left", b.in.Min.Z, b.high(long)
	upright, edge, to := 0, b.in.Min.X, geom.Right
	x0, x1 := edge-b.plate.Thickness, edge
	foot := geom.B(b.in.Min.X, b.front-long, z, b.in.Min.X+b.w, b.front-braceGap, z+b.t)
	if side == geom.Right {
		name, upright, edge, to = "right", 1, b.in.Max.X, geom.Left
		x0, x1 = edge, edge+b.plate.Thickness
		foot.Min.X, foot.Max.X = b.in.Max.X-b.w, b.in.Max.X
	}
	material := part.Board
	if _, stick := b.shop.Catalogue.Stick(b.frame); stick {
		material = part.Stick
	}
	add("foot-"+name, part.Frame, name+" foot", b.frame, material, foot, geom.Back, geom.Right)
	at := len(a.Parts) - 1
	add("brace-"+name, part.Frame, name+" brace", b.plate.ID, part.Board, geom.B(x0, b.front-long, z, x1, b.rear, z+high), geom.Up, geom.Back)
	plate := len(a.Parts) - 1
	flat := func(second int, c geom.Box) {
		run := max(c.Max.Y-c.Min.Y, c.Max.Z-c.Min.Z)
		lie(joinery.Flat{First: &a.Parts[plate], Second: &a.Parts[second], To: to, Contact: c, Kind: part.WoodScrew, Glue: true, For: "braces"}, max(3, 1+int((run-2*braceFirst).DivUp(int64(bracePitch)))), braceFirst)
	}
	u := a.Parts[upright].Box()
	flat(upright, geom.B(edge, u.Min.Y, z, edge, u.Max.Y, z+high))
	flat(at, geom.B(edge, foot.Min.Y, z, edge, foot.Max.Y, z+b.t))
	// Down through the foot into the counter, the first as far out as it goes.
	under := b.s.Under
	if under == 0 {
		under = usualUnder
	}
	held, ok := b.shop.Reaching(b.t, under)
	if !ok {
		if held, ok = b.shop.ScrewFor("wood", b.t, under); !ok {
			say(Loose, finding.Warning, fmt.Sprintf("no screw of the catalogue goes down through the %s foot and stays in the counter", name), "add a screw to hardware", b.t)
			return
		}
	}
	tool, dia, _ := b.shop.Pilot(max(held.Clearance, held.Dia))
	p := &a.Parts[at]
	mid := (foot.Min.X + foot.Max.X) / 2
	n := max(2, 1+int((long-braceFirst).DivUp(int64(footPitch))))
	var taken []L // places of the screws that cross it
	for _, o := range p.Ops {
		taken = append(taken, o.X)
	}
	for i := range n {
		y := foot.Min.Y + braceFirst/2 + (foot.Max.Y-foot.Min.Y-braceFirst).MulDiv(int64(i), int64(n-1))
		for _, x := range taken {
			if d := y - foot.Min.Y - x; d.Abs() < footClear {
				y = foot.Min.Y + x + footClear
			}
		}
		v := geom.V(mid, y, z)
		p.Bore(part.Hole, p.Facing(geom.Up), v, dia, b.t, tool, part.ScrewToCounter)
		a.Fixings = append(a.Fixings, part.Fixing{Owner: p.Owner, Kind: part.ToCase, Part: p.Local, At: v, Screw: held.ID, Length: held.Length, Row: "counter",
			Layers: []part.Layer{{Name: "frame", Stock: b.frame, Thickness: b.t}}, Into: held.Length - b.t})
	}
	a.Hardware = append(a.Hardware, part.Item{Owner: b.shop.Owner, ID: held.ID, Kind: "screw", Count: n, Length: held.Length, For: part.HutchToCounter})
}
