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

// Where there is room beside a row of things, what is small is named beside them, not in one of them as if it were its name; and a long
// thing under a row is named in none of the row.
func TestNamesStandInNothingElse(t *testing.T) {
	named := 0
	for seed := range uint64(60) {
		r := rand.New(rand.NewPCG(seed, 13))
		s := draw.A4().Sheet(true)
		in := draw.Rect{X: 40, Y: 40, W: 190, H: 90}
		var list []tab
		x := 50.0
		for k := range 3 + r.IntN(3) {
			own := draw.Rect{X: x, Y: 50, W: 14 + r.Float64()*12, H: 18}
			list = append(list, tab{fmt.Sprintf("%c", 'A'+k), own, own.Mid(), ""})
			s.Rect(draw.Visible, own)
			x = own.Right()
		}
		cases := len(list)
		for k := range 2 { // outlets under the row, close to it
			own := draw.Rect{X: 60 + float64(k)*30 + r.Float64()*8, Y: 69.5 + r.Float64()*4, W: 2, H: 3}
			list = append(list, tab{fmt.Sprint("outlet ", k), own, own.Mid(), ""})
			s.Rect(draw.Narrow, own)
		}
		base := draw.Rect{X: 50, Y: 68, W: x - 50, H: 1}
		list = append(list, tab{"Base", base, base.Mid(), ""})
		s.Rect(draw.Narrow, base)
		n := len(s.Items)
		tabs(s, in, nil, list)
		for _, it := range s.Items[n:] {
			x, ok := it.(*draw.Text)
			if !ok {
				continue
			}
			named++
			for k, o := range list[:cases] {
				if o.text != x.Text && o.own.Inset(0.2).Meets(x.Box()) {
					t.Errorf("seed %d: %q stands in %q", seed, x.Text, list[k].text)
				}
			}
		}
	}
	if named < 300 {
		t.Errorf("%d names", named)
	}
}
