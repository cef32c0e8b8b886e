package drawers

import (
	"cmp"
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/stock"
)

// box makes sides, front, back and bottom of one drawer, and gives the clear space inside.
func (b *bank) box(id string, n int, box geom.Box, under bool) geom.Box {
	p := b.env.Practice
	t := b.side
	tool, groove := b.shop.Groover()
	how, joint := cmp.Or(p.BoxBottomHow, "grooved"), cmp.Or(p.BoxJoint, "butt-screw")
	if !groove && (how == "grooved" || joint == "rabbet" || joint == "lock-rabbet" || joint == "finger") {
		b.say(joinery.NoTool, finding.Note, "no tool of the shop makes grooves: drawer boxes are screwed and their bottoms screwed under them", "state box-joint: butt-screw and box-bottom-how: under, or add a tool")
		how = "under"
		if joint != "pocket-screw" && joint != "dowel" {
			joint = "butt-screw"
		}
	}
	board := p.BoxBottom
	if b.w > heavyWidth || b.s.Load/stock.Mass(max(b.count, 1)) > heavyLoad {
		board = cmp.Or(p.BoxBottomHeavy, board)
	}
	bt := 6 * mm
	if x, ok := b.env.Catalogue.Board(board); ok {
		bt = x.Thickness
	} else {
		b.say(NoBoard, finding.Error, fmt.Sprintf("drawer bottoms are to be of board %q, which is not known", board), "name a board of the catalogue")
	}
	low := box.Min.Z // of the sides
	if how == "under" {
		low += bt
	}
	// How far front and back reach into the sides.
	in := L(0)
	switch joint {
	case "rabbet", "lock-rabbet":
		in = (t / 2).Down(mm / 10)
	case "finger":
		in = t
	}
	name := func(s string) string { return fmt.Sprintf("%s of drawer %d", s, n) }
	left := part.New(id+"-side-l", part.BoxSide, name("left side"), p.BoxSide, geom.B(box.Min.X, box.Min.Y, low, box.Min.X+t, box.Max.Y, box.Max.Z), geom.Back, geom.Up)
	right := part.New(id+"-side-r", part.BoxSide, name("right side"), p.BoxSide, geom.B(box.Max.X-t, box.Min.Y, low, box.Max.X, box.Max.Y, box.Max.Z), geom.Back, geom.Up)
	x0, x1 := box.Min.X+t-in, box.Max.X-t+in
	front := part.New(id+"-box-front", part.BoxFront, name("box front"), p.BoxSide, geom.B(x0, box.Min.Y, low, x1, box.Min.Y+t, box.Max.Z), geom.Right, geom.Up)
	back := part.New(id+"-box-back", part.BoxBack, name("box back"), p.BoxSide, geom.B(x0, box.Max.Y-t, low, x1, box.Max.Y, box.Max.Z), geom.Right, geom.Up)
	inside := geom.B(box.Min.X+t, box.Min.Y+t, low, box.Max.X-t, box.Max.Y-t, box.Max.Z)

	// Bottom first: its grooves are cut before the corners are.
	var bottom part.Part
	if how == "grooved" {
		g := min(cmp.Or(p.BoxGroove, 6*mm), t/2)
		up := p.BoxGrooveUp
		if under {
			up = max(up, 13*mm)
		}
		z0 := box.Min.Z + up
		z1 := z0 + bt + joinery.GrooveRoom
		for _, q := range []*part.Part{&left, &right, &front, &back} {
			d := map[string]geom.Dir{left.Local: geom.Right, right.Local: geom.Left, front.Local: geom.Back, back.Local: geom.Front}[q.Local]
			c := q.Box()
			ax := d.Axis()
			if d.Sign() > 0 {
				c.Min = c.Min.With(ax, c.Max.At(ax)-g)
			} else {
				c.Max = c.Max.With(ax, c.Min.At(ax)+g)
			}
			c.Min.Z, c.Max.Z = z0, z1
			q.Recess(part.Groove, q.Facing(d), c, tool, "bottom")
		}
		r := g - bottomRoom/2
		bottom = part.New(id+"-bottom", part.BoxBottom, name("bottom"), board, geom.B(inside.Min.X-r, inside.Min.Y-r, z0, inside.Max.X+r, inside.Max.Y+r, z0+bt), geom.Right, geom.Back)
		inside.Min.Z = z0 + bt
		for _, j := range []struct {
			a string
			c geom.Box
		}{
			{left.Local, geom.B(inside.Min.X-r, inside.Min.Y, z0, inside.Min.X, inside.Max.Y, z0+bt)},
			{right.Local, geom.B(inside.Max.X, inside.Min.Y, z0, inside.Max.X+r, inside.Max.Y, z0+bt)},
			{front.Local, geom.B(inside.Min.X, inside.Min.Y-r, z0, inside.Max.X, inside.Min.Y, z0+bt)},
			{back.Local, geom.B(inside.Min.X, inside.Max.Y, z0, inside.Max.X, inside.Max.Y+r, z0+bt)},
		} {
			b.r.Joints = append(b.r.Joints, part.Joint{Kind: part.Loose, A: j.a, B: bottom.Local, Contact: j.c})
		}
	} else {
		bottom = part.New(id+"-bottom", part.BoxBottom, name("bottom"), board, geom.B(box.Min.X, box.Min.Y, box.Min.Z, box.Max.X, box.Max.Y, low), geom.Right, geom.Back)
		h, _ := b.shop.Screw("wood", bt+25*mm)
		count := 0
		for _, q := range []part.Part{left, right, front, back} {
			c := q.Box()
			c.Max.Z = low
			k := len(joinery.Places(max(c.Max.X-c.Min.X, c.Max.Y-c.Min.Y), 50*mm, 150*mm, 2))
			count += k
			b.r.Joints = append(b.r.Joints, part.Joint{Kind: part.WoodScrew, A: bottom.Local, B: q.Local, Contact: c, Fastener: cmp.Or(h.ID, "wood-screw"), Count: k, Glue: true})
		}
		b.r.Hardware = append(b.r.Hardware, part.Item{ID: cmp.Or(h.ID, "wood-screw"), Kind: "screw", Count: count, Length: h.Length, For: "drawer boxes"})
		bottom.Grain = part.Along
	}
	switch {
	case under && how == "grooved":
		b.hooks(&back, inside, low)
	case under:
		b.say(UnderBottom, finding.Warning, "under slides run in the recess below a bottom that is held in grooves, and this shop makes none: the bottoms are screwed under", "use side slides, or add a tool that grooves")
	}
	b.corners(joint, &left, &right, &front, &back, tool, in) // clear of all that
	b.r.Parts = append(b.r.Parts, left, right, front, back, bottom)
	return inside
}

