package carcass

import (
	"cmp"
	"fmt"
	"math/bits"
	"slices"
	"strings"

	"stowright/internal/finding"
	"stowright/internal/fitting"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/mass"
	"stowright/internal/part"
	"stowright/internal/stock"
)

// Common practice, no source, except where it says so.
const (
	pairFrom     = 600 * mm // wider than this, an opening gets a pair of leaves
	hingeEnd     = 80 * mm  // hinge from the ends of a door
	hingeClear   = 30 * mm  // plate centres from shelves and slides
	armRoom      = 17 * mm  // what a hinge and a door at right angles take of the opening
	wideAngle    = 150      // doors that open so far are out of the way, racks that are not too deep with them
	openAir      = 5 * mm   // between what hangs on them and what slides out
	boringLeast  = 3 * mm   // cup edge to door edge, makers' guides
	boringMost   = 7 * mm
	rackLoadMost = 15      // kg on cup hinges
	lockDia      = 19 * mm // bore of a usual cam lock
)

// leaf is one door on its way.
type leaf struct {
	path   string // of the space it closes
	part   string
	box    geom.Box
	hinge  geom.Dir
	hw     stock.Hardware
	wall   fitting.Wall
	motion string
	racks  []string
	load   mass.Mass // stated for its racks
	front  int       // index in Fronts
	over   L         // overlay on the hinged side
	plate  L         // height of its plates
	boring L         // cup edge to door edge
}

func (l *leaf) high() L { return l.box.Max.Z - l.box.Min.Z }
func (l *leaf) wide() L { return l.box.Max.X - l.box.Min.X }

// spot gives the point of a leaf so far above its lower edge and from its hinged edge.
func (l *leaf) spot(up, off L) geom.Vec {
	if l.hinge == geom.Right {
		return geom.V(l.box.Max.X-off, l.box.Min.Y, l.box.Min.Z+up)
	}
	return geom.V(l.box.Min.X+off, l.box.Min.Y, l.box.Min.Z+up)
}

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

// doors puts the leaves before a space, has their racks claim their room, and builds them.
func (b *build) doors(y Bay, sp *space) []leaf {
	d := *y.Doors
	p := b.env.Practice
	board := cmp.Or(d.Board, b.spec.FrontBoard, p.FrontBoard, b.board)
	tf := b.thick(board, "doors")
	area := b.fronts(*sp, tf)
	width := area.Max.X - area.Min.X
	count := d.Count
	if count == 0 {
		count = 1
		if sp.box.Max.X-sp.box.Min.X > pairFrom || len(d.Left) > 0 && len(d.Right) > 0 {
			count = 2
		}
	}
	leaves := make([]leaf, count)
	each := width
	if count == 2 {
		each = (width - p.FrontGap).DivDown(2)
	}
	mid := (sp.box.Min.X + sp.box.Max.X) / 2
	for i := range leaves {
		l := &leaves[i]
		l.hinge = geom.Left
		if count == 2 && i == 1 || count == 1 && d.Hinge == "right" {
			l.hinge = geom.Right
		}
		name, local := "door", sp.path+"-door"
		l.box = area
		if count == 2 {
			if i == 0 {
				name, local = "left door", sp.path+"-door-l"
				l.box.Max.X = area.Min.X + each
			} else {
				name, local = "right door", sp.path+"-door-r"
				l.box.Min.X = area.Max.X - each
			}
		}
		l.path, l.part, l.motion, l.wall = sp.path, local, b.id+"/"+local, sp.walls[l.hinge]
		l.over = b.cover(*sp, l.hinge)
		l.hw, l.plate, l.boring = b.hingeFor(cmp.Or(d.Hinges, p.Hinge), l.over, sp.path)
		v := geom.Right
		if l.hinge == geom.Right {
			v = geom.Left
		}
		q := b.stand(local, part.Door, name, board, l.box, v)
		q.Moves = l.motion
		if b.spec.Grain != "either" {
			q.Group = b.id + "/fronts"
		}
		b.band(&q, geom.Left, geom.Right)
		if p.BandAll {
			b.band(&q, geom.Down, geom.Up)
		}
		b.put(q)
		opening := sp.box
		if count == 2 {
			if i == 0 {
				opening.Max.X = mid
			} else {
				opening.Min.X = mid
			}
		}
		opens := l.hw.Opens
		if opens == 0 {
			opens = 90
		}
		sp.doors = append(sp.doors, fitting.Door{Part: local, Hinge: l.hinge, Opens: opens, Box: l.box, Motion: l.motion, Locked: d.Lock, Pair: count == 2})
		handle := cmp.Or(d.Handle, p.Handle)
		b.handle(l, handle)
		b.a.Fronts = append(b.a.Fronts, part.Front{Part: local, Kind: part.DoorFront, Opening: opening, Hinge: l.hinge, Lock: d.Lock, Motion: l.motion, Handle: handle})
		l.front = len(b.a.Fronts) - 1
		b.a.Motions = append(b.a.Motions, b.swing(*l, opens))
	}
	if d.Lock {
		b.lock(&leaves[count-1])
		if count == 2 {
			b.part(leaves[0].part).Note = "held shut by a bolt at its top and one at its bottom; the other leaf locks over it"
			b.item(part.Item{ID: "door-bolt", Kind: "lock", Count: 2, For: "the leaf without a lock"})
		}
	}
	for i := range leaves {
		l := &leaves[i]
		list := d.Left
		if i == 1 {
			list = d.Right
		}
		if count == 1 && len(d.Right) > 0 {
			list = append(slices.Clone(d.Left), d.Right...)
		}
		deepest := b.racks(list, l, sp, i, mid, count)
		pass := armRoom + deepest
		if opens := sp.doors[i].Opens; opens >= wideAngle {
			pass = b.wideOpen(l, opens)
		}
		k := 0
		if l.hinge == geom.Right {
			k = 1
		}
		sp.pass[k] = max(sp.pass[k], pass)
	}
	return leaves
}

