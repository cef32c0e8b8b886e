//go:build unix

package plan_test

import (
	"context"
	"fmt"
	"strings"
	"syscall"
	"testing"

	"stowright/internal/plan"
)

// The work grows with the number of cases and not with its square: four times the cases take at most eight times the processor's
// time, which others on the machine do not change. It was fourteen before parts were found by their owner (measured).
func TestWorkGrowsWithTheJob(t *testing.T) {
	if testing.Short() {
		t.Skip("the long form measures")
	}
	spent(t, manyCases(1)) // tables that are built once
	few, many := least(t, manyCases(2)), least(t, manyCases(8))
	t.Logf("60 cases %.2f s, 240 cases %.2f s", few, many)
	if many > 8*few {
		t.Errorf("60 cases take %.2f s of the processor, 240 take %.2f s", few, many)
	}
}

// Goods that are listed under every bay of many cases take no more than eight times as long when there are four times as many
// cases; it was eleven before places were found by their goods (measured).
func TestWorkGrowsWithTheGoods(t *testing.T) {
	text := func(cases int) string {
		var s strings.Builder
		s.WriteString("stowright: 1\nunit: in\npractice: {from: inch-shop}\ncases:\n")
		var names, goods []string
		for i := range 100 {
			names = append(names, fmt.Sprintf("g%d", i))
			goods = append(goods, fmt.Sprintf("  g%d: {width: 3, depth: 3, height: 4, weighs: 1 lb, count: 4}\n", i))
		}
		for i := range cases {
			fmt.Fprintf(&s, "  c%d: {width: 30, height: 34 1/2, depth: 18, inside: {shelves: {count: 3}, goods: [%s]}}\n", i, strings.Join(names, ", "))
		}
		return s.String() + "goods:\n" + strings.Join(goods, "")
	}
	spent(t, text(15))
	few, many := least(t, text(15)), least(t, text(60))
	t.Logf("15 cases %.2f s, 60 cases %.2f s", few, many)
	if many > 8*few {
		t.Errorf("15 cases take %.2f s of the processor, 60 take %.2f s", few, many)
	}
}

// least is the least that a plan of a job takes of three: what else runs takes room in the processor's memory.
func least(t *testing.T, text string) float64 {
	return min(spent(t, text), spent(t, text), spent(t, text))
}

// spent is the processor's time that a plan of a job takes, s.
func spent(t *testing.T, text string) float64 {
	c := parse(t, "many cases", []byte(text))
	var from, to syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &from); err != nil {
		t.Fatal(err)
	}
	plan.Make(context.Background(), c, plan.Want{})
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &to); err != nil {
		t.Fatal(err)
	}
	return float64(to.Utime.Nano()-from.Utime.Nano()) / 1e9
}

// manyCases is a job of so many walls with thirty cases in a run on each.
func manyCases(walls int) string {
	var places, cases, runs strings.Builder
	for w := range walls {
		fmt.Fprintf(&places, "  w%d: {length: 900, height: 98, kind: stud, lining: {name: d, thickness: 1/2}, studs: {first: 8, spacing: 16, species: spruce-pine-fir, width: 1 1/2}, floor: {every: 450, at-wall: [0, 0, 0]}}\n", w)
		fmt.Fprintf(&runs, "  r%d: {wall: w%d, start: 0, order: [", w, w)
		for i := range 30 {
			fmt.Fprintf(&cases, "  c%dx%d: {family: f, width: %d, inside: {drawers: {count: 4}}}\n", w, i, 24+i%7)
			fmt.Fprintf(&runs, "{case: c%dx%d}, ", w, i)
		}
		runs.WriteString("]}\n")
	}
	return "stowright: 1\nunit: in\npractice: {from: inch-shop}\n" +
		"families: {f: {depth: 18, top-line: 34 1/2, stands-on: {kind: toe, height: 4, recess: 3}, joining: {front: 2, rear: 2, low: 2, high: 2}}}\n" +
		"walls:\n" + places.String() + "cases:\n" + cases.String() + "runs:\n" + runs.String()
}
