// Package base builds separate levelled bases: a front and a rear rail with rungs between them,
// one under every case side, of solid lumber or strips of board, and what makes them level on a
// floor that is not: shims, tapered soles, stepped blocks or feet. The shape of the floor is
// handed to it.
//
// Parts are in the frame of the base's box: x along the wall, y towards it, z up.
package base

import (
	"cmp"
	"fmt"
	"slices"

	"stowright/internal/finding"
	"stowright/internal/fitting"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/order"
	"stowright/internal/part"
)

type L = length.Length

const mm = length.MM

// Codes of the findings of this package.
const (
	// NoStock: the stick or board is not known. Example: "the base is to be of \"2x4\", which is not known".
	NoStock finding.Code = "base-no-stock"
	// StockLow: the stock is narrower than the base is high.
	StockLow finding.Code = "base-stock-low"
	// Small: the base leaves no room for rungs.
	Small finding.Code = "base-small"
	// Damp: the base lies on a slab and nothing keeps damp from it.
	Damp finding.Code = "base-damp"
	// FloorUnknown: the floor's heights are not known, so shims are not either.
	FloorUnknown finding.Code = "base-floor-not-known"
	// Falls: the floor falls further than shims should make up, and what is done about it.
	Falls finding.Code = "base-floor-falls"
	// FootRange: a foot is too short or too long for the floor under it.
	FootRange finding.Code = "base-foot-range"
	// NoTool: nothing in the shop rips a taper.
	NoTool finding.Code = "no-tool"
)

// Common practice, no source.
const (
	rungEvery = 500 * mm
	shimMost  = 19 * mm // 3/4 in
	thinEnd   = 6 * mm  // a sole or block is not made thinner
	blockLong = 100 * mm
	shimIn    = 20 * mm // middle of a pair of shims from the end of its block
	bear      = 60 * mm // length of a shim along its rail
	footWide  = 75 * mm // block over a foot, along its rail
	footEnd   = 30 * mm // a foot from the base's end, and from the end of its block
	footPlate = 50 * mm // a foot with a plate, behind its rail's outer face
	footBolt  = 45 * mm // a bolt, behind its rail's inner face: past the screws that hold the rung there
	common    = "common practice, no source"
)

// Spec is a base with every size stated.
type Spec struct {
	Name  string
	Box   geom.Box // from the level line (the floor's high point) to the cases' undersides
	Under []Piece  // cases on it, from left to right
	Stock string   // stick or board; the practice's when empty
	Rungs L        // no further apart; 0 for the usual
	Damp  string   // "treated", "strip", "none" or ""
	Strip string   // strip under it
	How   string   // "shims", "taper", "steps", "feet", or "" by the floor
	Slab  *bool    // nil when not known
	Floor func(x, y L) L
}

// Piece is a case that stands on the base.
type Piece struct {
	ID       string
	From, To L
}

type build struct {
	fitting.Env
	Spec
	id       string
	shop     joinery.Shop
	a        part.Assembly
	found    finding.List
	told     joinery.Told
	stock    string
	material part.Material
	t, most  L // thickness; longest piece
	treated  bool
	tall     L    // widest that the stock gives
	points   bool // it stands on shims and blocks, not on its rails
}

// Build makes a base. Local names are unique in it.
func Build(env fitting.Env, id string, s Spec) (part.Assembly, finding.List) {
	env.Owner = id
	b := &build{Env: env, Spec: s, id: id, shop: joinery.Shop{Practice: env.Practice, Catalogue: env.Catalogue, Owner: id}}
	if b.choose() {
		b.frame()
		b.damp()
	}
	o := part.Owner{ID: id, Kind: "base", Name: s.Name, Box: s.Box, Carcass: s.Box}
	for i := range b.a.Parts {
		b.a.Parts[i].Owner = id
		o.Box = o.Box.Or(b.a.Parts[i].Box())
	}
	b.a.Owners = []part.Owner{o}
	b.found.Add(b.told.List("base/" + id)...)
	for i := range b.found {
		b.found[i].At = "base/" + id
	}
	joinery.Settle(b.a.Parts)
	return b.a, b.found
}

