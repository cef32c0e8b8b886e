package step_test

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"stowright/internal/export/step"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/output"
	"stowright/internal/part"
	"stowright/internal/plan/plantest"
)

const mm = length.MM

// A reader of ISO 10303-21 written from the standard's grammar: a header, then instances that
// are records (KEYWORD(...)) or complexes of records, of typed, aggregate and plain values.

type record struct {
	kind string
	args []value
}

type value struct {
	kind byte // '#', 'n' number, 's' string, '.' enumeration, '$', '*', '(' list, 't' typed
	num  float64
	text string
	ref  int
	list []value
}

type exchange struct {
	header    []record
	instances map[int][]record
	order     []int
}

type reader struct {
	t *testing.T
	s string
	i int
}

func (r *reader) fail(what string) {
	r.t.Helper()
	r.t.Fatalf("Part 21: %s at %d: %.60q", what, r.i, r.s[min(r.i, len(r.s)):])
}

func (r *reader) blank() {
	for r.i < len(r.s) && strings.ContainsRune(" \n\r\t", rune(r.s[r.i])) {
		r.i++
	}
}

func (r *reader) eat(word string) {
	r.t.Helper()
	r.blank()
	if !strings.HasPrefix(r.s[r.i:], word) {
		r.fail("want " + word)
	}
	r.i += len(word)
}

func (r *reader) at(word string) bool {
	r.blank()
	return strings.HasPrefix(r.s[r.i:], word)
}

func (r *reader) keyword() string {
	r.blank()
	from := r.i
	for r.i < len(r.s) && (r.s[r.i] >= 'A' && r.s[r.i] <= 'Z' || r.s[r.i] == '_' || r.i > from && r.s[r.i] >= '0' && r.s[r.i] <= '9') {
		r.i++
	}
	if r.i == from {
		r.fail("want a keyword")
	}
	return r.s[from:r.i]
}

func (r *reader) record() record {
	k := r.keyword()
	return record{k, r.values()}
}

func (r *reader) values() []value {
	r.eat("(")
	var out []value
	for !r.at(")") {
		if len(out) > 0 {
			r.eat(",")
		}
		out = append(out, r.value())
	}
	r.eat(")")
	return out
}

func (r *reader) value() value {
	r.blank()
	switch c := r.s[r.i]; {
	case c == '#':
		r.i++
		from := r.i
		for r.s[r.i] >= '0' && r.s[r.i] <= '9' {
			r.i++
		}
		n, err := strconv.Atoi(r.s[from:r.i])
		if err != nil || n < 1 {
			r.fail("bad reference")
		}
		return value{kind: '#', ref: n}
	case c == '\'':
		var b strings.Builder
		for r.i++; ; r.i++ {
			if r.s[r.i] == '\'' {
				if r.s[r.i+1] != '\'' {
					break
				}
				r.i++
			}
			if r.s[r.i] < ' ' || r.s[r.i] > '~' {
				r.fail("a letter that a string may not hold")
			}
			b.WriteByte(r.s[r.i])
		}
		r.i++
		return value{kind: 's', text: b.String()}
	case c == '.':
		end := strings.IndexByte(r.s[r.i+1:], '.')
		v := value{kind: '.', text: r.s[r.i+1 : r.i+1+end]}
		r.i += end + 2
		return v
	case c == '$', c == '*':
		r.i++
		return value{kind: c}
	case c == '(':
		return value{kind: '(', list: r.values()}
	case c >= 'A' && c <= 'Z':
		k := r.keyword()
		return value{kind: 't', text: k, list: r.values()}
	}
	from := r.i
	for strings.ContainsRune("+-.0123456789E", rune(r.s[r.i])) {
		r.i++
	}
	word := r.s[from:r.i]
	n, err := strconv.ParseFloat(word, 64)
	if err != nil || strings.HasPrefix(strings.TrimLeft(word, "+-"), ".") { // a real begins with a digit
		r.fail("bad number " + word)
	}
	return value{kind: 'n', num: n, text: word}
}

