package plan_test

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"stowright/examples"
	"stowright/internal/cutlist"
	"stowright/internal/cutting"
	"stowright/internal/cutting/solve"
	"stowright/internal/finding"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/stock"
)

// A shop without a saw is told, one with a hand saw cuts by its kerf, and a kerf that nobody stated is said to be assumed.
func TestNoSaw(t *testing.T) {
	const one = "stowright: 1\nunit: in\npractice: {from: saw-and-drill, tools: {circular saw: nullTOOLS}}\ncases:\n  a: {width: 24, height: 30, depth: 12, inside: {shelves: {count: 1}}}\n"
	for tools, want := range map[string]finding.Verdict{", hand saw: null": finding.Fails, "": finding.NotKnown, ", hand saw: {kerf: 0.04}": finding.None} {
		r := planned(t, strings.Replace(one, "TOOLS", tools, 1))
		said := r.Findings.With(plan.NoSaw)
		if len(said) != min(1, int(want)) || len(said) == 1 && said[0].Verdict != want {
			t.Errorf("%q: %v", tools, said)
		}
		for _, s := range r.Plan.Sheets {
			for _, c := range s.Cuts {
				if c.Kerf == 0 {
					t.Errorf("%q: a cut takes nothing", tools)
				}
			}
		}
	}
}

// TestFewSettings: of the plans found the one with the fewest settings can be wanted, stage by stage.
func TestFewSettings(t *testing.T) {
	const job = "stowright: 1\nunit: mm\nstages: [{id: first}, {id: later}]\ncases:\n" +
		"  a: {width: 700, height: 900, depth: 350, stage: first, inside: {shelves: {count: 3}}}\n" +
		"  b: {width: 640, height: 800, depth: 300, stage: first, inside: {shelves: {count: 2}}}\n" +
		"  c: {width: 560, height: 1200, depth: 280, stage: later, inside: {shelves: {count: 4}}}\n"
	read := func(few bool) plan.Result {
		return plan.Make(t.Context(), parse(t, "job", []byte(job)), plan.Want{Effort: solve.Quick, Few: few})
	}
	usual, few := read(false), read(true)
	if len(few.Trades) == 0 {
		t.Fatal("no stage has a choice")
	}
	for i, tr := range few.Trades {
		for _, c := range tr.Plans {
			if c.Settings < tr.Plans[0].Settings {
				t.Errorf("%d: %+v is not in order", i, tr)
			}
		}
	}
	if few.Plan.Totals.Settings > usual.Plan.Totals.Settings {
		t.Errorf("%d settings, usually %d", few.Plan.Totals.Settings, usual.Plan.Totals.Settings)
	}
}

// TestNoSheetTooMany: at the usual effort of a packet no example buys a sheet that is not proved to be needed, but one of Fennel Street, of which
// it is not known whether it can be saved (docs/benchmarks/cutting.txt). The bound is that of all stages cut at once, so no plan at all costs less.
func TestNoSheetTooMany(t *testing.T) {
	names := plantest.Examples()
	if testing.Short() {
		names = []string{"marram-point"} // whose fewest sheets no first plan has
	}
	for _, name := range names {
		src, err := examples.FS.ReadFile(name + "/job.yaml")
		if err != nil {
			t.Fatal(err)
		}
		r := plan.Make(t.Context(), parse(t, name, src), plan.Want{Effort: solve.Quick})
		open := 0
		for _, b := range r.Plan.Bounds.Stocks {
			if s := slices.IndexFunc(r.Problem.Stocks, func(s cutting.Stock) bool { return s.ID == b.ID }); !r.Problem.Stocks[s].OnHand {
				open += max(0, b.Used-b.Least)
			}
		}
		if name == "fennel-street" && open <= 1 {
			continue
		}
		if open > 0 || r.Plan.Totals.Cost != r.Plan.Bounds.Cost {
			t.Errorf("%s: %d sheets may be too many; they cost %d, and no plan less than %d", name, open, r.Plan.Totals.Cost, r.Plan.Bounds.Cost)
		}
		if said := r.Findings.With(plan.NoBound); len(said) > 0 {
			t.Errorf("%s: it is said that a sheet may be saved: %v", name, said)
		}
	}
}

// What the passes of a groove come to is its width: the blade, and as far as the fence ends from where it began. An opening
// inside a board is sawn with what can begin there.
func TestPassesComeToTheGroove(t *testing.T) {
	widths, openings := 0, 0
	passes := regexp.MustCompile(`groove ([0-9.]+) mm wide.* sawn in \d+ passes: .* so that it stands ([0-9.]+) mm from where it began`)
	everywhere(t, func(name string, r plan.Result) {
		for _, s := range r.Steps {
			if m := passes.FindStringSubmatch(s.Text); m != nil {
				wide, _ := strconv.ParseFloat(m[1], 64)
				end, _ := strconv.ParseFloat(m[2], 64)
				ok := false
				for _, x := range r.Job.Practice.Tools {
					ok = ok || x.Kerf != nil && math.Abs(end+float64(*x.Kerf)/float64(length.MM)-wide) < 0.06
				}
				if widths++; !ok {
					t.Errorf("%s: no blade makes that groove: %s", name, s.Text)
				}
			}
		}
		for _, p := range r.Assembly.Parts {
			for _, o := range p.Ops {
				if o.Kind == part.Cutout {
					if openings++; o.Tool != joinery.Jigsaw {
						t.Errorf("%s: %s: an opening by %s", name, p.Mark, o.Tool)
					}
				}
			}
		}
	})
	if widths < 2 || openings < 2 {
		t.Errorf("%d grooves in passes, %d openings", widths, openings)
	}
}

// What is too heavy to push is not pushed, and nothing wider than a table is deep goes against a mitre gauge, where a shop
// has a saw that is led along a straightedge.
func TestBigPiecesAreCutWithAStraightedge(t *testing.T) {
	heavy, wide := 0, 0
	everywhere(t, func(name string, r plan.Result) {
		pr := r.Job.Practice
		led := slices.ContainsFunc(pr.Tools, func(x stock.Tool) bool { return x.Kind == "track-saw" || x.Kind == "circular-saw" })
		if !led || cutlist.BreakDown(pr).Kind != "table-saw" {
			return
		}
		for i, s := range r.Plan.Sheets {
			var grams float64 // of a square metre
			for _, x := range r.Problem.Stocks {
				if x.ID == s.Stock {
					grams = float64(x.Mass)
				}
			}
			for k, c := range s.Cuts {
				metres := func(l length.Length) float64 { return float64(l) / float64(1000*length.MM) }
				if w := grams * metres(c.Of.L) * metres(c.Of.W); w > float64(pr.Lift)/1e6+1 && pr.Lift > 0 {
					if heavy++; !c.Hand {
						t.Errorf("%s: sheet %d, cut %d pushes %.1f kg through the saw", name, i+1, k+1, w/1000)
					}
				}
				if run := min(c.Of.L, c.Of.W); run > 24*length.Inch && c.Work != cutting.Trimming {
					if wide++; cutlist.ByGauge(pr, c) {
						t.Errorf("%s: sheet %d, cut %d is %s long, against a mitre gauge", name, i+1, k+1, run.In(r.Job.Print))
					}
				}
			}
		}
	})
	if heavy == 0 || wide == 0 {
		t.Errorf("%d heavy pieces, %d wide", heavy, wide)
	}
}
