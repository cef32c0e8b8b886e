package strength_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/part"
	"stowright/internal/strength"
)

// split is a case of two bays, one of 300 wide, with two loose shelves in each.
func split(body string, left, right float64) string {
	return alone(body + fmt.Sprintf("    inside: {across: [{width: 200, shelves: {count: 2}, load: %v kg}, {shelves: {count: 2}, load: %v kg}]}\n", left, right))
}

// byHand adds up what the bottom of a split case carries, in kg by mm from the inside of its left side: the loads of
// both bays spread over their own widths, its own weight over the whole, and at the partition its weight, half of each
// shelf and half of what stands on it (statics), and a top's middle support.
func byHand(t *testing.T, in strength.Input, left, right float64) (wide, at, brings, own float64) {
	t.Helper()
	var bottom, mid *part.Part
	shelves := 0.0
	for i := range in.All.Parts {
		p := &in.All.Parts[i]
		kg := in.Masses[p.Mark].Kilograms()
		switch p.Role {
		case part.Bottom:
			bottom, own = p, kg
		case part.Partition:
			mid, brings = p, brings+kg
		case part.Shelf:
			shelves += kg / 2
		case part.Top: // runs on over the partition: 10/8 of the half that is nearer to it than to a side
			brings += kg / 2 * 1.25
		}
	}
	if bottom == nil || mid == nil || shelves == 0 {
		t.Fatal("the case has no bottom, partition or shelves")
	}
	const mm = 40_000.0 // ticks
	b, m := bottom.Box(), mid.Box()
	wide = float64(b.Max.X-b.Min.X) / mm
	at = float64(m.Min.X+m.Max.X)/2/mm - float64(b.Min.X)/mm
	return wide, at, brings + shelves + 2*(left+right)/2, own
}

// A partition brings the bottom of a wall case half of every shelf beside it, and a heavy bay loads the side that it
// is beside: each end's joint carries its share by the law of the lever, not half of what stands on the bottom alone.
func TestAPartitionLoadsTheJointsOfTheBottom(t *testing.T) {
	for _, c := range [][2]float64{{6, 6}, {20, 2}, {2, 20}} {
		in := whole(t, split(wall, c[0], c[1]))
		wide, at, brings, own := byHand(t, in, c[0], c[1])
		thick := 17.7
		lm, rm := (at-thick/2)/2, (at+thick/2+wide)/2 // middles of the bays
		toLeft := own/2 + c[0]*(1-lm/wide) + c[1]*(1-rm/wide) + brings*(1-at/wide)
		want := math.Max(toLeft, own+c[0]+c[1]+brings-toLeft) * 9.80665
		f := find(t, strength.Check(in), strength.CarcassJoint, "bottom")
		if math.Abs(f.Demand/want-1) > 0.01 {
			t.Errorf("%v kg: the worse end carries %.1f N, by hand %.1f N: %v", c, f.Demand, want, f.Working)
		}
	}
}

// The bottom of a floor case on a toe recess spans from side to side: a partition loads it at one point (Roark, beam
// on two supports, off-centre load) and unlike bays load it on their own stretches.
func TestAPartitionBendsTheBottom(t *testing.T) {
	const toe = "    width: 700\n    height: 800\n    depth: 400\n    stands-on: {kind: toe, height: 100, recess: 50}\n    back: captured\n"
	for _, c := range [][2]float64{{5, 5}, {24, 1}} {
		in := whole(t, split(toe, c[0], c[1]))
		wide, at, brings, own := byHand(t, in, c[0], c[1])
		f := find(t, strength.Check(in), strength.ShelfSag, "bottom")
		var depth, thick, e float64
		for _, w := range f.Working {
			if i := strings.Index(w, "Board: "); i >= 0 {
				fmt.Sscanf(w[strings.Index(w, "grain, ")+7:], "%f mm thick and %f mm deep, E %f MPa", &thick, &depth, &e)
			}
		}
		if e == 0 {
			t.Fatal(f.Working)
		}
		// Sag at x of a load at a, by the formula for one load on two supports, summed over thin slices.
		ei, sag := e*depth*thick*thick*thick/12, 0.0
		one := func(p, a, x float64) float64 {
			if x > a {
				x, a = wide-x, wide-a
			}
			b := wide - a
			return p * b * x * (wide*wide - b*b - x*x) / (6 * ei * wide)
		}
		for x := wide * 0.3; x <= wide*0.7; x += wide / 100 {
			s := one(brings*9.80665, at, x)
			const n = 200
			for i := range n {
				a := (float64(i) + 0.5) / n * wide
				kg := own / n
				switch edge := at; {
				case a < edge-thick/2:
					kg += c[0] / (edge - thick/2) * wide / n
				case a > edge+thick/2:
					kg += c[1] / (wide - edge - thick/2) * wide / n
				}
				s += one(kg*9.80665, a, x)
			}
			sag = math.Max(sag, s)
		}
		final := sag * 1.8 // plywood indoors, EN 1995-1-1
		if f.Demand < final || f.Demand > final*1.05 {
			t.Errorf("%v kg: %.2f mm, by hand %.2f mm without shear: %v", c, f.Demand, final, f.Working)
		}
		if !strings.Contains(f.Text, "1 partition that brings") {
			t.Error(f.Text)
		}
	}
}

