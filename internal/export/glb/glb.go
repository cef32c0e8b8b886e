// Package glb writes the job as one binary glTF 2.0 file, a node for every part, for any 3D
// viewer. glTF is in metres with y up: our x stays x, our z becomes y, our y becomes -z, a
// turn and no mirror.
package glb

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"math"
	"slices"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
)

// Wall is where a wall's frame lies: its left end, and the turn of its x axis, in degrees
// anticlockwise from above.
type Wall struct {
	ID     string
	Origin geom.Vec
	Angle  float64
}

// Write gives the bytes of model.glb. Parts keep their order; equal parts are separate nodes
// that share one mesh.
func Write(a part.Assembly, walls []Wall) []byte {
	w := writer{meshes: map[string]int{}, materials: map[string]int{}}
	wall := map[string]int{}
	for i, x := range walls {
		wall[x.ID] = i
		s, c := math.Sincos(x.Angle * math.Pi / 360)
		m := func(l length.Length) float64 { return float64(l) / float64(1000*length.MM) }
		n := node{Name: "wall " + x.ID, Translation: &[3]float64{round(m(x.Origin.X)), round(m(x.Origin.Z)), round(-m(x.Origin.Y))}}
		if x.Angle != 0 {
			n.Rotation = &[4]float64{0, round(s), 0, round(c)}
		}
		w.doc.Nodes = append(w.doc.Nodes, n)
	}
	if len(walls) == 0 {
		w.doc.Nodes = append(w.doc.Nodes, node{Name: "room"})
	}
	owner := map[string]int{}
	for _, o := range a.Owners {
		if slices.ContainsFunc(a.Parts, func(p part.Part) bool { return p.Owner == o.ID }) {
			owner[o.ID] = len(w.doc.Nodes)
			w.child(wall[o.Wall], node{Name: o.ID})
		}
	}
	for _, p := range a.Parts {
		parent, ok := owner[p.Owner]
		if !ok {
			parent = 0
		}
		i := w.mesh(p)
		w.child(parent, node{Name: p.Mark, Mesh: &i, Matrix: matrix(p.Pose),
			Extras: map[string]string{"mark": p.Mark, "name": p.Name, "owner": p.Owner, "stock": p.Stock}})
	}
	return w.bytes(len(walls))
}

func round(f float64) float64 { return math.Round(f*1e7) / 1e7 }

// matrix is column-major, from the part's frame in metres to the wall's in glTF axes.
func matrix(p part.Pose) *[16]float64 {
	var m [16]float64
	put := func(col int, x, y, z float64) {
		m[4*col], m[4*col+1], m[4*col+2] = x, z, -y
		for i := range 3 {
			m[4*col+i] = m[4*col+i] + 0 // no negative zero
		}
	}
	for i, d := range []geom.Dir{p.U, p.V, p.W()} {
		v := d.Vec(1)
		put(i, float64(v.X), float64(v.Y), float64(v.Z))
	}
	const metre = float64(1000 * length.MM)
	put(3, float64(p.Origin.X)/metre, float64(p.Origin.Y)/metre, float64(p.Origin.Z)/metre)
	m[15] = 1
	return &m
}

type node struct {
	Name        string            `json:"name"`
	Mesh        *int              `json:"mesh,omitempty"`
	Children    []int             `json:"children,omitempty"`
	Matrix      *[16]float64      `json:"matrix,omitempty"`
	Translation *[3]float64       `json:"translation,omitempty"`
	Rotation    *[4]float64       `json:"rotation,omitempty"`
	Extras      map[string]string `json:"extras,omitempty"`
}

type document struct {
	Asset struct {
		Version   string `json:"version"`
		Generator string `json:"generator"`
	} `json:"asset"`
	Scene  int `json:"scene"`
	Scenes []struct {
		Nodes []int `json:"nodes"`
	} `json:"scenes"`
	Nodes       []node     `json:"nodes"`
	Meshes      []meshJSON `json:"meshes,omitempty"`
	Materials   []material `json:"materials,omitempty"`
	Accessors   []accessor `json:"accessors,omitempty"`
	BufferViews []view     `json:"bufferViews,omitempty"`
	Buffers     []buffer   `json:"buffers,omitempty"`
}

type meshJSON struct {
	Primitives []primitive `json:"primitives"`
}

type primitive struct {
	Attributes map[string]int `json:"attributes"`
	Indices    int            `json:"indices"`
	Material   int            `json:"material"`
}

type material struct {
	Name string `json:"name"`
	PBR  struct {
		Color    [4]float64 `json:"baseColorFactor"`
		Metallic float64    `json:"metallicFactor"`
		Rough    float64    `json:"roughnessFactor"`
	} `json:"pbrMetallicRoughness"`
}

type accessor struct {
	View  int       `json:"bufferView"`
	Type  int       `json:"componentType"`
	Count int       `json:"count"`
	Kind  string    `json:"type"`
	Min   []float32 `json:"min,omitempty"`
	Max   []float32 `json:"max,omitempty"`
}

type view struct {
	Buffer int `json:"buffer"`
	Offset int `json:"byteOffset"`
	Length int `json:"byteLength"`
	Target int `json:"target"`
}

