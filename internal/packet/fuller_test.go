package packet_test

import (
	"slices"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/draw/drawtest"
	"stowright/internal/length"
	"stowright/internal/pages"
	"stowright/internal/plan/plantest"
)

// halfEmpty is the share of its height that a sheet of chapters uses at least, when another follows.
const halfEmpty = 0.5

// What follows begins on the sheet that is open where a part of it has room: no sheet of chapters is half empty, but the
// contents, the last, and the drawings of walls, which have a sheet each. In short form of three examples on the paper of
// their unit, else of all in both units on three papers.
func TestFuller(t *testing.T) {
	list := names
	if testing.Short() {
		list = append([]string{"one-case"}, some()...)
	}
	for _, name := range list {
		r := plantest.Result(t, name)
		r.Job.Both = false
		units := []length.Unit{r.Job.Print}
		if !testing.Short() {
			units = []length.Unit{length.Inches, length.Millimetres}
		}
		for _, u := range units {
			papers := []draw.Paper{paperOf(u)}
			if !testing.Short() {
				papers = []draw.Paper{draw.A4(), draw.Letter(), draw.A3()}
			}
			for _, p := range papers {
				doc := set(t, name)
				if u != plantest.Result(t, name).Job.Print || p != paperOf(u) {
					r.Job.Print = u
					doc = pages.Of(r, p, "", "")
				}
				seen := 0
				for i := range doc.Pages[:len(doc.Pages)-1] {
					s := &doc.Pages[i]
					if slices.ContainsFunc(s.Items, func(it draw.Item) bool {
						x, ok := it.(*draw.Text)
						return ok && (x.Text == "Owner" && x.At.Y > s.H/2 || x.Text == "Contents")
					}) {
						continue
					}
					seen++
					if h, _ := drawtest.Fullness(s); h < halfEmpty {
						t.Errorf("%s, %s in %s: sheet %d: %.0f %% of its height is used", name, p.Name, u, i+1, 100*h)
					}
				}
				if seen < 5 {
					t.Errorf("%s, %s in %s: %d sheets of chapters were looked at", name, p.Name, u, seen)
				}
			}
		}
	}
}
