package plan_test

import (
	"regexp"
	"strings"
	"testing"

	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan"
)

// Every screw of a filler has its height on it, off its ends, and goes into the middle of its edge.
func TestFillersScrewsHaveTheirPlaces(t *testing.T) {
	places := regexp.MustCompile(`into the filler's edge, (.*?) up from its lower end, (.*?) behind its front face`)
	seen := 0
	everywhere(t, func(name string, r plan.Result) {
		for _, s := range r.Steps {
			if !strings.HasPrefix(s.Text, "Scribe ") || len(s.New) == 0 {
				continue
			}
			screws := 0
			for _, f := range s.Fits {
				if h, _ := r.Job.Catalogue.Item(f.ID); h.Kind == "screw" {
					screws += f.Count
				}
			}
			if screws < 2 {
				continue
			}
			m := places.FindStringSubmatch(s.Text)
			if m == nil {
				t.Errorf("%s: %s", name, s.Text)
				continue
			}
			read := func(x string) length.Length {
				l, err := length.Parse(strings.TrimSuffix(strings.TrimSuffix(x, " in"), " mm"), r.Job.Print)
				if err != nil {
					t.Fatal(name, err)
				}
				return l
			}
			var p part.Part
			for _, q := range r.Assembly.Parts {
				if q.Mark == s.New[0] {
					p = q
				}
			}
			up := strings.Split(strings.ReplaceAll(m[1], " and ", ", "), ", ")
			if seen++; len(up) != screws {
				t.Errorf("%s: %d screws, heights %v", name, screws, up)
			}
			last := length.Length(0)
			for _, x := range up {
				at := read(x)
				if at <= last || at > p.Size[0]-10*length.MM {
					t.Errorf("%s: %s is %s long, with screws at %v", name, p.Mark, p.Size[0].In(r.Job.Print), up)
				}
				last = at
			}
			if in := read(m[2]); (in - p.Size[2]/2).Abs() > length.MM {
				t.Errorf("%s: screws %s behind the face of %s, which is %s thick", name, m[2], p.Mark, p.Size[2].In(r.Job.Print))
			}
		}
	})
	if seen == 0 {
		t.Error("no filler is screwed")
	}
}
