package carcass

import (
	"cmp"
	"fmt"
	"math/bits"
	"slices"

	"stowright/internal/finding"
	"stowright/internal/fitting"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/mass"
	"stowright/internal/part"
	"stowright/internal/stock"
)

// Common practice, no source, except where it says so.
const (
	pairFrom     = 600 * mm // wider than this, an opening gets a pair of leaves
	hingeEnd     = 80 * mm  // hinge from the ends of a door
	leastLeaf    = 60 * mm  // a leaf is so wide at least, and so much is between its outer hinges
	hingeClear   = 30 * mm  // plate centres from shelves and slides
	armRoom      = 17 * mm  // what a hinge and a door at right angles take of the opening
	wideAngle    = 150      // doors that open so far are out of the way, racks that are not too deep with them
	openAir      = 5 * mm   // between what hangs on them and what slides out
	boringLeast  = 3 * mm   // cup edge to door edge, makers' guides
	boringMost   = 7 * mm
	rackLoadMost = 15      // kg on cup hinges
	lockDia      = 19 * mm // bore of a usual cam lock
	lockIn       = 32 * mm // its middle from the edge of its leaf, at least
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
	hung   []geom.Box // the whole of each rack
	load   mass.Mass  // stated for its racks
	front  int        // index in Fronts
	over   L          // overlay on the hinged side
	plate  L          // height of its plates
	boring L          // cup edge to door edge
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

// doors puts the leaves before a space, has their racks claim their room, and builds them. There are none where
// they have no room for two hinges.
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
	each := width
	if count == 2 {
		each = (width - p.FrontGap).DivDown(2)
	}
	if high := area.Max.Z - area.Min.Z; each < leastLeaf || high < 2*hingeEnds(high)+leastLeaf {
		b.say(HingePlace, finding.Error, sp.path, fmt.Sprintf("a door of %s by %s has no room for two hinges: it is left out, with all that hangs on it", b.text(max(each, 0)), b.text(max(high, 0))), "make the bay larger, or leave the door out")
		return nil
	}
	leaves := make([]leaf, count)
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
		b.a.Fronts = append(b.a.Fronts, part.Front{Part: local, Kind: part.DoorFront, Opening: opening, Hinge: l.hinge, Lock: d.Lock, Motion: l.motion, Handle: handle})
		l.front = len(b.a.Fronts) - 1
		b.a.Motions = append(b.a.Motions, b.swing(*l, opens))
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
	// Handles go where nothing hangs on the inside: their bolts are turned from there.
	b.handles(leaves, cmp.Or(d.Handle, p.Handle))
	return leaves
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

// weight gives the weight of a part, 0 when its density is not known.
func (b *build) weight(p part.Part) mass.Mass {
	m, _ := joinery.Mass(p, b.env.Catalogue)
	return m
}
