package packet

import (
	"fmt"
	"slices"
	"strings"

	"stowright/internal/draw"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/shop"
	"stowright/internal/stock"
)

// proving sets the sizes that everything hangs on, to be written down before the first cut, and
// how the parts follow the thickness of the sheets.
func (b *book) proving() {
	if len(b.Assembly.Parts) == 0 {
		return
	}
	f := b.chapter(0, "Before the first cut", "Before the first cut", "before", 120)
	f.Para("Measure these, write them down, and compare them with what the plan is made for. Each has its line in the job, in brackets: change it there and print again, and everything that hangs on it follows.")
	for _, s := range b.Steps {
		if s.Phase == shop.Prove {
			b.step(f, s, "")
		}
	}
	b.largestCan(f)
	f.Heading(2, "Measured", "")
	t := draw.Table{Columns: []draw.Column{{Head: "Thing", Grow: true}, {Head: "Planned", Align: draw.End}, {Head: "1st corner", Align: draw.End}, {Head: "2nd", Align: draw.End}, {Head: "3rd", Align: draw.End}, {Head: "4th", Align: draw.End}, {Head: "Mean", Align: draw.End}}}
	blank := draw.Cell{Text: "________"}
	for _, x := range b.boards() {
		t.Rows = append(t.Rows, draw.Row{Cells: []draw.Cell{{Text: x.Name}, {Text: x.Thickness.Exact(b.Print)}, blank, blank, blank, blank, blank}})
	}
	f.Table(t)
	b.follow(f)
}

// boards gives the boards that parts are cut from.
func (b *book) boards() []stock.Board {
	var out []stock.Board
	for _, x := range b.Catalogue.Boards {
		if slices.ContainsFunc(b.Assembly.Parts, func(p part.Part) bool { return p.Material == part.Board && p.Stock == x.ID }) {
			if x.Name == "" {
				x.Name = x.ID
			}
			out = append(out, x)
		}
	}
	return out
}

// largestCan asks for the largest thing that a bored hole takes.
func (b *book) largestCan(f *draw.Flow) {
	var most L
	for _, y := range b.Assembly.Bays {
		for _, p := range y.Places {
			most = max(most, p.Dia)
		}
	}
	if most > 0 {
		f.Item("", fmt.Sprintf("Measure the widest can or bottle that stands in a bored hole, over its seam. The widest hole is %s (goods, of each kind, across).", b.sure(most)+" "+b.Print.String()))
	}
}

// follow sets the sizes that follow the thickness of the boards of the boxes, at the planned
// one and at two beside it, with the rule in words: for somebody who has only the paper and
// another sheet.
func (b *book) follow(f *draw.Flow) {
	type size struct {
		part  part.Part
		mark  string
		axis  int
		times int
		of    stock.Board
	}
	var list []size
	for _, o := range b.built() {
		if b.first[o.ID] != o.ID || o.Kind != "case" {
			continue
		}
		var left, right part.Part
		for _, p := range b.Assembly.Parts {
			if p.Owner == o.ID && p.Role == part.Side {
				if left.Mark == "" {
					left = p
				} else {
					right = p
				}
			}
		}
		if right.Mark == "" {
			continue
		}
		board, ok := b.Catalogue.Board(left.Stock)
		if !ok {
			continue
		}
		// what is cut to stand between the sides loses the thickness of both
		inner := o.Carcass.Size().X - left.Size[2] - right.Size[2]
		for _, a := range b.alike(o.ID) {
			p := a.part
			if p.Owner != o.ID || p.Moves != "" || p.Removable || a.group < 0 {
				continue
			}
			for axis := range 2 {
				if p.Size[axis] == inner {
					list = append(list, size{p, b.marks(a.marks), axis, 2, board})
				}
			}
		}
	}
	if len(list) == 0 {
		return
	}
	f.Heading(2, "Sizes that follow the sheet", "follow")
	step := length.MM / 2
	if b.Print == length.Inches {
		step = length.Inch / 64
	}
	f.Para(fmt.Sprintf("The outside of a case stays; what stands between its sides is the outside less the thickness of both. For a sheet that is thinner or thicker than planned, cut these %s longer or shorter for every %s: twice the difference. Grooves for backs are as wide as the back is thick with a little air; the grooves, holes in edges (half the thickness) and screws follow too.", (2 * step).In(b.Print), step.Exact(b.Print)))
	var other []string
	for _, x := range b.boards() {
		if !slices.ContainsFunc(list, func(y size) bool { return y.of.ID == x.ID }) {
			other = append(other, x.Name)
		}
	}
	if len(other) > 0 {
		f.Para("Not in this table, because only grooves and overlays follow their thickness: " + strings.Join(other, ", ") + ".")
	}
	t := draw.Table{Columns: []draw.Column{{Head: "Part", Grow: true}, {Head: "Size"}, {Head: "Sheet thinner by " + step.Exact(b.Print), Align: draw.End, Most: 34}, {Head: "As planned", Align: draw.End}, {Head: "Thicker by " + step.Exact(b.Print), Align: draw.End, Most: 34}}}
	done := make([]bool, len(list))
	for i, x := range list { // parts of one size are one line
		v := x.part.Size[x.axis]
		var marks []string
		for k := i; k < len(list); k++ {
			if y := list[k]; !done[k] && y.axis == x.axis && y.part.Size[y.axis] == v && y.times == x.times {
				done[k] = true
				marks = append(marks, y.mark)
			}
		}
		if len(marks) > 0 {
			t.Rows = append(t.Rows, draw.Texts(strings.Join(marks, "; "), [2]string{"along", "across"}[x.axis], b.sure(v+step*L(x.times)), b.sure(v), b.sure(v-step*L(x.times))))
		}
	}
	f.Table(t)
}