func parse(t *testing.T, b []byte) exchange {
	t.Helper()
	r := &reader{t: t, s: string(b)}
	x := exchange{instances: map[int][]record{}}
	r.eat("ISO-10303-21;")
	r.eat("HEADER;")
	for !r.at("ENDSEC;") {
		x.header = append(x.header, r.record())
		r.eat(";")
	}
	r.eat("ENDSEC;")
	r.eat("DATA;")
	for !r.at("ENDSEC;") {
		v := r.value()
		if v.kind != '#' {
			r.fail("want an instance")
		}
		if x.instances[v.ref] != nil {
			t.Fatalf("#%d is there twice", v.ref)
		}
		r.eat("=")
		var list []record
		if r.at("(") {
			r.eat("(")
			last := ""
			for !r.at(")") {
				rec := r.record()
				if rec.kind <= last {
					t.Errorf("#%d: %s stands after %s; a complex instance is in order", v.ref, rec.kind, last)
				}
				last = rec.kind
				list = append(list, rec)
			}
			r.eat(")")
		} else {
			list = []record{r.record()}
		}
		r.eat(";")
		x.instances[v.ref] = list
		x.order = append(x.order, v.ref)
	}
	r.eat("ENDSEC;")
	r.eat("END-ISO-10303-21;")
	for n, list := range x.instances {
		for _, rec := range list {
			x.known(t, n, rec.args)
		}
	}
	return x
}

func (x exchange) known(t *testing.T, n int, args []value) {
	for _, a := range args {
		if a.kind == '#' && x.instances[a.ref] == nil {
			t.Errorf("#%d points to #%d, which is nowhere", n, a.ref)
		}
		x.known(t, n, a.list)
	}
}

// get gives an instance that must be of a kind.
func (x exchange) get(t *testing.T, v value, kind string) record {
	t.Helper()
	for _, r := range x.instances[v.ref] {
		if r.kind == kind {
			return r
		}
	}
	t.Fatalf("#%d is no %s but %v", v.ref, kind, x.instances[v.ref])
	return record{}
}

func (x exchange) all(kind string) map[int]record {
	out := map[int]record{}
	for n, list := range x.instances {
		for _, r := range list {
			if r.kind == kind {
				out[n] = r
			}
		}
	}
	return out
}

type vec [3]float64

func (x exchange) triple(t *testing.T, v value, kind string) vec {
	l := x.get(t, v, kind).args[1].list
	return vec{l[0].num, l[1].num, l[2].num}
}

