package job_test

import (
	"io/fs"
	"runtime/debug"
	"slices"
	"testing"

	"stowright/examples"
	"stowright/internal/job"
	"stowright/internal/source"
	"stowright/internal/source/yaml"
)

// Every key of every example misspelt, and every value of it of another kind: reading ends with words. The long form
// tries one in ten, the short one one in four hundred.
func TestEveryKeySpoilt(t *testing.T) {
	below := shipped(t)
	paths, err := fs.Glob(examples.FS, "*/job.yaml")
	if err != nil || len(paths) < 4 {
		t.Fatal(paths, err)
	}
	for _, p := range paths {
		data, err := fs.ReadFile(examples.FS, p)
		if err != nil {
			t.Fatal(err)
		}
		whole, _ := yaml.Read(p, data)
		n, every := 0, 11
		if testing.Short() {
			every = 401
		}
		for _, path := range keys(whole, nil) {
			for _, x := range spoilers {
				if n++; n%every != 0 {
					continue
				}
				func() {
					defer func() {
						if r := recover(); r != nil {
							t.Errorf("%s, %v, %s: %v\n%s", p, path, x.how, r, debug.Stack())
						}
					}()
					job.Read(job.Sources{Shipped: below, Job: spoilt(whole, path, x.spoil)}, kinds())
				}()
			}
		}
		if n < 100 {
			t.Errorf("%s: only %d were tried", p, n)
		}
	}
}

var spoilers = []struct {
	how   string
	spoil func(source.Entry) source.Entry
}{
	{"misspelt", func(e source.Entry) source.Entry { e.Key += e.Key[len(e.Key)-1:]; return e }},
	{"another", func(e source.Entry) source.Entry { e.Key = "zzz"; return e }},
	{"nothing", func(e source.Entry) source.Entry { return with(e, source.Node{Kind: source.Null}) }},
	{"a number", func(e source.Entry) source.Entry { return with(e, source.Node{Kind: source.Number, Text: "-7"}) }},
	{"a text", func(e source.Entry) source.Entry { return with(e, source.Node{Kind: source.Text, Text: "x"}) }},
	{"a list", func(e source.Entry) source.Entry { return with(e, source.Node{Kind: source.List}) }},
	{"a mapping", func(e source.Entry) source.Entry { return with(e, source.Node{Kind: source.Map}) }},
	{"twice itself", func(e source.Entry) source.Entry {
		return with(e, source.Node{Kind: source.List, Items: []*source.Node{e.Value, e.Value}})
	}},
}

func with(e source.Entry, n source.Node) source.Entry {
	n.Span = e.Value.Span
	e.Value = &n
	return e
}

// keys gives the way to every entry, as indices.
func keys(n *source.Node, at []int) (list [][]int) {
	for i, e := range n.Entries {
		here := append(slices.Clone(at), i)
		list = append(list, here)
		list = append(list, keys(e.Value, here)...)
	}
	for i, x := range n.Items {
		list = append(list, keys(x, append(slices.Clone(at), i))...)
	}
	return list
}

// spoilt gives the tree with one entry changed.
func spoilt(n *source.Node, path []int, spoil func(source.Entry) source.Entry) *source.Node {
	c := *n
	i := path[0]
	if c.Kind == source.List {
		c.Items = slices.Clone(c.Items)
		c.Items[i] = spoilt(c.Items[i], path[1:], spoil)
		return &c
	}
	c.Entries = slices.Clone(c.Entries)
	if len(path) == 1 {
		c.Entries[i] = spoil(c.Entries[i])
	} else {
		c.Entries[i].Value = spoilt(c.Entries[i].Value, path[1:], spoil)
	}
	return &c
}
