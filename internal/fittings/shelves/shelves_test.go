package shelves_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"stowright/internal/carcass"
	"stowright/internal/finding"
	"stowright/internal/fitting/fittingtest"
	"stowright/internal/fittings/shelves"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/part"
)

// What is stated is made or told of: a shelf is where it was asked for, within half a step of its holes when loose, or a finding
// names both heights; one that is left out is named (arithmetic, against the heights in the spec).
func TestStatedHeights(t *testing.T) {
	const mm = length.MM
	env := fittingtest.Shops()[0] // holes every 32 mm
	for _, c := range []struct {
		name      string
		fixed     bool
		at        []length.Length
		out, away []string // named as left out, as made elsewhere
		made      int
	}{
		{"all fit", false, []length.Length{300 * mm, 500 * mm}, nil, nil, 2},
		{"below and above the bay", false, []length.Length{-5 * mm, 300 * mm, 5000 * mm}, []string{"-5 mm", "5000 mm"}, nil, 1},
		{"under the first hole, twice", false, []length.Length{25 * mm, 25 * mm}, nil, []string{"25 mm"}, 2},
		{"over the last hole", false, []length.Length{700 * mm}, nil, []string{"700 mm"}, 1},
		{"fixed below the bay", true, []length.Length{-25 * mm, 250 * mm, 500 * mm}, []string{"-25 mm"}, nil, 2},
		{"fixed twice at one height", true, []length.Length{250 * mm, 250 * mm, 500 * mm}, []string{"250 mm"}, nil, 2},
		{"fixed, not in order", true, []length.Length{500 * mm, 250 * mm}, nil, nil, 2},
	} {
		spec := fittingtest.Case(shelves.Kind(), &shelves.Spec{Heights: c.at, Fixed: c.fixed, Depth: "full"}, 600*mm, "left")
		a, f := carcass.Build(env, "c", spec, carcass.Site{})
		var floor length.Length
		var got []length.Length
		for _, p := range a.Parts {
			if p.Local == "bottom" {
				floor = p.Box().Max.Z
			}
		}
		for _, p := range a.Parts {
			if p.Role == part.Shelf || p.Role == part.FixedShelf {
				got = append(got, p.Box().Max.Z-floor)
			}
		}
		if len(got) != c.made {
			t.Errorf("%s: %d shelves, want %d", c.name, len(got), c.made)
		}
		said := func(code finding.Code) (s string) {
			for _, x := range f {
				if x.Code == code {
					s += x.Text + "\n"
				}
			}
			return s
		}
		for _, h := range c.at {
			near := func(z length.Length) bool { return (z-h).Abs() <= 16*mm && (!c.fixed || z == h) }
			told := strings.Contains(said(shelves.TooMany)+said(shelves.Moved), h.In(length.Millimetres))
			if !slices.ContainsFunc(got, near) && !told {
				t.Errorf("%s: nothing at %s, and nothing says so: %v, %v", c.name, h.In(length.Millimetres), got, f)
			}
		}
		for code, names := range map[finding.Code][]string{shelves.TooMany: c.out, shelves.Moved: c.away} {
			if s := said(code); (s != "") != (len(names) > 0) {
				t.Errorf("%s: %s says %q", c.name, code, s)
			}
			for _, n := range names {
				if !strings.Contains(said(code), n) {
					t.Errorf("%s: %s does not name %s: %q", c.name, code, n, said(code))
				}
			}
		}
	}
}

// A fixed shelf is joined as the fixed shelf between two bays of the same case is, in every shop and by every joint, with as many
// fasteners; a bit that the shop has not got is told.
func TestFixedShelvesAreJoinedAsTheCase(t *testing.T) {
	const mm = length.MM
	for _, env := range fittingtest.Shops() {
		for _, joint := range []string{"pocket-screw", "dowel", "connecting-screw", "wood-screw"} {
			for _, exposed := range [][]string{nil, {"left"}} {
				spec := fittingtest.Case(shelves.Kind(), &shelves.Spec{Count: 1, Fixed: true, Depth: "full"}, 600*mm, "left")
				spec.Joint, spec.Exposed = joint, exposed
				split := spec
				split.Inside = carcass.Bay{Up: []carcass.Bay{{}, {}}}
				ends := func(s carcass.Spec) (list []string) {
					a, _ := carcass.Build(env, "c", s, carcass.Site{})
					fixed := map[string]bool{}
					for _, p := range a.Parts {
						fixed[p.Local] = p.Role == part.FixedShelf
					}
					for _, j := range a.Joints {
						if fixed[j.B] {
							list = append(list, fmt.Sprint(j.A, " ", j.Kind, " ", j.Fastener, " ", j.Count))
						}
					}
					slices.Sort(list)
					return list
				}
				if got, want := ends(spec), ends(split); len(got) != 2 || !slices.Equal(got, want) {
					t.Errorf("%s shop, %s, exposed %v: a fixed shelf is joined by %v, one between bays by %v", env.Practice.ID, joint, exposed, got, want)
				}
			}
		}
	}
	env := fittingtest.Shops()[2]
	_, f := carcass.Build(env, "c", fittingtest.Case(shelves.Kind(), &shelves.Spec{Count: 1, Fixed: true, Depth: "full"}, 600*mm, "left"), carcass.Site{})
	env.Practice.Bits = nil
	_, g := carcass.Build(env, "c", fittingtest.Case(shelves.Kind(), &shelves.Spec{Count: 1, Fixed: true, Depth: "full"}, 600*mm, "left"), carcass.Site{})
	told := func(f finding.List) bool {
		return slices.ContainsFunc(f, func(x finding.Finding) bool { return x.Code == joinery.NoBit && x.At == "case/c/in" })
	}
	if told(f) || !told(g) {
		t.Errorf("with bits: %v\nwithout: %v", f, g)
	}
}
