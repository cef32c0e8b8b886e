package assemble

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"stowright/internal/order"
	"stowright/internal/part"
	"stowright/internal/place"
)

// Codes gives every owner its code in marks: cases get letters along the walls, floor before
// wall level, without I and O, which read as figures: A, B ... Z, AA, AB ...; everything else is
// called by what it is: Top, Base, Board, Fill, numbered from the second.
func Codes(r *place.Room) map[string]string {
	const letters = "ABCDEFGHJKLMNPQRSTUVWXYZ"
	codes := map[string]string{}
	var cases []place.Seat
	for _, s := range r.Seats {
		if s.Kind == place.Case {
			cases = append(cases, s)
		}
	}
	wallAt := map[string]int{}
	for i, w := range r.Walls {
		wallAt[w.ID] = i
	}
	order.Stable(cases, func(a, b place.Seat) int {
		level := func(s place.Seat) int {
			if s.Hung {
				return 1
			}
			return 0
		}
		return cmp.Or(cmp.Compare(wallAt[a.Wall], wallAt[b.Wall]), cmp.Compare(level(a), level(b)), cmp.Compare(a.Box.Min.X, b.Box.Min.X), cmp.Compare(a.Box.Min.Z, b.Box.Min.Z), strings.Compare(a.ID, b.ID))
	})
	for i, s := range cases {
		c := ""
		for n := i; ; n = n/len(letters) - 1 {
			c = string(letters[n%len(letters)]) + c
			if n < len(letters) {
				break
			}
		}
		codes[s.ID] = c
	}
	words := map[place.Kind]string{place.Counter: "Top", place.Base: "Base", place.Hutch: "Board", place.Filler: "Fill"}
	count := map[string]int{}
	for _, s := range r.Seats {
		if word := words[s.Kind]; word != "" {
			count[word]++
			codes[s.ID] = word
			if n := count[word]; n > 1 {
				codes[s.ID] += strconv.Itoa(n)
			}
		}
	}
	return codes
}

// wordOf gives the one word of a mark that says which part it is.
func wordOf(p part.Part, box part.Box, owner part.Box) string {
	mid := func(b part.Box) L { return b.Min.X + b.Max.X }
	hand := func() string {
		if mid(box) < mid(owner) {
			return "left"
		}
		return "right"
	}
	switch p.Role {
	case part.Side:
		return hand()
	case part.BoxSide:
		return "side"
	case part.RackSide:
		return "end"
	case part.Bottom, part.BoxBottom, part.TrayBase:
		return "bottom"
	case part.Top:
		return "top"
	case part.Stretcher:
		return "rail"
	case part.BackPanel, part.BoxBack:
		return "back"
	case part.BoxFront:
		return "front"
	case part.HangRail:
		return "hang"
	case part.Cleat, part.WallCleat:
		return "cleat"
	case part.Partition:
		return "upright"
	case part.FixedShelf:
		return "fixed"
	case part.Shelf, part.RackShelf:
		return "shelf"
	case part.DrawerFront, part.FalseFront:
		return "face"
	case part.ToeBoard:
		return "toe"
	case part.BaseRail:
		return "long"
	case part.BaseRung:
		return "rung"
	case part.EndPanel:
		return "panel"
	case part.CounterLayer:
		return "layer"
	case part.CounterEdge, part.EdgeStrip:
		return "edge"
	case part.Blocking:
		return "block"
	case part.HookBoard:
		return "board"
	}
	// divider, door, lip, spacer, rail, filler, leg, frame are one word already.
	return strings.ReplaceAll(string(p.Role), " ", "-")
}

// What moves is counted by kind: leaves by themselves, drawers and trays together.
const (
	leaf   = "leaf"
	slider = "slider"
)

// kindsOf says of every motion that carries parts what kind it is.
func kindsOf(a *part.Assembly) map[string]string {
	kinds := map[string]string{}
	for _, p := range a.Parts {
		switch {
		case p.Moves == "":
		case p.Role == part.Door:
			kinds[p.Moves] = leaf
		case kinds[p.Moves] == "":
			kinds[p.Moves] = slider
		}
	}
	return kinds
}

// byPlace orders boxes from the lowest up, then from the left, then from the front.
func byPlace(a, b part.Box) int {
	return cmp.Or(cmp.Compare(a.Min.Z, b.Min.Z), cmp.Compare(a.Min.X, b.Min.X), cmp.Compare(a.Min.Y, b.Min.Y))
}

// numbers counts what moves, each kind for itself, and says of which kinds there are several.
func numbers(a *part.Assembly, kinds map[string]string) (number map[string]int, many map[string]bool) {
	var movers []part.Motion
	for _, m := range a.Motions {
		if kinds[m.ID] != "" {
			movers = append(movers, m)
		}
	}
	order.Stable(movers, func(a, b part.Motion) int { return byPlace(a.Closed, b.Closed) })
	number, many = map[string]int{}, map[string]bool{}
	n := map[string]int{}
	for _, m := range movers {
		k := kinds[m.ID]
		n[k]++
		number[m.ID], many[k] = n[k], n[k] > 1
	}
	return number, many
}

