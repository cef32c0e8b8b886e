package carcass_test

import (
	"slices"
	"testing"

	"stowright/internal/carcass"
	"stowright/internal/carcass/carcasstest"
	"stowright/internal/finding"
	"stowright/internal/fittings/canrack"
	"stowright/internal/fittings/drawers"
	"stowright/internal/fittings/shelves"
	"stowright/internal/joinery"
	"stowright/internal/mass"
	"stowright/internal/part"
	"stowright/internal/part/parttest"
	"stowright/internal/schema"
	"stowright/internal/stock"
)

func size(l L) *L { return &l }

// Hinge makers' published overlay tables: overlay = constant + boring - plate.
func TestOverlay(t *testing.T) {
	um := func(n int64) L { return L(n) * mm / 1000 }
	for _, c := range []struct{ k, b, h, overlay L }{
		{15 * mm, 5 * mm, 2 * mm, 18 * mm}, {15 * mm, 3 * mm, 0, 18 * mm},
		{12 * mm, 7 * mm, -2 * mm, 21 * mm}, {um(5500), 3 * mm, um(3500), 5 * mm},
	} {
		if got := carcass.Boring(c.overlay, stock.Hardware{Overlay: c.k}, c.h); got != c.b {
			t.Errorf("constant %v, plate %v, overlay %v: boring %v, want %v", c.k, c.h, c.overlay, got, c.b)
		}
	}
	// 18 mm side, 1.5 mm gap (arithmetic): boring less plate is 1.5.
	if got := carcass.Boring(um(16500), stock.Hardware{Overlay: 15 * mm}, um(3500)); got != 5*mm {
		t.Errorf("got %v", got)
	}
}

// A cup is bored, and the plate screws stand on the 37 mm row 32 mm apart, as hinge makers'
// guides publish.
func TestHingeBores(t *testing.T) {
	env := carcasstest.Metric()
	spec := carcass.Spec{Width: size(600 * mm), Height: size(720 * mm), Depth: size(580 * mm), Level: "floor", Inside: carcass.Bay{Doors: &carcass.Doors{Count: 1}}}
	a, f := carcass.Build(env, "c", spec, carcass.Site{})
	if f.Blocking() {
		t.Fatal(f)
	}
	var plates []part.Op
	for _, p := range a.Parts {
		for _, o := range p.Ops {
			switch {
			case o.For == "hinge plate":
				plates = append(plates, o)
				if o.Y != 37*mm || p.Local != "side-l" {
					t.Errorf("%s: plate screw %v from the front edge", p.Local, o.Y)
				}
			case o.For == "hinge cup":
				// needed 17.7 - 1.5 = 16.2 = 15 + B - H; with H = 4 the boring is 5.2, the centre 17.5 further.
				if want := L(22700) * mm / 1000; o.Y != want || o.Dia != 35*mm {
					t.Errorf("cup %v from the edge, want %v", o.Y, want)
				}
			}
		}
	}
	if len(plates) != 4 || (plates[1].X-plates[0].X).Abs() != 32*mm {
		t.Errorf("plates %v", plates)
	}
	if len(a.Fronts) != 1 || a.Fronts[0].Hinge.String() != "left" {
		t.Errorf("fronts %+v", a.Fronts)
	}
}

// Published slide guides: 12.9 to 13.2 mm of room each side; under slides, inside of the box
// is the opening less 42 mm.
func TestSlideRoom(t *testing.T) {
	side := stock.Hardware{SlideKind: "side", SideRoom: 13 * mm, Lengths: []L{450 * mm, 500 * mm}}
	under := stock.Hardware{SlideKind: "under", SideRoom: 21 * mm}
	if got := joinery.BoxOutside(side, 564*mm, 12*mm); got != 538*mm {
		t.Errorf("side-mount box %v", got)
	}
	if got := joinery.BoxOutside(under, 564*mm, 12*mm); got != 546*mm {
		t.Errorf("under-mount box %v", got)
	}
	if got := joinery.BoxOutside(stock.Hardware{SideRoom: 17 * in / 32}, 45*in/2, in/2); got != 343*in/16 {
		t.Errorf("inch box %v", got)
	}
	for _, c := range []struct{ depth, want L }{{503 * mm, 500 * mm}, {502 * mm, 450 * mm}} {
		if got, _ := joinery.SlideLength(side, c.depth); got != c.want {
			t.Errorf("depth %v: slide %v", c.depth, got)
		}
	}
}

