package svg_test

import (
	"bytes"
	"encoding/xml"
	"flag"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"stowright/internal/draw"
	"stowright/internal/draw/svg"
)

var keep = flag.String("keep", "", "folder to keep the pictures in")

func sheet() *draw.Sheet {
	s := draw.A4().Sheet(true)
	free, _ := s.Frame(draw.TitleBlock{Owner: "A & B <Makers>", Title: "Shelf ⌀ 5", DocType: "Part", Number: "7", SheetNo: 1, Sheets: 2, Scale: "1:2", Unit: "mm"})
	v := draw.Rect{X: free.X + 40, Y: free.Y + 40, W: 120, H: 60}
	s.Layer = "View"
	s.Rect(draw.Visible, v)
	s.Hatch(draw.CutBoard, v.Corners(), v.Inset(15).Corners())
	s.Circle(draw.Edge, v.Mid(), 5)
	s.Poly(draw.Centre, draw.Pt(v.X-5, v.Mid().Y), draw.Pt(v.Right()+5, v.Mid().Y))
	s.Layer = ""
	d := draw.Dims{View: v}
	d.Single(draw.Below, v.X, v.Right(), "240")
	d.Single(draw.Left, v.Y, v.Bottom(), "120")
	d.Draw(s)
	s.Anchor("here", draw.Pt(10, 10))
	s.Link(v, "here")
	return s
}

// TestSVG: the result is well-formed XML, the same each time, says its texts, and draws
// without complaint in librsvg where that is installed.
func TestSVG(t *testing.T) {
	for how, name := range []string{"live", "outlines"} {
		out, err := svg.Write(sheet(), "A shelf", svg.Lettering(how))
		if err != nil {
			t.Fatal(err)
		}
		again, _ := svg.Write(sheet(), "A shelf", svg.Lettering(how))
		if !bytes.Equal(out, again) {
			t.Errorf("%s: two writings differ", name)
		}
		dec := xml.NewDecoder(bytes.NewReader(out))
		ids, refs := map[string]bool{}, map[string]bool{}
		for {
			tok, err := dec.Token()
			if err == io.EOF {
				break
			}
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			if el, ok := tok.(xml.StartElement); ok {
				for _, a := range el.Attr {
					if a.Name.Local == "id" {
						if ids[a.Value] {
							t.Errorf("%s: id %s twice", name, a.Value)
						}
						ids[a.Value] = true
					}
					if a.Name.Local == "href" {
						refs[strings.TrimPrefix(a.Value, "#")] = true
					}
				}
			}
		}
		for r := range refs {
			if !ids[r] {
				t.Errorf("%s: %s is used but not there", name, r)
			}
		}
		if !strings.Contains(string(out), "A &amp; B &lt;Makers&gt;") || !strings.Contains(string(out), "240") {
			t.Errorf("%s: a text is missing", name)
		}
		if strings.Contains(string(out), "NaN") {
			t.Errorf("%s: a size is no number", name)
		}
		if *keep != "" {
			os.WriteFile(filepath.Join(*keep, name+".svg"), out, 0o644)
		}
		tool, err := exec.LookPath("rsvg-convert")
		if err != nil {
			t.Log("rsvg-convert (librsvg2-bin) is not installed: the picture was not rendered")
			continue
		}
		cmd := exec.Command(tool, "-f", "png", "-o", filepath.Join(t.TempDir(), "a.png"))
		cmd.Stdin = bytes.NewReader(out)
		if msg, err := cmd.CombinedOutput(); err != nil || len(msg) > 0 {
			t.Errorf("%s: rsvg-convert: %v %s", name, err, msg)
		}
	}
	bad := draw.A4().Sheet(false)
	bad.Poly(draw.Edge, draw.Pt(0, 0), draw.Pt(1, math.NaN()))
	if _, err := svg.Write(bad, "", svg.Live); err == nil {
		t.Error("a point that is no number was written")
	}
}
