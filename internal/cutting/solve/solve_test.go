package solve_test

import (
	"context"
	"fmt"
	"reflect"
	"runtime"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"stowright/internal/cutting"
	"stowright/internal/cutting/judge"
	"stowright/internal/cutting/solve"
	"stowright/internal/length"
)

const mm = length.MM

func sound(t interface{ Errorf(string, ...any) }, p *cutting.Problem, pl *cutting.Plan) {
	for _, f := range judge.Check(p, pl) {
		t.Errorf("%v", f)
	}
}

// random draws any problem: several stocks, kerfs, trims, damage, groups, limits, extreme shapes.
func random(t *rapid.T, most int) *cutting.Problem {
	size := func(label string, lo, hi int) length.Length {
		return length.Length(rapid.IntRange(lo, hi).Draw(t, label)) * length.Inch / 16
	}
	p := &cutting.Problem{Seed: rapid.Uint64().Draw(t, "seed")}
	grain := rapid.SampledFrom([]cutting.Grain{cutting.NoGrain, cutting.GrainX, cutting.GrainY})
	for i := range rapid.IntRange(0, 3).Draw(t, "stocks") {
		st := cutting.Stock{ID: fmt.Sprint("s", i), L: size("L", 50, 1600), W: size("W", 50, 800), Grain: grain.Draw(t, "grain"),
			Count: rapid.IntRange(-1, 3).Draw(t, "count"), OnHand: rapid.Bool().Draw(t, "on hand"), Mass: 9000}
		st.Kerf = cutting.Kerf{X: size("kx", 0, 3), Y: size("ky", 0, 3)}
		if rapid.Bool().Draw(t, "trimmed") {
			st.Trim = cutting.Trim{Left: size("t", 0, 8), Right: size("t", 0, 8), Bottom: size("t", 0, 8), Top: size("t", 0, 8)}
		}
		for range rapid.IntRange(0, 6).Draw(t, "damage") - 4 {
			st.Damage = append(st.Damage, cutting.Rect{X: size("dx", 0, 1200), Y: size("dy", 0, 600), L: size("dl", 1, 100), W: size("dw", 1, 100)})
		}
		p.Stocks = append(p.Stocks, st)
	}
	p.Groups = []cutting.Group{{ID: "g", Strip: true, Axis: rapid.SampledFrom([]cutting.Lay{cutting.Along, cutting.Across}).Draw(t, "axis")}, {ID: "h"}}
	for i := range rapid.IntRange(0, most).Draw(t, "parts") {
		pt := cutting.Part{ID: fmt.Sprint("p", i), L: size("l", 1, 900), W: size("w", 1, 500), Count: rapid.IntRange(0, 5).Draw(t, "n"),
			Lay: rapid.SampledFrom([]cutting.Lay{cutting.Free, cutting.Along, cutting.Across}).Draw(t, "lay")}
		switch rapid.IntRange(0, 12).Draw(t, "kind") {
		case 0:
			pt.Group, pt.Lay, pt.L = "g", cutting.Along, 80*mm
		case 1:
			pt.Group = "h"
		case 2:
			pt.Stocks = []string{"s0"}
		case 3:
			pt.W = length.Length(rapid.IntRange(1, 1000).Draw(t, "ticks"))
		}
		p.Parts = append(p.Parts, pt)
	}
	p.Limits = cutting.Limits{Heaviest: 15_000, Narrow: 60 * mm, Largest: size("fence", 0, 800), Stages: rapid.IntRange(0, 6).Draw(t, "stages")}
	if p.Limits.Stages < 2 {
		p.Limits.Stages = 0
	}
	if rapid.IntRange(0, 2).Draw(t, "rough") == 0 {
		p.Limits.Rough = &cutting.Rough{Kerf: size("hand kerf", 0, 3), Allowance: size("allowance", 0, 5)}
	}
	return p
}

func TestAnyProblemGivesASoundPlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := random(t, 30)
		pl := solve.Solve(context.Background(), p, solve.Effort{Steps: 60, Tidy: 30, Proof: 1_000_000}, nil)
		sound(t, p, pl)
	})
}

