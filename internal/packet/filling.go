package packet

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"stowright/internal/cutlist"
	"stowright/internal/cutting"
	"stowright/internal/draw"
	"stowright/internal/draw/font"
	"stowright/internal/shop"
	"stowright/internal/view"
)

// filling is one sheet of the cutting plan on paper: its picture, at the scales that say all, and
// its table of cuts.
type filling struct {
	title, name string
	lying, up   *view.Laid                                        // and the same stood on its end
	say         func(p *view.Plate, keys string) func(*draw.Flow) // what is drawn larger, what letters mean, and its step
	cuts        func(*draw.Flow)                                  // the table of cuts
	begun       float64                                           // of the table, which stands below the picture at least when it runs on, mm
	marks       []string
	sizes       []fillingSize // the largest first
}

// fillingSize is a scale of a picture, what stands beside it, whether it stands on its end, and how high
// picture and all are then.
type fillingSize struct {
	plate     *view.Plate
	beside    besides
	top, high float64 // of all that stands above the table, and with the table
	keys      string  // what the letters in the picture mean
}

// besides is what stands beside the picture of a sheet: nothing, its step, or its step and its table of cuts.
type besides int

const (
	nothing besides = iota
	words
	everything
)

// least is the height of the lowest.
func (x *filling) least() float64 {
	least := x.sizes[0].high
	for _, s := range x.sizes {
		least = min(least, s.high)
	}
	return least
}

// filling makes the picture of one sheet and the order of its cuts, to be ticked off.
func (b *book) filling(f *draw.Flow, i int, s cutting.Sheet, stock string, step *shop.Step, before string) filling {
	title := fmt.Sprintf("Sheet %d of %d: %s, %s × %s", i+1, len(b.Plan.Sheets), stock, b.num(s.L), b.num(s.W))
	if s.OnHand {
		title += ", " + cutlist.From(s)
	}
	var marks []string
	if i < len(b.Marks) {
		marks = b.Marks[i]
	}
	t := draw.Table{Columns: []draw.Column{{Head: ""}, {Head: "Cuts"}, {Head: "Work", Most: 70}, {Head: "Setting", Align: draw.End}, {Head: "Of a piece"}, {Head: "Comes free", Grow: true}}}
	type row struct {
		from, to      int
		work, of, set string
		free          []string
		offcuts       int
		scrap, waste  bool
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
		work := "rip" // the drawing shows the order; what is said is which way, and what is rough
		switch {
		case cutlist.Small(b.Practice, c):
			work, _, _ = cutlist.Holder(b.Practice, "")
		case cutlist.ByGauge(b.Practice, c):
			work = "by gauge"
		case c.Axis == cutting.X:
			work = "crosscut"
		}
		if c.Work == cutting.Roughing || c.Work == cutting.Recut {
			work = c.Work.Says() + ", " + work
		}
		if cutlist.Shaving(c) {
			work += ", " + cutlist.ShavingWord
		}
		if c.Hand {
			work += ", " + cutlist.Led(b.Practice)
		}
		x := row{from: n, to: n, work: work, of: b.num(c.Of.L) + " × " + b.num(c.Of.W), set: b.sure(c.Setting)}
		for _, k := range c.Leaves {
			if s.Offcuts[k].Scrap {
				x.scrap = true
				x.waste = x.waste || cutlist.Wasted(s, c)
			} else if n := s.Offcuts[k].Keeps; n > 0 {
				x.free = append(x.free, fmt.Sprintf("sheet %d", n))
			} else {
				x.offcuts++
			}
		}
		for _, k := range c.Frees {
			if k < len(marks) {
				x.free = append(x.free, marks[k])
			}
		}
		// cuts that follow each other at one setting are one line to tick
		if i := len(list) - 1; i >= 0 && list[i].work == x.work && list[i].set == x.set && list[i].waste == x.waste {
			list[i].to = n
			list[i].free = append(list[i].free, x.free...)
			list[i].offcuts += x.offcuts
			list[i].scrap = list[i].scrap || x.scrap
			if of := list[i].of; of != x.of && !strings.HasPrefix(of, "from ") {
				list[i].of = "from " + of
			}
			continue
		}
		list = append(list, x)
	}
	ends := map[int]bool{} // of the lines
	for _, x := range list {
		ends[x.from], ends[x.to] = true, true
		cuts := fmt.Sprint(x.from)
		if x.to > x.from {
			cuts += "–" + fmt.Sprint(x.to)
		}
		free := []string{b.marks(x.free)}
		if x.offcuts > 0 {
			free = append(free, plural(x.offcuts, "offcut", "offcuts"))
		}
		switch {
		case x.waste:
			free = append(free, "scrap, of this size")
		case x.scrap:
			free = append(free, "scrap")
		}
		if free[0] == "" {
			free = free[1:]
		}
		t.Rows = append(t.Rows, draw.Row{Cells: []draw.Cell{{Tick: true}, {Text: cuts}, {Text: x.work}, {Text: x.set, Bold: true}, {Text: x.of}, {Text: strings.Join(free, "; ")}}})
	}
	x := filling{title: title, name: fmt.Sprintf("filling %d", i+1), lying: view.Lay(s, marks, ends, b.units(), b.toPart), marks: marks}
	x.up = x.lying.OnEnd()
	t.Again = fmt.Sprintf("Cuts of sheet %d", i+1)
	t.Soon = true
	x.cuts = func(f *draw.Flow) { f.Table(t) }
	x.begun = f.Measure(func(f *draw.Flow) { f.Table(t.First(2)) }) - underTable
	x.say = func(p *view.Plate, keys string) func(*draw.Flow) {
		return func(f *draw.Flow) {
			details(f, p)
			if keys != "" {
				f.Para(keys)
			}
			if step != nil {
				b.step(f, *step, before)
			} else if trims > 0 {
				f.Para(fmt.Sprintf("First trim %s of the sheet. %s.", plural(trims, "edge", "edges"), b.kerfs(s)))
			}
		}
	}
	head := f.Measure(func(f *draw.Flow) { f.Heading(2, title, "") })
	x.sizes = b.fillingSizes(f, &x, head)
	return x
}

