package job_test

import (
	"io/fs"
	"strings"
	"testing"

	"stowright/examples"
)

func TestExamplesRead(t *testing.T) {
	paths, err := fs.Glob(examples.FS, "*/job.yaml")
	if err != nil || len(paths) < 6 {
		t.Fatal(paths, err)
	}
	for _, p := range paths {
		t.Run(p, func(t *testing.T) {
			text, err := fs.ReadFile(examples.FS, p)
			if err != nil {
				t.Fatal(err)
			}
			good(t, p, string(text))
		})
	}
}

// A slip in any example is caught, so that reading them without mistakes means something.
func TestSpoiltExamples(t *testing.T) {
	for path, s := range map[string]struct{ old, new, want string }{
		"fennel-street":       {"case: trays", "case: tray", `there is no case "tray"`},
		"hollis-court":        {"left: case two", "left: case too", `there is no case or standing case "case too"`},
		"hollis-court-friend": {"wide drawers: {family: print room, ", "wide drawers: {", "steps count the width step of a family"},
		"marram-point":        {"with: north", "with: nord", `there is no wall "nord"`},
		"ostler-row":          {"machine: mitre saw}", "machine: table saw}", `there is no machine "table saw"`},
		"one-case":            {"    depth: 18 1/2\n", "", "the depth of shelves is not stated"},
	} {
		text, err := fs.ReadFile(examples.FS, path+"/job.yaml")
		if err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(string(text), s.old) {
			t.Errorf("%s: %q is not there to be spoilt", path, s.old)
			continue
		}
		_, mistakes := read(t, path, strings.Replace(string(text), s.old, s.new, 1))
		if !strings.Contains(said(mistakes), s.want) {
			t.Errorf("%s: want %q, got\n%s", path, s.want, said(mistakes))
		}
	}
}

// What the surveys say is all there: counts of goods, and the layouts' sums.
func TestLayoutsAdd(t *testing.T) {
	for _, s := range []struct {
		path, run string
		goods     int
		end       string // of the run's last case along the wall, from its start
	}{
		{"fennel-street", "standing run", 18, "56 in"},
		{"fennel-street", "sitting run", 18, "113 in"},
		{"hollis-court", "wall cases", 9, "2300 mm"},
		{"marram-point", "north run", 15, "4774 mm"},
		{"ostler-row", "stand", 17, "143 in"},
		{"ostler-row", "upper", 17, "86 in"},
	} {
		text, err := fs.ReadFile(examples.FS, s.path+"/job.yaml")
		if err != nil {
			t.Fatal(err)
		}
		c := good(t, s.path, string(text))
		if len(c.Goods) != s.goods {
			t.Errorf("%s lists %d goods, not %d", s.path, len(c.Goods), s.goods)
		}
		for _, r := range c.Runs {
			if r.ID != s.run {
				continue
			}
			at := *r.Value.Start
			for _, e := range r.Value.Order {
				switch {
				case e.Case != "":
					at += *caseOf(t, c, e.Case).Spec.Width
				case e.Knee != nil:
					at += e.Knee.Width
				case e.Space != nil:
					at += *e.Space
				}
			}
			if at != in(t, s.end) {
				t.Errorf("%s: %s ends at %v, not %s", s.path, s.run, at, s.end)
			}
			s.run = ""
		}
		if s.run != "" {
			t.Errorf("%s has no run %s", s.path, s.run)
		}
	}
}

func BenchmarkRead(b *testing.B) {
	text, err := fs.ReadFile(examples.FS, "fennel-street/job.yaml")
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		read(b, "job.yaml", string(text))
	}
}
