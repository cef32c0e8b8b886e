package packet_test

import (
	"testing"

	"stowright/internal/draw"
	"stowright/internal/pages"
	"stowright/internal/plan/plantest"
)

// On a wide sheet the contents are in two columns.
func TestContentsOfAWideSheet(t *testing.T) {
	r := plantest.Result(t, "hollis-court")
	doc := pages.Of(r, draw.A3(), "", "")
	for i := range doc.Pages {
		heads := 0
		contents := false
		for _, it := range doc.Pages[i].Items {
			if x, ok := it.(*draw.Text); ok {
				contents = contents || x.Text == "Contents"
				if x.Text == "sheet" && x.Bold {
					heads++
				}
			}
		}
		if contents {
			if heads != 2 {
				t.Errorf("%d columns of contents", heads)
			}
			return
		}
	}
	t.Error("no contents")
}
