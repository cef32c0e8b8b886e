package bundle_test

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"stowright/internal/plan/plantest"
)

// Every cut part of every example stands in cutting-list.csv once, as encoding/csv reads it, at the
// sizes of plan.json to 0.02 mm; shopping.csv buys what plan.json does.
func TestListsAgreeWithThePlan(t *testing.T) {
	for _, example := range plantest.Examples() {
		files := packed(t, example)
		var plan struct {
			Parts []struct {
				Mark, Made, Grain string
				Size, Cut         [3]float64
			}
			Shopping []struct {
				Item string
				Qty  int
			}
		}
		if err := json.Unmarshal(files["plan.json"], &plan); err != nil {
			t.Fatal(err)
		}
		table := func(name string) (rows []map[string]string) {
			all, err := csv.NewReader(strings.NewReader(string(files[name]))).ReadAll()
			if err != nil {
				t.Fatalf("%s: %s: %v", example, name, err)
			}
			for _, r := range all[1:] {
				row := map[string]string{}
				for i, h := range all[0] {
					row[h] = r[i]
				}
				rows = append(rows, row)
			}
			return rows
		}
		listed := map[string]map[string]string{}
		unit := 0.0
		suffix := ""
		for _, r := range table("cutting-list.csv") {
			for u, mm := range map[string]float64{" (in)": 25.4, " (mm)": 1} {
				if _, ok := r["cut length"+u]; ok {
					unit, suffix = mm, u
				}
			}
			marks := strings.Fields(r["marks"])
			if n, _ := strconv.Atoi(r["count"]); n != len(marks) {
				t.Errorf("%s: %s are counted %s", example, r["marks"], r["count"])
			}
			for _, m := range marks {
				if listed[m] != nil {
					t.Errorf("%s: %s is listed twice", example, m)
				}
				listed[m] = r
			}
		}
		for _, p := range plan.Parts {
			if p.Made == "bought" {
				continue
			}
			r := listed[p.Mark]
			if r == nil {
				t.Errorf("%s: %s is not in cutting-list.csv", example, p.Mark)
				continue
			}
			for head, want := range map[string]float64{"cut length": p.Cut[0], "cut width": p.Cut[1], "thickness": p.Cut[2], "finished length": p.Size[0], "finished width": p.Size[1]} {
				v, err := strconv.ParseFloat(r[head+suffix], 64)
				if err != nil || math.Abs(v*unit-want) > 0.02 {
					t.Errorf("%s: %s: %s is %q%s, want %.3f mm", example, p.Mark, head, r[head+suffix], suffix, want)
				}
			}
			if r["grain"] != p.Grain {
				t.Errorf("%s: %s: grain %q, want %q", example, p.Mark, r["grain"], p.Grain)
			}
			delete(listed, p.Mark)
		}
		for m := range listed {
			t.Errorf("%s: cutting-list.csv has %s, which is no part", example, m)
		}
		var buys, want []string
		for _, r := range table("shopping.csv") {
			if r["buy"] != "" && r["item"] != "" {
				buys = append(buys, r["item"]+" "+r["buy"])
			}
		}
		for _, s := range plan.Shopping {
			want = append(want, s.Item+" "+strconv.Itoa(s.Qty))
		}
		slices.Sort(buys)
		slices.Sort(want)
		if len(want) == 0 || !slices.Equal(buys, want) {
			t.Errorf("%s: shopping.csv buys %q, plan.json %q", example, buys, want)
		}
	}
}
