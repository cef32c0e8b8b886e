package strength_test

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/part"
	"stowright/internal/strength"
)

// Where nothing is said of what is in a drawer, it is filled to what its slides carry and no more,
// and that is said. A load or goods that are stated are what they are.
func TestAssumedLoadIsWhatSlidesCarry(t *testing.T) {
	wide := alone(floor + "    inside: {drawers: {count: 2}%}\n")
	f := find(t, strength.Check(whole(t, strings.Replace(wide, "%", "", 1))), strength.SlideLoad, "in-drawer-1")
	if f.Verdict != finding.Near || f.Demand != f.Capacity || !strings.Contains(f.Text, "put no more than ") || !strings.Contains(strings.Join(f.Working, " "), "assumed: no more than the slides carry") {
		t.Errorf("%s: %v of %v: %s %q", f.Verdict, f.Demand, f.Capacity, f.Text, f.Working)
	}
	for _, load := range []string{", load: 60 kg", ", goods: [anvil]"} {
		text := strings.Replace(wide, "%", load, 1) + "goods:\n  anvil: {width: 300, depth: 200, height: 150, weighs: 60 kg, count: 1}\n"
		if f := find(t, strength.Check(whole(t, text)), strength.SlideLoad, "in-drawer-1"); f.Verdict != finding.Fails || strings.Contains(f.Text, "put no more than") {
			t.Errorf("%s: %s: %s", load, f.Verdict, f.Text)
		}
	}
}

// What is over 1.5 times never reads as 1.50 times: widths of a case in steps of a millimetre, over slides of 400 mm.
func TestARatioReadsAsItIsJudged(t *testing.T) {
	failed, passed := 0, 0
	for w := 655; w <= 668; w++ {
		text := alone(strings.Replace(floor, "600", strconv.Itoa(w), 1) + "    inside: {drawers: {count: 2}, load: 8 kg}\n")
		f := find(t, strength.Check(whole(t, text)), strength.DrawerWide, "in-drawer-1")
		if f.Verdict != finding.Fails {
			passed++
			continue
		}
		failed++
		if strings.Contains(f.Text, " 1.50 times") {
			t.Errorf("%d wide fails: %s", w, f.Text)
		}
	}
	if failed == 0 || passed == 0 {
		t.Errorf("%d fail and %d pass: the widths are not about the limit", failed, passed)
	}
}

// Coats of 2 kg, one every 50 mm, are 40 kg on a metre of rail: 1000 mm wide less two sides of 17.7 and two
// flanges' play leave 964.6 at the most. What a bay's floor is taken to carry is not hung on the rail.
func TestNobodySaysWhatHangs(t *testing.T) {
	text := alone(strings.Replace(floor, "600", "1000", 1) + "    inside: {hanging: {}}\n")
	f := find(t, strength.Check(whole(t, text)), strength.HangingRail, "rail1")
	var kg float64
	for _, w := range f.Working {
		if i := strings.LastIndex(w, "): "); strings.HasPrefix(w, "Load: assumed: heavy coats") && i > 0 {
			fmt.Sscanf(w[i+3:], "%f kg", &kg)
		}
	}
	if kg < 0.040*940 || kg > 0.040*964.6 || !strings.Contains(f.Text, "assumed") {
		t.Errorf("%v kg hang on it: %s %v", kg, f.Text, f.Working)
	}
}

// What counts of a rating on a wide drawer, by hand: all of it to the slides' length, then by length over width, and
// three quarters at the most from 24 in on; a wider drawer is never better. Slides whose maker rates them for the
// width count in full.
func TestSlidesOnAWideDrawer(t *testing.T) {
	job := func(width int, more string) strength.Input {
		text := strings.Replace(floor, "600", strconv.Itoa(width), 1) + "    inside: {drawers: {count: 2, slide: side-slide-45}, load: 8 kg}\n"
		return whole(t, strings.Replace(alone(text), "boards:\n", "hardware: {side-slide-45: {lengths: [450]"+more+"}}\nboards:\n", 1))
	}
	last, some := 0.0, [3]int{}
	step := 10
	if testing.Short() {
		step = 50
	}
	for width := 300; width <= 1000; width += step {
		in := job(width, "")
		f := find(t, strength.Check(in), strength.SlideLoad, "in-drawer-1")
		box := 0.0
		for _, p := range in.All.Parts {
			if p.Role == part.BoxBottom {
				box = mmOf(p.Box().Size().X)
			}
		}
		want := 45.0
		switch {
		case box > 609.6 && 450/box > 0.75:
			t.Errorf("%d: 450 mm are no less than three quarters of 24 in", width)
		case box > 450:
			want *= 450 / box
			some[1]++
		default:
			some[0]++
		}
		if f.Capacity < want*0.999 || f.Capacity > want*1.001 {
			t.Errorf("%d wide, box %.1f: %v counts, not %.2f", width, box, f.Capacity, want)
		}
		if f.Ratio() < last {
			t.Errorf("%d wide is better than narrower: %s", width, say(f))
		}
		last = f.Ratio()
		if g := find(t, strength.Check(job(width, ", rated-to: 1100")), strength.SlideLoad, "in-drawer-1"); g.Capacity != 45 {
			t.Errorf("rated for the width: %s", say(g))
		}
	}
	if some[0] == 0 || some[1] == 0 {
		t.Errorf("widths on both sides of the length: %v", some)
	}
	// 24 in and more, on slides as long.
	long := func(width string) finding.Finding {
		text := strings.NewReplacer("600", width, "500", "800").Replace(floor) + "    inside: {drawers: {count: 2, slide: side-slide-45}, load: 8 kg}\n"
		return find(t, strength.Check(whole(t, alone(text))), strength.SlideLoad, "in-drawer-1")
	}
	if f := long("660"); f.Capacity != 45 {
		t.Errorf("less than 24 in wide on slides of 700: %s", say(f))
	}
	if f := long("700"); f.Capacity != 33.75 || !strings.Contains(strings.Join(f.Working, " "), "0.75 × 45.0 kg") {
		t.Errorf("24 in wide on slides of 700: %s", say(f))
	}
}
