// Package pdf writes a draw.Document as a PDF whose bytes depend on the document alone.
// Text stays text, in embedded subsets of the faces of package font/ttf.
package pdf

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"strings"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"stowright/internal/draw"
	"stowright/internal/draw/font"
	"stowright/internal/draw/font/ttf"
)

// names of the faces in the library: family and style
var faces = [font.Faces][2]string{{"body", ""}, {"body", "B"}, {"spare", ""}, {"spare", "B"}}

// Write gives the document's bytes. It fails when the document is not sound as paper
// (numbers that are none, links to nowhere); letters without a face and small text, which
// draw.Document.Faults also lists, are printed as well as can be.
func Write(d *draw.Document) (out []byte, err error) {
	if len(d.Pages) == 0 {
		return nil, errors.New("pdf: a document without sheets")
	}
	for _, f := range d.Faults() {
		if strings.Contains(f, "no number") || strings.Contains(f, "nowhere") || strings.Contains(f, "named twice") || strings.Contains(f, "the paper is") {
			return nil, errors.New("pdf: " + f)
		}
	}
	// The library panics on what it does not foresee; a packet must not die of it.
	defer func() {
		if r := recover(); r != nil {
			out, err = nil, fmt.Errorf("pdf: %v", r)
		}
	}()
	w := newWriter(d)
	for i := range d.Pages {
		w.page(i, &d.Pages[i])
	}
	var buf bytes.Buffer
	if err := w.f.Output(&buf); err != nil {
		return nil, fmt.Errorf("pdf: %w", err)
	}
	return buf.Bytes(), nil
}

type writer struct {
	f      *fpdf.Fpdf
	d      *draw.Document
	links  map[string]int // anchor to link number
	layers map[string]int
	page0  map[string]int // anchor to page
	marks  map[string][]draw.Bookmark
}

func newWriter(d *draw.Document) *writer {
	first := d.Pages[0]
	f := fpdf.NewCustom(&fpdf.InitType{OrientationStr: "P", UnitStr: "mm", Size: fpdf.SizeType{Wd: min(first.W, first.H), Ht: max(first.W, first.H)}})
	f.SetCatalogSort(true)
	day, err := time.Parse("2006-01-02", d.Date)
	if err != nil {
		day = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
	}
	f.SetCreationDate(day)
	f.SetModificationDate(day)
	f.SetAutoPageBreak(false, 0)
	f.SetMargins(0, 0, 0)
	f.SetCellMargin(0)
	f.SetTitle(clean(d.Title), true)
	f.SetSubject(clean(d.Subject), true)
	f.SetAuthor(clean(d.Author), true)
	f.SetProducer("Stowright", true)
	if d.Lang != "" {
		f.SetLang(d.Lang)
	}
	for i := font.Face(0); i < font.Faces; i++ {
		f.AddUTF8FontFromBytes(faces[i][0], faces[i][1], ttf.Bytes(i))
	}
	w := &writer{f: f, d: d, links: map[string]int{}, layers: map[string]int{}, page0: map[string]int{}, marks: map[string][]draw.Bookmark{}}
	for i := range d.Pages {
		for _, it := range d.Pages[i].Items {
			switch v := it.(type) {
			case *draw.Anchor:
				w.links[v.Name] = f.AddLink()
				w.page0[v.Name] = i + 1
			case *draw.Path:
				w.layer(v.Layer)
			case *draw.Text:
				w.layer(v.Layer)
			}
		}
	}
	var att []fpdf.Attachment
	for _, a := range d.Attachments {
		att = append(att, fpdf.Attachment{Content: a.Data, Filename: a.Name, Description: a.About})
	}
	if len(att) > 0 {
		f.SetAttachments(att)
	}
	return w
}

// layer makes a layer known, in the order of first use.
func (w *writer) layer(name string) {
	if name == "" {
		return
	}
	if _, ok := w.layers[name]; !ok {
		w.layers[name] = w.f.AddLayer(clean(name), true)
	}
}