// Under slides pass below a box's back and hook into it: sizes from memory; the paper template
// that comes with a slide decides.
const (
	hookNotch = 35 * mm // notch beside each side, along the back
	hookHigh  = 13 * mm // and upwards: the recess below the bottom
	hookDia   = 6 * mm
	hookIn    = 7 * mm  // from the inner face of the side
	hookUp    = 11 * mm // above the underside of the bottom
	hookDeep  = 10 * mm
)

// hooks notches a box's back for under slides and bores for their hooks.
func (b *bank) hooks(back *part.Part, inside geom.Box, low L) {
	saw := b.shop.Saw()
	tool, ok := b.shop.Bit(hookDia)
	if !ok {
		b.say(joinery.NoBit, finding.Warning, "no "+tool+" for the hooks of under slides is owned", "add it to the practice's bits")
	}
	y := back.Box()
	for _, d := range []geom.Dir{geom.Left, geom.Right} {
		x0, x := inside.Min.X, inside.Min.X+hookIn
		if d == geom.Right {
			x0, x = inside.Max.X-hookNotch, inside.Max.X-hookIn
		}
		back.Recess(part.Notch, part.Upper, geom.B(x0, y.Min.Y, low, x0+hookNotch, y.Max.Y, low+hookHigh), saw, "under slide")
		z := max(low+hookHigh+hookUp, inside.Min.Z+hookDia/2+2*mm)
		at := geom.V(x, y.Max.Y, z)
		u, v := back.OnFace(back.Facing(geom.Back), at)
		if v < back.Size[1]-hookDia && clearOf(back, u, v) {
			back.Bore(part.Hole, back.Facing(geom.Back), at, hookDia, min(hookDeep, back.Size[2]-mm), tool, "under slide hook")
		}
	}
}

// clearOf reports whether a hook's hole meets no other round working of a back's faces.
func clearOf(p *part.Part, u, v L) bool {
	for _, o := range p.Ops {
		if r := (hookDia+o.Dia)/2 + mm; o.Kind == part.Hole && (o.Face == part.Upper || o.Face == part.Lower) && (o.X-u).Abs() < r && (o.Y-v).Abs() < r {
			return false
		}
	}
	return true
}

