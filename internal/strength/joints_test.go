package strength_test

import (
	"math"
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/part"
	"stowright/internal/strength"
	"stowright/internal/strength/nds"
	"stowright/internal/strength/unit"
)

// screws gives the joint of the bottom with the left side.
func bottomJoint(t *testing.T, in strength.Input) part.Joint {
	t.Helper()
	role := map[string]part.Role{}
	for _, p := range in.All.Parts {
		role[p.Mark] = p.Role
	}
	for _, j := range in.All.Joints {
		if role[j.A] == part.Side && role[j.B] == part.Bottom {
			return j
		}
	}
	t.Fatal("no joint of a bottom with a side")
	return part.Joint{}
}

func joinedBy(kind, load string) string {
	return strings.Replace(alone(wall+"    inside: {open: {}, load: "+load+"}\n"), "from: metric-shop", "from: "+kind, 1)
}

// Dowels by hand: 3/4 of the round section times 8.3 MPa (paper birch along the grain, Wood
// Handbook Table 5-3a), times 0.737/2.1 x 0.9.
func TestDowelsByHand(t *testing.T) {
	in := whole(t, joinedBy("metric-shop", "30 kg"))
	j := bottomJoint(t, in)
	f := find(t, strength.Check(in), strength.CarcassJoint, "bottom")
	if j.Kind != part.Dowel {
		t.Fatalf("joint by %s", j.Kind)
	}
	near(t, "what the dowels hold", f.Capacity, float64(j.Count)*0.75*math.Pi*16*8.3*0.737/2.1*0.9)
	near(t, "half of 30 kg and of the board", f.Demand, (30+in.Masses[j.B].Kilograms())/2*g)
}

// Pocket screws by hand: NDS gives no value at 5/8 in of a No. 8 (6D is 0.984 in); the yield
// equations times reach over 6D, and no more than 415/5 lb (APA E830 Table 1), both with 0.67 x 0.9.
func TestPocketScrewsByHand(t *testing.T) {
	in := whole(t, joinedBy("inch-shop", "30 kg"))
	j := bottomJoint(t, in)
	f := find(t, strength.Check(in), strength.CarcassJoint, "bottom")
	if j.Kind != part.PocketScrew {
		t.Fatalf("joint by %s", j.Kind)
	}
	eight, _ := nds.Screw(8)
	p := 0.625 * unit.Inch
	if _, allowed := eight.PenetrationFactor(p); allowed {
		t.Fatal("5/8 in of a No. 8 is below 6 diameters")
	}
	z := nds.Joint{Fastener: eight, Side: nds.Member{G: 0.42, Bearing: p}, Main: nds.Member{G: 0.42, Bearing: p - eight.D}}.Lateral().Z
	each := math.Min(z*p/(6*eight.D), 415*unit.PoundForce/5) * 0.67 * 0.9
	near(t, "what the pocket screws hold", f.Capacity, float64(j.Count)*each)
	if !strings.Contains(strings.Join(f.Working, " "), "no value") {
		t.Error("the working does not say that the standard gives no value")
	}
}

// A bottom in boards that crossed plies do not hold together is not known.
func TestDowelsInParticleboardAreNotKnown(t *testing.T) {
	bad := strings.Replace(joinedBy("metric-shop", "30 kg"), "boards:\n", "boards:\n  chip: {material: particleboard, called: 18, measures: 18, length: 2440, width: 1220, grain: none}\n", 1)
	bad = strings.Replace(bad, "    name: the case\n", "    name: the case\n    board: chip\n", 1)
	list := strength.Check(whole(t, bad)).With(strength.CarcassJoint)
	if len(list) == 0 {
		t.Fatal("nothing is said")
	}
	for _, f := range list {
		if f.Verdict != finding.NotKnown || f.Hint == "" {
			t.Errorf("dowels in particleboard: %s", say(f))
		}
	}
}
