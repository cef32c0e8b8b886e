package counter

import (
	"cmp"
	"fmt"
	"slices"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/part"
	"stowright/internal/stock"
)

// sheet gives how long and wide a piece of a board can be, along and across its grain, trimmed.
func sheet(b stock.Board, trim L) (along, across L) {
	if b.Trim != nil {
		trim = *b.Trim
	}
	along, across = b.Length-2*trim, b.Width-2*trim
	if b.Grain == "along-width" {
		along, across = across, along
	}
	if b.Grain == "none" && across > along {
		along, across = across, along
	}
	return along, across
}

// carriers gives where a joint in a layer is carried: over the sides of cases, between two cases
// and over blocking.
func (b *build) carriers() []L {
	var at []L
	for _, u := range b.Under {
		at = append(at, u.From+u.Side/2, u.To-u.Side/2)
	}
	for _, x := range b.crossings() {
		at = append(at, x)
	}
	return at
}

// Cuts gives the joints of one layer from lo to hi in pieces no longer than most: each as far
// along as a carrier allows that keeps clear of the joints to avoid and leaves no piece shorter
// than stagger. Loose are those for which there was none.
func Cuts(lo, hi, most L, carriers, avoid []L) (cuts, loose []L) {
	for at := lo; hi-at > most && len(cuts) < longestFree; {
		next, found := at, false
		for _, c := range carriers {
			ok := c >= at+stagger && c <= at+most && c <= hi-stagger && c > next
			for _, a := range avoid {
				ok = ok && (c-a).Abs() >= stagger
			}
			if ok {
				next, found = c, true
			}
		}
		if !found {
			next = min(at+most, hi-stagger)
			for _, a := range avoid {
				if (next - a).Abs() < stagger {
					next = max(a-stagger, at+most/2)
				}
			}
			loose = append(loose, next)
		}
		cuts = append(cuts, next)
		at = next
	}
	return cuts, loose
}

func (b *build) layers() {
	z := b.Box.Max.Z
	var avoid []L
	var upper []int
	var joints []joint
	carriers := b.carriers()
	for i, id := range b.Layers {
		bd, ok := b.Catalogue.Board(id)
		if !ok || bd.Thickness <= 0 {
			continue
		}
		along, across := sheet(bd, b.Practice.Trim)
		if along <= 0 {
			along, across = b.core.Max.X-b.core.Min.X, b.core.Max.Y-b.core.Min.Y
		}
		if d := b.core.Max.Y - b.core.Min.Y; d > across {
			b.say(TooDeep, finding.Error, fmt.Sprintf("the top is %s deep inside its edging; the sheet gives %s across its grain", b.text(d), b.text(across)), "make it shallower, or choose another board", d-across)
		}
		cuts, loose := Cuts(b.core.Min.X, b.core.Max.X, along, carriers, avoid)
		avoid = append(avoid, cuts...)
		for _, c := range loose {
			if b.strapped(c) {
				b.straps = append(b.straps, c)
				continue
			}
			joints = append(joints, joint{i, c})
		}
		ends := append(append([]L{b.core.Min.X}, cuts...), b.core.Max.X)
		var mine []int
		for k := range len(ends) - 1 {
			local, name := fmt.Sprintf("layer-%d", i+1), part.Piece(b.layer(i), k, len(ends)-1, geom.Right)
			if len(ends) > 2 {
				local = fmt.Sprintf("%s-%d", local, k+1)
			}
			p := part.New(local, part.CounterLayer, name, id, geom.B(ends[k], b.core.Min.Y, z-bd.Thickness, ends[k+1], b.core.Max.Y, z), geom.Right, geom.Back)
			p = b.notched(p)
			mine = append(mine, len(b.a.Parts))
			b.add(p)
			b.joinEdges(p)
			for _, u := range upper {
				b.laminate(b.a.Parts[u], p)
			}
			if k > 0 {
				l, r := b.a.Parts[mine[k-1]], p
				b.a.Joints = append(b.a.Joints, part.Joint{Kind: part.GlueOnly, A: l.Local, B: r.Local, Glue: true,
					Contact: geom.B(ends[k], b.core.Min.Y, z-bd.Thickness, ends[k], b.core.Max.Y, z)})
			}
		}
		z -= bd.Thickness
		upper, b.top = mine, mine
	}
	for _, j := range joints {
		b.loose(j)
	}
	b.strips(z)
}

