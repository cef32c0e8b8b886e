package strength_test

import (
	"math"
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/part"
	"stowright/internal/strength"
)

const g = 9.80665

func find(t *testing.T, list finding.List, c finding.Code, at string) finding.Finding {
	t.Helper()
	for _, f := range list.With(c) {
		if strings.Contains(f.At, at) && f.Verdict != finding.NotKnown {
			return f
		}
	}
	t.Fatalf("no %s at %s", c, at)
	return finding.Finding{}
}

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 2e-3*math.Abs(want) {
		t.Errorf("%s: %.5g, by hand %.5g", what, got, want)
	}
}

// A loose shelf from job to finding, by hand with Wood Handbook Eq. 9-2, Table 9-1: birch
// plywood of 18 mm, E 10 048 MPa along, planar G 155 MPa, creep 0.8 (EN 1995-1-1 Table 3.2).
func TestShelfByHand(t *testing.T) {
	in := whole(t, alone(floor+"    inside: {shelves: {count: 1}, load: 60 kg}\n"))
	var p part.Part
	for _, x := range in.All.Parts {
		if x.Role == part.Shelf {
			p = x
		}
	}
	long, deep, thick := mmOf(p.Size[0]), mmOf(p.Size[1]), mmOf(p.Size[2])
	reach := long - 8
	own := in.Masses[p.Mark].Kilograms()
	w := (60 + own) * g / long * reach
	i := deep * thick * thick * thick / 12
	sag := 5./384*w*reach*reach*reach/(10048*i) + w*reach/8/(155*5./6*deep*thick)
	f := find(t, strength.Check(in), strength.ShelfSag, p.Mark)
	// The board's ends past its pins, 4 mm each, hold their own load: a ten-thousandth.
	near(t, "sag after years", f.Demand, 1.8*sag)
	near(t, "allowed", f.Capacity, reach/240)
	s := find(t, strength.Check(in), strength.ShelfStrength, p.Mark)
	near(t, "stress", s.Demand, w*reach/8/(deep*thick*thick/6))
	near(t, "counted on", s.Capacity, 40.2*0.737/2.1*0.9)
}

// The pull on a wall case's screws by statics alone: two studs, even shares.
func TestWallCaseByHand(t *testing.T) {
	in := whole(t, alone(wall+"    inside: {open: {}, load: 40 kg}\n"))
	f := find(t, strength.Check(in), strength.WallFixing, "case/a")
	kg, moment, boards := 0.0, 0.0, 0.0
	for _, p := range in.All.Parts {
		m := in.Masses[p.Mark].Kilograms()
		boards += m
		moment -= m * (mmOf(p.Box().Min.Y) + mmOf(p.Box().Max.Y)) / 2
	}
	kg = boards * 1.05 // screws, edging and glue
	moment *= 1.05
	b := in.All.Bays[0].Box
	kg += 40
	moment -= 40 * (mmOf(b.Min.Y) + mmOf(b.Max.Y)) / 2
	var up, low []part.Fixing
	for _, x := range in.All.Fixings {
		if x.Row == "upper" {
			up = append(up, x)
		} else {
			low = append(low, x)
		}
	}
	if len(up) != 2 || len(low) != 2 {
		t.Fatalf("%d upper and %d lower screws; the sum is for 2 and 2", len(up), len(low))
	}
	pull := moment * g / (mmOf(up[0].At.Z) - mmOf(low[0].At.Z)) / 2
	down := kg * g / 4
	near(t, "load on a screw", f.Demand, math.Hypot(pull, down))
}

// What is advised is enough: the span that a hint names holds when it is built.
func TestRemedyHolds(t *testing.T) {
	bad := strings.Replace(floor, "600", "1000", 1) + "    inside: {shelves: {count: 1}, load: %}\n"
	f := find(t, strength.Check(whole(t, alone(strings.Replace(bad, "%", "70 kg", 1)))), strength.ShelfSag, "shelf")
	if f.Verdict != finding.Fails || !strings.Contains(f.Hint, "make its span ") {
		t.Fatal(say(f))
	}
	var span float64
	for _, c := range strings.SplitN(f.Hint, "make its span ", 2)[1] {
		if c < '0' || c > '9' {
			break
		}
		span = span*10 + float64(c-'0')
	}
	// The load is by the length: a shorter shelf carries less.
	width := int(span) + 8 + 2 + 36
	load := 70 * (span + 8) / (1000 - 38)
	good := strings.Replace(strings.Replace(bad, "1000", str(width), 1), "%", str(math.Floor(load))+" kg", 1)
	g := find(t, strength.Check(whole(t, alone(good))), strength.ShelfSag, "shelf")
	if g.Verdict == finding.Fails {
		t.Errorf("advised: %s\nbuilt: %s", f.Hint, say(g))
	}
}
