// Package papertest builds from paper: it reads a finished plan set as a maker would who has
// nothing else, the words of packet.pdf and where they stand, as poppler's pdftotext gives
// them. It makes of them the parts with their sizes and workings, the steps and the shopping
// list, and holds those against plan.json. It shares nothing with the packages that lay the
// set out or that know what a case is; a test sees to it that it imports none of them.
package papertest

import (
	"bytes"
	"cmp"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
)

// ErrNoReader says that pdftotext is not installed; a test should skip and say so.
var ErrNoReader = errors.New("papertest: pdftotext (poppler-utils) is not installed")

// Word is one word with its box in points, from the top left corner of its page.
type Word struct {
	Text           string
	X0, Y0, X1, Y1 float64
}

// Page is the words of one page.
type Page struct {
	W, H  float64
	Words []Word
}

// Pages reads the pages of a PDF.
func Pages(pdf []byte) ([]Page, error) {
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		return nil, ErrNoReader
	}
	dir, err := os.MkdirTemp("", "papertest")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	name := filepath.Join(dir, "packet.pdf")
	if err := os.WriteFile(name, pdf, 0o600); err != nil {
		return nil, err
	}
	var out, bad bytes.Buffer
	cmd := exec.Command(tool, "-bbox", name, "-")
	cmd.Stdout, cmd.Stderr = &out, &bad
	if err := cmd.Run(); err != nil {
		return nil, fmt.Errorf("papertest: pdftotext: %w: %s", err, bad.String())
	}
	var pages []Page
	dec := xml.NewDecoder(&out)
	dec.Strict = false
	for {
		tok, err := dec.Token()
		if err == io.EOF {
			return pages, nil
		}
		if err != nil {
			return nil, fmt.Errorf("papertest: reading words: %w", err)
		}
		el, ok := tok.(xml.StartElement)
		if !ok {
			continue
		}
		switch el.Name.Local {
		case "page":
			var p struct {
				W float64 `xml:"width,attr"`
				H float64 `xml:"height,attr"`
				X []struct {
					X0   float64 `xml:"xMin,attr"`
					Y0   float64 `xml:"yMin,attr"`
					X1   float64 `xml:"xMax,attr"`
					Y1   float64 `xml:"yMax,attr"`
					Text string  `xml:",chardata"`
				} `xml:"word"`
			}
			if err := dec.DecodeElement(&p, &el); err != nil {
				return nil, err
			}
			q := Page{W: p.W, H: p.H}
			for _, w := range p.X {
				q.Words = append(q.Words, Word{w.Text, w.X0, w.Y0, w.X1, w.Y1})
			}
			pages = append(pages, q)
		}
	}
}

// run is words on one line with no more than a word's gap between them: what the eye takes for
// one piece of text.
type run struct {
	page           int // from 1
	text           string
	x0, y0, x1, y1 float64
}

func (r run) high() float64 { return r.y1 - r.y0 }

// near tells whether two places on paper are the same to the eye, in points.
func near(a, b float64) bool { return a-b < 1.2 && b-a < 1.2 }

// lineStep is the most that one line of a paragraph stands below the one before it, in points.
const lineStep = 14

// runs gives the lines of a page from the top down and from the left to the right, without its
// title block and what is over its matter. Sizes written upwards along a drawing come out as runs of their own.
func runs(p Page, number int) []run {
	words := slices.Clone(p.Words)
	slices.SortStableFunc(words, func(a, b Word) int { return cmp.Compare(a.X0, b.X0) })
	var out []run
	for _, w := range words {
		joined := false
		for i := len(out) - 1; i >= 0 && !joined; i-- {
			r := &out[i]
			if h := w.Y1 - w.Y0; level(r.y1, w.Y1) && near(r.high(), h) && w.X0 >= r.x1-0.5 && w.X0-r.x1 < 0.28*h {
				r.text += " " + w.Text
				r.x1 = w.X1
				joined = true
			}
		}
		if !joined {
			out = append(out, run{number, w.Text, w.X0, w.Y0, w.X1, w.Y1})
		}
	}
	foot := p.H
	for _, r := range out {
		if (r.text == "Number" || r.text == "Owner") && r.y0 > p.H/2 {
			foot = min(foot, r.y0-1)
		}
	}
	out = slices.DeleteFunc(out, func(r run) bool { return r.y0 >= foot || r.y1 < head && r.text == banner })
	slices.SortStableFunc(out, func(a, b run) int { return cmp.Compare(a.y1, b.y1) })
	for i := 0; i < len(out); { // from the left to the right on one line
		n := i + 1
		for n < len(out) && level(out[i].y1, out[n].y1) {
			n++
		}
		slices.SortStableFunc(out[i:n], func(a, b run) int { return cmp.Compare(a.x0, b.x0) })
		i = n
	}
	return out
}

// banner stands over every sheet of a set that must not be built from, within head points of its upper edge.
const (
	banner = "Do not build from this yet: see the findings"
	head   = 60
)

// level tells whether two lines of text are one to the eye: letters of two weights stand a
// little apart.
func level(a, b float64) bool { return a-b < 0.3 && b-a < 0.3 }

// picture is about how far the text beside a picture is set in, in points.
const picture, about = 70, 45

// below gives the lines that follow one at the same left edge, each a line's step below the one
// before, and of a step those below the picture that its first lines stand beside; it stops at the first that
// satisfies stop.
func below(list []run, first run, stop func(run) bool) []run {
	out := []run{first}
	last := first
	beside := stepLine.MatchString(first.text) && !sawLine.MatchString(first.text) // the text of a step runs on under its picture
	for {
		next := func(edge func(run) bool) int {
			return slices.IndexFunc(list, func(r run) bool {
				return !slices.Contains(corners, r.text) && r.page == last.page && edge(r) && r.y1 > last.y1+2 && r.y1-last.y1 < lineStep && near(r.high(), first.high())
			})
		}
		i := next(func(r run) bool { return near(r.x0, last.x0) })
		if i < 0 && beside { // only then, for beside a column there may be figures of a drawing
			i = next(func(r run) bool { under := first.x0 - r.x0; return under > picture-about && under < picture+about })
		}
		if i < 0 || stop != nil && stop(list[i]) {
			return out
		}
		last = list[i]
		out = append(out, last)
	}
}

func text(list []run) string {
	var out []string
	for _, r := range list {
		out = append(out, r.text)
	}
	return strings.Join(out, " ")
}

// sawLine begins the step of a sheet that is cut: its picture is the cutting plan, at the left.
var sawLine = regexp.MustCompile(`^\d+\. Sheet \d`)

// corners are the words under the picture of a step that is not seen from in front on the right.
var corners = []string{"from the left", "from behind", "from below", "behind, below", "upside down"}
