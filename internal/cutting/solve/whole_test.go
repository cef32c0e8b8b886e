package solve_test

import (
	"context"
	"slices"
	"testing"

	"stowright/internal/cutting"
	"stowright/internal/cutting/solve"
	"stowright/internal/length"
	"stowright/internal/money"
)

// cut finds a plan that the judge passes.
func cut(t *testing.T, p *cutting.Problem) *cutting.Plan {
	t.Helper()
	pl := solve.Solve(context.Background(), p, solve.Effort{Steps: 5000, Tidy: 1000, Proof: 1_000_000}, nil)
	sound(t, p, pl)
	return pl
}

// sheets finds a plan of so many sheets with everything cut.
func sheets(t *testing.T, p *cutting.Problem, want int) *cutting.Plan {
	t.Helper()
	pl := cut(t, p)
	if len(pl.Unplaced) > 0 || pl.Totals.Sheets != want {
		t.Errorf("%d sheets, %v not cut, want %d sheets", pl.Totals.Sheets, pl.Unplaced, want)
	}
	return pl
}

// The problem of cutting sheets, whole: each thing that it may ask for decides a plan by itself, at a size where one
// millimetre more or less would give another. The sums are made by hand.

// TestWholeKerfOfEachSaw: rips and crosscuts take their own kerf. 2 × 498 + 4 = 1000 and 2 × 499 + 2 = 1000.
func TestWholeKerfOfEachSaw(t *testing.T) {
	p := panel(1000, 1000, 0, [3]int{498, 499, 4})
	p.Stocks[0].Kerf = cutting.Kerf{X: 4 * mm, Y: 2 * mm}
	sheets(t, p, 1)
	p.Stocks[0].Kerf = cutting.Kerf{X: 2 * mm, Y: 4 * mm}
	sheets(t, p, 2)
}

// TestWholeTrimOfEachEdge: what one edge loses is not asked of the others, and a factory edge is kept.
func TestWholeTrimOfEachEdge(t *testing.T) {
	p := panel(1000, 500, 0, [3]int{990, 495, 1})
	p.Stocks[0].Trim = cutting.Trim{Left: 10 * mm, Top: 5 * mm}
	pl := sheets(t, p, 1)
	if got, want := pl.Sheets[0].Pieces[0].Rect, (cutting.Rect{X: 10 * mm, L: 990 * mm, W: 495 * mm}); got != want {
		t.Errorf("the part is at %v, want %v: right and lower edge as the factory cut them", got, want)
	}
	p.Stocks[0].Trim.Bottom = 1 * mm
	if pl := cut(t, p); len(pl.Unplaced) != 1 {
		t.Error("a part is cut from an edge that is trimmed off")
	}
}

// TestWholeGrain: along, across and free, on sheets with grain along, across and without.
func TestWholeGrain(t *testing.T) {
	for _, c := range []struct {
		grain    cutting.Grain
		lay      cutting.Lay
		straight bool // 900 × 400 has a place on 1000 × 500 only lying straight
	}{
		{cutting.GrainX, cutting.Along, true}, {cutting.GrainX, cutting.Across, false}, {cutting.GrainX, cutting.Free, true},
		{cutting.GrainY, cutting.Along, false}, {cutting.GrainY, cutting.Across, true}, {cutting.GrainY, cutting.Free, true},
		{cutting.NoGrain, cutting.Along, true}, {cutting.NoGrain, cutting.Across, true}, {cutting.NoGrain, cutting.Free, true},
	} {
		p := panel(1000, 500, 0, [3]int{900, 400, 1})
		p.Stocks[0].Grain, p.Parts[0].Lay = c.grain, c.lay
		if pl := cut(t, p); (len(pl.Unplaced) == 0) != c.straight {
			t.Errorf("grain %d, lay %d: %v not cut", c.grain, c.lay, pl.Unplaced)
		}
	}
}

// second adds another stock with the grain and the saw of the first, which then costs 100.
func second(p *cutting.Problem, l, w, count int, price money.Amount) *cutting.Stock {
	p.Stocks[0].Price = 100
	s := p.Stocks[0]
	s.ID, s.L, s.W, s.Count, s.Price = "second", length.Length(l)*mm, length.Length(w)*mm, count, price
	p.Stocks = append(p.Stocks, s)
	return &p.Stocks[1]
}

