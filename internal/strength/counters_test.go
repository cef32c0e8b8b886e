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

// overhung is a counter of one board on two cases, that stands out so far at its left end and its
// front.
func overhung(board string, left, front int) string {
	return alone(floor+"    inside: {open: {}, load: 8 kg}\n") + "  b:\n    name: the other\n    wall: back\n    at: 1000\n" + floor + "    inside: {open: {}, load: 8 kg}\n" +
		fmt.Sprintf("counters:\n  top:\n    over: [a, b]\n    layers: [{board: %s}]\n    over-left: %d\n    over-front: %d\n", board, left, front)
}

// at gives the finding of a code at a place.
func at(t *testing.T, list finding.List, c finding.Code, end string) finding.Finding {
	t.Helper()
	for _, f := range list.With(c) {
		if strings.HasSuffix(f.At, end) {
			return f
		}
	}
	t.Fatalf("no %s at %s", c, end)
	return finding.Finding{}
}

// A person on the corner of a counter that stands out over its last case, by hand: W a + q l²/2 over
// b t²/6, b the place and the arm, for the load spreads at 45 degrees to one side.
func TestPersonOnAnOverhang(t *testing.T) {
	in := whole(t, overhung("birch-18", 700, 20))
	p := one(t, in, part.CounterLayer)
	f := at(t, strength.Check(in), strength.CounterPerson, "/left end")
	out := 700 + 9. // to the middle of the side
	for _, q := range in.All.Parts {
		if q.Role == part.Side && q.Owner == "a" {
			out = math.Min(out, mmOf(q.Box().Min.X+q.Box().Max.X)/2-mmOf(p.Box().Min.X))
		}
	}
	size := p.Box().Size()
	deep, thick := mmOf(size.Y), mmOf(p.Size[2])
	arm := out - 125
	wide := math.Min(deep, 250+arm)
	pressure := 250*g*1e-6 + in.Masses[p.Mark].Kilograms()*g/mmOf(size.X)/deep // the practice's 250 kg/m² and its own weight
	near(t, "stress", f.Demand, (100*g*arm+pressure*out*out/2*wide)/(wide*thick*thick/6))
	near(t, "counted on", f.Capacity, 40.2*0.737/2.1*1.6)
	if f.Verdict != finding.Fails || !strings.Contains(f.Hint, "no more than ") {
		t.Fatal(say(f))
	}
	// Written in the job as advised it holds, with the ratio that was printed.
	var most, ratio float64
	if _, err := fmt.Sscanf(strings.SplitN(f.Hint, "no more than ", 2)[1], "%g mm, over-left: (ratio %g)", &most, &ratio); err != nil {
		t.Fatal(f.Hint, err)
	}
	built := at(t, strength.Check(whole(t, overhung("birch-18", int(most), 20))), strength.CounterPerson, "/left end")
	if built.Ratio() > 1 || math.Abs(built.Ratio()-ratio) > 0.01 {
		t.Errorf("advised %g mm, ratio %.2f: %s", most, ratio, say(built))
	}
	for _, f := range strength.Check(whole(t, overhung("birch-18", 100, 20))).With(strength.CounterPerson) {
		if strings.HasSuffix(f.At, "end") || strings.HasSuffix(f.At, "front") {
			t.Errorf("a person at the edge stands over the side: %s", say(f))
		}
	}
}

// The front of a counter stands out across its grain: birch plywood of 18 mm, 34.1 MPa.
func TestPersonOnAnOverhangingFront(t *testing.T) {
	f := at(t, strength.Check(whole(t, overhung("birch-18", 0, 900))), strength.CounterPerson, "/front")
	near(t, "counted on", f.Capacity, 34.1*0.737/2.1*1.6)
	if f.Verdict != finding.Fails {
		t.Error(say(f))
	}
	last := f.Ratio()
	for _, front := range []int{500, 200} {
		g := at(t, strength.Check(whole(t, overhung("birch-18", 0, front))), strength.CounterPerson, "/front")
		if g.Ratio() >= last {
			t.Errorf("less overhang is worse: %s", say(g))
		}
		last = g.Ratio()
	}
}

// A free bench with somebody on its front edge: 100 kg 40 mm past its legs against its own weight
// about their line, and a light one of a long overhang by feet that swing in.
func TestSomebodySitsOnABench(t *testing.T) {
	in := whole(t, bench("birch-18", 1500))
	f := find(t, strength.Check(in), strength.TipOver, "counter/bench")
	legs, kg, y, x := math.Inf(1), 0.0, 0.0, 0.0
	left := math.Inf(1)
	for _, p := range in.All.Parts {
		m := in.Masses[p.Mark].Kilograms()
		b := p.Box()
		kg += m
		y += m * mmOf(b.Min.Y+b.Max.Y) / 2
		x += m * mmOf(b.Min.X+b.Max.X) / 2
		if p.Role == part.Leg {
			legs, left = math.Min(legs, mmOf(b.Min.Y)), math.Min(left, mmOf(b.Min.X))
		}
	}
	top := one(t, in, part.CounterLayer).Box()
	near(t, "tips", f.Demand, 100*g*(legs-mmOf(top.Min.Y))/1000)
	near(t, "holds", f.Capacity, kg*g*(y/kg-legs)/1000)
	if f.Verdict == finding.Fails {
		t.Error(say(f))
	}
	rolls := whole(t, strings.Replace(bench("birch-18", 1500), "length: 1500", "length: 1500, feet: castor-75", 1))
	r := find(t, strength.Check(rolls), strength.TipOver, "counter/bench")
	// The wheel of 75 mm swings in a circle of 65 mm: it stands 27.5 mm beside its bolt.
	near(t, "on castors", r.Demand, 100*g*(legs-mmOf(top.Min.Y)+27.5)/1000)
}