// An old chest book's worked case for arithmetic fronts (27 in, four drawers, step 1 in), and
// the geometric series by arithmetic.
func TestGraduatedFronts(t *testing.T) {
	want := []L{21 * in / 4, 25 * in / 4, 29 * in / 4, 33 * in / 4}
	if got := drawers.Arithmetic(27*in, 4, in); !slices.Equal(got, want) {
		t.Errorf("arithmetic %v", got)
	}
	got := drawers.Geometric(27*in, 4, 6, 5)
	for i, w := range []L{503, 604, 724, 869} {
		if (got[i] - w*in/100).Abs() > in/100 {
			t.Errorf("geometric front %d: %v, want about %d hundredths", i, got[i], w)
		}
	}
	sum := L(0)
	for _, g := range got {
		sum += g
	}
	if sum != 27*in {
		t.Errorf("geometric fronts add to %v", sum)
	}
}

// The 32 mm grid, published by hardware makers: rows at 37 and 37 + 32k; in a depth of 560 the
// last row is at 517.
func TestGridRows(t *testing.T) {
	env := carcasstest.Metric()
	for _, c := range []struct{ depth, rear L }{{560 * mm, 517 * mm}, {554 * mm, 517 * mm}, {586 * mm, 549 * mm}} {
		front, rear := shelves.Rows(env, 3*mm, c.depth)
		if front != 37*mm || rear != c.rear {
			t.Errorf("depth %v: rows %v and %v, want 37 and %v", c.depth, front, rear, c.rear)
		}
	}
}

// Arithmetic: at equal overall height a carcass on a separate base is shorter by the whole
// base, and its inside by base minus toe.
func TestSeparateBase(t *testing.T) {
	env := carcasstest.Inch()
	build := func(kind string, toe L, base L) (part.Owner, part.Bay) {
		s := carcass.Spec{Width: size(30 * in), Height: size(69 * in / 2), Depth: size(24 * in), Level: "floor", Top: "full", Stands: carcass.Stands{Kind: kind, Height: &toe}}
		a, _ := carcass.Build(env, "c", s, carcass.Site{Base: base})
		return a.Owners[0], a.Bays[0]
	}
	toe, base := 4*in, 9*in/2
	a, x := build("toe", toe, 0)
	b, y := build("base", 0, base)
	if d := a.Box.Size().Z - b.Box.Size().Z; d != base {
		t.Errorf("carcass shorter by %v", d)
	}
	if d := x.Box.Size().Z - y.Box.Size().Z; d != base-toe {
		t.Errorf("inside lower by %v, want base less toe", d)
	}
	// Common practice, no source: three equal cases of 30 in make 90 in.
	if a.Box.Size().X*3 != 90*in {
		t.Errorf("three cases make %v", a.Box.Size().X*3)
	}
}

// A size written in inches or in millimetres makes the same parts.
func TestUnitsMakeNoDifference(t *testing.T) {
	mk := func(w, h, d L) part.Assembly {
		a, _ := carcass.Build(carcasstest.Metric(), "c", carcass.Spec{Width: &w, Height: &h, Depth: &d, Level: "floor", Inside: carcass.Bay{Fitting: schema.Plug{Kind: "shelves", Value: shelves.Kind().New()}}}, carcass.Site{})
		return a
	}
	a, b := mk(30*in, 36*in, 18*in), mk(762*mm, 914400*mm/1000, 457200*mm/1000)
	if len(a.Parts) == 0 || len(a.Parts) != len(b.Parts) {
		t.Fatal("parts differ")
	}
	for i := range a.Parts {
		if a.Parts[i].Size != b.Parts[i].Size || !slices.Equal(a.Parts[i].Ops, b.Parts[i].Ops) {
			t.Errorf("%s differs", a.Parts[i].Local)
		}
	}
}

// Left and right sides are true mirrors where nothing inside tells them apart: the same
// workings at the same places, on the opposite face.
func TestSidesAreMirrors(t *testing.T) {
	for _, joint := range []string{"pocket-screw", "connecting-screw", "dowel", "dado", "wood-screw"} {
		a, _ := carcass.Build(carcasstest.Metric(), "c", carcass.Spec{Width: size(762 * mm), Height: size(720 * mm), Depth: size(560 * mm), Joint: joint, Level: "floor",
			Stands: carcass.Stands{Kind: "toe"}, Inside: carcass.Bay{Fitting: schema.Plug{Kind: "drawers", Value: drawers.Kind().New()}}}, carcass.Site{})
		var l, r part.Part
		for _, p := range a.Parts {
			switch p.Local {
			case "side-l":
				l = p
			case "side-r":
				r = p
			}
		}
		if len(l.Ops) == 0 || len(l.Ops) != len(r.Ops) {
			t.Errorf("%s: %d and %d workings", joint, len(l.Ops), len(r.Ops))
			continue
		}
		for _, o := range l.Ops {
			m := o
			if o.Kind != part.Notch {
				m.Face = o.Face.Not()
			}
			if !slices.Contains(r.Ops, m) {
				t.Errorf("%s: %+v has no mirror", joint, o)
			}
		}
	}
}

