// Package yaml reads a YAML job file into a [source.Node] tree, strictly: keys once, no tags
// but the plain ones, no merge keys, everything bounded. All mistakes of notation are
// reported with their place. What the values mean is left to package schema.
package yaml

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"

	yaml "go.yaml.in/yaml/v4"

	"stowright/internal/source"
)

// Read reads one document. The tree is nil when the notation is broken; with mistakes such
// as a key written twice it is still there, so that more can be said about it. An empty
// file is a Null.
func Read(name string, data []byte) (*source.Node, source.Problems) {
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	f := source.NewFile(name, data)
	var ps source.Problems
	if p, bad := unreadable(f); bad {
		ps.Add(p)
		return nil, ps
	}
	doc, err := load(data)
	if err != nil {
		ps.Add(syntax(f, err)...)
		ps.Sort()
		return nil, ps
	}
	if doc == nil || len(doc.Content) == 0 {
		return &source.Node{Span: source.Span{File: f}}, nil
	}
	r := &reader{file: f, lines: breaks(data), made: map[*yaml.Node]*made{}}
	root := r.node(doc.Content[0], 1)
	ps = r.problems
	ps.Sort()
	if r.stopped {
		return nil, ps
	}
	return root, ps
}

// unreadable finds what would make reading pointless or dear.
func unreadable(f *source.File) (source.Problem, bool) {
	d := f.Data
	if len(d) > source.MaxBytes {
		return source.Problem{Span: source.Span{File: f}, Text: fmt.Sprintf("the file has more than %d bytes, which is the most that is read", source.MaxBytes), Hint: source.Smaller}, true
	}
	for i := 0; i < len(d); {
		r, n := utf8.DecodeRune(d[i:])
		at := source.Span{File: f, Start: i, End: i + n}
		switch {
		case r == utf8.RuneError && n == 1:
			return source.Problem{Span: at, Text: "this is not UTF-8 text", Hint: "save the file as UTF-8"}, true
		case r < ' ' && r != '\t' && r != '\n' && r != '\r', r == 0x7f, 0x80 <= r && r < 0xa0 && r != 0x85:
			return source.Problem{Span: at, Text: fmt.Sprintf("a control character (U+%04X) cannot be in a job file", r), Hint: "take it out"}, true
		}
		i += n
	}
	// Every value but the first needs one of these marks, and each mark gives at most two
	// values, so this bounds the memory that the parser takes before values are counted.
	marks := bytes.Count(d, []byte{':'}) + bytes.Count(d, []byte{','}) + bytes.Count(d, []byte("- ")) +
		bytes.Count(d, []byte("-\t")) + bytes.Count(d, []byte("-\n")) + bytes.Count(d, []byte("-\r")) + bytes.Count(d, []byte{'?'}) + bytes.Count(d, []byte{'['}) + bytes.Count(d, []byte{'{'})
	if marks > 2*source.MaxNodes {
		return source.Problem{Span: source.Span{File: f}, Text: fmt.Sprintf("the file has more than %d values", source.MaxNodes), Hint: source.Smaller}, true
	}
	return source.Problem{}, false
}

var errDepth = fmt.Errorf("lists and mappings are nested more than %d deep", source.MaxDepth)

// limits bounds the parser's own recursion. Aliases are counted by the reader.
type limits struct{}

func (limits) CheckDepth(depth int, _ *yaml.DepthContext) error {
	if depth > source.MaxDepth {
		return errDepth
	}
	return nil
}

func (limits) CheckAlias(_, _ int) error { return nil }

func load(data []byte) (doc *yaml.Node, err error) {
	doc = new(yaml.Node)
	err = yaml.Load(data, doc, yaml.WithPlugin(limits{}))
	if err != nil && strings.Contains(err.Error(), "no documents in stream") {
		return nil, nil
	}
	return doc, err
}

type reader struct {
	file     *source.File
	lines    []int // offset of each line as the YAML parser counts them
	last     struct{ line, column, at int }
	made     map[*yaml.Node]*made
	nodes    int
	deepest  int // of the values read since the anchor that is open
	stopped  bool
	problems source.Problems
}

// made is what an anchored value became.
type made struct {
	node  *source.Node // nil while it is being read
	size  int          // values in it, aliases written out
	depth int          // how deep it goes below itself
}

