package labels_test

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"stowright/internal/cutting"
	"stowright/internal/draw"
	"stowright/internal/draw/pdf"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/packet/labels"
	"stowright/internal/part"
	"stowright/internal/plan"
	"stowright/internal/plan/plantest"
)

func input(r plan.Result, s labels.Size) labels.Input {
	return labels.Input{Job: r.Job.Name, Date: r.Job.File.Date, Print: r.Job.Print, Assembly: r.Assembly, Plan: r.Plan, Marks: r.Marks, Sticks: r.Sticks, Steps: r.Steps, Size: s}
}

// Sheets are symmetrical and hold what their names say; sizes that are sold by the inch and
// fit the paper to 1/32 in (common practice, no source).
func TestSizes(t *testing.T) {
	for _, s := range labels.Sizes() {
		right := s.PaperW - s.Left - float64(s.Across-1)*s.StepX - s.W
		bottom := s.PaperH - s.Top - float64(s.Down-1)*s.StepY - s.H
		if d := right - s.Left; d > 0.01 || d < -0.01 || s.Left < 0 {
			t.Errorf("%s: %.2f free at the left, %.2f at the right", s.Name, s.Left, right)
		}
		if d := bottom - s.Top; d > 0.01 || d < -0.01 || s.Top < 0 {
			t.Errorf("%s: %.2f free above, %.2f below", s.Name, s.Top, bottom)
		}
		if !strings.HasSuffix(s.Name, fmt.Sprintf("-%d", s.Across*s.Down)) {
			t.Errorf("%s has %d labels", s.Name, s.Across*s.Down)
		}
	}
}

// Every label of every size is read back from the finished PDF: the codes with zbarimg, which
// we did not make, and the words with pdftotext.
func TestReadBack(t *testing.T) {
	zbar, ppm, text := plantest.Tool(t, "zbarimg"), plantest.Tool(t, "pdftoppm"), plantest.Tool(t, "pdftotext")
	example := "fennel-street"
	if testing.Short() {
		example = "one-case"
	}
	r := plantest.Result(t, example)
	sizes := labels.Sizes()
	if testing.Short() {
		sizes = sizes[:1]
	}
	for _, size := range sizes {
		t.Run(size.Name, func(t *testing.T) {
			doc := labels.Make(input(r, size))
			for _, f := range doc.Faults() {
				t.Error(f)
			}
			b, err := pdf.Write(&doc)
			if err != nil {
				t.Fatal(err)
			}
			plantest.Keep(t, "labels-"+size.Name+".pdf", b)
			dir := t.TempDir()
			file := filepath.Join(dir, "labels.pdf")
			if err := os.WriteFile(file, b, 0o644); err != nil {
				t.Fatal(err)
			}
			if size.Name == "letter-14" || size.Name == "letter-30" || testing.Short() {
				if out, err := exec.Command(ppm, "-r", "150", "-gray", "-png", file, filepath.Join(dir, "page")).CombinedOutput(); err != nil {
					t.Fatalf("%v %s", err, out)
				}
				out, err := exec.Command(zbar, append([]string{"-q", "--raw", "-Sdisable", "-Sqrcode.enable"}, cells(t, dir, size)...)...).Output()
				if len(out) == 0 { // its status is not 0 where a label of the last sheet is empty
					t.Fatalf("zbarimg reads nothing: %v", err)
				}
				got := strings.Fields(string(out))
				slices.Sort(got)
				var want []string
				for _, p := range r.Assembly.Parts {
					if p.Material != part.Bought {
						want = append(want, p.Mark)
					}
				}
				slices.Sort(want)
				if !slices.Equal(got, want) {
					missing := slices.DeleteFunc(slices.Clone(want), func(m string) bool { return slices.Contains(got, m) })
					t.Errorf("%d codes read, %d parts; not read: %v", len(got), len(want), missing)
				}
			}

			boxes, err := exec.Command(text, "-bbox", file, "-").Output()
			if err != nil {
				t.Fatal(err)
			}
			words := wordsOf(t, boxes)
			if len(words) != len(doc.Pages) {
				t.Fatalf("%d pages of words, %d pages", len(words), len(doc.Pages))
			}
			said := map[string]bool{}
			for _, page := range words {
				cells := map[int][]string{}
				for _, w := range page {
					if w.y1 < size.Top {
						continue // the line at the head
					}
					cell := int((w.y0-size.Top)/size.StepY)*size.Across + int((w.x0-size.Left)/size.StepX)
					x, y := size.Left+float64(cell%size.Across)*size.StepX, size.Top+float64(cell/size.Across)*size.StepY
					// 1.2 mm kept free at the edge of a label: printers drift (common practice, no source)
					if w.x0 < x+1.2 || w.x1 > x+size.W-1.2 || w.y0 < y+1.2 || w.y1 > y+size.H-1.2 {
						t.Errorf("%q stands at the edge of label %d: %+v", w.Text, cell, w)
					}
					cells[cell] = append(cells[cell], w.Text)
				}
				for _, c := range cells {
					said[strings.Join(c, " ")] = true
				}
			}
			for _, p := range r.Assembly.Parts {
				if p.Material == part.Bought {
					continue
				}
				cut := p.Cut()
				begin := p.Mark + " " + cut[0].Tape(r.Job.Print) + " × " + cut[1].Tape(r.Job.Print)
				ok := false
				for s := range said {
					ok = ok || strings.HasPrefix(s, begin) && strings.Contains(s, "out:")
				}
				if !ok {
					t.Errorf("no label begins with %q and says which face is out", begin)
				}
			}
		})
	}
}

