package counter

import (
	"cmp"
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/order"
	"stowright/internal/part"
	"stowright/internal/stock"
)

// rails puts a front and a rear rail under the counter over every knee space, screwed to the
// sides of the cases beside it so that they can be taken out.
func (b *build) rails() {
	if b.Rails == nil {
		return
	}
	id, t, h := b.Rails.Stick, L(0), cmp.Or(b.Rails.Height, usualRail)
	material := part.Stick
	if st, ok := b.Catalogue.Stick(id); ok {
		t, h = st.Thickness, cmp.Or(b.Rails.Height, st.Width)
	} else {
		id = cmp.Or(id, b.Practice.Case)
		bd, ok := b.Catalogue.Board(id)
		if !ok {
			b.say(NoStock, finding.Error, fmt.Sprintf("the rails are to be of %q, which is no stick and no board: there are none", id), "name a stick or a board", 0)
			return
		}
		t, material = bd.Thickness, part.Board
	}
	for k, n := range b.Knees {
		if n.To <= n.From {
			continue
		}
		z, rear := b.Box.Min.Z, b.Box.Max.Y-t
		for _, c := range b.Notches { // a rail goes before what a notch is for
			if c.Min.X < n.To && c.Max.X > n.From {
				rear = min(rear, c.Min.Y-t)
			}
		}
		for _, row := range []struct {
			name string
			y    L
		}{{"front", b.Front + railBehind}, {"rear", rear}} {
			way := L(1) // into the knee space
			if row.name == "rear" {
				way = -1
			}
			_, jig := b.shop.Tool("pocket-jig")
			if jig {
				row.y += b.uncrossed(n, row.y, t, way, []L{z - h + h/4, z - h/4})
			}
			local := fmt.Sprintf("rail-%d-%s", k+1, row.name)
			from, to := n.From, n.To
			if b.beside(from) != "" {
				from += part.RailPlay
			}
			if b.beside(to) != "" {
				to -= part.RailPlay
			}
			p := part.New(local, part.Rail, fmt.Sprintf("%s rail over %s %d", row.name, map[bool]string{false: "knee space", true: "gap"}[n.Gap], k+1), id, geom.B(from, row.y, z-h, to, row.y+t, z), geom.Right, geom.Up)
			p.Material = material
			var held []L // ends of the rail where a case stands
			var at []part.Face
			var supports []part.Support
			for i, x := range []L{n.From, n.To} {
				if b.beside(x) == "" {
					continue
				}
				held, at = append(held, x), append(at, []part.Face{part.Start, part.End}[i])
				supports = append(supports, part.Support{At: []L{t / 2, to - from - t/2}[i], Width: t})
			}
			if jig {
				screw := b.screwEnds(&p, row.name == "front", at)
				b.add(p)
				for i, x := range []L{n.From, n.To} {
					if b.beside(x) == "" {
						b.unheld([]string{"left", "right"}[i], p.Name)
					}
				}
				for _, x := range held {
					for _, up := range []L{h / 4, h - h/4} {
						b.a.Fixings = append(b.a.Fixings, part.Fixing{Owner: b.id, Kind: part.ToCase, Part: local, At: geom.V(x, row.y+t/2, z-h+up), Stud: b.beside(x), Screw: screw.ID, Length: screw.Length, Row: row.name})
					}
				}
			} else {
				b.add(p)
				for _, left := range []bool{true, false} {
					b.bolted(local, n, left, map[bool]geom.Dir{true: geom.Back, false: geom.Front}[row.name == "front"])
				}
			}
			if len(supports) > 0 {
				b.a.Spans = append(b.a.Spans, part.Span{Part: local, Along: geom.Right, Use: cmp.Or(b.Use, part.Work), Supports: supports})
			}
		}
	}
}

// beside names the case whose side is at x, "" for none.
func (b *build) beside(x L) string {
	for _, u := range b.Under {
		if u.From == x || u.To == x {
			return u.ID
		}
	}
	return ""
}

// A rail over a knee space is shifted away from its place where its screws would meet those that hold a board of the
// case to the same side from within (common practice, no source).
const (
	crossing = 12 * mm // from middle to middle, and they lean towards each other
	railStep = 5 * mm
	railMove = 40 * mm // no further
)

