package packet_test

import (
	"regexp"
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/length"
	"stowright/internal/order"
	"stowright/internal/plan/plantest"
	"stowright/internal/view"
)

// What is told of one place and only named for others is true of them word for word but for names and figures, with the figure
// beside each name where one differs: a heavier sheet is not told as a lighter one, nor dowels where screws are.
func TestWhatIsToldOfOnePlaceIsTrueOfTheOthers(t *testing.T) {
	number := regexp.MustCompile(`[0-9][0-9./]*( [0-9]+/[0-9]+)?`)
	named := 0
	for _, name := range some() {
		r := plantest.Result(t, name)
		paper := strings.ToLower(strings.Join(strings.Fields(words(set(t, name))), " "))
		if strings.Contains(paper, "less far") {
			t.Errorf("%s: something is less far than what is told", name)
		}
		names := []string{}
		for _, o := range r.Assembly.Owners {
			names = append(names, strings.ToLower(o.ID), strings.ToLower(o.Name))
		}
		for _, b := range r.Job.Catalogue.Boards {
			names = append(names, strings.ToLower(b.Name))
		}
		order.Stable(names, func(a, b string) int { return len(b) - len(a) }) // a name may stand in another
		bare := func(f finding.Finding) string {
			s := strings.ToLower(f.Text)
			for _, n := range names {
				if n != "" {
					s = regexp.MustCompile(`\b`+regexp.QuoteMeta(n)+`\b`).ReplaceAllString(s, "*")
				}
			}
			return s
		}
		said := func(f finding.Finding) bool {
			return strings.Contains(paper, strings.TrimSuffix(strings.ToLower(f.Text), "."))
		}
		for _, f := range r.Findings {
			if f.Verdict != finding.None || f.Capacity != 0 || f.Code == "price-missing" || said(f) {
				continue
			}
			named++
			alike := false
			for _, g := range r.Findings.With(f.Code) {
				a, b := bare(f), bare(g)
				if !said(g) || g.Hint != f.Hint || number.ReplaceAllString(a, "#") != number.ReplaceAllString(b, "#") {
					continue
				}
				alike = true
				var own []string
				was := number.FindAllString(b, -1)
				for i, x := range number.FindAllString(a, -1) {
					if x != was[i] {
						own = append(own, x)
					}
				}
				if len(own) != 1 {
					continue
				}
				unit := regexp.MustCompile(regexp.QuoteMeta(own[0]) + " (mm|in|kg|lb)") // a count says nothing by itself
				if _, too, _ := strings.Cut(paper, strings.TrimSuffix(strings.ToLower(g.Text), ".")); unit.MatchString(f.Text) && !strings.Contains(too[:min(len(too), 1200)], ", "+own[0]) {
					t.Errorf("%s: %s is only named, without its %s", name, f.Text, own[0])
				}
			}
			if !alike {
				t.Errorf("%s: nothing told is true of this: %s", name, f.Text)
			}
		}
	}
	if named == 0 {
		t.Error("nothing is only named")
	}
}

// What is crosscut from a stick has its exact length behind the one that a tape shows, as in the lists of parts; the section of
// a wall that leans says what its depths are from.
func TestSticksAreExactAndSectionsSayTheirPlumb(t *testing.T) {
	exact, plumb := 0, 0
	for _, name := range some() {
		r := plantest.Result(t, name)
		paper := strings.Join(strings.Fields(words(set(t, name))), " ")
		for _, s := range r.Sticks {
			for _, p := range s.Pieces {
				if len(p.Strips) > 0 {
					continue
				}
				want := view.Sure(p.Len, view.Units{Unit: r.Job.Print}) + " " + p.Marks[0]
				if strings.Contains(want, "(") {
					exact++
				}
				if !strings.Contains(paper, want) {
					t.Errorf("%s: nothing says %q", name, want)
				}
			}
		}
		for _, o := range r.Assembly.Owners {
			w := r.Room.Wall(o.Wall)
			if w == nil || !o.Moves || o.Kind != "counter" || w.Face(o.Box.Min.X, o.Box.Max.Z).Abs() < length.MM {
				continue
			}
			if plumb++; !strings.Contains(paper, "depths from a plumb line") {
				t.Errorf("%s: %s stands free before a wall that leans, and no section says what its depths are from", name, o.ID)
			}
		}
	}
	if exact == 0 || plumb == 0 {
		t.Errorf("%d exact lengths, %d sections", exact, plumb)
	}
}