func (w *writer) page(n int, s *draw.Sheet) {
	f := w.f
	o := "P"
	if s.W > s.H {
		o = "L"
	}
	f.AddPageFormat(o, fpdf.SizeType{Wd: min(s.W, s.H), Ht: max(s.W, s.H)})
	f.SetLineJoinStyle("round")
	f.SetLineCapStyle("butt")
	// Bookmarks are written in the document's order, on the page that is open then: this
	// library ties a bookmark to the current page, so all are placed as their page opens.
	w.bookmarks(n + 1)
	pen := pen{line: draw.NoLine, ink: 255, fill: 255}
	open := ""
	on := func(layer string) {
		if layer == open {
			return
		}
		if open != "" {
			f.EndLayer()
		}
		if open = layer; layer != "" {
			f.BeginLayer(w.layers[layer])
		}
	}
	for _, it := range s.Items {
		switch v := it.(type) {
		case *draw.Path:
			on(v.Layer)
			w.path(v, &pen)
		case *draw.Text:
			on(v.Layer)
			w.text(v)
			pen.fill = 255 // text sets its colour as a fill
		case *draw.Link:
			if v.To != "" {
				f.Link(v.Area.X, v.Area.Y, v.Area.W, v.Area.H, w.links[v.To])
			} else if v.URL != "" {
				f.LinkString(v.Area.X, v.Area.Y, v.Area.W, v.Area.H, v.URL)
			}
		case *draw.Anchor:
			f.SetLink(w.links[v.Name], max(0, v.At.Y-4), n+1)
		}
	}
	on("")
}

// bookmarks writes those that lead to page n. draw.Document.Bookmarks are in reading order,
// which is the order of pages; one that leads backwards is placed with its page.
func (w *writer) bookmarks(n int) {
	for _, b := range w.d.Bookmarks {
		if w.page0[b.To] == n {
			w.f.Bookmark(clean(b.Title), b.Level, 0)
		}
	}
}

// pen remembers what is set, so that a page of ten thousand lines does not say it each time.
type pen struct {
	line      draw.Line
	ink, fill draw.Ink
}

func (w *writer) path(p *draw.Path, now *pen) {
	if len(p.Steps) == 0 || (p.Line == draw.NoLine && !p.Filled) {
		return
	}
	f := w.f
	if p.Line != draw.NoLine {
		if now.line != p.Line {
			f.SetLineWidth(p.Line.Width())
			f.SetDashPattern(p.Line.Dashes(), 0)
			now.line = p.Line
		}
		if ink := lineInk(p); now.ink != ink {
			r, g, b := ink.RGB()
			f.SetDrawColor(int(r), int(g), int(b))
			now.ink = ink
		}
	}
	if p.Filled && now.fill != p.Fill {
		r, g, b := p.Fill.RGB()
		f.SetFillColor(int(r), int(g), int(b))
		now.fill = p.Fill
	}
	for _, st := range p.Steps {
		a, b, c := st.P[0], st.P[1], st.P[2]
		switch st.Op {
		case draw.Move:
			f.MoveTo(a.X, a.Y)
		case draw.Go:
			f.LineTo(a.X, a.Y)
		case draw.Curve:
			f.CurveBezierCubicTo(a.X, a.Y, b.X, b.Y, c.X, c.Y)
		case draw.Close:
			f.ClosePath()
		}
	}
	switch {
	case p.Filled && p.Line != draw.NoLine:
		f.DrawPath("B*")
	case p.Filled:
		f.DrawPath("f*")
	default:
		f.DrawPath("D")
	}
}

func lineInk(p *draw.Path) draw.Ink { return p.Ink }

func (w *writer) text(t *draw.Text) {
	s := font.Clean(t.Text)
	if strings.TrimSpace(s) == "" {
		return
	}
	f := w.f
	r, g, b := t.Ink.RGB()
	f.SetTextColor(int(r), int(g), int(b))
	at := t.Origin()
	if t.Up {
		f.TransformBegin()
		f.TransformRotate(90, at.X, at.Y)
	}
	x := at.X
	for _, run := range font.Runs(s, t.Bold, t.Size) {
		f.SetFont(faces[run.Face][0], faces[run.Face][1], 0)
		f.SetFontUnitSize(run.Em)
		f.Text(x, at.Y, run.Text)
		x += run.Width
	}
	if t.Up {
		f.TransformEnd()
	}
}

// clean keeps document strings within what the library can write.
func clean(s string) string {
	return strings.Map(func(r rune) rune {
		if r > math.MaxUint16 {
			return font.Replacement
		}
		return r
	}, s)
}