// uncrossed gives how far a rail of thickness t goes from its y into the knee space, so that its screws at x, so high,
// are clear of those in the other face of the sides; 0 where none is.
func (b *build) uncrossed(knee Knee, y, t L, way L, heights []L) L {
	for d := L(0); b.Crossed != nil && d <= railMove; d += railStep {
		free := true
		for _, x := range []L{knee.From, knee.To} {
			for _, u := range b.Under {
				for _, z := range heights {
					at := geom.V(x, y+t/2+d*way, z)
					free = free && (u.To != x || !b.Crossed(u.ID, geom.Right, at, crossing)) && (u.From != x || !b.Crossed(u.ID, geom.Left, at, crossing))
				}
			}
		}
		if free {
			return d * way
		}
	}
	return 0
}

// screwEnds bores pockets in the inner face of a rail, two at each end where a case stands, by which it is screwed
// to the side of that, and gives the screw.
func (b *build) screwEnds(p *part.Part, front bool, ends []part.Face) stock.Hardware {
	tool, _ := b.shop.Tool("pocket-jig")
	inner := geom.Front
	if front {
		inner = geom.Back
	}
	f := p.Facing(inner)
	for _, e := range ends {
		for _, v := range []L{p.Size[1] / 4, p.Size[1] - p.Size[1]/4} {
			x := L(0)
			if e == part.End {
				x = p.Size[0]
			}
			p.Ops = append(p.Ops, part.Op{Kind: part.Pocket, Face: f, X: x, Y: v, Dia: 95 * mm / 10, Depth: p.Size[2] * 2 / 3, Angle: joinery.PocketAngle, Towards: e, Tool: tool, For: "pocket screw"})
		}
	}
	h, _ := b.shop.Screw("pocket", joinery.PocketLength(p.Size[2]))
	h.ID = cmp.Or(h.ID, "pocket-screw")
	if len(ends) == 0 {
		return h
	}
	b.a.Hardware = append(b.a.Hardware, part.Item{Owner: b.id, ID: h.ID, Kind: "screw", Count: 2 * len(ends), Length: h.Length, For: "rails over a knee space"})
	return h
}

// spans says what carries the counter: the sides of the cases, or the legs of a free bench.
// Nothing carries a layer with air under it.
func (b *build) spans() {
	if b.Blocking == nil && b.under > b.Box.Min.Z {
		return
	}
	for _, i := range b.top {
		p := b.a.Parts[i]
		x := p.Box()
		s := part.Span{Part: p.Local, Along: geom.Right, Stiff: b.edge, Use: cmp.Or(b.Use, part.Work)}
		at := func(lo, hi L) {
			lo, hi = max(lo, x.Min.X), min(hi, x.Max.X)
			if hi > lo {
				s.Supports = append(s.Supports, part.Support{At: (lo+hi)/2 - x.Min.X, Width: hi - lo})
			}
		}
		for _, u := range b.Under {
			at(u.From, u.From+u.Side)
			at(u.To-u.Side, u.To)
		}
		for _, q := range b.a.Parts {
			if q.Role == part.Leg && q.Box().Min.Y < (b.Box.Min.Y+b.Box.Max.Y)/2 {
				at(q.Box().Min.X, q.Box().Max.X)
			}
		}
		order.Stable(s.Supports, func(a, c part.Support) int { return cmp.Compare(a.At, c.At) })
		if len(s.Supports) > 0 {
			b.a.Spans = append(b.a.Spans, s)
		}
	}
}

