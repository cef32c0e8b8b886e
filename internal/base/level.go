package base

import (
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/part"
)

// level gives every point where a rung meets a rail what it stands on. Where shims would pass
// the practice's most, soles ripped to a taper or stepped blocks go under the rails first.
func (b *build) level(rungs []L, z0 L, each func(func(local string, y, lo, hi L))) {
	if b.Floor == nil {
		b.say(FloorUnknown, finding.Note, fmt.Sprintf("the floor's heights are not known: %d points of the base have no shim height", 2*len(rungs)), "survey the floor", 0)
	}
	floor := func(x, y L) L {
		if b.Floor == nil {
			return b.Box.Min.Z
		}
		return min(b.Floor(x, y), b.Box.Min.Z)
	}
	limit := b.Practice.ShimMost
	if limit == 0 {
		limit = shimMost
	}
	worst := L(0)
	each(func(_ string, y, lo, hi L) {
		for _, x := range rungs {
			if lo <= x && x <= hi {
				worst = max(worst, b.Box.Min.Z-floor(x, y+b.t/2))
			}
		}
	})
	how := b.How
	_, rips := b.shop.Tool("table-saw", "track-saw", "circular-saw", "panel-saw")
	// left is the highest shim that straight soles leave: over a step of the floor they are of no use.
	left := L(0)
	each(func(_ string, y, lo, hi L) {
		sole := slope(lo, hi, func(x L) L { return b.Box.Min.Z - floor(x, y+b.t/2) })
		for _, x := range rungs {
			if lo <= x && x <= hi {
				left = max(left, b.Box.Min.Z-floor(x, y+b.t/2)-sole.at(x))
			}
		}
	})
	if how == "" {
		how = "shims"
		if worst > limit {
			how = "taper"
			if !rips || left > limit {
				how = "steps"
			}
		}
	}
	if how == "shims" && worst > limit {
		b.say(Falls, finding.Warning, fmt.Sprintf("shims would be up to %s high; the practice allows %s", b.text(worst), b.text(limit)), "state levels-by: taper, steps or feet", worst)
	} else if worst > limit && b.How == "" {
		b.say(Falls, finding.Note, fmt.Sprintf("the floor falls %s below the base, more than the %s that shims make up: levelled by %s", b.text(worst), b.text(limit), how), "state levels-by: to choose another way", worst)
	}
	if how == "taper" && !rips {
		b.say(NoTool, finding.Warning, fmt.Sprintf("no saw of the shop rips soles tapered by %s: stepped blocks instead", b.text(worst)), "state levels-by: steps", worst)
		how = "steps"
	}
	if _, ok := b.foot(); ok {
		rungs = together(rungs)
	}
	b.points = (how == "shims" || how == "steps") && worst >= part.ShimLeast
	n := 0
	var high part.Foot // the highest shim that is left
	each(func(local string, y, lo, hi L) {
		mid := y + b.t/2
		sole := func(L) L { return 0 }
		if how == "taper" {
			sole = b.sole(local, y, lo, hi, z0, floor).at
		}
		for _, x := range rungs {
			// A rung over a joint belongs to the piece that starts there.
			if x < lo || x > hi || x == hi && hi != b.Box.Max.X {
				continue
			}
			n++
			drop := b.Box.Min.Z - floor(x, mid)
			f := part.Foot{Owner: b.id, Kind: "shim", At: geom.V(x, mid, z0), Height: drop}
			switch how {
			case "taper":
				f.Height = max(drop-sole(x), 0)
				f.At.Z = b.Box.Min.Z - (drop - f.Height)
			case "steps":
				drop := func(x L) L { return b.Box.Min.Z - floor(x, mid) }
				l, h := b.block(x, b.Box.Min.X, b.Box.Max.X, drop)
				if at := x - blockLong/2; x == lo && lo > b.Box.Min.X { // under both pieces of a rail, where the floor lets it
					if mid := min(drop(at), drop(x), drop(at+blockLong)).Down(mm); mid > h-thinEnd/2 {
						l, h = at, mid
					}
				}
				if h >= thinEnd {
					p := b.add(fmt.Sprintf("block-%d", n), part.Spacer, fmt.Sprintf("block %d under the base", n), geom.B(l, y, z0-h, min(l+blockLong, b.Box.Max.X), y+b.t, z0), geom.Right, geom.Up)
					b.under(p)
					f.At.X = max(l+shimIn, min(x, min(l+blockLong, b.Box.Max.X)-shimIn))
					f.Height, f.At.Z = b.Box.Min.Z-floor(f.At.X, mid)-h, z0-h
				}
			case "feet":
				if h, ok := b.foot(); ok {
					f = b.footed(h, local, n, x, y, z0)
					f.Height = f.At.Z - floor(f.At.X, f.At.Y)
					if f.Height > h.Greatest {
						b.say(FootRange, finding.Error, fmt.Sprintf("the foot %s along must reach %s; it reaches %s", b.text(x-b.Box.Min.X), b.text(f.Height), b.text(h.Greatest)), "take a longer foot, or a lower base", f.Height-h.Greatest)
					}
				}
			}
			if f.Kind == "shim" && f.Height > high.Height {
				high = f
			}
			b.a.Feet = append(b.a.Feet, f)
		}
	})
	if how != "shims" && high.Height > limit {
		other := "steps or feet"
		if how == "steps" {
			other = "feet"
		}
		b.say(Falls, finding.Warning, fmt.Sprintf("levelled by %s it still wants a shim of %s, %s from its left end; the practice allows %s: the floor is not straight there", how, b.text(high.Height), b.text(high.At.X-b.Box.Min.X), b.text(limit)), "state levels-by: "+other+", or fill the floor there", high.Height)
	}
}

