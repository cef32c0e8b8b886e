package base

import (
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/part"
)

// Rails that are longer than their stock are of pieces, which meet in the middle of a rung over a point of the floor. A plate
// of the rail's stock lies behind them there, with the rung between the two plates, so that no screw stands near an end of a
// rail and the base can be turned over and carried. Wood round a screw that is bored for: five diameters to the end, 2.5 to an
// edge (NDS 2018 commentary C12.1, below 1/4 in), of number 8.
const (
	screwDia  = 4200 * mm / 1000
	endWood   = 22 * mm // five diameters, as a tape shows it
	edgeWood  = 5 * screwDia / 2
	plateHalf = 200 * mm // of a plate, to either side of the joint; common practice, no source
	plateEnd  = 42 * mm  // its screws, from its ends and from the joint: ten diameters, towards which they push
	plateRoom = mm       // to the rungs beside it
)

// pieces cuts a rail from lo to hi in lengths of the stock, over rungs: the furthest whose neighbours leave room for a plate
// behind the joint, else that with the most room.
func pieces(lo, hi, t, most L, rungs []L) []L {
	ends := []L{lo}
	for hi-ends[len(ends)-1] > most {
		at := ends[len(ends)-1]
		next, room := at, L(0)
		for _, x := range rungs {
			if x <= at || x > at+most || x >= hi-t {
				continue
			}
			if r := min(plate(x, t, rungs), x-at); r >= room {
				next, room = x, r
			}
		}
		if next == at {
			next = at + most
		}
		ends = append(ends, next)
	}
	return append(ends, hi)
}

// plate is half the length that a plate has about a rung.
func plate(x, t L, rungs []L) L {
	half := plateHalf
	for _, o := range rungs {
		if o != x {
			half = min(half, (o-x).Abs()-t/2-plateRoom)
		}
	}
	return half
}

// held screws a rail to the end of a rung, where they meet.
func (b *build) held(rail, rung int, to geom.Dir) {
	r, g := &b.a.Parts[rail], &b.a.Parts[rung]
	c, p := g.Box().And(r.Box()), r.Box()
	if c.Max.X <= c.Min.X {
		return
	}
	c.Min.Y = p.Face(to.Not())
	c.Max.Y = c.Min.Y
	b.butt(r, g, to, c)
}

// butt screws a rung's end from outside, off the end of what it is screwed through.
func (b *build) butt(a, rung *part.Part, to geom.Dir, c geom.Box) {
	box := a.Box()
	at := (c.Min.X + c.Max.X) / 2
	at = min(max(at, box.Min.X+endWood), box.Max.X-endWood)
	if at < c.Min.X+edgeWood || at > c.Max.X-edgeWood { // too thin for both, as a sheet is: its plies cross
		at = (c.Min.X + c.Max.X) / 2
	}
	in := min(at-c.Min.X, c.Max.X-at)
	where := c
	where.Min.X, where.Max.X = at-in, at+in
	res := b.shop.Make("wood-screw", joinery.Between{A: a, B: rung, To: to, Contact: where, Heads: true, Butt: true, Most: 2})
	res.Joint.Contact = c
	b.joined(res)
}

func (b *build) joined(r joinery.Result) {
	b.a.Joints = append(b.a.Joints, r.Joint)
	b.a.Hardware = append(b.a.Hardware, r.Items...)
	b.told.Add(r)
}

// plate puts a plate behind the joint of two pieces of a rail, over a rung that ends at it.
func (b *build) plate(left, right, rung int, rungs []L, to geom.Dir) {
	l, x := b.a.Parts[left].Box(), b.a.Parts[right].Box().Min.X
	half := plate(x, b.t, rungs)
	box := l
	box.Min.X, box.Max.X = x-half, x+half
	if to == geom.Front {
		box.Min.Y, box.Max.Y = l.Max.Y, l.Max.Y+b.t
	} else {
		box.Min.Y, box.Max.Y = l.Min.Y-b.t, l.Min.Y
	}
	name := "plate behind the joint of the front rail"
	if to == geom.Back {
		name = "plate behind the joint of the rear rail"
	}
	b.add("plate-"+b.a.Parts[left].Local, part.Plate, name, box, geom.Right, geom.Up)
	n := len(b.a.Parts) - 1
	b.held(n, rung, to)
	for _, k := range []int{left, right} {
		p, r := &b.a.Parts[n], &b.a.Parts[k]
		c := p.Box().And(r.Box())
		c.Min.Y = p.Box().Face(to)
		c.Max.Y = c.Min.Y
		in := c
		in.Min.X, in.Max.X = c.Min.X+plateEnd, c.Max.X-plateEnd
		if k == left { // off the screws of the rung too
			in.Max.X = min(in.Max.X, x-b.t/2-edgeWood)
		} else {
			in.Min.X = max(in.Min.X, x+b.t/2+edgeWood)
		}
		if in.Min.X > in.Max.X {
			in.Min.X, in.Max.X = (c.Min.X+c.Max.X)/2, (c.Min.X+c.Max.X)/2
		}
		var at []geom.Vec
		up := c.Size().Z / 4
		for _, z := range []L{c.Min.Z + up, c.Max.Z - up} {
			at = append(at, geom.V(in.Min.X, c.Min.Y, z))
			if in.Max.X > in.Min.X {
				at = append(at, geom.V(in.Max.X, c.Min.Y, z))
			}
		}
		b.joined(b.shop.Screwed(joinery.Flat{First: p, Second: r, To: to, Contact: c, At: at, Kind: part.WoodScrew, Glue: true, For: "plates behind joints"}))
	}
}
