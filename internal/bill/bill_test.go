package bill_test

import (
	"math"
	"slices"
	"testing"

	"stowright/internal/bill"
	"stowright/internal/cutting"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/money"
	"stowright/internal/part"
	"stowright/internal/stock"
)

const mm = length.MM

func price(a money.Amount) *money.Amount { return &a }

func catalogue() stock.Catalogue {
	return stock.Catalogue{
		Boards:    []stock.Board{{ID: "ply-18", Material: "birch", Thickness: 18 * mm, Length: 2440 * mm, Width: 1220 * mm, Price: price(96 * money.Unit)}},
		Edgings:   []stock.Edging{{ID: "birch-band", Roll: 10000 * mm, Price: price(8 * money.Unit)}},
		Materials: []stock.Material{{ID: "birch", Density: "685"}},
		Hardware: []stock.Hardware{
			{ID: "hinge", Kind: "hinge", Price: price(2 * money.Unit), Pack: 2, OnHand: 1},
			{ID: "screw", Kind: "screw", Price: price(5 * money.Unit), Pack: 100},
			{ID: "knob", Kind: "handle"},
		},
	}
}

func line(t *testing.T, b bill.Bill, item, stage string) bill.Line {
	t.Helper()
	i := slices.IndexFunc(b.Lines, func(l bill.Line) bool { return l.Item == item && l.Stage == stage })
	if i < 0 {
		t.Fatalf("no line for %s in stage %q: %+v", item, stage, b.Lines)
	}
	return b.Lines[i]
}

// A sheet of 18 mm birch plywood, 1220 x 2440: 36.7 kg by a mill's published table (13 plies,
// 685 kg/m3).
func TestASheetWeighsWhatTheMillSays(t *testing.T) {
	m, ok := joinery.Mass(part.Part{Stock: "ply-18", Size: [3]length.Length{2440 * mm, 1220 * mm, 18 * mm}}, catalogue())
	if kg := float64(m) / 1e9; !ok || math.Abs(kg-36.7) > 0.05 {
		t.Errorf("%.2f kg, %v; want 36.7", kg, ok)
	}
	if _, ok := joinery.Mass(part.Part{Stock: "unknown"}, catalogue()); ok {
		t.Error("a board that nobody knows has a mass")
	}
}

func TestMissingPricesAreNamedAndNeverNothing(t *testing.T) {
	a := part.Assembly{Hardware: []part.Item{{ID: "knob", Count: 3}, {ID: "hinge", Count: 4}}}
	b := bill.Count(bill.Input{Assembly: a, Catalogue: catalogue()})
	if !slices.Equal(b.Missing, []string{"knob"}) {
		t.Errorf("missing %v", b.Missing)
	}
	if _, ok := line(t, b, "knob", "").Cost(); ok {
		t.Error("three knobs without a price have a cost")
	}
	// 4 hinges, 1 on hand, packs of 2: two packs.
	if l := line(t, b, "hinge", ""); l.Buy != 2 || l.OnHand != 1 || l.Over != "1" || b.Total != 4*money.Unit {
		t.Errorf("%+v, total %v", l, b.Total)
	}
}

// What is over of one stage's pack serves the next; spares are bought; stages add up.
func TestPacksServeTheNextStage(t *testing.T) {
	a := part.Assembly{
		Owners:   []part.Owner{{ID: "a", Stage: "first"}, {ID: "b", Stage: "second"}},
		Hardware: []part.Item{{Owner: "b", ID: "screw", Count: 30}, {Owner: "a", ID: "screw", Count: 50}},
	}
	in := bill.Input{Assembly: a, Catalogue: catalogue(), Stages: []string{"first", "second"}, Practice: stock.Practice{Spares: 10}}
	b := bill.Count(in)
	if l := line(t, b, "screw", "first"); l.Buy != 1 || l.Need != "55" || l.Over != "45" {
		t.Errorf("first: %+v", l)
	}
	if l := line(t, b, "screw", "second"); l.Buy != 0 || l.OnHand != 33 {
		t.Errorf("second: %+v", l)
	}
	if b.Stages[0].Cost != 5*money.Unit || b.Stages[1].Cost != 0 || b.Total != 5*money.Unit {
		t.Errorf("stages %+v, total %v", b.Stages, b.Total)
	}
}

// Three equal edges of 3.5 m and 25.4 mm over each, and a tenth: 11.63 m, two rolls of 10 m.
func TestEdgingIsBoughtByTheRoll(t *testing.T) {
	var a part.Assembly
	for range 3 {
		p := part.Part{Stock: "ply-18", Size: [3]length.Length{3500 * mm, 100 * mm, 18 * mm}}
		p.Bands[part.BandNear].Edging = "birch-band"
		a.Parts = append(a.Parts, p)
	}
	b := bill.Count(bill.Input{Assembly: a, Catalogue: catalogue()})
	if l := line(t, b, "birch-band", ""); l.Buy != 2 || l.Need != "11.6 m" {
		t.Errorf("%+v", l)
	}
}

func TestASheetIsBoughtForTheFirstStageThatUsesIt(t *testing.T) {
	a := part.Assembly{
		Owners: []part.Owner{{ID: "a", Stage: "first"}, {ID: "b", Stage: "second"}},
		Parts:  []part.Part{{Mark: "A1", Owner: "a"}, {Mark: "B1", Owner: "b"}},
	}
	plan := cutting.Plan{Sheets: []cutting.Sheet{{Stock: "ply-18"}, {Stock: "ply-18"}}, Bounds: cutting.Bounds{Stocks: []cutting.StockBound{{ID: "ply-18", Least: 2}}}}
	b := bill.Count(bill.Input{Assembly: a, Catalogue: catalogue(), Plan: plan, Marks: [][]string{{"B1", "A1"}, {"B1"}}, Stages: []string{"first", "second"}})
	if line(t, b, "ply-18", "first").Buy != 1 || line(t, b, "ply-18", "second").Buy != 1 || b.Total != 192*money.Unit {
		t.Errorf("%+v", b.Lines)
	}
}

