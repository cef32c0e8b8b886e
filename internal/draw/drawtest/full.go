package drawtest

import (
	"fmt"
	"math"

	"stowright/internal/draw"
)

// Fullness says how much of a finished sheet is used: of the height between the frame's upper edge and the title
// block, how much has anything beside it, and of the area there, in squares of 10 mm, how much has anything in it.
// Both are shares, 0 to 1.
func Fullness(s *draw.Sheet) (height, area float64) {
	const cell = 10.0
	free := body(s)
	w, h := int(free.W/cell), int(free.H/cell)
	used := make([][]bool, h)
	for i := range used {
		used[i] = make([]bool, w)
	}
	mark := func(r draw.Rect) {
		if r == (draw.Rect{}) {
			return
		}
		for y := int(math.Floor((r.Y - free.Y) / cell)); float64(y)*cell < r.Bottom()-free.Y; y++ {
			for x := int(math.Floor((r.X - free.X) / cell)); float64(x)*cell < r.Right()-free.X; x++ {
				if y >= 0 && y < h && x >= 0 && x < w {
					used[y][x] = true
				}
			}
		}
	}
	for _, it := range s.Items {
		switch x := it.(type) {
		case *draw.Text:
			if x.Text != "" {
				mark(x.Box())
			}
		case *draw.Path:
			if x.Line == draw.Outline && Bounds(x).H > free.H { // the frame
				continue
			}
			mark(Bounds(x))
		}
	}
	rows, cells := 0, 0
	for _, r := range used {
		any := false
		for _, u := range r {
			if u {
				cells, any = cells+1, true
			}
		}
		if any {
			rows++
		}
	}
	return float64(rows) / float64(h), float64(cells) / float64(w*h)
}

// full is the share of its height from which a sheet is full enough.
const full = 0.35

// Empty lists the sheets of a finished set that are more empty than a reader would take for meant: under 35 % of
// the height used.
func Empty(doc *draw.Document) (out []string) {
	for i := range doc.Pages {
		if h, _ := Fullness(&doc.Pages[i]); h < full {
			out = append(out, fmt.Sprintf("sheet %d: %.0f %% of its height is used", i+1, 100*h))
		}
	}
	return out
}

// body is what a sheet's frame and title block leave, of either kind, whatever language it is in.
func body(s *draw.Sheet) draw.Rect {
	whole, _ := s.FreeFrame()
	for _, it := range s.Items {
		if p, ok := it.(*draw.Path); ok { // the outline of the whole title block, which stands off what it leaves
			if b := Bounds(p); math.Abs(b.Y-whole.Bottom()-4) < 0.1 && b.H > 25 && b.W > 150 {
				return whole
			}
		}
	}
	return s.FreeStrip()
}

// Bounds gives the smallest upright rectangle around the places of a path, an empty one for a path without any.
func Bounds(p *draw.Path) draw.Rect {
	lo, hi := draw.Pt(math.Inf(1), math.Inf(1)), draw.Pt(math.Inf(-1), math.Inf(-1))
	for _, st := range p.Steps {
		if st.Op == draw.Close {
			continue
		}
		q := st.P[0]
		if st.Op == draw.Curve {
			q = st.P[2]
		}
		lo, hi = draw.Pt(min(lo.X, q.X), min(lo.Y, q.Y)), draw.Pt(max(hi.X, q.X), max(hi.Y, q.Y))
	}
	if lo.X > hi.X { // it goes nowhere
		return draw.Rect{}
	}
	return draw.Rect{X: lo.X, Y: lo.Y, W: max(hi.X-lo.X, 0), H: max(hi.Y-lo.Y, 0)}
}