// More in a bay never makes the bottom or its joints better, wherever the bay lies.
func TestMoreBesideAPartitionIsNeverBetter(t *testing.T) {
	for _, code := range []finding.Code{strength.CarcassJoint, strength.ShelfSag, strength.ShelfStrength} {
		was := -1.0
		for _, kg := range []float64{1, 3, 9, 20} {
			f := find(t, strength.Check(whole(t, split(wall, kg, 4))), code, "bottom")
			if f.Ratio() < was {
				t.Errorf("%s: %v kg: ratio %.3f after %.3f", code, kg, f.Ratio(), was)
			}
			was = f.Ratio()
		}
	}
}

// The bottom of a floor case that hangs between its sides goes by its joints as that of a wall case does: half of
// it and of its load to each side (statics). On a base, which lies under it, nothing goes by them.
func TestTheBottomOfAFloorCaseHangsOnItsJoints(t *testing.T) {
	const feet = "    width: 600\n    height: 800\n    depth: 500\n    stands-on: {kind: %s}\n    inside: {open: {}, load: 60 kg}\n"
	in := whole(t, alone(fmt.Sprintf(feet, "toe, height: 100, recess: 50")))
	own := 0.0
	for _, p := range in.All.Parts {
		if p.Role == part.Bottom {
			own = in.Masses[p.Mark].Kilograms()
		}
	}
	f := find(t, strength.Check(in), strength.CarcassJoint, "A.bottom")
	if want := (own + 60) / 2 * 9.80665; math.Abs(f.Demand/want-1) > 0.01 {
		t.Errorf("%s: by hand %.0f N", say(f), want)
	}
	based := alone(fmt.Sprintf(feet, "base")) + "bases:\n  b: {under: [a], height: 90}\n"
	if l := strength.Check(whole(t, based)).With(strength.CarcassJoint); len(l) > 0 {
		t.Errorf("on a base: %v", l)
	}
}

// A foot under a partition takes what that brings, shared with the one behind it (statics): half of the shelves of both
// bays, which is more than a sixth of the case.
func TestFeetUnderAPartition(t *testing.T) {
	const wide = "    width: 1000\n    height: 800\n    depth: 400\n    stands-on: {kind: feet, height: 100, recess: 50}\n    inside: {across: [{shelves: {count: 5}, load: 12 kg}, {shelves: {count: 5}, load: 12 kg}]}\n"
	in := whole(t, alone(wide))
	kg := 0.0
	for _, p := range in.All.Parts {
		switch m := in.Masses[p.Mark].Kilograms(); p.Role {
		case part.Partition:
			kg += m
		case part.Shelf:
			kg += m/2 + 12.0/2
		}
	}
	under := 0
	for _, x := range in.All.Feet {
		if x.Owner == "a" {
			under++
		}
	}
	if under != 6 {
		t.Fatalf("%d feet, want three pairs", under)
	}
	f := find(t, strength.Check(in), strength.FootLoad, "case/a")
	if math.Abs(f.Demand/(kg/2)-1) > 0.05 {
		t.Errorf("%s: by hand %.1f kg on each of the two", say(f), kg/2)
	}
	if !strings.Contains(strings.Join(f.Working, " "), "under a partition") {
		t.Error(f.Working)
	}
}
