package strength_test

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/google/go-cmp/cmp"

	"stowright/internal/finding"
	"stowright/internal/part"
	"stowright/internal/stock"
	"stowright/internal/strength"
)

// The unit that paper prints changes no verdict: the same findings, with the same demand and
// capacity.
func TestUnitsChangeNoVerdict(t *testing.T) {
	for _, name := range names {
		if testing.Short() && name != "fennel-street" && name != "marram-point" {
			continue
		}
		var lists [2]finding.List
		for i, unit := range []string{"in", "mm"} {
			var lines []string
			for _, l := range strings.Split(text(t, name), "\n") {
				if !strings.HasPrefix(l, "print:") {
					lines = append(lines, l)
				}
			}
			lists[i] = strength.Check(input(read(t, name, strings.Join(lines, "\n")+"\nprint: "+unit+"\n")))
		}
		a, b := judged(lists[0]), judged(lists[1])
		if len(a) == 0 || len(a) != len(b) || len(lists[0]) != len(lists[1]) {
			t.Errorf("%s: %d findings in inches, %d in millimetres", name, len(lists[0]), len(lists[1]))
		}
		for k, f := range a {
			// Packing behind a case is made to the marks of the tape, so that what screws hold differs a little.
			off := func(a, b float64) bool { return max(a-b, b-a) > 0.02*max(a, b) }
			if g := b[k]; g.Verdict != f.Verdict || off(g.Demand, f.Demand) || off(g.Capacity, f.Capacity) || g.Severity != f.Severity {
				t.Errorf("%s: in inches %s\nin mm %s", name, say(f), say(g))
			}
		}
	}
}

// insides are ways to fill a case whose boards span its width.
var insides = []string{
	"{shelves: {count: 2}}", "{shelves: {count: 1, strip: yes}}", "{shelves: {count: 1, fixed: yes}}", "{drawers: {count: 3}}", "{trays: {count: 3}}", "{hanging: {}}",
	"{up: [{open: {}}, {open: {}}]}", "{up: [{across: [{open: {}}, {open: {}}]}, {open: {}}]}", "{across: [{shelves: {count: 1}}, {shelves: {count: 2}}]}",
}

// spanning are the codes of boards that span a case's width.
var spanning = []finding.Code{strength.ShelfSag, strength.ShelfStrength, strength.DrawerBottom, strength.HangingRail}

// only keeps findings of codes.
func only(list finding.List, codes []finding.Code) finding.List {
	return slices.DeleteFunc(slices.Clone(list), func(f finding.Finding) bool { return !slices.Contains(codes, f.Code) })
}

// built is a random case: inside, board and width. Trays have lips of one height and carry so much
// that a thinner base, which really weighs less, is never better for its weight.
func built(t *testing.T, inside, board string, thick float64, width int, level string) strength.Input {
	b := fmt.Sprintf("boards:\n  trial: {material: %s, called: 18, measures: %.1f, length: 2440, width: 1220}\n", board, thick)
	inside = strings.Replace(inside, "{trays: {count: 3}}", "{trays: {count: 3, lip: 90}}", 1)
	load := "20" // a wide drawer's load stays below what its slides are rated for
	if strings.Contains(inside, "trays") {
		load = "140" // not so much that the widest would be filled to what its slides carry, and no further
	}
	x := strings.Replace(alone(strings.Replace(strings.Replace(level, "kind: feet", "kind: toe", 1), "width: 600", fmt.Sprint("width: ", width), 1)+"    board: trial\n    inside: "+inside+"\n"), "boards:\n", b, 1)
	x = strings.Replace(x, "from: metric-shop", "from: metric-shop, shelf-board: trial, box-bottom: trial, box-bottom-heavy: trial, drawer-load: "+load+" kg/m2", 1)
	return whole(t, x)
}

func TestLongerAndThinnerIsNeverBetter(t *testing.T) {
	for _, inside := range insides {
		rapid.Check(t, func(rt *rapid.T) {
			width := rapid.IntRange(400, 1100).Draw(rt, "width")
			more := rapid.IntRange(1, 300).Draw(rt, "more")
			thick := rapid.Float64Range(12, 24).Draw(rt, "thick")
			thick = float64(int(thick*10)) / 10
			less := float64(rapid.IntRange(1, 40).Draw(rt, "less")) / 10
			before := only(strength.Check(built(t, inside, "birch-plywood-18", thick, width, floor)), spanning)
			if len(before) == 0 {
				rt.Fatalf("nothing spans in %s", inside)
			}
			worse(rt, "a longer span in "+inside, before, only(strength.Check(built(t, inside, "birch-plywood-18", thick, width+more, floor)), spanning))
			worse(rt, "a thinner board in "+inside, before, only(strength.Check(built(t, inside, "birch-plywood-18", thick-less, width, floor)), spanning))
		})
		if testing.Short() {
			break
		}
	}
}