// TestWholePricesAndCounts: two halves are bought where they are cheaper than a whole, as many as there are.
func TestWholePricesAndCounts(t *testing.T) {
	for _, c := range []struct {
		price       money.Amount
		count       int
		cost        int64
		first, rest int
	}{{49, cutting.Unlimited, 98, 0, 2}, {51, cutting.Unlimited, 100, 1, 0}, {49, 1, 100, 1, 0}, {60, 2, 100, 1, 0}} {
		p := panel(1000, 500, 0, [3]int{500, 500, 2})
		second(p, 500, 500, c.count, c.price)
		pl := cut(t, p)
		if b := pl.Bounds.Stocks; pl.Totals.Cost != c.cost || b[0].Used != c.first || b[1].Used != c.rest {
			t.Errorf("%d halves at %d: %d of the first, %d of the second for %d", c.count, c.price, b[0].Used, b[1].Used, pl.Totals.Cost)
		}
	}
}

// TestWholeOffcutsFirst: a part comes from the offcut on hand, and a sheet is bought for the other alone.
func TestWholeOffcutsFirst(t *testing.T) {
	p := panel(1000, 500, 0, [3]int{700, 400, 2})
	second(p, 700, 400, 1, 0).OnHand = true
	pl := sheets(t, p, 2)
	if pl.Totals.Bought != 1 || pl.Totals.Cost != 100 {
		t.Errorf("%d bought for %d", pl.Totals.Bought, pl.Totals.Cost)
	}
}

// TestWholeAnyOfSeveralStocks: a part comes only from the stocks that it names, and from the cheapest of those.
func TestWholeAnyOfSeveralStocks(t *testing.T) {
	p := panel(1000, 500, 0, [3]int{700, 400, 1})
	second(p, 1000, 500, cutting.Unlimited, 80)
	s := p.Stocks[1]
	s.ID, s.Price = "third", 10
	p.Stocks = append(p.Stocks, s)
	p.Parts[0].Stocks = []string{"ply", "second"}
	if pl := sheets(t, p, 1); pl.Sheets[0].Stock != "second" {
		t.Errorf("cut from %s, want second", pl.Sheets[0].Stock)
	}
	p.Parts[0].Stocks = []string{"fourth"}
	if pl := cut(t, p); len(pl.Unplaced) != 1 || pl.Unplaced[0].Why != cutting.NoStock {
		t.Errorf("%+v, want no stock", pl.Unplaced)
	}
}

// TestWholeGroupFromOneStrip: three fronts of a strip need 3 × 200 beside each other; where 599 are there nothing else will do,
// though the sheet is long enough for all of them apart.
func TestWholeGroupFromOneStrip(t *testing.T) {
	for _, c := range []struct{ wide, left int }{{600, 0}, {599, 1}} {
		p := panel(2000, c.wide, 0, [3]int{500, 200, 3})
		p.Parts[0].Group = "bank"
		p.Groups = []cutting.Group{{ID: "bank", Strip: true, Axis: cutting.Across}}
		if pl := cut(t, p); len(pl.Unplaced) != c.left {
			t.Errorf("%d wide: %v not cut", c.wide, pl.Unplaced)
		}
	}
}

// TestWholeGroupFromOneSheet: parts of a group come from one sheet, as they best lie there: three of 600 × 400 on 1000 × 1000 have
// no place in one strip (3 × 400), but one beside two turned.
func TestWholeGroupFromOneSheet(t *testing.T) {
	p := panel(1000, 1000, 0, [3]int{600, 400, 3}, [3]int{900, 350, 1})
	p.Parts[0].Lay, p.Parts[0].Group = cutting.Free, "set"
	p.Groups = []cutting.Group{{ID: "set"}}
	pl := sheets(t, p, 2)
	on := map[int]int{}
	for i, s := range pl.Sheets {
		for _, q := range s.Pieces {
			if q.Group == "set" {
				on[i]++
			}
		}
	}
	if len(on) != 1 {
		t.Errorf("the group is on %d sheets", len(on))
	}
}