func (r *reader) fail(at source.Span, text, hint string) {
	r.problems.Add(source.Problem{Span: at, Text: text, Hint: hint})
}

// stop gives up: the file is beyond a bound.
func (r *reader) stop(at source.Span, text, hint string) {
	if !r.stopped {
		r.stopped = true
		r.fail(at, text, hint)
	}
}

// node turns a parsed value into a source value; depth counts from 1 at the root. It never gives nil.
func (r *reader) node(y *yaml.Node, depth int) *source.Node {
	start := r.offset(y.Line, y.Column)
	n := &source.Node{Span: source.Span{File: r.file, Start: start, End: start}}
	if r.stopped {
		return n
	}
	if depth > source.MaxDepth {
		r.stop(n.Span, errDepth.Error(), source.Flatter)
		return n
	}
	if r.nodes++; r.nodes > source.MaxNodes {
		r.stop(n.Span, fmt.Sprintf("the file has more than %d values", source.MaxNodes), source.Smaller)
		return n
	}
	if y.Kind == yaml.AliasNode {
		return r.alias(y, n, depth)
	}
	var m *made
	if y.Anchor != "" {
		m = &made{}
		r.made[y] = m
	}
	before, deepest := r.nodes, r.deepest
	r.deepest = depth
	body := properties(r.file.Data, start, y)
	switch y.Kind {
	case yaml.ScalarNode:
		n.Span.Start = body
		r.scalar(y, n)
	case yaml.SequenceNode:
		n.Kind = source.List
		n.Flow = y.Style&yaml.FlowStyle != 0
		n.Span.Start = body
		at := body + 1
		for _, c := range y.Content {
			v := r.node(c, depth+1)
			n.Items = append(n.Items, v)
			at = max(at, r.endOf(c, v))
		}
		n.Span.End = closing(r.file.Data, n, at)
	case yaml.MappingNode:
		n.Kind = source.Map
		n.Flow = y.Style&yaml.FlowStyle != 0
		n.Span.Start = body
		r.mapping(y, n, depth)
	}
	if n.Kind < source.List && y.Style&yaml.TaggedStyle != 0 {
		r.tag(y, n)
	}
	if m != nil {
		m.node, m.size, m.depth = n, r.nodes-before+1, r.deepest-depth+1
	}
	r.deepest = max(r.deepest, deepest)
	return n
}

func (r *reader) alias(y *yaml.Node, n *source.Node, depth int) *source.Node {
	n.Span.End = min(n.Span.Start+1+len(y.Value), len(r.file.Data))
	m := r.made[y.Alias]
	switch {
	case m == nil || m.node == nil:
		r.fail(n.Span, fmt.Sprintf("*%s refers to a value that it is part of", y.Value), "write the value out")
		return n
	case depth+m.depth-1 > source.MaxDepth:
		r.stop(n.Span, errDepth.Error(), source.Flatter)
	}
	if r.nodes += m.size; r.nodes > source.MaxNodes {
		r.stop(n.Span, fmt.Sprintf("the file has more than %d values with its aliases written out", source.MaxNodes), "use fewer aliases, or name a pattern to derive from")
	}
	r.deepest = max(r.deepest, depth+m.depth-1)
	return m.node
}

// endOf gives the end of a value in this file's order: an alias ends where it is written,
// not where its anchor is.
func (r *reader) endOf(y *yaml.Node, n *source.Node) int {
	if y.Kind == yaml.AliasNode {
		return min(r.offset(y.Line, y.Column)+1+len(y.Value), len(r.file.Data))
	}
	return n.Span.End
}

