package packet

import (
	"fmt"
	"slices"
	"strings"

	"stowright/internal/cutlist"
	"stowright/internal/cutting"
	"stowright/internal/draw"
	"stowright/internal/shop"
	"stowright/internal/view"
)

// cutting sets a summary of the cutting plan and one picture for every sheet.
func (b *book) cutting() {
	if len(b.Plan.Sheets) == 0 {
		return
	}
	f := b.chapter(0, "Cutting plans", "Cutting plans", "cutting", 70)
	t := b.Plan.Totals
	f.Para(fmt.Sprintf("%s, %d.%02d %% of their area in parts, %d cuts, %d settings of the fence or stop.", plural(len(b.Plan.Sheets), "sheet", "sheets"), t.Yield/100, t.Yield%100, t.Cuts, t.Settings))
	if len(b.Plan.Trade) > 1 {
		var ways []string
		for _, c := range b.Plan.Trade {
			ways = append(ways, fmt.Sprintf("%s and %s", plural(c.Sheets, "sheet", "sheets"), plural(c.Settings, "setting", "settings")))
		}
		f.Para("Plans found at this cost: " + strings.Join(ways, "; ") + ". This is the one with the bigger offcuts, and then with the fewer settings.")
	}
	for _, l := range strings.Split(b.sheetsLine(), ". ") {
		if l != "" {
			f.Item("–", l+".")
		}
	}
	for _, u := range b.Plan.Unplaced {
		f.Strong(fmt.Sprintf("Not cut: %d × %s (%s).", u.Count, u.Part, u.Why), true)
	}
	f.Para("Cut in the order of the circled figures. The setting is the size that is kept: the part, or the piece that parts are cut from, lies against the fence or the stop, and what is over falls on the other side of the blade. Set it once and cut all that have it. For a cut with the hand-held saw measure the setting from the trimmed edge and lay the straightedge there. Write the mark on every piece as it comes off.")
	name := func(s cutting.Sheet) string {
		id := cutlist.Board(s.Stock)
		if x, ok := b.Catalogue.Board(id); ok && x.Name != "" {
			return x.Name
		}
		return id
	}
	overview := draw.Table{Columns: []draw.Column{{Head: ""}, {Head: "Sheet", Align: draw.End}, {Head: "Stock", Grow: true}, {Head: "Size"}, {Head: "Parts", Align: draw.End}, {Head: "Where from"}}}
	for i, s := range b.Plan.Sheets {
		from := "bought"
		switch {
		case cutlist.LeftOver(s.Stock):
			from = "left by an earlier stage"
		case s.OnHand:
			from = "on hand"
		}
		overview.Rows = append(overview.Rows, draw.Row{Cells: []draw.Cell{{Tick: true}, {Text: fmt.Sprint(i + 1), Link: fmt.Sprintf("filling %d", i+1)}, {Text: name(s)}, {Text: b.num(s.L) + " × " + b.num(s.W)}, {Text: fmt.Sprint(len(s.Pieces))}, {Text: from}}})
	}
	if len(b.Plan.Sheets) > 4 { // fewer have names enough where they are drawn
		f.Table(overview)
	}
	saw := b.phase(shop.Saw) // one for every sheet, then one for every stick
	for i, s := range b.Plan.Sheets {
		var st *shop.Step
		if i < len(saw) {
			st = &saw[i]
		}
		before := ""
		if i > 0 && i <= len(saw) {
			before = saw[i-1].Caution
		}
		b.filling(f, i, s, name(s), st, before)
	}
}

