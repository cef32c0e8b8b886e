package plan_test

import (
	"context"
	"path"
	"regexp"
	"strings"
	"testing"

	"stowright/examples"
	"stowright/internal/builtin"
	"stowright/internal/finding"
	"stowright/internal/job"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
	"stowright/internal/source/yaml"
)

// spoilt is an example with one mistake in it. Edits and remedies are pairs of texts, what stands
// there and what takes its place; each must stand there once. In a remedy, $1 is what `hint` catches
// in what the check advises.
type spoilt struct {
	job, what string
	edits     []string
	code, at  string          // where: ? stands for a mark's letter
	verdict   finding.Verdict // None stands for Fails
	hint      string          // a pattern that its advice matches
	remedy    []string        // done to the spoilt text; then the check holds
}

// mended is the remedy of putting back what stood there before.
var back = []string{"back"}

func TestSpoilt(t *testing.T) {
	tried := map[string]bool{}
	for _, s := range spoils {
		if tried[s.job] && testing.Short() {
			continue // one of each survey is enough while one works
		}
		tried[s.job] = true
		t.Run(s.job+"/"+s.what, func(t *testing.T) {
			b, err := examples.FS.ReadFile(s.job + "/job.yaml")
			if err != nil {
				t.Fatal(err)
			}
			if f, ok := bites(plantest.Result(t, s.job), s); ok {
				t.Fatalf("it bites without being spoilt: %+v", f)
			}
			text := edited(t, string(b), s.edits)
			f, ok := bites(made(t, s.what, text), s)
			if !ok {
				for _, f := range made(t, s.what, text).Findings {
					if f.Severity == finding.Error {
						t.Logf("%s %s %v", f.Code, f.At, f.Verdict)
					}
				}
				t.Fatalf("no %s at %s", s.code, s.at)
			}
			m := regexp.MustCompile(s.hint).FindStringSubmatch(f.Hint)
			if m == nil || f.Hint == "" || f.Source == "" || f.Text == "" {
				t.Fatalf("advice %q, not %q\n%+v", f.Hint, s.hint, f)
			}
			if len(s.remedy) == 1 {
				return // back to what stood there, which does not bite
			}
			var remedy []string
			for _, x := range s.remedy {
				if len(m) > 1 {
					x = strings.ReplaceAll(x, "$1", m[1])
				}
				remedy = append(remedy, x)
			}
			if f, ok := bites(made(t, s.what+", mended", edited(t, text, remedy)), s); ok {
				t.Errorf("mended as advised, it still bites: %s\n%s", f.Text, strings.Join(f.Working, "\n"))
			}
		})
	}
}

// Reading a spoilt text says where, what was expected and the nearest right word.
func TestSpoiltWords(t *testing.T) {
	for _, s := range []struct{ job, old, new, says string }{
		{"fennel-street", "can-shelves:", "can-shelfs:", "can-shelves"},
		{"marram-point", "one-at-a-time: yes", "one-at-a-tme: yes", "one-at-a-time"},
		{"ostler-row", "kind: door-track", "kind: door-trak", "door-track"},
		{"hollis-court", "case-board", "case-bord", ""},
		{"hollis-court-friend", "family: print room, steps: 6", "family: print rom, steps: 6", "print room"},
	} {
		b, _ := examples.FS.ReadFile(s.job + "/job.yaml")
		text := string(b)
		if s.says == "" {
			text = strings.Replace(text, "unit: mm\n", "unit: mm\ngods: {}\n", 1)
			s.new, s.says = "gods", "goods"
		} else {
			text = edited(t, text, []string{s.old, s.new})
		}
		n, p := yaml.Read("job.yaml", []byte(text))
		if len(p) == 0 {
			_, p = job.Read(job.Sources{Shipped: plantest.Shipped(), Job: n}, builtin.Fittings())
		}
		if len(p) == 0 || !strings.Contains(p[0].String(), s.says) || !strings.Contains(p[0].Excerpt(), s.new) || !strings.Contains(p[0].Excerpt(), "^") {
			t.Errorf("%s: %v", s.job, p)
		}
	}
}

func made(t *testing.T, name, text string) plan.Result {
	return plan.Make(context.Background(), parse(t, name, []byte(text)), plan.Want{})
}

// edited replaces each old text, which must stand there once, by its new one.
func edited(t *testing.T, text string, pairs []string) string {
	t.Helper()
	for i := 0; i+1 < len(pairs); i += 2 {
		if n := strings.Count(text, pairs[i]); n != 1 {
			t.Fatalf("%q stands there %d times", pairs[i], n)
		}
		text = strings.Replace(text, pairs[i], pairs[i+1], 1)
	}
	return text
}

// bites finds the failure that a spoilt copy is to have.
func bites(r plan.Result, s spoilt) (finding.Finding, bool) {
	want := s.verdict
	if want == finding.None {
		want = finding.Fails
	}
	for _, f := range r.Findings {
		if string(f.Code) == s.code && at(s.at, f.At) && f.Severity != finding.Note && (f.Verdict == want || s.verdict == finding.None && f.Verdict == finding.None) {
			return f, true
		}
	}
	return finding.Finding{}, false
}

// at says that a place is the one looked for, where ? stands for any letter.
func at(want, place string) bool {
	ok, err := path.Match(want, place)
	return ok && err == nil
}
