// Package trays makes pull-out trays behind doors or in an open bay: a base with low lips, on
// slides that are packed out to pass the doors and their hinges where these stand when open.
package trays

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/finding"
	"stowright/internal/fitting"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/mass"
	"stowright/internal/order"
	"stowright/internal/part"
	"stowright/internal/stock"
)

type L = length.Length

const mm = length.MM

// Codes of the findings of this package.
const (
	// NoSlide: the slide is not known, mounts under a box, or none is short enough.
	NoSlide finding.Code = "trays-no-slide"
	// TooMany: more trays than there is height for.
	TooMany finding.Code = "trays-too-many"
	// Narrow: the bay is too narrow once packed out.
	Narrow finding.Code = "trays-narrow"
	// NoBoard: a board is not known.
	NoBoard finding.Code = "trays-no-board"
)

// Common practice, no source.
const (
	doorLine = 2 * mm  // a tray keeps this behind the doors
	over     = 25 * mm // room over what stands in a tray
	stripRun = 60 * mm // height of packing strips
)

// Spec is what a job says of trays.
type Spec struct {
	Count   int    `job:"count" min:"1" max:"20" default:"2" doc:"how many, evenly spread"`
	Heights []L    `job:"heights" doc:"undersides of the trays above the bay's floor instead"`
	Lip     *L     `job:"lip" doc:"height of the lips above the base" eg:"2 1/2 in"`
	Slide   string `job:"slide" doc:"side slide instead of the practice's"`
	Board   string `job:"board" doc:"board for the bases instead of the practice's for shelves"`
}

// Kind is what a job calls it.
func Kind() fitting.Kind {
	return fitting.Kind{Name: "trays", Doc: "pull-out trays on slides", Where: fitting.InBay, New: func() fitting.Spec { return &Spec{Count: 2} }}
}

// Claim wants no room of others.
func (*Spec) Claim(fitting.Env, fitting.Space) fitting.Claim { return fitting.Claim{} }

