package draw

import (
	"math"
	"slices"

	"stowright/internal/draw/font"
)

// Draw lays the dimensions out, adds them to the sheet on the layer "Dimensions" and
// returns the area they and the view take.
func (d *Dims) Draw(s *Sheet) Rect {
	was := s.Layer
	s.Layer = "Dimensions"
	defer func() { s.Layer = was }()
	from := len(s.Items)
	for side, rows := range d.rows() {
		d.drawSide(s, Side(side), rows)
	}
	box := d.View
	for _, it := range s.Items[from:] {
		switch v := it.(type) {
		case *Text:
			box = box.Or(v.Box())
		case *Path:
			for _, st := range v.Steps {
				if st.Op == Move || st.Op == Go {
					box = box.Or(Rect{st.P[0].X, st.P[0].Y, 1e-9, 1e-9})
				}
			}
		}
	}
	return box
}

// rows lays out the four sides. Where a number that stands past the end of a side would lie on something of another one, the side
// moves away from the view, or no number stands there.
func (d *Dims) rows() (all [4][]row) {
	var shut [4][2]bool
	var aside [4]float64
	for {
		past := false
		for side := Below; side <= Above; side++ {
			all[side] = d.layout(side, aside[side], shut[side])
			past = past || slices.ContainsFunc(all[side], func(r row) bool { return len(r.beyond) > 0 })
		}
		if !past {
			return all
		}
		var scratch [4]Sheet
		for side := range scratch {
			d.drawSide(&scratch[side], Side(side), all[side])
		}
		side, end, ok := d.clash(all, scratch)
		if !ok {
			return all
		}
		if aside[side] == 0 {
			aside[side] = 2.5
			continue
		}
		shut[side][end], aside[side] = true, 0
	}
}

// clash gives the first end of a side where a number that stands past it lies on something of another side.
func (d *Dims) clash(all [4][]row, drawn [4]Sheet) (side Side, end int, ok bool) {
	for side = range Side(len(all)) {
		for _, r := range all[side] {
			for _, n := range r.beyond {
				b := d.number(side, r, n).Box().Inset(-sheer)
				for other := range drawn {
					if Side(other) != side && meets(&drawn[other], b) {
						if n.to > n.at {
							end = 1
						}
						return side, end, true
					}
				}
			}
		}
	}
	return 0, 0, false
}

// meets tells whether anything of a sheet lies in a rectangle.
func meets(s *Sheet, r Rect) bool {
	return slices.ContainsFunc(s.Items, func(it Item) bool {
		switch v := it.(type) {
		case *Text:
			return v.Box().Meets(r)
		case *Path:
			return v.Strikes(r)
		}
		return false
	})
}

// number is a number that stands on the line of its row.
func (d *Dims) number(side Side, r row, n note) *Text {
	base := r.d - textGap
	if side.outward() {
		base = r.d + textGap
	}
	return &Text{At: d.place(side, n.to, base), Text: n.text, Size: d.size(), Align: Middle, Up: side == Left || side == Right}
}

// place maps a place along a side and a distance from the outline to the sheet.
func (d *Dims) place(side Side, along, dist float64) Point {
	switch side {
	case Below:
		return Point{along, d.View.Bottom() + dist}
	case Above:
		return Point{along, d.View.Y - dist}
	case Left:
		return Point{d.View.X - dist, along}
	}
	return Point{d.View.Right() + dist, along}
}

