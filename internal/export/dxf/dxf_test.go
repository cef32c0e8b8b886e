package dxf_test

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"stowright/internal/cutlist"
	"stowright/internal/export/dxf"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan/plantest"
)

type drawing struct {
	Version  string
	Layers   []string
	Entities []struct {
		Type, Layer string
		Center      struct{ X, Y float64 }
		Radius      float64
		Closed      bool
		Text        string
		Vertices    []struct{ X, Y, Bulge float64 }
	}
}

// read gives the drawings as npm dxf-parser reads them.
func read(t *testing.T, files []dxf.File) map[string]drawing {
	t.Helper()
	dir := t.TempDir()
	for _, f := range files {
		if err := os.WriteFile(filepath.Join(dir, f.Name), f.Bytes, 0o644); err != nil {
			t.Fatal(err)
		}
		plantest.Keep(t, "parts/"+f.Name, f.Bytes)
	}
	out := map[string]drawing{}
	plantest.Node(t, &out, "dxf-read.mjs", dir)
	if len(out) != len(files) {
		t.Fatalf("%d files written, %d read: two have one name", len(files), len(out))
	}
	return out
}

// look is how somebody sees a face: what is to the right and what is up. Their cross product is
// the face's outward normal, so nothing is mirrored.
var look = map[part.Face][2]geom.Dir{
	part.Upper: {geom.Right, geom.Back}, part.Lower: {geom.Right, geom.Front},
	part.Start: {geom.Front, geom.Up}, part.End: {geom.Back, geom.Up},
	part.Near: {geom.Right, geom.Up}, part.Far: {geom.Left, geom.Up},
}

// seen gives where a point of a part, in its own frame, is on the drawing of a face.
func seen(p part.Part, f part.Face, q geom.Vec) (x, y float64) {
	at := func(d geom.Dir) float64 {
		v := q.At(d.Axis())
		lo, hi := length.Length(0), p.Size[d.Axis()]
		for i, b := range p.Bands {
			if b.Edging != "" && b.Deduct && i/2 == d.Axis() {
				if i%2 == 0 {
					lo += b.Thickness
				} else {
					hi -= b.Thickness
				}
			}
		}
		if d.Sign() > 0 {
			return float64(v-lo) / float64(length.MM)
		}
		return float64(hi-v) / float64(length.MM)
	}
	return at(look[f][0]), at(look[f][1])
}

func TestNothingIsMirrored(t *testing.T) {
	for f, d := range look {
		if p := (geom.Pose{U: d[0], V: d[1]}); p.W() != f.Normal() {
			t.Errorf("%s: right %s and up %s look out of %s, not %s", f, d[0], d[1], p.W(), f.Normal())
		}
	}
}

// faceOf gives the face that a drawing says it shows.
func faceOf(d drawing) (part.Face, bool) {
	names := map[string]part.Face{"upper face": part.Upper, "lower face": part.Lower, "start end": part.Start, "far end": part.End, "near edge": part.Near, "far edge": part.Far}
	for _, e := range d.Entities {
		if e.Type == "TEXT" {
			f, ok := names[e.Text[strings.LastIndex(e.Text, ", ")+2:]]
			return f, ok
		}
	}
	return 0, false
}

// Every hole and every straight working of every part of the examples is read back, by a reader
// that is not ours, at its place, at its size, once; the outline is the part as sawn.
func TestPartsReadBack(t *testing.T) {
	for _, example := range plantest.Examples() {
		t.Run(example, func(t *testing.T) {
			parts := plantest.Result(t, example).Assembly.Parts
			files := dxf.Files(parts)
			got := read(t, files)
			holes, straight := 0, 0
			for _, g := range cutlist.Groups(parts) {
				p := g.Part
				views := map[part.Face]drawing{}
				for name, d := range got {
					if name == p.Mark+".dxf" || strings.HasPrefix(name, p.Mark+"-") {
						f, ok := faceOf(d)
						if _, twice := views[f]; twice || !ok {
							t.Errorf("%s says that it shows the %s", name, f)
						}
						views[f] = d
					}
				}
				cut := p.Cut()
				for f, d := range views {
					w := float64(cut[look[f][0].Axis()]) / float64(length.MM)
					h := float64(cut[look[f][1].Axis()]) / float64(length.MM)
					if d.Version != "AC1009" {
						t.Errorf("%s: version %q", p.Mark, d.Version)
					}
					ok := false
					for _, e := range d.Entities {
						if e.Layer == dxf.Outline {
							ok = e.Closed && near(box(e.Vertices), [4]float64{0, 0, w, h})
						}
						if !slices.Contains(d.Layers, e.Layer) {
							t.Errorf("%s: layer %q is not in the table", p.Mark, e.Layer)
						}
						if len(e.Layer) > 31 {
							t.Errorf("%s: layer %q is longer than release 12 allows", p.Mark, e.Layer)
						}
					}
					if !ok {
						t.Errorf("%s, %s: the outline is not %.3f by %.3f", p.Mark, f, w, h)
					}
				}
				for _, o := range p.Ops {
					switch o.Kind {
					case part.Hole, part.Cup, part.Countersink:
						holes++
						if n := circles(p, views, o); n != 1 {
							t.Errorf("%s: %s of %s at %s, %s of the %s face is drawn %d times", p.Mark, o.Kind, o.Dia, o.X, o.Y, o.Face, n)
						}
					case part.Groove, part.Rabbet, part.Notch, part.Cutout, part.Slot:
						straight++
						if n := rects(p, views, o); n < 1 {
							t.Errorf("%s: %s at %s, %s of the %s face is not drawn", p.Mark, o.Kind, o.X, o.Y, o.Face)
						}
					}
				}
			}
			t.Logf("%d files, %d round and %d straight workings", len(files), holes, straight)
			if holes == 0 {
				t.Error("no hole was compared: the test is broken")
			}
		})
	}
}