const (
	besideAir   = 2.5   // below both: numbers of cuts stand over the edge of the picture
	besideGap   = 6.0   // between a picture and its table
	besideTable = 112.0 // least width of that table
	besideWords = 60.0  // least width of a step beside its picture
	besideMore  = 1.9   // how much higher than over the whole width a table may be
)

// fillingScales are those of pictures of sheets, which nobody measures in: the largest that is
// needed, and then as small as letters stand on them.
var fillingScales = []int{8, 9, 10, 12, 14, 16, 18, 20, 22, 24, 26, 28, 30, 32, 35, 40}

// fillingEnough is the scale from which a picture is large enough, when it says all, on paper that is as wide within its
// frame as A4; on wider paper it is as much larger.
const (
	fillingEnough = 12
	fillingPaper  = 180.0
	fillingPart   = 0.75 // of the height of the paper that a picture takes at most
)

// fillingSmall is the scale below which a picture is drawn only where none larger stands, on such paper too.
const fillingSmall = 26

// underTable is the air below a table that a sheet of paper may end in, in mm.
const underTable = 2.7

// fillingLeast is the width below which a picture is drawn no smaller, in mm.
const fillingLeast = 42.0

// fillingSizes tells how the picture of a sheet can stand, above its table or beside it: so large that
// it has every mark and every cut, and most sizes, the largest first.
func (b *book) fillingSizes(f *draw.Flow, x *filling, head float64) []fillingSize {
	type place struct {
		p    *view.Plate
		wide float64
	}
	said := map[place]float64{}
	say := func(wide float64, p *view.Plate, keys string) float64 {
		k := place{p, wide}
		if _, ok := said[k]; !ok {
			said[k] = f.MeasureIn(wide, x.say(p, keys))
		}
		return said[k]
	}
	table := f.Measure(x.cuts)
	enough, small := int(fillingEnough*fillingPaper/f.Width()), int(fillingSmall*fillingPaper/f.Width())
	var out []fillingSize
	least, all := math.MaxInt, 0
	i := slices.IndexFunc(fillingScales, func(real int) bool { return real >= enough })
	larger := slices.Clone(fillingScales[:i])
	slices.Reverse(larger)
	for _, real := range append(slices.Clone(fillingScales[i:]), larger...) {
		if real < enough && least == 0 { // it need be no larger
			break
		}
		c := draw.Scale{Paper: 1, Real: real}
		var here []fillingSize
		for _, way := range []struct {
			beside besides
			up     bool
		}{{nothing, false}, {everything, true}, {everything, false}, {words, true}, {words, false}} {
			laid := x.lying
			if way.up {
				laid = x.up
			}
			wide, high := c.MM(laid.Sheet.L), c.MM(laid.Sheet.W)
			rest := f.Width() - wide - 2*view.BesideSheet - besideGap
			room := rest
			if way.beside == nothing {
				room = f.Width()
			}
			if wide+2*view.BesideSheet > f.Width() || head+high > f.Height()*fillingPart || way.beside != nothing && rest < map[besides]float64{everything: besideTable, words: besideWords}[way.beside] ||
				(wide < fillingLeast || real > small) && len(out) > 0 {
				continue
			}
			p := laid.Plate(c, room)
			size := fillingSize{plate: p, beside: way.beside, keys: b.keys(x, p)}
			switch way.beside {
			case nothing:
				size.top = head + p.High + 1 + say(room, p, size.keys)
				size.high = size.top + table
			case words:
				size.top = head + max(p.High+besideAir, say(rest, p, size.keys))
				size.high = size.top + table
			case everything:
				high := f.MeasureIn(rest, func(f *draw.Flow) { x.say(p, size.keys)(f); x.cuts(f) })
				if high > (say(f.Width(), p, size.keys)+table)*besideMore {
					continue
				}
				size.high = head + max(p.High, high) + 1 + besideAir
				size.top = size.high
			}
			if size.top > f.Height() && (way.beside != nothing || head+p.High > f.Height()) { // what is drawn larger may stand on the next
				continue
			}
			told := p.Told() + len(strings.ReplaceAll(size.keys, " ", "")) // what letters stand for is told
			if all = max(all, told); told*2 < all {
				continue
			}
			least = min(least, p.Faults())
			here = append(here, size)
		}
		slices.SortStableFunc(here, func(a, b fillingSize) int { return cmp.Compare(a.high, b.high) })
		out = append(out, here...)
	}
	out = slices.DeleteFunc(out, func(s fillingSize) bool { return s.plate.Faults() > least })
	slices.SortStableFunc(out, func(a, b fillingSize) int { return cmp.Compare(a.plate.Scale.Real, b.plate.Scale.Real) })
	return out
}

