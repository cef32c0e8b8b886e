package hutch_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"stowright/internal/carcass/carcasstest"
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
		s := hutch.Spec{Box: geom.B(0, -100*mm, 900*mm, size("wide", 400, 2400), 0, 900*mm+size("high", 300, 1200)), Board: "m6", Frame: "m18",
			Spacer: rapid.SampledFrom([]length.Length{0, 18 * mm, 30 * mm}).Draw(t, "air")}
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
