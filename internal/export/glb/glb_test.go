package glb_test

import (
	"encoding/binary"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"

	"stowright/internal/export/glb"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/output"
	"stowright/internal/part"
	"stowright/internal/plan/plantest"
)

const mm = length.MM

// a side with pin holes, a groove that crosses them, a notch, and a left-hinged door.
func sample() part.Assembly {
	side := part.Part{Mark: "A1", Owner: "a", Name: "left side", Stock: "ply", Size: [3]length.Length{700 * mm, 500 * mm, 18 * mm},
		Pose: geom.Around(geom.B(0, -500*mm, 0, 18*mm, 0, 700*mm), geom.Up, geom.Back)}
	for i := range length.Length(10) {
		side.Ops = append(side.Ops, part.Op{Kind: part.Hole, Face: part.Upper, X: (100 + 32*i) * mm, Y: 137 * mm, Dia: 5 * mm, Depth: 12 * mm})
	}
	side.Ops = append(side.Ops,
		part.Op{Kind: part.Groove, Face: part.Upper, X: 0, Y: 480 * mm, L: 700 * mm, W: 6 * mm, Depth: 6 * mm},
		part.Op{Kind: part.Notch, Face: part.Upper, X: 0, Y: 0, L: 100 * mm, W: 75 * mm, Depth: 18 * mm},
		part.Op{Kind: part.Hole, Face: part.Upper, X: 400 * mm, Y: 250 * mm, Dia: 60 * mm, Depth: 18 * mm},
		part.Op{Kind: part.Hole, Face: part.Near, X: 300 * mm, Y: 9 * mm, Dia: 8 * mm, Depth: 22 * mm})
	door := part.Part{Mark: "A2", Owner: "a", Name: "door", Stock: "ply", Size: [3]length.Length{700 * mm, 400 * mm, 18 * mm}, Moves: "a/door",
		Pose: geom.Around(geom.B(0, -518*mm, 0, 400*mm, -500*mm, 700*mm), geom.Up, geom.Right)}
	return part.Assembly{Owners: []part.Owner{{ID: "a", Kind: "case", Wall: "north"}}, Parts: []part.Part{side, door}}
}

// Against the Khronos glTF validator.
func TestValidatorFindsNothing(t *testing.T) {
	walls := []glb.Wall{{ID: "north"}, {ID: "west", Origin: geom.V(0, -1000*mm, 0), Angle: 90}}
	files := map[string][]byte{"sample": glb.Write(sample(), walls)}
	for _, example := range plantest.Examples() {
		files[example] = output.Model(plantest.Result(t, example))
	}
	for name, b := range files {
		file := filepath.Join(t.TempDir(), name+".glb")
		if err := os.WriteFile(file, b, 0o644); err != nil {
			t.Fatal(err)
		}
		plantest.Keep(t, name+".glb", b)
		var r struct {
			Errors, Warnings int
			Messages         []any
		}
		plantest.Node(t, &r, "glb-check.mjs", file)
		if r.Errors != 0 || r.Warnings != 0 {
			t.Errorf("%s: %d errors, %d warnings: %v", name, r.Errors, r.Warnings, r.Messages)
		}
		if len(b) > 1_500_000 {
			t.Errorf("%s: %d bytes, more than a phone should load", name, len(b))
		}
		t.Logf("%s: %d bytes", name, len(b))
	}
}

type doc struct {
	Nodes []struct {
		Name     string
		Mesh     *int
		Matrix   *[16]float64
		Children []int
	}
	Meshes []struct {
		Primitives []struct {
			Attributes map[string]int
			Indices    int
		}
	}
	Accessors []struct {
		BufferView, Count int
		ComponentType     int
		Min, Max          []float64
	}
	BufferViews []struct{ ByteOffset, ByteLength int }
}

func read(t *testing.T, b []byte) (doc, []byte) {
	t.Helper()
	n := binary.LittleEndian.Uint32(b[12:])
	var d doc
	if err := json.Unmarshal(b[20:20+n], &d); err != nil {
		t.Fatal(err)
	}
	return d, b[20+n+8:]
}

