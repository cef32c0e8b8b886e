// Package draw is a sheet of paper: lines, filled and hatched areas, text, links, and the
// larger things that drawings are set from: dimensions, marks on leaders, tables, flowing
// text, frame and title block. It knows nothing of cases or parts.
//
// Everything is in millimetres on paper, x to the right and y down from the sheet's top
// left corner. Paper is not geometry: sizes here are float64, and encoders round them to
// 1/100 mm. A Sheet holds only four kinds of item (Path, Text, Link, Anchor); all else is
// lowered to them here, so that every encoder shows the same.
package draw

import (
	"fmt"
	"math"
	"slices"

	"stowright/internal/draw/font"
)

// Point is a place on the sheet.
type Point struct{ X, Y float64 }

// Pt makes a Point.
func Pt(x, y float64) Point { return Point{x, y} }

// Add gives p+q.
func (p Point) Add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Sub gives p-q.
func (p Point) Sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// Times gives p scaled by k.
func (p Point) Times(k float64) Point { return Point{p.X * k, p.Y * k} }

// Len is the distance of p from the origin.
func (p Point) Len() float64 { return math.Sqrt(p.X*p.X + p.Y*p.Y) }

// Rect is an upright rectangle: X, Y its top left corner.
type Rect struct{ X, Y, W, H float64 }

// Right and Bottom are the far edges.
func (r Rect) Right() float64  { return r.X + r.W }
func (r Rect) Bottom() float64 { return r.Y + r.H }

// Mid is the centre.
func (r Rect) Mid() Point { return Point{r.X + r.W/2, r.Y + r.H/2} }

// Inset moves every edge inwards by d (outwards when d is negative).
func (r Rect) Inset(d float64) Rect { return Rect{r.X + d, r.Y + d, r.W - 2*d, r.H - 2*d} }

// Shift moves r.
func (r Rect) Shift(d Point) Rect { return Rect{r.X + d.X, r.Y + d.Y, r.W, r.H} }

// Meets tells whether the insides of r and q share a point.
func (r Rect) Meets(q Rect) bool {
	return r.X < q.Right() && q.X < r.Right() && r.Y < q.Bottom() && q.Y < r.Bottom()
}

// Has tells whether q lies in r.
func (r Rect) Has(q Rect) bool {
	const slack = 1e-6
	return q.X >= r.X-slack && q.Y >= r.Y-slack && q.Right() <= r.Right()+slack && q.Bottom() <= r.Bottom()+slack
}

// Or gives the smallest rectangle around both; one without area counts for nothing.
func (r Rect) Or(q Rect) Rect {
	if r.W == 0 && r.H == 0 {
		return q
	}
	if q.W == 0 && q.H == 0 {
		return r
	}
	x, y := min(r.X, q.X), min(r.Y, q.Y)
	return Rect{x, y, max(r.Right(), q.Right()) - x, max(r.Bottom(), q.Bottom()) - y}
}

// Line is a kind of line, named by what it means; widths and dashes after ISO 128-2.
type Line uint8

// The kinds of line. Wide to narrow is 2:1, as ISO 128 asks.
const (
	NoLine  Line = iota
	Visible      // visible edge: continuous wide, 0.5
	Edge         // visible edge in a small or dense view: continuous, 0.35
	Narrow       // dimension, extension and leader lines: continuous narrow, 0.25
	Fine         // hatching, grain, light detail: continuous, 0.18
	Hidden       // hidden edge: dashed narrow, 0.25
	Centre       // centre line, axis: long-dash dot narrow, 0.25
	Ghost        // neighbour, swing, place of a moving part: long-dash double-dot narrow, 0.25
	Section      // cutting plane: long-dash dot wide, 0.5
	Outline      // cut outline, frame of the sheet, ground: continuous, 0.7
	Rule         // rules of tables: continuous, 0.18
)

// Width is the line's width in mm.
func (l Line) Width() float64 {
	switch l {
	case Visible, Section:
		return 0.5
	case Edge:
		return 0.35
	case Narrow, Hidden, Centre, Ghost:
		return 0.25
	case Fine, Rule:
		return 0.18
	case Outline:
		return 0.7
	}
	return 0
}

// Dashes are the lengths of strokes and gaps in mm, none for a continuous line.
func (l Line) Dashes() []float64 {
	switch l {
	case Hidden:
		return []float64{2.4, 0.9}
	case Centre:
		return []float64{6, 0.9, 0.4, 0.9}
	case Ghost:
		return []float64{6, 0.8, 0.4, 0.8, 0.4, 0.8}
	case Section:
		return []float64{9, 1.6, 0.6, 1.6}
	}
	return nil
}

