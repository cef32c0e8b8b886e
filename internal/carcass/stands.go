package carcass

import (
	"cmp"
	"fmt"
	"slices"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/stock"
)

// stands makes what a floor case stands on.
func (b *build) stands() {
	if b.wall {
		return
	}
	t, w := b.t, b.w
	st := b.spec.Stands
	inset := L(0)
	if st.Kind == "toe" || st.Kind == "toe-feet" {
		inset = max(or(st.Recess, toeRecess)-b.tf-b.air, 0)
		// Its middle must be over what it stands on, or it falls on its face before it is fixed (statics).
		if most := (b.d / 2).Down(mm); inset > most {
			if st.Recess != nil {
				b.say(CaseSize, finding.Error, "", fmt.Sprintf("the toe recess takes %s of a carcass %s deep: more than half of it stands over nothing, and it falls forwards", b.text(inset), b.text(b.d)), fmt.Sprintf("state a recess of %s at most", b.text(most+b.tf+b.air)))
			}
			inset = most
		}
		saw := b.shop.Notcher(inset, b.zb-b.zs)
		for _, n := range []string{"side-l", "side-r"} {
			p := b.part(n)
			box := p.Box()
			if inset > 0 {
				p.Recess(part.Notch, part.Upper, geom.B(box.Min.X, 0, b.zs, box.Max.X, inset, b.zb), saw, "toe recess")
			}
		}
		b.put(part.New("toe-board", part.ToeBoard, "toe board", b.board, geom.B(t, inset, b.zs, w-t, inset+t, b.zb), geom.Right, geom.Up))
		kind := b.joint
		if kind == "dado" {
			kind = cmp.Or(b.env.Practice.JointElse, "wood-screw")
		}
		b.ends("toe-board", kind, []geom.Dir{geom.Back})
	}
	var id string
	switch st.Kind {
	case "feet", "toe-feet":
		id = cmp.Or(st.Foot, b.env.Practice.Foot)
	case "castors":
		id = cmp.Or(st.Foot, b.env.Practice.Castor)
	case "toe", "floor":
		if b.spec.Loose != "rolls" && b.spec.Loose != "slides" {
			b.shims(inset)
		}
		return
	default:
		return
	}
	hw, ok := b.env.Catalogue.Item(id)
	if !ok {
		b.say(NoHardware, finding.Error, "", fmt.Sprintf("it stands on %q, which is not known", id), "name a foot or castor of the catalogue")
	}
	kind, name := "foot", "foot"
	if st.Kind == "castors" {
		kind, name = "castor", "castor"
	}
	y0 := 20 * mm
	x0 := t
	if st.Kind == "toe-feet" {
		y0 = inset + t
	}
	if st.Kind != "toe-feet" {
		y0 = 10 * mm
	}
	y1 := min(b.part("bottom").Box().Max.Y, b.yb) - blockSize
	if n := b.nook(); n.high > b.zb-t {
		y1 = min(y1, b.d-n.deep-blockSize)
	}
	deep := min(blockSize, (y1+blockSize-y0)/2) // a shallow case has narrower blocks
	y1 += blockSize - deep
	xs := []L{x0, w - x0 - blockSize}
	pairs := max(2, b.site.Hold.Pairs, st.Pairs)
	if w > wideFeet {
		pairs = max(3, pairs)
	}
	if kind == "castor" {
		pairs = min(pairs, 3)
	}
	for i := 1; i < pairs-1; i++ { // evenly between the outer ones, the same from both ends
		x := x0 + (w-2*x0-blockSize)*L(min(i, pairs-1-i))/L(pairs-1)
		if 2*i > pairs-1 {
			x = w - blockSize - x
		}
		xs = slices.Insert(xs, i, x)
	}
	blocks := st.Kind != "castors" && (st.Kind == "toe-feet" || hw.Dia > 0) && b.zb-t >= hw.Height
	top := b.zb
	if blocks {
		top -= t
	}
	least, most := hw.Height, max(hw.Greatest, hw.Height)
	if ok && (top < least || kind == "foot" && top > most || kind == "castor" && top != least) {
		b.say(FootHeight, finding.Error, "", fmt.Sprintf("the %s is %s to %s high and would have to be %s", name, b.text(least), b.text(most), b.text(top)), "change the height it stands at, or the "+name)
	}
	var rating = part.Foot{}.Rating
	if hw.Rating != nil {
		rating = *hw.Rating
	}
	n := 0
	for _, y := range []L{y0, y1} {
		for _, x := range xs {
			n++
			c, turns := b.footSpot(geom.V(x+blockSize/2, y+deep/2, top), turning(hw), hw.TurnFrom == "above" && kind == "foot")
			if blocks {
				local := fmt.Sprintf("foot-block-%d", n)
				p := part.New(local, part.Blocking, "block over a foot", b.board, geom.B(x, y, b.zb-t, x+blockSize, y+deep, b.zb), geom.Right, geom.Back)
				p.Grain = part.Free
				if hw.Dia > 0 {
					tool, dia, insert, okb := b.shop.FootHole(hw)
					if insert > t && n == 1 {
						u := length.Millimetres
						if b.env.Practice.InInches() {
							u = length.Inches
						}
						b.say(FootInsert, finding.Error, "", fmt.Sprintf("the insert of the %s is %s long, and the block over it is %s thick", name, insert.Exact(u), t.Exact(u)), "name a shorter insert, or a thicker board for the carcass")
					}
					if !okb {
						b.say(joinery.NoBit, finding.Warning, "", "no "+tool+" for the feet is owned", "add it to the practice's bits")
					}
					p.Bore(part.Hole, part.Lower, c, dia, t, tool, "foot")
				}
				b.put(p)
				b.a.Joints = append(b.a.Joints, part.Joint{Kind: part.WoodScrew, A: "bottom", B: local, Contact: geom.B(x, y, b.zb, x+blockSize, y+deep, b.zb), Fastener: b.screwID("wood", 2*t-4*mm), Count: 4, Glue: true})
				b.item(part.Item{ID: b.screwID("wood", 2*t-4*mm), Kind: "screw", Count: 4, For: "blocks"})
			}
			if turns {
				tool, dia, okb := b.shop.Pilot(turning(hw))
				if okb {
					p := b.part("bottom")
					p.Bore(part.Hole, part.Upper, c, dia, t, tool, part.TurnsFoot)
				}
			}
			b.a.Feet = append(b.a.Feet, part.Foot{Owner: b.id, Kind: kind, At: c, Hardware: id, Height: top, Least: least, Greatest: most, Rating: rating})
		}
	}
	b.item(part.Item{ID: id, Kind: kind, Count: n, For: part.StandsOn})
	if x, ok := b.shop.PlateScrews(hw, n, t, part.StandsOn); ok {
		b.item(x)
	}
}

