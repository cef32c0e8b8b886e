// Package drawtest judges finished paper in tests: it reads the words of a PDF back with
// poppler's pdftotext, which shares no code with the encoder, and looks for words that lie
// over one another; and it looks on a sheet for lines that strike through text.
package drawtest

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"

	"stowright/internal/draw"
)

// ErrNoReader says that pdftotext is not installed; a test should skip and say so.
var ErrNoReader = errors.New("drawtest: pdftotext (poppler-utils) is not installed")

// Word is one word of a page: the box that pdftotext gives it, in mm from the top left corner.
type Word struct {
	Page int // from 1
	Text string
	Box  draw.Rect
}

// Overlap is two words that share ink.
type Overlap struct{ A, B Word }

func (o Overlap) String() string {
	return fmt.Sprintf("page %d: %q over %q at %.1f, %.1f mm", o.A.Page, o.A.Text, o.B.Text, o.A.Box.X, o.A.Box.Y)
}

// Words reads the words of a PDF and the number of its pages.
func Words(pdf []byte) (words []Word, pages int, err error) {
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		return nil, 0, ErrNoReader
	}
	dir, err := os.MkdirTemp("", "drawtest")
	if err != nil {
		return nil, 0, err
	}
	defer os.RemoveAll(dir)
	name := filepath.Join(dir, "in.pdf")
	if err := os.WriteFile(name, pdf, 0o600); err != nil {
		return nil, 0, err
	}
	var out, bad bytes.Buffer
	cmd := exec.Command(tool, "-bbox", name, "-")
	cmd.Stdout, cmd.Stderr = &out, &bad
	if err := cmd.Run(); err != nil {
		return nil, 0, fmt.Errorf("drawtest: pdftotext: %w: %s", err, bad.String())
	}
	const mm = 25.4 / 72
	dec := xml.NewDecoder(&out)
	dec.Strict = false
	for {
		tok, err := dec.Token()
		if err == io.EOF {
			return words, pages, nil
		}
		if err != nil {
			return nil, 0, fmt.Errorf("drawtest: reading words: %w", err)
		}
		el, ok := tok.(xml.StartElement)
		if !ok {
			continue
		}
		switch el.Name.Local {
		case "page":
			pages++
		case "word":
			var w struct {
				X0   float64 `xml:"xMin,attr"`
				Y0   float64 `xml:"yMin,attr"`
				X1   float64 `xml:"xMax,attr"`
				Y1   float64 `xml:"yMax,attr"`
				Text string  `xml:",chardata"`
			}
			if err := dec.DecodeElement(&w, &el); err != nil {
				return nil, 0, err
			}
			box := draw.Rect{X: w.X0 * mm, Y: w.Y0 * mm, W: (w.X1 - w.X0) * mm, H: (w.Y1 - w.Y0) * mm}
			words = append(words, Word{pages, w.Text, box})
		}
	}
}

// ink narrows the box that pdftotext gives (the font's whole ascent and descent) to where
// letters have ink: for Source Sans 3 the ascent is 1.024 em and the descent 0.400 em, ink
// reaches from 0.72 em above to 0.22 em below the baseline. Words without a tail end on the
// baseline.
func ink(text string, b draw.Rect, up bool) draw.Rect {
	const top = (1.024 - 0.72) / 1.424
	bottom := 0.400 / 1.424
	if strings.ContainsAny(text, "gjpqy,;()/|_Q[]{}@") {
		bottom = (0.400 - 0.22) / 1.424
	}
	if up {
		return draw.Rect{X: b.X + b.W*top, Y: b.Y, W: b.W * (1 - top - bottom), H: b.H}
	}
	return draw.Rect{X: b.X, Y: b.Y + b.H*top, W: b.W, H: b.H * (1 - top - bottom)}
}

// upwards tells from the sheet whether a word of its page reads upwards, which pdftotext does
// not say.
func upwards(s *draw.Sheet, w Word) bool {
	if !slices.ContainsFunc(s.Items, func(it draw.Item) bool {
		t, ok := it.(*draw.Text)
		return ok && t.Up && strings.Contains(t.Text, w.Text)
	}) {
		return false
	}
	up, far := false, math.Inf(1)
	for _, it := range s.Items {
		t, ok := it.(*draw.Text)
		if !ok || !strings.Contains(t.Text, w.Text) {
			continue
		}
		b, m := t.Box(), w.Box.Mid()
		in := draw.Pt(min(max(m.X, b.X), b.Right()), min(max(m.Y, b.Y), b.Bottom())) // the place of it that is nearest
		if d := m.Sub(in).Len() + m.Sub(b.Mid()).Len()/1000; d < far && b.Inset(-2).Meets(w.Box) {
			up, far = t.Up, d
		}
	}
	return up
}

