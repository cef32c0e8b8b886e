package strength_test

import (
	"fmt"
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/strength"
)

// kept gives what is said of goods in a case of which the inside is 564 mm wide (600 less two boards of 18).
func kept(t *testing.T, inside, goods string, more ...string) finding.List {
	t.Helper()
	l := strength.Check(whole(t, alone(floor+"    inside: "+inside+"\n")+"goods:\n  g: "+goods+"\n"+strings.Join(more, "")))
	return append(append(l.With(strength.GoodsRoom), l.With(strength.GoodsHeight)...), l.With(strength.GoodsWith)...)
}

// Worked by hand: how many go into a bay, which is 564 mm wide and more than 400 and less than 500 deep.
func TestGoodsByHand(t *testing.T) {
	for _, c := range []struct {
		inside, goods string
		want          finding.Verdict
		says          string
	}{
		// 5 across (564 / 100), 4 deep: 20 on the floor, 40 with two on each other.
		{"{open: {}, goods: [g]}", "{width: 100, depth: 100, height: 100, weighs: 1 kg, count: 20}", finding.Holds, "rows of 20"},
		{"{open: {}, goods: [g]}", "{width: 100, depth: 100, height: 100, weighs: 1 kg, count: 40, stack: 2}", finding.Holds, "rows of 40"},
		{"{open: {}, goods: [g]}", "{width: 100, depth: 100, height: 100, weighs: 1 kg, count: 29}", finding.Fails, "rows take 20"},
		{"{open: {}, goods: [g]}", "{width: 100, depth: 100, height: 100, weighs: 1 kg, count: 22}", finding.NotKnown, "to be tried"},
		// 20 find room, but the load stated is that of 15, or of none.
		{"{open: {}, load: 15 kg, goods: [g]}", "{width: 100, depth: 100, height: 100, weighs: 1 kg, count: 15}", finding.Holds, "rows of 15"},
		{"{open: {}, load: 15 kg, goods: [g]}", "{width: 100, depth: 100, height: 100, weighs: 1 kg, count: 16}", finding.Fails, "room for 15"},
		{"{open: {}, load: 15 kg, goods: [g]}", "{width: 100, depth: 100, height: 100, weighs: 16 kg, count: 1}", finding.Fails, "more than the load stated"},
		// What finds no room may be kept in the open besides.
		{"{open: {}, goods: [g]}", "{width: 100, depth: 100, height: 100, weighs: 1 kg, count: 30, place: open}", finding.Holds, "in the open: there is room for 10 from "},
		{"{open: {}, goods: [g]}", "{width: 100, depth: 100, height: 100, weighs: 1 kg, count: 20, place: open}", finding.Holds, "rows of 20"},
		// Nothing of 600 goes in a width of 564, unless it may be stood on end: the case is some 680 high inside.
		{"{open: {}, goods: [g]}", "{width: 600, depth: 100, height: 100, weighs: 1 kg, count: 1, lies: flat}", finding.Fails, "none goes into"},
		{"{open: {}, goods: [g]}", "{width: 600, depth: 100, height: 100, weighs: 1 kg, count: 1, lies: any}", finding.Holds, "rows of"},
		{"{open: {}, goods: [g]}", "{width: 900, depth: 900, height: 900, weighs: 1 kg, count: 1}", finding.Fails, "none goes into"},
		// What hangs needs something to hang on, and a rail takes it: 5 side by side (564 / 100), not 6.
		{"{open: {}, goods: [g]}", "{width: 100, depth: 100, height: 300, weighs: 1 kg, count: 1, lies: hung}", finding.Fails, "to hang"},
		{"{hanging: {}, goods: [g]}", "{width: 100, depth: 100, height: 300, weighs: 1 kg, count: 5, lies: hung}", finding.Holds, "rows of 5"},
		{"{hanging: {}, goods: [g]}", "{width: 100, depth: 100, height: 300, weighs: 1 kg, count: 6, lies: hung}", finding.Fails, "room for 5"},
		// Bored holes take one each: some 32 to a shelf, on three shelves.
		{"{can-shelves: {diameter: 70, height: 200}, goods: [g]}", "{diameter: 70, height: 200, weighs: 0.4 kg, count: 200}", finding.Fails, "rows take 96"},
		{"{open: {}, goods: [g]}", "{weighs: 1 kg, count: 1}", finding.NotKnown, "size"},
		{"{open: {}, goods: [g]}", "{width: 100, depth: 100, height: 100, weighs: 1 kg, count: 1, above: 900}", finding.Fails, "no lower than 900 mm"},
		{"{open: {}, goods: [g]}", "{width: 100, depth: 100, height: 100, weighs: 1 kg, count: 1, below: 150}", finding.Fails, "no higher than 150 mm"},
		{"{open: {}, goods: [g]}", "{width: 100, depth: 100, height: 100, weighs: 1 kg, count: 1, below: 300}", finding.Holds, "no higher than 300 mm"},
	} {
		l := kept(t, c.inside, c.goods)
		ok := false
		for _, f := range l {
			ok = ok || f.Verdict == c.want && strings.Contains(f.Text, c.says)
		}
		if !ok {
			t.Errorf("%s, %s: want %s %q, got %v", c.inside, c.goods, c.want, c.says, l)
		}
	}
}

