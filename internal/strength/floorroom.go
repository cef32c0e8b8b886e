package strength

import (
	"math"

	"stowright/internal/length"
	"stowright/internal/stock"
)

// floorRoom is what is left of a bay's floor while it is filled.
type floorRoom struct {
	wide  float64 // beside the lanes, mm
	lanes []lane
	holes int
	kg    float64 // of the load that is stated
}

// lane is a part of a floor from front to back; deep is what is left of it, mm.
type lane struct{ wide, deep float64 }

// take puts down one row of some goods, in a lane that has room or in a new one, and gives how many that are; 0 when
// there is no room.
func (r *floorRoom) take(p *spot, g *stock.Goods) (int, posture) {
	switch {
	case p.solid:
		return math.MaxInt32, posture{}
	case p.bay != nil && len(p.bay.Places) > 0:
		if r.holes == 0 || p.column(g).each == 0 {
			return 0, posture{}
		}
		r.holes--
		return 1, posture{}
	}
	flat := !p.hooks() && (p.bay == nil || !p.bay.Hung)
	if flat {
		if n, how := r.behind(p, g); n > 0 {
			return n, how
		}
	}
	left := *p
	left.size[0] = r.wide
	c := left.column(g)
	if c.each == 0 {
		return 0, posture{}
	}
	r.wide -= c.wide
	if !flat {
		return c.each, posture{}
	}
	r.lanes = append(r.lanes, lane{c.wide, p.size[1] - c.deep})
	return c.levels, posture{c.lying, c.levels, c.up}
}

// behind puts one row in the lane that it leaves the least width of.
func (r *floorRoom) behind(p *spot, g *stock.Goods) (best int, how posture) {
	at, least, deep := -1, 0.0, 0.0
	for _, v := range p.sizes(g) {
		if !p.fits(v) {
			continue
		}
		for i, x := range r.lanes {
			beside := int((x.wide + slack) / v[0])
			if beside == 0 || x.deep+slack < v[1] {
				continue
			}
			n, spare := beside*p.levels(g, v), x.wide-float64(beside)*v[0]
			if at < 0 || spare < least-slack || spare < least+slack && n > best {
				best, at, least, deep = n, i, spare, v[1]
				how = posture{lying(g, v), p.levels(g, v), v[2]}
			}
		}
	}
	if at >= 0 {
		r.lanes[at].deep -= deep
	}
	return best, how
}

// posture is how things are put down in a place: on their sides, some of them, and so many on each other at most.
type posture struct {
	lying bool
	high  int
	up    float64 // of one that is on its side, mm
}

func (p *posture) add(q posture) {
	if q.lying {
		p.up = q.up
	}
	p.lying, p.high = p.lying || q.lying, max(p.high, q.high)
}

// lying says whether one of some goods that is put down as large as v is on its side.
func lying(g *stock.Goods, v [3]float64) bool {
	return g.Tall != nil && math.Abs(v[2]-mm(*g.Tall)) > slack
}

// Stowed is where goods find room: so many of them in a bay, or on or in an owner where Bay is "".
type Stowed struct {
	Goods, Owner, Bay string // ids
	Count             int
	Lying             bool          // on their sides, some of them at least
	High              int           // so many on each other at most; 0 where that is not known
	Up                length.Length // how high one of those reaches that are on their sides; else 0
}

// Stow gives where the goods of a job find room, in the order of the job's goods, and of its bays. What is left of a
// count finds none.
func Stow(in Input) (list []Stowed) {
	for _, w := range NewScene(in).where {
		if w.count == 0 {
			continue
		}
		x := Stowed{Goods: w.goods.ID, Owner: w.owner, Count: w.count, Lying: w.how.lying, High: min(w.how.high, w.count)}
		if w.how.lying {
			x.Up = length.Length(math.Round(w.how.up * float64(length.MM)))
		}
		if w.bay != nil {
			x.Bay = w.bay.ID
		}
		list = append(list, x)
	}
	return list
}
