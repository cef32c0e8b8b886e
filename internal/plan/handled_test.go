package plan_test

import (
	"slices"
	"strings"
	"testing"

	"stowright/internal/job"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/shop"
)

// What is turned over to be worked is turned back in words; what stood before is looked into and bored where screws come
// into it; and what goes under a bench goes in when that stands, for nobody lifts a bench over a case.
func TestWhatTheHandsDoNext(t *testing.T) {
	turned, joined, under := 0, 0, 0
	for _, name := range shipped {
		r := plantest.Result(t, name)
		standing := map[string]string{}
		for _, o := range r.Assembly.Owners {
			if o.Standing {
				standing[o.ID] = o.Name
			}
		}
		for _, s := range r.Steps {
			if strings.Contains(s.Text, "urn it upside down") {
				turned++
				if !strings.Contains(s.Text, "turn it back") {
					t.Errorf("%s: step %d leaves it upside down: %s", name, s.N, s.Text)
				}
			}
			for id, called := range standing {
				into := slices.ContainsFunc(r.Assembly.Fixings, func(f part.Fixing) bool { return f.Owner == s.Owner && f.Stud == id })
				if s.Phase == shop.Install && into && strings.Contains(s.Text, "join them") && strings.Contains(s.Text, " and "+called+" with ") {
					joined++
					if !strings.Contains(s.Text, "Look first inside "+called) || !strings.Contains(s.Text, "bore on into its side") {
						t.Errorf("%s: step %d screws into %s blind: %s", name, s.N, id, s.Text)
					}
				}
			}
		}
		set := func(owner, how string) int {
			return slices.IndexFunc(r.Steps, func(s shop.Step) bool {
				return s.Phase == shop.Install && s.Owner == owner && strings.Contains(s.Text, how)
			})
		}
		for _, c := range r.Job.Cases {
			if c.Case.Rolls == "" || c.Spec.Loose != "standing" {
				continue
			}
			if n := slices.IndexFunc(r.Job.Counters, func(n job.Named[job.Counter]) bool { return n.ID == c.Case.Rolls && n.Value.Free != nil }); n < 0 {
				continue
			}
			under++
			if bench, rack := set(c.Case.Rolls, "Put "), set(c.ID, "set it in its place"); bench < 0 || rack < bench {
				t.Errorf("%s: %s is set at %d of the list, the bench over it put at %d", name, c.ID, rack, bench)
			}
		}
	}
	if turned < 5 || joined < 2 || under < 1 {
		t.Errorf("only %d turned, %d joined to what stands, %d under benches", turned, joined, under)
	}
}

// The head of a handle's screw bears on wood or on a washer: where the hole under it is as wide as the head less 1 mm all
// round (ISO 7045 pan head M4: 7.64 to 8 mm, from memory; number 8 is wider), washers are bought for all such holes of a
// case, and its screws are so long that 5 mm go into the handle.
func TestHeadsOfHandleScrewsBear(t *testing.T) {
	const bears = 764*length.MM/100 - 2*length.MM
	seen := 0
	everywhere(t, func(name string, r plan.Result) {
		wide, washers := map[string]int{}, map[string]int{}
		deep := map[[2]string]length.Length{} // by owner and what moves
		for _, p := range r.Assembly.Parts {
			handled := false
			for _, o := range p.Ops {
				if handled = handled || o.For == "handle"; o.For == "handle" && o.Dia > bears {
					wide[p.Owner]++
				}
			}
			if handled && p.Moves != "" && p.Role != part.Door {
				deep[[2]string{p.Owner, p.Moves}] += p.Size[2]
			}
		}
		for _, h := range r.Assembly.Hardware {
			if h.Kind == "washer" && h.For == part.ForDrawerHandles {
				washers[h.Owner] += h.Count
			}
		}
		for _, h := range r.Assembly.Hardware {
			if h.Kind != "screw" || h.For != part.ForDrawerHandles {
				continue
			}
			least := length.Length(1 << 60)
			for k, d := range deep {
				if k[0] == h.Owner {
					least = min(least, d)
				}
			}
			if washers[h.Owner] > 0 && h.Length < least+6*length.MM {
				t.Errorf("%s, %s: screws %s long for %s of wood, a washer and 5 mm of handle", name, h.Owner, h.Length.In(length.Millimetres), least.In(length.Millimetres))
			}
		}
		for o, n := range wide {
			if seen += n; washers[o] != n {
				t.Errorf("%s, %s: %d wide holes for handles, %d washers", name, o, n, washers[o])
			}
		}
	})
	if seen < 20 {
		t.Errorf("%d wide holes", seen)
	}
}
