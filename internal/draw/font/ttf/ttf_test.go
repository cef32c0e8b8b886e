package ttf_test

import (
	"bytes"
	"encoding/binary"
	"flag"
	"math"
	"os"
	"strings"
	"testing"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	xfont "golang.org/x/image/font"
	"stowright/internal/draw/font"
	"stowright/internal/draw/font/ttf"
)

var update = flag.Bool("update", false, "write ../metrics.bin anew")

// TestMetricsAreTheFonts reads every advance width out of the TrueType files with an
// independent reader (golang.org/x/image/font/sfnt) and compares the table with it.
func TestMetricsAreTheFonts(t *testing.T) {
	var all bytes.Buffer
	for f := font.Face(0); f < font.Faces; f++ {
		parsed, err := sfnt.Parse(ttf.Bytes(f))
		if err != nil {
			t.Fatal(err)
		}
		var b sfnt.Buffer
		upm := int(parsed.UnitsPerEm())
		var recs bytes.Buffer
		n := uint32(0)
		for r := rune(' '); r < 0xFFFE; r++ {
			g, err := parsed.GlyphIndex(&b, r)
			if err != nil || g == 0 {
				continue
			}
			a, err := parsed.GlyphAdvance(&b, g, fixed.I(upm), xfont.HintingNone)
			if err != nil {
				t.Fatal(err)
			}
			w := math.Round(float64(a) / 64 * 1000 / float64(upm))
			binary.Write(&recs, binary.LittleEndian, [2]uint16{uint16(r), uint16(w)})
			n++
			if *update {
				continue
			}
			if got, ok := f.Width(r); !ok || got != int(w) {
				t.Fatalf("face %d rune %U: table %d, %v; font %v", f, r, got, ok, w)
			}
		}
		binary.Write(&all, binary.LittleEndian, n)
		all.Write(recs.Bytes())
	}
	if *update {
		if err := os.WriteFile("../metrics.bin", all.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if old, err := os.ReadFile("../metrics.bin"); err != nil || !bytes.Equal(old, all.Bytes()) {
		t.Fatalf("metrics.bin is not the fonts' (%v); run with -update", err)
	}
}

// TestCapsAreTheFonts compares the height of capitals with the outline of the letter H.
func TestCapsAreTheFonts(t *testing.T) {
	for f := font.Face(0); f < font.Faces; f++ {
		parsed, _ := sfnt.Parse(ttf.Bytes(f))
		var b sfnt.Buffer
		for _, c := range []struct {
			r    rune
			want float64
		}{{'H', float64(f.Cap())}} {
			g, _ := parsed.GlyphIndex(&b, c.r)
			box, _, err := parsed.GlyphBounds(&b, g, fixed.I(1000), xfont.HintingNone)
			if err != nil {
				t.Fatal(err)
			}
			if h := -float64(box.Min.Y) / 64; math.Abs(h-c.want) > 1.5 {
				t.Errorf("face %d: capital %v, said %v", f, h, c.want)
			}
		}
		// Rise and Drop hold for the letters of ordinary words.
		for _, r := range "abdfghjklpqtyQJ0123456789()[]/|½¾⅛ßþ" {
			g, _ := parsed.GlyphIndex(&b, r)
			if g == 0 {
				continue
			}
			box, _, _ := parsed.GlyphBounds(&b, g, fixed.I(1000), xfont.HintingNone)
			up, down := -float64(box.Min.Y)/64/float64(f.Cap()), float64(box.Max.Y)/64/float64(f.Cap())
			if !strings.ContainsRune("()[]|/j", r) && (up > font.Rise+0.02 || down > font.Drop+0.01) {
				t.Errorf("face %d %q reaches %.3f up, %.3f down", f, r, up, down)
			}
		}
	}
}
