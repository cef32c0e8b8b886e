package packet

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"

	"stowright/internal/bill"
	"stowright/internal/cutlist"
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
	defer func(title, kind string) { b.title, b.kind = title, kind }(b.title, b.kind)
	b.title, b.kind = "Summary", "Summary"
	set := ""
	if len(b.pages) <= few {
		set = b.inThisSet()
	}
	pictures, lines := b.portraits(), b.summaryLines(set)
	const most, step = 0.46, 0.01
	var made []page
	// letters of each of the worst, which give way before the picture is too small, and how many steps it is made smaller
	for _, x := range [][2]int{{150, 28}, {92, 32}, {64, 36}, {0, 38}} {
		told, steps := x[0], x[1]
		large := 0.0
		for _, beside := range []bool{false, true} {
			try := func(less int, drawn []view.Portrait) []page {
				return b.front(func() { b.onePage(most-step*float64(less), beside, told, lines, drawn) })
			}
			less := sort.Search(steps, func(k int) bool { return len(try(k, nil)) == 1 }) // what is drawn takes no room of its own
			if _, high := rowsOf(pictures, b.pictureIn(most-step*float64(less), beside)); high > large*1.05 {
				if set := try(less, pictures); len(set) == 1 {
					made, large = set, high
				}
			}
		}
		if made != nil {
			return made
		}
	}
	return b.front(func() { b.onePage(most-step*38, false, 0, lines, pictures) })
}

// factsWide is the width of the facts where they stand beside the picture, in mm.
const factsWide = 56

// pictureIn gives the room of the picture: as wide as the sheet, or beside the facts.
func (b *book) pictureIn(share float64, beside bool) draw.Rect {
	r := draw.Rect{W: b.flow.Width(), H: b.Paper.H * share}
	if beside {
		r.W -= factsWide + 4
	}
	return r.Inset(1)
}

// summaryLines gives what the summary says below its facts, save the findings: a name and a text each.
func (b *book) summaryLines(set string) [][2]string {
	size := ""
	if len(b.Walls) > 1 {
		size = b.overall()
	}
	return [][2]string{{"Stores", b.stores()}, {"Size", size}, {"Stages", b.stagesLine()}, {"Wishes", strings.Join(b.Wishes, " ")},
		{"Sheet goods", b.sheetsLine()}, {"Tools", b.tools()}, {"In this set", set}}
}

func (b *book) onePage(share float64, beside bool, told int, lines [][2]string, pictures []view.Portrait) {
	f := b.flow
	f.Title(b.Job, b.whatItIs(), "summary")
	if b.Blocked {
		f.Strong(Warning+". What must be changed first stands under the findings.", true)
	}
	picture := func(s *draw.Sheet, r draw.Rect) { b.pictures(s, r.Inset(1), pictures) }
	if beside {
		f.Beside(f.Width()-factsWide-4, b.Paper.H*share, 4, picture, func(f *draw.Flow) { f.FactList(b.facts()) })
		f.Space(3)
	} else {
		f.Block(b.Paper.H*share, picture)
		f.Space(2)
		f.Facts(b.facts())
	}
	t := draw.Table{Columns: []draw.Column{{Head: ""}, {Head: "", Grow: true}}}
	row := func(name, text string) {
		if text != "" {
			t.Rows = append(t.Rows, draw.Row{Cells: []draw.Cell{{Text: name, Bold: true}, {Text: text}}})
		}
	}
	for _, l := range lines {
		row(l[0], l[1])
	}
	for i, text := range b.worst(told) {
		row(map[bool]string{true: "Worst first"}[i == 0], text)
	}
	f.Table(t)
	f.Heading(3, "How to read it", "")
	b.balanced(readIt)
	f.Block(11, func(s *draw.Sheet, r draw.Rect) { s.CheckBar(draw.Pt(r.X, r.Y+2)) })
}

