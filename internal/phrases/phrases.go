// Package phrases puts what the paper says into another language, sentence by sentence: a sentence is looked up
// with its figures, marks and names left out, so that one entry serves all that differ in these alone.
package phrases

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// Phrase is a sentence of the paper with {1}, {2} where its figures, marks and names stand, and in other words; "" where nobody
// has said it yet.
type Phrase struct{ Text, Other string }

// Book holds phrases and notes those that the paper asks for.
type Book struct {
	Lang  string // of the other words, as ISO 639 has it: "de"
	other map[string]string
	names *regexp.Regexp
	asked map[string]bool
	order []string
	said  map[string]string // sentences that were put already, as they stand
	done  map[string]bool   // what came of that: a text may come by twice
}

// New makes a book of phrases. Names are what the job calls its things: they stay as they are.
func New(lang string, list []Phrase, names []string) *Book {
	b := &Book{Lang: lang, other: map[string]string{}, asked: map[string]bool{}, said: map[string]string{}, done: map[string]bool{}}
	for _, p := range list {
		if p.Other != "" {
			b.other[p.Text] = p.Other
		}
	}
	names = slices.Clone(names)
	slices.SortFunc(names, func(x, y string) int { return cmp.Or(len(y)-len(x), strings.Compare(x, y)) })
	alt := []string{mark, figure}
	for i := len(names) - 1; i >= 0; i-- {
		n := names[i]
		if strings.ContainsFunc(n, unicode.IsLetter) && strings.ContainsFunc(n, func(r rune) bool { return !unicode.IsLower(r) }) { // a plain word is one of the language too
			alt = slices.Insert(alt, 0, word(n, regexp.QuoteMeta(n)))
			if first, rest := n[:1], n[1:]; first != strings.ToUpper(first) { // at the head of a sentence
				alt = slices.Insert(alt, 0, word(n, regexp.QuoteMeta(strings.ToUpper(first)+rest)))
			}
		}
	}
	b.names = regexp.MustCompile(strings.Join(alt, "|"))
	return b
}

// word keeps a name from being found within a longer word.
func word(name, pattern string) string {
	r := []rune(name)
	if unicode.IsLetter(r[len(r)-1]) {
		pattern += `\b`
	}
	if r[0] < 128 && unicode.IsLetter(r[0]) {
		pattern = `\b` + pattern
	}
	return pattern
}

const (
	mark   = `\b[A-Z][A-Za-z]*\d*\.[0-9A-Za-z]+(?:[–,][0-9A-Za-z]+)*|\b[A-Z]\d?\b|\b\d+[a-z]+\d*(?:–\d*[a-z]*\d*)?\b|\b[a-z]+\d+(?:–\d+)?\b`
	figure = `[+-]?\b\d[\d/.,]*(?:[ –×]+\d[\d/.,]*)*\b(?: \(\d[\d/. ]*\))?`
)

// ends is where one sentence, or one of several that stand together, ends and the next begins.
var ends = regexp.MustCompile(`[.!?:;] `)

// Say gives a text in other words as far as the book has them. A nil book leaves all as it is.
func (b *Book) Say(text string) string {
	if b == nil {
		return text
	}
	var out strings.Builder
	for rest := text; rest != ""; {
		end := len(rest)
		if m := ends.FindStringIndex(rest); m != nil {
			end = m[1]
		}
		out.WriteString(b.sentence(rest[:end]))
		rest = rest[end:]
	}
	return out.String()
}

func (b *Book) sentence(text string) string {
	out, ok := b.said[text]
	if !ok {
		if b.done[strings.TrimSpace(text)] {
			return text
		}
		out = b.put(text)
		b.said[text] = out
		b.done[strings.TrimSpace(out)] = true
	}
	return out
}

func (b *Book) put(text string) string {
	body := strings.TrimRight(strings.TrimSpace(text), ";")
	if !strings.ContainsFunc(body, unicode.IsLetter) || strings.HasSuffix(body, "…") { // what was cut short was put before
		return text
	}
	key, values := b.key(body)
	if !strings.ContainsFunc(holes.ReplaceAllString(key, ""), unicode.IsLetter) {
		return text
	}
	if !b.asked[key] {
		b.asked[key] = true
		b.order = append(b.order, key)
	}
	other, ok := b.other[key]
	if !ok {
		return text
	}
	at := strings.Index(text, body)
	return text[:at] + holes.ReplaceAllStringFunc(other, func(h string) string {
		n, _ := strconv.Atoi(h[1 : len(h)-1])
		if n < 1 || n > len(values) {
			return h
		}
		return values[n-1]
	}) + text[at+len(body):]
}

var holes = regexp.MustCompile(`\{\d+\}`)

// key leaves the figures, marks and names of a sentence out, and gives them.
func (b *Book) key(text string) (string, []string) {
	var values []string
	key := b.names.ReplaceAllStringFunc(text, func(v string) string {
		end := strings.TrimRight(v, ".,") // the sentence's own
		values = append(values, end)
		return fmt.Sprintf("{%d}%s", len(values), v[len(end):])
	})
	return key, values
}

// Asked gives the phrases that were asked for, in the order in which they were first met, with what the book says.
func (b *Book) Asked() []Phrase {
	var list []Phrase
	for _, k := range b.order {
		list = append(list, Phrase{k, b.other[k]})
	}
	return list
}

// Said counts those of the phrases asked for that have other words, and all.
func (b *Book) Said() (said, all int) {
	for _, k := range b.order {
		if b.other[k] != "" {
			said++
		}
	}
	return said, len(b.order)
}

// Complete gives a list with the phrases behind it that were asked for and that it lacks.
func (b *Book) Complete(list []Phrase) []Phrase {
	has := map[string]bool{}
	for _, p := range list {
		has[p.Text] = true
	}
	return append(slices.Clone(list), slices.DeleteFunc(b.Asked(), func(p Phrase) bool { return has[p.Text] })...)
}

// Check tells what is wrong with a phrase: a figure that its other words leave out, or one that it has not.
func (p Phrase) Check() string {
	if p.Other == "" {
		return ""
	}
	have := holes.FindAllString(p.Text, -1)
	for _, h := range have {
		if !strings.Contains(p.Other, h) {
			return "it leaves out " + h
		}
	}
	for _, h := range holes.FindAllString(p.Other, -1) {
		if !slices.Contains(have, h) {
			return h + " is not in the sentence"
		}
	}
	return ""
}
