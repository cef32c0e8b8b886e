package carcass

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/mass"
	"stowright/internal/part"
	"stowright/internal/stock"
)

// Boring gives the distance from a cup's edge to the door's edge that makes a hinge on a plate
// cover so much: overlay = constant + boring - plate (hinge makers' guides).
func Boring(overlay L, h stock.Hardware, plate L) L { return overlay - h.Overlay + plate }

// drilled gives the plate and boring distance with which a hinge covers so much, the boring
// distance as near to the hinge's own as its plates allow; false when none does.
func drilled(overlay L, h stock.Hardware) (plate, boring L, ok bool) {
	lo, hi := cmp.Or(h.BoringLeast, boringLeast), cmp.Or(h.BoringMost, boringMost)
	want := cmp.Or(h.Boring, 5*mm)
	plates := h.Plates
	if len(plates) == 0 {
		plates = []L{h.Plate}
	}
	for _, p := range plates {
		x := Boring(overlay, h, p)
		if x >= lo && x <= hi && (!ok || (x-want).Abs() < (boring-want).Abs()) {
			plate, boring, ok = p, x, true
		}
	}
	return plate, boring, ok
}

// hingeFor picks the hinge that gives the overlay: the wanted one if its boring distance can,
// else the first of the catalogue that does, of the same opening angle if there is one.
func (b *build) hingeFor(id string, overlay L, path string) (h stock.Hardware, plate, boring L) {
	want, ok := b.env.Catalogue.Item(id)
	if !ok {
		b.say(NoHardware, finding.Error, path, fmt.Sprintf("the hinge %q is not known", id), "name a hinge of the catalogue")
	}
	list := append([]stock.Hardware{want}, b.env.Catalogue.Hardware...)
	for _, same := range []bool{true, false} {
		for _, h := range list {
			if h.Kind != "hinge" || same && want.Opens > 0 && h.Opens != want.Opens {
				continue
			}
			if plate, x, ok := drilled(overlay, h); ok {
				return h, plate, x
			}
		}
	}
	x := min(max(Boring(overlay, want, want.Plate), boringLeast), boringMost)
	b.say(HingeOverlay, finding.Error, path, fmt.Sprintf("no hinge covers %s: %s with its cup %s from the edge covers %s", b.text(overlay), cmp.Or(want.Name, id), b.text(x), b.text(want.Overlay+x-want.Plate)), "choose a hinge with another crank or plate, or other gaps")
	return want, want.Plate, x
}

// hang gives the leaves their hinges, now that everything behind them has its place.
func (b *build) hang(leaves []leaf, sp space) {
	for i := range leaves {
		b.hinges(&leaves[i], sp)
	}
}

