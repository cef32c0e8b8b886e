package source_test

import (
	"strings"
	"testing"

	"stowright/internal/source"
	"stowright/internal/source/json"
	"stowright/internal/source/yaml"
)

func read(t *testing.T, name, text string) *source.Node {
	t.Helper()
	n, ps := yaml.Read(name, []byte(text))
	if len(ps) > 0 {
		t.Fatal(ps)
	}
	return n
}

// show writes a tree on one line.
func show(n *source.Node) string {
	switch n.Kind {
	case source.List:
		var s []string
		for _, v := range n.Items {
			s = append(s, show(v))
		}
		return "[" + strings.Join(s, " ") + "]"
	case source.Map:
		var s []string
		for _, e := range n.Entries {
			s = append(s, e.Key+":"+show(e.Value))
		}
		return "{" + strings.Join(s, " ") + "}"
	case source.Null:
		return "~"
	}
	return n.Text
}

func TestMerge(t *testing.T) {
	for _, c := range []struct{ base, over, want string }{
		{"{a: 1, b: 2}", "{b: 3, c: 4}", "{a:1 b:3 c:4}"},
		{"{a: {x: 1, y: 2}}", "{a: {y: 3}}", "{a:{x:1 y:3}}"},
		{"{a: [1, 2]}", "{a: [3]}", "{a:[3]}"},
		{"{a: 1, b: 2}", "{a: ~}", "{b:2}"},
		{"{a: {x: 1}}", "{a: ~, b: ~}", "{}"},
		{"{a: {x: 1}}", "{a: 5}", "{a:5}"},
		{"{shelf depth: 1}", "{shelf-depth: 2}", "{shelf-depth:2}"},
	} {
		base, over := read(t, "base", c.base), read(t, "over", c.over)
		if got := show(source.Merge(base, over)); got != c.want {
			t.Errorf("%s under %s: %s, want %s", c.base, c.over, got, c.want)
		}
		if show(base) != show(read(t, "base", c.base)) || show(over) != show(read(t, "over", c.over)) {
			t.Errorf("%s under %s: an input was changed", c.base, c.over)
		}
	}
	m := source.Merge(read(t, "base", "{a: {x: 1, y: 2}}"), read(t, "over", "{a: {y: 3}}"))
	if f := m.Find(source.ParsePath("a/x")).Span.File.Name; f != "base" {
		t.Errorf("x is said to be in %s", f)
	}
	if f := m.Find(source.ParsePath("a/y")).Span.File.Name; f != "over" {
		t.Errorf("y is said to be in %s", f)
	}
}

func TestPath(t *testing.T) {
	p := source.Path{}.Key("walls").Key("back").Key("studs").At(0).At(2)
	if p.String() != "walls/back/studs[1][3]" {
		t.Error(p.String())
	}
	if q := source.ParsePath(p.String()); q.String() != p.String() || len(q) != 5 || q[4].Index != 2 {
		t.Errorf("%v", q)
	}
}

const before = `# shop
wall:            # the back wall
  length: 120 in   # measured twice
  studs: [1, 2, 3] # centres
cases:
  # the first
  - name: a
    width: 30
  - name: b   # second
last: x`

func TestEdit(t *testing.T) {
	for _, c := range []struct {
		what     string
		edit     func(*source.Node) (source.Edit, error)
		old, new string // the only difference
	}{
		{"replace", func(n *source.Node) (source.Edit, error) {
			return source.Replace(n, source.ParsePath("wall/length"), "130 in")
		}, "120 in", "130 in"},
		{"replace in flow", func(n *source.Node) (source.Edit, error) {
			return source.Replace(n, source.ParsePath("wall/studs[2]"), "2.5")
		}, "[1, 2, 3]", "[1, 2.5, 3]"},
		{"insert key", func(n *source.Node) (source.Edit, error) {
			return source.Insert(n, source.ParsePath("wall"), "height", "96")
		}, "# centres\n", "# centres\n  height: 96\n"},
		{"insert item", func(n *source.Node) (source.Edit, error) {
			return source.Insert(n, source.ParsePath("cases"), "", "name: c")
		}, "# second\n", "# second\n  - name: c\n"},
		{"insert in flow", func(n *source.Node) (source.Edit, error) {
			return source.Insert(n, source.ParsePath("wall/studs"), "", "4")
		}, "3]", "3, 4]"},
		{"insert at the end", func(n *source.Node) (source.Edit, error) {
			return source.Insert(n, nil, "more", "y")
		}, "last: x", "last: x\nmore: y"},
		{"delete key", func(n *source.Node) (source.Edit, error) {
			return source.Delete(n, source.ParsePath("wall/length"))
		}, "  length: 120 in   # measured twice\n", ""},
		{"delete in flow", func(n *source.Node) (source.Edit, error) {
			return source.Delete(n, source.ParsePath("wall/studs[1]"))
		}, "[1, 2, 3]", "[2, 3]"},
		{"delete last in flow", func(n *source.Node) (source.Edit, error) {
			return source.Delete(n, source.ParsePath("wall/studs[3]"))
		}, "[1, 2, 3]", "[1, 2]"},
		{"delete beside the dash", func(n *source.Node) (source.Edit, error) {
			return source.Delete(n, source.ParsePath("cases[1]/name"))
		}, "name: a\n    width", "width"},
		{"delete item", func(n *source.Node) (source.Edit, error) {
			return source.Delete(n, source.ParsePath("cases[2]"))
		}, "  - name: b   # second\n", ""},
		{"delete the only key", func(n *source.Node) (source.Edit, error) {
			return source.Delete(n, source.ParsePath("cases[2]/name"))
		}, "- name: b", "- {}"},
	} {
		n := read(t, "job.yaml", before)
		e, err := c.edit(n)
		if err != nil {
			t.Errorf("%s: %v", c.what, err)
			continue
		}
		got, err := source.Apply(n.Span.File, e)
		want := strings.Replace(before, c.old, c.new, 1)
		if err != nil || string(got) != want || want == before {
			t.Errorf("%s: %v\n%s\nwant\n%s", c.what, err, got, want)
		}
		if _, ps := yaml.Read("again", got); len(ps) > 0 {
			t.Errorf("%s: does not read again: %v", c.what, ps)
		}
	}
	j, _ := json.Read("job.json", []byte(`{"a": {"b": 1}, "c": []}`))
	e, err := source.Insert(j, source.ParsePath("a"), "d", "[2]")
	if err != nil {
		t.Fatal(err)
	}
	e2, _ := source.Insert(j, source.ParsePath("c"), "", "5")
	if got, err := source.Apply(j.Span.File, e2, e); err != nil || string(got) != `{"a": {"b": 1, "d": [2]}, "c": [5]}` {
		t.Errorf("%s %v", got, err)
	}
	if _, err := source.Insert(j, nil, "a", "1"); err == nil {
		t.Error("a key that is there can be inserted")
	}
}

