package job

import (
	"fmt"
	"slices"

	"stowright/internal/fitting"
	"stowright/internal/length"
	"stowright/internal/schema"
	"stowright/internal/source"
)

// merged is a case with its family and patterns below it.
type merged struct {
	id    string
	at    schema.Place
	tree  *source.Node
	value Case
}

func entries(n *source.Node) []source.Entry {
	if n == nil {
		return nil
	}
	return n.Entries
}

// merge puts every case over its patterns and its family, as trees, so that an override is
// exact and a mistake points at the line that makes it, and reads it. Patterns of the job that no
// case uses are read too, for their mistakes.
func (r *reader) merge() {
	cases := r.tree.Get("cases")
	if cases != nil && cases.Kind != source.Map {
		r.fail(cases.Span, "cases is a mapping of names, each a case", "write the case's name, a colon, and its keys below")
		return
	}
	used := map[string]bool{}
	for _, e := range entries(cases) {
		m := merged{id: e.Key, at: schema.Place{Path: source.Path{{Key: "cases"}, {Key: e.Key}}, Span: e.KeySpan}}
		n := e.Value
		if n.Kind == source.Null {
			n = &source.Node{Kind: source.Map, Span: e.KeySpan}
		}
		if n.Kind == source.Map {
			var family string
			m.tree, family = r.over(n, "pattern", used)
			r.read(&m, family)
		} else {
			m.tree = n
			r.problems.Add(schema.DecodeAt(n, m.at.Path, &m.value, r.options)...)
		}
		r.cases = append(r.cases, m)
	}
	for _, e := range entries(r.own.Get("patterns")) {
		if used[e.Key] || e.Value.Kind != source.Map {
			if e.Value.Kind != source.Map {
				r.fail(e.Value.Span, fmt.Sprintf("the pattern %s is a mapping", short(e.Key)), "write its keys under it: width: 30 in")
			}
			continue
		}
		var p Pattern
		tree, family := r.over(e.Value, "from", used)
		o := r.options
		o.Sizes = r.scope(tree, family)
		r.problems.Add(schema.DecodeAt(tree, source.Path{{Key: "patterns"}, {Key: e.Key}}, &p, o)...)
	}
	for _, e := range entries(r.own.Get("patterns")) { // what merging does not show
		if e.Value.Kind == source.Map {
			r.names.walk(r, typeFor[Pattern](), e.Value)
		}
	}
}

// over puts a case or pattern over the pattern that its key names, that over its own, and the
// lowest over the family. It gives the family's name.
func (r *reader) over(n *source.Node, key string, used map[string]bool) (tree *source.Node, family string) {
	chain := []*source.Node{without(n, "from")}
	all := r.tree.Get("patterns")
	name := n.Get(key)
	seen := map[string]bool{}
	for name != nil && text(name) != "" {
		base := all.Get(text(name))
		if base == nil || base.Kind != source.Map {
			break // refer says that it is not known
		}
		if seen[text(name)] {
			r.fail(name.Span, fmt.Sprintf("the pattern %q derives from itself", short(text(name))), "derive it from another one, or write it out")
			break
		}
		seen[text(name)] = true
		used[text(name)] = true
		chain = append(chain, without(base, "from", "about"))
		name = base.Get("from")
	}
	for i := len(chain) - 1; i >= 0; i-- {
		tree = r.mergeCase(tree, chain[i])
	}
	family = text(tree.Get("family"))
	f := r.tree.Get("families").Get(family)
	if f == nil || f.Kind != source.Map {
		return tree, ""
	}
	return r.mergeCase(shared(f, text(tree.Get("level")) == "wall", tree), tree), family
}

// shared gives what a family says as the tree of a case at one level.
func shared(f *source.Node, onWall bool, of *source.Node) *source.Node {
	c := &source.Node{Kind: source.Map, Span: f.Span}
	put := func(key, from string) {
		for _, e := range f.Entries {
			if source.Normal(e.Key) == from {
				c.Entries = append(c.Entries, source.Entry{Key: key, KeySpan: e.KeySpan, Value: e.Value})
			}
		}
	}
	if onWall {
		put("depth", "wall-depth")
		put("height", "wall-height")
		put("hangs-by", "hangs-by")
		return c
	}
	put("depth", "depth")
	if of.Get("free") == nil || text(of.Get("free")) == "no" { // what rolls under a counter is not of the top line
		put("height", "top-line")
		put("stands-on", "stands-on")
	}
	return c
}

