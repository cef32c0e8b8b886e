package yaml

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	yaml "go.yaml.in/yaml/v4"

	"stowright/internal/source"
)

// syntax says what is broken in the notation. The parser stops at its first error, so each
// key with what belongs to it is tried alone as well, and where that is broken each key below it: then
// every key that is broken in itself is reported at once.
func syntax(f *source.File, err error) source.Problems {
	s := &splitter{f: f}
	for _, c := range s.keys(chunk{0, len(f.Data)}, 0) {
		s.try(c, 1)
	}
	if len(s.found) == 0 {
		s.found.Add(problem(f, 0, err))
	}
	return s.found
}

type splitter struct {
	f     *source.File
	tried int
	found source.Problems
}

type chunk struct{ start, end int }

// Bounds of the work on a broken file.
const (
	maxChunks = 1000
	maxFound  = 30
	maxBelow  = 8
)

// try reports what is broken in a chunk: in what is below its first line, where that is broken in itself.
func (s *splitter) try(c chunk, depth int) {
	if s.tried++; len(s.found) >= maxFound || s.tried > maxChunks {
		return
	}
	_, err := load(s.f.Data[c.start:c.end])
	if err == nil || strings.Contains(err.Error(), "unknown anchor") {
		return
	}
	before := len(s.found)
	if below, indent, ok := s.below(c); ok && depth < maxBelow {
		for _, k := range s.keys(below, indent) {
			s.try(k, depth+1)
		}
	}
	if len(s.found) == before {
		s.found.Add(problem(s.f, c.start, err))
	}
}

// below gives what follows the first line of a chunk, and how far its first line is indented; false where that is not
// further than the first, and for blocks of text.
func (s *splitter) below(c chunk) (chunk, int, bool) {
	data := s.f.Data
	first := bytes.TrimRight(data[c.start:min(lineEnd(data, c.start), c.end)], " \r\n")
	if i := bytes.LastIndexByte(first, ' '); i >= 0 && bytes.ContainsAny(first[i+1:min(i+2, len(first))], "|>") {
		return chunk{}, 0, false
	}
	own := len(first) - len(bytes.TrimLeft(first, " "))
	for at := min(lineEnd(data, c.start)+1, c.end); at < c.end; at = min(lineEnd(data, at)+1, c.end) {
		line := data[at:min(lineEnd(data, at), c.end)]
		text := bytes.TrimLeft(line, " ")
		if len(bytes.TrimSpace(text)) == 0 || text[0] == '#' {
			continue
		}
		return chunk{at, c.end}, len(line) - len(text), len(line)-len(text) > own
	}
	return chunk{}, 0, false
}

// keys cuts a chunk before each line that starts with a key, or an item of a list, at an indent.
func (s *splitter) keys(in chunk, indent int) []chunk {
	data := s.f.Data
	var r []chunk
	for at := in.start; at < in.end; {
		end := min(lineEnd(data, at)+1, in.end)
		line := bytes.TrimRight(data[at:end], "\r\n")
		text := bytes.TrimLeft(line, " ")
		c, _ := utf8.DecodeRune(text)
		isKey := len(text) > 0 && len(line)-len(text) == indent && !strings.ContainsRune(" \t#-?%.,[]{}&*!|>'\"@`", c) &&
			(bytes.HasSuffix(line, []byte{':'}) || bytes.Contains(line, []byte(": ")) || bytes.Contains(line, []byte(":\t"))) ||
			indent > 0 && len(line)-len(text) == indent && bytes.HasPrefix(text, []byte("- "))
		if isKey || len(r) == 0 {
			r = append(r, chunk{at, end})
		} else {
			r[len(r)-1].end = end
		}
		if len(r) > maxChunks {
			return nil
		}
		at = end
	}
	return r
}

// unread is the remedy for what the parser alone knows the reason of.
const unread = "look at this line and the one above it: indents, quotes, brackets, colons"