// hold screws the counter to the cases under it, from below, so that it can be taken off.
func (b *build) hold() {
	if len(b.Under) == 0 || len(b.a.Parts) == 0 || len(b.top) == 0 {
		return
	}
	thick := b.Box.Max.Z - b.Box.Min.Z
	usual, _ := b.Catalogue.Board(b.Practice.Case)
	for _, u := range b.Under {
		top := cmp.Or(u.Top, usual.Thickness, 18*mm)
		h, ok := b.shop.ScrewFor("wood", top, thick)
		if !ok {
			b.say(NoScrew, finding.Warning, fmt.Sprintf("no wood screw is listed that goes through the %s of %s under it and stays in its own %s: nothing holds it there", b.text(top), u.ID, b.text(thick)), fmt.Sprintf("list a screw with use: wood, longer than %s and no longer than %s", b.text(top), b.text(top+thick-4*mm)), 0)
			continue
		}
		id := h.ID
		for k := range joinScrews {
			x, y := u.From+60*mm, b.Front+40*mm
			if k%2 == 1 {
				x = u.To - 60*mm
			}
			if k > 1 {
				y = b.Box.Max.Y - 60*mm
			}
			for _, n := range b.Notches {
				if n.Min.X-railBehind < x && x < n.Max.X+railBehind && y > n.Min.Y-railBehind {
					y = n.Min.Y - railBehind
				}
			}
			local := ""
			for _, i := range b.top {
				if q := b.a.Parts[i].Box(); q.Min.X <= x && x <= q.Max.X {
					local = b.a.Parts[i].Local
				}
			}
			if local == "" {
				continue
			}
			b.a.Fixings = append(b.a.Fixings, part.Fixing{Owner: b.id, Kind: part.ToCase, Part: local, At: geom.V(x, y, b.Box.Min.Z), Stud: u.ID, Screw: id, Length: h.Length, Row: "counter"})
			b.a.Hardware = append(b.a.Hardware, part.Item{Owner: b.id, ID: id, Kind: "screw", Count: 1, Length: h.Length, For: "counter to cases, from below"})
		}
	}
}

// UnderBench gives the room for a case under a free bench whose top is in a box: between its legs, from the top's front edge
// to the rails between the rear legs, up to the upper rails or, with a lower shelf, to the rails below that. Empty when
// its legs are no stock.
func UnderBench(c stock.Catalogue, caseBoard string, f Free, top part.Box) part.Box {
	t, w := L(0), L(0)
	if st, ok := c.Stick(f.Legs); ok {
		t, w = st.Thickness, st.Width
	} else if bd, ok := c.Board(cmp.Or(f.Legs, caseBoard)); ok {
		t, w = bd.Thickness, boardLeg
	} else {
		return part.Box{}
	}
	high := top.Min.Z - w
	if f.Brace == "shelf" {
		high = f.Bottom + lowRail
		if x, ok := c.Item(f.Feet); ok {
			high += x.Height
		}
	}
	return geom.B(top.Min.X+legInset+t, top.Min.Y, f.Bottom, top.Max.X-legInset-t, top.Max.Y-legInset-w, high)
}

// boardLeg is how wide a leg of board is (common practice, no source).
const boardLeg = 90 * mm

// What the end of a leg needs for what it stands on (common practice, no source).
const (
	plateLeg = 30 * mm // for the screws of a plate
	boltRoom = 5 * mm  // over a bolt that is all the way in
)

// legFor is how thick a leg must be for a foot or castor.
func (b *build) legFor(foot stock.Hardware) L {
	if foot.Dia == 0 || foot.Kind != "foot" {
		return plateLeg
	}
	wood, _ := b.shop.FootWood(foot)
	return wood
}

// intoLeg bores a leg's end for the insert of a foot's bolt, and as deep as the bolt goes in.
func (b *build) intoLeg(local string, foot stock.Hardware, at geom.Vec) {
	if foot.Kind != "foot" || foot.Dia == 0 {
		return
	}
	tool, dia, insert, _ := b.shop.FootHole(foot)
	p := b.part(local)
	deep := min(insert+foot.Greatest-foot.Height+boltRoom, lowRail-boltRoom)
	p.Bore(part.Hole, p.Facing(geom.Down), at, dia, deep, joinery.LongBit(tool, dia, deep), "foot")
}

