package counter

import (
	"cmp"
	"fmt"
	"slices"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/joinery"
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
		z := b.Box.Min.Z
		for _, row := range []struct {
			name string
			y    L
		}{{"front", b.Front + railBehind}, {"rear", b.Box.Max.Y - t}} {
			local := fmt.Sprintf("rail-%d-%s", k+1, row.name)
			p := part.New(local, part.Rail, fmt.Sprintf("%s rail over %s %d", row.name, map[bool]string{false: "knee space", true: "gap"}[n.Gap], k+1), id, geom.B(n.From, row.y, z-h, n.To, row.y+t, z), geom.Right, geom.Up)
			p.Material = material
			screw := b.screwEnds(&p, row.name == "front")
			b.add(p)
			b.a.Spans = append(b.a.Spans, part.Span{Part: local, Along: geom.Right, Use: cmp.Or(b.Use, part.Work),
				Supports: []part.Support{{At: t / 2, Width: t}, {At: n.To - n.From - t/2, Width: t}}})
			for _, x := range []L{n.From, n.To} {
				for _, up := range []L{h / 4, h - h/4} {
					b.a.Fixings = append(b.a.Fixings, part.Fixing{Owner: b.id, Kind: part.ToCase, Part: local, At: geom.V(x, row.y+t/2, z-h+up), Stud: b.beside(x), Screw: screw.ID, Length: screw.Length, Row: row.name})
				}
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

// screwEnds bores pockets in the inner face of a rail, two at each end, by which it is screwed
// to the sides beside it, and gives the screw; a shop without a pocket jig screws it through the
// sides.
func (b *build) screwEnds(p *part.Part, front bool) stock.Hardware {
	tool, ok := b.shop.Tool("pocket-jig")
	n, want := 4, joinery.PocketLength(p.Size[2])
	use := "pocket"
	if ok {
		inner := geom.Front
		if front {
			inner = geom.Back
		}
		f := p.Facing(inner)
		for _, e := range []part.Face{part.Start, part.End} {
			for _, v := range []L{p.Size[1] / 4, p.Size[1] - p.Size[1]/4} {
				x := L(0)
				if e == part.End {
					x = p.Size[0]
				}
				p.Ops = append(p.Ops, part.Op{Kind: part.Pocket, Face: f, X: x, Y: v, Dia: 95 * mm / 10, Depth: p.Size[2] * 2 / 3, Angle: joinery.PocketAngle, Towards: e, Tool: tool, For: "pocket screw"})
			}
		}
	} else {
		use, want = "joining", 50*mm
	}
	h, _ := b.shop.Screw(use, want)
	h.ID = cmp.Or(h.ID, use+"-screw")
	b.a.Hardware = append(b.a.Hardware, part.Item{Owner: b.id, ID: h.ID, Kind: "screw", Count: n, Length: h.Length, For: "rails over a knee space"})
	return h
}

// spans says what carries the counter: the sides of the cases, or the legs of a free bench.
func (b *build) spans() {
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
		slices.SortFunc(s.Supports, func(a, c part.Support) int { return cmp.Compare(a.At, c.At) })
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
	board, _ := b.Catalogue.Board(b.Practice.Case) // of the tops under it
	h, _ := b.shop.ScrewFor("wood", cmp.Or(board.Thickness, 18*mm), thick)
	id := cmp.Or(h.ID, usualScrew)
	for _, u := range b.Under {
		for k := range joinScrews {
			x, y := u.From+60*mm, b.Front+40*mm
			if k%2 == 1 {
				x = u.To - 60*mm
			}
			if k > 1 {
				y = b.Box.Max.Y - 60*mm
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

// free makes the frame of a bench: four legs, rails under the top, and what keeps it from racking.
func (b *build) free() {
	t, w, ok, mat := L(0), L(0), false, part.Stick
	if st, is := b.Catalogue.Stick(b.Free.Legs); is {
		t, w, ok = st.Thickness, st.Width, true
	} else if bd, is := b.Catalogue.Board(cmp.Or(b.Free.Legs, b.Practice.Case)); is {
		b.Free = &Free{Legs: bd.ID, Brace: b.Free.Brace, Feet: b.Free.Feet, Bottom: b.Free.Bottom}
		t, w, ok, mat = bd.Thickness, 90*mm, true, part.Board
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
			b.a.Hardware = append(b.a.Hardware, part.Item{Owner: b.id, ID: b.Free.Feet, Kind: kind, Count: 1, For: "bench legs"})
			b.a.Feet = append(b.a.Feet, f)
		}
	}
	// Rails from leg to leg: their ends meet the legs' inner faces, left and right.
	long := func(name string, y, z L) {
		local := add("rail-"+name, part.Rail, name+" rail", geom.B(lo+t, y, z, hi-t, y+t, z+w), geom.Right, geom.Up)
		side := "front"
		if y > (y0+y1)/2 {
			side = "rear"
		}
		b.meet(leg[side+"-left"], local, geom.Left)
		b.meet(leg[side+"-right"], local, geom.Right)
	}
	// Cross rails lie between the legs of one end and meet their edges.
	cross := func(name string, x, z L) {
		local := add("rail-"+name, part.Rail, name+" rail", geom.B(x, y0+w, z, x+t, y1-w, z+w), geom.Back, geom.Up)
		side := "left"
		if x > (lo+hi)/2 {
			side = "right"
		}
		b.meet(leg["front-"+side], local, geom.Front)
		b.meet(leg["rear-"+side], local, geom.Back)
	}
	long("upper-front", y0+(w-t)/2, z1-w)
	long("upper-rear", y1-w+(w-t)/2, z1-w)
	cross("upper-left", lo, z1-w)
	cross("upper-right", hi-t, z1-w)
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
		b.meet(leg["rear-left"], "brace", geom.Left)
		b.meet(leg["rear-right"], "brace", geom.Right)
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

// meet screws a rail's end to a leg.
func (b *build) meet(legName, rail string, to geom.Dir) {
	l, r := b.part(legName), b.part(rail)
	x, y := l.Box(), r.Box()
	c := x.And(y)
	at := y.Min.At(to.Axis())
	if to.Sign() > 0 {
		at = y.Max.At(to.Axis())
	}
	c.Min, c.Max = c.Min.With(to.Axis(), at), c.Max.With(to.Axis(), at)
	res := b.shop.Make("wood-screw", joinery.Between{A: l, B: r, To: to, Contact: c, Heads: true, Butt: true, Most: 2})
	b.a.Joints = append(b.a.Joints, res.Joint)
	b.a.Hardware = append(b.a.Hardware, res.Items...)
	b.told.Add(res)
}
