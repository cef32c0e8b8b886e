package strength

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"stowright/internal/geom"
	"stowright/internal/order"
	"stowright/internal/part"
	"stowright/internal/strength/beam"
)

// cut is a place along a counter where some of its layers, strips or edgings are butted end to end: nothing is
// counted on across a glued butt of ends, so only what runs on carries there, and a strap under it.
type cut struct {
	at     float64 // mm along
	gone   []which
	straps []layer
	name   string // of the pieces that are butted
}

// which is one of the pieces that bend together: 'b' the board, 'f' a strip in front, 'r' one behind, 'l' a layer.
type which struct {
	of byte
	i  int
}

// run is the box of a part with the pieces that go on from it end to end, in a counter, and the places where
// they meet, mm from its start.
func (s *Scene) run(p *part.Part) (box geom.Box, joints []float64) {
	box = p.Box()
	switch p.Role {
	case part.CounterLayer, part.Blocking, part.CounterEdge:
	default:
		return box, nil
	}
	var ends []float64
	for _, q := range s.of(p.Owner).Parts {
		if c := q.Box(); q.Role == p.Role && c.Min.Z == box.Min.Z && c.Max.Z == box.Max.Z && c.Min.Y == box.Min.Y && c.Max.Y == box.Max.Y {
			ends = append(ends, mm(c.Min.X))
			box = box.Or(c)
		}
	}
	for _, x := range ends {
		if x -= mm(box.Min.X); x > touching {
			joints = append(joints, x)
		}
	}
	order.Up(joints)
	return box, slices.Compact(joints)
}

// slip is how far from a joint a layer carries its full share again, mm: two layers of equal thickness t that
// are glued, each as soft through its thickness as G, slip past each other by shares that die away as
// exp(-x √(12 G/E)/t) (partial interaction of two layers, from statics).
func (b board) slip() float64 {
	t := b.t
	for _, x := range b.layers {
		t = math.Max(t, x.high)
	}
	return t * math.Sqrt(b.wood.e/(12*b.wood.shear()))
}

// cutsOf gathers the cuts of a counter's pieces; joints are by piece. Straps are short boards glued under the
// lowest layer at a cut.
func (s *Scene) cutsOf(b *board, joints map[which][]float64, names map[which]string) {
	box := s.whole(b.part)
	var list []cut
	for k, at := range joints {
		for _, x := range at {
			if x > oneTwo && x < b.length-oneTwo {
				list = append(list, cut{at: x, gone: []which{k}, name: whole(names[k])})
			}
		}
	}
	order.Stable(list, func(a, c cut) int {
		if a.at != c.at {
			return int(math.Copysign(1, a.at-c.at))
		}
		return 100*(int(a.gone[0].of)-int(c.gone[0].of)) + a.gone[0].i - c.gone[0].i
	})
	for _, c := range list {
		// Joints so near to each other that nothing between them carries its share again are one.
		if n := len(b.cuts); n > 0 && c.at-b.cuts[n-1].at < 2*b.slip() {
			b.cuts[n-1].gone = append(b.cuts[n-1].gone, c.gone...)
			continue
		}
		for _, q := range s.of(b.part.Owner).Parts {
			v := q.Box()
			lo, hi := mm(v.Min.X-box.Min.X), mm(v.Max.X-box.Min.X)
			if q.Role != part.Spacer && q.Role != part.Blocking || math.Abs(mm(v.Max.Z-box.Min.Z)) > touching || lo > c.at-oneTwo/2 || hi < c.at+oneTwo/2 || hi-lo >= 0.8*b.reach {
				continue
			}
			if w := s.wood(q, 0, false); w.e > 0 {
				t := mm(v.Max.Z - v.Min.Z)
				c.straps = append(c.straps, layer{name: q.Name, wide: mm(v.Max.Y - v.Min.Y), high: t, bottom: -t, e: w.e, g: w.shear(), f: w.strength(permanent)})
			}
		}
		b.cuts = append(b.cuts, c)
	}
}

// without is the board as it is at a cut, without what is butted there; false when nothing runs on.
func (b board) without(c cut) (board, bool) {
	n := b
	n.cuts, n.front, n.rear, n.layers = nil, nil, nil, nil
	runs := func(of byte, i int) bool { return !slices.Contains(c.gone, which{of, i}) }
	for i, x := range b.front {
		if runs('f', i) {
			n.front = append(n.front, x)
		}
	}
	for i, x := range b.rear {
		if runs('r', i) {
			n.rear = append(n.rear, x)
		}
	}
	for i, x := range b.layers {
		if runs('l', i) {
			n.layers = append(n.layers, x)
		}
	}
	n.layers = append(n.layers, c.straps...)
	if runs('b', 0) {
		return n.touch(), true
	}
	if len(n.layers) == 0 {
		return n, false // edgings alone are not counted on
	}
	// The first of the layers takes the board's place.
	first := n.layers[0]
	n.t, n.depth = first.high, first.wide
	n.wood.e, n.wood.planar, n.wood.f, n.wood.design = first.e, first.g, first.f/(countedOn*permanent), 0
	n.layers = slices.Clone(n.layers[1:])
	for i := range n.layers {
		n.layers[i].bottom -= first.bottom
	}
	rise := first.bottom + first.high/2 - b.t/2
	for _, list := range []*[]strip{&n.front, &n.rear} {
		*list = slices.Clone(*list)
		for i := range *list {
			(*list)[i].drop += rise
		}
	}
	return n.touch(), true
}

