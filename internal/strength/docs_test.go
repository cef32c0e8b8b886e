package strength_test

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"

	"stowright/internal/rules"
	"stowright/internal/strength"
)

var update = flag.Bool("update", false, "write docs/checks.md")

// docs/checks.md is made from the checks themselves.
func TestDocs(t *testing.T) {
	const path = "../../docs/checks.md"
	var b strings.Builder
	b.WriteString("# The checks\n\nMade from the code by `go test ./internal/strength -run TestDocs -update`; do not edit.\n\n" +
		"Every check compares a demand with a capacity. Its verdict is *holds*, *near* (ratio above 0.85), *fails*, or *not known* where a fact is missing: nothing unknown passes. " +
		"A load is the one stated for a bay, else the goods that the job puts there, as they find room, else the practice's, which is then called assumed. " +
		"What is stored stays: permanent loads throughout.\n")
	for _, r := range strength.All() {
		fmt.Fprintf(&b, "\n## %s\n\n%s\n\n", r.Name, r.Doc)
		for _, c := range r.Codes {
			fmt.Fprintf(&b, "- `%s`", c)
			if !strength.Acceptable(c) {
				b.WriteString(": a failure cannot be accepted away")
			}
			b.WriteString("\n")
		}
		fmt.Fprintf(&b, "\nSource: %s.\n\nFails, for example: %s\n", strings.TrimSuffix(r.Source, "."), r.Example)
	}
	b.WriteString("\n# Room and clearances\n\nThese look at where things are, not at what they carry.\n")
	for _, r := range rules.All() {
		fmt.Fprintf(&b, "\n## %s\n\n%s\n\n", r.Name, r.Doc)
		for _, c := range r.Codes {
			fmt.Fprintf(&b, "- `%s`\n", c)
		}
		fmt.Fprintf(&b, "\nSource: %s.\n\nFails, for example: %s\n", strings.TrimSuffix(r.Source, "."), r.Example)
	}
	if *update {
		if err := os.WriteFile(path, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	got, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != b.String() {
		t.Error("docs/checks.md is not what the checks say; run with -update")
	}
}
