package cutlist

import (
	"cmp"
	"encoding/binary"
	"slices"
	"strings"

	"stowright/internal/order"
	"stowright/internal/part"
)

// Group is parts that are the same piece on the bench: stock, finished and sawn size, grain,
// edging and workings, whatever they are called and however they are turned in the case. A
// part and its mirror image are two groups.
type Group struct {
	ID     string // the first mark
	Marks  []string
	Name   string    // what they are called, in common
	Part   part.Part // the first of them, under the common name
	Mirror string    // the ID of the group that is its mirror image, "" for none
}

// Groups gives identical parts together, in the order of their first marks. Bought parts are
// left out.
func Groups(parts []part.Part) []Group {
	var list []Group
	var names [][]string
	at, mirrors := map[string]int{}, map[string]string{}
	var keys []string
	for _, p := range parts {
		if p.Material == part.Bought {
			continue
		}
		k := least(p, [][]int{{}, {0, 1}, {0, 2}, {1, 2}})
		i, ok := at[k]
		if !ok {
			i = len(list)
			at[k] = i
			list = append(list, Group{ID: p.Mark, Part: p})
			names = append(names, nil)
			keys = append(keys, k)
			mirrors[k] = least(p, [][]int{{0}, {1}, {2}, {0, 1, 2}})
		}
		list[i].Marks = append(list[i].Marks, p.Mark)
		names[i] = append(names[i], p.Name)
	}
	for i := range list {
		list[i].Name = Common(list[i].Marks, names[i])
		list[i].Part.Name = list[i].Name
		if m, ok := at[mirrors[keys[i]]]; ok && m != i {
			list[i].Mirror = list[m].ID
		}
	}
	return list
}

// least gives the first in order of the texts that a part makes under the given turnings, each
// a list of the axes that it is reflected in: an even number of them turns it, an odd number
// makes its mirror image.
func least(p part.Part, turns [][]int) string {
	best := ""
	for _, t := range turns {
		q := p
		for _, axis := range t {
			q = Reflect(q, axis)
		}
		if k := key(q); best == "" || k < best {
			best = k
		}
	}
	return best
}

// Turnings gives the ways in which b can be turned to lie as a does when the two are one piece on
// the bench, each as the two axes that it is reflected in, none for as it lies; nothing when they are
// not.
func Turnings(a, b part.Part) [][]int {
	var out [][]int
	k := key(a)
	for _, t := range [][]int{{}, {0, 1}, {0, 2}, {1, 2}} {
		q := b
		for _, axis := range t {
			q = Reflect(q, axis)
		}
		if key(q) == k {
			out = append(out, t)
		}
	}
	return out
}

// Turn gives the face that another comes to lie as by reflections in some axes.
func Turn(f part.Face, axes []int) part.Face {
	for _, a := range axes {
		if [...]int{part.Upper: 2, part.Lower: 2, part.Start: 0, part.End: 0, part.Near: 1, part.Far: 1}[f] == a {
			f = f.Not()
		}
	}
	return f
}

// key is what a part is as a piece on the bench, lying as it is modelled: equal for pieces that are.
func key(p part.Part) string {
	ops := slices.Clone(p.Ops)
	for i := range ops {
		o := &ops[i]
		// what goes through is the same from either face
		if _, _, deep := o.Face.Extent(p.Size); o.Face == part.Lower && o.Depth >= deep && o.Kind != part.Countersink {
			o.Face = part.Upper
		}
		o.Tool, o.For = "", ""
	}
	order.Stable(ops, func(a, b part.Op) int {
		return cmp.Or(cmp.Compare(a.Face, b.Face), cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y),
			cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.Depth, b.Depth), cmp.Compare(a.Dia, b.Dia),
			cmp.Compare(a.L, b.L), cmp.Compare(a.W, b.W), cmp.Compare(a.Towards, b.Towards))
	})
	b := make([]byte, 0, 256)
	put := func(list ...L) {
		for _, x := range list {
			b = binary.AppendVarint(b, int64(x))
		}
	}
	text := func(s string) { b = append(append(b, s...), 0) }
	text(p.Stock)
	put(L(p.Material), p.Size[0], p.Size[1], p.Size[2], L(p.Grain))
	for _, x := range p.Bands {
		deduct := L(0)
		if x.Deduct {
			deduct = 1
		}
		text(x.Edging)
		put(x.Thickness, deduct)
	}
	for _, o := range ops {
		put(L(o.Kind), L(o.Face), o.X, o.Y, o.L, o.W, o.Dia, o.Depth, L(o.Angle), L(o.Towards))
	}
	return string(b)
}

