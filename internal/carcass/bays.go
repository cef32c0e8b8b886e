package carcass

import (
	"cmp"
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/fitting"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/part"
)

// space is a clear space on the way down the tree.
type space struct {
	path  string
	box   geom.Box
	walls [6]fitting.Wall
	doors []fitting.Door
	kept  []fitting.Keep
	pass  [2]L // left, right
	use   part.Use
}

// root gives the clear space of the box.
func (b *build) root() space {
	t := b.t
	sp := space{path: "in", box: geom.B(t, 0, b.zb+t, b.w-t, b.yb, b.h-t)}
	sp.walls[geom.Left] = fitting.Wall{Part: "side-l", Thickness: t, Heads: b.heads("side-l")}
	sp.walls[geom.Right] = fitting.Wall{Part: "side-r", Thickness: t, Heads: b.heads("side-r")}
	sp.walls[geom.Down] = fitting.Wall{Part: "bottom", Thickness: t}
	sp.walls[geom.Up] = fitting.Wall{Thickness: t}
	if len(b.top) == 1 {
		sp.walls[geom.Up].Part = "top"
	}
	if p := b.part("back"); p != nil && p.Box().Min.Y-b.yb <= panelAir {
		sp.walls[geom.Back] = fitting.Wall{Part: "back", Thickness: b.backs}
	}
	return sp
}

// inside builds the tree of bays in the clear space of the box.
func (b *build) inside() { b.bay(b.spec.Inside, b.root()) }

// cover gives how far a front reaches over the board on one side of a space.
func (b *build) cover(sp space, d geom.Dir) L {
	p := b.env.Practice
	w := sp.walls[d]
	if w.Both {
		return (w.Thickness - p.FrontGap) / 2
	}
	switch d {
	case geom.Up:
		return w.Thickness - p.TopGap
	case geom.Down:
		return w.Thickness - p.BottomGap
	}
	return w.Thickness - p.SideGap
}

// fronts gives the box of the front plane before a space, gaps at its outer sides taken off.
func (b *build) fronts(sp space, thick L) geom.Box {
	return geom.B(sp.box.Min.X-b.cover(sp, geom.Left), -b.air-thick, sp.box.Min.Z-b.cover(sp, geom.Down),
		sp.box.Max.X+b.cover(sp, geom.Right), -b.air, sp.box.Max.Z+b.cover(sp, geom.Up))
}

func (b *build) bay(y Bay, sp space) {
	if y.Use != "" {
		sp.use = part.Use(y.Use)
	}
	var leaves []leaf
	if y.Doors != nil && len(sp.doors) == 0 {
		leaves = b.doors(y, &sp)
	} else if y.Doors != nil {
		b.say(BaysTooLarge, finding.Warning, sp.path, "a bay behind doors has doors of its own, which are left out", "give the doors to one of the two")
	}
	switch {
	case len(y.Across) > 0:
		b.split(y.Across, sp, 0)
	case len(y.Up) > 0:
		b.split(y.Up, sp, 2)
	default:
		b.fit(y, sp)
	}
	if len(leaves) > 0 && y.Doors.Lock {
		b.locks(leaves, sp)
	}
	b.hang(leaves, sp)
}