// renumber puts the number of what moves in a name that a fitting gave with a count of its own:
// "front of drawer 2".
func renumber(name string, n int) string {
	for _, what := range []string{" of drawer ", " of tray "} {
		if before, after, ok := strings.Cut(name, what); ok && strings.Trim(after, "0123456789") == "" {
			return before + what + strconv.Itoa(n)
		}
	}
	return name
}

// counted gives a name the figure of the part's mark instead of the one that its fitting counted
// by: H.shelf2 is "shelf 2" whatever lies under it. A part that is the only one of its word has
// no figure; figures that count something else, a drawer or a knee space, stay.
func counted(name string, own int) string {
	words := strings.Fields(name)
	for i := 1; i < len(words); i++ {
		if strings.Trim(words[i], "0123456789") != "" || !slices.Contains([]string{"shelf", "board", "strip", "rail", "layer", "divider", "rung", "block"}, words[i-1]) {
			continue
		}
		if own == 0 {
			return strings.Join(slices.Delete(words, i, i+1), " ")
		}
		words[i] = strconv.Itoa(own)
		return strings.Join(words, " ")
	}
	return name
}

// mark gives every part of an owner its mark and makes every name in the assembly unique in
// the job. See docs/marks.md: B.left, B.shelf2, B.3face.
func mark(code, owner string, a *part.Assembly) {
	full := func(id string) string {
		if id == "" || strings.HasPrefix(id, owner+"/") {
			return id
		}
		return owner + "/" + id
	}
	kinds := kindsOf(a)
	number, many := numbers(a, kinds)
	var around part.Box
	if len(a.Owners) > 0 {
		around = a.Owners[0].Carcass
	}
	// Parts of one word are counted from the lowest up, then from the left, then from the front.
	words := map[string][]int{}
	var inTurn []string
	for i, p := range a.Parts {
		word := wordOf(p, p.Box(), around)
		if n := number[p.Moves]; n > 0 {
			if many[kinds[p.Moves]] || kinds[p.Moves] == slider {
				word = strconv.Itoa(n) + word
			}
			a.Parts[i].Name = renumber(p.Name, n)
		}
		if _, ok := words[word]; !ok {
			inTurn = append(inTurn, word)
		}
		words[word] = append(words[word], i)
	}
	marks := map[string]string{}
	for _, word := range inTurn {
		list := words[word]
		order.Stable(list, func(i, j int) int {
			return cmp.Or(byPlace(a.Parts[i].Box(), a.Parts[j].Box()), strings.Compare(a.Parts[i].Local, a.Parts[j].Local))
		})
		for k, i := range list {
			m := code + "." + word
			if len(list) > 1 {
				m += strconv.Itoa(k + 1)
			}
			marks[a.Parts[i].Local] = m
			a.Parts[i].Mark = m
			own := 0
			if len(list) > 1 {
				own = k + 1
			}
			a.Parts[i].Name = counted(a.Parts[i].Name, own)
		}
	}
	of := func(local string) string {
		if m, ok := marks[local]; ok {
			return m
		}
		return local
	}
	each := func(list []string, f func(string) string) []string {
		r := slices.Clone(list)
		for i := range r {
			r[i] = f(r[i])
		}
		return r
	}
	for i := range a.Parts {
		a.Parts[i].Owner = owner
		a.Parts[i].Moves = full(a.Parts[i].Moves)
		if a.Parts[i].Group != "" {
			a.Parts[i].Group = full(a.Parts[i].Group)
		}
	}
	for i := range a.Joints {
		a.Joints[i].A, a.Joints[i].B = of(a.Joints[i].A), of(a.Joints[i].B)
	}
	for i := range a.Spans {
		s := &a.Spans[i]
		s.Part, s.Stiff, s.Bay = of(s.Part), of(s.Stiff), full(s.Bay)
	}
	for i := range a.Bays {
		b := &a.Bays[i]
		b.ID, b.Owner, b.Floor, b.Moves = full(b.ID), owner, of(b.Floor), full(b.Moves)
	}
	for i := range a.Fronts {
		f := &a.Fronts[i]
		f.Part, f.Racks, f.Motion = of(f.Part), each(f.Racks, of), full(f.Motion)
	}
	for i := range a.Motions {
		m := &a.Motions[i]
		m.ID, m.Owner, m.Parts, m.With, m.Needs = full(m.ID), owner, each(m.Parts, of), each(m.With, full), full(m.Needs)
	}
	for i := range a.Wanted {
		a.Wanted[i].Part = of(a.Wanted[i].Part)
	}
	for i := range a.Fixings {
		a.Fixings[i].Owner, a.Fixings[i].Part = owner, of(a.Fixings[i].Part)
	}
	for i := range a.Feet {
		a.Feet[i].Owner = owner
	}
}