func TestManyParts(t *testing.T) {
	if testing.Short() {
		t.Skip("long: 1000 parts many times over")
	}
	rapid.Check(t, func(t *rapid.T) {
		p := random(t, 400)
		pl := solve.Solve(context.Background(), p, solve.Effort{Steps: 60, Tidy: 30, Proof: 1_000_000}, nil)
		sound(t, p, pl)
	})
}

// panel is one sheet size without limit and parts with grain.
func panel(l, w int, kerf length.Length, parts ...[3]int) *cutting.Problem {
	p := &cutting.Problem{Stocks: []cutting.Stock{{ID: "ply", L: length.Length(l) * mm, W: length.Length(w) * mm, Count: cutting.Unlimited, Grain: cutting.GrainX, Kerf: cutting.Kerf{X: kerf, Y: kerf}}}}
	for i, q := range parts {
		p.Parts = append(p.Parts, cutting.Part{ID: fmt.Sprint("p", i), L: length.Length(q[0]) * mm, W: length.Length(q[1]) * mm, Count: q[2], Lay: cutting.Along})
	}
	return p
}

func TestLargerThanEverySheet(t *testing.T) {
	p := panel(2440, 1220, 0, [3]int{2500, 300, 2}, [3]int{600, 300, 1})
	p.Stocks = append(p.Stocks, cutting.Stock{ID: "small", L: 1000 * mm, W: 1000 * mm, Count: 1, Grain: cutting.GrainX})
	pl := solve.Solve(context.Background(), p, solve.First, nil)
	sound(t, p, pl)
	want := []cutting.Unplaced{{Part: "p0", Count: 2, Why: cutting.TooLarge, Nearest: "ply", Over: 60 * mm, L: 2500 * mm, W: 300 * mm}}
	if !reflect.DeepEqual(pl.Unplaced, want) {
		t.Errorf("unplaced %+v, want %+v", pl.Unplaced, want)
	}
}

func TestNoStock(t *testing.T) {
	p := panel(2440, 1220, 0, [3]int{600, 300, 1})
	p.Stocks[0].Count = 0
	pl := solve.Solve(context.Background(), p, solve.Quick, nil)
	sound(t, p, pl)
	if len(pl.Unplaced) != 1 || pl.Unplaced[0].Why != cutting.UsedUp || pl.Unplaced[0].Nearest != "ply" {
		t.Errorf("unplaced %+v", pl.Unplaced)
	}
	p.Stocks = nil
	pl = solve.Solve(context.Background(), p, solve.Quick, nil)
	if len(pl.Unplaced) != 1 || pl.Unplaced[0].Why != cutting.NoStock {
		t.Errorf("unplaced %+v", pl.Unplaced)
	}
}

// TestTooFewSheets: what does not fit is left out, the rest is cut.
func TestTooFewSheets(t *testing.T) {
	p := panel(1000, 1000, 0, [3]int{600, 600, 3})
	p.Stocks[0].Count = 2
	pl := solve.Solve(context.Background(), p, solve.Quick, nil)
	sound(t, p, pl)
	if pl.Totals.Sheets != 2 || len(pl.Unplaced) != 1 || pl.Unplaced[0].Count != 1 || pl.Unplaced[0].Why != cutting.UsedUp {
		t.Errorf("%d sheets, unplaced %+v", pl.Totals.Sheets, pl.Unplaced)
	}
}

