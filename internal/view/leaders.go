package view

import (
	"cmp"
	"math"
	"slices"

	"stowright/internal/draw"
	"stowright/internal/draw/hidden"
)

// stroke is an edge that is seen, on paper.
type stroke struct {
	a, b draw.Point
	part int
}

// strokes gives the edges of parts that are drawn apart, by part and all.
func (a Apart) strokes(at func(hidden.Point) draw.Point) (own map[int][]stroke, all []stroke) {
	own = map[int][]stroke{}
	for _, g := range a.segs {
		x := stroke{at(g.A), at(g.B), g.ID}
		own[g.ID] = append(own[g.ID], x)
		all = append(all, x)
	}
	return own, all
}

// far is how far from a place the edge comes.
func (x stroke) far(p draw.Point) float64 { return offLine(p, x.a, x.b) }

// offLine is how far a place is from a straight line between two others.
func offLine(p, a, b draw.Point) float64 {
	d := b.Sub(a)
	t := 0.0
	if l := d.X*d.X + d.Y*d.Y; l > 0 {
		q := p.Sub(a)
		t = min(1, max(0, (q.X*d.X+q.Y*d.Y)/l))
	}
	return p.Sub(a.Add(d.Times(t))).Len()
}

// alone gives places on a part's edges that its leader may point at, no more than some and the best first: far from the
// edges of others.
func alone(own, all []stroke, some int) (out []draw.Point) {
	own = slices.Clone(own)
	slices.SortStableFunc(own, func(x, y stroke) int {
		return cmp.Compare(math.Round(y.b.Sub(y.a).Len()*100), math.Round(x.b.Sub(x.a).Len()*100))
	})
	for _, clear := range []float64{1.4, 0.7, 0.35} {
		for _, x := range own[:min(len(own), 12)] {
			if x.b.Sub(x.a).Len() < min(2.5, 3*clear) {
				break
			}
			for _, share := range []float64{0.5, 0.35, 0.65, 0.2, 0.8} {
				p := x.a.Add(x.b.Sub(x.a).Times(share))
				if slices.ContainsFunc(all, func(o stroke) bool { return o.part != x.part && o.far(p) < clear }) {
					continue
				}
				if out = append(out, p); len(out) == some {
					return out
				}
			}
		}
		if len(out) > 2 {
			return out
		}
	}
	if len(out) == 0 {
		out = []draw.Point{own[0].a.Add(own[0].b.Sub(own[0].a).Times(0.5))}
	}
	return out
}

// What is kept between a leader's dot and another's, and between a dot and the leader of another, mm.
const (
	dotsApart = 2.6
	dotsClear = 1.3
)

// clearly moves the places that leaders point at along the edges of their parts, until none lies on or beside the dot or the leader
// of another and none runs over more of other parts than it must; what is hemmed in on its own side is named from the other.
func (a Apart) clearly(view, in draw.Rect, at func(hidden.Point) draw.Point, marks []draw.Mark) []draw.Mark {
	own, all := a.strokes(at)
	var places [][]draw.Point // by mark
	var part []int
	for i, p := range a.parts {
		if list := own[i]; len(list) > 0 && a.name(p) != "" {
			places, part = append(places, alone(list, all, 24)), append(part, i)
		}
	}
	all = slices.DeleteFunc(all, func(x stroke) bool { return x.b.Sub(x.a).Len() < 1.5 }) // rims of holes
	type leader struct {
		mark     int
		from, to draw.Point
	}
	over := map[leader]float64{} // how many edges of other parts it runs over
	cost := func(marks []draw.Mark, most float64, each []float64) (sum float64) {
		list := draw.Around(view, marks)
		for _, c := range list {
			i, l := c.Mark, leader{c.Mark, c.From, marks[c.Mark].At}
			n, ok := over[l]
			if !ok {
				for _, x := range all {
					if x.part != part[i] && draw.Cross(l.from, l.to, x.a, x.b) {
						n++
					}
				}
				near := l.to.Add(l.from.Sub(l.to).Times(3 / max(3, l.from.Sub(l.to).Len())))
				if slices.ContainsFunc(all, func(x stroke) bool { return x.far(near) < 0.5 && x.far(l.to) < 0.5 }) {
					n += 6 // it runs along an edge and is not told from it
				}
				over[l] = n
			}
			for k, m := range marks {
				if k != i {
					if m.At.Sub(l.to).Len() < dotsApart {
						n += 20
					}
					if offLine(m.At, l.from, l.to) < dotsClear {
						if n += 20; each != nil {
							each[k] += 20 // that dot may give way too
						}
					}
				}
			}
			if c.Box.Y < in.Y-0.01 || c.Box.Bottom() > in.Bottom()+0.01 {
				n += 1000
			}
			if marks[i].Over {
				n += 2
			}
			n += l.to.Sub(l.from).Len() / 12
			if each != nil {
				each[i] += n
			}
			if sum += n; sum >= most {
				return sum
			}
		}
		return sum
	}
	each := make([]float64, len(marks))
	now := cost(marks, math.Inf(1), each)
	marks = slices.Clone(marks)
	for range 3 {
		better := false
		order := make([]int, 0, len(marks))
		for i := range marks {
			if each[i] >= 4 {
				order = append(order, i)
			}
		}
		slices.SortStableFunc(order, func(x, y int) int { return cmp.Compare(each[y], each[x]) })
		for _, i := range order {
			best := marks[i]
			for k, p := range places[i] {
				for _, over := range []bool{false, true} {
					if over && k >= 6 {
						continue
					}
					marks[i].At, marks[i].Over = p, over
					if c := cost(marks, now-0.2, nil); c < now-0.2 {
						best, now, better = marks[i], c, true
					}
				}
			}
			marks[i] = best
		}
		if !better {
			break
		}
		each = make([]float64, len(marks))
		now = cost(marks, math.Inf(1), each)
	}
	return marks
}
