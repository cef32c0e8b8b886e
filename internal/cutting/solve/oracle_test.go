package solve_test

import (
	"bufio"
	"context"
	"encoding/json"
	"fmt"
	"math"
	"math/bits"
	"testing"

	"pgregory.net/rapid"

	"stowright/internal/cutting"
	"stowright/internal/cutting/cuttingtest"
	"stowright/internal/cutting/solve"
	"stowright/internal/length"
	"stowright/internal/money"
)

// exact finds by plain enumeration what the cheapest plan for a few small parts costs; it shares nothing
// with the solver. need[s][set][w] is the least length of a piece of width w from which a set of parts can be cut by
// cuts from edge to edge: a part alone, two sets one after the other, or two sets beside each other.
type exact struct {
	p    *cutting.Problem
	need [][][]int
}

const noWay = math.MaxInt32

func units(l length.Length) int { return int(l / length.MM) }

func newExact(p *cutting.Problem) *exact {
	e := &exact{p: p}
	for s := range p.Stocks {
		st := &p.Stocks[s]
		wide, kx, ky := units(st.W), units(st.Kerf.X), units(st.Kerf.Y)
		need := make([][]int, 1<<len(p.Parts))
		for set := 1; set < len(need); set++ {
			need[set] = make([]int, wide+1)
			for w := range need[set] {
				need[set][w] = e.least(st, need, set, w, kx, ky)
			}
		}
		e.need = append(e.need, need)
	}
	return e
}

func (e *exact) least(st *cutting.Stock, need [][]int, set, w, kx, ky int) int {
	best := noWay
	if bits.OnesCount(uint(set)) == 1 {
		pt := &e.p.Parts[bits.TrailingZeros(uint(set))]
		straight, turned := st.Allows(pt.Lay)
		if straight && units(pt.W) <= w {
			best = units(pt.L)
		}
		if turned && units(pt.L) <= w {
			best = min(best, units(pt.W))
		}
		return best
	}
	for a := (set - 1) & set; a > 0; a = (a - 1) & set {
		b := set &^ a
		if a < b {
			continue
		}
		if need[a][w] < noWay && need[b][w] < noWay {
			best = min(best, need[a][w]+kx+need[b][w])
		}
		for h := 1; h+ky < w; h++ {
			best = min(best, max(need[a][h], need[b][w-h-ky]))
		}
	}
	return best
}

// cost of the cheapest complete plan, or -1 where there is none. Stock 1, where there is one, has a count.
func (e *exact) cost() int64 {
	all := len(e.need[0]) - 1
	counts := 1
	if len(e.p.Stocks) > 1 {
		counts = e.p.Stocks[1].Count + 1
	}
	best := make([][]int64, counts) // by the sheets of stock 1 that are used, and the set of parts that are cut
	for n := range best {
		best[n] = make([]int64, all+1)
		for set := 1; set <= all; set++ {
			best[n][set] = math.MaxInt64
			for sub := set; sub > 0; sub = (sub - 1) & set {
				for s := range e.p.Stocks {
					st := &e.p.Stocks[s]
					from := n - s
					if from < 0 || e.need[s][sub][units(st.W)] > units(st.L) || best[from][set&^sub] == math.MaxInt64 {
						continue
					}
					best[n][set] = min(best[n][set], best[from][set&^sub]+e.p.Cost(s))
				}
			}
		}
	}
	least := int64(math.MaxInt64)
	for n := range best {
		least = min(least, best[n][all])
	}
	if least == math.MaxInt64 {
		return -1
	}
	return least
}

