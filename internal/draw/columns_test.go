package draw_test

import (
	"fmt"
	"slices"
	"testing"

	"stowright/internal/draw"
)

// Every row of a table in columns stands once, in order down the columns, under a head; where a column goes on with
// a group it names it again, and no name of a group ends a column.
func TestTableColumns(t *testing.T) {
	tab := draw.Table{Columns: []draw.Column{{Head: "Setting", Align: draw.End, Whole: true}, {Head: "Cuts", Grow: true}}}
	for i := range 130 {
		if i%9 == 0 {
			tab.Rows = append(tab.Rows, draw.Row{Group: fmt.Sprintf("group %d", i/9)})
		}
		tab.Rows = append(tab.Rows, draw.Texts(fmt.Sprintf("row %d", i), "1:2–3"))
	}
	paper := draw.A4()
	f := draw.Flow{Page: func(int) (*draw.Sheet, draw.Rect) { s := paper.Sheet(false); return s, s.FreeStrip() }}
	f.Para("what stands above")
	f.TableColumns(tab, 3, 4)
	var rows []string
	for n, s := range f.Sheets() {
		heads := 0
		group, last := "", draw.Point{}
		for _, it := range s.Items {
			x, ok := it.(*draw.Text)
			if !ok {
				continue
			}
			var k int
			switch {
			case x.Text == "Setting":
				heads++
				if group = ""; last.Y > 0 && slices.ContainsFunc(s.Items, func(o draw.Item) bool {
					g, ok := o.(*draw.Text)
					return ok && g.Bold && g.Text != "Setting" && g.Text != "Cuts" && g.At == last
				}) {
					t.Errorf("sheet %d: a column ends with the name of a group", n+1)
				}
			case len(x.Text) > 6 && x.Text[:6] == "group ":
				group = x.Text
			case len(x.Text) > 4 && x.Text[:4] == "row ":
				fmt.Sscanf(x.Text, "row %d", &k)
				if want := fmt.Sprintf("group %d", k/9); group != want {
					t.Errorf("sheet %d: %s stands under %q", n+1, x.Text, group)
				}
				rows = append(rows, x.Text)
			default:
				continue
			}
			last = x.At
			if x.At.Y > s.FreeStrip().Bottom() {
				t.Errorf("sheet %d: %s stands below the frame", n+1, x.Text)
			}
		}
		if n == 0 && heads != 3 {
			t.Errorf("%d heads", heads)
		}
	}
	if len(rows) != 130 {
		t.Fatalf("%d rows of 130", len(rows))
	}
	for i, r := range rows {
		if r != fmt.Sprint("row ", i) {
			t.Fatalf("%s comes as number %d", r, i)
		}
	}
	if n := len(f.Sheets()); n != 1 {
		t.Errorf("%d sheets", n)
	}
}
