// Package dxf writes every distinct part as ASCII DXF (release 12, the form that most machine
// software reads), full size in millimetres, one file for each face that has to be worked: the
// face as it lies towards the reader, its lower left corner at zero. Layers say the work, the
// tool and the depth. It decides nothing about tool paths.
package dxf

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strings"

	"stowright/internal/cutlist"
	"stowright/internal/length"
	"stowright/internal/part"
)

type l = length.Length

// File is one drawing: Name without a folder.
type File struct {
	Name  string
	Bytes []byte
}

// Layers that are not a working. Outline is the part as sawn; Finished, only where edging is
// deducted, is the part with its edging on; Note carries words for people.
const (
	Outline  = "OUTLINE"
	Finished = "FINISHED"
	Note     = "NOTE"
)

// faceNames are the names of the faces of a part that is drawn by itself.
var faceNames = [...]string{part.Upper: "upper face", part.Lower: "lower face", part.Start: "start end", part.End: "far end", part.Near: "near edge", part.Far: "far edge"}

// Files gives the drawings of all parts, identical parts once, named by the first mark. The
// face with more work that does not go through is drawn first, with all that goes through; the other face
// ("-turned", turned over about the long edge, so that the same end stays left), ends and
// edges are drawn where they are worked.
func Files(parts []part.Part) []File {
	var out []File
	for _, g := range cutlist.Groups(parts) {
		out = append(out, filesOf(g.Part, g.Marks)...)
	}
	return out
}

func filesOf(p part.Part, marks []string) []File {
	by := [6][]part.Op{}
	n := [6]int{}
	for _, o := range p.Ops {
		if !through(o, p.Size) {
			n[shown(o)]++
		}
	}
	first := part.Upper
	if n[part.Lower] > n[part.Upper] {
		first = part.Lower
	}
	for _, o := range p.Ops {
		f := shown(o)
		if f == first.Not() && through(o, p.Size) {
			f = first
		}
		by[f] = append(by[f], o)
	}
	var out []File
	for _, f := range []part.Face{first, first.Not(), part.Start, part.End, part.Near, part.Far} {
		if len(by[f]) == 0 && f != first {
			continue
		}
		name := p.Mark
		switch f {
		case first:
		case first.Not():
			name += "-turned"
		default:
			name += "-" + strings.ReplaceAll(faceNames[f], " ", "-")
		}
		out = append(out, File{name + ".dxf", write(p, marks, f, by[f])})
	}
	return out
}

// shown is the face on whose drawing a working is seen: its own, or, for what is sawn off an edge
// at a slant, the face that loses its corner.
func shown(o part.Op) part.Face {
	switch o.Kind {
	case part.Bevel:
		if o.Towards <= part.Lower {
			return o.Towards
		}
		return part.Upper
	case part.Taper:
		return part.Upper
	}
	return o.Face
}

// through tells whether a working reaches the other face and looks the same from there.
func through(o part.Op, size [3]l) bool {
	switch o.Kind {
	case part.Notch, part.Cutout:
		return true
	case part.Hole, part.Slot, part.Groove, part.Rabbet:
		_, _, deep := o.Face.Extent(size)
		return o.Depth >= deep
	case part.Taper:
		return true
	}
	return false
}

// sheet is one drawing while it is made.
type sheet struct {
	part   part.Part
	face   part.Face
	off    [2]l // of the sawn corner from the finished one, as the face is seen
	layers []string
	about  []string
	body   bytes.Buffer
}

func write(p part.Part, marks []string, f part.Face, ops []part.Op) []byte {
	s := &sheet{part: p, face: f}
	sawn, done := s.outlines()
	s.layer(Outline, "the part as sawn")
	s.rect(Outline, sawn)
	if sawn != done {
		s.layer(Finished, "the part with its edging")
		s.rect(Finished, done)
	}
	for _, o := range ops {
		name := s.layerOf(o)
		s.work(name, o)
	}
	s.layer(Note, "words for people")
	s.text(0, -15*length.MM, 8, fmt.Sprintf("%s  %s  %d off, %s", p.Mark, p.Name, len(marks), faceNames[f]))
	return s.bytes(sawn, marks)
}

