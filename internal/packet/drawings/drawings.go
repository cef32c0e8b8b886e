// Package drawings makes the drawings that stand alone beside the plan set: one of every sheet
// of the cutting plan, and the views of walls and cases, each on a piece of paper of its own
// that is as large as its scale asks. What is drawn is package view's.
package drawings

import (
	"fmt"
	"slices"
	"strings"

	"stowright/internal/cutlist"
	"stowright/internal/cutting"
	"stowright/internal/draw"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/stock"
	"stowright/internal/view"
)

// Drawing is one drawing: its name without a folder or an ending, and what it shows.
type Drawing struct {
	Name  string
	Title string
	Scale draw.Scale // zero for a picture that is not to scale
	Zero  draw.Point // where the shown rectangle's lower left corner lies, for drawings of sheets
	Sheet draw.Sheet
}

const (
	edge   = 8.0 // of paper kept free, mm
	header = 10.0
)

// scales gives the scale of cutting plans and the one of views.
func scales(u view.Units) (sheets, views draw.Scale) {
	if u.Unit == length.Inches {
		return draw.Scale{Paper: 1, Real: 8}, draw.Scale{Paper: 1, Real: 8}
	}
	return draw.Scale{Paper: 1, Real: 10}, draw.Scale{Paper: 1, Real: 10} // 1:5 and 1:2 where marks need it
}

// Sheets draws every sheet of a cutting plan as it is cut, with marks, sizes, cuts and offcuts; larger
// where a mark would find no room in its piece otherwise.
func Sheets(plan cutting.Plan, marks [][]string, cat stock.Catalogue, u view.Units) []Drawing {
	scale, _ := scales(u)
	var out []Drawing
	for i, s := range plan.Sheets {
		var m []string
		if i < len(marks) {
			m = marks[i]
		}
		name := cutlist.Board(s.Stock)
		if b, ok := cat.Board(name); ok && b.Name != "" {
			name = b.Name
		}
		from := ""
		if s.OnHand || cutlist.LeftOver(s.Stock) {
			from = ", " + cutlist.From(s)
		}
		var d Drawing
		for k := 1; k <= 4; k *= 2 {
			c := draw.Scale{Paper: 1, Real: scale.Real / k}
			d = figure(fmt.Sprintf("%02d", i+1), fmt.Sprintf("Sheet %d of %d: %s%s", i+1, len(plan.Sheets), name, from), u, c,
				filling(s, m, u))
			if all(&d.Sheet, m) {
				break
			}
		}
		out = append(out, d)
	}
	return out
}

// filling is the figure of one sheet with its legend and the sheet's own size.
func filling(s cutting.Sheet, marks []string, u view.Units) view.Figure {
	f := view.Filling(s, marks, u, nowhere)
	f.Title = "Circled figures: order of the cuts. Hatched: left over. Sizes as sawn."
	f.Dims = func(d *draw.Dims, v draw.View) {
		d.Single(draw.Below, v.X(0), v.X(s.L), u.Mark(s.L))
		d.Single(draw.Left, v.Y(0), v.Y(s.W), u.Mark(s.W))
	}
	return f
}

// all tells whether every mark stands on a sheet.
func all(s *draw.Sheet, marks []string) bool {
	said := map[string]bool{}
	for _, it := range s.Items {
		if t, ok := it.(*draw.Text); ok {
			mark, _, _ := strings.Cut(t.Text, " ")
			said[mark] = true
		}
	}
	return !slices.ContainsFunc(marks, func(m string) bool { return !said[m] })
}

// nowhere is for links: a drawing that stands alone has nothing to lead to.
func nowhere(string) string { return "" }

