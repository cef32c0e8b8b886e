package shop

import (
	"cmp"
	"slices"

	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/order"
	"stowright/internal/part"
)

// The order in which boards go together is found backwards: from the whole, that board is
// taken off which is wanted last and which can still be drawn straight out. What comes off
// last goes in first. So a panel in grooves on all four edges stands in the order before the
// last board that closes it, whatever the case is called.

// Room that a driver needs beyond a screw's head, and half its width; common practice, no source.
const (
	driver     = 150 * length.MM
	driverHalf = 8 * length.MM
	// An ordinary bit stands out of its chuck by bitOut, and the chuck is drillHalf thick to either side; nearer
	// to a board a long bit is wanted.
	bitOut    = 30 * length.MM
	drillLong = 200 * length.MM
	drillHalf = 22 * length.MM
	bitUp     = 45 * length.MM // a pocket's driver lies this high over the board at its far end
	// The chuck on a pocket's driver: how far from the joint it begins and ends, from how high over the
	// board to how high, and half its width.
	chuckFrom, chuckTo = 140 * length.MM, 190 * length.MM
	chuckLow, chuckUp  = 8 * length.MM, 62 * length.MM
	chuckHalf          = 20 * length.MM
)

// board is one board on the bench.
type board struct {
	part  part.Part
	solid []geom.Box
}

// bench holds the boards that are put together and what keeps each from being drawn off.
type bench struct {
	boards []board
	shut   [][]uint8 // shut[i][k]: directions in which k keeps i from leaving, a bit each
	joints []held
}

// held is a joint between two boards of a bench and the boards that would be in the way of
// its driver.
type held struct {
	part.Joint
	a, b  int
	hides []int
	fouls []foul
}

// foul is a board that only a long bit passes, and how far it stands out beyond the screw's head.
type foul struct {
	board int
	far   length.Length
}

// chuck is the room of a drill behind an ordinary bit: which way it lies from the screw's head, and where that is.
type chuck struct {
	room geom.Box
	way  geom.Dir
	head length.Length
}

// chuckAt is that of a drill for a screw at a place, whose head lies so far along the way that it is driven from.
func chuckAt(at geom.Vec, way geom.Dir, head length.Length) chuck {
	return chuck{around(at.With(way.Axis(), head).Add(way.Vec(bitOut)), way, drillLong-bitOut, way, 0, drillHalf), way, head}
}

// beyond says how far what is in the way of a drill stands out beyond the screw's head; 0 where nothing is.
func beyond(drill []chuck, solid []geom.Box) (far length.Length) {
	for _, d := range drill {
		for _, b := range solid {
			if !d.room.Meets(b) {
				continue
			}
			far = max(far, min((b.Face(d.way)-d.head)*length.Length(d.way.Sign()), drillLong))
		}
	}
	return far
}

// newBench lays out boards and the joints among them; spot gives the drills for screws that are bored for on the spot.
func newBench(parts []part.Part, joints []part.Joint, spot func(a, b part.Part, j part.Joint) []chuck) *bench {
	b := &bench{}
	at := map[string]int{}
	for i, p := range parts {
		at[p.Mark] = i
		b.boards = append(b.boards, board{p, p.Solid()})
	}
	b.shut = make([][]uint8, len(parts))
	for i := range parts {
		b.shut[i] = make([]uint8, len(parts))
		for k := range parts {
			if i != k {
				b.shut[i][k] = keeps(b.boards[i].solid, b.boards[k].solid)
			}
		}
	}
	for _, j := range joints {
		i, ok := at[j.A]
		k, ok2 := at[j.B]
		if !ok || !ok2 {
			continue
		}
		if j.Kind == part.Dowel || j.Kind == part.Dado && j.Glue {
			// A board on dowels or in a glued housing comes out the way it goes in, not along the glue.
			d := towards(parts[k], parts[i], j.Contact)
			b.shut[k][i] |= ^bit(d.Not())
			b.shut[i][k] |= ^bit(d)
		}
		h := held{Joint: j, a: i, b: k}
		free, drill := rooms(parts[i], parts[k], j)
		drill = append(drill, spot(parts[i], parts[k], j)...)
		for n, o := range b.boards {
			if n == i || n == k {
				continue
			}
			if meet(free, o.solid) {
				h.hides = append(h.hides, n)
			}
			if far := beyond(drill, o.solid); far > 0 {
				h.fouls = append(h.fouls, foul{n, far})
			}
		}
		b.joints = append(b.joints, h)
	}
	return b
}