// TestWholeDamage: 40 mm spoilt at one corner cost a sheet where the part needs the corner, and none where it does not.
func TestWholeDamage(t *testing.T) {
	for _, c := range []struct{ long, want int }{{960, 1}, {961, 2}} {
		p := panel(1000, 500, 0, [3]int{c.long, 500, 1})
		second(p, 1000, 500, cutting.Unlimited, 0).Price = 100
		p.Stocks[0].OnHand, p.Stocks[0].Count = true, 1
		p.Stocks[0].Damage = []cutting.Rect{{X: 960 * mm, L: 40 * mm, W: 40 * mm}}
		pl := sheets(t, p, 1)
		if bought := pl.Totals.Bought; bought != c.want-1 {
			t.Errorf("%d long: %d bought, want %d", c.long, bought, c.want-1)
		}
	}
}

// TestWholeHeaviestPiece: 2 × 1 m at 10 kg/m² weighs 20 kg: every cut through it is warned of for one who lifts less, and none through
// its halves of 10 kg.
func TestWholeHeaviestPiece(t *testing.T) {
	p := panel(2000, 1000, 0, [3]int{1000, 500, 4})
	p.Stocks[0].Mass = 10_000
	for lift, want := range map[int64]int{9_999: 3, 10_000: 1, 19_999: 1, 20_000: 0} {
		p.Limits.Heaviest = lift
		if pl := sheets(t, p, 1); len(pl.Warnings) != want {
			t.Errorf("lifting %d g: %+v, want %d", lift, pl.Warnings, want)
		}
	}
}

// TestWholeLongestRip: what the fence does not reach is cut by hand along a straightedge.
func TestWholeLongestRip(t *testing.T) {
	p := panel(2000, 1000, 0, [3]int{1500, 700, 1})
	for reach, want := range map[int]int{600: 2, 700: 1, 1500: 0} {
		p.Limits.Largest = length.Length(reach) * mm
		pl := sheets(t, p, 1)
		hand := 0
		for _, c := range pl.Sheets[0].Cuts {
			if c.Hand {
				hand++
			}
		}
		// What falls off (500 and 300 wide) is not a size that a part may be measured by.
		if hand != want {
			t.Errorf("fence to %d: %d cuts by hand, want %d", reach, hand, want)
		}
	}
}

// TestWholeNarrowestRip: strips under the limit are warned of, each cut that makes one.
func TestWholeNarrowestRip(t *testing.T) {
	p := panel(1000, 100, 0, [3]int{1000, 20, 3})
	for least, want := range map[int]int{20: 0, 21: 3} {
		p.Limits.Narrow = length.Length(least) * mm
		if pl := sheets(t, p, 1); len(pl.Warnings) != want {
			t.Errorf("%d: %+v, want %d", least, pl.Warnings, want)
		}
	}
}

// TestWholeRoughFirstCuts: two halves, a kerf of 2 by hand and 5 left on on both sides of it: 494 + 5 + 2 + 5 + 494 = 1000. One more has
// no place. Three crosscuts follow: by hand, and a re-cut for each edge.
func TestWholeRoughFirstCuts(t *testing.T) {
	rough := func(size int) *cutting.Problem {
		p := panel(1000, 500, 3*mm, [3]int{size, 500, 2})
		p.Limits.Rough = &cutting.Rough{Kerf: 2 * mm, Allowance: 5 * mm}
		return p
	}
	pl := sheets(t, rough(494), 1)
	var works []cutting.Work
	for _, c := range pl.Sheets[0].Cuts {
		works = append(works, c.Work)
		if c.Work == cutting.Roughing && (c.Setting != 499*mm || !c.Hand) {
			t.Errorf("the rough cut is set to %v", c.Setting)
		}
	}
	if want := []cutting.Work{cutting.Roughing, cutting.Recut, cutting.Recut}; !slices.Equal(works, want) {
		t.Errorf("cuts %v, want %v", works, want)
	}
	sheets(t, rough(495), 2)

	// One who can carry the sheet cuts it to size at once, and so is an offcut.
	p := rough(495)
	p.Stocks[0].Mass, p.Limits.Heaviest = 10_000, 5_000
	sheets(t, p, 1)
	p.Limits.Heaviest = 4_999
	sheets(t, p, 2)
	p = rough(495)
	p.Stocks[0].OnHand, p.Stocks[0].Count = true, 1
	sheets(t, p, 1)
}

