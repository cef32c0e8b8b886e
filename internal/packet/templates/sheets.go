package templates

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"stowright/internal/draw"
	"stowright/internal/length"
)

// The sheet: kept free at its edges for printers, a head for words, a foot for the bar.
const (
	edge    = 12.0
	head    = 24.0
	foot    = 18.0
	overlap = 14.0 // of neighbouring sheets
)

// Make gives the sheets: first how to use them, then template by template. A job without any gives no sheets.
func Make(in Input) draw.Document {
	doc := draw.Document{Title: in.Job + ": templates", Subject: "Full-size templates", Lang: cmp.Or(in.Lang, "en"), Date: in.Date}
	list := List(in)
	if len(list) == 0 {
		return doc
	}
	if in.Paper.W == 0 {
		in.Paper = draw.A4()
		if in.Print == length.Inches {
			in.Paper = draw.Letter()
		}
	}
	area := in.area()
	var sheets []*draw.Sheet
	first := make([]int, len(list))
	open := -1 // sheet that small templates still go on
	y := 0.0
	for i, t := range list {
		pieces := []piece{{0, mm(t.W)}}
		if w := mm(t.W); w > area.W-6 && mm(t.H) <= 60 { // long and narrow: in pieces below each other
			pieces = nil
			for x := 0.0; ; x += area.W - 6 - overlap {
				pieces = append(pieces, piece{x, min(w, x+area.W-6)})
				if x+area.W-6 >= w {
					break
				}
			}
		}
		words := 8 + 4*float64(len(in.about(t, area.W-6)))
		below := 0.0
		if t.Sized {
			below = sizesBelow
		}
		if h := mm(t.H); pieces[0].to <= area.W-6 && h+words+below <= area.H {
			for k, p := range pieces {
				need := words + h + below
				if k > 0 {
					need = 8 + h
				}
				if open < 0 || y+need > area.Bottom() {
					sheets = append(sheets, in.sheet())
					open, y = len(sheets)-1, area.Y-head+8
					in.bar(sheets[open], area)
				}
				if k == 0 {
					first[i] = open
				}
				in.small(sheets[open], draw.Rect{X: area.X + 3, Y: y, W: area.W - 6, H: need}, t, p, k, len(pieces))
				y += need + 7
			}
			continue
		}
		first[i] = len(sheets)
		sheets = append(sheets, in.fewest(t)...)
	}
	cover := in.cover(list, first)
	doc.Pages = append(doc.Pages, *cover)
	n := len(sheets) + 1
	for i, s := range sheets {
		s.Text(draw.Pt(s.W-edge, s.H-edge+1), draw.LeastCap, s.Said(fmt.Sprintf("sheet %d of %d", i+2, n)), draw.End)
		doc.Pages = append(doc.Pages, *s)
	}
	return doc
}

func mm(v l) float64 { return float64(v) / float64(length.MM) }

// area is what a sheet has for templates.
func (in *Input) area() draw.Rect {
	return draw.Rect{X: edge, Y: edge + head, W: in.Paper.W - 2*edge, H: in.Paper.H - 2*edge - head - foot}
}

// sheet gives an empty sheet.
func (in *Input) sheet() *draw.Sheet {
	s := in.Paper.Sheet(false)
	s.Say = in.Say
	return s
}

// bar puts the bar to check the print by at the foot of a sheet.
func (in *Input) bar(s *draw.Sheet, area draw.Rect) {
	s.CheckBar(draw.Pt(area.X, area.Bottom()+4))
}

