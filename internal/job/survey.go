package job

import (
	"fmt"
	"strconv"
	"strings"

	"stowright/internal/length"
	"stowright/internal/source"
)

// slip is what a tape may be off by before two places are taken to exclude each other
// (common practice, no source).
const slip = length.Inch / 8

// mostLean is how far out of plumb a wall may be written: beyond is a slip of the keyboard.
const mostLean = 12 * length.Inch

// survey is one wall while it is checked.
type survey struct {
	*reader
	wall Wall
	node *source.Node
}

// walls checks that a survey can be true.
func (r *reader) walls() {
	for _, w := range r.file.Walls {
		s := survey{r, w.Value, r.tree.Get("walls").Get(w.Key)}
		if s.wall.Length <= 0 || s.wall.Length > 100_000*length.MM {
			if l := s.node.Get("length"); l != nil {
				r.fail(l.Span, "a wall is longer than nothing and shorter than 100 m", "write its length along the floor")
			}
			continue
		}
		if h := s.wall.Height; h != nil && *h <= 0 {
			r.fail(s.node.Get("height").Span, "a wall is higher than nothing", "write the height from floor to ceiling, or leave it out when it is not known")
		}
		if l := s.wall.Lining; l != nil && l.Thickness != nil && *l.Thickness < 0 {
			r.fail(s.node.Get("lining").Get("thickness").Span, "a lining cannot be thinner than nothing", "write 0 for none")
		}
		if l := s.wall.Lean; l != nil && *l != 0 && s.wall.Height == nil && len(s.wall.Ceiling) == 0 {
			r.fail(s.node.Get("leans-out-at-top").Span, "a lean needs the height that it is over", "give height: of the wall, or its ceiling:")
		}
		if l := s.wall.Lean; l != nil && l.Abs() > mostLean {
			r.fail(s.node.Get("leans-out-at-top").Span, fmt.Sprintf("no wall leans by %s", r.exact(*l)), "write how far its top is out of plumb from its foot")
		}
		for i, h := range s.wall.Hollow {
			s.along(nth(s.node.Get("hollow"), i).Get("at"), h.At, "this place")
		}
		for i, h := range s.wall.Ceiling {
			at := nth(s.node.Get("ceiling"), i)
			s.along(at.Get("at"), h.At, "this place")
			if h.Z <= 0 && at.Get("height") != nil {
				r.fail(at.Get("height").Span, "a ceiling is above the floor", "write its height above the floor at the wall's left end")
			}
			if top := s.wall.Height; top != nil && *top > 0 && h.Z > *top+slip && at.Get("height") != nil {
				r.fail(at.Get("height").Span, fmt.Sprintf("this ceiling is higher than the wall, which is %s", r.exact(*top)), "height: is the wall's greatest; write that, or leave it out")
			}
		}
		s.openings()
		s.clear()
		s.obstacles()
		s.studs()
		s.floor(w.At.Span)
	}
	r.corners()
}

func (r *reader) exact(l L) string { return l.Exact(unitOf(r.file.Unit)) }

// nth gives an item of a list, nil when it has none there.
func nth(n *source.Node, i int) *source.Node {
	if items := itemsOf(n); i < len(items) {
		return items[i]
	}
	return nil
}

// along reports a place that is not on the wall, by more than a slip of the tape.
func (s survey) along(n *source.Node, at L, what string) {
	if n != nil && (at < -slip || at > s.wall.Length+slip) {
		s.fail(n.Span, fmt.Sprintf("%s is not on this wall, which is %s long", what, s.exact(s.wall.Length)), "measure along the wall from the end that surveyed-from names")
	}
}

// order reports two sides that are the wrong way round.
func (s survey) order(n *source.Node, wrong bool, text, hint string) {
	if wrong && n != nil {
		s.fail(n.Span, text, hint)
	}
}

// farFraming is how far beside an opening a stud can still be said to frame it: more than the
// jack and king studs of any opening take (common practice, no source).
const farFraming = 12 * length.Inch

