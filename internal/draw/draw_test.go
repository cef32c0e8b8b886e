package draw_test

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/draw/drawtest"
	"stowright/internal/draw/pdf"
	"stowright/internal/length"
)

var keep = flag.String("keep", "", "folder to keep the sample document in")

// sample is a document that uses everything, as a packet would.
func sample(p draw.Paper) *draw.Document {
	doc := &draw.Document{Title: "Sample wall", Lang: "en", Date: "2026-11-25"}
	block := draw.TitleBlock{Owner: "A. Maker", Number: "SW-014", Date: "2026-11-25", SheetNo: 1, Sheets: 4,
		Lang: "en", Title: "Low case, two doors", Subtitle: "Front, doors off, and section", Creator: "A. Maker", Approver: "B. Reader",
		DocType: "Case drawing", Status: "Not to be built as it stands", Alarm: true, Scale: "1:10", Unit: "mm", Revision: "A"}
	// A dimensioned view.
	s := p.Sheet(false)
	free, _ := s.Frame(block)
	w, h := 762*length.MM, 876*length.MM
	sc := draw.FitScale(false, w, h, free.W-60, free.H/2)
	r := draw.Rect{X: free.X, Y: free.Y, W: free.W, H: free.H * 0.62}
	v := draw.Centred(sc, r, 0, 0, w, h)
	box := v.Rect(0, 0, w, h)
	t := 18 * length.MM
	s.Layer = "View"
	s.Rect(draw.Visible, box)
	s.Rect(draw.Visible, v.Rect(t, 100*length.MM, w-t, h-t))
	s.Rect(draw.Edge, v.Rect(t, 400*length.MM, w-t, 400*length.MM+t))
	s.Poly(draw.Centre, v.At(w/2, -20*length.MM), v.At(w/2, h+20*length.MM))
	s.Poly(draw.Hidden, v.At(t, 600*length.MM), v.At(w-t, 600*length.MM))
	s.Hatch(draw.CutBoard, v.Rect(0, 0, t, h).Corners())
	s.Hatch(draw.EndGrain, v.Rect(w-t, 0, w, h).Corners())
	s.Layer = ""
	d := draw.Dims{View: box}
	x := func(mm length.Length) float64 { return v.X(mm * length.MM) }
	y := func(mm length.Length) float64 { return v.Y(mm * length.MM) }
	d.Chain(draw.Below, []float64{x(0), x(18), x(744), x(762)}, []string{"18", "726", "18"})
	d.Single(draw.Below, x(0), x(762), "762")
	d.Single(draw.Above, x(0), x(762), "762") // the same size again: not printed
	d.Chain(draw.Left, []float64{y(0), y(100), y(118), y(400), y(418), y(858), y(876)}, []string{"100", "18", "282", "18", "440", "18"})
	d.Single(draw.Left, y(0), y(876), "876")
	d.Running(draw.Right, y(0), []float64{y(37), y(69), y(101), y(325), y(357), y(389), y(600)}, []string{"37", "69", "101", "325", "357", "389", "600"})
	d.Single(draw.Above, x(18), x(381), "363 (362.9)")
	d.Chain(draw.Above, []float64{x(18), x(30), x(45), x(62), x(381)}, []string{"12", "15", "17", "319"})
	d.Draw(s)
	s.CheckBar(draw.Pt(free.X+2, free.Bottom()-18))
	s.Anchor("case", draw.Pt(free.X, free.Y))
	doc.Pages = append(doc.Pages, *s)
	doc.Bookmarks = append(doc.Bookmarks, draw.Bookmark{Title: "Low case", To: "case"})

	// Marks and signs.
	m := p.Sheet(true)
	block.SheetNo, block.Alarm, block.Status = 2, false, "For building"
	free, beside := m.Frame(block)
	view := draw.Rect{X: free.X + 50, Y: free.Y + 25, W: free.W - 100, H: free.H - 50}
	m.Rect(draw.Visible, view)
	var marks []draw.Mark
	for i := range 26 {
		marks = append(marks, draw.Mark{Text: fmt.Sprintf("B%d-%d", i%4+1, i), Link: "case",
			At: draw.Pt(view.X+5+float64((i*37)%100)/100*(view.W-10), view.Y+5+float64((i*61)%100)/100*(view.H-10))})
	}
	m.Marks(view, marks)
	for i, hch := range []draw.Hatch{draw.CutBoard, draw.CutBoard2, draw.EndGrain, draw.WallHatch, draw.GroundHatch, draw.KeepClear} {
		q := draw.Rect{X: view.X + 8 + float64(i)*22, Y: view.Y + 30, W: 18, H: 10}
		m.Hatch(hch, q.Corners())
		m.Rect(draw.Edge, q)
	}
	m.QR(draw.Rect{X: view.X + 8, Y: view.Y + 50, W: 24, H: 24}, "B2-14")
	if beside.W > 0 {
		m.QR(draw.Rect{X: beside.X, Y: beside.Y, W: 20, H: 20}, "SW-014")
	}
	doc.Pages = append(doc.Pages, *m)

	// Text and a long table.
	f := draw.Flow{Page: func(n int) (*draw.Sheet, draw.Rect) {
		s := p.Sheet(false)
		return s, s.FreeStrip()
	}}
	f.Heading(1, "Parts of the low case", "parts")
	f.Para("Every part is cut to the size in the column “cut”, before edging. Length runs along the grain. Sizes are what a tape shows to the nearest half millimetre; Ø 5 holes are drilled ½ in deep unless said. Größe, Łódź, Ωμέγα, дуб, ⌀ all print.")
	f.Strong("The wall case is heavy: two people lift it, and a prop stands under it until four screws hold.", true)
	f.Heading(2, "Cut list", "")
	tab := draw.Table{Columns: []draw.Column{{Head: ""}, {Head: "Mark"}, {Head: "Part", Grow: true}, {Head: "Stock"}, {Head: "Length", Align: draw.End}, {Head: "Width", Align: draw.End}, {Head: "Note"}}}
	for g := range 3 {
		tab.Rows = append(tab.Rows, draw.Row{Group: fmt.Sprintf("Case B%d", g+1)})
		for i := range 14 {
			r := draw.Texts("", fmt.Sprintf("B%d-%d", g+1, i+1), "Side, left, with pin rows", "birch ply 18", fmt.Sprint(700+i), "558", "")
			r.Cells[0].Tick = true
			r.Cells[1].Link = "case"
			if i%5 == 0 {
				r.Cells[6].Text = "edge the long front edge; groove first, in the wide blank"
			}
			tab.Rows = append(tab.Rows, r)
		}
	}
	tot := draw.Texts("", "", "Total", "", "42", "", "")
	tot.Total = true
	tab.Rows = append(tab.Rows, tot)
	f.Table(tab)
	f.Heading(2, "Steps", "")
	for i := range 4 {
		f.Item(fmt.Sprint(i+1), "Drill the pin rows in both sides from the lower front corner, with the same fence and the same stop, the faces towards you; check the first pair against each other before going on.")
		f.Item("", "Diagonals equal within 1 mm.")
	}
	for i, s := range f.Sheets() {
		block.SheetNo, block.Sheets = i+3, len(f.Sheets())+2
		s.Strip(block)
		doc.Pages = append(doc.Pages, *s)
	}
	doc.Bookmarks = append(doc.Bookmarks, draw.Bookmark{Title: "Parts", To: "parts", Level: 1})
	doc.Attachments = append(doc.Attachments, draw.Attachment{Name: "cutting-list.csv", About: "the cut list", Data: []byte("mark,length\n")})
	return doc
}

