package packet

import (
	"fmt"

	"stowright/internal/cutlist"
	"stowright/internal/draw"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/view"
)

// page is one sheet with what its title block will say once the number of sheets is known.
type page struct {
	sheet *draw.Sheet
	block draw.TitleBlock
	full  bool // the whole title block, not the strip of one row
}

// entry is one line of the contents.
type entry struct {
	level int
	title string
	to    string
	page  int // index
}

// book is the set while it is written.
type book struct {
	Input
	pages     []page
	entries   []entry
	bookmarks []draw.Bookmark
	part      map[string]part.Part
	group     map[string]string // mark -> id of its group
	groups    []cutlist.Group
	drawn     map[string]bool // groups that have a drawing of their own
	flowFrom  map[*draw.Flow]int
}

func newBook(in Input) *book {
	b := &book{Input: in, part: map[string]part.Part{}, group: map[string]string{}, drawn: map[string]bool{}, flowFrom: map[*draw.Flow]int{}}
	for _, p := range in.Assembly.Parts {
		b.part[p.Mark] = p
	}
	b.groups = cutlist.Groups(in.Assembly.Parts)
	for _, g := range b.groups {
		for _, m := range g.Marks {
			b.group[m] = g.ID
		}
	}
	return b
}

// block gives a title block.
func (b *book) block(title, kind string) draw.TitleBlock {
	t := draw.TitleBlock{Owner: b.Author, Number: b.Job, Date: b.Date, Lang: "en", Title: title, Subtitle: b.Job, Creator: "Stowright", DocType: kind, Unit: "mm"}
	if b.Print == length.Inches {
		t.Unit = "inches"
	}
	t.Number = ""
	if b.OnlyOwner != "" {
		t.Number = b.OnlyOwner
	}
	if b.Stage != "" {
		t.Number = "stage " + b.Stage
	}
	if b.Blocked {
		t.Status, t.Alarm = Warning, true
	}
	return t
}

// drawing opens a sheet with the whole title block.
func (b *book) drawing(title, kind string, lying bool) (*draw.Sheet, draw.Rect, *draw.TitleBlock) {
	s := b.Paper.Sheet(lying)
	free, _ := s.FreeFrame()
	b.pages = append(b.pages, page{s, b.block(title, kind), true})
	return s, b.warn(s, free), &b.pages[len(b.pages)-1].block
}

// text opens a flow on sheets with the title block of one row. Its pages join the set as they
// are made.
func (b *book) text(title, kind string) *draw.Flow {
	f := &draw.Flow{}
	f.Page = func(int) (*draw.Sheet, draw.Rect) {
		s := b.Paper.Sheet(false)
		b.pages = append(b.pages, page{s, b.block(title, kind), false})
		return s, b.warn(s, s.FreeStrip())
	}
	return f
}

// warn says at the head of a sheet that the job must not be built, when that is so, and gives
// what is left of the free area.
func (b *book) warn(s *draw.Sheet, r draw.Rect) draw.Rect {
	if !b.Blocked {
		return r
	}
	const h = 7.0
	bar := draw.Rect{X: r.X, Y: r.Y, W: r.W, H: h}
	s.Rect(draw.Edge, bar).Ink = draw.Accent
	t := s.Text(draw.Pt(bar.X+bar.W/2, bar.Y+h-2.2), 3, Warning+": see the findings", draw.Middle)
	t.Bold, t.Ink = true, draw.Accent
	s.Link(bar, "findings")
	return draw.Rect{X: r.X, Y: r.Y + h + 3, W: r.W, H: r.H - h - 3}
}

// enter notes a line of the contents and a bookmark that lead to the newest page, and names
// the place unless it is named already.
func (b *book) enter(level int, title, name string, anchor bool) {
	i := len(b.pages) - 1
	if anchor {
		b.pages[i].sheet.Anchor(name, draw.Pt(20, 10))
	}
	b.entries = append(b.entries, entry{level, title, name, i})
	b.bookmarks = append(b.bookmarks, draw.Bookmark{Title: title, Level: level, To: name})
}

// chapter starts a text chapter with its heading.
func (b *book) chapter(level int, title, kind, name string) *draw.Flow {
	f := b.text(title, kind)
	f.Heading(1, title, name)
	b.enter(level, title, name, false)
	return f
}

// contents sets the list of what is where after the summary, and moves the pages behind it.
func (b *book) contents(after int) {
	rest := append([]page{}, b.pages[after:]...)
	b.pages = b.pages[:after]
	n := 1
	for { // page numbers depend on how many pages the contents take
		b.pages = b.pages[:after]
		f := b.text("Contents", "Contents")
		f.Heading(1, "Contents", "contents")
		t := draw.Table{Columns: []draw.Column{{Head: "", Grow: true}, {Head: "sheet", Align: draw.End}}}
		for _, e := range b.entries {
			p := e.page + 1
			if e.page >= after {
				p += n
			}
			title := e.title
			if e.level > 0 {
				title = "    " + title
			}
			t.Rows = append(t.Rows, draw.Row{Cells: []draw.Cell{{Text: title, Bold: e.level == 0, Link: e.to}, {Text: fmt.Sprint(p), Link: e.to}}})
		}
		f.Table(t)
		if got := len(b.pages) - after; got != n {
			n = got
			continue
		}
		break
	}
	at := 0
	for at < len(b.entries) && b.entries[at].page < after {
		at++
	}
	marks := append([]draw.Bookmark{}, b.bookmarks[:at]...)
	marks = append(marks, draw.Bookmark{Title: "Contents", To: "contents"})
	b.bookmarks = append(marks, b.bookmarks[at:]...)
	b.pages = append(b.pages, rest...)
}

// toPart gives the anchor of a mark's row in its owner's table of parts.
func (b *book) toPart(mark string) string { return "part " + mark }

// toOwner gives the anchor of an owner's chapter.
func toOwner(id string) string { return "owner " + id }

// scene gives the scene of a wall.
func (b *book) scene(w *view.Wall) view.Scene {
	return view.Scene{Wall: w, Assembly: &b.Assembly, Unit: b.Print}
}
