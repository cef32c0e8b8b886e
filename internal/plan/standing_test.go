package plan_test

import (
	"context"
	"reflect"
	"strings"
	"testing"

	"stowright/internal/assemble"
	"stowright/internal/carcass"
	"stowright/internal/finding"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/place"
	"stowright/internal/plan"
	"stowright/internal/rules"
)

func planned(t *testing.T, text string) plan.Result {
	t.Helper()
	return plan.Make(context.Background(), parse(t, "job", []byte(text)), plan.Want{})
}

// between is a case that goes between two that stand already, with CLEAR to spare.
const between = `
stowright: 1
practice: {from: metric-shop}
unit: mm
walls: {north: {length: 4000, height: 2400, kind: stud, studs: {first: 300, spacing: 400}, lining: {thickness: 12}}}
standing:
  old left: {wall: north, from: 500, to: 1100, depth: 500, top: 868, board-measures: 18}
  old right: {wall: north, from: 1710, to: 2310, depth: 500, top: 868, board-measures: 18}
cases:
  new: {in-gap: {left: old left, right: old right, widths: [612, 610], clearance: CLEAR}, width: 600, height: 868, depth: 500, stands-on: {kind: feet, height: 100}, inside: {shelves: {count: 1}}}
`

// Nobody has bored the sides of a case that has stood for years: the screws into it, left or
// right, are driven from inside the new case, whose side is bored through from its inner face
// (common practice, no source).
func TestScrewsIntoWhatStandsComeFromInside(t *testing.T) {
	r := planned(t, strings.Replace(between, "CLEAR", "4", 1))
	for _, side := range []string{"left side", "right side"} {
		n := 0
		for _, p := range r.Assembly.Parts {
			if p.Owner != "new" || p.Name != side {
				continue
			}
			for _, o := range p.Ops {
				if o.For != part.JoiningScrew && o.For != part.JoiningBolt {
					continue
				}
				n++
				inner := p.Box().Max.X // of the left side
				if side == "right side" {
					inner = p.Box().Min.X
				}
				if at := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size)); o.Depth != p.Size[2] || at.X != inner {
					t.Errorf("%s: bored %s deep of %s from x %s, want through from the inner face at %s", side, o.Depth.Exact(1), p.Size[2].Exact(1), at.X.Exact(1), inner.Exact(1))
				}
			}
		}
		if n < 3 {
			t.Errorf("%s: %d holes for joining screws, want 3 or more", side, n)
		}
	}
	to := map[string]int{}
	for _, f := range r.Assembly.Fixings {
		if f.Kind == part.ToCase {
			to[f.Stud]++
		}
	}
	if to["old left"] < 3 || to["old right"] < 3 {
		t.Errorf("screws to the neighbours: %v", to)
	}
}

// A case that does not slide in has a step that unfixes a neighbour before the one that sets it;
// one with room to spare has none.
func TestUnfixingANeighbourIsAStep(t *testing.T) {
	for clear, want := range map[string]bool{"1": true, "4": false} {
		r := planned(t, strings.Replace(between, "CLEAR", clear, 1))
		if said := len(r.Findings.With(place.UnfixNeighbour)) > 0; said != want {
			t.Errorf("%s mm to spare: finding %v", clear, said)
		}
		unfix, set := 0, 0
		for _, s := range r.Steps {
			if s.Owner == "new" && strings.Contains(s.Text, "Empty old right, take out the screws") {
				unfix = s.N
			}
			if s.Owner == "new" && strings.Contains(s.Text, "set the case") {
				set = s.N
			}
		}
		if set == 0 || (unfix > 0) != want || unfix > set {
			t.Errorf("%s mm to spare: unfixed in step %d, set in step %d", clear, unfix, set)
		}
	}
}

// A screw's length is counted from what it passes: where nobody knows how thick the lining is,
// the plan says that it is too short by that much. A lining of thickness 0 is known.
func TestScrewsThroughALiningThatNobodyMeasured(t *testing.T) {
	for lining, want := range map[string]int{"": 1, "lining: {name: plaster},": 1, "lining: {thickness: 0},": 0, "lining: {thickness: 12},": 0} {
		r := planned(t, `
stowright: 1
practice: {from: metric-shop}
unit: mm
walls: {north: {length: 4000, height: 2400, kind: stud, `+lining+` studs: {first: 300, spacing: 400}}}
cases: {high: {level: wall, wall: north, at: 200, width: 800, height: 600, depth: 300, inside: {shelves: {count: 1}}}}
`)
		if l := r.Findings.With(assemble.LiningNotKnown); len(l) != want || want == 1 && l[0].Verdict != finding.NotKnown {
			t.Errorf("%q: %v", lining, l)
		}
	}
}