// corners works and fastens the four corners.
func (b *bank) corners(joint string, left, right, front, back *part.Part, tool string, in L) {
	t := b.side
	for _, c := range []struct {
		side, end *part.Part
		to        geom.Dir
	}{{left, front, geom.Left}, {left, back, geom.Left}, {right, front, geom.Right}, {right, back, geom.Right}} {
		contact := c.side.Box().And(c.end.Box())
		switch joint {
		case "rabbet", "lock-rabbet":
			c.side.Recess(part.Rabbet, c.side.Facing(c.to.Not()), contact, tool, "corner")
			b.r.Joints = append(b.r.Joints, part.Joint{Kind: part.Dado, A: c.side.Local, B: c.end.Local, Contact: contact, Glue: true})
		case "finger":
			h := contact.Max.Z - contact.Min.Z
			n := max(int64(h/t), 3) | 1
			for i := range n {
				z0, z1 := contact.Min.Z+h.MulDiv(i, n), contact.Min.Z+h.MulDiv(i+1, n)
				q := contact
				q.Min.Z, q.Max.Z = z0, z1
				p := c.side
				if i%2 == 0 {
					p = c.end
				}
				p.Recess(part.Notch, part.Upper, q, tool, "finger")
			}
			b.r.Joints = append(b.r.Joints, part.Joint{Kind: part.GlueOnly, A: c.side.Local, B: c.end.Local, Contact: contact, Glue: true})
		case "dowel":
			b.dowels(c.side, c.end, c.to, contact)
		default:
			kind := "wood-screw"
			if joint == "pocket-screw" {
				kind = joint
			}
			d := geom.Front
			if c.end.Role == part.BoxBack {
				d = geom.Back
			}
			r := b.shop.Make(kind, joinery.Between{A: c.side, B: c.end, To: c.to, Contact: contact, Pockets: []geom.Dir{d}, Heads: true, Butt: true})
			b.r.Joints = append(b.r.Joints, r.Joint)
			for _, it := range r.Items {
				it.For = "drawer boxes"
				b.r.Hardware = append(b.r.Hardware, it)
			}
			if r.Change != nil {
				b.changes = append(b.changes, *r.Change)
			}
			for _, f := range r.Findings {
				if f.Code != joinery.JointElsewhere && f.Code != joinery.JointShows {
					b.say(f.Code, f.Severity, f.Text, f.Hint)
				}
			}
		}
	}
}

// dowels pins a corner right through the side into the end, the usual way in thin sides: 8 mm
// where the side is thick enough, else 6 mm.
func (b *bank) dowels(side, end *part.Part, to geom.Dir, contact geom.Box) {
	dia := 8 * mm
	if b.side < 16*mm {
		dia = 6 * mm
	}
	tool, ok := b.shop.Bit(dia)
	if !ok {
		b.say(joinery.NoBit, finding.Warning, "no "+tool+" for the corners' dowels is owned", "add it to the practice's bits")
	}
	h := contact.Max.Z - contact.Min.Z
	n := max(int64(h.DivUp(int64(33*mm))), 2) // three for every 100 mm
	low := h / 6
	if low < dia {
		low = dia
	}
	// Clear of the bottom's groove and of what else is worked there, each as near as can be to where it would be.
	bores := func(z L) (through, into part.Op) {
		at := geom.V(contact.Min.X, (contact.Min.Y+contact.Max.Y)/2, z)
		through = part.Op{Kind: part.Hole, Face: side.Facing(to), Dia: dia, Depth: b.side, Tool: tool, For: "dowel"}
		into = part.Op{Kind: part.Hole, Face: end.Facing(to), Dia: dia, Depth: 30*mm - b.side + 2*mm, Tool: tool, For: "dowel"}
		through.X, through.Y = side.OnFace(through.Face, at)
		into.X, into.Y = end.OnFace(into.Face, at)
		return through, into
	}
	placed := 0
	for i := range n {
		z := contact.Min.Z + low + (h-2*low).MulDiv(i, n-1)
		for _, off := range []L{0, 2 * mm, -2 * mm, 4 * mm, -4 * mm, 7 * mm, -7 * mm, 10 * mm, -10 * mm, 14 * mm, -14 * mm} {
			if z+off < contact.Min.Z+dia || z+off > contact.Max.Z-dia {
				continue
			}
			if through, into := bores(z + off); side.Clear(through, part.Web) && end.Clear(into, part.Web) {
				side.Ops, end.Ops = append(side.Ops, through), append(end.Ops, into)
				placed++
				break
			}
		}
	}
	idd := fmt.Sprintf("dowel-%d-30", int(dia/length.MM))
	b.r.Joints = append(b.r.Joints, part.Joint{Kind: part.Dowel, A: side.Local, B: end.Local, Contact: contact, Fastener: idd, Count: placed, Glue: true})
	b.r.Hardware = append(b.r.Hardware, part.Item{ID: idd, Kind: "dowel", Count: placed, For: "drawer boxes"})
}
