package packet_test

import (
	"slices"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/length"
	"stowright/internal/plan/plantest"
)

// The summary is one sheet, the first, with both check bars on it, in either unit on its paper.
func TestSummaryIsOneSheet(t *testing.T) {
	list := []string{"ostler-row"} // the fullest
	if !testing.Short() {
		list = []string{"ostler-row", "stages", "fennel-street", "marram-point"}
	}
	for _, name := range list {
		docs := []draw.Document{set(t, name)}
		if !testing.Short() {
			u := length.Inches
			if plantest.Result(t, name).Job.Print == u {
				u = length.Millimetres
			}
			docs = append(docs, setOn(t, name, u, paperOf(u)))
		}
		for _, doc := range docs {
			has := func(s *draw.Sheet, text string) bool {
				return slices.ContainsFunc(s.Items, func(it draw.Item) bool {
					x, ok := it.(*draw.Text)
					return ok && x.Text == text
				})
			}
			for i := range doc.Pages {
				s := &doc.Pages[i]
				if has(s, "Summary") != (i == 0) || i == 0 && !(has(s, "100 mm") && has(s, "4 in")) {
					t.Errorf("%s, sheet %d: summary %v, bars %v and %v", name, i+1, has(s, "Summary"), has(s, "100 mm"), has(s, "4 in"))
				}
			}
		}
	}
}
