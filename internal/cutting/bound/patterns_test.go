package bound_test

import (
	"bufio"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"stowright/internal/cutting/bound"
	"stowright/internal/cutting/cuttingtest"
)

func never() bool { return false }

// Arithmetic: of parts 6 by 6 a sheet 10 by 10 holds one; of parts 5 by 5 four.
func TestByHand(t *testing.T) {
	sheet := []bound.Sheet{{X: 10, Y: 10, Cost: 1, Count: math.MaxInt32}}
	for _, c := range []struct {
		name string
		ways [][2]int32
		n    int32
		want int64
	}{
		{"one to a sheet", [][2]int32{{6, 6}}, 3, 3},
		{"four to a sheet", [][2]int32{{5, 5}}, 9, 3},
		{"four of 5 by 4: five have the sheet's area, but cuts from edge to edge do not give them", [][2]int32{{5, 4}, {4, 5}}, 9, 3},
	} {
		parts := []bound.Part{{Ways: c.ways, Count: c.n}}
		if got := bound.Cost(sheet, parts); got > c.want {
			t.Errorf("%s: functions prove %d, there is a plan of %d", c.name, got, c.want)
		}
		if got := bound.Patterns(sheet, parts, nil, 0, 100, 1_000_000, never); got != c.want {
			t.Errorf("%s: patterns prove %d, want %d", c.name, got, c.want)
		}
	}
	// Two sizes: three parts of 6 by 6 from sheets of 10 by 10 for 10 or of 6 by 6 for 4 cost 12.
	two := []bound.Sheet{{X: 10, Y: 10, Cost: 10, Count: 9}, {X: 6, Y: 6, Cost: 4, Count: 9}}
	if got := bound.Patterns(two, []bound.Part{{Ways: [][2]int32{{6, 6}}, Count: 3}}, nil, 0, 100, 1_000_000, never); got != 12 {
		t.Errorf("two sizes: %d, want 12", got)
	}
}

// TestClasses holds the bounds of the 500 class instances (Berkey and Wang 1987; Martello and Vigo 1998) against the best plans
// published for them (the sums of ten instances in best_by_cell.csv; sources in its README): a bound over what somebody
// has cut would be false. The functions must give the sums that the same functions gave elsewhere, 7170 and 6891.
func TestClasses(t *testing.T) {
	if testing.Short() {
		t.Skip("long: 1000 bounds")
	}
	cells := cuttingtest.Open(t, "best_by_cell.csv")
	defer cells.Close()
	rows, err := csv.NewReader(cells).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	best := map[string][2]int64{}
	for _, r := range rows[1:] {
		class, err1 := strconv.Atoi(r[0])
		at := func(name string) int64 {
			for i, h := range rows[0] {
				if h == name {
					n, _ := strconv.ParseInt(r[i], 10, 64)
					return n
				}
			}
			t.Fatalf("no column %s", name)
			return 0
		}
		if err1 == nil {
			best[fmt.Sprintf("%02d/%s", class, r[1])] = [2]int64{at("OG_min"), at("RG_min")}
		}
	}
	f := cuttingtest.Open(t, "class500.jsonl")
	defer f.Close()
	sc := bufio.NewScanner(f)
	sc.Buffer(nil, 1<<26)
	functions, patterns := [2]int64{}, map[string][2]int64{}
	for sc.Scan() {
		var in struct {
			Name   string
			Sheets []struct{ W, H int32 }
			Items  []struct{ W, H, Qty int32 }
		}
		if err := json.Unmarshal(sc.Bytes(), &in); err != nil {
			t.Fatal(err)
		}
		_, rest, _ := strings.Cut(in.Name, "Class_")
		cell := rest[:2] + "/" + strings.Split(rest[7:], "_")[0]
		sheet := []bound.Sheet{{X: in.Sheets[0].W, Y: in.Sheets[0].H, Cost: 1, Count: math.MaxInt32}}
		for turn := range 2 {
			var parts []bound.Part
			for _, it := range in.Items {
				pt := bound.Part{Ways: [][2]int32{{it.W, it.H}}, Count: it.Qty}
				if turn == 1 && it.W != it.H {
					pt.Ways = append(pt.Ways, [2]int32{it.H, it.W})
				}
				parts = append(parts, pt)
			}
			c := bound.Cost(sheet, parts)
			functions[turn] += c
			sum := patterns[cell]
			sum[turn] += max(c, bound.Patterns(sheet, parts, nil, 0, math.MaxInt64, 2_000_000, never))
			patterns[cell] = sum
		}
	}
	if functions != [2]int64{7170, 6891} {
		t.Errorf("functions prove %v, want 7170 and 6891", functions)
	}
	for cell, sum := range patterns {
		for turn := range 2 {
			if b := best[cell][turn]; b == 0 || sum[turn] > b {
				t.Errorf("class/parts %s, turned %d: bound %d, plans of %d are published", cell, turn, sum[turn], b)
			}
		}
	}
}

