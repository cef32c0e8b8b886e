package plan_test

import (
	"context"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/shop"
)

// disordered gives a sentence for everything that stands at the wrong time in the work, or without
// the height, the figure or the weight that somebody needs who has the paper alone.
func disordered(r plan.Result) (bad []string) {
	say := func(format string, args ...any) { bad = append(bad, fmt.Sprintf(format, args...)) }
	order := []shop.Phase{shop.Prove, shop.Saw, shop.Bore, shop.Ready, shop.Assemble, shop.Finish, shop.FitOut, shop.Install}
	bench := map[string]shop.Phase{}
	last := shop.Prove
	banded := map[string]bool{}
	at := byMark(r.Assembly)
	side := func(owner string) (low part.Part, ok bool) {
		for _, p := range r.Assembly.Parts {
			if p.Owner == owner && p.Role == part.Side {
				return p, true
			}
		}
		return low, false
	}
	hung := map[string]bool{}
	for _, s := range r.Steps {
		before, now := slices.Index(order, last), slices.Index(order, s.Phase)
		if s.Phase.Bench() { // every owner goes through these by itself
			before = slices.Index(order, bench[s.Owner])
			bench[s.Owner] = s.Phase
			if last == shop.Install {
				say("step %d: %s after %s", s.N, s.Phase, last)
			}
		}
		if now < before {
			say("step %d: %s comes after %s", s.N, s.Phase, order[before])
		}
		last = s.Phase
		if strings.Contains(s.Text, "edging (") {
			for _, m := range s.Parts {
				banded[m] = true
			}
		}
		for _, m := range s.New {
			p := at[m]
			for _, b := range p.Bands {
				if b.Edging != "" && !banded[m] {
					say("step %d: %s is put in before its edges are banded", s.N, m)
					break
				}
			}
			// how high what is fixed between the sides sits
			q, ok := side(p.Owner)
			if slices.Contains(s.Also, p.Owner) {
				continue // told with the one that is built alike
			}
			if ok && s.Phase == shop.Assemble && slices.Contains([]part.Role{part.Bottom, part.Top, part.Stretcher, part.HangRail, part.FixedShelf, part.ToeBoard}, p.Role) {
				up := (p.Box().Min.Z - q.Box().Min.Z).In(r.Job.Print)
				told := func(t string) bool {
					return strings.Contains(t, up+" up from") || strings.Contains(t, "flush with the upper") || strings.Contains(t, "flush with the lower") ||
						strings.Contains(t, "lower end flush with the underside of "+p.Name+" ("+m+")")
				}
				if !told(s.Whole()) && !slices.ContainsFunc(r.Steps, func(x shop.Step) bool { // or with the side that comes later
					return x.Owner == s.Owner && slices.ContainsFunc(x.Points, func(t string) bool { return strings.HasPrefix(t, m+":") && told(t) })
				}) {
					say("step %d does not say that %s is %s up: %s", s.N, m, up, s.Whole())
				}
			}
		}
		if strings.Contains(s.Text, "people lift it") {
			hung[s.Owner] = true
		}
		if (strings.HasPrefix(s.Text, "Hang ") || strings.HasPrefix(s.Text, "Lift ")) && s.Phase == shop.Install && !hung[s.Owner] {
			say("step %d: nothing says what %s weighs when it is lifted, and by how many", s.N, s.Owner)
		}
	}
	figure := regexp.MustCompile(`\b(?:shelf|board|strip|rail|layer|divider|rung|block) (\d+)(?: |$)`)
	for _, p := range r.Assembly.Parts {
		if m := figure.FindStringSubmatch(p.Name); m != nil && !strings.HasSuffix(p.Mark, m[1]) {
			say("%s is called %q", p.Mark, p.Name)
		}
		if p.Removable && p.Role == part.Shelf && !slices.ContainsFunc(r.Steps, func(s shop.Step) bool {
			return slices.ContainsFunc(s.Points, func(t string) bool {
				return strings.Contains(t, "("+p.Mark+")") && strings.Contains(t, " up from ")
			})
		}) {
			same := false // told with another that is built alike
			for _, s := range r.Steps {
				same = same || len(s.Also) > 0 && slices.Contains(s.Parts, p.Mark)
			}
			if !same {
				say("nothing says how high %s lies", p.Mark)
			}
		}
	}
	return bad
}

// Everything is done at its time, and told with what it takes.
func TestWorkIsInOrder(t *testing.T) {
	for _, name := range shipped {
		for _, s := range disordered(plantest.Result(t, name)) {
			t.Errorf("%s: %s", name, s)
		}
	}
}

// Two that are built exactly alike share their steps: each tells one and takes the boards and the
// hardware of both.
func TestAlikeCasesShareSteps(t *testing.T) {
	box := "{level: wall, width: 30, height: 24, depth: 12, inside: {shelves: {count: 2}, doors: {count: 2}}}"
	text := "stowright: 1\nunit: in\npractice: {from: inch-shop}\ncases:\n  one: " + box + "\n  two: " + box + "\n"
	r := plan.Make(context.Background(), parse(t, "alike", []byte(text)), plan.Want{})
	shared := 0
	for _, s := range r.Steps {
		if s.Phase.Bench() {
			if !slices.Equal(s.Also, []string{"two"}) || s.Owner != "one" {
				t.Errorf("step %d is about %s and %v", s.N, s.Owner, s.Also)
			}
			shared++
		}
	}
	if shared < 8 {
		t.Errorf("%d steps are shared", shared)
	}
	for _, s := range append(append(judgeBuilding(r), uncounted(r)...), disordered(r)...) {
		t.Error(s)
	}
}
