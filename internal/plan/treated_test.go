package plan_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/shop"
)

// Preservative-treated wood rusts plain screws, and its dust and smoke are poison (from memory: consumer information sheets
// of its makers): it is said where it is sawn and where screws go into it, and nowhere else.
func TestTreatedWoodIsSaid(t *testing.T) {
	treated := 0
	for _, name := range shipped {
		r := plantest.Result(t, name)
		is := func(stick string) bool { x, ok := r.Job.Catalogue.Stick(stick); return ok && x.Treated }
		owners := map[string]bool{}
		for _, p := range r.Assembly.Parts {
			owners[p.Owner] = owners[p.Owner] || is(p.Stock)
		}
		sticks := map[string]bool{} // marks of what is sawn from treated sticks
		for _, s := range r.Sticks {
			for _, p := range s.Pieces {
				for _, m := range p.Marks {
					sticks[m] = is(s.Stock)
				}
			}
		}
		sawn, cautioned := false, false // a caution stands at the first of steps that have it
		for _, s := range r.Steps {
			if s.Phase != shop.Saw || !strings.HasPrefix(s.Text, "Stick ") || len(s.Parts) == 0 {
				continue
			}
			here := strings.Contains(s.Caution, shop.TreatedWood)
			cautioned = cautioned || here
			if is := sticks[s.Parts[0]]; !is && here {
				t.Errorf("%s: step %d saws no treated wood: %s", name, s.N, s.Caution)
			} else if sawn = sawn || is; is && !cautioned {
				t.Errorf("%s: step %d saws treated wood without a word", name, s.N)
			}
		}
		for o, want := range owners {
			said := slices.ContainsFunc(r.Steps, func(s shop.Step) bool {
				return s.Owner == o && strings.Contains(s.Text, "stainless or coated for treated wood")
			})
			if want {
				treated++
			}
			if want != said {
				t.Errorf("%s: %s is of treated wood: %v; its steps say which screws: %v", name, o, want, said)
			}
		}
	}
	if treated == 0 {
		t.Error("nothing is of treated wood")
	}
}

// Edging that goes on over a notch, as that of a cam, is cut out of it again.
func TestEdgingIsCutOutOfNotches(t *testing.T) {
	job := `stowright: 1
unit: in
practice: {from: inch-shop}
cases:
  a: {width: 33, height: 34 1/2, depth: 24, inside: {up: [{height: HIGH, shelves: {count: 1}}, {open: {}}], doors: {count: 2, lock: yes}}}
`
	results := map[string]plan.Result{}
	for _, high := range []string{"26", "27", "28", "29"} {
		results["made up, "+high] = plan.Make(context.Background(), parse(t, "notched", []byte(strings.Replace(job, "HIGH", high, 1))), plan.Want{})
	}
	for _, name := range shipped {
		results[name] = plantest.Result(t, name)
	}
	notched := 0
	for name, r := range results {
		for _, p := range r.Assembly.Parts {
			front := false
			for _, b := range p.Bands {
				front = front || b.Edging != "" && !b.Deduct
			}
			if !front || !slices.ContainsFunc(p.Ops, func(o part.Op) bool { return o.For == "cam of the lock" }) {
				continue
			}
			notched++
			if !slices.ContainsFunc(r.Steps, func(s shop.Step) bool {
				return slices.ContainsFunc(s.Points, func(x string) bool {
					return strings.HasPrefix(x, "Cut it out again") && strings.Contains(x, p.Mark)
				})
			}) {
				t.Errorf("%s: nothing cuts the edging out of the notch of %s", name, p.Mark)
			}
		}
	}
	if notched == 0 {
		t.Error("no notch in an edge with edging")
	}
}

// Locks of one key that are bought for several stages have its number noted in the first.
func TestLaterLocksHaveTheSameKey(t *testing.T) {
	r := plantest.Result(t, "ostler-row")
	first, later := 0, 0
	for _, l := range r.Bill.Lines {
		if l.Item != "lock-cam" {
			continue
		}
		switch {
		case strings.Contains(l.Name, "note the number"):
			first++
		case strings.Contains(l.Name, "noted in stage wall") && l.Stage != "wall":
			later++
		default:
			t.Errorf("%s, stage %s: no word on its key", l.Name, l.Stage)
		}
	}
	if first == 0 || later == 0 {
		t.Errorf("%d lines that note the key, %d that use it", first, later)
	}
}

// A batten is told with its size: it reaches over two of the studs that the case is screwed to.
func TestBattensHaveASize(t *testing.T) {
	battens := 0
	for _, name := range shipped {
		for _, s := range plantest.Result(t, name).Steps {
			if strings.Contains(s.Text, "on a batten, a straight offcut") {
				battens++
				if !strings.Contains(s.Text, "no wider than") || !strings.Contains(s.Text, " long at least") {
					t.Errorf("%s: step %d does not say how large the batten is: %s", name, s.N, s.Text)
				}
			}
		}
	}
	if battens == 0 {
		t.Error("no batten")
	}
}