// Nothing that the job says of goods in the open passes unsaid, and goods that share a bay are added up: by volume
// no arrangement holds twice what there is.
func TestGoodsAreNeverPassedOver(t *testing.T) {
	for _, place := range []string{"floor", "bench", "bracket", "hook"} {
		l := kept(t, "{open: {}}", "{width: 100, depth: 100, height: 100, weighs: 1 kg, count: 1, place: "+place+", above: 500}")
		said := map[finding.Code]bool{}
		for _, f := range l {
			said[f.Code] = said[f.Code] || f.Verdict == finding.NotKnown || f.Verdict == finding.Fails
			if strings.Contains(f.Text, "there is room for 1 from") { // on a wall as high as above: asks
				said[f.Code] = true
				said[strength.GoodsHeight] = said[strength.GoodsHeight] || strings.Contains(f.Text, "mm up")
			}
		}
		if !said[strength.GoodsRoom] || !said[strength.GoodsHeight] {
			t.Errorf("on the %s: %v", place, l)
		}
	}
	// Each kind by itself fills three quarters of the bay: 5 × 4 × 6 cubes of 100 mm, of about 690 mm height.
	const cubes = "{width: 100, depth: 100, height: 100, weighs: 1 kg, count: %d, stack: 9}"
	for count, want := range map[int]finding.Verdict{100: finding.Fails, 20: finding.Holds} {
		l := kept(t, "{open: {}, goods: [g, h]}", fmt.Sprintf(cubes, count), "  h: "+fmt.Sprintf(cubes, count)+"\n")
		ok := false
		for _, f := range l {
			ok = ok || strings.Contains(f.Text, "share") && f.Verdict == want
		}
		if !ok {
			t.Errorf("twice %d: want %s: %v", count, want, l)
		}
	}
}

// More things never find room where fewer did not, and leave to stand on each other never takes room away.
func TestMoreGoodsAreNeverEasier(t *testing.T) {
	rank := map[finding.Verdict]int{finding.Holds: 0, finding.Near: 0, finding.NotKnown: 1, finding.Fails: 2}
	verdict := func(w, d, h, count, stack int) int {
		l := kept(t, "{shelves: {count: 2}, goods: [g]}", fmt.Sprintf("{width: %d, depth: %d, height: %d, weighs: 0.1 kg, count: %d, stack: %d}", w, d, h, count, stack))
		if len(l) != 1 {
			t.Fatal(l)
		}
		return rank[l[0].Verdict]
	}
	seen := map[int]bool{}
	for _, v := range [][3]int{{100, 80, 60}, {300, 200, 150}, {560, 430, 30}, {170, 150, 110}} {
		for _, stack := range []int{1, 3} {
			last := 0
			for _, count := range []int{1, 13, 17, 40, 70, 900} {
				now := verdict(v[0], v[1], v[2], count, stack)
				seen[now] = true
				if now < last {
					t.Errorf("%v, stack %d: %d are easier than fewer", v, stack, count)
				}
				if stack == 1 && verdict(v[0], v[1], v[2], count, 3) > now {
					t.Errorf("%v: %d find less room when they may be stacked", v, count)
				}
				if verdict(v[1], v[0], v[2], count, stack) != now {
					t.Errorf("%v, %d: turned round they are another thing", v, count)
				}
				last = now
			}
		}
	}
	if len(seen) < 3 {
		t.Errorf("verdicts seen: %v", seen)
	}
}
