package packet_test

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/draw/drawtest"
	"stowright/internal/length"
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
				doc := setOn(t, name, u, p)
				seen := 0
				var faults []string
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
						faults = append(faults, fmt.Sprintf("sheet %d: %.0f %% of its height is used", i+1, 100*h))
					}
				}
				known(t, fmt.Sprintf("fuller, %s, %s in %s", name, p.Name, u), faults)
				if seen < 5 {
					t.Errorf("%s, %s in %s: %d sheets of chapters were looked at", name, p.Name, u, seen)
				}
			}
		}
	}
}

// What is told of a picture of a sag stands on its sheet, and no sheet of chapters begins with the last point of a step alone.
func TestWhatBelongsTogetherIsNotParted(t *testing.T) {
	item := regexp.MustCompile(`^\d+\. `)
	sags, points := 0, 0
	for _, name := range some() {
		doc := set(t, name)
		for i := range doc.Pages {
			pictures, told := 0, 0
			var list []*draw.Text
			for _, it := range doc.Pages[i].Items {
				x, ok := it.(*draw.Text)
				if !ok || x.Text == "" {
					continue
				}
				switch {
				case x.Text == "allowed":
					pictures++
				case strings.HasPrefix(x.Text, "The picture is drawn "):
					told++
				}
				list = append(list, x)
			}
			if sags += told; pictures != told {
				t.Errorf("%s, sheet %d: %d pictures of a sag, %d of them told", name, i+1, pictures, told)
			}
			slices.SortStableFunc(list, func(a, b *draw.Text) int { return cmp.Compare(a.At.Y, b.At.Y) })
			if len(list) == 0 || list[0].Text != "–" {
				continue
			}
			points++
			left, lines := list[0].At.X, 0
			for _, x := range list[1:] {
				if item.MatchString(x.Text) && x.At.X > left {
					if lines < 4 {
						t.Errorf("%s, sheet %d begins with the last point of a step alone", name, i+1)
					}
					break
				}
				if lines++; x.Text == "–" && x.At.X == left {
					break
				}
			}
		}
	}
	if sags == 0 || !testing.Short() && points == 0 {
		t.Errorf("%d pictures of a sag, %d sheets that begin with a point", sags, points)
	}
}
