package strength_test

import (
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/part"
	"stowright/internal/strength"
)

// longAnchor is a made-up anchor that reaches through everything here.
const longAnchor = "\nhardware: {mine: {kind: anchor, use: anchor, name: long one, diameter: 10 mm, length: 260 mm}, short: {kind: anchor, use: anchor, name: short one, diameter: 10 mm, length: 160 mm}}\n"

// The rating of an anchor is for what lies against the wall (EN 1992-4, 6.2.2.3, from memory: bedding of up to
// half of its thickness has no lever arm). A wall that falls back 5 mm between the ends of a rail leaves it so, with
// hard packing; one that falls back 60 mm does not, whatever the rating, and the case is not said to hold.
func TestAnchorsThatStandOff(t *testing.T) {
	for by, want := range map[string]finding.Verdict{"5": finding.Holds, "60": finding.NotKnown} {
		text := swap(t, alone(wall+"    inside: {shelves: {count: 1}, load: 10 kg}\n"), "kind: stud", "kind: concrete\n    anchor: {hardware: mine, shear: 200 kg, tension: 150 kg, source: a trial}\n    hollow: [{at: 400, by: 0}, {at: 800, by: "+by+"}, {at: 1200, by: 0}]") + longAnchor
		l := strength.Check(whole(t, text)).With(strength.WallFixing)
		if len(l) != 1 || l[0].Verdict != want {
			t.Errorf("%s mm: %v", by, l)
		} else if want == finding.NotKnown && !strings.Contains(l[0].Text, "packed ") {
			t.Errorf("%s mm: %s", by, l[0].Text)
		}
	}
}

// An anchor counts for nothing where it ends before it is as deep in the wall as its rating asks (EN 1992-4 gives
// the resistance of an anchor for its effective embedment depth; from memory): whatever the rating, neither what hangs
// nor what would tip is said to hold. One as long as the furring and that depth holds.
func TestAnchorsThatEndBeforeTheWall(t *testing.T) {
	const long = "    lining: {name: furring, thickness: 100}"
	for _, c := range []struct {
		anchor, into string
		want         finding.Verdict
		few          bool
	}{
		{"anchor-sleeve-10", "", finding.Fails, true},
		{"mine", "", finding.Holds, false},
		{"short", "", finding.NotKnown, true},
		{"short", "into: 30 mm, ", finding.Holds, false},
		{"mine", "into: 40 mm, ", finding.Holds, false},
		{"mine", "into: 150 mm, ", finding.Fails, true},
	} {
		text := swap(t, alone(wall+"    inside: {shelves: {count: 1}, load: 10 kg}\n"), "kind: stud", "kind: concrete\n    anchor: {hardware: "+c.anchor+", shear: 200 kg, tension: 150 kg, "+c.into+"source: a trial}",
			"    lining: {name: drywall, thickness: 12.7}", long)
		in := whole(t, text+longAnchor)
		l := strength.Check(in).With(strength.WallFixing)
		if len(l) != 1 || l[0].Verdict != c.want {
			t.Errorf("%+v: %v", c, l)
		}
		for _, f := range in.All.Fixings {
			if f.Kind == part.ToWall && (f.Into < f.Least) != c.few {
				t.Errorf("%+v: %v in the wall, at least %v", c, f.Into, f.Least)
			}
		}
	}
	// What would tip over and is only held so tips over.
	free := strings.Replace(strings.Replace(alone(floor+"    inside: {drawers: {count: 3}, load: 90 kg}\n"), "thickness: 12.7}", "thickness: 3}", 1), "kind: stud", "kind: concrete\n    anchor: {hardware: anchor-sleeve-10, shear: 900 kg, tension: 900 kg, source: a trial}", 1)
	deep := strength.Check(whole(t, free)).With(strength.TipOver)
	far := strength.Check(whole(t, swap(t, free, "    lining: {name: drywall, thickness: 3}", long))).With(strength.TipOver)
	if len(deep) != 1 || len(far) != 1 || deep[0].Verdict == finding.Fails || far[0].Verdict != finding.Fails {
		t.Errorf("%v\n%v", deep, far)
	}
}

// Masonry whose lining nobody measured: an anchor is in the wall by so much less, so that neither what hangs nor what would
// tip is said to hold, whatever the rating; with a lining that leaves it deep enough both hold.
func TestAnchorsBehindALiningOfUnknownThickness(t *testing.T) {
	for _, kind := range []string{"masonry", "concrete", "steel-stud"} {
		for _, x := range []struct {
			text string
			code finding.Code
		}{
			{alone(wall + "    inside: {shelves: {count: 1}, load: 10 kg}\n"), strength.WallFixing},
			{alone(floor + "    inside: {drawers: {count: 3}, load: 60 kg}\n"), strength.TipOver},
		} {
			rated := swap(t, x.text, "kind: stud", "kind: "+kind+"\n    anchor: {hardware: mine, shear: 300 kg, tension: 300 kg, source: a trial}") + longAnchor
			known := strength.Check(whole(t, rated)).With(x.code)
			if len(known) != 1 || known[0].Verdict != finding.Holds && known[0].Verdict != finding.Near {
				t.Fatalf("%s: %v", kind, known)
			}
			for _, lining := range []string{"    lining: {name: plaster}\n", ""} {
				l := strength.Check(whole(t, swap(t, rated, "    lining: {name: drywall, thickness: 12.7}\n", lining))).With(x.code)
				if len(l) != 1 || l[0].Verdict != finding.NotKnown || !strings.Contains(l[0].Text, "lining") || !strings.Contains(l[0].Hint, "thickness") {
					t.Errorf("%s, %q: %v", kind, lining, l)
				}
			}
		}
	}
}

// A case without a lower rail bears on the wall by its lower edge: where the wall leans back from there by more than
// it can be counted to touch, nothing says what holds the moment. With a lower rail, packed and screwed, all is
// known (statics).
func TestALowerEdgeThatTouchesNothing(t *testing.T) {
	for _, c := range []struct {
		lean, rail string
		want       bool // known
	}{{"0", "no", true}, {"60", "no", false}, {"60", "yes", true}, {"-60", "no", true}} {
		text := swap(t, alone("    hangs-by: {lower-rail: "+c.rail+"}\n"+wall+"    inside: {shelves: {count: 1}, load: 10 kg}\n"), "    kind: stud\n", "    kind: stud\n    leans-out-at-top: "+c.lean+"\n")
		for _, f := range strength.Check(whole(t, text)).With(strength.WallFixing) {
			if known := f.Verdict != finding.NotKnown; known != c.want {
				t.Errorf("leans %s, lower rail %s: %s", c.lean, c.rail, say(f))
			}
		}
	}
}