func papers() []draw.Paper { return []draw.Paper{draw.A4(), draw.Letter(), draw.A3(), draw.Tabloid()} }

// TestSampleIsSoundPaper: on every paper nothing is faulty, struck through or overlapping,
// as read back by poppler; qpdf finds the file sound; the words come back.
func TestSampleIsSoundPaper(t *testing.T) {
	for _, p := range papers() {
		doc := sample(p)
		for _, f := range doc.Faults() {
			t.Errorf("%s: %s", p.Name, f)
		}
		for i := range doc.Pages {
			for _, f := range drawtest.Strikes(&doc.Pages[i]) {
				t.Errorf("%s: sheet %d: %s", p.Name, i+1, f)
			}
		}
		out, err := pdf.Write(doc)
		if err != nil {
			t.Fatal(err)
		}
		again, _ := pdf.Write(sample(p))
		if !bytes.Equal(out, again) {
			t.Errorf("%s: two writings differ", p.Name)
		}
		if *keep != "" {
			os.WriteFile(filepath.Join(*keep, p.Name+".pdf"), out, 0o644)
		}
		over, err := drawtest.Overlaps(out, doc)
		if errors.Is(err, drawtest.ErrNoReader) {
			t.Skip(err)
		}
		if err != nil {
			t.Fatal(err)
		}
		for _, o := range over {
			t.Errorf("%s: %s", p.Name, o)
		}
		words, pages, _ := drawtest.Words(out)
		var all []string
		for _, w := range words {
			all = append(all, w.Text)
		}
		text := strings.Join(all, " ")
		if pages != len(doc.Pages) {
			t.Errorf("%s: %d pages, want %d", p.Name, pages, len(doc.Pages))
		}
		for _, want := range []string{"762", "B3-14", "Größe, Łódź, Ωμέγα, дуб, ⌀ all print.", "½ in deep"} {
			if !strings.Contains(text, want) {
				t.Errorf("%s: the PDF does not say %q", p.Name, want)
			}
		}
		if n := strings.Count(" "+text+" ", " 762 "); n != 1 {
			t.Errorf("%s: the overall size is printed %d times", p.Name, n)
		}
		tool, err := exec.LookPath("qpdf")
		if err != nil {
			t.Skip("qpdf is not installed")
		}
		name := filepath.Join(t.TempDir(), "s.pdf")
		os.WriteFile(name, out, 0o600)
		if msg, err := exec.Command(tool, "--check", name).CombinedOutput(); err != nil {
			t.Errorf("%s: qpdf: %v\n%s", p.Name, err, msg)
		}
	}
}

