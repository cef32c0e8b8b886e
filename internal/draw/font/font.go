// Package font knows how wide letters are. It holds the advance widths of the two
// faces the paper is set in and of the two that stand in for letters those lack, so
// that layout, the PDF and the SVG agree on where a text ends to the hundredth of a
// millimetre. The outlines themselves are in package font/ttf, which only encoders need.
//
// Text is set without kerning: a width is the sum of its letters' widths.
package font

import (
	_ "embed"
	"encoding/binary"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Face is one cut of letters.
type Face uint8

// The faces, in the order of the metrics file. The spare faces have nearly every letter
// and sign and are used rune by rune where the first choice has none.
const (
	Regular   Face = iota // Source Sans 3 Regular
	Bold                  // Source Sans 3 SemiBold
	Spare                 // DejaVu Sans Condensed
	SpareBold             // DejaVu Sans Condensed Bold
	Faces                 // how many there are
)

// Cap is the height of a flat capital in thousandths of the em, from the letters' outlines.
func (f Face) Cap() int {
	switch f {
	case Regular:
		return 656
	case Bold:
		return 654
	}
	return 729
}

// Rise and Drop are how far letters reach above and below the baseline, as a share of
// the height of a capital: accents on capitals apart, every letter of both families
// stays within them.
const (
	Rise = 1.10
	Drop = 0.345
)

// Replacement is printed for a letter that no face has.
const Replacement = '\uFFFD'

// metrics: for each face a little-endian uint32 count, then count records of uint16 rune
// and uint16 width, sorted by rune. Written by the test of package font/ttf with -update.
//
//go:embed metrics.bin
var metrics string

// tables are the records of each face.
var tables = split(metrics)

func split(rest string) (list [Faces]string) {
	for f := range list {
		n := 4 * int(binary.LittleEndian.Uint32([]byte(rest[:4])))
		list[f], rest = rest[4:4+n], rest[4+n:]
	}
	return list
}

// Width gives the advance of r in thousandths of the em, and whether the face has r.
func (f Face) Width(r rune) (int, bool) {
	if r < 0 || r > 0xFFFF {
		return 0, false
	}
	t := tables[f]
	lo, hi := 0, len(t)/4
	// Where the first letters of the table follow each other, a letter is where it is counted to be.
	if m := int(r) - (int(t[0]) | int(t[1])<<8); m >= 0 && m < hi && rune(t[4*m])|rune(t[4*m+1])<<8 == r {
		return int(t[4*m+2]) | int(t[4*m+3])<<8, true
	}
	for lo < hi {
		m := (lo + hi) / 2
		at := rune(t[4*m]) | rune(t[4*m+1])<<8
		switch {
		case at == r:
			return int(t[4*m+2]) | int(t[4*m+3])<<8, true
		case at < r:
			lo = m + 1
		default:
			hi = m
		}
	}
	return 0, false
}

// Run is a piece of text in one face.
type Run struct {
	Face  Face
	Text  string
	Em    float64 // size of the em in mm
	Width float64 // mm
}

// Clean makes text fit for paper: tabs, line ends and other control characters become
// spaces, and what no face can show becomes Replacement.
func Clean(s string) string {
	plain := utf8.ValidString(s)
	for _, r := range s {
		if r < ' ' || r > '~' {
			plain = false
			break
		}
	}
	if plain {
		return s
	}
	return strings.Map(cleaned, s)
}

// cleaned gives what stands on paper for a letter: itself, another, or nothing (-1).
func cleaned(r rune) rune {
	if ' ' <= r && r <= '~' {
		return r
	}
	if unicode.IsControl(r) || r == '\u2028' || r == '\u2029' {
		return ' '
	}
	if unicode.Is(unicode.Cf, r) || unicode.Is(unicode.Variation_Selector, r) {
		return -1
	}
	if _, ok := Regular.Width(r); ok {
		return r
	}
	if _, ok := Spare.Width(r); ok {
		return r
	}
	return Replacement
}

// Runs splits cleaned text into pieces of one face each. The capitals of every piece are
// cap millimetres high.
func Runs(s string, bold bool, cap float64) []Run {
	var runs []Run
	each(s, bold, cap, func(r Run) { runs = append(runs, r) })
	return runs
}

// each gives the pieces of Runs one after the other.
func each(s string, bold bool, cap float64, to func(Run)) {
	first, spare := Regular, Spare
	if bold {
		first, spare = Bold, SpareBold
	}
	start, units := 0, 0
	face := first
	flush := func(end int) {
		if end > start {
			em := cap * 1000 / float64(face.Cap())
			to(Run{Face: face, Text: s[start:end], Em: em, Width: float64(units) * em / 1000})
		}
		start, units = end, 0
	}
	for i, r := range s {
		f := first
		w, ok := first.Width(r)
		if !ok {
			if v, has := spare.Width(r); has {
				f, w = spare, v
			} else { // a bold letter may exist in the regular cut only
				f = Spare
				w, _ = Spare.Width(r)
			}
		}
		if f != face {
			flush(i)
			face = f
		}
		units += w
	}
	flush(len(s))
}

// Width gives the width in mm of text whose capitals are cap mm high.
func Width(s string, bold bool, cap float64) float64 {
	if units, ok := Units(s, bold); ok {
		return Millimetres(units, bold, cap)
	}
	w := 0.0
	each(Clean(s), bold, cap, func(r Run) { w += r.Width })
	return w
}

// Units gives the width of text in thousandths of the em, and whether it is of one face and clean, as nearly all text is:
// such widths add up.
func Units(s string, bold bool) (units int, plain bool) {
	face := Regular
	if bold {
		face = Bold
	}
	for _, r := range s {
		w, ok := face.Width(r)
		if !ok || cleaned(r) != r {
			return 0, false
		}
		units += w
	}
	return units, true
}

// Millimetres gives what a width of [Units] is where capitals are cap mm high.
func Millimetres(units int, bold bool, cap float64) float64 {
	face := Regular
	if bold {
		face = Bold
	}
	em := cap * 1000 / float64(face.Cap())
	return float64(units) * em / 1000
}