// Edging left on the roll of one stage serves the next: 8 m and 1.5 m and a tenth are one roll of
// 10 m and half a metre of the next (arithmetic): two rolls in the first stage were one too many.
func TestARollServesTheNextStage(t *testing.T) {
	edge := func(owner string, long length.Length) part.Part {
		p := part.Part{Mark: owner, Owner: owner, Stock: "ply-18", Size: [3]length.Length{long, 100 * mm, 18 * mm}}
		p.Bands[part.BandNear].Edging = "birch-band"
		return p
	}
	a := part.Assembly{
		Owners: []part.Owner{{ID: "a", Stage: "first"}, {ID: "b", Stage: "second"}},
		Parts:  []part.Part{edge("a", 8000*mm), edge("b", 800*mm)},
	}
	b := bill.Count(bill.Input{Assembly: a, Catalogue: catalogue(), Stages: []string{"first", "second"}})
	if one, two := line(t, b, "birch-band", "first"), line(t, b, "birch-band", "second"); one.Buy != 1 || two.Buy != 0 || two.OnHand != 1 || b.Total != 8*money.Unit {
		t.Errorf("%+v\n%+v, total %v", one, two, b.Total)
	}
}

// A quart that covers 112 ft2 in one coat (published: 100 to 125 ft2 a quart): 16 sheets of 4 by 8
// ft, both faces, two coats are 2048 ft2, so 18.3 and 19 cans. Each stage pays for its own.
func TestFinishByTheAreaThatACanCovers(t *testing.T) {
	var a part.Assembly
	for _, o := range []string{"a", "b"} {
		a.Owners = append(a.Owners, part.Owner{ID: o, Stage: "stage " + o})
		for range 8 {
			a.Parts = append(a.Parts, part.Part{Mark: o, Owner: o, Stock: "ply-18", Size: [3]length.Length{96 * length.Inch, 48 * length.Inch, 18 * mm}})
		}
	}
	a.Joints = []part.Joint{{Kind: part.Dowel, A: "a", B: "a", Glue: true, Contact: part.Box{Max: part.Vec{X: 12 * length.Inch, Y: 12 * length.Inch}}}}
	c := catalogue()
	c.Hardware = append(c.Hardware, stock.Hardware{ID: "varnish", Kind: "finish", Coverage: "112 ft2", Price: price(20 * money.Unit)},
		stock.Hardware{ID: "glue", Kind: "glue", Coverage: "33 ft2", Price: price(6 * money.Unit)})
	b := bill.Count(bill.Input{Assembly: a, Catalogue: c, Stages: []string{"stage a", "stage b"}, Practice: stock.Practice{Unit: "in", Finish: "varnish", GlueStock: "glue", Coats: 2}})
	one, two, glue := line(t, b, "varnish", "stage a"), line(t, b, "varnish", "stage b"), line(t, b, "glue", "stage a")
	if one.Buy != 10 || two.Buy != 9 || one.Need != "1024 ft2" || two.Over != "80 ft2" || glue.Buy != 1 || glue.Need != "1.0 ft2" {
		t.Errorf("%+v\n%+v\n%+v", one, two, glue)
	}
	if b.Stages[0].Cost+b.Stages[1].Cost != b.Total || b.Total != (19*20+6)*money.Unit {
		t.Errorf("stages %+v, total %v", b.Stages, b.Total)
	}
	// A can whose size nobody states has no price.
	c.Hardware[len(c.Hardware)-2].Coverage = ""
	b = bill.Count(bill.Input{Assembly: a, Catalogue: c, Stages: []string{"stage a", "stage b"}, Practice: stock.Practice{Finish: "varnish", Coats: 2}})
	if !slices.Contains(b.Missing, "varnish") {
		t.Errorf("missing %v", b.Missing)
	}
}

// 70 ft of strip on rolls of 50 ft are two rolls (arithmetic).
func TestTapeByTheRoll(t *testing.T) {
	c := catalogue()
	c.Hardware = append(c.Hardware, stock.Hardware{ID: "sill", Kind: "tape", Coverage: "50 ft", Price: price(9 * money.Unit)})
	a := part.Assembly{Hardware: []part.Item{{ID: "sill", Kind: "tape", Count: 1, Length: 40 * length.Foot}, {ID: "sill", Kind: "tape", Count: 1, Length: 30 * length.Foot}}}
	b := bill.Count(bill.Input{Assembly: a, Catalogue: c, Practice: stock.Practice{Unit: "in"}})
	if l := line(t, b, "sill", ""); l.Buy != 2 || l.Need != "70 ft" || l.Over != "30 ft" || b.Total != 18*money.Unit {
		t.Errorf("%+v", l)
	}
}

// A screw is sold in one length, whatever the joint that counts it says of it: one line.
func TestAScrewIsOneLine(t *testing.T) {
	a := part.Assembly{Hardware: []part.Item{{ID: "screw", Count: 30, Length: 32 * mm}, {ID: "screw", Count: 10}}}
	b := bill.Count(bill.Input{Assembly: a, Catalogue: catalogue()})
	if len(b.Lines) != 1 || b.Lines[0].Need != "40" || b.Lines[0].Name != "screw" {
		t.Errorf("%+v", b.Lines)
	}
}
