package cutlist_test

import (
	"testing"

	"stowright/internal/cutlist"
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
