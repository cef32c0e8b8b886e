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
		if got := bound.Patterns(sheet, parts, nil, 100, 1_000_000, never); got != c.want {
			t.Errorf("%s: patterns prove %d, want %d", c.name, got, c.want)
		}
	}
	// Two sizes: three parts of 6 by 6 from sheets of 10 by 10 for 10 or of 6 by 6 for 4 cost 12.
	two := []bound.Sheet{{X: 10, Y: 10, Cost: 10, Count: 9}, {X: 6, Y: 6, Cost: 4, Count: 9}}
	if got := bound.Patterns(two, []bound.Part{{Ways: [][2]int32{{6, 6}}, Count: 3}}, nil, 100, 1_000_000, never); got != 12 {
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
			sum[turn] += max(c, bound.Patterns(sheet, parts, nil, math.MaxInt64, 2_000_000, never))
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
	if b := bound.Patterns(sheet, strips, nil, math.MaxInt64, 2_000_000, never); b > 2 {
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
		if b := max(bound.Cost(sheet, parts), bound.Patterns(sheet, parts, nil, math.MaxInt64, 1_000_000, never)); b > sheets {
			t.Errorf("seed %d: a bound of %d, and %d sheets do", seed, b, sheets)
		}
	}
}