type buffer struct {
	Length int `json:"byteLength"`
}

type writer struct {
	doc       document
	bin       bytes.Buffer
	meshes    map[string]int
	materials map[string]int
}

func (w *writer) child(parent int, n node) {
	i := len(w.doc.Nodes)
	w.doc.Nodes = append(w.doc.Nodes, n)
	w.doc.Nodes[parent].Children = append(w.doc.Nodes[parent].Children, i)
}

func (w *writer) mesh(p part.Part) int {
	key := fmt.Sprint(p.Size, p.Ops, p.Stock)
	if i, ok := w.meshes[key]; ok {
		return i
	}
	m := meshOf(p)
	pr := primitive{Attributes: map[string]int{"POSITION": w.vectors(m.at)}, Indices: w.indices(m.index, len(m.at)), Material: w.material(p.Stock)}
	i := len(w.doc.Meshes)
	w.doc.Meshes = append(w.doc.Meshes, meshJSON{[]primitive{pr}})
	w.meshes[key] = i
	return i
}

// material gives stocks pale wood tones, in the order they are met.
func (w *writer) material(stock string) int {
	if i, ok := w.materials[stock]; ok {
		return i
	}
	tones := [...][4]float64{{0.86, 0.76, 0.60, 1}, {0.78, 0.66, 0.50, 1}, {0.90, 0.84, 0.72, 1}, {0.70, 0.60, 0.48, 1}, {0.82, 0.72, 0.62, 1}}
	i := len(w.doc.Materials)
	m := material{Name: stock}
	m.PBR.Color, m.PBR.Rough = tones[i%len(tones)], 0.9
	w.doc.Materials = append(w.doc.Materials, m)
	w.materials[stock] = i
	return i
}

func (w *writer) begin(target int) int {
	w.doc.BufferViews = append(w.doc.BufferViews, view{Offset: w.bin.Len(), Target: target})
	return len(w.doc.BufferViews) - 1
}

func (w *writer) end(v int) { w.doc.BufferViews[v].Length = w.bin.Len() - w.doc.BufferViews[v].Offset }

func (w *writer) vectors(list [][3]float32) int {
	v := w.begin(34962)
	a := accessor{View: v, Type: 5126, Count: len(list), Kind: "VEC3"}
	for i, p := range list {
		var b [12]byte
		for k := range 3 {
			binary.LittleEndian.PutUint32(b[4*k:], math.Float32bits(p[k]))
		}
		w.bin.Write(b[:])
		if i == 0 {
			a.Min, a.Max = []float32{p[0], p[1], p[2]}, []float32{p[0], p[1], p[2]}
		}
		for k := range 3 {
			a.Min[k], a.Max[k] = min(a.Min[k], p[k]), max(a.Max[k], p[k])
		}
	}
	w.end(v)
	w.doc.Accessors = append(w.doc.Accessors, a)
	return len(w.doc.Accessors) - 1
}

// indices writes corners in two bytes each where there are few enough of them.
func (w *writer) indices(list []uint32, corners int) int {
	v := w.begin(34963)
	a := accessor{View: v, Type: 5125, Count: len(list), Kind: "SCALAR"}
	if corners < 1<<16-1 {
		a.Type = 5123
	}
	for _, i := range list {
		var b [4]byte
		binary.LittleEndian.PutUint32(b[:], i)
		if a.Type == 5123 {
			w.bin.Write(b[:2])
		} else {
			w.bin.Write(b[:])
		}
	}
	w.end(v)
	for w.bin.Len()%4 != 0 {
		w.bin.WriteByte(0)
	}
	w.doc.Accessors = append(w.doc.Accessors, a)
	return len(w.doc.Accessors) - 1
}

func (w *writer) bytes(walls int) []byte {
	w.doc.Asset.Version, w.doc.Asset.Generator = "2.0", "stowright"
	scene := struct {
		Nodes []int `json:"nodes"`
	}{}
	for i := range max(1, walls) {
		scene.Nodes = append(scene.Nodes, i)
	}
	w.doc.Scenes = append(w.doc.Scenes, scene)
	if w.bin.Len() > 0 {
		w.doc.Buffers = []buffer{{w.bin.Len()}}
	}
	js, err := json.Marshal(w.doc)
	if err != nil {
		panic("glb: " + err.Error())
	}
	for len(js)%4 != 0 {
		js = append(js, ' ')
	}
	for w.bin.Len()%4 != 0 {
		w.bin.WriteByte(0)
	}
	var out bytes.Buffer
	put := func(n int) {
		var b [4]byte
		binary.LittleEndian.PutUint32(b[:], uint32(n))
		out.Write(b[:])
	}
	out.WriteString("glTF")
	put(2)
	total := 12 + 8 + len(js)
	if w.bin.Len() > 0 {
		total += 8 + w.bin.Len()
	}
	put(total)
	put(len(js))
	out.WriteString("JSON")
	out.Write(js)
	if w.bin.Len() > 0 {
		put(w.bin.Len())
		out.WriteString("BIN\x00")
		out.Write(w.bin.Bytes())
	}
	return out.Bytes()
}
