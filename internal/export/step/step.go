// Package step writes the job as one STEP file (ISO 10303-21 with the schema of AP214) for other
// drawing programs: a solid for every distinct part, placed as often as it occurs, under its
// case and its wall. Boards are exact solids with their straight workings and their round holes
// and hinge cups. What is left off is told in the file: see Solid.
package step

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
	"strings"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
)

type l = length.Length

// Wall is where a wall's frame lies: its left end, and the turn of its x axis, in degrees
// anticlockwise from above.
type Wall struct {
	ID     string
	Origin geom.Vec
	Angle  float64
}

// Write gives the bytes of model.step. Date is "2006-01-02" or empty.
func Write(job, date string, a part.Assembly, walls []Wall) []byte {
	w := &writer{}
	w.context()
	root := w.product(job, job, "")
	type node struct {
		product
		rep int
	}
	// A wall, a case in it and a part in that are placed one in the other; the representation of each must list the
	// places in it, so that children are gathered first.
	placed := map[string][]occurrence{}
	solids := map[string]node{}
	owners := map[string]part.Owner{}
	for _, o := range a.Owners {
		owners[o.ID] = o
	}
	var ownerOrder []string
	for _, p := range a.Parts {
		key := fmt.Sprint(p.Size, p.Ops, p.Name, p.Stock)
		n, ok := solids[key]
		if !ok {
			s := Solid(p)
			n.product = w.product(p.Mark, p.Name, s.LeftOff())
			brep := w.brep(p.Name, s)
			origin := w.axes(geom.V(0, 0, 0), geom.Up, geom.Right)
			n.origin = origin
			n.rep = w.add("ADVANCED_BREP_SHAPE_REPRESENTATION('%s',(%s),%s)", text(p.Mark), refs(origin, brep), ref(w.ctx))
			w.shape(n.product, n.rep)
			solids[key] = n
		}
		if _, ok := placed[p.Owner]; !ok {
			ownerOrder = append(ownerOrder, p.Owner)
		}
		at := w.axes(p.Pose.Origin, p.Pose.W(), p.Pose.U)
		placed[p.Owner] = append(placed[p.Owner], occurrence{name: p.Mark, child: n.product, rep: n.rep, at: at})
	}
	inWall := map[string][]occurrence{}
	var wallOrder []string
	for _, id := range ownerOrder {
		o := owners[id]
		name := o.Name
		if name == "" {
			name = id
		}
		pr := w.product(id, name, "")
		rep := w.assembly(&pr, placed[id])
		if _, ok := inWall[o.Wall]; !ok {
			wallOrder = append(wallOrder, o.Wall)
		}
		inWall[o.Wall] = append(inWall[o.Wall], occurrence{name: id, child: pr, rep: rep, at: w.axes(geom.V(0, 0, 0), geom.Up, geom.Right)})
	}
	var all []occurrence
	for _, id := range wallOrder {
		at := w.axes(geom.V(0, 0, 0), geom.Up, geom.Right)
		for _, x := range walls {
			if x.ID == id {
				at = w.turned(x)
			}
		}
		name := "wall " + id
		if id == "" {
			name = "room"
		}
		pr := w.product(name, name, "")
		rep := w.assembly(&pr, inWall[id])
		all = append(all, occurrence{name: name, child: pr, rep: rep, at: at})
	}
	w.assembly(&root, all)
	return w.bytes(job, date)
}

// product is a named thing with its definition and the axes that it is placed by.
type product struct{ definition, shape, origin int }

// occurrence is a child in an assembly.
type occurrence struct {
	name  string
	child product
	rep   int
	at    int // its axes in the assembly
}

type writer struct {
	data          bytes.Buffer
	n             int
	ctx           int
	pctx, dctx    int
	directionsAt  [6]int
	occurrences   int
	directionSeen [6]bool
}

// add writes one instance and gives its number.
func (w *writer) add(format string, args ...any) int {
	w.n++
	fmt.Fprintf(&w.data, "#%d=", w.n)
	fmt.Fprintf(&w.data, format, args...)
	w.data.WriteString(";\n")
	return w.n
}

func ref(n int) string { return "#" + strconv.Itoa(n) }

func refs(n ...int) string {
	var b strings.Builder
	for i, x := range n {
		if i > 0 {
			b.WriteByte(',')
		}
		b.WriteString(ref(x))
	}
	return b.String()
}

// real prints a length in mm, exactly; a real of Part 21 has a point.
func real(v l) string {
	t := v.MM()
	if !strings.Contains(t, ".") {
		t += "."
	}
	return t
}

// float prints a number rounded to 1e-9.
func float(f float64) string {
	t := strconv.FormatFloat(math.Round(f*1e9)/1e9+0, 'f', -1, 64)
	if !strings.Contains(t, ".") {
		t += "."
	}
	return t
}