// Reflect gives the mirror image of a part across the middle of one of its own axes: 0 along
// its length, 1 across, 2 through its thickness. Its pose is left alone.
func Reflect(p part.Part, axis int) part.Part {
	face := func(f part.Face) part.Face {
		if [...]int{part.Upper: 2, part.Lower: 2, part.Start: 0, part.End: 0, part.Near: 1, part.Far: 1}[f] == axis {
			return f.Not()
		}
		return f
	}
	switch axis {
	case 0:
		p.Bands[part.BandStart], p.Bands[part.BandEnd] = p.Bands[part.BandEnd], p.Bands[part.BandStart]
	case 1:
		p.Bands[part.BandNear], p.Bands[part.BandFar] = p.Bands[part.BandFar], p.Bands[part.BandNear]
	}
	p.Ops = slices.Clone(p.Ops)
	for i := range p.Ops {
		o := &p.Ops[i]
		// the axes of the part that X and Y run along on the face
		x, y := 0, 1
		switch o.Face {
		case part.Start, part.End:
			x, y = 1, 2
		case part.Near, part.Far:
			x, y = 0, 2
		}
		switch {
		case o.Kind == part.Taper:
			if axis == 0 {
				o.Y, o.Depth = o.Depth, o.Y
			}
		case x == axis:
			o.X = p.Size[axis] - o.X - o.L
		case y == axis:
			o.Y = p.Size[axis] - o.Y - o.W
		}
		o.Face = face(o.Face)
		if o.Kind == part.Pocket || o.Kind == part.Bevel {
			o.Towards = face(o.Towards)
		}
	}
	return p
}

// Told gives the order in which marks are told: as they come, those that differ in a number only together and by that.
func Told(marks []string) (at []int) {
	first := map[string]int{}
	base := func(m string) string { return strings.TrimRight(m, "0123456789") }
	for i, m := range marks {
		at = append(at, i)
		if _, ok := first[base(m)]; !ok {
			first[base(m)] = i
		}
	}
	order.Stable(at, func(i, k int) int {
		a, b := marks[i], marks[k]
		return cmp.Or(cmp.Compare(first[base(a)], first[base(b)]), cmp.Compare(len(a), len(b)), strings.Compare(a, b))
	})
	return at
}

// Common gives what names share: the name itself, the name without its numbers, or the two or three different ones, in the
// order of their marks as these are told.
func Common(marks, names []string) string {
	sorted := make([]string, len(names))
	for i, k := range Told(marks) {
		sorted[i] = names[k]
	}
	names = sorted
	same := func(list []string) bool {
		return !slices.ContainsFunc(list, func(s string) bool { return s != list[0] })
	}
	if same(names) {
		return names[0]
	}
	var bare []string
	for _, n := range names {
		var words []string
		for _, w := range strings.Fields(n) {
			if strings.Trim(w, "0123456789") != "" {
				words = append(words, w)
			}
		}
		bare = append(bare, strings.Join(words, " "))
	}
	if same(bare) {
		return bare[0]
	}
	var out []string
	for _, n := range bare {
		if !slices.Contains(out, n) {
			out = append(out, n)
		}
	}
	if len(out) > 3 {
		return strings.Join(out[:3], ", ") + " and others"
	}
	return strings.Join(out, ", ")
}
