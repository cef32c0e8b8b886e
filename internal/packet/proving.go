package packet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"stowright/internal/draw"
	"stowright/internal/joinery"
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
	f := b.chapter(0, "Before the first cut", "Before the first cut", "before", 55)
	f.Para("Measure these, write them down, and compare them with what the plan is made for. Each has its line in the job, in brackets: change it there and print again, and everything that hangs on it follows.")
	for _, s := range b.Steps {
		if s.Phase == shop.Prove {
			b.step(f, s, "")
		}
	}
	f.Heading(2, "Measured", "")
	t := draw.Table{Columns: []draw.Column{{Head: "Board", Grow: true}, {Head: "Planned", Align: draw.End}, {Head: "1st corner", Align: draw.End}, {Head: "2nd", Align: draw.End}, {Head: "3rd", Align: draw.End}, {Head: "4th", Align: draw.End}, {Head: "Mean", Align: draw.End}}}
	blank := draw.Cell{Text: "________"}
	for _, x := range b.boards() {
		t.Rows = append(t.Rows, draw.Row{Cells: []draw.Cell{{Text: x.Name}, {Text: b.thickIn(x.Thickness)}, blank, blank, blank, blank, blank}})
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

// OtherSheet is the job built anew with one kind of sheet that is thinner and thicker by a step, for
// the sizes that follow its thickness.
type OtherSheet struct {
	Board       string
	Step        L
	Thin, Thick part.Assembly
}

// follow sets the sizes that follow the thickness of the sheets, at the planned one and at two beside
// it, with the rule in words: for somebody who has only the paper and another sheet.
func (b *book) follow(f *draw.Flow) {
	type size struct {
		marks             []string
		axis              int
		thin, plan, thick L
	}
	t := draw.Table{}
	var step L
	for _, o := range b.Other {
		step = o.Step
		at := func(a *part.Assembly) map[string][3]L {
			m := map[string][3]L{}
			for _, p := range a.Parts {
				m[p.Owner+" "+p.Local] = p.Size
			}
			return m
		}
		thin, thick := at(&o.Thin), at(&o.Thick)
		var list []size
		for _, w := range b.built() {
			if b.first[w.ID] != w.ID {
				continue
			}
			for _, a := range b.alike(w.ID) {
				p := a.part
				k := p.Owner + " " + p.Local
				x, ok := thin[k]
				y, ok2 := thick[k]
				if !ok || !ok2 {
					continue
				}
				for axis := range 2 {
					n := size{a.marks, axis, x[axis], p.Size[axis], y[axis]}
					if (n.thin-n.plan).Abs() < o.Step/4 && (n.thick-n.plan).Abs() < o.Step/4 {
						continue
					}
					i := slices.IndexFunc(list, func(s size) bool {
						return s.axis == n.axis && s.thin == n.thin && s.plan == n.plan && s.thick == n.thick
					})
					if i < 0 {
						list = append(list, n)
					} else {
						list[i].marks = append(slices.Clone(list[i].marks), n.marks...)
					}
				}
			}
		}
		if len(list) == 0 {
			continue
		}
		board, _ := b.Catalogue.Board(o.Board)
		name := board.Name
		if name == "" {
			name = o.Board
		}
		if board.Nominal > 0 {
			name += ", called " + board.Nominal.Exact(b.Print)
		}
		t.Rows = append(t.Rows, draw.Row{Group: fmt.Sprintf("%s: %s, %s as planned, %s", name, (board.Thickness - o.Step).Set(b.Print), board.Thickness.Set(b.Print), (board.Thickness + o.Step).Set(b.Print))})
		for _, x := range list {
			t.Rows = append(t.Rows, draw.Texts(b.marks(x.marks), [2]string{"along", "across"}[x.axis], rule(x.thin-x.plan, x.plan-x.thick, o.Step), b.sure(x.thin), b.sure(x.plan), b.sure(x.thick)))
		}
	}
	if len(t.Rows) == 0 {
		return
	}
	f.Heading(2, "Sizes that follow the sheet", "follow")
	f.Para(fmt.Sprintf("The outside of a case stays, so what is inside it gives way to a thicker sheet and grows with a thinner one. The rule says how many thicknesses are in a size: “less 2” is cut twice the difference shorter when the sheet is thicker by it. For %s the sizes are worked out here; parts that are not in the table keep their sizes. Where grooves, holes and rails lie is measured from the boards beside them: print again with the thickness that you measured before boring them, or, with this paper alone, shift each hole that meets the edge of another board by half of the difference and each groove or rail by the whole of it for every board between it and where it is measured from. Grooves are as wide as what goes in them is thick, with %s of air; holes in edges lie at half the thickness.", step.Exact(b.Print), joinery.GrooveRoom.Set(b.Print)))
	says := func(word string) bool {
		return slices.ContainsFunc(t.Rows, func(r draw.Row) bool { return len(r.Cells) > 2 && r.Cells[2].Text == word })
	}
	if says(inSteps) {
		f.Para("A size “in steps” goes by whole rows of holes or by what a groove or a slide takes: of the two sizes that your thickness lies between, cut the smaller.")
	}
	if says(asShown) {
		f.Para("A size “as shown” is no count of thicknesses: what swings with a door clears its case by an arc that its depth is in. Of the two sizes that your thickness lies between, cut the smaller.")
	}
	t.Columns = []draw.Column{{Head: "Part", Grow: true}, {Head: "Size"}, {Head: "Rule"}, {Head: "Thinner", Align: draw.End}, {Head: "As planned", Align: draw.End}, {Head: "Thicker", Align: draw.End}}
	f.Table(t)
}

// The rules of a size that does not change evenly with the thickness, and of one that does by no part of it that can be
// read off the boards.
const (
	inSteps = "in steps"
	asShown = "as shown"
)

// rule says how many thicknesses are in a size that changes by so much when the sheet is thinner by
// a step, and by so much more when it is thicker by one.
func rule(thinner, thicker, step L) string {
	if (thinner - thicker).Abs() > max(1, step/50) {
		return inSteps
	}
	n := float64(thinner) / float64(step)
	word := "less"
	if n < 0 {
		word, n = "more", -n
	}
	whole := math.Floor(n + 0.01)
	for _, x := range [...]struct {
		share float64
		says  string
	}{{0, ""}, {1. / 2, "1/2"}, {1. / 3, "1/3"}, {2. / 3, "2/3"}, {1. / 4, "1/4"}, {3. / 4, "3/4"}} {
		if math.Abs(n-whole-x.share) >= 0.01 {
			continue
		}
		if whole > 0 || x.says == "" {
			x.says = strings.TrimSpace(fmt.Sprintf("%.0f %s", whole, x.says))
		}
		return word + " " + x.says
	}
	return asShown
}
