package view

import (
	"stowright/internal/draw"
	"stowright/internal/geom"
)

// Round is something that stands round a corner, seen from above in the frame of this wall: lines through corners, so that
// walls need not stand square.
type Round struct {
	Name    string
	Hung    bool
	Outline []geom.Vec   // its four corners
	Leaves  [][]geom.Vec // doors as they stand open: from the pivot to the end
	Ways    [][]geom.Vec // the ways of their ends
}

// paintRound draws what stands round the corners in outline, as far as the plan goes, with its doors open, and gives the
// names that show.
func (c Scene) paintRound(s *draw.Sheet, v draw.View) (names []tab) {
	s.Layer = "Round"
	w := c.Wall
	frame := v.Rect(0, c.reach(), w.Length, 0)
	for _, o := range w.Round {
		shown := false
		line := func(l draw.Line, points []geom.Vec) {
			var run []draw.Point // as long as it stays inside, for dashes begin anew with every line
			end := func() {
				if len(run) > 1 {
					s.Poly(l, run...)
					shown = true
				}
				run = nil
			}
			for i := 1; i < len(points); i++ {
				a, b, ok := clipped(frame, v.At(points[i-1].X, points[i-1].Y), v.At(points[i].X, points[i].Y))
				if !ok || len(run) > 0 && run[len(run)-1] != a {
					end()
				}
				if !ok {
					continue
				}
				if run == nil {
					run = append(run, a)
				}
				run = append(run, b)
			}
			end()
		}
		body := draw.Narrow
		if o.Hung {
			body = draw.Hidden
		}
		line(body, append(o.Outline[:len(o.Outline):len(o.Outline)], o.Outline[0]))
		for _, l := range o.Leaves {
			line(draw.Narrow, l)
		}
		for _, l := range o.Ways {
			line(draw.Ghost, l)
		}
		if shown && !o.Hung {
			in := draw.Rect{X: frame.Right(), Y: frame.Bottom()} // what of it shows
			far := draw.Pt(frame.X, frame.Y)
			for _, p := range o.Outline {
				q := v.At(p.X, p.Y)
				q = draw.Pt(min(max(q.X, frame.X), frame.Right()), min(max(q.Y, frame.Y), frame.Bottom()))
				in.X, in.Y, far = min(in.X, q.X), min(in.Y, q.Y), draw.Pt(max(far.X, q.X), max(far.Y, q.Y))
			}
			seen := draw.Rect{X: in.X, Y: in.Y, W: far.X - in.X, H: far.Y - in.Y}
			names = append(names, tab{o.Name, seen, seen.Mid(), ""})
		}
	}
	s.Layer = ""
	return names
}

// clipped gives what of a stretch lies in a rectangle (Liang and Barsky); false for nothing.
func clipped(r draw.Rect, a, b draw.Point) (draw.Point, draw.Point, bool) {
	d := b.Sub(a)
	lo, hi := 0.0, 1.0
	for _, e := range [4][2]float64{{-d.X, a.X - r.X}, {d.X, r.Right() - a.X}, {-d.Y, a.Y - r.Y}, {d.Y, r.Bottom() - a.Y}} {
		switch p, q := e[0], e[1]; {
		case p == 0:
			if q < 0 {
				return a, b, false
			}
		case p < 0:
			lo = max(lo, q/p)
		default:
			hi = min(hi, q/p)
		}
	}
	if lo >= hi {
		return a, b, false
	}
	return a.Add(d.Times(lo)), a.Add(d.Times(hi)), true
}