// A screw less, anywhere, never improves what screws hold.
func TestFewerScrewsAreNeverBetter(t *testing.T) {
	codes := []finding.Code{strength.WallFixing, strength.CarcassJoint, strength.Racking, strength.FrontScrews}
	for _, name := range []string{"ostler-row", "fennel-street", "hollis-court"} {
		in := input(read(t, name, text(t, name)))
		before := only(strength.Check(in), codes)
		for i := range in.All.Fixings {
			n, a := in, *in.All
			a.Fixings = slices.Delete(slices.Clone(a.Fixings), i, i+1)
			n.All = &a
			// Which rail's joints carry more goes by where the wall's screws are.
			held := []finding.Code{strength.WallFixing, strength.Racking}
			worse(t, fmt.Sprintf("%s: no fixing %d", name, i), only(before, held), only(strength.Check(n), held))
		}
		for i := range in.All.Joints {
			if in.All.Joints[i].Count < 2 {
				continue
			}
			n, a := in, *in.All
			a.Joints = slices.Clone(a.Joints)
			a.Joints[i].Count--
			n.All = &a
			worse(t, fmt.Sprintf("%s: a screw less in joint %d", name, i), before, only(strength.Check(n), codes))
			if testing.Short() && i > 40 {
				break
			}
		}
		if testing.Short() {
			break
		}
	}
}

// A load on a counter that is split into more and more points comes to the same as one that is
// spread.
func TestManyPointsAreASpreadLoad(t *testing.T) {
	of := func(rest string) finding.Finding {
		x := strings.Replace(bench("birch-18", 1500)+rest, "from: metric-shop", "from: metric-shop, counter-load: 1 kg/m2", 1)
		return find(t, strength.Check(whole(t, x)), strength.ShelfSag, "counter/bench")
	}
	spread := of("    goods: [anvils]\ngoods:\n  anvils: {width: 100, depth: 100, height: 100, weighs: 4 kg, count: 15}\n")
	last := 1.0
	for _, n := range []int{2, 5, 20, 80} {
		var b strings.Builder
		b.WriteString("    point-loads:\n")
		for i := range n {
			fmt.Fprintf(&b, "      - {at: %.4g, weighs: %d g}\n", 1500*(float64(i)+0.5)/float64(n), int(59_100/n))
		}
		f := of(b.String())
		off := f.Demand/spread.Demand - 1
		t.Logf("%d points: %+.4f", n, off)
		if max(off, -off) > last+0.002 {
			t.Errorf("%d points: %.4f mm, spread %.4f mm: further off than with fewer", n, f.Demand, spread.Demand)
		}
		last = max(off, -off)
	}
	if last > 0.004 {
		t.Errorf("80 points are %.4f off a spread load", last)
	}
}

// What nobody stated is called assumed, wherever a load decides.
func TestDefaultLoadsAreCalledAssumed(t *testing.T) {
	loaded := []finding.Code{strength.ShelfSag, strength.ShelfStrength, strength.DrawerBottom, strength.ShelfPins, strength.SlideLoad, strength.WallFixing, strength.CarcassJoint, strength.TipOver, strength.FootLoad, strength.HangingRail, strength.DrawerGroove}
	tried := map[finding.Code]bool{}
	for _, level := range []string{floor, wall} {
		for _, inside := range insides {
			for _, f := range only(strength.Check(whole(t, alone(level+"    inside: "+inside+"\n"))), loaded) {
				if f.Verdict == finding.NotKnown || strings.Contains(f.Text+strings.Join(f.Working, " "), "nothing stands on it") {
					continue
				}
				tried[f.Code] = true
				if !strings.Contains(f.Text, "assumed") {
					t.Errorf("%s is not called assumed: %s", inside, say(f))
				}
				if !strings.Contains(strings.Join(f.Working, " "), "assumed") {
					t.Errorf("%s: the working does not say assumed: %q", f.Code, f.Working)
				}
			}
		}
	}
	for _, c := range loaded {
		if !tried[c] {
			t.Errorf("no job tries %s", c)
		}
	}
}

