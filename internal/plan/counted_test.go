package plan_test

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/shop"
)

// uncounted gives a sentence for every kind of hardware of which the holes, the bill and the steps
// tell different numbers. The bill's is before spares and packs.
func uncounted(r plan.Result) (bad []string) {
	say := func(format string, args ...any) { bad = append(bad, fmt.Sprintf(format, args...)) }
	a := r.Assembly
	for _, o := range a.Owners {
		if o.Standing {
			continue
		}
		bought := func(want func(h part.Item, use string) bool) (n int) {
			for _, h := range a.Hardware {
				x, _ := r.Job.Catalogue.Item(h.ID)
				if h.Owner == o.ID && want(h, x.Use) {
					n += h.Count
				}
			}
			return n
		}
		use := func(u string) int { return bought(func(_ part.Item, use string) bool { return use == u }) }
		kind := func(k string) int { return bought(func(h part.Item, _ string) bool { return h.Kind == k }) }
		worked := func(want func(p part.Part, w part.Op) bool) (n int) {
			for _, p := range a.Parts {
				if p.Owner != o.ID {
					continue
				}
				for _, w := range p.Ops {
					if want(p, w) {
						n++
					}
				}
			}
			return n
		}
		holes := func(use string, through bool) int {
			return worked(func(p part.Part, w part.Op) bool {
				_, _, deep := w.Face.Extent(p.Size)
				return w.For == use && (w.Kind == part.Hole || w.Kind == part.Cup) && (w.Depth >= deep) == through
			})
		}
		onDoor := map[string]bool{}
		for _, p := range a.Parts {
			onDoor[p.Moves] = onDoor[p.Moves] || p.Role == part.Door
		}
		shelves := 0
		for _, p := range a.Parts {
			if p.Owner == o.ID && p.Removable && p.Role == part.Shelf {
				shelves++
			}
		}
		for _, x := range []struct {
			what       string
			made, have int
		}{
			{"pockets and pocket screws", worked(func(_ part.Part, w part.Op) bool { return w.Kind == part.Pocket }), use("pocket")},
			{"holes through box fronts and front screws", holes("front screw", true), use("front")},
			{"holes in fronts and front screws", holes("front screw", false), use("front")},
			{"cups and hinges", worked(func(_ part.Part, w part.Op) bool { return w.Kind == part.Cup }), kind("hinge")},
			{"holes for plates, by two, and plates", holes("hinge plate", false), 2 * kind("plate")},
			{"holes for hinges and their screws", holes("hinge plate", false) + holes("hinge screw", false), use("hinge")},
			{"holes for slides and flanges and their screws", holes("slide", false) + holes("flange", false),
				bought(func(h part.Item, use string) bool {
					return use == "slide" && h.For != part.StandsOn && h.For != part.HangsOnBoard && h.For != part.LightOnBoard
				})}, // those are bored on the spot
			{"ends of dowels and dowels", holes("dowel", false) + holes("dowel", true), 2 * kind("dowel")},
			{"holes for connecting screws and these", holes("connecting screw", true), use("connecting")},
			{"loose shelves by four and pins", 4 * shelves, kind("pin")},
			{"holes for feet and the inserts in them", min(holes("foot", true), kind("insert")), kind("insert") * min(1, holes("foot", true))},
			{"holes through rack boards and rack screws", worked(func(p part.Part, w part.Op) bool {
				_, _, deep := w.Face.Extent(p.Size)
				return w.For == "wood screw" && w.Depth >= deep && onDoor[p.Moves]
			}), bought(func(h part.Item, _ string) bool { return h.For == "racks" && h.Kind == "screw" })},
		} {
			if x.made != x.have {
				say("%s: %s: %d and %d", o.ID, x.what, x.made, x.have)
			}
		}
	}
	alike := regexp.MustCompile(`(\d+) alike, told with|^Each of these (\d+)`)
	for _, s := range r.Steps {
		times := 1 + len(s.Also)
		if m := alike.FindStringSubmatch(s.Text); m != nil {
			n, _ := strconv.Atoi(cmp.Or(m[1], m[2]))
			times *= n
		}
		for _, f := range s.Fits {
			h, _ := r.Job.Catalogue.Item(f.ID)
			name := cmp.Or(h.Name, f.ID)
			told := 0
			for _, m := range regexp.MustCompile(`(\d+) × `+regexp.QuoteMeta(name)).FindAllStringSubmatch(s.Whole(), -1) {
				n, _ := strconv.Atoi(m[1])
				told += n
			}
			takes := 0 // slides of several lengths have one name
			for _, g := range s.Fits {
				if g.ID == f.ID {
					takes += g.Count
				}
			}
			if told*times != takes && !slices.ContainsFunc(s.Fits, func(g shop.Fit) bool {
				x, _ := r.Job.Catalogue.Item(g.ID)
				return g.ID != f.ID && strings.HasPrefix(cmp.Or(x.Name, g.ID), name)
			}) {
				say("step %d tells %d × %d × %s and takes %d: %s", s.N, times, told, name, takes, s.Whole())
			}
		}
	}
	return bad
}

// One count, from the holes to the bill and the steps.
func TestHardwareIsCountedOnce(t *testing.T) {
	for _, name := range shipped {
		for _, s := range uncounted(plantest.Result(t, name)) {
			t.Errorf("%s: %s", name, s)
		}
	}
}
