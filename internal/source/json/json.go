// Package json reads a JSON job file into the same [source.Node] tree as YAML, strictly: keys
// once, nothing after the end, everything bounded. Numbers stay as they are written.
package json

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"unicode/utf8"

	"stowright/internal/source"
)

// Read reads one JSON value. The tree is nil when the notation is broken.
func Read(name string, data []byte) (*source.Node, source.Problems) {
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	f := source.NewFile(name, data)
	f.JSON = true
	r := &reader{file: f, dec: json.NewDecoder(bytes.NewReader(data))}
	r.dec.UseNumber()
	if len(data) > source.MaxBytes {
		r.fail(0, 0, fmt.Sprintf("the file has %d bytes; at most %d are read", len(data), source.MaxBytes), "")
		return nil, r.problems
	}
	if i := invalid(data); i >= 0 {
		r.fail(i, i+1, "this is not UTF-8 text", "save the file as UTF-8")
		return nil, r.problems
	}
	root := r.value(1)
	if !r.stopped {
		if rest := r.skip(); rest < len(data) {
			r.stop(rest, errors.New("there is more after the end of the value"))
		}
	}
	r.problems.Sort()
	if r.stopped {
		return nil, r.problems
	}
	return root, r.problems
}

func invalid(data []byte) int {
	for i := 0; i < len(data); {
		r, n := utf8.DecodeRune(data[i:])
		if r == utf8.RuneError && n == 1 {
			return i
		}
		i += n
	}
	return -1
}

type reader struct {
	file     *source.File
	dec      *json.Decoder
	nodes    int
	stopped  bool
	problems source.Problems
}

func (r *reader) fail(start, end int, text, hint string) {
	r.problems.Add(source.Problem{Span: source.Span{File: r.file, Start: start, End: end}, Text: text, Hint: hint})
}

// stop gives up, once.
func (r *reader) stop(at int, err error) {
	if r.stopped {
		return
	}
	r.stopped = true
	text := err.Error()
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		at, text = len(r.file.Data), "the file ends too early"
	}
	at = min(at, len(r.file.Data))
	r.fail(at, min(at+1, len(r.file.Data)), text, "")
}

// skip gives the offset of the next token.
func (r *reader) skip() int {
	d := r.file.Data
	at := int(r.dec.InputOffset())
	for at < len(d) && (d[at] == ' ' || d[at] == '\t' || d[at] == '\n' || d[at] == '\r' || d[at] == ',' || d[at] == ':') {
		at++
	}
	return at
}

// value reads the next value; it never gives nil.
func (r *reader) value(depth int) *source.Node {
	start := r.skip()
	n := &source.Node{Flow: true, Span: source.Span{File: r.file, Start: start, End: start}}
	if r.stopped {
		return n
	}
	if r.nodes++; r.nodes > source.MaxNodes {
		r.stop(start, fmt.Errorf("the file has more than %d values", source.MaxNodes))
		return n
	}
	if depth > source.MaxDepth {
		r.stop(start, fmt.Errorf("lists and mappings are nested more than %d deep", source.MaxDepth))
		return n
	}
	t, err := r.dec.Token()
	if err != nil {
		r.stop(start, err)
		return n
	}
	switch v := t.(type) {
	case nil:
	case bool:
		n.Kind, n.Text = source.Bool, fmt.Sprint(v)
	case json.Number:
		n.Kind, n.Text = source.Number, v.String()
	case string:
		n.Kind, n.Text, n.Quoted = source.Text, v, true
	case json.Delim:
		if v == '[' {
			n.Kind = source.List
			for !r.stopped && r.dec.More() {
				n.Items = append(n.Items, r.value(depth+1))
			}
		} else {
			n.Kind = source.Map
			r.entries(n, depth)
		}
		if r.stopped {
			return n
		}
		if _, err := r.dec.Token(); err != nil { // the closing bracket
			r.stop(r.skip(), err)
			return n
		}
	}
	n.Span.End = int(r.dec.InputOffset())
	return n
}

func (r *reader) entries(n *source.Node, depth int) {
	first := map[string]source.Span{}
	for !r.stopped && r.dec.More() {
		start := r.skip()
		if r.nodes++; r.nodes > source.MaxNodes {
			r.stop(start, fmt.Errorf("the file has more than %d values", source.MaxNodes))
			return
		}
		t, err := r.dec.Token()
		if err != nil {
			r.stop(start, err)
			return
		}
		key, ok := t.(string)
		if !ok {
			r.stop(start, errors.New("a key in quotes is expected here"))
			return
		}
		at := source.Span{File: r.file, Start: start, End: int(r.dec.InputOffset())}
		v := r.value(depth + 1)
		if was, twice := first[source.Normal(key)]; twice {
			r.problems.Add(source.Problem{Span: at, Text: fmt.Sprintf("%q is written twice", key), Hint: "keep one of the two",
				Also: []source.Also{{Span: was, Text: "the first is here"}}})
			continue
		}
		first[source.Normal(key)] = at
		n.Entries = append(n.Entries, source.Entry{Key: key, KeySpan: at, Value: v})
	}
}
