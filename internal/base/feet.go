package base

import (
	"cmp"
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/part"
	"stowright/internal/stock"
)

// foot is the foot that the base stands on, where it stands on feet.
func (b *build) foot() (stock.Hardware, bool) {
	if b.How != "feet" {
		return stock.Hardware{}, false
	}
	return b.Catalogue.Item(b.Practice.Foot)
}

// thin says that the stock takes no bolt of a foot: its insert is longer than a block is thick, or a rung splits.
func (b *build) thin() {
	h, ok := b.foot()
	if !ok || h.Dia == 0 {
		return
	}
	wood, insert := b.shop.FootWood(h)
	if least := max(insert, wood); b.t < least {
		b.say(joinery.BoardThin, finding.Error, fmt.Sprintf("the bolts of its feet go in blocks and rungs of %s, which split; %s is the least", b.text(b.t), b.text(least)), "make the base of thicker stock, or take feet with plates, foot: under practice:", least-b.t)
	}
}

// together gives where feet go along a base: under every rung, and under the middle of two that stand closer than a block
// is wide.
func together(rungs []L) (at []L) {
	for i := 0; i < len(rungs); i++ {
		x := rungs[i]
		if i+1 < len(rungs) && rungs[i+1]-x < footWide {
			i++
			x = (x + rungs[i]) / 2
		}
		at = append(at, x)
	}
	return at
}

// footed puts a foot under a rung at x: in a block that lies under rail and rung, so that what stands on both goes straight
// down into it. A plate is screwed under the block. A bolt turns in an insert in it, past the screws that
// hold the rung, and has room in the rung above.
func (b *build) footed(h stock.Hardware, rail string, n int, x, y, z0 L) part.Foot {
	wide, lo, hi := min(footWide, b.tall), b.Box.Min.X, b.Box.Max.X
	l := max(lo, min(x-wide/2, hi-wide))
	outer, back, in := b.Box.Min.Y, L(1), footPlate // from the rail's outer face inwards
	if y > b.Box.Min.Y {
		outer, back = b.Box.Max.Y, -1
	}
	if h.Dia > 0 {
		in = b.t + footBolt
		for _, p := range b.a.Parts {
			if c := p.Box(); p.Role == part.BaseRung && x >= c.Min.X && x <= c.Max.X {
				in = max(in, min(c.Min.Y-b.Box.Min.Y+footBolt, b.Box.Size().Y/2-footEnd-mm)) // a rung between plates ends further in
			}
		}
	}
	ends := [2]L{outer, outer + back*max(blockLong, in+footEnd)}
	box := geom.B(l, min(ends[0], ends[1]), z0-b.t, l+wide, max(ends[0], ends[1]), z0)
	p := b.add(fmt.Sprintf("foot-block-%d", n), part.Spacer, fmt.Sprintf("block %d over a foot", n), box, geom.Back, geom.Right)
	b.on(rail, p)
	at := geom.V(max(l+footEnd, min(x, l+wide-footEnd)), outer+back*in, box.Min.Z)
	if h.Dia > 0 {
		at.X = max(lo+b.t/2, min(x, hi-b.t/2))
		tool, dia, long, _ := b.shop.FootHole(h)
		btool, bolt, _ := b.shop.Pilot(cmp.Or(h.Clearance, h.Dia))
		b.part(p.Local).Bore(part.Hole, p.Facing(geom.Down), at, dia, b.t, joinery.LongBit(tool, dia, b.t), "foot")
		for i := range b.a.Parts {
			r := &b.a.Parts[i]
			c := r.Box()
			if r.Role != part.BaseRung || at.X < c.Min.X || at.X > c.Max.X {
				continue
			}
			if room := min(h.Greatest-h.Height+long-b.t+joinery.BoltWood, c.Size().Z-joinery.BoltWood); room > 0 {
				r.Bore(part.Hole, r.Facing(geom.Down), at.With(2, c.Min.Z), bolt, room, joinery.LongBit(btool, bolt, room), "bolt of a foot")
			}
		}
	}
	b.a.Hardware = append(b.a.Hardware, part.Item{Owner: b.id, ID: h.ID, Kind: "foot", Count: 1, For: part.StandsOn})
	if s, ok := b.shop.PlateScrews(h, 1, b.t, part.StandsOn); ok {
		b.a.Hardware = append(b.a.Hardware, s)
	}
	f := part.Foot{Owner: b.id, Kind: "foot", At: at, Hardware: h.ID, Least: h.Height, Greatest: h.Greatest}
	if h.Rating != nil {
		f.Rating = *h.Rating
	}
	return f
}

// on screws a block under a rail.
func (b *build) on(rail string, p part.Part) {
	c := p.Box()
	q := b.part(rail).Box()
	c.Min.Z = c.Max.Z
	c.Min.X, c.Max.X, c.Min.Y, c.Max.Y = max(c.Min.X, q.Min.X), min(c.Max.X, q.Max.X), max(c.Min.Y, q.Min.Y), min(c.Max.Y, q.Max.Y)
	r := b.shop.Screwed(joinery.Flat{First: b.part(p.Local), Second: b.part(rail), To: geom.Up, Contact: c, At: joinery.Along(c, 2, 15*mm), Kind: part.WoodScrew, Glue: true, For: "soles and blocks"})
	b.a.Joints = append(b.a.Joints, r.Joint)
	b.a.Hardware = append(b.a.Hardware, r.Items...)
	b.told.Add(r)
}
