package draw

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"stowright/internal/draw/font"
)

// Lines are filled by adding up the widths of words that were measured once. They break where lines do
// of which each is measured whole, a word more at a time.
func TestWrapAsMeasuredWhole(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 7))
	pieces := []string{"a", "case", "of 18", "mm", "birch", "⌀ 5", "½", "36", "1/4", "in,", "…", "Größe", "×", "300",
		"an-unreasonably-long-word-that-no-column-holds", "⌀⌀⌀⌀⌀⌀⌀⌀⌀⌀⌀⌀⌀", "\n", "(see", "B.left)", "\t"}
	cut, mixed := 0, 0
	for range 2000 {
		text := ""
		for range rng.IntN(25) {
			text += pieces[rng.IntN(len(pieces))] + " "
		}
		size, bold, width := 2+3*rng.Float64(), rng.IntN(2) == 0, 60*rng.Float64()
		got, want := Wrap(text, size, bold, width), wrapWhole(text, size, bold, width)
		if !slices.Equal(got, want) {
			t.Fatalf("%q in %.2f mm:\n%q\nwant\n%q", text, width, got, want)
		}
		if n := measureText(text, size, bold).count(width); n != len(want) {
			t.Fatalf("%q in %.2f mm: counted %d lines, set %d", text, width, n, len(want))
		}
		if len(want) > len(words(text)) {
			cut++
		}
		if strings.Contains(text, "⌀") {
			mixed++
		}
	}
	if cut < 50 || mixed < 500 {
		t.Errorf("%d texts with words cut, %d in two faces: too few are tried", cut, mixed)
	}
}

// wrapWhole is Wrap, slow and plain.
func wrapWhole(text string, size float64, bold bool, width float64) (lines []string) {
	wide := func(s string) bool {
		sum := 0.0
		for _, r := range font.Runs(font.Clean(s), bold, size) {
			sum += r.Width
		}
		return sum > width
	}
	for _, para := range strings.Split(text, "\n") {
		line := ""
		for _, word := range words(font.Clean(para)) {
			if line != "" && !wide(line+" "+word) {
				line += " " + word
				continue
			}
			if line != "" {
				lines = append(lines, line)
			}
			for letters := []rune(word); wide(word) && len(letters) > 1; letters = []rune(word) {
				n := 1
				for n+1 < len(letters) && !wide(string(letters[:n+1])) {
					n++
				}
				lines = append(lines, string(letters[:n]))
				word = string(letters[n:])
			}
			line = word
		}
		lines = append(lines, line)
	}
	return lines
}

// What is read as one stays on one line: a count and what is counted, the sizes of a screw, a figure and its unit or ×, a
// thing and the number it is called by. However narrow the column, a line that can be longer is not broken there.
func TestWordsThatStayTogether(t *testing.T) {
	for _, x := range []struct{ text, whole string }{
		{"Glue and 4 × wood screw 4 x 50. Countersink for the heads", "4 × wood|4 x 50."},
		{"Fit 10 × pocket screw number 8 x 1 1/4 in, coarse", "10 × pocket|number 8 x 1 1/4 in,"},
		{"Scale 1:15. 720 × 300.5 (300.6) × 17.4. Edging: front edge", "300.5|(300.6) ×"},
		{"Mirror image: B.3side2 (right side of drawer 3).", "drawer 3)."},
		{"varnish 20 × can of 10.0 m2 and 1.4 ft2", "20 × can|10.0 m2|1.4 ft2"},
		{"as step 108 says, 10 % more", "step 108|10 %"},
		{"pieces 31 9/16 × 3 1/2 each", "31 9/16 ×|3 1/2"},
	} {
		got := words(x.text)
		for _, w := range strings.Split(x.whole, "|") {
			if !slices.Contains(got, w) {
				t.Errorf("%q is split into %q, without %q", x.text, got, w)
			}
		}
	}
}