func (b *build) hinges(l *leaf, sp space) {
	p := b.part(l.part)
	for _, x := range b.site.Doors {
		if x.Motion == l.motion {
			l.load = x.Mass
		}
	}
	hung := b.weight(*p) + l.load
	rack := l.load
	for _, r := range l.racks {
		if q := b.part(r); q != nil {
			hung += b.weight(*q)
			rack += b.weight(*q)
		}
	}
	h, w := l.high(), l.wide()
	n := joinery.HingeCount(h, w, hung)
	if w > joinery.DoorMost+50*mm {
		b.say(HingeLoad, finding.Warning, l.path, fmt.Sprintf("the leaf is %s wide; cup hinges carry up to %s", b.text(w), b.text(joinery.DoorMost)), "make it a pair, count: 2")
	}
	if rack > rackLoadMost*mass.Kilogram {
		b.say(HingeLoad, finding.Warning, l.part, fmt.Sprintf("%s hang on the leaf beside itself; cup hinges carry up to %s", rack.Print(!b.env.Practice.InInches()), (rackLoadMost*mass.Kilogram).Print(!b.env.Practice.InInches())), fmt.Sprintf("put %s less in its racks, or half of them on each of two leaves, count: 2", (rack-rackLoadMost*mass.Kilogram).Print(!b.env.Practice.InInches())))
	}
	end := hingeEnds(h)
	n = min(n, 2+int((h-2*end)/(150*mm)))
	if span := h - 2*end; span < w {
		b.say(HingeLoad, finding.Note, l.path, fmt.Sprintf("the hinges are %s apart and the leaf is %s wide: it will sag more than a tall one", b.text(span), b.text(w)), "")
	}
	b.a.Fronts[l.front].Racks = l.racks
	for k := range b.a.Motions {
		if b.a.Motions[k].ID == l.motion {
			b.a.Motions[k].Parts = append(b.a.Motions[k].Parts, l.racks...)
		}
	}
	hw := l.hw
	boring := l.boring
	wall := b.part(l.wall.Part)
	in := cmp.Or(hw.CupDepth, 13*mm)
	cup, depth := cmp.Or(hw.CupDia, 35*mm), joinery.Blind(in, p.Size[2], 2*mm)
	screwed, plated := joinery.Blind(11*mm, p.Size[2], 3*mm), joinery.Blind(12*mm, wall.Size[2], 4*mm)
	if l.wall.Both {
		plated = min(plated, b.shop.Opposite(wall.Size[2]))
	}
	for _, x := range []struct {
		deep, thick L
		what        string
	}{{depth, p.Size[2], "hinge cup"}, {screwed, p.Size[2], "hinge screw"}, {plated, wall.Size[2], "hinge plate"}} {
		if x.deep < joinery.BlindLeast {
			b.once(b.shop.Thin(x.what, x.thick))
			return
		}
	}
	switch {
	case depth < in:
		b.say(joinery.BoardThin, finding.Error, "", fmt.Sprintf("a hinge cup is %s deep, and a door of %s takes %s", b.text(in), b.text(p.Size[2]), b.text(depth)), "use a thicker board for the fronts, or a hinge with a shallower cup")
	case p.Size[2] < depth+3*mm:
		b.say(joinery.BoardThin, finding.Warning, "", fmt.Sprintf("a cup %s deep leaves %s of the door", b.text(depth), b.text(p.Size[2]-depth)), "use a thicker board for the fronts")
	}
	wide, backOff := cmp.Or(hw.CupScrews, 45*mm), cmp.Or(hw.CupScrewBack, 9500*length.MM/1000)
	row, pitch := cmp.Or(hw.PlateRow, 37*mm), cmp.Or(hw.PlatePitch, 32*mm)
	cupTool, ok := b.shop.Bit(cup)
	if !ok {
		b.say(joinery.NoBit, finding.Warning, "", "no "+cupTool+" for hinge cups is owned", "add it to the practice's bits")
	}
	hs, _ := b.shop.Screw("hinge", 16*mm)
	screw := cmp.Or(hs.Pilot, 2500*length.MM/1000)
	if hw.Pilot > 0 {
		screw = hw.Pilot
	}
	pilotTool, pilot, ok := b.shop.Pilot(screw)
	if !ok {
		b.say(joinery.NoBit, finding.Warning, "", "no "+pilotTool+" for hinge screws is owned", "add it to the practice's bits")
	}
	var spots []L
	var lost []string
	for k := range n {
		at := end + (h-2*end).MulDiv(int64(k), int64(n-1))
		best, found := at, false
		for _, try := range hingeTries() {
			u := at + try
			if u < cup/2+20*mm || u > h-cup/2-20*mm || len(spots) > 0 && u-spots[len(spots)-1] < 60*mm {
				continue
			}
			if b.hingeFree(l, p, wall, u, pitch, row, pilot, boring, cup) {
				best, found = u, true
				break
			}
		}
		if !found {
			lost = append(lost, b.text(at))
			continue
		}
		spots = append(spots, best)
	}
	if len(lost) > 0 {
		b.say(HingePlace, finding.Warning, l.part, fmt.Sprintf("of %d hinges, those %s up have no place clear of shelves and holes", n, strings.Join(lost, " and ")), "move the shelf or slide beside them")
	}
	for _, u := range spots {
		face := p.Facing(geom.Back)
		v := boring + cup/2
		p.Bore(part.Cup, face, l.spot(u, v), cup, depth, cupTool, "hinge cup")
		for _, du := range []L{-wide / 2, wide / 2} {
			p.Bore(part.Hole, face, l.spot(u+du, v+backOff), pilot, screwed, pilotTool, "hinge screw")
		}
		z := l.box.Min.Z + u
		f := wall.Facing(l.hinge.Not())
		for _, dz := range []L{-pitch / 2, pitch / 2} {
			wall.Bore(part.Hole, f, geom.V(0, row, z+dz), pilot, plated, pilotTool, "hinge plate")
		}

	}
	b.dropPins(wall)
	b.a.Fronts[l.front].Hinges = spots
	b.item(part.Item{ID: cmp.Or(hw.ID, "hinge"), Kind: "hinge", Count: len(spots), For: "doors"})
	b.plates(l.plate, len(spots), hw)
	b.item(part.Item{ID: cmp.Or(hs.ID, "hinge-screw"), Kind: "screw", Count: 4 * len(spots), Length: hs.Length, For: "hinges"})
}

