// Package packet puts the pages of a plan set in the order of the work: a summary and the cautions first, then the
// walls, with what is fixed to them and how high what stands there is, where goods go, shopping, what is measured
// before the first cut, cutting plans, boring, details, a chapter for every case, counter and base with the steps
// that put it together, setting up, what was proved and found. Every step stands once, and their numbers rise through the set. The drawings are package view's; what a page
// looks like as bytes is the encoders'. It measures nothing and decides nothing about the job.
package packet

import (
	"cmp"
	"fmt"
	"strings"

	"stowright/internal/bill"
	"stowright/internal/cutlist"
	"stowright/internal/cutting"
	"stowright/internal/draw"
	"stowright/internal/finding"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/shop"
	"stowright/internal/stock"
	"stowright/internal/view"
)

// L is a length.
type L = length.Length

// Input is everything that the pages say.
type Input struct {
	Job       string // the job's name
	Author    string
	Owner     string // whom the drawings belong to, their number, revision and who approved them: for title blocks
	Number    string
	Revision  string
	Approved  string
	Date      string // "2006-01-02", "" for none
	Print     length.Unit
	Both      bool // sizes stand in the other unit too
	Walls     []view.Wall
	Assembly  part.Assembly // placed, in the frames of its walls, marked
	Plan      cutting.Plan
	Marks     [][]string // of the plan's pieces, sheet by sheet
	Sticks    []cutlist.Stick
	Bill      bill.Bill
	Steps     []shop.Step
	Findings  finding.List // sorted, worst first
	Practice  stock.Practice
	Catalogue stock.Catalogue
	Goods     []Stored     // what is stored; may be empty
	Wishes    []string     // what the job says wins where wants conflict, in its words
	Stages    []Stage      // in the order they are built
	Other     []OtherSheet // the job with thinner and thicker sheets; may be empty
	Paper     draw.Paper
	OnlyOwner string  // the set is about this owner alone
	Stage     string  // the set is about this stage alone
	Trades    []Trade // cutting plans that were found
	Taken     string  // which of them this is, a sentence
	Blocked   bool    // not to be built as it stands: every page says so
	Lang      string  // of the paper, as ISO 639 has it; "" is English

	Say draw.Language // that language; nil for English
}

// lang is the language of the paper.
func (in *Input) lang() string { return cmp.Or(in.Lang, "en") }

// Trade is the cutting plans that a stage could choose from, from the fewest settings on; "" where there are no stages.
type Trade struct {
	Stage string
	Plans []cutting.Choice
}

// Stage is a stage of the job, in its words.
type Stage struct {
	ID, Name, When string
}

// Stored is one line of what the job stores.
type Stored struct {
	Name  string
	Size  string // of one, and what it weighs; "" for not known
	Count int
	Place string // "" for not known
	Kept  []Kept // where they find room
	Left  int    // that find none where they are listed
}

// Kept is so many of some goods in one place.
type Kept struct {
	Owner, In string // id, and what it is called
	Where     string // on which board; "" where that is not known
	Count     int
	Lies      string // how those lie, in words, that do not stand as they were measured; "" where all do
	High      int    // so many on each other at most; 0 where that is not known
}

// Warning is what every page says when the job must not be built as it stands.
const Warning = "Do not build from this yet"

// byRoom are phrases that stand on paper only where there is room for no others, or too little for what they stand for: a book of
// phrases is asked for them all the same.
var byRoom = []string{"Step 2, continued:", ", continued", "It goes on under \"continued\".", "It goes on with a under \"continued\".", "It goes on with a to b under \"continued\".",
	"2 findings stand under the findings, those of one kind together.", "2 more under the findings, those of one kind together.", "and more"}

