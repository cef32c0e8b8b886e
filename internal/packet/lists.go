package packet

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"stowright/internal/draw"
	"stowright/internal/finding"
	"stowright/internal/money"
	"stowright/internal/part"
	"stowright/internal/shop"
	"stowright/internal/view"
)

// shopping sets what is bought, stage by stage where there are stages.
func (b *book) shopping() {
	if len(b.Bill.Lines) == 0 {
		return
	}
	f := b.chapter(0, "Shopping list", "Shopping", "shopping", 55)
	head := []draw.Column{{Head: ""}, {Head: "Thing", Grow: true}, {Head: "Needed", Align: draw.End}, {Head: "On hand", Align: draw.End}, {Head: "Buy"}, {Head: "Price", Align: draw.End}, {Head: "Cost", Align: draw.End}, {Head: "Over", Align: draw.End}}
	stages := []string{""}
	for _, s := range b.Bill.Stages {
		stages = append(stages, s.Stage)
	}
	t := draw.Table{Columns: head}
	for _, st := range stages {
		first := true
		for _, l := range b.Bill.Lines {
			if l.Stage != st {
				continue
			}
			if first && st != "" {
				t.Rows = append(t.Rows, draw.Row{Group: "Stage " + st})
			}
			first = false
			price, cost := "ask", ""
			if l.Price != nil {
				price = l.Price.String()
			}
			if c, ok := l.Cost(); ok {
				cost = c.Print()
			}
			if l.Buy == 0 {
				price, cost = "", ""
			}
			buy := ""
			if l.Buy > 0 {
				if buy = l.Unit; l.Unit != "as needed" {
					buy = fmt.Sprintf("%d × %s", l.Buy, l.Unit)
				}
			}
			hand := ""
			if l.OnHand > 0 {
				hand = fmt.Sprint(l.OnHand)
				if l.Damaged > 0 {
					hand += fmt.Sprintf(", %d damaged", l.Damaged)
				}
				if l.Had != "" { // of what is used by measure, that which is there of it
					hand = l.Had
				}
			}
			t.Rows = append(t.Rows, draw.Row{Cells: []draw.Cell{{Tick: true}, {Text: l.Name}, {Text: l.Need}, {Text: hand}, {Text: buy}, {Text: price}, {Text: cost}, {Text: l.Over}}})
		}
		for _, s := range b.Bill.Stages {
			if s.Stage == st && !first {
				text := "Stage " + st
				t.Rows = append(t.Rows, draw.Row{Total: true, Cells: []draw.Cell{{}, {Text: text}, {}, {}, {}, {}, {Text: cost(s.Cost, s.Missing)}, {}}})
			}
		}
	}
	total := "In all, " + b.Bill.Currency
	t.Rows = append(t.Rows, draw.Row{Total: true, Cells: []draw.Cell{{}, {Text: total}, {}, {}, {}, {}, {Text: cost(b.Bill.Total, len(b.Bill.Asked))}, {}}})
	f.Table(t)
	said := "Needed counts what the steps take."
	if n := b.Practice.Spares; n > 0 {
		said = fmt.Sprintf("Needed counts what the steps take and %d %% of screws, pins and dowels to spare; edging 10 %% and 1 in a piece.", n)
	}
	if n := len(b.Bill.Stages); n > 1 {
		var names []string
		for _, s := range b.Bill.Stages {
			if s.Stage != "" {
				names = append(names, s.Stage)
			}
		}
		if len(names) > 1 {
			f.Para(fmt.Sprintf("The work is done in %d stages, in this order: %s. Each is sawn, built and set up before the next is bought, and is usable and safe alone; what one leaves over is on hand for the next. Boring and putting together go by parts: do those that the stage has sawn, and leave the others for theirs.", len(names), strings.Join(names, ", then ")))
		}
	}
	if t := b.intoTreated(); t != "" {
		said += " " + t
	}
	said += " Glue and finish are told by the area that they cover, coats counted; sandpaper and tape are an estimate."
	if list := shop.Scraps(b.Steps); len(list) > 0 {
		said += " From the scrap come " + and(list) + "."
	}
	f.Para(said)
	if len(b.Bill.Asked) > 0 {
		f.Para("Ask for the prices that are not known before buying; the sums are without them.")
	}
	if len(b.Bill.Hours) > 0 {
		var out []string
		for _, x := range b.Bill.Hours {
			out = append(out, fmt.Sprintf("%s %.0f to %.0f", x.Work, x.Least, x.Most))
		}
		f.Para("Hours, a range (common practice, no source): " + strings.Join(out, "; ") + ".")
	}
}

