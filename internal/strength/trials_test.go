package strength_test

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"stowright/internal/finding"
	"stowright/internal/strength"
)

// frame is a job to put cases and goods in: a wall of studs at 16 in and a metric shop.
const frame = `stowright: 1
unit: mm
practice: {from: metric-shop}
people: {shortest: 1600, children: no}
boards:
  thin-mdf: {material: mdf, called: 12, measures: 12, length: 2440, width: 1220, grain: none}
walls:
  back:
    length: 4000
    height: 2500
    kind: stud
    lining: {name: drywall, thickness: 12.7}
    studs: {species: spruce-pine-fir, first: 200, spacing: 400, width: 38}
    floor: {points: [{at: 0, height: 0}, {at: 4000, height: 0}], kind: timber, slab: no}
`

// alone gives a case at a place on the wall.
func alone(rest string) string {
	return frame + "cases:\n  a:\n    name: the case\n    wall: back\n    at: 400\n" + rest
}

const floor = "    width: 600\n    height: 800\n    depth: 500\n    stands-on: {kind: feet, height: 100, recess: 50}\n"
const wall = "    level: wall\n    width: 800\n    height: 700\n    depth: 320\n    up: 1400\n"

// trials give, for each code, a job that provokes it and one like it that holds.
var trials = []struct {
	code      finding.Code
	bad, good string
}{
	{code: strength.ShelfSag, bad: alone(strings.Replace(floor, "600", "1200", 1) + "    inside: {shelves: {count: 2}, load: 120 kg}\n"), good: alone(floor + "    inside: {shelves: {count: 2}, load: 20 kg}\n")},
	{code: strength.ShelfStrength, bad: alone(strings.Replace(floor, "600", "1200", 1) + "    board: thin-mdf\n    inside: {shelves: {count: 1}, load: 300 kg}\n"), good: alone(floor + "    inside: {shelves: {count: 2}, load: 20 kg}\n")},
	{code: strength.DrawerBottom, bad: alone(strings.Replace(floor, "600", "900", 1) + "    inside: {drawers: {count: 2}, load: 200 kg}\n"), good: alone(floor + "    inside: {drawers: {count: 2}, load: 8 kg}\n")},
	{code: strength.ShelfPins, bad: alone(floor + "    inside: {shelves: {count: 2}, load: 90 kg}\n"), good: alone(floor + "    inside: {shelves: {count: 2}, load: 20 kg}\n")},
	{code: strength.SlideLoad, bad: alone(floor + "    inside: {drawers: {count: 2}, load: 120 kg}\n"), good: alone(floor + "    inside: {drawers: {count: 2}, load: 20 kg}\n")},
	{code: strength.DrawerWide, bad: alone(strings.Replace(floor, "600", "1000", 1) + "    inside: {drawers: {count: 2}, load: 8 kg}\n"), good: alone(floor + "    inside: {drawers: {count: 2}, load: 8 kg}\n")},
	{code: strength.DoorWide, bad: alone(strings.Replace(floor, "600", "900", 1) + "    inside: {open: {}, load: 8 kg, doors: {count: 1}}\n"), good: alone(floor + "    inside: {open: {}, load: 8 kg, doors: {count: 2}}\n")},
	{code: strength.DoorHeavy, bad: alone(wall + "    inside: {open: {}, load: 8 kg, doors: {count: 1, hinge: left, left: [{box-holder: {}, load: 25 kg}]}}\n"), good: alone(wall + "    inside: {open: {}, load: 8 kg, doors: {count: 2}}\n")},
	{code: strength.HingeCount, bad: alone(wall + "    inside: {open: {}, load: 8 kg, doors: {count: 1, hinge: left, left: [{box-holder: {}, load: 45 kg}]}}\n"), good: alone(wall + "    inside: {open: {}, load: 8 kg, doors: {count: 2}}\n")},
	{code: strength.HingeScrews, bad: alone(wall + "    inside: {open: {}, load: 8 kg, doors: {count: 1, hinge: left, left: [{box-holder: {}, load: 300 kg}]}}\n"), good: alone(wall + "    inside: {open: {}, load: 8 kg, doors: {count: 2}}\n")},
	{code: strength.WallStuds, bad: strings.Replace(alone(wall+"    inside: {open: {}, load: 8 kg}\n"), "spacing: 400", "spacing: 1800", 1), good: alone(wall + "    inside: {open: {}, load: 8 kg}\n")},
	{code: strength.WallFixing, bad: alone(wall + "    inside: {shelves: {count: 2}, load: 90 kg}\n"), good: alone(wall + "    inside: {shelves: {count: 2}, load: 5 kg}\n")},
	{code: strength.RailBending, bad: strings.Replace(alone("    board: thin-mdf\n"+wall+"    inside: {shelves: {count: 2}, load: 90 kg}\n"), "at: 400\n", "at: 470\n", 1), good: alone(wall + "    inside: {shelves: {count: 2}, load: 5 kg}\n")},
	{code: strength.CarcassJoint, bad: alone("    joint: wood-screw\n" + wall + "    inside: {open: {}, load: 900 kg}\n"), good: alone("    joint: wood-screw\n" + wall + "    inside: {open: {}, load: 8 kg}\n")},
	{code: strength.TipOver, bad: alone(floor + "    free: standing\n    inside: {drawers: {count: 4}, load: 80 kg}\n"), good: alone(floor + "    inside: {drawers: {count: 2}, load: 8 kg}\n")},
	{code: strength.FootLoad, bad: alone(floor + "    inside: {shelves: {count: 2}, load: 190 kg}\n"), good: alone(floor + "    inside: {shelves: {count: 2}, load: 8 kg}\n")},
	{code: strength.BaseBearing, bad: based("6000 kg"), good: based("60 kg")},
	{code: strength.CastorBrake, bad: rolling("no"), good: rolling("yes")},
	{code: strength.OutOfReach, bad: alone(strings.Replace(wall, "1400", "1700", 1)+"    inside: {shelves: {count: 2}, goods: [tins]}\n") + "goods:\n  tins: {diameter: 80, height: 100, weighs: 0.3 kg, count: 6, used: daily}\n",
		good: alone(wall+"    inside: {open: {}, goods: [tins]}\n") + "goods:\n  tins: {diameter: 80, height: 100, weighs: 0.3 kg, count: 6, used: weekly}\n"},
	{code: strength.LiftIndex, bad: alone(floor+"    inside: {open: {}, goods: [planer]}\n") + "goods:\n  planer: {width: 400, depth: 400, height: 300, weighs: 30 kg, count: 1}\n",
		good: alone(floor+"    inside: {open: {}, goods: [planer]}\n") + "goods:\n  planer: {width: 200, depth: 200, height: 300, weighs: 6 kg, count: 1}\n"},
	{code: strength.OnePerson, bad: alone(strings.NewReplacer("800", "1200", "700", "1000", "320", "500").Replace(wall) + "    inside: {open: {}, load: 8 kg}\n"), good: alone(wall + "    inside: {open: {}, load: 8 kg}\n")},
	{code: strength.LockNeeded, bad: alone(floor+"    inside: {open: {}, goods: [lye], doors: {count: 2}}\n") + "goods:\n  lye: {diameter: 80, height: 100, weighs: 1 kg, count: 1, locked: yes, hazards: [corrosive]}\n",
		good: alone(floor+"    inside: {open: {}, goods: [lye], doors: {count: 2, lock: yes}}\n") + "goods:\n  lye: {diameter: 80, height: 100, weighs: 1 kg, count: 1, locked: yes, hazards: [corrosive]}\n"},
	{code: strength.ChargingClosed, bad: alone(floor+"    inside: {open: {}, goods: [drills], doors: {count: 2}}\n") + "goods:\n  drills: {width: 80, depth: 80, height: 200, weighs: 1 kg, count: 1, hazards: [charging]}\n",
		good: alone(floor+"    inside: {open: {}, goods: [drills]}\n") + "goods:\n  drills: {width: 80, depth: 80, height: 200, weighs: 1 kg, count: 1, hazards: [charging]}\n"},
	{code: strength.OilyRags, bad: alone(floor+"    inside: {open: {}, goods: [rags]}\n") + "goods:\n  rags: {width: 80, depth: 80, height: 200, weighs: 1 kg, count: 1, hazards: [oily]}\n",
		good: alone(floor+"    inside: {open: {}, goods: [rags]}\n") + "goods:\n  rags: {name: lidded metal can, width: 80, depth: 80, height: 200, weighs: 1 kg, count: 1, hazards: [oily]}\n"},
	{code: strength.Flammables, bad: alone(floor+"    inside: {open: {}}\n") + "goods:\n  paint: {diameter: 165, height: 190, weighs: 5 kg, count: 40, hazards: [flammable]}\n",
		good: alone(floor+"    inside: {open: {}}\n") + "goods:\n  paint: {diameter: 165, height: 190, weighs: 5 kg, count: 4, hazards: [flammable]}\n"},
	{code: strength.HookLoad, bad: onHooks(6), good: onHooks(2)},
	{code: strength.RackScrews, bad: alone(floor + "    inside: {open: {}, load: 8 kg, doors: {count: 1, hinge: left, left: [{box-holder: {}, load: 90 kg}]}}\n"), good: alone(floor + "    inside: {open: {}, load: 8 kg, doors: {count: 1, hinge: left, left: [{box-holder: {}, load: 4 kg}]}}\n")},
	{code: strength.BottomScrews, bad: under(400), good: under(20)},
	{code: strength.FuelInside, bad: alone(floor+"    inside: {open: {}, goods: [mower]}\n") + "goods:\n  mower: {width: 300, depth: 300, height: 300, weighs: 4 kg, count: 1, hazards: [fuelled]}\n"},
	{code: strength.KeptApart, bad: alone(floor+"    inside: {open: {}, goods: [flares, varnish]}\n") + "goods:\n  flares: {diameter: 50, height: 200, weighs: 0.3 kg, count: 2, hazards: [pyrotechnic]}\n  varnish: {diameter: 80, height: 100, weighs: 1 kg, count: 1, hazards: [flammable]}\n"},
	{code: strength.CounterPerson, bad: bench("birch-12", 1900), good: bench("birch-18", 700)},
	{code: strength.HangingRail, bad: alone(strings.Replace(floor, "600", "1500", 1) + "    inside: {hanging: {}, load: 80 kg}\n"), good: alone(floor + "    inside: {hanging: {}, load: 10 kg}\n")},
	{code: strength.FrontScrews, bad: alone(floor + "    inside: {drawers: {count: 2}, load: 500 kg}\n"), good: alone(floor + "    inside: {drawers: {count: 2}, load: 8 kg}\n")},
	{code: strength.DrawerGroove, bad: alone(floor + "    inside: {drawers: {count: 2}, load: 900 kg}\n"), good: alone(floor + "    inside: {drawers: {count: 2}, load: 8 kg}\n")},
	{code: strength.ScrewEdge, bad: strings.Replace(alone(wall+"    inside: {open: {}, load: 8 kg}\n"), "    at: 400\n", "    at: 566\n", 1), good: alone(wall + "    inside: {open: {}, load: 8 kg}\n")},
	{code: strength.Racking, bad: alone(floor + "    inside: {open: {}, load: 400 kg}\n"), good: alone(floor + "    inside: {open: {}, load: 8 kg}\n")},
	{code: strength.SparksNear, bad: alone(floor+"    inside: {open: {}, goods: [varnish, grinder]}\n") + burning,
		good: alone(floor+"    inside: {open: {}, goods: [varnish], doors: {count: 2}}\n") + "  b:\n    name: the other case\n    wall: back\n    at: 2500\n" + floor + "    inside: {open: {}, goods: [grinder]}\n" + burning},
	{code: strength.GoodsRoom, bad: alone(floor+"    inside: {open: {}, goods: [tins]}\n") + "goods:\n  tins: {diameter: 108, height: 80, weighs: 0.3 kg, count: 46, lies: upright}\n",
		good: alone(floor+"    inside: {open: {}, goods: [tins]}\n") + "goods:\n  tins: {diameter: 108, height: 80, weighs: 0.3 kg, count: 46, lies: upright, stack: 3}\n"},
	{code: strength.GoodsHeight, bad: alone(wall+"    inside: {open: {}, goods: [toys]}\n") + "goods:\n  toys: {width: 300, depth: 200, height: 200, weighs: 2 kg, count: 1, below: 800}\n",
		good: alone(floor+"    inside: {open: {}, goods: [toys]}\n") + "goods:\n  toys: {width: 300, depth: 200, height: 200, weighs: 2 kg, count: 1, below: 800}\n"},
	{code: strength.GoodsWith, bad: alone(floor+"    inside: {open: {}, goods: [glue]}\n") + "  b:\n    name: the other case\n    wall: back\n    at: 2500\n" + floor + "    inside: {open: {}, goods: [clamps]}\n" + paired,
		good: alone(floor+"    inside: {open: {}, goods: [glue, clamps]}\n") + paired},
	{code: strength.IgnitionLow, bad: garage(alone(floor + "    inside: {open: {}, goods: [drills]}\n")), good: garage(alone(wall + "    inside: {open: {}, goods: [drills]}\n"))},
}