// readIt is what somebody who never saw such a set must know to read it.
var readIt = []string{
	"Every part has a mark, to be written on it at the saw: A.left is the left side of case A; A.block1–4 stands for A.block1, block2, block3 and block4.",
	"Sizes are along the grain × across it × thickness; where a list says either way, the grain may run along the one or the other.",
	"The filled corner of a drawing, or the filled triangle just outside it, is its datum: hook the tape there. The long arrow is the grain, a thick bar beside an edge is edging, and a letter leads to the work in the list below.",
	"A mirror image has its datum at the same end and edge unless its drawing names another, and is worked on its own inside.",
	"A figure of a drawing that rounding moved has its exact size behind it: cut to that.",
	"A hole is told by its middle, a groove, a rabbet or a notch by its side nearest the datum; of two rows of figures every one along goes with every one across.",
	"Heights at the wall are from the floor at its left end.",
}

// balanced sets points in two columns that end as near one height as may be.
func (b *book) balanced(points []string) {
	const gap = 8
	column := func(list []string) func(*draw.Flow) {
		return func(f *draw.Flow) {
			for _, p := range list {
				f.Item("–", p)
			}
		}
	}
	wide := (b.flow.Width() - gap) / 2
	best, least := 0, math.Inf(1)
	for k := range points {
		if h := max(b.flow.MeasureIn(wide, column(points[:k+1])), b.flow.MeasureIn(wide, column(points[k+1:]))); h < least {
			best, least = k+1, h
		}
	}
	b.flow.Columns(gap, column(points[:best]), column(points[best:]))
}

