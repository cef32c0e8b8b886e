package draw

import (
	"math"
	"slices"

	"rsc.io/qr"

	"stowright/internal/draw/font"
)

// Poly adds an open line through points.
func (s *Sheet) Poly(l Line, pts ...Point) *Path { return s.poly(l, false, pts) }

// Shape adds a closed line through points. Set Filled and Fill on the result to fill it.
func (s *Sheet) Shape(l Line, pts ...Point) *Path { return s.poly(l, true, pts) }

func (s *Sheet) poly(l Line, closed bool, pts []Point) *Path {
	p := &Path{Line: l, Layer: s.Layer}
	p.Poly(closed, pts...)
	s.Add(p)
	return p
}

// Poly adds one more line through points to the path.
func (p *Path) Poly(closed bool, pts ...Point) {
	p.Steps = slices.Grow(p.Steps, len(pts)+1)
	for i, q := range pts {
		op := Go
		if i == 0 {
			op = Move
		}
		p.Steps = append(p.Steps, Step{op, [3]Point{q}})
	}
	if closed && len(pts) > 0 {
		p.Steps = append(p.Steps, Step{Op: Close})
	}
}

// Corners of r, clockwise on paper from the top left.
func (r Rect) Corners() []Point {
	return []Point{{r.X, r.Y}, {r.Right(), r.Y}, {r.Right(), r.Bottom()}, {r.X, r.Bottom()}}
}

// Rect adds a rectangle.
func (s *Sheet) Rect(l Line, r Rect) *Path { return s.Shape(l, r.Corners()...) }

// Area adds a filled area without a line.
func (s *Sheet) Area(fill Ink, pts ...Point) *Path {
	p := s.Shape(NoLine, pts...)
	p.Filled, p.Fill = true, fill
	return p
}

// Circle adds a circle.
func (s *Sheet) Circle(l Line, c Point, r float64) *Path {
	p := &Path{Line: l, Layer: s.Layer}
	p.Arc(c, r, 0, 2*math.Pi)
	p.Steps = append(p.Steps, Step{Op: Close})
	s.Add(p)
	return p
}

// Arc adds an open arc about c from angle a to angle b in radians, measured from the
// right and turning clockwise on paper when b > a.
func (s *Sheet) Arc(l Line, c Point, r, a, b float64) *Path {
	p := &Path{Line: l, Layer: s.Layer}
	p.Arc(c, r, a, b)
	s.Add(p)
	return p
}

// Arc adds an arc to the path; see Sheet.Arc.
func (p *Path) Arc(c Point, r, a, b float64) {
	n := int(math.Ceil(math.Abs(b-a)/(math.Pi/2) - 1e-9))
	if n < 1 {
		return
	}
	at := func(t float64) Point { return Point{c.X + r*math.Cos(t), c.Y + r*math.Sin(t)} }
	tan := func(t float64) Point { return Point{-math.Sin(t), math.Cos(t)} }
	step := (b - a) / float64(n)
	k := 4.0 / 3 * math.Tan(step/4) * r
	p.Steps = append(p.Steps, Step{Move, [3]Point{at(a)}})
	for i := range n {
		t0 := a + float64(i)*step
		t1 := t0 + step
		p.Steps = append(p.Steps, Step{Curve, [3]Point{
			at(t0).Add(tan(t0).Times(k)), at(t1).Sub(tan(t1).Times(k)), at(t1)}})
	}
}

// Text adds one line of text at a point of its baseline; size is the capitals' height.
func (s *Sheet) Text(at Point, size float64, text string, a Align) *Text {
	t := &Text{At: at, Text: font.Clean(text), Size: size, Align: a, Layer: s.Layer}
	s.Add(t)
	return t
}

// Link makes an area lead to an anchor.
func (s *Sheet) Link(area Rect, to string) { s.Add(&Link{Area: area, To: to}) }

// Anchor names a place.
func (s *Sheet) Anchor(name string, at Point) { s.Add(&Anchor{Name: name, At: at}) }

// Arrow sizes in mm, after ISO 129-1: slender, filled.
const (
	ArrowLen  = 2.5
	arrowHalf = 0.42
)

// Arrow adds a filled arrow head with its tip at tip, coming from the side of from.
func (s *Sheet) Arrow(from, tip Point) {
	d := tip.Sub(from)
	n := d.Len()
	if n == 0 {
		return
	}
	d = d.Times(1 / n)
	w := Point{-d.Y, d.X}.Times(arrowHalf)
	b := tip.Sub(d.Times(ArrowLen))
	s.Area(Black, tip, b.Add(w), b.Sub(w))
}

