package drawtest

import (
	"fmt"
	"slices"
	"strings"

	"stowright/internal/draw"
)

// Judge lists what is wrong with a finished set as paper, each fault once: texts under a line, over each other
// or outside the frame, words cut short, capitals too low, links to nowhere, sheets that hold next to nothing, headings
// alone at a foot. What it needs pdftotext for is apart, see Overlaps.
func Judge(doc *draw.Document) (faults []string) {
	say := func(f string, a ...any) {
		if line := fmt.Sprintf(f, a...); !slices.Contains(faults, line) {
			faults = append(faults, line)
		}
	}
	for _, f := range doc.Faults() { // letters under 2.5 mm, off the sheet, links to nowhere
		say("%s", f)
	}
	for i := range doc.Pages {
		s := &doc.Pages[i]
		for _, f := range Strikes(s) {
			say("sheet %d: %s", i+1, f)
		}
		frame := draw.Rect{X: 20, Y: 10, W: s.W - 30, H: s.H - 20}.Inset(-0.01) // ISO 5457
		for _, it := range s.Items {
			switch x := it.(type) {
			case *draw.Text:
				if x.Text != "" && !frame.Has(x.Box()) {
					say("sheet %d: %q stands outside the frame", i+1, x.Text)
				}
				if strings.HasSuffix(x.Text, "…") && !strings.HasSuffix(x.Text, " …") {
					say("sheet %d: %q is cut short", i+1, x.Text)
				}
			case *draw.Path:
				if p, out := leaves(x, frame); out && !centring(x, s) {
					say("sheet %d: a line leaves the frame at %.1f, %.1f", i+1, p.X, p.Y)
				}
			}
		}
		if matter(s) < bare(s)+4 {
			say("sheet %d holds next to nothing", i+1)
		}
		for _, t := range lonely(s) {
			say("sheet %d: the heading %q stands alone at the foot", i+1, t)
		}
	}
	return faults
}

// centring reports whether a path is a centring mark: on an axis of the sheet, from 5 mm outside the frame to it.
func centring(p *draw.Path, s *draw.Sheet) bool {
	if len(p.Steps) != 2 {
		return false
	}
	a, b := p.Steps[0].P[0], p.Steps[1].P[0]
	on := a.X == s.W/2 && b.X == a.X || a.Y == s.H/2 && b.Y == a.Y
	frame := draw.Rect{X: 20, Y: 10, W: s.W - 30, H: s.H - 20}
	return on && frame.Inset(-5.01).Has(draw.Rect{X: min(a.X, b.X), Y: min(a.Y, b.Y), W: max(a.X, b.X) - min(a.X, b.X), H: max(a.Y, b.Y) - min(a.Y, b.Y)})
}

// leaves gives a place where a path is outside of a frame by more than its width.
func leaves(p *draw.Path, frame draw.Rect) (draw.Point, bool) {
	in := frame.Inset(-0.5)
	for _, st := range p.Steps {
		if st.Op == draw.Close {
			continue
		}
		for _, q := range st.P[:1] {
			if q.X < in.X || q.X > in.Right() || q.Y < in.Y || q.Y > in.Bottom() {
				return q, true
			}
		}
	}
	return draw.Point{}, false
}

// matter counts what stands on a sheet.
func matter(s *draw.Sheet) (n int) {
	for _, it := range s.Items {
		switch x := it.(type) {
		case *draw.Text:
			n++
		case *draw.Path:
			n += 1 + len(x.Steps)/8
		}
	}
	return n
}

// bare is the matter that frame and title block alone put on a sheet.
func bare(s *draw.Sheet) int {
	empty := draw.Sheet{W: s.W, H: s.H}
	block := draw.TitleBlock{Title: "x", SheetNo: 1, Sheets: 1}
	if s.W > s.H {
		empty.Frame(block)
	} else {
		empty.Strip(block)
	}
	return matter(&empty)
}

// headings is the height of capitals from which text is a heading, in mm.
const headings = 3.2

// lonely gives the headings of a sheet under which nothing stands.
func lonely(s *draw.Sheet) (out []string) {
	foot := body(s).Bottom()
	for _, it := range s.Items {
		h, ok := it.(*draw.Text)
		if !ok || !h.Bold || h.Size < headings || h.At.Y > foot {
			continue
		}
		if !slices.ContainsFunc(s.Items, func(it draw.Item) bool {
			switch x := it.(type) {
			case *draw.Text:
				return x.Text != "" && !(x.Bold && x.Size >= headings) && x.At.Y > h.At.Y && x.At.Y < foot && x.Box().Right() > h.At.X && x.At.X < h.At.X+80
			case *draw.Path: // a picture
				b := Bounds(x)
				return b.H > 5 && b.Y > h.At.Y && b.Bottom() < foot && b.Right() > h.At.X && b.X < h.At.X+80
			}
			return false
		}) {
			out = append(out, h.Text)
		}
	}
	return out
}