// text writes a string as Part 21 asks: quotes doubled, other letters as \X2\....\X0\.
func text(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r == '\'':
			b.WriteString("''")
		case r == '\\':
			b.WriteString(`\\`)
		case r >= ' ' && r < 127:
			b.WriteRune(r)
		case r > 0xFFFF:
			fmt.Fprintf(&b, `\X4\%08X\X0\`, r)
		case r < ' ':
			b.WriteByte(' ')
		default:
			fmt.Fprintf(&b, `\X2\%04X\X0\`, r)
		}
	}
	return b.String()
}

func (w *writer) context() {
	app := w.add("APPLICATION_CONTEXT('core data for automotive mechanical design processes')")
	w.add("APPLICATION_PROTOCOL_DEFINITION('international standard','automotive_design',2000,%s)", ref(app))
	w.pctx = w.add("PRODUCT_CONTEXT('',%s,'mechanical')", ref(app))
	w.dctx = w.add("PRODUCT_DEFINITION_CONTEXT('part definition',%s,'design')", ref(app))
	mm := w.add("(LENGTH_UNIT()NAMED_UNIT(*)SI_UNIT(.MILLI.,.METRE.))")
	rad := w.add("(NAMED_UNIT(*)PLANE_ANGLE_UNIT()SI_UNIT($,.RADIAN.))")
	sr := w.add("(NAMED_UNIT(*)SI_UNIT($,.STERADIAN.)SOLID_ANGLE_UNIT())")
	un := w.add("UNCERTAINTY_MEASURE_WITH_UNIT(LENGTH_MEASURE(1.E-6),%s,'distance_accuracy_value','')", ref(mm))
	w.ctx = w.add("(GEOMETRIC_REPRESENTATION_CONTEXT(3)GLOBAL_UNCERTAINTY_ASSIGNED_CONTEXT((%s))GLOBAL_UNIT_ASSIGNED_CONTEXT((%s))REPRESENTATION_CONTEXT('','3D'))", ref(un), refs(mm, rad, sr))
}

func (w *writer) product(id, name, about string) product {
	p := w.add("PRODUCT('%s','%s','%s',(%s))", text(id), text(name), text(about), ref(w.pctx))
	w.add("PRODUCT_RELATED_PRODUCT_CATEGORY('part',$,(%s))", ref(p))
	f := w.add("PRODUCT_DEFINITION_FORMATION('','',%s)", ref(p))
	d := w.add("PRODUCT_DEFINITION('design','',%s,%s)", ref(f), ref(w.dctx))
	return product{definition: d, shape: w.add("PRODUCT_DEFINITION_SHAPE('','',%s)", ref(d))}
}

func (w *writer) shape(p product, rep int) {
	w.add("SHAPE_DEFINITION_REPRESENTATION(%s,%s)", ref(p.shape), ref(rep))
}

// assembly writes the representation of a product that is put together from others.
func (w *writer) assembly(p *product, list []occurrence) int {
	p.origin = w.axes(geom.V(0, 0, 0), geom.Up, geom.Right)
	items := []int{p.origin}
	for _, o := range list {
		items = append(items, o.at)
	}
	rep := w.add("SHAPE_REPRESENTATION('',(%s),%s)", refs(items...), ref(w.ctx))
	w.shape(*p, rep)
	for _, o := range list {
		w.occurrences++
		n := w.add("NEXT_ASSEMBLY_USAGE_OCCURRENCE('%d','%s','',%s,%s,$)", w.occurrences, text(o.name), ref(p.definition), ref(o.child.definition))
		s := w.add("PRODUCT_DEFINITION_SHAPE('','',%s)", ref(n))
		t := w.add("ITEM_DEFINED_TRANSFORMATION('','',%s,%s)", ref(o.child.origin), ref(o.at))
		r := w.add("(REPRESENTATION_RELATIONSHIP('','',%s,%s)REPRESENTATION_RELATIONSHIP_WITH_TRANSFORMATION(%s)SHAPE_REPRESENTATION_RELATIONSHIP())", ref(o.rep), ref(rep), ref(t))
		w.add("CONTEXT_DEPENDENT_SHAPE_REPRESENTATION(%s,%s)", ref(r), ref(s))
	}
	return rep
}

func (w *writer) point(v geom.Vec) int {
	return w.add("CARTESIAN_POINT('',(%s,%s,%s))", real(v.X), real(v.Y), real(v.Z))
}

func (w *writer) direction(d geom.Dir) int {
	if !w.directionSeen[d] {
		v := d.Vec(length.MM)
		w.directionSeen[d] = true
		w.directionsAt[d] = w.add("DIRECTION('',(%s,%s,%s))", real(v.X), real(v.Y), real(v.Z))
	}
	return w.directionsAt[d]
}

// axes writes a place with its third and first axis.
func (w *writer) axes(at geom.Vec, third, first geom.Dir) int {
	p, a, b := w.point(at), w.direction(third), w.direction(first)
	return w.add("AXIS2_PLACEMENT_3D('',%s)", refs(p, a, b))
}

// turned writes a wall's place.
func (w *writer) turned(x Wall) int {
	s, c := math.Sincos(x.Angle * math.Pi / 180)
	p, a := w.point(x.Origin), w.direction(geom.Up)
	b := w.add("DIRECTION('',(%s,%s,0.))", float(c), float(s))
	return w.add("AXIS2_PLACEMENT_3D('',%s)", refs(p, a, b))
}

// brep writes a solid and gives its instance.
func (w *writer) brep(name string, s Shape) int {
	vertex := make([]int, len(s.Points))
	for i, p := range s.Points {
		vertex[i] = w.add("VERTEX_POINT('',%s)", ref(w.point(p)))
	}
	edge := make([]int, len(s.Edges))
	for i, e := range s.Edges {
		var curve int
		if e.Round {
			curve = w.add("CIRCLE('',%s,%s)", ref(w.axes(e.Centre, e.Axis, across(e.Axis))), real(e.Dia/2))
		} else {
			d := s.Points[e.To].Sub(s.Points[e.From])
			v := w.add("VECTOR('',%s,1.)", ref(w.direction(dirOf(d))))
			curve = w.add("LINE('',%s,%s)", ref(w.point(s.Points[e.From])), ref(v))
		}
		edge[i] = w.add("EDGE_CURVE('',%s,%s,%s,.T.)", ref(vertex[e.From]), ref(vertex[e.To]), ref(curve))
	}
	var faces []int
	for _, f := range s.Faces {
		var bounds []int
		for i, loop := range f.Loops {
			var list []int
			for _, u := range loop {
				sense := "F"
				if u.Forward {
					sense = "T"
				}
				list = append(list, w.add("ORIENTED_EDGE('',*,*,%s,.%s.)", ref(edge[u.Edge]), sense))
			}
			el := w.add("EDGE_LOOP('',(%s))", refs(list...))
			kind := "FACE_BOUND"
			if i == 0 {
				kind = "FACE_OUTER_BOUND"
			}
			bounds = append(bounds, w.add("%s('',%s,.T.)", kind, ref(el)))
		}
		sense, surface := "T", 0
		if f.Bore {
			sense = "F" // the solid lies outside the bore
			surface = w.add("CYLINDRICAL_SURFACE('',%s,%s)", ref(w.axes(f.At, f.Out, across(f.Out))), real(f.Dia/2))
		} else {
			surface = w.add("PLANE('',%s)", ref(w.axes(f.At, f.Out, across(f.Out))))
		}
		faces = append(faces, w.add("ADVANCED_FACE('',(%s),%s,.%s.)", refs(bounds...), ref(surface), sense))
	}
	shell := w.add("CLOSED_SHELL('',(%s))", refs(faces...))
	return w.add("MANIFOLD_SOLID_BREP('%s',%s)", text(name), ref(shell))
}

// across gives an axis that crosses d: where circles about d begin.
func across(d geom.Dir) geom.Dir { return geom.Dir(2 * ((d.Axis() + 1) % 3)) }

// dirOf gives the direction of a step along one axis.
func dirOf(v geom.Vec) geom.Dir {
	for d := geom.Right; d <= geom.Down; d++ {
		if v.At(d.Axis())*d.Sign() > 0 {
			return d
		}
	}
	panic("step: an edge without length")
}

func (w *writer) bytes(job, date string) []byte {
	if date == "" {
		date = "2000-01-01" // the format wants a date; the job has none
	}
	var b bytes.Buffer
	b.WriteString("ISO-10303-21;\nHEADER;\n")
	fmt.Fprintf(&b, "FILE_DESCRIPTION(('%s'),'2;1');\n", text("Boards with straight workings, round holes and hinge cups. Slots have square ends. Left off: screw pockets, bevels, tapers, countersinks, and holes that cross another working; each product's description counts them."))
	fmt.Fprintf(&b, "FILE_NAME('%s','%sT00:00:00',(''),(''),'Stowright','Stowright','');\n", text(job), date)
	b.WriteString("FILE_SCHEMA(('AUTOMOTIVE_DESIGN { 1 0 10303 214 1 1 1 1 }'));\nENDSEC;\nDATA;\n")
	b.Write(w.data.Bytes())
	b.WriteString("ENDSEC;\nEND-ISO-10303-21;\n")
	return b.Bytes()
}
