package schema

import (
	"fmt"
	"reflect"
	"strings"

	"stowright/internal/source"
)

// Respell gives a tree as if every misspelt key of what into points to had been written as the one that was meant, and
// reports each: so that the mistakes in what stands under it are said as well, nothing is called missing that is only
// misspelt, and whoever reads the tree by its keys finds them. A key that is there rightly too is left out, with what is
// under it; one that is like none stays.
func Respell(n *source.Node, into any, o Options) (*source.Node, source.Problems) {
	s := &speller{o: o}
	n = s.value(n, base(reflect.TypeOf(into)))
	return n, s.problems
}

type speller struct {
	o        Options
	problems source.Problems
}

func (s *speller) value(n *source.Node, t reflect.Type) *source.Node {
	if n == nil || n.Kind < source.List {
		return n
	}
	t = base(t)
	switch k := kindOf(t); {
	case k == kindStruct && n.Kind == source.Map:
		return s.structure(n, t)
	case k == kindMap && n.Kind == source.Map:
		return s.entries(n, func(source.Entry) reflect.Type { return entryType(t) })
	case (k == kindList || k == kindOneOrMany) && n.Kind == source.List:
		return s.items(n, t.Elem())
	case k == kindOneOrMany:
		return s.value(n, t.Elem())
	}
	return n
}

func (s *speller) structure(n *source.Node, t reflect.Type) *source.Node {
	f := formOf(t)
	for i := 0; i < len(n.Entries); i++ {
		e := n.Entries[i]
		key := source.Normal(e.Key)
		if f.has(key, s.o) {
			continue
		}
		known := f.keys(s.o)
		near := source.Normal(source.Nearest(e.Key, known))
		if near == "" {
			continue
		}
		if len(s.problems) < maxProblems {
			text, hint := unknown(e, known)
			s.problems.Add(source.Problem{Span: e.KeySpan, Text: text, Hint: hint})
		}
		c := *n
		c.Entries = append([]source.Entry(nil), n.Entries...)
		if n.Get(near) != nil {
			c.Entries = append(c.Entries[:i], c.Entries[i+1:]...)
			i--
		} else {
			c.Entries[i].Key = near
		}
		n = &c
	}
	return s.entries(n, func(e source.Entry) reflect.Type { return f.typeOf(source.Normal(e.Key), s.o) })
}

// typeOf gives the type of a key's value, nil when the key is not known.
func (f form) typeOf(key string, o Options) reflect.Type {
	for _, x := range f.fields {
		if x.name == key {
			return x.typ
		}
	}
	for _, k := range f.sockets {
		for _, p := range o.Plugs[k.name] {
			if p.Name == key {
				return reflect.TypeOf(p.New())
			}
		}
	}
	return nil
}

// entries and items copy only what changes.
func (s *speller) entries(n *source.Node, of func(source.Entry) reflect.Type) *source.Node {
	var c *source.Node
	for i, e := range n.Entries {
		t := of(e)
		if t == nil {
			continue
		}
		if v := s.value(e.Value, t); v != e.Value {
			if c == nil {
				copied := *n
				copied.Entries = append([]source.Entry(nil), n.Entries...)
				c = &copied
			}
			c.Entries[i].Value = v
		}
	}
	if c != nil {
		return c
	}
	return n
}

func (s *speller) items(n *source.Node, t reflect.Type) *source.Node {
	var c *source.Node
	for i, x := range n.Items {
		if v := s.value(x, t); v != x {
			if c == nil {
				copied := *n
				copied.Items = append([]*source.Node(nil), n.Items...)
				c = &copied
			}
			c.Items[i] = v
		}
	}
	if c != nil {
		return c
	}
	return n
}

// unknown says that a key is not one of those known.
func unknown(e source.Entry, known []string) (text, hint string) {
	text = fmt.Sprintf("the key %q is not known here", shorten(e.Key))
	hint = "the keys are " + strings.Join(known, ", ")
	if near := source.Nearest(e.Key, known); near != "" {
		hint = fmt.Sprintf("did you mean %q?", near)
	} else if e.Value.Kind == source.Null && strings.Trim(e.Key, "0123456789") == "" {
		hint = "is it what follows a decimal comma? Write a decimal point, like 34.5"
	} else if len(known) > 30 {
		hint = "the keys are " + strings.Join(known[:30], ", ") + " and more"
	}
	return text, hint
}