// problem puts a parser's error into a maker's words. The text that was parsed starts at base.
func problem(f *source.File, base int, err error) source.Problem {
	var e *yaml.LoadError
	if errors.Is(err, errDepth) || strings.Contains(err.Error(), errDepth.Error()) {
		at := base
		if errors.As(err, &e) {
			at = place(f, base, e.Mark)
		}
		return source.Problem{Span: at1(f, at), Text: errDepth.Error(), Hint: source.Flatter}
	}
	if !errors.As(err, &e) {
		return source.Problem{Span: at1(f, base), Text: err.Error(), Hint: unread}
	}
	mark, opened := place(f, base, e.Mark), place(f, base, e.ContextMark)
	at := at1(f, mark)
	says := func(s string) bool { return strings.Contains(e.Message, s) }
	inside := func(s string) bool { return strings.Contains(e.ContextMsg, s) }
	switch {
	case says("multiple"):
		return source.Problem{Span: at1(f, second(f.Data)), Text: "a job file is one document, and a second one starts here", Hint: "take the \"---\" out"}
	case says("cannot start any token"):
		c, _ := utf8.DecodeRune(f.Data[mark:])
		if c == '\t' {
			return source.Problem{Span: at, Text: "a tab cannot indent a line", Hint: "use spaces"}
		}
		return source.Problem{Span: at, Text: fmt.Sprintf("a value cannot start with %q", string(c)), Hint: "put it in quotes"}
	case says("',' or ']'"):
		return source.Problem{Span: at1(f, opened), Text: "the list that is opened here is not closed, or a comma is missing in it", Hint: "close it with \"]\"", Also: stopped(f, at, opened)}
	case says("',' or '}'"):
		return source.Problem{Span: at1(f, opened), Text: "the mapping that is opened here is not closed, or a comma is missing in it", Hint: "close it with \"}\"", Also: stopped(f, at, opened)}
	case inside("quoted scalar") && says("end of stream"), inside("quoted scalar") && says("document indicator"):
		return source.Problem{Span: at1(f, opened), Text: "the quotes that are opened here are not closed", Hint: "an inch mark needs no quotes when a number comes first: 30 1/4\""}
	case says("unknown escape"):
		return source.Problem{Span: at, Text: "a backslash in double quotes starts an escape, and this one is not known", Hint: "use single quotes, or write the backslash twice"}
	case says("mapping values are not allowed"):
		return source.Problem{Span: at, Text: "a \":\" is not expected here", Hint: "begin the line under its neighbours; put a text that has \": \" in it in quotes"}
	case says("sequence entries are not allowed"):
		return source.Problem{Span: at, Text: "a list item is not expected here", Hint: "begin the \"-\" on a line of its own, under its neighbours"}
	case says("could not find expected ':'"):
		return source.Problem{Span: at1(f, opened), Text: "a key is expected here, with \": \" after it", Hint: "leave a space after the colon"}
	case says("did not find expected key"):
		return source.Problem{Span: at, Text: "this does not fit the lines above; a key was expected", Hint: "begin the line under its neighbours; a value that starts with a quote must end with it"}
	case says("'-' indicator"):
		return source.Problem{Span: at, Text: "this does not fit the list above; \"- \" was expected", Hint: "begin the line under its neighbours"}
	case says("found a tab"), says("tab character"), inside("tab"):
		return source.Problem{Span: at, Text: "a tab cannot indent a line", Hint: "use spaces"}
	case says("unknown anchor"):
		return source.Problem{Span: at, Text: e.Message, Hint: "an anchor (&name) must come before its alias (*name)"}
	}
	text := e.Message
	if e.ContextMsg != "" {
		text += " " + e.ContextMsg
	}
	return source.Problem{Span: at, Text: text, Hint: unread}
}

func stopped(f *source.File, at source.Span, opened int) []source.Also {
	if f == nil || at.Start == opened {
		return nil
	}
	return []source.Also{{Span: at, Text: "reading stopped here"}}
}

// place gives the offset of a parser's mark; 0 when it has none.
func place(f *source.File, base int, m yaml.Mark) int {
	if m.Line == 0 {
		return base
	}
	part := f.Data[base:]
	return base + offset(part, breaks(part), m.Line, m.Column)
}

// at1 is the span of the character at an offset; at the end of the file, of the last one that is not white space.
func at1(f *source.File, at int) source.Span {
	if at >= len(f.Data) {
		at = len(bytes.TrimRight(f.Data, " \t\r\n"))
		return source.Span{File: f, Start: at, End: at}
	}
	_, n := utf8.DecodeRune(f.Data[at:])
	return source.Span{File: f, Start: at, End: at + n}
}

// second finds where the second document of a file starts.
func second(data []byte) int {
	content := false
	for at := 0; at < len(data); at = lineEnd(data, at) + 1 {
		line := bytes.TrimSpace(data[at:lineEnd(data, at)])
		switch {
		case bytes.HasPrefix(data[at:], []byte("---")):
			if content {
				return at
			}
			content = true
		case len(line) > 0 && line[0] != '#' && line[0] != '%':
			content = true
		}
	}
	return len(data)
}