// wideOpen gives how far what hangs on a leaf that opens past the side of its case still stands
// before the opening, with air; 0 when it does not. Sines and cosines are rounded to the safe side.
func (b *build) wideOpen(l *leaf, opens int) L {
	x, y := l.box.Min.X+l.over, -b.air
	most := L(0)
	for _, n := range l.racks {
		r := b.part(n).Box()
		near := r.Min.X - x // along the leaf, from its pivot
		if l.hinge == geom.Right {
			near = l.box.Max.X - l.over - r.Max.X
		}
		at := (r.Max.Y-y).MulDiv(cosBeyond(270-opens), 10000) - near.MulDiv(cosBeyond(opens-4), 10000)
		most = max(most, at+openAir)
	}
	return most
}

// racks settles and builds what hangs on one leaf, and gives the deepest.
func (b *build) racks(list []Rack, l *leaf, sp *space, i int, mid L, count int) L {
	box := sp.box
	if count == 2 {
		if i == 0 {
			box.Max.X = mid
		} else {
			box.Min.X = mid
		}
	}
	deepest := L(0)
	z := box.Min.Z
	// Racks with no height of their own share what the others leave.
	type slot struct {
		spec   fitting.Spec
		s      fitting.Space
		claim  fitting.Claim
		up     *L
		height L
	}
	var slots []slot
	fixed, loose := L(0), int64(0)
	for n, r := range list {
		spec, ok := r.Fitting.Value.(fitting.Spec)
		if !ok {
			continue
		}
		side := [...]string{"left", "right"}[i]
		s := fitting.Space{ID: fmt.Sprintf("%s-%s-rack-%d", sp.path, side, n+1), Box: box, Doors: []fitting.Door{sp.doors[len(sp.doors)-count+i]}, Use: sp.use}
		s.Walls[geom.Front] = fitting.Wall{Part: l.part, Thickness: l.box.Max.Y - l.box.Min.Y}
		if r.Load != nil {
			s.Load = *r.Load
			l.load += *r.Load
		}
		c := spec.Claim(b.env, s)
		slots = append(slots, slot{spec, s, c, r.Up, c.Height})
		if c.Height == 0 {
			loose++
		}
		fixed += c.Height
	}
	share := L(0)
	if loose > 0 {
		share = max((box.Max.Z - box.Min.Z - fixed).DivDown(loose), 0)
	}
	for _, t := range slots {
		if t.up != nil {
			z = max(box.Min.Z+*t.up, z)
		}
		h := t.height
		if h == 0 {
			h = share
		}
		if z+h > box.Max.Z || h <= 0 || t.claim.Width > box.Max.X-box.Min.X || t.claim.Depth > box.Max.Y-60*mm {
			b.say(RackRoom, finding.Error, t.s.ID, fmt.Sprintf("a rack %s high and %s deep does not fit the door: %s of height and %s of depth are left", b.text(h), b.text(t.claim.Depth), b.text(max(box.Max.Z-z, 0)), b.text(box.Max.Y-60*mm)), "make it lower or shallower, or leave one out")
			continue
		}
		t.s.Box.Min.Z, t.s.Box.Max.Z = z, z+h
		r := t.spec.Build(b.env, t.s)
		for k := range r.Parts {
			r.Parts[k].Moves = l.motion
			l.racks = append(l.racks, r.Parts[k].Local)
		}
		for k := range r.Bays {
			r.Bays[k].Moves, r.Bays[k].Door = l.motion, true
		}
		b.take(r, t.s)
		keep := geom.B(box.Min.X, 0, z, box.Max.X, t.claim.Depth, z+h)
		sp.kept = append(sp.kept, fitting.Keep{Box: keep, Rack: t.s.ID})
		deepest = max(deepest, t.claim.Depth)
		z += h
	}
	return deepest
}

