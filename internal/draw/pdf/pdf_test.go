package pdf_test

import (
	"bytes"
	"errors"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"codeberg.org/go-pdf/fpdf"

	"stowright/internal/draw"
	"stowright/internal/draw/drawtest"
	"stowright/internal/draw/font"
	"stowright/internal/draw/font/ttf"
	"stowright/internal/draw/pdf"
)

// TestTraps: what makes the library panic or write nonsense is stopped before it.
func TestTraps(t *testing.T) {
	s := draw.A4().Sheet(false)
	s.Add(&draw.Text{At: draw.Pt(30, 30), Size: 3, Text: "emoji 😀, bell \a, bad \xff byte, 日本"})
	s.Text(draw.Pt(30, 40), 3, "ligature ffi, Ø 5 ± ½ → ≤ ⌀ ☐ ✓", draw.Start).Bold = true
	doc := &draw.Document{Title: "t 😀", Pages: []draw.Sheet{*s}}
	out, err := pdf.Write(doc)
	if err != nil {
		t.Fatal(err)
	}
	if len(doc.Faults()) == 0 {
		t.Error("letters that no face has are not listed")
	}
	words, _, err := drawtest.Words(out)
	if errors.Is(err, drawtest.ErrNoReader) {
		t.Skip(err)
	}
	var all []string
	for _, w := range words {
		all = append(all, w.Text)
	}
	if got := strings.Join(all, " "); !strings.Contains(got, "ligature ffi, Ø 5 ± ½ → ≤ ⌀ ☐ ✓") {
		t.Errorf("read back %q", got)
	}
	for _, v := range []float64{math.NaN(), math.Inf(1)} {
		s := draw.A4().Sheet(false)
		s.Poly(draw.Edge, draw.Pt(0, 0), draw.Pt(v, 1))
		if _, err := pdf.Write(&draw.Document{Pages: []draw.Sheet{*s}}); err == nil {
			t.Errorf("%v was written", v)
		}
	}
	s = draw.A4().Sheet(false)
	s.Link(draw.Rect{X: 1, Y: 1, W: 9, H: 9}, "nowhere")
	if _, err := pdf.Write(&draw.Document{Pages: []draw.Sheet{*s}}); err == nil {
		t.Error("a link to nowhere was written")
	}
	if _, err := pdf.Write(&draw.Document{}); err == nil {
		t.Error("a document without sheets was written")
	}
}

// TestWidthsAgree: the layout's widths are those the PDF library sets by.
func TestWidthsAgree(t *testing.T) {
	f := fpdf.New("P", "mm", "A4", "")
	f.AddUTF8FontFromBytes("r", "", ttf.Bytes(font.Regular))
	f.AddUTF8FontFromBytes("b", "", ttf.Bytes(font.Bold))
	for i, name := range []string{"r", "b"} {
		f.SetFont(name, "", 0)
		f.SetFontUnitSize(2.5 * 1000 / float64(font.Face(i).Cap()))
		for _, s := range []string{"762", "Side, left, with pin rows", "30 1/4", "Größe Łódź ½ → Ø", "WAVE To"} {
			if got, want := f.GetStringWidth(s), font.Width(s, i == 1, 2.5); math.Abs(got-want) > 0.02 {
				t.Errorf("%q: library %.3f, layout %.3f", s, got, want)
			}
		}
	}
}

// TestStructure: bookmarks, links, layers, language, attachment are in the file as qpdf
// shows it, and two documents of one content are one.
func TestStructure(t *testing.T) {
	doc := &draw.Document{Title: "Größe", Lang: "de", Date: "2026-01-31", Attachments: []draw.Attachment{{Name: "a.csv", Data: []byte("x")}}}
	for i, name := range []string{"one", "two"} {
		s := draw.A3().Sheet(i == 1)
		s.Anchor(name, draw.Pt(20, 50))
		s.Link(draw.Rect{X: 20, Y: 20, W: 30, H: 5}, "two")
		s.Layer = "Dimensions"
		s.Text(draw.Pt(30, 30), 3, name, draw.Start)
		doc.Pages = append(doc.Pages, *s)
		doc.Bookmarks = append(doc.Bookmarks, draw.Bookmark{Title: "Page " + name, Level: i, To: name})
	}
	out, err := pdf.Write(doc)
	if err != nil {
		t.Fatal(err)
	}
	again, _ := pdf.Write(doc)
	if !bytes.Equal(out, again) {
		t.Error("two writings differ")
	}
	tool, err := exec.LookPath("qpdf")
	if err != nil {
		t.Skip("qpdf is not installed")
	}
	name := filepath.Join(t.TempDir(), "a.pdf")
	os.WriteFile(name, out, 0o600)
	plain, err := exec.Command(tool, "--qdf", "--object-streams=disable", name, "-").Output()
	if err != nil {
		t.Fatalf("qpdf: %v", err)
	}
	for _, want := range []string{"/Lang (de)", "/Outlines", "/OCProperties", "/EmbeddedFiles", "20260131", "/Subtype /Link", "/ToUnicode"} {
		if !bytes.Contains(plain, []byte(want)) {
			t.Errorf("the file has no %s", want)
		}
	}
	if msg, err := exec.Command(tool, "--check", name).CombinedOutput(); err != nil {
		t.Errorf("qpdf --check: %v\n%s", err, msg)
	}
}