// cover says how the sheets are used and what there is.
func (in *Input) cover(list []Template, first []int) *draw.Sheet {
	s := in.sheet()
	y := edge + 8
	say := func(size float64, bold bool, x float64, text string) {
		for _, line := range draw.Wrap(s.Said(text), size, bold, s.W-2*edge-x) {
			y += size + 2
			s.Text(draw.Pt(edge+x, y), size, line, draw.Start).Bold = bold
		}
	}
	say(5, true, 0, in.Job+": full-size templates")
	y += 4
	for _, t := range []string{
		"1. Print at 100 %, without fitting to the page. Lay a tape on the bars at the foot of a sheet: when they are out, do not use the print.",
		"2. Where a template runs over several sheets or pieces, cut along one of two neighbouring edges, lay the crosses in squares on each other and tape them. The map in the corner shows which sheet goes where. Measure the whole against the size at its head.",
		"3. Lay thick lines on the edges of the board. Stick the paper down so that it cannot shift, prick every centre with a sharp point, take the paper off, drill.",
		"4. Try it on scrap first. Clamp the work; wear eye protection; large bits and hole saws catch, where there is a drill press use it, at its slowest.",
	} {
		say(draw.LeastCap, false, 0, t)
		y += 1.5
	}
	y += 4
	for i, t := range list {
		if y > s.H-edge-36 {
			say(draw.LeastCap, false, 0, fmt.Sprintf("and %d more", len(list)-i))
			break
		}
		say(3, true, 0, fmt.Sprintf("%s: sheet %d", t.Title, first[i]+2))
		say(draw.LeastCap, false, 4, "for "+few(t.Marks, 12))
		y += 1.5
	}
	in.bar(s, draw.Rect{X: edge, Y: 0, W: 0, H: s.H - edge - foot})
	s.Text(draw.Pt(in.Paper.W-edge, in.Paper.H-edge+1), draw.LeastCap, s.Said("sheet 1"), draw.End)
	return s
}