// swing gives the motion of a leaf. The pivot line is taken at the front of the inner face of
// the hinged side; a real hinge carries the door a few millimetres away from it.
func (b *build) swing(l leaf, opens int) part.Motion {
	w := l.box.Max.X - l.box.Min.X
	thick := l.box.Max.Y - l.box.Min.Y
	x := l.box.Min.X + l.over
	if l.hinge == geom.Right {
		x = l.box.Max.X - l.over
	}
	far := w - l.over
	reach := root(far, thick+b.air)
	past := thick + far.MulDiv(cosBeyond(opens), 10000) // beyond the pivot on the hinged side
	sw := l.box
	sw.Max.Y = 0
	sw.Min.Y = -b.air - reach
	if l.hinge == geom.Left {
		sw.Min.X = min(sw.Min.X, x-past)
	} else {
		sw.Max.X = max(sw.Max.X, x+past)
	}
	return part.Motion{
		ID: l.motion, Owner: b.id, Kind: part.Swing, Parts: []string{l.part}, Closed: l.box,
		Pivot: geom.V(x, -b.air, l.box.Min.Z), Hinge: l.hinge, Angle: opens, Dir: geom.Front, Swept: sw, Hardware: l.hw.ID,
	}
}

// cosBeyond gives -cos of an angle past 90 degrees, in ten-thousandths, rounded up to the next
// five degrees; 0 up to 90.
func cosBeyond(deg int) int64 {
	table := [...]int64{0, 872, 1737, 2589, 3421, 4227, 5000, 5736, 6428, 7072, 7661, 8192, 8661, 9064, 9397, 9660, 9849, 9962, 10000}
	if deg <= 90 {
		return 0
	}
	return table[min((deg-90+4)/5, len(table)-1)]
}

// root gives sqrt(a²+b²), rounded up to 0.1 mm.
func root(a, c L) L {
	u, v := uint64(a.Abs()), uint64(c.Abs())
	n := u*u + v*v
	r := uint64(1) << ((bits.Len64(n) + 1) / 2)
	for {
		q := (r + n/max(r, 1)) / 2
		if q >= r {
			break
		}
		r = q
	}
	return L(r + 1).Up(mm / 10)
}

// handle bores for a handle at the edge away from the hinge.
func (b *build) handle(l *leaf, id string) {
	if id == "" || id == "none" {
		return
	}
	hw, ok := b.env.Catalogue.Item(id)
	if !ok {
		b.say(NoHardware, finding.Warning, l.part, fmt.Sprintf("the handle %q is not known", id), "name a handle of the catalogue")
		return
	}
	b.item(part.Item{ID: id, Kind: "handle", Count: 1, For: "doors"})
	p := b.part(l.part)
	dia := L(5 * mm)
	if hw.Clearance > 0 {
		dia = hw.Clearance
	}
	tool, d, okb := b.shop.Pilot(dia)
	if !okb {
		b.say(joinery.NoBit, finding.Warning, "", "no "+tool+" for handles is owned", "add it to the practice's bits")
	}
	h, v := l.high(), l.wide()-40*mm
	u := h - 100*mm
	if b.wall {
		u = 100 * mm
	}
	pitch := hw.Length
	spots := []L{u}
	if pitch > 0 && h > 2*pitch+80*mm {
		spots = []L{u, u - pitch}
		if b.wall {
			spots = []L{u, u + pitch}
		}
	}
	if h < 220*mm {
		spots = []L{h / 2}
	}
	if v < 20*mm {
		v = l.wide() / 2
	}
	for _, u := range spots {
		p.Bore(part.Hole, p.Facing(geom.Front), l.spot(u, v), d, p.Size[2], tool, "handle")
	}
}

