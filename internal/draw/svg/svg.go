// Package svg writes a draw.Sheet as an SVG of its true size. Text is either live (the
// reader's own sans serif squeezed to the width that the layout counted on, good for
// editing and on screens) or outlines (the same letters everywhere).
package svg

import (
	"encoding/xml"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"stowright/internal/draw"
	"stowright/internal/draw/font"
	"stowright/internal/draw/font/ttf"
)

// Lettering says how text is written.
type Lettering uint8

// The letterings.
const (
	Live Lettering = iota
	Outlines
)

// Write gives the sheet's bytes; title is for screen readers. A point that is no number is
// an error.
func Write(s *draw.Sheet, title string, how Lettering) ([]byte, error) {
	doc := draw.Document{Pages: []draw.Sheet{*s}}
	for _, f := range doc.Faults() {
		if strings.Contains(f, "no number") || strings.Contains(f, "the paper is") {
			return nil, fmt.Errorf("svg: %s", f)
		}
	}
	w := &writer{how: how}
	w.say(`<svg xmlns="http://www.w3.org/2000/svg" width="%smm" height="%smm" viewBox="0 0 %s %s" role="img">`, n(s.W), n(s.H), n(s.W), n(s.H))
	w.say("\n<title>%s</title>\n", esc(title))
	if how == Outlines {
		if err := w.glyphs(s); err != nil {
			return nil, err
		}
	}
	w.say(`<rect width="%s" height="%s" fill="#fff"/>`+"\n", n(s.W), n(s.H))
	w.say(`<g fill="none" stroke-linejoin="round" fill-rule="evenodd">` + "\n")
	open := ""
	on := func(layer string) {
		if layer == open {
			return
		}
		if open != "" {
			w.say("</g>\n")
		}
		if open = layer; layer != "" {
			w.say(`<g data-layer="%s">`+"\n", esc(layer))
		}
	}
	for _, it := range s.Items {
		switch v := it.(type) {
		case *draw.Path:
			on(v.Layer)
			w.path(v)
		case *draw.Text:
			on(v.Layer)
			w.text(v)
		case *draw.Link:
			on("")
			to := v.URL
			if v.To != "" {
				to = "#" + v.To
			}
			w.say(`<a href="%s"><rect x="%s" y="%s" width="%s" height="%s" fill="#fff" fill-opacity="0"/></a>`+"\n", esc(to), n(v.Area.X), n(v.Area.Y), n(v.Area.W), n(v.Area.H))
		case *draw.Anchor:
			on("")
			w.say(`<g id="%s"/>`+"\n", esc(v.Name))
		}
	}
	on("")
	w.say("</g>\n</svg>\n")
	return []byte(w.b.String()), nil
}

type writer struct {
	b   strings.Builder
	how Lettering
}

func (w *writer) say(f string, a ...any) { fmt.Fprintf(&w.b, f, a...) }

// n prints a size in mm to 1/100.
func n(v float64) string { return strconv.FormatFloat(draw.Round(v), 'f', -1, 64) }

func esc(s string) string {
	var b strings.Builder
	xml.EscapeText(&b, []byte(s)) // a Builder never fails
	return b.String()
}

func colour(k draw.Ink) string {
	r, g, b := k.RGB()
	return fmt.Sprintf("#%02x%02x%02x", r, g, b)
}

func (w *writer) path(p *draw.Path) {
	if len(p.Steps) == 0 || (p.Line == draw.NoLine && !p.Filled) {
		return
	}
	w.say(`<path d="`)
	for _, st := range p.Steps {
		a, b, c := st.P[0], st.P[1], st.P[2]
		switch st.Op {
		case draw.Move:
			w.say("M%s %s", n(a.X), n(a.Y))
		case draw.Go:
			w.say("L%s %s", n(a.X), n(a.Y))
		case draw.Curve:
			w.say("C%s %s %s %s %s %s", n(a.X), n(a.Y), n(b.X), n(b.Y), n(c.X), n(c.Y))
		case draw.Close:
			w.say("Z")
		}
	}
	w.say(`"`)
	if p.Filled {
		w.say(` fill="%s"`, colour(p.Fill))
	}
	if p.Line != draw.NoLine {
		w.say(` stroke="%s" stroke-width="%s"`, colour(p.Ink), n(p.Line.Width()))
		if d := p.Line.Dashes(); len(d) > 0 {
			var s []string
			for _, v := range d {
				s = append(s, n(v))
			}
			w.say(` stroke-dasharray="%s"`, strings.Join(s, " "))
		}
	}
	w.say("/>\n")
}

