package packet_test

import (
	"regexp"
	"strings"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/draw/drawtest"
)

// Every working in the list under the drawing of a piece has its letter in the drawing, where somebody looks for it.
func TestLettersLeadToTheirWork(t *testing.T) {
	letter := regexp.MustCompile(`^[a-z]{1,2}( [a-z]{1,2}| \d+°)*$`)
	all, lost := 0, 0
	for _, name := range some() {
		doc := set(t, name)
		for i := range doc.Pages {
			var cards []draw.Point
			for _, it := range doc.Pages[i].Items {
				if a, ok := it.(*draw.Anchor); ok && strings.HasPrefix(a.Name, "card ") {
					cards = append(cards, a.At)
				}
			}
			for _, at := range cards {
				end := 1e9 // where the next card of the column begins
				for _, o := range cards {
					if o.X == at.X && o.Y > at.Y {
						end = min(end, o.Y)
					}
				}
				right := 0.0 // the rule over it is as wide as it is, and 7 mm are between columns
				for _, it := range doc.Pages[i].Items {
					if x, ok := it.(*draw.Path); ok && x.Line == draw.Rule {
						if r := drawtest.Bounds(x); r.X == at.X && r.Y == at.Y && r.H == 0 {
							right = r.Right() + 6
						}
					}
				}
				if right == 0 {
					t.Errorf("%s, sheet %d: no rule over the card at %v", name, i+1, at)
				}
				said, head := 0.0, "" // where its words begin
				list, shown := map[string]bool{}, map[string]bool{}
				for _, it := range doc.Pages[i].Items {
					x, ok := it.(*draw.Text)
					if !ok || x.At.Y < at.Y || x.At.Y > end || x.At.X < at.X-1 || x.At.X > right {
						continue
					}
					if head == "" && x.Bold {
						head = x.Text
					}
					if strings.HasPrefix(x.Text, "Scale 1:") && said == 0 {
						said = x.At.Y
					}
					if !x.Bold || !letter.MatchString(x.Text) {
						continue
					}
					if said > 0 && x.At.X < at.X+0.5 {
						list[x.Text] = true
					} else if said == 0 {
						for _, l := range strings.Fields(x.Text) {
							shown[l] = true
						}
					}
				}
				for l := range list {
					if all++; !shown[l] {
						lost++
						t.Errorf("%s, sheet %d: %s has no %s", name, i+1, head, l)
					}
				}
			}
		}
	}
	if all < 200 {
		t.Errorf("only %d letters were looked for, %d of them are not in their drawings", all, lost)
	}
}
