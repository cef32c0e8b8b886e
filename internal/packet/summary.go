package packet

import (
	"fmt"
	"slices"
	"strings"

	"stowright/internal/bill"
	"stowright/internal/draw"
	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/mass"
	"stowright/internal/part"
	"stowright/internal/view"
)

// built gives the owners that are made by this job.
func (b *book) built() []part.Owner {
	var out []part.Owner
	for _, o := range b.Assembly.Owners {
		if !o.Standing {
			out = append(out, o)
		}
	}
	return out
}

// summary writes the first sheet: all that somebody wants to know before turning it. The
// picture takes what the text leaves of one sheet.
func (b *book) summary() []page {
	b.title, b.kind = "Summary", "Summary"
	set := ""
	if len(b.pages) <= few {
		set = b.inThisSet()
	}
	for share := 0.34; ; share -= 0.03 {
		made := b.front(func() { b.onePage(share, set) })
		if len(made) == 1 || share < 0.12 {
			return made
		}
	}
}

func (b *book) onePage(share float64, set string) {
	f := b.flow
	f.Heading(1, b.Job, "summary")
	if b.Blocked {
		f.Strong(Warning+". What must be changed first stands under the findings.", true)
	}
	f.Block(b.Paper.H*share, func(s *draw.Sheet, r draw.Rect) { b.pictures(s, r) })
	f.Space(2)
	t := draw.Table{Columns: []draw.Column{{Head: ""}, {Head: "", Grow: true}}}
	row := func(name, text string) {
		if text != "" {
			t.Rows = append(t.Rows, draw.Row{Cells: []draw.Cell{{Text: name, Bold: true}, {Text: text}}})
		}
	}
	row("What it is", b.whatItIs())
	row("Stores", b.stores())
	row("Size", b.overall())
	row("Sheet goods", b.sheetsLine())
	row("Cost", b.costLine())
	row("Weight", b.weightLine())
	row("Time", b.hoursLine())
	row("Tools", b.tools())
	row("In this set", set)
	f.Table(t)
	f.Heading(3, "Worst first", "")
	if len(b.Findings) == 0 {
		f.Para("Nothing was found against it.")
	}
	told, kinds := 0, map[finding.Code]bool{}
	for _, x := range b.Findings {
		if told == 3 {
			break
		}
		if !kinds[x.Code] { // of every kind the worst
			kinds[x.Code] = true
			told++
			f.Item("–", fmt.Sprintf("%s: %s", severity(x), short(x.Text, 170)))
		}
	}
	if n := len(b.Findings) - told; n > 0 {
		f.Para(fmt.Sprintf("%d more under the findings.", n))
	}
	f.Heading(3, "How to read it", "")
	f.Para("Every part has a mark, to be written on it at the saw: A.left is the left side of case A. Sizes are along the grain × across it × thickness. The filled corner of a drawing is its datum: hook the tape there. A mirror image has it at the same end and edge, and is worked on its own inside. Where a drawing is for boards that lie in several ways, start end and near edge are those at the filled corner. A figure that rounding moved has its exact size behind it.")
	f.Block(14, func(s *draw.Sheet, r draw.Rect) { s.CheckBar(draw.Pt(r.X, r.Y+1)) })
}

// short cuts a sentence that a summary has no room for at a word, with a mark.
func short(text string, most int) string {
	if len(text) <= most {
		return text
	}
	cut := strings.LastIndex(text[:most], " ")
	return strings.TrimRight(text[:max(cut, 1)], " ,;:") + " …"
}

// inThisSet lists the chapters of a short set with their sheets.
func (b *book) inThisSet() string {
	var out []string
	for _, e := range b.entries {
		if e.level == 0 {
			out = append(out, fmt.Sprintf("%s %d", e.title, e.page+2))
		}
	}
	return strings.Join(out, "; ")
}

