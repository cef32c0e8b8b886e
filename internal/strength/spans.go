package strength

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/order"
	"stowright/internal/part"
	"stowright/internal/place"
	"stowright/internal/strength/beam"
)

// Distances in mm that decide what rests on what.
const (
	touching = 0.6 // as good as touching
	oneTwo   = 60  // supports nearer than this are one
	edgeRoom = 40  // a board may end this far short of its support, carried by an edging
)

// carriers are all boards that carry as beams or shelves: shelves, trays, bottoms and tops of
// cases, counters and the rails of bases. Drawer bottoms are plates; see bottoms.
func (s *Scene) carriers(unknown *blank) []board {
	var list []board
	seen := map[string]bool{} // a board may have a span for each bay on it
	for i := range s.All.Spans {
		sp := &s.All.Spans[i]
		p := s.parts[sp.Part]
		if p == nil || seen[p.Mark] || p.Material == part.Bought || p.Role == part.BoxBottom || p.Role == part.Rail && p.Material == part.Stick && s.kind(p.Owner) == "counter" {
			continue // a rail over a knee space shares the counter's load: it is proved with it
		}
		seen[p.Mark] = true
		if p.Role == part.CounterLayer && sp.Along.Axis() == 0 {
			if seen[p.Owner] {
				continue // pieces of a layer are one board with cuts: see cuts.go
			}
			seen[p.Owner] = true
		}
		if b, ok := s.carrier(p, sp, unknown); ok {
			list = append(list, b)
		}
	}
	return list
}

func (s *Scene) kind(owner string) string {
	if o := s.owners[owner]; o != nil {
		return o.Kind
	}
	return ""
}

// baseOf gives the base under a case, nil when there is none.
func (s *Scene) baseOf(owner string) *part.Owner {
	o := s.owners[owner]
	if o == nil || o.Hung {
		return nil
	}
	for i := range s.All.Owners {
		b := &s.All.Owners[i]
		if b.Kind == "base" && b.Wall == o.Wall && b.Box.Min.X < o.Box.Max.X && o.Box.Min.X < b.Box.Max.X && math.Abs(mm(b.Box.Max.Z-o.Carcass.Min.Z)) < 5 {
			return b
		}
	}
	return nil
}

// carrier makes a span ready for the methods; false when something is not known, which is then
// noted.
func (s *Scene) carrier(p *part.Part, sp *part.Span, unknown *blank) (board, bool) {
	box := s.whole(p)
	size := box.Size()
	axis := sp.Along.Axis()
	cross := 1 - axis
	b := board{part: p, solved: s.solved, at: s.at(p.Owner, p.Mark), t: mm(size.Z), depth: mm(size.At(cross)), length: mm(size.At(axis)), back: sp.BackHeld, across: axis == 1}
	b.wood = s.wood(p, axis, p.Pose.W().Axis() != 2)
	if fact, find := b.wood.missing(); fact != "" {
		unknown.add(fact, find, s.name(p), b.at)
		return b, false
	}
	b.supports = s.supports(p, sp, axis)
	if len(b.supports) < 2 {
		unknown.add("what holds it up", "Give it a support at each end.", s.name(p), b.at)
		return b, false
	}
	b.reach = way(b.supports)
	own, ok := s.weight(p)
	if !ok {
		unknown.add(weightOf(p), "Give density of its material under materials:.", s.name(p), b.at)
		return b, false
	}
	own *= mm(size.X) / mm(p.Box().Size().X) // of all pieces of a counter's layer
	s.stiffen(&b, sp, axis, &own)
	for _, m := range b.lacks {
		unknown.add(m, "Give density of its material under materials: or species:.", s.name(p), b.at)
	}
	if len(b.lacks) > 0 {
		return b, false
	}
	l := s.on(p, sp, &b)
	if !l.known {
		for _, x := range l.lacks {
			unknown.add(x, "Give weighs: to those goods, or load: to the bay.", s.name(p), b.at)
		}
		return b, false
	}
	one, words := s.heaviest(p)
	if p.Role == part.CounterLayer {
		one, words = b.lump, ""
	}
	if one.kg > 0 {
		l.kg += one.more
		l.from += words
		b.thing, b.foot = newtons(one.kg), math.Min(one.wide, b.reach)
	}
	stands, by := s.partitionsOn(p)
	for _, x := range by.lacks {
		unknown.add(x, "Give weighs: to those goods, load: to the bays, and density of its material.", s.name(p), b.at)
	}
	if len(by.lacks) > 0 {
		return b, false
	}
	if axis == 0 {
		b.stands, b.uneven = stands, s.uneven(p, sp)
	}
	l.assumed = l.assumed || by.assumed
	b.load = l
	b.own = newtons(own) / b.length
	b.line = newtons(l.kg-one.kg)/b.length + b.own
	b.working = append(b.working, "Load: "+l.from+": "+s.kg(l.kg)+"; own weight "+s.kg(own)+".", "Board: "+s.describe(b)+".",
		fmt.Sprintf("Longest way between supports: %s.", s.exact(b.reach)))
	b.working = append(b.working, s.standingOn(b.stands)...)
	return b, true
}