func (s survey) openings() {
	for i, o := range s.wall.Openings {
		n, v := s.node.Get("openings").Get(o.Key), o.Value
		s.along(n.Get("from"), v.From, "this edge")
		s.along(n.Get("to"), v.To, "this edge")
		s.order(n.Get("to"), v.From >= v.To, "an opening's right edge is right of its left one", "exchange from and to")
		s.order(n.Get("head"), v.Sill != nil && v.Head != nil && *v.Sill >= *v.Head, "an opening's head is above its sill", "exchange sill and head")
		if v.Head != nil && s.wall.Height != nil && len(s.wall.Ceiling) == 0 && *v.Head > *s.wall.Height && *s.wall.Height > 0 {
			s.fail(n.Get("head").Span, fmt.Sprintf("this head is above the ceiling, which is %s up", s.exact(*s.wall.Height)), "measure it from the floor")
		}
		for k, f := range v.Framing {
			at := n.Span
			if x := nth(n.Get("framing"), k); x != nil {
				at = x.Span
			}
			switch {
			case v.From >= v.To:
			case f > v.From+slip && f < v.To-slip:
				s.fail(at, fmt.Sprintf("this stud stands in %s, from %s to %s along", short(o.Key), s.exact(v.From), s.exact(v.To)), "list the centres of the studs on both sides of it")
			case f < v.From-farFraming || f > v.To+farFraming:
				s.fail(at, fmt.Sprintf("this stud is more than %s from %s, which it is to frame", s.exact(farFraming), short(o.Key)), "list it under studs")
			}
		}
		for _, p := range s.wall.Openings[:i] {
			if q := p.Value; v.From < q.To && v.To > q.From && !above(v, q) && !above(q, v) {
				s.problems.Add(source.Problem{Span: o.At.Span, Text: fmt.Sprintf("%s and %s take the same place", short(o.Key), short(p.Key)), Hint: "measure both again",
					Also: []source.Also{{Span: p.At.Span, Text: "the other is here"}}})
			}
		}
	}
}

// above reports whether an opening is known to begin over the head of another.
func above(a, b Opening) bool { return a.Sill != nil && b.Head != nil && *a.Sill >= *b.Head }

func (s survey) clear() {
	for _, k := range s.wall.Clear {
		n, v := s.node.Get("keep-clear").Get(k.Key), k.Value
		switch both := v.From != nil && v.To != nil; {
		case both && *v.From >= *v.To:
			s.fail(n.Get("to").Span, "the right edge is right of the left one", "exchange from and to")
		case both || v.Width != nil && (v.At != nil || v.From != nil || v.To != nil):
		case v.At != nil:
			s.fail(k.At.Span, fmt.Sprintf("how wide %s is is not stated", short(k.Key)), "add width, or write from and to instead of at")
		default:
			s.fail(k.At.Span, fmt.Sprintf("where %s is along the wall is not stated", short(k.Key)), "write at and width, or from and to")
		}
		s.order(n.Get("top"), v.Bottom != nil && v.Top != nil && *v.Bottom >= *v.Top, "the upper edge is above the lower one", "exchange bottom and top")
		for _, e := range [...]struct {
			key, what string
			l         *L
		}{{"at", "this centre", v.At}, {"from", "this edge", v.From}, {"to", "this edge", v.To}} {
			if e.l != nil {
				s.along(n.Get(e.key), *e.l, e.what)
			}
		}
		for _, e := range [...]struct {
			key string
			l   *L
		}{{"width", v.Width}, {"height", v.Height}, {"out", v.Out}} {
			s.order(n.Get(e.key), e.l != nil && *e.l <= 0, fmt.Sprintf("%s of %s must be more than 0", e.key, short(k.Key)), "leave it out when it is not known")
		}
	}
}