// few names marks, not more than n.
func few(marks []string, n int) string {
	if len(marks) <= n {
		return strings.Join(marks, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(marks[:n], ", "), len(marks)-n)
}

// piece is what of a long template lies between two places, in mm.
type piece struct{ from, to float64 }

// small draws a template that fits on a sheet, or a piece of it, under its words. Pieces are
// laid on each other by the crosses in what they share.
func (in *Input) small(s *draw.Sheet, r draw.Rect, t Template, p piece, k, n int) {
	title := t.Title
	if n > 1 {
		title += fmt.Sprintf(", piece %d of %d", k+1, n)
	}
	s.Text(draw.Pt(r.X, r.Y+4), 3, s.Said(title), draw.Start).Bold = true
	window := draw.Rect{X: r.X, Y: r.Bottom() - mm(t.H), W: p.to - p.from, H: mm(t.H)}
	if t.Sized {
		window.Y -= sizesBelow
		in.sizes(s, window, t)
	}
	in.paint(s, window, p.from, 0, t)
	if !t.Sized { // a row: each hole with its distance from the thick line
		for _, h := range t.Holes {
			at := draw.Pt(window.X+mm(h.X)-p.from, window.Bottom()-mm(h.Y)-1.3)
			beside := mm(h.Dia)/2 + 3
			txt := draw.Text{At: at.Add(draw.Pt(beside, 0)), Text: in.size(h.X), Size: draw.LeastCap, Align: draw.Start}
			if !window.Has(txt.Box()) {
				txt.At, txt.Align = at.Add(draw.Pt(-beside, 0)), draw.End
			}
			if window.Has(txt.Box()) {
				s.Text(txt.At, txt.Size, txt.Text, txt.Align)
			}
		}
	}
	if k > 0 {
		cross(s, draw.Pt(window.X+overlap/2, window.Y+5))
		cross(s, draw.Pt(window.X+overlap/2, window.Bottom()-5))
	}
	if k+1 < n {
		cross(s, draw.Pt(window.Right()-overlap/2, window.Y+5))
		cross(s, draw.Pt(window.Right()-overlap/2, window.Bottom()-5))
	}
	if k > 0 {
		return
	}
	y := r.Y + 4
	for _, line := range in.about(t, r.W) {
		y += 4
		s.Text(draw.Pt(r.X, y), draw.LeastCap, line, draw.Start)
	}
}

// about says in lines of a width what a small template is laid to, where, and what is bored.
func (in *Input) about(t Template, wide float64) (lines []string) {
	list := append([]string{}, t.About...)
	list = append(list, "For "+few(t.Marks, 8)+". "+in.holes(t))
	if c := in.centres(t); c != "" {
		list = append(list, "Centre line: "+c+".")
	}
	if !t.Sized {
		list = append(list, "Figures are distances from the thick line.")
	}
	for _, a := range list {
		lines = append(lines, draw.Wrap(in.Say.Of(a), draw.LeastCap, false, wide)...)
	}
	return lines
}

// centres says where the centre line lies on the parts.
func (in *Input) centres(t Template) string {
	of := map[string][]l{} // by mark and from where
	var order []string
	for _, c := range t.At {
		k := c.Mark + "\x00" + c.From
		if of[k] == nil {
			order = append(order, k)
		}
		if !slices.Contains(of[k], c.At) {
			of[k] = append(of[k], c.At)
		}
	}
	marks := map[string][]string{} // by what is said
	var said []string
	for _, k := range order {
		mark, from, _ := strings.Cut(k, "\x00")
		slices.Sort(of[k])
		var at []string
		for _, x := range of[k] {
			at = append(at, in.size(x))
		}
		text := strings.Join(at, ", ") + " from the " + from
		if marks[text] == nil {
			said = append(said, text)
		}
		marks[text] = append(marks[text], mark)
	}
	const most = 8
	var out []string
	for i, text := range said {
		if i == most {
			out = append(out, "others: see their drawings")
			break
		}
		out = append(out, few(marks[text], 6)+" "+text)
	}
	return strings.Join(out, "; ")
}

// size prints a length as a tape shows it, and exactly where that is another.
func (in *Input) size(x l) string {
	t := x.Tape(in.Print)
	if x.IsTape(in.Print) {
		return t
	}
	if in.Print == length.Inches {
		return fmt.Sprintf("%s (%.3f)", t, float64(x)/float64(length.Inch))
	}
	if e := x.Near(length.MM / 100).MM(); e != t {
		return t + " (" + e + ")"
	}
	return t
}

// sizesBelow is the room below a template for its figures, in mm.
const sizesBelow = 22.0

// sizes stands the distances of holes from the thick line and from the centre line beside a template.
func (in *Input) sizes(s *draw.Sheet, window draw.Rect, t Template) {
	d := draw.Dims{View: window}
	chain := func(side draw.Side, at []l, on func(l) float64) {
		slices.Sort(at)
		at = slices.Compact(at)
		var places []float64
		var texts []string
		for i, x := range at {
			places = append(places, on(x))
			if i > 0 {
				texts = append(texts, in.size(x-at[i-1]))
			}
		}
		d.Chain(side, places, texts)
	}
	xs, ys := []l{0}, []l{t.H / 2}
	for _, h := range t.Holes {
		xs, ys = append(xs, h.X), append(ys, h.Y)
	}
	chain(draw.Below, xs, func(x l) float64 { return window.X + mm(x) })
	chain(draw.Right, ys, func(y l) float64 { return window.Bottom() - mm(y) })
	d.Draw(s)
}

// cross is a mark that is laid on its like on a neighbouring sheet. It stands in a square, since
// a round one would be taken for a hole.
func cross(s *draw.Sheet, p draw.Point) {
	s.Rect(draw.Fine, draw.Rect{X: p.X - 2.5, Y: p.Y - 2.5, W: 5, H: 5})
	s.Poly(draw.Fine, p.Add(draw.Pt(-4, 0)), p.Add(draw.Pt(4, 0)))
	s.Poly(draw.Fine, p.Add(draw.Pt(0, -4)), p.Add(draw.Pt(0, 4)))
}

// holes says the diameters and depths of a template.
func (in *Input) holes(t Template) string {
	var out []string
	n := map[string]int{}
	for _, h := range t.Holes {
		k := h.Dia.Bit(in.Print) + " across, " + h.Depth
		if n[k] == 0 {
			out = append(out, k)
		}
		n[k]++
	}
	for i, k := range out {
		out[i] = fmt.Sprintf("%d × %s", n[k], k)
	}
	return "Holes: " + strings.Join(out, "; ") + "."
}

// fewest draws a template that is larger than its share of a sheet, on sheets that lie where it takes fewer of them so.
func (in *Input) fewest(t Template) []*draw.Sheet {
	lying := *in
	lying.Paper.W, lying.Paper.H = in.Paper.H, in.Paper.W
	upright, turned := in.tiles(t, in.area()), lying.tiles(t, lying.area())
	if len(turned) < len(upright) {
		return turned
	}
	return upright
}

// tiles draws a template over several sheets, or alone on one.
func (in *Input) tiles(t Template, area draw.Rect) []*draw.Sheet {
	inner := area.Inset(3) // lines at the very edge of the area are still printed
	stepX, stepY := inner.W-overlap, inner.H-overlap
	cols := max(1, int(math.Ceil((mm(t.W)-overlap)/stepX)))
	rows := max(1, int(math.Ceil((mm(t.H)-overlap)/stepY)))
	var out []*draw.Sheet
	for row := rows - 1; row >= 0; row-- { // the upper row first
		for col := range cols {
			s := in.sheet()
			out = append(out, s)
			y := edge + 3.0
			s.Text(draw.Pt(edge, y), 3, s.Said(t.Title), draw.Start).Bold = true
			for _, a := range append(append([]string{}, t.About...), "For "+few(t.Marks, 6)+". "+in.holes(t)) {
				for _, line := range draw.Wrap(s.Said(a), draw.LeastCap, false, area.W-34) {
					if y += 4; y < area.Y-1 {
						s.Text(draw.Pt(edge, y), draw.LeastCap, line, draw.Start)
					}
				}
			}
			x0, y0 := float64(col)*stepX, float64(row)*stepY
			if cols*rows > 1 {
				in.sheetMap(s, draw.Rect{X: area.Right() - 30, Y: edge, W: 30, H: head - 4}, cols, rows, col, row)
				s.Rect(draw.Fine, inner)
			}
			in.paint(s, inner, x0, y0, t)
			// crosses in the overlaps, at the same places of the template on both sheets
			for i := range cols + 1 {
				for j := range rows + 1 {
					for _, q := range [][2]float64{{float64(i)*stepX + overlap/2, float64(j)*stepY + stepY*0.25}, {float64(i)*stepX + overlap/2, float64(j)*stepY + stepY*0.75},
						{float64(i)*stepX + stepX*0.25, float64(j)*stepY + overlap/2}, {float64(i)*stepX + stepX*0.75, float64(j)*stepY + overlap/2}} {
						vertical := q[0] == float64(i)*stepX+overlap/2
						if vertical {
							q[1] = t.clear(q[0], q[1], 0, 1, stepY/4)
						} else {
							q[0] = t.clear(q[0], q[1], 1, 0, stepX/4)
						}
						p := draw.Pt(inner.X+q[0]-x0, inner.Bottom()-(q[1]-y0))
						if vertical && (i == 0 || i == cols) || !vertical && (j == 0 || j == rows) {
							continue // no neighbour on that side
						}
						if inner.Inset(4).Has(draw.Rect{X: p.X, Y: p.Y}) {
							cross(s, p)
						}
					}
				}
			}
			in.bar(s, area)
		}
	}
	return out
}

// clear moves a cross along its strip, by at most so much, until it stands in no hole, and gives the
// coordinate that changed.
func (t *Template) clear(x, y, dx, dy, most float64) float64 {
	free := func(x, y float64) bool {
		for _, h := range t.Holes {
			if math.Hypot(mm(h.X)-x, mm(h.Y)-y) < mm(h.Dia)/2+5 {
				return false
			}
		}
		return true
	}
	for off := 0.0; off <= most; off += 3 {
		for _, k := range []float64{off, -off} {
			if free(x+k*dx, y+k*dy) {
				return x*dx + y*dy + k
			}
		}
	}
	return x*dx + y*dy
}

// sheetMap draws the sheets of a template small, the present one dark.
func (in *Input) sheetMap(s *draw.Sheet, r draw.Rect, cols, rows, col, row int) {
	k := min(r.W/float64(cols)/in.Paper.W, r.H/float64(rows)/in.Paper.H) * in.Paper.W
	h := k * in.Paper.H / in.Paper.W
	for i := range cols {
		for j := range rows {
			c := draw.Rect{X: r.Right() - float64(cols-i)*k, Y: r.Y + float64(rows-1-j)*h, W: k, H: h}
			p := s.Rect(draw.Narrow, c)
			if i == col && j == row {
				p.Filled, p.Fill = true, draw.Dark
			}
		}
	}
}

// paint draws what of a template lies in a window of paper whose lower left corner is the
// template's point x0, y0 (mm).
func (in *Input) paint(s *draw.Sheet, window draw.Rect, x0, y0 float64, t Template) {
	at := func(x, y float64) draw.Point { return draw.Pt(window.X+x-x0, window.Bottom()-(y-y0)) }
	line := func(k draw.Line, a, b draw.Point) {
		if a, b, ok := clip(window, a, b); ok {
			s.Poly(k, a, b)
		}
	}
	for _, e := range t.Edges {
		line(draw.Outline, at(mm(e[0].X), mm(e[0].Y)), at(mm(e[1].X), mm(e[1].Y)))
	}
	for _, e := range t.Lines {
		line(draw.Centre, at(mm(e[0].X), mm(e[0].Y)), at(mm(e[1].X), mm(e[1].Y)))
	}
	for _, h := range t.Holes {
		c, r := at(mm(h.X), mm(h.Y)), mm(h.Dia)/2
		if window.Inset(-r).Has(draw.Rect{X: c.X, Y: c.Y}) {
			in.hole(s, window, line, c, r)
		}
		if r > 8 {
			in.label(s, window, c, h.Dia)
		}
	}
}

// hole draws a circle, whole or what the window shows of it, and the cross of its centre.
func (in *Input) hole(s *draw.Sheet, window draw.Rect, line func(draw.Line, draw.Point, draw.Point), c draw.Point, r float64) {
	if window.Has(draw.Rect{X: c.X - r, Y: c.Y - r, W: 2 * r, H: 2 * r}) {
		s.Circle(draw.Narrow, c, r)
	} else {
		const n = 180 // flatter than a line is wide up to 200 mm
		for i := range n {
			a, b := 2*math.Pi*float64(i)/n, 2*math.Pi*float64(i+1)/n
			line(draw.Narrow, c.Add(draw.Pt(r*math.Cos(a), r*math.Sin(a))), c.Add(draw.Pt(r*math.Cos(b), r*math.Sin(b))))
		}
	}
	k := max(4, min(r/2, 6))
	if r < 3 {
		k = r + 2
	}
	line(draw.Fine, c.Add(draw.Pt(-k, 0)), c.Add(draw.Pt(k, 0)))
	line(draw.Fine, c.Add(draw.Pt(0, -k)), c.Add(draw.Pt(0, k)))
}

// label writes a large hole's diameter in it.
func (in *Input) label(s *draw.Sheet, window draw.Rect, c draw.Point, dia l) {
	t := draw.Text{At: c.Add(draw.Pt(0, 11)), Text: dia.Bit(in.Print), Size: draw.LeastCap, Align: draw.Middle}
	if mm(dia)/2 < 14 {
		return
	}
	if window.Has(t.Box()) {
		s.Text(t.At, t.Size, t.Text, t.Align)
	}
}

// clip gives what of a line lies in a rectangle.
func clip(r draw.Rect, a, b draw.Point) (draw.Point, draw.Point, bool) {
	t0, t1 := 0.0, 1.0
	d := b.Sub(a)
	for _, e := range [][2]float64{{-d.X, a.X - r.X}, {d.X, r.Right() - a.X}, {-d.Y, a.Y - r.Y}, {d.Y, r.Bottom() - a.Y}} {
		p, q := e[0], e[1]
		switch {
		case p == 0:
			if q < -1e-9 {
				return a, b, false
			}
		case p < 0:
			t0 = max(t0, q/p)
		default:
			t1 = min(t1, q/p)
		}
	}
	if t0 > t1 {
		return a, b, false
	}
	return a.Add(d.Times(t0)), a.Add(d.Times(t1)), true
}
