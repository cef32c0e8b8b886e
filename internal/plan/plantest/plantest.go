// Package plantest goes the whole way for the shipped examples, for tests of what is made from
// a result, and runs the independent readers of test-tools.
package plantest

import (
	"context"
	"embed"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"stowright/examples"
	"stowright/internal/builtin"
	"stowright/internal/job"
	"stowright/internal/plan"
	"stowright/internal/source"
	sourcejson "stowright/internal/source/json"
	"stowright/internal/source/yaml"
	"stowright/internal/stock"
)

// Examples gives the names of the shipped examples, in short tests only the smallest.
func Examples() []string {
	if testing.Short() {
		return []string{"one-case"}
	}
	return []string{"one-case", "fennel-street", "hollis-court", "hollis-court-friend", "marram-point", "ostler-row"}
}

//go:embed surveys
var surveys embed.FS

// Surveys gives the names of whole surveys that were written from the docs alone, in short tests one of them.
func Surveys() []string {
	list, err := surveys.ReadDir("surveys")
	if err != nil {
		panic(err)
	}
	var out []string
	for i, e := range list {
		if !testing.Short() || i == 0 {
			out = append(out, strings.TrimSuffix(e.Name(), ".yaml"))
		}
	}
	return out
}

// Text gives the job of a shipped example or of a survey.
func Text(t testing.TB, name string) []byte {
	t.Helper()
	b, err := examples.FS.ReadFile(name + "/job.yaml")
	if err != nil {
		b, err = surveys.ReadFile("surveys/" + name + ".yaml")
	}
	if err != nil {
		t.Fatal(err)
	}
	return b
}

var (
	mu   sync.Mutex
	made = map[string]plan.Result{}
)

// Result goes the whole way for a shipped example or a survey, once in a test's process; nobody may change it.
func Result(t testing.TB, name string) plan.Result {
	t.Helper()
	mu.Lock()
	defer mu.Unlock()
	if r, ok := made[name]; ok {
		return r
	}
	made[name] = plan.Make(context.Background(), Parse(t, name, Text(t, name)), plan.Want{})
	return made[name]
}

// Shipped gives the shipped tables, read once in a test's process.
var Shipped = sync.OnceValue(func() *source.Node {
	n, p := sourcejson.Read("shipped tables", stock.Shipped())
	if len(p) > 0 {
		panic(p)
	}
	return n
})

// Parse reads a job over the shipped tables; every mistake in it is told, and fails the test.
func Parse(t testing.TB, name string, src []byte) job.Checked {
	t.Helper()
	n, p := yaml.Read(name, src)
	if len(p) > 0 {
		t.Fatal(p)
	}
	c, p := job.Read(job.Sources{Shipped: Shipped(), Job: n}, builtin.Fittings())
	for _, x := range p {
		t.Error(x)
	}
	if len(p) > 0 {
		t.FailNow()
	}
	return c
}

// Tool gives the path of a program, and skips the test where it is not installed.
func Tool(t testing.TB, name string) string {
	t.Helper()
	p, err := exec.LookPath(name)
	if err != nil {
		t.Skipf("%s is not installed; ./test installs it", name)
	}
	return p
}

// Node runs a script of test-tools under Node.js and reads the JSON that it prints into v.
// It skips the test where Node.js or the script's libraries are not installed.
func Node(t testing.TB, v any, script string, args ...string) {
	t.Helper()
	node := Tool(t, "node")
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "test-tools", script)); err == nil {
			break
		}
		up := filepath.Dir(dir)
		if up == dir {
			t.Fatalf("test-tools/%s is not above this test", script)
		}
		dir = up
	}
	dir = filepath.Join(dir, "test-tools")
	if _, err := os.Stat(filepath.Join(dir, "node_modules")); err != nil {
		t.Skip("test-tools/node_modules is missing; ./test installs it")
	}
	cmd := exec.Command(node, append([]string{filepath.Join(dir, script)}, args...)...)
	var said strings.Builder
	cmd.Stderr = &said
	out, err := cmd.Output()
	if strings.Contains(said.String(), "ERR_MODULE_NOT_FOUND") {
		t.Skip("test-tools/node_modules lacks a library; ./test installs it")
	}
	if err != nil {
		t.Fatalf("%s: %v\n%s", script, err, said.String())
	}
	if err := json.Unmarshal(out, v); err != nil {
		t.Fatalf("%s: %v\n%.300s", script, err, out)
	}
}

// Keep writes a file for people to look at into the folder that the environment names in KEEP.
func Keep(t testing.TB, name string, b []byte) {
	t.Helper()
	dir := os.Getenv("KEEP")
	if dir == "" {
		return
	}
	path := filepath.Join(dir, filepath.FromSlash(name))
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, b, 0o644); err != nil {
		t.Fatal(err)
	}
}