// based is a case on a separate base.
func based(load string) string {
	return alone(strings.Replace(floor, "{kind: feet, height: 100, recess: 50}", "{kind: base, height: 100}", 1)+"    inside: {open: {}, load: "+load+"}\n") + "bases:\n  plinth: {under: [a], stock: two-by-four, height: 100}\n"
}

// rolling is a case on castors with brakes, or without.
func rolling(brakes string) string {
	return strings.Replace(alone(strings.Replace(floor, "{kind: feet, height: 100, recess: 50}", "{kind: castors, foot: wheel}", 1)+"    free: rolls\n    inside: {drawers: {count: 2, one-at-a-time: yes}, load: 8 kg}\n"), "boards:\n", "hardware:\n  wheel: {kind: castor, name: a castor, diameter: 75 mm, height: 100 mm, rating: 50 kg, swivel: 65 mm, locks: "+brakes+", screws-each: 4}\nboards:\n", 1)
}

// onHooks is a hook board on a bench with things of so many kg on it.
func onHooks(kg int) string {
	return bench("birch-18", 700) + "hutches:\n  hb: {on: bench, height: 900, board: hook-board-6, frame: spruce-strip, spacer: 20, goods: [saws]}\ngoods:\n  saws: {width: 200, depth: 100, height: 200, weighs: " + str(kg) + " kg, count: 2, lies: hung}\n"
}

