package packet

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"sync"

	"stowright/internal/cutlist"
	"stowright/internal/cutting"
	"stowright/internal/draw"
	"stowright/internal/money"
	"stowright/internal/shop"
)

// cutting sets a summary of the cutting plan and one picture for every sheet.
func (b *book) cutting() {
	if len(b.Plan.Sheets) == 0 {
		return
	}
	back, first := b.remember(), len(b.pages)
	f := b.cuttingHead()
	list := b.fillings(f)
	n := len(b.pages)
	if k, _ := together(list, f.Left()); k == 0 && n > first && f.Used() < thinHead && list[0].low().top+list[0].begun > f.Left() {
		back() // the last lines of the list would have a sheet to themselves
		f.Break()
		if b.cuttingHead(); len(b.pages) > n {
			back()
			b.cuttingHead()
		}
	}
	b.setFillings(f, list)
	b.settings(f)
}

// thinHead is the share of a sheet under which the list of sheets does not end on it alone.
const thinHead = 0.5

// cuttingHead begins the chapter: what is said of the plan, and the list of its sheets.
func (b *book) cuttingHead() *draw.Flow {
	f := b.chapter(0, "Cutting plans", "Cutting plans", "cutting", 70)
	t := b.Plan.Totals
	f.Para(fmt.Sprintf("%s, %d.%02d %% of their area in parts, %d cuts, %d settings of the fence or stop, those for trimming counted.", cutlist.Counted(b.Plan.Sheets), t.Yield/100, t.Yield%100, t.Cuts, t.Settings))
	b.trades(f)
	if l := b.sheetsLine(); l != "" {
		f.Para(l + ".")
	}
	for _, u := range b.Plan.Unplaced {
		f.Strong(fmt.Sprintf("Not cut: %d × %s (%s).", u.Count, u.Part, u.Why), true)
	}
	f.Para("Cut in the order of the circled figures. The setting is the size that is kept: the part, or the piece that parts are cut from, lies against the fence or the stop, and what is over falls on the other side of the blade; where it measures scrap the table says “scrap, of this size”. Set it once and cut all that have it. Of a line of several cuts the piece of the first is told, with “from” where the others are made on pieces of other sizes. " + b.sawWords() + b.saidKerfs())
	overview := draw.Table{Columns: []draw.Column{{Head: ""}, {Head: "Sheet", Align: draw.End}, {Head: "Stock", Grow: true}, {Head: "Size"}, {Head: "Parts", Align: draw.End}, {Head: "Where from"}}}
	for i, s := range b.Plan.Sheets {
		overview.Rows = append(overview.Rows, draw.Row{Cells: []draw.Cell{{Tick: true}, {Text: fmt.Sprint(i + 1), Link: fmt.Sprintf("filling %d", i+1)}, {Text: b.sheetName(s)}, {Text: b.num(s.L) + " × " + b.num(s.W)}, {Text: fmt.Sprint(len(s.Pieces))}, {Text: cutlist.From(s) + b.stageOf(i)}}})
	}
	if n := len(overview.Rows); n > listed {
		one := func(f *draw.Flow) { f.Table(overview) }
		a, c := overview, overview
		a.Rows, c.Rows = overview.Rows[:(n+1)/2], overview.Rows[(n+1)/2:]
		two := func(f *draw.Flow) {
			f.Columns(8, func(f *draw.Flow) { f.Table(a) }, func(f *draw.Flow) { f.Table(c) })
		}
		merged := overview
		merged.Rows = oneLine(overview.Rows)
		few := func(f *draw.Flow) { f.Table(merged) }
		switch {
		case f.Measure(one) <= f.Left():
			one(f)
		case f.Measure(two) < min(f.Left(), f.Measure(one)):
			two(f)
		case f.Measure(few) <= f.Left(): // no sheet of paper for its last lines
			few(f)
		default:
			one(f)
		}
	}
	return f
}

// sheetName gives what a sheet of the plan is cut from.
func (b *book) sheetName(s cutting.Sheet) string {
	id := cutlist.Board(s.Stock)
	if x, ok := b.Catalogue.Board(id); ok && x.Name != "" {
		return x.Name
	}
	return id
}