func isCircle(p part.Part, f part.Face, o part.Op, x, y, r float64) bool {
	if o.Face != f && !(o.Face == f.Not() && o.Depth >= p.Size[f.Normal().Axis()]) {
		return false
	}
	a, b := seen(p, f, o.Face.Point(o.X, o.Y, p.Size))
	return math.Abs(a-x) < 1e-6 && math.Abs(b-y) < 1e-6 && math.Abs(float64(o.Dia)/float64(length.MM)/2-r) < 1e-6
}

func circles(p part.Part, views map[part.Face]drawing, o part.Op) int {
	n := 0
	for f, d := range views {
		for _, e := range d.Entities {
			if e.Type == "CIRCLE" && strings.HasPrefix(e.Layer, strings.ToUpper(o.Kind.String())+"-") && isCircle(p, f, o, e.Center.X, e.Center.Y, e.Radius) {
				n++
			}
		}
	}
	return n
}

func rects(p part.Part, views map[part.Face]drawing, o part.Op) int {
	n := 0
	gone := o.Removed(p.Size)
	for f, d := range views {
		if f != o.Face && f != o.Face.Not() {
			continue
		}
		x0, y0 := seen(p, f, gone.Min)
		x1, y1 := seen(p, f, gone.Max)
		want := [4]float64{min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)}
		for _, e := range d.Entities {
			if e.Closed && strings.HasPrefix(e.Layer, strings.ToUpper(o.Kind.String())+"-") && near(box(e.Vertices), want) {
				n++
			}
		}
	}
	return n
}

func box(v []struct{ X, Y, Bulge float64 }) [4]float64 {
	if len(v) == 0 {
		return [4]float64{}
	}
	b := [4]float64{v[0].X, v[0].Y, v[0].X, v[0].Y}
	for i, p := range v {
		b = [4]float64{min(b[0], p.X), min(b[1], p.Y), max(b[2], p.X), max(b[3], p.Y)}
		if p.Bulge == 1 { // a half circle to the next corner, anticlockwise: it bulges to the right of the way there
			q := v[(i+1)%len(v)]
			mx, my, dx, dy := (p.X+q.X)/2, (p.Y+q.Y)/2, (q.X-p.X)/2, (q.Y-p.Y)/2
			b = [4]float64{min(b[0], mx+dy), min(b[1], my-dx), max(b[2], mx+dy), max(b[3], my-dx)}
		}
	}
	return b
}

func near(a, b [4]float64) bool {
	for i := range a {
		if math.Abs(a[i]-b[i]) > 1e-6 {
			return false
		}
	}
	return true
}

// Kinds that the examples may lack: a slot, a mitre, a taper, edging that is deducted.
func TestRareWorkings(t *testing.T) {
	const mm = length.MM
	p := part.Part{Mark: "A.top", Name: "top", Stock: "ply", Size: [3]length.Length{800 * mm, 300 * mm, 18 * mm}}
	p.Bands[part.BandStart] = part.Band{Edging: "oak", Thickness: 3 * mm, Deduct: true}
	p.Bands[part.BandNear] = part.Band{Edging: "oak", Thickness: 5 * mm, Deduct: true}
	p.Ops = []part.Op{
		{Kind: part.Slot, Face: part.Upper, X: 100 * mm, Y: 50 * mm, L: 60 * mm, W: 8 * mm, Depth: 18 * mm, Tool: "router"},
		{Kind: part.Slot, Face: part.Upper, X: 300 * mm, Y: 50 * mm, L: 8 * mm, W: 60 * mm, Depth: 5 * mm, Tool: "router"},
		{Kind: part.Cup, Face: part.Lower, X: 100 * mm, Y: 20 * mm, Dia: 35 * mm, Depth: 12 * mm, Tool: "35 mm bit"},
		{Kind: part.Bevel, Face: part.End, Depth: 18 * mm, Angle: 45, Towards: part.Lower, Tool: "a table saw with a name far too long"},
	}
	got := read(t, dxf.Files([]part.Part{p}))
	up, down := got["A.top.dxf"], got["A.top-turned.dxf"]
	if rects(p, map[part.Face]drawing{part.Lower: up}, p.Ops[0]) != 1 {
		t.Errorf("no through slot in %+v", up)
	}
	if rects(p, map[part.Face]drawing{part.Upper: down}, p.Ops[1]) != 1 {
		t.Errorf("no blind slot in %+v", down)
	}
	// the lower face has two workings that do not go through, the upper one: the lower comes first
	cup := false
	for _, e := range up.Entities {
		// start left, turned over about the long edge: 100 - 3 from the sawn start; 300 - 20 less nothing at the far edge
		cup = cup || e.Type == "CIRCLE" && e.Center.X == 97 && e.Center.Y == 280 && e.Radius == 17.5
		if e.Type == "LINE" && (e.Vertices[0].X != 779 || e.Vertices[1].X != 779) {
			t.Errorf("the mitre begins at %v", e.Vertices)
		}
	}
	if !cup {
		t.Errorf("no hinge cup at 97, 280: %+v", up)
	}
}

func TestSameBytes(t *testing.T) {
	parts := plantest.Result(t, "one-case").Assembly.Parts
	a, b := dxf.Files(parts), dxf.Files(parts)
	for i := range a {
		if !bytes.Equal(a[i].Bytes, b[i].Bytes) || a[i].Name != b[i].Name {
			t.Errorf("%s differs", a[i].Name)
		}
	}
}
