package list_test

import (
	"context"
	"encoding/csv"
	"encoding/json"
	"errors"
	"reflect"
	"strings"
	"testing"

	"stowright/internal/cutting"
	"stowright/internal/cutting/judge"
	"stowright/internal/cutting/list"
	"stowright/internal/cutting/solve"
	"stowright/internal/length"
	"stowright/internal/source"
	"stowright/internal/source/yaml"
)

const mm = length.MM

func TestPartsAsASpreadsheetWritesThem(t *testing.T) {
	want := []cutting.Part{
		{ID: "side", L: 762 * mm, W: 560 * mm, Count: 6, Lay: cutting.Along, Stocks: []string{"birch"}},
		{ID: "shelf", L: 30*length.Inch + length.Inch/4, W: 5405 * mm / 10, Count: 1, Group: "g"},
	}
	for name, text := range map[string]string{
		"commas":           "mark,length,width,count,grain,stock,group\nside,762,560,6,along,birch,\n# a remark\n\nshelf,30 1/4 in,540.5,,free,,g\n",
		"semicolons":       "mark;length;width;count;grain;stock;group\nside;762;560;6;along;birch;\nshelf;30 1/4 in;540.5;;;;g\n",
		"byte order mark":  "\xef\xbb\xbfmark,length,width,count,grain,stock,group\nside,762,560,6,along,birch,\nshelf,30 1/4 in,540.5,1,free,,g\n",
		"another order":    "Width,Length,Mark,Grain,Count,Group,Stock\n560,762,side,Along,6,,birch\n540.5,30 1/4 in,shelf,,1,g,\n",
		"carriage returns": "mark,length,width,count,grain,stock,group\r\nside,762,560,6,along,birch,\r\nshelf,30 1/4 in,540.5,,free,,g\r\n",
	} {
		parts, groups, ps := list.Parts("list.csv", []byte(text), length.Millimetres, []string{"birch"})
		if len(ps) > 0 || !reflect.DeepEqual(parts, want) {
			t.Errorf("%s: %+v, mistakes %v", name, parts, ps)
		}
		if len(groups) != 1 || !groups[0].Strip || groups[0].Axis != cutting.Across {
			t.Errorf("%s: groups %+v", name, groups)
		}
	}
}

// Every mistake is told with its line and a remedy, all of them at once.
func TestMistakesInAList(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", "list.csv:1:1: the list is empty"},
		{"mark,length,width\n", "the list has no parts"},
		{"mark,length\na,1\n", `the column "width" is missing`},
		{"mark,lenght,width\na,1,1\n", "did you mean length"},
		{"mark,length,width,width\na,1,1,1\n", "there twice"},
		{"mark,length,width\na,,1\n", "the length is missing"},
		{"mark,length,width\na,0,1\n", "nothing or less"},
		{"mark,length,width\n,1,1\n", "the mark is missing"},
		{"mark,length,width,count\na,1,1,1.5\n", "no whole number"},
		{"mark,length,width,count\na,1,1,100001\n", "no whole number"},
		{"mark,length,width,grain\na,1,1,acros\n", "did you mean across"},
		{"mark,length,width,stock\na,1,1,brich\n", "did you mean birch"},
		{"mark,length,width\na,1,1\na,2,2\n", "there twice"},
		{"mark,length,width\n\"a\nb,1,1\n", ""}, // a quotation mark that is never closed: read or told, but no panic
	} {
		_, _, ps := list.Parts("list.csv", []byte(c.text), length.Millimetres, []string{"birch"})
		var b strings.Builder
		if err := ps.Print(&b, 20); err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(b.String(), c.want) {
			t.Errorf("%q: told %q, want %q", c.text, b.String(), c.want)
		}
	}
}

