package packet

import (
	"fmt"
	"strings"

	"stowright/internal/draw"
	"stowright/internal/finding"
	"stowright/internal/money"
	"stowright/internal/shop"
	"stowright/internal/view"
)

// shopping sets what is bought, stage by stage where there are stages.
func (b *book) shopping() {
	if len(b.Bill.Lines) == 0 {
		return
	}
	f := b.chapter(0, "Shopping list", "Shopping", "shopping", 90)
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
			price, cost := "not known", "not known"
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
				buy = fmt.Sprintf("%d × %s", l.Buy, l.Unit)
			}
			hand := ""
			if l.OnHand > 0 {
				hand = fmt.Sprint(l.OnHand)
			}
			t.Rows = append(t.Rows, draw.Row{Cells: []draw.Cell{{Tick: true}, {Text: l.Name}, {Text: l.Need}, {Text: hand}, {Text: buy}, {Text: price}, {Text: cost}, {Text: l.Over}}})
		}
		for _, s := range b.Bill.Stages {
			if s.Stage == st && !first {
				text := "Stage " + st
				if s.Missing > 0 {
					text += fmt.Sprintf(", without %s of unknown price", plural(s.Missing, "thing", "things"))
				}
				t.Rows = append(t.Rows, draw.Row{Total: true, Cells: []draw.Cell{{}, {Text: text}, {}, {}, {}, {}, {Text: cost(s.Cost, s.Missing)}, {}}})
			}
		}
	}
	total := "In all, " + b.Bill.Currency
	if n := len(b.Bill.Missing); n > 0 {
		total += fmt.Sprintf(", without %s of unknown price", plural(n, "thing", "things"))
	}
	t.Rows = append(t.Rows, draw.Row{Total: true, Cells: []draw.Cell{{}, {Text: total}, {}, {}, {}, {}, {Text: cost(b.Bill.Total, len(b.Bill.Missing))}, {}}})
	f.Table(t)
	said := "Needed counts what the steps take."
	if n := b.Practice.Spares; n > 0 {
		said = fmt.Sprintf("Needed counts what the steps take and %d %% of screws, pins and dowels to spare; edging 10 %% and 1 in a piece.", n)
	}
	f.Para(said + " Glue and finish are told by the area that they cover, coats counted.")
	if len(b.Bill.Missing) > 0 {
		f.Para("Prices not known: " + strings.Join(b.unpriced(), "; ") + ". Ask for them before buying; give them in the job, and the sum follows.")
	}
	if len(b.Bill.Hours) > 0 {
		f.Heading(3, "Hours, a range (common practice, no source)", "")
		h := draw.Table{Columns: []draw.Column{{Head: "Work"}, {Head: "From", Align: draw.End}, {Head: "To", Align: draw.End}}}
		for _, x := range b.Bill.Hours {
			h.Rows = append(h.Rows, draw.Texts(x.Work, fmt.Sprintf("%.0f", x.Least), fmt.Sprintf("%.0f", x.Most)))
		}
		f.Table(h)
	}
}

