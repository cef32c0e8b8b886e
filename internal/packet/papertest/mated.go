package papertest

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
)

// Holes that a dowel or a screw goes through two boards by are held against each other where the boards
// lie by the words of the steps: each has its partner in the board that it meets, at the same place.

// spot is a hole where its board lies: the middle of its mouth, the axis that it is bored along, and
// where it ends.
type spot struct {
	at      [3]float64
	end     float64 // along the axis
	axis    int
	use     string
	through bool
}

// matedWithin is how far holes that meet may seem to be apart: their boards are placed to a tape's step.
const matedWithin = 1.5

// joins tells whether a hole has a partner in another board of the same unit.
func joins(o Op) bool {
	return o.Kind == "hole" && slices.Contains([]string{"dowel", "wood screw", "connecting screw", "point of a wood screw"}, o.For)
}

// spots gives the joining holes of a part that has its place. A board that lies anyhow has names for its
// ends, edges and faces that tell no way: turned says which of them are the high ones, and which of two
// like sizes lies along which way.
func (b *build) spots(mark string, turned int) (out []spot) {
	p, x := b.parts[mark], b.at[mark]
	ways := b.lengths(mark)
	if turned/8 >= len(ways) {
		return nil
	}
	lies := ways[turned/8]
	way := [3]int{} // the axis of the room that each size lies along
	for k, dim := range lies {
		way[dim] = k
	}
	high := func(face string, dim int) bool {
		if k, up, _ := axis(face); k >= 0 {
			return up
		}
		switch {
		case strings.HasPrefix(face, "start"), face == "face edge", face == "other side":
			return turned>>dim&1 == 1
		case strings.HasPrefix(face, "far"), face == "face side":
			return turned>>dim&1 == 0
		}
		// inside and outside: towards the middle of what the part is in, or away from it
		lo, hi := b.whole(mark, way[dim])
		out := (x.lo[way[dim]]+x.hi[way[dim]])/2 > (lo+hi)/2
		return (face == "outside face") == out
	}
	from := func(face string, dim int, d float64) float64 {
		if high(face, dim) {
			return x.hi[way[dim]] - d
		}
		return x.lo[way[dim]] + d
	}
	for _, o := range p.Ops {
		if !joins(o) {
			continue
		}
		s := spot{use: o.For, through: o.Depth < 0}
		dim := 2
		a, c := [2]int{0, 1}, [2]string{p.Along, p.Across}
		switch {
		case strings.HasSuffix(o.Face, " end"):
			dim, a, c = 0, [2]int{1, 2}, [2]string{p.Across, p.Up}
		case strings.HasSuffix(o.Face, " edge"):
			dim, a, c = 1, [2]int{0, 2}, [2]string{p.Along, p.Up}
		}
		s.axis = way[dim]
		s.at[way[a[0]]], s.at[way[a[1]]] = from(c[0], a[0], o.X), from(c[1], a[1], o.Y)
		deep := o.Depth
		if s.through {
			deep = x.hi[s.axis] - x.lo[s.axis]
		}
		s.at[s.axis], s.end = x.lo[s.axis], x.lo[s.axis]+deep
		if high(o.Face, dim) {
			s.at[s.axis], s.end = x.hi[s.axis], x.hi[s.axis]-deep
		}
		out = append(out, s)
	}
	return out
}

// lengths says which size of a placed part lies along each way of the room: in more than one way where
// two of its sizes are alike.
func (b *build) lengths(mark string) (ways [][3]int) {
	p, x := b.parts[mark], b.at[mark]
	d := b.lies(mark)
	for _, w := range [][3]int{{0, 1, 2}, {0, 2, 1}, {1, 0, 2}, {1, 2, 0}, {2, 0, 1}, {2, 1, 0}} {
		fits := true
		for k := range 3 {
			fits = fits && math.Abs(x.hi[k]-x.lo[k]-p.Size[w[k]]) < 0.6 && (d[k] < 0 || d[k] == w[k])
		}
		if fits {
			ways = append(ways, w)
		}
	}
	return ways
}

// whole gives the extent of the unit that a part is in, without what others have between it and themselves.
func (b *build) whole(mark string, k int) (lo, hi float64) {
	lo, hi = 1e9, -1e9
	code, _, _ := strings.Cut(mark, ".")
	for m, x := range b.at {
		if b.unit[m] == b.unit[mark] && strings.HasPrefix(m, code+".") {
			lo, hi = min(lo, x.lo[k]), max(hi, x.hi[k])
		}
	}
	return lo, hi
}

