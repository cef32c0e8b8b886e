package view

import (
	"stowright/internal/draw"
	"stowright/internal/length"
)

// Figure is one drawing to scale: a rectangle of a plane of the model, how it is painted and
// what is measured on it.
type Figure struct {
	Title  string
	X0, Z0 L // lower left corner of the rectangle
	X1, Z1 L
	Paint  func(s *draw.Sheet, v draw.View)
	Dims   func(d *draw.Dims, v draw.View) // nil for none
	Pad    [4]float64                      // mm more on paper: left, above, right, below
	Notes  []string                        // lines under the title, in columns where there is room

	round map[draw.Scale][4]float64 // what margins found, see Keep
}

// Keep has what stands round the figure measured once at each scale, for it and all its copies: for a figure that is tried
// in several rows.
func (f *Figure) Keep() { f.round = map[draw.Scale][4]float64{} }

const (
	titleRoom = 6.2
	noteRoom  = 4.4 // for a line of notes
	gutter    = 6.0
)

// Scales from which figures are set: those of ISO 5455 and, so that paper is used well,
// 1:15, 1:25, 1:30 and 1:40 between them; or those that an inch rule reads.
func Scales(u Units) []draw.Scale {
	if u.Unit == length.Inches {
		return draw.Scales(true)
	}
	return []draw.Scale{{Paper: 1, Real: 1}, {Paper: 1, Real: 2}, {Paper: 1, Real: 5}, {Paper: 1, Real: 10}, {Paper: 1, Real: 15}, {Paper: 1, Real: 20}, {Paper: 1, Real: 25}, {Paper: 1, Real: 30}, {Paper: 1, Real: 40}, {Paper: 1, Real: 50}, {Paper: 1, Real: 100}, {Paper: 1, Real: 200}}
}

// margins tells how much paper a figure needs beside its rectangle: left, above, right, below.
func (f *Figure) margins(c draw.Scale) [4]float64 {
	if m, ok := f.round[c]; ok {
		return m
	}
	m := f.Pad
	if f.Dims != nil {
		v := draw.View{Scale: c}
		r := v.Rect(f.X0, f.Z0, f.X1, f.Z1)
		d := draw.Dims{View: r}
		f.Dims(&d, v) // may widen d.View by what is folded out beside it
		var scratch draw.Sheet
		b := d.Draw(&scratch)
		m = [4]float64{r.X - b.X + f.Pad[0], r.Y - b.Y + f.Pad[1], b.Right() - r.Right() + f.Pad[2], b.Bottom() - r.Bottom() + f.Pad[3]}
	}
	if f.round != nil {
		f.round[c] = m
	}
	return m
}

// box is a figure measured at a scale.
type box struct {
	f                         *Figure
	left, above, right, below float64
	w, h                      float64 // of the rectangle
	room                      float64 // of a figure that has a row for itself, which its notes may take
}

// measured measures a figure.
func measured(f *Figure, c draw.Scale) box {
	m := f.margins(c)
	return box{f: f, left: m[0], above: m[1], right: m[2], below: m[3], w: c.MM(f.X1 - f.X0), h: c.MM(f.Z1 - f.Z0)}
}

func (b box) wide() float64 {
	t := draw.Text{Text: b.f.Title, Size: draw.BodyCap, Bold: true}
	return max(b.left+b.w+b.right, t.Width(), b.f.noteWide())
}

func (b box) high() float64 { return b.above + b.h + b.below + b.head() }

// head is the room that a figure's title and notes take below it.
func (b box) head() float64 {
	if b.f.Title == "" {
		return 0
	}
	cols := b.noteColumns()
	return titleRoom + noteRoom*float64((len(b.f.Notes)+cols-1)/cols)
}

// noteWide is the width of a figure's longest note.
func (f *Figure) noteWide() (wide float64) {
	for _, n := range f.Notes {
		t := draw.Text{Text: n, Size: draw.BodyCap}
		wide = max(wide, t.Width())
	}
	return wide
}

// noteColumns is how many columns of notes stand under a figure.
func (b box) noteColumns() int {
	if n := b.f.noteWide(); n > 0 {
		return max(1, min(len(b.f.Notes), int((max(b.wide(), b.room)+gutter)/(n+gutter))))
	}
	return 1
}

// Set lays rows of figures in r at the largest scale at which all fit, no larger than most,
// draws them and says the scale and how far down they reach.
func Set(s *draw.Sheet, r draw.Rect, u Units, most draw.Scale, rows ...[]Figure) (draw.Scale, float64) {
	return set(s, r, u, most, 12, rows)
}

// Pack is Set without air between the rows, for drawings that share a sheet with others.
func Pack(s *draw.Sheet, r draw.Rect, u Units, most draw.Scale, rows ...[]Figure) (draw.Scale, float64) {
	return set(s, r, u, most, 0, rows)
}

// Put draws one figure at a scale with its upper left corner at a place, however large it is, and gives
// the width and height that it takes.
func Put(s *draw.Sheet, at draw.Point, c draw.Scale, f Figure) (wide, high float64) {
	b := measured(&f, c)
	lay(s, draw.Rect{X: at.X, Y: at.Y, W: b.wide(), H: b.high()}, c, 0, [][]box{{b}})
	return b.wide(), b.high()
}

