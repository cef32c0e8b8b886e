package packet

import (
	"fmt"
	"slices"
	"strings"

	"stowright/internal/cutting"
	"stowright/internal/draw"
	"stowright/internal/shop"
	"stowright/internal/view"
)

// filling is one sheet of the cutting plan on paper: its picture, at the scales that say all, and
// its table of cuts.
type filling struct {
	title, name string
	fig         []view.Figure
	table       func(*draw.Flow)
	sizes       []fillingSize // the largest first
	room        float64       // most height of the picture
}

// fillingSize is a scale of a picture, and how high picture and all are at it.
type fillingSize struct {
	scale      draw.Scale
	foot, high float64
}

// least is the height of the smallest.
func (x *filling) least() float64 { return x.sizes[len(x.sizes)-1].high }

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
	t := draw.Table{Columns: []draw.Column{{Head: ""}, {Head: "Cuts"}, {Head: "Work", Most: 40}, {Head: "Setting", Align: draw.End}, {Head: "Of a piece"}, {Head: "Comes free", Grow: true}}}
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
		work := c.Work.String() + ", rip"
		if c.Axis == cutting.X {
			work = c.Work.String() + ", crosscut"
		}
		work = strings.Replace(work, "crosscut, crosscut", "crosscut", 1)
		if c.Hand {
			work += ", hand-held saw"
		}
		x := row{from: n, to: n, work: work, of: b.num(c.Of.L) + " × " + b.num(c.Of.W), set: b.sure(c.Setting)}
		for _, k := range c.Leaves {
			if s.Offcuts[k].Scrap {
				x.scrap = true
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
	for _, x := range list {
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
	x := filling{title: title, name: fmt.Sprintf("filling %d", i+1), fig: []view.Figure{view.Filling(s, marks, b.units(), b.toPart)}}
	x.table = func(f *draw.Flow) {
		if step != nil {
			b.step(f, *step, before)
		} else if trims > 0 {
			f.Para(fmt.Sprintf("First trim %s of the sheet. %s.", plural(trims, "edge", "edges"), b.kerfs(s)))
		}
		f.Table(t)
	}
	rest := f.Measure(func(f *draw.Flow) {
		f.Heading(2, title, "")
		x.table(f)
	})
	// as large as a good third of the paper takes, and smaller as long as it still has every mark
	// and every cut, and most sizes
	count := func(most draw.Scale, room float64) (c draw.Scale, foot float64, n, m int) {
		sh := draw.Sheet{}
		c, foot = b.packFilling(&sh, draw.Rect{W: f.Width(), H: room}, most, x.fig)
		for _, it := range sh.Items {
			if t, ok := it.(*draw.Text); ok {
				first, _, _ := strings.Cut(t.Text, " ")
				if slices.Contains(marks, first) || !strings.ContainsFunc(t.Text, func(r rune) bool { return r < '0' || r > '9' }) {
					n++ // a mark, or the number of a cut
				}
				m += len(strings.ReplaceAll(t.Text, " ", ""))
			}
		}
		return c, foot, n, m
	}
	x.room = b.Paper.H * 0.4
	_, _, few, _ := count(largest, x.room)
	if _, _, more, _ := count(largest, b.Paper.H*0.6); more > few+2 { // one that is crowded takes more
		x.room = b.Paper.H * 0.6
	}
	named, all := 0, 0
	for most := largest; ; {
		c, foot, n, m := count(most, x.room)
		if len(x.sizes) > 0 && (n < named || m*3 < all*2) {
			return x
		}
		x.sizes = append(x.sizes, fillingSize{c, foot, rest + foot + 1})
		named, all = max(named, n), max(all, m)
		k := slices.Index(view.Scales(b.units()), c) + 1
		if k == len(view.Scales(b.units())) {
			return x
		}
		most = view.Scales(b.units())[k]
	}
}

// packFilling draws the picture of a sheet no larger than a scale.
func (b *book) packFilling(s *draw.Sheet, r draw.Rect, most draw.Scale, fig []view.Figure) (draw.Scale, float64) {
	return view.Pack(s, r, b.units(), most, fig)
}

// setFilling sets a sheet of the cutting plan: the largest that stands on the paper that is open,
// or with all its cuts on one; smaller where the next one then stands on it too, which needs next.
func (b *book) setFilling(f *draw.Flow, x filling, next float64) {
	fits := func(room float64) (fillingSize, bool) {
		for _, s := range x.sizes {
			if next > 0 && s.high+next <= room {
				return s, true
			}
		}
		for _, s := range x.sizes {
			if s.high <= room {
				return s, true
			}
		}
		return x.sizes[0], false
	}
	size, ok := fits(f.Left())
	if !ok && f.Left() > f.Height()*0.55 { // next to nothing stands on the paper that is open: the table runs on
		for _, s := range x.sizes {
			if ok = s.foot+70 <= f.Left(); ok {
				size = s
				break
			}
		}
	}
	if !ok {
		var whole bool
		if size, whole = fits(f.Height()); whole || f.Left() < size.foot+60 {
			f.Break()
			b.title, b.kind = "Cutting plans", "Cutting plans"
		}
	}
	f.Heading(2, x.title, x.name)
	b.enter(1, x.title, x.name, false)
	f.Block(size.foot+1, func(sh *draw.Sheet, r draw.Rect) {
		r.H = x.room
		b.packFilling(sh, r, size.scale, x.fig)
	})
	x.table(f)
}