// intoTreated says which screws are of another make, as they go into treated wood; "" where there is none.
func (b *book) intoTreated() string {
	var codes []string
	for _, p := range b.Assembly.Parts {
		if b.Catalogue.Treated(p.Stock) && !slices.Contains(codes, p.Code()) {
			codes = append(codes, p.Code())
		}
	}
	if len(codes) == 0 {
		return ""
	}
	return fmt.Sprintf("Screws that go into the treated wood of %s are bought stainless or coated for it.", strings.Join(codes, ", "))
}

// cost prints a sum: from so much where prices are missing, and nothing known where all are.
func cost(a money.Amount, missing int) string {
	switch {
	case missing > 0 && a == 0:
		return "not known"
	case missing > 0:
		return "from " + a.Print()
	}
	return a.Print()
}

// step sets one step with a box to tick, its points, and its caution unless the step before had
// the same.
func (b *book) step(f *draw.Flow, s shop.Step, before string) {
	text := s.Text
	if s.Head != "" {
		text = s.Head + ": " + text
	}
	high := 0.0 // of a caution, which stays on the sheet of what it warns of
	if s.Caution != "" && s.Caution != before {
		high = min(3*draw.BodyLine, f.Measure(func(f *draw.Flow) { f.Strong(s.Caution, true) }))
	}
	with := func(told int) { // the last point is not alone on the next sheet, nor the caution
		switch rest := s.Points[told:]; len(rest) {
		case 0:
			f.With(high)
		case 1:
			f.With(high + min(3*draw.BodyLine, f.Measure(func(f *draw.Flow) { f.Point(rest[0]) })))
		}
	}
	with(0)
	f.Item("", fmt.Sprintf("%d. %s", s.N, text))
	for i, p := range s.Points {
		with(i + 1)
		f.Point(p)
	}
	if high > 0 {
		f.Strong(s.Caution, true)
	}
}

// phase gives the steps of a phase.
func (b *book) phase(p shop.Phase) []shop.Step {
	var out []shop.Step
	for _, s := range b.Steps {
		if s.Phase == p {
			out = append(out, s)
		}
	}
	return out
}

// setUp sets the steps at the wall.
func (b *book) setUp() {
	list := b.phase(shop.Install)
	if len(list) == 0 {
		return
	}
	f := b.chapter(0, "Setting up", "Setting up", "steps", 50)
	if len(b.Walls) > 0 {
		f.Para("Along is measured from the left end of the wall as seen from the room, up from the floor at that end (carry that height along with a level), out from the face of the wall. The sheets of the wall that are called fixing and levelling show the same places.")
	}
	before := ""
	for _, s := range list {
		b.step(f, s, before)
		before = s.Caution
	}
}

// groovesSaid says how a fence is set for a groove, where one is worked.
func groovesSaid(list []shop.Step) string {
	if slices.ContainsFunc(list, func(s shop.Step) bool {
		return strings.Contains(s.Text, "groove ") || strings.Contains(s.Text, "rabbet ")
	}) {
		return " The fence of a groove or a rabbet is told from an edge to the side of it that lies nearer to that, where a saw begins."
	}
	return ""
}

// boring sets the boring and grooving as a table: a line for every setting of a tool.
func (b *book) boring() {
	list := b.phase(shop.Bore)
	if len(list) == 0 {
		return
	}
	f := b.chapter(0, "Boring and grooving", "Boring", "boring", 52)
	f.Para("Set the tool, its stop, fence, collar and depth once and do all parts of a line; try every setting on scrap. The places stand on the drawings of the parts, to which the marks lead." + groovesSaid(list))
	f.Strong(list[0].Caution, true)
	t := draw.Table{Columns: []draw.Column{{Head: ""}, {Head: "Step", Align: draw.End}, {Head: "Tool", Most: 30}, {Head: "Work", Most: 96}, {Head: "Parts", Grow: true}}}
	for _, s := range list {
		t.Rows = append(t.Rows, draw.Row{Cells: []draw.Cell{{Tick: true}, {Text: fmt.Sprintf("%d.", s.N)}, {Text: s.Tool}, {Text: s.Text}, {Text: b.marks(s.Parts)}}})
	}
	f.Table(t)
}