// free makes the frame of a bench: four legs, rails under the top, and what keeps it from racking.
func (b *build) free() {
	t, w, ok, mat := L(0), L(0), false, part.Stick
	if st, is := b.Catalogue.Stick(b.Free.Legs); is {
		t, w, ok = st.Thickness, st.Width, true
	} else if bd, is := b.Catalogue.Board(cmp.Or(b.Free.Legs, b.Practice.Case)); is {
		b.Free = &Free{Legs: bd.ID, Brace: b.Free.Brace, Feet: b.Free.Feet, Floor: b.Free.Floor, Bottom: b.Free.Bottom}
		t, w, ok, mat = bd.Thickness, boardLeg, true, part.Board
	}
	if !ok {
		b.say(NoStock, finding.Error, fmt.Sprintf("the legs are to be of %q, which is no stick and no board: there are none", b.Free.Legs), "name a stick or a board", 0)
		return
	}
	id := b.Free.Legs
	foot := L(0)
	item, footed := b.Catalogue.Item(b.Free.Feet)
	if footed {
		foot = item.Height
	}
	kind := "foot"
	if item.Kind == "castor" {
		kind = "castor"
		if !item.Locks {
			b.say(Rolls, finding.Error, fmt.Sprintf("%s has no brake: a bench that is worked at must stand", cmp.Or(item.Name, item.ID)), "take castors with brakes", 0)
		}
	}
	z0, z1 := b.Free.Bottom+foot, b.Box.Min.Z
	lo, hi := b.Box.Min.X+legInset, b.Box.Max.X-legInset
	y0, y1 := b.Box.Min.Y+legInset, b.Box.Max.Y-legInset
	if z1-z0 < lowRail+3*w || hi-lo < 4*w || y1-y0 < 3*w {
		b.say(NoStock, finding.Error, fmt.Sprintf("a bench %s high under its top, %s long and %s deep leaves no room for legs %s wide", b.text(z1-z0), b.text(hi-lo), b.text(y1-y0), b.text(w)), "make it larger", w)
		return
	}
	add := func(local string, role part.Role, name string, box geom.Box, u, v geom.Dir) string {
		p := part.New(local, role, name, id, box, u, v)
		p.Material = mat
		b.add(p)
		return local
	}
	leg := map[string]string{}
	for _, q := range []struct {
		n    string
		x, y L
	}{{"front-left", lo, y0}, {"front-right", hi - t, y0}, {"rear-left", lo, y1 - w}, {"rear-right", hi - t, y1 - w}} {
		leg[q.n] = add("leg-"+q.n, part.Leg, q.n+" leg", geom.B(q.x, q.y, z0, q.x+t, q.y+w, z1), geom.Up, geom.Back)
		f := part.Foot{Owner: b.id, Kind: kind, At: geom.V(q.x+t/2, q.y+w/2, z0)}
		if footed {
			f.Hardware, f.Least, f.Greatest = b.Free.Feet, item.Height, item.Greatest
			if item.Rating != nil {
				f.Rating = *item.Rating
			}
			b.a.Hardware = append(b.a.Hardware, part.Item{Owner: b.id, ID: b.Free.Feet, Kind: kind, Count: 1, For: part.StandsOn})
			if x, ok := b.shop.PlateScrews(item, 1, z1-z0, part.StandsOn); ok {
				b.a.Hardware = append(b.a.Hardware, x)
			}
			b.a.Feet = append(b.a.Feet, f)
			b.intoLeg(leg[q.n], item, f.At)
		}
	}
	if least := b.legFor(item); footed && min(t, w) < least {
		b.say(joinery.BoardThin, finding.Error, fmt.Sprintf("the end of a leg of %s by %s takes no %s: it splits; %s is the least", b.text(t), b.text(w), cmp.Or(item.Name, item.ID), b.text(least)), "take thicker legs, legs: under free", least-min(t, w))
	}
	b.toFloor([]string{leg["front-left"], leg["rear-left"]}, geom.Left)
	b.toFloor([]string{leg["front-right"], leg["rear-right"]}, geom.Right)
	// The screws of the two rails that meet in a leg cross in its middle: they take turns in height,
	// a fifth of the rail apart.
	turns := func(n L) []L { return []L{w * n / 5, w * (n + 2) / 5} }
	// Rails from leg to leg: their ends meet the legs' inner faces, left and right.
	long := func(name string, y, z L) {
		local := add("rail-"+name, part.Rail, name+" rail", geom.B(lo+t, y, z, hi-t, y+t, z+w), geom.Right, geom.Up)
		side := "front"
		if y > (y0+y1)/2 {
			side = "rear"
		}
		b.meet(leg[side+"-left"], local, geom.Left, turns(1))
		b.meet(leg[side+"-right"], local, geom.Right, turns(1))
	}
	// Cross rails lie between the legs of one end and meet their edges.
	cross := func(name string, x, z L) {
		local := add("rail-"+name, part.Rail, name+" rail", geom.B(x, y0+w, z, x+t, y1-w, z+w), geom.Back, geom.Up)
		side := "left"
		if x > (lo+hi)/2 {
			side = "right"
		}
		b.meet(leg["front-"+side], local, geom.Front, turns(2))
		b.meet(leg["rear-"+side], local, geom.Back, turns(2))
	}
	long("upper-front", y0+(w-t)/2, z1-w)
	long("upper-rear", y1-w+(w-t)/2, z1-w)
	cross("upper-left", lo, z1-w)
	cross("upper-right", hi-t, z1-w)
	b.cleats("front", "rail-upper-front", geom.Back)
	b.cleats("rear", "rail-upper-rear", geom.Front)
	low := z0 + lowRail
	switch b.Free.Brace {
	case "none":
		b.say(Racks, finding.Error, fmt.Sprintf("nothing keeps a bench %s high from racking", b.text(b.Box.Max.Z-b.Free.Bottom)), "state brace: panel, rails or shelf", b.Box.Max.Z-b.Free.Bottom)
		return
	case "panel":
		bd, is := b.Catalogue.Board(b.Practice.Case)
		if !is {
			b.say(NoStock, finding.Error, fmt.Sprintf("the brace panel is to be of board %q, which is not known", b.Practice.Case), "name a board", 0)
			return
		}
		h := min((z1-w-low)/2*2, 400*mm)
		y := y1 - w + (w-bd.Thickness)/2
		p := part.New("brace", part.Frame, "brace panel", b.Practice.Case, geom.B(lo+t, y, z1-w-h, hi-t, y+bd.Thickness, z1-w), geom.Right, geom.Up)
		b.add(p)
		// Its screws stay above those of the lower cross rails.
		clear := max(low+w-(z1-w-h), 0)
		at := []L{clear + (h-clear)/4, h - (h-clear)/4}
		b.meet(leg["rear-left"], "brace", geom.Left, at)
		b.meet(leg["rear-right"], "brace", geom.Right, at)
		cross("lower-left", lo, low)
		cross("lower-right", hi-t, low)
	default:
		cross("lower-left", lo, low)
		cross("lower-right", hi-t, low)
		long("lower-rear", y1-w+(w-t)/2, low)
		if b.Free.Brace != "shelf" {
			break
		}
		long("lower-front", y0+(w-t)/2, low)
		bd, is := b.Catalogue.Board(cmp.Or(b.Practice.ShelfBoard, b.Practice.Case))
		if !is {
			break
		}
		sid := cmp.Or(b.Practice.ShelfBoard, b.Practice.Case)
		top := low + w
		p := part.New("shelf", part.FixedShelf, "lower shelf", sid, geom.B(lo+t, y0, top, hi-t, y1, top+bd.Thickness), geom.Right, geom.Back)
		b.add(p)
		for _, r := range []string{"rail-lower-front", "rail-lower-rear"} {
			q := b.part(r)
			c := q.Box()
			c.Min.Z = c.Max.Z
			res := b.shop.Screwed(joinery.Flat{First: b.part("shelf"), Second: q, To: geom.Down, Contact: c, At: joinery.Along(c, 4, 60*mm), Kind: part.WoodScrew, Glue: true, For: "lower shelf"})
			res.Joint.A, res.Joint.B = r, "shelf"
			b.a.Joints = append(b.a.Joints, res.Joint)
			b.a.Hardware = append(b.a.Hardware, res.Items...)
			b.told.Add(res)
		}
		b.a.Spans = append(b.a.Spans, part.Span{Part: "shelf", Along: geom.Back, Use: part.Storage, Bay: b.id + "/under",
			Supports: []part.Support{{At: w / 2, Width: t}, {At: y1 - y0 - w/2, Width: t}}})
		b.a.Bays = append(b.a.Bays, part.Bay{ID: b.id + "/under", Owner: b.id, Box: geom.B(lo+t, y0, top+bd.Thickness, hi-t, y1, z1-w), Floor: "shelf", Kind: "open", Use: part.Storage})
	}
}

