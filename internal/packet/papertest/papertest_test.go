package papertest

import (
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/draw/pdf"
	"stowright/internal/length"
	"stowright/internal/output"
	"stowright/internal/pages"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
)

// print is a plan set that was read back.
type print struct {
	pages []Page
	plan  []byte
}

var prints = map[string]print{}

// printed gives the pages of an example's plan set, read back from the finished PDF, and its
// plan.json, made once; nobody may change them.
func printed(t *testing.T, name string, unit length.Unit, paper draw.Paper) ([]Page, []byte) {
	t.Helper()
	key := fmt.Sprint(name, unit, paper.Name)
	if p, ok := prints[key]; ok {
		return p.pages, p.plan
	}
	r := plantest.Result(t, name)
	if r.Job.Print != unit || r.Job.Both { // steps are told in the unit too; the reader reads one
		job := plantest.Parse(t, name, plantest.Text(t, name))
		job.Print, job.Both = unit, false
		r = plan.Make(context.Background(), job, plan.Want{})
	}
	doc := pages.Of(r, paper, "", "")
	b, err := pdf.Write(&doc)
	if err != nil {
		t.Fatal(err)
	}
	pages, err := Pages(b)
	if errors.Is(err, ErrNoReader) {
		t.Skip(err)
	}
	if err != nil {
		t.Fatal(err)
	}
	prints[key] = print{pages, output.Plan(r)}
	return pages, prints[key].plan
}

func own(u length.Unit) draw.Paper {
	if u == length.Inches {
		return draw.Letter()
	}
	return draw.A4()
}

// Every example can be built from its paper alone: all parts with their sizes, edges and
// workings, all steps with their parts and hardware, all that is bought; in both units.
func TestBuiltFromPaper(t *testing.T) {
	for _, name := range append(plantest.Examples(), plantest.Surveys()...) {
		for _, u := range []length.Unit{length.Inches, length.Millimetres} {
			papers := []draw.Paper{own(u)}
			if name == "fennel-street" {
				papers = append(papers, map[bool]draw.Paper{true: draw.Tabloid(), false: draw.A3()}[u == length.Inches])
			}
			for _, paper := range papers {
				t.Run(fmt.Sprint(name, " in ", u, " on ", paper.Name), func(t *testing.T) {
					pages, plan := printed(t, name, u, paper)
					s := Read(pages)
					holes := 0
					for _, p := range s.Parts {
						holes += len(p.Ops)
					}
					t.Logf("%d parts with %d workings, %d steps, %d things", len(s.Parts), holes, len(s.Steps), len(s.Things))
					for _, f := range Compare(s, plan) {
						t.Error(f)
					}
				})
			}
		}
	}
}

// Every example is put together by the words of its steps and the sizes of its parts alone: where
// each board lies in its case, drawer, rack, counter or base is where the plan has it, within what a
// tape shows. What the steps leave open is listed here, with the reason.
func TestPutTogetherFromPaper(t *testing.T) {
	const scribed, beside = "scribed to the wall: it is cut to fit there", "its place is told on what stands there already, which is no part"
	const unheld = "nothing that the job lists holds it, which is an error of that job"
	open := map[string]map[string]string{
		"fennel-street": {"Fill.filler": scribed},
		"attic":         {"Fill.filler": scribed, "Fill2.filler": scribed},
		"stages":        {"Top.rail1": beside, "Top.rail2": beside},
		"saw-and-drill": {"Top.rail1": unheld, "Top.rail2": unheld},
	}
	for _, name := range append(plantest.Examples(), plantest.Surveys()...) {
		for _, u := range []length.Unit{length.Inches, length.Millimetres} {
			t.Run(fmt.Sprint(name, " in ", u), func(t *testing.T) {
				pages, b := printed(t, name, u, own(u))
				var p told
				if err := json.Unmarshal(b, &p); err != nil {
					t.Fatal(err)
				}
				wrong, left := Read(pages).Rebuild().compare(p.Parts)
				for _, w := range wrong {
					t.Error(w)
				}
				for m, why := range left {
					if open[name][m] == "" {
						t.Errorf("%s has no place: %s", m, why)
					}
				}
				for m := range open[name] {
					if _, still := left[m]; !still {
						t.Errorf("%s has its place now: take it off the list", m)
					}
				}
				t.Logf("%d of %d parts placed", len(p.Parts)-len(left), len(p.Parts))
			})
		}
	}
}