// cells cuts the pages apart into labels, as scissors would, and gives the names of the pictures.
func cells(t *testing.T, dir string, s labels.Size) []string {
	t.Helper()
	pages, _ := filepath.Glob(filepath.Join(dir, "page*.png"))
	var out []string
	for n, name := range pages {
		f, err := os.Open(name)
		if err != nil {
			t.Fatal(err)
		}
		page, err := png.Decode(f)
		f.Close()
		if err != nil {
			t.Fatal(err)
		}
		px := func(mm float64) int { return int(mm / 25.4 * 150) }
		for k := range s.Count() {
			x, y := s.Left+float64(k%s.Across)*s.StepX, s.Top+float64(k/s.Across)*s.StepY
			cell := page.(interface {
				SubImage(image.Rectangle) image.Image
			}).SubImage(image.Rect(px(x), px(y), px(x+s.W), px(y+s.H)))
			var b bytes.Buffer
			if err := png.Encode(&b, cell); err != nil {
				t.Fatal(err)
			}
			name := filepath.Join(dir, fmt.Sprintf("cell-%02d-%02d.png", n, k))
			if err := os.WriteFile(name, b.Bytes(), 0o644); err != nil {
				t.Fatal(err)
			}
			out = append(out, name)
		}
	}
	return out
}

type word struct {
	x0, y0, x1, y1 float64
	Text           string
}

// wordsOf reads what pdftotext -bbox writes, in mm by page.
func wordsOf(t *testing.T, b []byte) [][]word {
	t.Helper()
	var doc struct {
		Pages []struct {
			Words []struct {
				X0   float64 `xml:"xMin,attr"`
				Y0   float64 `xml:"yMin,attr"`
				X1   float64 `xml:"xMax,attr"`
				Y1   float64 `xml:"yMax,attr"`
				Text string  `xml:",chardata"`
			} `xml:"word"`
		} `xml:"body>doc>page"`
	}
	d := xml.NewDecoder(bytes.NewReader(b))
	d.Strict, d.Entity = false, xml.HTMLEntity
	if err := d.Decode(&doc); err != nil {
		t.Fatal(err)
	}
	var out [][]word
	const k = 25.4 / 72
	for _, p := range doc.Pages {
		var list []word
		for _, w := range p.Words {
			h := w.Y1 - w.Y0 // of a line; letters begin a quarter lower and end a tenth higher
			list = append(list, word{w.X0 * k, (w.Y0 + 0.25*h) * k, w.X1 * k, (w.Y1 - 0.1*h) * k, w.Text})
		}
		out = append(out, list)
	}
	return out
}

