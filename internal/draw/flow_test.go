package draw_test

import (
	"fmt"
	"strings"
	"testing"

	"stowright/internal/draw"
)

// lettersFlow is a flow on letter paper.
func lettersFlow() *draw.Flow {
	return &draw.Flow{Page: func(int) (*draw.Sheet, draw.Rect) { s := draw.Letter().Sheet(false); return s, s.FreeStrip() }}
}

// No line of a paragraph stands alone at the foot or the head of a sheet, however high the paragraph and
// wherever it begins; and what is kept with it begins on the sheet of its last two lines.
func TestParagraphsKeepTheirLinesTogether(t *testing.T) {
	for above := range 60 {
		for long := 1; long < 7; long++ {
			f := lettersFlow()
			for range above {
				f.Para("above")
			}
			words := 5
			for f.Measure(func(f *draw.Flow) { f.Para(strings.Repeat("line ", words)) }) < float64(long)*draw.BodyLine+1 {
				words += 5
			}
			f.With(3 * draw.BodyLine)
			f.Para(strings.Repeat("line ", words))
			f.Strong(strings.Repeat("caution ", 24), true)
			for n, s := range f.Sheets() {
				of := map[string]int{}
				for _, x := range texts(s) {
					word, _, _ := strings.Cut(x, " ")
					of[word]++
				}
				if k := of["line"]; k == 1 && long > 1 {
					t.Fatalf("%d above, sheet %d: one line of %d stands alone", above, n+1, long)
				}
				if of["caution"] > 0 && of["line"] == 0 {
					t.Fatalf("%d above, sheet %d: a caution without what it warns of", above, n+1)
				}
			}
		}
	}
}

// The last row of a table does not stand alone at the head of a sheet, and no figure and no short text is broken over
// lines while another column can give way.
func TestTablesBreakWell(t *testing.T) {
	for n := 2; n < 140; n++ {
		f := lettersFlow()
		tab := draw.Table{Columns: []draw.Column{{Head: "Thing"}, {Head: "Tool"}, {Head: "Work"}, {Head: "Over", Align: draw.End}}}
		for i := range n {
			tab.Rows = append(tab.Rows, draw.Texts(strings.Repeat("many words of a thing ", 1+i%4), "11/64 in bit", strings.Repeat("much work ", 3+i%9), fmt.Sprintf("%d.0 ft2 of it", i)))
		}
		f.Table(tab)
		last := f.Sheets()[len(f.Sheets())-1]
		rows := 0
		for _, x := range texts(last) {
			if strings.HasSuffix(x, "ft2 of it") {
				rows++
			}
		}
		if rows == 1 && n > 1 {
			t.Errorf("%d rows: the last stands alone", n)
		}
		whole, tools := 0, 0
		for _, s := range f.Sheets() {
			for _, x := range texts(s) {
				if strings.HasSuffix(x, "ft2 of it") {
					whole++
				}
				if x == "11/64 in bit" {
					tools++
				}
			}
		}
		if whole != n || tools != n {
			t.Fatalf("%d rows: %d figures and %d short texts stand on one line", n, whole, tools)
		}
	}
}

// A table that runs on says over its head on every further sheet what it is of, and nothing of it where it begins below what it
// belongs to; one that finds no room below that says it where it begins.
func TestTablesThatRunOnSayWhatTheyAreOf(t *testing.T) {
	for _, above := range []int{1, 20, 52, 58, 70} {
		f := lettersFlow()
		for range above {
			f.Para("above")
		}
		n := len(f.Sheets())
		table := draw.Table{Columns: []draw.Column{{Head: "Cuts"}}, Again: "Cuts of sheet 9"}
		for k := range 90 {
			table.Rows = append(table.Rows, draw.Texts(fmt.Sprint(k+1)))
		}
		f.Table(table)
		if len(f.Sheets()) == n {
			t.Fatal("the table does not run on")
		}
		for i, s := range f.Sheets() {
			want := 0
			if i >= n {
				want = 1
			}
			if got := strings.Count(strings.Join(texts(s), "|"), "Cuts of sheet 9"); got != want {
				t.Errorf("%d above, sheet %d: it is said %d times", above, i+1, got)
			}
		}
	}
}

// The last row of a table does not stand at the head of a sheet with the name of its group alone.
func TestLastGroupsBreakWell(t *testing.T) {
	parted := 0
	for n := 2; n < 140; n++ {
		f := lettersFlow()
		tab := draw.Table{Columns: []draw.Column{{Head: "Thing"}}}
		for i := range n {
			tab.Rows = append(tab.Rows, draw.Texts(fmt.Sprintf("row %d", i)))
		}
		tab.Rows = append(tab.Rows, draw.Row{Group: "the last group"}, draw.Texts("the last row"))
		f.Table(tab)
		if sheets := f.Sheets(); len(sheets) > 1 {
			parted++
			rows := 0
			for _, it := range sheets[len(sheets)-1].Items {
				if x, ok := it.(*draw.Text); ok && strings.HasPrefix(x.Text, "row ") {
					rows++
				}
			}
			if rows == 0 {
				t.Errorf("%d rows and a group of one: the group stands alone on the last sheet", n)
			}
		}
	}
	if parted == 0 {
		t.Error("no table was parted")
	}
}
