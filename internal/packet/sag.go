package packet

import (
	"fmt"
	"strings"

	"stowright/internal/draw"
	"stowright/internal/finding"
	"stowright/internal/length"
)

// sagHigh is how deep the worst sag of a picture is drawn, mm.
const sagHigh = 9

// sag draws how the board of a finding bends after years: its line unbent, its line bent, and how far
// it may go, so many times too deep as the words below say.
func (b *book) sag(x finding.Finding) {
	if len(x.Shape) < 2 || x.Demand <= 0 {
		return
	}
	name, _, _ := strings.Cut(x.Text, ", ")
	long := x.Shape[len(x.Shape)-1].Along
	f := b.flow
	wide := min(120, f.Width()-40)
	scale := wide / long
	deep := max(x.Demand, x.Capacity)
	times := 1.0
	for _, n := range []float64{2, 5, 10, 20, 50, 100, 200, 500, 1000} {
		if n*scale*deep <= sagHigh {
			times = n
		}
	}
	small := func(mm float64) string {
		if b.Print == length.Inches {
			return fmt.Sprintf("%.3f in", mm/25.4)
		}
		return fmt.Sprintf("%.2f mm", mm)
	}
	if deep*scale > 2*sagHigh { // it breaks long before: no picture
		return
	}
	picture := func(s *draw.Sheet, r draw.Rect) {
		x0, y0 := r.X+2, r.Y+3
		at := func(along, down float64) draw.Point { return draw.Pt(x0+along*scale, y0+down*scale*times) }
		s.Poly(draw.Fine, at(0, 0), at(long, 0))
		if x.Unit == "mm" {
			s.Poly(draw.Hidden, at(0, x.Capacity), at(long, x.Capacity))
			s.Text(draw.Pt(x0+wide+2, y0+x.Capacity*scale*times+1), draw.BodyCap, s.Said("allowed"), draw.Start)
		}
		var line []draw.Point
		for _, p := range x.Shape {
			line = append(line, at(p.Along, p.Down))
		}
		s.Poly(draw.Visible, line...)
	}
	told := fmt.Sprintf("The picture is drawn %.0f times deeper than it is: %s after years, %s at the most where %s is allowed.", times, name, small(x.Demand), small(x.Capacity))
	f.Columns(0, func(f *draw.Flow) { // both on one sheet
		f.Block(sagHigh+7, picture)
		f.Para(told)
	})
}
