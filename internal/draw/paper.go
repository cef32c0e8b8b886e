package draw

import (
	"cmp"
	"fmt"
	"strings"
)

// Paper is a size of paper, upright: W at most H.
type Paper struct {
	Name string
	W, H float64 // mm
}

// The papers: ISO 216 and ANSI/ASME Y14.1.
func A4() Paper      { return Paper{"A4", 210, 297} }
func A3() Paper      { return Paper{"A3", 297, 420} }
func Letter() Paper  { return Paper{"Letter", 215.9, 279.4} }
func Tabloid() Paper { return Paper{"Tabloid", 279.4, 431.8} }

// Sheet makes an empty sheet, upright or lying.
func (p Paper) Sheet(lying bool) *Sheet {
	if lying {
		return &Sheet{W: p.H, H: p.W}
	}
	return &Sheet{W: p.W, H: p.H}
}

// TitleBlock holds the fields of ISO 7200. Those that the standard requires are Owner,
// Number, Date, SheetNo, Title, Approver, Creator and DocType; the rest may be empty.
type TitleBlock struct {
	Owner    string // legal owner
	Number   string // identification number
	Part     string // what the set is of where it is not the whole; behind the number, and for it where there is little room
	Revision string
	Date     string // of issue
	SheetNo  int    // from 1
	Sheets   int    // how many there are; 0 leaves it off
	Lang     string
	Title    string
	Subtitle string // supplementary title
	Creator  string
	Approver string
	DocType  string // "Elevation", "Parts"
	Status   string // "Not to be built as it stands"
	Alarm    bool   // the status needs attention: bold, framed and in the accent ink
	Scale    string // "1:10"; ISO 7200 leaves it to the drawing area, makers look here
	Unit     string // "mm", "inches"
}

// The frame of ISO 5457: 20 mm on the filing edge at the left, 10 mm elsewhere.
const (
	filing     = 20.0
	margin     = 10.0
	blockWidth = 180.0
	blockRow   = 10.0
)

// field is one box of the block: its share of the width, its caption and what it says.
type field struct {
	w            float64
	caption, say string
	size         float64
	bold, alarm  bool
}

// FreeFrame gives the areas that Frame leaves: all above the title block, and the strip
// beside the block on sheets wide enough to have one.
func (s *Sheet) FreeFrame() (free, beside Rect) {
	frame := s.frame()
	free = Rect{frame.X, frame.Y, frame.W, frame.H - 3*blockRow}.Inset(4)
	if w := frame.W - blockWidth; w > 40 {
		beside = Rect{frame.X, frame.Bottom() - 3*blockRow, w, 3 * blockRow}.Inset(4)
	}
	return free, beside
}

// FreeStrip gives the area that Strip leaves.
func (s *Sheet) FreeStrip() Rect {
	f := s.frame()
	f.H -= blockRow
	return f.Inset(4)
}

func (s *Sheet) frame() Rect { return Rect{filing, margin, s.W - filing - margin, s.H - 2*margin} }

// Frame draws the frame and the whole title block (ISO 7200, 180 mm wide, lower right) and
// returns the areas left for drawing, as FreeFrame does.
func (s *Sheet) Frame(b TitleBlock) (free, beside Rect) {
	frame := s.frame()
	const row = blockRow
	rows := [][]field{
		{{58, "Owner", b.Owner, 2.5, false, false}, {88, b.DocType, b.Title, 3.5, true, false}, {34, "Number", strings.TrimSpace(b.Number + " " + b.Part), 2.5, true, false}},
		{{58, "Drawn by", b.Creator, 2.5, false, false}, {88, "", b.Subtitle, 2.5, false, false}, {17, "Scale", b.Scale, 2.5, true, false}, {17, "Sizes in", b.Unit, 2.5, false, false}},
		{{33, "Approved by", b.Approver, 2.5, false, false}, {23, "Date", b.Date, 2.5, false, false}, {74, "Status", b.Status, 2.5, b.Alarm, b.Alarm}, {14, "Rev.", b.Revision, 2.5, false, false}, {12, "Lang.", b.Lang, 2.5, false, false}, {24, "Sheet", sheetOf(b), 2.5, true, false}},
	}
	h := row * float64(len(rows))
	block := Rect{frame.Right() - blockWidth, frame.Bottom() - h, blockWidth, h}
	s.block(block, row, rows)
	s.border(frame)
	return s.FreeFrame()
}

