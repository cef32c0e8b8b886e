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
