package plan_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/shop"
)

// everyTold runs a check over all examples, and fails when none of them has what it is about.
func everyTold(t *testing.T, about string, check func(t *testing.T, r plan.Result) int) {
	n := 0
	for _, name := range []string{"one-case", "fennel-street", "hollis-court", "marram-point", "ostler-row"} {
		r := plantest.Result(t, name)
		t.Run(name, func(t *testing.T) { n += check(t, r) })
	}
	if n == 0 {
		t.Errorf("no example has %s", about)
	}
}

// code is the letter that the marks of an owner's boards begin with.
func code(r plan.Result, owner string) string {
	for _, p := range r.Assembly.Parts {
		if p.Owner == owner {
			c, _, _ := strings.Cut(p.Mark, ".")
			return c
		}
	}
	return ""
}

// Of every kind of hinge that is bought one is tried on scrap, with its own figures.
func TestEveryKindOfHingeIsTried(t *testing.T) {
	everyTold(t, "hinges", func(t *testing.T, r plan.Result) int {
		kinds, text := map[string]bool{}, ""
		for _, h := range r.Assembly.Hardware {
			if h.Kind == "hinge" {
				kinds[h.ID] = true
			}
		}
		for _, s := range r.Steps {
			if s.Phase == shop.Prove && strings.Contains(s.Text, "hinge cup") {
				text += strings.Join(s.Points, "\n") + "\n"
			}
		}
		for id := range kinds {
			if !strings.Contains(text, "(hardware, "+id) {
				t.Errorf("no test of hinge %s: %s", id, text)
			}
		}
		if n := strings.Count(text, "the door should cover"); n < len(kinds) {
			t.Errorf("%d kinds of hinge and %d tests", len(kinds), n)
		}
		return len(kinds)
	})
}

// A shelf on pins whose two uprights begin at different heights is told by both.
func TestShelvesAreToldAtBothEnds(t *testing.T) {
	everyTold(t, "shelves between unlike uprights", func(t *testing.T, r plan.Result) (n int) {
		for _, p := range r.Assembly.Parts {
			if p.Role != part.Shelf || !p.Removable || p.Moves != "" {
				continue
			}
			var beside []part.Part
			for _, q := range r.Assembly.Parts {
				a, b := p.Box(), q.Box()
				if q.Owner == p.Owner && (q.Role == part.Side || q.Role == part.Partition) && b.Min.Z < a.Min.Z && b.Max.Z > a.Max.Z && (max(a.Min.X-b.Max.X, b.Min.X-a.Max.X)) < 3*length.MM {
					beside = append(beside, q)
				}
			}
			if len(beside) != 2 || beside[0].Box().Min.Z == beside[1].Box().Min.Z {
				continue
			}
			told := ""
			for _, s := range r.Steps {
				for _, x := range s.Points {
					if strings.Contains(x, "("+p.Mark+"):") {
						told = x
					}
				}
			}
			if told == "" {
				continue // a twin is told with the first
			}
			n++
			for _, q := range beside {
				up := (p.Box().Min.Z - q.Box().Min.Z).In(r.Job.Print) + " up from the "
				if !strings.Contains(told, q.Mark) || !strings.Contains(told, up) {
					t.Errorf("%s is not told by %s, %s: %s", p.Mark, q.Mark, up, told)
				}
			}
		}
		return n
	})
}

// Every board that is grooved for a back holds it, as the steps and the drawings have it.
func TestGroovesHoldTheirBacks(t *testing.T) {
	everyTold(t, "backs in grooves", func(t *testing.T, r plan.Result) (n int) {
		for _, p := range r.Assembly.Parts {
			for _, o := range p.Ops {
				if o.Kind != part.Groove || o.For != "back" {
					continue
				}
				n++
				held := false
				for _, j := range r.Assembly.Joints {
					held = held || j.Kind == part.Loose && j.A == p.Mark
				}
				if !held {
					t.Errorf("%s is grooved for a back that no joint holds in it", p.Mark)
				}
			}
		}
		return n
	})
}

// Where things are set up every case is called by its name and its letter: several have one name.
func TestCasesAreCalledWithTheirLetters(t *testing.T) {
	everyTold(t, "things with names", func(t *testing.T, r plan.Result) (n int) {
		for _, s := range r.Steps {
			if s.Phase != shop.Install {
				continue
			}
			for _, o := range r.Assembly.Owners {
				c := code(r, o.ID)
				if o.Name == "" || c == "" || o.ID != s.Owner || !strings.Contains(strings.ToLower(s.Text), strings.ToLower(o.Name)) {
					continue
				}
				n++
				if low := strings.ToLower(s.Text); !strings.Contains(low, strings.ToLower(o.Name+" ("+c+")")) && !strings.Contains(low, strings.ToLower(o.Name+" ("+c+".")) { // or a board of that name
					t.Errorf("step %d does not say that %s is %s: %s", s.N, o.Name, c, s.Text)
				}
			}
		}
		return n
	})
}

