package bundle_test

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan/plantest"
)

// reading is what npm pdfjs-dist, which shares no code with our encoder, tells of a PDF.
type reading struct {
	Warnings, Errors, Dead, FontsMissing []string
	Title, Lang                          string
	Bookmarks, Links                     int
	Pages                                []struct {
		Width, Height float64 // in points
		Operators     int
		Text          string
	}
}

// read has all files read at once, in their order.
func read(t *testing.T, files ...[]byte) (all []reading) {
	t.Helper()
	dir := t.TempDir()
	var paths []string
	for i, b := range files {
		path := filepath.Join(dir, fmt.Sprintf("%d.pdf", i))
		if err := os.WriteFile(path, b, 0o600); err != nil {
			t.Fatal(err)
		}
		paths = append(paths, path)
	}
	plantest.Node(t, &all, "pdf-read.mjs", paths...)
	if len(all) != len(files) {
		t.Fatalf("%d files were read of %d", len(all), len(files))
	}
	return all
}

// wrong lists what is wrong with a PDF that should be of so many millimetres and have a title.
func (r reading) wrong(w, h float64, title string) (out []string) {
	say := func(f string, a ...any) { out = append(out, fmt.Sprintf(f, a...)) }
	for _, list := range [][]string{r.Errors, r.Warnings, r.Dead} {
		out = append(out, list...)
	}
	for _, f := range r.FontsMissing {
		say("the font %s is not embedded", f)
	}
	if r.Title != title {
		say("its title is %q", r.Title)
	}
	if r.Lang != "en" {
		say("its language is %q", r.Lang)
	}
	if len(r.Pages) == 0 {
		say("no page")
	}
	const pt = 72 / 25.4
	for i, p := range r.Pages {
		up, lying := abs(p.Width-w*pt) < 0.5 && abs(p.Height-h*pt) < 0.5, abs(p.Width-h*pt) < 0.5 && abs(p.Height-w*pt) < 0.5
		if !up && !lying {
			say("page %d is %.1f by %.1f points", i+1, p.Width, p.Height)
		}
		if len(strings.Fields(p.Text)) < 4 || p.Operators < 20 {
			say("page %d has next to nothing on it", i+1)
		}
		if strings.ContainsAny(p.Text, "\uFFFD\x00") {
			say("page %d has letters that are no text", i+1)
		}
	}
	return out
}

func abs(v float64) float64 { return max(v, -v) }

// Every PDF of every example is read without a warning by an independent reader: title and
// language said, fonts embedded, bookmarks and links that lead somewhere, and text that can be
// searched for every mark.
func TestPDFsAreValid(t *testing.T) {
	for _, example := range plantest.Examples() {
		r := plantest.Result(t, example)
		paper := draw.A4()
		if r.Job.Print == length.Inches {
			paper = draw.Letter()
		}
		var names []string
		var pdfs [][]byte
		for _, name := range []string{"packet.pdf", "labels.pdf", "templates.pdf"} {
			if b, ok := packed(t, example)[name]; ok {
				names, pdfs = append(names, name), append(pdfs, b)
			}
		}
		for i, got := range read(t, pdfs...) {
			name := names[i]
			for _, w := range got.wrong(paper.W, paper.H, titled(name, r.Job.Name)) {
				t.Errorf("%s: %s: %s", example, name, w)
			}
			var all strings.Builder
			for _, p := range got.Pages {
				all.WriteString(p.Text + " ")
			}
			switch name {
			case "packet.pdf":
				all.WriteString(counted(all.String()))
				if got.Bookmarks < 8 || got.Links < len(r.Assembly.Parts)/2 {
					t.Errorf("%s: %d bookmarks and %d links", example, got.Bookmarks, got.Links)
				}
				for i := range got.Pages {
					if n := fmt.Sprintf("%d of %d", i+1, len(got.Pages)); !strings.Contains(got.Pages[i].Text, n) {
						t.Errorf("%s: page %d does not say that it is sheet %s", example, i+1, n)
					}
				}
				fallthrough
			case "labels.pdf":
				for _, p := range r.Assembly.Parts {
					if name == "labels.pdf" && p.Material == part.Bought {
						continue // a label is stuck on what comes off the saw
					}
					_, local, _ := strings.Cut(p.Mark, ".")
					if !strings.Contains(all.String(), p.Mark) && !strings.Contains(all.String(), " "+local) {
						t.Errorf("%s: %s is nowhere in the text of %s", example, p.Mark, name)
					}
				}
			}
		}
	}
}

// counted spells out the marks that count on in a text, "1–6front" and "block1–4".
func counted(text string) string {
	var out strings.Builder
	for _, m := range regexp.MustCompile(`([A-Za-z]*)(\d+)–(\d+)([A-Za-z][0-9A-Za-z]*)?`).FindAllStringSubmatch(text, -1) {
		from, _ := strconv.Atoi(m[2])
		to, _ := strconv.Atoi(m[3])
		if (m[1] == "") == (m[4] == "") || to-from > 1000 {
			continue // a range of sizes
		}
		for i := from; i <= to; i++ {
			out.WriteString(" " + m[1] + strconv.Itoa(i) + m[4])
		}
	}
	return out.String()
}

// titled gives the title of a PDF of a job.
func titled(file, job string) string {
	switch file {
	case "labels.pdf":
		return job + ": labels"
	case "templates.pdf":
		return job + ": templates"
	}
	return job
}

// The independent reader bites: on a file cut short, a page whose content is spoilt, a link to
// what is no page, a language that is not said and a title that is lost.
func TestDamagedPDFIsRefused(t *testing.T) {
	r := plantest.Result(t, "one-case")
	good := packed(t, "one-case")["packet.pdf"]
	dest := regexp.MustCompile(`/Dest \[(\d+) 0 R`).FindSubmatchIndex(good)
	if dest == nil {
		t.Fatal("no link in the file")
	}
	stream := bytes.Index(good, []byte("stream\n"))
	spoils := []struct {
		name  string
		spoil func(b []byte) []byte
	}{
		{"cut short", func(b []byte) []byte { return b[:len(b)*2/3] }},
		{"content spoilt", func(b []byte) []byte {
			for i := stream + 60; i < stream+400; i++ {
				b[i] ^= 0x5a
			}
			return b
		}},
		{"link to no page", func(b []byte) []byte {
			n := dest[3] - dest[2]
			copy(b[dest[2]:dest[3]], strings.Repeat("2", n))
			return b
		}},
		{"no language", func(b []byte) []byte { return bytes.Replace(b, []byte("/Lang"), []byte("/Lung"), 1) }},
		{"no title", func(b []byte) []byte { return bytes.ReplaceAll(b, []byte("/Title"), []byte("/Tutle")) }},
	}
	if testing.Short() {
		spoils = spoils[:2]
	}
	all := [][]byte{good}
	for _, x := range spoils {
		all = append(all, x.spoil(bytes.Clone(good)))
	}
	for i, got := range read(t, all...) {
		w := got.wrong(draw.Letter().W, draw.Letter().H, r.Job.Name)
		switch {
		case i == 0 && len(w) > 0:
			t.Errorf("before anything is spoilt: %q", w)
		case i > 0 && len(w) == 0:
			t.Errorf("%s: not found", spoils[i-1].name)
		case i > 0:
			t.Logf("%s: %.100q", spoils[i-1].name, w)
		}
	}
}
