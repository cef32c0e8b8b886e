package packet

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/cutlist"
	"stowright/internal/draw"
	"stowright/internal/part"
	"stowright/internal/view"
)

// owners sets a chapter for every case, then counters, bases, hutches and the rest.
func (b *book) owners() {
	rank := map[string]int{"case": 0, "counter": 1, "base": 2, "hutch": 3}
	list := b.built()
	slices.SortStableFunc(list, func(x, y part.Owner) int {
		of := func(o part.Owner) int {
			if r, ok := rank[o.Kind]; ok {
				return r
			}
			return 9
		}
		return of(x) - of(y)
	})
	for _, o := range list {
		if len(view.Of(&b.Assembly, o.ID)) > 0 {
			b.owner(o)
		}
	}
}

func (b *book) owner(o part.Owner) {
	title := b.name(o.ID)
	body := view.BodyOf(&b.Assembly, o, b.Print)
	front, side, plan, closed := body.Figures()
	s, r, block := b.drawing(title+": views", "Views", false)
	b.enter(0, title, toOwner(o.ID), true)
	rows := [][]view.Figure{{*front, *side}, {*plan}}
	if closed != nil {
		rows[1] = append(rows[1], *closed)
	}
	if size := o.Box.Size(); size.X > 2*size.Z { // long and low: one under the other
		rows = [][]view.Figure{{*front}, {*plan}, {*side}}
		if closed != nil {
			rows = append(rows, []view.Figure{*closed})
		}
	}
	scale, _ := view.Set(s, r, b.Print, draw.Scale{Paper: 1, Real: 5}, rows...)
	block.Scale = scale.String()
	s, r, block = b.drawing(title+": drawn apart", "Exploded view", false)
	b.enter(1, title+": drawn apart", toOwner(o.ID)+" apart", true)
	block.Scale = "none"
	view.Exploded(s, r, body.Parts, body.Owner.Carcass, b.toPart)
	b.parts(o, title)
}

// rows groups an owner's parts: alike ones on one line.
type alike struct {
	group string
	part  part.Part
	marks []string
}

func (b *book) alike(owner string) []alike {
	var out []alike
	at := map[string]int{}
	for _, p := range view.Of(&b.Assembly, owner) {
		k, ok := b.group[p.Mark]
		if !ok {
			k = "bought " + p.Stock + " " + p.Name
		}
		i, seen := at[k]
		if !seen {
			i = len(out)
			at[k] = i
			out = append(out, alike{group: k, part: p})
		}
		out[i].marks = append(out[i].marks, p.Mark)
	}
	return out
}

var bandNames = [...]string{"start", "end", "near", "far"}