// layer names a layer, from 0 for the upper one. It has no number, for marks count from below.
func (b *build) layer(i int) string {
	switch n := len(b.Layers); {
	case n == 1:
		return "layer"
	case i == 0:
		return "upper layer"
	case i == n-1:
		return "lower layer"
	case n == 3:
		return "middle layer"
	}
	return fmt.Sprintf("layer %d from above", i+1)
}

// joint is where a layer is butted.
type joint struct {
	layer int // from 0, the upper one
	at    L
}

// loose tells a joint that nothing carries from below. Where another layer runs on over or under it, that
// one carries, and the checks of strength count on it alone.
func (b *build) loose(j joint) {
	for _, p := range b.a.Parts {
		var n int
		if _, err := fmt.Sscanf(p.Local, "layer-%d", &n); err != nil || n == j.layer+1 {
			continue
		}
		if box := p.Box(); box.Min.X <= j.at-stagger/2 && box.Max.X >= j.at+stagger/2 {
			b.say(JointLoose, finding.Note, fmt.Sprintf("a joint of the %s, %s from its left end, lies between supports: the %s, which runs on there, carries alone, and is checked so", b.layer(j.layer), b.text(j.at-b.core.Min.X), b.layer(n-1)), "", j.at-b.core.Min.X)
			return
		}
	}
	sev, text, hint := finding.Warning, "a joint of the %s, %s from its left end, lies over no case side and no blocking", "put blocking under it, or lay a second layer"
	if b.hanging(j.at) {
		sev, text, hint = finding.Error, "the joint of the %s, %s from its left end, hangs over a gap: nothing but glue on its ends would carry it", "take a longer sheet, lay a second layer under it, or carry it there by rails"
	}
	if len(b.Layers) > 1 {
		hint = "take a longer sheet, or move a case there"
	}
	b.say(JointLoose, sev, fmt.Sprintf(text, b.layer(j.layer), b.text(j.at-b.core.Min.X)), hint, j.at-b.core.Min.X)
}

// hanging says that nothing is under a place: it lies over a knee space or a gap, or past the cases.
func (b *build) hanging(x L) bool {
	return len(b.Under) > 0 && !slices.ContainsFunc(b.Under, func(u Under) bool { return u.From <= x && x <= u.To })
}

// strapped says that a joint over a knee space has room for a block under it, between the rails and what holds their ends.
func (b *build) strapped(x L) bool {
	for _, k := range b.Knees {
		if b.Rails != nil && b.Blocking == nil && x-strapWidth/2 > k.From+blockThick+strapPlay && x+strapWidth/2 < k.To-blockThick-strapPlay {
			return true
		}
	}
	return false
}

// strap puts blocks under the joints that lie over a knee space: as deep as there is room between
// the rails, which hang there when the counter is let down, of the lowest layer's board, glued and screwed to both
// sides of the joint.
func (b *build) strap() {
	for k, x := range b.straps {
		lo, hi := b.core.Min.Y, b.core.Max.Y
		for _, p := range b.a.Parts {
			if box := p.Box(); p.Role == part.Rail && box.Min.X <= x && box.Max.X >= x {
				if box.Min.Y < (lo+hi)/2 {
					lo = max(lo, box.Max.Y+strapPlay)
				} else {
					hi = min(hi, box.Min.Y-strapPlay)
				}
			}
		}
		u := b.a.Parts[b.top[0]]
		t := u.Size[2]
		p := part.New(fmt.Sprintf("strap-%d", k+1), part.Spacer, "block under a joint", u.Stock, geom.B(x-strapWidth/2, lo, b.under-t, x+strapWidth/2, hi, b.under), geom.Right, geom.Back)
		b.add(p)
		for _, i := range b.top {
			u := b.a.Parts[i]
			c := u.Box().And(p.Box())
			if c.Max.X-c.Min.X < leastHeld {
				continue
			}
			n := 2 * max(int((c.Max.Y-c.Min.Y).DivUp(int64(screwGrid))), 2)
			b.fromBelow(u, p, c, n, "blocking, from below")
		}
	}
}