func (b *build) say(c finding.Code, sev finding.Severity, text, hint string, by L) {
	b.found.Add(finding.Finding{Code: c, Severity: sev, Text: text, Hint: hint, Source: common, Demand: float64(by.DivNear(int64(mm)/10)) / 10, Unit: "mm"})
}

func (b *build) text(l L) string { return l.In(b.unit()) }

func (b *build) unit() length.Unit {
	if b.Practice.InInches() {
		return length.Inches
	}
	return length.Millimetres
}

// choose finds the stock.
func (b *build) choose() bool {
	b.stock = cmp.Or(b.Stock, b.Practice.BaseStick, b.Practice.Case)
	if s, ok := b.Catalogue.Stick(b.stock); ok {
		b.material, b.t, b.most, b.tall, b.treated = part.Stick, s.Thickness, s.Length, s.Width, s.Treated
	} else if s, ok := b.Catalogue.Board(b.stock); ok {
		b.t, b.most, b.tall = s.Thickness, max(s.Length, s.Width)-2*b.Practice.Trim, min(s.Length, s.Width)
	} else {
		b.say(NoStock, finding.Error, fmt.Sprintf("the base is to be of %q, which is no stick and no board", b.stock), "name one of the job or the catalogue", 0)
		return false
	}
	z := b.Box.Size()
	if z.Z > b.tall {
		b.say(StockLow, finding.Error, fmt.Sprintf("the base is %s high; %s is %s wide", z.Z.Exact(b.unit()), b.stock, b.tall.Exact(b.unit())), "write height: "+b.tall.Exact(b.unit())+", or name wider stock", z.Z-b.tall)
	}
	if z.Y < 5*b.t || z.X < 3*b.t || z.Z <= 0 {
		b.say(Small, finding.Error, fmt.Sprintf("a base %s long, %s deep and %s high leaves no room for rungs %s thick", b.text(z.X), b.text(z.Y), b.text(z.Z), b.text(b.t)), "make it deeper", b.t)
		return false
	}
	return b.t > 0 && b.most > 0
}

// Rungs gives the centres of the rungs: under every case side, one under two sides that meet,
// and between them no further apart than every. The outermost stay flush with the ends.
func Rungs(lo, hi, t, every L, under []Piece) []L {
	want := []L{lo + t/2, hi - t/2}
	for _, p := range under {
		want = append(want, p.From, p.To)
	}
	order.Up(want)
	var at []L
	for _, x := range want {
		x = min(max(x, lo+t/2), hi-t/2)
		if n := len(at); n > 0 && x-at[n-1] < t+12*mm {
			if at[n-1] != lo+t/2 { // never move the first
				at[n-1] = x
			}
			continue
		}
		at = append(at, x)
	}
	if n := len(at); n > 1 && at[n-1] != hi-t/2 {
		at[n-1] = hi - t/2
	}
	var all []L
	for i, x := range at {
		if i > 0 {
			n := (x - at[i-1]).DivUp(int64(max(every, t+12*mm)))
			for k := int64(1); k < int64(n); k++ {
				all = append(all, at[i-1]+(x-at[i-1]).MulDiv(k, int64(n)))
			}
		}
		all = append(all, x)
	}
	return all
}

func (b *build) add(local string, role part.Role, name string, box geom.Box, u, v geom.Dir) part.Part {
	p := part.New(local, role, name, b.stock, box, u, v)
	p.Material = b.material
	b.a.Parts = append(b.a.Parts, p)
	return p
}

