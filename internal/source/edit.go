package source

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"

	"stowright/internal/order"
)

// Edit replaces a span of a file by a text.
type Edit struct {
	Span Span
	Text string
}

// Apply makes edits to one file; they must not overlap. Bytes outside them, comments
// included, stay as they are.
func Apply(f *File, edits ...Edit) ([]byte, error) {
	edits = slices.Clone(edits)
	order.Stable(edits, func(a, b Edit) int { return a.Span.Start - b.Span.Start })
	var out []byte
	at := 0
	for _, e := range edits {
		if e.Span.File != f {
			return nil, errors.New("the edit is of another file")
		}
		if e.Span.Start < at {
			return nil, errors.New("two edits overlap")
		}
		out = append(out, f.Data[at:e.Span.Start]...)
		out = append(out, e.Text...)
		at = e.Span.End
	}
	return append(out, f.Data[at:]...), nil
}

// Replace gives the edit that puts text, in the notation of the file, in place of the value at a path.
func Replace(root *Node, p Path, text string) (Edit, error) {
	n := root.Find(p)
	if n == nil {
		return Edit{}, fmt.Errorf("there is no %s", p)
	}
	if n.Span.Start == n.Span.End && n.Span.Start > 0 && n.Span.File.Data[n.Span.Start-1] == ':' {
		text = " " + text // a key without a value
	}
	return Edit{n.Span, text}, nil
}

// Insert gives the edit that adds a key with a value (text in the notation of the file) at the end of the
// mapping at a path, or, with an empty key, an item at the end of the list there.
func Insert(root *Node, p Path, key, text string) (Edit, error) {
	n := root.Find(p)
	switch {
	case n == nil:
		return Edit{}, fmt.Errorf("there is no %s", p)
	case key != "" && n.Kind == Map && n.Get(key) != nil:
		return Edit{}, fmt.Errorf("%s has a %s already", p, key)
	case key != "" && n.Kind != Map, key == "" && n.Kind != List:
		return Edit{}, fmt.Errorf("%s is %v", p, n.Kind)
	}
	f := n.Span.File
	item := "- " + text
	if key != "" {
		item = key + ": " + text
	}
	if n.Flow {
		if key == "" {
			item = text
		} else if f.JSON {
			quoted, _ := json.Marshal(key)
			item = string(quoted) + ": " + text
		}
		if last := n.last(); last >= 0 {
			return Edit{Span{f, last, last}, ", " + item}, nil
		}
		return Edit{Span{f, n.Span.Start, n.Span.End}, f.bracket(n.Kind, item)}, nil
	}
	last := n.last()
	if last < 0 {
		return Edit{}, fmt.Errorf("%s is empty", p)
	}
	indent := f.indent(n.Span.Start)
	end := f.lineEnd(last)
	return Edit{Span{f, end, end}, "\n" + indent + item}, nil
}

// Delete gives the edit that removes the value at a path with its key, its whole lines
// when it stands on lines of its own.
func Delete(root *Node, p Path) (Edit, error) {
	if len(p) == 0 {
		return Edit{}, errors.New("the whole file cannot be removed")
	}
	n, parent := root.Find(p), root.Find(p[:len(p)-1])
	if n == nil {
		return Edit{}, fmt.Errorf("there is no %s", p)
	}
	f := parent.Span.File
	spans := parent.spans()
	i := slices.IndexFunc(spans, func(s Span) bool { return s.End == n.Span.End })
	if i < 0 {
		return Edit{}, fmt.Errorf("%s comes from another file", p)
	}
	if len(spans) == 1 {
		return Edit{parent.Span, f.bracket(parent.Kind, "")}, nil
	}
	if parent.Flow {
		if i > 0 {
			return Edit{Span{f, spans[i-1].End, spans[i].End}, ""}, nil
		}
		return Edit{Span{f, spans[0].Start, spans[1].Start}, ""}, nil
	}
	if i == 0 && strings.TrimSpace(string(f.Data[f.lineStart(spans[0].Start):spans[0].Start])) != "" {
		return Edit{Span{f, spans[0].Start, spans[1].Start}, ""}, nil // "- first: 1": the dash stays
	}
	start, end := f.lineStart(spans[i].Start), f.lineEnd(spans[i].End)
	if end < len(f.Data) {
		end++
	}
	return Edit{Span{f, start, end}, ""}, nil
}

// spans gives the span of each entry from its key to its value, or of each item.
func (n *Node) spans() []Span {
	var r []Span
	for _, e := range n.Entries {
		r = append(r, Span{e.KeySpan.File, e.KeySpan.Start, max(e.KeySpan.End, e.Value.Span.End)})
	}
	for _, v := range n.Items {
		r = append(r, v.Span)
	}
	return r
}

// last gives the end of the last entry or item, -1 when empty.
func (n *Node) last() int {
	if s := n.spans(); len(s) > 0 {
		return s[len(s)-1].End
	}
	return -1
}

func (f *File) bracket(k Kind, inside string) string {
	if k == List {
		return "[" + inside + "]"
	}
	return "{" + inside + "}"
}

func (f *File) lineStart(at int) int { return bytes.LastIndexByte(f.Data[:at], '\n') + 1 }

func (f *File) lineEnd(at int) int {
	if i := bytes.IndexByte(f.Data[at:], '\n'); i >= 0 {
		return at + i
	}
	return len(f.Data)
}

// indent gives the spaces that bring a new line under the character at an offset.
func (f *File) indent(at int) string {
	_, column := f.Position(at)
	return strings.Repeat(" ", column-1)
}
