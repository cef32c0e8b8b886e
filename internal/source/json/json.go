// Package json reads a JSON job file into the same [source.Node] tree as YAML, strictly: keys
// once, nothing after the end, everything bounded. Numbers stay as they are written. It has a reader of
// its own: the standard library's makes the core for WebAssembly a twentieth larger (decision 0007); a
// test holds one against the other.
package json

import (
	"bytes"
	"fmt"
	"strconv"
	"unicode/utf16"
	"unicode/utf8"

	"stowright/internal/source"
)

// Read reads one JSON value. The tree is nil when the notation is broken.
func Read(name string, data []byte) (*source.Node, source.Problems) {
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	f := source.NewFile(name, data)
	f.JSON = true
	r := &reader{file: f, data: data}
	if len(data) > source.MaxBytes {
		r.fail(0, 0, fmt.Sprintf("the file has more than %d bytes, which is the most that is read", source.MaxBytes), source.Smaller)
		return nil, r.problems
	}
	if i := invalid(data); i >= 0 {
		r.fail(i, i+1, "this is not UTF-8 text", "save the file as UTF-8")
		return nil, r.problems
	}
	root := r.value(1)
	if !r.stopped {
		if r.space(); r.at < len(data) {
			r.stop(r.at, "there is more after the end of the value", "keep one value in a file")
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
	data     []byte
	at       int
	nodes    int
	stopped  bool
	problems source.Problems
}

func (r *reader) fail(start, end int, text, hint string) {
	r.problems.Add(source.Problem{Span: source.Span{File: r.file, Start: start, End: end}, Text: text, Hint: hint})
}

// stop gives up, once.
func (r *reader) stop(at int, text, hint string) {
	if r.stopped {
		return
	}
	r.stopped = true
	if at >= len(r.data) {
		at, text, hint = len(r.data), "the file ends too early", "close what is open, or fetch the whole file again"
	}
	r.fail(at, min(at+1, len(r.data)), text, hint)
}

// space passes white space.
func (r *reader) space() {
	for r.at < len(r.data) && (r.data[r.at] == ' ' || r.data[r.at] == '\t' || r.data[r.at] == '\n' || r.data[r.at] == '\r') {
		r.at++
	}
}

// next passes white space and gives what follows, 0 at the end.
func (r *reader) next() byte {
	if r.space(); r.at < len(r.data) {
		return r.data[r.at]
	}
	return 0
}

// one counts one more value; false past the bound.
func (r *reader) one(at int) bool {
	if r.nodes++; r.nodes > source.MaxNodes {
		r.stop(min(at, len(r.data)-1), fmt.Sprintf("the file has more than %d values", source.MaxNodes), source.Smaller)
		return false
	}
	return true
}

// value reads the next value; it never gives nil.
func (r *reader) value(depth int) *source.Node {
	c := r.next()
	start := r.at
	n := &source.Node{Flow: true, Span: source.Span{File: r.file, Start: start, End: start}}
	if r.stopped || !r.one(start) {
		return n
	}
	if depth > source.MaxDepth {
		r.stop(start, fmt.Sprintf("lists and mappings are nested more than %d deep", source.MaxDepth), source.Flatter)
		return n
	}
	switch {
	case c == '[':
		n.Kind = source.List
		r.row(']', func() { n.Items = append(n.Items, r.value(depth+1)) })
	case c == '{':
		n.Kind = source.Map
		first := map[string]source.Span{}
		r.row('}', func() { r.entry(n, depth, first) })
	case c == '"':
		n.Kind, n.Quoted = source.Text, true
		n.Text = r.text()
	case r.word("true"):
		n.Kind, n.Text = source.Bool, "true"
	case r.word("false"):
		n.Kind, n.Text = source.Bool, "false"
	case r.word("null"):
	default:
		n.Kind, n.Text = source.Number, r.number()
	}
	n.Span.End = r.at
	return n
}

// row reads what stands between brackets, with commas between.
func (r *reader) row(end byte, item func()) {
	r.at++
	if r.next() == end {
		r.at++
		return
	}
	for !r.stopped {
		item()
		switch r.next() {
		case end:
			r.at++
			return
		case ',':
			r.at++
		default:
			r.stop(r.at, "a comma, or a closing bracket, is expected here", "put it in")
		}
	}
}

func (r *reader) entry(n *source.Node, depth int, first map[string]source.Span) {
	c := r.next()
	start := r.at
	if !r.one(start) {
		return
	}
	if c != '"' {
		r.stop(start, "a key in quotes is expected here", "put double quotes round the key")
		return
	}
	key := r.text()
	at := source.Span{File: r.file, Start: start, End: r.at}
	if r.next() != ':' {
		r.stop(r.at, "a colon is expected here", "put it between key and value")
		return
	}
	r.at++
	v := r.value(depth + 1)
	if was, twice := first[source.Normal(key)]; twice {
		r.problems.Add(source.Problem{Span: at, Text: fmt.Sprintf("%q is written twice", key), Hint: "keep one of the two",
			Also: []source.Also{{Span: was, Text: "the first is here"}}})
		return
	}
	first[source.Normal(key)] = at
	n.Entries = append(n.Entries, source.Entry{Key: key, KeySpan: at, Value: v})
}

// word passes a word, where it stands here.
func (r *reader) word(w string) bool {
	if !bytes.HasPrefix(r.data[r.at:], []byte(w)) {
		return false
	}
	r.at += len(w)
	return true
}

// number passes a number and gives it as written.
func (r *reader) number() string {
	start := r.at
	digits := func() bool {
		from := r.at
		for r.at < len(r.data) && r.data[r.at] >= '0' && r.data[r.at] <= '9' {
			r.at++
		}
		return r.at > from
	}
	r.word("-")
	good := r.word("0") || digits()
	if good && r.word(".") {
		good = digits()
	}
	if good && (r.word("e") || r.word("E")) {
		if !r.word("+") {
			r.word("-")
		}
		good = digits()
	}
	if !good {
		if r.at == start {
			r.stop(r.at, "a value is expected here: a text in quotes, a number, true, false, null, a list or a mapping", "put double quotes round a text")
		}
		r.stop(r.at, "this is not a number as JSON writes them", "write it like 12 or 0.5, or put it in quotes")
	}
	return string(r.data[start:r.at])
}

// text passes a text in quotes and gives what it says. Half of a pair of surrogates is U+FFFD.
func (r *reader) text() string {
	r.at++
	var b []byte
	for r.at < len(r.data) {
		switch c := r.data[r.at]; {
		case c == '"':
			r.at++
			return string(b)
		case c < ' ':
			r.stop(r.at, "a control character cannot be in a text; write \\n or the like", "take it out, or write its escape")
			return ""
		case c != '\\':
			b = append(b, c)
			r.at++
		default:
			at := r.at
			r.at++
			switch {
			case r.word("u"):
				c, ok := r.hex()
				if !ok {
					r.stop(at, "four hexadecimal digits are expected after \\u", "write it like \\u00e9")
					return ""
				}
				if utf16.IsSurrogate(c) {
					back := r.at
					if low, ok := rune(0), r.word("\\u"); ok {
						if low, ok = r.hex(); ok && utf16.DecodeRune(c, low) != utf8.RuneError {
							b = utf8.AppendRune(b, utf16.DecodeRune(c, low))
							continue
						}
					}
					r.at, c = back, utf8.RuneError
				}
				b = utf8.AppendRune(b, c)
			case r.at < len(r.data) && bytes.IndexByte([]byte(`"\/bfnrt`), r.data[r.at]) >= 0:
				b = append(b, "\"\\/\b\f\n\r\t"[bytes.IndexByte([]byte(`"\/bfnrt`), r.data[r.at])])
				r.at++
			default:
				r.stop(at, "this is no escape that JSON knows", "write a backslash twice")
				return ""
			}
		}
	}
	r.stop(r.at, "", "")
	return ""
}

func (r *reader) hex() (rune, bool) {
	if len(r.data)-r.at < 4 {
		return 0, false
	}
	v, err := strconv.ParseUint(string(r.data[r.at:r.at+4]), 16, 32)
	if err != nil {
		return 0, false
	}
	r.at += 4
	return rune(v), true
}