// shares gives the clear sizes of bays that share a space along x (axis 0, partitions between)
// or z (axis 2, fixed shelves between), nil when there is no room for them.
func (b *build) shares(list []Bay, sp space, axis int) []L {
	t := b.t
	room := sp.box.Size().At(axis) - t*L(len(list)-1)
	low, high := geom.Left, geom.Right
	if axis == 2 {
		low, high = geom.Down, geom.Up
	}
	sizes := make([]L, len(list))
	given, open := L(0), 0
	for i, y := range list {
		size := y.Width
		if axis == 2 {
			size = y.Height
		}
		if y.Front != nil && size == nil {
			// The front covers its share of the boards on both sides.
			a, c := sp, sp
			if i > 0 {
				a.walls[low] = fitting.Wall{Thickness: t, Both: true}
			}
			if i < len(list)-1 {
				c.walls[high] = fitting.Wall{Thickness: t, Both: true}
			}
			boards := b.cover(a, low) + b.cover(c, high)
			if v := *y.Front - boards; v > 0 {
				size = &v
			} else {
				b.say(BayFront, finding.Error, fmt.Sprintf("%s-%d", sp.path, i+1), fmt.Sprintf("a front of %s only covers the boards beside it, %s of them: the bay gets a share of what is left instead", b.text(*y.Front), b.text(boards)), "ask for a larger front")
			}
		}
		if size == nil {
			open++
			sizes[i] = -1
			continue
		}
		sizes[i] = *size
		given += sizes[i]
	}
	left := room - given
	if least := 20 * mm * L(open); left < least {
		b.say(BaysTooLarge, finding.Error, sp.path, fmt.Sprintf("its bays ask for %s and there is %s", b.text(given+least), b.text(max(room, 0))), "make them smaller or the case larger")
		if room < 20*mm*L(len(list)) {
			return nil
		}
		for i := range sizes {
			sizes[i] = -1
		}
		open, left = len(list), room
	}
	if open == 0 && left > 0 {
		if left > mm/2 {
			b.say(BaysLeftOver, finding.Warning, sp.path, fmt.Sprintf("its bays leave %s over, which goes to the last", b.text(left)), "leave one of their sizes out")
		}
		sizes[len(sizes)-1] += left
		left = 0
	}
	share := L(0)
	if open > 0 {
		share = left.DivDown(int64(open))
	}
	for i, k := 0, 0; i < len(sizes); i++ {
		if sizes[i] == -1 {
			sizes[i] = share
			if k++; k == open {
				sizes[i] = left - share*L(open-1)
			}
		}
	}
	return sizes
}

// split divides a space along x (axis 0, partitions) or z (axis 2, fixed shelves).
func (b *build) split(list []Bay, sp space, axis int) {
	t, lo := b.t, sp.box.Min.At(axis)
	low, high := geom.Left, geom.Right
	if axis == 2 {
		low, high = geom.Down, geom.Up
	}
	sizes := b.shares(list, sp, axis)
	if sizes == nil {
		b.fit(Bay{}, sp)
		return
	}
	at := lo
	prev := sp.walls[low]
	for i, y := range list {
		in := sp
		in.path = fmt.Sprintf("%s-%d", sp.path, i+1)
		in.box.Min, in.box.Max = sp.box.Min.With(axis, at), sp.box.Max.With(axis, at+sizes[i])
		in.walls[low] = prev
		if i > 0 && axis == 0 {
			in.pass[0] = 0
		}
		if i < len(list)-1 {
			if axis == 0 {
				in.pass[1] = 0
			}
			local := b.between(sp, in.path, axis, at+sizes[i])
			in.walls[high] = fitting.Wall{Part: local, Thickness: t, Both: true, Heads: b.heads(local)}
			prev = in.walls[high]
		}
		// The boards below and above count too: what stands in their slots keeps off with them.
		near := in.box
		near.Min.Z, near.Max.Z = near.Min.Z-t, near.Max.Z+t
		in.kept = nil
		for _, k := range sp.kept {
			if k.Box.Meets(near) {
				in.kept = append(in.kept, k)
			}
			if axis != 0 {
				continue
			}
			// A partition is set back over its whole height where a rack meets it; what is fixed
			// to it must stay behind its edge.
			left, right := in.box, in.box
			left.Min.X, left.Max.X = in.box.Min.X-t, in.box.Min.X
			right.Min.X, right.Max.X = in.box.Max.X, in.box.Max.X+t
			if i > 0 && k.Box.Meets(left) || i+1 < len(list) && k.Box.Meets(right) {
				k.Box.Min.X, k.Box.Max.X = in.box.Min.X, in.box.Max.X
				k.Box.Min.Z, k.Box.Max.Z = in.box.Min.Z, in.box.Max.Z
				in.kept = append(in.kept, k)
			}
		}
		b.bay(y, in)
		at += sizes[i] + t
	}
}

