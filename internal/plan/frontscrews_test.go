package plan_test

import (
	"context"
	"strings"
	"testing"

	"stowright/internal/plan"
)

// Fronts of 12 mm on boxes of 12 mm take a screw of 20 mm, which stays in them; fronts that no screw of the catalogue
// is short enough for are told, and nothing is bought under a name that is none.
func TestThinFrontsHaveTheirScrews(t *testing.T) {
	for board, want := range map[string]string{"birch-12": "front-screw-4-20", "birch-6": ""} {
		r := plan.Make(context.Background(), parse(t, "thin", []byte("stowright: 1\nunit: mm\npractice: {from: metric-shop, front-board: "+board+"}\ncases:\n  a: {width: 500, height: 600, depth: 480, inside: {drawers: {count: 2}, load: 6 kg}}\n")), plan.Want{})
		got := ""
		for _, h := range r.Assembly.Hardware {
			if _, ok := r.Job.Catalogue.Item(h.ID); !ok {
				t.Errorf("%s: %d × %s is bought, which is no hardware", board, h.Count, h.ID)
			}
			if strings.HasPrefix(h.ID, "front-screw") {
				got = h.ID
			}
		}
		said := len(r.Findings.With("drawers-no-screw")) > 0
		if got != want || said != (want == "") {
			t.Errorf("%s: screw %q, want %q; told %v", board, got, want, said)
		}
	}
}