// hingeEnds gives how far the outer hinges of a door are from its ends.
func hingeEnds(high L) L { return min(hingeEnd, high/5) }

// plates lists n plates of a height; where the catalogue has none so high, it says so.
func (b *build) plates(high L, n int, hinge stock.Hardware) {
	id := "hinge-plate"
	k := slices.IndexFunc(b.env.Catalogue.Hardware, func(h stock.Hardware) bool { return h.Kind == "plate" && h.Plate == high })
	if k >= 0 {
		id = b.env.Catalogue.Hardware[k].ID
	} else if n > 0 {
		b.say(NoHardware, finding.Warning, "", fmt.Sprintf("no plate %s high for %s is in the catalogue: it is on the list without a name or a price", b.text(high), cmp.Or(hinge.Name, hinge.ID)), "add it to hardware, with kind: plate and its height as plate")
	}
	b.item(part.Item{ID: id, Kind: "plate", Count: n, For: "doors"})
}

// hingeTries gives how far a hinge may be moved from where it would be, nearest first.
func hingeTries() []L {
	t := []L{0}
	for d := 8 * mm; d <= 240*mm; d += 8 * mm {
		t = append(t, d, -d)
	}
	return t
}

// hingeFree reports whether a hinge at height u of a leaf is clear of shelves behind it and of
// holes in its door and its wall.
func (b *build) hingeFree(l *leaf, p, wall *part.Part, u, pitch, row, pilot, boring, cup L) bool {
	z := l.box.Min.Z + u
	x0, x1 := l.box.Min.X+l.over, l.box.Min.X+l.over+60*mm
	if l.hinge == geom.Right {
		x0, x1 = l.box.Max.X-l.over-60*mm, l.box.Max.X-l.over
	}
	arm := geom.B(x0, 0, z-hingeClear, x1, row+40*mm, z+hingeClear)
	// What slides out was packed to pass the hinge, which then takes that much.
	slim := arm
	if l.hinge == geom.Left {
		slim.Max.X = x0 + armRoom
	} else {
		slim.Min.X = x1 - armRoom
	}
	for _, q := range b.a.Parts {
		if q.Moves != "" && q.Role != part.Door && !q.Box().Meets(slim) {
			continue
		}
		if q.Local != l.part && q.Local != wall.Local && q.Role != part.BackPanel && q.Box().Meets(arm) {
			return false
		}
	}
	f := wall.Facing(l.hinge.Not())
	for _, dz := range []L{-pitch / 2, pitch / 2} {
		x, y := wall.OnFace(f, geom.V(0, row, z+dz))
		ex, _, _ := f.Extent(wall.Size)
		if x < pilot || x > ex-pilot || !clear(wall, x, y, pilot, 2*mm) {
			return false
		}
	}
	for _, o := range p.Ops {
		q := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size))
		if edge := l.spot(u, 0); o.Kind == part.Hole && o.For != "hinge screw" && (q.Z-edge.Z).Abs() < cup && (q.X-edge.X).Abs() < boring+cup+20*mm {
			return false
		}
	}
	return true
}

// dropPins takes away shelf holes that a hinge plate covers.
func (b *build) dropPins(wall *part.Part) {
	b.pins = slices.DeleteFunc(b.pins, func(q pin) bool {
		if q.part != wall.Local {
			return false
		}
		at := wall.Pose.Point(q.op.Face.Point(q.op.X, q.op.Y, wall.Size))
		under := joinery.Covered(*wall, q.op.Face, at, q.op.Dia/2, joinery.NoSlides)
		if under {
			b.unbored = append(b.unbored, lost{wall.Local, "hinge plates", at.Z})
		}
		return under
	})
}