func bit(d geom.Dir) uint8 { return 1 << d }

const everyWay = uint8(1<<6 - 1)

// keeps gives the directions in which a cannot leave because of c. Boards that already share
// space, as bevels seem to, do not count.
func keeps(a, c []geom.Box) uint8 {
	if meet(a, c) {
		return 0
	}
	const far = 1 << 45
	shut := uint8(0)
	for d := geom.Right; d <= geom.Down; d++ {
		swept := slices.Clone(a)
		for i := range swept {
			swept[i] = swept[i].Or(swept[i].Shift(d.Vec(far)))
		}
		if meet(swept, c) {
			shut |= bit(d)
		}
	}
	return shut
}

func meet(a, c []geom.Box) bool {
	for _, x := range a {
		for _, y := range c {
			if x.Meets(y) {
				return true
			}
		}
	}
	return false
}

// towards gives the direction in which b goes into a where they meet.
func towards(b, a part.Part, contact geom.Box) geom.Dir {
	axis := joinery.Thin(contact)
	p, q := b.Box(), a.Box()
	if q.Min.At(axis)+q.Max.At(axis) > p.Min.At(axis)+p.Max.At(axis) {
		return geom.Dir(2 * axis)
	}
	return geom.Dir(2*axis + 1)
}

// rooms gives the room that a driver needs at every screw of a joint, with a long bit; and that of the drill
// behind an ordinary bit, but in pockets.
func rooms(a, b part.Part, j part.Joint) (out []geom.Box, drill []chuck) {
	if j.Kind == part.Dowel {
		return nil, nil
	}
	near := j.Contact.Grow(2 * length.MM)
	for _, p := range []part.Part{a, b} {
		for _, o := range p.Ops {
			if o.For != string(j.Kind) {
				continue
			}
			at := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size))
			up := p.Pose.Dir(o.Face.Normal())
			along := up
			if o.Kind == part.Pocket {
				along = p.Pose.Dir(o.Towards.Normal())
			}
			if along.Axis() != joinery.Thin(j.Contact) {
				continue // a screw of another joint
			}
			switch {
			case o.Kind == part.Pocket:
				way := p.Pose.Dir(o.Towards.Normal())
				if !near.Grow(p.Size[2]).Has(geom.Box{Min: at, Max: at}) {
					continue
				}
				out = append(out, around(at.Add(up.Vec(2*length.MM)), way.Not(), chuckFrom, up, bitUp, driverHalf),
					around(at.Add(way.Not().Vec(chuckFrom)).Add(up.Vec(chuckLow)), way.Not(), chuckTo-chuckFrom, up, chuckUp-chuckLow, chuckHalf))
			case o.Kind == part.Hole && through(p, o):
				into := b
				if p.Mark == b.Mark {
					into = a
				}
				if !near.Grow(p.Size[2]).Has(geom.Box{Min: at, Max: at}) || !guided(into, o, at, joinery.Thin(j.Contact)) {
					continue
				}
				head := towards(into, p, j.Contact) // the head is on the side away from what it is driven into
				edge := p.Box().Face(head)
				out = append(out, around(at.With(head.Axis(), edge), head, driver/2, head, 0, driverHalf))
				drill = append(drill, chuckAt(at, head, edge))
			}
		}
	}
	return out, drill
}

// guided reports whether a board has the pilot hole of a screw that comes at a point through a wider
// hole in another.
func guided(b part.Part, clear part.Op, at geom.Vec, axis int) bool {
	return slices.ContainsFunc(b.Ops, func(o part.Op) bool {
		q := b.Pose.Point(o.Face.Point(o.X, o.Y, b.Size)).With(axis, at.At(axis))
		d := q.Sub(at)
		return o.Kind == part.Hole && o.For == clear.For && o.Dia < clear.Dia && max(d.X.Abs(), d.Y.Abs(), d.Z.Abs()) < length.MM
	})
}