func (s survey) obstacles() {
	for _, o := range s.wall.Obstacles {
		n, v := s.node.Get("obstacles").Get(o.Key), o.Value
		if v.From != nil {
			s.along(n.Get("from"), *v.From, "this end")
		}
		if v.To != nil {
			s.along(n.Get("to"), *v.To, "this end")
		}
		s.order(n.Get("to"), v.From != nil && v.To != nil && *v.From >= *v.To, "the right end is right of the left one", "exchange from and to")
		s.order(n.Get("top"), v.Bottom != nil && v.Top != nil && *v.Bottom >= *v.Top, "the upper edge is above the lower one", "exchange bottom and top")
		s.order(n.Get("height"), v.Height != nil && *v.Height <= 0, fmt.Sprintf("height of %s must be more than 0", short(o.Key)), "leave it out when it reaches the ceiling")
		s.order(n.Get("out"), v.Out <= 0, fmt.Sprintf("out of %s must be more than 0", short(o.Key)), "write how far it stands out from the lining")
	}
}

func (s survey) studs() {
	v := s.wall.Studs
	if v == nil {
		return
	}
	n := s.node.Get("studs")
	s.order(n.Get("spacing"), v.Spacing != nil && *v.Spacing < 4*length.Inch, "studs are at least 4 in apart, centre to centre", "write the distance from one centre to the next: 16 in, 600 mm")
	s.order(n.Get("width"), v.Width != nil && *v.Width <= 0, "a stud is wider than nothing", "write its face width: 1 1/2 in, 45 mm")
	s.order(n.Get("depth"), v.Depth != nil && *v.Depth <= 0, "a stud is deeper than nothing", "write its depth into the wall")
	if v.First != nil {
		s.along(n.Get("first"), *v.First, "this stud")
	}
	for i, c := range v.Listed {
		s.along(nth(n.Get("listed"), i), c, "this stud")
	}
	for i, c := range v.Missing {
		s.along(nth(n.Get("missing"), i), c, "this stud")
	}
	if v.Width == nil || *v.Width <= 0 {
		return
	}
	for i, c := range v.Listed {
		for k, d := range v.Listed[:i] {
			if (c - d).Abs() < *v.Width-slip {
				one, two := nth(n.Get("listed"), i), nth(n.Get("listed"), k)
				if one == nil || two == nil {
					break
				}
				s.problems.Add(source.Problem{Span: one.Span, Text: fmt.Sprintf("two studs %s wide cannot stand %s apart, centre to centre", s.exact(*v.Width), s.exact((c - d).Abs())), Hint: "measure both again, or keep one",
					Also: []source.Also{{Span: two.Span, Text: "the other is here"}}})
				break
			}
		}
	}
}

func (s survey) floor(at source.Span) {
	f, n := s.wall.Floor, s.node.Get("floor")
	if n != nil {
		at = n.Span
	}
	var ways []string
	for _, w := range [...]struct {
		key  string
		said bool
	}{{"at-wall", len(f.AtWall) > 0}, {"points", len(f.Points) > 0}, {"falls-along", f.Falls != nil}} {
		if w.said {
			ways = append(ways, w.key)
		}
	}
	if len(ways) > 1 {
		s.fail(n.Get(ways[1]).Span, fmt.Sprintf("heights of the floor at the wall are said in more than one way: %s", strings.Join(ways, " and ")), "keep one of them")
	}
	if f.FallsOut != nil && len(f.AtOut)+len(f.OutPoints) > 0 {
		s.fail(n.Get("falls-out").Span, "heights of the floor out from the wall are said in more than one way", "keep one of them")
	}
	if f.FallsOut != nil && f.FallsOut.In <= 0 {
		s.fail(n.Get("falls-out").Span, "a fall is over a distance", "write falls-out: {by: 1/8 in, in: 12 in}")
	}
	switch rows := max(len(f.AtWall), len(f.AtOut)); {
	case rows > 0 && (f.Every == nil || *f.Every <= 0):
		s.fail(at, "heights of the floor are listed, but not how far apart", "add every: 32 in")
	case rows > 1 && *f.Every*L(rows-2) >= s.wall.Length: // the last but one is at the end already
		s.fail(at, fmt.Sprintf("%d heights every %s reach %s; the wall is %s long", rows, s.exact(*f.Every), s.exact(*f.Every*L(rows-1)), s.exact(s.wall.Length)), "leave those out that are not on it, or say how far apart they are")
	}
	if len(f.AtOut)+len(f.OutPoints) > 0 && (f.Out == nil || *f.Out <= 0) {
		s.fail(at, "heights out from the wall are listed, but not how far out", "add out: 24 in")
	}
	for _, row := range [...]struct {
		key string
		at  []Height
	}{{"points", f.Points}, {"out-points", f.OutPoints}} {
		for i, p := range row.at {
			s.along(nth(n.Get(row.key), i).Get("at"), p.At, "this place")
		}
	}
}