func cross(a, b vec) vec {
	return vec{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

// frame is origin and three axes.
type frame struct{ o, u, v, w vec }

func (x exchange) frame(t *testing.T, v value) frame {
	a := x.get(t, v, "AXIS2_PLACEMENT_3D").args
	f := frame{o: x.triple(t, a[1], "CARTESIAN_POINT"), w: x.triple(t, a[2], "DIRECTION"), u: x.triple(t, a[3], "DIRECTION")}
	f.v = cross(f.w, f.u)
	return f
}

func (f frame) point(p vec) vec {
	var out vec
	for i := range 3 {
		out[i] = f.o[i] + p[0]*f.u[i] + p[1]*f.v[i] + p[2]*f.w[i]
	}
	return out
}

// solidOf checks a closed shell: every loop is closed, every edge is walked once each way by two faces.
// It gives the shell's corners.
func (x exchange) corners(t *testing.T, brep value) []vec {
	t.Helper()
	shell := x.get(t, x.get(t, brep, "MANIFOLD_SOLID_BREP").args[1], "CLOSED_SHELL")
	ways := map[string]int{}
	var out []vec
	vertex := func(v value) vec {
		return x.triple(t, x.get(t, v, "VERTEX_POINT").args[1], "CARTESIAN_POINT")
	}
	for _, f := range shell.args[1].list {
		face := x.get(t, f, "ADVANCED_FACE")
		outer := 0
		for _, b := range face.args[1].list {
			bound := x.instances[b.ref][0]
			if bound.kind == "FACE_OUTER_BOUND" {
				outer++
			}
			loop := x.get(t, bound.args[1], "EDGE_LOOP").args[1].list
			var first, last value
			for i, u := range loop {
				o := x.get(t, u, "ORIENTED_EDGE")
				e := x.get(t, o.args[3], "EDGE_CURVE")
				from, to := e.args[1], e.args[2]
				if o.args[4].text == "F" {
					from, to = to, from
				}
				if i == 0 {
					first = from
				} else if from.ref != last.ref {
					t.Errorf("#%d: the loop is broken at #%d", f.ref, u.ref)
				}
				last = to
				ways[fmt.Sprint(o.args[3].ref, o.args[4].text)]++
				out = append(out, vertex(from))
			}
			if first.ref != last.ref {
				t.Errorf("#%d: the loop is open", f.ref)
			}
		}
		if outer != 1 {
			t.Errorf("#%d has %d outer bounds", f.ref, outer)
		}
	}
	for k, n := range ways {
		other := k[:len(k)-1] + map[string]string{"T": "F", "F": "T"}[k[len(k)-1:]]
		if n != 1 || ways[other] != 1 {
			t.Errorf("edge %s is walked %d times, the other way %d times", k, n, ways[other])
		}
	}
	return out
}

// The file follows the grammar, every solid is closed, and every part, placed as the file says,
// lies where the assembly has it.
func TestReadBack(t *testing.T) {
	for _, example := range plantest.Examples() {
		t.Run(example, func(t *testing.T) {
			r := plantest.Result(t, example)
			b := output.Step(r)
			if !bytes.Equal(b, output.Step(r)) {
				t.Error("two writings differ")
			}
			plantest.Keep(t, example+".step", b)
			t.Logf("%d bytes", len(b))
			x := parse(t, b)
			if len(x.header) != 3 || x.header[0].kind != "FILE_DESCRIPTION" || x.header[1].kind != "FILE_NAME" || len(x.header[1].args) != 7 || x.header[2].kind != "FILE_SCHEMA" {
				t.Errorf("header %v", x.header)
			}

			// products: definition -> representation; occurrences: child, parent, place
			solids := map[int][]vec{} // by representation
			for n, rep := range x.all("ADVANCED_BREP_SHAPE_REPRESENTATION") {
				solids[n] = x.corners(t, rep.args[1].list[1])
			}
			type occurrence struct {
				name          string
				child, parent int // representations
				at            frame
			}
			var list []occurrence
			for _, c := range x.all("CONTEXT_DEPENDENT_SHAPE_REPRESENTATION") {
				rel := x.get(t, c.args[0], "REPRESENTATION_RELATIONSHIP")
				tr := x.get(t, x.get(t, c.args[0], "REPRESENTATION_RELATIONSHIP_WITH_TRANSFORMATION").args[0], "ITEM_DEFINED_TRANSFORMATION")
				if o := x.frame(t, tr.args[2]); o.o != (vec{}) || o.u != (vec{1, 0, 0}) || o.w != (vec{0, 0, 1}) {
					t.Errorf("a child is placed by %v", o)
				}
				nauo := x.get(t, x.get(t, c.args[1], "PRODUCT_DEFINITION_SHAPE").args[2], "NEXT_ASSEMBLY_USAGE_OCCURRENCE")
				list = append(list, occurrence{nauo.args[1].text, rel.args[2].ref, rel.args[3].ref, x.frame(t, tr.args[3])})
			}
			up := map[int]occurrence{} // assemblies occur once
			for _, o := range list {
				if solids[o.child] == nil {
					up[o.child] = o
				}
			}
			got := map[string][2]vec{}
			for _, o := range list {
				if solids[o.child] == nil {
					continue
				}
				lo, hi := vec{math.Inf(1), math.Inf(1), math.Inf(1)}, vec{math.Inf(-1), math.Inf(-1), math.Inf(-1)}
				for _, p := range solids[o.child] {
					p = o.at.point(p)
					for at := o.parent; ; {
						u, ok := up[at]
						if !ok {
							break
						}
						if strings.HasPrefix(u.name, "wall ") || u.name == "room" {
							break // compare in the wall's frame
						}
						p, at = u.at.point(p), u.parent
					}
					for k := range 3 {
						lo[k], hi[k] = min(lo[k], p[k]), max(hi[k], p[k])
					}
				}
				got[o.name] = [2]vec{lo, hi}
			}
			if len(got) != len(r.Assembly.Parts) {
				t.Errorf("%d parts in the file, %d in the assembly", len(got), len(r.Assembly.Parts))
			}
			for _, p := range r.Assembly.Parts {
				g, ok := got[p.Mark]
				if !ok {
					t.Errorf("%s is missing", p.Mark)
					continue
				}
				box := p.Pose.Box(left(p))
				for k := range 3 {
					if math.Abs(g[0][k]-float64(box.Min.At(k))/float64(mm)) > 1e-6 || math.Abs(g[1][k]-float64(box.Max.At(k))/float64(mm)) > 1e-6 {
						t.Errorf("%s reaches from %v to %v, want %v", p.Mark, g[0], g[1], box)
						break
					}
				}
			}
		})
	}
}

// left is the box around what straight workings leave of a part, in its own frame: a notch may
// take a whole edge off.
func left(p part.Part) geom.Box {
	whole := geom.B(0, 0, 0, p.Size[0], p.Size[1], p.Size[2])
	var gone []geom.Box
	cut := [3][]length.Length{{0, p.Size[0]}, {0, p.Size[1]}, {0, p.Size[2]}}
	for _, o := range p.Ops {
		switch o.Kind {
		case part.Groove, part.Rabbet, part.Notch, part.Cutout, part.Slot:
			b := o.Removed(p.Size).And(whole)
			gone = append(gone, b)
			for a := range 3 {
				cut[a] = append(cut[a], b.Min.At(a), b.Max.At(a))
			}
		}
	}
	for a := range 3 {
		slices.Sort(cut[a])
	}
	var out geom.Box
	for i := 1; i < len(cut[0]); i++ {
		for j := 1; j < len(cut[1]); j++ {
			for k := 1; k < len(cut[2]); k++ {
				c := geom.B(cut[0][i-1], cut[1][j-1], cut[2][k-1], cut[0][i], cut[1][j], cut[2][k])
				if !c.Empty() && !slices.ContainsFunc(gone, c.Meets) {
					out = out.Or(c)
				}
			}
		}
	}
	return out
}

type imported struct {
	Success bool
	Meshes  []struct {
		Name     string
		Min, Max vec
		Volume   float64
		Faces    int
	}
}

func occ(t *testing.T, b []byte) imported {
	t.Helper()
	file := filepath.Join(t.TempDir(), "model.step")
	if err := os.WriteFile(file, b, 0o644); err != nil {
		t.Fatal(err)
	}
	var got imported
	plantest.Node(t, &got, "step-read.mjs", file)
	if !got.Success {
		t.Fatal("OpenCASCADE does not read the file")
	}
	return got
}

// OpenCASCADE, by npm occt-import-js, reads the solids: their boxes are the parts' in the room,
// and their volumes are the boards' less their workings.
func TestOpenCascade(t *testing.T) {
	side := part.Part{Mark: "A.left", Owner: "a", Name: "left side's board, ø", Stock: "ply", Size: [3]length.Length{700 * mm, 500 * mm, 18 * mm},
		Pose: geom.Around(geom.B(0, -500*mm, 0, 18*mm, 0, 700*mm), geom.Up, geom.Back)}
	for i := range length.Length(10) {
		side.Ops = append(side.Ops, part.Op{Kind: part.Hole, Face: part.Upper, X: (150 + 32*i) * mm, Y: 137 * mm, Dia: 5 * mm, Depth: 12 * mm})
	}
	side.Ops = append(side.Ops,
		part.Op{Kind: part.Groove, Face: part.Lower, X: 0, Y: 480 * mm, L: 700 * mm, W: 6 * mm, Depth: 6 * mm},
		part.Op{Kind: part.Groove, Face: part.Upper, X: 50 * mm, Y: 300 * mm, L: 500 * mm, W: 6 * mm, Depth: 6 * mm},
		part.Op{Kind: part.Notch, Face: part.Upper, X: 0, Y: 0, L: 100 * mm, W: 75 * mm, Depth: 18 * mm},
		part.Op{Kind: part.Cutout, Face: part.Upper, X: 600 * mm, Y: 200 * mm, L: 50 * mm, W: 50 * mm, Depth: 18 * mm},
		part.Op{Kind: part.Hole, Face: part.Lower, X: 400 * mm, Y: 220 * mm, Dia: 60 * mm, Depth: 18 * mm},
		part.Op{Kind: part.Cup, Face: part.Lower, X: 400 * mm, Y: 400 * mm, Dia: 35 * mm, Depth: 12 * mm},
		part.Op{Kind: part.Hole, Face: part.Near, X: 300 * mm, Y: 9 * mm, Dia: 8 * mm, Depth: 22 * mm},
		part.Op{Kind: part.Hole, Face: part.Upper, X: 300 * mm, Y: 303 * mm, Dia: 8 * mm, Depth: 12 * mm}, // crosses a groove: left off
		part.Op{Kind: part.Pocket, Face: part.Upper, X: 0, Y: 250 * mm, Dia: 9 * mm, Depth: 12 * mm, Angle: 15, Towards: part.Start})
	door := part.Part{Mark: "A.door", Owner: "a", Name: "door", Stock: "ply", Size: [3]length.Length{700 * mm, 400 * mm, 18 * mm},
		Pose: geom.Around(geom.B(0, -518*mm, 0, 400*mm, -500*mm, 700*mm), geom.Up, geom.Right)}
	a := part.Assembly{Owners: []part.Owner{{ID: "a", Name: "case", Wall: "west"}}, Parts: []part.Part{side, door}}
	b := step.Write("Job's", "2026-11-25", a, []step.Wall{{ID: "west", Origin: geom.V(1000*mm, 0, 0), Angle: 90}})
	plantest.Keep(t, "sample.step", b)
	parse(t, b)
	got := occ(t, b)
	circle := func(d float64) float64 { return math.Pi * d * d / 4 }
	want := map[string]float64{
		"door":      700 * 400 * 18,
		"left side": 700*500*18 - 10*circle(5)*12 - 700*6*6 - 500*6*6 - 100*75*18 - 50*50*18 - circle(60)*18 - circle(35)*12 - circle(8)*22,
	}
	if len(got.Meshes) != 2 {
		t.Fatalf("%d solids, want 2", len(got.Meshes))
	}
	for _, m := range got.Meshes {
		v := want["door"]
		lo, hi := vec{1500, 0, 0}, vec{1518, 400, 700} // wall turned a quarter: x becomes y, y becomes -x
		if strings.HasPrefix(m.Name, "A.left") || strings.HasPrefix(m.Name, "left") {
			v = want["left side"]
			lo, hi = vec{1000, 0, 0}, vec{1500, 18, 700}
		}
		if math.Abs(m.Volume-v) > 1e-4*v {
			t.Errorf("%s: %.1f mm3, want %.1f", m.Name, m.Volume, v)
		}
		for k := range 3 {
			if math.Abs(m.Min[k]-lo[k]) > 1e-3 || math.Abs(m.Max[k]-hi[k]) > 1e-3 {
				t.Errorf("%s reaches from %v to %v, want %v to %v", m.Name, m.Min, m.Max, lo, hi)
				break
			}
		}
	}
	if off := step.Solid(side).LeftOff(); off != "left off: 1 hole, 1 pocket" {
		t.Errorf("said of the side: %q", off)
	}
}

// An example, read by OpenCASCADE: as many solids as parts, none without its volume.
func TestOpenCascadeReadsTheExamples(t *testing.T) {
	if testing.Short() {
		t.Skip("takes half a minute; run without -short")
	}
	for _, example := range []string{"one-case"} {
		t.Run(example, func(t *testing.T) {
			r := plantest.Result(t, example)
			got := occ(t, output.Step(r))
			if len(got.Meshes) != len(r.Assembly.Parts) {
				t.Errorf("%d solids, %d parts", len(got.Meshes), len(r.Assembly.Parts))
			}
			sum, least, most := 0.0, 0.0, 0.0
			for _, m := range got.Meshes {
				if m.Volume <= 0 {
					t.Errorf("%s has a volume of %.0f mm3", m.Name, m.Volume)
				}
				sum += m.Volume
			}
			for _, p := range r.Assembly.Parts {
				v := 1.0
				for _, s := range p.Size {
					v *= float64(s) / float64(mm)
				}
				most += v
				for _, o := range p.Ops {
					switch o.Kind {
					case part.Hole, part.Cup:
						d := float64(o.Dia) / float64(mm)
						_, _, deep := o.Face.Extent(p.Size)
						v -= math.Pi * d * d / 4 * float64(min(o.Depth, deep)) / float64(mm)
					case part.Groove, part.Rabbet, part.Notch, part.Cutout, part.Slot:
						s := o.Removed(p.Size).Size()
						v -= float64(s.X) / float64(mm) * float64(s.Y) / float64(mm) * float64(s.Z) / float64(mm)
					}
				}
				least += v
			}
			// workings that meet are taken off once, and some holes are left off
			if sum < least*(1-1e-4) || sum > most || sum-least > 0.02*(most-least)+1e-4*most {
				t.Errorf("%.0f mm3 of wood, want %.0f to %.0f", sum, least, most)
			}
		})
	}
}
