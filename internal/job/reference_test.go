package job_test

import (
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"stowright/internal/job"
	"stowright/internal/schema"
)

// The reference in the docs is what the declarations say.
func TestReference(t *testing.T) {
	const path, mark = "../../docs/file-format.md", "-update` -->\n"
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	guide, have, ok := strings.Cut(string(data), mark)
	if !ok {
		t.Fatal("the docs have no place for the reference")
	}
	want := "\n```text\n" + schema.Help(job.File{}, job.Options(nil)) + "```\n"
	if *update {
		if err := os.WriteFile(path, []byte(guide+mark+want), 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	if d := cmp.Diff(want, have); d != "" {
		t.Error(d)
	}
}

// What the guide shows reads: each whole job in it has no mistakes, and so have its pieces put together.
func TestGuideReads(t *testing.T) {
	data, err := os.ReadFile("../../docs/file-format.md")
	if err != nil {
		t.Fatal(err)
	}
	blocks := strings.Split(string(data), "```yaml\n")[1:]
	if len(blocks) < 6 {
		t.Fatal("the examples of the guide are not found")
	}
	for i, b := range blocks {
		text, _, _ := strings.Cut(b, "```")
		if strings.HasPrefix(text, "stowright:") {
			good(t, "guide", text)
			continue
		}
		if strings.HasPrefix(text, " ") {
			continue // a piece of a case
		}
		_, mistakes := read(t, "guide", "stowright: 1\nunit: in\n"+text)
		for _, m := range mistakes {
			// A piece may name what another piece holds; anything else is a mistake of the guide.
			if !strings.HasPrefix(m.Text, "there is no ") && !strings.Contains(m.Text, "a run stands along a wall") {
				t.Errorf("block %d: %s", i+1, m.Excerpt())
			}
		}
	}
}