// meet screws a rail's end to a leg, at heights above the rail's lower edge.
func (b *build) meet(legName, rail string, to geom.Dir, heights []L) {
	l, r := b.part(legName), b.part(rail)
	x, y := l.Box(), r.Box()
	c := x.And(y)
	at := y.Min.At(to.Axis())
	if to.Sign() > 0 {
		at = y.Max.At(to.Axis())
	}
	c.Min, c.Max = c.Min.With(to.Axis(), at), c.Max.With(to.Axis(), at)
	b.joined(b.shop.Make("wood-screw", joinery.Between{A: l, B: r, To: to, Contact: c, Heads: true, Butt: true, At: heights}))
}

func (b *build) joined(r joinery.Result) {
	b.a.Joints = append(b.a.Joints, r.Joint)
	b.a.Hardware = append(b.a.Hardware, r.Items...)
	b.told.Add(r)
}

// cleats puts a strip of board along the inner face of an upper rail, flush with its top: screwed to
// the rail, and from below to the top that lies on it, which lifts off when those screws are out.
func (b *build) cleats(side, rail string, in geom.Dir) {
	bd, ok := b.Catalogue.Board(b.Practice.Case)
	if !ok {
		b.say(NoStock, finding.Error, fmt.Sprintf("the cleats that hold the top are to be of board %q, which is not known", b.Practice.Case), "name a board", 0)
		return
	}
	local := "cleat-" + side
	box := b.part(rail).Box()
	face := box.Min.Y
	if in == geom.Back {
		face = box.Max.Y
	}
	box.Min.Y, box.Max.Y = min(face, face+L(in.Sign())*cleatWidth), max(face, face+L(in.Sign())*cleatWidth)
	box.Min.Z = box.Max.Z - bd.Thickness
	b.add(part.New(local, part.Spacer, side+" cleat under the top", b.Practice.Case, box, geom.Right, geom.Back))
	c := box
	c.Min.Y, c.Max.Y = face, face
	n := max(3, int((box.Max.X-box.Min.X-2*cleatClear)/cleatScrews)+2)
	at := joinery.Along(c, n, cleatClear)
	r := b.shop.Screwed(joinery.Flat{First: b.part(local), Second: b.part(rail), To: in.Not(), Contact: c, At: at, Kind: part.WoodScrew, Glue: true, For: "cleats of the top"})
	r.Joint.A, r.Joint.B = rail, local
	b.joined(r)
	// Up into whatever lies on it, midway between the screws to the rail.
	held := 0
	for i := range b.a.Parts {
		p := &b.a.Parts[i]
		q := p.Box()
		if p.Role != part.CounterLayer && p.Role != part.Blocking || q.Min.Z != box.Max.Z {
			continue
		}
		c := geom.B(max(q.Min.X, box.Min.X), max(q.Min.Y, box.Min.Y), box.Max.Z, min(q.Max.X, box.Max.X), min(q.Max.Y, box.Max.Y), box.Max.Z)
		if c.Max.X <= c.Min.X || c.Max.Y-c.Min.Y < cleatWidth {
			continue
		}
		var up []geom.Vec
		for k := range n - 1 {
			x := (at[k].X + at[k+1].X) / 2
			if m := n - 2 - k; k > m { // the same from both ends
				x = box.Min.X + box.Max.X - (at[m].X+at[m+1].X)/2
			}
			if x >= c.Min.X+10*mm && x <= c.Max.X-10*mm {
				up = append(up, geom.V(x, (box.Min.Y+box.Max.Y)/2, box.Max.Z))
			}
		}
		if len(up) == 0 {
			continue
		}
		held += len(up)
		r := b.shop.Screwed(joinery.Flat{First: b.part(local), Second: p, Behind: b.over(*p, c), To: geom.Up, Contact: c, At: up, Kind: part.WoodScrew, For: "top to its frame, from below"})
		r.Joint.A, r.Joint.B = p.Local, local
		b.joined(r)
	}
	if held < 2 {
		b.say(TopLoose, finding.Warning, fmt.Sprintf("%d screws of the %s cleat reach what lies on it: the top is not held along that rail", held, side), "state a second layer instead of blocking", 0)
	}
}

// over gives the piece of the next layer that lies on all of a contact with a piece below it, nil for none.
func (b *build) over(p part.Part, c geom.Box) *part.Part {
	for i := range b.a.Parts {
		q := &b.a.Parts[i]
		if x := q.Box(); q.Role == part.CounterLayer && x.Min.Z == p.Box().Max.Z && x.Min.X <= c.Min.X && x.Max.X >= c.Max.X {
			return q
		}
	}
	return nil
}
