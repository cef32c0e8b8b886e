package packet_test

import (
	"testing"

	"stowright/internal/draw"
	"stowright/internal/job"
	"stowright/internal/pages"
	"stowright/internal/plan/plantest"
)

// What the job says for the title block stands on the sheets: every field that ISO 7200:2004 asks for on the drawings of
// walls, and the number and the date on all others.
func TestTitleBlocksSayWhatTheJobSays(t *testing.T) {
	r := plantest.Result(t, "hollis-court")
	r.Job.File.Author, r.Job.File.Date = "A. Maker", "2026-11-28"
	r.Job.File.TitleBlock = job.TitleBlock{Owner: "The owner", Number: "HC-7", Revision: "B", Approved: "B. Reader"}
	doc := pages.Of(r, draw.A4(), "", "")
	full := 0
	for i := range doc.Pages {
		said := map[string]bool{}
		for _, it := range doc.Pages[i].Items {
			if x, ok := it.(*draw.Text); ok {
				said[x.Text] = true
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
	if full == 0 || full == len(doc.Pages) {
		t.Errorf("%d of %d sheets have the whole title block", full, len(doc.Pages))
	}
}
