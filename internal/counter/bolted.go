package counter

import (
	"cmp"
	"fmt"
	"strings"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/part"
	"stowright/internal/stock"
)

// NoBolt: nothing sold holds a rail over a knee space to the cases beside it.
const NoBolt finding.Code = "counter-no-bolt"

// Common practice, no source.
const (
	blockWide  = 70 * mm // of a block at a rail's end, where it is of board
	blockThick = 25 * mm // thickest stick that is a block
	blockEdge  = 8 * mm  // screws of a rail into its block, from the block's ends
	boltUnder  = 29 * mm // a bolt's middle under the top of the case: below a stretcher, and half a washer
	boltStep   = 5 * mm
)

// unheld says that no case stands at the end of a rail.
func (b *build) unheld(end, rail string) {
	b.say(NoBolt, finding.Warning, fmt.Sprintf("no case stands at the %s end of the %s: how it is held there is not known", end, rail), "screw a block to what stands there, and the rail to the block", 0)
}

// bolted holds an end of a rail to the case beside it where the shop has no pocket jig: a block glued and
// screwed behind the rail's end, and a bolt through block and case, which can be taken out again. left is
// the rail's left end over a knee space, in the way from the rail to where its block is.
func (b *build) bolted(rail string, knee Knee, left bool, in geom.Dir) {
	r := b.part(rail)
	box := r.Box()
	id, thick, wide, material := r.Stock, r.Size[2], L(blockWide), r.Material
	if st, ok := b.Catalogue.Stick(id); ok && material == part.Stick {
		wide = max(st.Width, st.Thickness)
	}
	if material != part.Stick || thick > blockThick || wide < 40*mm {
		board, ok := b.Catalogue.Board(b.Practice.Case)
		if !ok {
			return
		}
		id, thick, wide, material = b.Practice.Case, board.Thickness, blockWide, part.Board
	}
	side, x, out, end := knee.From, box.Min.X, geom.Left, "left"
	if !left {
		side, x, out, end = knee.To, box.Max.X-thick, geom.Right, "right"
	}
	if b.beside(side) == "" {
		b.unheld(end, r.Name)
		return
	}
	y0, y1 := box.Max.Y, box.Max.Y+wide
	if in == geom.Front {
		y0, y1 = box.Min.Y-wide, box.Min.Y
	}
	high := box.Max.Z - box.Min.Z
	local := rail + "-block-" + end
	p := part.New(local, part.Spacer, strings.Replace(r.Name, "rail over", end+" block of", 1), id, geom.B(x, y0, box.Min.Z, x+thick, y1, box.Max.Z), geom.Up, geom.Back)
	p.Material = material
	h := b.boltFor(thick+part.RailPlay, b.sideOf(side))
	tool, dia, ok := b.shop.Over(cmp.Or(h.Clearance, h.Dia))
	if h.ID == "" || high < boltUnder+12*mm || !ok {
		b.say(NoBolt, finding.Error, fmt.Sprintf("no bolt that is listed, or no bit for one, holds the %s of %s and a block of %s to a case", r.Name, b.text(high), b.text(thick)), "list a bolt with use: joining, make the rails higher, or own a pocket jig", high)
		return
	}
	at := geom.V(side, (y0+y1)/2, box.Max.Z-max(boltUnder, min(high/2, 40*mm)))
	found := b.Clear == nil
	for up := L(0); !found && up <= high; up += boltStep { // off what is in the side and what runs past it, within the block
		for off := L(0); !found && off <= wide/2-10*mm; off += boltStep {
			for _, d := range [][2]L{{off, up}, {-off, up}, {off, -up}, {-off, -up}} {
				q := at.Add(geom.V(0, d[0], d[1]))
				if !found && (up == 0 || q.Z <= at.Z && q.Z >= box.Min.Z+12*mm) && b.Clear(b.beside(side), out.Not(), q, dia) {
					at, found = q, true
				}
			}
		}
	}
	if !found {
		b.say(NoBolt, finding.Warning, fmt.Sprintf("the side of %s has no room for a bolt at the %s end of the %s: how it is held there is not known", b.beside(side), end, r.Name), "a case as high as the counter there, or a block screwed to its side under the rail", 0)
		return
	}
	p.Bore(part.Hole, p.Facing(out.Not()), at, dia, thick, tool, part.BoltedRail)
	b.add(p)
	c := geom.B(x, y0, box.Min.Z, x+thick, y0, box.Max.Z)
	if in == geom.Front {
		c.Min.Y, c.Max.Y = y1, y1
	}
	mid := c.Min.X + thick/2
	res := b.shop.Screwed(joinery.Flat{First: b.part(rail), Second: b.part(local), To: in, Contact: c, Kind: part.WoodScrew, Glue: true, For: "blocks of rails",
		At: []geom.Vec{geom.V(mid, c.Min.Y, box.Min.Z+blockEdge), geom.V(mid, c.Min.Y, box.Max.Z-blockEdge)}})
	b.joined(res)
	b.a.Fixings = append(b.a.Fixings, part.Fixing{Owner: b.id, Kind: part.ToCase, Part: rail, At: at, Stud: b.beside(side), Screw: h.ID, Length: h.Length, Row: part.BoltedRail})
	b.a.Hardware = append(b.a.Hardware, part.Item{Owner: b.id, ID: h.ID, Kind: "bolt", Count: 1, Length: h.Length, For: "rails over a knee space"})
}

// sideOf gives the thickness of the side of the case at x.
func (b *build) sideOf(x L) L {
	for _, u := range b.Under {
		if u.From == x || u.To == x {
			return u.Side
		}
	}
	return 18 * mm
}

// boltFor gives the shortest joining bolt that passes a block and a side and takes washers and its nut.
func (b *build) boltFor(block, side L) (best stock.Hardware) {
	for _, h := range b.Catalogue.Hardware {
		if h.Clamps(block+side) && b.shop.Sold(h) && (best.ID == "" || h.Length < best.Length) {
			best = h
		}
	}
	return best
}
