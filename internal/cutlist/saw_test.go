package cutlist_test

import (
	"testing"

	"stowright/internal/cutlist"
	"stowright/internal/cutting"
	"stowright/internal/length"
	"stowright/internal/stock"
)

// The saw that cuts sheets is never one that the shop has not, and a plan never reckons without a kerf.
func TestBreakDown(t *testing.T) {
	k := length.Inch / 10
	tool := func(kind, name string, kerf *length.Length) stock.Tool {
		return stock.Tool{ID: name, Kind: kind, Name: name, Kerf: kerf}
	}
	for _, c := range []struct {
		name  string
		tools []stock.Tool
		want  cutlist.Saw
	}{
		{"none", nil, cutlist.Saw{Kerf: length.Inch / 8, Assumed: true}},
		{"a drill is no saw", []stock.Tool{tool("drill", "drill", nil), tool("hand", "plane", nil)}, cutlist.Saw{Kerf: length.Inch / 8, Assumed: true}},
		{"a hand saw", []stock.Tool{tool("hand", "plane", nil), tool("hand", "panel saw, 10 teeth", &k)}, cutlist.Saw{Name: "panel saw, 10 teeth", Kind: "hand", Kerf: k}},
		{"a hand saw without a kerf", []stock.Tool{tool("hand", "hand saw", nil)}, cutlist.Saw{Name: "hand saw", Kind: "hand", Kerf: length.Inch / 16, Assumed: true}},
		{"a circular saw before a hand saw", []stock.Tool{tool("hand", "hand saw", &k), tool("circular-saw", "saw", nil)}, cutlist.Saw{Name: "saw", Kind: "circular-saw", Kerf: length.Inch / 8, Assumed: true}},
		{"one whose kerf is known first", []stock.Tool{tool("table-saw", "old", nil), tool("table-saw", "new", &k)}, cutlist.Saw{Name: "new", Kind: "table-saw", Kerf: k}},
		{"a mitre saw cuts no sheets", []stock.Tool{tool("mitre-saw", "mitre saw", &k)}, cutlist.Saw{Kerf: length.Inch / 8, Assumed: true}},
	} {
		if got := cutlist.BreakDown(stock.Practice{Tools: c.tools}); got != c.want {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
	}
}

// Along the fence of a table saw goes a piece's long side: one that would lie there with its short side is cut
// against the gauge, at no other saw and in no other cut (common practice, no source).
func TestByGauge(t *testing.T) {
	table := stock.Practice{Tools: []stock.Tool{{ID: "saw", Kind: "table-saw"}}}
	panel := stock.Practice{Tools: []stock.Tool{{ID: "saw", Kind: "panel-saw"}}}
	long, high := cutting.Rect{L: 1500 * mm, W: 450 * mm}, cutting.Rect{L: 450 * mm, W: 1500 * mm}
	for _, c := range []struct {
		name string
		pr   stock.Practice
		cut  cutting.Cut
		want bool
	}{
		{"a crosscut of a strip", table, cutting.Cut{Axis: cutting.X, Of: long, Work: cutting.Crosscut}, true},
		{"a rip of it", table, cutting.Cut{Axis: cutting.Y, Of: long, Work: cutting.Strips}, false},
		{"a strip that lies across", table, cutting.Cut{Axis: cutting.Y, Of: high, Work: cutting.Crosscut}, true},
		{"by hand", table, cutting.Cut{Axis: cutting.X, Of: long, Work: cutting.Crosscut, Hand: true}, false},
		{"of a piece under a foot both ways, which goes on a sled", table, cutting.Cut{Axis: cutting.X, Of: cutting.Rect{L: 300 * mm, W: 50 * mm}, Work: cutting.Crosscut}, false},
		{"at a panel saw", panel, cutting.Cut{Axis: cutting.X, Of: long, Work: cutting.Crosscut}, false},
	} {
		if got := cutlist.ByGauge(c.pr, c.cut); got != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
	}
}

// What a setting measures is told as scrap only where that side of the blade has nothing else.
func TestWasted(t *testing.T) {
	of := cutting.Rect{X: 100 * mm, Y: 50 * mm, L: 1000 * mm, W: 80 * mm}
	left, right := of, of
	left.L = 200 * mm
	right.X, right.L = of.X+203*mm, 797*mm
	for _, c := range []struct {
		name    string
		setting cutlist.L
		over    cutting.Offcut
		want    bool
	}{
		{"the scrap is measured", 200 * mm, cutting.Offcut{Rect: left, Scrap: true}, true},
		{"what is kept is measured", 797 * mm, cutting.Offcut{Rect: left, Scrap: true}, false},
		{"the scrap on the far side is measured", 797 * mm, cutting.Offcut{Rect: right, Scrap: true}, true},
		{"an offcut is measured", 200 * mm, cutting.Offcut{Rect: left}, false},
	} {
		cut := cutting.Cut{Axis: cutting.X, At: 300 * mm, Kerf: 3 * mm, Of: of, Setting: c.setting, Work: cutting.Crosscut, Leaves: []int{0}}
		if got := cutlist.Wasted(cutting.Sheet{Offcuts: []cutting.Offcut{c.over}}, cut); got != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
	}
}