// worst tells the worst finding of each of the three worst kinds, in so many letters, and how many more there are; only how many
// when there is no room for any.
func (b *book) worst(most int) []string {
	var told []string
	kinds := map[finding.Code]bool{}
	rest := 0
	for _, x := range b.Findings {
		if x.Verdict == finding.Holds {
			continue
		}
		rest++
		if most > 0 && len(told) < 3 && !kinds[x.Code] {
			kinds[x.Code] = true
			told = append(told, b.Say.Of(severity(x)+": ")+short(b.Say.Of(x.Text), most))
		}
	}
	if rest == 0 {
		return []string{"Nothing was found against it."}
	}
	if n := rest - len(told); n > 0 {
		more := plural(n, "more", "more")
		if most == 0 {
			more = plural(n, "finding stands", "findings stand")
		}
		told = append(told, fmt.Sprintf("%s under the findings, those of one kind together.", more))
	}
	return told
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

// portraits gives a picture of every wall, and of what stands at none.
func (b *book) portraits() []view.Portrait {
	var out []view.Portrait
	add := func(w *view.Wall) {
		if p, ok := b.scene(w).Portrait(); ok {
			out = append(out, p)
		}
	}
	for i := range b.Walls {
		add(&b.Walls[i])
	}
	if len(b.Walls) == 0 {
		add(nil)
	}
	return out
}

// between is the room between pictures, in mm.
const between = 5.0

// rowsOf gives the rows that show pictures largest in a rectangle, and how high each is then.
func rowsOf(list []view.Portrait, r draw.Rect) (best [][]view.Portrait, most float64) {
	for n := 1; n <= len(list); n++ { // pictures to a row
		var rows [][]view.Portrait
		for k := 0; k < len(list); k += n {
			rows = append(rows, list[k:min(k+n, len(list))])
		}
		high := (r.H - between*float64(len(rows)-1)) / float64(len(rows))
		least := 1e9
		for _, row := range rows {
			wide := 0.0
			for _, p := range row {
				wide += p.Shape()
			}
			least = min(least, high, (r.W-between*float64(len(row)-1))/wide)
		}
		if least > most+0.5 {
			best, most = rows, least
		}
	}
	return best, most
}

// pictures sets pictures in as many rows as make them largest.
func (b *book) pictures(s *draw.Sheet, r draw.Rect, list []view.Portrait) {
	const gap = between
	best, most := rowsOf(list, r)
	if len(best) == 0 {
		return
	}
	high := (r.H - gap*float64(len(best)-1)) / float64(len(best))
	for i, row := range best {
		wide := -gap
		for _, p := range row {
			wide += p.Shape()*most + gap
		}
		x := r.X + (r.W-wide)/2
		for _, p := range row {
			w := p.Shape() * most
			p.Draw(s, draw.Rect{X: x, Y: r.Y + float64(i)*(high+gap), W: w, H: high}, b.toOwner)
			x += w + gap
		}
	}
}

// facts gives what somebody asks first, short.
func (b *book) facts() []draw.Fact {
	var out []draw.Fact
	add := func(name, value, more string) {
		if value != "" {
			out = append(out, draw.Fact{Name: name, Value: value, More: more})
		}
	}
	var e geom.Box
	walls := map[string]bool{}
	for _, o := range b.built() {
		e = e.Or(o.Box)
		walls[o.Wall] = true
	}
	for _, f := range b.Assembly.Feet { // a case's box ends where the floor is highest under it
		if f.Kind == "foot" && !e.Empty() {
			e.Min.Z = min(e.Min.Z, f.At.Z-f.Height)
		}
	}
	if z := e.Size(); len(walls) == 1 && !e.Empty() {
		more := "as it stands, doors shut"
		if b.Both {
			o := func(l L) string { return b.units().Other(l) }
			more = fmt.Sprintf("%s × %s × %s", o(z.X), o(z.Z), o(z.Y))
		}
		if e.Min.Z < 0 {
			more += fmt.Sprintf("; from its lowest foot, %s under where heights at the wall begin", b.num(-e.Min.Z))
		}
		add("Wide × high × deep, "+b.Print.String(), fmt.Sprintf("%s × %s × %s", b.num(z.X), b.num(z.Z), b.num(z.Y)), more)
	} else {
		add("Walls", fmt.Sprint(len(walls)), "sizes below")
	}
	sheets, hand := 0, 0
	for _, l := range b.Bill.Lines {
		if l.Kind == "sheet" {
			sheets += l.Buy + l.OnHand
			hand += l.OnHand
		}
	}
	if sheets > 0 {
		more := "to buy"
		if hand > 0 {
			more = fmt.Sprintf("%d of them on hand", hand)
		}
		add("Sheets", fmt.Sprint(sheets), more)
	}
	cost, more := b.Bill.Total.Print(), b.Bill.Currency
	if n := len(b.Bill.Asked); n > 0 {
		more += fmt.Sprintf(", %s missing", plural(n, "price", "prices"))
		if b.Bill.Total == 0 {
			cost, more = "not known", plural(n, "price", "prices")+" missing"
		}
	}
	add("Cost", cost, strings.TrimPrefix(more, ", "))
	lo, hi := 0.0, 0.0
	for _, h := range b.Bill.Hours {
		lo += math.RoundToEven(h.Least) // as the lines of the shopping list are printed
		hi += math.RoundToEven(h.Most)
	}
	if hi > 0 {
		const day = 8.0
		add("Time", span(lo, hi, "hour"), span(math.Ceil(lo/day), math.Ceil(hi/day), "day")+" of 8 (common practice)")
	}
	weight, rest, _ := strings.Cut(b.weightLine(), "; ")
	weight, part, _ := strings.Cut(weight, " (")
	if part != "" {
		rest = "of some parts not known"
	}
	add("Weight, empty", strings.TrimSuffix(weight, " empty"), strings.TrimPrefix(rest, "the "))
	return out
}

// span is a range of whole numbers: "2 to 3 days", "2 days", "1 day".
func span(lo, hi float64, what string) string {
	switch {
	case lo < hi:
		return fmt.Sprintf("%.0f to %.0f %ss", lo, hi, what)
	case hi == 1:
		return "1 " + what
	}
	return fmt.Sprintf("%.0f %ss", hi, what)
}

func (b *book) whatItIs() string {
	n := map[string]int{}
	var order []string
	drawers, doors, slide := 0, 0, 0
	built := map[string]bool{}
	for _, o := range b.built() {
		k := o.Kind
		switch {
		case k == "case" && o.Hung:
			k = "wall case"
		case k == "case":
			k = "floor case"
		case k == "hutch":
			k = "hook board"
		}
		if n[k] == 0 {
			order = append(order, k)
		}
		n[k]++
		built[o.ID] = true
	}
	for _, m := range b.Assembly.Motions {
		if m.Kind == part.Slide && built[m.Owner] {
			slide++
		}
	}
	for _, f := range b.Assembly.Fronts {
		switch f.Kind {
		case part.Drawer:
			drawers++
		case part.DoorFront:
			doors++
		}
	}
	var out []string
	for _, k := range order {
		out = append(out, plural(n[k], k, k+"s"))
	}
	if drawers > 0 {
		out = append(out, plural(drawers, "drawer", "drawers"))
	}
	if trays := slide - drawers; trays > 0 {
		out = append(out, plural(trays, "tray", "trays"))
	}
	if doors > 0 {
		out = append(out, plural(doors, "door", "doors"))
	}
	out = append(out, plural(len(b.Assembly.Parts), "part", "parts"))
	return strings.Join(out, ", ")
}

// stores lists what is stored, in a part of the job what is kept in it.
func (b *book) stores() string {
	here := map[string]bool{}
	for _, o := range b.built() {
		here[o.ID] = true
	}
	var out []string
	for _, g := range b.Goods {
		n := g.Count
		if b.OnlyOwner != "" || b.Stage != "" {
			n = 0
			for _, k := range g.Kept {
				if here[k.Owner] {
					n += k.Count
				}
			}
			if n == 0 {
				continue
			}
		}
		out = append(out, fmt.Sprintf("%d %s", n, g.Name))
	}
	if n := len(out); n > 10 {
		out = append(out[:10], fmt.Sprintf("and %d more kinds", n-10))
	}
	return strings.Join(out, ", ")
}

// stagesLine gives the stages in the order they are built, with what each brings and when, or the one that the set is about.
func (b *book) stagesLine() string {
	var out []string
	for _, s := range b.Stages {
		part := b.OnlyOwner != "" && !slices.ContainsFunc(b.built(), func(o part.Owner) bool { return o.Stage == s.ID })
		if b.Stage != "" && b.Stage != s.ID || part {
			continue
		}
		t := s.ID
		if s.Name != "" && s.Name != s.ID {
			t += ": " + s.Name
		}
		if s.When != "" {
			t += ", " + s.When
		}
		out = append(out, t)
	}
	return strings.Join(out, "; ")
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
		boards[i].Damaged += l.Damaged
	}
	var out []string
	for _, l := range boards {
		n := l.Buy + l.OnHand
		t := fmt.Sprintf("%s of %s", plural(n, "sheet", "sheets"), l.Name)
		if l.OnHand > 0 {
			t += fmt.Sprintf(" (%d on hand)", l.OnHand)
			if l.Damaged > 0 {
				t = strings.TrimSuffix(t, ")") + fmt.Sprintf(", %d of them damaged)", l.Damaged)
			}
			if l.Buy > 0 {
				t = strings.TrimSuffix(t, ")") + fmt.Sprintf(", %d bought)", l.Buy)
			}
		}
		switch {
		case b.Stage != "": // the bound is of all stages together
		case l.Least > 0 && l.OnHand > 0:
			t += fmt.Sprintf("; no plan can buy fewer than %d", l.Least) + b.whyMore(l)
		case l.Least > 0:
			t += fmt.Sprintf("; no plan can use fewer than %d", l.Least) + b.whyMore(l)
		}
		out = append(out, t)
	}
	return strings.Join(out, ". ")
}

// whyMore says, of a board of which more sheets are bought than the least that any plan can do with, what stands between: stages
// that are cut one after the other, or how full the least would have to be.
func (b *book) whyMore(l bill.Line) string {
	if l.Buy <= l.Least {
		return ""
	}
	if len(b.Bill.Stages) > 1 {
		return ", and that only if all stages are cut at once"
	}
	parts, whole := int64(0), int64(0)
	for i := range b.Plan.Sheets {
		s := &b.Plan.Sheets[i]
		if cutlist.Board(s.Stock) != l.Item {
			continue
		}
		if s.OnHand {
			return "" // of another size
		}
		parts += s.Area.Parts
		whole = int64(l.Least) * int64(s.L) * int64(s.W)
	}
	if whole == 0 {
		return ""
	}
	return fmt.Sprintf(": those would have to be %d %% parts, and no such plan was found", (100*parts+whole/2)/whole)
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
