package base_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"stowright/internal/base"
	"stowright/internal/carcass/carcasstest"
	"stowright/internal/finding"
	"stowright/internal/fitting"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/part/parttest"
	"stowright/internal/stock"
)

const (
	mm = length.MM
	in = length.Inch
)

type L = length.Length

func shop() fitting.Env {
	e := carcasstest.Inch()
	e.Practice.ShimMost = 3 * in / 4
	// PS 20-20 table 3: a 2x4 is dressed to 1-1/2 by 3-1/2 in.
	e.Catalogue.Sticks = []stock.Stick{{ID: "2x4", Thickness: 3 * in / 2, Width: 7 * in / 2, Length: 96 * in},
		{ID: "treated", Thickness: 3 * in / 2, Width: 7 * in / 2, Length: 96 * in, Treated: true}}
	return e
}

func TestBasesKeepThePromises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := shop()
		size := func(n string, lo, hi L) L { return L(rapid.Int64Range(int64(lo/mm), int64(hi/mm)).Draw(t, n)) * mm }
		w, d := size("length", 400*mm, 6000*mm), size("depth", 250*mm, 600*mm)
		fall, out := size("fall", 0, 60*mm), size("out", 0, 10*mm)
		s := base.Spec{Box: geom.B(0, -d, 0, w, 0, 7*in/2), Stock: "2x4", How: rapid.SampledFrom([]string{"", "shims", "taper", "steps", "feet"}).Draw(t, "how")}
		s.Floor = func(x, y L) L { return -fall.MulDiv(int64(x), int64(w)) - out.MulDiv(int64(-y), int64(d)) }
		for x := L(0); x < w; {
			c := size("case", 300*mm, 900*mm)
			if w-x-c < 200*mm { // no case is a sliver
				c = w - x
			}
			s.Under = append(s.Under, base.Piece{ID: "c", From: x, To: min(x+c, w)})
			x += c
		}
		a, f := base.Build(e, "b", s)
		b, g := base.Build(e, "b", s)
		if diff := cmp.Diff(a, b) + cmp.Diff(f, g); diff != "" {
			t.Fatal(diff)
		}
		for _, bad := range parttest.Check(a, parttest.Options{}) {
			t.Error(bad)
		}
		for _, p := range a.Parts {
			if p.Material == part.Stick && p.Size[0] > 96*in {
				t.Errorf("%s is longer than a stick", p.Local)
			}
		}
		// What a point stands on fills the room down to the floor exactly (arithmetic).
		for _, x := range a.Feet {
			if got := x.At.Z - s.Floor(x.At.X, x.At.Y); (got-x.Height).Abs() > mm/100 || x.Height < 0 {
				t.Errorf("%s: the floor at %v is %v below, the shim %v", s.How, x.At, got, x.Height)
			}
			if (s.How == "" || s.How == "steps") && x.Height > 3*in/4 {
				t.Errorf("a shim of %v passes 3/4 in", x.Height)
			}
		}
		// Every case side has a rung under it.
		for _, u := range s.Under {
			for _, x := range []L{u.From + mm, u.To - mm} {
				ok := false
				for _, p := range a.Parts {
					ok = ok || p.Role == part.BaseRung && p.Box().Min.X <= x && x <= p.Box().Max.X
				}
				if !ok && u.To-u.From > 150*mm {
					t.Errorf("no rung under the side at %v", x)
				}
			}
		}
	})
}

func TestDampOnASlab(t *testing.T) {
	yes := true
	for _, c := range []struct {
		stock, damp string
		ok          bool
	}{{"2x4", "", false}, {"2x4", "strip", true}, {"treated", "", true}, {"2x4", "treated", false}} {
		_, f := base.Build(shop(), "b", base.Spec{Box: geom.B(0, -20*in, 0, 60*in, 0, 7*in/2), Stock: c.stock, Damp: c.damp, Slab: &yes, Floor: func(x, y L) L { return 0 }})
		if got := len(f.With(base.Damp)) == 0; got != c.ok {
			t.Errorf("%+v: kept from damp %v", c, got)
		}
	}
}

