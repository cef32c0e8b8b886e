package plan_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/shop"
)

// bare gives a sentence for every step that leaves the maker without a hand to hold by: fronts that nothing holds while they are
// screwed on from inside, anchors' screws whose heads are not told of, screws into a side that stands already and was measured
// by nobody here, steel angles without the hole that their anchor wants or past the end of the top without a word.
func bare(r plan.Result) (bad []string, n int) {
	upTo := regexp.MustCompile(`they come up to (.+?) into it`)
	old := map[string]length.Length{} // what stands already and how thick its sides are, 0 where that is not known
	for _, s := range r.Job.Standing {
		old[s.ID] = 0
		if s.Value.Board != nil {
			old[s.ID] = *s.Value.Board
		}
	}
	play := map[string]length.Length{}
	for _, o := range r.Assembly.Owners {
		play[o.ID] = o.Play[0]
	}
	said := "" // rules that other steps refer to
	for _, s := range r.Steps {
		if strings.HasPrefix(s.Text, "How a screw goes into the wall") {
			said += s.Whole()
		}
	}
	for _, s := range r.Steps {
		all := s.Whole()
		if strings.Contains(all, "screwed from inside the boxes") {
			if n++; !strings.Contains(all, "double-sided tape") {
				bad = append(bad, "nothing holds the fronts: "+s.Text)
			}
		}
		if s.Phase != shop.Install {
			continue
		}
		if strings.Contains(s.Text, ", into its anchors") {
			if n++; !strings.Contains(all+said, "a flat one until it is flush and no deeper") {
				bad = append(bad, "how the heads lie: "+s.Text)
			}
		}
		if strings.HasPrefix(s.Text, "Clamp ") {
			for _, f := range r.Assembly.Fixings {
				side, stands := old[f.Stud]
				h, _ := r.Job.Catalogue.Item(f.Screw)
				if f.Owner != s.Owner || f.Row != "joining" || !stands || h.Kind != "screw" || !strings.Contains(s.Text, f.Part) {
					continue
				}
				n++
				in := f.Length - f.Packing
				if p := play[f.Owner]; p > 0 {
					in = f.Length - min(f.Packing, p/2)
				}
				for _, l := range f.Layers {
					in -= l.Thickness
				}
				m := upTo.FindStringSubmatch(s.Text)
				if m == nil {
					bad = append(bad, "how far into a side that stands: "+s.Text)
					continue
				}
				told, err := length.Parse(m[1], r.Job.Print)
				if err != nil || told < in || told > in+length.Inch/8 || side > 0 && told+length.MM > side {
					bad = append(bad, fmt.Sprintf("points come %s into a side of %s: %s", in.Exact(r.Job.Print), side.Exact(r.Job.Print), s.Text))
				}
			}
		}
		if strings.Contains(s.Text, "each through a steel angle at its leg") {
			n++
			for _, f := range r.Assembly.Fixings {
				h, _ := r.Job.Catalogue.Item(f.Screw)
				if f.Kind != part.ToFloor || f.Owner != s.Owner || h.Clearance == 0 {
					continue
				}
				if want := "none of " + h.Clearance.Bit(r.Job.Print) + " there"; !strings.Contains(s.Text, want) {
					bad = append(bad, "no word of "+want+": "+s.Text)
				}
				leg := byMark(r.Assembly)[f.Part].Box()
				for _, o := range r.Assembly.Owners { // a foot of 50 mm, as the angle is sold
					past := leg.Min.X-50*length.MM < o.Box.Min.X || leg.Max.X+50*length.MM > o.Box.Max.X
					if o.ID == f.Owner && past && !strings.Contains(s.Text, "out past the end of the top") {
						bad = append(bad, "an angle stands out past the top: "+s.Text)
					}
				}
			}
		}
	}
	return bad, n
}

// Every step of setting up tells what holds, how heads lie, and how deep screws come into what was there before.
func TestSettingUpLeavesNothingToGuess(t *testing.T) {
	inExamples(t, shipped, bare, "nothing is set up")
}