func TestStockAsTyped(t *testing.T) {
	for text, want := range map[string]cutting.Stock{
		"2440x1220":             {ID: "2440x1220", L: 2440 * mm, W: 1220 * mm, Count: cutting.Unlimited},
		"2440×1220=3@54.50":     {ID: "2440×1220", L: 2440 * mm, W: 1220 * mm, Count: 3, Price: 5450},
		"birch:96x48in=0":       {ID: "birch", L: 96 * length.Inch, W: 48 * length.Inch},
		"oak: 8' x 4' @ 60":     {ID: "oak", L: 96 * length.Inch, W: 48 * length.Inch, Count: cutting.Unlimited, Price: 60_00},
		"ply:60 1/2 in x 60 in": {ID: "ply", L: 60*length.Inch + length.Inch/2, W: 60 * length.Inch, Count: cutting.Unlimited},
	} {
		got, err := list.Stock(text, length.Millimetres)
		want.Price = got.Price // how an amount is counted is money's; that there is one is tested below
		if err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%s: %+v, %v; want %+v", text, got, err, want)
		}
		if (got.Price != 0) != strings.Contains(text, "@") {
			t.Errorf("%s: price %v", text, got.Price)
		}
	}
	for _, text := range []string{"", "2440", "2440x", "0x10", "2440x1220=x", "2440x1220=-1", "2440x1220@dear", ":2440x1220", "a b:1x1", "-5x10"} {
		if s, err := list.Stock(text, length.Millimetres); err == nil {
			t.Errorf("%q is read as %+v", text, s)
		}
	}
}

// job has an offcut that the plan uses, one that it leaves alone, and leaves something itself.
func job(hand []cutting.Stock) *cutting.Problem {
	p := &cutting.Problem{Stocks: append(hand, cutting.Stock{ID: "birch", L: 2440 * mm, W: 1220 * mm, Count: cutting.Unlimited, Price: 5400, Grain: cutting.GrainX}), Keep: cutting.Keep{Least: 100 * mm}}
	p.Parts = list.From([]cutting.Part{
		{ID: "side", L: 1200 * mm, W: 600 * mm, Count: 4, Lay: cutting.Along, Stocks: []string{"birch"}},
		{ID: "door", L: 700 * mm, W: 560 * mm, Count: 1, Lay: cutting.Along, Stocks: []string{"birch"}},
	}, p.Stocks)
	return p
}

func solved(t *testing.T, p *cutting.Problem) *cutting.Plan {
	t.Helper()
	plan := solve.Solve(context.Background(), p, solve.Effort{Steps: 500}, nil)
	for _, f := range judge.Check(p, plan) {
		t.Fatal(f)
	}
	if len(plan.Unplaced) > 0 {
		t.Fatalf("unplaced: %v", plan.Unplaced)
	}
	return plan
}

// What is written back is read again as the same offcuts: those not used, and those the plan leaves.
func TestWhatIsLeftIsReadAgain(t *testing.T) {
	hand, ps := list.Offcuts("shelf.csv", []byte("stock,length,width,count,grain\nbirch,1500,600,1,along\nbirch,150,140,2,none\n"), length.Millimetres)
	if len(ps) > 0 {
		t.Fatal(ps)
	}
	p := job(hand)
	plan := solved(t, p)
	again, ps := list.Offcuts("shelf.csv", list.Left(p, plan), length.Inches)
	if len(ps) > 0 {
		t.Fatal(ps)
	}
	got := sizes(again)
	want := []string{"150 mm × 140 mm × 2 grain 0"}
	for _, s := range plan.Sheets {
		for _, o := range s.Offcuts {
			if !o.Scrap {
				want = append(want, size(o.L, o.W, 1, s.Grain))
			}
		}
	}
	if len(want) < 2 || !reflect.DeepEqual(got, want) {
		t.Errorf("left %v, want %v", got, want)
	}
}

func size(l, w length.Length, n int, g cutting.Grain) string {
	return l.In(length.Millimetres) + " × " + w.In(length.Millimetres) + " × " + string(rune('0'+n)) + " grain " + string(rune('0'+g))
}

func sizes(list []cutting.Stock) (out []string) {
	for _, s := range list {
		out = append(out, size(s.L, s.W, s.Count, s.Grain))
	}
	return out
}

func shop(data []byte) (*source.Node, error) {
	root, ps := yaml.Read("shop.yaml", data)
	if len(ps) > 0 {
		return nil, errors.New(ps[0].String())
	}
	return root, nil
}

