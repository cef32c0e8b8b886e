package packet_test

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/draw/drawtest"
	"stowright/internal/draw/pdf"
	"stowright/internal/length"
	"stowright/internal/pages"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
)

var names = []string{"one-case", "fennel-street", "hollis-court", "hollis-court-friend", "marram-point", "ostler-row"}

// Every sheet of every survey on the paper of its unit.
func TestSurveys(t *testing.T) {
	for _, name := range plantest.Surveys() {
		t.Run(name, func(t *testing.T) {
			r := plantest.Result(t, name)
			r.Job.Both = false
			judge(t, r, paperOf(r.Job.Print), name)
		})
	}
}

// Every sheet of every example, in short form of three of them on the paper of their unit with the first
// cutting plan that is found, else on every paper and in both units.
func TestExamples(t *testing.T) {
	list := names
	if testing.Short() {
		list = append([]string{"one-case"}, some()...)
	}
	for _, name := range list {
		t.Run(name, func(t *testing.T) {
			r := plantest.Result(t, name)
			r.Job.Both = false
			units := []length.Unit{r.Job.Print}
			if !testing.Short() {
				units = []length.Unit{length.Inches, length.Millimetres}
			}
			for _, u := range units {
				papers := []draw.Paper{draw.A4(), draw.Letter(), draw.A3(), draw.Tabloid()}
				if testing.Short() {
					papers = []draw.Paper{paperOf(u)}
				}
				r.Job.Print = u
				for _, p := range papers {
					t.Run(fmt.Sprint(p.Name, " ", u), func(t *testing.T) { judge(t, r, p, name) })
				}
			}
		})
	}
}

var record = flag.Bool("record", false, "write testdata/faults.txt anew from the sets that are judged")

// known holds the faults of a set against testdata/faults.txt, which lists those of the long form
// that we know and have not mended: a new one fails the test, and so does one that is gone until
// its line is taken out. Nothing in the short form has any.
func known(t *testing.T, set string, faults []string) {
	t.Helper()
	const path = "testdata/faults.txt"
	b, _ := os.ReadFile(path)
	var want []string
	for _, line := range strings.Split(string(b), "\n") {
		if rest, ok := strings.CutPrefix(line, set+": "); ok {
			want = append(want, rest)
		}
	}
	if *record {
		for _, f := range faults {
			if !slices.Contains(want, f) {
				b = append(b, set+": "+f+"\n"...)
			}
		}
		if err := os.WriteFile(path, b, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	for _, f := range faults {
		if !slices.Contains(want, f) {
			t.Error(f)
		}
	}
	for _, f := range want {
		if !slices.Contains(faults, f) {
			t.Errorf("mended, take it out of %s: %s", path, f)
		}
	}
}

// judge looks at a whole set as paper: nothing over anything, nothing outside the frame,
// nothing cut short, no sheet of which most is empty, the same bytes twice.
func judge(t *testing.T, r plan.Result, paper draw.Paper, name string) {
	doc := setOn(t, name, r.Job.Print, paper)
	bytes, err := pdf.Write(&doc)
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%d sheets, %d bytes", len(doc.Pages), len(bytes))
	if dir := os.Getenv("PACKETS"); dir != "" {
		os.WriteFile(fmt.Sprintf("%s/%s-%s.pdf", dir, name, paper.Name), bytes, 0o644)
	}
	var faults []string
	say := func(f string, a ...any) {
		if line := fmt.Sprintf(f, a...); !slices.Contains(faults, line) {
			faults = append(faults, line)
		}
	}
	defer func() { known(t, fmt.Sprintf("%s, %s in %s", name, paper.Name, r.Job.Print), faults) }()
	for _, f := range drawtest.Judge(&doc) {
		say("%s", f)
	}
	for _, f := range drawtest.Empty(&doc) {
		say("%s", f)
	}
	if len(bytes) > 5<<20 {
		say("%d bytes: over 5 MB", len(bytes))
	}
	over, err := drawtest.Overlaps(bytes, &doc)
	if errors.Is(err, drawtest.ErrNoReader) {
		t.Skip(err)
	}
	if err != nil {
		t.Fatal(err)
	}
	for _, o := range over {
		say("%v", o)
	}
	if testing.Short() && len(doc.Pages) > 20 || paper != paperOf(r.Job.Print) {
		return // one paper of each unit, in the short form of one small set, is enough to see whether bytes are the same
	}
	again := pages.Of(r, paper, "", "")
	if b, _ := pdf.Write(&again); string(b) != string(bytes) {
		say("the same job gave other bytes")
	}
}

// A word laid over another at the very foot of a sheet, in the title block, is found in the
// finished PDF; so is a line through a word on its sheet.
func TestPlantedOverlaps(t *testing.T) {
	doc := pages.Of(plantest.Result(t, "one-case"), draw.Letter(), "", "")
	s := &doc.Pages[1]
	plant := func() int {
		b, err := pdf.Write(&doc)
		if err != nil {
			t.Fatal(err)
		}
		over, err := drawtest.Overlaps(b, &doc)
		if errors.Is(err, drawtest.ErrNoReader) {
			t.Skip(err)
		}
		if err != nil {
			t.Fatal(err)
		}
		return len(over)
	}
	if n := plant(); n != 0 {
		t.Fatalf("%d overlaps before any is planted", n)
	}
	var foot *draw.Text // the lowest text of the sheet
	for _, it := range s.Items {
		if x, ok := it.(*draw.Text); ok && x.Text != "" && (foot == nil || x.At.Y > foot.At.Y) {
			foot = x
		}
	}
	s.Text(foot.At.Add(draw.Pt(0.5, 0.8)), draw.LeastCap, "planted", draw.Start)
	if n := plant(); n == 0 {
		t.Errorf("a word over %q at %.0f mm, 10 mm above the paper's edge, was not found", foot.Text, foot.At.Y)
	}
	p := &doc.Pages[0]
	before := len(drawtest.Strikes(p))
	for _, it := range p.Items {
		if x, ok := it.(*draw.Text); ok && x.Text != "" {
			b := x.Box()
			p.Poly(draw.Narrow, draw.Pt(b.X, b.Mid().Y), draw.Pt(b.Right(), b.Mid().Y))
			break
		}
	}
	if n := len(drawtest.Strikes(p)); n <= before {
		t.Error("a line through a word was not found")
	}
}

// kept is how one set of an example or survey is drawn.
type kept struct {
	name, paper string
	unit        length.Unit
}

// sets holds what setOn has drawn.
var sets = map[kept]draw.Document{}

// set gives the set of an example or survey in one unit, on the paper of that unit, drawn once; nobody may change it.
func set(t *testing.T, name string) draw.Document {
	u := plantest.Result(t, name).Job.Print
	return setOn(t, name, u, paperOf(u))
}

// setOn gives a set in one unit on one paper, drawn once for all tests; nobody may change it.
func setOn(t *testing.T, name string, u length.Unit, p draw.Paper) draw.Document {
	t.Helper()
	k := kept{name, p.Name, u}
	if _, ok := sets[k]; !ok {
		r := plantest.Result(t, name)
		r.Job.Both, r.Job.Print = false, u
		sets[k] = pages.Of(r, p, "", "")
	}
	return sets[k]
}

func paperOf(u length.Unit) draw.Paper {
	if u == length.Inches {
		return draw.Letter()
	}
	return draw.A4()
}

// some gives the examples that the short tests read, one in inches and one in millimetres; the long ones read all, and all surveys.
func some() []string {
	if testing.Short() {
		return []string{"ostler-row", "hollis-court"}
	}
	return append(slices.Clone(names), plantest.Surveys()...)
}