// details sets what of a sheet is drawn larger, beside each other where there is room for them and their titles.
func details(f *draw.Flow, p *view.Plate) {
	type cell struct {
		view.Detail
		title []string
		wide  float64
	}
	var rest []cell
	for _, d := range p.Details {
		c := cell{d, draw.Wrap(f.Say.Of(d.Title()), draw.BodyCap, true, f.Width()), d.Wide}
		for _, l := range c.title {
			c.wide = max(c.wide, font.Width(l, true, draw.BodyCap)+titlesApart)
		}
		rest = append(rest, c)
	}
	for len(rest) > 0 {
		n, wide, high, lines := 0, 0.0, 0.0, 0
		for n < len(rest) && (n == 0 || wide+rest[n].wide <= f.Width()) {
			wide, high, lines = wide+rest[n].wide, max(high, rest[n].High), max(lines, len(rest[n].title))
			n++
		}
		row, head := rest[:n], float64(lines)*draw.BodyLine
		f.Block(head+high+1, func(s *draw.Sheet, r draw.Rect) {
			x := r.X
			for _, d := range row {
				for i, l := range d.title {
					s.Text(draw.Pt(x, r.Y+draw.BodyCap+1+float64(i)*draw.BodyLine), draw.BodyCap, l, draw.Start).Bold = true
				}
				d.Put(s, draw.Pt(x, r.Y+head))
				x += d.wide
			}
		})
		rest = rest[n:]
	}
}