// corners checks that walls meet end to end, each end one other, at an angle that can be.
func (r *reader) corners() {
	type end struct {
		wall string
		side string
	}
	other := map[string]string{"left": "right", "right": "left"}
	taken := map[end]source.Span{}
	by := map[end]end{}
	angle := map[end]string{}
	for _, w := range r.file.Walls {
		c := w.Value.Corner
		n := r.tree.Get("walls").Get(w.Key).Get("corner")
		if c == nil || n == nil || c.With == "" {
			continue
		}
		if a, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(c.Angle, "°")), 64); c.Angle != "" && (err != nil || !(a >= 20 && a <= 340)) {
			at := n.Span
			if v := n.Get("angle"); v != nil {
				at = v.Span
			}
			r.fail(at, fmt.Sprintf("%q is no inside angle of two walls", short(c.Angle)), "write its degrees, between 20 and 340: angle: 90")
		}
		if c.With == w.Key {
			r.fail(n.Get("with").Span, "a wall cannot meet itself", "name the other wall")
			continue
		}
		a := end{w.Key, "left"}
		if c.At != "" {
			a.side = c.At
		}
		b := end{c.With, other[a.side]}
		if by[a] == b { // said from both sides
			if angle[a] != c.Angle {
				r.problems.Add(source.Problem{Span: n.Span, Text: fmt.Sprintf("%s and %s meet at %s degrees here and at %s there", short(w.Key), short(c.With), c.Angle, angle[a]), Hint: "say it once",
					Also: []source.Also{{Span: taken[a], Text: "the other is here"}}})
			}
			continue
		}
		if o, ok := by[end{a.wall, other[a.side]}]; ok && o.wall == b.wall {
			r.problems.Add(source.Problem{Span: n.Span, Text: fmt.Sprintf("%s and %s cannot meet at both of their ends: a wall's left end meets the other's right end, seen from the room", short(w.Key), short(c.With)), Hint: "keep one of the two corners, with at: left or at: right by the end of that wall that stands in it",
				Also: []source.Also{{Span: taken[end{a.wall, other[a.side]}], Text: "the other is here"}}})
			taken[a], taken[b] = n.Span, n.Span
			continue
		}
		for _, e := range [...]end{a, b} {
			if was, ok := taken[e]; ok {
				r.problems.Add(source.Problem{Span: n.Span, Text: fmt.Sprintf("two walls cannot meet the %s end of %s: a wall's left end meets the other's right end, seen from the room", e.side, short(e.wall)), Hint: "write at: left or at: right, by the end of this wall that stands in the corner",
					Also: []source.Also{{Span: was, Text: "the other is here"}}})
				break
			}
		}
		taken[a], taken[b] = n.Span, n.Span
		by[a], by[b] = b, a
		angle[a], angle[b] = c.Angle, c.Angle
	}
}

