package main_test

import (
	"bytes"
	"compress/gzip"
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	stdjson "encoding/json"

	"stowright/examples"
	"stowright/internal/builtin"
	"stowright/internal/job"
	"stowright/internal/output"
	"stowright/internal/plan"
	"stowright/internal/source"
	"stowright/internal/source/json"
	"stowright/internal/source/yaml"
	"stowright/internal/stock"
)

// asJSON writes a tree as JSON, in its own order.
func asJSON(b *strings.Builder, n *source.Node) {
	switch n.Kind {
	case source.Map:
		b.WriteByte('{')
		for i, e := range n.Entries {
			if i > 0 {
				b.WriteByte(',')
			}
			b.WriteString(strconv.Quote(e.Key) + ":")
			asJSON(b, e.Value)
		}
		b.WriteByte('}')
	case source.List:
		b.WriteByte('[')
		for i, v := range n.Items {
			if i > 0 {
				b.WriteByte(',')
			}
			asJSON(b, v)
		}
		b.WriteByte(']')
	case source.Null:
		b.WriteString("null")
	case source.Bool:
		if t := strings.ToLower(n.Text); t == "true" || t == "yes" || t == "on" {
			b.WriteString("true")
		} else {
			b.WriteString("false")
		}
	default:
		if n.Kind == source.Number && stdjson.Valid([]byte(n.Text)) {
			b.WriteString(n.Text)
			return
		}
		s, _ := stdjson.Marshal(n.Text)
		b.Write(s)
	}
}

// One example gives the same bytes from YAML natively and from JSON in WebAssembly, and the
// core without YAML stays small enough for a page.
func TestWebAssemblyGivesTheSameBytes(t *testing.T) {
	if testing.Short() {
		t.Skip("builds for another platform; run without -short")
	}
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("node is not installed; ./test installs it")
	}
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		t.Fatal(err)
	}
	runner := filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "wasm_exec_node.js")
	wasm := filepath.Join(t.TempDir(), "core.wasm")
	build := exec.Command("go", "build", "-trimpath", "-gcflags=all=-l", "-ldflags", "-s -w", "-o", wasm, ".")
	build.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	if out, err := build.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	const name = "ostler-row"
	text, err := examples.FS.ReadFile(name + "/job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	tree, problems := yaml.Read(name, text)
	shipped, p := json.Read("shipped tables", stock.Shipped())
	problems.Add(p...)
	c, p := job.Read(job.Sources{Shipped: shipped, Job: tree}, builtin.Fittings())
	problems.Add(p...)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	want := output.Plan(plan.Make(context.Background(), c, plan.Want{}))

	var in strings.Builder
	asJSON(&in, tree)
	run := exec.Command(node, "--stack-size=8192", runner, wasm)
	run.Stdin = strings.NewReader(in.String())
	var stderr bytes.Buffer
	run.Stderr = &stderr
	got, err := run.Output()
	if err != nil {
		t.Fatalf("%v\n%s", err, stderr.String())
	}
	if !bytes.Equal(got, want) {
		t.Errorf("WebAssembly gives %d bytes that differ from the native %d", len(got), len(want))
	}

	b, err := os.ReadFile(wasm)
	if err != nil {
		t.Fatal(err)
	}
	var packed bytes.Buffer
	z, _ := gzip.NewWriterLevel(&packed, gzip.BestCompression)
	if _, err := z.Write(b); err != nil {
		t.Fatal(err)
	}
	z.Close()
	t.Logf("the core is %d bytes, %d packed", len(b), packed.Len())
	if packed.Len() > 3_300_000 { // docs/decisions/0007: 1.5 MB was wanted and is not reached
		t.Errorf("the core is %d bytes packed, over 3.3 MB", packed.Len())
	}
}
