package carcass

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/part"
)

// Codes of findings about sheets.
const (
	// PartTooLarge: parts are larger than every sheet of their board the way their grain runs.
	// The cutting plan refuses them; this says what helps.
	// Example: "left side, right side are longer than a sheet of birch-18 along its grain, 1525 mm".
	PartTooLarge finding.Code = "part-too-large"
	// BackPieces: a back is larger than every sheet of its board and is made in pieces.
	// Example: "the back is made in 2 pieces, joined over the middle rail 960 mm up".
	BackPieces finding.Code = "back-in-pieces"
)

// Common practice, no source.
const (
	battenWide = 60 * mm // carries the edges of two pieces of a back
	morePieces = 4       // a back in more pieces than this is no back
)

// area is a sheet or offcut less its trim, along its grain first; any is set where it has none.
type area struct {
	along, across L
	any           bool
}

// areas gives the usable sizes of a board, and whether they are known.
func (b *build) areas(id string) ([]area, bool) {
	x, ok := b.env.Catalogue.Board(id)
	if !ok || x.Length <= 0 || x.Width <= 0 {
		return nil, false
	}
	trim := b.env.Practice.Trim
	if x.Trim != nil {
		trim = *x.Trim
	}
	lay := func(l, w L, grain string) area {
		if grain == "along-width" {
			l, w = w, l
		}
		return area{l, w, grain == "none"}
	}
	list := []area{lay(x.Length-2*trim, x.Width-2*trim, x.Grain)}
	for _, o := range x.Offcuts {
		list = append(list, lay(o.Length, o.Width, o.Grain))
	}
	return list, true
}

// holds reports whether a piece can be laid on it.
func (a area) holds(along, across L, g part.Grain) bool {
	if g == part.Across {
		along, across, g = across, along, part.Along
	}
	return along <= a.along && across <= a.across || (a.any || g == part.Free) && across <= a.along && along <= a.across
}

// fits reports whether a piece goes on some sheet of a board; true where sheets are not known.
func (b *build) fits(id string, along, across L, g part.Grain) bool {
	list, known := b.areas(id)
	return !known || slices.ContainsFunc(list, func(a area) bool { return a.holds(along, across, g) })
}

// large says which parts no sheet holds, once for every board and remedy.
func (b *build) large() {
	type kind struct{ stock, hint string }
	var kinds []kind
	names := map[kind][]string{}
	for _, p := range b.a.Parts {
		c := p.Cut()
		if p.Material != part.Board || b.fits(p.Stock, c[0], c[1], p.Grain) {
			continue
		}
		k := kind{p.Stock, b.remedy(p)}
		if names[k] == nil {
			kinds = append(kinds, k)
		}
		if !slices.Contains(names[k], p.Name) {
			names[k] = append(names[k], p.Name)
		}
	}
	for _, k := range kinds {
		list, _ := b.areas(k.stock)
		is := "is"
		if len(names[k]) > 1 {
			is = "are"
		}
		b.say(PartTooLarge, finding.Warning, "", fmt.Sprintf("%s %s larger than a sheet of %s, usable %s along its grain and %s across", strings.Join(numbered(names[k]), ", "), is, k.stock, b.text(list[0].along), b.text(list[0].across)), k.hint)
	}
}

// numbered puts names that differ by a number at their end together: "divider 1 to 12".
func numbered(names []string) []string {
	var out []string
	for i := 0; i < len(names); {
		word := strings.TrimRight(names[i], "0123456789")
		k := i + 1
		for k < len(names) && word != names[i] && strings.TrimRight(names[k], "0123456789") == word {
			k++
		}
		s := names[i]
		if k > i+1 {
			s += " to " + names[k-1][len(word):]
		}
		out = append(out, s)
		i = k
	}
	return out
}