func (b *build) frame() {
	x0, x1, y0, y1 := b.Box.Min.X, b.Box.Max.X, b.Box.Min.Y, b.Box.Max.Y
	z0, z1 := b.Box.Min.Z, b.Box.Max.Z
	if h, ok := b.foot(); ok {
		z0 += h.Height + b.t // and the blocks that they are fixed to
	}
	if z1-z0 < 30*mm {
		b.say(Small, finding.Error, fmt.Sprintf("the feet leave %s for the base's rails", b.text(z1-z0)), "make the base higher, or take lower feet", 30*mm-(z1-z0))
		z0, b.How = b.Box.Min.Z, "shims" // drawn without them
	}
	rungs := Rungs(x0, x1, b.t, cmp.Or(b.Spec.Rungs, rungEvery), b.Under)
	ends := pieces(x0, x1, b.t, b.most, rungs)
	seams := ends[1 : len(ends)-1]
	for i, x := range rungs {
		in := b.t // a rung ends at the rails, or at the plates behind their joints
		if slices.Contains(seams, x) {
			in += b.t
		}
		b.add(fmt.Sprintf("rung-%d", i+1), part.BaseRung, fmt.Sprintf("rung %d", i+1), geom.B(x-b.t/2, y0+in, z0, x-b.t/2+b.t, y1-in, z1), geom.Back, geom.Up)
	}
	type rail struct {
		local  string
		y      L
		lo, hi L
	}
	var rails []rail
	for _, r := range []struct {
		name string
		y    L
		to   geom.Dir
	}{{"front", y0, geom.Front}, {"rear", y1 - b.t, geom.Back}} {
		var own []int
		for k := range len(ends) - 1 {
			local, name := "rail-"+r.name, part.Piece(r.name+" rail", k, len(ends)-1, geom.Right)
			if len(ends) > 2 {
				local = fmt.Sprintf("%s-%d", local, k+1)
			}
			own = append(own, len(b.a.Parts))
			b.add(local, part.BaseRail, name, geom.B(ends[k], r.y, z0, ends[k+1], r.y+b.t, z1), geom.Right, geom.Up)
			rails = append(rails, rail{local, r.y, ends[k], ends[k+1]})
			for i, x := range rungs {
				if !slices.Contains(seams, x) {
					b.held(own[k], i, r.to)
				}
			}
		}
		for k, x := range seams {
			b.plate(own[k], own[k+1], slices.Index(rungs, x), rungs, r.to)
		}
	}
	b.thin()
	b.level(rungs, z0, func(f func(local string, y, lo, hi L)) {
		for _, r := range rails {
			f(r.local, r.y, r.lo, r.hi)
		}
	})
	for _, r := range rails {
		s := part.Span{Part: r.local, Along: geom.Right, Use: part.Storage}
		for _, x := range rungs {
			lo, hi := max(x-bear/2, r.lo), min(x+bear/2, r.hi)
			if hi > lo {
				s.Supports = append(s.Supports, part.Support{At: (lo+hi)/2 - r.lo, Width: hi - lo})
			}
		}
		b.a.Spans = append(b.a.Spans, s)
	}
}

// sillStrip gives the damp-proof strip sold in the practice's unit.
func (b *build) sillStrip() string {
	for _, h := range b.Catalogue.Hardware {
		if h.Kind == "tape" && b.shop.Sold(h) {
			return h.ID
		}
	}
	return "sill-strip"
}

// damp keeps it dry.
func (b *build) damp() {
	long := 2 * (b.Box.Max.X - b.Box.Min.X)
	if b.Damp == "strip" || b.Strip != "" && b.Damp != "none" {
		x := part.Item{Owner: b.id, ID: cmp.Or(b.Strip, b.sillStrip()), Kind: "tape", Count: 1, Length: long, For: "under the base's rails"}
		if n := part.StripPad(b.Practice.InInches()) * L(len(b.a.Feet)); b.points && n < long {
			x.Length, x.For = n, part.ForPads
		}
		b.a.Hardware = append(b.a.Hardware, x)
	}
	switch b.Damp {
	case "strip":
	case "treated":
		if !b.treated {
			b.say(Damp, finding.Error, fmt.Sprintf("the base is to be of treated stock; %s is not", b.stock), "name a treated stick, or state damp: strip", 0)
		}
	default:
		if b.Slab != nil && *b.Slab && !b.treated && (b.Strip == "" || b.Damp == "none") {
			b.say(Damp, finding.Warning, fmt.Sprintf("%s of rail lie on a slab, and nothing keeps damp from them", b.text(long)), "take treated stock, or state damp: strip", long)
		}
	}
}
