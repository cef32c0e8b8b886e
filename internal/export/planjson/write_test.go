package planjson

import (
	"encoding/json"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// The standard library is the judge of how JSON is written, over the whole of plan.json filled with odd values.
func TestWritesAsTheLibraryDoes(t *testing.T) {
	odd := rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{"", `a "b" \c/`, "<&>", "\x00\x1f\x7f\b\f\n\r\t", "\u2028\u2029\ufeff\U0001f600", "\xff\xfe", "½ × 3"}))
	number := rapid.OneOf(rapid.Float64(), rapid.SampledFrom([]float64{0, -0.0, 1e-7, 1e21, 1e20, -1e-9, math.MaxFloat64, 0.1, math.NaN(), math.Inf(1)}))
	rapid.Check(t, func(t *rapid.T) {
		mm := func() MM { return MM(rapid.Int64Range(-1e12, 1e12).Draw(t, "mm")) }
		some := func() *MM {
			if !rapid.Bool().Draw(t, "there") {
				return nil
			}
			m := mm()
			return &m
		}
		d := Num(number.Draw(t, "demand"))
		demand := &d
		f := File{Version: rapid.Int().Draw(t, "version"), Currency: odd.Draw(t, "currency"),
			Walls:    []Wall{{ID: odd.Draw(t, "id"), Length: mm(), Angle: Num(number.Draw(t, "angle")), Height: some()}},
			Parts:    []Part{{Mark: odd.Draw(t, "mark"), Ops: []Op{{Kind: odd.Draw(t, "kind"), Dia: some(), L: some(), Towards: odd.Draw(t, "towards")}}}, {}},
			Bounds:   Bounds{Stocks: map[string]int{odd.Draw(t, "stock"): 1, "b": 2, "a": 3}},
			Findings: []Finding{{Text: odd.Draw(t, "text"), Demand: demand, Working: []string{odd.Draw(t, "working")}}, {Also: []string{}}},
		}
		want, err := json.MarshalIndent(f, "", " ")
		if err != nil {
			t.Fatal(err)
		}
		if got := string(encode(f)); got != string(want) {
			t.Fatalf("got %s\nwant %s", got, want)
		}
	})
	plain := map[string]any{"a": []any{1.5, -2e-9, 1e22, 3.0, nil, true, "x", map[string]any{}, []any{}}, "b": map[string]any{"c": 0.0}}
	want, _ := json.MarshalIndent(plain, "", " ")
	if got := string(encode(plain)); got != string(want) {
		t.Errorf("got %s\nwant %s", got, want)
	}
}