// fromBelow glues a board under another and screws it there, from below.
func (b *build) fromBelow(upper, lower part.Part, c geom.Box, n int, use string) {
	b.joined(b.shop.Lay(part.Joint{Kind: part.WoodScrew, A: upper.Local, B: lower.Local, Contact: c, Glue: true}, lower, upper, lower.Size[2], upper.Size[2], n, use))
}

// laminate glues and screws a piece of a layer under another where they touch.
func (b *build) laminate(upper, lower part.Part) {
	x, y := upper.Box(), lower.Box()
	c := geom.B(max(x.Min.X, y.Min.X), x.Min.Y, x.Min.Z, min(x.Max.X, y.Max.X), x.Max.Y, x.Min.Z)
	w, d := c.Max.X-c.Min.X, c.Max.Y-c.Min.Y
	if w <= 0 || d <= 0 {
		return
	}
	n := int(w.DivUp(int64(screwGrid))) * int(d.DivUp(int64(screwGrid)))
	b.fromBelow(upper, lower, c, n, "layers of a counter, from below")
}

// blocking finds what the strips are made of and whether there is room for them.
func (b *build) blocking() {
	if len(b.Layers) != 1 {
		b.Blocking = nil
		return
	}
	x, ok := b.Catalogue.Board(cmp.Or(b.Blocking.Board, b.Layers[0]))
	if !ok {
		b.say(NoStock, finding.Error, fmt.Sprintf("the blocking is to be of board %q, which is not known: there is none", b.Blocking.Board), "name a board of the job or the catalogue", 0)
		b.Blocking = nil
		return
	}
	if have := b.under - b.Box.Min.Z; have < x.Thickness {
		b.say(NoBlocking, finding.Warning, fmt.Sprintf("the layer lies %s above the cases; blocking is %s thick: there is none", b.text(have), b.text(x.Thickness)), "make the cases lower by its thickness", x.Thickness-have)
		b.Blocking = nil
		return
	}
	b.block = x
	deep := b.core.Max.Y - b.core.Min.Y
	w := b.stripWidth()
	if most := (deep - 2*stripApart) / 2; w > most {
		if most < leastStrip {
			b.say(NoBlocking, finding.Error, fmt.Sprintf("inside its edging the top is %s deep, which is too little for two strips of blocking: there is none, and the top lies on air", b.text(deep)), "leave blocking out, or make it deeper", deep)
			b.Blocking = nil
			return
		}
		b.say(NoBlocking, finding.Note, fmt.Sprintf("two strips of blocking %s wide do not go side by side into %s; they are made %s wide", b.text(w), b.text(deep), b.text(most)), "", w-most)
		w = most
	}
	if e := b.Blocking.Every; e > 0 && e < w+stripApart {
		b.say(NoBlocking, finding.Note, fmt.Sprintf("strips of blocking %s wide every %s would lie on each other; they keep %s apart", b.text(w), b.text(e), b.text(stripApart)), "", w+stripApart-e)
	}
	b.Blocking = &Blocking{Board: b.Blocking.Board, Width: w, Every: b.Blocking.Every}
}

func (b *build) stripWidth() L { return cmp.Or(b.Blocking.Width, stripWidth) }

