package packet

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/cutlist"
	"stowright/internal/cutting"
	"stowright/internal/draw"
	"stowright/internal/shop"
	"stowright/internal/view"
)

// filling is one sheet of the cutting plan on paper: its picture, at the scales that say all, and
// its table of cuts.
type filling struct {
	title, name string
	lying, up   view.Figure                        // the picture, and the same stood on its end
	say         func(keys string) func(*draw.Flow) // its step, and what letters in the picture mean
	cuts        func(*draw.Flow)                   // the table of cuts
	marks       []string
	sheet       cutting.Sheet
	ends        map[int]bool  // numbers of the cuts that begin or end a line of the table
	sizes       []fillingSize // the largest first
}

// fillingSize is a scale of a picture, what stands beside it, whether it stands on its end, and how high
// picture and all are then.
type fillingSize struct {
	scale      draw.Scale
	wide, foot float64 // of the picture
	beside     besides
	up         bool
	top, high  float64 // of all that stands above the table, and with the table
	keys       string  // what the letters in the picture mean
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
		title += ", on hand"
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
		scrap         bool
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
		if i := len(list) - 1; i >= 0 && list[i].work == x.work && list[i].set == x.set {
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
		if x.scrap {
			free = append(free, "scrap")
		}
		if free[0] == "" {
			free = free[1:]
		}
		t.Rows = append(t.Rows, draw.Row{Cells: []draw.Cell{{Tick: true}, {Text: cuts}, {Text: x.work}, {Text: x.set, Bold: true}, {Text: x.of}, {Text: strings.Join(free, "; ")}}})
	}
	x := filling{title: title, name: fmt.Sprintf("filling %d", i+1), lying: view.Filling(s, marks, b.units(), b.toPart), up: view.Filling(view.OnEnd(s), marks, b.units(), b.toPart)}
	x.marks, x.sheet, x.ends = marks, s, ends
	t.Again = fmt.Sprintf("Cuts of sheet %d", i+1)
	x.cuts = func(f *draw.Flow) { f.Table(t) }
	x.say = func(keys string) func(*draw.Flow) {
		return func(f *draw.Flow) {
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
	x.sizes = b.fillingSizes(f, &x, head, marks)
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
var fillingScales = []int{10, 12, 14, 16, 18, 20, 22, 24, 26, 28, 30, 32, 35, 40}

// fillingEnough is the scale from which a picture is large enough, when it says all.
const fillingEnough = 16

// fillingSmall is the scale below which a picture is drawn only where none larger stands.
const fillingSmall = 32

// fillingLeast is the width below which a picture is drawn no smaller, in mm.
const fillingLeast = 42.0

// fillingBegun is what must stand of the table of a sheet's cuts below its picture, when it runs on, in mm.
const fillingBegun = 15.0

// uncircled names the cuts of a sheet that found no room for their circles in its picture; "" where all have. Where there are
// so many that of a long line only the ends have them, those between are told by them.
func uncircled(s cutting.Sheet, ends map[int]bool, has map[string]bool) string {
	n := 0
	var none []int
	for _, c := range s.Cuts {
		if c.Work == cutting.Trimming {
			continue
		}
		if n++; !has[fmt.Sprint(n)] {
			none = append(none, n)
		}
	}
	if n > manyCuts {
		none = slices.DeleteFunc(none, func(n int) bool { return !ends[n] })
	}
	if len(none) == 0 {
		return ""
	}
	return " Without a circle, for want of room: " + strings.Trim(strings.Join(strings.Fields(fmt.Sprint(none)), ", "), "[]") + "; their settings tell where they are."
}

// manyCuts is the number of cuts of a sheet up to which every one has a circle; of more, those between the ends of a run have none.
const manyCuts = 40

// fillingSizes tells how the picture of a sheet can stand, above its table or beside it: so large that
// it has every mark and every cut, and most sizes, the largest first.
func (b *book) fillingSizes(f *draw.Flow, x *filling, head float64, marks []string) []fillingSize {
	// told is what a picture says: how many marks, how many numbers of cuts, how many letters in all and of pieces
	type told struct {
		wide, foot                 float64
		marks, cuts, all, lettered int
		none                       string
	}
	tell := func(c draw.Scale, fig view.Figure) (p told) {
		sh, has := draw.Sheet{}, map[string]bool{}
		p.wide, p.foot = view.Put(&sh, draw.Pt(0, 0), c, fig)
		for _, it := range sh.Items {
			if t, ok := it.(*draw.Text); ok {
				first, _, _ := strings.Cut(t.Text, " ")
				if slices.Contains(marks, first) {
					p.marks++
				} else if !strings.ContainsFunc(t.Text, func(r rune) bool { return r < '0' || r > '9' }) {
					p.cuts++
					has[t.Text] = true
				} else if t.Bold && !strings.ContainsFunc(t.Text, func(r rune) bool { return r < 'a' || r > 'z' }) {
					p.lettered += len(t.Text)
				}
				p.all += len(strings.ReplaceAll(t.Text, " ", ""))
			}
		}
		p.none = uncircled(x.sheet, x.ends, has)
		return p
	}
	var out []fillingSize
	type place struct {
		wide float64
		keys string
	}
	said := map[place]float64{}
	say := func(wide float64, keys string) float64 {
		k := place{wide, keys}
		if _, ok := said[k]; !ok {
			said[k] = f.MeasureIn(wide, x.say(keys))
		}
		return said[k]
	}
	table := f.Measure(x.cuts)
	named, numbered, all := -1, 0, 0
	for _, real := range fillingScales {
		c := draw.Scale{Paper: 1, Real: real}
		first := len(out)
		if real > fillingSmall && first > 0 {
			break
		}
		keys, lettered := b.keys(x, c)
		pictures := map[bool]told{}
		for _, way := range []struct {
			beside besides
			up     bool
		}{{nothing, false}, {everything, true}, {everything, false}, {words, true}, {words, false}} {
			least := map[besides]float64{everything: besideTable, words: besideWords}[way.beside]
			fig := x.lying
			if way.up {
				fig = x.up
			}
			if way.beside != nothing && f.Width()-c.MM(fig.X1-fig.X0)-besideGap < least {
				continue
			}
			if _, ok := pictures[way.up]; !ok {
				pictures[way.up] = tell(c, fig)
			}
			p := pictures[way.up]
			wide, foot, cuts := p.wide, p.foot, p.cuts
			keys := strings.TrimSpace(keys + p.none)
			n, m := p.marks+min(lettered, p.lettered), p.all+len(strings.ReplaceAll(keys, " ", "")) // what letters stand for is told
			if named < 0 {
				if wide > f.Width() || foot > b.Paper.H*0.6 {
					break // the largest that stands on the paper says what there is to say
				}
				named, numbered, all = n, cuts, m
			}
			size := fillingSize{scale: c, wide: wide, foot: foot, beside: way.beside, up: way.up, keys: keys}
			rest := f.Width() - wide - besideGap
			if way.beside != nothing && rest < least {
				continue
			}
			switch way.beside {
			case nothing:
				size.top = head + foot + 1 + say(f.Width(), keys)
				size.high = size.top + table
			case words:
				size.top = head + max(foot+besideAir, say(rest, keys))
				size.high = size.top + table
			case everything:
				high := f.MeasureIn(rest, func(f *draw.Flow) { x.say(keys)(f); x.cuts(f) })
				if high > (say(f.Width(), keys)+table)*besideMore {
					continue
				}
				size.high = head + max(foot, high) + 1 + besideAir
				size.top = size.high
			}
			if wide > f.Width() || (wide < fillingLeast || real > fillingSmall) && len(out) > 0 || n < named || cuts < numbered || m*2 < all || way.beside == everything && size.high > f.Height() {
				continue
			}
			out = append(out, size)
		}
		slices.SortStableFunc(out[first:], func(a, b fillingSize) int { return cmp.Compare(a.high, b.high) })
	}
	if i := slices.IndexFunc(out, func(s fillingSize) bool { return s.scale.Real >= fillingEnough }); i > 0 {
		out = out[i:]
	}
	return out
}

// setFillings sets the sheets of the cutting plan in their order: as many on one paper as have room
// there, each as large as the others leave it.
func (b *book) setFillings(f *draw.Flow, list []filling) {
	for len(list) > 0 {
		n, spare := together(list, f.Left())
		if n == 0 {
			// its table runs on to the next paper: the smaller the picture, the less of it
			small := list[0].low()
			if small.top+fillingBegun <= f.Left() {
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
		if n == len(list) || list[n].low().top+fillingBegun <= spare { // what comes next begins below them
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
	picture := func(sh *draw.Sheet, r draw.Rect) {
		fig := x.lying
		if size.up {
			fig = x.up
		}
		view.Put(sh, draw.Pt(r.X+(r.W-size.wide)/2, r.Y), size.scale, fig)
	}
	switch size.beside {
	case everything:
		f.Beside(size.wide, size.foot, besideGap, picture, func(f *draw.Flow) { x.say(size.keys)(f); x.cuts(f) })
		f.Space(besideAir)
	case words:
		f.Beside(size.wide, size.foot+besideAir, besideGap, picture, x.say(size.keys))
		x.cuts(f)
	default:
		f.Block(size.foot+1, picture)
		x.say(size.keys)(f)
		x.cuts(f)
	}
}

// keys says what the letters in a sheet's picture mean at a scale, and how many pieces have one.
func (b *book) keys(x *filling, c draw.Scale) (text string, n int) {
	var list []string
	for _, k := range view.Keys(x.sheet, x.marks, c) {
		var marks []string
		for _, i := range k.Pieces {
			marks = append(marks, x.marks[i])
		}
		n += len(marks)
		p := x.sheet.Pieces[k.Pieces[0]]
		l, w := p.L, p.W
		if p.Turned {
			l, w = w, l
		}
		list = append(list, fmt.Sprintf("%s %s, %s × %s", k.Letter, b.marks(marks), b.num(l), b.num(w)))
	}
	if n == 0 {
		return "", 0
	}
	return "Letters: " + strings.Join(list, "; ") + ".", n
}
