package yaml_test

import (
	"fmt"
	"strings"
	"testing"

	lib "go.yaml.in/yaml/v4"

	"stowright/internal/source"
	"stowright/internal/source/yaml"
)

const sample = `# the wall
wall:
  length: 13 ft 4 in     # along
  height: 30-1/4"
  studs: [7-1/2, 23.5, "39 1/2 in",
    'it''s', {a: 1, b: , c}, ]
notes: |
  first
   second

  third
# between
folded: >-
  one
  two
plain: several
   words on
   lines # comment
empty:
list:
- &q !!str 12
-
- *q
- - x
  - y
größe: "日本\" x"   # after
flags: [true, No, ~]
`

func read(t *testing.T, text string) *source.Node {
	t.Helper()
	n, ps := yaml.Read("job.yaml", []byte(text))
	if len(ps) > 0 || n == nil {
		t.Fatalf("%q: %v", text, ps)
	}
	return n
}

func TestReadSpans(t *testing.T) {
	root := read(t, sample)
	for _, c := range []struct {
		path string
		kind source.Kind
		text string // the value
		span string // the bytes of it in the file
		line int
		col  int
	}{
		{"wall/length", source.Text, "13 ft 4 in", "13 ft 4 in", 3, 11},
		{"wall/height", source.Text, `30-1/4"`, `30-1/4"`, 4, 11},
		{"wall/studs[1]", source.Text, "7-1/2", "7-1/2", 5, 11},
		{"wall/studs[2]", source.Number, "23.5", "23.5", 5, 18},
		{"wall/studs[3]", source.Text, "39 1/2 in", `"39 1/2 in"`, 5, 24},
		{"wall/studs[4]", source.Text, "it's", "'it''s'", 6, 5},
		{"wall/studs[5]", source.Map, "", "{a: 1, b: , c}", 6, 14},
		{"wall/studs[5]/c", source.Null, "", "", 6, 27},
		{"wall/studs", source.List, "", "[7-1/2, 23.5, \"39 1/2 in\",\n    'it''s', {a: 1, b: , c}, ]", 5, 10},
		{"notes", source.Text, "first\n second\n\nthird\n", "|\n  first\n   second\n\n  third", 7, 8},
		{"folded", source.Text, "one two", ">-\n  one\n  two", 13, 9},
		{"plain", source.Text, "several words on lines", "several\n   words on\n   lines", 16, 8},
		{"empty", source.Null, "", "", 19, 7},
		{"list[1]", source.Text, "12", "12", 21, 12},
		{"list[2]", source.Null, "", "", 22, 2},
		{"list[3]", source.Text, "12", "12", 21, 12}, // an alias is its anchor
		{"list[4]", source.List, "", "- x\n  - y", 24, 3},
		{"größe", source.Text, "日本\" x", `"日本\" x"`, 26, 8},
		{"flags[1]", source.Bool, "true", "true", 27, 9},
		{"flags[2]", source.Text, "No", "No", 27, 15},
		{"flags[3]", source.Null, "", "~", 27, 19},
	} {
		n := root.Find(source.ParsePath(c.path))
		if n == nil {
			t.Errorf("%s: not found", c.path)
			continue
		}
		if n.Kind != c.kind || n.Text != c.text || n.Span.Text() != c.span || n.Span.Line() != c.line || n.Span.Column() != c.col {
			t.Errorf("%s: %v %q %q at %d:%d, want %v %q %q at %d:%d", c.path, n.Kind, n.Text, n.Span.Text(), n.Span.Line(), n.Span.Column(), c.kind, c.text, c.span, c.line, c.col)
		}
	}
}

// The bytes of every value, read alone by the library itself, give that value.
func TestSpansReadAlone(t *testing.T) {
	var walk func(n *source.Node)
	walk = func(n *source.Node) {
		if n.Kind == source.Text && !strings.HasPrefix(n.Span.Text(), "|") && !strings.HasPrefix(n.Span.Text(), ">") {
			var s string
			if err := lib.Load([]byte(n.Span.Text()), &s); err != nil || s != n.Text {
				t.Errorf("%q alone reads as %q, %v; want %q", n.Span.Text(), s, err, n.Text)
			}
		}
		for _, v := range n.Items {
			walk(v)
		}
		for _, e := range n.Entries {
			if e.KeySpan.Text() != e.Key {
				t.Errorf("key %q has the bytes %q", e.Key, e.KeySpan.Text())
			}
			walk(e.Value)
		}
	}
	walk(read(t, sample))
}

