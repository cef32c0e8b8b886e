package packet

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/cutlist"
	"stowright/internal/draw"
	"stowright/internal/part"
	"stowright/internal/shop"
	"stowright/internal/view"
)

// twins finds owners that are built exactly alike: the same parts, worked alike, in the same
// places. They share one chapter.
func (b *book) twins() {
	b.alone, b.first = map[string]int{}, shop.Alike(&b.Assembly)
	for _, first := range b.first {
		b.alone[first]++
	}
}

// alikeOwners gives the owners that are built by one chapter, in order.
func (b *book) alikeOwners(first string) []part.Owner {
	var out []part.Owner
	for _, o := range b.built() {
		if b.first[o.ID] == first {
			out = append(out, o)
		}
	}
	return out
}

// owners sets a chapter for everything that is built, in the order in which it is built.
func (b *book) owners() {
	first := map[string]int{} // owner -> its first step
	for _, s := range b.Steps {
		for _, id := range append([]string{s.Owner}, s.Also...) {
			if s.Phase.Bench() && first[id] == 0 {
				first[id] = s.N
			}
		}
	}
	list := b.built()
	slices.SortStableFunc(list, func(x, y part.Owner) int {
		of := func(o part.Owner) int {
			if n := first[o.ID]; n > 0 {
				return n
			}
			return len(b.Steps) + 1
		}
		return of(x) - of(y)
	})
	list = slices.DeleteFunc(list, func(o part.Owner) bool {
		return b.first[o.ID] != o.ID || len(view.Of(&b.Assembly, o.ID)) == 0
	})
	for _, o := range list {
		b.owner(o)
	}
}

// called gives the name of an owner's chapter: with all that are built alike.
func (b *book) called(o part.Owner) string {
	return b.together(b.alikeOwners(o.ID))
}

// together names several owners in one: "C E, left drawers and right drawers: 2 alike".
func (b *book) together(twins []part.Owner) string {
	if len(twins) == 1 {
		return b.name(twins[0].ID)
	}
	var codes, names []string
	for _, t := range twins {
		codes = append(codes, view.Code(&b.Assembly, t.ID))
		names = append(names, cmp.Or(t.Name, t.ID))
	}
	return fmt.Sprintf("%s, %s: %d alike", strings.Join(codes, " "), strings.Join(names, " and "), len(twins))
}

// alike is parts of one chapter that are one piece on the bench.
type alike struct {
	group int // index among the groups, -1 for what is bought
	part  part.Part
	name  string
	marks []string
}

// alike groups the parts of a chapter.
func (b *book) alike(owner string) []alike {
	var out []alike
	var names [][]string
	at := map[string]int{}
	for _, o := range b.alikeOwners(owner) {
		for _, p := range view.Of(&b.Assembly, o.ID) {
			g, ok := b.group[p.Mark]
			k := fmt.Sprint(g)
			if !ok {
				g = -1
				k = "bought " + p.Stock + " " + p.Name
			}
			i, seen := at[k]
			if !seen {
				i = len(out)
				at[k] = i
				out = append(out, alike{group: g, part: p})
				names = append(names, nil)
			}
			out[i].marks, names[i] = append(out[i].marks, p.Mark), append(names[i], p.Name)
		}
	}
	for i := range out { // those of a group that lie elsewhere have names of their own there
		out[i].name = cutlist.Common(out[i].marks, names[i])
	}
	return out
}

// bands names the edges of a part that are banded.
func (b *book) bands(p part.Part, names part.FaceNames) string {
	var on []string
	for i, x := range p.Bands {
		if x.Edging != "" {
			on = append(on, names[int(part.Start)+i])
		}
	}
	slices.Sort(on)
	if len(on) == 4 {
		return "all round"
	}
	return strings.Join(on, ", ")
}

// faces names the faces of parts that are one piece on the bench, as a part among them lies: as
// they are called where all agree, and as those of a board that lies anyhow where the parts lie in
// several ways.
func (b *book) faces(like part.Part, marks []string) part.FaceNames {
	n := part.Plain()
	first := true
	for _, m := range marks {
		p, ok := b.part[m]
		if !ok {
			continue
		}
		own := b.named(like, p, n)
		for f := range n {
			if first || own[f] == n[f] {
				n[f] = own[f]
			} else {
				n[f] = part.Plain()[f]
			}
		}
		first = false
	}
	return n
}

