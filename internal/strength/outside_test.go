package strength_test

import (
	"math"
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/part"
	"stowright/internal/strength"
)

// of gives the findings of a code.
func of(list finding.List, code finding.Code) (out finding.List) {
	for _, f := range list {
		if f.Code == code {
			out = append(out, f)
		}
	}
	return out
}

// Goods that must be locked, or could hurt a child, are behind no lock on the floor, a bench, a rail, a hook or in the
// open; where no children come in and nothing must be locked, nothing is said.
func TestNothingOutsideACaseIsLocked(t *testing.T) {
	for _, place := range []string{"floor", "open", "rail", "hook", "bench", "bracket"} {
		text := alone(floor+"    inside: {open: {}}\n") + "goods:\n  lye: {diameter: 80, height: 100, weighs: 1 kg, count: 1, LOCK hazards: [corrosive], place: " + place + "}\n"
		for lock, want := range map[string]int{"locked: yes,": 1, "": 0} {
			got := of(strength.Check(whole(t, strings.Replace(text, "LOCK", lock, 1))), strength.LockNeeded)
			if len(got) != want || want == 1 && (got[0].Verdict != finding.Fails || got[0].At != "goods/lye") {
				t.Errorf("place: %s, %q: %v", place, lock, got)
			}
		}
		young := strings.NewReplacer("LOCK", "", "children: no", "children: yes").Replace(text)
		if got := of(strength.Check(whole(t, young)), strength.LockNeeded); len(got) != 1 || got[0].Verdict != finding.Fails {
			t.Errorf("place: %s, where children come in: %v", place, got)
		}
	}
}

// What is to be apart and is put on one bench is not known to be.
func TestApartOnOneBench(t *testing.T) {
	text := alone(floor+"    inside: {open: {}}\n") + "goods:\n  oil: {diameter: 80, height: 100, weighs: 1 kg, count: 1, apart-from: [drill], place: bench}\n  drill: {diameter: 80, height: 100, weighs: 1 kg, count: 1, place: PLACE}\n"
	for place, want := range map[string]int{"bench": 1, "hook": 0} {
		got := of(strength.Check(whole(t, strings.Replace(text, "PLACE", place, 1))), strength.KeptApart)
		if len(got) != want || want == 1 && got[0].Verdict != finding.NotKnown {
			t.Errorf("place: %s: %v", place, got)
		}
	}
}

// Sparks fly round a corner; between walls that do not meet it is not known whether they do.
func TestSparksRoundACorner(t *testing.T) {
	text := func(corner string) string {
		side := "  side: {length: 3000, height: 2500, kind: stud, floor: {points: [{at: 0, height: 0}, {at: 3000, height: 0}]}" + corner + "}\n"
		return strings.Replace(alone(floor+"    inside: {open: {}, goods: [varnish]}\n"), "cases:\n", side+"cases:\n", 1) +
			"  b:\n    name: the other case\n    wall: side\n    at: 1000\n" + floor + "    inside: {open: {}, goods: [grinder]}\n" + burning
	}
	// The back wall's left end is the side wall's right: the one case starts 400 from the corner, the other ends
	// 3000 - 1600 from it. Pythagoras over the clear distances of the bays.
	got := of(strength.Check(whole(t, text(", corner: {with: back, at: right}"))), strength.SparksNear)
	if len(got) != 1 || got[0].Verdict != finding.Fails {
		t.Fatalf("round a corner: %v", got)
	}
	// Bays lie 18 in from a case's side, and their fronts on its front plane, 500 from the wall: x apart 0 (418 to 982
	// against 0 to 500 less), y apart 1400 + 18 - 500.
	if d := got[0].Capacity; math.Abs(d-(1400+18-500)) > 60 {
		t.Errorf("%.0f mm apart", d)
	}
	if got := of(strength.Check(whole(t, text(""))), strength.SparksNear); len(got) != 1 || got[0].Verdict != finding.NotKnown {
		t.Errorf("on walls that do not meet: %v", got)
	}
}

// A fixed shelf between two partitions is judged by its joints to them, each bringing half of it (statics).
func TestJointsToPartitions(t *testing.T) {
	in := whole(t, alone(strings.Replace(floor, "600", "1500", 1)+"    inside: {across: [{open: {}, load: 5 kg}, {width: 600, up: [{load: 5 kg}, {load: 60 kg}]}, {open: {}, load: 5 kg}]}\n"))
	mark, kg := "", 0.0
	for _, p := range in.All.Parts {
		if p.Role == part.FixedShelf {
			mark, kg = p.Mark, in.Masses[p.Mark].Kilograms()
		}
	}
	n := 0
	for _, f := range of(strength.Check(in), strength.CarcassJoint) {
		if strings.HasSuffix(f.At, mark) {
			n++
			near(t, "half of 60 kg and of the shelf", f.Demand, (60+kg)/2*g)
		}
	}
	if mark == "" || n != 1 {
		t.Errorf("%q: judged %d times", mark, n)
	}
}

// A base on feet: a foot between two cases takes a half of each, in front and behind by where their middle is (statics); it
// is judged as those of cases are, and a heavier load is never found lighter.
func TestFeetOfBases(t *testing.T) {
	text := func(load string) string {
		one := strings.Replace(floor, "{kind: feet, height: 100, recess: 50}", "{kind: base, height: 200}", 1) + "    inside: {open: {}, load: " + load + "}\n"
		return alone(one) + "  b:\n    name: the other case\n    wall: back\n    at: 1000\n" + one +
			"bases:\n  plinth: {under: [a, b], stock: birch-18, levels-by: feet, height: 200}\n"
	}
	var last float64
	for _, load := range []string{"10 kg", "40 kg", "300 kg"} {
		in := whole(t, text(load))
		got := of(strength.Check(in), strength.FootLoad)
		if len(got) != 1 || got[0].At != "base/plinth" {
			t.Fatalf("%s: %v", load, got)
		}
		if got[0].Demand <= last {
			t.Errorf("%s: %.1f kg on a foot, %.1f of less", load, got[0].Demand, last)
		}
		last = got[0].Demand
	}
	// Of 2 x 300 kg a foot under both cases takes a quarter of each at the least.
	if last < 2*300/4 || last > 2*300 {
		t.Errorf("%.1f kg on the most loaded", last)
	}
}
