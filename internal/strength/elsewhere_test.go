package strength_test

import (
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/strength"
)

// Worked by hand: a wall of 3000 with a case of 600 in its middle, from 1200 on, 400 deep; a door of 800 at its right end that
// swings in; a wall case over the case; the ceiling at 2400. Free along the floor: 1200 left of the case, 400 right of it
// as far as the door's casing.
const apartRoom = `
stowright: 1
unit: mm
practice: {from: metric-shop}
walls:
  w: {length: 3000, height: 2400, kind: masonry, floor: {falls-along: 0}, openings: {door: {kind: door, from: 2200, to: 3000, head: 2050, swings: in, hinge: right}}}
cases:
  low: {wall: w, at: 1200, width: 600, height: 800, depth: 400, stands-on: {kind: floor}, inside: {open: {}}}
  high: {wall: w, at: 1200, up: 1400, level: wall, width: 600, height: 800, depth: 300, inside: {open: {}}}
counters: {top: {over: [low], layers: [{board: birch-18}]}}
goods:
`

func TestGoodsKeptInNoBayByHand(t *testing.T) {
	for _, c := range []struct {
		goods string
		want  finding.Verdict
		says  string
	}{
		// 1200 / 300: four on the floor left of the case; the fifth goes right of it.
		{"  g: {width: 300, depth: 300, height: 500, weighs: 1 kg, count: 4, place: floor, lies: upright}\n", finding.Holds, "room for 4 from 0 mm to 1200 mm along wall w"},
		{"  g: {width: 300, depth: 300, height: 500, weighs: 1 kg, count: 5, place: floor, lies: upright}\n", finding.Holds, "room for 4 from 0 mm to 1200 mm along wall w; 1 from 1800 mm to 2100 mm"},
		{"  g: {width: 300, depth: 300, height: 500, weighs: 1 kg, count: 6, place: floor, lies: upright}\n", finding.NotKnown, "room is known for 5"},
		// Two on each other want half.
		{"  g: {width: 300, depth: 300, height: 500, weighs: 1 kg, count: 8, stack: 2, place: floor, lies: upright}\n", finding.Holds, "room for 8 from 0 mm to 1200 mm"},
		// Wider than any stretch; 1300 is over 1200.
		{"  g: {width: 1300, depth: 1300, height: 500, weighs: 1 kg, count: 1, place: floor, lies: upright}\n", finding.NotKnown, "nowhere along"},
		// On a hook between counter and wall case there are 1400 - 818 = 582: 600 high hangs left of the case instead.
		{"  g: {width: 1250, depth: 50, height: 500, weighs: 1 kg, count: 1, place: hook, lies: hung}\n", finding.Holds, "along wall w, "},
		{"  g: {width: 1250, depth: 50, height: 700, weighs: 1 kg, count: 1, place: hook, lies: hung, below: 2050}\n", finding.NotKnown, "nowhere along"}, // edge on it would stand out 1250
		{"  g: {diameter: 600, height: 40, weighs: 1 kg, count: 2, place: hook, lies: hung}\n", finding.Holds, "room for 2 from 0 mm to 1200 mm along wall w, "},
		// One takes what another wanted: the first is larger.
		{"  g: {width: 1100, depth: 300, height: 500, weighs: 1 kg, count: 1, place: floor, lies: upright}\n  h: {width: 350, depth: 350, height: 500, weighs: 1 kg, count: 1, place: floor, lies: upright}\n  i: {width: 350, depth: 350, height: 400, weighs: 1 kg, count: 1, place: floor, lies: upright}\n", finding.NotKnown, "nowhere along"},
		// On the bench: 600 long.
		{"  g: {width: 200, depth: 300, height: 300, weighs: 1 kg, count: 3, place: bench, lies: upright}\n", finding.Holds, "room for 3 from 1200 mm to 1800 mm along top"},
		{"  g: {width: 200, depth: 300, height: 300, weighs: 1 kg, count: 4, place: bench, lies: upright}\n", finding.NotKnown, "room is known for 3"},
		{"  g: {weighs: 1 kg, count: 4, place: floor}\n", finding.NotKnown, "the size of g"},
	} {
		l := strength.Check(whole(t, apartRoom+c.goods)).With(strength.GoodsRoom)
		ok := false
		for _, f := range l {
			ok = ok || f.Verdict == c.want && strings.Contains(f.Text, c.says)
		}
		if !ok {
			t.Errorf("%s: want %s %q, got %v", c.goods, c.want, c.says, l)
		}
	}
}

// Without a wall nothing is known.
func TestGoodsKeptInNoBayWithoutAWall(t *testing.T) {
	l := strength.Check(whole(t, "stowright: 1\nunit: mm\npractice: {from: metric-shop}\ncases: {a: {width: 600, height: 800, depth: 400}}\ngoods:\n  g: {width: 100, depth: 100, height: 100, weighs: 1 kg, count: 1, place: floor}\n")).With(strength.GoodsRoom)
	if len(l) != 1 || l[0].Verdict != finding.NotKnown {
		t.Error(l)
	}
}