// Views draws the walls as elevation, with fronts off, and plan; and every case, counter, base
// and hutch as its views, pictorial and drawn apart.
func Views(a *part.Assembly, walls []view.Wall, u view.Units) []Drawing {
	_, scale := scales(u)
	var out []Drawing
	for i := range walls {
		w := &walls[i]
		c := view.Scene{Wall: w, Assembly: a, Unit: u}
		parts, standing := c.Parts()
		if len(parts) == 0 {
			continue
		}
		name, title := "wall-"+file(w.ID), "Wall "+w.Name
		small := draw.Scale{Paper: 1, Real: 2 * scale.Real}
		out = append(out,
			figure(name+"-elevation", "", u, small, c.Elevation(false, nowhere)),
			figure(name+"-fronts-off", "", u, small, c.Elevation(true, nowhere)),
			figure(name+"-plan", "", u, small, c.Plan()),
			picture(name+"-pictorial", title, func(s *draw.Sheet, r draw.Rect) { view.Pictorial(s, r, parts, standing, false) }))
	}
	for _, o := range a.Owners {
		if o.Standing {
			continue
		}
		b := view.BodyOf(a, o, u)
		if len(b.Parts) == 0 {
			continue
		}
		code := view.Code(a, o.ID)
		name, title := file(code), code+": "+o.Name
		if o.Name == "" {
			title = code + ": " + o.ID
		}
		front, side, plan, closed := b.Figures()
		for _, f := range []struct {
			what string
			fig  *view.Figure
		}{{"front", front}, {"fronts-on", closed}, {"side", side}, {"plan", plan}} {
			if f.fig != nil {
				out = append(out, figure(name+"-"+f.what, title, u, scale, *f.fig))
			}
		}
		out = append(out,
			picture(name+"-pictorial", title, func(s *draw.Sheet, r draw.Rect) { view.Pictorial(s, r, b.Parts, nil, true) }),
			picture(name+"-apart", title+", drawn apart", func(s *draw.Sheet, r draw.Rect) {
				view.NewApart(b.Parts, b.Owner.Carcass, nil).Draw(s, r, nowhere)
			}))
	}
	return out
}

// figure draws one figure at a scale, on paper that is as large as that takes.
func figure(name, title string, u view.Units, scale draw.Scale, f view.Figure) Drawing {
	switch {
	case strings.Contains(f.Title, "."): // a legend, not a name
	case title == "":
		title = f.Title
	default:
		title += ", " + lower(f.Title)
	}
	paint := f.Paint
	var zero draw.Point
	f.Paint = func(s *draw.Sheet, v draw.View) {
		zero = v.At(f.X0, f.Z0)
		paint(s, v)
	}
	w, h := scale.MM(f.X1-f.X0)+40, scale.MM(f.Z1-f.Z0)+50
	for range 40 {
		s := draw.Sheet{W: w, H: h}
		r := draw.Rect{X: edge, Y: edge + header, W: w - 2*edge, H: h - 2*edge - header}
		got, _ := view.Set(&s, r, u, scale, []view.Figure{f})
		if got == scale {
			return finish(name, fmt.Sprintf("%s. Scale %s", title, scale), scale, zero, s)
		}
		w, h = w+15, h+15
	}
	panic("drawings: no paper is large enough for " + name)
}

// picture draws what is not to scale on a sheet of A4, lying.
func picture(name, title string, paint func(*draw.Sheet, draw.Rect)) Drawing {
	s := draw.Sheet{W: 297, H: 210}
	paint(&s, draw.Rect{X: edge, Y: edge + header, W: s.W - 2*edge, H: s.H - 2*edge - header})
	return finish(name, title+". Not to scale", draw.Scale{}, draw.Point{}, s)
}

// finish puts the title at the head and leaves out what leads to other pages.
func finish(name, title string, scale draw.Scale, zero draw.Point, s draw.Sheet) Drawing {
	var keep []draw.Item
	for _, it := range s.Items {
		switch it.(type) {
		case *draw.Link, *draw.Anchor:
		default:
			keep = append(keep, it)
		}
	}
	s.Items = keep
	size := 3.0
	for _, line := range draw.Wrap(title, size, true, s.W-2*edge) {
		s.Text(draw.Pt(edge, edge+size), size, line, draw.Start).Bold = true
		break
	}
	return Drawing{name, title, scale, zero, s}
}

// lower gives a title that goes on in a line of text.
func lower(s string) string {
	if s == "" {
		return s
	}
	return strings.ToLower(s[:1]) + s[1:]
}

// file makes a name that every system takes for a file.
func file(s string) string {
	return strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '-' || r == '_' || r == '.' {
			return r
		}
		return '-'
	}, s)
}
