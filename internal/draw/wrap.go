package draw

import (
	"strings"

	"stowright/internal/draw/font"
)

// Wrap breaks text into lines no wider than width mm. A word that is wider than a line is
// broken where it must be. Line ends in text are kept.
func Wrap(text string, size float64, bold bool, width float64) []string {
	var lines []string
	measureText(text, size, bold).lines(width, func(line []word) {
		if len(line) == 1 {
			lines = append(lines, line[0].text)
			return
		}
		texts := make([]string, len(line))
		for i, w := range line {
			texts[i] = w.text
		}
		lines = append(lines, strings.Join(texts, " "))
	})
	return lines
}

// measured is text of one size whose words were measured once, to be broken at several widths.
type measured struct {
	size  float64
	bold  bool
	space int // in units of the font
	paras [][]word
}

// word is what stays on one line.
type word struct {
	text  string
	units int
	plain bool // units is all there is to know of its width
}

func measureText(text string, size float64, bold bool) *measured {
	m := &measured{size: size, bold: bold}
	m.space, _ = font.Units(" ", bold)
	for _, para := range strings.Split(text, "\n") {
		var ws []word
		for _, w := range words(font.Clean(para)) {
			ws = append(ws, m.word(w))
		}
		m.paras = append(m.paras, ws)
	}
	return m
}

func (m *measured) word(text string) word {
	units, plain := font.Units(text, m.bold)
	return word{text, units, plain}
}

// count tells how many lines a width needs.
func (m *measured) count(width float64) int {
	n := 0
	m.lines(width, func([]word) { n++ })
	return n
}

// lines breaks the text into lines no wider than a width.
func (m *measured) lines(width float64, take func([]word)) {
	for _, ws := range m.paras {
		if len(ws) == 0 {
			take([]word{{plain: true}})
		}
		for len(ws) > 0 {
			n := m.fitting(ws, width)
			if n == 0 {
				if head, rest := m.cut(ws[0].text, width); rest != "" {
					take([]word{m.word(head)})
					ws = append([]word{m.word(rest)}, ws[1:]...)
					continue
				}
				n = 1
			}
			take(ws[:n])
			ws = ws[n:]
		}
	}
}

// fitting tells how many of the first words fit in a width.
func (m *measured) fitting(ws []word, width float64) int {
	units, plain, line := -m.space, true, ""
	for n, w := range ws {
		units += m.space + w.units
		if plain && !w.plain {
			plain = false
			for _, x := range ws[:n] {
				line += x.text + " "
			}
		}
		wide := 0.0
		if plain {
			wide = font.Millimetres(units, m.bold, m.size)
		} else {
			line += w.text
			wide = font.Width(line, m.bold, m.size)
			line += " "
		}
		if wide > width {
			return n
		}
	}
	return len(ws)
}

// cut breaks a word that is wider than a line; there is no rest of one that cannot be broken.
func (m *measured) cut(word string, width float64) (head, rest string) {
	cut, last := 0, 0
	for i := range word {
		if i > 0 && font.Width(word[:i], m.bold, m.size) > width {
			break
		}
		last, cut = cut, i
	}
	if cut == 0 {
		cut = max(last, len(string([]rune(word)[:1])))
	}
	return word[:cut], word[cut:]
}

// words splits text where a line may break: not within a mixed number nor before its unit or its ×, not between the sizes of a
// screw nor between a count and what is counted, not before a number that a thing is called by, nor before the mark of what
// is left out.
func words(text string) []string {
	var out []string
	for _, w := range strings.Fields(text) {
		if n := len(out); n > 0 && together(out[n-1], w) {
			out[n-1] += " " + w
			continue
		}
		out = append(out, w)
	}
	return out
}

// units stand on the line of their figure.
var units = map[string]bool{"in": true, "mm": true, "m": true, "m2": true, "ft": true, "ft2": true, "lb": true, "kg": true, "l": true, "ml": true, "N": true, "MPa": true, "%": true, "×": true, "x": true}

// numbered are words whose number stands on their line.
var numbered = map[string]bool{"drawer": true, "shelf": true, "step": true, "sheet": true, "number": true, "layer": true, "piece": true, "rung": true, "block": true, "hole": true, "rail": true}

// together tells whether a word stays on the line of the one before it.
func together(last, w string) bool {
	digits := func(s string) bool { return s != "" && strings.Trim(s, "0123456789(,.") == "" }
	figure := func(s string) bool { return s != "" && strings.Trim(s, "0123456789(./)") == "" }
	bare := strings.TrimRight(w, ",.;:)")
	num, den, fraction := strings.Cut(strings.TrimRight(w, ",.;:)\""), "/")
	before, head := "", last
	if i := strings.LastIndex(last, " "); i >= 0 {
		before, head = last[:i], last[i+1:]
	}
	before = before[strings.LastIndex(before, " ")+1:]
	switch {
	case w == "…":
		return true
	case fraction && digits(num) && digits(den) && digits(head) && !strings.ContainsAny(head, ",."): // a mixed number
		return true
	case units[bare] && figure(head):
		return true
	case head == "x" && figure(before) && figure(bare): // number 8 x 1 1/4
		return true
	case head == "×" && digits(before) && !strings.ContainsAny(before, "(.,") && bare != "" && !figure(bare): // 4 × screw
		return true
	}
	return numbered[strings.TrimLeft(head, "(")] && digits(bare) && !strings.ContainsAny(bare, "(,.")
}