// block gives where a block under a rung at x starts and how high it is: on both sides of the rung,
// or beside it, under half of it at the least, where the floor steps up under the block, which must not stand on
// the step.
func (b *build) block(x, lo, hi L, drop func(L) L) (from, high L) {
	for _, l := range []L{x - blockLong/2, x - blockLong + b.t/2, x - b.t/2, x - blockLong, x} {
		l = max(lo, min(l, hi-blockLong))
		h := min(drop(l), drop(x), drop(min(l+blockLong, hi))).Down(mm)
		if h > high {
			from, high = l, h
		}
	}
	return from, high
}

// strip is a sole: from s to e along, a high at s and c at e; none where e is not past s.
type strip struct{ s, e, a, c L }

// at gives its height at a place, 0 beyond its ends.
func (t strip) at(x L) L {
	if x < t.s || x > t.e || t.e <= t.s {
		return 0
	}
	return t.a + (t.c-t.a).MulDiv(int64(x-t.s), int64(t.e-t.s))
}

// slopeStep is how close to each other the floor is looked at under a sole: a step of the floor is found
// within it.
const slopeStep = 4 * mm

// slope gives the sole that fills what a floor drops below a rail from lo to hi. It is left out where it would
// be thinner than saws make.
func slope(lo, hi L, drop func(x L) L) strip {
	// The sole must never be higher than the room over the floor: both ends at their own drop, and
	// the line lowered by what the floor rises above it between.
	if hi <= lo {
		return strip{}
	}
	a, c := drop(lo), drop(hi)
	line := func(x L) L { return a + (c-a).MulDiv(int64(x-lo), int64(hi-lo)) }
	over := L(0)
	n := max(int64((hi - lo).DivUp(int64(slopeStep))), 1)
	for i := range n + 1 {
		x := lo + (hi-lo).MulDiv(i, n)
		over = max(over, line(x)-drop(x))
	}
	a, c = a-over, c-over
	// Starts where it is thick enough.
	s, e := lo, hi
	if a < thinEnd && c < thinEnd {
		return strip{}
	}
	if a < thinEnd {
		s = lo + (hi-lo).MulDiv(int64(thinEnd-a), int64(c-a)) + 1
		a = thinEnd
	} else if c < thinEnd {
		e = lo + (hi-lo).MulDiv(int64(a-thinEnd), int64(a-c)) - 1
		c = thinEnd
	}
	if e-s < blockLong {
		return strip{}
	}
	return strip{s, e, a, c}
}

// sole puts a strip under a rail, ripped to the slope of the floor between the rail's ends.
func (b *build) sole(rail string, y, lo, hi, z0 L, floor func(x, y L) L) strip {
	t := slope(lo, hi, func(x L) L { return b.Box.Min.Z - floor(x, y+b.t/2) })
	s, e, a, c := t.s, t.e, t.a, t.c
	if e <= s {
		return t
	}
	h := max(a, c)
	p := part.New("sole-"+rail, part.Spacer, "sole under the "+rail, b.stock, geom.B(s, y, z0-h, e, y+b.t, z0), geom.Right, geom.Up)
	p.Material = b.material
	if a != c {
		tool, _ := b.shop.Tool("table-saw", "track-saw", "circular-saw", "panel-saw")
		// The lower edge (v = 0) is eaten by Y at its start and by Depth at its end.
		p.Ops = append(p.Ops, part.Op{Kind: part.Taper, Face: part.Near, L: p.Size[0], W: p.Size[2], Y: h - a, Depth: h - c, Tool: tool, For: "slope of the floor"})
	}
	if h > b.tall {
		b.say(StockLow, finding.Error, fmt.Sprintf("a sole must be %s high; %s is %s wide", b.text(h), b.stock, b.text(b.tall)), "make the base of wider stock", h-b.tall)
	}
	b.a.Parts = append(b.a.Parts, p)
	b.under(p)
	return t
}

// under joins what lies under a rail to it, and to the next piece where it lies under their joint.
func (b *build) under(p part.Part) {
	for i := range b.a.Parts {
		r := &b.a.Parts[i]
		c := p.Box()
		if q := r.Box(); r.Role != part.BaseRail || q.Min.Z != c.Max.Z || q.Min.Y != c.Min.Y {
			continue
		} else if c.Min.X, c.Max.X = max(c.Min.X, q.Min.X), min(c.Max.X, q.Max.X); c.Max.X-c.Min.X < 2*endWood {
			continue // it lies under too little of it for a screw
		}
		c.Min.Z = c.Max.Z
		n := max(2, int((c.Max.X-c.Min.X)/(300*mm)))
		if c.Max.X-c.Min.X < 80*mm {
			n = 1
		}
		b.joined(b.shop.Screwed(joinery.Flat{First: b.part(p.Local), Second: r, To: geom.Up, Contact: c, At: joinery.Along(c, n, 40*mm), Kind: part.WoodScrew, Glue: true, For: "soles and blocks"}))
	}
}

// part gives a part by its local name.
func (b *build) part(local string) *part.Part {
	for i := range b.a.Parts {
		if b.a.Parts[i].Local == local {
			return &b.a.Parts[i]
		}
	}
	return nil
}
