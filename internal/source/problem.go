package source

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"stowright/internal/order"
)

// Problem is one mistake in a file.
type Problem struct {
	Span Span
	Text string // what is wrong and what was expected, one clause
	Hint string // what to write instead
	Also []Also // other places that matter, such as the first of two equal keys
}

// Also is a second place of a problem.
type Also struct {
	Span Span
	Text string
}

// Problems is a list of mistakes; the zero value is ready to use.
type Problems []Problem

// Add appends problems.
func (ps *Problems) Add(p ...Problem) { *ps = append(*ps, p...) }

// Sort orders by file, place and text, and drops what is said twice.
func (ps *Problems) Sort() {
	order.Stable(*ps, func(a, b Problem) int {
		return cmp.Or(
			strings.Compare(a.Span.name(), b.Span.name()),
			cmp.Compare(a.Span.Start, b.Span.Start),
			cmp.Compare(a.Span.End, b.Span.End),
			strings.Compare(a.Text, b.Text),
		)
	})
	*ps = slices.CompactFunc(*ps, func(a, b Problem) bool { return a.Span == b.Span && a.Text == b.Text })
}

func (s Span) name() string {
	if s.File == nil {
		return ""
	}
	return s.File.Name
}

// String gives the problem in one line, without the excerpt.
func (p Problem) String() string {
	s := p.Text
	if p.Span.Known() {
		s = fmt.Sprintf("%s:%d:%d: %s", p.Span.File.Name, p.Span.Line(), p.Span.Column(), s)
	}
	if p.Hint != "" {
		s += "; " + p.Hint
	}
	return s
}

// Print writes the problems in order with line and caret, at most the first most, and
// how many more there are. A most of 0 means all.
func (ps Problems) Print(w io.Writer, most int) error {
	for i, p := range ps {
		if most > 0 && i == most {
			_, err := fmt.Fprintf(w, "and %d more\n", len(ps)-most)
			return err
		}
		if _, err := io.WriteString(w, p.Excerpt()); err != nil {
			return err
		}
	}
	return nil
}

// Excerpt gives the problem with the line it is on and a caret below, then the other
// places, then the hint.
func (p Problem) Excerpt() string {
	var b strings.Builder
	if p.Span.Known() {
		fmt.Fprintf(&b, "%s:%d:%d: %s\n", p.Span.File.Name, p.Span.Line(), p.Span.Column(), p.Text)
		p.Span.excerpt(&b)
	} else {
		fmt.Fprintf(&b, "%s\n", p.Text)
	}
	for _, a := range p.Also {
		if a.Span.Known() {
			fmt.Fprintf(&b, "  %s:%d:%d: %s\n", a.Span.File.Name, a.Span.Line(), a.Span.Column(), a.Text)
			a.Span.excerpt(&b)
		}
	}
	if p.Hint != "" {
		fmt.Fprintf(&b, "      = %s\n", p.Hint)
	}
	return b.String()
}

// excerptWidth is how many characters of a line are shown; a longer line is cut around the caret.
const excerptWidth = 92

func (s Span) excerpt(b *strings.Builder) {
	line, from := s.Line(), s.Column()-1
	text := s.File.Line(line)
	to := utf8.RuneCountInString(text)
	if s.EndLine() == line {
		to = s.EndColumn() - 1
	}
	// Tabs and other control characters are shown as spaces, so that the caret stands right.
	var shown []rune
	start, end := -1, -1
	i := 0
	for _, r := range text {
		if i == from {
			start = len(shown)
		}
		if i == to {
			end = len(shown)
		}
		i++
		switch {
		case r == '\t':
			shown = append(shown, ' ')
			for len(shown)%4 != 0 {
				shown = append(shown, ' ')
			}
		case r < ' ' || r == 0x7f || r == 0x85 || r == 0x2028 || r == 0x2029:
			shown = append(shown, ' ')
		default:
			shown = append(shown, r)
		}
	}
	if start < 0 {
		start = len(shown)
	}
	if end < 0 {
		end = len(shown)
	}
	end = max(end, start+1)
	if len(shown) > excerptWidth {
		cut := max(0, min(start-excerptWidth/3, len(shown)-excerptWidth))
		stop := min(cut+excerptWidth, len(shown))
		tail := stop < len(shown)
		shown = slices.Clone(shown[cut:stop])
		if cut > 0 {
			shown[0] = '…'
		}
		if tail {
			shown[len(shown)-1] = '…'
		}
		start, end = start-cut, min(end-cut, max(len(shown), start-cut+1))
	}
	fmt.Fprintf(b, "%5d | %s\n", line, strings.TrimRight(string(shown), " "))
	fmt.Fprintf(b, "      | %s%s\n", strings.Repeat(" ", start), strings.Repeat("^", end-start))
}

// Nearest gives the word that is nearest to a misspelt one, "" when none is near: at most
// one slip in three letters, where swapping two neighbours counts as one slip, and one slip only where the first
// letter is another. The first of equals wins.
func Nearest(word string, words []string) string {
	best, least := "", len(word)/3+1
	if len(word) > 60 {
		return ""
	}
	w := []rune(Normal(word))
	for _, candidate := range words {
		c := []rune(Normal(candidate))
		if d := len(c) - len(w); d > least || -d > least {
			continue
		}
		if d := slips(w, c); d > 1 && len(c) > 0 && c[0] != w[0] {
			continue // two slips of which one is in the first letter: another word
		} else if d < least || d == least && best == "" && d <= len(word)/3 {
			best, least = candidate, d
		}
	}
	if best != "" {
		return best
	}
	for _, candidate := range words { // a word that was cut short, or said more fully
		c := Normal(candidate)
		if len(w) >= 4 && (strings.HasPrefix(c, string(w)) || strings.HasPrefix(string(w), c) && len(c) >= 4) {
			return candidate
		}
	}
	return ""
}

// slips counts the letters to add, drop, change or swap with a neighbour to get from a to b
// (the optimal string alignment distance).
func slips(a, b []rune) int {
	before, last, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := range a {
		row[0] = i + 1
		for j := range b {
			cost := 1
			if a[i] == b[j] {
				cost = 0
			}
			row[j+1] = min(last[j]+cost, last[j+1]+1, row[j]+1)
			if i > 0 && j > 0 && a[i] == b[j-1] && a[i-1] == b[j] {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(b)]
}