// Overlaps lists the words of a finished document that lie over one another by more than a
// hair. Words stand where the PDF has them.
func Overlaps(pdf []byte, doc *draw.Document) ([]Overlap, error) {
	words, _, err := Words(pdf)
	if err != nil {
		return nil, err
	}
	for i := range words {
		w := &words[i]
		w.Box = ink(w.Text, w.Box, upwards(&doc.Pages[w.Page-1], *w))
	}
	var out []Overlap
	for i, a := range words {
		for _, b := range words[i+1:] {
			if b.Page != a.Page {
				break
			}
			if a.Box.Inset(0.1).Meets(b.Box.Inset(0.1)) {
				out = append(out, Overlap{a, b})
			}
		}
	}
	return out, nil
}

// Strikes lists texts of a sheet that a line runs through or that lie over another text,
// as "text at x, y". A line that a filled white area covers before the text is set does
// not count.
func Strikes(s *draw.Sheet) []string {
	var out []string
	type stroke struct {
		a, b  draw.Point
		order int
		half  float64
	}
	var strokes []stroke
	type cover struct {
		box   draw.Rect
		order int
	}
	var covers []cover
	for i, it := range s.Items {
		p, ok := it.(*draw.Path)
		if !ok {
			continue
		}
		var at, start draw.Point
		box := draw.Rect{}
		lo, hi := draw.Pt(1e9, 1e9), draw.Pt(-1e9, -1e9)
		line := func(b draw.Point) {
			if p.Line != draw.NoLine && p.Line != draw.Rule {
				strokes = append(strokes, stroke{at, b, i, p.Line.Width() / 2})
			}
			at = b
		}
		for _, st := range p.Steps {
			to := st.P[0]
			switch st.Op {
			case draw.Move:
				at, start = to, to
			case draw.Go:
				line(to)
			case draw.Curve:
				p0, p1, p2, p3 := at, st.P[0], st.P[1], st.P[2]
				for k := 1; k <= 8; k++ {
					t := float64(k) / 8
					u := 1 - t
					line(p0.Times(u * u * u).Add(p1.Times(3 * u * u * t)).Add(p2.Times(3 * u * t * t)).Add(p3.Times(t * t * t)))
				}
				to = p3
			case draw.Close:
				line(start)
				continue
			}
			lo = draw.Pt(min(lo.X, to.X), min(lo.Y, to.Y))
			hi = draw.Pt(max(hi.X, to.X), max(hi.Y, to.Y))
		}
		box = draw.Rect{X: lo.X, Y: lo.Y, W: hi.X - lo.X, H: hi.Y - lo.Y}
		if p.Filled && (p.Fill == draw.White || p.Fill == draw.Tint) {
			covers = append(covers, cover{box, i})
		}
	}
	type set struct {
		t   *draw.Text
		box draw.Rect
	}
	var texts []set
	for i, it := range s.Items {
		t, ok := it.(*draw.Text)
		if !ok || t.Text == "" {
			continue
		}
		box := t.Box().Inset(0.2) // Box leaves room for accents and long tails
		for _, o := range texts {
			if o.box.Meets(box) {
				out = append(out, fmt.Sprintf("%q over %q at %.1f, %.1f", t.Text, o.t.Text, t.At.X, t.At.Y))
			}
		}
		texts = append(texts, set{t, box})
	next:
		for _, l := range strokes {
			if max(l.a.X, l.b.X) < box.X-l.half || min(l.a.X, l.b.X) > box.Right()+l.half ||
				max(l.a.Y, l.b.Y) < box.Y-l.half || min(l.a.Y, l.b.Y) > box.Bottom()+l.half || !box.Inset(-l.half).Struck(l.a, l.b) {
				continue
			}
			for _, c := range covers {
				if c.order > l.order && c.order < i && c.box.Inset(-0.5).Has(box) {
					continue next
				}
			}
			out = append(out, fmt.Sprintf("%q struck by a line at %.1f, %.1f", t.Text, t.At.X, t.At.Y))
			break
		}
	}
	return out
}
