package strength_test

import (
	"math"
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/part"
	"stowright/internal/stock"
	"stowright/internal/strength"
)

// knee is a counter of layers over two cases with a knee space between, longer than its sheets.
func knee(layers string) string {
	return strings.Replace(alone(floor+"    inside: {open: {}, load: 8 kg}\n"), "    wall: back\n    at: 400\n", "", 1) +
		"  b:\n    name: the other case\n" + floor + "    inside: {open: {}, load: 8 kg}\n" +
		"runs:\n  floor: {wall: back, start: 400, order: [{case: a}, {knee: {width: 1200}}, {case: b}]}\n" +
		"counters:\n  top: {over: [floor], layers: [" + layers + "]}\n"
}

// joints are the places where pieces of a counter's layers meet, mm from its start, by the heights of layers.
func joints(in strength.Input) map[part.L][]float64 {
	list := map[part.L][]float64{}
	lo := math.Inf(1)
	for _, p := range in.All.Parts {
		if p.Role == part.CounterLayer {
			lo = math.Min(lo, mmOf(p.Box().Min.X))
		}
	}
	for _, p := range in.All.Parts {
		if x := mmOf(p.Box().Min.X) - lo; p.Role == part.CounterLayer && x > 1 {
			list[p.Box().Min.Z] = append(list[p.Box().Min.Z], x)
		}
	}
	return list
}

// Where a layer is butted over a knee space, only the other one carries, with a quarter of the whole's section
// modulus: the stress there is the moment at that place over b t²/6, which no whole counter would have.
func TestJointOverAKneeSpaceCarriesByTheOtherLayer(t *testing.T) {
	text := strings.Replace(knee("{board: short}, {board: short}"), "boards:\n", "boards:\n  short: {material: birch-plywood-18, called: 18, measures: 18, length: 1530, width: 1530}\n", 1)
	in := whole(t, text)
	n := 0
	for _, x := range joints(in) {
		n += len(x)
	}
	if n == 0 {
		t.Fatal("no layer has a joint")
	}
	list := strength.Check(in)
	jointed := find(t, list, strength.CounterPerson, "counter/top")
	// The same counter of sheets that are long enough.
	long := find(t, strength.Check(whole(t, strings.Replace(text, "length: 1530", "length: 4000", 1))), strength.CounterPerson, "counter/top")
	if r := jointed.Demand / long.Demand; r < 1.5 || r > 4.1 {
		t.Errorf("with joints %.2f MPa, whole %.2f: only what runs on carries at a joint, a quarter of the section", jointed.Demand, long.Demand)
	}
	words := strings.Join(jointed.Working, " ")
	if !strings.Contains(words, "only what runs on carries there, with 0.12 of the whole's stiffness") || !strings.Contains(words, "over the joint of the lower layer") {
		t.Error(words)
	}
	a, b := find(t, list, strength.ShelfSag, "counter/top"), find(t, strength.Check(whole(t, strings.Replace(text, "length: 1530", "length: 4000", 1))), strength.ShelfSag, "counter/top")
	if a.Demand <= b.Demand {
		t.Errorf("with joints it sags %.3f mm, whole %.3f mm", a.Demand, b.Demand)
	}
}

// One layer that is butted over the sides of the cases is no beam that runs on: over the knee space it sags as
// a board on two supports, 5 w L⁴/384EI, and its own weight is that of all its pieces.
func TestOneLayerIsHingedAtItsJoints(t *testing.T) {
	text := strings.Replace(knee("{board: short}"), "boards:\n", "boards:\n  short: {material: birch-plywood-18, called: 18, measures: 18, length: 1300, width: 1530}\n", 1)
	in := whole(t, text)
	f := find(t, strength.Check(in), strength.ShelfSag, "counter/top")
	if f.Verdict != finding.Fails || !strings.Contains(strings.Join(f.Working, " "), "it turns as on a hinge") {
		t.Fatal(say(f), f.Working)
	}
	deep, kg, long := 0.0, 0.0, 0.0
	for _, p := range in.All.Parts {
		if p.Role == part.CounterLayer {
			deep = mmOf(p.Box().Size().Y)
			kg += in.Masses[p.Mark].Kilograms()
			long += mmOf(p.Box().Size().X)
		}
	}
	const reach = 1218.0 // between the middles of the sides
	w := (kg/long + 250e-6*deep) * g
	sag := 1.8 * 5 * w * math.Pow(reach, 4) / 384 / (10_048 * deep * 18 * 18 * 18 / 12)
	if r := f.Demand / sag; r < 0.95 || r > 1.08 { // the joints stand beside the middles of the sides
		t.Errorf("sags %.2f mm, on two supports %.2f mm", f.Demand, sag)
	}
}