func TestMistakes(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"a: 1\nb: 2\na: 3\n", `job.yaml:3:1: "a" is written twice`},
		{"a b: 1\na_b: 2\n", `job.yaml:2:1: "a_b" is written twice`},
		{"a:\n\tb: 1\n", "job.yaml:2:1: a tab cannot indent a line; use spaces"},
		{"a: [1, 2\nb: 3\n", "job.yaml:1:4: the list that is opened here is not closed"},
		{"a: {x: 2\nb: 3\n", "job.yaml:1:4: the mapping that is opened here is not closed"},
		{"x: 1\na: \"30\nb: 3\n", "job.yaml:2:4: the quotes that are opened here are not closed"},
		{"a: b: c\n", `job.yaml:1:5: a ":" is not expected here`},
		{"a: 1\n b: 2\n", `job.yaml:2:3: a ":" is not expected here`},
		{"a: \"30\" in\n", "job.yaml:1:9: this does not fit the lines above"},
		{"a: 1\nb:x\n", "job.yaml:2:1: a key is expected here"},
		{"a: @x\n", `job.yaml:1:4: a value cannot start with "@"`},
		{"a: *n\n", "job.yaml:1:4: unknown anchor"},
		{"a: &x [1, *x]\n", "job.yaml:1:11: *x refers to a value that it is part of"},
		{"? [a, b]\n: c\n", "job.yaml:1:3: a key must be one word"},
		{"<<: {a: 1}\n", `job.yaml:1:1: "<<" is not used`},
		{"a: !foo x\n", `job.yaml:1:9: the tag "!foo" is not used`},
		{"a: 1\n---\nb: 2\n", "job.yaml:2:1: a job file is one document"},
		{"a: \x01\n", "job.yaml:1:4: a control character (U+0001)"},
		{"a: \xff\n", "job.yaml:1:4: this is not UTF-8"},
		{strings.Repeat("[", 5000), "nested more than 100 deep"},
		{strings.Repeat("a: {", 101), "nested more than 100 deep"},
		{strings.Repeat("- ", 5000), "nested more than 100 deep"},
		{"a: [" + strings.Repeat("1,", 200_000) + "]", "more than 200000 values"},
		{"a: [" + strings.Repeat("1,", 900_000) + "]", "more than 200000 values"},
		{strings.Repeat("#", 5<<20), "more than 4194304 bytes"},
		{bomb() + "b: 1\nc: [*a0]\n", "more than 200000 values with its aliases"},
		{deepAliases(), "nested more than 100 deep"},
		{"cases:\n  a: {b: 1\n  c: [1, 2\n  d:\n    - {e: 1\n    - 'f\n  g: 3\n", "job.yaml:2:6:|job.yaml:3:6:|job.yaml:5:7:|job.yaml:6:7:"}, // at every depth
		{"a: [1\nb: 2\nc: {d: 1\ne: 'x\n", "job.yaml:1:4:|job.yaml:3:4:|job.yaml:4:4:"},                                                      // all three at once
	} {
		_, ps := yaml.Read("job.yaml", []byte(c.in))
		if len(c.in) > 60 {
			c.in = c.in[:60] + "..."
		}
		var all strings.Builder
		for _, p := range ps {
			fmt.Fprintln(&all, p)
		}
		if n := len(strings.Split(c.want, "|")); strings.Contains(c.want, "more than") && len(ps) != n { // beyond a bound nothing else is said
			t.Errorf("%q: %d problems, want %d: %s", c.in, len(ps), n, all.String())
		}
		for _, want := range strings.Split(c.want, "|") {
			if !strings.Contains(all.String(), want) {
				t.Errorf("%q: got %q, want %q", c.in, all.String(), want)
			}
		}
	}
}

// bomb is nine levels of nine aliases each: 9^9 values.
func bomb() string {
	var b strings.Builder
	b.WriteString("a0: &a0 [x,x,x,x,x,x,x,x,x]\n")
	for i := 1; i < 9; i++ {
		fmt.Fprintf(&b, "a%d: &a%d [%s]\n", i, i, strings.Repeat(fmt.Sprintf("*a%d,", i-1), 9))
	}
	return b.String()
}

func deepAliases() string {
	var b strings.Builder
	b.WriteString("a0: &a0 [x]\n")
	for i := 1; i < 120; i++ {
		fmt.Fprintf(&b, "a%d: &a%d [*a%d]\n", i, i, i-1)
	}
	return b.String()
}

func TestEmpty(t *testing.T) {
	for _, in := range []string{"", "# only a comment\n", "---\n", "~"} {
		if n := read(t, in); n.Kind != source.Null {
			t.Errorf("%q: %v", in, n.Kind)
		}
	}
}

func TestManyCasesAreRead(t *testing.T) {
	var b strings.Builder
	b.WriteString("cases:\n")
	for i := range 10_000 {
		fmt.Fprintf(&b, "  c%d: {width: 30 in, shelves: 2, doors: pair}\n", i)
	}
	if n := read(t, b.String()); len(n.Get("cases").Entries) != 10_000 {
		t.Error("not all cases were read")
	}
}

func FuzzRead(f *testing.F) {
	for _, s := range []string{sample, bomb(), deepAliases(), "a: [1, 2\nb: 3\n", "a:\n\tb: 1\n", "? [a]\n: b\n", "\ufeffa: 1\r\nb: 2", "a: &x [*x]", "!!str", "& a", "a: |\n", "--- >\n x\n...\n", "'a", "\u2028a: b"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		n, ps := yaml.Read("f", data)
		if n == nil && len(ps) == 0 {
			t.Fatal("nothing read and nothing said")
		}
		var out strings.Builder
		if err := ps.Print(&out, 20); err != nil {
			t.Fatal(err)
		}
		left := 2 * source.MaxNodes
		var walk func(n *source.Node, depth int)
		walk = func(n *source.Node, depth int) {
			if left--; left < 0 || depth > source.MaxDepth+1 {
				t.Fatal("the tree is out of bounds")
			}
			if s := n.Span; s.Start < 0 || s.Start > s.End || s.End > len(s.File.Data) {
				t.Fatalf("span %d-%d of %d bytes", s.Start, s.End, len(s.File.Data))
			}
			for _, v := range n.Items {
				walk(v, depth+1)
			}
			for _, e := range n.Entries {
				walk(e.Value, depth+1)
			}
		}
		if n != nil {
			walk(n, 1)
		}
	})
}