// A step that tells another place is found out.
func TestSpoiltPlacesBite(t *testing.T) {
	pages, b := printed(t, "one-case", length.Inches, draw.Letter())
	var p told
	if err := json.Unmarshal(b, &p); err != nil {
		t.Fatal(err)
	}
	for _, x := range []struct{ name, words, instead, says string }{
		{"another height", "underside 4 in up", "underside 5 in up", "A.bottom lies high"},
		{"another end", "lower edge flush with", "upper edge flush with", "A.toe"},
		{"another depth", "13 9/32 in behind", "12 9/32 in behind", "A.rail2 lies deep"},
		{"another shelf hole", "underside 13 19/32 in", "underside 14 19/32 in", "A.shelf1 lies high"},
		{"a hinge moved", "along 3 5/32 (3.150),", "along 4 5/32 (4.150),", "A.1door"},
		{"a groove moved", "16 25/32 (16.795).", "15 13/16 (15.801).", "A.back"},
		{"a face of another size", "the face, 30 in by", "the face, 31 in by", "A.right lies along"},
	} {
		spoilt, ok := swap(pages, strings.Fields(x.words), strings.Fields(x.instead))
		if !ok {
			t.Errorf("%s: %q is on no page", x.name, x.words)
			continue
		}
		wrong, left := Read(spoilt).Rebuild().compare(p.Parts)
		for m, why := range left {
			wrong = append(wrong, m+" has no place: "+why)
		}
		if !slices.ContainsFunc(wrong, func(s string) bool { return strings.Contains(s, x.says) }) {
			t.Errorf("%s: nobody said %q: %q", x.name, x.says, wrong)
		}
	}
}

// numbered puts the number of the step whose text holds it in the place of each text in braces.
func numbered(t *testing.T, s string, plan []byte) string {
	t.Helper()
	var p told
	if err := json.Unmarshal(plan, &p); err != nil {
		t.Fatal(err)
	}
	return regexp.MustCompile(`\{[^}]*\}`).ReplaceAllStringFunc(s, func(in string) string {
		for _, x := range p.Steps {
			if strings.Contains(strings.ToLower(x.Text), strings.Trim(in, "{}")) {
				return fmt.Sprint(x.N)
			}
		}
		t.Fatalf("no step says %q", in)
		return ""
	})
}

// Paper that was spoilt is found out.
func TestSpoiltPaperBites(t *testing.T) {
	pages, plan := printed(t, "one-case", length.Inches, draw.Letter())
	if f := Compare(Read(pages), plan); len(f) > 0 {
		t.Fatal(f)
	}
	for _, x := range []struct {
		name, words, instead string // words in a row on one page, and what stands there instead
		says                 string // in one of the faults
	}{
		{"a hole moved", "(0.472), 2 17/32 (2.543).", "(0.472), 3 17/32 (3.531).", "A.toe: pocket"},
		{"a hole moved in one of its two sizes", "3 23/32 (3.723)", "3 23/32 (4.723)", "two sizes"},
		{"a hole too few", "4 × hinge plate:", "3 × hinge plate:", "counts 3"},
		{"a hole too wide", "hole 1/4 dia.,", "hole 3/8 dia.,", "A.left: hole for shelf pin"},
		{"a hole through", "dia., 17/32 deep. Inside", "dia., 5/8 deep. Inside", "A.1door: cup"},
		{"the other face", "deep. Inside face, 3/32", "deep. Outside face, 3/32", "outside face"},
		{"a groove moved", "16 25/32 (16.795).", "16 25/32 (16.781).", "groove for back, "},
		{"a mirror image like the other", "right edge for left edge.", "right edge for lower edge.", "A.2door"},
		{"tapes hooked at another edge", "lower end, across from the front edge.", "lower end, across from the rear edge.", "measures from"},
		{"no mirror image", "image: A.right (right", "image: A.rail9 (right", "A.rail9"},
		{"a part removed", "A.toe toe board 1 28 19/32 (28.582) 4", "", "A.toe"},
		{"a size changed in the table", "1 30 5/16 14 7/8", "1 30 5/16 14 5/8", "A.1door"},
		{"edging forgotten", "17 23/32 (17.729) front edge", "17 23/32 (17.729)", "edging"},
		{"one too many counted", "3 28 19/32 (28.582) 3 1/2", "4 28 19/32 (28.582) 3 1/2", "counts 4"},
		{"a step removed", "{fit toe}. Fit toe", "Fit toe", "step {fit toe}"},
		{"a step named twice", "{fit toe}. Fit", "{fit lower rail}. Fit", "stands twice"},
		{"another part brought in", "stretcher (A.rail1)", "stretcher (A.rail2)", "step {fit front stretcher}"},
		{"a part of no case", "stretcher (A.rail1)", "stretcher (A.rail7)", "step {fit front stretcher}"},
		{"fewer screws", "Glue and 10 ×", "Glue and 8 ×", "pocket screw"},
		{"other screws", "4 × pocket screw 1 1/4 in,", "4 × pocket screw 1 1/2 in,", "not on the shopping list"},
		{"less bought", "coarse 33 1", "coarse 32 1", "pocket screw"},
		{"a setting with a wrong depth", "Hinge cup: 17/32", "Hinge cup: 5/8", "Hinge cup"},
		{"a setting that counts wrong", "64 in 2", "62 in 2", "counts 62"},
		{"a setting bored in another part", "8 in 2 parts. A.1door, 2door", "8 in 2 parts. A.1door, toe", "step {hinge screw: }"},
	} {
		t.Run(x.name, func(t *testing.T) {
			for _, s := range []*string{&x.words, &x.instead, &x.says} {
				*s = numbered(t, *s, plan)
			}
			spoilt, ok := swap(pages, strings.Fields(x.words), strings.Fields(x.instead))
			if !ok {
				t.Fatalf("%q is on no page", x.words)
			}
			f := Compare(Read(spoilt), plan)
			if !slices.ContainsFunc(f, func(s string) bool { return strings.Contains(s, x.says) }) {
				t.Errorf("nobody said %q: %q", x.says, f)
			}
		})
	}
	lost := 0
	for i, p := range pages { // those that hold parts, cuts, settings, steps or things to buy
		if !slices.ContainsFunc(runs(p, i+1), func(x run) bool {
			return slices.Contains([]string{"Mark", "Cuts", "Step", "Thing"}, x.text) && (x.x0 < 110 || x.text == "Cuts") || stepLine.MatchString(x.text)
		}) {
			continue
		}
		lost++
		if f := Compare(Read(slices.Delete(slices.Clone(pages), i, i+1)), plan); len(f) == 0 {
			t.Errorf("sheet %d is not missed", i+1)
		}
	}
	if lost < 5 {
		t.Errorf("only %d sheets hold anything", lost)
	}
}

