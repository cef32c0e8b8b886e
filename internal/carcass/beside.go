package carcass

import (
	"cmp"
	"slices"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/part"
)

// place works what the place asks for: joining holes, openings in the back, notches, panels.
func (b *build) place(s shell) {
	saw := b.shop.Saw()
	if s.t > 0 {
		for _, c := range b.site.Cutouts {
			for i := range len(s.seams) + 1 {
				p := b.part(backName(i))
				box := p.Box()
				c.Min.Y, c.Max.Y = box.Min.Y, box.Max.Y
				if d := box.And(c).Size(); d.X < nookSlim || d.Z < nookSlim { // the room left round it is enough
					continue
				}
				kind := part.Cutout
				if c.Min.X <= box.Min.X || c.Max.X >= box.Max.X || c.Min.Z <= box.Min.Z || c.Max.Z >= box.Max.Z {
					kind = part.Notch
				}
				p.Recess(kind, part.Upper, c, saw, "opening")
			}
			for _, n := range backRails {
				r := b.part(n)
				if r == nil {
					continue
				}
				box := r.Box()
				cut := box.And(geom.B(c.Min.X, box.Min.Y, c.Min.Z, c.Max.X, box.Max.Y, c.Max.Z))
				if d := cut.Size(); d.X >= nookSlim && d.Z >= nookSlim { // less is in the room left round it
					r.Recess(part.Notch, part.Upper, cut, saw, "opening")
				}
			}
		}
	}
	b.endPanels()
	b.notches()
}

// backRails are the boards that run along a back, from side to side.
var backRails = []string{"rail-upper", "rail-lower", "rail-middle", "batten-1", "batten-2", "batten-3"}

// railsCut says which rails an opening takes the end or the whole height of: they are not held there.
func (b *build) railsCut() {
	for _, n := range backRails {
		r := b.part(n)
		if r == nil {
			continue
		}
		for _, o := range r.Ops {
			if o.Kind != part.Notch || o.For != "opening" {
				continue
			}
			if o.W >= r.Size[1] || slices.ContainsFunc(r.Ops, func(q part.Op) bool { return q.Kind != part.Notch && o.Meets(q, r.Size, mm) }) {
				b.say(RailCut, finding.Warning, "", "an opening in the back takes the end or the whole height of the "+r.Name+", which is not held there", "move the case sideways, or the rail: hangs-by has its width")
			}
		}
	}
}

// endPanels covers sides that can be seen, fronts' edges included.
func (b *build) endPanels() {
	board := cmp.Or(b.spec.FrontBoard, b.env.Practice.FrontBoard, b.board)
	t := b.thick(board, "end panel")
	for _, side := range []string{"left", "right"} {
		if !slices.Contains(b.spec.EndPanels, side) {
			continue
		}
		local, on, x, z0 := "panel-l", "side-l", L(0), b.zs
		box := geom.B(-t, -b.tf-b.air, z0, 0, b.d, b.h)
		if side == "right" {
			local, on, x = "panel-r", "side-r", b.w
			box = geom.B(b.w, -b.tf-b.air, z0, b.w+t, b.d, b.h)
		}
		p := b.stand(local, part.EndPanel, side+" end panel", board, box, geom.Back)
		b.band(&p, geom.Front)
		b.put(p)
		c := b.part(on).Box()
		h, _ := b.shop.ScrewFor("wood", b.t, t)
		b.a.Joints = append(b.a.Joints, part.Joint{Kind: part.Undone, A: on, B: local, Contact: geom.B(x, c.Min.Y, c.Min.Z, x, c.Max.Y, c.Max.Z), Fastener: cmp.Or(h.ID, "wood-screw"), Count: 6})
		b.item(part.Item{ID: cmp.Or(h.ID, "wood-screw"), Kind: "screw", Count: 6, Length: h.Length, For: "end panels"})
	}
}

