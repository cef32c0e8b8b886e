package font_test

import (
	"strings"
	"testing"

	"stowright/internal/draw/font"
)

func TestCleanAndRuns(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"Side, left", "Side, left"},
		{"a\tb\nc", "a b c"},
		{"shelf 😀 x", "shelf \uFFFD x"},
		{"bad\xffbyte", "bad\uFFFDbyte"},
		{"soft\u00adhyphen\u200bless", "softhyphenless"},
		{"Größe Ø 5 ± ½ → ≤ ☐", "Größe Ø 5 ± ½ → ≤ ☐"},
	} {
		if got := font.Clean(c.in); got != c.want {
			t.Errorf("Clean(%q) = %q, want %q", c.in, got, c.want)
		}
	}
	runs := font.Runs("bore ⌀ 5", false, 2.5)
	if len(runs) != 3 || runs[1].Face != font.Spare || runs[1].Text != "⌀" {
		t.Errorf("the sign that Source Sans lacks is not set alone in the spare face: %+v", runs)
	}
	total := 0.0
	for _, r := range runs {
		total += r.Width
	}
	if w := font.Width("bore ⌀ 5", false, 2.5); w != total {
		t.Errorf("width %v, runs %v", w, total)
	}
}

// Letters of one face that are clean are added up; that gives what their runs give.
func TestUnitsAddUp(t *testing.T) {
	for _, bold := range []bool{false, true} {
		for _, s := range []string{"", " ", "Side, left 5 ½", "B3.door ⌀ 5", "tab\there", "\xff", "soft\u00adhyphen"} {
			for c := ' '; c <= '~'; c++ {
				text, sum := s+string(c), 0.0
				first := map[bool]font.Face{false: font.Regular, true: font.Bold}[bold]
				want := font.Clean(text) == strings.ToValidUTF8(text, string(font.Replacement))
				for _, r := range font.Runs(font.Clean(text), bold, 2.5) {
					sum += r.Width
					want = want && r.Face == first
				}
				if w := font.Width(text, bold, 2.5); w != sum {
					t.Errorf("%q, bold %v: width %v, runs %v", text, bold, w, sum)
				}
				units, plain := font.Units(text, bold)
				if plain != want {
					t.Errorf("%q is plain: %v, want %v", text, plain, want)
				}
				if plain && font.Millimetres(units, bold, 2.5) != sum {
					t.Errorf("%q, bold %v: %d units are not %v mm", text, bold, units, sum)
				}
			}
		}
	}
}

// TestDigitsAlign: columns of numbers need digits of one width.
func TestDigitsAlign(t *testing.T) {
	for f := font.Face(0); f < font.Faces; f++ {
		w0, _ := f.Width('0')
		for r := '1'; r <= '9'; r++ {
			if w, _ := f.Width(r); w != w0 {
				t.Errorf("face %d: %c is %d wide, 0 is %d", f, r, w, w0)
			}
		}
	}
}
