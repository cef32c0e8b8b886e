package packet_test

import (
	"context"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/pages"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/shop"
)

var stepNumber = regexp.MustCompile(`^(\d+)\.(?: (\S+)|$)`)

// stepNumbers gives the numbers of the steps of a set as somebody reads it, sheet by sheet: a
// number and the first word of its step, or the number alone where a table has a column for it.
func stepNumbers(doc draw.Document, steps []shop.Step) (list []int) {
	for i := range doc.Pages {
		for _, it := range doc.Pages[i].Items {
			x, ok := it.(*draw.Text)
			if !ok {
				continue
			}
			m := stepNumber.FindStringSubmatch(x.Text)
			if m == nil {
				continue
			}
			n, _ := strconv.Atoi(m[1])
			if n < 1 || n > len(steps) {
				continue
			}
			st := steps[n-1]
			table := (st.Phase == shop.Bore || st.Phase == shop.Saw) && x.Align == draw.End
			if m[2] == "" && table || m[2] != "" && (strings.HasPrefix(st.Text, m[2]) || strings.HasPrefix(st.Head, m[2])) {
				list = append(list, n)
			}
		}
	}
	return list
}

// Every step stands on paper once, and who turns the sheets meets them in order.
func TestEveryStepStandsOnceAndInOrder(t *testing.T) {
	for _, name := range some() {
		r := plantest.Result(t, name)
		got := stepNumbers(set(t, name), r.Steps)
		if len(got) != len(r.Steps) {
			t.Errorf("%s: %d steps on paper of %d", name, len(got), len(r.Steps))
		}
		for i, n := range got {
			if n != i+1 {
				t.Errorf("%s: after step %d comes step %d", name, i, n)
				break
			}
		}
	}
}

// So it is for one case and for one stage alone.
func TestEveryStepOfAPart(t *testing.T) {
	sets := []struct{ name, owner, stage string }{{"hollis-court", "ink case", ""}, {"ostler-row", "", "wall"}, {"fennel-street", "spray case", ""}, {"fennel-street", "drawers left", ""}}
	if testing.Short() {
		sets = sets[:2]
	}
	for _, x := range sets {
		r := plan.Make(context.Background(), plantest.Result(t, x.name).Job, plan.Want{Owner: x.owner, Stage: x.stage})
		got := stepNumbers(pages.Of(r, draw.A4(), x.owner, x.stage), r.Steps)
		if len(got) < 20 {
			t.Errorf("%v: %d steps on paper", x, len(got))
		}
		for i, n := range got {
			if n != i+1 {
				t.Errorf("%v: after step %d comes step %d", x, i, n)
				break
			}
		}
		if len(got) != len(r.Steps) {
			t.Errorf("%v: %d steps on paper of %d", x, len(got), len(r.Steps))
		}
	}
}
