package view

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/draw/drawtest"
)

// Names of things in a row, and of what stands under or over several of them, are each set once, on no figure of the lanes before
// and behind the row and on no other name, and no leader strikes one.
func TestNamesStrikeNothing(t *testing.T) {
	names, missing := 0, 0
	for seed := range uint64(80) {
		r := rand.New(rand.NewPCG(seed, 11))
		s := draw.A4().Sheet(true)
		in := draw.Rect{X: 40, Y: 40, W: 170, H: 60}
		row := draw.Rect{X: 50, Y: 50, H: 9 + r.Float64()*8}
		var list []tab
		var feet []draw.Mark
		x := row.X
		for k := range 4 + r.IntN(4) {
			own := draw.Rect{X: x, Y: row.Y, W: 6 + r.Float64()*20, H: row.H}
			list = append(list, tab{fmt.Sprintf("%c", 'A'+k), own, own.Mid(), ""})
			for _, at := range []float64{own.X + 1, own.Right() - 1} {
				feet = append(feet, draw.Mark{Text: fmt.Sprint(k), At: draw.Pt(at, own.Bottom()-2)})
			}
			x = own.Right() + 1
		}
		for k := range 1 + r.IntN(3) { // under several
			a, b := list[r.IntN(len(list))].own, list[r.IntN(len(list))].own
			own := a.Or(b)
			list = append(list, tab{fmt.Sprint("Base", k), own, own.Mid(), ""})
		}
		s.Lane(draw.Below, row.Bottom()+3, feet, true)
		n := len(s.Items)
		tabs(s, in, nil, list)
		for _, want := range list {
			names++
			set := 0
			for _, it := range s.Items[n:] {
				if x, ok := it.(*draw.Text); ok && x.Text == want.text {
					set++
				}
			}
			if set > 1 {
				t.Errorf("seed %d: %s is set %d times", seed, want.text, set)
			}
			missing += 1 - min(set, 1)
		}
		bad := drawtest.Judge(&draw.Document{Title: "t", Lang: "en", Pages: []draw.Sheet{*s}})
		bad = slices.DeleteFunc(bad, func(f string) bool { return !strings.Contains(f, "struck") && !strings.Contains(f, " over ") })
		if len(bad) > 0 {
			t.Errorf("seed %d: %s", seed, strings.Join(bad, "; "))
		}
	}
	if names < 400 || missing > 0 {
		t.Errorf("%d names, %d without a place", names, missing)
	}
}
