package solve_test

import (
	"bufio"
	"context"
	"encoding/json"
	"fmt"
	"testing"

	"stowright/internal/cutting"
	"stowright/internal/cutting/cuttingtest"
	"stowright/internal/cutting/solve"
	"stowright/internal/length"
	"stowright/internal/money"
)

// open reads every n-th instance of a file of open instances from number k on, one unit as one millimetre, the cost of a sheet
// its area.
func open(t *testing.T, name string, k, n int, lay cutting.Lay) (list []*cutting.Problem) {
	f := cuttingtest.Open(t, name)
	defer f.Close()
	sc := bufio.NewScanner(f)
	sc.Buffer(nil, 1<<26)
	for i := 0; sc.Scan(); i++ {
		if i%n != k {
			continue
		}
		var in struct {
			Sheets []struct{ W, H, Qty int64 }
			Items  []struct{ W, H, Qty int64 }
		}
		if err := json.Unmarshal(sc.Bytes(), &in); err != nil {
			t.Fatal(err)
		}
		p := &cutting.Problem{Seed: 1}
		for j, s := range in.Sheets {
			p.Stocks = append(p.Stocks, cutting.Stock{ID: fmt.Sprint("s", j), L: length.Length(s.W) * mm, W: length.Length(s.H) * mm, Count: int(s.Qty), Price: money.Amount(s.W * s.H), Grain: cutting.GrainX})
		}
		for j, it := range in.Items {
			p.Parts = append(p.Parts, cutting.Part{ID: fmt.Sprint("p", j), L: length.Length(it.W) * mm, W: length.Length(it.H) * mm, Count: int(it.Qty), Lay: lay})
		}
		list = append(list, p)
	}
	return list
}

// TestSample runs a sample of the benchmark (docs/benchmarks/cutting.txt) at the quick effort, by steps, so that the same code
// gives the same sums everywhere: none may get worse.
func TestSample(t *testing.T) {
	if testing.Short() {
		t.Skip("long: a hundred open instances")
	}
	for _, c := range []struct {
		what       string
		file       string
		from, step int
		lay        cutting.Lay
		sheets     int // at most
		bound      int // at least: what is proved
	}{
		{"classes, oriented (Berkey and Wang 1987; Martello and Vigo 1998)", "class500.jsonl", 4, 10, cutting.Along, 712, 707},
		{"classes, rotated", "class500.jsonl", 4, 10, cutting.Free, 689, 678},
		{"furniture, oriented (Macedo, Alves and Valerio de Carvalho 2010)", "macedo2010_A_furniture.jsonl", 3, 6, cutting.Along, 125, 120},
		{"furniture, rotated", "macedo2010_A_furniture.jsonl", 3, 6, cutting.Free, 123, 118},
	} {
		sheets, bound := 0, 0
		for _, p := range open(t, c.file, c.from, c.step, c.lay) {
			pl := solve.Solve(context.Background(), p, solve.Effort{Steps: 20_000, Proof: 40_000_000}, nil)
			sound(t, p, pl)
			if len(pl.Unplaced) > 0 {
				t.Errorf("%s: not complete", c.what)
			}
			sheets += pl.Totals.Sheets
			bound += pl.Bounds.Sheets
		}
		if sheets > c.sheets || bound < c.bound {
			t.Errorf("%s: %d sheets and %d proved; were %d and %d", c.what, sheets, bound, c.sheets, c.bound)
		}
	}
	use, n := 0.0, 0
	for _, p := range open(t, "hopper_turton_M.jsonl", 0, 1, cutting.Along) {
		pl := solve.Solve(context.Background(), p, solve.Effort{Steps: 20_000}, nil)
		sound(t, p, pl)
		use, n = use+float64(pl.Totals.Yield)/100, n+1
	}
	if mean := use / float64(n); mean < 96.7 {
		t.Errorf("several sizes (Hopper and Turton 2001): mean use %.2f %%, was 96.79", mean)
	}
}