// TestKerfExactly: four quarters less three kerfs fill a sheet to the tick, one tick more needs another sheet.
func TestKerfExactly(t *testing.T) {
	k := length.Mils(126) + 1
	p := panel(0, 100, k, [3]int{300, 100, 4})
	p.Stocks[0].L = 4*300*mm + 3*k
	pl := solve.Solve(context.Background(), p, solve.Quick, nil)
	sound(t, p, pl)
	if pl.Totals.Sheets != 1 || len(pl.Sheets[0].Offcuts) != 0 {
		t.Errorf("%d sheets, want 1 without offcut", pl.Totals.Sheets)
	}
	p.Stocks[0].L--
	pl = solve.Solve(context.Background(), p, solve.Quick, nil)
	sound(t, p, pl)
	if pl.Totals.Sheets != 2 {
		t.Errorf("%d sheets, want 2", pl.Totals.Sheets)
	}
	// A kerf that runs out over the edge takes only what is there.
	p.Stocks[0].L = 4*300*mm + 3*k + k/2
	pl = solve.Solve(context.Background(), p, solve.Quick, nil)
	sound(t, p, pl)
	if pl.Totals.Sheets != 1 || len(pl.Sheets[0].Offcuts) != 0 || pl.Totals.Cuts != 4 {
		t.Errorf("%d sheets, %d cuts, want 1 and 4", pl.Totals.Sheets, pl.Totals.Cuts)
	}
}

func TestSameSeedSamePlan(t *testing.T) {
	p := panel(2440, 1220, 3*mm, [3]int{700, 560, 9}, [3]int{564, 540, 11}, [3]int{797, 196, 14}, [3]int{330, 120, 17}, [3]int{1200, 90, 8})
	a := solve.Solve(context.Background(), p, solve.Quick, nil)
	b := solve.Solve(context.Background(), p, solve.Quick, nil)
	if !reflect.DeepEqual(a, b) {
		t.Error("two plans for one problem")
	}
	sound(t, p, a)
}

func TestCancelled(t *testing.T) {
	p := panel(1000, 1000, 3*mm, [3]int{351, 332, 30}, [3]int{223, 187, 30}, [3]int{517, 263, 20}, [3]int{612, 113, 20})
	ctx, stop := context.WithCancel(context.Background())
	stop()
	pl := solve.Solve(ctx, p, solve.Deep, nil)
	sound(t, p, pl)
	if !pl.Cancelled || len(pl.Unplaced) > 0 {
		t.Errorf("cancelled %v, unplaced %v", pl.Cancelled, pl.Unplaced)
	}
}

// TestProgress: what is told while a search goes on has the cost of the best plan and a bound that are never worse than those told before, the last of them
// the plan's own; stopped in the middle it gives the best plan told.
func TestProgress(t *testing.T) {
	p := panel(1000, 1000, 3*mm, [3]int{351, 332, 30}, [3]int{223, 187, 30}, [3]int{517, 263, 20}, [3]int{612, 113, 20})
	second := p.Stocks[0] // another lot: what is told is of both
	second.ID = "second"
	p.Stocks = append(p.Stocks, second)
	for i := range p.Parts {
		p.Parts[i].Stocks = []string{p.Stocks[i%2].ID}
	}
	for _, most := range []int{1, 3, 1000} {
		ctx, stop := context.WithCancel(context.Background())
		var told []solve.Progress
		pl := solve.Solve(ctx, p, solve.Effort{Steps: 20_000, Proof: 1_000_000}, func(now solve.Progress) {
			if told = append(told, now); len(told) == most {
				stop()
			}
		})
		stop()
		sound(t, p, pl)
		for i, now := range told {
			if i > 0 && (now.Cost > told[i-1].Cost || now.Bound < told[i-1].Bound || now.Steps < told[i-1].Steps) || now.Bound > now.Cost {
				t.Errorf("after %+v it is told %+v", told[max(0, i-1)], now)
			}
		}
		last := told[len(told)-1]
		if last.Cost != pl.Totals.Cost || last.Sheets != pl.Totals.Sheets || most == 1 && !pl.Cancelled || most == 1000 && pl.Cancelled {
			t.Errorf("told at last %+v, the plan has %d sheets for %d, cancelled %v", last, pl.Totals.Sheets, pl.Totals.Cost, pl.Cancelled)
		}
	}
}