// Offcuts go into and out of a shop's stock file however it is written; comments stay, and what is read again is what is there.
func TestAShopsStockFile(t *testing.T) {
	for name, text := range map[string]string{
		"block":        "# ours\nboards:\n  birch: # many plies\n    offcuts: # by the door\n      - {length: 1500, width: 600}\n      - length: 150\n        width: 140 # small\n        grain: none\n        count: 2\n",
		"flow":         "# ours\nboards: {birch: {offcuts: [{length: 1500, width: 600}, {length: 150, width: 140, grain: none, count: 2}]}}\n",
		"used first":   "# ours\nboards:\n  birch:\n    offcuts:\n      - {length: 150, width: 140, grain: none, count: 2}\n      - {length: 1500, width: 600}\n",
		"counted down": "# ours\nboards:\n  birch:\n    offcuts:\n      - {length: 1500, width: 600, count: 2}\n",
		"only one":     "# ours\nboards:\n  birch:\n    offcuts:\n      - {length: 1500, width: 600}\n    price: 54\n",
		"none yet":     "# ours\nboards:\n  birch:\n    price: 54\n",
		"no value":     "# ours\nboards:\n  birch:\n    offcuts:\n    price: 54\n",
		"no boards":    "# ours\nunit: mm\n",
		"nothing":      "# ours\n",
		"inches":       "# ours\nunit: in\nboards:\n  birch:\n    offcuts:\n      - {length: 59.5, width: 24}\n",
	} {
		root, err := shop([]byte(text))
		if err != nil {
			t.Fatal(name, err)
		}
		hand, ps := list.ShopStock(root, length.Millimetres, nil)
		if len(ps) > 0 {
			t.Fatal(name, ps)
		}
		p := job(hand)
		plan := solved(t, p)
		out, err := list.ShopLeft([]byte(text), shop, p, plan)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		for _, remark := range []string{"# ours", "# many plies", "# by the door"} {
			if strings.Contains(text, remark) && !strings.Contains(string(out), remark) {
				t.Errorf("%s: the remark %q is lost:\n%s", name, remark, out)
			}
		}
		root, err = shop(out)
		if err != nil {
			t.Errorf("%s: %v\n%s", name, err, out)
			continue
		}
		again, ps := list.ShopStock(root, length.Millimetres, nil)
		if len(ps) > 0 {
			t.Errorf("%s: %v", name, ps)
		}
		var want []cutting.Stock
		used := map[string]int{}
		for _, s := range plan.Sheets {
			used[s.Stock]++
		}
		for _, s := range hand {
			if s.Count -= used[s.ID]; s.Count > 0 {
				want = append(want, s)
			}
		}
		for _, s := range plan.Sheets {
			for _, o := range s.Offcuts {
				if !o.Scrap {
					want = append(want, cutting.Stock{L: o.L, W: o.W, Count: 1, Grain: s.Grain})
				}
			}
		}
		if got := sizes(again); len(want) == 0 || !reflect.DeepEqual(got, sizes(want)) {
			t.Errorf("%s: %v, want %v\n%s", name, got, sizes(want), out)
		}
	}
}

