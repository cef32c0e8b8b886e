package packet

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/cutlist"
	"stowright/internal/draw"
	"stowright/internal/draw/font"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/view"
)

// page is one sheet with what its title block will say once the number of sheets is known.
type page struct {
	sheet *draw.Sheet
	block draw.TitleBlock
	full  bool     // the whole title block, not the strip of one row
	also  []string // chapters that begin on it, behind the one that its block names
}

// entry is one line of the contents.
type entry struct {
	level int
	title string
	to    string
	page  int // index among the pages behind the summary and the contents
}

// book is the set while it is written. All text runs in one flow, so that short chapters share
// a sheet.
type book struct {
	Input
	pages       []page
	entries     []entry
	flow        *draw.Flow
	title, kind string // of the sheets that the flow opens
	part        map[string]part.Part
	near        map[string][]string // what joints hold to each board, by mark; found when it is first asked for
	around      part.Around
	group       map[string]int // mark -> index of its group
	groups      []cutlist.Group
	alone       map[string]int    // how many owners are built like the first of them, by its id
	first       map[string]string // owner -> the first owner that is built exactly alike
	drawn       map[int]bool      // groups that have a drawing already
	sources     []string          // of proofs and findings, numbered from 1
	runOn       bool              // the sources stand without a line for each
	told        map[string]string // what chapters say of edging -> the owner whose chapter says it
}

func newBook(in Input) *book {
	if in.Paper.W == 0 {
		in.Paper = draw.A4()
		if in.Print == length.Inches {
			in.Paper = draw.Letter()
		}
	}
	b := &book{Input: in, part: map[string]part.Part{}, around: part.About(in.Assembly.Parts), group: map[string]int{}, drawn: map[int]bool{}, told: map[string]string{}}
	for _, p := range in.Assembly.Parts {
		b.part[p.Mark] = p
	}
	b.groups = cutlist.Groups(in.Assembly.Parts)
	for i, g := range b.groups {
		for _, m := range g.Marks {
			b.group[m] = i
		}
	}
	b.open()
	b.twins()
	return b
}

// open begins a flow.
func (b *book) open() {
	b.flow = &draw.Flow{Wide: true, Say: b.Say}
	b.flow.Page = func(int) (*draw.Sheet, draw.Rect) {
		s := b.sheet(false)
		b.pages = append(b.pages, page{s, b.block(b.title, b.kind), false, nil})
		return s, b.warn(s, s.FreeStrip())
	}
}

// sheet gives an empty sheet.
func (b *book) sheet(lying bool) *draw.Sheet {
	s := b.Paper.Sheet(lying)
	s.Say = b.Say
	return s
}

// ready readies figures to be tried in several rows: what stands under them is put into the language of the paper, and what
// stands round them is measured once; some may be nil.
func (b *book) ready(figures ...*view.Figure) {
	for _, f := range figures {
		if f == nil {
			continue
		}
		f.Keep()
		f.Title, f.Notes = b.Say.Of(f.Title), slices.Clone(f.Notes)
		for i, n := range f.Notes {
			f.Notes[i] = b.Say.Of(n)
		}
	}
}

// block gives a title block.
func (b *book) block(title, kind string) draw.TitleBlock {
	t := draw.TitleBlock{Owner: b.Owner, Number: b.Number, Revision: b.Revision, Date: b.Date, Lang: b.lang(), Title: title, Subtitle: b.Job,
		Creator: cmp.Or(b.Author, "Stowright"), Approver: b.Approved, DocType: kind, Unit: b.units().String()}
	if b.OnlyOwner != "" {
		t.Part = b.OnlyOwner
	}
	if b.Stage != "" {
		t.Part = "stage " + b.Stage
	}
	if b.Blocked {
		t.Status, t.Alarm = Warning, true
	}
	return t
}

// drawing opens a sheet with the whole title block. What is written after it begins a new sheet.
func (b *book) drawing(title, kind string, lying bool) (*draw.Sheet, draw.Rect, *draw.TitleBlock) {
	b.flow.Break()
	s := b.sheet(lying)
	free, _ := s.FreeFrame()
	b.pages = append(b.pages, page{s, b.block(title, kind), true, nil})
	return s, b.warn(s, free), &b.pages[len(b.pages)-1].block
}

// warn says at the head of a sheet that the job must not be built, when that is so, and gives
// what is left of the free area.
func (b *book) warn(s *draw.Sheet, r draw.Rect) draw.Rect {
	if !b.Blocked {
		return r
	}
	const h = 6.0
	bar := draw.Rect{X: r.X, Y: r.Y - 1, W: r.W, H: h}
	s.Rect(draw.Edge, bar).Ink = draw.Accent
	t := s.Text(draw.Pt(bar.X+bar.W/2, bar.Y+h-1.8), 2.7, s.Said(Warning+": see the findings"), draw.Middle)
	t.Bold, t.Ink = true, draw.Accent
	s.Link(bar, "findings")
	return draw.Rect{X: r.X, Y: r.Y + h + 1, W: r.W, H: r.H - h - 1}
}

// enter notes a line of the contents, which is a bookmark too, and leads to the newest page;
// and names the place unless it is named already.
func (b *book) enter(level int, title, name string, anchor bool) {
	i := len(b.pages) - 1
	if anchor {
		b.pages[i].sheet.Anchor(name, draw.Pt(20, 10))
	}
	b.entries = append(b.entries, entry{level, title, name, i})
}

