package plan_test

import (
	"context"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/shop"
)

// latePacking gives a sentence for all packing that nobody could put in: told when the thing is in its place already,
// where neighbours, its own back and what lies over it keep every hand away, or not told at the screw's board; and for
// tapered shims behind anything, of which a pair is never thinner than the thick end of one that goes in first.
func latePacking(r plan.Result) (bad []string, seen int) {
	say := func(format string, args ...any) { bad = append(bad, fmt.Sprintf(format, args...)) }
	at := byMark(r.Assembly)
	packs := func(s shop.Step) bool {
		return slices.ContainsFunc(s.Fits, func(f shop.Fit) bool {
			h, _ := r.Job.Catalogue.Item(f.ID)
			return h.Kind == "shim" && h.Use == "packing"
		})
	}
	for _, s := range r.Steps {
		if t := s.Whole(); strings.Contains(t, "shims in behind") || strings.Contains(t, "thick end first") {
			say("step %d has shims driven in behind: %s", s.N, t)
		}
	}
	for _, f := range r.Assembly.Fixings {
		if f.Kind != part.ToStud && f.Kind != part.ToWall || f.Packing < length.MM/2 {
			continue
		}
		seen++
		p := at[f.Part]
		told := slices.IndexFunc(r.Steps, func(s shop.Step) bool {
			return s.Owner == f.Owner && packs(s) && strings.Contains(s.Whole(), "("+f.Part+")") && strings.Contains(s.Whole(), f.Packing.In(r.Job.Print))
		})
		if told < 0 {
			say("%s: packing of %s at %s along is told in no step that has packers", f.Part, f.Packing.In(r.Job.Print), f.At.X.In(r.Job.Print))
			continue
		}
		if p.Role == part.WallCleat || p.Role == part.Ledger { // alone in the hand until it is fixed
			continue
		}
		for _, s := range r.Steps[:told] {
			for _, t := range []string{"set the case", "Lift ", "Hang ", "Put ", "Clamp ", "Fix "} {
				if s.Phase == shop.Install && s.Owner == f.Owner && strings.Contains(s.Text, t) && (t != "Fix " || !strings.Contains(s.Text, "Fix cleat") && !strings.Contains(s.Text, "Fix ledger")) {
					say("step %d packs %s, which step %d has in its place: %s", r.Steps[told].N, f.Part, s.N, s.Text)
				}
			}
		}
	}
	return bad, seen
}

// Packing is on the rear of a thing before it comes to the wall, in the examples and whatever a wall is made of.
func TestPackingComesFirst(t *testing.T) {
	seen := 0
	for _, name := range shipped {
		bad, n := latePacking(plantest.Result(t, name))
		for _, s := range bad {
			t.Errorf("%s: %s", name, s)
		}
		seen += n
	}
	for _, wall := range []string{"kind: masonry, lining: {thickness: 10}, anchor: {hardware: anchor-hollow-6}", "kind: stud, lining: {thickness: 12.5}, studs: {species: spruce-pine-fir, first: 200, spacing: 400, width: 45}"} {
		for _, hangs := range []string{"{kind: cleat}", "{kind: rail}"} {
			text := "stowright: 1\nunit: mm\nwalls:\n  north: {length: 4000, height: 2500, leans-out-at-top: 15, hollow: [{at: 1500, by: 14}], " + wall + "}\n" +
				"cases:\n  a: {level: wall, width: 600, height: 700, depth: 320, hangs-by: " + hangs + ", inside: {shelves: {count: 2}}}\n  low: {wall: north, at: 1000, width: 800, height: 800, depth: 500, inside: {drawers: {count: 3}}}\n" +
				"runs:\n  up: {wall: north, level: wall, start: 1200, bottom-line: 1400, order: [{case: a}]}\n"
			bad, n := latePacking(plan.Make(context.Background(), parse(t, wall, []byte(text)), plan.Want{}))
			for _, s := range bad {
				t.Errorf("%s, %s: %s", wall, hangs, s)
			}
			if seen += n; n < 3 {
				t.Errorf("%s, %s: only %d screws are packed out", wall, hangs, n)
			}
		}
	}
	if seen < 30 {
		t.Errorf("only %d screws are packed out", seen)
	}
}