// swap puts other words in the place of some that stand in a row, or after each other in one
// text; words too many are left out.
func swap(pages []Page, words, instead []string) ([]Page, bool) {
	out := slices.Clone(pages)
	for i, p := range pages {
		rows := slices.Clone(p.Words)
		slices.SortStableFunc(rows, func(a, b Word) int {
			if near(a.Y1, b.Y1) {
				return cmp.Compare(a.X0, b.X0)
			}
			return cmp.Compare(a.Y1, b.Y1)
		})
		for _, list := range [][]Word{slices.Clone(p.Words), rows} {
			for j := 0; j+len(words) <= len(list); j++ {
				if !slices.EqualFunc(list[j:j+len(words)], words, func(w Word, s string) bool { return w.Text == s }) {
					continue
				}
				for k := range words {
					list[j+k].Text = ""
					if k < len(instead) {
						list[j+k].Text = instead[k]
					}
				}
				out[i].Words = slices.DeleteFunc(list, func(w Word) bool { return w.Text == "" })
				return out, true
			}
		}
	}
	return nil, false
}

// A maker has no other way to the sizes than paper; nor has this reader.
func TestReaderIsIndependent(t *testing.T) {
	list, err := filepath.Glob("*.go")
	if err != nil || len(list) < 5 {
		t.Fatal(list, err)
	}
	for _, name := range list {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		src, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		f, err := parser.ParseFile(token.NewFileSet(), name, src, parser.ImportsOnly)
		if err != nil {
			t.Fatal(err)
		}
		for _, i := range f.Imports {
			if p, _ := strconv.Unquote(i.Path.Value); strings.HasPrefix(p, "stowright/") {
				t.Errorf("%s imports %s", name, p)
			}
		}
	}
}

func TestSizes(t *testing.T) {
	for _, x := range []struct {
		text   string
		inches bool
		want   float64 // mm; -1 for none
	}{
		{"17 3/4", true, 450.85}, {"17 3/4 (17.735)", true, 450.469}, {"1 15/32 (37 mm)", true, 37}, {"5.357 mm", true, 5.357},
		{"0.709", true, 18.0086}, {"-5/16", true, -7.9375}, {"726", false, 726}, {"12.01", false, 12.01}, {"3/4 in", false, 19.05},
		{"17 3/4 (18.735)", true, -1}, {"3/4 7", true, -1}, {"", false, -1}, {"12,5", false, -1}, {"1/0", true, -1},
	} {
		got, err := size(x.text, x.inches)
		if x.want == -1 {
			if err == nil {
				t.Errorf("%q is read as %v", x.text, got)
			}
		} else if err != nil || !near(got*1000, x.want*1000) {
			t.Errorf("%q is read as %v, %v; want %v", x.text, got, err, x.want)
		}
	}
}