// Fit tells at which scale Pack would draw rows of figures in r and how high they would be, without
// drawing them; no scale when they are too large for r at every one.
func Fit(r draw.Rect, u Units, most draw.Scale, rows ...[]Figure) (draw.Scale, float64) {
	c, grid, ok := fitting(r, u, most, rows)
	if !ok {
		c = draw.Scale{}
	}
	high := 0.0
	for _, line := range grid {
		above, below, head := 0.0, 0.0, 0.0
		for _, b := range line {
			above, below, head = max(above, b.above+b.h), max(below, b.below), max(head, b.head())
		}
		high += above + below + head
	}
	return c, high
}

func set(s *draw.Sheet, r draw.Rect, u Units, most draw.Scale, air float64, rows [][]Figure) (draw.Scale, float64) {
	c, grid, _ := fitting(r, u, most, rows)
	if grid == nil {
		return c, r.Y
	}
	return c, lay(s, r, c, air, grid)
}

// fitting measures rows of figures at the largest scale at which all fit, or at the smallest when they
// do at none.
func fitting(r draw.Rect, u Units, most draw.Scale, rows [][]Figure) (c draw.Scale, grid [][]box, ok bool) {
	all := Scales(u)
	for i, c := range all {
		if c.Paper*most.Real > c.Real*most.Paper || i+1 < len(all) && outgrown(r, c, rows) {
			continue
		}
		var grid [][]box
		high := 0.0
		fits := true
		for _, row := range rows {
			var line []box
			wide, tall := 0.0, 0.0
			for k := range row {
				f := &row[k]
				b := measured(f, c)
				if len(row) == 1 {
					b.room = r.W
				}
				line = append(line, b)
				wide += b.wide()
				if k > 0 {
					wide += gutter
				}
				tall = max(tall, b.high())
			}
			grid = append(grid, line)
			high += tall
			fits = fits && wide <= r.W
		}
		if fits = fits && high <= r.H; fits || i+1 == len(all) {
			return c, grid, fits
		}
	}
	return draw.Scale{}, nil, false
}

// outgrown tells whether rows of figures are too large for r without what stands round them.
func outgrown(r draw.Rect, c draw.Scale, rows [][]Figure) bool {
	high := 0.0
	for _, row := range rows {
		wide, tall := 0.0, 0.0
		for k := range row {
			wide += c.MM(row[k].X1 - row[k].X0)
			tall = max(tall, c.MM(row[k].Z1-row[k].Z0))
		}
		if high += tall; wide > r.W || high > r.H {
			return true
		}
	}
	return false
}

// lay draws a measured grid: rows from the top, figures of a row spread evenly, standing on
// one line. Without a sheet nothing is drawn.
func lay(s *draw.Sheet, r draw.Rect, c draw.Scale, air float64, grid [][]box) float64 {
	spare := r.H
	for _, line := range grid {
		tall := 0.0
		for _, b := range line {
			tall = max(tall, b.high())
		}
		spare -= tall
	}
	between := min(air, max(0, spare/float64(len(grid)+1)))
	y := r.Y + between/2
	for _, line := range grid {
		wide, below, above := 0.0, 0.0, 0.0
		for _, b := range line {
			wide += b.wide()
			below, above = max(below, b.below), max(above, b.above+b.h)
		}
		step := max(0, (r.W-wide)/float64(len(line)+1))
		x := r.X + step
		foot := y + above // the figures' lower edges
		for _, b := range line {
			own := b.left + b.w + b.right
			left := x + (b.wide()-own)/2 + b.left
			v := draw.View{Scale: c}
			at := v.Rect(b.f.X0, b.f.Z0, b.f.X1, b.f.Z1)
			v.Zero = draw.Pt(left-at.X, foot-at.Bottom())
			b.f.Paint(s, v)
			if b.f.Dims != nil {
				d := draw.Dims{View: v.Rect(b.f.X0, b.f.Z0, b.f.X1, b.f.Z1)}
				b.f.Dims(&d, v)
				d.Draw(s)
			}
			if b.f.Title != "" {
				t := draw.Text{Text: b.f.Title, Size: draw.BodyCap, Bold: true}
				mid := left + b.w/2 // under what it names, as far as that keeps it in its own room
				mid = max(x+t.Width()/2, min(mid, x+b.wide()-t.Width()/2))
				s.Text(draw.Pt(mid, foot+below+titleRoom-3), draw.BodyCap, b.f.Title, draw.Middle).Bold = true
			}
			cols, each := b.noteColumns(), b.f.noteWide()
			high := (len(b.f.Notes) + cols - 1) / cols
			from := x + (b.wide()-float64(cols)*each-float64(cols-1)*gutter)/2
			for i, n := range b.f.Notes {
				s.Text(draw.Pt(from+float64(i/high)*(each+gutter), foot+below+titleRoom-2.4+noteRoom*float64(i%high+1)), draw.BodyCap, n, draw.Start)
			}
			x += b.wide() + step
		}
		head := 0.0
		for _, b := range line {
			head = max(head, b.head())
		}
		y = foot + below + head + between
	}
	return y
}