// Ink is a colour. There are few, and only Accent is not grey.
type Ink uint8

// The inks. Accent draws the eye to what needs attention and is never the only sign of it.
const (
	Black  Ink = iota
	Dark       // grey that still prints as ink, for captions and lesser lines
	Light      // light grey for rules between rows
	Tint       // the faintest grey, for areas under text
	Shade      // a pale grey, for sides in shade
	White      // covers what lies beneath
	Accent     // a dark red, near black in greyscale
)

// RGB gives the ink's colour.
func (k Ink) RGB() (r, g, b uint8) {
	switch k {
	case Dark:
		return 0x44, 0x44, 0x44
	case Light:
		return 0xB4, 0xB4, 0xB4
	case Tint:
		return 0xEE, 0xEE, 0xEE
	case Shade:
		return 0xD6, 0xD6, 0xD6
	case White:
		return 0xFF, 0xFF, 0xFF
	case Accent:
		return 0xA8, 0x1C, 0x12
	}
	return 0, 0, 0
}

// Item is one thing on a sheet: *Path, *Text, *Link or *Anchor.
type Item interface{ item() }

// Op is one step of a path.
type Op uint8

// The steps: Move and Go take one point, Curve (cubic) takes three, Close none.
const (
	Move Op = iota
	Go
	Curve
	Close
)

// Step is an Op with its points.
type Step struct {
	Op Op
	P  [3]Point
}

// Path is lines, curves, areas. Areas are filled by the even-odd rule.
type Path struct {
	Steps  []Step
	Line   Line // NoLine: not stroked
	Ink    Ink  // of the line
	Filled bool
	Fill   Ink
	Layer  string
}

// Align is where a text's place lies in it.
type Align uint8

// The places: the start, the middle or the end of the baseline.
const (
	Start Align = iota
	Middle
	End
)

// LeastCap is the least height of a capital that a print can be read at.
const LeastCap = 2.5

// Text is one line of text. Size is the height of a capital in mm, at least LeastCap.
type Text struct {
	At    Point // on the baseline
	Text  string
	Size  float64
	Align Align
	Up    bool // reads upwards, from the right of the sheet
	Bold  bool
	Ink   Ink
	Layer string
}

// Width is the text's advance in mm.
func (t *Text) Width() float64 { return font.Width(t.Text, t.Bold, t.Size) }

// Box is the rectangle that the letters keep to: from the foot of a p to the head of an l.
func (t *Text) Box() Rect {
	w := t.Width()
	back := 0.0
	switch t.Align {
	case Middle:
		back = w / 2
	case End:
		back = w
	}
	up, down := t.Size*font.Rise, t.Size*font.Drop
	if t.Up {
		return Rect{t.At.X - up, t.At.Y + back - w, up + down, w}
	}
	return Rect{t.At.X - back, t.At.Y - up, w, up + down}
}

// Meets tells whether the insides of the text's box and of r share a point. How wide the text is, is asked only where r is no
// higher and no lower than it.
func (t *Text) Meets(r Rect) bool {
	up, down := t.Size*font.Rise, t.Size*font.Drop
	at, from, to := t.At.Y, r.Y, r.Bottom()
	if t.Up {
		at, from, to = t.At.X, r.X, r.Right()
	}
	at -= up
	return at < to && from < at+(up+down) && t.Box().Meets(r)
}

// Start of the baseline, for encoders.
func (t *Text) Origin() Point {
	back := 0.0
	switch t.Align {
	case Middle:
		back = t.Width() / 2
	case End:
		back = t.Width()
	}
	if t.Up {
		return Point{t.At.X, t.At.Y + back}
	}
	return Point{t.At.X - back, t.At.Y}
}

// Link is an area that leads to an anchor of the document, or to an address on the web.
type Link struct {
	Area Rect
	To   string // name of an anchor
	URL  string
}

// Anchor is a place that links and bookmarks lead to. Names are unique in a document.
type Anchor struct {
	Name string
	At   Point
}

func (*Path) item()   {}
func (*Text) item()   {}
func (*Link) item()   {}
func (*Anchor) item() {}

// Moved gives an item as it is, further to the right and down by d.
func Moved(it Item, d Point) Item {
	switch x := it.(type) {
	case *Path:
		q := *x
		q.Steps = slices.Clone(x.Steps)
		for i := range q.Steps {
			for k := range [...]int{Move: 1, Go: 1, Curve: 3, Close: 0}[q.Steps[i].Op] {
				q.Steps[i].P[k] = q.Steps[i].P[k].Add(d)
			}
		}
		return &q
	case *Text:
		q := *x
		q.At = q.At.Add(d)
		return &q
	case *Link:
		q := *x
		q.Area = q.Area.Shift(d)
		return &q
	case *Anchor:
		q := *x
		q.At = q.At.Add(d)
		return &q
	}
	return it
}

