package packet

import (
	"cmp"
	"slices"
	"strings"

	"stowright/internal/draw"
	"stowright/internal/length"
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
	scale := draw.Scale{Paper: 1, Real: 2}
	most := b.Paper.H * 0.72
	told := map[string]bool{} // what is alike in all is shown once
	var list []view.Figure
	for _, o := range chosen {
		code := view.Code(&b.Assembly, o.ID)
		for _, f := range view.BodyOf(&b.Assembly, o, b.units()).Details() {
			kind, _, spot := strings.Cut(f.Title, ", "+code+".")
			if told[kind] && !strings.HasPrefix(kind, "Lower front") && !(o.Hung && strings.HasPrefix(kind, "Upper rear")) {
				continue
			}
			told[kind] = true
			if !spot {
				f.Title = code + ": " + strings.ToLower(f.Title[:1]) + f.Title[1:]
			}
			list = append(list, f)
		}
	}
	list = append(list, b.scribes()...)
	for i := range list {
		b.ready(&list[i])
	}
	// those of one height beside each other, the lowest first
	slices.SortStableFunc(list, func(x, y view.Figure) int { return cmp.Compare((x.Z1-x.Z0)/detailStep, (y.Z1-y.Z0)/detailStep) })
	type shelf struct {
		figures []view.Figure
		high    float64
	}
	var rows []shelf
	for len(list) > 0 {
		// as many as have room at the scale: the next, and of those after it what fits
		var row, rest []view.Figure
		foot := 0.0
		for _, f := range list {
			c, h := view.Fit(draw.Rect{W: b.flow.Width(), H: most}, b.units(), scale, append(slices.Clone(row), f))
			if c != scale && len(row) > 0 {
				rest = append(rest, f)
				continue
			}
			row, foot = append(row, f), h
		}
		rows, list = append(rows, shelf{row, foot}), rest
	}
	// the highest row that has room on the sheet, so that sheets are filled
	slices.SortStableFunc(rows, func(x, y shelf) int { return cmp.Compare(y.high, x.high) })
	for first := true; len(rows) > 0; first = false {
		f, room := b.flow, 1.0
		if first {
			room = 23
		}
		i := slices.IndexFunc(rows, func(x shelf) bool { return x.high+room <= f.Left() })
		if i < 0 {
			i = 0
			f.Break()
		}
		row := rows[i]
		rows = slices.Delete(rows, i, i+1)
		if first {
			f = b.chapter(0, "Details", "Details", "details", row.high+room)
			f.Para("Scale " + scale.String() + ". Cut edges hatched; sizes exact, thicknesses as measured. Cases not shown are made like these.")
		}
		b.title, b.kind = "Details", "Details"
		f.Block(row.high+1, func(s *draw.Sheet, r draw.Rect) {
			r.H = most
			view.Pack(s, r, b.units(), scale, row.figures)
		})
	}
}

// detailStep is by how much details differ in height, in true size, that stand in other rows.
const detailStep = 25 * length.MM

// scribes gives the first filler that meets a wall.
func (b *book) scribes() []view.Figure {
	for i := range b.Walls {
		c := b.scene(&b.Walls[i])
		for _, o := range b.built() {
			if o.Wall == b.Walls[i].ID {
				if f, ok := c.Scribe(o); ok {
					return []view.Figure{f}
				}
			}
		}
	}
	return nil
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
