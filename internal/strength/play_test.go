package strength_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/length"
	"stowright/internal/stock"
	"stowright/internal/strength"
)

// A bay takes what leaves free over it what its lid, a size that is a little off and the sag of the board above take up: 10 mm
// under a board, 3 mm in a drawer, which comes out; and what is a little smaller than its width. Nothing is taken for it on
// hooks. Common practice, no source.
func TestGoodsHavePlay(t *testing.T) {
	const bay = "{up: [{height: 300, open: {}, goods: [g]}, {open: {}}]}" // 300 clear, 564 wide
	for _, c := range []struct {
		wide, high, stack int
		want              finding.Verdict
		says              string
	}{
		{100, 290, 1, finding.Holds, "rows of 20"},
		{100, 291, 1, finding.Fails, "300 mm: they need 10 mm free over them and 2 mm beside"},
		{100, 301, 1, finding.Fails, "none goes into"},
		{562, 290, 1, finding.Holds, "rows of 4"},
		{564, 290, 1, finding.Fails, "free over them"},
		{100, 145, 2, finding.Holds, "rows of 40"},
		{100, 146, 2, finding.Fails, "rows take 20"},
	} {
		count := 1
		if c.stack > 1 {
			count = 40
		}
		l := kept(t, bay, fmt.Sprintf("{width: %d, depth: 100, height: %d, weighs: 1 kg, count: %d, stack: %d, lies: upright}", c.wide, c.high, count, c.stack))
		ok := false
		for _, f := range l {
			ok = ok || f.Verdict == c.want && strings.Contains(f.Text, c.says)
		}
		if !ok {
			t.Errorf("%d wide, %d high: want %s %q, got %v", c.wide, c.high, c.want, c.says, l)
		}
	}
}

// What the examples put in their bays comes in and out: over each thing, or the highest of a stack, the board above is 10 mm
// up, 3 mm where the bay comes out by itself.
func TestExamplesLeavePlay(t *testing.T) {
	n := 0
	for _, name := range names {
		in := input(read(t, name, text(t, name)))
		for _, w := range strength.Stow(in) {
			g := in.Job.Goods[slices.IndexFunc(in.Job.Goods, func(g stock.Goods) bool { return g.ID == w.Goods })]
			for _, b := range in.All.Bays {
				if b.ID != w.Bay || b.Hung || len(b.Places) > 0 || g.Tall == nil || w.High == 0 {
					continue
				}
				each, play := *g.Tall, 10*length.MM
				if w.Lying {
					each = w.Up
				}
				if b.Moves != "" {
					play = 3 * length.MM
				}
				n++
				if free := b.Box.Size().Z - each*length.Length(w.High); free < play-length.MM/2 {
					t.Errorf("%s: %s in %s have %s over them", name, w.Goods, w.Bay, free.In(length.Millimetres))
				}
			}
		}
	}
	if n < 100 {
		t.Errorf("%d places looked at", n)
	}
}
