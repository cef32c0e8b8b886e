package plan_test

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"stowright/internal/cutlist"
	"stowright/internal/draw"
	"stowright/internal/draw/drawtest"
	"stowright/internal/draw/pdf"
	"stowright/internal/length"
	"stowright/internal/pages"
	"stowright/internal/plan"
	"stowright/internal/view"
)

// The plan sets of made-up jobs, on papers and in units in turn, are sound paper: nothing over anything, nothing
// outside its frame, no capital too low, no empty sheet; and every working of every part stands in its list.
// With PACKETS=DIR the sets are kept there to be looked at.
func TestMadeUpPackets(t *testing.T) {
	ranges := [][2]uint64{{0, 1}, {5004, 5012}, {7000, 7004}} // faults were found in each
	if testing.Short() {
		ranges = [][2]uint64{{6, 7}} // one that other tests made too, of few parts
	}
	if *seeds != "" {
		var r [2]uint64
		if _, err := fmt.Sscanf(*seeds, "%d-%d", &r[0], &r[1]); err != nil {
			t.Fatal("-seeds wants two numbers, as in 2000-6000:", err)
		}
		ranges = [][2]uint64{r}
	}
	for _, r := range ranges {
		madeUpPackets(t, r[0], r[1])
	}
}

func madeUpPackets(t *testing.T, first, last uint64) {
	papers := []draw.Paper{draw.A4(), draw.Letter(), draw.A3()}
	each(first, last, func(seed uint64) (bad []string) {
		defer func() {
			if e := recover(); e != nil {
				bad = append(bad, fmt.Sprint("panic: ", e))
			}
		}()
		_, r := madeUp(t, seed)
		r.Job.Print = []length.Unit{length.Millimetres, length.Inches}[seed%2]
		doc := pages.Of(r, papers[seed%3], "", "")
		bad = append(drawtest.Judge(&doc), untold(&r, &doc)...)
		b, err := pdf.Write(&doc)
		if err != nil {
			return append(bad, err.Error())
		}
		if dir := os.Getenv("PACKETS"); dir != "" {
			os.WriteFile(filepath.Join(dir, fmt.Sprintf("%d.pdf", seed)), b, 0o644)
		}
		over, err := drawtest.Overlaps(b, &doc)
		if err != nil {
			return append(bad, err.Error())
		}
		for _, o := range over {
			bad = append(bad, o.String())
		}
		return bad
	}, func(seed uint64, bad []string) {
		for i, f := range bad {
			switch {
			case f == drawtest.ErrNoReader.Error():
				t.Skip(errors.New(f))
			case i < 4:
				t.Errorf("seed %d: %s", seed, f)
			case i == 4:
				t.Errorf("seed %d: and %d more", seed, len(bad)-4)
			}
		}
	})
}

// untold lists the workings of parts whose sizes and places stand nowhere in the set behind the part's name.
func untold(r *plan.Result, doc *draw.Document) (bad []string) {
	solid := func(s string) string { return strings.Join(strings.Fields(s), "") }
	var all strings.Builder
	for i := range doc.Pages {
		for _, it := range doc.Pages[i].Items {
			if x, ok := it.(*draw.Text); ok {
				all.WriteString(solid(x.Text))
			}
		}
	}
	text := all.String()
	u := view.Units{Unit: r.Job.Print, Too: r.Job.Both}
	groups := cutlist.Groups(r.Assembly.Parts)
	at := map[string]int{}
	for i, g := range groups {
		for _, m := range g.Marks {
			at[m] = i
		}
	}
	for i, g := range groups {
		if m := g.Mirror; m != "" && at[m] < i {
			continue // drawn as its mirror image
		}
		for _, w := range view.Works(g.Part, u) {
			size := solid(w.Size) // bevels and tapers have no place of their own
			if p := w.Places(); p != "" {
				size = solid(p) + "."
			}
			if !strings.Contains(text, size) {
				bad = append(bad, fmt.Sprintf("%s: %s at %s stands in no list", g.ID, w.Text(), w.Places()))
			}
		}
	}
	return bad
}
