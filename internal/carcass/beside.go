package carcass

import (
	"cmp"
	"slices"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/part"
)

// place works what the place asks for: openings in the back, notches, panels.
func (b *build) place(s shell) {
	if s.t > 0 {
		for _, c := range b.site.Cutouts {
			for i := range len(s.seams) + 1 {
				p := b.part(backName(i))
				box := p.Box()
				c.Min.Y, c.Max.Y = box.Min.Y, box.Max.Y
				if d := box.And(c).Size(); d.X < nookSlim || d.Z < nookSlim { // the room left round it is enough
					continue
				}
				kind, tool := part.Cutout, joinery.Jigsaw
				if c.Min.X <= box.Min.X || c.Max.X >= box.Max.X || c.Min.Z <= box.Min.Z || c.Max.Z >= box.Max.Z {
					d := box.And(c).Size()
					kind, tool = part.Notch, b.shop.Notcher(d.X, d.Z)
				}
				p.Recess(kind, part.Upper, c, tool, "opening")
			}
			for _, n := range backRails {
				r := b.part(n)
				if r == nil {
					continue
				}
				box := r.Box()
				cut := box.And(geom.B(c.Min.X, box.Min.Y, c.Min.Z, c.Max.X, box.Max.Y, c.Max.Z))
				if d := cut.Size(); d.X >= nookSlim && d.Z >= nookSlim { // less is in the room left round it
					r.Recess(part.Notch, part.Upper, cut, b.shop.Notcher(d.X, d.Z), "opening")
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
		r := b.shop.Lay(part.Joint{Kind: part.Undone, A: on, B: local, Contact: geom.B(x, c.Min.Y, c.Min.Z, x, c.Max.Y, c.Max.Z)}, *b.part(on), p, b.t, t, 6, "end panels")
		b.a.Joints = append(b.a.Joints, r.Joint)
		for _, i := range r.Items {
			b.item(i)
		}
		for _, f := range r.Findings {
			b.once(f)
		}
	}
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
