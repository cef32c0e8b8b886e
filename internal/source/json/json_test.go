package json_test

import (
	"encoding/json"
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

// The library itself is the judge of what is JSON.
func FuzzRead(f *testing.F) {
	for _, s := range []string{`{"a":[1,2,{"b":null}]}`, `[1,]`, `{"a":1,"a":2}`, `1e309`, `"\ud800"`, "[[", `{"a" "b"}`, `[1 2]`, `{:}`, `[,1]`} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		n, ps := stow.Read("f", data)
		if n == nil && len(ps) == 0 {
			t.Fatal("nothing read and nothing said")
		}
		if len(ps) == 0 && !json.Valid([]byte(strings.TrimPrefix(string(data), "\ufeff"))) {
			t.Fatalf("%q is not JSON", data)
		}
	})
}
