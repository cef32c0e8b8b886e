package job_test

import (
	"io/fs"
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