// Every fixing names its wall, and a screw that can be bought, with its length.
func TestFixingsNameScrewsThatAreSold(t *testing.T) {
	r := planned(t, `
stowright: 1
practice: {from: inch-shop}
unit: in
walls: {north: {length: 140, height: 96, kind: stud, studs: {first: 8, spacing: 16}, lining: {thickness: 1/2}}}
cases:
  a: {width: 30, height: 34, depth: 24, inside: {shelves: {count: 1}}}
  b: {width: 30, height: 34, depth: 24, inside: {shelves: {count: 1}}}
runs: {low: {wall: north, start: 10, order: [{case: a}, {knee: {width: 30}}, {case: b}]}}
counters: {top: {over: [low], layers: [{board: maple-three-quarter}, {board: maple-three-quarter}], rails: {stick: poplar-strip}}}
hutches: {board: {on: top, height: 30, frame: poplar-strip, board: ply-quarter}}
`)
	rails, hutch, wall, bored := map[string]int{}, 0, 0, 0
	for _, f := range r.Assembly.Fixings {
		h, ok := r.Job.Catalogue.Item(f.Screw)
		if !ok || f.Length != h.Length || f.Length < length.Inch/2 || f.Wall != "north" {
			t.Errorf("%s: screw %q, %s long, on wall %q", f.Part, f.Screw, f.Length.Exact(0), f.Wall)
		}
		if f.Kind == part.ToCase && f.Owner == "board" && f.Stud == "top" {
			hutch++
		}
		if f.Kind == part.ToStud && f.Owner == "board" {
			wall++
		}
		if f.Kind == part.ToCase && f.Owner == "top" && strings.Contains(f.Part, "rail") {
			rails[f.Stud]++
		}
	}
	for _, p := range r.Assembly.Parts {
		for _, o := range p.Ops {
			if p.Owner == "board" && o.For == "screw to the counter" {
				bored++
			}
		}
	}
	// Two rails, two screws at each end (practice: at least 2 a joint, to stop twist). The wall holds the hutch: no
	// screws go down beside it, where no drill stands upright.
	if rails["a"] != 4 || rails["b"] != 4 || wall < 4 || hutch != 0 || bored != 0 {
		t.Errorf("screws of the rails %v, of the hutch %d to the wall, %d into the counter through %d holes", rails, wall, hutch, bored)
	}
	for _, l := range r.Bill.Lines {
		if l.Kind == "other" {
			t.Errorf("%s is bought and nobody sells it", l.Item)
		}
	}
}

// piped is a case on a toe recess before a pipe HIGH mm high and 45 out.
const piped = `
stowright: 1
practice: {from: metric-shop, slide: side-slide-45}
unit: mm
walls: {north: {length: 3000, height: 2400, kind: stud, studs: {first: 300, spacing: 400}, lining: {thickness: 12},
  obstacles: {pipe: {kind: pipe, bottom: 0, height: HIGH, out: 45, follows-floor: yes}}}}
cases: {low: {width: 600, height: 868, depth: 507, stands-on: {kind: toe, height: 100, recess: 60}, inside: {drawers: {count: 3}}}}
runs: {run: {wall: north, start: 300, order: [{case: low}]}}
`

