package drawings_test

import (
	"bytes"
	"encoding/xml"
	"math"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"stowright/internal/draw/svg"
	"stowright/internal/length"
	"stowright/internal/packet/drawings"
	"stowright/internal/pages"
	"stowright/internal/part"
	"stowright/internal/plan/plantest"
	"stowright/internal/view"
)

type rect struct{ x0, y0, x1, y1 float64 }

// picture is what encoding/xml finds in an SVG: the texts, and the box of every path by layer.
type picture struct {
	width, height float64
	texts         []string
	boxes         map[string][]rect
}

func read(t *testing.T, b []byte) picture {
	t.Helper()
	p := picture{boxes: map[string][]rect{}}
	var layers []string
	text := false
	dec := xml.NewDecoder(bytes.NewReader(b))
	for {
		tok, err := dec.Token()
		if tok == nil {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		attr := func(e xml.StartElement, name string) string {
			for _, a := range e.Attr {
				if a.Name.Local == name {
					return a.Value
				}
			}
			return ""
		}
		switch e := tok.(type) {
		case xml.StartElement:
			switch e.Name.Local {
			case "svg":
				p.width, _ = strconv.ParseFloat(strings.TrimSuffix(attr(e, "width"), "mm"), 64)
				p.height, _ = strconv.ParseFloat(strings.TrimSuffix(attr(e, "height"), "mm"), 64)
				if attr(e, "viewBox") != "0 0 "+strings.TrimSuffix(attr(e, "width"), "mm")+" "+strings.TrimSuffix(attr(e, "height"), "mm") {
					t.Error("one unit of the picture is not one millimetre")
				}
			case "g":
				layers = append(layers, attr(e, "data-layer"))
			case "path":
				l := strings.Join(layers, "")
				p.boxes[l] = append(p.boxes[l], boxOf(t, attr(e, "d")))
			case "text":
				text = true
			}
		case xml.EndElement:
			switch e.Name.Local {
			case "g":
				layers = layers[:len(layers)-1]
			case "text":
				text = false
			}
		case xml.CharData:
			if text {
				p.texts = append(p.texts, string(e))
			}
		}
	}
	return p
}

// boxOf gives the box of a path's points.
func boxOf(t *testing.T, d string) rect {
	t.Helper()
	fields := strings.FieldsFunc(d, func(r rune) bool { return strings.ContainsRune("MLCZ ", r) })
	r := rect{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for i := 0; i+1 < len(fields); i += 2 {
		x, err1 := strconv.ParseFloat(fields[i], 64)
		y, err2 := strconv.ParseFloat(fields[i+1], 64)
		if err1 != nil || err2 != nil {
			t.Fatalf("path %q", d)
		}
		r = rect{min(r.x0, x), min(r.y0, y), max(r.x1, x), max(r.y1, y)}
	}
	return r
}

func near(a, b, tol float64) bool { return math.Abs(a-b) <= tol }

func says(p picture, part string) bool {
	for _, t := range p.texts {
		if strings.Contains(t, part) {
			return true
		}
	}
	return false
}

// Every piece of every sheet is drawn where the plan lays it, at its size to the picture's 1/100 mm, with its
// mark; the sheet's own size stands beside it.
func TestSheetsReadBack(t *testing.T) {
	for _, example := range plantest.Examples() {
		t.Run(example, func(t *testing.T) {
			r := plantest.Result(t, example)
			list := drawings.Sheets(r.Plan, r.Marks, r.Job.Catalogue, view.Units{Unit: r.Job.Print})
			if len(list) != len(r.Plan.Sheets) {
				t.Fatalf("%d drawings of %d sheets", len(list), len(r.Plan.Sheets))
			}
			unsaid := 0
			for i, d := range list {
				b, err := svg.Write(&d.Sheet, d.Title, svg.Live)
				if err != nil {
					t.Fatal(err)
				}
				plantest.Keep(t, example+"/sheets/"+d.Name+".svg", b)
				p := read(t, b)
				s := r.Plan.Sheets[i]
				k := float64(d.Scale.Paper) / float64(d.Scale.Real) / float64(length.MM)
				for n, x := range s.Pieces {
					want := rect{d.Zero.X + float64(x.X)*k, d.Zero.Y - float64(x.Y+x.W)*k, d.Zero.X + float64(x.X+x.L)*k, d.Zero.Y - float64(x.Y)*k}
					found := false
					for _, g := range p.boxes["Sheet"] {
						found = found || near(g.x0, want.x0, 0.0101) && near(g.y0, want.y0, 0.0101) && near(g.x1, want.x1, 0.0101) && near(g.y1, want.y1, 0.0101)
					}
					if !found {
						t.Errorf("sheet %s: %s is not drawn at its place and size", d.Name, r.Marks[i][n])
					}
					if !says(p, r.Marks[i][n]) {
						unsaid++
						t.Logf("sheet %s: no room for the mark %s", d.Name, r.Marks[i][n])
					}
				}
				for _, side := range []length.Length{s.L, s.W} {
					if !says(p, side.Marked(r.Job.Print)) {
						t.Errorf("sheet %s: its size %s is not said", d.Name, side.In(r.Job.Print))
					}
				}
			}
			if unsaid > 0 {
				t.Errorf("%d pieces without their marks", unsaid)
			}
		})
	}
}

// A case's front view is as large as its parts, at the stated scale.
func TestViewsReadBack(t *testing.T) {
	for _, example := range plantest.Examples() {
		t.Run(example, func(t *testing.T) {
			r := plantest.Result(t, example)
			list := drawings.Views(&r.Assembly, pages.Walls(r), view.Units{Unit: r.Job.Print})
			by := map[string]picture{}
			of := map[string]drawings.Drawing{}
			for _, d := range list {
				b, err := svg.Write(&d.Sheet, d.Title, svg.Live)
				if err != nil {
					t.Fatal(err)
				}
				plantest.Keep(t, example+"/views/"+d.Name+".svg", b)
				if _, twice := by[d.Name]; twice {
					t.Errorf("two drawings are called %s", d.Name)
				}
				by[d.Name], of[d.Name] = read(t, b), d
			}
			n := 0
			for _, o := range r.Assembly.Owners {
				var all part.Box
				for _, p := range view.Of(&r.Assembly, o.ID) {
					all = all.Or(p.Box())
				}
				code := view.Code(&r.Assembly, o.ID)
				name := code + "-fronts-on"
				if _, ok := by[name]; !ok {
					name = code + "-front" // nothing comes off
				}
				p, ok := by[name]
				if !ok || o.Standing {
					continue
				}
				n++
				var got rect
				for i, g := range p.boxes["Front"] {
					if i == 0 {
						got = g
					}
					got = rect{min(got.x0, g.x0), min(got.y0, g.y0), max(got.x1, g.x1), max(got.y1, g.y1)}
				}
				k := float64(of[name].Scale.Paper) / float64(of[name].Scale.Real) / float64(length.MM)
				if w, h := float64(all.Size().X)*k, float64(all.Size().Z)*k; !near(got.x1-got.x0, w, 0.021) || !near(got.y1-got.y0, h, 0.021) {
					t.Errorf("%s is drawn %.2f by %.2f mm, want %.2f by %.2f", name, got.x1-got.x0, got.y1-got.y0, w, h)
				}
			}
			if n == 0 {
				t.Error("no view was compared")
			}
		})
	}
}

// An independent renderer takes them without a word: librsvg.
func TestRenderer(t *testing.T) {
	tool := plantest.Tool(t, "rsvg-convert")
	r := plantest.Result(t, "one-case")
	list := append(drawings.Sheets(r.Plan, r.Marks, r.Job.Catalogue, view.Units{Unit: r.Job.Print}), drawings.Views(&r.Assembly, nil, view.Units{Unit: r.Job.Print})...)
	for _, d := range list {
		b, err := svg.Write(&d.Sheet, d.Title, svg.Live)
		if err != nil {
			t.Fatal(err)
		}
		cmd := exec.Command(tool, "-o", filepath.Join(t.TempDir(), "x.png"))
		cmd.Stdin = bytes.NewReader(b)
		if out, err := cmd.CombinedOutput(); err != nil || len(out) > 0 {
			t.Errorf("%s: %v %s", d.Name, err, out)
		}
	}
}