// lump is the heaviest single thing on a board.
type lump struct {
	kg   float64
	more float64 // of it that the goods put away there do not count on this board
	wide float64 // mm along the board
}

// heaviest finds the heaviest single thing, of heavyFrom or more, that the job puts on a board: it
// stands in the middle, and whole, wherever else it might stand. Nothing where the bay's load is
// stated, and on drawers and trays.
func (s *Scene) heaviest(p *part.Part) (one lump, words string) {
	if p.Role != part.Shelf && p.Role != part.FixedShelf && p.Role != part.Bottom {
		return one, ""
	}
	for _, w := range s.lying[p.Mark] {
		if w.bay.Load > 0 || w.bay.Moves != "" || w.goods.Each == nil {
			continue
		}
		kg := w.goods.Each.Kilograms()
		if kg < heavyFrom || kg <= one.kg || !s.goesIn(w) {
			continue
		}
		counted := 0.0
		for _, x := range s.where {
			if x.goods == w.goods && x.bay == w.bay {
				counted = x.counted
			}
		}
		one = lump{kg: kg, more: math.Max(1-counted, 0) * kg}
		switch {
		case w.goods.Dia != nil:
			one.wide = mm(*w.goods.Dia)
		case w.goods.Wide != nil && w.goods.Deep != nil:
			one.wide = math.Min(mm(*w.goods.Wide), mm(*w.goods.Deep))
		}
		words = fmt.Sprintf("; of that one %s, %s, stands in the middle", called(w.goods), s.kg(kg))
		if one.more > 0 {
			words = fmt.Sprintf("; one whole %s, %s, stands in the middle", called(w.goods), s.kg(kg))
		}
	}
	return one, words
}

// heaviestOn is the same of a counter's goods.
func (s *Scene) heaviestOn(p *part.Part) (one lump, words string) {
	for _, w := range s.where {
		if w.bay != nil || w.owner != p.Owner || w.goods.Each == nil {
			continue
		}
		kg := w.goods.Each.Kilograms()
		if kg < heavyFrom || kg <= one.kg {
			continue
		}
		one = lump{kg: kg, more: math.Max(1-w.counted, 0) * kg}
		switch {
		case w.goods.Dia != nil:
			one.wide = mm(*w.goods.Dia)
		case w.goods.Wide != nil && w.goods.Deep != nil:
			one.wide = math.Min(mm(*w.goods.Wide), mm(*w.goods.Deep))
		}
		words = fmt.Sprintf("; one %s, %s, stands in the middle", called(w.goods), s.kg(kg))
	}
	return one, words
}

// whole is the box of a part; of a piece of a counter's layer, blocking or edging, that of the whole run.
func (s *Scene) whole(p *part.Part) geom.Box {
	box, _ := s.run(p)
	return box
}

// supports gives the centres of what holds a board, from its start.
func (s *Scene) supports(p *part.Part, sp *part.Span, axis int) []float64 {
	box := s.whole(p)
	start, end := mm(box.Min.At(axis)), mm(box.Max.At(axis))
	var at []float64
	if p.Role == part.CounterLayer && axis == 0 {
		at = s.underCounter(p)
	}
	if len(at) < 2 {
		at = nil
		for _, x := range sp.Supports {
			at = append(at, mm(x.At))
		}
	}
	order.Up(at)
	var out []float64
	for _, x := range at {
		x = math.Min(math.Max(x, 0), end-start)
		if n := len(out); n > 0 && x-out[n-1] < oneTwo {
			if x >= end-start-touching {
				out[n-1] = x
			}
			continue
		}
		out = append(out, x)
	}
	return out
}