// TestWholeStages: a part in the corner of a part's strip needs a third direction of cutting.
func TestWholeStages(t *testing.T) {
	p := panel(1000, 1000, 0, [3]int{600, 600, 1}, [3]int{400, 300, 2}, [3]int{1000, 400, 1})
	for stages, want := range map[int]int{0: 1, 3: 1, 2: 2} {
		p.Limits.Stages = stages
		sheets(t, p, want)
	}
}

// TestWholeObjectiveInOrder: money before offcuts, offcuts before settings.
func TestWholeObjectiveInOrder(t *testing.T) {
	// The cheaper sheet is bought though the dearer would leave a large offcut.
	p := panel(2000, 1000, 0, [3]int{1000, 900, 1})
	p.Keep.Least = 100 * mm
	second(p, 1000, 1000, cutting.Unlimited, 99)
	if pl := sheets(t, p, 1); pl.Totals.Cost != 99 {
		t.Errorf("cost %d, want 99", pl.Totals.Cost)
	}
	// Four of 500 × 250 leave half the sheet in one piece, not strips beside them.
	p = panel(1000, 1000, 0, [3]int{500, 250, 4})
	p.Stocks[0].Price, p.Keep.Least = 1000, 100*mm
	pl := sheets(t, p, 1)
	if n := len(pl.Sheets[0].Offcuts); n != 1 || pl.Sheets[0].Offcuts[0].Area() != int64(1000*mm)*int64(500*mm) {
		t.Errorf("%d offcuts: %+v", n, pl.Sheets[0].Offcuts)
	}
}

// TestWholeTrade: the plans that are told of can be taken, each is sound, and is what was told.
func TestWholeTrade(t *testing.T) {
	p := panel(1000, 1000, 3*mm, [3]int{130, 180, 3}, [3]int{180, 110, 4}, [3]int{430, 290, 1}, [3]int{460, 270, 5})
	for i := range p.Parts {
		p.Parts[i].Lay = cutting.Free
	}
	pl := solve.Solve(context.Background(), p, solve.Effort{Steps: 1000, Tidy: 3000}, nil)
	if len(pl.Trade) < 2 || len(pl.Ways) != len(pl.Trade) {
		t.Fatalf("%d plans of %d told", len(pl.Ways), len(pl.Trade))
	}
	self := 0
	for i, w := range pl.Ways {
		if w == nil {
			self++
			w = pl
		}
		sound(t, p, w)
		got := cutting.Choice{Sheets: w.Totals.Sheets, Cost: w.Totals.Cost, Settings: w.Totals.Settings, Kept: w.Totals.Kept}
		if got != pl.Trade[i] || len(w.Unplaced) > 0 {
			t.Errorf("way %d is %+v, told %+v", i, got, pl.Trade[i])
		}
	}
	if self != 1 {
		t.Errorf("the plan itself is told %d times", self)
	}
}

// TestWholeOneSettingOnce: in strips and what is cut from them every setting of a kind of work is made once for all sheets: as many
// settings as there are different ones, but for trimming and where one kind goes on with the setting of the one before.
func TestWholeOneSettingOnce(t *testing.T) {
	p := panel(2440, 1220, 3*mm, [3]int{700, 560, 9}, [3]int{564, 540, 11}, [3]int{797, 196, 14}, [3]int{330, 120, 17}, [3]int{1200, 90, 8})
	p.Limits.Stages = 2
	pl := cut(t, p)
	type key struct {
		work cutting.Work
		size length.Length
	}
	seen := map[key]bool{}
	for _, s := range pl.Sheets {
		for _, c := range s.Cuts {
			seen[key{c.Work, c.Setting}] = true
		}
	}
	if len(pl.Sheets) < 3 || pl.Totals.Settings > len(seen) || pl.Totals.Settings < len(seen)-1 {
		t.Errorf("%d settings on %d sheets, %d different ones", pl.Totals.Settings, len(pl.Sheets), len(seen))
	}
}