// What joins a case to its neighbours in a gap is told for the places measured, not for one width: slips as thick as
// the gap is there, with what the narrowest measured place leaves; and no screw comes out of the far side there.
func TestPackingInAGapIsAsMeasured(t *testing.T) {
	seen := 0
	look := func(name string, r plan.Result) {
		for _, c := range r.Job.Cases {
			if c.Case.Gap == nil {
				continue
			}
			var o part.Owner
			for _, x := range r.Assembly.Owners {
				if x.ID == c.ID {
					o = x
				}
			}
			left := slices.Min(c.Case.Gap.Widths) - (o.Carcass.Max.X - o.Carcass.Min.X)
			for _, s := range r.Steps {
				if strings.HasPrefix(s.Text, "Clamp ") && strings.Contains(s.Text, "join them") && s.Owner == o.ID && strings.Contains(s.Text, "packing") {
					seen++
					if !strings.Contains(s.Text, "both sides together leave "+left.In(r.Job.Print)) {
						t.Errorf("%s: the narrowest place leaves %s, step %d: %s", name, left.In(r.Job.Print), s.N, s.Text)
					}
				}
			}
			for _, f := range r.Assembly.Fixings {
				if x, _ := r.Job.Catalogue.Item(f.Screw); f.Owner != o.ID || f.Kind != part.ToCase || x.Kind != "screw" {
					continue
				}
				for _, n := range r.Job.Standing {
					if n.ID == f.Stud && n.Value.Board != nil && f.Length >= part.Thick(f.Layers)+left/2+*n.Value.Board {
						t.Errorf("%s: %s comes through a side of %s where the gap is narrow", name, f.Screw, n.ID)
					}
				}
			}
		}
	}
	for _, name := range shipped {
		look(name, plantest.Result(t, name))
	}
	for _, widths := range []string{"[630, 628, 612]", "[630, 630]", "[615, 640]"} {
		text := "stowright: 1\nunit: mm\nwalls:\n  north: {length: 4000, height: 2500, kind: masonry, lining: {thickness: 10}, anchor: {hardware: anchor-hollow-6}}\n" +
			"standing:\n  a: {wall: north, from: 0, to: 700, depth: 500, top: 800, board-measures: 18}\n  b: {wall: north, from: 1330, to: 2000, depth: 500, top: 800, board-measures: 18}\n" +
			"cases:\n  c: {wall: north, in-gap: {left: a, right: b, widths: " + widths + ", clearance: 6}, inside: {shelves: {count: 2}}}\n"
		look(widths, plan.Make(context.Background(), parse(t, widths, []byte(text)), plan.Want{}))
	}
	if seen < 4 {
		t.Errorf("only %d joints in gaps", seen)
	}
}

// As many packers are taken for a thing as the figures beside its screws ask for, none thicker than 6 mm or 1/4 in: one figure
// is never one packer here and two there.
func TestPackersAreCountedByWhatIsTold(t *testing.T) {
	each := regexp.MustCompile(`(?:: |; )([^:;]+?) at `)
	seen := 0
	everywhere(t, func(name string, r plan.Result) {
		for _, s := range r.Steps {
			if !strings.HasPrefix(s.Text, "Pack ") || !strings.Contains(s.Text, " behind its screws.") {
				continue
			}
			want, got := 0, 0
			for _, p := range s.Points {
				if !strings.HasPrefix(p, "behind ") {
					continue
				}
				for _, m := range each.FindAllStringSubmatch(p, -1) {
					l, err := length.Parse(m[1], r.Job.Print)
					if err != nil {
						t.Fatalf("%s: %q: %v", name, p, err)
					}
					most := 6 * length.MM
					if r.Job.Print == length.Inches {
						most = length.Inch / 4
					}
					want += int((l + most - 1) / most)
				}
			}
			for _, f := range s.Fits {
				got += f.Count
			}
			if seen += want; got != want {
				t.Errorf("%s: %d packers are taken, %d are told: %s %s", name, got, want, s.Text, strings.Join(s.Points, "; "))
			}
		}
	})
	if seen == 0 {
		t.Error("nothing is packed")
	}
}
