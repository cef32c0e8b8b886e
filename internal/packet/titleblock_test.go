package packet_test

import (
	"regexp"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/job"
	"stowright/internal/pages"
	"stowright/internal/plan/plantest"
)

var stepBegins = regexp.MustCompile(`^\d+\. \pL`)

// What the job says for the title block stands on the sheets: every field that ISO 7200:2004 asks for on the drawings of
// walls, and the number and the date on all others.
func TestTitleBlocksSayWhatTheJobSays(t *testing.T) {
	r := plantest.Result(t, "hollis-court")
	r.Job.File.Author, r.Job.File.Date = "A. Maker", "2026-11-28"
	r.Job.File.TitleBlock = job.TitleBlock{Owner: "The owner", Number: "HC-7", Revision: "B", Approved: "B. Reader"}
	doc := pages.Of(r, draw.A4(), "", "")
	full, steps := 0, 0
	for i := range doc.Pages {
		said, begins := map[string]bool{}, 0
		for _, it := range doc.Pages[i].Items {
			if x, ok := it.(*draw.Text); ok {
				said[x.Text] = true
				if stepBegins.MatchString(x.Text) {
					begins++
				}
			}
		}
		if said["Steps"] { // its type: a sheet of putting together that a case's chapter runs on to
			if steps++; begins == 0 || said["Along"] {
				t.Errorf("sheet %d is called steps and begins %d", i+1, begins)
			}
		}
		want := []string{"HC-7", "2026-11-28"}
		if said["Approved by"] {
			full++
			want = append(want, "The owner", "A. Maker", "B. Reader", "B", "en", r.Job.Name)
		}
		for _, w := range want {
			if !said[w] {
				t.Errorf("sheet %d does not say %q", i+1, w)
			}
		}
	}
	if steps == 0 {
		t.Error("no sheet is called one of steps")
	}
	if full == 0 || full == len(doc.Pages) {
		t.Errorf("%d of %d sheets have the whole title block", full, len(doc.Pages))
	}
}

// A set of a part says of what, whole, beside the number or for it.
func TestTitleBlocksOfAPart(t *testing.T) {
	r := plantest.Result(t, "ostler-row")
	r.Job.File.TitleBlock = job.TitleBlock{Number: "OR-1"}
	for _, stage := range []string{"", "wall"} {
		doc := pages.Of(r, draw.Letter(), "", stage)
		for i := range doc.Pages {
			ok := false
			for _, it := range doc.Pages[i].Items {
				x, text := it.(*draw.Text)
				ok = ok || text && (stage == "" && x.Text == "OR-1" || stage != "" && (x.Text == "stage wall" || x.Text == "OR-1 stage wall"))
			}
			if !ok {
				t.Errorf("stage %q, sheet %d does not say which set it is of", stage, i+1)
			}
		}
	}
}