// touch leaves out what nothing joins to the board any more.
func (b board) touch() board {
	lo, hi := 0.0, b.t
	var front, rear []strip
	var layers []layer
	for again := true; again; {
		again = false
		meets := func(from, to float64) bool {
			if from > hi+1e-6 || to < lo-1e-6 {
				return false
			}
			again = again || from < lo || to > hi
			lo, hi = math.Min(lo, from), math.Max(hi, to)
			return true
		}
		front, rear, layers = nil, nil, nil
		for _, x := range b.front {
			if mid := b.t/2 - x.drop; meets(mid-x.high/2, mid+x.high/2) {
				front = append(front, x)
			}
		}
		for _, x := range b.rear {
			if mid := b.t/2 - x.drop; meets(mid-x.high/2, mid+x.high/2) {
				rear = append(rear, x)
			}
		}
		for _, x := range b.layers {
			if meets(x.bottom, x.bottom+x.high) {
				layers = append(layers, x)
			}
		}
	}
	b.front, b.rear, b.layers = front, rear, layers
	return b
}

// whole is the name of a run of pieces: "lower layer" of "lower layer, left piece".
func whole(piece string) string {
	if name, which, _ := strings.Cut(piece, ", "); strings.Contains(which, "piece") {
		return name
	}
	return piece
}

// weak are the stretches at which a beam of the board is weaker than elsewhere.
func (b board) weak() []beam.Weak {
	var list []beam.Weak
	lo, hi := b.railed[0], b.railed[1]
	if bare := b; len(b.beside) > 0 { // rails end at the supports beside them
		bare.beside = nil
		for _, x := range [][2]float64{{0, math.Min(lo, b.length)}, {hi, b.length}} {
			if x[1]-x[0] > 1 {
				list = append(list, beam.Weak{From: x[0], To: x[1], Section: bare.section()})
			}
		}
	}
	for _, c := range b.cuts {
		if c.at <= 1 || c.at >= b.length-1 {
			continue
		}
		n, ok := b.without(c)
		if c.at < lo || c.at > hi {
			n.beside = nil
		}
		w := beam.Weak{From: math.Max(c.at-b.slip(), 0), To: math.Min(c.at+b.slip(), b.length), Section: n.section()}
		if !ok {
			// A hinge: so soft that the next supports carry the moment.
			w = beam.Weak{From: c.at - 1, To: c.at + 1, Section: beam.Rect(b.depth, b.t, b.wood.e*1e-6, b.wood.shear())}
		}
		list = append(list, w)
	}
	return list
}

// along is the stress of a bent beam: where rails help, of what is between their ends and of the rest.
func (b board) along(s beam.Section, r beam.Result) bent {
	if len(b.beside) == 0 {
		return b.stresses(s, math.Max(r.Sagging.Value, r.Hogging.Value))
	}
	lo, hi := b.railed[0], b.railed[1]
	in, out := 0.0, 0.0
	const steps = 200
	for i := range steps + 1 {
		x := b.length * float64(i) / steps
		if m := math.Abs(r.MomentAt(x)); x > lo && x < hi {
			in = math.Max(in, m)
		} else {
			out = math.Max(out, m)
		}
	}
	for _, x := range append([]float64{b.middle()}, b.supports...) {
		if m := math.Abs(r.MomentAt(x)); x > lo && x < hi {
			in = math.Max(in, m)
		} else {
			out = math.Max(out, m)
		}
	}
	bare := b
	bare.beside = nil
	most, rest := b.stresses(s, in), bare.stresses(bare.section(), out)
	most.stress, most.strips = math.Max(most.stress, rest.stress), math.Max(most.strips, rest.strips)
	most.weak, most.moment = most.weak || rest.weak, math.Max(in, out)
	return most
}

// atCuts counts the stresses at the cuts of a bent board.
func (b board) atCuts(out *bent, moment func(x float64) float64) {
	for _, c := range b.cuts {
		n, ok := b.without(c)
		if !ok || c.at >= b.length {
			continue // a hinge carries no moment
		}
		if c.at < b.railed[0] || c.at > b.railed[1] {
			n.beside = nil
		}
		r := n.stresses(n.section(), math.Abs(moment(c.at)))
		out.weak = out.weak || r.weak || n.wood.f <= 0
		if f := n.wood.strength(permanent); f > 0 {
			out.strips = math.Max(out.strips, r.stress/f)
		}
		out.strips = math.Max(out.strips, r.strips)
	}
}

// butted says in words where the joints are and what carries there.
func (s *Scene) butted(b board) []string {
	var words []string
	for _, c := range b.cuts {
		n, ok := b.without(c)
		what := "nothing runs on there: it turns as on a hinge"
		if ok {
			what = fmt.Sprintf("only what runs on carries there, with %.2f of the whole's stiffness, and over %s on each side of it", n.section().EI/b.section().EI, s.exact(b.slip()))
		}
		words = append(words, fmt.Sprintf("Joint of %s %s from the left end: %s.", c.name, s.exact(c.at), what))
	}
	return words
}