// A fall of 2-1/8 in over 19 ft 8 in passes 3/4 in of shims.
func TestAFallThatShimsDoNotMakeUp(t *testing.T) {
	w := 236 * in
	s := base.Spec{Box: geom.B(0, -20*in, 0, w, 0, 7*in/2), Stock: "treated", Floor: func(x, y L) L { return -(17 * in / 8).MulDiv(int64(w-x), int64(w)) }}
	a, f := base.Build(shop(), "b", s)
	if len(f.With(base.Falls)) == 0 {
		t.Error("no finding says so")
	}
	soles := 0
	for _, p := range a.Parts {
		if p.Role == part.Spacer {
			soles++
		}
	}
	if soles == 0 {
		t.Error("no sole is ripped to the slope")
	}
}

// The floor steps down 40 mm at the middle of 2 m: one slope cannot fill both its sides (geometry), and blocks
// leave no shim over 3/4 in.
func TestNoSoleOverAStep(t *testing.T) {
	a, f := base.Build(shop(), "b", base.Spec{Box: geom.B(0, -400*mm, 0, 2000*mm, 0, 7*in/2), Stock: "2x4", Floor: func(x, _ L) L {
		if x >= 1000*mm {
			return -40 * mm
		}
		return 0
	}})
	if l := f.With(base.Falls); len(l) != 1 || !strings.Contains(l[0].Text, "levelled by steps") {
		t.Errorf("%v", f)
	}
	for _, x := range a.Feet {
		if x.Height > 3*in/4 {
			t.Errorf("a shim of %s at %s along", x.Height.Exact(1), x.At.X.Exact(1))
		}
	}
}

// Whatever the floor, where it steps and however it falls, no shim is higher than 3/4 in, or that is told; and
// no sole is in the floor.
func TestNoShimPassesTheMost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := L(rapid.IntRange(600, 3600).Draw(t, "wide")) * mm
		at, up := L(rapid.IntRange(-100, 3700).Draw(t, "step at"))*mm, L(rapid.IntRange(-60, 60).Draw(t, "step"))*mm
		fall := L(rapid.IntRange(-40, 40).Draw(t, "fall")) * mm
		raw := func(x L) L {
			z := fall.MulDiv(int64(x), int64(w))
			if x >= at {
				z += up
			}
			return z
		}
		top := max(raw(0), raw(w), raw(min(max(at-1, 0), w)), raw(min(max(at, 0), w)))
		floor := func(x, _ L) L { return raw(x) - top }
		a, f := base.Build(shop(), "b", base.Spec{Box: geom.B(0, -400*mm, 0, w, 0, 7*in/2), Stock: "2x4", Floor: floor})
		told := slices.ContainsFunc(f.With(base.Falls), func(f finding.Finding) bool { return f.Severity == finding.Warning })
		for _, x := range a.Feet {
			if x.Height > 3*in/4 && !told {
				t.Fatalf("a shim of %s at %s along, and nothing says so: %v", x.Height.Exact(1), x.At.X.Exact(1), f)
			}
		}
		for _, p := range a.Parts {
			for _, o := range p.Ops {
				if o.Kind != part.Taper {
					continue
				}
				for i := range int64(200) {
					b := p.Box()
					x := b.Min.X + (b.Max.X-b.Min.X).MulDiv(i, 199)
					if low := b.Min.Z + o.Y + (o.Depth-o.Y).MulDiv(i, 199); low < floor(x, 0)-mm/4 {
						t.Fatalf("%s is %s in the floor at %s along", p.Local, (floor(x, 0) - low).Exact(1), x.Exact(1))
					}
				}
			}
		}
	})
}

// The floor steps up 30 mm at 1000; a case's side stands at 980 and its rung there. A block under
// it, centred, would reach 1030 and stand in the step: every block keeps above the floor over its
// whole length, and its shim stays within 3/4 in (geometry).
func TestNoBlockStandsInAStep(t *testing.T) {
	step := func(x, _ L) L {
		if x >= 1000*mm {
			return 0
		}
		return -30 * mm
	}
	a, _ := base.Build(shop(), "b", base.Spec{Box: geom.B(0, -400*mm, 0, 2000*mm, 0, 7*in/2), Stock: "2x4", How: "steps", Floor: step,
		Under: []base.Piece{{ID: "c", From: 0, To: 980 * mm}, {ID: "d", From: 980 * mm, To: 2000 * mm}}})
	blocks := 0
	for _, p := range a.Parts {
		if p.Role != part.Spacer {
			continue
		}
		blocks++
		if b := p.Box(); b.Min.Z < max(step(b.Min.X, 0), step(b.Max.X, 0)) {
			t.Errorf("%s from %s to %s along reaches down to %s, into the floor", p.Local, b.Min.X.Exact(1), b.Max.X.Exact(1), b.Min.Z.Exact(1))
		}
	}
	for _, f := range a.Feet {
		if f.Height > 3*in/4 {
			t.Errorf("a shim of %s at %s along", f.Height.Exact(1), f.At.X.Exact(1))
		}
	}
	if blocks < 6 {
		t.Errorf("%d blocks, want 6 or more under the lower half", blocks)
	}
}