// The reader's faces that are nearest to ours.
const stack = "'Source Sans 3','Source Sans Pro','Noto Sans','Open Sans','DejaVu Sans Condensed',Arial,sans-serif"

func (w *writer) text(t *draw.Text) {
	s := font.Clean(t.Text)
	if strings.TrimSpace(s) == "" {
		return
	}
	at := t.Origin()
	turn := ""
	if t.Up {
		turn = fmt.Sprintf(` transform="rotate(-90 %s %s)"`, n(at.X), n(at.Y))
	}
	if w.how == Live {
		weight := ""
		if t.Bold {
			weight = ` font-weight="600"`
		}
		first := font.Regular
		w.say(`<text x="%s" y="%s"%s font-family="%s" font-size="%s"%s fill="%s" textLength="%s" lengthAdjust="spacingAndGlyphs" xml:space="preserve">%s</text>`+"\n",
			n(at.X), n(at.Y), turn, stack, n(t.Size*1000/float64(first.Cap())), weight, colour(t.Ink), n(t.Width()), esc(s))
		return
	}
	w.say(`<g role="text" aria-label="%s" fill="%s"%s>`, esc(s), colour(t.Ink), turn)
	x := at.X
	for _, run := range font.Runs(s, t.Bold, t.Size) {
		at0 := x
		units := 0
		for _, r := range run.Text {
			adv, _ := run.Face.Width(r)
			if r != ' ' && r != '\u00a0' {
				k := run.Em / 1000
				w.say(`<use href="#%s" transform="translate(%s %s) scale(%s)"/>`, id(run.Face, r), n(at0+float64(units)*k), n(at.Y), strconv.FormatFloat(math.Round(k*1e6)/1e6, 'f', -1, 64))
			}
			units += adv
		}
		x += run.Width
	}
	w.say("</g>\n")
}

func id(f font.Face, r rune) string { return fmt.Sprintf("g%d-%x", f, r) }

// glyphs writes the outline of every letter used, once, on an em of 1000.
func (w *writer) glyphs(s *draw.Sheet) error {
	var used [font.Faces][]rune
	for _, it := range s.Items {
		if t, ok := it.(*draw.Text); ok {
			for _, run := range font.Runs(font.Clean(t.Text), t.Bold, t.Size) {
				used[run.Face] = append(used[run.Face], []rune(run.Text)...)
			}
		}
	}
	w.say("<defs>\n")
	for f := font.Face(0); f < font.Faces; f++ {
		slices.Sort(used[f])
		runes := slices.Compact(used[f])
		if len(runes) == 0 {
			continue
		}
		face, err := sfnt.Parse(ttf.Bytes(f))
		if err != nil {
			return fmt.Errorf("svg: face %d: %w", f, err)
		}
		var buf sfnt.Buffer
		for _, r := range runes {
			g, err := face.GlyphIndex(&buf, r)
			if err != nil {
				return fmt.Errorf("svg: letter %q: %w", r, err)
			}
			segs, err := face.LoadGlyph(&buf, g, fixed.I(1000), nil)
			if err != nil {
				return fmt.Errorf("svg: letter %q: %w", r, err)
			}
			w.say(`<path id="%s" fill-rule="nonzero" d="`, id(f, r))
			for i, sg := range segs {
				k := 1
				switch sg.Op {
				case sfnt.SegmentOpMoveTo:
					if i > 0 {
						w.say("Z")
					}
					w.say("M")
				case sfnt.SegmentOpLineTo:
					w.say("L")
				case sfnt.SegmentOpQuadTo:
					w.say("Q")
					k = 2
				case sfnt.SegmentOpCubeTo:
					w.say("C")
					k = 3
				}
				for j := range k {
					if j > 0 {
						w.say(" ")
					}
					w.say("%d %d", int(math.Round(float64(sg.Args[j].X)/64)), int(math.Round(float64(sg.Args[j].Y)/64)))
				}
			}
			w.say("Z\"/>\n")
		}
	}
	w.say("</defs>\n")
	return nil
}