// between puts a partition (axis 0) or a fixed shelf (axis 2) at a place, and gives its name.
func (b *build) between(sp space, path string, axis int, at L) string {
	t, dd := b.t, b.dd
	box := sp.box
	box.Min, box.Max = box.Min.With(axis, at), box.Max.With(axis, at+t)
	other := fitting.Space{Box: box, Kept: sp.kept}
	if y := other.Setback(box.Min.Z, box.Max.Z); y > 0 {
		box.Min.Y = y
	}
	if axis == 0 {
		// A board whose ends meet stretchers cannot go into them.
		if sp.walls[geom.Down].Part != "" {
			box.Min.Z -= dd
		}
		if sp.walls[geom.Up].Part != "" {
			box.Max.Z += dd
		}
		local := path + "-partition"
		p := b.stand(local, part.Partition, "partition", b.board, box, geom.Back)
		b.band(&p, geom.Front)
		b.put(p)
		side := []geom.Dir{geom.Right, geom.Left}
		shift := L(0)
		if sp.walls[geom.Down].Both { // another partition may stand under the same board
			shift = 20 * mm
		}
		b.join(sp.walls[geom.Down].Part, local, geom.Down, b.joint, side, b.heads(sp.walls[geom.Down].Part), shift)
		if up := sp.walls[geom.Up].Part; up != "" {
			b.join(up, local, geom.Up, b.joint, side, b.heads(up), 0)
		} else if sp.box.Max.Z == b.h-t {
			for _, s := range b.top {
				// A partition that is set back may meet the front stretcher by too little to hold.
				if q := b.part(s).Box(); min(q.Max.Y, box.Max.Y)-max(q.Min.Y, box.Min.Y) >= 20*mm {
					b.join(s, local, geom.Up, b.joint, side, true, 0)
				}
			}
		}
		return local
	}
	box.Min.X -= dd
	box.Max.X += dd
	local := path + "-fixed-shelf"
	p := part.New(local, part.FixedShelf, "fixed shelf", b.board, box, geom.Right, geom.Back)
	b.band(&p, geom.Front)
	b.put(p)
	l, r := sp.walls[geom.Left], sp.walls[geom.Right]
	shift := L(0)
	if l.Both {
		shift = 20 * mm
	}
	down := []geom.Dir{geom.Down}
	b.least = b.site.Hold.Floors
	defer func() { b.least = 0 }()
	b.join(l.Part, local, geom.Left, b.joint, down, b.heads(l.Part), shift)
	b.join(r.Part, local, geom.Right, b.joint, down, b.heads(r.Part), 0)
	return local
}

func (b *build) heads(local string) bool {
	switch local {
	case "side-l":
		return b.headsOf("left")
	case "side-r":
		return b.headsOf("right")
	case "bottom":
		return b.headsOf("bottom")
	case "top":
		return b.headsOf("top")
	}
	return true
}

// fit builds the fitting of a bay, or an open bay.
func (b *build) fit(y Bay, sp space) {
	s := fitting.Space{
		ID: sp.path, Box: sp.box, Walls: sp.walls, Doors: sp.doors, Kept: sp.kept,
		PassLeft: sp.pass[0], PassRight: sp.pass[1], Use: sp.use, Grain: b.spec.Grain,
	}
	for d, w := range s.Walls {
		if p := b.part(w.Part); p != nil && w.Both {
			s.Walls[d].Far = b.far(p, geom.Dir(d))
		}
	}
	if y.Load != nil {
		s.Load = *y.Load
	}
	if len(sp.doors) == 0 {
		s.FrontArea = b.fronts(sp, b.tf)
	}
	spec, ok := y.Fitting.Value.(fitting.Spec)
	if n := len(b.a.Bays); y.Ballast != nil {
		defer func() {
			if len(b.a.Bays) > n {
				b.a.Bays[n].Ballast = *y.Ballast // on the floor of the lowest
				b.ballast(&b.a.Bays[n])
			}
		}()
	}
	if !ok {
		bay := s.Bay(b.env, cmp.Or(y.Fitting.Kind, "open"), "", sp.box)
		bay.Box.Min.Y = s.Setback(sp.box.Min.Z, sp.box.Max.Z)
		bay.Floor = sp.walls[geom.Down].Part
		b.a.Bays = append(b.a.Bays, bay)
		return
	}
	b.take(spec.Build(b.env, s), s)
}