func (d *Dims) drawSide(s *Sheet, side Side, rows []row) {
	cap := d.size()
	up := side == Left || side == Right
	line := func(l Line, along0, dist0, along1, dist1 float64) {
		s.Poly(l, d.place(side, along0, dist0), d.place(side, along1, dist1))
	}
	// One extension line a place, to the outermost row that needs it.
	type ext struct{ at, to float64 }
	var exts []ext
	for _, r := range rows {
		for _, g := range r.groups {
			for _, t := range g.used() {
				found := false
				for i := range exts {
					if math.Abs(exts[i].at-t) < 0.02 {
						exts[i].to, found = max(exts[i].to, r.d+stub), true
					}
				}
				if !found {
					exts = append(exts, ext{t, r.d + stub})
				}
			}
		}
	}
	slices.SortFunc(exts, func(a, b ext) int { return cmpFloat(a.at, b.at) })
	for _, e := range exts {
		line(Narrow, e.at, 1, e.at, e.to)
	}
	for _, r := range rows {
		for _, g := range r.groups {
			d.drawGroup(s, side, r.d, g)
		}
		for _, n := range slices.Concat(r.inline, r.beyond) {
			t := d.number(side, r, n)
			s.Text(t.At, t.Size, t.Text, t.Align).Up = t.Up
		}
		for _, n := range r.beyond {
			far := n.to - n.w/2
			if n.to > n.at {
				far = n.to + n.w/2
			}
			line(Narrow, n.at, r.d, far, r.d)
		}
		for i, n := range slices.Concat(r.notes, r.far) {
			lane := d.lane(side)
			if i >= len(r.notes) {
				lane += d.further()
			}
			s.Poly(Narrow, d.place(side, n.at, r.d), d.place(side, n.at, r.d+lane-2), d.place(side, n.to, r.d+lane-0.3))
			at := r.d + lane + cap*font.Rise
			if side.outward() {
				at = r.d + lane + 0.8
			}
			s.Text(d.place(side, n.to, at), cap, n.text, Middle).Up = up
		}
		d.drawEnds(s, side, r)
	}
}

// drawEnds sets the numbers of running dimensions, in line with their extension lines: upright
// beside a view, reading upwards above and below it (ISO 129-1).
func (d *Dims) drawEnds(s *Sheet, side Side, r row) {
	cap, past := d.size(), r.past()
	for _, n := range r.ends {
		if past > stub+1 {
			from := r.d + stub
			if n.of != nil { // it states a piece, not a place
				from = r.d
			}
			s.Poly(Narrow, d.place(side, n.at, from), d.place(side, n.to, r.d+past-0.7))
		}
		p := d.place(side, n.to, r.d+past)
		align := Start
		if side == Left || side == Below {
			align = End
		}
		if up := side == Above || side == Below; up {
			p.X += cap / 2
			s.Text(p, cap, n.text, align).Up = true
		} else {
			p.Y += cap / 2
			s.Text(p, cap, n.text, align)
		}
	}
}

// drawGroup draws the dimension line with its arrows.
func (d *Dims) drawGroup(s *Sheet, side Side, dist float64, g *group) {
	at := func(along float64) Point { return d.place(side, along, dist) }
	last := len(g.ticks) - 1
	if g.running {
		s.Poly(Narrow, at(g.ticks[0]), at(g.ticks[last]))
		c := s.Circle(Narrow, at(g.origin), 0.9)
		c.Filled, c.Fill = true, White
		for i, t := range g.ticks {
			if t == g.origin {
				continue
			}
			// towards the tick from the origin's side; a dot where an arrow has no room
			near := g.ticks[max(i-1, 0)]
			if g.ticks[last] == g.origin {
				near = g.ticks[min(i+1, last)]
			}
			if math.Abs(near-t) > ArrowLen+1.1 {
				s.Arrow(at(near), at(t))
			} else {
				s.Dot(at(t), 0.55)
			}
		}
		return
	}
	for i, p := range g.pieces {
		if p.text != "" {
			s.Poly(Narrow, at(g.ticks[i]), at(g.ticks[i+1]))
		}
	}
	const none, small, wide = 0, 1, 2
	kind := func(i int) int {
		switch {
		case i < 0 || i >= len(g.pieces) || g.pieces[i].text == "":
			return none
		case g.ticks[i+1]-g.ticks[i] < roomy-1e-6:
			return small
		}
		return wide
	}
	for i, t := range g.ticks {
		before, after := kind(i-1), kind(i)
		if before == wide {
			s.Arrow(at(t-1), at(t))
		}
		if after == wide {
			s.Arrow(at(t+1), at(t))
		}
		switch {
		case before == small && after == small:
			s.Dot(at(t), 0.55)
		case before == small && after == none:
			s.Poly(Narrow, at(t), at(t+tail))
			s.Arrow(at(t+1), at(t))
		case after == small && before == none:
			s.Poly(Narrow, at(t-tail), at(t))
			s.Arrow(at(t-1), at(t))
		}
	}
}
