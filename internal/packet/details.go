package packet

import (
	"stowright/internal/draw"
	"stowright/internal/part"
	"stowright/internal/view"
)

// details sets corners at larger scale: of the first floor case, the first wall case and the
// first case with drawers; the others are made alike.
func (b *book) details() {
	var chosen []part.Owner
	for _, want := range []func(o part.Owner) bool{
		func(o part.Owner) bool { return !o.Hung && !b.has(o, part.BoxSide) },
		func(o part.Owner) bool { return !o.Hung && b.has(o, part.BoxSide) },
		func(o part.Owner) bool { return o.Hung },
	} {
		for _, o := range b.built() {
			if o.Kind == "case" && want(o) {
				chosen = append(chosen, o)
				break
			}
		}
	}
	most := draw.Scale{Paper: 1, Real: 2}
	for i, o := range chosen {
		list := view.BodyOf(&b.Assembly, o, b.Print).Details()
		if len(list) == 0 {
			continue
		}
		var rows [][]view.Figure
		for k := 0; k < len(list); k += 2 {
			rows = append(rows, list[k:min(k+2, len(list))])
		}
		var f *draw.Flow
		scratch := draw.Sheet{}
		scale, foot := view.Pack(&scratch, draw.Rect{W: b.flow.Width(), H: b.Paper.H * 0.72}, b.Print, most, rows...)
		if i == 0 {
			f = b.chapter(0, "Details", "Details", "details", foot+40)
			f.Para("Cut edges hatched; sizes here are exact, thicknesses as measured. Cases that are not shown are made like these.")
		} else {
			f = b.flow
			if f.Left() < foot+20 {
				f.Break()
				b.title, b.kind = "Details", "Details"
			}
		}
		f.Heading(2, b.name(o.ID)+", scale "+scale.String(), "details "+o.ID)
		f.Block(foot+2, func(s *draw.Sheet, r draw.Rect) {
			view.Pack(s, draw.Rect{X: r.X, Y: r.Y, W: r.W, H: b.Paper.H * 0.72}, b.Print, most, rows...)
		})
	}
}

// has tells whether an owner has a part of a role.
func (b *book) has(o part.Owner, role part.Role) bool {
	for _, p := range b.Assembly.Parts {
		if p.Owner == o.ID && p.Role == role {
			return true
		}
	}
	return false
}
