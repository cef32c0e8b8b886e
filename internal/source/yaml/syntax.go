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
// top-level key with what belongs to it is tried alone as well: then every key that is
// broken in itself is reported at once.
func syntax(f *source.File, err error) source.Problems {
	var found source.Problems
	for _, c := range chunks(f.Data) {
		if len(found) == maxFound {
			break
		}
		if _, err := load(f.Data[c.start:c.end]); err != nil && !strings.Contains(err.Error(), "unknown anchor") {
			found.Add(problem(f, c.start, err))
		}
	}
	if len(found) == 0 {
		found.Add(problem(f, 0, err))
	}
	return found
}

type chunk struct{ start, end int }

// Bounds of the work on a broken file.
const (
	maxChunks = 1000
	maxFound  = 30
)

// chunks cuts a file before each line that starts with a key at the margin; nil when there is no more than one.
func chunks(data []byte) []chunk {
	var r []chunk
	for at := 0; at < len(data); {
		end := min(lineEnd(data, at)+1, len(data))
		line := bytes.TrimRight(data[at:end], "\r\n")
		c, _ := utf8.DecodeRune(line)
		isKey := len(line) > 0 && !strings.ContainsRune(" \t#-?%.,[]{}&*!|>'\"@`", c) &&
			(bytes.HasSuffix(line, []byte{':'}) || bytes.Contains(line, []byte(": ")) || bytes.Contains(line, []byte(":\t")))
		if isKey || len(r) == 0 {
			r = append(r, chunk{at, end})
		} else {
			r[len(r)-1].end = end
		}
		at = end
	}
	if len(r) < 2 || len(r) > maxChunks {
		return nil
	}
	return r
}

// problem puts a parser's error into a maker's words. The text that was parsed starts at base.
func problem(f *source.File, base int, err error) source.Problem {
	var e *yaml.LoadError
	if errors.Is(err, errDepth) || strings.Contains(err.Error(), errDepth.Error()) {
		at := base
		if errors.As(err, &e) {
			at = place(f, base, e.Mark)
		}
		return source.Problem{Span: at1(f, at), Text: errDepth.Error()}
	}
	if !errors.As(err, &e) {
		return source.Problem{Span: at1(f, base), Text: err.Error()}
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
	return source.Problem{Span: at, Text: text}
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