// room checks what stands in the room and who uses it.
func (r *reader) room() {
	positive := func(n *source.Node, bad bool, what string) {
		if bad && n != nil {
			r.fail(n.Span, what+" must be more than 0", "measure it again")
		}
	}
	n, v := r.tree.Get("room"), r.file.Room
	positive(n.Get("depth"), v.Depth != nil && *v.Depth <= 0, "the depth of the room")
	if v.Aisle != nil && *v.Aisle < 0 {
		r.fail(n.Get("aisle").Span, "an aisle cannot be less than nothing", "leave it out when none is wanted")
	}
	for _, t := range v.Fixed {
		positive(n.Get("things").Get(t.Key).Get("across"), t.Value.Across <= 0, "the size of "+short(t.Key))
	}
	for _, c := range v.Cars {
		cn := n.Get("cars").Get(c.Key)
		positive(cn.Get("length"), c.Value.Length <= 0, "the length of "+short(c.Key))
		positive(cn.Get("width"), c.Value.Width <= 0, "the width of "+short(c.Key))
	}
	p, pn := r.file.People, r.tree.Get("people")
	if p.Shortest != nil && p.Tallest != nil && *p.Shortest > *p.Tallest {
		r.fail(pn.Get("shortest").Span, "the shortest user is taller than the tallest", "exchange shortest and tallest")
	}
	for _, e := range [...]struct {
		key string
		l   *L
	}{{"shortest", p.Shortest}, {"tallest", p.Tallest}} {
		if e.l != nil && (*e.l < 20*length.Inch || *e.l > 100*length.Inch) {
			r.fail(pn.Get(e.key).Span, fmt.Sprintf("nobody is %s tall", r.exact(*e.l)), "write the height of a person")
		}
	}
}

// standing checks what stands already.
func (r *reader) standing() {
	walls := map[string]L{}
	for _, w := range r.file.Walls {
		walls[w.Key] = w.Value.Length
	}
	type seen struct {
		key string
		at  source.Span
		Standing
	}
	var before []seen
	for _, s := range r.file.Standing {
		n, v := r.tree.Get("standing").Get(s.Key), s.Value
		if v.From >= v.To && n.Get("to") != nil {
			r.fail(n.Get("to").Span, fmt.Sprintf("the right side of %s is right of its left one", short(s.Key)), "exchange from and to")
		}
		if v.Bottom != nil && *v.Bottom >= v.Top && n.Get("top") != nil {
			r.fail(n.Get("top").Span, fmt.Sprintf("the upper edge of %s is above its lower one", short(s.Key)), "exchange bottom and top")
		}
		if v.Top <= 0 && v.Bottom == nil && n.Get("top") != nil {
			r.fail(n.Get("top").Span, fmt.Sprintf("the upper edge of %s is above the floor", short(s.Key)), "write its height above the floor's high point")
		}
		if v.Depth <= 0 && n.Get("depth") != nil {
			r.fail(n.Get("depth").Span, fmt.Sprintf("the depth of %s must be more than 0", short(s.Key)), "write how far it stands out from the wall")
		}
		wall := v.Wall
		if wall == "" && len(r.file.Walls) > 0 {
			wall = r.file.Walls[0].Key
		}
		if long, ok := walls[wall]; ok && long > 0 {
			for _, e := range [...]struct {
				key string
				at  L
			}{{"from", v.From}, {"to", v.To}} {
				if at := n.Get(e.key); at != nil && (e.at < -slip || e.at > long+slip) {
					r.fail(at.Span, fmt.Sprintf("this side is not on its wall, which is %s long", r.exact(long)), "measure from the wall's left end")
				}
			}
		}
		// Counters lie on cases, machines and other things stand on counters: those may share a place.
		if solid := v.Kind == "" || v.Kind == "case" || v.Kind == "cupboard"; solid && v.From < v.To {
			bottom := func(x Standing) L {
				if x.Bottom != nil {
					return *x.Bottom
				}
				return 0
			}
			for _, o := range before {
				if o.Wall == wall && v.From < o.To-slip && v.To > o.From+slip && bottom(v) < o.Top && v.Top > bottom(o.Standing) {
					r.problems.Add(source.Problem{Span: s.At.Span, Text: fmt.Sprintf("%s and %s stand in the same place", short(s.Key), short(o.key)), Hint: "measure both again",
						Also: []source.Also{{Span: o.at, Text: "the other is here"}}})
				}
			}
			v.Wall = wall
			before = append(before, seen{s.Key, s.At.Span, v})
		}
	}
}
