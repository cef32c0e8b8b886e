package source

import (
	"strconv"
	"strings"
)

// Step is one step into a tree: a key of a mapping or, when Key is empty, a place in a list.
type Step struct {
	Key   string
	Index int // from 0
}

// Path leads from the root of a tree to a value.
type Path []Step

// Key gives the path to a key below p; p is not changed.
func (p Path) Key(k string) Path { return append(p[:len(p):len(p)], Step{Key: k}) }

// At gives the path to the item i, from 0, below p; p is not changed.
func (p Path) At(i int) Path { return append(p[:len(p):len(p)], Step{Index: i}) }

// String writes the path for people, who count from one: "walls/back/studs[1]".
func (p Path) String() string {
	var b strings.Builder
	for i, s := range p {
		if s.Key == "" {
			b.WriteString("[" + strconv.Itoa(s.Index+1) + "]")
			continue
		}
		if i > 0 {
			b.WriteByte('/')
		}
		b.WriteString(s.Key)
	}
	return b.String()
}

// ParsePath reads what String writes; keys that hold "/" or "[" cannot be written so.
func ParsePath(s string) Path {
	var p Path
	for _, word := range strings.Split(s, "/") {
		key, rest, _ := strings.Cut(word, "[")
		if key != "" {
			p = append(p, Step{Key: key})
		}
		for rest != "" {
			var n string
			n, rest, _ = strings.Cut(rest, "]")
			if i, err := strconv.Atoi(n); err == nil {
				p = append(p, Step{Index: i - 1})
			}
			rest = strings.TrimPrefix(rest, "[")
		}
	}
	return p
}

// Find follows a path, nil when it leads nowhere.
func (n *Node) Find(p Path) *Node {
	for _, s := range p {
		switch {
		case n == nil:
			return nil
		case s.Key != "":
			n = n.Get(s.Key)
		case s.Index >= 0 && s.Index < len(n.Items):
			n = n.Items[s.Index]
		default:
			return nil
		}
	}
	return n
}