// What is on dowels says with which tools its two holes come to meet, and no more are glued in one go than
// the glue stays open for.
func TestDowelsAreGluedInGoes(t *testing.T) {
	everyTold(t, "cases on dowels", func(t *testing.T, r plan.Result) (n int) {
		boards := map[string]part.Part{}
		for _, p := range r.Assembly.Parts {
			boards[p.Mark] = p
		}
		sum, fixed := 0, map[string]int{}
		for _, j := range r.Assembly.Joints {
			if j.Kind == part.Dowel {
				sum += j.Count
				if p := boards[j.A]; p.Moves == "" && !p.Removable {
					fixed[p.Owner] += j.Count
				}
			}
		}
		if sum == 0 {
			return 0
		}
		tools := ", " + strings.Join(shop.Tools(r.Steps, r.Assembly.Parts, r.Job.Practice), ", ") + ","
		jig := ""
		for _, x := range r.Job.Practice.Tools {
			if x.Kind == "dowel-jig" {
				jig = x.Name
			}
		}
		for _, w := range map[bool][]string{true: {jig}, false: {"dowel guide", "dowel centre points"}}[jig != ""] {
			if !strings.Contains(tools, ", "+w+",") {
				t.Errorf("no %s among the tools: %s", w, tools)
			}
		}
		for _, s := range r.Steps {
			if count := fixed[s.Owner]; s.Phase == shop.Assemble && strings.Contains(s.Text, "in one go, while") && strings.Contains(s.Text, "Begin with") && count > 24 {
				t.Errorf("%s has %d dowels in one go: %s", s.Owner, count, s.Text)
			} else if s.Phase == shop.Assemble && strings.Contains(s.Text, fmt.Sprintf("has %d dowels, too many", count)) {
				n++
			}
		}
		return n
	})
}

// A bar that lets one drawer open at a time is told with the room that there is for it, before anything is cut and
// where it is fitted.
func TestBarLocksHaveRoom(t *testing.T) {
	everyTold(t, "bar locks", func(t *testing.T, r plan.Result) (n int) {
		for _, h := range r.Assembly.Hardware {
			if h.For != "one drawer at a time" {
				continue
			}
			n++
			before, fitted, fronts := false, false, false
			for _, s := range r.Steps {
				fronts = fronts || s.Owner == h.Owner && strings.Contains(s.Text, ": set the fronts ")
				for _, x := range s.Points {
					room := strings.Contains(x, " behind the boxes, to the front of "+code(r, h.Owner)+".") && strings.Contains(x, " beside them on either side")
					before = before || room && s.Phase == shop.Prove
					fitted = fitted || room && s.Owner == h.Owner && strings.HasPrefix(x, "Bar lock: ") && !fronts // behind which nothing is reached
				}
			}
			if !before || !fitted {
				t.Errorf("the bar lock of %s: room told before the first cut %t, where it is fitted %t", h.Owner, before, fitted)
			}
		}
		return n
	})
}

// A case that no screws hold to its base, whose rails are too thin for them, is bedded on it in adhesive that is bought
// and that its step says; rails of the carcass's own board take screws.
func TestCasesAreBeddedOnTheirBases(t *testing.T) {
	for _, c := range []struct {
		board  string
		bedded bool
	}{{"birch-12", true}, {"birch-18", false}} {
		r := plan.Make(context.Background(), parse(t, "based", []byte(`
stowright: 1
unit: mm
practice: {from: metric-shop}
walls: {w: {length: 3400, height: 2400, kind: masonry, floor: {slab: no, falls-along: 4}}}
cases: {based: {wall: w, at: 1000, width: 900, height: 780, depth: 560, stands-on: {kind: base}, inside: {open: {}}}}
bases: {b: {under: [based], stock: `+c.board+`, height: 90}}
`)), plan.Want{})
		bought, told, screwed := false, false, 0
		for _, h := range r.Assembly.Hardware {
			bought = bought || h.Owner == "based" && h.For == part.BedsOnBase
		}
		for _, s := range r.Steps {
			told = told || s.Owner == "based" && s.Phase == shop.Install && strings.Contains(strings.Join(s.Points, " "), "beads of adhesive")
		}
		for _, f := range r.Assembly.Fixings {
			if f.Owner == "based" && f.Kind == part.ToBase {
				screwed++
			}
		}
		if bought != c.bedded || told != c.bedded || c.bedded == (screwed >= 2) {
			t.Errorf("%s: adhesive bought %t, told %t, %d screws", c.board, bought, told, screwed)
		}
	}
}

// Every rail at the back of a case that is screwed to the wall either takes a screw there or is told to take none.
func TestRailsWithoutScrewsAreTold(t *testing.T) {
	told := 0
	everywhere(t, func(name string, r plan.Result) {
		screwed, cases := map[string]bool{}, map[string]bool{}
		for _, f := range r.Assembly.Fixings {
			if f.Kind == part.ToStud || f.Kind == part.ToWall || f.Kind == part.ToLedger {
				screwed[f.Part], cases[f.Owner] = true, true
			}
		}
		var all strings.Builder
		for _, s := range r.Steps {
			if s.Phase == shop.Install {
				all.WriteString(s.Whole() + "\n")
			}
		}
		for _, p := range r.Assembly.Parts {
			if p.Role != part.HangRail || !cases[p.Owner] || !slices.ContainsFunc(r.Assembly.Owners, func(o part.Owner) bool { return o.ID == p.Owner && o.Kind == "case" && !o.Hung }) {
				continue
			}
			said := strings.Contains(all.String(), "("+p.Mark+") takes no screw to the wall")
			if said {
				told++
			}
			if said == screwed[p.Mark] {
				t.Errorf("%s: %s is screwed to the wall: %v, told to take no screw: %v", name, p.Mark, screwed[p.Mark], said)
			}
		}
	})
	if told < 4 {
		t.Errorf("%d rails are told to take no screw", told)
	}
}