// A strip that is named goes under treated stock too: 2 rails of 2 m.
func TestAStripUnderTreatedStock(t *testing.T) {
	slab := true
	a, f := base.Build(shop(), "b", base.Spec{Box: geom.B(0, -400*mm, 0, 2000*mm, 0, 7*in/2), Stock: "treated", Damp: "treated", Strip: "sill", Slab: &slab, Floor: func(_, _ L) L { return 0 },
		Under: []base.Piece{{ID: "c", From: 0, To: 2000 * mm}}})
	n := L(0)
	for _, h := range a.Hardware {
		if h.ID == "sill" && h.Kind == "tape" {
			n += L(h.Count) * h.Length
		}
	}
	if n != 4000*mm || len(f.With(base.Damp)) != 0 {
		t.Errorf("%s of strip, want 4 m; %v", n.Exact(1), f)
	}
}

// A base on feet has a block under every foot, which bears on its rail and, but for a bolt, holds the foot's plate by
// as many screws as it asks for; a bolt has a hole through its block and room in the rung above, past the screws there;
// and stock that its insert splits is refused.
func TestFeetHaveTheirBlocks(t *testing.T) {
	for _, kind := range []string{"foot-100", "foot-bolt"} {
		for _, stick := range []bool{true, false} {
			e := shop()
			e.Practice.Foot = kind
			for i := range e.Catalogue.Hardware {
				if h := &e.Catalogue.Hardware[i]; h.ID == "foot-100" {
					h.ScrewsEach = 4
				}
			}
			s := base.Spec{Box: geom.B(0, -560*mm, 0, 1600*mm, 0, 200*mm), Stock: "i34", How: "feet", Under: []base.Piece{{ID: "a", To: 800 * mm}, {ID: "b", From: 800 * mm, To: 1600 * mm}}}
			if stick {
				e.Catalogue.Sticks[0].Width = 8 * in
				s.Stock = "2x4"
			}
			s.Floor = func(x, _ L) L { return -x / 100 }
			a, f := base.Build(e, "b", s)
			thin := slices.ContainsFunc(f, func(f finding.Finding) bool { return f.Code == "board-too-thin" && f.Severity == finding.Error })
			if thin != (kind == "foot-bolt" && !stick) {
				t.Errorf("%s, of sticks %v: %v", kind, stick, f)
			}
			for _, bad := range parttest.Check(a, parttest.Options{}) {
				if !thin {
					t.Errorf("%s: %v", kind, bad)
				}
			}
			screws := 0
			for _, h := range a.Hardware {
				if h.Kind == "screw" && h.For == part.StandsOn {
					screws += h.Count
				}
			}
			if want := map[string]int{"foot-100": 4 * len(a.Feet)}[kind]; len(a.Feet) != 10 || screws != want {
				t.Errorf("%s: %d feet by %d screws", kind, len(a.Feet), screws)
			}
			for _, x := range a.Feet {
				on, bored, over := false, false, false
				for _, p := range a.Parts {
					b := p.Box()
					here := b.Min.X <= x.At.X && x.At.X <= b.Max.X && b.Min.Y <= x.At.Y && x.At.Y <= b.Max.Y
					if here && b.Min.Z == x.At.Z {
						on = true
						bored = slices.ContainsFunc(p.Ops, func(o part.Op) bool { return o.For == "foot" && o.Depth == p.Size[2] })
					}
					over = over || here && p.Role == part.BaseRung && slices.ContainsFunc(p.Ops, func(o part.Op) bool { return o.For == "bolt of a foot" })
				}
				if bolt := kind == "foot-bolt"; !on || bored != bolt || over != bolt {
					t.Errorf("%s at %v: on a block %v, bored %v, room in the rung %v", kind, x.At, on, bored, over)
				}
				if got := x.At.Z - s.Floor(x.At.X, x.At.Y); (got - x.Height).Abs() > mm/100 {
					t.Errorf("%s at %v is to be %v high, has %v", kind, x.At, x.Height, got)
				}
			}
		}
	}
}