// titlesApart is the air between the titles of two details, in mm.
const titlesApart = 4.0

// setFillings sets the sheets of the cutting plan in their order: as many on one paper as have room
// there, each as large as the others leave it.
func (b *book) setFillings(f *draw.Flow, list []filling) {
	for len(list) > 0 {
		n, spare := together(list, f.Left())
		if n == 0 {
			// its table runs on to the next paper: the smaller the picture, the less of it
			small := list[0].low()
			if small.top+list[0].begun <= f.Left() {
				b.setFilling(f, list[0], small)
				list = list[1:]
				continue
			}
			f.Break()
			b.title, b.kind = "Cutting plans", "Cutting plans"
			if n, spare = together(list, f.Height()); n == 0 {
				b.setFilling(f, list[0], small)
				list = list[1:]
				continue
			}
		}
		if n == len(list) || list[n].low().top+list[n].begun <= spare { // what comes next begins below them
			spare = 0
		}
		for _, x := range list[:n] {
			least := x.least()
			i := slices.IndexFunc(x.sizes, func(s fillingSize) bool { return s.high-least <= spare })
			spare -= x.sizes[i].high - least
			b.setFilling(f, x, x.sizes[i])
		}
		list = list[n:]
	}
}

// low is the size with the least above the table, for one that runs on to the next paper.
func (x *filling) low() fillingSize {
	small := x.sizes[0]
	for _, s := range x.sizes {
		if s.beside != everything && s.top < small.top {
			small = s
		}
	}
	return small
}

// together tells how many sheets of the cutting plan stand in a height, and what is left of it then.
func together(list []filling, room float64) (n int, spare float64) {
	for n < len(list) && list[n].least() <= room {
		room -= list[n].least()
		n++
	}
	return n, room
}

// setFilling sets a sheet of the cutting plan.
func (b *book) setFilling(f *draw.Flow, x filling, size fillingSize) {
	f.Heading(2, x.title, x.name)
	b.enter(1, strings.SplitN(x.title, ":", 2)[0], x.name, false)
	p := size.plate
	picture := func(sh *draw.Sheet, r draw.Rect) { p.Put(sh, draw.Pt(r.X+(r.W-p.Wide)/2, r.Y)) }
	say := x.say(p, size.keys)
	switch size.beside {
	case everything:
		f.Beside(p.Wide, p.High, besideGap, picture, func(f *draw.Flow) { say(f); x.cuts(f) })
		f.Space(besideAir)
	case words:
		f.Beside(p.Wide, p.High+besideAir, besideGap, picture, say)
		x.cuts(f)
	default:
		f.Block(p.High+1, picture)
		say(f)
		x.cuts(f)
	}
}

// keys says what the letters in a sheet's picture mean, and what it does not show.
func (b *book) keys(x *filling, p *view.Plate) string {
	var list []string
	for _, k := range p.Keys.List {
		what := k.What
		if len(k.Pieces) > 0 {
			var marks []string
			for _, i := range k.Pieces {
				marks = append(marks, x.marks[i])
			}
			what = b.marks(marks)
		}
		list = append(list, fmt.Sprintf("%s %s, %s × %s", k.Letter, what, b.num(k.L), b.num(k.W)))
	}
	text := ""
	if len(list) > 0 {
		text = "Letters: " + strings.Join(list, "; ") + "."
	}
	if len(p.Bare) > 0 {
		text += " Without a circle, for want of room: " + strings.Trim(strings.Join(strings.Fields(fmt.Sprint(p.Bare)), ", "), "[]") + "; their settings tell where they are."
	}
	if len(p.Lost) > 0 {
		var marks []string
		for _, i := range p.Lost {
			if i >= 0 {
				marks = append(marks, x.marks[i])
			}
		}
		text += " Without a letter, for want of room: " + b.marks(marks) + "; their cuts tell where they are."
	}
	return strings.TrimSpace(text)
}