// Make gives the plan set.
func Make(in Input) draw.Document {
	if in.Say != nil {
		for _, text := range byRoom {
			in.Say(text)
		}
	}
	b := newBook(in)
	b.most(false)
	start := b.remember()
	b.squeeze(b.end)
	marks := []draw.Bookmark{{Title: "Summary", To: "summary"}}
	if len(b.pages) <= few { // the cautions stand before the first cut, and the summary lists the sheets
		b = newBook(in)
		b.squeeze(func() { b.most(true); b.end() })
		return b.document("Plan set", append(b.summary(), b.pages...), marks)
	}
	before := b.summary()
	marks = append(marks, draw.Bookmark{Title: "Contents", To: "contents"})
	contents, warned, explained := b.contents(len(before))
	if warned {
		marks = append(marks, draw.Bookmark{Title: "Cautions", To: "cautions"})
	}
	if !explained { // what the contents have no room for stands at the end
		start()
		b.squeeze(func() {
			b.end()
			if !warned {
				b.cautions()
				return
			}
			if b.flow.Measure(b.wordsText) > b.flow.Left() {
				b.flow.Break() // together, so that no sheet has two lines
			}
			b.wordsText(b.flow)
		})
		contents, _, _ = b.contents(len(before))
	}
	return b.document("Plan set", append(append(before, contents...), b.pages...), marks)
}

// most sets all that stands behind the summary up to what is built, the cautions before the first cut where they are wanted there.
func (b *book) most(cautions bool) {
	b.walls()
	b.goods()
	b.shopping()
	b.proving()
	if cautions {
		b.cautions()
	}
	b.cutting()
	b.sticks()
	b.boring()
	b.details()
	b.owners()
}

// end sets the chapters that follow those of what is built.
func (b *book) end() {
	b.setUp()
	b.proofs()
	b.findings()
}

// Cutting gives the pages of a cutting plan alone, for a list of parts that is no job.
func Cutting(in Input) draw.Document {
	b := newBook(in)
	b.cutting()
	return b.document("Cutting plan", b.pages, nil)
}

// document numbers the pages and frames them; the entries follow the given bookmarks.
func (b *book) document(subject string, list []page, marks []draw.Bookmark) draw.Document {
	doc := draw.Document{Title: b.Job, Subject: subject, Author: b.Author, Lang: b.lang(), Date: b.Date, Bookmarks: marks}
	for _, e := range b.entries {
		doc.Bookmarks = append(doc.Bookmarks, draw.Bookmark{Title: b.Say.Of(e.title), Level: e.level, To: e.to})
	}
	for i, p := range list {
		p.block.SheetNo, p.block.Sheets = i+1, len(list)
		if p.full {
			p.sheet.Frame(p.block)
		} else {
			p.block.Title = p.named()
			p.sheet.Strip(p.block)
		}
		doc.Pages = append(doc.Pages, *p.sheet)
	}
	return doc
}

// few is the number of sheets below which the summary's own list of them is contents enough.
const few = 20

// units says what sizes are printed in.
func (b *book) units() view.Units { return view.Units{Unit: b.Print, Too: b.Both} }

func (b *book) in(l L) string {
	t := l.In(b.Print)
	if b.Both {
		t += " (" + l.In(length.Inches+length.Millimetres-b.Print) + ")"
	}
	return t
}

func (b *book) num(l L) string { return l.Tape(b.Print) }

func (b *book) sure(l L) string { return view.Sure(l, b.units()) }

// sizes prints a size: along the grain × across × thickness. The thickness is the measured
// one, exact.
func (b *book) sizes(s [3]L) string {
	return fmt.Sprintf("%s × %s × %s", b.sure(s[0]), b.sure(s[1]), b.thick(s[2]))
}

// thick prints a thickness exactly, without its unit where that is the paper's.
func (b *book) thick(l L) string {
	t := l.Exact(b.Print)
	if b.Print == length.Millimetres {
		t = l.Near(length.MM / 100).Exact(b.Print)
	}
	t = strings.TrimSuffix(t, " "+b.Print.String())
	if b.Both && !strings.HasSuffix(t, " mm") {
		t += " (" + b.units().Other(l) + ")"
	}
	return t
}

// thickIn is thick with its unit.
func (b *book) thickIn(l L) string {
	t := b.thick(l)
	if strings.HasSuffix(t, " mm") { // what no inch is exact for
		return t
	}
	return t + " " + b.Print.String()
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