// chapter starts a chapter of text with its heading: on the sheet that is open when at least
// room is left on it, in mm, else on a new one.
func (b *book) chapter(level int, title, kind, name string, room float64) *draw.Flow {
	f := b.flow
	if f.Left() < room {
		f.Break()
	}
	fresh := f.Left() == 0
	b.title, b.kind = title, kind
	h := 1
	if level > 0 {
		h = 2
	}
	f.Heading(h, title, name)
	if fresh {
		b.enter(level, title, name, false)
		return f
	}
	if level == 0 {
		b.shares(title)
	}
	b.enter(level, title, name, false)
	return f
}

// shares names a chapter in the title block of the sheet that is open, behind those that it shares the sheet with.
func (b *book) shares(title string) {
	p := &b.pages[len(b.pages)-1]
	if p.block.DocType == "Steps" { // more than steps now; a book in longer words may have a sheet of steps alone
		b.Say.Of(p.block.DocType)
		p.block.DocType = b.kind
	}
	p.also = append(slices.Clone(p.also), title)
}

// named gives what the title block of a sheet says: every chapter that stands on it, and where there is no room for their
// whole names those of cases by their letters, the first before the last; where there is too little for all, the first and the last.
func (p *page) named() string {
	list := slices.Compact(append([]string{p.block.Title}, p.also...))
	fits := func(list ...string) bool {
		return font.Width(strings.Join(list, "; "), true, draw.LeastCap) < p.sheet.StripTitle()
	}
	for i := 0; i < len(list) && !fits(list...); i++ {
		list[i] = brief(list[i])
	}
	if !fits(list...) {
		list = slices.Compact([]string{list[0], list[len(list)-1]})
	}
	if !fits(list...) {
		list = list[:1]
	}
	return strings.Join(list, "; ")
}

// brief gives the letters of a chapter that begins with them: "C E" of "C E, left drawers and right drawers: 2 alike".
func brief(title string) string {
	codes, _, _ := strings.Cut(title, ", ")
	return codes
}

// front writes pages that stand before all others.
func (b *book) front(write func()) []page {
	rest, flow := b.pages, b.flow
	b.pages = nil
	b.open()
	write()
	made := b.pages
	b.pages, b.flow = rest, flow
	return made
}

// contentsWide is the width from which the contents are in two columns, so that no name is far from its sheet, in mm.
const contentsWide = 200.0

// contents sets the list of what is where, and below it the cautions, and the words of the trade, where
// one sheet has room for them, which it says; before is how many sheets stand in front of it, and its own number changes what
// it says.
func (b *book) contents(before int) (made []page, warned, explained bool) {
	defer func(title, kind string) { b.title, b.kind = title, kind }(b.title, b.kind) // of the sheet that is open at the end
	b.title, b.kind = "Contents", "Contents"
	cautions := b.cautionsText()
	// a long cutting plan has its own list of sheets, and what begins on the sheet of its chapter needs
	// no line
	var entries []entry
	for i, e := range b.entries {
		if len(b.Plan.Sheets) > listed && strings.HasPrefix(e.to, "filling ") || i > 0 && strings.HasPrefix(e.to, "parts ") && e.page == b.entries[i-1].page {
			continue
		}
		entries = append(entries, e)
	}
	told := slices.ContainsFunc(entries, func(e entry) bool { return e.to == "cautions" })
	for n := 1; ; n = len(made) {
		made = b.front(func() {
			f := b.flow
			f.Heading(1, "Contents", "contents")
			table := func(list []entry, all bool) func(*draw.Flow) {
				t := draw.Table{Columns: []draw.Column{{Head: "", Grow: true}, {Head: "sheet", Align: draw.End}}}
				for _, e := range list {
					title := e.title
					if e.level > 0 {
						if !all {
							continue
						}
						title = "    " + title
					}
					t.Rows = append(t.Rows, draw.Row{Cells: []draw.Cell{{Text: title, Bold: e.level == 0, Link: e.to}, {Text: fmt.Sprint(e.page + 1 + before + n), Link: e.to}}})
				}
				return func(f *draw.Flow) { f.Table(t) }
			}
			both := func(set func(*draw.Flow), words bool) func(*draw.Flow) {
				return func(f *draw.Flow) {
					set(f)
					f.Heading(1, "Cautions", "cautions")
					cautions(f)
					if words {
						b.wordsText(f)
					}
				}
			}
			// everything in one column or in two, as long as that is one sheet; else the chapters
			half := (len(entries) + 1) / 2
			room := f.Left()
			one := table(entries, true)
			two := func(f *draw.Flow) { f.Columns(8, table(entries[:half], true), table(entries[half:], true)) }
			if f.Width() > contentsWide {
				one = two
			}
			for i, set := range []func(*draw.Flow){both(one, true), both(two, true), both(one, false), both(two, false)} {
				if warned = !told && f.Measure(set) <= room; warned {
					explained = i < 2
					set(f)
					return
				}
			}
			switch {
			case f.Measure(one) <= room:
				one(f)
			case f.Measure(two) <= room:
				two(f)
			default:
				table(entries, false)(f)
			}
		})
		if len(made) == n {
			return made, warned, explained
		}
	}
}

// toPart gives the anchor of a mark's row in its owner's table of parts.
func (b *book) toPart(mark string) string {
	if _, ok := b.part[mark]; !ok {
		return "" // a plain list of parts has no pages for them
	}
	return "part " + mark
}

// toOwner gives the anchor of the chapter that an owner is built by; one without parts, as when a case is too small
// to be made, has none.
func (b *book) toOwner(id string) string {
	if len(view.Of(&b.Assembly, id)) == 0 {
		return ""
	}
	if f, ok := b.first[id]; ok {
		id = f
	}
	return "owner " + id
}

// scene gives the scene of a wall.
func (b *book) scene(w *view.Wall) view.Scene {
	return view.Scene{Wall: w, Assembly: &b.Assembly, Unit: b.units()}
}