// Dot adds a filled dot: the end of a leader inside an outline.
func (s *Sheet) Dot(c Point, r float64) {
	p := s.Circle(NoLine, c, r)
	p.Filled = true
}

// Leader adds a narrow line from a text to the thing it speaks of: a dot ends it inside an
// outline, an arrow on an edge (ISO 128-2).
func (s *Sheet) Leader(onEdge bool, pts ...Point) {
	s.Poly(Narrow, pts...)
	if n := len(pts); n > 1 {
		if onEdge {
			s.Arrow(pts[n-2], pts[n-1])
		} else {
			s.Dot(pts[n-1], 0.6)
		}
	}
}

// Checkbox adds an empty box to tick, its lower left corner at at.
func (s *Sheet) Checkbox(at Point, size float64) {
	s.Rect(Narrow, Rect{at.X, at.Y - size, size, size})
}

// QR adds a code that holds text, in r's largest square, with its quiet zone of four
// modules inside. It reports false, and draws nothing, when text is too long for a code.
func (s *Sheet) QR(r Rect, text string) bool {
	code, err := qr.Encode(text, qr.M)
	if err != nil {
		return false
	}
	const quiet = 4
	side := min(r.W, r.H)
	m := side / float64(code.Size+2*quiet)
	p := &Path{Filled: true, Layer: s.Layer}
	for y := range code.Size {
		for x := 0; x < code.Size; {
			if !code.Black(x, y) {
				x++
				continue
			}
			x0 := x
			for x < code.Size && code.Black(x, y) {
				x++
			}
			// rows overlap a hair, so that no viewer shows seams between them
			p.Poly(true, Rect{r.X + m*float64(quiet+x0), r.Y + m*float64(quiet+y), m * float64(x-x0), m}.Corners()...)
		}
	}
	s.Add(p)
	return true
}

// Strikes tells whether the path's line passes through r. Curves are taken as their chords in
// eight pieces.
func (p *Path) Strikes(r Rect) bool {
	if p.Line == NoLine {
		return false
	}
	r = r.Inset(-p.Line.Width() / 2)
	var at, start Point
	for _, st := range p.Steps {
		switch st.Op {
		case Move:
			at, start = st.P[0], st.P[0]
		case Go:
			if r.Struck(at, st.P[0]) {
				return true
			}
			at = st.P[0]
		case Curve:
			if r.Inset(-1e-6).beside(at, st.P[0], st.P[1], st.P[2]) {
				at = st.P[2]
				continue
			}
			from := at
			for k := 1; k <= 8; k++ {
				t := float64(k) / 8
				u := 1 - t
				to := from.Times(u * u * u).Add(st.P[0].Times(3 * u * u * t)).Add(st.P[1].Times(3 * u * t * t)).Add(st.P[2].Times(t * t * t))
				if r.Struck(at, to) {
					return true
				}
				at = to
			}
		case Close:
			if r.Struck(at, start) {
				return true
			}
			at = start
		}
	}
	return false
}

// beside tells whether all that is between four points lies on one side of r, as most does.
func (r Rect) beside(a, b, c, d Point) bool {
	return max(a.X, b.X, c.X, d.X) < r.X || min(a.X, b.X, c.X, d.X) > r.Right() || max(a.Y, b.Y, c.Y, d.Y) < r.Y || min(a.Y, b.Y, c.Y, d.Y) > r.Bottom()
}

// Struck tells whether segment ab passes through the inside of r (Liang and Barsky).
func (r Rect) Struck(a, b Point) bool {
	if max(a.X, b.X) <= r.X || min(a.X, b.X) >= r.Right() || max(a.Y, b.Y) <= r.Y || min(a.Y, b.Y) >= r.Bottom() {
		return false // beside it, as most are
	}
	t0, t1 := 0.0, 1.0
	d := b.Sub(a)
	for _, c := range [4][2]float64{{-d.X, a.X - r.X}, {d.X, r.Right() - a.X}, {-d.Y, a.Y - r.Y}, {d.Y, r.Bottom() - a.Y}} {
		switch {
		case c[0] == 0:
			if c[1] <= 0 {
				return false
			}
		case c[0] < 0:
			t0 = max(t0, c[1]/c[0])
		default:
			t1 = min(t1, c[1]/c[0])
		}
	}
	return t0 < t1
}