// A side is notched round a pipe of 60 by 45 with 6.35 mm to spare (common practice: a pipe is
// never quite where it was measured), so 67 high and 52 deep, to whole millimetres that a saw is set to.
// Where it is higher than the bottom, bottom, back and drawers end before it: none is notched.
func TestNotchesLeaveRoomAndDrawersAreWhole(t *testing.T) {
	room := length.Inch / 4
	r := planned(t, strings.Replace(piped, "HIGH", "60", 1))
	n := 0
	for _, p := range r.Assembly.Parts {
		for _, o := range p.Ops {
			if o.For != part.RoundWall {
				continue
			}
			if cut := p.Pose.Box(o.Removed(p.Size)).Size(); p.Role == part.Side {
				n++
				if cut.Z != (60*length.MM+room).Up(length.MM) || cut.Y != (45*length.MM+room).Up(length.MM) {
					t.Errorf("%s: notch %s high and %s deep", p.Mark, cut.Z.Exact(1), cut.Y.Exact(1))
				}
			}
		}
	}
	if n != 2 || len(r.Findings.With(carcass.NotchMoves)) != 0 {
		t.Errorf("%d sides notched; %v", n, r.Findings.With(carcass.NotchMoves))
	}
	r = planned(t, strings.Replace(piped, "HIGH", "300", 1))
	drawers := 0
	for _, p := range r.Assembly.Parts {
		if p.Moves != "" {
			drawers++
		}
		for _, o := range p.Ops {
			if o.Kind == part.Notch && o.For == part.RoundWall && p.Role != part.Side {
				t.Errorf("%s is notched", p.Mark)
			}
		}
		if box := p.Box(); p.Role != part.Side && box.Max.Y > -45*length.MM-room && box.Min.Z < 300*length.MM+room {
			t.Errorf("%s is %s deep into the pipe's room", p.Mark, (box.Max.Y + 45*length.MM + room).Exact(1))
		}
	}
	if l := r.Findings.With(carcass.NotchMoves); len(l) > 0 || drawers == 0 {
		t.Errorf("%d parts of drawers; %v", drawers, l)
	}
}

// Two runs leave a corner open. The carcasses stand 560 and 380 deep, with fronts of 18 on 2 of air;
// the north filler closes from the west carcasses' plane at 380, less the 18 by which it passes
// behind the west filler's end, to its case at 460; the west filler from its case to the north
// carcasses' plane (geometry). Neither gets the 10 that is left on to be fitted to a wall.
func TestFillersMeetInACorner(t *testing.T) {
	r := planned(t, `
stowright: 1
practice: {from: metric-shop}
unit: mm
boards: {birch-18: {measures: 18}}
walls:
  north: {length: 4000, height: 2400, kind: stud, studs: {first: 300, spacing: 400}, lining: {thickness: 12}}
  west: {length: 2900, height: 2400, kind: stud, studs: {first: 300, spacing: 400}, lining: {thickness: 12}, corner: {with: north, at: right}}
cases:
  a: {width: 600, height: 868, depth: 580, stands-on: {kind: feet, height: 100}, inside: {shelves: {count: 1}, doors: {count: 1}}}
  b: {width: 600, height: 868, depth: 400, stands-on: {kind: feet, height: 100}, inside: {shelves: {count: 1}, doors: {count: 1}}}
runs:
  n: {wall: north, start: 460, order: [{case: a}], fill: left, filler: 120, scribe: 10}
  w: {wall: west, from: right, start: 640, order: [{case: b}], fill: right, filler: 120, scribe: 10}
`)
	got := map[string][2]length.Length{}
	for _, p := range r.Assembly.Parts {
		if p.Role == part.Filler {
			got[p.Owner] = [2]length.Length{p.Box().Min.X, p.Box().Max.X}
		}
	}
	want := map[string][2]length.Length{"n-filler-left": {362 * length.MM, 460 * length.MM}, "w-filler-right": {2260 * length.MM, 2340 * length.MM}}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("fillers %v, want %v", got, want)
	}
	for _, f := range r.Findings {
		if f.Code == rules.Clash || f.Code == place.FillerWide || f.Code == rules.CannotOpen || f.Code == rules.HandleRoom {
			t.Errorf("%s: %s", f.Code, f.Text)
		}
	}
}

// A case in a gap needs no sizes of its own: it takes the lower top and the lesser depth of its neighbours. The sides
// of a neighbour that nobody measured are assumed, and that is said once for each.
func TestGapTakesItsSizesFromItsNeighbours(t *testing.T) {
	text := strings.Replace(strings.Replace(between, "CLEAR", "4", 1), "width: 600, height: 868, depth: 500, ", "", 1)
	text = strings.Replace(text, "top: 868, board-measures: 18}", "top: 860}", 1)
	r := planned(t, text)
	s := r.Room.Seat("new").Box.Size()
	if s.X != 606*length.MM || s.Y != 500*length.MM || s.Z != 860*length.MM {
		t.Errorf("new is %s by %s by %s", s.X.Exact(1), s.Y.Exact(1), s.Z.Exact(1))
	}
	said := r.Findings.With(assemble.JoinAssumed)
	if len(said) != 1 || !strings.Contains(said[0].Text, "old left") || said[0].Verdict != finding.NotKnown {
		t.Errorf("of unmeasured sides is said: %v", said)
	}
}
