package rack_test

import (
	"testing"

	"pgregory.net/rapid"

	"stowright/internal/fitting/rack"
	"stowright/internal/length"
)

const (
	mm = length.MM
	in = length.Inch
)

type L = length.Length

// Geometry: five cans of 2.6 in in half of a 30 in case of 0.705 in board, 1/16 in room at each
// end of the board, holes of 2-3/4 in, take a staggered row; a straight one takes four.
func TestFiveCansTakeAStaggeredRow(t *testing.T) {
	w := (30*in-3*705*in/1000)/2 - in/8
	hole, web, edge := 11*in/4, in/2, in/4
	one := rack.Lay(w, hole+2*edge, hole, web, edge, 0)
	if len(one.At) != 4 || one.Staggered {
		t.Errorf("in one row: %d, staggered %v", len(one.At), one.Staggered)
	}
	row := rack.Lay(w, hole+2*edge+9*in/4, hole, web, edge, 0)
	if len(row.At) != 5 || !row.Staggered {
		t.Errorf("with 2-1/4 in more depth: %d, staggered %v", len(row.At), row.Staggered)
	}
}

func TestHolesKeepTheirWebAndEdge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := func(n string, lo, hi L) L { return L(rapid.Int64Range(int64(lo), int64(hi)).Draw(t, n)) }
		w, d := size("w", 100*mm, 1000*mm), size("d", 60*mm, 500*mm)
		dia, web, edge := size("dia", 20*mm, 90*mm), size("web", 3*mm, 20*mm), size("edge", 3*mm, 20*mm)
		most := rapid.IntRange(0, 12).Draw(t, "most")
		at := rack.Lay(w, d, dia, web, edge, most).At
		if most > 0 && len(at) > most {
			t.Errorf("%d holes, %d asked for", len(at), most)
		}
		// Never fewer than straight rows hold (arithmetic).
		n := func(s L) int64 { return int64(max(0, (s-2*edge+web)/(dia+web))) }
		if straight := n(w) * n(d); int64(len(at)) < straight && most == 0 {
			t.Errorf("%d holes, straight rows hold %d", len(at), straight)
		}
		for i, p := range at {
			if p.X-dia/2 < edge || p.Y-dia/2 < edge || p.X+dia/2 > w-edge+1 || p.Y+dia/2 > d-edge+1 {
				t.Errorf("hole %d at %v is too near an edge", i, p)
			}
			for _, q := range at[:i] {
				dx, dy := p.X-q.X, p.Y-q.Y
				c := dia + web
				if dx.Times(dx).Add(dy.Times(dy)).Cmp(c.Times(c)) < 0 {
					t.Errorf("holes at %v and %v are too near each other", p, q)
				}
			}
		}
	})
}

// Worked figures of the swing: for a rack 90 deep in openings of 564 and 264 the first-order
// margins are 12.2 and 20.3 mm (common practice, no source); the exact ones are a little more.
func TestTheCornerPasses(t *testing.T) {
	for _, c := range []struct{ d, w, about L }{{90 * mm, 564 * mm, 122 * mm / 10}, {90 * mm, 264 * mm, 203 * mm / 10}, {100 * mm, 264 * mm, 239 * mm / 10}} {
		m := rack.LockMargin(c.d, c.w)
		if m < c.about-mm/10 || m > c.about+3*mm/2 {
			t.Errorf("d %v, W %v: margin %v, about %v", c.d, c.w, m, c.about)
		}
		a, r := c.w-m, c.w-5*mm
		if sum := a.Times(a).Add(c.d.Times(c.d)); sum.Cmp(r.Times(r)) > 0 {
			t.Error("the corner does not pass")
		}
		a++
		if sum := a.Times(a).Add(c.d.Times(c.d)); sum.Cmp(r.Times(r)) <= 0 {
			t.Error("one tick less would pass too")
		}
	}
}