// filling sets the picture of one sheet with the order of its cuts, to be ticked off.
func (b *book) filling(f *draw.Flow, i int, s cutting.Sheet, stock string, step *shop.Step, before string) {
	title := fmt.Sprintf("Sheet %d of %d: %s, %s × %s", i+1, len(b.Plan.Sheets), stock, b.num(s.L), b.num(s.W))
	if s.OnHand {
		title += ", on hand"
	}
	var marks []string
	if i < len(b.Marks) {
		marks = b.Marks[i]
	}
	t := draw.Table{Columns: []draw.Column{{Head: ""}, {Head: "Cuts"}, {Head: "Work", Most: 40}, {Head: "Setting", Align: draw.End}, {Head: "Of a piece"}, {Head: "Comes free", Grow: true}}}
	type row struct {
		from, to      int
		work, of, set string
		free          []string
		offcuts       int
	}
	var list []row
	trims := 0
	n := 0
	for _, c := range s.Cuts {
		if c.Work == cutting.Trimming {
			trims++
			continue
		}
		n++
		work := workName(c.Work) + ", rip"
		if c.Axis == cutting.X {
			work = workName(c.Work) + ", crosscut"
		}
		work = strings.Replace(work, "crosscut, crosscut", "crosscut", 1)
		if c.Hand {
			work += ", hand-held saw"
		}
		x := row{from: n, to: n, work: work, of: b.num(c.Of.L) + " × " + b.num(c.Of.W), set: b.sure(c.Setting), offcuts: len(c.Leaves)}
		for _, k := range c.Frees {
			if k < len(marks) {
				x.free = append(x.free, marks[k])
			}
		}
		// cuts that follow each other at one setting are one line to tick
		if i := len(list) - 1; i >= 0 && list[i].work == x.work && list[i].set == x.set {
			list[i].to = n
			list[i].free = append(list[i].free, x.free...)
			list[i].offcuts += x.offcuts
			if of := list[i].of; of != x.of && !strings.HasPrefix(of, "from ") {
				list[i].of = "from " + of
			}
			continue
		}
		list = append(list, x)
	}
	for _, x := range list {
		cuts := fmt.Sprint(x.from)
		if x.to > x.from {
			cuts += "–" + fmt.Sprint(x.to)
		}
		free := b.marks(x.free)
		if x.offcuts > 0 {
			if free != "" {
				free += "; "
			}
			free += plural(x.offcuts, "offcut", "offcuts")
		}
		t.Rows = append(t.Rows, draw.Row{Cells: []draw.Cell{{Tick: true}, {Text: cuts}, {Text: x.work}, {Text: x.set, Bold: true}, {Text: x.of}, {Text: free}}})
	}
	fig := []view.Figure{view.Filling(s, marks, b.units(), b.toPart)}
	table := func(f *draw.Flow) {
		if step != nil {
			b.step(f, *step, before)
		} else if trims > 0 {
			f.Para(fmt.Sprintf("First trim %s of the sheet. The kerf is %s.", plural(trims, "edge", "edges"), b.thick(kerf(s))))
		}
		f.Table(t)
	}
	// as large as a good third of the paper takes; smaller when it still has every mark and every
	// cut, and nearly every size, and then stands on the sheet that is open or with all its cuts
	// on one
	pack := func(sh *draw.Sheet, r draw.Rect, most draw.Scale) (draw.Scale, float64) {
		r.H = b.Paper.H * 0.4
		return view.Pack(sh, r, b.units(), most, fig)
	}
	said := func(most draw.Scale) (c draw.Scale, foot float64, named, all int) {
		sh := draw.Sheet{}
		c, foot = pack(&sh, draw.Rect{W: f.Width()}, most)
		for _, it := range sh.Items {
			if t, ok := it.(*draw.Text); ok {
				first, _, _ := strings.Cut(t.Text, " ")
				if slices.Contains(marks, first) || !strings.ContainsFunc(t.Text, func(r rune) bool { return r < '0' || r > '9' }) {
					named++ // a mark, or the number of a cut
				}
				all += len(strings.ReplaceAll(t.Text, " ", ""))
			}
		}
		return c, foot, named, all
	}
	head := f.Measure(func(f *draw.Flow) { f.Heading(2, title, "") })
	rest := f.Measure(table)
	scale, foot, named, all := said(largest)
	fits := func(room float64) bool {
		for c, h, n, m := scale, foot, named, all; n >= named && m*5 >= all*4; {
			if head+h+1+rest <= room {
				scale, foot = c, h
				return true
			}
			i := slices.Index(view.Scales(b.units()), c) + 1
			if i == len(view.Scales(b.units())) {
				break
			}
			c, h, n, m = said(view.Scales(b.units())[i])
		}
		return false
	}
	if !fits(f.Left()) {
		if whole := fits(f.Height()); whole || f.Left() < foot+60 {
			f.Break()
			b.title, b.kind = "Cutting plans", "Cutting plans"
		}
	}
	f.Heading(2, title, fmt.Sprintf("filling %d", i+1))
	b.enter(1, title, fmt.Sprintf("filling %d", i+1), false)
	f.Block(foot+1, func(sh *draw.Sheet, r draw.Rect) { pack(sh, r, scale) })
	table(f)
}

// kerf gives the kerf of a sheet's first cut.
func kerf(s cutting.Sheet) L {
	for _, c := range s.Cuts {
		return c.Kerf
	}
	return 0
}

func workName(w cutting.Work) string {
	return [...]string{"trim", "break down", "strip", "crosscut", "re-cut"}[w]
}

// sticks sets what is crosscut from lengths.
func (b *book) sticks() {
	rest := b.phase(shop.Saw)
	rest = rest[min(len(b.Plan.Sheets), len(rest)):]
	sticks := rest[:min(len(b.Sticks), len(rest))]
	rest = rest[len(sticks):]
	defer func() {
		for _, s := range rest {
			b.step(b.flow, s, "")
		}
	}()
	if len(b.Sticks) == 0 {
		return
	}
	f := b.chapter(0, "Sticks", "Sticks", "sticks", 60)
	f.Para("Square one end first. Lengths in the order in which they are cut from that end; the kerf is taken between them.")
	if len(sticks) > 0 {
		f.Strong(sticks[0].Caution, true)
	}
	t := draw.Table{Columns: []draw.Column{{Head: ""}, {Head: "Step", Align: draw.End}, {Head: "Stick", Align: draw.End}, {Head: "Stock"}, {Head: "Pieces", Grow: true}, {Head: "Left", Align: draw.End}}}
	for i, s := range b.Sticks {
		var out []string
		for _, p := range s.Pieces {
			x := b.num(p.Len) + " " + strings.Join(p.Marks, " + ")
			if p.Rip > 0 {
				x += " (ripped to " + b.num(p.Rip) + ")"
			}
			out = append(out, x)
		}
		name := s.Stock
		if x, ok := b.Catalogue.Stick(s.Stock); ok && x.Name != "" {
			name = x.Name
		}
		name += ", " + b.num(s.Length)
		switch {
		case s.Over:
			name += ", left by an earlier stage"
		case s.OnHand:
			name += ", on hand"
		}
		no := ""
		if i < len(sticks) {
			no = fmt.Sprintf("%d.", sticks[i].N)
		}
		t.Rows = append(t.Rows, draw.Row{Cells: []draw.Cell{{Tick: true}, {Text: no}, {Text: fmt.Sprint(i + 1)}, {Text: name}, {Text: strings.Join(out, "; ")}, {Text: b.num(s.Left)}}})
	}
	f.Table(t)
}