// partner tells whether a hole of one board goes on in another.
func (s spot) partner(t spot) bool {
	if s.axis != t.axis || (s.use == "dowel") != (t.use == "dowel") {
		return false
	}
	for k := range 3 {
		if k != s.axis && math.Abs(s.at[k]-t.at[k]) > matedWithin {
			return false
		}
	}
	// a mouth of the one lies at a mouth of the other
	mouths := func(s spot) []float64 {
		if s.through {
			return []float64{s.at[s.axis], s.end}
		}
		return []float64{s.at[s.axis]}
	}
	for _, a := range mouths(s) {
		for _, c := range mouths(t) {
			if math.Abs(a-c) < matedWithin {
				return true
			}
		}
	}
	return false
}

// mated counts the joining holes whose boards lie by words and that have a partner, and says which have
// none.
func (b *build) mated() (n int, wrong []string) {
	var marks []string
	for m := range b.at {
		if slices.ContainsFunc(b.parts[m].Ops, joins) {
			marks = append(marks, m)
		}
	}
	slices.Sort(marks)
	all := map[string][][]spot{} // by board, each way that it may be turned
	for _, m := range marks {
		for turned := range 16 {
			all[m] = append(all[m], b.spots(m, turned))
		}
	}
	for _, m := range marks {
		best := -1
		var left []spot
		for _, list := range all[m] {
			var alone []spot
			for _, s := range list {
				if !slices.ContainsFunc(marks, func(o string) bool {
					return o != m && b.unit[o] == b.unit[m] && slices.ContainsFunc(all[o], func(others []spot) bool { return slices.ContainsFunc(others, s.partner) })
				}) {
					alone = append(alone, s)
				}
			}
			if got := len(list) - len(alone); got > best {
				best, left = got, alone
			}
		}
		n += max(best, 0)
		for _, s := range left {
			if b.onDoor(m, s) {
				n++
				continue
			}
			wrong = append(wrong, fmt.Sprintf("%s: the hole for %s at %.1f, %.1f, %.1f meets none", m, s.use, s.at[0], s.at[1], s.at[2]))
		}
	}
	return n, wrong
}

// onDoor tells whether a hole of a rack's strip, where the step seats it on a door, lies over one that is
// bored in the door for it.
func (b *build) onDoor(mark string, s spot) bool {
	for _, st := range b.set.Steps {
		m := toDoor.FindStringSubmatch(st.Text)
		if m == nil || !b.has(m[1]) {
			continue
		}
		for _, p := range onIt.FindAllStringSubmatch(st.Text, -1) {
			if p[1] != mark {
				continue
			}
			door, d := b.parts[m[1]], b.at[m[1]]
			put, _, why := b.seat(p[2], d, false)
			if why != "" {
				return false
			}
			var at [3]float64 // where the hole is on the door
			for _, k := range []int{0, 2} {
				x := b.at[mark]
				pl, told := put[k]
				switch {
				case told && pl.high:
					at[k] = pl.at - (x.hi[k] - s.at[k])
				case told:
					at[k] = pl.at + s.at[k] - x.lo[k]
				default: // it covers the door wholly
					at[k] = d.lo[k] + s.at[k] - x.lo[k]
				}
			}
			for _, o := range door.Ops {
				if o.For != "rack screw" {
					continue
				}
				x, z := o.Y, upward(door, o)
				if strings.HasPrefix(door.Across, "lower") {
					x = o.X
				}
				edge := door.Across
				if strings.HasPrefix(edge, "lower") {
					edge = door.Along
				}
				if _, high, _ := axis(edge); high {
					x = d.hi[0] - d.lo[0] - x
				}
				if math.Abs(d.lo[0]+x-at[0]) < matedWithin && math.Abs(d.lo[2]+z-at[2]) < matedWithin {
					return true
				}
			}
		}
	}
	return false
}

var (
	toDoor = regexp.MustCompile(`(?i)screw the rack to the inside of ` + ofMark + ` by `)
	onIt   = regexp.MustCompile(`– (` + aMark + `): (` + seats + `) of the door`)
)
