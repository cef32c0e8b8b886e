package yaml

import (
	"bytes"
	"strings"
	"unicode/utf8"

	yaml "go.yaml.in/yaml/v4"

	"stowright/internal/source"
)

// The parser tells where a value starts but not where it ends. These functions find the
// end in the text; on text that they do not understand they stop early and never beyond
// the end of the file.

// properties skips the anchor and the tag in front of a value.
func properties(data []byte, at int, y *yaml.Node) int {
	if y.Kind == yaml.AliasNode {
		return at
	}
	left := 0
	if y.Anchor != "" {
		left++
	}
	if y.Style&yaml.TaggedStyle != 0 {
		left++
	}
	for ; left > 0 && at < len(data) && (data[at] == '&' || data[at] == '!'); left-- {
		for at < len(data) && !isSpace(data[at]) && data[at] != ',' && data[at] != ']' && data[at] != '}' {
			at++
		}
		if next := blank(data, at); next < len(data) && (y.Kind != yaml.ScalarNode || y.Value != "" || data[next] == '"' || data[next] == '\'') {
			at = next
		}
	}
	return at
}

func isSpace(c byte) bool { return c == ' ' || c == '\t' || c == '\n' || c == '\r' }

// blank skips white space and comments.
func blank(data []byte, at int) int {
	for at < len(data) {
		switch {
		case isSpace(data[at]):
			at++
		case data[at] == '#' && (at == 0 || isSpace(data[at-1])):
			for at < len(data) && data[at] != '\n' {
				at++
			}
		default:
			return at
		}
	}
	return at
}

// quoted gives the end of a text in quotes that starts at the quote.
func quoted(data []byte, at int, quote byte) int {
	for i := at + 1; i < len(data); i++ {
		switch {
		case quote == '"' && data[i] == '\\':
			i++
		case data[i] == quote && quote == '\'' && i+1 < len(data) && data[i+1] == quote:
			i++
		case data[i] == quote:
			return i + 1
		}
	}
	return len(data)
}

// plain gives the end of a text without quotes: its words stand in the file as they are,
// with white space between them.
func plain(data []byte, at int, value string) int {
	for i, word := range strings.Fields(value) {
		next := at
		for i > 0 && next < len(data) {
			c, n := utf8.DecodeRune(data[next:])
			if !strings.ContainsRune(" \t\r\n\u0085\u2028\u2029\u00a0\u3000", c) && !(c >= 0x2000 && c <= 0x200a) {
				break
			}
			next += n
		}
		if !bytes.HasPrefix(data[next:], []byte(word)) {
			return at
		}
		at = next + len(word)
	}
	return at
}

// block gives the end of a text after "|" or ">", without its last line's end.
func block(data []byte, at int, empty bool) int {
	end := lineEnd(data, at)
	if empty {
		return end
	}
	margin := -1
	for line := end + 1; line < len(data); {
		stop := lineEnd(data, line)
		text := bytes.TrimRight(data[line:stop], " \t\r")
		if len(text) > 0 {
			indent := len(text) - len(bytes.TrimLeft(text, " "))
			if margin < 0 {
				margin = indent
			}
			if indent < margin {
				break
			}
			end = line + len(text)
		}
		line = stop + 1
	}
	return end
}

func lineEnd(data []byte, at int) int {
	if i := bytes.IndexByte(data[min(at, len(data)):], '\n'); i >= 0 {
		return at + i
	}
	return len(data)
}

// closing gives the end of a list or mapping whose last value ends at an offset.
func closing(data []byte, n *source.Node, at int) int {
	at = min(at, len(data))
	if !n.Flow {
		return at
	}
	want := byte(']')
	if n.Kind == source.Map {
		want = '}'
	}
	for i := at; i < len(data); {
		switch c := data[i]; {
		case c == want:
			return i + 1
		case c == ',' || c == ':' || c == '?':
			i++
		case isSpace(c) || c == '#':
			next := blank(data, i)
			if next == i {
				return at
			}
			i = next
		default:
			return at
		}
	}
	return at
}