// fillings makes the pictures and tables of all sheets.
func (b *book) fillings(f *draw.Flow) []filling {
	saw := b.phase(shop.Saw) // one for every sheet, then one for every stick
	list := make([]filling, len(b.Plan.Sheets))
	var wait sync.WaitGroup
	for i, s := range b.Plan.Sheets {
		var st *shop.Step
		if i < len(saw) {
			st = &saw[i]
		}
		before := ""
		if i > 0 && i <= len(saw) {
			before = saw[i-1].Caution
		}
		try := func() { list[i] = b.filling(f, i, s, b.sheetName(s), st, before) }
		if b.Say != nil { // a book of phrases notes in which order it is asked
			try()
			continue
		}
		wait.Go(try)
	}
	wait.Wait()
	return list
}

// oneLine gives the rows of the overview of sheets with those on one line that follow each other and are of one stock, size
// and place: their numbers from the first to the last, and the parts of each.
func oneLine(rows []draw.Row) (out []draw.Row) {
	alike := func(a, b draw.Row) bool {
		return a.Cells[2].Text == b.Cells[2].Text && a.Cells[3].Text == b.Cells[3].Text && a.Cells[5].Text == b.Cells[5].Text
	}
	for i, r := range rows {
		if i == 0 || !alike(rows[i-1], r) {
			r.Cells = slices.Clone(r.Cells)
			out = append(out, r)
			continue
		}
		c := out[len(out)-1].Cells
		first, _, _ := strings.Cut(c[1].Text, "–")
		c[1].Text, c[4].Text = first+"–"+r.Cells[1].Text, c[4].Text+", "+r.Cells[4].Text
	}
	return out
}

// stageOf says for which stage a sheet is sawn, where several are; each is sawn for one.
func (b *book) stageOf(sheet int) string {
	if len(b.Bill.Stages) < 2 || sheet >= len(b.Marks) || len(b.Marks[sheet]) == 0 {
		return ""
	}
	for _, p := range b.Assembly.Parts {
		if p.Mark != b.Marks[sheet][0] {
			continue
		}
		for _, o := range b.Assembly.Owners {
			if o.ID == p.Owner && o.Stage != "" {
				return ", stage " + o.Stage
			}
		}
	}
	return ""
}

// trades tells which plans were found, and which of them this is.
func (b *book) trades(f *draw.Flow) {
	if b.Plan.Cancelled {
		f.Para("The search for the cutting plan was stopped before its end: this is the best one until then.")
	}
	var said []string
	for _, t := range b.Trades {
		var ways []string
		dearer := func(c cutting.Choice) bool { return c.Cost != t.Plans[0].Cost }
		for _, c := range t.Plans {
			way := fmt.Sprintf("%s and %s", plural(c.Sheets, "sheet", "sheets"), plural(c.Settings, "setting", "settings"))
			if b.Plan.Totals.Priced && slices.ContainsFunc(t.Plans, dearer) {
				way += " for " + strings.TrimSpace(b.Bill.Currency+" "+money.Amount(c.Cost).Print())
			}
			ways = append(ways, way)
		}
		of := ""
		if t.Stage != "" {
			of = " for stage " + t.Stage
		}
		said = append(said, "Plans found"+of+": "+strings.Join(ways, "; ")+".")
	}
	if len(said) > 0 {
		f.Para(strings.Join(append(said, b.Taken), " "))
	}
}

// sawWords says how cuts are made that are not along the fence, as far as there are some.
func (b *book) sawWords() string {
	hand, gauge, small, shaving := false, false, false, false
	for _, s := range b.Plan.Sheets {
		for _, c := range s.Cuts {
			hand, gauge, small = hand || c.Hand, gauge || cutlist.ByGauge(b.Practice, c), small || cutlist.Small(b.Practice, c)
			shaving = shaving || cutlist.Shaving(c)
		}
	}
	led, t := cutlist.Led(b.Practice), ""
	if hand || cutlist.BreakDown(b.Practice).Name == led {
		t = fmt.Sprintf(" For a cut with the %s measure the setting from the trimmed edge and lay the straightedge there.", led)
	}
	if gauge {
		other := " or with the " + led
		if m := cutlist.Mitre(b.Practice); m != "" {
			other = ", or where it is narrow enough at the " + m + "," + other
		}
		t += " By gauge: a crosscut of a piece that would lie along the fence with its short side, where it turns and is thrown back. The fence stays away; it is cut against the mitre gauge, a stop block on that at the setting" + other + "."
	}
	if small {
		_, _, how := cutlist.Holder(b.Practice, b.num(cutlist.LeastHeld))
		t += " " + how
	}
	if shaving {
		t += " " + cutlist.ShavingHow
	}
	return t
}

