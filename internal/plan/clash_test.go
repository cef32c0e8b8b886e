package plan_test

import (
	"fmt"
	"math"
	"strings"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/rules"
)

// clashes compares what is told to take the same room with what does, over all walls and corners of
// any angle: neither is a clash told that is none, nor is one round a corner left out. Boxes are turned
// as they stand and held against each other by their sides (separating axes), in floating point: nothing
// of it is shared with the rules.
func clashes(r *plan.Result) (bad []string) {
	owner := map[string]part.Owner{}
	parts := map[string][]slab{}
	for _, o := range r.Assembly.Owners {
		owner[o.ID] = o
		for _, p := range r.Assembly.Parts {
			if p.Owner == o.ID {
				parts[o.ID] = append(parts[o.ID], turned(r, o.Wall, p.Box()))
			}
		}
		if len(parts[o.ID]) == 0 {
			parts[o.ID] = []slab{turned(r, o.Wall, o.Box)}
		}
	}
	share := func(a, b string, slack float64) bool {
		for _, p := range parts[a] {
			for _, q := range parts[b] {
				if p.shares(q, slack) {
					return true
				}
			}
		}
		return false
	}
	told := map[[2]string]bool{}
	for _, f := range r.Findings {
		names, _, ok := strings.Cut(f.Text, " take the same room")
		if f.Code != rules.Clash || !ok {
			continue
		}
		names = names[strings.LastIndex(names, ": ")+1:] // before stage x is built: ...
		_, id, _ := strings.Cut(f.At, "/")
		real := false
		for _, o := range r.Assembly.Owners {
			if o.ID != id && strings.TrimSpace(names) == owner[id].Name+" and "+o.Name {
				told[[2]string{id, o.ID}], told[[2]string{o.ID, id}] = true, true
				real = real || share(id, o.ID, -6)
			}
		}
		if !real {
			bad = append(bad, fmt.Sprintf("told, and not so: %s", f.Text))
		}
	}
	for i, a := range r.Assembly.Owners {
		for _, b := range r.Assembly.Owners[i+1:] {
			if a.Wall != b.Wall && !told[[2]string{a.ID, b.ID}] && !(a.Standing && b.Standing) && share(a.ID, b.ID, 0.3) {
				bad = append(bad, fmt.Sprintf("%s on %s and %s on %s share room, and nothing says so", a.Name, a.Wall, b.Name, b.Wall))
			}
		}
	}
	return bad
}

// slab is an upright prism over four corners, in mm of the room.
type slab struct {
	at  [4][2]float64
	low float64
	top float64
}

func turned(r *plan.Result, wall string, b geom.Box) slab {
	mm := func(l length.Length) float64 { return float64(l) / float64(length.MM) }
	var ox, oy, oz, deg float64
	if w := r.Room.Wall(wall); w != nil {
		ox, oy, oz, deg = mm(w.Frame.Origin.X), mm(w.Frame.Origin.Y), mm(w.Frame.Origin.Z), w.Frame.Degrees
	}
	sin, cos := math.Sincos(deg * math.Pi / 180)
	s := slab{low: oz + mm(b.Min.Z), top: oz + mm(b.Max.Z)}
	for i, c := range [4][2]length.Length{{b.Min.X, b.Min.Y}, {b.Max.X, b.Min.Y}, {b.Max.X, b.Max.Y}, {b.Min.X, b.Max.Y}} {
		x, y := mm(c[0]), mm(c[1])
		s.at[i] = [2]float64{ox + x*cos - y*sin, oy + x*sin + y*cos}
	}
	return s
}

// shares reports whether two slabs share more than slack in every direction; with a slack below
// nothing, whether they are nearer than that.
func (s slab) shares(o slab, slack float64) bool {
	if min(s.top, o.top)-max(s.low, o.low) <= slack {
		return false
	}
	for _, x := range []slab{s, o} {
		for i := range 2 {
			dx, dy := x.at[i+1][0]-x.at[i][0], x.at[i+1][1]-x.at[i][1]
			l := math.Hypot(dx, dy)
			span := func(q slab) (lo, hi float64) {
				lo, hi = math.Inf(1), math.Inf(-1)
				for _, p := range q.at {
					d := (p[0]*dx + p[1]*dy) / l
					lo, hi = min(lo, d), max(hi, d)
				}
				return
			}
			a, b := span(s)
			c, d := span(o)
			if min(b, d)-max(a, c) <= slack {
				return false
			}
		}
	}
	return true
}