// outlines gives the sawn and the finished rectangle of the face: x0, y0, x1, y1, the sawn
// corner at zero.
func (s *sheet) outlines() (sawn, done [4]l) {
	p := s.part
	x, y, _ := s.face.Extent(p.Size)
	var lo, hi [3]l // what edging adds in front of and behind each size
	for i, b := range p.Bands {
		if b.Edging == "" || !b.Deduct {
			continue
		}
		if i%2 == 0 {
			lo[i/2] = b.Thickness
		} else {
			hi[i/2] = b.Thickness
		}
	}
	a, c := axes(s.face)
	at := func(axis int, flip bool) (before, after l) {
		if flip {
			return hi[axis], lo[axis]
		}
		return lo[axis], hi[axis]
	}
	fx, fy := flips(s.face)
	left, right := at(a, fx)
	low, high := at(c, fy)
	s.off = [2]l{left, low}
	done = [4]l{-left, -low, x - left, y - low}
	return [4]l{0, 0, x - left - right, y - low - high}, done
}

// axes gives the two sizes of a part that a face's coordinates run along.
func axes(f part.Face) (int, int) {
	switch f {
	case part.Upper, part.Lower:
		return 0, 1
	case part.Start, part.End:
		return 1, 2
	}
	return 0, 2
}

// flips tells which coordinate of a face runs the other way when the face is looked at: faces
// whose two coordinates and outward normal are a left hand.
func flips(f part.Face) (x, y bool) {
	switch f {
	case part.Lower:
		return false, true
	case part.Start, part.Far:
		return true, false
	}
	return false, false
}

// at places a point of the face on the drawing.
func (s *sheet) at(x, y l) (l, l) {
	w, h, _ := s.face.Extent(s.part.Size)
	fx, fy := flips(s.face)
	if fx {
		x = w - x
	}
	if fy {
		y = h - y
	}
	return x - s.off[0], y - s.off[1]
}

// work draws one working on its layer.
func (s *sheet) work(layer string, o part.Op) {
	size := s.part.Size
	switch o.Kind {
	case part.Hole, part.Cup, part.Countersink:
		x, y := s.at(o.X, o.Y)
		s.entity("CIRCLE", layer)
		s.point(x, y)
		s.word(40, radius(o.Dia))
	case part.Slot:
		s.slot(layer, o)
	case part.Pocket:
		// the line of the screw, from where it leaves the edge back to where the bit goes in
		long := length.Length(math.Round(float64(o.Depth)/math.Tan(float64(o.Angle)*math.Pi/180)/float64(length.MM)*100)) * length.MM / 100
		x, y := o.X, o.Y
		switch o.Towards {
		case part.Start:
			x += long
		case part.End:
			x -= long
		case part.Near:
			y += long
		default:
			y -= long
		}
		s.line(layer, o.X, o.Y, x, y)
	case part.Bevel:
		d := o.Depth
		switch {
		case o.Towards > part.Lower: // a mitre seen in the face: a slant from a corner
			u, v := l(0), l(0)
			if o.Face == part.End {
				u, d = size[0], size[0]-d
			}
			if o.Towards == part.Far {
				v = size[1]
			}
			s.line(layer, d, v, u, size[1]-v)
		case o.Face == part.Start:
			s.line(layer, d, 0, d, size[1])
		case o.Face == part.End:
			s.line(layer, size[0]-d, 0, size[0]-d, size[1])
		case o.Face == part.Near:
			s.line(layer, 0, d, size[0], d)
		default:
			s.line(layer, 0, size[1]-d, size[0], size[1]-d)
		}
	case part.Taper:
		a, b := o.Y, o.Depth
		if o.Face == part.Far {
			a, b = size[1]-a, size[1]-b
		}
		s.line(layer, 0, a, size[0], b)
	default:
		x0, y0 := s.at(o.X, o.Y)
		x1, y1 := s.at(o.X+o.L, o.Y+o.W)
		s.rect(layer, [4]l{min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)})
	}
}