// Hand-driven practice: n = 1 + ceil((len-100)/150), at least two (common practice, no source).
func TestPlaces(t *testing.T) {
	for _, c := range []struct {
		len L
		n   int
	}{{560 * mm, 5}, {400 * mm, 3}, {250 * mm, 2}, {90 * mm, 2}} {
		at := joinery.Places(c.len, 50*mm, 150*mm, 2)
		if len(at) != c.n || at[0] != c.len-at[len(at)-1] {
			t.Errorf("%v: %v", c.len, at)
		}
	}
	if joinery.PocketLength(18*mm) != 32*mm || joinery.PocketLength(12*mm) != 25*mm {
		t.Error("pocket screw lengths of jig makers' tables")
	}
}

// Where doors have no room for two hinges there are none, and it is said, at every width of a bay and every gap; no board is
// without a size.
func TestDoorsOfNoWidth(t *testing.T) {
	env := carcasstest.Metric()
	for _, gap := range []L{3 * mm, 22 * mm} {
		for _, width := range []L{mm, 5 * mm, 12 * mm, 30 * mm, 55 * mm, 80 * mm, 120 * mm, 200 * mm} {
			for _, count := range []int{1, 2} {
				for _, high := range []bool{false, true} {
					env.Practice.FrontGap = gap
					bays := []carcass.Bay{{Doors: &carcass.Doors{Count: count}}, {}}
					spec := carcass.Spec{Width: size(800 * mm), Height: size(720 * mm), Depth: size(450 * mm), Level: "floor"}
					if high {
						bays[0].Height, spec.Inside.Up = &width, bays
					} else {
						bays[0].Width, spec.Inside.Across = &width, bays
					}
					a, f := carcass.Build(env, "c", spec, carcass.Site{})
					for _, bad := range parttest.Check(a, parttest.Options{}) {
						t.Errorf("gap %v, bay %v: %s", gap, width, bad)
					}
					said := slices.ContainsFunc(f, func(x finding.Finding) bool { return x.Code == carcass.HingePlace && x.Severity == finding.Error })
					if got := len(a.Fronts); got != count && got != 0 || (got == 0) != said {
						t.Errorf("gap %v, bay %v: %d leaves of %d: %v", gap, width, got, count, f)
					}
				}
			}
		}
	}
}

// A front that only covers the boards beside its bay is told of: it cannot be the bay's measure.
func TestFrontOfNoBay(t *testing.T) {
	spec := carcass.Spec{Width: size(800 * mm), Height: size(720 * mm), Depth: size(450 * mm), Level: "floor"}
	spec.Inside.Up = []carcass.Bay{{Front: size(10 * mm)}, {}}
	a, f := carcass.Build(carcasstest.Metric(), "c", spec, carcass.Site{})
	if bad := parttest.Check(a, parttest.Options{}); len(bad) > 0 || !slices.ContainsFunc(f, func(x finding.Finding) bool { return x.Code == carcass.BayFront }) {
		t.Error(bad, f)
	}
}

// Every hinge has a plate on the list, of its own height or told to be none of the catalogue's.
func TestPlatesAreBought(t *testing.T) {
	for _, c := range []struct {
		plate L
		known bool
	}{{2 * mm, true}, {mm, false}} {
		env := carcasstest.Metric()
		env.Catalogue.Hardware = append([]stock.Hardware{{ID: "own", Kind: "hinge", Overlay: 13 * mm, Plates: []L{c.plate}, Opens: 107, BoringLeast: 3 * mm, BoringMost: 7 * mm}}, env.Catalogue.Hardware...)
		spec := carcass.Spec{Width: size(600 * mm), Height: size(720 * mm), Depth: size(450 * mm), Level: "floor", Inside: carcass.Bay{Doors: &carcass.Doors{Count: 2, Hinges: "own"}}}
		a, f := carcass.Build(env, "c", spec, carcass.Site{})
		count := map[string]int{}
		for _, h := range a.Hardware {
			count[h.Kind] += h.Count
		}
		if count["hinge"] != 4 || count["plate"] != 4 {
			t.Errorf("plates of %v: %v", c.plate, count)
		}
		if said := slices.ContainsFunc(f, func(x finding.Finding) bool { return x.Code == carcass.NoHardware }); said == c.known {
			t.Errorf("plates of %v: %v", c.plate, f)
		}
	}
}