// TestAgainstEnumeration: on small jobs with kerf, grain and two stocks the solver finds what full enumeration proves
// to be cheapest, and the bound is never above it.
func TestAgainstEnumeration(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		most := 6
		size := func(label string, lo, hi int) length.Length {
			return length.Length(rapid.IntRange(lo, hi).Draw(t, label)) * mm
		}
		kerf := cutting.Kerf{X: size("kx", 0, 2), Y: size("ky", 0, 2)}
		grain := rapid.SampledFrom([]cutting.Grain{cutting.NoGrain, cutting.GrainX, cutting.GrainY}).Draw(t, "grain")
		p := &cutting.Problem{Seed: rapid.Uint64().Draw(t, "seed")}
		p.Stocks = []cutting.Stock{{ID: "whole", L: size("L", 16, 24), W: size("W", 10, 18), Count: cutting.Unlimited, Grain: grain, Kerf: kerf, Price: money.Amount(100)}}
		if rapid.Bool().Draw(t, "two stocks") {
			p.Stocks = append(p.Stocks, cutting.Stock{ID: "half", L: size("L2", 10, 16), W: size("W2", 8, 12), Count: rapid.IntRange(0, 2).Draw(t, "count"),
				Grain: grain, Kerf: kerf, Price: money.Amount(rapid.IntRange(20, 90).Draw(t, "price"))})
		}
		for i := range rapid.IntRange(2, most).Draw(t, "parts") {
			p.Parts = append(p.Parts, cutting.Part{ID: fmt.Sprint("p", i), L: size("l", 2, 14), W: size("w", 2, 10), Count: 1,
				Lay: rapid.SampledFrom([]cutting.Lay{cutting.Free, cutting.Along, cutting.Across}).Draw(t, "lay")})
		}
		want := newExact(p).cost()
		pl := solve.Solve(context.Background(), p, solve.Effort{Steps: 4000, Tidy: 50, Proof: 1_000_000}, nil)
		sound(t, p, pl)
		if want < 0 {
			if len(pl.Unplaced) == 0 {
				t.Errorf("cut what cannot be cut")
			}
			return
		}
		if len(pl.Unplaced) > 0 || pl.Totals.Cost != want {
			t.Errorf("cost %d with %d unplaced, enumeration proves %d", pl.Totals.Cost, len(pl.Unplaced), want)
		}
		if pl.Bounds.Cost > want {
			t.Errorf("bound %d over the proven least cost %d", pl.Bounds.Cost, want)
		}
	})
}

// TestOneSheetOptima: proven optima of cutting the most from one sheet. gcut1: Beasley 1985; cgcut1 to 3: Christofides
// and Whitlock 1977; CHL5: Cung, Hifi and Le Cun 2000.
func TestOneSheetOptima(t *testing.T) {
	if testing.Short() {
		t.Skip("long: 300 000 steps for each of five instances")
	}
	for _, c := range []struct {
		file, name string
		value      int64
	}{
		{"gcut.jsonl", "GCUT/gcut1", 48368}, {"cgcut.jsonl", "CGCUT/cgcut1", 244}, {"cgcut.jsonl", "CGCUT/cgcut2", 2892},
		{"cgcut.jsonl", "CGCUT/cgcut3", 1860}, {"classic.jsonl", "cung2000/CHL5", 390},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := cuttingtest.Open(t, c.file)
			defer f.Close()
			sc := bufio.NewScanner(f)
			sc.Buffer(nil, 1<<26)
			for sc.Scan() {
				var in struct {
					Name   string
					Sheets []struct{ W, H int64 }
					Items  []struct {
						W, H, Qty int64
						Value     int64
					}
				}
				if err := json.Unmarshal(sc.Bytes(), &in); err != nil {
					t.Fatal(err)
				}
				if in.Name != c.name {
					continue
				}
				p := &cutting.Problem{Stocks: []cutting.Stock{{ID: "s", L: length.Length(in.Sheets[0].W) * mm, W: length.Length(in.Sheets[0].H) * mm, Count: 1, Grain: cutting.GrainX}}}
				worth := map[string]int64{}
				for i, it := range in.Items {
					q := cutting.Part{ID: fmt.Sprint("p", i), L: length.Length(it.W) * mm, W: length.Length(it.H) * mm, Count: int(it.Qty), Lay: cutting.Along, Value: it.Value}
					worth[q.ID] = q.Worth()
					p.Parts = append(p.Parts, q)
				}
				pl := solve.Solve(context.Background(), p, solve.Effort{Steps: 300_000}, nil)
				sound(t, p, pl)
				var got int64
				for _, s := range pl.Sheets {
					for _, pc := range s.Pieces {
						got += worth[pc.Part]
					}
				}
				if got != c.value {
					t.Errorf("value %d, the optimum is %d", got, c.value)
				}
				return
			}
			t.Fatal("no such instance")
		})
	}
}

// TestTwoKerfsOnASquareSheet: where a part turned is not the same rectangle turned, for rips and crosscuts take different kerfs, one sheet
// was once called impossible that enumeration fills.
func TestTwoKerfsOnASquareSheet(t *testing.T) {
	p := panel(17, 16, 0, [3]int{2, 2, 1}, [3]int{2, 8, 1}, [3]int{9, 3, 1}, [3]int{10, 4, 1}, [3]int{10, 4, 1}, [3]int{14, 4, 1})
	p.Stocks[0].Kerf, p.Stocks[0].Price, p.Stocks[0].Grain = cutting.Kerf{X: 1 * mm, Y: 2 * mm}, 100, cutting.NoGrain
	if want := newExact(p).cost(); want != 100 {
		t.Fatalf("enumeration gives %d", want)
	}
	if pl := sheets(t, p, 1); pl.Bounds.Cost != 100 {
		t.Errorf("bound %d", pl.Bounds.Cost)
	}
}