// underCounter finds the sides, partitions and legs whose upper ends bear a counter. A board that
// ends short of its support is carried by the edging between.
func (s *Scene) underCounter(p *part.Part) []float64 {
	o := s.owners[p.Owner]
	box := s.whole(p)
	var at []float64
	for i := range s.All.Parts {
		q := &s.All.Parts[i]
		if q.Role != part.Side && q.Role != part.Partition && q.Role != part.Leg || s.owners[q.Owner] == nil || s.owners[q.Owner].Wall != o.Wall {
			continue
		}
		c := q.Box()
		if q.Role == part.Partition && !s.footed(q) {
			continue
		}
		if math.Abs(mm(c.Max.Z)-s.underside(o.ID)) > touching || c.Max.Y <= box.Min.Y || c.Min.Y >= box.Max.Y {
			continue
		}
		x := mm(c.Min.X+c.Max.X)/2 - mm(box.Min.X)
		if x > -edgeRoom && x < mm(box.Max.X-box.Min.X)+edgeRoom {
			at = append(at, x)
		}
	}
	return at
}

// underside is the height of a counter's lower face, its blocking counted.
func (s *Scene) underside(owner string) float64 {
	z := math.Inf(1)
	for _, q := range s.of(owner).Parts {
		if q.Role == part.CounterLayer || q.Role == part.Blocking {
			z = math.Min(z, mm(q.Box().Min.Z))
		}
	}
	return z
}

// glued says that two parts are glued to each other.
func (s *Scene) glued(a, b string) bool {
	for _, j := range s.joints[a] {
		if j.Glue && (j.A == a && j.B == b || j.A == b && j.B == a) {
			return true
		}
	}
	return false
}

// gluedOn says that a layer is glued to a piece of a run, or of one that is counted with it.
func (s *Scene) gluedOn(q *part.Part, run geom.Box, counted map[geom.Box]bool) bool {
	for _, j := range s.joints[q.Mark] {
		other := j.A
		if other == q.Mark {
			other = j.B
		}
		p := s.parts[other]
		if p == nil || !j.Glue || p.Owner != q.Owner {
			continue
		}
		if c, _ := s.run(p); c == run || counted[c] {
			return true
		}
	}
	return false
}