// under is a case of drawers whose bottoms are screwed on from below, with so many kg in both together.
func under(kg int) string {
	return strings.Replace(alone(floor+"    inside: {drawers: {count: 2, slide: side-slide-100kg}, load: "+str(kg)+" kg}\n"), "from: metric-shop", "from: metric-shop, box-bottom-how: under", 1)
}

const paired = "goods:\n  glue: {diameter: 80, height: 100, weighs: 1 kg, count: 1, with: clamps}\n  clamps: {width: 200, depth: 40, height: 200, weighs: 1 kg, count: 2}\n"

const burning = "goods:\n  varnish: {diameter: 80, height: 100, weighs: 1 kg, count: 1, hazards: [flammable]}\n  grinder: {width: 200, depth: 200, height: 200, weighs: 5 kg, count: 1, hazards: [sparks]}\n"

// garage is a job in a room into which a car comes, with drills that charge.
func garage(text string) string {
	return strings.Replace(text, "walls:\n", "room: {cars: {car: {wall: back, from: 100, length: 3500, out: 1500, width: 1700}}}\nwalls:\n", 1) +
		"goods:\n  drills: {width: 80, depth: 80, height: 200, weighs: 1 kg, count: 1, hazards: [charging]}\n"
}

// bench is a free bench of one board.
func bench(board, length any) string {
	return frame + "counters:\n  bench:\n    layers: [{board: " + str(board) + "}]\n    wall: back\n    free: {at: 100, length: " + str(length) + "}\n    depth: 600\n    height: 900\n"
}