// TestMemory: five thousand parts of different sizes are cut with less than 200 MB, all that is ever allocated counted.
func TestMemory(t *testing.T) {
	if testing.Short() {
		t.Skip("long: five thousand parts")
	}
	p := panel(2440, 1220, 3*mm)
	for i := range 5000 {
		p.Parts = append(p.Parts, cutting.Part{ID: fmt.Sprint("p", i), L: length.Length(150+i*37%700) * mm, W: length.Length(80+i*53%450) * mm, Count: 1})
	}
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	pl := solve.Solve(context.Background(), p, solve.Effort{Steps: 500, Tidy: 100, Proof: 1_000_000}, nil)
	runtime.ReadMemStats(&after)
	if mb := (after.TotalAlloc - before.TotalAlloc) >> 20; mb >= 200 {
		t.Errorf("%d MB", mb)
	}
	sound(t, p, pl)
}

// TestOffcutsFirst: what is on hand is used where that saves a sheet, and only there.
func TestOffcutsFirst(t *testing.T) {
	p := panel(1000, 1000, 0, [3]int{1000, 500, 3})
	p.Stocks = append(p.Stocks, cutting.Stock{ID: "rest", L: 1100 * mm, W: 520 * mm, Count: 1, OnHand: true, Grain: cutting.GrainX})
	pl := solve.Solve(context.Background(), p, solve.Quick, nil)
	sound(t, p, pl)
	if pl.Totals.Bought != 1 || pl.Totals.Sheets != 2 {
		t.Errorf("bought %d of %d", pl.Totals.Bought, pl.Totals.Sheets)
	}
}

// TestFewerSettings: tidying never costs a sheet, keeps the plan sound, and says what was traded.
func TestFewerSettings(t *testing.T) {
	p := panel(2440, 1220, 3*mm, [3]int{700, 560, 9}, [3]int{564, 540, 11}, [3]int{797, 196, 14}, [3]int{330, 120, 17}, [3]int{1200, 90, 8})
	a := solve.Solve(context.Background(), p, solve.Effort{Steps: 3000}, nil)
	b := solve.Solve(context.Background(), p, solve.Effort{Steps: 3000, Tidy: 3000}, nil)
	sound(t, p, a)
	sound(t, p, b)
	if b.Totals.Cost != a.Totals.Cost || b.Totals.Sheets > a.Totals.Sheets {
		t.Errorf("%d sheets for %d, without tidying %d for %d", b.Totals.Sheets, b.Totals.Cost, a.Totals.Sheets, a.Totals.Cost)
	}
	if b.Totals.Settings >= a.Totals.Settings {
		t.Errorf("%d settings, without tidying %d", b.Totals.Settings, a.Totals.Settings)
	}
	self := func(pl *cutting.Plan) cutting.Choice {
		return cutting.Choice{Sheets: pl.Totals.Sheets, Cost: pl.Totals.Cost, Settings: pl.Totals.Settings, Kept: pl.Totals.Kept}
	}
	if !slices.Contains(b.Trade, self(a)) || !slices.Contains(b.Trade, self(b)) {
		t.Errorf("trade %+v, want %+v and %+v in it", b.Trade, self(a), self(b))
	}
	for i, c := range b.Trade {
		if i > 0 && c.Settings < b.Trade[i-1].Settings {
			t.Errorf("trade %+v is not in order", b.Trade)
		}
	}
}

// TestASheetMoreForFewerSettings: where one sheet is filled to the last, a second needs fewer settings, and that is told; the
// plan itself stays the cheaper one.
func TestASheetMoreForFewerSettings(t *testing.T) {
	p := panel(1000, 1000, 3*mm, [3]int{380, 120, 5}, [3]int{440, 270, 2}, [3]int{130, 200, 5}, [3]int{290, 270, 4})
	for i := range p.Parts {
		p.Parts[i].Lay = cutting.Free
	}
	pl := solve.Solve(context.Background(), p, solve.Effort{Steps: 1000, Tidy: 3000}, nil)
	sound(t, p, pl)
	more := slices.ContainsFunc(pl.Trade, func(c cutting.Choice) bool {
		return c.Sheets == pl.Totals.Sheets+1 && c.Settings < pl.Totals.Settings
	})
	if pl.Totals.Sheets != 1 || !more {
		t.Errorf("%d sheets, trade %+v", pl.Totals.Sheets, pl.Trade)
	}
	few := pl.Fewest()
	sound(t, p, few)
	if few.Totals.Settings != pl.Trade[0].Settings || few.Totals.Sheets != pl.Trade[0].Sheets {
		t.Errorf("%d sheets and %d settings, trade %+v", few.Totals.Sheets, few.Totals.Settings, pl.Trade)
	}
}

