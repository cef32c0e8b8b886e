// Package templates draws full-size templates to be printed, stuck together and pricked
// through: boards with bored places, and small ones for hinges, hinge plates and slides. What is larger
// than the paper runs over several sheets with crosses to lay on each other, a map of the
// sheets, and a bar to check the print by. It measures nothing: every hole is a part's own.
package templates

import (
	"fmt"
	"slices"

	"stowright/internal/draw"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
)

type l = length.Length

// Input is what templates are made of.
type Input struct {
	Job   string
	Date  string
	Print length.Unit
	Parts []part.Part
	Paper draw.Paper
	Lang  string
	Say   draw.Language // that language; nil for English

	around part.Around // filled in by List
}

// Template is one pattern, seen as the face lies towards the reader, y up, zero at its lower left.
type Template struct {
	Title string
	About []string // what it is laid to, and how
	Marks []string // the parts that it serves
	W, H  l
	Edges [][2]geom.Vec // edges of the board, where they lie in the pattern
	Lines [][2]geom.Vec // centre lines
	Holes []Hole
	Sized bool     // its figures stand beside it
	At    []Centre // where the centre line lies on the parts
}

// Centre is where the centre line of a pattern lies on a part: so far from one of its ends or edges.
type Centre struct {
	Mark, From string
	At         l
}

// Hole is one round hole of a pattern.
type Hole struct {
	X, Y, Dia l
	Depth     string // "" when nothing is said
}

// List gives the templates of all parts, each pattern once.
func List(in Input) []Template {
	var out []Template
	at := map[string]int{}
	add := func(t Template, mark string) {
		key := fmt.Sprint(t.Title, t.W, t.H, t.Holes)
		i, ok := at[key]
		if !ok {
			i = len(out)
			at[key] = i
			out = append(out, t)
		}
		if ok {
			out[i].At = append(out[i].At, t.At...)
		}
		if n := len(out[i].Marks); n == 0 || out[i].Marks[n-1] != mark {
			out[i].Marks = append(out[i].Marks, mark)
		}
	}
	in.around = part.About(in.Parts)
	for _, p := range in.Parts {
		for f := part.Upper; f <= part.Lower; f++ {
			if slices.ContainsFunc(p.Ops, func(o part.Op) bool { return o.Face == f && o.For == part.BoredPlace }) {
				add(in.board(p, f), p.Mark)
			}
		}
	}
	for _, p := range in.Parts {
		for _, t := range in.hinges(p) {
			add(t, p.Mark)
		}
	}
	for _, p := range in.Parts {
		for _, t := range in.plates(p) {
			add(t, p.Mark)
		}
	}
	for _, p := range in.Parts {
		for _, t := range in.slides(p) {
			add(t, p.Mark)
		}
	}
	return out
}

// seen places a point of a face as it is looked at: the lower face turned over about its long edge.
func seen(p part.Part, f part.Face, x, y l) (l, l) {
	if f == part.Lower {
		return x, p.Size[1] - y
	}
	return x, y
}

func round(o part.Op) bool {
	return o.Kind == part.Hole || o.Kind == part.Cup || o.Kind == part.Countersink
}

// depth says how deep a working goes.
func (in *Input) depth(p part.Part, o part.Op) string {
	if o.Depth >= p.Size[2] {
		return "through"
	}
	return o.Depth.Stop(in.Print) + " deep"
}

// board is a whole face with all its round holes.
func (in *Input) board(p part.Part, f part.Face) Template {
	w, h := p.Size[0], p.Size[1]
	called := in.called(p)
	t := Template{Title: "Bored places: " + p.Name, W: w, H: h,
		About: []string{"Lay the outline on the board's edges, " + called[f] + " towards you, the " + called[part.Start] + " left.", fmt.Sprintf("The board is %s × %s.", w.In(in.Print), h.In(in.Print))}}
	a, b, c, d := geom.V(0, 0, 0), geom.V(w, 0, 0), geom.V(w, h, 0), geom.V(0, h, 0)
	t.Edges = [][2]geom.Vec{{a, b}, {b, c}, {c, d}, {d, a}}
	for _, o := range p.Ops {
		if o.Face == f && round(o) {
			x, y := seen(p, f, o.X, o.Y)
			t.Holes = append(t.Holes, Hole{x, y, o.Dia, in.depth(p, o)})
		}
	}
	return t
}

// called names the faces of a part.
func (in *Input) called(p part.Part) part.FaceNames {
	return in.around.Called(p)
}