// Build makes the trays.
func (c *Spec) Build(env fitting.Env, s fitting.Space) fitting.Result {
	var r fitting.Result
	p := env.Practice
	say := func(code finding.Code, sev finding.Severity, text, hint string) {
		r.Findings.Add(finding.Finding{Code: code, Severity: sev, At: "case/" + env.Owner + "/" + s.ID, Text: text, Hint: hint, Source: "common practice, no source"})
	}
	unit := length.Millimetres
	if p.InInches() {
		unit = length.Inches
	}
	shop := joinery.Shop{Practice: p, Catalogue: env.Catalogue, Owner: env.Owner}
	baseID, lipID, packID := cmp.Or(c.Board, p.ShelfBoard, p.Case), p.BoxSide, p.Case
	base, ok1 := env.Catalogue.Board(baseID)
	lip, ok2 := env.Catalogue.Board(lipID)
	pack, ok3 := env.Catalogue.Board(packID)
	if !ok1 || !ok2 || !ok3 {
		say(NoBoard, finding.Error, fmt.Sprintf("a board of %q, %q, %q is not known: no trays are made", baseID, lipID, packID), "name boards of the catalogue")
		return r
	}
	slide, ok := env.Catalogue.Item(cmp.Or(c.Slide, p.Slide))
	if ok && slide.SlideKind != "side" {
		// Trays run on side slides: the first of the catalogue sold in the practice's unit.
		ok = false
		for _, h := range env.Catalogue.Hardware {
			if h.Kind == "slide" && h.SlideKind == "side" && (h.Sold == "" || h.Sold == "both" || h.Sold == cmp.Or(p.Unit, "mm")) {
				slide, ok = h, true
				break
			}
		}
	}
	if !ok || slide.Kind != "slide" {
		say(NoSlide, finding.Error, "there is no side slide for trays: none are made", "name a side slide of the catalogue")
		return r
	}
	y0 := s.Setback(s.Box.Min.Z, s.Box.Max.Z) + doorLine
	long, ok := joinery.SlideLength(slide, s.Box.Max.Y-y0)
	if !ok {
		say(NoSlide, finding.Error, "no slide is short enough for the depth that the doors leave", "a deeper case, or no racks on its doors")
		return r
	}
	// Packing: whole boards, at least as thick as the doors and hinges need.
	layers := func(pass L) int {
		if pass <= 0 {
			return 0
		}
		return int(pass.DivUp(int64(pack.Thickness)))
	}
	nl, nr := layers(s.PassLeft), layers(s.PassRight)
	x0, x1 := s.Box.Min.X+L(nl)*pack.Thickness, s.Box.Max.X-L(nr)*pack.Thickness
	w := joinery.BoxOutside(slide, x1-x0, lip.Thickness)
	if w < 120*mm {
		say(Narrow, finding.Error, "the bay is too narrow for trays once they pass the doors", "doors that open further, or a wider bay")
		return r
	}
	lipH := 60 * mm
	if c.Lip != nil {
		lipH = *c.Lip
	}
	lipH = max(lipH, slide.Height+5*mm-base.Thickness, 12*mm)
	each := base.Thickness + lipH
	ups := slices.Clone(c.Heights)
	order.Up(ups)
	if len(ups) == 0 {
		n := c.Count
		if most := int64((s.Height() - 5*mm) / (each + over)); int64(n) > most {
			say(TooMany, finding.Warning, fmt.Sprintf("%d trays do not fit in the bay: %d are made", n, most), "ask for fewer, or lower lips")
			n = int(most)
		}
		for i := range n {
			ups = append(ups, 5*mm+(s.Height()-5*mm).MulDiv(int64(i), int64(n)))
		}
	}
	slideScrew := func(board L) stock.Hardware {
		h, ok := shop.SlideScrew(board)
		if !ok {
			text, hint := shop.SlideScrewLong(h, board)
			say(joinery.NoScrew, finding.Warning, text, hint)
		}
		return h
	}
	holds := func(d geom.Dir, layers int) L { // the wood that a slide's screws go into
		return s.Walls[d].Thickness + L(layers)*pack.Thickness
	}
	screw := slideScrew(min(holds(geom.Left, nl), holds(geom.Right, nr)))
	short := screw // in the base's edge where the slide's line is on it, else in the lip
	if (slide.Height+5*mm)/2 >= base.Thickness+3*mm {
		short = slideScrew(lip.Thickness)
	}
	tool, pilot, _ := shop.Pilot(cmp.Or(screw.Pilot, 3*mm))
	// wood gives the screw that goes through one board and stays in another, with enough in it to hold.
	told := map[string]bool{}
	wood := func(first, second L, what string) (stock.Hardware, part.JointKind) {
		h, ok := shop.Screw("wood", first+second-4*mm)
		if ok && h.Length >= first+joinery.Bite {
			return h, part.WoodScrew
		}
		if !told[what] {
			told[what] = true
			say(joinery.NoScrew, finding.Warning, fmt.Sprintf("no wood screw of the catalogue goes through %s of %s and stays in the %s behind: they are only glued", first.In(unit), what, second.In(unit)), "add one to hardware, with its use and length")
		}
		return stock.Hardware{}, part.GlueOnly
	}
	lipScrew, lipKind := wood(base.Thickness, min(lipH, base.Thickness), "a tray's base")
	at := joinery.SlideScrews(long, slide.ScrewsEach)
	last := s.Box.Min.Z
	var lost []string
	for i, up := range ups {
		z := s.Box.Min.Z + up
		top := s.Box.Max.Z
		if i+1 < len(ups) {
			top = s.Box.Min.Z + ups[i+1]
		}
		if z < last || z+each+3*mm > top {
			lost = append(lost, fmt.Sprintf("%d (%s up)", i+1, up.In(unit)))
			continue
		}
		id := fmt.Sprintf("%s-tray-%d", s.ID, i+1)
		motion := env.Owner + "/" + id
		bx := geom.B(x0+(x1-x0-w)/2, y0, z, x0+(x1-x0-w)/2+w, y0+long, z+each)
		b := part.New(id+"-base", part.TrayBase, fmt.Sprintf("base of tray %d", i+1), baseID, geom.B(bx.Min.X, bx.Min.Y, z, bx.Max.X, bx.Max.Y, z+base.Thickness), geom.Right, geom.Back)
		zb, t := z+base.Thickness, lip.Thickness
		parts := []part.Part{b,
			part.New(id+"-lip-l", part.Lip, fmt.Sprintf("left lip of tray %d", i+1), lipID, geom.B(bx.Min.X, bx.Min.Y, zb, bx.Min.X+t, bx.Max.Y, bx.Max.Z), geom.Back, geom.Up),
			part.New(id+"-lip-r", part.Lip, fmt.Sprintf("right lip of tray %d", i+1), lipID, geom.B(bx.Max.X-t, bx.Min.Y, zb, bx.Max.X, bx.Max.Y, bx.Max.Z), geom.Back, geom.Up),
			part.New(id+"-lip-f", part.Lip, fmt.Sprintf("front lip of tray %d", i+1), lipID, geom.B(bx.Min.X+t, bx.Min.Y, zb, bx.Max.X-t, bx.Min.Y+t, bx.Max.Z), geom.Right, geom.Up),
			part.New(id+"-lip-b", part.Lip, fmt.Sprintf("back lip of tray %d", i+1), lipID, geom.B(bx.Min.X+t, bx.Max.Y-t, zb, bx.Max.X-t, bx.Max.Y, bx.Max.Z), geom.Right, geom.Up),
		}
		count := 0
		for _, q := range parts[1:] {
			box := q.Box()
			k := len(joinery.Places(max(box.Max.X-box.Min.X, box.Max.Y-box.Min.Y), 50*mm, 150*mm, 2))
			count += k
			box.Max.Z = zb
			if lipKind == part.GlueOnly {
				k = 0
			}
			r.Joints = append(r.Joints, part.Joint{Kind: lipKind, A: b.Local, B: q.Local, Contact: box, Fastener: lipScrew.ID, Count: k, Glue: true})
		}
		if lipScrew.ID != "" {
			r.Hardware = append(r.Hardware, part.Item{ID: lipScrew.ID, Kind: "screw", Count: count, Length: lipScrew.Length, For: "trays"})
		}
		zs := z + (slide.Height+5*mm)/2
		var names []string
		for k := range parts {
			parts[k].Moves = motion
			names = append(names, parts[k].Local)
		}
		deep := joinery.Blind(10*mm, t, 2*mm)
		if deep == 0 {
			r.Findings.Add(shop.Thin("slide", t))
		}
		for _, y := range at {
			if deep == 0 {
				break
			}
			// The tray's member: in the lip where the slide's line is above the base, else in the base's edge.
			for k, d := range []geom.Dir{geom.Left, geom.Right} {
				q := &parts[1+k]
				if zs < zb+3*mm {
					q = &parts[0]
				}
				q.Bore(part.Hole, q.Facing(d), geom.V(bx.Min.X, y0+y, zs), pilot, deep, tool, "slide")
			}
		}
		r.Parts = append(r.Parts, parts...)
		for _, side := range []struct {
			d    geom.Dir
			n    int
			x    L
			name string
		}{{geom.Left, nl, s.Box.Min.X, "l"}, {geom.Right, nr, s.Box.Max.X, "r"}} {
			for _, y := range at {
				if side.n == 0 {
					r.Bores = append(r.Bores, fitting.Bore{Wall: side.d, Kind: part.Hole, At: geom.V(side.x, y0+y, zs), Dia: pilot, Depth: 12 * mm, Tool: tool, For: "slide"})
				}
			}
			a := s.Walls[side.d].Part
			for k := range side.n {
				px := side.x + L(k)*pack.Thickness
				if side.d == geom.Right {
					px = side.x - L(k+1)*pack.Thickness
				}
				zz := min(max(z, s.Box.Min.Z), s.Box.Max.Z-stripRun)
				zt := min(zz+stripRun, top)
				q := part.New(fmt.Sprintf("%s-packing-%s%d", id, side.name, k+1), part.Spacer, fmt.Sprintf("packing for tray %d", i+1), packID,
					geom.B(px, y0, zz, px+pack.Thickness, y0+long, zt), geom.Back, geom.Up)
				c := q.Box()
				if side.d == geom.Left {
					c.Max.X = c.Min.X
				} else {
					c.Min.X = c.Max.X
				}
				if deep := joinery.Blind(12*mm, pack.Thickness, 2*mm); k == side.n-1 && deep > 0 {
					for _, y := range at {
						q.Bore(part.Hole, q.Facing(side.d.Not()), geom.V(px, y0+y, zs), pilot, deep, tool, "slide")
					}
				}
				behind := pack.Thickness
				if k == 0 {
					behind = s.Walls[side.d].Thickness
				}
				h, kind := wood(pack.Thickness, behind, "packing")
				n := 3
				if kind == part.GlueOnly {
					n = 0
				}
				r.Joints = append(r.Joints, part.Joint{Kind: kind, A: a, B: q.Local, Contact: c, Fastener: h.ID, Count: n, Glue: true})
				if n > 0 {
					r.Hardware = append(r.Hardware, part.Item{ID: h.ID, Kind: "screw", Count: n, Length: h.Length, For: "packing"})
				}
				a = q.Local
				r.Parts = append(r.Parts, q)
			}
		}
		travel := joinery.Travel(slide, long)
		sw := bx
		sw.Min.Y -= travel
		m := part.Motion{ID: motion, Owner: env.Owner, Kind: part.Slide, Parts: names, Closed: bx, Dir: geom.Front, Travel: travel, Swept: sw, Needs: s.Needs(), Hardware: slide.ID}
		if slide.Rating != nil {
			m.Rating = *slide.Rating
		}
		r.Motions = append(r.Motions, m)
		bay := s.Bay(env, "trays", fmt.Sprintf("tray-%d", i+1), geom.B(bx.Min.X+t, bx.Min.Y+t, zb, bx.Max.X-t, bx.Max.Y-t, top-3*mm))
		bay.Floor, bay.Moves, bay.Most = b.Local, motion, m.Rating
		bay.Load /= mass.Mass(max(len(ups), 1))
		r.Bays = append(r.Bays, bay)
		r.Spans = append(r.Spans, part.Span{Part: b.Local, Along: geom.Right, Bay: bay.ID, Use: s.Use, Supports: []part.Support{{At: t / 2, Width: t, Fixed: true}, {At: w - t/2, Width: t, Fixed: true}}})
		r.Hardware = append(r.Hardware,
			part.Item{ID: slide.ID, Kind: "slide", Count: 1, Length: long, For: "trays"},
			part.Item{ID: cmp.Or(screw.ID, "slide-screw"), Kind: "screw", Count: 2 * len(at), Length: screw.Length, For: "slides"},
			part.Item{ID: cmp.Or(short.ID, "slide-screw"), Kind: "screw", Count: 2 * len(at), Length: short.Length, For: part.SlidesOnBoxes})
		last = z + each
	}
	if len(lost) > 0 {
		say(TooMany, finding.Warning, fmt.Sprintf("no room is left below what is above for tray %s: left out", strings.Join(lost, ", ")), "move them, or ask for lower lips")
	}
	return r
}