// unpriced names what is bought without a price being known.
func (b *book) unpriced() []string {
	var out []string
	for _, id := range b.Bill.Missing {
		name := id
		for _, l := range b.Bill.Lines {
			if l.Item == id {
				name = l.Name
				break
			}
		}
		out = append(out, name)
	}
	return out
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

// installing sets two maps for every wall: where what is screwed and how high what stands.
func (b *book) installing() {
	first := true
	for i := range b.Walls {
		w := &b.Walls[i]
		c := b.scene(w)
		for _, x := range []struct {
			name, kind string
			fig        *view.Figure
		}{{"fixing", "Fixing", c.Fixing()}, {"levelling", "Levelling", c.Levels()}} {
			if x.fig == nil {
				continue
			}
			title := "Wall " + w.ID + ": " + x.name
			s, r, block := b.drawing(title, x.kind, true)
			scale, _ := view.Set(s, r, b.units(), largest, []view.Figure{*x.fig})
			block.Scale = scale.String()
			if first {
				b.enter(0, "Fixing and levelling", "installing", true)
				first = false
			}
			b.enter(1, title, x.name+" "+w.ID, true)
		}
	}
}

// linkTo gives the anchor of a mark, "" when it is none of a part.
func (b *book) linkTo(mark string) string {
	if _, ok := b.part[mark]; ok {
		return b.toPart(mark)
	}
	return ""
}

// step sets one step with a box to tick, its points, and its caution unless the step before had
// the same.
func (b *book) step(f *draw.Flow, s shop.Step, before string) {
	text := s.Text
	if s.Head != "" {
		text = s.Head + ": " + text
	}
	f.Item("", fmt.Sprintf("%d. %s", s.N, text))
	for _, p := range s.Points {
		f.Point(p)
	}
	if s.Caution != "" && s.Caution != before {
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
	f := b.chapter(0, "Setting up", "Setting up", "steps", 60)
	if len(b.Walls) > 0 {
		f.Para("Along is measured from the left end of the wall as seen from the room, up from the floor at that end (carry that height along with a level), out from the face of the wall. The sheets before this one show the same places.")
	}
	before := ""
	for _, s := range list {
		b.step(f, s, before)
		before = s.Caution
	}
}

// boring sets the boring and grooving as a table: a line for every setting of a tool.
func (b *book) boring() {
	list := b.phase(shop.Bore)
	if len(list) == 0 {
		return
	}
	f := b.chapter(0, "Boring and grooving", "Boring", "boring", 60)
	f.Para("Set the tool once and do all parts of a line; try every setting on scrap. The places stand on the drawings of the parts, to which the marks lead.")
	f.Strong(list[0].Caution, true)
	work := 62.0
	if len(b.Assembly.Parts) > 60 { // then the parts take more room than the work
		work = 50
	}
	t := draw.Table{Columns: []draw.Column{{Head: ""}, {Head: "Step", Align: draw.End}, {Head: "Tool", Most: 24}, {Head: "Work", Most: work}, {Head: "Parts", Grow: true}}}
	for _, s := range list {
		t.Rows = append(t.Rows, draw.Row{Cells: []draw.Cell{{Tick: true}, {Text: fmt.Sprintf("%d.", s.N)}, {Text: s.Tool}, {Text: s.Text}, {Text: b.marks(s.Parts)}}})
	}
	f.Table(t)
}

// marks prints marks in order; those of one owner under its code once: "C: 6side1, 6side2".
func (b *book) marks(list []string) string {
	var out []string
	last := ""
	for _, m := range list {
		code, rest, ok := strings.Cut(m, ".")
		if !ok {
			out = append(out, m)
			last = ""
			continue
		}
		if code == last {
			out[len(out)-1] += ", " + rest
			continue
		}
		last = code
		out = append(out, m)
	}
	return strings.Join(out, "; ")
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
	holds := 0
	seen := map[string]int{}
	type item struct {
		text string
		more []string
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
				t += " So too, less far: " + strings.Join(x.more, ", ") + rest + "."
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
		if w := severity(x); w != last {
			flush()
			f.Heading(2, w, "")
			last = w
		}
		// of one kind the worst is told in full, the others by their places
		k := last + string(x.Code) + x.Hint
		if x.Capacity != 0 {
			k = last + string(x.Code)
		}
		if i, ok := seen[k]; ok && len(items) > i && x.Hint+fmt.Sprint(x.Capacity) != "0" {
			t := place(x.At)
			if x.Capacity != 0 {
				t += fmt.Sprintf(" (%.2f)", x.Ratio())
			}
			items[i].more = append(items[i].more, t)
			continue
		}
		seen[k] = len(items)
		t := x.Text
		if x.Capacity != 0 {
			t += fmt.Sprintf(" Ratio %.2f.", x.Ratio())
		}
		if x.Hint != "" {
			t += " To do: " + strings.TrimSuffix(x.Hint, ".") + "."
		}
		t += " (" + string(x.Code)
		if x.Source != "" {
			t += fmt.Sprintf(", source [%d]", b.source(x.Source))
		}
		items = append(items, item{text: t + ")"})
	}
	flush()
	if holds > 0 {
		f.Para(plural(holds, "check holds", "checks hold") + "; the worst of every kind stand in the chapters of their cases, all of them in plan.json.")
	}
	if len(b.sources) > 0 {
		f.Heading(2, "Sources", "sources")
		for i, s := range b.sources {
			f.Item(fmt.Sprint(i+1), s)
		}
	}
}

// cautions sets every caution of the steps once.
func (b *book) cautions() {
	text := func(f *draw.Flow) {
		f.Para("These plans are guidance from published methods and common practice. They defer to local codes and to licensed practice. What could not be checked is listed under the findings as not known.")
		told := map[string]bool{}
		for _, s := range b.Steps {
			for _, c := range strings.SplitAfter(s.Caution, ". ") {
				c = strings.TrimSpace(c)
				if strings.HasPrefix(c, "Too heavy") { // the steps say by how much
					c = "What is too heavy for one person is lifted by as many as its step says, after what comes out is taken out."
				}
				if c != "" && !told[c] {
					told[c] = true
					f.Item("–", c)
				}
			}
		}
	}
	// on one sheet where they have room, so that the last has more than a few lines
	text(b.chapter(0, "Cautions", "Cautions", "cautions", min(20+b.flow.Measure(text), b.flow.Height())))
}

// place gives the last words of where a finding is: a mark, a bay, a case.
func place(at string) string {
	if i := strings.LastIndexByte(at, '/'); i >= 0 {
		last := at[i+1:]
		if strings.Contains(last, ".") {
			return last
		}
		if j := strings.IndexByte(at, '/'); j < i {
			return at[j+1:]
		}
		return last
	}
	return at
}
