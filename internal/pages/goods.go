package pages

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/length"
	"stowright/internal/packet"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/stock"
	"stowright/internal/strength"
	"stowright/internal/view"
)

// goods gives what is stored, and in words where each kind finds room.
func goods(r *plan.Result) (list []packet.Stored) {
	bays, parts, owners, same := map[string]*part.Bay{}, byMark{}, map[string]string{}, map[string]int{}
	for i := range r.Assembly.Bays {
		bays[r.Assembly.Bays[i].ID] = &r.Assembly.Bays[i]
	}
	for i := range r.Assembly.Parts {
		p := &r.Assembly.Parts[i]
		parts[p.Mark] = p
		same[p.Owner+p.Name]++
	}
	for _, o := range r.Assembly.Owners {
		owners[o.ID] = cmp.Or(o.Name, o.ID)
		if code := view.Code(&r.Assembly, o.ID); code != o.ID {
			owners[o.ID] = code + ", " + owners[o.ID]
		}
	}
	for _, g := range r.Job.Goods {
		x := packet.Stored{Name: cmp.Or(g.Name, g.ID), Size: sized(g, r.Job.Print), Count: g.Count, Place: g.Place}
		left := max(g.Count, 1)
		for _, s := range r.Stowed {
			if s.Goods != g.ID {
				continue
			}
			left -= s.Count
			w := packet.Kept{Owner: s.Owner, In: owners[s.Owner], Count: s.Count, Lies: lies(g, s), High: s.High}
			if b := bays[s.Bay]; b != nil {
				w.Where = spot(b, parts[b.Floor], same[b.Owner+parts.name(b.Floor)] > 1)
			}
			if i := slices.IndexFunc(x.Kept, func(k packet.Kept) bool { return k.Owner == w.Owner && k.Where == w.Where }); i >= 0 {
				k := &x.Kept[i]
				k.Count, k.Lies, k.High = k.Count+w.Count, cmp.Or(k.Lies, w.Lies), max(k.High, w.High)
			} else {
				x.Kept = append(x.Kept, w)
			}
		}
		if len(x.Kept) > 0 || slices.ContainsFunc(r.Assembly.Owners, func(o part.Owner) bool { return o.ID == g.Place }) {
			x.Left = left
		}
		list = append(list, x)
	}
	return list
}

// lies says in words how goods lie that do not stand as they were measured: those that reach higher so stand on edge, or
// on end where they reach highest.
func lies(g stock.Goods, s strength.Stowed) string {
	most := length.Length(0)
	for _, l := range []*length.Length{g.Dia, g.Wide, g.Deep, g.Tall} {
		if l != nil {
			most = max(most, *l)
		}
	}
	switch {
	case !s.Lying || g.Tall == nil:
		return ""
	case s.Up <= *g.Tall:
		return "lying"
	case g.Dia == nil && s.Up >= most-length.MM:
		return "on end"
	}
	return "on edge"
}

type byMark map[string]*part.Part

func (m byMark) name(mark string) string {
	if p := m[mark]; p != nil {
		return p.Name
	}
	return ""
}

// spot names a bay by what carries the goods in it, with its mark where several are called alike.
func spot(b *part.Bay, floor *part.Part, several bool) string {
	on := ""
	if several {
		on = floor.Name + " " + floor.Mark
	} else if floor != nil {
		on = strings.TrimPrefix(strings.TrimPrefix(floor.Name, "bottom of "), "base of ")
	}
	_, path, _ := strings.Cut(b.ID, "/")
	switch {
	case b.Kind == "hook-board":
		return "on the hook board"
	case b.Hung:
		return "on the rail"
	case strings.Contains(path, "-left-rack-"):
		return "in the " + strings.ReplaceAll(b.Kind, "-", " ") + " on the left door"
	case strings.Contains(path, "-right-rack-"):
		return "in the " + strings.ReplaceAll(b.Kind, "-", " ") + " on the right door"
	case b.Kind == "drawers" || b.Kind == "trays":
		return "in " + on
	case b.Kind == "dividers":
		return "between the dividers"
	case len(b.Places) > 0:
		return "in the holes over " + the(on)
	case on == "":
		return fmt.Sprintf("in %s", path)
	}
	return "on " + the(on)
}

// the puts an article before a board that has no number.
func the(board string) string {
	if strings.ContainsAny(board, "0123456789.") {
		return board
	}
	return "the " + board
}

// sized says how large one of some goods is, as it is stored, and what it weighs; "" where the job says neither.
func sized(g stock.Goods, u length.Unit) string {
	var list []string
	t := ""
	if g.Dia != nil {
		t = "diameter " + g.Dia.Tape(u)
	}
	for _, l := range []*length.Length{g.Wide, g.Deep, g.Tall} {
		if l == nil {
			continue
		}
		if t != "" {
			t += " × "
		}
		t += l.Tape(u)
	}
	if t != "" {
		list = append(list, t)
	}
	if g.Each != nil {
		list = append(list, g.Each.Print(u == length.Millimetres))
	}
	return strings.Join(list, ", ")
}