// mergeCase is source.Merge with a case's own rules: width and steps take each other's place,
// and what fills a bay takes the place of whatever filled it.
func (r *reader) mergeCase(base, over *source.Node) *source.Node {
	if base == nil {
		return over
	}
	if over.Get("width") != nil || over.Get("in-gap") != nil {
		base = without(base, "steps", "width")
	} else if over.Get("steps") != nil {
		base = without(base, "width")
	}
	if b, o := base.Get("stands-on"), over.Get("stands-on"); b != nil && o != nil && o.Get("kind") != nil && text(o.Get("kind")) != text(b.Get("kind")) {
		base = without(base, "stands-on") // the height of feet is not that of a toe recess
	}
	if b, o := base.Get("inside"), over.Get("inside"); b != nil && o != nil && b.Kind == source.Map && o.Kind == source.Map {
		base = replace(base, "inside", r.emptied(b, o))
	}
	return source.Merge(base, over)
}

// emptied gives a bay without what fills it, where over fills it in another way.
func (r *reader) emptied(base, over *source.Node) *source.Node {
	fills := []string{"across", "up"}
	for _, k := range r.kinds {
		if k.Where == fitting.InBay {
			fills = append(fills, k.Name)
		}
	}
	var by string
	for _, f := range fills {
		if over.Get(f) != nil {
			by = f
		}
	}
	if by == "" {
		return base
	}
	return without(base, slices.DeleteFunc(fills, func(s string) bool { return s == by })...)
}

// scope gives the named sizes that a case's lengths may use: the job's, then its family's with
// the family's shared sizes by their keys, then its patterns' and its own.
func (r *reader) scope(tree *source.Node, family string) map[string]length.Length {
	all := r.options.Sizes
	if f := r.tree.Get("families").Get(family); f != nil && f.Kind == source.Map {
		outer := make(map[string]length.Length, len(all)+8)
		for k, v := range all {
			outer[k] = v
		}
		for _, k := range [...]string{"width-step", "depth", "wall-depth", "top-line", "wall-top-line", "wall-height", "front-grid"} {
			var l length.Length
			if v := f.Get(k); v != nil && len(schema.Decode(v, &l, r.options)) == 0 {
				outer[k] = l
			}
		}
		all = r.sizes(outer, f.Get("sizes"))
	}
	return r.sizes(all, tree.Get("sizes"))
}

// read reads a merged case and works its width out.
func (r *reader) read(m *merged, family string) {
	o := r.options
	o.Sizes = r.scope(m.tree, family)
	if !r.boundedBays(m.tree.Get("inside"), m.at.Span) {
		m.tree = without(m.tree, "inside")
	}
	r.problems.Add(schema.DecodeAt(without(m.tree, "sizes", "about"), m.at.Path, &m.value, o)...)
	for _, e := range entries(m.tree.Get("sizes")) {
		m.value.Sizes = append(m.value.Sizes, schema.Entry[L]{Key: e.Key, Value: o.Sizes[source.Normal(e.Key)]})
	}
	v := &m.value
	v.Family = family
	if v.Steps > 0 && v.Width == nil {
		step, ok := o.Sizes["width-step"]
		if r.lost(*m) {
			ok = false // said already
		} else if family == "" || !ok {
			ok = false
			r.fail(m.tree.Get("steps").Span, "steps count the width step of a family, and this case has none", "name a family with a width-step, or write width")
		}
		if ok {
			w := step * L(v.Steps)
			v.Width = &w
		}
	}
	if g := v.Gap; g != nil && v.Width == nil && len(g.Widths) > 0 {
		w := slices.Min(g.Widths)
		if g.Clearance != nil {
			w -= *g.Clearance
		} else {
			var c length.Length
			if n := r.tree.Get("practice").Get("gap-clearance"); n != nil && len(schema.Decode(n, &c, r.options)) == 0 {
				w -= c
			}
		}
		v.Width = &w
	}
}

// boundedBays reports whether a tree of bays is of a size that can be built.
func (r *reader) boundedBays(n *source.Node, at source.Span) bool {
	bays, deepest := 0, 0
	var walk func(n *source.Node, depth int)
	walk = func(n *source.Node, depth int) {
		bays++
		deepest = max(deepest, depth)
		if n == nil || bays > MostBays || depth > MostNesting {
			return
		}
		for _, k := range [...]string{"across", "up"} {
			if l := n.Get(k); l != nil {
				for _, i := range l.Items {
					walk(i, depth+1)
				}
			}
		}
	}
	walk(n, 1)
	switch {
	case bays > MostBays:
		r.fail(at, fmt.Sprintf("this case has more than %d bays", MostBays), "split it in several cases")
	case deepest > MostNesting:
		r.fail(at, fmt.Sprintf("the bays of this case are nested more than %d deep", MostNesting), "split it in several cases")
	default:
		return true
	}
	return false
}
