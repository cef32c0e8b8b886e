package strength_test

import (
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/strength"
)

// Odd jobs, each reckoned on paper first: what is to come out, between which ratios, and the sum. Figures are in pounds and
// inches, weights of boards by 35 lb/ft³; the sums are statics and the tables that the checks name.
func TestOddJobs(t *testing.T) {
	for _, x := range []struct {
		file, code, at string
		verdict        finding.Verdict
		lo, hi         float64
		sum            string
	}{
		{"01-wide-drawer", "slide-load", "in-drawer-1", finding.Fails, 3.4, 3.8, "(200 + 19) / (100 × 20 / 33.1)"},
		{"01-wide-drawer", "drawer-wide", "in-drawer-1", finding.Fails, 1.09, 1.11, "33.1 / 20 / 1.5"},
		{"02-8ft-shelf", "shelf-sag", "A.shelf1", finding.Fails, 42, 47, "5 × 220 × 95.66³ / (384 × 0.95e6 × 14.84 × 0.703³ / 12) × 1.8 / 0.25"},
		{"02-8ft-shelf", "shelf-pins", "A.shelf1", finding.Fails, 1.33, 1.42, "(200 + 20) / 4 / 40"},
		{"03-one-stud", "wall-studs", "case/a", finding.Fails, 2, 2, "two are the least"},
		{"04-steel-studs", "wall-fixing", "case/a", finding.NotKnown, 0, 0, "no anchor is rated"},
		{"05-masonry", "wall-fixing", "case/a", finding.NotKnown, 0, 0, "no anchor is rated"},
		{"06-hutch-unknown", "tip-over", "hutch/h", finding.NotKnown, 0, 0, "nobody knows the wall"},
		{"06-hutch-unknown", "wall-studs", "hutch/h", finding.NotKnown, 0, 0, "nobody knows the wall"},
		{"07-tall-door-paint", "door-heavy", "A.door", finding.Fails, 3.7, 4.1, "(12.6 × 2.05 + 102 + 2) / 33.1"},
		{"07-tall-door-paint", "rack-screws", "A.end1", finding.Fails, 1.3, 1.7, "104 / 4 = 26 on a No. 8 that reaches 0.55: 34.7 × 0.9 × 0.55 / 0.98 = 17.5"},
		{"08-10ft-counter", "shelf-sag", "Top.layer1", finding.Fails, 10, 18, "between 1/384 and 5/384 of a beam of 120.7"},
		{"08-10ft-counter", "counter-person", "Top.layer1", finding.Fails, 1.5, 3, "220 × 120.7 / 4 over one layer at a joint"},
		{"09-bench-castors-vice", "foot-load", "counter/c", finding.Fails, 2.4, 2.7, "(500 + 200 + 60 + 90) / 4 × 4 / 3 / 110"},
		{"10-vice-corner", "shelf-sag", "Top.layer", finding.Fails, 3, 3.5, "(90 × 13.35² × 48.65 / (3 × 984500) + 0.022 - 0.031) × 1.8 / 0.147"},
		{"10-vice-corner", "tip-over", "counter/c", finding.Holds, 0.55, 0.85, "220 × (14.3 - 4.92) against 70 × 15.7 and two screws"},
		{"11-person-overhang", "counter-person", "front", finding.NotKnown, 0, 0, "the strength across fir ply is not known"},
		{"12-three-drawers", "tip-over", "case/a", finding.Fails, 11, 17, "(50 × 23.75 + 150 × 13.4 + 27 × 13.4) / 12 = 297 against 21"},
		{"14-base-rungs", "shelf-strength", "Base.long1", finding.Fails, 1.45, 1.6, "335 × 58.4 / 8 / (0.75 × 4² / 6) / (875 × 0.9)"},
		{"15-no-modulus", "shelf-sag", "A.shelf1", finding.NotKnown, 0, 0, "nothing is said of the sheet"},
		{"16-across-grain", "shelf-sag", "A.shelf1", finding.Fails, 3.8, 4.1, "5 × 218 × 58.2³ / (384 × 1.784e6 × 0.522) × 1.6 / 0.242"},
		{"18-no-weight", "wall-fixing", "case/a", finding.NotKnown, 0, 0, "nobody knows what the goods weigh"},
		{"18-no-weight", "shelf-sag", "A.bottom", finding.NotKnown, 0, 0, "nobody knows what the goods weigh"},
		{"19-hanging", "hanging-rail", "A.rail1", finding.Fails, 2.55, 2.8, "5 × 567 N × 1171.6³ / (384 × 205000 × 4457) / 4.88 mm"},
		{"19-hanging", "hanging-rail", "A.rail1/flange", finding.Fails, 0.95, 1.1, "127 / 2 on three screws"},
		{"20-hooks", "hook-load", "hutch/h/saws", finding.Fails, 2.39, 2.41, "12 / 5"},
		{"21-bracket", "wall-fixing", "goods/lumber", finding.NotKnown, 0, 0, "the job makes no bracket"},
		{"22-under-bottom", "bottom-screws", "A.1bottom", finding.Holds, 0.4, 0.65, "0.505 × 95 / 20 × about 5 in of edge each = 12, against 82 × 1 × 0.3 × 0.9 = 23"},
		{"22-under-bottom", "slide-load", "in-drawer-1", finding.Fails, 1.04, 1.1, "(95 + 11.5) / 100"},
		{"24-tall-free", "tip-over", "case/a", finding.Fails, 1.75, 2.1, "10 × 56 = 560 against 60 × 4.9"},
		{"25-trays", "slide-load", "in-tray-1", finding.Fails, 1.75, 1.87, "(110 + 10) / (100 × 20 / 30.2)"},
		{"27-cantilever-shelf", "shelf-pins", "A.shelf1", finding.Fails, 1.58, 1.67, "(250 + 10) / 4 / 40"},
		{"28-castor-case", "foot-load", "case/a", finding.Fails, 1.15, 1.4, "268 / 4 × 4 / 3 / 77.2, its centre not quite in the middle"},
		{"28-castor-case", "tip-over", "case/a", finding.Fails, 15, 30, "all five drawers out on castors that swing in"},
		{"29-mdf-books", "shelf-sag", "A.shelf1", finding.Fails, 11, 12.8, "5 × 160 × 38.06³ / (384 × 0.52e6 × 11 × 0.75³ / 12) × 3.25 / 0.159"},
		{"30-door-adjust", "door-heavy", "A.1door", finding.Fails, 2.05, 2.3, "(13.8 + 2.8 + 55.6) / 33.1"},
		{"33-narrow-bench", "tip-over", "counter/c", finding.Fails, 3.5, 5.5, "220 × 1.57 against the weight of a small bench at 5 in"},
		{"38-overhang", "tip-over", "counter/c", finding.Fails, 0.95, 1.1, "220 × (26.3 - 4.92) against 69 × 13.4 and two screws"},
		{"65-anvil-counter", "shelf-sag", "Top.layer", finding.Fails, 10, 11.5, "(400 × 35.3³ / (48 × 0.95e6 × 0.659) + 5 × 305 × 35.3³ / (384 × 0.95e6 × 0.659)) × 1.8 / 0.147"},
		{"65-anvil-counter", "shelf-strength", "Top.layer", finding.Fails, 1.4, 1.7, "(400 × 35.3 / 4 - 400 × 8 / 8 + 305 × 35.3 / 8) / 1.874 / 1540"},
		{"47-short-screws", "wall-fixing", "case/a", finding.Fails, 0, 1e9, "5/16 in a stud, six diameters are the least"},
		{"48-drywall", "wall-fixing", "case/a", finding.Fails, 0, 1e9, "nothing is counted for drywall screws"},
	} {
		t.Run(x.file+" "+x.code, func(t *testing.T) {
			text, err := os.ReadFile("testdata/odd/" + x.file + ".yaml")
			if err != nil {
				t.Fatal(err)
			}
			for _, f := range strength.Check(inRounds(t, string(text))).With(finding.Code(x.code)) {
				here := strings.HasSuffix(f.At, x.at)
				for _, also := range f.Also {
					here = here || strings.HasSuffix(also, x.at)
				}
				if !here {
					continue
				}
				if f.Verdict != x.verdict || x.verdict != finding.NotKnown && x.hi > 0 && x.hi < 1e9 && (f.Ratio() < x.lo || f.Ratio() > x.hi) {
					t.Errorf("on paper %s, %.2f to %.2f (%s): %s", x.verdict, x.lo, x.hi, x.sum, say(f))
				}
				return
			}
			t.Errorf("nothing is said of %s", x.at)
		})
	}
}