// slot draws an opening with half-round ends, anticlockwise.
func (s *sheet) slot(layer string, o part.Op) {
	x0, y0 := s.at(o.X, o.Y)
	x1, y1 := s.at(o.X+o.L, o.Y+o.W)
	x0, x1, y0, y1 = min(x0, x1), max(x0, x1), min(y0, y1), max(y0, y1)
	type corner struct {
		x, y  l
		round bool // a half circle follows
	}
	r := min(x1-x0, y1-y0) / 2
	c := []corner{{x0 + r, y0, false}, {x1 - r, y0, true}, {x1 - r, y1, false}, {x0 + r, y1, true}}
	if y1-y0 > x1-x0 {
		c = []corner{{x1, y0 + r, false}, {x1, y1 - r, true}, {x0, y1 - r, false}, {x0, y0 + r, true}}
	}
	s.begin(layer)
	for _, p := range c {
		s.entity("VERTEX", layer)
		s.point(p.x, p.y)
		if p.round {
			s.word(42, "1.0") // tan of a quarter of the half turn
		}
	}
	s.entity("SEQEND", layer)
}

func (s *sheet) rect(layer string, r [4]l) {
	s.begin(layer)
	for _, p := range [][2]l{{r[0], r[1]}, {r[2], r[1]}, {r[2], r[3]}, {r[0], r[3]}} {
		s.entity("VERTEX", layer)
		s.point(p[0], p[1])
	}
	s.entity("SEQEND", layer)
}

// begin opens a closed polyline.
func (s *sheet) begin(layer string) {
	s.entity("POLYLINE", layer)
	s.word(66, "1")
	s.point(0, 0)
	s.word(70, "1")
}

func (s *sheet) line(layer string, x0, y0, x1, y1 l) {
	x0, y0 = s.at(x0, y0)
	x1, y1 = s.at(x1, y1)
	s.entity("LINE", layer)
	s.point(x0, y0)
	s.put(11, x1)
	s.put(21, y1)
	s.word(31, "0.0")
}

func (s *sheet) text(x, y l, high int, t string) {
	s.entity("TEXT", Note)
	s.point(x, y)
	s.word(40, fmt.Sprintf("%d.0", high))
	s.word(1, ascii(t))
}

func (s *sheet) entity(kind, layer string) {
	s.word(0, kind)
	s.word(8, layer)
}

func (s *sheet) point(x, y l) {
	s.put(10, x)
	s.put(20, y)
	s.word(30, "0.0")
}

func (s *sheet) put(code int, v l)           { s.word(code, real(v)) }
func (s *sheet) word(code int, value string) { pair(&s.body, code, value) }

func pair(b *bytes.Buffer, code int, value string) { fmt.Fprintf(b, "%3d\r\n%s\r\n", code, value) }

// real prints a length exactly; a DXF real has a point.
func real(v l) string {
	t := v.MM()
	if !strings.Contains(t, ".") {
		t += ".0"
	}
	return t
}

// radius prints half a diameter exactly; half a tick is 0.0000125 mm.
func radius(d l) string {
	t := strings.TrimRight(fmt.Sprintf("%.7f", float64(d)/float64(2*length.MM)), "0")
	if strings.HasSuffix(t, ".") {
		t += "0"
	}
	return t
}

func (s *sheet) layer(name, about string) {
	if !slices.Contains(s.layers, name) {
		s.layers = append(s.layers, name)
		s.about = append(s.about, about)
	}
}

// layerOf gives the layer of a working, opened if need be.
func (s *sheet) layerOf(o part.Op) string {
	deep := "THROUGH"
	say := o.Kind.String() + ", " + o.Tool + ", through"
	if !through(o, s.part.Size) && o.Kind != part.Bevel {
		deep = word(o.Depth.MM()) + "MM"
		say = o.Kind.String() + ", " + o.Tool + ", " + o.Depth.MM() + " mm deep"
	}
	if o.Kind == part.Bevel || o.Kind == part.Pocket {
		deep = fmt.Sprintf("%dDEG", o.Angle)
		say = fmt.Sprintf("%s, %s, at %d degrees, %s mm deep at the most", o.Kind, o.Tool, o.Angle, o.Depth.MM())
	}
	name := LayerName(o.Kind, o.Tool, deep)
	s.layer(name, say)
	return name
}