// Every figure of every item of hardware that a job uses, taken away by itself, never makes anything
// hold that did not.
func TestNoFigureOfHardwareMissingEverHolds(t *testing.T) {
	sets := names
	if testing.Short() {
		sets = []string{"one-case"}
	}
	for _, name := range sets {
		in := input(read(t, name, text(t, name)))
		held := map[key]bool{}
		for _, f := range strength.Check(in) {
			if f.Verdict == finding.Holds || f.Verdict == finding.Near {
				held[key{f.Code, f.At}] = true
			}
		}
		used := map[string]bool{}
		for _, h := range in.All.Hardware {
			used[h.ID] = true
		}
		for _, p := range in.All.Parts {
			if p.Material == part.Bought {
				used[p.Stock] = true
			}
		}
		for i, h := range in.Job.Catalogue.Hardware {
			if !used[h.ID] {
				continue
			}
			for k := range reflect.TypeFor[stock.Hardware]().NumField() {
				field := reflect.TypeFor[stock.Hardware]().Field(k)
				if field.Name == "ID" || field.Name == "Kind" || field.Name == "Use" || field.Name == "Name" || reflect.ValueOf(h).Field(k).IsZero() {
					continue
				}
				n := tables(in, func(c *stock.Catalogue) { reflect.ValueOf(&c.Hardware[i]).Elem().Field(k).SetZero() })
				for _, f := range strength.Check(n) {
					if (f.Verdict == finding.Holds || f.Verdict == finding.Near) && !held[key{f.Code, f.At}] {
						t.Errorf("%s without %s of %s holds now: %s", name, field.Name, h.ID, say(f))
					}
				}
			}
		}
	}
}

// What a case is called changes no load: one called like a rack stores and carries what any other does.
func TestNamesChangeNoLoad(t *testing.T) {
	judge := func(id string) (list []string) {
		in := whole(t, strings.Replace(frame, "people:", "goods: {heavy: {width: 100, depth: 100, height: 120, weighs: 9 kg, count: 10}}\npeople:", 1)+
			"cases:\n  "+id+":\n    name: the case\n    wall: back\n    at: 400\n"+floor+"    inside: {shelves: {count: 1}, goods: [heavy], doors: {count: 2, left: [{can-rack: {}}]}}\n")
		for _, f := range strength.Check(in) {
			list = append(list, strings.ReplaceAll(say(f), id, "case"))
		}
		return list
	}
	plain, want := judge("shelves"), false
	for _, s := range plain {
		want = want || strings.Contains(s, "hinge-count")
	}
	if d := cmp.Diff(plain, judge("paint-rack-1")); d != "" || !want {
		t.Errorf("a case called paint-rack-1 is judged otherwise: %s", d)
	}
}

// Heights are above the floor where a thing stands: on the lower side of a step, or far along a floor that falls, what
// is kept is reached, lifted and away from fumes as it is on a level floor.
func TestHeightsAreAboveTheFloorThere(t *testing.T) {
	judge := func(floor2 string) (list []string) {
		text := swap(t, frame, "people:", "goods: {saw: {width: 200, depth: 200, height: 120, weighs: 9 kg, count: 2, used: daily}, pack: {width: 80, depth: 80, height: 100, weighs: 1 kg, count: 1, used: weekly, hazards: [charging]}}\npeople:",
			"{points: [{at: 0, height: 0}, {at: 4000, height: 0}], kind: timber, slab: no}", floor2+"\n    openings: {gate: {kind: garage-door, from: 2600, to: 3800, head: 1800}}") +
			"cases:\n  a:\n    name: the case\n    wall: back\n    at: 1000\n" + floor + "    inside: {up: [{open: {}, goods: [pack]}, {open: {}, goods: [saw]}]}\n"
		for _, f := range strength.Check(whole(t, text)) {
			if f.Code == strength.OutOfReach || f.Code == strength.LiftIndex || f.Code == strength.IgnitionLow {
				list = append(list, say(f))
			}
		}
		return list
	}
	level := judge("{points: [{at: 0, height: 0}, {at: 4000, height: 0}]}")
	seen := strings.Join(level, " ")
	for _, c := range []finding.Code{strength.OutOfReach, strength.LiftIndex, strength.IgnitionLow} {
		if !strings.Contains(seen, string(c)) {
			t.Errorf("%s is not judged: %s", c, seen)
		}
	}
	for _, down := range []string{"-500", "350"} {
		stepped := judge("{points: [{at: 0, height: 0}, {at: 500, height: 0}, {at: 500, height: " + down + "}, {at: 4000, height: " + down + "}]}")
		if d := cmp.Diff(level, stepped); d != "" {
			t.Errorf("a step of %s: %s", down, d)
		}
	}
}
