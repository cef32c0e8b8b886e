package draw

import (
	"math"
	"slices"

	"stowright/internal/draw/font"
)

// Side is the side of a view that dimensions stand on.
type Side uint8

// The sides.
const (
	Below Side = iota
	Left
	Right
	Above
)

// Dims lays out the dimensions of one view after ISO 129-1. Requests give places along a
// side in mm on paper and the texts to print; the layout puts shorter ones nearer the view,
// each request in one row, no row over another, every size (the same two places along the
// same direction) once: the first request keeps it. Numbers stand above their line and are
// read from the bottom or the right; where a gap is too small for its number, the number
// stands outside on a short leader.
type Dims struct {
	View Rect    // the outline on paper that the rows keep away from
	Size float64 // height of capitals; 0 means LeastCap

	groups []group
	feet   []foot
}

// group is what stands in one row: ticks ascending, piece i between ticks i and i+1.
type group struct {
	side    Side
	ticks   []float64
	pieces  []piece
	running bool // numbers belong to ticks and count from the origin
	origin  float64
	row     int
}

type piece struct {
	text string // empty: not drawn
	w    float64
}

type foot struct {
	side Side
	at   float64
	from float64
}

func (d *Dims) size() float64 { return max(d.Size, LeastCap) }

// Foot says where the extension line at a place begins, when the thing measured does not
// reach the view's outline: from is a y for places below and above, an x for left and right.
func (d *Dims) Foot(side Side, at, from float64) { d.feet = append(d.feet, foot{side, at, from}) }

// Chain asks for a row of adjoining dimensions: texts[i] between at[i] and at[i+1]. An
// empty text leaves its piece out.
func (d *Dims) Chain(side Side, at []float64, texts []string) {
	if len(at) < 2 {
		return
	}
	if len(texts) != len(at)-1 {
		panic("draw: a chain of dimensions needs one text a gap")
	}
	at, texts = slices.Clone(at), slices.Clone(texts)
	if at[0] > at[len(at)-1] {
		slices.Reverse(at)
		slices.Reverse(texts)
	}
	g := group{side: side, ticks: at}
	some := false
	for i, t := range texts {
		if at[i+1]-at[i] < 0.005 || d.taken(side, at[i], at[i+1], g.pieces, at) {
			t = ""
		}
		some = some || t != ""
		g.pieces = append(g.pieces, piece{t, font.Width(t, false, d.size())})
	}
	if some {
		d.groups = append(d.groups, g)
	}
}

// Single asks for one dimension.
func (d *Dims) Single(side Side, from, to float64, text string) {
	d.Chain(side, []float64{from, to}, []string{text})
}

// Baseline asks for dimensions that all start at origin, each in a row of its own.
func (d *Dims) Baseline(side Side, origin float64, at []float64, texts []string) {
	for i, a := range at {
		d.Single(side, origin, a, texts[i])
	}
}

// Running asks for one row in which every number is the distance from origin, where the
// tape is hooked (superimposed running dimensions of ISO 129-1): a small circle at the
// origin, an arrow at every place. All places lie on one side of the origin.
func (d *Dims) Running(side Side, origin float64, at []float64, texts []string) {
	g := group{side: side, running: true, origin: origin}
	type stop struct {
		at   float64
		text string
	}
	var stops []stop
	for i, a := range at {
		if math.Abs(a-origin) >= 0.005 && !d.taken(side, min(a, origin), max(a, origin), nil, nil) {
			stops = append(stops, stop{a, texts[i]})
		}
	}
	if len(stops) == 0 {
		return
	}
	slices.SortStableFunc(stops, func(a, b stop) int { return cmpFloat(a.at, b.at) })
	up := stops[0].at > origin
	if up {
		g.ticks = append(g.ticks, origin)
	}
	for _, s := range stops {
		g.ticks = append(g.ticks, s.at)
		g.pieces = append(g.pieces, piece{s.text, font.Width(s.text, false, d.size())})
	}
	if !up {
		g.ticks = append(g.ticks, origin)
	}
	d.groups = append(d.groups, g)
}

