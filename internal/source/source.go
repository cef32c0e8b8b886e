// Package source is a job file as it was written: a neutral tree of values that know
// their place in their file. It merges one tree over another, prints mistakes with line and
// caret, and edits a file by patching bytes so that comments stay. Reading a notation is left to
// source/yaml and source/json, meaning to package schema.
package source

import (
	"bytes"
	"strings"
	"unicode/utf8"
)

// Kind says what a value is.
type Kind uint8

// Kinds of values.
const (
	Null Kind = iota
	Bool
	Number
	Text
	List
	Map
)

// String names the kind in a maker's words.
func (k Kind) String() string {
	return [...]string{"nothing", "yes or no", "a number", "a text", "a list", "a mapping"}[k]
}

// Limits of what is read, for every notation.
const (
	MaxBytes = 4 << 20 // of one file
	MaxNodes = 200_000 // with aliases written out
	MaxDepth = 100     // of lists and mappings in each other
)

// Remedies for what passes those limits.
const (
	Smaller = "split it in several files, each a job or a library of its own"
	Flatter = "write it with fewer lists and mappings in each other"
)

// Node is a value in a file. Nodes are not changed once they are read; an alias shares
// the node of its anchor.
type Node struct {
	Kind    Kind
	Text    string  // of Bool, Number (never rounded: as written) and Text (without quotes)
	Quoted  bool    // Text was in quotes, so that "30" is not a number
	Flow    bool    // List or Map in brackets
	Items   []*Node // of List
	Entries []Entry // of Map, in the order of the file
	Span    Span
}

// Entry is one key of a mapping.
type Entry struct {
	Key     string // as written, without quotes
	KeySpan Span
	Value   *Node // never nil
}

// Get gives the value of a key of a mapping, nil when there is none. Keys are compared
// by their [Normal] spelling.
func (n *Node) Get(key string) *Node {
	if e := n.entry(key); e != nil {
		return e.Value
	}
	return nil
}

func (n *Node) entry(key string) *Entry {
	if n == nil {
		return nil
	}
	key = Normal(key)
	for i := range n.Entries {
		k := n.Entries[i].Key
		if k == key || !beginsOtherwise(k, key) && Normal(k) == key {
			return &n.Entries[i]
		}
	}
	return nil
}

// beginsOtherwise tells quickly of most keys that they are not one in Normal spelling: by their first letter.
func beginsOtherwise(k, normal string) bool {
	return k != "" && normal != "" && 'a' <= k[0] && k[0] <= 'z' && k[0] != normal[0]
}

// Normal gives the one spelling by which keys are compared: lower case, with dashes where
// a maker may also write spaces or underscores.
func Normal(key string) string {
	plain := true
	for i := 0; i < len(key); i++ {
		if c := key[i]; c == ' ' || c == '_' || c == '\t' || 'A' <= c && c <= 'Z' || c >= utf8.RuneSelf {
			plain = false
			break
		}
	}
	if plain {
		return key
	}
	return strings.Join(strings.FieldsFunc(strings.ToLower(key), func(r rune) bool { return r == ' ' || r == '_' || r == '\t' }), "-")
}

// File is the text of one file.
type File struct {
	Name string
	Data []byte
	JSON bool // edits must write JSON

	starts []int // offset of each line
}

// NewFile prepares a file; data must not change afterwards.
func NewFile(name string, data []byte) *File {
	f := &File{Name: name, Data: data, starts: []int{0}}
	for i, b := range data {
		if b == '\n' {
			f.starts = append(f.starts, i+1)
		}
	}
	return f
}

// Position gives the line and column of a byte offset, both from 1; columns count
// characters.
func (f *File) Position(offset int) (line, column int) {
	offset = min(max(offset, 0), len(f.Data))
	lo, hi := 0, len(f.starts) // starts[lo] <= offset < starts[hi]
	for hi-lo > 1 {
		if mid := (lo + hi) / 2; f.starts[mid] <= offset {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo + 1, utf8.RuneCount(f.Data[f.starts[lo]:offset]) + 1
}

// Line gives the text of a line (from 1) without its end.
func (f *File) Line(n int) string {
	if n < 1 || n > len(f.starts) {
		return ""
	}
	line := f.Data[f.starts[n-1]:]
	if i := bytes.IndexByte(line, '\n'); i >= 0 {
		line = line[:i]
	}
	return strings.TrimSuffix(string(line), "\r")
}

// Span is a stretch of a file in byte offsets, End just after it. The zero value is
// nowhere.
type Span struct {
	File       *File
	Start, End int
}

// Known reports whether the span is in a file at all.
func (s Span) Known() bool { return s.File != nil }

// Line gives the line of the start, from 1; 0 when nowhere.
func (s Span) Line() int { l, _ := s.position(s.Start); return l }

// Column gives the column of the start in characters, from 1; 0 when nowhere.
func (s Span) Column() int { _, c := s.position(s.Start); return c }

// EndLine gives the line of the end.
func (s Span) EndLine() int { l, _ := s.position(s.End); return l }

// EndColumn gives the column just after the end.
func (s Span) EndColumn() int { _, c := s.position(s.End); return c }

// Text gives the bytes of the span.
func (s Span) Text() string {
	if s.File == nil {
		return ""
	}
	return string(s.File.Data[s.Start:s.End])
}

func (s Span) position(offset int) (line, column int) {
	if s.File == nil {
		return 0, 0
	}
	return s.File.Position(offset)
}

// Merge lays over on top of base: mappings key by key and deep; lists and single values
// are replaced; an explicit null removes the key. Neither tree is changed, and every value
// keeps its place in its own file. A nil tree counts as absent.
func Merge(base, over *Node) *Node {
	switch {
	case over == nil:
		return base
	case base == nil || base.Kind != Map || over.Kind != Map:
		return over
	}
	r := *over
	r.Entries = nil
	at := make(map[string]int, len(over.Entries))
	for i, e := range over.Entries {
		at[Normal(e.Key)] = i
	}
	used := make([]bool, len(over.Entries))
	for _, e := range base.Entries { // in the order of base, then what is new
		if i, ok := at[Normal(e.Key)]; ok && !used[i] {
			used[i] = true
			o := over.Entries[i]
			if o.Value.Kind == Null {
				continue
			}
			o.Value = Merge(e.Value, o.Value)
			e = o
		}
		r.Entries = append(r.Entries, e)
	}
	for i, e := range over.Entries {
		if !used[i] && e.Value.Kind != Null {
			r.Entries = append(r.Entries, e)
		}
	}
	return &r
}

// IsNumber reports whether a plain text is a decimal number, with or without a power of
// ten. Words such as nan and inf, hexadecimal and digits with underscores are not.
func IsNumber(s string) bool {
	i := 0
	digits := func() (n int) {
		for i < len(s) && '0' <= s[i] && s[i] <= '9' {
			i++
			n++
		}
		return n
	}
	if i < len(s) && (s[i] == '-' || s[i] == '+') {
		i++
	}
	n := digits()
	if i < len(s) && s[i] == '.' {
		i++
		n += digits()
	}
	if n == 0 {
		return false
	}
	if i < len(s) && (s[i] == 'e' || s[i] == 'E') {
		i++
		if i < len(s) && (s[i] == '-' || s[i] == '+') {
			i++
		}
		if digits() == 0 {
			return false
		}
	}
	return i == len(s)
}
