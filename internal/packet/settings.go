package packet

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"stowright/internal/cutlist"
	"stowright/internal/cutting"
	"stowright/internal/draw"
)

// settings lists the cuts of all sheets of a stock at one setting after the other, for those who cut several sheets
// together: the fence is set once for all of them.
func (b *book) settings(f *draw.Flow) {
	type run struct {
		stock, set, work string
		cuts             map[int][]int // of each sheet, as its picture counts them
	}
	type place struct {
		sheet, n int // n 0 = trimming
		c        *cutting.Cut
	}
	var all []place
	sheets := map[string]int{}
	for i := range b.Plan.Sheets {
		s := &b.Plan.Sheets[i]
		sheets[cutlist.Board(s.Stock)]++
		n := 0
		for k := range s.Cuts {
			if s.Cuts[k].Work == cutting.Trimming {
				continue
			}
			n++
			all = append(all, place{i, n, &s.Cuts[k]})
		}
	}
	sort.Slice(all, func(a, b int) bool { return all[a].c.Seq < all[b].c.Seq })
	var runs []run
	for _, p := range all {
		board := cutlist.Board(b.Plan.Sheets[p.sheet].Stock)
		if sheets[board] < 2 {
			continue
		}
		x := run{stock: board, set: b.sure(p.c.Setting), work: p.c.Work.Says(), cuts: map[int][]int{}}
		if cutlist.Small(b.Practice, *p.c) {
			held, _, _ := cutlist.Holder(b.Practice, "")
			x.work += ", " + held
		}
		if cutlist.Shaving(*p.c) {
			x.work += ", " + cutlist.ShavingWord
		}
		if p.c.Hand {
			x.work += ", " + cutlist.Led(b.Practice)
		}
		if k := len(runs) - 1; k < 0 || runs[k].stock != x.stock || runs[k].set != x.set || runs[k].work != x.work {
			runs = append(runs, x)
		}
		last := &runs[len(runs)-1]
		last.cuts[p.sheet] = append(last.cuts[p.sheet], p.n)
	}
	// a stock of which few settings serve two sheets is cut sheet by sheet, as they are drawn
	shared := map[string]int{}
	for _, x := range runs {
		if len(x.cuts) > 1 {
			shared[x.stock]++
		}
	}
	runs = slices.DeleteFunc(runs, func(x run) bool { return shared[x.stock] < sharedLeast })
	if len(runs) == 0 {
		return
	}
	t := draw.Table{Columns: []draw.Column{{Head: ""}, {Head: "Setting", Align: draw.End, Whole: true}, {Head: "Sheet: cuts", Grow: true}}}
	stock, work := "", ""
	for _, x := range runs {
		var where []string
		for i := range b.Plan.Sheets {
			if n := x.cuts[i]; len(n) > 0 {
				where = append(where, fmt.Sprintf("%d:%s", i+1, ranges(n)))
			}
		}
		name := x.stock
		if q, ok := b.Catalogue.Board(x.stock); ok && q.Name != "" {
			name = q.Name
		}
		if name != stock {
			t.Rows = append(t.Rows, draw.Row{Group: name})
			stock, work = name, ""
		}
		if x.work != work {
			t.Rows = append(t.Rows, draw.Row{Group: x.work})
			work = x.work
		}
		t.Rows = append(t.Rows, draw.Row{Cells: []draw.Cell{{Tick: true}, {Text: x.set}, {Text: strings.Join(where, "; ")}}})
	}
	head := func(f *draw.Flow) {
		f.Heading(2, "Sheets of one stock cut together", "")
		f.Para("Where there is room to break several sheets down before any is cut up, cut all of them at one setting before the next: the fence is set no more often than the plan counts. Behind each setting stand sheet: cuts, by the figures of the pictures.")
	}
	columns := b.settingColumns()
	if f.Left() > 0 && f.Measure(head)+f.MeasureIn(f.Width()/float64(columns)-4, func(f *draw.Flow) { f.Table(t.First(settingsBegun)) }) > f.Left() {
		f.Break() // the heading stays with the first rows
	}
	head(f)
	f.TableColumns(t, columns, 4)
}

// sharedLeast is of how many settings that serve several sheets of a stock a list is worth its paper.
const sharedLeast = 4

// settingsBegun is how many rows of that list stand below its heading at least.
const settingsBegun = 5

// settingColumns is how many columns of settings stand beside each other.
func (b *book) settingColumns() int { return int(b.flow.Width() / 55) }

// ranges writes rising numbers with those that follow each other drawn together.
func ranges(n []int) string {
	var out []string
	for i := 0; i < len(n); {
		j := i
		for j+1 < len(n) && n[j+1] == n[j]+1 {
			j++
		}
		if j > i {
			out = append(out, fmt.Sprintf("%d–%d", n[i], n[j]))
		} else {
			out = append(out, fmt.Sprint(n[i]))
		}
		i = j + 1
	}
	return strings.Join(out, ", ")
}
