package font_test

import (
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
