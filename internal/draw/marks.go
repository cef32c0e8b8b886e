package draw

import (
	"cmp"
	"math"
	"slices"

	"stowright/internal/draw/font"
)

// Mark is a short name that points at a place in a view.
type Mark struct {
	Text string
	At   Point
	Link string // anchor that the mark leads to; may be empty
	Over bool   // stands on the farther one of left and right, for what is hemmed in on its own
}

// Marks stands marks around a view, outside of it, each on a straight leader with a dot at
// its place (ISO 6433). Leaders never cross each other and never run under another mark. It
// returns the area that view and marks take. Nearby marks go to the left and right; when
// those sides are full, above and below too.
func (s *Sheet) Marks(view Rect, marks []Mark) Rect {
	was := s.Layer
	s.Layer = "Marks"
	defer func() { s.Layer = was }()
	box := view
	for _, c := range Around(view, marks) {
		m := marks[c.Mark]
		s.Leader(false, c.From, m.At)
		s.Pill(c.Box, m.Text, LeastCap)
		if m.Link != "" {
			s.Link(c.Box, m.Link)
		}
		box = box.Or(c.Box)
	}
	return box
}

// Callout is where a mark stands and where its leader begins.
type Callout struct {
	Mark int // its index
	Box  Rect
	From Point
}

// Around gives where Marks stands marks around a view.
func Around(view Rect, marks []Mark) []Callout {
	if len(marks) == 0 {
		return nil
	}
	const size, away, gap = LeastCap, 6.0, 1.6
	h := size + 2.2
	wide := 0.0
	widths := make([]float64, len(marks))
	for i, m := range marks {
		t := Text{Text: m.Text, Size: size, Bold: true}
		widths[i] = t.Width() + 3.2
		wide = max(wide, widths[i])
	}
	pitch := [4]float64{Below: wide + gap, Above: wide + gap, Left: h + gap, Right: h + gap}
	room := func(side Side) int {
		if side == Left || side == Right {
			return int(view.H / pitch[side])
		}
		return int((view.W - wide) / pitch[side])
	}
	left := [4]int{Left: room(Left), Right: room(Right)}
	if left[Left]+left[Right] < len(marks) {
		left[Above], left[Below] = max(0, room(Above)), max(0, room(Below))
		if left[Left]+left[Right]+left[Above]+left[Below] < len(marks) {
			// Too many for the four sides: two tall columns, which may pass the view's ends.
			left = [4]int{Left: (len(marks) + 1) / 2, Right: (len(marks) + 1) / 2}
		}
	}
	// Each mark goes to the nearest side with room; those nearest to any side choose first.
	dist := func(m Mark, side Side) float64 {
		switch side {
		case Left:
			return m.At.X - view.X
		case Right:
			return view.Right() - m.At.X
		case Above:
			return m.At.Y - view.Y
		}
		return view.Bottom() - m.At.Y
	}
	order := make([]int, len(marks))
	for i := range order {
		order[i] = i
	}
	near := func(m Mark) float64 {
		return min(dist(m, Left), dist(m, Right))
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmpFloat(near(marks[a]), near(marks[b])) })
	var sides [4][]int
	for _, i := range order { // those that were told where they go
		if marks[i].Over {
			side := Right
			if dist(marks[i], Left) > dist(marks[i], Right) {
				side = Left
			}
			left[side]--
			sides[side] = append(sides[side], i)
		}
	}
	for _, i := range order {
		if marks[i].Over {
			continue
		}
		best, bestD := Left, math.Inf(1)
		for _, side := range []Side{Left, Right, Above, Below} {
			if left[side] > 0 && dist(marks[i], side) < bestD-1e-9 {
				best, bestD = side, dist(marks[i], side)
			}
		}
		left[best]--
		sides[best] = append(sides[best], i)
	}
	// Ports along each side, as near to their places as the pitch allows.
	type port struct {
		side  Side
		along float64
		mark  int
	}
	var ports []port
	for side := Below; side <= Above; side++ {
		ids := sides[side]
		along := func(i int) float64 {
			if side == Left || side == Right {
				return marks[i].At.Y
			}
			return marks[i].At.X
		}
		slices.SortStableFunc(ids, func(a, b int) int { return cmpFloat(along(a), along(b)) })
		lo, hi := view.X+wide/2, view.Right()-wide/2
		if side == Left || side == Right {
			lo, hi = view.Y+h/2, view.Bottom()-h/2
		}
		want := make([]float64, len(ids))
		for k, i := range ids {
			want[k] = along(i)
		}
		for k, at := range evenly(want, pitch[side], lo, hi) {
			ports = append(ports, port{side, at, ids[k]})
		}
	}
	end := func(p port) Point {
		switch p.side {
		case Left:
			return Point{view.X - away, p.along}
		case Right:
			return Point{view.Right() + away, p.along}
		case Above:
			return Point{p.along, view.Y - away}
		}
		return Point{p.along, view.Bottom() + away}
	}
	// Two leaders that cross change marks: together they grow shorter, so this ends.
	for pass := 0; pass < 10*len(ports)+10; pass++ {
		crossed := false
		for i := range ports {
			for k := i + 1; k < len(ports); k++ {
				a, b := &ports[i], &ports[k]
				if Cross(end(*a), marks[a.mark].At, end(*b), marks[b.mark].At) {
					a.mark, b.mark = b.mark, a.mark
					crossed = true
				}
			}
		}
		if !crossed {
			break
		}
	}
	out := make([]Callout, len(ports))
	for i, p := range ports {
		e, w := end(p), widths[p.mark]
		var r Rect
		switch p.side {
		case Left:
			r = Rect{e.X - w, e.Y - h/2, w, h}
		case Right:
			r = Rect{e.X, e.Y - h/2, w, h}
		case Above:
			r = Rect{e.X - w/2, e.Y - h, w, h}
		case Below:
			r = Rect{e.X - w/2, e.Y, w, h}
		}
		out[i] = Callout{p.mark, r, e}
	}
	return out
}