// stiffen finds edge strips, lips, further layers and rails that help a board, and adds their
// weight to its own.
func (s *Scene) stiffen(b *board, sp *part.Span, axis int, own *float64) {
	box := s.whole(b.part)
	near := box.Grow(length.MM / 2)
	mid := mm(box.Min.Z+box.Max.Z) / 2
	cross := 1 - axis
	seen := map[geom.Box]bool{}
	joints, names := map[which][]float64{}, map[which]string{}
	if b.part.Role == part.CounterLayer && axis == 0 {
		_, joints[which{of: 'b'}] = s.run(b.part)
		names[which{of: 'b'}] = b.part.Name
	}
	// Layers are glued to each other: each may be the first that the next one touches.
	layered := func(q *part.Part) bool { return q.Role == part.CounterLayer || q.Role == part.Blocking }
	var far []geom.Box
	for n := -1; n != len(far); {
		n = len(far)
		for _, q := range s.of(b.part.Owner).Parts {
			if q.Moves != b.part.Moves || q.Mark == b.part.Mark {
				continue
			}
			c, meet := s.run(q)
			if c == box || seen[c] || !near.Meets(c) && !slices.ContainsFunc(far, func(x geom.Box) bool { return x.Meets(c) && layered(q) }) {
				continue
			}
			size := c.Size()
			along := mm(min(c.Max.At(axis), box.Max.At(axis)) - max(c.Min.At(axis), box.Min.At(axis)))
			if along < 0.8*b.reach {
				continue
			}
			w := s.wood(q, axis, q.Pose.W().Axis() != 2)
			if w.e <= 0 {
				continue // not counted on
			}
			kg, ok := s.weight(q)
			switch q.Role {
			case part.EdgeStrip, part.CounterEdge, part.Lip:
				if q.Mark != sp.Stiff && !s.glued(q.Mark, b.part.Mark) || size.At(cross) > size.At(axis) {
					continue
				}
				st := strip{name: q.Name, wide: mm(size.At(cross)), high: mm(size.Z), drop: mid - mm(c.Min.Z+c.Max.Z)/2, e: w.e, f: w.strength(permanent), g: w.g, wood: w.what}
				if st.g <= 0 {
					st.g = w.e / 100
				}
				if mm(c.Min.At(cross)+c.Max.At(cross)) < mm(box.Min.At(cross)+box.Max.At(cross)) {
					joints[which{'f', len(b.front)}], names[which{'f', len(b.front)}] = meet, q.Name
					b.front = append(b.front, st)
				} else {
					joints[which{'r', len(b.rear)}], names[which{'r', len(b.rear)}] = meet, q.Name
					b.rear = append(b.rear, st)
				}
				seen[c] = true
				if !ok {
					b.lacks = append(b.lacks, weightOf(q))
				}
				*own += kg * mm(size.X) / mm(q.Box().Size().X)
			case part.CounterLayer, part.Blocking:
				if c.Max.Z > box.Min.Z+length.MM/2 && c.Min.Z < box.Max.Z-length.MM/2 || !s.gluedOn(q, box, seen) {
					continue
				}
				seen[c], far = true, append(far, c.Grow(length.MM/2))
				if !ok {
					b.lacks = append(b.lacks, weightOf(q))
				}
				joints[which{'l', len(b.layers)}], names[which{'l', len(b.layers)}] = meet, q.Name
				b.layers = append(b.layers, layer{name: q.Name, wide: mm(size.At(cross)), high: mm(size.Z), bottom: mm(c.Min.Z - box.Min.Z), e: w.e, g: w.shear(), f: w.strength(permanent)})
				*own += kg * mm(size.X) / mm(q.Box().Size().X)
			}
		}
	}
	if b.part.Role != part.CounterLayer {
		return
	}
	s.cutsOf(b, joints, names)
	for _, q := range s.of(b.part.Owner).Parts {
		if q.Role != part.Rail {
			continue
		}
		c := q.Box()
		if math.Abs(mm(c.Max.Z)-s.underside(b.part.Owner)) > touching || mm(c.Min.X-box.Min.X) > b.middle()-b.reach/2+oneTwo || mm(c.Max.X-box.Min.X) < b.middle()+b.reach/2-oneTwo {
			continue
		}
		if w := s.wood(q, axis, true); w.e > 0 {
			v := c.Size()
			b.railed = [2]float64{mm(c.Min.X - box.Min.X), mm(c.Max.X - box.Min.X)}
			b.beside = append(b.beside, layer{name: q.Name, wide: mm(v.Y), high: mm(v.Z), e: w.e, g: w.shear(), f: w.strength(permanent), ends: s.railEnds(q)})
		}
	}
}

// on gives what stands on a board: the goods of its bays, or what a counter or a base carries.
func (s *Scene) on(p *part.Part, sp *part.Span, b *board) load {
	switch p.Role {
	case part.CounterLayer:
		return s.onCounter(p, b)
	case part.BaseRail:
		return s.onBase(p)
	}
	l := load{known: true}
	found := false
	for _, y := range s.of(p.Owner).Bays {
		if y.Floor != p.Mark && (sp.Bay == "" || y.ID != sp.Bay) {
			continue
		}
		x := s.loads[y.ID]
		found = true
		l.kg += x.kg
		l.full = math.Max(l.full, x.full)
		l.known = l.known && x.known
		l.assumed = l.assumed || x.assumed
		l.lacks = append(l.lacks, x.lacks...)
		if l.from != "" {
			l.from += "; "
		}
		l.from += x.from
	}
	if !found {
		l.from = "nothing stands on it"
	}
	return l
}