// A castor whose swing nobody says gives no verdict, on a bench or under a case.
func TestCastorsOfUnknownSwing(t *testing.T) {
	for _, text := range []string{rolling("yes"), strings.Replace(bench("birch-18", 1500), "length: 1500", "length: 1500, feet: wheel", 1)} {
		if !strings.Contains(text, "hardware:") {
			text = strings.Replace(text, "boards:\n", "hardware:\n  wheel: {kind: castor, name: a castor, diameter: 75 mm, height: 100 mm, rating: 50 kg, swivel: 65 mm, locks: yes, screws-each: 4}\nboards:\n", 1)
		}
		if f := find(t, strength.Check(whole(t, text)), strength.TipOver, "/"); f.Verdict == finding.NotKnown {
			t.Error(say(f))
		}
		for _, f := range strength.Check(whole(t, swap(t, text, "swivel: 65 mm, ", ""))).With(strength.TipOver) {
			if f.Verdict != finding.NotKnown || !strings.Contains(f.Text, "the circle that wheel swings in") {
				t.Error(say(f))
			}
		}
	}
}

// A bench with a hook board on it goes over as one where somebody pushes the board's top, by hand: the frame's hold on the
// bench is one thing, what both weigh another (statics; 222.4 N, 50 lb, as every hook board is pushed). Angles at its legs
// hold it: those away from the line that it turns about, each as much as it is rated for.
func TestABenchGoesOverWithItsHookBoard(t *testing.T) {
	in := whole(t, hooked("    brace: 500\n"))
	f := find(t, strength.Check(in), strength.TipOver, "counter/bench")
	for _, x := range strength.Check(in).With(strength.TipOver) {
		if strings.Contains(x.Text, "with h on it") {
			f = x
		}
	}
	front, kg, y, high := math.Inf(1), 0.0, 0.0, 0.0
	for _, p := range in.All.Parts {
		m, b := in.Masses[p.Mark].Kilograms(), p.Box()
		kg += m
		y += m * mmOf(b.Min.Y+b.Max.Y) / 2
		high = math.Max(high, mmOf(b.Max.Z))
		if p.Role == part.Leg {
			front = math.Min(front, mmOf(b.Min.Y))
		}
	}
	const push = 50 * 0.45359237 * 9.80665  // N
	holds := kg * g * (y/kg - front) / 1000 // it stands at a wall: the other way it leans on that
	if f.Verdict != finding.Fails || f.Severity != finding.Error || !strings.Contains(f.Text, "with h on it") {
		t.Errorf("%s", say(f))
	}
	near(t, "demand", f.Demand, push*high/1000)
	near(t, "capacity", f.Capacity, holds)
	// With angles: what is not rated is not known, whatever else is.
	held := strings.Replace(hooked("    brace: 500\n"), "free: {", "free: {floor: anchor-sleeve-10, ", 1)
	in = whole(t, held)
	unknown := false
	for _, x := range strength.Check(in).With(strength.TipOver) {
		unknown = unknown || x.Verdict == finding.NotKnown && strings.Contains(x.Text, "angles at its legs")
		if strings.Contains(x.Text, "with h on it") && x.Verdict != finding.NotKnown {
			t.Errorf("judged without a rating: %s", say(x))
		}
	}
	if !unknown {
		t.Error("nothing says that what the angles hold is not known")
	}
	in = whole(t, strings.Replace(held, "boards:\n", "hardware:\n  floor-angle: {rating: 60 kg}\n  anchor-sleeve-10: {rating: 30 kg}\nboards:\n", 1))
	kg, y, front = 0, 0, math.Inf(1)
	rear := math.Inf(-1)
	for _, p := range in.All.Parts {
		m, b := in.Masses[p.Mark].Kilograms(), p.Box()
		kg += m
		y += m * mmOf(b.Min.Y+b.Max.Y) / 2
		if p.Role == part.Leg {
			front, rear = math.Min(front, mmOf(b.Min.Y)), math.Max(rear, mmOf(b.Min.Y+b.Max.Y)/2)
		}
	}
	angles := 0.0 // two near the line and two away from it, each by its distance
	for _, x := range in.All.Fixings {
		if x.Kind == part.ToFloor {
			a := mmOf(x.At.Y) - front
			angles += 30 * g * a * a / (rear - front) / 1000
		}
	}
	for _, x := range strength.Check(in).With(strength.TipOver) {
		if strings.Contains(x.Text, "with h on it") {
			near(t, "capacity with angles", x.Capacity, kg*g*(y/kg-front)/1000+angles)
			return
		}
	}
	t.Error("a bench with angles is not judged")
}
