package view

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
)

// A size reads in a chain of a view as it does in the tables: the same mark of the tape, and the same
// exact size behind it.
func TestChainsReadAsTables(t *testing.T) {
	for seed := range uint64(60) {
		r := rand.New(rand.NewPCG(seed, 3))
		u := Units{Unit: length.Unit(seed % 2)}
		at := []L{0}
		for range 2 + r.IntN(4) {
			at = append(at, at[len(at)-1]+L(150+r.IntN(500))*length.MM+L(r.IntN(1000))*length.MM/1000)
		}
		var s draw.Sheet
		v := draw.View{Scale: draw.Scale{Paper: 1, Real: 5}}
		d := draw.Dims{View: v.Rect(0, 0, at[len(at)-1], 400*length.MM)}
		rod(&d, draw.Below, v, at, u)
		d.Draw(&s)
		var told []string
		for _, it := range s.Items {
			if x, ok := it.(*draw.Text); ok {
				told = append(told, strings.ReplaceAll(x.Text, `"`, ""))
			}
		}
		for i := 1; i < len(at); i++ {
			if want := Sure(at[i]-at[i-1], u); !slices.Contains(told, want) {
				t.Errorf("seed %d: %q of the tables is not among %q", seed, want, told)
			}
		}
	}
}

// The picture of a step is turned to the corner from which the new piece is seen: a rail behind a back
// is seen from behind, one under a shelf from below, and what is seen from in front stays there.
func TestStepsShowWhatIsNew(t *testing.T) {
	const mm = length.MM
	board := func(mark string, x0, y0, z0, x1, y1, z1 L) Part {
		b := geom.B(x0, y0, z0, x1, y1, z1)
		return Part{Mark: mark, Size: [3]L{b.Size().X, b.Size().Z, b.Size().Y}, Pose: geom.Around(b, geom.Right, geom.Up)}
	}
	back := board("back", 0, 300*mm, 0, 600*mm, 306*mm, 700*mm)
	for _, c := range []struct {
		fresh Part
		want  string
	}{
		{board("behind", 50*mm, 306*mm, 500*mm, 550*mm, 324*mm, 590*mm), "from behind"},
		{board("before", 50*mm, 250*mm, 500*mm, 550*mm, 268*mm, 590*mm), ""},
	} {
		_, from := seen([]part.Part{back, c.fresh}, map[string]bool{c.fresh.Mark: true})
		if from != c.want {
			t.Errorf("%s is drawn %q, want %q", c.fresh.Mark, from, c.want)
		}
	}
}
