package packet_test

import (
	"strings"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/plan/plantest"
	"stowright/internal/view"
)

// Every piece of a sheet has its mark or its letter in the picture, at the scale that a sheet of paper takes; the letters are
// none that look like a line, a ring or a figure, and no number of a cut stands on one or on a mark.
func TestEveryPieceOfASheetIsNamedInItsPicture(t *testing.T) {
	seen := 0
	for _, name := range some() {
		r := plantest.Result(t, name)
		for i, sh := range r.Plan.Sheets {
			c := draw.Scale{Paper: 1, Real: 10}
			want := 0
			for _, k := range view.Keys(sh, r.Marks[i], c) {
				want += len(k.Pieces) * len(k.Letter)
				if strings.ContainsAny(k.Letter, "ilo") {
					t.Errorf("%s, sheet %d: letter %q", name, i+1, k.Letter)
				}
			}
			s := draw.Sheet{}
			view.Put(&s, draw.Pt(0, 0), c, view.Filling(sh, r.Marks[i], view.Units{Unit: r.Job.Print}, func(string) string { return "" }))
			got := 0
			var names, rings []draw.Rect
			for _, it := range s.Items {
				x, ok := it.(*draw.Text)
				if !ok {
					continue
				}
				small := !strings.ContainsFunc(x.Text, func(r rune) bool { return r < 'a' || r > 'z' })
				if x.Bold && small {
					got += len(x.Text)
				}
				if x.Bold {
					names = append(names, x.Box())
				} else if !strings.ContainsFunc(x.Text, func(r rune) bool { return r < '0' || r > '9' }) {
					rings = append(rings, x.Box())
				}
			}
			if got != want {
				t.Errorf("%s, sheet %d: %d letters are drawn for %d pieces", name, i+1, got, want)
			}
			for _, a := range names {
				for _, b := range rings {
					if a.Meets(b) {
						t.Errorf("%s, sheet %d: the number of a cut stands on a name at %v", name, i+1, a)
					}
				}
			}
			seen += want
		}
	}
	if seen == 0 && !testing.Short() {
		t.Error("no letter")
	}
}