// lock bores for a cam lock at the edge away from the hinge, above a floor case's handle and
// below a wall case's.
func (b *build) lock(l *leaf) {
	id := cmp.Or(b.env.Practice.Lock, "lock")
	hw, _ := b.env.Catalogue.Item(id)
	b.item(part.Item{ID: id, Kind: "lock", Count: 1, For: "doors"})
	dia := cmp.Or(hw.Dia, lockDia)
	tool, ok := b.shop.Bit(dia)
	if !ok {
		b.say(joinery.NoBit, finding.Warning, "", "no "+tool+" for locks is owned", "add it to the practice's bits or hole saws")
	}
	p := b.part(l.part)
	f := p.Facing(geom.Front)
	h, v := l.high(), max(l.wide()-32*mm, l.wide()/2)
	tries := []L{h - 45*mm, 45 * mm, h / 2, h / 3}
	if b.wall {
		tries[0], tries[1] = tries[1], tries[0]
	}
	for _, u := range tries {
		x, y := p.OnFace(f, l.spot(u, v))
		if u > dia && u < h-dia && v > dia/2+4*mm && v < l.wide()-dia/2-4*mm && clear(p, x, y, dia, 4*mm) {
			p.Bore(part.Hole, f, l.spot(u, v), dia, p.Size[2], tool, "lock")
			return
		}
	}
	b.say(LockPlace, finding.Error, l.path, fmt.Sprintf("a leaf of %s by %s has no place for a lock clear of its handle", b.text(l.wide()), b.text(h)), "make it larger, or choose another handle")
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
		b.say(HingeLoad, finding.Warning, l.path, fmt.Sprintf("the leaf is %s wide; cup hinges carry up to %s", b.text(w), b.text(joinery.DoorMost)), "make it a pair")
	}
	if rack > rackLoadMost*mass.Kilogram {
		b.say(HingeLoad, finding.Warning, l.part, fmt.Sprintf("%s hang on the leaf beside itself; cup hinges carry up to %d kg", rack.Print(b.env.Practice.Unit != "in"), rackLoadMost), "use a continuous hinge, or move goods to shelves")
	}
	end := min(hingeEnd, h/5)
	if h < 2*end+60*mm || w < 60*mm {
		b.say(HingePlace, finding.Error, l.part, fmt.Sprintf("a door of %s by %s has no room for two hinges", b.text(w), b.text(h)), "make it larger, or leave the door out")
		return
	}
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
	cup, depth := cmp.Or(hw.CupDia, 35*mm), min(cmp.Or(hw.CupDepth, 13*mm), p.Size[2]-2*mm)
	if p.Size[2] < depth+3*mm {
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
	wall := b.part(l.wall.Part)
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
			p.Bore(part.Hole, face, l.spot(u+du, v+backOff), pilot, min(11*mm, p.Size[2]-3*mm), pilotTool, "hinge screw")
		}
		z := l.box.Min.Z + u
		f := wall.Facing(l.hinge.Not())
		deep := min(12*mm, wall.Size[2]-4*mm)
		if l.wall.Both {
			deep = min(deep, wall.Size[2]/2-mm/4)
		}
		for _, dz := range []L{-pitch / 2, pitch / 2} {
			wall.Bore(part.Hole, f, geom.V(0, row, z+dz), pilot, deep, pilotTool, "hinge plate")
		}
		b.dropPins(wall, z, row, pitch, pilot)
	}
	b.a.Fronts[l.front].Hinges = spots
	b.item(part.Item{ID: cmp.Or(hw.ID, "hinge"), Kind: "hinge", Count: len(spots), For: "doors"})
	for _, h := range b.env.Catalogue.Hardware {
		if h.Kind == "plate" && h.Plate == l.plate && len(spots) > 0 {
			b.item(part.Item{ID: h.ID, Kind: "plate", Count: len(spots), For: "doors"})
			break
		}
	}
	b.item(part.Item{ID: cmp.Or(hs.ID, "hinge-screw"), Kind: "screw", Count: 4 * len(spots), Length: hs.Length, For: "hinges"})
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
func (b *build) dropPins(wall *part.Part, z, row, pitch, pilot L) {
	b.pins = slices.DeleteFunc(b.pins, func(q pin) bool {
		if q.part != wall.Local {
			return false
		}
		at := wall.Pose.Point(q.op.Face.Point(q.op.X, q.op.Y, wall.Size))
		under := (at.Y-row).Abs() < 16*mm && (at.Z-z).Abs() < pitch/2+pilot/2+q.op.Dia/2+2*mm
		if under {
			b.unbored = append(b.unbored, lost{wall.Local, "hinge plates", at.Z})
		}
		return under
	})
}

// weight gives the weight of a board, 0 when its density is not known.
func (b *build) weight(p part.Part) mass.Mass { return Weight(b.env.Catalogue, p) }

// Weight gives the weight of a part cut from a board, 0 when its density is not known. The
// density is rounded to whole kg/m³ and the volume down to mm³.
func Weight(c stock.Catalogue, p part.Part) mass.Mass {
	board, ok := c.Board(p.Stock)
	if !ok || p.Material != part.Board {
		return 0
	}
	m, _ := c.Material(board.Material)
	d, ok := m.Density.Whole()
	if !ok {
		return 0
	}
	// Kilograms from kg/m³ and sizes in tenths of a millimetre.
	v := int64(p.Size[0]/(mm/10)) * int64(p.Size[1]/(mm/10)) * int64(p.Size[2]/(mm/10)) // 1e-12 m³
	return mass.Mass(v / 1000 * d / 1000 * int64(mass.Kilogram) / 1000000)
}
