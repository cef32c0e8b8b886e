package draw

import (
	"cmp"
	"math"
)

// The setting of running text in mm: capitals, and from line to line.
const (
	BodyCap   = LeastCap
	BodyLine  = 4.0
	paraAfter = 1.1   // below a paragraph
	measure   = 135.0 // lines longer than this are hard to follow
)

// Flow sets headings, paragraphs, lists, tables and drawings one under the other over as
// many sheets as they need.
type Flow struct {
	// Page makes the next sheet, n counting from 0, and says what area of it is free.
	Page func(n int) (*Sheet, Rect)

	// Say is the language of the paper.
	Say Language

	// Wide lets running text take the whole width instead of a measure that is easy to follow.
	Wide bool

	// Lead is from line to line of running text and in tables, in mm; 0 is BodyLine.
	Lead float64

	sheets []*Sheet
	area   Rect
	y      float64
	follow float64 // room that the last lines of the next paragraph leave for what stays with them
}

// Sheets gives the sheets filled so far.
func (f *Flow) Sheets() []*Sheet { return f.sheets }

// Break ends the sheet; the next thing set begins a new one.
func (f *Flow) Break() { f.area = Rect{} }

// Used is the share of the open sheet's height that is used, 0 before the first.
func (f *Flow) Used() float64 {
	if f.area.H == 0 {
		return 0
	}
	return min(1, (f.y-f.area.Y)/f.area.H)
}

// lead is from line to line.
func (f *Flow) lead() float64 { return cmp.Or(f.Lead, BodyLine) }

// air is the share that is left of what lies between paragraphs and about headings, where lines are closer.
func (f *Flow) air() float64 { return min(1, f.lead()-BodyLine+1) }

// Left is the height still free on the sheet, 0 before the first.
func (f *Flow) Left() float64 { return max(0, f.area.Bottom()-f.y) }

// Width is the width of the free area; it opens the first sheet if none is open.
func (f *Flow) Width() float64 {
	f.open()
	return f.area.W
}

// Height is the height of the free area; it opens the first sheet if none is open.
func (f *Flow) Height() float64 {
	f.open()
	return f.area.H
}

// open opens a sheet when none is open, but not because the one that is has no room left.
func (f *Flow) open() {
	if f.area.H == 0 {
		f.need(0)
	}
}

// Measure gives the height that what set sets takes in the flow's width, when no sheet ends in
// it and something stands above.
func (f *Flow) Measure(set func(*Flow)) float64 { return f.MeasureIn(f.Width(), set) }

// MeasureIn is Measure in a width.
func (f *Flow) MeasureIn(w float64, set func(*Flow)) float64 {
	try := Flow{Wide: f.Wide, Lead: f.Lead, Say: f.Say, Page: func(int) (*Sheet, Rect) { return &Sheet{}, Rect{W: w, H: math.MaxInt32} }}
	try.need(0)
	try.y = 1
	set(&try)
	return try.y - 1
}

// Top tells whether nothing stands on the sheet yet.
func (f *Flow) Top() bool { return f.area.H == 0 || f.y == f.area.Y }

// need opens a sheet when less than h is free.
func (f *Flow) need(h float64) *Sheet {
	if f.area.H == 0 || (f.y+h > f.area.Bottom()+1e-6 && f.y > f.area.Y) {
		s, area := f.Page(len(f.sheets))
		f.sheets = append(f.sheets, s)
		f.area, f.y = area, area.Y
	}
	return f.sheets[len(f.sheets)-1]
}

// Space leaves h free, but not at the head of a sheet.
func (f *Flow) Space(h float64) {
	if !f.Top() {
		f.y += h
	}
}

// Heading sets a heading of level 1 to 3 and keeps it with what follows. A name makes it an
// anchor.
func (f *Flow) Heading(level int, text, name string) {
	size, before, after := 4.2, 5.0, 2.4
	switch level {
	case 2:
		size, before, after = 3.2, 4.5, 1.8
	case 3:
		size, before, after = BodyCap, 3.5, 1.2
	}
	lines := Wrap(f.Say.Of(text), size, true, f.Width())
	before, after = before*f.air(), after*f.air()
	f.Space(before)
	h := float64(len(lines)) * size * 1.75
	s := f.need(h + after + 7.5*BodyLine)
	if name != "" {
		s.Anchor(name, Pt(f.area.X, f.y))
	}
	for _, l := range lines {
		f.y += size * 1.35
		s.Text(Pt(f.area.X, f.y), size, l, Start).Bold = true
		f.y += size * 0.4
	}
	if level == 1 {
		f.y += 1.2
		s.Poly(Edge, Pt(f.area.X, f.y), Pt(f.area.Right(), f.y))
	}
	f.y += after
}

// Para sets a paragraph; a line of it may stand alone on a sheet only if it is all there is.
func (f *Flow) Para(text string) { f.para(0, text, "", false, Black) }

// Strong sets a paragraph in bold; alarm puts a bar in the accent ink beside it.
func (f *Flow) Strong(text string, alarm bool) {
	ink := Black
	if alarm {
		ink = Accent
	}
	f.para(0, text, "", true, ink)
}

// Item sets a paragraph behind a marker ("1", "–"); an empty marker draws a box to tick.
func (f *Flow) Item(marker, text string) {
	if marker == "" {
		marker = "\x00"
	}
	f.para(7, text, marker, false, Black)
}

// Point sets a line of its own under an item.
func (f *Flow) Point(text string) {
	f.y -= 0.9 * f.air()
	f.para(12, text, "–", false, Black)
}

// With keeps the last lines of the next paragraph on one sheet with as much of what follows it as h is high.
func (f *Flow) With(h float64) { f.follow = h }

func (f *Flow) para(indent float64, text, marker string, bold bool, ink Ink) {
	if ink == Accent {
		indent += 4
	}
	wide := min(f.Width(), measure)
	if f.Wide {
		wide = f.Width()
	}
	lines := Wrap(f.Say.Of(text), BodyCap, bold, wide-indent)
	pitch, after := f.lead(), paraAfter*f.air()
	if marker == "\x00" { // what is ticked stands clear of what is above it, however close lines are
		f.Space(BodyLine + paraAfter - pitch - after)
	}
	follow := 0.0
	if f.follow > 0 {
		follow = after + f.follow
	}
	f.follow = 0
	for i, l := range lines {
		keep := pitch
		switch n := len(lines) - i; {
		case i == 0 && n <= 3 || n == 2: // two lines at least on either sheet, so three stay together
			keep = float64(n)*pitch + follow
		case i == 0:
			keep = 2 * pitch
		}
		s := f.need(keep)
		base := f.y + pitch - 1.2
		if i == 0 && marker == "\x00" {
			s.Checkbox(Pt(f.area.X+0.5, base+0.3), 3.2)
		} else if i == 0 && marker != "" {
			s.Text(Pt(f.area.X+indent-2.2, base), BodyCap, marker, End).Bold = true
		}
		if ink == Accent {
			s.Area(Accent, Rect{f.area.X + 0.5, f.y, 1, pitch}.Corners()...)
		}
		s.Text(Pt(f.area.X+indent, base), BodyCap, l, Start).Bold = bold
		f.y += pitch
	}
	f.y += after
}

// Block keeps h free over the whole width and hands it to draw.
func (f *Flow) Block(h float64, draw func(s *Sheet, r Rect)) {
	s := f.need(h)
	r := Rect{f.area.X, f.y, f.area.W, h}
	f.y += h
	draw(s, r)
}
