package strength_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/mass"
	"stowright/internal/strength"
)

// Goods go where their wants are kept, when there is room: on three floors, 564 wide, of a case that stands 4 high the
// daily things keep to what the shortest user reaches, and what is to be low stays low.
func TestGoodsGoWhereTheirWantsAreKept(t *testing.T) {
	const cube = "{width: 100, depth: 100, height: 100, weighs: 1 kg, used: daily, count: %d}"
	tall := strings.Replace(floor, "height: 800", "height: 2200", 1)
	if tall == floor {
		t.Fatal("no such height")
	}
	check := func(count int) (reached, missed int) {
		job := alone(tall+"    inside: {shelves: {heights: [500, 1000, 1900]}, goods: [g]}\n") + "goods:\n  g: " + fmt.Sprintf(cube, count) + "\n"
		for _, f := range strength.Check(whole(t, job)).With(strength.OutOfReach) {
			switch f.Verdict {
			case finding.Holds:
				reached++
			case finding.Fails:
				missed++
			}
		}
		return reached, missed
	}
	// 20 to a floor: 40 go on the two within reach (456 to 1488), 41 do not.
	if a, b := check(40); a != 2 || b != 0 {
		t.Errorf("40: %d floors within reach, %d not", a, b)
	}
	if _, b := check(41); b == 0 {
		t.Error("41 are all within reach of 40")
	}
}

// Kinds share a floor side by side: 564 wide and less than 500 deep takes four of 100 × 390, laid 390 wide behind each
// other, and one of 170 beside them (560), not one of 180 (570; as columns of 100 they would take 580).
func TestKindsShareAFloor(t *testing.T) {
	for wide, want := range map[int]finding.Verdict{170: finding.Holds, 180: finding.NotKnown} {
		l := kept(t, "{open: {}, goods: [g, h]}", "{width: 100, depth: 390, height: 300, weighs: 1 kg, count: 4, lies: upright}",
			fmt.Sprintf("  h: {width: %d, depth: 390, height: 300, weighs: 1 kg, count: 1, lies: upright}\n", wide))
		ok := false
		for _, f := range l {
			ok = ok || strings.Contains(f.Text, "share") && f.Verdict == want
		}
		if !ok {
			t.Errorf("%d wide: want %s: %v", wide, want, l)
		}
	}
}

// What is said to find room does: whatever kinds share a floor, those that all find room on it cover no more than its
// area, each thing as it covers least, and fill no more than its volume.
func TestNothingFindsRoomThatIsNotThere(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	const wide, deep, high = 564.5, 500, 700 // no more than these
	seen := map[bool]int{}
	for range 60 {
		var goods, names []string
		area, volume := 0.0, 0.0
		for i := range 2 + r.IntN(3) {
			v := []int{20 + r.IntN(200), 20 + r.IntN(200), 20 + r.IntN(200)}
			count, stack := 1+r.IntN(25), 1+r.IntN(3)
			id := string(rune('p' + i))
			names = append(names, id)
			goods = append(goods, fmt.Sprintf("  %s: {width: %d, depth: %d, height: %d, weighs: 0.1 kg, count: %d, stack: %d}\n", id, v[0], v[1], v[2], count, stack))
			slices.Sort(v)
			volume += float64(count * v[0] * v[1] * v[2])
			area += math.Ceil(float64(count)/float64(stack)) * float64(v[0]*v[1])
		}
		job := alone(floor+"    inside: {open: {}, goods: ["+strings.Join(names, ", ")+"]}\n") + "goods:\n" + strings.Join(goods, "")
		for _, f := range strength.Check(whole(t, job)).With(strength.GoodsRoom) {
			if !strings.Contains(f.Text, " share ") {
				continue
			}
			seen[f.Verdict == finding.Holds]++
			if f.Verdict == finding.Holds && (area > wide*deep || volume > wide*deep*high) {
				t.Errorf("%s: %.0f mm² on %.0f, %.0f mm³\n%s", f.Text, area, wide*deep, volume, strings.Join(goods, ""))
			}
		}
	}
	if seen[true] < 5 || seen[false] < 5 {
		t.Errorf("some must find room and some must not: %v", seen)
	}
}

// Where everything goes and what carries it are one: of every bay in which goods find room, no check counts less than is
// put there. Each finding is compared with that of the same job with just so much stated for the bay.
func TestNoLessIsCountedThanIsPutAway(t *testing.T) {
	jobs := map[string]string{}
	for _, name := range names {
		jobs[name] = text(t, name)
	}
	for _, p := range must(filepath.Glob("../plan/testdata/surveys/*.yaml")) {
		jobs[filepath.Base(p)] = string(must(os.ReadFile(p)))
	}
	seen := 0
	for name, src := range jobs {
		in := input(read(t, name, src))
		here := map[string]mass.Mass{}
		weighs := map[string]*mass.Mass{}
		for _, g := range in.Job.Goods {
			weighs[g.ID] = g.Each
		}
		for _, x := range strength.Stow(in) {
			if kg := weighs[x.Goods]; kg != nil && x.Bay != "" {
				here[x.Bay] += mass.Mass(x.Count) * *kg
			}
		}
		stated := loaded(in, func(i int) mass.Mass {
			b := in.All.Bays[i]
			if b.Load > 0 {
				return b.Load
			}
			if here[b.ID] > 0 {
				seen++
			}
			return max(here[b.ID], mass.Gram)
		})
		worse(t, name+": what the bays hold and not what is put there", strength.Check(stated), strength.Check(in))
	}
	if seen < 60 {
		t.Errorf("%d bays with goods in all jobs", seen)
	}
}

// Goods are spread evenly over bays that are alike: no shelf that holds some holds two more than another that does, and no
// drawer two more than any other.
func TestBaysThatAreAlikeHoldAlike(t *testing.T) {
	for count := 1; count <= 60; count += 7 {
		for _, inside := range []string{"{shelves: {heights: [200, 400]}, goods: [g]}", "{drawers: {count: 3}, goods: [g]}"} {
			job := alone(floor+"    inside: "+inside+"\n") + fmt.Sprintf("goods:\n  g: {width: 60, depth: 60, height: 60, weighs: 0.1 kg, count: %d}\n", count)
			least, most, n := count, 0, 0
			for _, x := range strength.Stow(whole(t, job)) {
				least, most, n = min(least, x.Count), max(most, x.Count), n+1
			}
			if n < 3 && strings.Contains(inside, "drawers") {
				least = 0
			}
			if n == 0 || most-least > 1 {
				t.Errorf("%d in %s: %d in the fullest, %d in the emptiest", count, inside, most, least)
			}
		}
	}
}

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}