// longest is the longest name of a layer in release 12.
const longest = 31

// LayerName puts a layer's name together: the work, the tool, how deep. Of a tool's name that is too long the end is
// left off.
func LayerName(k part.OpKind, tool, deep string) string {
	a, t, d := word(k.String()), word(tool), word(deep)
	if room := longest - len(a) - len(d) - 2; len(t) > room {
		t = strings.Trim(t[:room], "_")
	}
	if t == "" {
		t = "TOOL"
	}
	return a + "-" + t + "-" + d
}

// word keeps what release 12 allows in names: capitals, figures and underscores.
func word(s string) string {
	out := strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z':
			return r - 'a' + 'A'
		case r >= 'A' && r <= 'Z', r >= '0' && r <= '9':
			return r
		}
		return '_'
	}, s)
	for strings.Contains(out, "__") {
		out = strings.ReplaceAll(out, "__", "_")
	}
	return strings.Trim(out, "_")
}

// ascii writes other letters as DXF does: \U+00F6.
func ascii(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r < ' ':
			b.WriteByte(' ')
		case r < 127:
			b.WriteRune(r)
		default:
			fmt.Fprintf(&b, `\U+%04X`, r)
		}
	}
	return b.String()
}

// colours gives each layer one of the first seven colours of the format, which every reader has.
func colour(i int) int { return []int{7, 1, 3, 5, 6, 4, 2}[i%7] }

func (s *sheet) bytes(r [4]l, marks []string) []byte {
	var b bytes.Buffer
	put := func(code int, v string) { pair(&b, code, v) }
	put(999, ascii(fmt.Sprintf("%s: %s, millimetres, full size; marks: %s", s.part.Mark, s.part.Name, strings.Join(marks, " "))))
	for i, n := range s.layers {
		put(999, ascii("layer "+n+": "+s.about[i]))
	}
	put(0, "SECTION")
	put(2, "HEADER")
	put(9, "$ACADVER")
	put(1, "AC1009")
	put(9, "$INSUNITS")
	put(70, "4")
	put(9, "$EXTMIN")
	put(10, real(r[0]))
	put(20, real(r[1]))
	put(9, "$EXTMAX")
	put(10, real(r[2]))
	put(20, real(r[3]))
	put(0, "ENDSEC")
	put(0, "SECTION")
	put(2, "TABLES")
	put(0, "TABLE")
	put(2, "LTYPE")
	put(70, "1")
	put(0, "LTYPE")
	put(2, "CONTINUOUS")
	put(70, "0")
	put(3, "Solid line")
	put(72, "65")
	put(73, "0")
	put(40, "0.0")
	put(0, "ENDTAB")
	put(0, "TABLE")
	put(2, "LAYER")
	put(70, fmt.Sprint(len(s.layers)+1))
	for i, n := range append([]string{"0"}, s.layers...) {
		put(0, "LAYER")
		put(2, n)
		put(70, "0")
		put(62, fmt.Sprint(colour(max(0, i-1))))
		put(6, "CONTINUOUS")
	}
	put(0, "ENDTAB")
	put(0, "TABLE")
	put(2, "STYLE")
	put(70, "1")
	put(0, "STYLE")
	put(2, "STANDARD")
	put(70, "0")
	put(40, "0.0")
	put(41, "1.0")
	put(50, "0.0")
	put(71, "0")
	put(42, "2.5")
	put(3, "txt")
	put(4, "")
	put(0, "ENDTAB")
	put(0, "ENDSEC")
	put(0, "SECTION")
	put(2, "BLOCKS")
	put(0, "ENDSEC")
	put(0, "SECTION")
	put(2, "ENTITIES")
	b.Write(s.body.Bytes())
	put(0, "ENDSEC")
	put(0, "EOF")
	return b.Bytes()
}
