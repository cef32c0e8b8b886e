package job_test

import (
	"bytes"
	"encoding/json"
	"io/fs"
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"stowright/examples"
	"stowright/internal/job"
	"stowright/internal/schema"
	"stowright/internal/schema/schematest"
	"stowright/internal/source/yaml"
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

// Editors read patterns in one dialect or another (ECMA-262, Python, Go): those of the schema use only what all of them
// have, which has no classes of letters by property and no escapes but these.
func TestSchemaPatternsAreOfEveryDialect(t *testing.T) {
	seen := map[string]bool{}
	var walk func(v any)
	walk = func(v any) {
		switch v := v.(type) {
		case map[string]any:
			if p, ok := v["pattern"].(string); ok {
				seen[p] = true
			}
			for _, e := range v {
				walk(e)
			}
		case []any:
			for _, e := range v {
				walk(e)
			}
		}
	}
	var doc any
	if err := json.Unmarshal(schema.JSON(job.File{}, "job", job.Options(kinds())), &doc); err != nil {
		t.Fatal(err)
	}
	walk(doc)
	if len(seen) < 4 {
		t.Fatal("few patterns: ", seen)
	}
	for p := range seen {
		if _, err := regexp.Compile(p); err != nil {
			t.Error(err)
		}
		if odd := regexp.MustCompile(`\\[^\-s.\[]|\(\?`).FindString(p); odd != "" {
			t.Errorf("%s: %s is not read alike everywhere", p, odd)
		}
	}
}

// What an editor with the schema at hand says of the examples: nothing. They change shipped hardware and tools, so an entry
// over a shipped one needs no more than what differs. The validator is an independent one (santhosh-tekuri/jsonschema).
func TestExamplesAreOfTheSchema(t *testing.T) {
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(schema.JSON(job.File{}, "job", job.Options(kinds()))))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("job.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("job.json")
	if err != nil {
		t.Fatal(err)
	}
	try := func(name, text string) error {
		n, mistakes := yaml.Read(name, []byte(text))
		if len(mistakes) > 0 {
			t.Fatal(mistakes[0].String())
		}
		return s.Validate(schematest.Plain(n))
	}
	paths, err := fs.Glob(examples.FS, "*/job.yaml")
	if err != nil || len(paths) < 5 {
		t.Fatal(paths, err)
	}
	for _, p := range paths {
		text, err := examples.FS.ReadFile(p)
		if err != nil {
			t.Fatal(err)
		}
		if err := try(p, string(text)); err != nil {
			t.Error(err)
		}
	}
	if err := try("over", "stowright: 1\npractice: {from: inch-shop, tools: {table saw: {kerf: 3 mm}}}\nhardware: {pin-5: {price: 4}}\n"); err != nil {
		t.Error(err)
	}
	if err := try("spoilt", "stowright: 1\nhardware: {pin-5: {cost: 4}}\n"); err == nil {
		t.Error("a key that is not known is taken")
	}
}

// New hardware and new tools say what they are.
func TestNewThingsSayTheirKind(t *testing.T) {
	_, mistakes := read(t, "job.yaml", "stowright: 1\nunit: in\npractice: {from: inch-shop, tools: {big saw: {kerf: 1/8}}}\nhardware: {my pin: {price: 4}, pin-5: {price: 3}}\ncases: {a: {width: 30, height: 34, depth: 18}}\n")
	for _, want := range []string{`my pin: "kind" is missing`, `big saw: "kind" is missing`} {
		if !strings.Contains(said(mistakes), want) {
			t.Error(want, said(mistakes))
		}
	}
	if len(mistakes) != 2 {
		t.Error(said(mistakes))
	}
}