func cmpFloat(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// taken tells whether the size between a and b is already asked for along this direction.
func (d *Dims) taken(side Side, a, b float64, own []piece, at []float64) bool {
	same := func(x, y float64) bool { return math.Abs(x-y) < 0.02 }
	lying := func(s Side) bool { return s == Below || s == Above }
	for _, g := range d.groups {
		if lying(g.side) != lying(side) {
			continue
		}
		for i, p := range g.pieces {
			if p.text == "" {
				continue
			}
			lo, hi := g.span(i)
			if same(lo, a) && same(hi, b) {
				return true
			}
		}
	}
	for i, p := range own {
		if p.text != "" && same(at[i], a) && same(at[i+1], b) {
			return true
		}
	}
	return false
}

// span gives the two places whose distance piece i states.
func (g *group) span(i int) (lo, hi float64) {
	if !g.running {
		return g.ticks[i], g.ticks[i+1]
	}
	if g.ticks[0] == g.origin {
		return g.origin, g.ticks[i+1]
	}
	return g.ticks[i], g.origin
}

// Distances in mm.
const (
	firstRow  = 8.0 // least from the outline to the first line
	nextRow   = 7.0 // least between lines
	textGap   = 1.0 // between line and number
	stub      = 1.8 // extension line past the dimension line
	clearance = 1.4 // between what one row prints and the next
	roomy     = 2*ArrowLen + 1.2
	tail      = ArrowLen + 2.2 // line of an arrow that stands outside
	sheer     = 0.7            // between a number and a line that passes it
)

// outward tells on which side of its line a number stands: away from the view, or to it.
func (s Side) outward() bool { return s == Above || s == Left }

// note is a number that stands outside on a leader.
type note struct {
	text      string
	w, at, to float64 // width, where its leader starts, where its middle is
}

// row is the layout of one row of one side.
type row struct {
	groups []*group
	d      float64 // distance of the line from the outline
	notes  []note
	inline []note // to is the middle
}

// Draw lays the dimensions out, adds them to the sheet on the layer "Dimensions" and
// returns the area they and the view take.
func (d *Dims) Draw(s *Sheet) Rect {
	was := s.Layer
	s.Layer = "Dimensions"
	defer func() { s.Layer = was }()
	from := len(s.Items)
	for side := Below; side <= Above; side++ {
		d.drawSide(s, side, d.layout(side))
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

// Margins tells how far the dimensions reach beyond the view on each side.
func (d *Dims) Margins() (left, above, right, below float64) {
	var scratch Sheet
	b := d.Draw(&scratch)
	return d.View.X - b.X, d.View.Y - b.Y, b.Right() - d.View.Right(), b.Bottom() - d.View.Bottom()
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

// reach is the stretch of its row that a group needs, outside arrows included.
func (g *group) reach() (lo, hi float64) {
	n := len(g.ticks)
	lo, hi = g.ticks[0], g.ticks[n-1]
	if !g.running {
		if g.pieces[0].text != "" && g.ticks[1]-g.ticks[0] < roomy {
			lo -= tail
		}
		if g.pieces[n-2].text != "" && g.ticks[n-1]-g.ticks[n-2] < roomy {
			hi += tail
		}
	}
	return lo, hi
}

func (d *Dims) layout(side Side) (rows []row) {
	var gs []*group
	for i := range d.groups {
		if d.groups[i].side == side {
			gs = append(gs, &d.groups[i])
		}
	}
	slices.SortStableFunc(gs, func(a, b *group) int {
		la := math.Round((a.ticks[len(a.ticks)-1]-a.ticks[0])*50) / 50
		lb := math.Round((b.ticks[len(b.ticks)-1]-b.ticks[0])*50) / 50
		return cmpFloat(la, lb)
	})
	for i, g := range gs {
		g.row = 0
		lo, hi := g.reach()
		for _, e := range gs[:i] {
			a, b := e.reach()
			if lo < b-0.01 && a < hi-0.01 {
				g.row = max(g.row, e.row+1)
			}
		}
		for len(rows) <= g.row {
			rows = append(rows, row{})
		}
		rows[g.row].groups = append(rows[g.row].groups, g)
	}
	cap := d.size()
	prevOut := 0.0
	for k := range rows {
		r := &rows[k]
		// Extension lines of rows further out pass through this row.
		var pass []float64
		for _, out := range rows[k+1:] {
			for _, g := range out.groups {
				pass = append(pass, g.used()...)
			}
		}
		for _, g := range r.groups {
			d.numbers(r, g, pass)
		}
		spread(r.notes, pass)
		in, out := 0.0, stub
		if side.outward() {
			out = textGap + cap*font.Rise
		} else {
			in = textGap + cap*font.Rise
		}
		if len(r.notes) > 0 {
			out = d.lane(side) + 0.8 + cap*font.Rise
		}
		if k == 0 {
			r.d = max(firstRow, in+clearance+1)
		} else {
			r.d = rows[k-1].d + max(nextRow, prevOut+clearance+in)
		}
		prevOut = out
	}
	return rows
}

// lane is how far beyond its line a number on a leader begins.
func (d *Dims) lane(side Side) float64 {
	if side.outward() {
		return textGap + d.size()*font.Rise + 2
	}
	return stub + 2
}

// used gives the ticks that a drawn piece ends at.
func (g *group) used() []float64 {
	var out []float64
	for i, t := range g.ticks {
		if g.running || (i > 0 && g.pieces[i-1].text != "") || (i < len(g.pieces) && g.pieces[i].text != "") {
			out = append(out, t)
		}
	}
	return out
}

// numbers decides for every number of a group whether it stands on its line or outside.
func (d *Dims) numbers(r *row, g *group, pass []float64) {
	for i, p := range g.pieces {
		if p.text == "" {
			continue
		}
		a, b := g.ticks[i], g.ticks[i+1]
		want, from := (a+b)/2, (a+b)/2
		if g.running { // by its arrow
			if g.ticks[0] == g.origin {
				from, want = b, b-sheer-p.w/2-ArrowLen*0.4
			} else {
				from, want = a, a+sheer+p.w/2+ArrowLen*0.4
			}
		}
		if g.running { // clear of the circle at the origin
			if a == g.origin {
				a += 1.1
			}
			if b == g.origin {
				b -= 1.1
			}
		}
		if at, ok := slide(want, p.w, a, b, pass); ok {
			r.inline = append(r.inline, note{text: p.text, w: p.w, to: at})
		} else {
			r.notes = append(r.notes, note{text: p.text, w: p.w, at: from, to: from})
		}
	}
}

// slide finds the place nearest to want for the middle of a text of width w between a and
// b that no passing line strikes.
func slide(want, w, a, b float64, pass []float64) (float64, bool) {
	lo, hi := a+0.5+w/2, b-0.5-w/2
	if lo > hi {
		return 0, false
	}
	best, found := 0.0, false
	try := func(c float64) {
		if c < lo-1e-9 || c > hi+1e-9 {
			return
		}
		for _, t := range pass {
			if t > c-w/2-sheer+1e-9 && t < c+w/2+sheer-1e-9 {
				return
			}
		}
		if !found || math.Abs(c-want) < math.Abs(best-want)-1e-6 {
			best, found = c, true
		}
	}
	try(min(max(want, lo), hi))
	try(lo)
	try(hi)
	for _, t := range pass {
		try(t - w/2 - sheer)
		try(t + w/2 + sheer)
	}
	return best, found
}

// spread moves the numbers outside along their lane, in order, each as near as can be to
// where its leader starts, none over another or over a passing line: the least sum of
// squared moves over steps of half a millimetre.
func spread(notes []note, pass []float64) {
	if len(notes) == 0 {
		return
	}
	slices.SortStableFunc(notes, func(a, b note) int { return cmpFloat(a.at, b.at) })
	const half, step, gap = 160, 0.5, 1.6
	for _, strict := range []bool{true, false} {
		cost := make([][]float64, len(notes))
		from := make([][]int, len(notes))
		for i, n := range notes {
			cost[i], from[i] = make([]float64, 2*half+1), make([]int, 2*half+1)
			best, bestAt, next := math.Inf(1), -1, 0
			for k := range cost[i] {
				c := n.at + float64(k-half)*step
				own := (c - n.at) * (c - n.at)
				for _, t := range pass {
					hit := t > c-n.w/2-sheer+1e-6 && t < c+n.w/2+sheer-1e-6
					crossed := t > min(c, n.at)+1e-6 && t < max(c, n.at)-1e-6
					if hit && strict {
						own = math.Inf(1)
					} else if hit || crossed {
						own += 400
					}
				}
				if i > 0 { // the best place of the one before that leaves room
					p := notes[i-1]
					for next < len(cost[i-1]) && p.at+float64(next-half)*step+p.w/2+gap <= c-n.w/2+1e-9 {
						if cost[i-1][next] < best-1e-6 { // not by the noise of where on the sheet it stands
							best, bestAt = cost[i-1][next], next
						}
						next++
					}
					own += best
				}
				cost[i][k], from[i][k] = own, bestAt
			}
		}
		last := len(notes) - 1
		k := 0
		for j, c := range cost[last] {
			if c < cost[last][k]-1e-6 {
				k = j
			}
		}
		if math.IsInf(cost[last][k], 1) {
			continue
		}
		for i := last; i >= 0; i-- {
			notes[i].to = notes[i].at + float64(k-half)*step
			k = from[i][k]
		}
		return
	}
	// More than the lane holds: set them side by side without regard to distance.
	at := notes[0].at - notes[0].w/2
	for i := range notes {
		notes[i].to = at + notes[i].w/2
		at += notes[i].w + gap
	}
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
		from := 1.0
		for _, f := range d.feet {
			if f.side == side && math.Abs(f.at-e.at) < 0.02 {
				switch side {
				case Below:
					from = f.from - d.View.Bottom() + 1
				case Above:
					from = d.View.Y - f.from + 1
				case Left:
					from = d.View.X - f.from + 1
				case Right:
					from = f.from - d.View.Right() + 1
				}
			}
		}
		line(Narrow, e.at, from, e.at, e.to)
	}
	for _, r := range rows {
		for _, g := range r.groups {
			d.drawGroup(s, side, r.d, g)
		}
		base := r.d - textGap
		if side.outward() {
			base = r.d + textGap
		}
		for _, n := range r.inline {
			s.Text(d.place(side, n.to, base), cap, n.text, Middle).Up = up
		}
		lane := d.lane(side)
		for _, n := range r.notes {
			s.Poly(Narrow, d.place(side, n.at, r.d), d.place(side, n.at, r.d+lane-2), d.place(side, n.to, r.d+lane-0.3))
			at := r.d + lane + cap*font.Rise
			if side.outward() {
				at = r.d + lane + 0.8
			}
			s.Text(d.place(side, n.to, at), cap, n.text, Middle).Up = up
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
		case g.ticks[i+1]-g.ticks[i] < roomy:
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