// Lane stands short texts in a row above or below a view, reading upwards, each on a leader that begins at its place and ends at
// the height y; no text covers another and no leader crosses another. It returns the area that the texts take.
func (s *Sheet) Lane(side Side, y float64, marks []Mark, bold bool) (box Rect) {
	marks = slices.Clone(marks)
	slices.SortStableFunc(marks, func(a, b Mark) int { return cmp.Or(cmpFloat(a.At.X, b.At.X), cmpFloat(a.At.Y, b.At.Y)) })
	want := make([]float64, len(marks))
	for i, m := range marks {
		want[i] = m.At.X
	}
	at := evenly(want, LeastCap*(font.Rise+font.Drop)+0.5, math.Inf(-1), math.Inf(1))
	for crossed := true; crossed; { // two that cross change places: together they grow shorter, so this ends
		crossed = false
		for i := range marks {
			for k := i + 1; k < len(marks); k++ {
				if Cross(marks[i].At, Pt(at[i], y), marks[k].At, Pt(at[k], y)) {
					marks[i], marks[k], crossed = marks[k], marks[i], true
				}
			}
		}
	}
	for i, m := range marks {
		s.Poly(Fine, m.At, Pt(at[i], y))
		foot, align := y-0.8, Start
		if side == Below {
			foot, align = y+0.8, End
		}
		t := s.Text(Pt(at[i]+LeastCap/2, foot), LeastCap, m.Text, align)
		t.Up, t.Bold = true, bold
		box = box.Or(t.Box())
	}
	return box
}

// Pill draws a mark in a rounded outline.
func (s *Sheet) Pill(r Rect, text string, size float64) {
	rad := min(r.H/2, r.W/2)
	p := &Path{Line: Narrow, Filled: true, Fill: White, Layer: s.Layer}
	p.Arc(Pt(r.X+rad, r.Y+r.H/2), rad, math.Pi/2, 3*math.Pi/2)
	n := len(p.Steps)
	p.Arc(Pt(r.Right()-rad, r.Y+r.H/2), rad, -math.Pi/2, math.Pi/2)
	p.Steps[n].Op = Go
	p.Steps = append(p.Steps, Step{Op: Close})
	s.Add(p)
	t := s.Text(Pt(r.X+r.W/2, r.Y+r.H/2+size/2), size, text, Middle)
	t.Bold = true
}

// evenly moves sorted wishes apart to at least pitch, as little as can be, within lo to hi
// when they fit there.
func evenly(want []float64, pitch, lo, hi float64) []float64 {
	type block struct {
		sum float64 // of wish minus offset
		n   int
	}
	start := func(b block) float64 { return b.sum / float64(b.n) }
	var bs []block
	for _, w := range want {
		bs = append(bs, block{w, 1})
		for len(bs) > 1 {
			a, b := bs[len(bs)-2], bs[len(bs)-1]
			if start(a)+float64(a.n)*pitch <= start(b) {
				break
			}
			bs = bs[:len(bs)-1]
			bs[len(bs)-1] = block{a.sum + b.sum - float64(a.n*b.n)*pitch, a.n + b.n}
		}
	}
	var out []float64
	for _, b := range bs {
		for i := range b.n {
			out = append(out, start(b)+float64(i)*pitch)
		}
	}
	n := len(out)
	if n == 0 {
		return nil
	}
	if need := float64(n-1) * pitch; need > hi-lo {
		m := (lo + hi) / 2
		for i := range out {
			out[i] = m - need/2 + float64(i)*pitch
		}
		return out
	}
	for i := range out { // push in from the near end, then from the far end
		least := lo
		if i > 0 {
			least = out[i-1] + pitch
		}
		out[i] = max(out[i], least)
	}
	for i := n - 1; i >= 0; i-- {
		most := hi
		if i < n-1 {
			most = out[i+1] - pitch
		}
		out[i] = min(out[i], most)
	}
	return out
}

// Cross tells whether segments ab and cd cross at an inner point of both.
func Cross(a, b, c, d Point) bool {
	turn := func(p, q, r Point) float64 { return (q.X-p.X)*(r.Y-p.Y) - (q.Y-p.Y)*(r.X-p.X) }
	const eps = 1e-9
	t1, t2 := turn(a, b, c), turn(a, b, d)
	t3, t4 := turn(c, d, a), turn(c, d, b)
	return ((t1 > eps && t2 < -eps) || (t1 < -eps && t2 > eps)) && ((t3 > eps && t4 < -eps) || (t3 < -eps && t4 > eps))
}