// stripTitle is the width of the field of the title in a block of one row that is as wide as the whole one.
const stripTitle = 68.0

// StripTitle is the room for the title in the block that Strip draws.
func (s *Sheet) StripTitle() float64 { return stripTitle + s.frame().W - blockWidth - 2.4 }

// Strip draws the frame and a title block of one row, for sheets of text and tables, and
// returns the free area.
func (s *Sheet) Strip(b TitleBlock) Rect {
	frame := s.frame()
	const row = blockRow
	last := []field{{20, "Number", cmp.Or(b.Part, b.Number), 2.5, true, false}, {stripTitle, b.DocType, b.Title, 2.5, true, false}, {48, "Status", b.Status, 2.5, b.Alarm, b.Alarm}, {22, "Date", b.Date, 2.5, false, false}, {22, "Sheet", sheetOf(b), 2.5, true, false}}
	last[1].w += frame.W - blockWidth
	block := Rect{frame.X, frame.Bottom() - row, frame.W, row}
	s.block(block, row, [][]field{last})
	s.border(frame)
	return s.FreeStrip()
}

// border draws the frame and the centring marks of ISO 5457 at the middles of the trimmed sheet's edges, from where a
// border with zones would begin, 5 mm outside the frame. They end at the frame, where text begins.
func (s *Sheet) border(frame Rect) {
	const out = 5.0
	s.Rect(Outline, frame)
	x, y := s.W/2, s.H/2
	s.Poly(Outline, Pt(x, frame.Y-out), Pt(x, frame.Y))
	s.Poly(Outline, Pt(x, frame.Bottom()), Pt(x, frame.Bottom()+out))
	s.Poly(Outline, Pt(frame.X-out, y), Pt(frame.X, y))
	s.Poly(Outline, Pt(frame.Right(), y), Pt(frame.Right()+out, y))
}

func sheetOf(b TitleBlock) string {
	if b.SheetNo == 0 {
		return ""
	}
	if b.Sheets == 0 {
		return fmt.Sprint(b.SheetNo)
	}
	return fmt.Sprintf("%d of %d", b.SheetNo, b.Sheets)
}

func (s *Sheet) block(r Rect, row float64, rows [][]field) {
	s.Rect(Edge, r)
	for i, fields := range rows {
		y := r.Y + float64(i)*row
		if i > 0 {
			s.Poly(Narrow, Pt(r.X, y), Pt(r.Right(), y))
		}
		x := r.X
		for k, f := range fields {
			if k > 0 {
				s.Poly(Narrow, Pt(x, y), Pt(x, y+row))
			}
			f.caption, f.say = s.Said(f.caption), s.Said(f.say)
			t := s.Text(Pt(x+1.2, y+3.4), LeastCap, Fit(f.caption, LeastCap, false, f.w-2.4), Start)
			t.Ink = Dark
			t = s.Text(Pt(x+1.2, y+row-1.6), f.size, "", Start)
			t.Bold = f.bold
			t.Text = Fit(f.say, f.size, f.bold, f.w-2.4)
			if w := Fit(f.say, LeastCap, f.bold, f.w-2.4); t.Text != f.say && (w == f.say || len(w) > len(t.Text)) {
				t.Size, t.Text = LeastCap, w
			}
			if f.alarm && f.say != "" {
				t.Ink = Accent
				s.Rect(Edge, Rect{x, y, f.w, row}.Inset(0.5)).Ink = Accent
			}
			x += f.w
		}
	}
}

// Fit cuts text to a width, with a mark where something is left out.
func Fit(text string, size float64, bold bool, width float64) string {
	t := Text{Text: text, Size: size, Bold: bold}
	if t.Width() <= width {
		return text
	}
	runes := []rune(text)
	for n := len(runes) - 1; n > 0; n-- {
		t.Text = string(runes[:n]) + "…"
		if t.Width() <= width {
			return t.Text
		}
	}
	return ""
}
