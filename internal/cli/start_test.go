package cli_test

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"stowright/internal/cli"
)

// What the questions start fails no check: only what nobody has measured is not known.
func TestStartedJobsAreSound(t *testing.T) {
	verdict := regexp.MustCompile(`(?m)^(warning|error).*|^ +\S+ +fails .*`)
	for _, unit := range []string{"in", "mm"} {
		for _, bench := range []string{"standing", "sitting", "none"} {
			for _, wall := range []string{"6 ft", "10 ft", "20 ft"} {
				name := fmt.Sprintf("%s, %s, %s", unit, bench, wall)
				path := filepath.Join(t.TempDir(), "job.yaml")
				run := func(in string, args ...string) string {
					var out, problems bytes.Buffer
					if code := cli.Run(context.Background(), args, cli.Streams{In: strings.NewReader(in), Out: &out, Err: &problems}); code != 0 {
						t.Errorf("%s: %s ends with %d: %s", name, args[0], code, problems.String())
					}
					return out.String()
				}
				run("\n"+unit+"\n"+wall+"\n\n"+bench+"\n\n", "new", path)
				for _, bad := range verdict.FindAllString(run("", "check", path), -1) {
					t.Errorf("%s: %s", name, bad)
				}
			}
		}
	}
	// A planted one is seen.
	path := filepath.Join(t.TempDir(), "job.yaml")
	var out bytes.Buffer
	cli.Run(context.Background(), []string{"new", path}, cli.Streams{In: strings.NewReader("\n\n\n\n\n\n"), Out: &out, Err: &out})
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, bytes.ReplaceAll(text, []byte("load: 160 lb"), []byte("load: 600 lb")), 0o644); err != nil {
		t.Fatal(err)
	}
	out.Reset()
	cli.Run(context.Background(), []string{"check", path}, cli.Streams{In: strings.NewReader(""), Out: &out, Err: &out})
	if !verdict.MatchString(out.String()) {
		t.Error("drawers that are too heavy are not seen:", out.String())
	}
}