// TestPlantedOverlapIsCaught: the judge must bite.
func TestPlantedOverlapIsCaught(t *testing.T) {
	s := draw.A4().Sheet(false)
	s.Text(draw.Pt(50, 50), 2.5, "Shelf", draw.Start)
	s.Text(draw.Pt(53, 51), 2.5, "Drawer", draw.Start)
	s.Text(draw.Pt(100, 100), 2.5, "upright", draw.Start).Up = true
	s.Text(draw.Pt(96, 95), 2.5, "lying", draw.Start)
	s.Text(draw.Pt(50, 150), 2.5, "apart", draw.Start)
	s.Text(draw.Pt(50, 154.3), 2.5, "close lines", draw.Start)
	s.Text(draw.Pt(150, 50), 2.5, "struck", draw.Start)
	s.Poly(draw.Narrow, draw.Pt(152, 40), draw.Pt(153, 60))
	if got := len(drawtest.Strikes(s)); got != 3 {
		t.Errorf("Strikes found %d, want 3: %v", got, drawtest.Strikes(s))
	}
	doc := &draw.Document{Pages: []draw.Sheet{*s}}
	out, err := pdf.Write(doc)
	if err != nil {
		t.Fatal(err)
	}
	over, err := drawtest.Overlaps(out, doc)
	if errors.Is(err, drawtest.ErrNoReader) {
		t.Skip(err)
	}
	if err != nil || len(over) != 2 {
		t.Errorf("found %v, %v; planted two", over, err)
	}
}

// Every sheet has the frame of ISO 5457 and its four centring marks, on the axes of the trimmed sheet within 1 mm, 0.7 mm
// wide (from memory), from 5 mm outside the frame; they end there, so that they strike nothing.
func TestCentringMarks(t *testing.T) {
	for _, p := range []draw.Paper{draw.A4(), draw.A3(), draw.Letter(), draw.Tabloid()} {
		for _, lying := range []bool{false, true} {
			for _, full := range []bool{false, true} {
				s := p.Sheet(lying)
				if full {
					s.Frame(draw.TitleBlock{Title: "x"})
				} else {
					s.Strip(draw.TitleBlock{Title: "x"})
				}
				got := map[draw.Point]bool{}
				for _, it := range s.Items {
					x, ok := it.(*draw.Path)
					if !ok || len(x.Steps) != 2 || x.Line.Width() != 0.7 {
						continue
					}
					a, b := x.Steps[0].P[0], x.Steps[1].P[0]
					got[draw.Pt((a.X+b.X)/2, (a.Y+b.Y)/2)] = math.Abs(a.Sub(b).Len()-5) < 1e-6
				}
				for _, at := range []draw.Point{draw.Pt(s.W/2, 7.5), draw.Pt(s.W/2, s.H-7.5), draw.Pt(17.5, s.H/2), draw.Pt(s.W-7.5, s.H/2)} {
					near := false
					for q, long := range got {
						near = near || long && q.Sub(at).Len() < 1
					}
					if !near {
						t.Errorf("%s, lying %v, full %v: no centring mark at %v", p.Name, lying, full, at)
					}
				}
			}
		}
	}
}

// TestTextMeets: a text meets what its box meets, lying or reading upwards, at every edge.
func TestTextMeets(t *testing.T) {
	met := 0
	for _, up := range []bool{false, true} {
		for _, align := range []draw.Align{draw.Start, draw.Middle, draw.End} {
			x := draw.Text{At: draw.Pt(30.1, 40.3), Text: "A.left", Size: draw.LeastCap, Align: align, Up: up}
			b := x.Box()
			for _, dx := range []float64{-b.W, -b.W + 1e-9, -1, 0, b.W - 1e-9, b.W, b.W + 1} {
				for _, dy := range []float64{-b.H, -b.H + 1e-9, -1, 0, b.H - 1e-9, b.H, b.H + 1} {
					r := b.Shift(draw.Pt(dx, dy))
					if x.Meets(r) != b.Meets(r) {
						t.Errorf("up %v, align %v, shifted by %v, %v: text %v, box %v", up, align, dx, dy, x.Meets(r), b.Meets(r))
					}
					if b.Meets(r) {
						met++
					}
				}
			}
		}
	}
	if met == 0 {
		t.Error("nothing met")
	}
}
