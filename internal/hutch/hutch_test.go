package hutch_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"stowright/internal/carcass/carcasstest"
	"stowright/internal/fitting"
	"stowright/internal/geom"
	"stowright/internal/hutch"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/part/parttest"
	"stowright/internal/stock"
)

const mm = length.MM

func TestHutchesKeepThePromises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := carcasstest.Metric()
		size := func(n string, lo, hi int64) length.Length {
			return length.Length(rapid.Int64Range(lo, hi).Draw(t, n)) * mm
		}
		s := hutch.Spec{Box: geom.B(0, -100*mm, 900*mm, size("wide", 400, 2400), 0, 900*mm+size("high", 300, 1200)), Board: "m6", Frame: rapid.SampledFrom([]string{"m18", "strip"}).Draw(t, "frame"),
			Spacer: rapid.SampledFrom([]length.Length{0, 18 * mm, 25 * mm, 30 * mm, 60 * mm}).Draw(t, "air")}
		if rapid.Bool().Draw(t, "braced") {
			s.Brace, s.Under = size("brace", 150, 500), 36*mm
		}
		if rapid.Bool().Draw(t, "light") {
			s.Light = &hutch.Light{Length: 250 * mm}
		}
		a, f := hutch.Build(e, "h", s)
		b, g := hutch.Build(e, "h", s)
		if d := cmp.Diff(a, b) + cmp.Diff(f, g); d != "" {
			t.Fatal(d)
		}
		for _, bad := range parttest.Check(a, parttest.Options{}) {
			t.Error(bad)
		}
		for _, p := range a.Parts {
			// Holes at 1 in (common practice, no source): whole pitches leave whole rows.
			if p.Role == part.HookBoard && (p.Size[0]%length.Inch != 0 || p.Size[1]%length.Inch != 0) {
				t.Errorf("the board is %v: a row of holes is cut through", p.Size)
			}
		}
		if len(a.Wanted) != 2 || len(a.Bays) != 1 || !a.Bays[0].Hung {
			t.Errorf("%d rails want studs, %d bays", len(a.Wanted), len(a.Bays))
		}
	})
}

// Spacers are what the shop can make: as thick as the frame's stock, or a stick resawn and marked so; no sliver of a
// millimetre, no board of another thickness, and what stands off by another measure than the job's is told.
func TestSpacersCanBeMade(t *testing.T) {
	e := carcasstest.Metric()
	for _, c := range []struct {
		frame  string
		air    length.Length
		thick  length.Length // of a spacer, 0 for none
		resawn bool
		told   bool
	}{
		{"m18", 0, 0, false, false},
		{"m18", 20 * mm, 0, false, true},
		{"m18", 30 * mm, board(t, e, "m18"), false, true},
		{"strip", 30 * mm, 10 * mm, true, false},
		{"strip", 40 * mm, 20 * mm, false, false},
		{"strip", 90 * mm, 20 * mm, false, true},
	} {
		s := hutch.Spec{Box: geom.B(0, -100*mm, 900*mm, 900*mm, 0, 1500*mm), Board: "m6", Frame: c.frame, Spacer: c.air}
		a, f := hutch.Build(e, "h", s)
		thick, resawn := length.Length(0), false
		for _, p := range a.Parts {
			if p.Role == part.Spacer {
				thick, resawn = p.Size[2], p.Note != ""
			}
		}
		if thick != c.thick || resawn != c.resawn || (len(f.With(hutch.OtherAir)) > 0) != c.told {
			t.Errorf("%s, %s of air: spacers %s, resawn %t, %v", c.frame, c.air.Exact(1), thick.Exact(1), resawn, f)
		}
	}
}

func board(t *testing.T, e fitting.Env, id string) length.Length {
	b, ok := e.Catalogue.Board(id)
	if !ok {
		t.Fatal(id)
	}
	return b.Thickness
}

// The points of the hook board's screws stay 2 mm inside the frame (common practice, no source), and the frame is
// held to its counter by screws for which it is bored, each holding six diameters (NDS 2018 12.1.4 to 12.1.6) or told.
func TestScrewsOfTheHookBoardStayInside(t *testing.T) {
	e := carcasstest.Metric()
	for _, l := range []length.Length{16 * mm, 20 * mm, 70 * mm} {
		e.Catalogue.Hardware = append(e.Catalogue.Hardware, stock.Hardware{ID: "w-" + l.Exact(0), Kind: "screw", Use: "wood", Length: l, Dia: 4 * mm, Pilot: 3 * mm, Clearance: 4500 * mm / 1000})
	}
	for _, c := range []struct {
		under length.Length
		loose bool
	}{{35 * mm, false}, {12 * mm, true}} {
		a, f := hutch.Build(e, "h", hutch.Spec{Box: geom.B(0, -100*mm, 900*mm, 1400*mm, 0, 1600*mm), Board: "m6", Frame: "strip", Under: c.under})
		at := map[string]part.Part{}
		for _, p := range a.Parts {
			at[p.Local] = p
		}
		for _, j := range a.Joints {
			if j.Kind != part.Undone {
				continue
			}
			h, ok := e.Catalogue.Item(j.Fastener)
			p, q := at[j.A], at[j.B]
			if room := p.Size[2] + q.Size[2] - 2*mm; !ok || h.Length > room {
				t.Errorf("%s of %s from %s into %s, %s thick together", j.Fastener, h.Length.Exact(0), j.B, j.A, (room + 2*mm).Exact(0))
			}
		}
		if got := len(f.With(hutch.Loose)) > 0; got != c.loose {
			t.Errorf("on %s: told loose %t, %v", c.under.Exact(0), got, f)
		}
		for _, x := range a.Fixings {
			p := at[x.Part]
			h, _ := e.Catalogue.Item(x.Screw)
			if !c.loose && (x.Into < 6*h.Dia || x.Into > c.under-2*mm || x.Length-p.Box().Size().Z != x.Into) {
				t.Errorf("%s goes %s into %s", x.Screw, x.Into.Exact(0), c.under.Exact(0))
			}
			bored := false
			for _, o := range p.Ops {
				q := p.Pose.Point(o.Face.Point(o.X, o.Y, p.Size))
				bored = bored || o.Kind == part.Hole && o.Depth == p.Box().Size().Z && q.X == x.At.X && q.Y == x.At.Y
			}
			if !bored {
				t.Errorf("no hole for the screw at %v in %s", x.At, x.Part)
			}
		}
		if !c.loose && len(a.Fixings) < 2 {
			t.Errorf("%d screws hold the frame", len(a.Fixings))
		}
	}
}
