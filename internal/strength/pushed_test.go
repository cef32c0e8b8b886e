package strength_test

import (
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/part"
	"stowright/internal/strength"
)

// hooked is a free bench of two layers with a hook board on it.
func hooked(more string) string {
	return strings.Replace(bench("birch-18", 1500), "layers: [{board: birch-18}]", "layers: [{board: birch-18}, {board: birch-18}]", 1) +
		"hutches:\n  h:\n    on: bench\n    width: 1500\n    height: 700\n    board: birch-6\n    frame: spruce-strip\n    goods: [tools]\n" + more +
		"goods:\n  tools: {width: 150, depth: 60, height: 300, weighs: 1 kg, count: 12, lies: hung}\n"
}

// A hook board that stands on its screws alone, pushed over by 222 N at its top, by hand: it turns about the front
// of its lowest rail, its screws 10 mm and a half behind that (half of 21 mm), each held by the lesser of its
// thread (NDS 2018 12.2) and its head (12.2.5), × 1.6. No such frame stands.
func TestHookBoardOnItsScrewsAloneByHand(t *testing.T) {
	in := whole(t, hooked(""))
	f := find(t, strength.Check(in), strength.TipOver, "hutch/h")
	if f.Verdict != finding.Fails || f.Severity != finding.Error {
		t.Fatal(say(f))
	}
	rear, own, centre := 0.0, 0.0, 0.0
	for _, o := range in.All.Owners {
		if o.ID == "h" {
			rear = mmOf(o.Box.Max.Y)
		}
	}
	for _, p := range in.All.Parts {
		if p.Owner == "h" {
			kg := in.Masses[p.Mark].Kilograms()
			own += kg
			centre += kg * (rear - mmOf(p.Box().Min.Y+p.Box().Max.Y)/2)
		}
	}
	n, out := 0, 0.0
	for _, x := range in.All.Fixings {
		if x.Owner == "h" && x.Row == "counter" {
			n++
			p := one2(in, x.Part)
			out = rear - mmOf(p.Box().Min.Y)
			h, _ := in.Job.Catalogue.Item(x.Screw)
			d := mmOf(h.Dia) / 25.4
			thread := math.Min(mmOf(x.Into), mmOf(x.Length)*2/3)
			w := 2850 * 0.42 * 0.42 * d * thread / 25.4 * 4.4482216
			if h.Head > 0 {
				dh := mmOf(h.Head) / 25.4
				ts := math.Min(mmOf(x.Length-x.Into)/25.4, 2.5*dh)
				w = math.Min(w, 690*math.Pi*dh*0.42*0.42*ts*4.4482216)
			}
			own2 := w * 1.6 * (out - (rear - mmOf(x.At.Y))) / 1000
			out += 0
			centre += own2 * 1000 / g // as a mass at a metre's lever, in kg·mm
		}
	}
	if n < 2 {
		t.Fatalf("%d screws into the counter", n)
	}
	b := 0.0
	for _, y := range in.All.Bays {
		if y.Owner == "h" {
			b = rear - mmOf(y.Box.Min.Y+y.Box.Max.Y)/2
		}
	}
	near(t, "what tips it", f.Demand, (222*700+12*g*(b-out))/1000)
	// own × out - Σ m c, with the screws' moment put in above with the other sign.
	sum := 0.0
	for _, p := range in.All.Parts {
		if p.Owner == "h" {
			sum += in.Masses[p.Mark].Kilograms() * (out - (rear - mmOf(p.Box().Min.Y+p.Box().Max.Y)/2))
		}
	}
	screws := centre
	for _, p := range in.All.Parts {
		if p.Owner == "h" {
			screws -= in.Masses[p.Mark].Kilograms() * (rear - mmOf(p.Box().Min.Y+p.Box().Max.Y)/2)
		}
	}
	near(t, "what holds it", f.Capacity, (sum+screws)*g/1000)
	if own <= 0 {
		t.Error("no weight")
	}
}

func one2(in strength.Input, mark string) part.Part {
	for _, p := range in.All.Parts {
		if p.Mark == mark {
			return p
		}
	}
	return part.Part{}
}

// The brace that is advised is said in the job and built: the frame stands, at the ratio that was printed; a
// shorter one, and one whose plates have lost their screws, do not.
func TestBraceAsAdvised(t *testing.T) {
	f := find(t, strength.Check(whole(t, hooked(""))), strength.TipOver, "hutch/h")
	m := regexp.MustCompile(`brace: (\S+) mm \(ratio (\S+)\)`).FindStringSubmatch(f.Hint)
	if m == nil {
		t.Fatal(say(f))
	}
	built := whole(t, hooked("    brace: "+m[1]+"\n"))
	y := find(t, strength.Check(built), strength.TipOver, "hutch/h")
	if want := number([]string{"", m[2]}); y.Verdict == finding.Fails || math.Abs(y.Ratio()-want) > 0.03 {
		t.Errorf("%s: built %s", f.Hint, say(y))
	}
	short := find(t, strength.Check(whole(t, hooked("    brace: 150\n"))), strength.TipOver, "hutch/h")
	if short.Ratio() <= y.Ratio() {
		t.Errorf("a brace of 150 mm is as good: %s", say(short))
	}
	loose := changed(built, func(a *part.Assembly) {
		for i, j := range a.Joints {
			if x, y := one2(built, j.A), one2(built, j.B); x.Role == part.Frame && y.Role == part.Frame && strings.Contains(x.Name+y.Name, "brace") {
				a.Joints[i].Count = 1
			}
		}
	})
	if z := find(t, strength.Check(loose), strength.TipOver, "hutch/h"); z.Verdict != finding.Fails {
		t.Errorf("plates on one screw each: %s", say(z))
	}
}

// The screws of a plate as a group that turns, by hand: n in a row, each by its distance from the middle; three at
// 100 mm carry two outer ones on 100 mm each and none in the middle.
func TestRackingOfFramesByHand(t *testing.T) {
	in := whole(t, hooked(""))
	f := find(t, strength.Check(in), strength.Racking, "hutch/h")
	if !strings.Contains(f.Text, "goes round its back by screws") {
		t.Error(say(f))
	}
	// The bench under it: what its screws alone hold is said, and it is not known to be enough.
	for _, x := range strength.Check(in).With(strength.Racking) {
		if x.Verdict == finding.NotKnown && !strings.Contains(x.Text, "which alone hold") {
			t.Error(say(x))
		}
	}
	if fmt.Sprint(f.Verdict) == "" {
		t.Error("no verdict")
	}
}

// A case that both its wall and its own back keep from folding goes by the better of the two: no worse than with either.
func TestRackingGoesByTheBetterWay(t *testing.T) {
	ratio := func(more string) float64 {
		text := strings.Replace(alone(floor+more+"    inside: {open: {}, load: 400 kg}\n"), "from: metric-shop", "from: inch-shop, unit: mm", 1)
		return find(t, strength.Check(whole(t, text)), strength.Racking, "case/a").Ratio()
	}
	wall, back, both := ratio(""), ratio("    free: standing\n    back: applied\n"), ratio("    back: applied\n")
	if both > min(wall, back)*1.001 || wall < 1.02*back {
		t.Errorf("by its wall %.2f, by its back %.2f, by both %.2f", wall, back, both)
	}
}