// findings sets what was found, worst first; what holds stands with its case, and is only
// counted here.
func (b *book) findings() {
	f := b.chapter(0, "Findings", "Findings", "findings", 60)
	if len(b.Findings) == 0 {
		f.Para("Nothing was found against it.")
	}
	if b.Blocked {
		f.Strong(Warning+". Everything under “must be changed” has to be mended in the job first.", true)
	}
	last := ""
	holds, near := 0, 0
	seen := map[string]int{}
	type item struct {
		text, at string
		figures  []string
		more     []string
		apart    bool // what follows has figures of its own that are not told
	}
	var items []item
	flush := func() {
		for _, x := range items {
			t := x.text
			if n := len(x.more); n > 0 {
				rest := ""
				if n > 12 {
					x.more, rest = x.more[:12], fmt.Sprintf(" and %d more", n-12)
				}
				too := " So too: "
				if x.apart {
					too = " So too, each with figures of its own: "
				}
				t += too + strings.Join(x.more, "; ") + rest + "."
			}
			f.Item("–", t)
		}
		items = nil
	}
	for _, x := range b.Findings {
		if x.Verdict == finding.Holds {
			holds++
			continue
		}
		if x.Verdict == finding.Near && x.Capacity != 0 { // the proof has it
			near++
			continue
		}
		if x.Code == "price-missing" { // the shopping list has them
			continue
		}
		if w := severity(x); w != last {
			flush()
			f.Heading(2, w, "")
			last = w
		}
		// of one kind the worst is told in full, the others by their places and what differs there
		claim, figures := b.claim(x)
		k := last + string(x.Code) + x.Hint + claim
		if x.Capacity != 0 {
			k = last + string(x.Code)
		}
		if i, ok := seen[k]; ok && len(items) > i && x.Hint+fmt.Sprint(x.Capacity) != "0" {
			t := b.place(x.At)
			if x.Capacity != 0 {
				t += fmt.Sprintf(" (%.2f)", x.Ratio())
			} else if own := differ(items[i].figures, figures); len(own) == 1 && strings.Contains(own[0], " ") {
				t += ", " + own[0]
			} else if len(own) > 0 {
				items[i].apart = true
			}
			if x.At != items[i].at && !slices.Contains(items[i].more, t) {
				items[i].more = append(items[i].more, t)
			}
			continue
		}
		seen[k] = len(items)
		t := b.said(x)
		if x.Capacity != 0 {
			t += fmt.Sprintf(" Ratio %.2f.", x.Ratio())
		}
		hint := paperHint(x.Hint)
		if hint == "" && x.Hint != "" && x.Severity < finding.Note {
			hint = askFor
		}
		if hint != "" {
			t += " To do: " + strings.TrimSuffix(hint, ".") + "."
		}
		if x.Source != "" {
			t += fmt.Sprintf(" [%d]", b.source(x.Source))
		}
		items = append(items, item{text: t, at: x.At, figures: figures})
	}
	flush()
	var rest []string
	if near > 0 {
		rest = append(rest, plural(near, "check is", "checks are")+" near what it may be: see “Proof”.")
	}
	if holds > 0 {
		rest = append(rest, plural(holds, "check holds", "checks hold")+"; the worst of every kind stand under “Proof”.")
	}
	if len(rest) > 0 {
		f.Para(strings.Join(rest, " "))
	}
	if len(b.sources) > 0 {
		if b.runOn {
			var list []string
			for i, s := range b.sources {
				list = append(list, fmt.Sprintf("[%d] %s", i+1, s))
			}
			f.Block(0, func(s *draw.Sheet, r draw.Rect) { s.Anchor("sources", draw.Pt(r.X, r.Y)) })
			f.Para("Sources: " + strings.Join(list, "; ") + ".")
			return
		}
		f.Heading(2, "Sources", "sources")
		items := func(from, to int) func(*draw.Flow) {
			return func(f *draw.Flow) {
				for i, s := range b.sources[from:to] {
					f.Item(fmt.Sprint(from+i+1), s)
				}
			}
		}
		// in two columns, on this sheet as many as it has room for
		for from := 0; from < len(b.sources); {
			two := func(to int) func(*draw.Flow) {
				return func(f *draw.Flow) { halves(f, from, to, items) }
			}
			to := len(b.sources)
			for to > from && f.Measure(two(to)) > f.Left() {
				to--
			}
			if to > from {
				two(to)(f)
				from = to
			} else if f.Top() { // one that is higher than a sheet
				items(from, from+1)(f)
				from++
			}
			if from < len(b.sources) {
				f.Break()
				f.Height()
			}
		}
	}
}

// figure is a number as it stands in a finding, with its unit.
var figure = regexp.MustCompile(`\d[\d.]*(?: \d+/\d+|/\d+)?(?: (?:mm|in|kg|lb)\b)?`)