// onCounter is the practice's load on a counter or the goods on it, whichever is more, with the
// loads at points.
func (s *Scene) onCounter(p *part.Part, b *board) load {
	per := float64(s.Job.Practice.CounterLoad) / 1e9
	if per <= 0 {
		return load{lacks: []string{"the load on a counter (the practice's counter-load)"}}
	}
	o := s.owners[p.Owner]
	v := s.whole(p).Size()
	a := mm(v.X) * mm(v.Y) / 1e6
	l := load{kg: per * a, known: true, assumed: true, from: fmt.Sprintf("assumed: counter-load of %s on %s (the practice)", s.perArea(per), s.floor(a))}
	top := s.tops[p.Owner]
	if !top.known {
		return top
	}
	// The practice's load or the goods, whichever is more, and the heaviest of them in the middle besides, as a vice would be.
	one, words := s.heaviestOn(p)
	if rest := top.kg + one.more - one.kg; rest > l.kg {
		l = top
	} else if one.kg > 0 {
		l.kg += one.kg - one.more
	}
	if one.kg > 0 {
		b.lump = one
		l.from += words
	}
	start := mm(s.whole(p).Min.X)
	point := func(name string, x, kg float64) {
		if x -= start; x >= 0 && x <= b.length {
			b.points = append(b.points, beam.Point{At: x, Force: newtons(kg)})
			l.from += fmt.Sprintf("; %s of %s at %s along", name, s.kg(kg), s.long(x))
		}
	}
	for _, c := range s.Job.Counters {
		if c.ID == p.Owner {
			for _, x := range c.Value.PointLoads {
				point(cmp.Or(x.Name, "a point load"), mm(o.Box.Min.X)+mm(x.At), x.Mass.Kilograms())
			}
		}
	}
	for i := range s.Room.Seats {
		m := &s.Room.Seats[i]
		if m.Kind != place.Machine || m.On != p.Owner && !over(m.Box, o.Box) {
			continue
		}
		for _, x := range s.Job.Machines {
			if x.ID != m.ID {
				continue
			}
			if x.Value.Mass == nil {
				return load{lacks: []string{"the weight of machine " + x.ID}}
			}
			// A machine bears at both ends of its feet.
			point(x.ID+" (half)", mm(m.Box.Min.X), x.Value.Mass.Kilograms()/2)
			point(x.ID+" (half)", mm(m.Box.Max.X), x.Value.Mass.Kilograms()/2)
		}
	}
	return l
}

// over says that one thing stands on another.
func over(a, b geom.Box) bool {
	return math.Abs(mm(a.Min.Z-b.Max.Z)) < touching && a.Min.X < b.Max.X && b.Min.X < a.Max.X && a.Min.Y < b.Max.Y && b.Min.Y < a.Max.Y
}

// onBase is a rail's half of all that stands on a base, by its length.
func (s *Scene) onBase(p *part.Part) load {
	base := s.owners[p.Owner]
	l := load{known: true}
	lo, hi := mm(p.Box().Min.X), mm(p.Box().Max.X)
	for i := range s.All.Owners {
		o := &s.All.Owners[i]
		if o.Kind != "case" || s.baseOf(o.ID) != base {
			continue
		}
		a, c := math.Max(lo, mm(o.Box.Min.X)), math.Min(hi, mm(o.Box.Max.X))
		if c <= a {
			continue
		}
		w := s.gross(o.ID)
		l.known = l.known && w.known
		l.assumed = l.assumed || w.assumed
		l.lacks = append(l.lacks, w.lacks...)
		l.kg += w.kg / 2 * (c - a) / mm(o.Box.Max.X-o.Box.Min.X)
	}
	l.from = "half of the cases on it, their contents and the counter over them"
	return l
}

// gross is all that a floor case bears on what it stands on: itself, its contents, and its share
// of the counters over it.
func (s *Scene) gross(owner string) load {
	l := load{known: true}
	own, lacks := s.bodies(owner, false)
	in, missing, assumed := s.contents(owner, false)
	t := sum(own)
	l.kg = t.kg + s.hardware(owner, t.kg) + sum(in).kg
	l.assumed = assumed
	l.lacks = append(l.lacks, lacks...)
	l.lacks = append(l.lacks, missing...)
	for i := range s.Room.Seats {
		seat := &s.Room.Seats[i]
		if seat.Kind != place.Counter {
			continue
		}
		all, mine := 0.0, 0.0
		for _, p := range seat.Pieces {
			all += mm(p.To - p.From)
			if p.ID == owner {
				mine += mm(p.To - p.From)
			}
		}
		o := s.owners[seat.ID]
		if mine <= 0 || o == nil {
			continue
		}
		top, lacks := s.bodies(seat.ID, false)
		l.lacks = append(l.lacks, lacks...)
		v := o.Box.Size()
		kg := math.Max(float64(s.Job.Practice.CounterLoad)/1e9*mm(v.X)*mm(v.Y)/1e6, s.tops[seat.ID].kg)
		l.lacks = append(l.lacks, s.tops[seat.ID].lacks...)
		l.kg += (sum(top).kg + kg) * mine / all
		l.assumed = true
	}
	l.known = len(l.lacks) == 0
	return l
}