func severity(x finding.Finding) string {
	w := map[finding.Severity]string{finding.Error: "Must be changed", finding.Warning: "Wise to change", finding.Note: "Note"}[x.Severity]
	if x.Verdict == finding.NotKnown {
		w += ", not known"
	}
	return w
}

// pictures draws every wall, and what stands at none, side by side.
func (b *book) pictures(s *draw.Sheet, r draw.Rect) {
	type picture struct {
		parts    []view.Part
		standing []view.Box
		wide     float64
	}
	var list []picture
	add := func(c view.Scene) {
		parts, standing := c.Parts()
		var e view.Box
		for _, p := range parts {
			e = e.Or(p.Box())
		}
		for _, x := range standing {
			e = e.Or(x)
		}
		if len(parts) > 0 {
			z := e.Size()
			list = append(list, picture{parts, standing, float64(z.X+z.Y/2) / float64(z.Z+z.Y/2)})
		}
	}
	for i := range b.Walls {
		add(b.scene(&b.Walls[i]))
	}
	if len(b.Walls) == 0 {
		add(b.scene(nil))
	}
	sum := 0.0
	for _, p := range list {
		sum += p.wide
	}
	x := r.X
	for _, p := range list {
		w := (r.W - 6*float64(len(list)-1)) * p.wide / sum
		view.Pictorial(s, draw.Rect{X: x, Y: r.Y, W: w, H: r.H}, p.parts, p.standing, false)
		x += w + 6
	}
}

func (b *book) whatItIs() string {
	n := map[string]int{}
	var order []string
	drawers, doors := 0, 0
	for _, o := range b.built() {
		k := o.Kind
		if k == "case" && o.Hung {
			k = "wall case"
		} else if k == "case" {
			k = "floor case"
		}
		if n[k] == 0 {
			order = append(order, k)
		}
		n[k]++
	}
	for _, f := range b.Assembly.Fronts {
		switch f.Kind {
		case part.Drawer:
			drawers++
		case part.DoorFront:
			doors++
		}
	}
	many := map[string]string{"hutch": "hutches"}
	var out []string
	for _, k := range order {
		m := many[k]
		if m == "" {
			m = k + "s"
		}
		out = append(out, plural(n[k], k, m))
	}
	if drawers > 0 {
		out = append(out, plural(drawers, "drawer or tray front", "drawer and tray fronts"))
	}
	if doors > 0 {
		out = append(out, plural(doors, "door", "doors"))
	}
	out = append(out, plural(len(b.Assembly.Parts), "part", "parts"))
	return strings.Join(out, ", ")
}

func (b *book) stores() string {
	if len(b.Goods) == 0 {
		return ""
	}
	var out []string
	for i, g := range b.Goods {
		if i == 10 {
			out = append(out, fmt.Sprintf("and %d more kinds", len(b.Goods)-10))
			break
		}
		out = append(out, fmt.Sprintf("%d %s", g.Count, g.Name))
	}
	return strings.Join(out, ", ")
}

func (b *book) overall() string {
	var out []string
	size := func(name string, boxes []view.Box) {
		var e geom.Box
		for _, x := range boxes {
			e = e.Or(x)
		}
		if e.Empty() {
			return
		}
		z := e.Size()
		t := fmt.Sprintf("%s wide, %s high, %s deep", b.in(z.X), b.in(z.Z), b.in(z.Y))
		if name != "" {
			t = "wall " + name + ": " + t
		}
		out = append(out, t)
	}
	walls := []string{""}
	if len(b.Walls) > 0 {
		walls = nil
		for _, w := range b.Walls {
			walls = append(walls, w.ID)
		}
	}
	for _, w := range walls {
		var boxes []view.Box
		for _, o := range b.built() {
			if w == "" || o.Wall == w {
				boxes = append(boxes, o.Box)
			}
		}
		size(w, boxes)
	}
	return strings.Join(out, "; ")
}