// A case of which everything is known: which face of its parts is out.
func TestFaceOut(t *testing.T) {
	const mm = length.MM
	lay := func(mark string, role part.Role, b geom.Box, u, v geom.Dir) part.Part {
		p := part.New(mark, role, mark, "ply", b, u, v)
		p.Mark, p.Owner = mark, "a"
		return p
	}
	a := part.Assembly{Owners: []part.Owner{{ID: "a", Kind: "case", Carcass: geom.B(0, -500*mm, 0, 600*mm, 0, 700*mm), Box: geom.B(0, -520*mm, 0, 600*mm, 0, 700*mm)}},
		Parts: []part.Part{
			lay("left", part.Side, geom.B(0, -500*mm, 0, 18*mm, 0, 700*mm), geom.Up, geom.Back),
			lay("right", part.Side, geom.B(582*mm, -500*mm, 0, 600*mm, 0, 700*mm), geom.Up, geom.Back),
			lay("door", part.Door, geom.B(0, -520*mm, 0, 600*mm, -502*mm, 700*mm), geom.Up, geom.Right),
			lay("back", part.BackPanel, geom.B(0, -6*mm, 0, 600*mm, 0, 700*mm), geom.Up, geom.Right),
			lay("bottom", part.Bottom, geom.B(18*mm, -500*mm, 0, 582*mm, 0, 18*mm), geom.Right, geom.Back),
			lay("shelf", part.Shelf, geom.B(18*mm, -500*mm, 300*mm, 582*mm, 0, 318*mm), geom.Right, geom.Back),
		}}
	want := map[string]string{"left": "out: left, tip to the top", "right": "out: right, tip to the top", "door": "out: front, tip to the top",
		"back": "out: back, tip to the top", "bottom": "out: bottom, tip to the front", "shelf": "out: top, tip to the front"}
	size, _ := labels.Named("a4-8")
	doc := labels.Make(labels.Input{Job: "x", Assembly: a, Size: size, Skip: 3})
	if len(doc.Pages) != 2 {
		t.Errorf("six labels after three that are used up take %d sheets of eight", len(doc.Pages))
	}
	var all []string
	for _, p := range doc.Pages {
		for _, it := range p.Items {
			if x, ok := it.(interface{ Width() float64 }); ok {
				all = append(all, fmt.Sprint(x))
			}
		}
	}
	text := strings.Join(all, "\n")
	for mark, say := range want {
		i := strings.Index(text, " "+mark+" ")
		if i < 0 || !strings.Contains(text[i:min(len(text), i+900)], say) {
			t.Errorf("%s: want %q", mark, say)
		}
	}
}

func TestSameBytes(t *testing.T) {
	r := plantest.Result(t, "one-case")
	size, _ := labels.Named("a4-14")
	a, b := labels.Make(input(r, size)), labels.Make(input(r, size))
	x, err := pdf.Write(&a)
	if err != nil {
		t.Fatal(err)
	}
	y, _ := pdf.Write(&b)
	if !bytes.Equal(x, y) {
		t.Error("two writings differ")
	}
}

// The grain that a label tells is that of the piece as its sheet is cut: measured along the
// sheet's grain the piece is as long as the part is, in its case, in the direction that the label
// names (edging of up to 3 mm aside).
func TestGrainAsCut(t *testing.T) {
	r := plantest.Result(t, "fennel-street")
	doc := labels.Make(input(r, labels.Sizes()[0]))
	said, mark := map[string]string{}, ""
	for i := range doc.Pages {
		for _, it := range doc.Pages[i].Items {
			x, ok := it.(*draw.Text)
			switch {
			case !ok:
			case x.Bold:
				mark = x.Text
			case strings.HasPrefix(x.Text, "grain: "):
				said[mark] = strings.TrimPrefix(x.Text, "grain: ")
			}
		}
	}
	box := map[string]part.Box{}
	for _, p := range r.Assembly.Parts {
		box[p.Mark] = p.Box()
	}
	checked := 0
	for i, s := range r.Plan.Sheets {
		for k, p := range s.Pieces {
			m := r.Marks[i][k]
			along := p.L
			if s.Grain == cutting.GrainY {
				along = p.W
			}
			axis := slices.Index([]string{"left to right", "front to back", "up and down"}, said[m])
			if axis < 0 {
				t.Fatalf("%s: its label says %q of its grain", m, said[m])
			}
			if d := (box[m].Size().At(axis) - along).Abs(); d > 3*length.MM {
				t.Errorf("%s: cut %v along the grain, %s it is %v", m, along.MM(), said[m], box[m].Size().At(axis).MM())
			}
			checked++
		}
	}
	if checked < 200 {
		t.Errorf("%d pieces checked", checked)
	}
}
