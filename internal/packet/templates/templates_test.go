package templates_test

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/draw/drawtest"
	"stowright/internal/draw/pdf"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/packet/templates"
	"stowright/internal/part"
	"stowright/internal/plan/plantest"
)

type circle struct{ x, y, dia float64 } // mm from the page's lower left corner

type page struct {
	circles []circle
	boxes   [][4]float64
}

// centres gives where crosses are: a lying and a standing line about one point.
func (p page) centres() [][2]float64 {
	var out [][2]float64
	for _, a := range p.boxes {
		if w := a[2] - a[0]; a[3]-a[1] > 0.01 || w < 4 || w > 12.1 {
			continue
		}
		x, y := (a[0]+a[2])/2, (a[1]+a[3])/2
		for _, b := range p.boxes {
			if b[2]-b[0] < 0.01 && math.Abs(b[0]-x) < 0.02 && math.Abs((b[1]+b[3])/2-y) < 0.02 {
				out = append(out, [2]float64{x, y})
				break
			}
		}
	}
	return out
}

// read gives circles and boxes of closed paths on a page of the finished PDF, as poppler's
// pdftocairo sees them.
func read(t *testing.T, file string, n int) page {
	t.Helper()
	tool := plantest.Tool(t, "pdftocairo")
	out, err := exec.Command(tool, "-svg", "-noshrink", "-f", strconv.Itoa(n), "-l", strconv.Itoa(n), file, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	var p page
	var high float64
	inDefs := 0
	d := xml.NewDecoder(bytes.NewReader(out))
	for {
		tok, _ := d.Token()
		if tok == nil {
			break
		}
		switch e := tok.(type) {
		case xml.EndElement:
			if e.Name.Local == "defs" {
				inDefs--
			}
		case xml.StartElement:
			at := map[string]string{}
			for _, a := range e.Attr {
				at[a.Name.Local] = a.Value
			}
			switch e.Name.Local {
			case "svg":
				high, _ = strconv.ParseFloat(strings.TrimSuffix(at["height"], "pt"), 64)
			case "defs":
				inDefs++
			case "path":
				if inDefs > 0 {
					continue
				}
				m := [6]float64{1, 0, 0, 1, 0, 0}
				if tr, ok := strings.CutPrefix(at["transform"], "matrix("); ok {
					for i, f := range strings.FieldsFunc(strings.TrimSuffix(tr, ")"), func(r rune) bool { return r == ',' || r == ' ' }) {
						m[i], _ = strconv.ParseFloat(f, 64)
					}
				}
				lo, hi := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
				curves := 0
				var nums []float64
				for _, f := range strings.Fields(at["d"]) {
					if f == "C" {
						curves++
					}
					if v, err := strconv.ParseFloat(f, 64); err == nil {
						nums = append(nums, v)
					}
				}
				for i := 0; i+1 < len(nums); i += 2 {
					x, y := m[0]*nums[i]+m[2]*nums[i+1]+m[4], m[1]*nums[i]+m[3]*nums[i+1]+m[5]
					lo, hi = [2]float64{min(lo[0], x), min(lo[1], y)}, [2]float64{max(hi[0], x), max(hi[1], y)}
				}
				const k = 25.4 / 72
				box := [4]float64{lo[0] * k, (high - hi[1]) * k, hi[0] * k, (high - lo[1]) * k}
				if curves == 4 {
					p.circles = append(p.circles, circle{(box[0] + box[2]) / 2, (box[1] + box[3]) / 2, box[2] - box[0]})
				} else {
					p.boxes = append(p.boxes, box)
				}
			}
		}
	}
	return p
}

// most finds where a template lies on a page: at the place where most centres of its holes are, all at true distances
// from one another. It notes the holes that it finds there, and their circles.
func most(p page, t templates.Template, centre, whole []bool) int {
	f := func(l length.Length) float64 { return float64(l) / float64(length.MM) }
	all := p.centres()
	best := 0
	var places [][2]float64 // a row of even holes fits at several
	on := func(ox, oy float64, h templates.Hole) bool {
		for _, c := range all {
			if math.Abs(c[0]-ox-f(h.X)) < 0.03 && math.Abs(c[1]-oy-f(h.Y)) < 0.03 {
				return true
			}
		}
		return false
	}
	for _, h := range t.Holes {
		for _, c := range all {
			n := 0
			for _, g := range t.Holes {
				if on(c[0]-f(h.X), c[1]-f(h.Y), g) {
					n++
				}
			}
			if n > best {
				best, places = n, nil
			}
			if n == best {
				places = append(places, [2]float64{c[0] - f(h.X), c[1] - f(h.Y)})
			}
		}
	}
	for _, at := range places {
		for k, h := range t.Holes {
			if !on(at[0], at[1], h) {
				continue
			}
			centre[k] = true
			for _, e := range p.circles {
				if math.Abs(e.x-at[0]-f(h.X)) < 0.03 && math.Abs(e.y-at[1]-f(h.Y)) < 0.03 && math.Abs(e.dia-f(h.Dia)) < 0.03 {
					whole[k] = true
				}
			}
		}
	}
	return best
}

// The holes of every template are in the finished PDF full size: their diameters and their
// distances from each other, and the bar is 100 mm long.
func TestReadBack(t *testing.T) {
	example := "fennel-street"
	if testing.Short() {
		example = "one-case"
	}
	r := plantest.Result(t, example)
	for _, paper := range []draw.Paper{draw.A4(), draw.Letter()} {
		in := templates.Input{Job: r.Job.Name, Print: r.Job.Print, Parts: r.Assembly.Parts, Paper: paper}
		list := templates.List(in)
		doc := templates.Make(in)
		for _, f := range doc.Faults() {
			t.Error(f)
		}
		for i := range doc.Pages {
			for _, f := range drawtest.Strikes(&doc.Pages[i]) {
				t.Errorf("sheet %d: %s", i+1, f)
			}
		}
		b, err := pdf.Write(&doc)
		if err != nil {
			t.Fatal(err)
		}
		plantest.Keep(t, "templates-"+example+"-"+paper.Name+".pdf", b)
		again := templates.Make(in)
		if c, _ := pdf.Write(&again); !bytes.Equal(b, c) {
			t.Error("two writings differ")
		}
		file := filepath.Join(t.TempDir(), "templates.pdf")
		if err := os.WriteFile(file, b, 0o644); err != nil {
			t.Fatal(err)
		}
		var pages []page
		for i := range doc.Pages {
			p := read(t, file, i+1)
			pages = append(pages, p)
			// the upper bar: boxes of 10 by 2 mm in a row
			lo, hi := math.Inf(1), math.Inf(-1)
			for _, x := range p.boxes {
				if math.Abs(x[2]-x[0]-10) < 0.02 && math.Abs(x[3]-x[1]-2) < 0.02 {
					lo, hi = min(lo, x[0]), max(hi, x[2])
				}
			}
			if math.Abs(hi-lo-100) > 0.05 {
				t.Errorf("sheet %d: the bar is %.2f mm long", i+1, hi-lo)
			}
		}
		for _, x := range list {
			centre, whole := make([]bool, len(x.Holes)), make([]bool, len(x.Holes))
			together := false
			for _, p := range pages {
				together = most(p, x, centre, whole) == len(x.Holes) || together
			}
			n := 0
			for k, h := range x.Holes {
				if !centre[k] {
					t.Errorf("%s for %v: the centre of the hole at %s, %s is on no sheet", x.Title, x.Marks, h.X, h.Y)
				}
				if whole[k] {
					n++
				}
			}
			small := float64(x.W)/float64(length.MM) < paper.W-40 && float64(x.H)/float64(length.MM) < 150
			if small && (!together || n < len(x.Holes)) {
				t.Errorf("%s for %v: not all of its %d holes are on one sheet", x.Title, x.Marks, len(x.Holes))
			}
			t.Logf("%s: %d of %d holes whole", x.Title, n, len(x.Holes)) // large ones may be cut by a sheet's edge
		}
		t.Logf("%s: %d templates on %d sheets", paper.Name, len(list), len(doc.Pages))
	}
}

// Every template says in figures what it shows: the distances of its holes, and where its centre line lies on every part
// that it serves, as the parts have it.
func TestFigures(t *testing.T) {
	r := plantest.Result(t, "hollis-court")
	in := templates.Input{Job: r.Job.Name, Print: length.Millimetres, Parts: r.Assembly.Parts, Paper: draw.A4()}
	doc := templates.Make(in)
	all := ""
	for i := range doc.Pages {
		for _, it := range doc.Pages[i].Items {
			if x, ok := it.(*draw.Text); ok {
				all += x.Text + " "
			}
		}
	}
	// reckoned by hand from the job: hinges 80 from both ends of doors of 717 on sides of 720 that end 3 above them,
	// plates 37 from the front and 32 apart (practice.md), slides' holes of the same pattern
	for _, want := range []string{"C.1door, C.2door, D.1door, D.2door 80, 637 from the lower end", "C.left, C.right, D.left, D.right 80, 637 from the lower end", " 37 ", " 16 ", " 22.5 ", " 133 ", " 261 ", " 389 "} {
		if !strings.Contains(all, want) {
			t.Errorf("%q stands on no sheet", want)
		}
	}
}

// Two sheets that are laid cross on cross show one board: the crosses of neighbours are at the
// same place of the template, and together the sheets show every point of it.
func TestSheetsMeet(t *testing.T) {
	const mm = length.MM
	p := part.Part{Mark: "A.shelf", Name: "shelf", Size: [3]length.Length{700 * mm, 400 * mm, 18 * mm}, Pose: geom.Pose{U: geom.Right, V: geom.Back}}
	for i := range length.Length(16) {
		for j := range length.Length(9) {
			p.Ops = append(p.Ops, part.Op{Kind: part.Hole, Face: part.Upper, X: (25 + 43*i) * mm, Y: (20 + 43*j) * mm, Dia: 10 * mm, Depth: 18 * mm, For: "bored place"})
		}
	}
	in := templates.Input{Job: "x", Print: length.Millimetres, Parts: []part.Part{p}, Paper: draw.A4()}
	doc := templates.Make(in)
	b, err := pdf.Write(&doc)
	if err != nil {
		t.Fatal(err)
	}
	plantest.Keep(t, "templates-shelf.pdf", b)
	file := filepath.Join(t.TempDir(), "templates.pdf")
	if err := os.WriteFile(file, b, 0o644); err != nil {
		t.Fatal(err)
	}
	list := templates.List(in)
	centre, whole := make([]bool, len(p.Ops)), make([]bool, len(p.Ops))
	crosses := map[string]int{}
	for i := range doc.Pages {
		pg := read(t, file, i+1)
		if i == 0 {
			continue
		}
		most(pg, list[0], centre, whole)
		// where the sheet lies: from one hole of it that is whole
		var ox, oy float64
		found := false
		for _, c := range pg.circles {
			if math.Abs(c.dia-10) < 0.03 && !found {
				// holes are 43 apart: the sheet's place is known to a multiple of 43, enough to compare crosses modulo 43
				ox, oy, found = math.Mod(25-c.x+4300, 43), math.Mod(20-c.y+4300, 43), true
			}
		}
		if !found {
			t.Fatalf("sheet %d shows no whole hole", i+1)
		}
		for _, b := range pg.boxes {
			if math.Abs(b[2]-b[0]-5) < 0.03 && math.Abs(b[3]-b[1]-5) < 0.03 {
				x, y := (b[0]+b[2])/2, (b[1]+b[3])/2
				crosses[fmt.Sprint(math.Mod(math.Round((x+ox)*5), 215), math.Mod(math.Round((y+oy)*5), 215))]++
			}
		}
	}
	for i, ok := range whole {
		if !ok || !centre[i] { // the overlap is wider than the hole
			o := p.Ops[i]
			t.Errorf("the hole at %s, %s is whole on no sheet", o.X, o.Y)
		}
	}
	if len(crosses) == 0 {
		t.Error("no crosses")
	}
	for k, n := range crosses {
		if n < 2 {
			t.Errorf("a cross at %s is on one sheet only", k)
		}
	}
}

// A mirror would be worse than none: the first hole of a lower face, looked at, start left.
func TestLowerFaceIsTurnedOver(t *testing.T) {
	const mm = length.MM
	p := part.Part{Mark: "A.shelf", Name: "shelf", Size: [3]length.Length{150 * mm, 100 * mm, 18 * mm}, Pose: geom.Pose{U: geom.Right, V: geom.Back},
		Ops: []part.Op{{Kind: part.Hole, Face: part.Lower, X: 30 * mm, Y: 20 * mm, Dia: 40 * mm, Depth: 18 * mm, For: "bored place"}}}
	list := templates.List(templates.Input{Parts: []part.Part{p}})
	if len(list) != 1 || list[0].Holes[0].X != 30*mm || list[0].Holes[0].Y != 80*mm {
		t.Errorf("%+v", list)
	}
}

// A board that is too long for an upright sheet and fits one that lies is on one sheet, whole.
func TestLongBoardsLie(t *testing.T) {
	const mm = length.MM
	p := part.Part{Mark: "A.shelf", Name: "shelf", Size: [3]length.Length{240 * mm, 80 * mm, 18 * mm}, Pose: geom.Pose{U: geom.Right, V: geom.Back},
		Ops: []part.Op{{Kind: part.Hole, Face: part.Upper, X: 30 * mm, Y: 20 * mm, Dia: 20 * mm, Depth: 18 * mm, For: part.BoredPlace}, {Kind: part.Hole, Face: part.Upper, X: 210 * mm, Y: 20 * mm, Dia: 20 * mm, Depth: 18 * mm, For: part.BoredPlace}}}
	for _, paper := range []draw.Paper{draw.A4(), draw.Letter()} {
		doc := templates.Make(templates.Input{Job: "x", Print: length.Millimetres, Parts: []part.Part{p}, Paper: paper})
		if len(doc.Pages) != 2 || doc.Pages[1].W != paper.H || doc.Pages[1].H != paper.W {
			t.Errorf("%s: %d sheets", paper.Name, len(doc.Pages))
		}
	}
}
