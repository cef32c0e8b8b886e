package packet_test

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"stowright/internal/draw"
)

// The paper speaks to a maker without a computer: no mapping of the job's file, no flag of the program, and nothing to do
// that is a word of the file with its colon, as the reference of the file lists them.
func TestThePaperNeedsNoJobFile(t *testing.T) {
	ref, err := os.ReadFile("../../docs/file-format.md")
	if err != nil {
		t.Fatal(err)
	}
	_, list, _ := strings.Cut(string(ref), "-update` -->")
	keys := map[string]bool{}
	for _, m := range regexp.MustCompile(`(?m)^ +([a-z][a-z-]*)  `).FindAllStringSubmatch(list, -1) {
		keys[m[1]] = true
	}
	if len(keys) < 100 || !keys["people"] || !keys["across"] {
		t.Fatalf("%d keys: the reference was not read", len(keys))
	}
	code := regexp.MustCompile(`[a-z]+: ?\{|[{}` + "`" + `]|(^|\s)--[a-z]`)
	todo := regexp.MustCompile(`To do: (.*?)(\[\d+\]|$)`)
	word := regexp.MustCompile(`[a-z][a-z-]*:`)
	told := 0
	for _, name := range some() {
		doc := set(t, name)
		var all []string
		for i := range doc.Pages {
			for _, it := range doc.Pages[i].Items {
				x, ok := it.(*draw.Text)
				if !ok {
					continue
				}
				if m := code.FindString(x.Text); m != "" {
					t.Errorf("%s, sheet %d: %q in %q", name, i+1, m, x.Text)
				}
				all = append(all, x.Text)
			}
		}
		for _, m := range todo.FindAllStringSubmatch(strings.Join(all, " "), -1) {
			told++
			what, _, _ := strings.Cut(m[1], "So too")
			what, _, _ = strings.Cut(what, " – ")
			for _, w := range word.FindAllString(what, -1) {
				if w != "high:" && keys[strings.TrimSuffix(w, ":")] { // "too high: lower it"
					t.Errorf("%s: %q is to be written in a file that the reader has not: %s", name, w, what)
				}
			}
		}
	}
	if told < 10 {
		t.Errorf("only %d things are to be done", told)
	}
}