// turning is how wide the hole is through which a foot is turned from above: for a key, or for its bolt, which comes up into it through a
// block that was set by measure: with air of 1 mm all round (common practice, no source).
func turning(foot stock.Hardware) L {
	if foot.Dia == 0 {
		return 10 * mm
	}
	return foot.Dia + 2*mm
}

// footSpot moves a foot within its block to where a hole to turn it from above is clear of
// boards and of other holes; false where there is none, or it is not turned from above.
func (b *build) footSpot(at geom.Vec, wide L, turned bool) (geom.Vec, bool) {
	if !turned {
		return at, false
	}
	p := b.part("bottom")
	z := p.Box().Max.Z
	in := 20 * mm // away from the side first
	if 2*at.X > b.w {
		in = -in
	}
	hole := part.Op{Kind: part.Hole, Face: part.Upper, Dia: wide, Depth: p.Size[2]}
	for _, d := range [][2]L{{0, 0}, {0, 20 * mm}, {0, -20 * mm}, {in, 0}, {-in, 0}, {in, 20 * mm}, {-in, 20 * mm}, {in / 4, 0}, {-in / 4, 0}, {in / 2, 0}, {-in / 2, 0}, {3 * in / 4, 0}, {-3 * in / 4, 0}} {
		q := at.Add(geom.V(d[0], d[1], 0))
		hole.X, hole.Y = p.OnFace(part.Upper, q)
		over := geom.B(q.X-7*mm, q.Y-7*mm, z, q.X+7*mm, q.Y+7*mm, z+50*mm)
		if p.Clear(hole, part.Web) && !slices.ContainsFunc(b.a.Parts, func(o part.Part) bool { return o.Moves == "" && o.Box().Meets(over) }) {
			return q, true
		}
	}
	b.say(FootTurn, finding.Note, "", "no place over a foot is clear for the hole that it is turned through: it is turned by hand from in front", "set the feet before the case is pushed home")
	return at, false
}

func (b *build) screwID(use string, long L) string {
	h, _ := b.shop.Screw(use, long)
	return cmp.Or(h.ID, use+"-screw")
}