// claim gives what a finding says but for whose it is and its figures, and these: what two of a kind must have alike to be
// told as one. What is not known is not known of either.
func (b *book) claim(x finding.Finding) (text string, figures []string) {
	if x.Verdict == finding.NotKnown || x.Capacity != 0 {
		return "", nil
	}
	text = strings.ToLower(x.Text)
	o, _ := b.of(x.At)
	names := []string{o.Name, o.ID}
	for _, w := range strings.Split(x.At, "/") {
		if board, ok := b.Catalogue.Board(w); ok {
			names = append(names, board.Name)
		}
	}
	for _, n := range names {
		if n != "" {
			text = regexp.MustCompile(`\b`+regexp.QuoteMeta(strings.ToLower(n))+`\b`).ReplaceAllString(text, "*")
		}
	}
	figures = figure.FindAllString(text, -1)
	return figure.ReplaceAllString(text, "#"), figures
}

// differ gives the figures of the second list that are not those of the first.
func differ(a, b []string) (own []string) {
	for i, t := range b {
		if i >= len(a) || a[i] != t {
			own = append(own, t)
		}
	}
	return own
}

// halves sets items in two columns that are as high, or the first higher by less than one of them.
func halves(f *draw.Flow, from, to int, items func(from, to int) func(*draw.Flow)) {
	const gap = 8.0
	wide, half := (f.Width()-gap)/2, from
	for half < to && f.MeasureIn(wide, items(from, half)) < f.MeasureIn(wide, items(half, to)) {
		half++
	}
	f.Columns(gap, items(from, half), items(half, to))
}

// cautions sets every caution of the steps once, in a chapter of its own.
func (b *book) cautions() {
	text := b.cautionsText()
	f := b.chapter(0, "Cautions", "Cautions", "cautions", min(20+b.flow.Measure(text), b.flow.Height()))
	text(f)
	b.wordsText(f)
}

// cautionsText sets every caution of the steps once, in two columns.
func (b *book) cautionsText() func(*draw.Flow) {
	var list []string
	for _, s := range b.Steps {
		for _, c := range strings.SplitAfter(s.Caution, ". ") {
			c = strings.TrimSpace(c)
			if strings.HasPrefix(c, "Too heavy") { // the steps say by how much
				c = "What is too heavy for one person is lifted by as many as its step says, after what comes out is taken out."
			}
			if c != "" && !slices.Contains(list, c) {
				list = append(list, c)
			}
		}
	}
	items := func(list []string) func(*draw.Flow) {
		return func(f *draw.Flow) {
			for _, c := range list {
				f.Item("–", c)
			}
		}
	}
	return func(f *draw.Flow) {
		f.Para("These plans are guidance from published methods and common practice. They defer to local codes and to licensed practice. What could not be checked is listed under the findings as not known.")
		halves(f, 0, len(list), func(from, to int) func(*draw.Flow) { return items(list[from:to]) })
	}
}

// wordsText sets the words of the trade.
func (b *book) wordsText(f *draw.Flow) {
	if w := b.words(); w != "" {
		f.Para(w)
	}
}

// of gives what is built there that a finding is about, and the rest of its place; none for walls, goods and the job.
func (b *book) of(at string) (part.Owner, string) {
	kind, rest, _ := strings.Cut(at, "/")
	id, bay, _ := strings.Cut(rest, "/")
	for _, o := range b.Assembly.Owners {
		if o.ID == id && o.Kind == kind {
			return o, bay
		}
	}
	return part.Owner{}, ""
}

// said gives the text of a finding as a sentence, with what it is about where its words do not name that.
func (b *book) said(x finding.Finding) string {
	text := strings.ToUpper(x.Text[:1]) + strings.TrimSuffix(x.Text[1:], ".") + "."
	o, _ := b.of(x.At)
	low := strings.ToLower(x.Text)
	switch {
	case o.ID == "", len(x.Also) > 0, strings.Contains(low, strings.ToLower(o.ID)), o.Name != "" && strings.Contains(low, strings.ToLower(o.Name)), strings.Contains(x.Text, view.Code(&b.Assembly, o.ID)+"."):
		return text
	}
	named := b.lettered(o)
	return strings.ToUpper(named[:1]) + named[1:] + ": " + strings.TrimSuffix(x.Text, ".") + "."
}

// lettered names what is built with the letter that its marks begin with, as the steps do: "paints, locked (H)".
func (b *book) lettered(o part.Owner) string {
	return cmp.Or(o.Name, o.ID) + " (" + view.Code(&b.Assembly, o.ID) + ")"
}