// Sheet is one page.
type Sheet struct {
	W, H  float64 // mm
	Items []Item
	Layer string // the layer that new items go on; may be changed between calls

	// Say is the language of the paper. What the sheet says of its own goes through it, and so do the texts that are handed to
	// a Flow, before they are broken into lines.
	Say Language
}

// Language puts a text into the language of the paper; nil leaves it as it is.
type Language func(string) string

// Of gives a text in that language.
func (l Language) Of(text string) string {
	if l == nil {
		return text
	}
	return l(text)
}

// Said gives a text in the language of the sheet.
func (s *Sheet) Said(text string) string { return s.Say.Of(text) }

// Add puts items on the sheet as they are.
func (s *Sheet) Add(items ...Item) { s.Items = append(s.Items, items...) }

// Bookmark is one line of the document's contents: Level 0 is the outermost.
type Bookmark struct {
	Title string
	Level int
	To    string // name of an anchor
}

// Attachment is a file carried inside the document.
type Attachment struct {
	Name, About string
	Data        []byte
}

// Document is sheets in order. Date is "2006-01-02" or empty; it is the only date that
// encoders write.
type Document struct {
	Title       string
	Subject     string
	Author      string
	Lang        string // "en", "de"
	Date        string
	Pages       []Sheet
	Bookmarks   []Bookmark
	Attachments []Attachment
}

// Faults lists what is wrong with the document as paper, empty when nothing is: sizes that
// are not numbers, text too small to read or off the sheet, letters that no face has, links
// and bookmarks that lead nowhere, anchors named twice.
func (d *Document) Faults() []string {
	var out []string
	say := func(page int, f string, a ...any) {
		out = append(out, fmt.Sprintf("sheet %d: ", page+1)+fmt.Sprintf(f, a...))
	}
	anchors := map[string]bool{}
	for i := range d.Pages {
		for _, it := range d.Pages[i].Items {
			if a, ok := it.(*Anchor); ok {
				if anchors[a.Name] {
					say(i, "anchor %q is named twice", a.Name)
				}
				anchors[a.Name] = true
			}
		}
	}
	for i := range d.Pages {
		s := &d.Pages[i]
		paper := Rect{0, 0, s.W, s.H}
		if !number(s.W, s.H) || s.W <= 0 || s.H <= 0 {
			say(i, "the paper is %v by %v mm", s.W, s.H)
			continue
		}
		for _, it := range s.Items {
			switch v := it.(type) {
			case *Path:
				for _, st := range v.Steps {
					for _, p := range st.P {
						if !number(p.X, p.Y) {
							say(i, "a path has a point that is no number")
						}
					}
				}
			case *Text:
				switch {
				case !number(v.At.X, v.At.Y, v.Size):
					say(i, "text %q stands at no number", v.Text)
				case v.Size < LeastCap-1e-9:
					say(i, "text %q is %.2f mm high, least is %.1f", v.Text, v.Size, LeastCap)
				case !paper.Has(v.Box()):
					say(i, "text %q runs off the sheet", v.Text)
				}
				for _, r := range font.Clean(v.Text) {
					if r == font.Replacement {
						say(i, "text %q has a letter that no face has", v.Text)
						break
					}
				}
			case *Link:
				if v.To != "" && !anchors[v.To] {
					say(i, "a link leads to %q, which is nowhere", v.To)
				}
				if !number(v.Area.X, v.Area.Y, v.Area.W, v.Area.H) {
					say(i, "a link's area is no number")
				}
			case *Anchor:
				if !number(v.At.X, v.At.Y) {
					say(i, "anchor %q stands at no number", v.Name)
				}
			}
		}
	}
	for _, b := range d.Bookmarks {
		if !anchors[b.To] {
			out = append(out, fmt.Sprintf("bookmark %q leads to %q, which is nowhere", b.Title, b.To))
		}
	}
	return out
}

// number tells whether all of v are finite.
func number(v ...float64) bool {
	for _, f := range v {
		if math.IsNaN(f) || math.IsInf(f, 0) {
			return false
		}
	}
	return true
}

// Round gives v to 1/100 mm, never negative zero.
func Round(v float64) float64 { return math.Round(v*100)/100 + 0 }