// joining bores for the screws that join neighbours: through the right side, from inside, and a
// pilot in the left side of the case that stands to the right. Beside one that stands already on
// the left, which nobody has bored, they go through the left side from inside too.
func (b *build) joining() {
	j := Joining{Front: 50 * mm, Rear: 50 * mm, Low: 100 * mm, High: 100 * mm}
	if b.site.Joining != nil {
		j = *b.site.Joining
	}
	n := 0
	for _, right := range []bool{false, true} {
		local, join := "side-l", b.site.JoinLeft
		if right {
			local, join = "side-r", b.site.JoinRight
		}
		if !join {
			continue
		}
		p := b.part(local)
		hw, ok := b.env.Catalogue.Item(j.Screw)
		if !ok {
			hw, _ = b.shop.ScrewFor("joining", b.t, b.t)
		}
		dia, depth, face := L(4500*length.MM/1000), b.t, p.Facing(geom.Left)
		if hw.Clearance > 0 {
			dia = hw.Clearance
		}
		if !right && b.site.FromLeft {
			face = p.Facing(geom.Right)
		} else if !right {
			if dia, depth = 3*mm, joinery.Blind(b.t, b.t, 5*mm); depth == 0 {
				b.once(b.shop.Thin("joining screw", b.t))
				continue
			}
			if hw.Pilot > 0 {
				dia = hw.Pilot
			}
		}
		tool, d, okb := b.shop.Pilot(dia)
		if !okb {
			b.say(joinery.NoBit, finding.Warning, "", "no "+tool+" for joining screws is owned", "add it to the practice's bits")
		}
		zs := []L{b.zb + j.Low, b.h - j.High}
		if b.h-b.zb > 914*mm { // over 36 in: a third pair
			zs = append(zs, (zs[0]+zs[1])/2)
		}
		inner := face == p.Facing(geom.Left) == right // the heads are inside
		for _, z := range zs {
			for _, y := range []L{j.Front, b.yb - j.Rear} {
				q, free := b.joinSpot(p, face, geom.V(p.Box().Min.X, y, z), d, inner)
				if !free {
					continue
				}
				p.Bore(part.Hole, face, q, d, depth, tool, "joining screw")
				if right {
					n++
				}
			}
		}
		if right {
			b.item(part.Item{ID: cmp.Or(hw.ID, "joining-screw"), Kind: "screw", Count: n, Length: hw.Length, For: "joining neighbours"})
		}
	}
}

// Where a joining screw's place is taken, it is moved inwards by steps of joinStep, joinReach at
// most; boards that are fixed inside keep joinRoom from it. Common practice, no source.
const (
	joinStep  = 10 * mm
	joinReach = 60 * mm
	joinRoom  = 10 * mm
)

// joinSpot gives the place nearest to a point, inwards, where a hole for a joining screw is clear of
// the other holes of a side and, where its head is inside, of hardware and boards there.
func (b *build) joinSpot(p *part.Part, f part.Face, at geom.Vec, dia L, inner bool) (geom.Vec, bool) {
	box := p.Box()
	in := geom.V(0, 1, 1)
	if 2*at.Y > b.yb {
		in.Y = -1
	}
	if 2*at.Z > box.Min.Z+box.Max.Z {
		in.Z = -1
	}
	high := b.shop.SlideHeight(b.a.Hardware)
	for off := L(0); off <= joinReach; off += joinStep {
		for _, v := range []geom.Vec{{Z: off * in.Z}, {Y: off * in.Y}, {Y: off * in.Y, Z: off * in.Z}} {
			q := at.Add(v)
			x, y := p.OnFace(f, q)
			ex, ey, _ := f.Extent(p.Size)
			if x < dia || y < dia || x > ex-dia || y > ey-dia || !clear(p, x, y, dia, 3*mm) {
				continue
			}
			if inner && (joinery.Covered(*p, f, q, joinery.HeadHalf, high) || b.beside(p, q, high)) {
				continue
			}
			return q, true
		}
	}
	return at, false
}

// beside reports whether a board that is fixed inside, or a slide on it, lies against a side at a point.
func (b *build) beside(p *part.Part, at geom.Vec, high L) bool {
	room := geom.Box{Min: at, Max: at.With(0, p.Box().Max.X)}.Grow(joinRoom)
	return slices.ContainsFunc(b.a.Parts, func(o part.Part) bool {
		return o.Local != p.Local && o.Moves == "" && !o.Removable && o.Role != part.BackPanel && o.Role != part.EndPanel && joinery.WithSlides(o, high).Meets(room)
	})
}

// clear reports whether a hole through the broad faces at (u, v) keeps web of wood to every other round working of
// those faces.
func clear(p *part.Part, u, v, dia, web L) bool {
	for _, o := range p.Ops {
		if o.Face != part.Upper && o.Face != part.Lower {
			continue
		}
		switch o.Kind {
		case part.Hole, part.Cup:
			r := (dia+o.Dia)/2 + web
			du, dv := o.X-u, o.Y-v
			if du.Abs() < r && dv.Abs() < r && int64(du/100)*int64(du/100)+int64(dv/100)*int64(dv/100) < int64(r/100)*int64(r/100) {
				return false
			}
		case part.Groove, part.Rabbet, part.Notch, part.Cutout:
			if u+dia/2 > o.X && u-dia/2 < o.X+o.L && v+dia/2 > o.Y && v-dia/2 < o.Y+o.W {
				return false
			}
		}
	}
	return true
}