func TestExcerpt(t *testing.T) {
	f := source.NewFile("job.yaml", []byte("a: 1\n\tdrawrs: 3 # é\n"+strings.Repeat("x", 300)+"\n"))
	long := 20 + 5
	for _, c := range []struct {
		p    source.Problem
		want string
	}{
		{source.Problem{Span: source.Span{File: f, Start: 6, End: 12}, Text: "unknown", Hint: `did you mean "drawers"?`},
			"job.yaml:2:2: unknown\n    2 |     drawrs: 3 # é\n      |     ^^^^^^\n      = did you mean \"drawers\"?\n"},
		{source.Problem{Span: source.Span{File: f, Start: 0, End: 9}, Text: "over lines"},
			"job.yaml:1:1: over lines\n    1 | a: 1\n      | ^^^^\n"},
		{source.Problem{Span: source.Span{File: f, Start: 4, End: 4}, Text: "end", Also: []source.Also{{source.Span{File: f, Start: 0, End: 1}, "here"}}},
			"job.yaml:1:5: end\n    1 | a: 1\n      |     ^\n  job.yaml:1:1: here\n    1 | a: 1\n      | ^\n"},
		{source.Problem{Text: "nowhere"}, "nowhere\n"},
		{source.Problem{Span: source.Span{File: f, Start: long + 150, End: long + 152}, Text: "far"},
			"job.yaml:3:155: far\n    3 | …" + strings.Repeat("x", 90) + "…\n      | " + strings.Repeat(" ", 30) + "^^\n"},
	} {
		if got := c.p.Excerpt(); got != c.want {
			t.Errorf("got\n%s\nwant\n%s", got, c.want)
		}
	}
	var b strings.Builder
	ps := source.Problems{{Text: "b"}, {Text: "a"}, {Text: "a"}, {Text: "c"}}
	ps.Sort()
	if err := ps.Print(&b, 2); err != nil || b.String() != "a\nb\nand 1 more\n" {
		t.Errorf("%q", b.String())
	}
}

func TestNearest(t *testing.T) {
	words := []string{"drawer", "drawers", "door", "doors", "shelf", "shelves", "width", "depth", "fixed-shelf", "weighs"}
	for _, c := range []struct{ in, want string }{
		{"drawrs", "drawers"}, {"drwaer", "drawer"}, {"wdith", "width"}, {"Fixed shelf", "fixed-shelf"},
		{"fixed_shlef", "fixed-shelf"}, {"height", ""}, {"weihgt", "weighs"}, {"zebra", ""}, {"x", ""}, {"dor", "door"}, {"widthofcase", "width"},
	} {
		if got := source.Nearest(c.in, words); got != c.want {
			t.Errorf("%q: %q, want %q", c.in, got, c.want)
		}
	}
}

func TestIsNumber(t *testing.T) {
	for _, s := range []string{"0", "-1", "+2.5", ".5", "5.", "1e309", "0123"} {
		if !source.IsNumber(s) {
			t.Errorf("%q is a number", s)
		}
	}
	for _, s := range []string{"", "-", ".", "e5", "1e", "0x10", "1_000", ".nan", ".inf", "1/2", "1 2", "2'"} {
		if source.IsNumber(s) {
			t.Errorf("%q is no number", s)
		}
	}
}