// A sheet whose damaged places overlap, cut in two directions at most: what would take a third is lost, and the
// plan still holds.
func TestDamageWithinTheStages(t *testing.T) {
	for stages := range 4 {
		p := cutting.Problem{Limits: cutting.Limits{Stages: stages}, Stocks: []cutting.Stock{{ID: "s", L: 50 * mm, W: 50 * mm, Count: cutting.Unlimited,
			Damage: []cutting.Rect{{X: mm, L: 2 * mm, W: mm}, {L: 2 * mm, W: 2 * mm}, {X: 20 * mm, Y: 20 * mm, L: 5 * mm, W: 5 * mm}}}}}
		for _, n := range []int{21, 8} {
			p.Parts = append(p.Parts, cutting.Part{ID: fmt.Sprint(n), L: length.Length(n) * mm, W: 7 * mm, Count: n})
		}
		plan := solve.Solve(t.Context(), &p, solve.Quick, nil)
		for _, f := range judge.Check(&p, plan) {
			t.Errorf("%d stages: %v", stages, f)
		}
		if len(plan.Unplaced) > 0 && stages != 1 { // strips alone cannot make them
			t.Errorf("%d stages: %v is not cut", stages, plan.Unplaced)
		}
	}
}

// TestSettingsTogether: cuts that move to another phase save settings and change nothing else.
func TestSettingsTogether(t *testing.T) {
	saved := 0
	rapid.Check(t, func(t *rapid.T) {
		p := panel(1500, 1000, 3*mm)
		for i := range rapid.IntRange(1, 9).Draw(t, "sizes") {
			p.Parts = append(p.Parts, cutting.Part{ID: fmt.Sprint("p", i), Count: rapid.IntRange(1, 9).Draw(t, "n"),
				L: length.Length(rapid.IntRange(6, 60).Draw(t, "l")) * 10 * mm, W: length.Length(rapid.IntRange(6, 40).Draw(t, "w")) * 10 * mm})
		}
		p.Limits.Largest = length.Length(rapid.IntRange(0, 1000).Draw(t, "largest")) * mm
		few := solve.Solve(t.Context(), p, solve.Effort{Steps: 100}, nil)
		any := solve.Solve(t.Context(), p, solve.Effort{Steps: 100, AnySettings: true}, nil)
		sound(t, p, few)
		sound(t, p, any)
		if few.Totals.Settings > any.Totals.Settings {
			t.Errorf("%d settings, cut phase by phase %d", few.Totals.Settings, any.Totals.Settings)
		}
		saved += any.Totals.Settings - few.Totals.Settings
		for i := range few.Sheets {
			if !slices.Equal(few.Sheets[i].Pieces, any.Sheets[i].Pieces) || len(few.Sheets[i].Cuts) != len(any.Sheets[i].Cuts) {
				t.Errorf("sheet %d is another", i)
			}
		}
	})
	if saved == 0 {
		t.Error("nothing is ever saved")
	}
}