// Whole sheets on hand are used before any is bought, no part lies on a damaged place of one, and what is used is taken out of the file.
func TestSheetsInTheStockFile(t *testing.T) {
	const text = "# ours\nboards:\n  birch:\n    on-hand: 3 # by the wall\n    damaged:\n      - {corner: start-near, length: 300, width: 200}\n      - {corner: end-far, length: 2000, width: 1000}\n"
	sheet, err := list.Stock("birch:2440x1220@54", length.Millimetres)
	if err != nil {
		t.Fatal(err)
	}
	sheet.Grain = cutting.GrainX
	root, err := shop([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	hand, ps := list.ShopStock(root, length.Millimetres, []cutting.Stock{sheet})
	mm := length.MM
	if len(ps) > 0 || len(hand) != 3 || hand[0].ID != "birch/spoilt-1" || !reflect.DeepEqual(hand[1].Damage, []cutting.Rect{{X: 440 * mm, Y: 220 * mm, L: 2000 * mm, W: 1000 * mm}}) ||
		hand[2].ID != "birch/on-hand" || hand[2].Count != 1 || hand[2].L != 2440*mm {
		t.Fatalf("%v %+v", ps, hand)
	}
	// Four go on a whole sheet, three beside the small damaged place, none beside the large one.
	p := &cutting.Problem{Stocks: append(hand, sheet), Parts: []cutting.Part{{ID: "side", L: 1200 * mm, W: 600 * mm, Count: 6, Lay: cutting.Along}}}
	plan := solve.Solve(t.Context(), p, solve.Quick, nil)
	if faults := judge.Check(p, plan); len(faults) > 0 || len(plan.Unplaced) > 0 || plan.Totals.Bought != 0 {
		t.Fatalf("%v, %d bought, %v not cut", faults, plan.Totals.Bought, plan.Unplaced)
	}
	out, err := list.ShopLeft([]byte(text), shop, p, plan)
	if err != nil {
		t.Fatal(err)
	}
	if s := string(out); !strings.Contains(s, "on-hand: 1 # by the wall") || strings.Contains(s, "start-near") || !strings.Contains(s, "end-far") {
		t.Errorf("the file is now\n%s", s)
	}
}

// The rows and the JSON of a plan say the same as the plan, by readers of the standard library.
func TestRowsAndJSON(t *testing.T) {
	p := job(nil)
	plan := solved(t, p)
	rows, err := csv.NewReader(strings.NewReader(string(list.Rows(plan)))).ReadAll()
	if err != nil || len(rows) != plan.Totals.Cuts+1 {
		t.Errorf("%d rows for %d cuts, %v", len(rows), plan.Totals.Cuts, err)
	}
	var out struct {
		Sheets int
		Least  int `json:"noPlanUsesFewerThan"`
		Plan   []struct {
			Size   [2]float64
			Pieces []struct {
				Mark string
				Size [2]float64
			}
		}
	}
	if err := json.Unmarshal(list.JSON(plan), &out); err != nil {
		t.Fatal(err)
	}
	if out.Sheets != plan.Totals.Sheets || out.Least != plan.Bounds.Sheets || len(out.Plan) != out.Sheets || out.Plan[0].Size != [2]float64{2440, 1220} {
		t.Errorf("%+v", out)
	}
	area := 0.0
	for _, s := range out.Plan {
		for _, q := range s.Pieces {
			area += q.Size[0] * q.Size[1]
		}
	}
	if want := 4.0*1200*600 + 700*560; area != want {
		t.Errorf("the pieces make %v mm², want %v", area, want)
	}
	text := list.Text(p, plan, length.Millimetres)
	if !strings.Contains(text, "side") || !strings.Contains(text, "Sheet 1 of ") {
		t.Errorf("text:\n%s", text)
	}
}

// A search that was stopped is said so, and plans that cost different money are told with what they cost.
func TestWhatAPlanIs(t *testing.T) {
	p := &cutting.Problem{Stocks: []cutting.Stock{{ID: "a", L: 1000 * mm, W: 1000 * mm, Count: 9, Price: 540_000}}, Parts: []cutting.Part{{ID: "side", L: 600 * mm, W: 600 * mm, Count: 2}}}
	plan := solve.Solve(t.Context(), p, solve.First, nil)
	const stopped = "stopped before its end"
	if text := list.Text(p, plan, length.Millimetres); strings.Contains(text, stopped) {
		t.Errorf("text:\n%s", text)
	}
	plan.Cancelled = true
	plan.Trade = []cutting.Choice{{Sheets: 3, Cost: 1_620_000, Settings: 1}, {Sheets: 2, Cost: plan.Totals.Cost, Settings: plan.Totals.Settings, Kept: plan.Totals.Kept}}
	text := list.Text(p, plan, length.Millimetres)
	for _, want := range []string{stopped, "1: 3 sheets and 1 setting for 162.00; 2: 2 sheets", "for 108.00, this one"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in\n%s", want, text)
		}
	}
}