func (r *reader) mapping(y *yaml.Node, n *source.Node, depth int) {
	first := map[string]source.Span{}
	at := n.Span.Start + 1
	for i := 0; i+1 < len(y.Content); i += 2 {
		k, v := y.Content[i], y.Content[i+1]
		kn := r.node(k, depth+1)
		vn := r.node(v, depth+1)
		if r.stopped { // what is past a bound is not read, so nothing is said of it
			break
		}
		at = max(at, kn.Span.End, r.endOf(v, vn))
		norm := source.Normal(kn.Text)
		was, twice := first[norm]
		switch {
		case k.Kind != yaml.ScalarNode:
			r.fail(kn.Span, "a key must be one word or several, not "+kn.Kind.String(), "write a word before the colon")
		case kn.Text == "" && kn.Kind == source.Null:
			r.fail(kn.Span, "a key is missing before the \":\"", "write it, or take the line out")
		case k.Value == "<<" && !kn.Quoted:
			r.fail(kn.Span, "\"<<\" is not used in a job file", "name a pattern to derive from, or write the values out")
		case twice:
			r.problems.Add(source.Problem{Span: kn.Span, Text: fmt.Sprintf("%q is written twice", k.Value), Hint: "keep one of the two",
				Also: []source.Also{{Span: was, Text: "the first is here"}}})
		default:
			first[norm] = kn.Span
			n.Entries = append(n.Entries, source.Entry{Key: k.Value, KeySpan: kn.Span, Value: vn})
		}
	}
	n.Span.End = closing(r.file.Data, n, at)
}

// scalar fills in a single value; Span.Start is already past tags and anchors.
func (r *reader) scalar(y *yaml.Node, n *source.Node) {
	data := r.file.Data
	n.Text = y.Value
	switch {
	case y.Style&yaml.DoubleQuotedStyle != 0:
		n.Kind, n.Quoted = source.Text, true
		n.Span.End = quoted(data, n.Span.Start, '"')
	case y.Style&yaml.SingleQuotedStyle != 0:
		n.Kind, n.Quoted = source.Text, true
		n.Span.End = quoted(data, n.Span.Start, '\'')
	case y.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0:
		n.Kind, n.Quoted = source.Text, true
		n.Span.End = block(data, n.Span.Start, strings.TrimSpace(y.Value) == "")
	default:
		n.Span.End = plain(data, n.Span.Start, y.Value)
		n.Kind = kindOf(y.Value)
		if n.Kind == source.Null {
			n.Text = ""
		} else if n.Kind == source.Bool {
			n.Text = strings.ToLower(y.Value)
		}
	}
}

// kindOf sorts a plain value as YAML 1.2's core schema does, but that numbers are decimal
// only and "nan" and "inf" are words.
func kindOf(s string) source.Kind {
	switch s {
	case "", "~", "null", "Null", "NULL":
		return source.Null
	case "true", "True", "TRUE", "false", "False", "FALSE":
		return source.Bool
	}
	if source.IsNumber(s) {
		return source.Number
	}
	return source.Text
}

func (r *reader) tag(y *yaml.Node, n *source.Node) {
	switch y.Tag {
	case "!!str", "!":
		n.Kind, n.Quoted, n.Text = source.Text, true, y.Value
	case "!!int", "!!float", "!!bool", "!!null":
	default:
		r.fail(n.Span, fmt.Sprintf("the tag %q is not used in a job file", y.Tag), "take it out")
	}
}

// offset turns the parser's line and column (in characters) into a byte offset. It goes on
// from the last place asked for where it can, so that a file of one long line is read in
// linear time.
func (r *reader) offset(line, column int) int {
	if l := &r.last; line == l.line && column >= l.column && line > 0 {
		for ; l.column < column && l.at < len(r.file.Data); l.column++ {
			_, n := utf8.DecodeRune(r.file.Data[l.at:])
			l.at += n
		}
		return l.at
	}
	at := offset(r.file.Data, r.lines, line, column)
	r.last.line, r.last.column, r.last.at = line, column, at
	return at
}

func offset(data []byte, lines []int, line, column int) int {
	if line < 1 || line > len(lines) {
		return len(data)
	}
	at := lines[line-1]
	for ; column > 1 && at < len(data); column-- {
		_, n := utf8.DecodeRune(data[at:])
		at += n
	}
	return at
}

// breaks gives the start of each line as the YAML parser counts them: also after a lone
// carriage return, U+0085, U+2028 and U+2029.
func breaks(data []byte) []int {
	starts := []int{0}
	for i := 0; i < len(data); {
		c, n := utf8.DecodeRune(data[i:])
		i += n
		switch c {
		case '\r':
			if i < len(data) && data[i] == '\n' {
				i++
			}
			starts = append(starts, i)
		case '\n', 0x85, 0x2028, 0x2029:
			starts = append(starts, i)
		}
	}
	return starts
}