// crossings gives the centres of the strips across the counter: at both ends and between them no further apart
// than the practice says, and never on each other; one in the middle where two have no room.
func (b *build) crossings() []L {
	if b.Blocking == nil {
		return nil
	}
	w := b.stripWidth()
	every := cmp.Or(b.Blocking.Every, b.Practice.CounterBlocking, stripEvery)
	lo, hi := b.core.Min.X+w/2, b.core.Max.X-w/2
	if hi <= lo {
		return nil
	}
	n := min(max((hi-lo).DivUp(int64(every)), 1), (hi-lo)/(w+stripApart))
	if n == 0 {
		return []L{(lo + hi) / 2}
	}
	var at []L
	for i := range int64(n) + 1 {
		at = append(at, lo+(hi-lo).MulDiv(i, int64(n)))
	}
	return at
}

// strips puts blocking under the layer: one along the front and the rear, and crossings between.
func (b *build) strips(z L) {
	if b.Blocking == nil {
		return
	}
	w, t, id := b.stripWidth(), b.block.Thickness, b.block.ID
	id = cmp.Or(id, cmp.Or(b.Blocking.Board, b.Layers[0]))
	along, _ := sheet(b.block, b.Practice.Trim)
	if along <= 0 {
		along = b.core.Max.X - b.core.Min.X
	}
	var strips []part.Part
	cuts, _ := Cuts(b.core.Min.X, b.core.Max.X, along, b.crossings(), nil)
	ends := append(append([]L{b.core.Min.X}, cuts...), b.core.Max.X)
	rears := 0
	for k := range len(ends) - 1 {
		strips = append(strips, part.New(fmt.Sprintf("blocking-front-%d", k+1), part.Blocking, "front blocking", id, geom.B(ends[k], b.core.Min.Y, z-t, ends[k+1], b.core.Min.Y+w, z), geom.Right, geom.Back))
		for _, box := range b.between(geom.B(ends[k], b.core.Max.Y-w, z-t, ends[k+1], b.core.Max.Y, z)) {
			rears++
			strips = append(strips, part.New(fmt.Sprintf("blocking-rear-%d", rears), part.Blocking, "rear blocking", id, box, geom.Right, geom.Back))
		}
	}
	for k, x := range b.crossings() {
		box := geom.B(x-w/2, b.core.Min.Y+w, z-t, x-w/2+w, b.core.Max.Y-w, z)
		for _, n := range b.Notches { // it ends before what stands out
			if n.Min.X < box.Max.X && n.Max.X > box.Min.X {
				box.Max.Y = min(box.Max.Y, n.Min.Y)
			}
		}
		if box.Max.Y-box.Min.Y >= leastHeld {
			strips = append(strips, part.New(fmt.Sprintf("blocking-%d", k+1), part.Blocking, "cross blocking", id, box, geom.Back, geom.Right))
		}
	}
	for _, p := range strips {
		b.add(p)
		b.joinEdges(p)
		for _, i := range b.top {
			u := b.a.Parts[i]
			x, y := u.Box(), p.Box()
			c := geom.B(max(x.Min.X, y.Min.X), y.Min.Y, z, min(x.Max.X, y.Max.X), y.Max.Y, z)
			if c.Max.X-c.Min.X < leastHeld {
				continue
			}
			n := max(int(max(c.Max.X-c.Min.X, c.Max.Y-c.Min.Y).DivUp(int64(screwGrid))), 2)
			b.fromBelow(u, p, c, n, "blocking, from below")
		}
	}
}

// between gives what is left of a strip along the wall beside everything that stands out from it.
func (b *build) between(strip geom.Box) []geom.Box {
	rest := []geom.Box{strip}
	for _, n := range b.Notches {
		var now []geom.Box
		for _, x := range rest {
			if n.Min.X >= x.Max.X || n.Max.X <= x.Min.X || n.Min.Y >= x.Max.Y {
				now = append(now, x)
				continue
			}
			left, right := x, x
			left.Max.X, right.Min.X = min(x.Max.X, n.Min.X), max(x.Min.X, n.Max.X)
			for _, y := range []geom.Box{left, right} {
				if y.Max.X-y.Min.X >= b.stripWidth() { // shorter ones are no use
					now = append(now, y)
				}
			}
		}
		rest = now
	}
	return rest
}