func (b *book) sheetsLine() string {
	// A board has a line for each stage, and one for what is on hand; the bound is for all of them.
	var boards []bill.Line
	for _, l := range b.Bill.Lines {
		if l.Kind != "sheet" {
			continue
		}
		i := slices.IndexFunc(boards, func(o bill.Line) bool { return o.Item == l.Item })
		if i < 0 {
			boards = append(boards, l)
			continue
		}
		boards[i].Buy, boards[i].OnHand, boards[i].Least = boards[i].Buy+l.Buy, boards[i].OnHand+l.OnHand, max(boards[i].Least, l.Least)
	}
	var out []string
	for _, l := range boards {
		n := l.Buy + l.OnHand
		t := fmt.Sprintf("%s of %s", plural(n, "sheet", "sheets"), l.Name)
		if l.OnHand > 0 {
			t += fmt.Sprintf(" (%d on hand)", l.OnHand)
		}
		switch {
		case l.Least > 0 && l.OnHand > 0:
			t += fmt.Sprintf("; no plan can buy fewer than %d", l.Least)
		case l.Least > 0:
			t += fmt.Sprintf("; no plan can use fewer than %d", l.Least)
		}
		out = append(out, t)
	}
	return strings.Join(out, ". ")
}

func (b *book) money(a fmt.Stringer) string { return a.String() }

func (b *book) costLine() string {
	t := b.Bill.Total.Print()
	if b.Bill.Currency != "" {
		t = b.Bill.Currency + " " + t
	}
	if n := len(b.Bill.Missing); n > 0 {
		if b.Bill.Total == 0 {
			t = "not known"
		}
		names := b.Bill.Missing
		more := ""
		if n > 4 {
			names, more = names[:4], fmt.Sprintf(" and %d more", n-4)
		}
		t += fmt.Sprintf(", without %s whose price is missing: %s%s", plural(n, "thing", "things"), strings.Join(names, ", "), more)
	}
	return t
}

func (b *book) mass(m mass.Mass) string { return m.Print(b.Print == length.Millimetres) }

func (b *book) weightLine() string {
	var sum mass.Mass
	whole := true
	heavy, most := "", mass.Mass(0)
	for _, w := range b.Bill.Weights {
		sum += w.Mass
		whole = whole && w.Whole
		if w.Mass > most {
			heavy, most = w.Owner, w.Mass
		}
	}
	if sum == 0 {
		return "not known"
	}
	t := b.mass(sum) + " empty"
	if !whole {
		t = "at least " + t + " (the weight of some parts is not known)"
	}
	if len(b.Bill.Weights) > 1 {
		t += fmt.Sprintf("; the heaviest is %s, %s", b.name(heavy), b.mass(most))
	}
	return t
}

func (b *book) hoursLine() string {
	lo, hi := 0.0, 0.0
	for _, h := range b.Bill.Hours {
		lo += h.Least
		hi += h.Most
	}
	if hi == 0 {
		return ""
	}
	return fmt.Sprintf("%.0f to %.0f hours (common practice, no source)", lo, hi)
}

func (b *book) tools() string {
	var out []string
	add := func(t string) {
		for _, x := range strings.Split(t, ", ") {
			if x != "" && x != "hand" && !slices.Contains(out, x) {
				out = append(out, x)
			}
		}
	}
	for _, t := range b.Practice.Tools {
		name := t.Name
		if name == "" {
			name = t.Kind
		}
		add(name)
	}
	for _, p := range b.Assembly.Parts {
		for _, o := range p.Ops {
			add(o.Tool)
		}
	}
	for _, s := range b.Steps {
		add(s.Tool)
	}
	return strings.Join(out, ", ")
}

// name gives an owner's code and name.
func (b *book) name(id string) string {
	for _, o := range b.Assembly.Owners {
		if o.ID == id {
			n := o.Name
			if n == "" {
				n = id
			}
			return view.Code(&b.Assembly, id) + ", " + n
		}
	}
	return id
}