// hinges gives the pattern of every hinge on a door: cup and screws, by the hinged edge.
func (in *Input) hinges(p part.Part) []Template {
	var out []Template
	for _, cup := range p.Ops {
		if cup.Kind != part.Cup {
			continue
		}
		far := cup.Y > p.Size[1]/2
		t := Template{Title: "Hinge cup in a door", W: 90 * length.MM, H: 72 * length.MM, Sized: true, At: []Centre{{p.Mark, in.called(p)[part.Start], cup.X}},
			About: []string{"Lay the thick line on the door's hinged edge, the centre line on the hinge's height."}}
		mid := t.H / 2
		for _, o := range p.Ops {
			if o.Face != cup.Face || o.For != "hinge cup" && o.For != "hinge screw" || (o.X-cup.X).Abs() > 40*length.MM || (o.Y > p.Size[1]/2) != far {
				continue
			}
			in0 := o.Y // from the hinged edge
			along := o.X - cup.X
			if far {
				in0 = p.Size[1] - o.Y
			}
			// the edge stands at the left; which way is up depends on the face and the edge
			if far != (cup.Face == part.Lower) {
				along = -along
			}
			t.Holes = append(t.Holes, Hole{in0, mid + along, o.Dia, in.depth(p, o)})
		}
		slices.SortFunc(t.Holes, byPlace)
		t.Edges = [][2]geom.Vec{{geom.V(0, 0, 0), geom.V(0, t.H, 0)}}
		t.Lines = [][2]geom.Vec{{geom.V(0, mid, 0), geom.V(t.W, mid, 0)}}
		out = append(out, t)
	}
	return out
}

func byPlace(a, b Hole) int {
	switch {
	case a.X != b.X:
		return int(min(1, max(-1, a.X-b.X)))
	case a.Y != b.Y:
		return int(min(1, max(-1, a.Y-b.Y)))
	}
	return int(min(1, max(-1, a.Dia-b.Dia)))
}

// plates gives the pattern of hinge plates on a side: two screws behind the front edge.
func (in *Input) plates(p part.Part) []Template {
	var ops []part.Op
	for _, o := range p.Ops {
		if o.For == "hinge plate" && o.Face <= part.Lower {
			ops = append(ops, o)
		}
	}
	slices.SortStableFunc(ops, func(a, b part.Op) int { return int(min(1, max(-1, a.X-b.X))) })
	var out []Template
	for i := 0; i+1 < len(ops); i += 2 {
		a, b := ops[i], ops[i+1]
		if b.X-a.X > 70*length.MM || a.Face != b.Face {
			i-- // not a pair
			continue
		}
		back := func(o part.Op) l {
			if p.Pose.Dir(part.Far.Normal()) == geom.Front {
				return p.Size[1] - o.Y
			}
			return o.Y
		}
		mid := (a.X + b.X) / 2
		t := Template{Title: "Hinge plate in a side", W: 90 * length.MM, H: 56 * length.MM, Sized: true, At: []Centre{{p.Mark, in.called(p)[part.Start], mid}},
			About: []string{"Lay the thick line on the side's front edge, the centre line on the hinge's height."}}
		for _, o := range []part.Op{a, b} {
			t.Holes = append(t.Holes, Hole{back(o), t.H/2 + (o.X-mid).Abs()*sign(o.X-mid), o.Dia, in.depth(p, o)})
		}
		slices.SortFunc(t.Holes, byPlace)
		t.Edges = [][2]geom.Vec{{geom.V(0, 0, 0), geom.V(0, t.H, 0)}}
		t.Lines = [][2]geom.Vec{{geom.V(0, t.H/2, 0), geom.V(t.W, t.H/2, 0)}}
		out = append(out, t)
	}
	return out
}

func sign(v l) l {
	if v < 0 {
		return -1
	}
	return 1
}

// slides gives the pattern of slides on a board: a row of screws behind the front edge.
func (in *Input) slides(p part.Part) []Template {
	front := part.Start
	for _, f := range []part.Face{part.Near, part.Far, part.End, part.Start} {
		if p.Pose.Dir(f.Normal()) == geom.Front {
			front = f
		}
	}
	rows := map[string][]Hole{}
	centres := map[string]Centre{}
	var order []string
	for _, o := range p.Ops {
		if o.For != "slide" || o.Face > part.Lower {
			continue
		}
		in0, level, from := o.X, o.Y, part.Near // from the front edge, and the height of the row
		switch front {
		case part.End:
			in0 = p.Size[0] - o.X
		case part.Near:
			in0, level, from = o.Y, o.X, part.Start
		case part.Far:
			in0, level, from = p.Size[1]-o.Y, o.X, part.Start
		}
		k := fmt.Sprint(o.Face, level)
		if rows[k] == nil {
			order = append(order, k)
			centres[k] = Centre{p.Mark, in.called(p)[from], level}
		}
		rows[k] = append(rows[k], Hole{in0, 15 * length.MM, o.Dia, in.depth(p, o)})
	}
	where := "in the case"
	if p.Moves != "" {
		where = "on what it carries"
	}
	var out []Template
	for _, k := range order {
		t := Template{Title: "Slide " + where, H: 30 * length.MM, Holes: rows[k], At: []Centre{centres[k]},
			About: []string{"Lay the thick line on the front edge, the centre line on the slide's height."}}
		slices.SortFunc(t.Holes, byPlace)
		t.W = t.Holes[len(t.Holes)-1].X + 20*length.MM
		t.Edges = [][2]geom.Vec{{geom.V(0, 0, 0), geom.V(0, t.H, 0)}}
		t.Lines = [][2]geom.Vec{{geom.V(0, 15*length.MM, 0), geom.V(t.W, 15*length.MM, 0)}}
		out = append(out, t)
	}
	return out
}