// through reports whether a hole goes through a board as far as its joint.
func through(p part.Part, o part.Op) bool {
	_, _, deep := o.Face.Extent(p.Size)
	return 2*o.Depth > deep
}

// around gives a box from a point so far along a way, so wide to either side, and so high.
func around(at geom.Vec, way geom.Dir, long length.Length, up geom.Dir, high, half length.Length) geom.Box {
	box := geom.Box{Min: at, Max: at}
	end := at.Add(way.Vec(long)).Add(up.Vec(high))
	for i := range 3 {
		lo, hi := min(at.At(i), end.At(i)), max(at.At(i), end.At(i))
		if i != way.Axis() && i != up.Axis() || high == 0 && i != way.Axis() {
			lo, hi = lo-half, hi+half
		}
		box.Min, box.Max = box.Min.With(i, lo), box.Max.With(i, hi)
	}
	return box
}

// ways gives the directions in which board i can leave those that remain, a bit each.
func (b *bench) ways(i int, left []bool) uint8 {
	shut := uint8(0)
	for k := range b.boards {
		if k != i && left[k] {
			shut |= b.shut[i][k]
		}
	}
	return everyWay &^ shut
}

// reached reports whether every screw between board i and what remains can be driven when
// these alone are there.
func (b *bench) reached(i int, left []bool) bool {
	for _, j := range b.joints {
		if j.a != i && j.b != i || !left[j.a] || !left[j.b] {
			continue
		}
		for _, k := range j.hides {
			if left[k] {
				return false
			}
		}
	}
	return true
}

// hidden gives the joints of a board with those that are there whose screws one of these hides.
func (b *bench) hidden(mark string, there map[string]bool) (out []Hidden) {
	for _, h := range b.joints {
		if (h.A != mark && h.B != mark) || !there[h.A] || !there[h.B] {
			continue
		}
		for _, k := range h.hides {
			if m := b.boards[k].part.Mark; there[m] {
				out = append(out, Hidden{h.A, h.B, m})
				break
			}
		}
	}
	return out
}

// tight says how far a bit must reach past boards that are there to the screws of a board's joints with others that
// are: 0 where no screw is driven so close beside one that an ordinary bit does not do.
func (b *bench) tight(mark string, there map[string]bool) (far length.Length) {
	for _, h := range b.joints {
		if (h.A != mark && h.B != mark) || !there[h.A] || !there[h.B] {
			continue
		}
		for _, f := range h.fouls {
			if there[b.boards[f.board].part.Mark] {
				far = max(far, f.far)
			}
		}
	}
	return far
}

// placed is a board in its turn and the way in which it comes to those before it.
type placed struct {
	board
	from geom.Dir // the side that it comes from
	slid bool     // there is no other side
}

// order gives the boards in the order in which they go together: as wanted by rank, as far as
// each can come straight to its place and its screws can be driven.
func (b *bench) order(rank func(part.Part) int) []placed {
	left := make([]bool, len(b.boards))
	var last []int
	for i := range left {
		left[i] = true
		last = append(last, i)
	}
	order.Stable(last, func(i, k int) int {
		return cmp.Or(cmp.Compare(rank(b.boards[k].part), rank(b.boards[i].part)), k-i)
	})
	var back []placed
	for range b.boards {
		pick := -1
		for _, need := range []func(i int) bool{
			func(i int) bool { return b.ways(i, left) != 0 && b.reached(i, left) },
			func(i int) bool { return b.ways(i, left) != 0 },
			func(i int) bool { return true },
		} {
			if k := slices.IndexFunc(last, func(i int) bool { return left[i] && need(i) }); k >= 0 {
				pick = last[k]
				break
			}
		}
		w := b.ways(pick, left)
		p := placed{board: b.boards[pick], slid: w != 0 && w&(w-1) == 0}
		for _, d := range []geom.Dir{geom.Up, geom.Front, geom.Back, geom.Left, geom.Right, geom.Down} {
			if w&bit(d) != 0 {
				p.from = d
				break
			}
		}
		left[pick] = false
		back = append(back, p)
	}
	slices.Reverse(back)
	return back
}
