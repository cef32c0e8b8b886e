package place

import (
	"cmp"

	"stowright/internal/geom"
)

// standing seats what is already there. Heights of standing cases and counters of one wall
// are from the floor's high point under all of them, those of other things from the high
// point under each.
func (l *layout) standing() {
	type reach struct{ lo, hi, deep L }
	group := map[string]reach{}
	for _, n := range l.job.Standing {
		s := n.Value
		w := l.wallOf(s.Wall)
		if s.Kind == "cupboard" || s.Kind == "machine" || s.Kind == "other" {
			continue
		}
		g, ok := group[w.ID]
		if !ok {
			g = reach{s.From, s.To, s.Depth}
		}
		group[w.ID] = reach{min(g.lo, s.From), max(g.hi, s.To), max(g.deep, s.Depth)}
	}
	for _, n := range l.job.Standing {
		s := n.Value
		w := l.wallOf(s.Wall)
		g := reach{s.From, s.To, s.Depth}
		if s.Kind == "" || s.Kind == "case" || s.Kind == "counter" {
			g = group[w.ID]
		}
		level := w.High(g.lo, g.hi, -g.deep, 0)
		bottom := level
		if s.Bottom != nil {
			bottom += *s.Bottom
		} else if s.Clear != nil {
			bottom += *s.Clear
		}
		hung := s.Bottom != nil && *s.Bottom > 0 && s.Kind != "counter"
		l.add(Seat{ID: n.ID, Kind: Standing, Name: cmp.Or(s.Name, n.ID), Wall: w.ID, Level: level, Top: level + s.Top, Hung: hung, Sides: s.Kind == "" || s.Kind == "case" || s.Kind == "cupboard" && s.Board != nil,
			Box: geom.B(s.From, -s.Depth, bottom, s.To, 0, level+s.Top)})
	}
}