// TestWhyNotCut: what has no place though there are sheets is told why, and not that the sheets are used up.
func TestWhyNotCut(t *testing.T) {
	row := func(stages int, group cutting.Group, sizes ...[3]int) *cutting.Problem {
		p := panel(2440, 1220, 3*mm, sizes...)
		p.Limits.Stages = stages
		p.Groups = []cutting.Group{group}
		for i := range p.Parts {
			p.Parts[i].Group = group.ID
		}
		return p
	}
	strip := cutting.Group{ID: "g", Strip: true, Axis: cutting.Across}
	for name, c := range map[string]struct {
		p    *cutting.Problem
		want cutting.Why
	}{
		"stages":       {row(2, strip, [3]int{300, 180, 1}, [3]int{280, 220, 1}), cutting.Stages},
		"row":          {row(0, strip, [3]int{1200, 800, 3}), cutting.RowTooLarge},
		"on one sheet": {row(0, cutting.Group{ID: "g"}, [3]int{1200, 600, 5}), cutting.Apart},
	} {
		pl := solve.Solve(t.Context(), c.p, solve.Quick, nil)
		sound(t, c.p, pl)
		if len(pl.Unplaced) == 0 || pl.Unplaced[0].Why != c.want {
			t.Errorf("%s: %+v, want %v", name, pl.Unplaced, c.want)
		}
	}
}

// TestStripWithinTheStages: the cuts that part a strip are made with those of their direction that free it. Two directions give parts of one length
// beside each other: one crosscut, then rips. Parts of different lengths need a third. One more never makes less possible.
func TestStripWithinTheStages(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := panel(2440, 1220, 3*mm)
		lay := rapid.SampledFrom([]cutting.Lay{cutting.Along, cutting.Across}).Draw(t, "lay")
		p.Groups = []cutting.Group{{ID: "g", Strip: true, Axis: lay}}
		equal := rapid.Bool().Draw(t, "equal")
		for i := range rapid.IntRange(2, 4).Draw(t, "parts") {
			l, w := 300, 150
			if other := rapid.IntRange(100, 300).Draw(t, "other"); lay == cutting.Across {
				w = other
			} else {
				l = other
			}
			if !equal && i == 1 {
				if lay == cutting.Across {
					l = 290
				} else {
					w = 140
				}
			}
			p.Parts = append(p.Parts, cutting.Part{ID: fmt.Sprint("p", i), L: length.Length(l) * mm, W: length.Length(w) * mm, Count: 1, Lay: cutting.Along, Group: "g"})
		}
		for most, want := range map[int]bool{2: equal, 3: true, 0: true} {
			p.Limits.Stages = most
			pl := solve.Solve(t.Context(), p, solve.First, nil)
			sound(t, p, pl)
			if got := len(pl.Unplaced) == 0; got != want {
				t.Errorf("%d directions, parts of one size across the strip %v: cut %v", most, equal, got)
			}
		}
	})
}

// TestTradeTakesNoMore: a plan that takes more from what is on hand, and more settings, is no choice.
func TestTradeTakesNoMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := panel(1000, 700, 3*mm)
		for i := range rapid.IntRange(0, 4).Draw(t, "on hand") {
			p.Stocks = append(p.Stocks, cutting.Stock{ID: fmt.Sprint("o", i), L: length.Length(rapid.IntRange(200, 900).Draw(t, "ol")) * mm,
				W: length.Length(rapid.IntRange(200, 600).Draw(t, "ow")) * mm, Count: 1, OnHand: true, Kerf: p.Stocks[0].Kerf})
		}
		for i := range rapid.IntRange(1, 6).Draw(t, "sizes") {
			p.Parts = append(p.Parts, cutting.Part{ID: fmt.Sprint("p", i), Count: rapid.IntRange(1, 6).Draw(t, "n"),
				L: length.Length(rapid.IntRange(60, 500).Draw(t, "l")) * mm, W: length.Length(rapid.IntRange(60, 400).Draw(t, "w")) * mm})
		}
		pl := solve.Solve(t.Context(), p, solve.Effort{Steps: 200, Tidy: 300}, nil)
		for _, a := range pl.Trade {
			for _, b := range pl.Trade {
				if a != b && a.Cost <= b.Cost && a.Sheets <= b.Sheets && a.Settings <= b.Settings && (a.Cost < b.Cost || a.Sheets < b.Sheets) {
					t.Errorf("%+v is better than %+v", a, b)
				}
			}
		}
	})
}