// saidKerfs says what the blades take, where steps lead through the sheets and do not say it themselves.
func (b *book) saidKerfs() string {
	if len(b.phase(shop.Saw)) == 0 { // a list of parts, that has no steps
		return " Write the mark on every piece as it comes off."
	}
	var all cutting.Sheet
	for _, s := range b.Plan.Sheets {
		all.Cuts = append(all.Cuts, s.Cuts...)
	}
	return " " + b.kerfs(all) + "."
}

// kerfs says what the blades take on a sheet.
func (b *book) kerfs(s cutting.Sheet) string {
	var saw, hand L
	for _, c := range s.Cuts {
		if c.Work <= cutting.Roughing && c.Hand {
			hand = max(hand, c.Kerf)
		} else {
			saw = max(saw, c.Kerf)
		}
	}
	if hand == 0 || hand == saw {
		return "The kerf is " + b.thick(max(saw, hand))
	}
	if saw == 0 {
		return fmt.Sprintf("The kerf of the %s is %s", cutlist.Led(b.Practice), b.thick(hand))
	}
	return fmt.Sprintf("The kerf is %s, of the %s %s", b.thick(saw), cutlist.Led(b.Practice), b.thick(hand))
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
	t := draw.Table{Columns: []draw.Column{{Head: ""}, {Head: "Step", Align: draw.End}, {Head: "Stick", Align: draw.End}, {Head: "Stock"}, {Head: "Pieces", Grow: true}, {Head: "Left, kerfs and squaring off", Most: 22, Align: draw.End}}}
	for i, s := range b.Sticks {
		var out []string
		for _, p := range s.Pieces {
			x := b.sure(p.Len) + " " + strings.Join(p.Marks, " + ")
			switch {
			case len(p.Strips) > 0:
				var list []string
				for _, q := range p.Strips {
					list = append(list, fmt.Sprintf("%s wide: %s", b.num(q.Rip), strings.Join(q.Marks, ", ")))
				}
				x = fmt.Sprintf("%s blank, ripped into strips, these then crosscut to %s (%s)", b.num(p.Len), b.num(p.Strips[0].Each), strings.Join(list, "; "))
			case p.Rip > 0:
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
	intro := func(f *draw.Flow) {
		f.Para("Square one end first. Lengths in the order in which they are cut from that end; the kerf is taken between them.")
		if len(sticks) > 0 {
			// One that rips has the caution of both saws, and names them.
			most := slices.MaxFunc(sticks, func(a, b shop.Step) int { return cmp.Compare(len(a.Caution), len(b.Caution)) })
			caution := most.Caution
			if slices.ContainsFunc(sticks, func(s shop.Step) bool { return strings.Contains(s.Caution, shop.TreatedWood) }) && !strings.Contains(caution, shop.TreatedWood) {
				caution += " " + shop.TreatedWood
			}
			f.Strong(caution, true)
			f.Para("Tools: " + most.Tool + ".")
			if slices.ContainsFunc(b.Sticks, func(s cutlist.Stick) bool {
				return slices.ContainsFunc(s.Pieces, func(p cutlist.StickPiece) bool { return p.Rip > 0 || len(p.Strips) > 0 })
			}) {
				f.Para(shop.RipWhole)
			}
		}
	}
	room := 60.0
	if f := b.flow; f.Left() > 0 { // the heading stays with the first rows
		room = max(room, sticksHead+f.Measure(func(f *draw.Flow) { intro(f); f.Table(t.First(2)) })+20)
	}
	f := b.chapter(0, "Sticks", "Sticks", "sticks", room)
	intro(f)
	f.Table(t)
}

// sticksHead is what the heading of that chapter takes, in mm.
const sticksHead = 20.0

// listed is the number of sheets up to which they have names enough where they are drawn, and no list.
const listed = 4