// remedy says what makes a part fit a sheet.
func (b *build) remedy(p part.Part) string {
	c := p.Cut()
	turned := b.fits(p.Stock, c[1], c[0], p.Grain)
	var other string
	for _, x := range b.env.Catalogue.Boards {
		if x.ID != p.Stock && x.Length > 0 && (x.Thickness-b.thick(p.Stock, p.Name)).Abs() <= mm && b.fits(x.ID, c[0], c[1], p.Grain) {
			other = x.ID
			break
		}
	}
	switch p.Role {
	case part.Side, part.Partition, part.Door, part.EndPanel, part.Divider, part.DrawerFront:
		if turned && b.spec.Grain == "level" {
			return "grain: upright lays it along the sheet; grain: either leaves it to the cutting plan"
		}
		if turned {
			return "grain: level turns it on the sheet; grain: either leaves it to the cutting plan"
		}
	case part.BackPanel:
		if other != "" {
			return fmt.Sprintf("back-board: %s comes large enough", other)
		}
		return "name a back-board that comes larger, or make the case narrower"
	}
	if other != "" {
		return fmt.Sprintf("%s comes large enough", other)
	}
	if turned {
		return "its grain may not be turned: use a board whose grain runs along the other side of its sheets, or a smaller case"
	}
	return "use a board that comes in larger sheets, or a smaller case"
}

// seam is where two pieces of a back meet, and what carries both edges.
type seam struct {
	z      L
	over   string // as a person would call it
	batten bool
}

// tallest gives the greatest height of a piece of a back of a width.
func (b *build) tallest(s shell, wide L) L {
	list, known := b.areas(s.board)
	if !known {
		return 1 << 40
	}
	best, g := L(0), b.backGrain(s)
	for _, a := range list {
		for _, h := range []L{a.along, a.across} {
			u, v := h, wide
			if s.kind == "full" && b.spec.Grain == "level" {
				u, v = wide, h
			}
			if a.holds(u, v, g) {
				best = max(best, h)
			}
		}
	}
	return best
}

// backGrain says how the grain of a back may lie: a thin one may lie either way.
func (b *build) backGrain(s shell) part.Grain {
	if s.kind != "full" || b.spec.Grain == "either" {
		return part.Free
	}
	return part.Along
}

// divide settles where a back larger than every sheet is divided: over the middle rail where there is
// one, else over a batten of its own, which may take room from the shell; not over the edge of a shelf, in
// which the screws of two edges would stand too near to them.
func (b *build) divide(s *shell) {
	if s.kind == "none" {
		return
	}
	box := b.backBox(*s)
	wide, high := box.Max.X-box.Min.X, box.Max.Z-box.Min.Z
	most := b.tallest(*s, wide)
	if high <= most || most < 100*mm {
		return
	}
	n := high.DivUp(int64(most))
	if n > morePieces {
		return
	}
	last := box.Min.Z
	for i := int64(1); i < int64(n); i++ {
		ideal := box.Min.Z + high.MulDiv(i, int64(n))
		lo, hi := max(box.Max.Z-most*L(int64(n)-i), last+50*mm), last+most
		m := seam{z: min(max(ideal, lo), hi), over: "a batten", batten: true}
		if z, high, ok := b.middleRail(*s); ok && n == 2 && z-high/4 >= lo && z-high/4 <= hi {
			m = seam{z: z - high/4, over: "the middle rail"} // clear of the screws to the wall in its middle
		}
		if z, high, ok := b.middle(*s); ok && m.batten && (m.z-z).Abs() < (high+battenWide)/2 {
			// A rail that does not touch the back is in the batten's way.
			switch off := (high + battenWide) / 2; {
			case z+off <= hi:
				m.z = z + off
			case z-off >= lo:
				m.z = z - off
			case n < morePieces: // one piece more leaves more room
				n, i, last, s.seams = n+1, 0, box.Min.Z, nil
				continue
			}
		}
		s.seams = append(s.seams, m)
		last = m.z
	}
	if slices.ContainsFunc(s.seams, func(m seam) bool { return m.batten }) {
		switch {
		case s.kind == "captured":
			s.behind = max(s.behind, b.t)
		case s.railsIn || s.behind >= b.t:
		default:
			s.railsIn = true // there is no room behind: battens stand before the back
		}
	}
	var over []string
	for _, m := range s.seams {
		over = append(over, fmt.Sprintf("%s %s up", m.over, b.text(m.z)))
	}
	b.say(BackPieces, finding.Note, "", fmt.Sprintf("a back %s wide and %s high is larger than a sheet of %s: it is made in %d pieces, joined over %s", b.text(wide), b.text(high), s.board, n, strings.Join(over, " and ")), "name a back-board that comes larger to have it in one")
}