// Every code is provoked by a job, and a job like it holds. FuelInside and KeptApart are only
// ever said when something is wrong.
func TestTrials(t *testing.T) {
	tried := map[finding.Code]bool{}
	for _, x := range trials {
		tried[x.code] = true
		t.Run(string(x.code), func(t *testing.T) {
			bad := strength.Check(whole(t, x.bad)).With(x.code)
			golden(t, string(x.code), bad)
			if !has(bad, finding.Fails) {
				t.Error("does not fail:")
				for _, f := range bad {
					t.Log(say(f))
				}
			}
			good := strength.Check(whole(t, orElse(x.good, alone(floor+"    inside: {open: {}, load: 8 kg}\n")))).With(x.code)
			if has(good, finding.Fails) || x.good != "" && !has(good, finding.Holds) && !has(good, finding.Near) {
				t.Error("does not hold:")
				for _, f := range good {
					t.Log(say(f))
				}
			}
		})
	}
	for _, r := range strength.All() {
		for _, c := range r.Codes {
			if !tried[c] {
				t.Errorf("no trial provokes %s", c)
			}
		}
	}
}

// golden holds the worst finding of a code against what was read in review: its sentence, its
// numbers, its working and its source. -update writes it.
func golden(t *testing.T, code string, list finding.List) {
	t.Helper()
	if len(list) == 0 {
		return // said by the caller
	}
	f := list[0]
	var b strings.Builder
	fmt.Fprintf(&b, "%s %s at %s: %.4g %s against %.4g\n%s\n", f.Verdict, f.Code, f.At, f.Demand, f.Unit, f.Capacity, f.Text)
	for _, w := range f.Working {
		fmt.Fprintf(&b, "  %s\n", w)
	}
	fmt.Fprintf(&b, "Hint: %s\nSource: %s\n", f.Hint, f.Source)
	path := "testdata/golden/" + code + ".txt"
	if *update {
		if err := os.MkdirAll("testdata/golden", 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(string(want), b.String()); d != "" {
		t.Errorf("%s (-want +got):\n%s", path, d)
	}
}

func has(list finding.List, v finding.Verdict) bool {
	for _, f := range list {
		if f.Verdict == v {
			return true
		}
	}
	return false
}