// take adds what a fitting made and works its bores into the boards around it.
func (b *build) take(r fitting.Result, s fitting.Space) {
	for _, f := range r.Findings {
		b.once(f)
	}
	for i := range r.Parts {
		r.Parts[i].Owner = b.id
	}
	for i := range r.Hardware {
		r.Hardware[i].Owner = b.id
	}
	b.a.Append(r.Assembly)
	for _, o := range r.Bores {
		p := b.part(s.Walls[o.Wall].Part)
		if p == nil {
			continue
		}
		f := p.Facing(o.Wall.Not())
		if o.Kind != part.Hole && o.Kind != part.Cup && o.Kind != part.Countersink {
			d := o.Wall.Vec(o.Depth)
			box := geom.Box{Min: o.At, Max: o.At.Add(o.Size)}
			box = geom.Box{Min: box.Min.Add(geom.V(min(d.X, 0), min(d.Y, 0), min(d.Z, 0))), Max: box.Max.Add(geom.V(max(d.X, 0), max(d.Y, 0), max(d.Z, 0)))}
			p.Recess(o.Kind, f, box, o.Tool, o.For)
			continue
		}
		depth := min(o.Depth, p.Size[2])
		if s.Walls[o.Wall].Both && depth < p.Size[2] {
			depth = min(depth, b.shop.Opposite(p.Size[2])) // a hole from the other side may be opposite
		}
		if depth < joinery.BlindLeast {
			b.once(b.shop.Thin(o.For, p.Size[2]))
			continue
		}
		x, y := p.OnFace(f, o.At)
		op := part.Op{Kind: o.Kind, Face: f, X: x, Y: y, Dia: o.Dia, Depth: depth, Tool: o.Tool, For: o.For}
		if o.For == "shelf pin" {
			b.pins = append(b.pins, pin{p.Local, op})
			continue
		}
		// A slide's members have more holes than screws: one beside it does as well. What goes into
		// the end of a board is moved there too.
		twin := b.twin(r.Parts, o.At)
		if o.For != "slide" && twin == nil {
			p.Ops = append(p.Ops, op)
			continue
		}
		for _, d := range []L{0, 8 * mm, -8 * mm, 16 * mm, -16 * mm, 24 * mm, -24 * mm} {
			q, at := op, o.At.Add(geom.V(0, d, 0))
			q.X, q.Y = p.OnFace(f, at)
			if !free(p, q) || twin != nil && !twin.fits(at) {
				continue
			}
			op = q
			if twin != nil {
				twin.move(at)
			}
			break
		}
		p.Ops = append(p.Ops, op)
	}
}

// twin is the hole in the end of a board that a hole through what it meets leads to.
type twin struct {
	part *part.Part
	op   int
}

// twin finds among new boards the one with a hole in its end at a point, nil when there is none.
func (b *build) twin(boards []part.Part, at geom.Vec) *twin {
	for _, q := range boards {
		p := b.part(q.Local)
		for i, o := range p.Ops {
			if o.Kind == part.Hole && (o.Face == part.Start || o.Face == part.End) && p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size)) == at {
				return &twin{p, i}
			}
		}
	}
	return nil
}

// fits reports whether the hole keeps 8 mm from the board's edges and 16 from its other holes.
func (t *twin) fits(at geom.Vec) bool {
	f := t.part.Ops[t.op].Face
	x, _ := t.part.OnFace(f, at)
	if wide, _, _ := f.Extent(t.part.Size); x < 8*mm || x > wide-8*mm {
		return x == t.part.Ops[t.op].X
	}
	for i, o := range t.part.Ops {
		if i != t.op && o.Face == f && o.Kind == part.Hole && (o.X-x).Abs() < 16*mm {
			return false
		}
	}
	return true
}

func (t *twin) move(at geom.Vec) {
	o := &t.part.Ops[t.op]
	o.X, o.Y = t.part.OnFace(o.Face, at)
}