// A wall case of drawers, on paper: in, what is in it and itself turn about its lower edge; out, every drawer is as much further
// from the wall as it comes out, with 50 lb on the outermost, for which a short load's 1.6 counts in place of 0.9.
func TestDrawersOutOnAWall(t *testing.T) {
	text, err := os.ReadFile("testdata/odd/75-heavy-lid.yaml")
	if err != nil {
		t.Fatal(err)
	}
	in := inRounds(t, string(text))
	moved, far := 0.0, 0.0
	for _, m := range in.All.Motions {
		far = max(far, -mmOf(m.Closed.Min.Y)+mmOf(m.Travel))
		kg := 150 * 0.45359237 / 5
		for _, p := range in.All.Parts {
			if p.Moves == m.ID {
				kg += in.Masses[p.Mark].Kilograms()
			}
		}
		moved += kg * g * mmOf(m.Travel)
	}
	words := strings.Join(find(t, strength.Check(in), strength.WallFixing, "case/a").Working, " ")
	number := func(pattern string) float64 {
		m := regexp.MustCompile(pattern).FindStringSubmatch(words)
		if m == nil {
			t.Fatalf("%s: %s", pattern, words)
		}
		v, _ := strconv.ParseFloat(m[1], 64)
		return v
	}
	closed := number(`: (\S+) lb in all`) * 0.45359237 * g * number(`its centre (\S+) in from the wall`) * 25.4
	open := closed + moved + 50*0.45359237*g*far
	more := open*0.9/1.6 - closed
	if got := number(`× 0.9 / 1.6 that is (\S+) ft·lb more`) * 12 * 0.45359237 * g * 25.4; got < more*0.97 || got > more*1.03 {
		t.Errorf("%.0f N·m more with the drawers out, on paper %.0f", got/1000, more/1000)
	}
}

// Three layers that are glued to each other bend as one board three times as thick.
func TestThreeLayersAreOneBoard(t *testing.T) {
	three := strings.Replace(bench("birch-12", 1200), "[{board: birch-12}]", "[{board: birch-12}, {board: birch-12}, {board: birch-12}]", 1)
	one := strings.Replace(bench("thick", 1200), "boards:\n", "boards:\n  thick: {material: birch-plywood-12, called: 36, measures: 36, length: 2500, width: 1250}\n", 1)
	a := find(t, strength.Check(whole(t, three)), strength.ShelfSag, "counter/bench")
	b := find(t, strength.Check(whole(t, one)), strength.ShelfSag, "counter/bench")
	near(t, "sag of three layers", a.Demand, b.Demand)
}