// A case that rolls out is carried whole: all that is fastened together counts, though it moves.
func TestRollingCaseIsCarriedWhole(t *testing.T) {
	one := func(text string) finding.Finding {
		return find(t, strength.Check(whole(t, text)), strength.OnePerson, "case/a")
	}
	rolls := one(rolling("yes"))
	if rolls.Demand < 5 {
		t.Errorf("the bare box of a rolling case weighs %g kg", rolls.Demand)
	}
}

// Rails under a counter help its strength by no more than their end screws hold: with those taken out the stress
// is that of the layer alone, W L/8 over b t²/6, and with them it is less.
func TestRailsHelpAsFarAsTheirScrewsHold(t *testing.T) {
	in := whole(t, bench("birch-12", 1900))
	f := find(t, strength.Check(in), strength.ShelfStrength, "counter/bench")
	loose := changed(in, func(a *part.Assembly) {
		for i, j := range a.Joints {
			for _, p := range a.Parts {
				if p.Role == part.Leg && (p.Mark == j.A || p.Mark == j.B) {
					a.Joints[i].Count = 0
				}
			}
		}
	})
	g2 := find(t, strength.Check(loose), strength.ShelfStrength, "counter/bench")
	top := one(t, in, part.CounterLayer)
	deep, thick, long := mmOf(top.Box().Size().Y), mmOf(top.Size[2]), mmOf(top.Box().Size().X)
	reach := 0.0
	lo, hi := math.Inf(1), 0.0
	for _, p := range in.All.Parts {
		if p.Role == part.Leg {
			x := mmOf(p.Box().Min.X+p.Box().Max.X) / 2
			lo, hi = math.Min(lo, x), math.Max(hi, x)
		}
	}
	reach = hi - lo
	line := (250e-6*long*deep + in.Masses[top.Mark].Kilograms()) * g / long
	past := (long - reach) / 2
	want := (line*reach*reach/8 - line*past*past/2) / (deep * thick * thick / 6)
	if r := g2.Demand / want; r < 0.99 || r > 1.01 {
		t.Errorf("without its rails' screws %.2f MPa, by hand %.2f MPa", g2.Demand, want)
	}
	if f.Demand >= g2.Demand || !strings.Contains(strings.Join(f.Working, " "), "they are counted for that much") {
		t.Errorf("with them %.2f MPa: %q", f.Demand, f.Working)
	}
}

// A bookcase that stands free, 1.8 m high and 300 mm deep, by hand: 44.5 N at 1422 mm are 63.3 N·m; it weighs so
// much, its middle so far behind its front edge.
func TestFreeBookcaseByHand(t *testing.T) {
	text := alone("    width: 600\n    height: 1800\n    depth: 300\n    stands-on: {kind: floor}\n    free: standing\n    inside: {shelves: {count: 4}, load: 8 kg}\n")
	in := whole(t, text)
	f := find(t, strength.Check(in), strength.TipOver, "case/a")
	kg, moment := 0.0, 0.0
	front := mmOf(in.All.Owners[0].Carcass.Min.Y)
	for _, p := range in.All.Parts {
		m := in.Masses[p.Mark].Kilograms()
		kg += m
		moment += m * (mmOf(p.Box().Min.Y+p.Box().Max.Y)/2 - front)
	}
	near(t, "what tips it", f.Demand, 44.5*1.422)
	near(t, "what holds it", f.Capacity, moment*g/1000)
	if f.Verdict != finding.Fails || kg > 45 {
		t.Errorf("%.1f kg: %s", kg, say(f))
	}
}

// A bottom that is held along its back, of plywood whose modulus across its face grain is not known, is counted
// as no better than any modulus between a fiftieth and the whole of that along would make it.
func TestUnknownAcrossIsTheWorstOfAll(t *testing.T) {
	in := whole(t, alone(wall+"    inside: {open: {}, load: 30 kg}\n"))
	of := func(across string) finding.Finding {
		return find(t, strength.Check(tables(in, func(c *stock.Catalogue) {
			for i := range c.Materials {
				if c.Materials[i].ID == "birch-plywood-18" {
					c.Materials[i].EAcross = stock.Ratio(across)
				}
			}
		})), strength.ShelfSag, "A.bottom")
	}
	unknown := of("")
	for _, e := range []string{"201", "500", "2000", "7452", "10048"} {
		if f := of(e); f.Demand > unknown.Demand*1.001 {
			t.Errorf("with %s MPa across it sags %.3f mm, with nothing known %.3f mm", e, f.Demand, unknown.Demand)
		}
	}
}
