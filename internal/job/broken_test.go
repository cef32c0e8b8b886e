package job_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"stowright/internal/source"
)

var update = flag.Bool("update", false, "write what the program says into testdata")

// Every broken job says all its mistakes, each with its line and a remedy.
func TestBroken(t *testing.T) {
	paths, err := filepath.Glob("testdata/broken/*.txtar")
	if err != nil || len(paths) < 8 {
		t.Fatal(paths, err)
	}
	for _, p := range paths {
		t.Run(strings.TrimSuffix(filepath.Base(p), ".txtar"), func(t *testing.T) {
			data, err := os.ReadFile(p)
			if err != nil {
				t.Fatal(err)
			}
			input, want, _ := strings.Cut(string(data), "-- want --\n")
			_, text, ok := strings.Cut(input, "-- job.yaml --\n")
			if !ok {
				t.Fatal("there is no job.yaml")
			}
			_, mistakes := read(t, "job.yaml", text)
			if len(mistakes) == 0 {
				t.Fatal("no mistake was found")
			}
			for _, m := range mistakes {
				if m.Hint == "" {
					t.Error("no remedy: " + m.String())
				}
			}
			got := said(mistakes)
			if *update {
				if err := os.WriteFile(p, []byte(input+"-- want --\n"+got), 0o666); err != nil {
					t.Fatal(err)
				}
				return
			}
			if d := cmp.Diff(want, got); d != "" {
				t.Error(d)
			}
		})
	}
}

func said(mistakes source.Problems) string {
	var b strings.Builder
	for _, m := range mistakes {
		b.WriteString(m.Excerpt())
	}
	return b.String()
}

// Hostile sizes are refused in words and at once.
func TestBounds(t *testing.T) {
	var many strings.Builder
	many.WriteString("stowright: 1\nunit: mm\ncases:\n")
	for i := range 10_000 {
		fmt.Fprintf(&many, "  c%d: {width: 600, height: 700, depth: 400}\n", i)
	}
	deep := "stowright: 1\nunit: mm\ncases:\n  c:\n    width: 600\n    height: 700\n    depth: 400\n    inside: " +
		strings.Repeat("{up: [", 30) + "{}" + strings.Repeat("]}", 30) + "\n"
	wide := "stowright: 1\nunit: mm\ncases: {c: {width: 600, height: 700, depth: 400, inside: {across: [" + strings.Repeat("{},", 2000) + "{}]}}}\n"
	for _, c := range []struct{ name, text, want string }{
		{"10 000 cases", many.String(), "cases has 10000 entries; at most 300 are read"},
		{"deep", deep, "nested more than 12 deep"},
		{"wide", wide, "more than 400 bays"},
		{"goods", "stowright: 1\nunit: mm\ngoods: {a: {count: 10000}, b: {count: 10000}, c: {count: 10000}}\n", "30000 things are listed"},
		{"lean", "stowright: 1\nunit: mm\nwalls: {w: {length: 3000, leans-out-at-top: 10}}\n", "a lean needs the height that it is over"},
		{"count", "stowright: 1\nunit: mm\ngoods: {a: {count: 99999999999999999999}}\n", "out of"},
	} {
		_, mistakes := read(t, "job.yaml", c.text)
		if !strings.Contains(said(mistakes), c.want) {
			t.Errorf("%s: want %q, got\n%s", c.name, c.want, said(mistakes[:min(len(mistakes), 3)]))
		}
	}
}