// A rack that cannot be as low as it is asked for is told of.
func TestRackIsNotRaisedInSilence(t *testing.T) {
	for _, c := range []struct {
		up     [2]L
		raised bool
	}{{[2]L{20 * mm, 400 * mm}, false}, {[2]L{20 * mm, 50 * mm}, true}, {[2]L{400 * mm, 20 * mm}, true}} {
		rack := func(up L) carcass.Rack {
			return carcass.Rack{Up: &up, Fitting: schema.Plug{Kind: "can-rack", Value: canrack.Kind().New()}}
		}
		spec := carcass.Spec{Width: size(600 * mm), Height: size(1200 * mm), Depth: size(450 * mm), Level: "floor",
			Inside: carcass.Bay{Doors: &carcass.Doors{Count: 1, Left: []carcass.Rack{rack(c.up[0]), rack(c.up[1])}}}}
		_, f := carcass.Build(carcasstest.Metric(), "c", spec, carcass.Site{})
		if said := slices.ContainsFunc(f, func(x finding.Finding) bool { return x.Code == carcass.RackRaised }); said != c.raised {
			t.Errorf("racks at %v: %v", c.up, f)
		}
	}
}

// Hinges are counted by all that hangs on a door, weighed as everything else is weighed: two carry what the hinge makers' charts
// say (joinery.HingesCarry), and the least that is more asks for a third.
func TestHingesCarryAllThatHangs(t *testing.T) {
	env := carcasstest.Inch()
	build := func(load mass.Mass) part.Assembly {
		spec := carcass.Spec{Width: size(500 * mm), Height: size(750 * mm), Depth: size(450 * mm), Level: "floor",
			Inside: carcass.Bay{Doors: &carcass.Doors{Count: 1, Left: []carcass.Rack{{Load: &load, Fitting: schema.Plug{Kind: "can-rack", Value: canrack.Kind().New()}}}}}}
		a, _ := carcass.Build(env, "c", spec, carcass.Site{})
		return a
	}
	hung, parts := mass.Mass(0), 0
	for _, p := range build(0).Parts {
		if p.Moves != "" {
			kg, ok := joinery.Mass(p, env.Catalogue)
			if !ok {
				t.Fatalf("the weight of %s is not known", p.Local)
			}
			hung += kg
			parts++
		}
	}
	_, most := joinery.HingesCarry(2, 500*mm)
	if parts < 3 || hung >= most {
		t.Fatalf("%d parts of %s hang on the door", parts, hung.Print(true))
	}
	for more, want := range map[mass.Mass]int{0: 2, 1: 3} {
		if got := len(build(most - hung + more).Fronts[0].Hinges); got != want {
			t.Errorf("%s and %d hang on it: %d hinges, want %d", most.Print(true), more, got, want)
		}
	}
}

// A toe recess of more than half of the depth lets a case fall forwards before it is fixed (statics: its middle stands
// over nothing); whatever is stated, the toe board stays within the case.
func TestToeRecessWithinTheCase(t *testing.T) {
	for _, kind := range []string{"toe", "toe-feet"} {
		for recess, bad := range map[L]bool{0: false, 3 * in: false, 11 * in: false, 20 * in: true, 40 * in: true} {
			toe := 4 * in
			a, f := carcass.Build(carcasstest.Inch(), "c", carcass.Spec{Width: size(30 * in), Height: size(69 * in / 2), Depth: size(24 * in), Level: "floor", Stands: carcass.Stands{Kind: kind, Height: &toe, Recess: &recess}}, carcass.Site{})
			said := false
			for _, x := range f {
				said = said || x.Code == carcass.CaseSize && x.Severity == finding.Error
			}
			if said != bad {
				t.Errorf("%s, recess of %s: said %v", kind, recess, f)
			}
			for _, p := range a.Parts {
				if b := p.Box(); p.Role == part.ToeBoard && b.Max.Y > a.Owners[0].Carcass.Min.Y+14*in {
					t.Errorf("%s, recess of %s: the toe board ends at %s", kind, recess, b.Max.Y)
				}
			}
		}
	}
}
