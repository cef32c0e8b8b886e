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
	"stowright/internal/shop"
)

// Every leaf that locks opens from outside, in some order: it has a lock of its own, whose cam finds a board to turn
// behind, or its catches are let go by a hand that comes round it from the opening of the other leaf, past no board.
// 100 mm for a hand, 30 for half of a catch: common practice, no source.
func TestEveryLeafOpensFromOutside(t *testing.T) {
	locks, catches := 0, 0
	look := func(name string, r plan.Result) {
		for _, f := range r.Assembly.Fronts {
			if f.Kind != part.DoorFront || !f.Lock {
				continue
			}
			leaf := r.Assembly.Parts[slices.IndexFunc(r.Assembly.Parts, func(p part.Part) bool { return p.Mark == f.Part })]
			var uprights []part.Part
			for _, p := range r.Assembly.Parts {
				if p.Owner == leaf.Owner && p.Moves == "" && (p.Role == part.Side || p.Role == part.Partition) && p.Box().Min.Z < leaf.Box().Max.Z && p.Box().Max.Z > leaf.Box().Min.Z {
					uprights = append(uprights, p)
				}
			}
			x := leaf.Box()
			i := slices.IndexFunc(leaf.Ops, func(o part.Op) bool { return o.For == part.Lock })
			said := func(what string) bool {
				return slices.ContainsFunc(r.Steps, func(s shop.Step) bool {
					return slices.ContainsFunc(s.Points, func(p string) bool { return strings.HasPrefix(p, what+f.Part) })
				})
			}
			if i >= 0 {
				locks++
				if !said("Lock in the bored hole of ") {
					t.Errorf("%s: no step puts the lock into %s", name, f.Part)
				}
				for _, u := range uprights { // a cam that turns behind an angle on a board does not turn through it
					both := !slices.ContainsFunc(r.Assembly.Fronts, func(g part.Front) bool {
						return g.Lock && strings.HasPrefix(g.Part, leaf.Mark[:1]) && !slices.ContainsFunc(r.Assembly.Parts, func(p part.Part) bool {
							return p.Mark == g.Part && slices.ContainsFunc(p.Ops, func(o part.Op) bool { return o.For == part.Lock })
						})
					})
					if both && slices.ContainsFunc(u.Ops, func(o part.Op) bool { return o.For == "cam of the lock" }) {
						t.Errorf("%s: %s is notched for a cam that turns behind an angle on it", name, u.Mark)
					}
				}
				continue
			}
			catches++
			if !said("Catches inside ") {
				t.Errorf("%s: nothing holds %s shut", name, f.Part)
			}
			// The catches are at its free edge; the hand comes from beyond it.
			from, to := x.Max.X-(60+30)*length.MM, x.Max.X+100*length.MM
			if f.Hinge.String() == "right" {
				from, to = x.Min.X-100*length.MM, x.Min.X+(60+30)*length.MM
			}
			for _, u := range uprights {
				if b := u.Box(); b.Max.X > from && b.Min.X < to && u.Role == part.Partition {
					t.Errorf("%s: %s is held by catches, and %s keeps the hand from them: once shut it is not opened again", name, f.Part, u.Mark)
				}
			}
		}
	}
	for _, name := range shipped {
		look(name, plantest.Result(t, name))
	}
	refused := 0
	for left := 2; left <= 28; left++ {
		job := strings.Replace(`stowright: 1
unit: in
cases:
  a: {width: 33, height: 34 1/2, depth: 24, inside: {across: [{width: LEFT, shelves: {count: 1}}, {open: {}}], doors: {count: 2, lock: yes}}}
`, "LEFT", fmt.Sprint(left), 1)
		r := plan.Make(context.Background(), parse(t, "leaves", []byte(job)), plan.Want{})
		if slices.ContainsFunc(r.Findings, func(f finding.Finding) bool { return f.Code == "lock-place" && f.Severity == finding.Error }) {
			refused++
			continue
		}
		look(fmt.Sprintf("partition %d in from the left", left), r)
	}
	t.Logf("%d locks, %d catches, %d refused", locks, catches, refused)
	if locks < 10 || catches < 5 || refused > 12 {
		t.Errorf("%d leaves with locks, %d with catches, %d jobs refused", locks, catches, refused)
	}
}

// Where the cam of a lock turns through a fixed shelf, however little of its thickness is in the way, the notch goes
// through all of it and can be sawn.
func TestCamNotchesGoThrough(t *testing.T) {
	seen := 0
	for high := 660; high <= 780; high += 2 {
		job := strings.Replace(`stowright: 1
unit: mm
cases:
  a: {width: 590, height: 900, depth: 283, inside: {up: [{height: HIGH, open: {}}, {open: {}}], doors: {count: 1, lock: yes}}}
`, "HIGH", fmt.Sprint(high), 1)
		r := plan.Make(context.Background(), parse(t, "cams", []byte(job)), plan.Want{})
		for _, s := range unsawable(r.Assembly, r.Findings) {
			t.Errorf("a lower bay of %d mm: %s", high, s)
		}
		for _, p := range r.Assembly.Parts {
			for _, o := range p.Ops {
				if o.For != "cam of the lock" {
					continue
				}
				seen++
				if o.Depth != p.Size[2] {
					t.Errorf("a lower bay of %d mm: the notch in %s is %s deep in %s of board", high, p.Mark, o.Depth.In(length.Millimetres), p.Size[2].In(length.Millimetres))
				}
			}
		}
	}
	if seen < 5 {
		t.Errorf("only %d notches for cams", seen)
	}
}
