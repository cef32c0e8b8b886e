package json_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

	"stowright/internal/source"
	stow "stowright/internal/source/json"
)

func TestRead(t *testing.T) {
	n, ps := stow.Read("job.json", []byte(`{"a": [1.50, "x\"y", null],
  "b": {"c": true, "d": {}}}`))
	if len(ps) > 0 {
		t.Fatal(ps)
	}
	for _, c := range []struct {
		path string
		kind source.Kind
		text string
		span string
		line int
		col  int
	}{
		{"a[1]", source.Number, "1.50", "1.50", 1, 8},
		{"a[2]", source.Text, `x"y`, `"x\"y"`, 1, 14},
		{"a[3]", source.Null, "", "null", 1, 22},
		{"a", source.List, "", `[1.50, "x\"y", null]`, 1, 7},
		{"b/c", source.Bool, "true", "true", 2, 14},
		{"b/d", source.Map, "", "{}", 2, 25},
	} {
		v := n.Find(source.ParsePath(c.path))
		if v == nil || v.Kind != c.kind || v.Text != c.text || v.Span.Text() != c.span || v.Span.Line() != c.line || v.Span.Column() != c.col {
			t.Errorf("%s: %+v %q", c.path, v, v.Span.Text())
		}
	}
}

func TestMistakes(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"", "ends too early"},
		{`{"a": 1`, "ends too early"},
		{`{"a": 1, "a": 2}`, `1:10: "a" is written twice`},
		{`{"a": 1} x`, "1:10: "},
		{`{"a": 1} {}`, "1:10: there is more after the end"},
		{`[1,]`, "1:4: "},
		{`{"a" 1}`, "1:6: "},
		{`{a: 1}`, "1:2: "},
		{`[NaN]`, "1:2: "},
		{strings.Repeat("[", 5000), "nested more than 100 deep"},
		{"[" + strings.Repeat("1,", 300_000) + "1]", "more than 200000 values"},
		{"\"\xff\"", "not UTF-8"},
	} {
		_, ps := stow.Read("f", []byte(c.in))
		if len(c.in) > 60 {
			c.in = c.in[:60]
		}
		if len(ps) == 0 || !strings.Contains(ps[0].String(), c.want) {
			t.Errorf("%q: got %v, want %q", c.in, ps, c.want)
		}
	}
}

// The standard library is the judge of what is JSON, and of what its texts say.
func FuzzRead(f *testing.F) {
	for _, s := range []string{`{"a":[1,2,{"b":null}]}`, `[1,]`, `{"a":1,"a":2}`, `1e309`, `"\ud800"`, "[[", `{"a" "b"}`, `[1 2]`, `{:}`, `[,1]`,
		`"\"\\\/\b\f\n\r\t\u00e9\uD83D\uDE00\ud83dx\ud83d\u0041\udc00"`, `[-0, 0.5e+3, -1E-2, 10]`, `[01]`, `[1.]`, `[.5]`, `[+1]`, `[1e]`, `[-]`, `["\u12g4"]`, "[\"\x01\"]", `["\x"]`, ` [ true , false , null ] `, `[tru]`, `truefalse`} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		n, ps := stow.Read("f", data)
		if n == nil && len(ps) == 0 {
			t.Fatal("nothing read and nothing said")
		}
		bare := []byte(strings.TrimPrefix(string(data), "\ufeff"))
		if len(ps) == 0 {
			dec := json.NewDecoder(bytes.NewReader(bare))
			dec.UseNumber()
			var want any
			if err := dec.Decode(&want); err != nil || !json.Valid(bare) {
				t.Fatalf("%q is not JSON: %v", data, err)
			}
			if !same(n, want) {
				t.Fatalf("%q is read as %+v, the library's %v", data, n, want)
			}
			return
		}
		said := ps[0].String()
		if json.Valid(bare) && !strings.Contains(said, "written twice") && !strings.Contains(said, "more than") && !strings.Contains(said, "UTF-8") && !strings.Contains(said, "at most") {
			t.Fatalf("%q is JSON: %s", data, said)
		}
	})
}

// same compares a tree with what the standard library makes of the same text.
func same(n *source.Node, v any) bool {
	switch v := v.(type) {
	case nil:
		return n.Kind == source.Null
	case bool:
		return n.Kind == source.Bool && n.Text == fmt.Sprint(v)
	case json.Number:
		return n.Kind == source.Number && n.Text == v.String()
	case string:
		return n.Kind == source.Text && n.Text == v
	case []any:
		return n.Kind == source.List && len(n.Items) == len(v) && !slices.ContainsFunc(n.Items, func(x *source.Node) bool { return !same(x, v[slices.Index(n.Items, x)]) })
	case map[string]any:
		if n.Kind != source.Map || len(n.Entries) != len(v) {
			return false
		}
		for _, e := range n.Entries {
			if x, ok := v[e.Key]; !ok || !same(e.Value, x) {
				return false
			}
		}
		return true
	}
	return false
}
