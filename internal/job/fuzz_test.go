package job_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"stowright/examples"
	"stowright/internal/job"
	"stowright/internal/source/yaml"
)

// FuzzRead: whatever is in the file, reading ends, in little time, with a job or with mistakes.
func FuzzRead(f *testing.F) {
	for _, dir := range []fs.FS{examples.FS, os.DirFS("testdata/broken")} {
		for _, glob := range []string{"*/job.yaml", "*.txtar"} {
			paths, err := fs.Glob(dir, glob)
			if err != nil {
				f.Fatal(err)
			}
			for _, p := range paths {
				data, err := fs.ReadFile(dir, filepath.ToSlash(p))
				if err != nil {
					f.Fatal(err)
				}
				_, text, ok := strings.Cut(string(data), "-- job.yaml --\n")
				if !ok {
					text = string(data)
				}
				text, _, _ = strings.Cut(text, "-- want --\n")
				f.Add(text)
			}
		}
	}
	f.Add("stowright: 1\nunit: in\ncases: {a: {inside: &x {up: [{}, {}, {}]}}, b: {inside: {across: [*x, *x, *x]}}}")
	f.Add("cases: [1]\nwalls: 3\nruns: {a: 1}\ncounters: {a: [1]}\ngoods: [1]\nfamilies: {a: 1}\npatterns: {b: [1]}")
	f.Add("stowright: 1\npractice: [1]\nsizes: 3\nstages: {a: 1}\nboards: {birch-18: {offcuts: 3, damaged: {a: 1}}}")
	f.Add("stowright: 1\nunit: mm\nboards: {birch-18: null}\nmaterials: null\nhardware: {hinge-110: 1}\ncases: {a: null}")
	below := shipped(f)
	f.Fuzz(func(t *testing.T, text string) {
		n, mistakes := yaml.Read("job.yaml", []byte(text))
		if n == nil {
			if len(mistakes) == 0 {
				t.Fatal("no tree and no mistakes")
			}
			return
		}
		c, more := job.Read(job.Sources{Shipped: below, Job: n}, kinds())
		again, _ := job.Read(job.Sources{Shipped: below, Job: n}, kinds())
		if len(c.Cases) != len(again.Cases) {
			t.Error("reading twice gives two jobs")
		}
		if len(more) > 0 {
			return
		}
		for _, x := range c.Cases {
			if x.Spec.Width == nil || x.Spec.Height == nil || x.Spec.Depth == nil {
				t.Errorf("%s has no size and no mistake says so", x.ID)
			}
		}
	})
}