// middleRail gives the height of the middle of the middle rail and how high it is, where a case has
// one that touches its back.
func (b *build) middleRail(s shell) (z, high L, ok bool) {
	z, high, ok = b.middle(s)
	return z, high, ok && (s.railsIn || s.behind == b.t)
}

// middle gives the height of the middle of the middle rail and how high it is, where a case has one.
func (b *build) middle(s shell) (z, high L, ok bool) {
	room := b.railRoom(s)
	return (room.Min.Z + room.Max.Z) / 2, b.railHigh(s, room), s.rails && !s.hung && (b.h-b.zb > midRailFrom || b.spec.Hangs.Middle)
}

// backName gives the local name of a piece of the back, from the lowest.
func backName(i int) string {
	if i == 0 {
		return "back"
	}
	return fmt.Sprintf("back-%d", i+1)
}

// pieces divides the box of a back at its seams, from the lowest.
func (s shell) pieces(box geom.Box) []geom.Box {
	var list []geom.Box
	for _, m := range s.seams {
		low := box
		low.Max.Z, box.Min.Z = m.z, m.z
		list = append(list, low)
	}
	return append(list, box)
}

// battens puts a batten over every seam that nothing else carries.
func (b *build) battens(s shell, kind string) {
	for i, m := range s.seams {
		if !m.batten {
			continue
		}
		y0 := s.front + s.t
		if s.railsIn {
			y0 = b.yb
		}
		local := fmt.Sprintf("batten-%d", i+1)
		box := geom.B(b.t, y0, m.z-battenWide/2, b.w-b.t, y0+b.t, m.z+battenWide-battenWide/2)
		b.put(part.New(local, part.Blocking, "batten over the back's joint", b.board, box, geom.Right, geom.Up))
		if box.Max.Y <= b.part("side-l").Box().Max.Y {
			b.ends(local, kind, []geom.Dir{geom.Back})
		}
	}
}

// seamed screws the pieces of a back to what carries their edges, once that is there.
func (b *build) seamed(s shell) {
	for i, m := range s.seams {
		for _, n := range []string{backName(i), backName(i + 1)} {
			q := b.part(n)
			if q == nil {
				continue
			}
			for _, p := range b.a.Parts {
				if p.Role != part.FixedShelf && p.Role != part.HangRail && p.Role != part.Blocking || p.Moves != "" {
					continue
				}
				c := p.Box().And(q.Box())
				if p.Box().Min.Z >= m.z || p.Box().Max.Z <= m.z || c.Max.Y != c.Min.Y || c.Max.X-c.Min.X < 40*mm || c.Max.Z <= c.Min.Z {
					continue
				}
				count := len(joinery.Places(c.Max.X-c.Min.X, 50*mm, 150*mm, 2))
				hw, ok := b.shop.ScrewFor("wood", s.t, p.Box().Size().Y) // it lies on the face of a rail, or on the edge of a shelf
				if !ok || hw.Length > s.t+27*mm {
					hw, _ = b.shop.Screw("wood", s.t+25*mm)
				}
				b.a.Joints = append(b.a.Joints, part.Joint{Kind: part.WoodScrew, A: p.Local, B: n, Contact: c, Fastener: cmp.Or(hw.ID, "wood-screw"), Count: count, Glue: b.env.Practice.Glue})
				b.item(part.Item{ID: cmp.Or(hw.ID, "wood-screw"), Kind: "screw", Count: count, Length: hw.Length, For: "backs"})
				break
			}
		}
	}
}
