package plan_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/strength"
)

// unbored gives a sentence for every screw or bolt between cases that has no hole on its way: one
// through the side that it is driven from, and one for its thread or its end in the side that it
// goes into.
func unbored(a part.Assembly) (bad []string) {
	side := func(owner string, x length.Length) (near part.Part) {
		for _, p := range a.Parts {
			if p.Owner == owner && p.Role == part.Side && (near.Mark == "" || (p.Box().Min.X-x).Abs() < (near.Box().Min.X-x).Abs()) {
				near = p
			}
		}
		return near
	}
	bored := func(p part.Part, f part.Fixing) bool {
		return slices.ContainsFunc(p.Ops, func(o part.Op) bool {
			q := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size))
			return o.Kind == part.Hole && (o.For == part.JoiningScrew || o.For == part.JoiningBolt) && (q.Y-f.At.Y).Abs() < length.MM && (q.Z-f.At.Z).Abs() < length.MM
		})
	}
	kind := map[string]string{}
	standing := map[string]bool{}
	for _, o := range a.Owners {
		kind[o.ID], standing[o.ID] = o.Kind, o.Standing
	}
	for _, f := range a.Fixings {
		if f.Kind != part.ToCase || kind[f.Owner] != "case" {
			continue
		}
		for _, id := range []string{f.Owner, f.Stud} {
			if standing[id] {
				continue
			}
			if p := side(id, f.At.X); p.Mark != "" && !bored(p, f) {
				bad = append(bad, fmt.Sprintf("%s to %s at %s: no hole in %s", f.Part, f.Stud, f.At.Z, p.Mark))
			}
		}
	}
	return bad
}

// astray gives a sentence for every joining hole of a side that no screw or bolt goes through: those of two
// sides coincide where the cases stand in the room.
func astray(a part.Assembly) (bad []string) {
	for _, p := range a.Parts {
		for _, o := range p.Ops {
			if o.Kind != part.Hole || o.For != part.JoiningScrew && o.For != part.JoiningBolt {
				continue
			}
			q := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size))
			if !slices.ContainsFunc(a.Fixings, func(f part.Fixing) bool {
				return f.Kind == part.ToCase && (f.Part == p.Mark || f.Stud == p.Owner) && (q.Y-f.At.Y).Abs() < length.MM/10 && (q.Z-f.At.Z).Abs() < length.MM/10
			}) {
				bad = append(bad, fmt.Sprintf("%s: the joining hole at %s out, %s up meets none of its neighbour's", p.Mark, q.Y, q.Z))
			}
		}
	}
	return bad
}

// What joins neighbours has its holes in the sides of both, and no hole is without its other.
func TestJoiningHolesAreBored(t *testing.T) {
	for _, name := range shipped {
		a := plantest.Result(t, name).Assembly
		for _, s := range append(unbored(a), astray(a)...) {
			t.Errorf("%s: %s", name, s)
		}
	}
}

// intoAir gives a sentence for every screw into what stands already that misses its side, or that goes into a thing
// which is no case and no cupboard.
func intoAir(r plan.Result) (bad []string, n int) {
	for _, f := range r.Assembly.Fixings {
		for _, x := range r.Job.Standing {
			s := r.Room.Seat(x.ID)
			if f.Kind != part.ToCase || f.Stud != x.ID || f.Row != "joining" || s == nil {
				continue
			}
			n++
			if k := x.Value.Kind; k != "case" && k != "cupboard" {
				bad = append(bad, fmt.Sprintf("a joining screw of %s goes into %s, a %s", f.Owner, x.ID, k))
			}
			if b := s.Box; f.At.Y < b.Min.Y || f.At.Y > b.Max.Y || f.At.Z < b.Min.Z || f.At.Z > b.Max.Z {
				bad = append(bad, fmt.Sprintf("a joining screw of %s at %v passes %s, which is %v", f.Owner, f.At, x.ID, b))
			}
		}
	}
	return bad, n
}

// A case beside what stands already is joined to a case only, or to a cupboard whose boards are measured, where it has a side.
func TestJoiningWhatStands(t *testing.T) {
	const head = `stowright: 1
unit: in
practice: {from: inch-shop}
walls: {w: {length: 160, height: 98, kind: stud, lining: {name: drywall, thickness: 1/2}, studs: {listed: [8,150], species: spruce-pine-fir, width: 1 1/2}, floor: {every: 40, at-wall: [0,0,0,0,0]}}}
cases:
  a: {width: 30, height: 34 1/2, depth: 18, inside: {open: {}}}
runs: {r: {wall: w, start: 30, order: [{case: a}]}}
`
	for _, c := range []struct {
		standing   string
		screws     int
		code, none string
	}{
		{"old: {kind: case, from: 0, to: 30, depth: 18, top: 60, board-measures: 3/4}", 4, "", "join-none"},
		{"old: {kind: cupboard, from: 0, to: 30, depth: 24, top: 60, board-measures: 3/4}", 4, "", "join-none"},
		{"old: {kind: cupboard, name: steel cupboard, from: 0, to: 30, depth: 24, top: 60}", 0, "", "join-assumed"},
		{"old: {kind: case, from: 0, to: 30, depth: 24, top: 60}", 4, "join-assumed", "join-none"},
		{"old: {kind: case, from: 0, to: 30, depth: 10, top: 60, board-measures: 3/4}", 4, "join-by-hand", "join-none"},
		{"old: {kind: case, from: 0, to: 30, depth: 4, top: 60, board-measures: 3/4}", 0, "join-none", "join-by-hand"},
		{"old: {kind: machine, from: 0, to: 30, depth: 24, top: 60}", 0, "", "join-none"},
		{"old: {kind: other, from: 60, to: 80, depth: 24, top: 60}", 0, "", "join-assumed"},
		{"old: {kind: counter, from: 60, to: 80, depth: 24, top: 36, clear-under: 34}", 0, "", "join-by-hand"},
	} {
		r := planned(t, head+"standing: {"+c.standing+"}\n")
		bad, n := intoAir(r)
		for _, s := range bad {
			t.Errorf("%s: %s", c.standing, s)
		}
		if n != c.screws {
			t.Errorf("%s: %d screws, want %d", c.standing, n, c.screws)
		}
		if c.code != "" && len(r.Findings.With(finding.Code(c.code))) == 0 || len(r.Findings.With(finding.Code(c.none))) > 0 {
			t.Errorf("%s: %v", c.standing, r.Findings)
		}
	}
}