func (b *book) bands(p part.Part) string {
	var on []string
	n := 0
	for i, x := range p.Bands {
		if x.Edging != "" {
			on = append(on, bandNames[i])
			n++
		}
	}
	if n == 4 {
		return "all round"
	}
	return strings.Join(on, ", ")
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

// parts sets an owner's table of parts, the drawings of those that are worked, and its steps.
func (b *book) parts(o part.Owner, title string) {
	f := b.text(title+": parts", "Parts")
	f.Heading(1, title+": parts", "parts "+o.ID)
	b.enter(1, title+": parts and drilling", "parts "+o.ID, false)
	f.Para(fmt.Sprintf("Sizes in %s, along the grain × across it × thickness. “As sawn” is before edging. Finished sizes include it.", map[bool]string{true: "mm", false: "inches"}[b.Print.String() == "mm"]))
	t := draw.Table{Columns: []draw.Column{{Head: "Mark", Most: 34}, {Head: "Name"}, {Head: "No.", Align: draw.End}, {Head: "Finished"}, {Head: "As sawn"}, {Head: "Stock", Most: 40}, {Head: "Grain"}, {Head: "Edging on"}}}
	for _, a := range b.alike(o.ID) {
		p := a.part
		cut := b.sizes(p.Cut())
		if p.Cut() == p.Size {
			cut = "same"
		}
		if p.Material == part.Bought {
			cut = "bought"
		}
		row := draw.Row{Name: b.toPart(a.marks[0]), Cells: []draw.Cell{
			{Text: strings.Join(a.marks, " "), Bold: true}, {Text: p.Name}, {Text: fmt.Sprint(len(a.marks))}, {Text: b.sizes(p.Size)}, {Text: cut}, {Text: b.stockName(p)}, {Text: grainWord(p)}, {Text: b.bands(p)}}}
		if len(p.Ops) > 0 && p.Material != part.Bought {
			row.Cells[0].Link = "drawing " + a.group
		}
		t.Rows = append(t.Rows, row)
	}
	f.Table(t)
	for _, w := range b.Bill.Weights {
		if w.Owner == o.ID {
			word := ""
			if !w.Whole {
				word = "at least "
			}
			f.Para(fmt.Sprintf("Weight, empty: %s%s.", word, b.mass(w.Mass)))
		}
	}
	// marks that share a row with others lead to it as well
	b.aliases(o.ID)
	for _, a := range b.alike(o.ID) {
		if len(a.part.Ops) == 0 || a.part.Material == part.Bought || b.drawn[a.group] {
			continue
		}
		b.drawn[a.group] = true
		b.workedPart(f, a)
	}
	var elsewhere []string
	for _, a := range b.alike(o.ID) {
		if len(a.part.Ops) > 0 && a.part.Material != part.Bought && b.part[a.group].Owner != o.ID {
			elsewhere = append(elsewhere, fmt.Sprintf("%s as %s", strings.Join(a.marks, ", "), a.group))
		}
	}
	if len(elsewhere) > 0 {
		f.Heading(3, "Drawn before", "")
		f.Para("These are worked exactly as parts drawn in earlier chapters: " + strings.Join(elsewhere, "; ") + ".")
	}
	b.ownSteps(f, o)
}

func grainWord(p part.Part) string {
	switch p.Grain {
	case part.Along:
		return "along"
	case part.Across:
		return "across"
	}
	return "either"
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

// workedPart sets the drawing of one part and the table of its workings.
func (b *book) workedPart(f *draw.Flow, a alike) {
	p := a.part
	name := fmt.Sprintf("%s, %s", strings.Join(a.marks, ", "), p.Name)
	var all cutlist.Group
	for _, g := range b.groups {
		if g.ID == a.group {
			all = g
		}
	}
	if n := len(all.Marks); n > len(a.marks) {
		name = fmt.Sprintf("%s: %d alike", name, n)
	}
	figures := view.Board(p, b.Print)
	var rows [][]view.Figure
	for _, x := range figures {
		rows = append(rows, []view.Figure{x})
	}
	// measured first, so that drawing and heading stand together
	scratch := draw.Sheet{}
	most := 66.0 * float64(len(rows))
	scale, foot := view.Set(&scratch, draw.Rect{W: f.Width(), H: most}, b.Print, draw.Scale{Paper: 1, Real: 2}, rows...)
	if f.Left() < foot+34 {
		f.Break()
	}
	f.Heading(2, name, "drawing "+a.group)
	if len(all.Marks) > len(a.marks) {
		f.Para("All alike: " + strings.Join(all.Marks, ", ") + ".")
	}
	f.Block(foot+2, func(s *draw.Sheet, r draw.Rect) {
		view.Set(s, draw.Rect{X: r.X, Y: r.Y, W: r.W, H: most}, b.Print, draw.Scale{Paper: 1, Real: 2}, rows...)
	})
	f.Para("Scale " + scale.String() + ". Finished " + b.sizes(p.Size) + "; as sawn " + b.sizes(p.Cut()) + ". Filled corner: datum. Grain: " + grainWord(p) + ". Edging: " + cmp.Or(b.bands(p), "none") + ".")
	t := draw.Table{Columns: []draw.Column{{Head: "No.", Align: draw.End}, {Head: "Work", Most: 42}, {Head: "On"}, {Head: "x from the start end", Most: 58, Grow: true}, {Head: "y from the near edge", Most: 22}, {Head: "Tool"}}}
	for _, w := range view.Works(p, b.Print) {
		t.Rows = append(t.Rows, draw.Texts(fmt.Sprint(w.Count), w.Text(), w.Face, inLines(w.X, 4), w.Y, w.Tool))
	}
	f.Table(t)
}

// inLines sets sizes so many to a line, so that none is broken.
func inLines(list []string, each int) string {
	var lines []string
	for c := range slices.Chunk(list, each) {
		lines = append(lines, strings.Join(c, ",  "))
	}
	return strings.Join(lines, ",\n")
}

// ownSteps sets an owner's own assembly steps at the end of its chapter.
func (b *book) ownSteps(f *draw.Flow, o part.Owner) {
	first := true
	for _, s := range b.Steps {
		if s.Owner != o.ID || s.Phase != "assembling" {
			continue
		}
		if first {
			f.Heading(2, b.name(o.ID)+": putting it together", "steps "+o.ID)
			first = false
		}
		b.step(f, s)
	}
}