// named gives the names of a part's faces as another lies that is the same piece on the bench: of
// the ways to turn it, the one that agrees best with given names.
func (b *book) named(like, p part.Part, with part.FaceNames) part.FaceNames {
	called := b.around.Called(p)
	best, most := called, -1
	for _, t := range cutlist.Turnings(like, p) {
		var n part.FaceNames
		same := 0
		for f := range n {
			n[f] = called[cutlist.Turn(part.Face(f), t)]
			if n[f] == with[f] {
				same++
			}
		}
		if same > most {
			best, most = n, same
		}
	}
	return best
}

// mirrored says which faces of the mirror images of a piece are called otherwise than its own:
// ", with right edge for left edge".
func (b *book) mirrored(p part.Part, marks []string, names part.FaceNames) string {
	image := cutlist.Reflect(p, 2)
	over := names
	over[part.Upper], over[part.Lower] = names[part.Lower], names[part.Upper]
	theirs := part.Plain()
	for i, m := range marks {
		own := b.named(image, b.part[m], over)
		for f := range theirs {
			if i == 0 || own[f] == theirs[f] {
				theirs[f] = own[f]
			} else {
				theirs[f] = part.Plain()[f]
			}
		}
	}
	theirs[part.Upper], theirs[part.Lower] = theirs[part.Lower], theirs[part.Upper]
	told := [6]bool{part.Start: true, part.Near: true} // where along and across are from
	for _, o := range p.Ops {
		told[o.Face] = true
		told[part.Lower] = told[part.Lower] || o.Face > part.Lower
		switch o.Kind {
		case part.Pocket, part.Bevel:
			told[o.Towards] = true
		case part.Taper:
			told[part.End] = true
		}
	}
	if b.bands(p, names) != "all round" {
		for i, x := range p.Bands {
			told[int(part.Start)+i] = told[int(part.Start)+i] || x.Edging != ""
		}
	}
	var out []string
	for f := range names {
		if told[f] && theirs[f] != names[f] {
			out = append(out, theirs[f]+" for "+names[f])
		}
	}
	if len(out) == 0 {
		return ""
	}
	return ", with " + and(out)
}

// and lists things in a sentence.
func and(list []string) string {
	if len(list) < 2 {
		return strings.Join(list, "")
	}
	return strings.Join(list[:len(list)-1], ", ") + " and " + list[len(list)-1]
}

// caller puts a maker's names of faces in the place of those of a board that lies anyhow.
func caller(names part.FaceNames) *strings.Replacer {
	var pairs []string
	for f, plain := range part.Plain() {
		pairs = append(pairs, plain, names[f])
	}
	return strings.NewReplacer(pairs...)
}

func (b *book) stockName(p part.Part) string {
	switch p.Material {
	case part.Board:
		if x, ok := b.Catalogue.Board(p.Stock); ok && x.Name != "" {
			return x.Name
		}
	case part.Stick:
		if x, ok := b.Catalogue.Stick(p.Stock); ok && x.Name != "" {
			return x.Name
		}
	default:
		if x, ok := b.Catalogue.Item(p.Stock); ok && x.Name != "" {
			return x.Name
		}
	}
	return p.Stock
}

// leaders gives the marks that an owner drawn apart shows: every part's, or, where those are
// too many to follow, one of those that are alike, with their number.
func (b *book) leaders(o part.Owner, parts []part.Part) map[string]string {
	const most = 26
	out := map[string]string{}
	if len(parts) <= most {
		for _, p := range parts {
			out[p.Mark] = p.Mark
		}
		return out
	}
	for _, a := range b.alike(o.ID) {
		n := 0
		first := ""
		for _, m := range a.marks {
			if b.part[m].Owner == o.ID {
				if n++; first == "" {
					first = m
				}
			}
		}
		switch {
		case n > 1:
			out[first] = fmt.Sprintf("%s ×%d", first, n)
		case n == 1:
			out[first] = first
		}
	}
	return out
}

func grainNote(p part.Part) string {
	switch {
	case p.Grain == part.Across:
		return " (grain across)"
	case p.Grain == part.Free && p.Material == part.Board:
		return " (grain either way)"
	}
	return ""
}

// aliases names the places of marks that have no row of their own: the row of their group.
func (b *book) aliases(owner string) {
	for _, a := range b.alike(owner) {
		for _, m := range a.marks[1:] {
			for i := len(b.pages) - 1; i >= 0; i-- {
				if at, ok := anchorAt(b.pages[i].sheet, b.toPart(a.marks[0])); ok {
					b.pages[i].sheet.Anchor(b.toPart(m), at)
					break
				}
			}
		}
	}
}

func anchorAt(s *draw.Sheet, name string) (draw.Point, bool) {
	for _, it := range s.Items {
		if a, ok := it.(*draw.Anchor); ok && a.Name == name {
			return a.At, true
		}
	}
	return draw.Point{}, false
}