// Parts narrower than the coarse cells in which values are worked out never count for a whole cell: a hundred strips of 6 go on
// two sheets of 303 (303 = 50 x 6 + 3, arithmetic), and of random thin parts no more than the sheets that hold them side by side.
func TestPatternsOfThinParts(t *testing.T) {
	sheet := []bound.Sheet{{X: 10003, Y: 303, Cost: 1, Count: math.MaxInt32}}
	strips := []bound.Part{{Ways: [][2]int32{{10000, 6}}, Count: 100}}
	if b := bound.Patterns(sheet, strips, nil, 0, math.MaxInt64, 2_000_000, never); b > 2 {
		t.Errorf("a bound of %d, and 2 sheets do", b)
	}
	for seed := range uint64(20) {
		r := rand.New(rand.NewPCG(seed, 0))
		var parts []bound.Part
		sheets := int64(0)
		for range 1 + r.IntN(4) {
			w, n := 1+r.Int32N(120), 1+r.Int32N(300)
			parts = append(parts, bound.Part{Ways: [][2]int32{{1 + r.Int32N(10003), w}}, Count: n})
			each := int64(303 / w)
			sheets += (int64(n) + each - 1) / each
		}
		if b := max(bound.Cost(sheet, parts), bound.Patterns(sheet, parts, nil, 0, math.MaxInt64, 1_000_000, never)); b > sheets {
			t.Errorf("seed %d: a bound of %d, and %d sheets do", seed, b, sheets)
		}
	}
}

// Of parts 5 by 4 a sheet 10 by 10 gives four (see TestByHand). With one such sheet on hand nine parts need two bought ones, and with two on
// hand one: arithmetic. Functions alone see the area of 180 only.
func TestSheetsOnHand(t *testing.T) {
	parts := []bound.Part{{Ways: [][2]int32{{5, 4}, {4, 5}}, Count: 9}}
	for hand, want := range map[int32]int64{0: 30, 1: 20, 2: 10, 3: 0} {
		sheets := []bound.Sheet{{X: 10, Y: 10, Cost: 0, Count: hand}, {X: 10, Y: 10, Cost: 10, Count: 9}}
		if got := bound.Patterns(sheets, parts, nil, 0, 100, 10_000_000, never); got != want {
			t.Errorf("%d on hand: patterns prove %d, want %d", hand, got, want)
		}
	}
}

// Sheets are cut from edge to edge at random until all of each is parts. No bound is above what those sheets cost, however coarse the cells in which values are
// worked out, whether parts may turn, and whichever sheets there are only some of or cost nothing.
func TestNeverAboveAPlan(t *testing.T) {
	n, met := uint64(60), 0
	if testing.Short() {
		n = 15
	}
	for seed := range n {
		r := rand.New(rand.NewPCG(seed, 5))
		large := int32([]int{12, 90, 1000, 50_000_000}[r.IntN(4)])
		sheets := []bound.Sheet{{X: large/2 + 1 + r.Int32N(large), Y: large/2 + 1 + r.Int32N(large), Cost: 100, Count: math.MaxInt32}}
		for range r.IntN(3) {
			sheets = append(sheets, bound.Sheet{X: 1 + r.Int32N(large), Y: 1 + r.Int32N(large), Cost: r.Int64N(4) * 30, Count: 1 + r.Int32N(2)})
		}
		turn := r.IntN(2) == 0
		var parts []bound.Part
		var cut func(x, y int32)
		cut = func(x, y int32) {
			if r.IntN(4) == 0 || x < large/10+2 || y < large/10+2 {
				w := [][2]int32{{x, y}}
				if turn {
					w = append(w, [2]int32{y, x})
				}
				parts = append(parts, bound.Part{Ways: w, Count: 1})
				return
			}
			if r.IntN(2) == 0 {
				a := 1 + r.Int32N(x-1)
				cut(a, y)
				cut(x-a, y)
			} else {
				a := 1 + r.Int32N(y-1)
				cut(x, a)
				cut(x, y-a)
			}
		}
		cost := int64(0)
		for i, s := range sheets {
			for range min(s.Count, 1+r.Int32N(3)) {
				cut(s.X, s.Y)
				cost += sheets[i].Cost
			}
		}
		functions, patterns := bound.Cost(sheets, parts), bound.Patterns(sheets, parts, nil, 0, math.MaxInt64, 20_000_000, never)
		if max(functions, patterns) > cost {
			t.Errorf("seed %d: functions %d, patterns %d, and a plan costs %d", seed, functions, patterns, cost)
		}
		if max(functions, patterns) == cost {
			met++
		}
	}
	t.Logf("%d of %d bounds are the cost of the plan", met, n)
	if met == 0 {
		t.Error("no bound is met: they say nothing")
	}
}
