package packet_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/view"
)

// The table of sizes that follow the sheet says what comes of building the job anew with a sheet
// that is thicker: every board of a case whose length or width changes is in it, with its new size.
func TestSizesThatFollowTheSheet(t *testing.T) {
	for _, name := range some() {
		if !slices.Contains(names, name) {
			continue // surveys are planned anew for every board: that takes long
		}
		r := plantest.Result(t, name)
		u := r.Job.Print
		step := length.MM / 2
		if u == length.Inches {
			step = length.Inch / 64
		}
		doc := set(t, name)
		var text strings.Builder
		on := false
		for i := range doc.Pages {
			for _, it := range doc.Pages[i].Items {
				if x, ok := it.(*draw.Text); ok {
					switch x.Text {
					case "Sizes that follow the sheet":
						on = true
					case "Cutting plans":
						on = on && text.Len() == 0
					}
					if on {
						text.WriteString(x.Text + " ") // a cell's lines come one after the other
					}
				}
			}
		}
		seen := 0
		for _, x := range r.Job.Catalogue.Boards {
			if !slices.ContainsFunc(r.Assembly.Parts, func(p part.Part) bool { return p.Stock == x.ID }) {
				continue
			}
			job := r.Job
			job.Catalogue.Boards = slices.Clone(job.Catalogue.Boards)
			for i := range job.Catalogue.Boards {
				if job.Catalogue.Boards[i].ID == x.ID {
					job.Catalogue.Boards[i].Thickness += step
				}
			}
			now := map[string]part.Part{}
			for _, p := range plan.Make(context.Background(), job, plan.Want{}).Assembly.Parts {
				now[p.Owner+" "+p.Local] = p
			}
			for _, p := range r.Assembly.Parts {
				q, ok := now[p.Owner+" "+p.Local]
				for axis := range 2 {
					if axis == 1 && p.Role == part.HangRail {
						continue // as high as the screws want that its load asks for, which is heavier then: no rule of the paper
					}
					if !ok || (p.Size[axis]-q.Size[axis]).Abs() < step/2 {
						continue
					}
					if seen++; !strings.Contains(text.String(), view.Sure(q.Size[axis], view.Units{Unit: u})+" ") {
						t.Errorf("%s: %s, %s becomes %s from %s when %s is thicker, and the table does not say so", name, p.Mark, p.Name, view.Sure(q.Size[axis], view.Units{Unit: u}), view.Sure(p.Size[axis], view.Units{Unit: u}), x.ID)
					}
				}
			}
		}
		if seen == 0 {
			t.Errorf("%s: no size follows", name)
		}
	}
}