// Two that touch and do not stand alike are told by what they differ, and by nothing else.
func TestWhyRowsDoNotMeet(t *testing.T) {
	const head = `stowright: 1
unit: in
practice: {from: inch-shop}
walls: {w: {length: 160, height: 98, kind: stud, lining: {name: drywall, thickness: 1/2}, studs: {first: 8, spacing: 16, species: spruce-pine-fir, width: 1 1/2}, floor: {every: 40, at-wall: [0,0,0,0,0]}%s}}
cases:
  a: {width: 30, height: %s, depth: 18, at: 0, wall: w, inside: {open: {}}}
  b: {width: 30, height: 34 1/2, depth: 18, at: 30, wall: w, inside: {open: {}}}
`
	words := map[string]string{"top": "tops are not of one height", "rear": "rears are not in one plane", "foot": "do not begin at one height", "base": "stand on is not of one height"}
	for _, c := range []struct{ wall, high, odd string }{
		{"", "34 1/2", ""},
		{"", "30", "top"},
		{", hollow: [{at: 20, by: -1}]", "34 1/2", "rear"},
	} {
		r := planned(t, fmt.Sprintf(head, c.wall, c.high))
		said := ""
		for _, f := range r.Findings.With("join-by-hand") {
			said += f.Text
		}
		for k, w := range words {
			if strings.Contains(said, w) != (k == c.odd) {
				t.Errorf("%s, %s high: %q", c.wall, c.high, said)
			}
		}
	}
}

// A case between the studs is held by its neighbour alone: in place of the screws of two sides, which have too little
// wood for any published strength, bolts join them, and every hole of theirs is the bolt's, through both sides.
func TestBoltsHoldACaseBetweenStuds(t *testing.T) {
	const text = `stowright: 1
unit: in
practice: {from: inch-shop}
walls: {w: {length: 120, height: 96, kind: stud, lining: {name: drywall, thickness: 1/2}, studs: {species: spruce-pine-fir, first: 8, spacing: 16, width: 1 1/2}}}
cases:
  a: {width: 13, height: 34, depth: 22, inside: {drawers: {count: 4}, load: 80 lb}}
  b: {width: 30, height: 34, depth: 22, inside: {shelves: {count: 1}, load: 30 lb}}
runs: {f: {wall: w, start: 9.5, order: [{case: a}, {case: b}]}}
`
	r := plan.Make(context.Background(), parse(t, "between", []byte(text)), plan.Want{})
	bolts := 0
	for _, x := range r.Assembly.Fixings {
		if x.Kind == part.ToCase && x.Screw == "joining-bolt-1-4" {
			bolts++
		}
	}
	for _, mark := range []string{"A.right", "B.left"} {
		holes := 0
		for _, p := range r.Assembly.Parts {
			for _, o := range p.Ops {
				if p.Mark != mark || o.For != part.JoiningScrew && o.For != part.JoiningBolt {
					continue
				}
				holes++
				if o.Dia != length.Inch*9/32 || o.Depth != p.Size[2] {
					t.Errorf("%s: a hole of %s, %s deep", mark, o.Dia.Exact(0), o.Depth.Exact(0))
				}
			}
		}
		if bolts < 3 || holes != bolts {
			t.Errorf("%s: %d holes for %d bolts", mark, holes, bolts)
		}
	}
	for _, f := range r.Findings.With(strength.TipOver) {
		if f.Verdict == finding.Fails {
			t.Error(f.Text)
		}
	}
}

// Neighbours of two families with unlike rows are joined by one row of four, bored in both sides at the same places.
func TestOneRowJoinsTwoFamilies(t *testing.T) {
	r := planned(t, `stowright: 1
unit: in
practice: {from: inch-shop}
families:
  f: {depth: 18, top-line: 34 1/2, stands-on: {kind: toe, height: 4, recess: 3}, joining: {front: 2, rear: 2, low: 2, high: 2}}
  g: {depth: 18, top-line: 34 1/2, stands-on: {kind: toe, height: 4, recess: 3}, joining: {front: 6, rear: 6, low: 7, high: 7}}
walls: {w: {length: 160, height: 98, kind: stud, lining: {name: drywall, thickness: 1/2}, studs: {first: 8, spacing: 16, species: spruce-pine-fir, width: 1 1/2}, floor: {every: 40, at-wall: [0,0,0,0,0]}}}
cases:
  a: {family: f, width: 30, inside: {open: {}}}
  b: {family: g, width: 30, inside: {open: {}}}
runs: {r: {wall: w, start: 30, order: [{case: a}, {case: b}]}}
`)
	n := 0
	for _, f := range r.Assembly.Fixings {
		if f.Row == "joining" {
			n++
		}
	}
	if bad := append(unbored(r.Assembly), astray(r.Assembly)...); n != 4 || len(bad) > 0 {
		t.Errorf("%d screws join them; %v", n, bad)
	}
}