// The volume that the triangles enclose is the board's less its workings: a closed surface,
// facing outwards (divergence theorem). Round holes count as the polygons they are drawn as.
func TestMeshEnclosesTheSolid(t *testing.T) {
	d, bin := read(t, glb.Write(sample(), nil))
	triangles := func(mesh int) [][3]float64 { // three corners each
		pr := d.Meshes[mesh].Primitives[0]
		a, ix := d.Accessors[pr.Attributes["POSITION"]], d.Accessors[pr.Indices]
		v, iv := d.BufferViews[a.BufferView], d.BufferViews[ix.BufferView]
		var out [][3]float64
		for i := range ix.Count {
			n := 0
			switch ix.ComponentType {
			case 5123:
				n = int(binary.LittleEndian.Uint16(bin[iv.ByteOffset+2*i:]))
			case 5125:
				n = int(binary.LittleEndian.Uint32(bin[iv.ByteOffset+4*i:]))
			default:
				t.Fatalf("corners of type %d", ix.ComponentType)
			}
			var p [3]float64
			for k := range 3 {
				p[k] = float64(math.Float32frombits(binary.LittleEndian.Uint32(bin[v.ByteOffset+12*n+4*k:])))
			}
			out = append(out, p)
		}
		return out
	}
	volume := func(mesh int) float64 {
		p := triangles(mesh)
		sum := 0.0
		for i := 0; i+2 < len(p); i += 3 {
			x, y, z := p[i], p[i+1], p[i+2]
			sum += x[0]*(y[1]*z[2]-y[2]*z[1]) - x[1]*(y[0]*z[2]-y[2]*z[0]) + x[2]*(y[0]*z[1]-y[1]*z[0])
		}
		return sum / 6 * 1e9 // mm3
	}
	closed := func(mesh int) [3]float64 {
		p := triangles(mesh)
		var sum [3]float64
		for i := 0; i+2 < len(p); i += 3 {
			var e, f [3]float64
			for k := range 3 {
				e[k], f[k] = p[i+1][k]-p[i][k], p[i+2][k]-p[i][k]
			}
			for k := range 3 {
				sum[k] += (e[(k+1)%3]*f[(k+2)%3] - e[(k+2)%3]*f[(k+1)%3]) / 2 * 1e6
			}
		}
		return sum
	}
	gon := func(n float64) float64 { return n / 2 * math.Sin(2*math.Pi/n) / 4 } // area of the n-gon over the square of its diameter
	want := 700*500*18.0 - 10*gon(8)*25*12 - 700*6*6.0 - 100*75*18.0 - gon(24)*3600*18 - gon(8)*64*22
	for _, n := range d.Nodes {
		if n.Name == "A1" {
			// The areas of a closed surface, as vectors, add to nothing.
			for k, s := range closed(*n.Mesh) {
				if math.Abs(s) > 1 {
					t.Errorf("the side is not closed along its axis %d: %.1f mm2 over", k, s)
				}
			}
			if got := volume(*n.Mesh); math.Abs(got-want) > 1e-4*want {
				t.Errorf("side encloses %.0f mm3, want %.0f", got, want)
			}
		}
		if n.Name == "A2" {
			if got := volume(*n.Mesh); math.Abs(got-700*400*18) > 1 {
				t.Errorf("door encloses %.0f mm3, want %d", got, 700*400*18)
			}
		}
	}
}

// The right-handed frame stays right-handed, and what is left stays left.
func TestMatricesTurnAndDoNotMirror(t *testing.T) {
	d, _ := read(t, glb.Write(sample(), nil))
	seen := 0
	for _, n := range d.Nodes {
		if n.Matrix == nil {
			continue
		}
		seen++
		m := n.Matrix
		det := m[0]*(m[5]*m[10]-m[9]*m[6]) - m[4]*(m[1]*m[10]-m[9]*m[2]) + m[8]*(m[1]*m[6]-m[5]*m[2])
		if math.Abs(det-1) > 1e-9 {
			t.Errorf("%s: determinant %v", n.Name, det)
		}
		if n.Name == "A2" && (m[12] != 0 || m[14] != 0.518) {
			t.Errorf("door's corner at x %v, z %v; want 0, 0.518 (towards the viewer is +z)", m[12], m[14])
		}
	}
	if seen != 2 {
		t.Errorf("%d parts, want 2", seen)
	}
}
