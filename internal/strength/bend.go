package strength

import (
	"fmt"
	"math"
	"slices"

	"stowright/internal/finding"
	"stowright/internal/strength/beam"
	"stowright/internal/strength/plate"
)

// bent is how a board carries its load.
type bent struct {
	sag    float64 // first, mm
	stress float64 // in the board, MPa
	strips float64 // greatest stress over strength in strips, layers and rails; 0 without
	cross  float64 // stress across the span over strength, of a plate whose long edges are stiff
	weak   bool    // a strip's strength is not known
	over   bool    // sag and stress are bounds from above, because something is not known
	how    string  // the method, in words
	bends  float64 // mm of the sag that a plain beam on two supports owes to bending; 0 for others
	source string
	moment float64                 // N·mm, 0 by plates
	at     func(u float64) float64 // first sag at a share of the board's length, mm
}

const (
	beamSource  = "Wood Handbook (FPL-GTR-282) Eq. 9-2 and Table 9-1"
	plateSource = "finite strips for orthotropic plates (Cheung; Timoshenko and Woinowsky-Krieger, ch. 11)"
)

// halfWaves for uniform loads; the sag is within a thousandth.
const halfWaves = 11

// bend works out sag and stress by the method that fits the board.
func (b board) bend() (bent, bool) {
	if len(b.supports) == 2 && (len(b.front)+len(b.rear) > 0 || b.back) && len(b.layers)+len(b.beside)+len(b.points)+len(b.cuts) == 0 {
		return b.bendPlate()
	}
	return b.bendBeam()
}

// pieces are the rectangles that bend together.
func (b board) pieces() []beam.Piece {
	list := []beam.Piece{{Width: b.depth, Height: b.t, E: b.wood.e, G: b.wood.shear()}}
	for _, x := range append(append([]strip{}, b.front...), b.rear...) {
		list = append(list, beam.Piece{Width: x.wide, Height: x.high, Bottom: b.t/2 - x.drop - x.high/2, E: x.e, G: x.g})
	}
	for _, x := range b.layers {
		list = append(list, beam.Piece{Width: x.wide, Height: x.high, Bottom: x.bottom, E: x.e, G: x.g})
	}
	return list
}

// section is the board's cross section; rails beside it add their own stiffness.
func (b board) section() beam.Section {
	list := b.pieces()
	s := beam.Compose(list...)
	if len(b.beside) == 0 {
		return s
	}
	for _, x := range b.beside {
		// Not glued: centred on the axis, so that only its own stiffness is added.
		list = append(list, beam.Piece{Width: x.wide, Height: x.high, Bottom: s.Axis - x.high/2, E: x.e, G: x.g})
	}
	return beam.Compose(list...)
}

func (b board) beam() beam.Beam {
	m := beam.Beam{Length: b.length, Section: b.section(), Weak: b.weak(), Points: b.points,
		Uniforms: []beam.Uniform{{From: 0, To: b.length, Line: b.line}}}
	if mid, foot := b.middle(), math.Min(b.foot, b.reach); b.thing > 0 && foot > 0 {
		m.Uniforms = append(m.Uniforms, beam.Uniform{From: mid - foot/2, To: mid + foot/2, Line: b.thing / foot})
	} else if b.thing > 0 {
		m.Points = append(slices.Clone(b.points), beam.Point{At: mid, Force: b.thing})
	}
	m.Uniforms = append(m.Uniforms, b.patches()...)
	for _, x := range b.supports {
		m.Supports = append(m.Supports, beam.Support{At: x})
	}
	return m
}

// patches are the loads that lie on stretches of the board: partitions that stand on it, and what its bays are
// loaded unlike.
func (b board) patches() []beam.Uniform {
	list := slices.Clone(b.uneven)
	for _, x := range b.stands {
		list = append(list, beam.Uniform{From: x.at - x.wide/2, To: x.at + x.wide/2, Line: x.force / x.wide})
	}
	return list
}

// bendBeam is the board as a straight beam over its supports.
func (b board) bendBeam() (bent, bool) {
	m := b.beam()
	r, ok := m.Solve()
	if !ok || r.Sag.Value > b.length {
		return bent{}, false
	}
	out := b.along(m.Section, r)
	b.atCuts(&out, r.MomentAt)
	out.sag = r.Sag.Value
	out.at = func(u float64) float64 { return r.SagAt(u * b.length) }
	out.source = beamSource
	out.how = "beam on two supports, bending and shear: 5 W L³/(384 E I) + W L/(8 G A')"
	if len(b.supports) == 2 && len(b.points)+len(b.cuts)+len(b.stands)+len(b.uneven) == 0 && b.thing == 0 {
		out.bends, _ = beam.UniformSimple.Sag(b.line*b.reach, b.reach, m.Section)
	}
	if len(b.supports) > 2 {
		out.how = fmt.Sprintf("beam over %d supports by direct stiffness, bending and shear", len(b.supports))
	}
	if len(b.points) > 0 {
		out.how += fmt.Sprintf(", with %d point loads", len(b.points))
	}
	if len(b.uneven) > 0 {
		out.how += ", each bay's load on its own stretch"
	}
	if len(b.stands) > 0 {
		out.how += ", with the partitions on it"
	}
	if b.thing > 0 {
		out.how += ", with the heaviest thing in the middle"
	}
	return out, true
}

// stresses are those of all pieces under a moment.
func (b board) stresses(s beam.Section, moment float64) bent {
	out := bent{moment: moment, stress: s.Stress(0, moment)}
	n := 1
	for _, x := range append(append([]strip{}, b.front...), b.rear...) {
		out.piece(s.Stress(n, moment), x.f)
		n++
	}
	for _, x := range append(append([]layer{}, b.layers...), b.beside...) {
		out.piece(s.Stress(n, moment), x.f)
		n++
	}
	return out
}

// piece counts one glued piece's stress.
func (o *bent) piece(stress, strength float64) {
	if strength <= 0 {
		o.weak = true
		return
	}
	o.strips = math.Max(o.strips, stress/strength)
}

// bendPlate is the board as a plate on two ends, its long edges free, held or stiffened.
func (b board) bendPlate() (bent, bool) {
	reach := b.supports[1] - b.supports[0]
	if reach <= 0 {
		return bent{}, false
	}
	if b.wood.across <= 0 {
		// Held along one edge a board that is soft across does better at its middle, and one that is stiff
		// across worse: what is not known is counted both ways, and the worse of both.
		soft, hard := b, b
		soft.wood.across, hard.wood.across = b.wood.e/50, b.wood.e
		x, ok := soft.bendPlate()
		y, also := hard.bendPlate()
		if y.sag > x.sag {
			x, y = y, x
		}
		x.stress, x.strips, x.cross = math.Max(x.stress, y.stress), math.Max(x.strips, y.strips), math.Max(x.cross, y.cross)
		x.weak, x.over = x.weak || y.weak, true
		return x, ok && also
	}
	ey, g, fy := b.wood.across, b.wood.g, b.wood.crossF
	out := bent{source: plateSource, how: "plate on two ends"}
	if g <= 0 {
		g, out.over = b.wood.e/100, true
	}
	s := plate.Shelf{Board: plate.Board{T: b.t, Ex: b.wood.e, Ey: ey, G: g}, Span: reach, Depth: b.depth,
		Loads: []plate.Patch{{X1: 0, X2: reach, Y1: 0, Y2: b.depth, Pressure: b.line / b.depth}}}
	if b.thing > 0 {
		// It stands on its foot, or on a tenth of the way where that is not known, over the whole depth.
		foot := math.Min(b.foot, reach)
		if foot <= 0 {
			foot = reach / 10
		}
		s.Loads = append(s.Loads, plate.Patch{X1: (reach - foot) / 2, X2: (reach + foot) / 2, Y1: 0, Y2: b.depth, Pressure: b.thing / foot / b.depth})
	}
	for _, u := range b.patches() {
		from, to := math.Max(u.From-b.supports[0], 0), math.Min(u.To-b.supports[0], reach)
		if to > from {
			s.Loads = append(s.Loads, plate.Patch{X1: from, X2: to, Y1: 0, Y2: b.depth, Pressure: u.Line / b.depth})
		}
	}
	for _, x := range b.front {
		s.Front.Strips = append(s.Front.Strips, plate.Strip{Width: x.wide, Height: x.high, Drop: x.drop, In: x.wide / 2, E: x.e, G: x.g})
	}
	for _, x := range b.rear {
		s.Back.Strips = append(s.Back.Strips, plate.Strip{Width: x.wide, Height: x.high, Drop: x.drop, In: x.wide / 2, E: x.e, G: x.g})
	}
	if b.back {
		s.Back.Hold = plate.Supported
		out.how += ", held along its back"
	}
	if len(b.front)+len(b.rear) > 0 {
		out.how += ", stiffened by strips as one glued section"
	}
	r := b.solved.bend(s)
	worst, deep, stress := r.worst, r.deep, r.stress
	// Shear as in a beam: the plate's theory leaves it out.
	out.at = func(u float64) float64 {
		x := u*b.length - b.supports[0]
		if x <= 0 || x >= reach || worst.Sag == 0 {
			return 0
		}
		return r.At(x, deep).Sag * out.sag / worst.Sag
	}
	extra := 2 * b.thing
	for _, x := range b.stands {
		extra += 2 * x.force
	}
	out.sag = worst.Sag + beam.UniformSimple.Slide*(b.line*reach+extra)*reach/beam.Rect(b.depth, b.t, b.wood.e, b.wood.shear()).GA
	out.stress = stress
	if b.boxed() {
		if fy <= 0 {
			fy, out.over = b.wood.f/10, true
		}
		out.cross = s.Stress(worst.My) / (fy * countedOn * permanent)
	}
	for i, x := range b.front {
		out.piece(r.StripStress(false, i, reach/2), x.f)
	}
	for i, x := range b.rear {
		out.piece(r.StripStress(true, i, reach/2), x.f)
	}
	return out, true
}

// solved holds bent plates by what tells them apart. Many boards of a room are alike, and every check and every
// remedy bends them anew.
type solved map[string]bentPlate

type bentPlate struct {
	plate.Bent
	worst        plate.State
	deep, stress float64 // where across the span it sags most, and its greatest stress
}

func (p solved) bend(s plate.Shelf) bentPlate {
	key := s.Key()
	if r, ok := p[key]; ok {
		return r
	}
	r := bentPlate{Bent: s.Solve(halfWaves)}
	r.worst, _, r.deep, r.stress = r.Worst(2)
	if p != nil {
		p[key] = r
	}
	return r
}

// boxed says that both long edges of a board between two supports are stiffened or held, so that it
// carries both ways.
func (b board) boxed() bool {
	return len(b.supports) == 2 && len(b.front) > 0 && (len(b.rear) > 0 || b.back)
}

// worst is the board cut down to the length at which it does worst, where it carries both ways. A
// longer one gives more of its load to its stiff edges, so that its ratio can fall as it grows: no
// strength to count on.
func (b board) worst(ratio func(board) float64) board {
	if !b.boxed() || len(b.points)+len(b.stands)+len(b.uneven) > 0 {
		return b
	}
	worst, most := b, ratio(b)
	// The same lengths for every board of its depth, so that a longer one meets all that a shorter one does.
	var grid []float64
	for reach := b.depth / 2; reach < b.reach; reach *= 1.08 {
		grid = append(grid, reach)
	}
	for i := len(grid) - 1; i >= 0; i-- {
		n := b
		n.supports, n.reach, n.length = []float64{0, grid[i]}, grid[i], grid[i]
		r := ratio(n)
		if r > most {
			worst, most = n, r
		}
		if r < most/2 {
			break // far below the waves that add
		}
	}
	return worst
}

// sums are the numbers of a plain beam's sag, for the working.
func (s *Scene) sums(b board, r bent) []string {
	if r.bends == 0 {
		return nil
	}
	sec := b.section()
	i, made := sec.EI/b.wood.e, fmt.Sprintf("I of the whole section, brought to the board's E: %s.", s.inertia(sec.EI/b.wood.e))
	if len(b.front)+len(b.rear)+len(b.layers)+len(b.beside) == 0 {
		made = fmt.Sprintf("I: %s × (%s)³ / 12 = %s.", s.exact(b.depth), s.exact(b.t), s.inertia(i))
	}
	w := b.line * b.reach
	return []string{made, fmt.Sprintf("Bending: 5 × %s × (%s)³ / (384 × %s × %s) = %s; shear, and what stands out past the supports: %s.",
		s.force(w), s.exact(b.reach), s.modulus(b.wood.e), s.inertia(i), s.small(r.bends), s.small(r.sag-r.bends))}
}

// shorter says for the working that a board is counted at a shorter length than its own.
func (s *Scene) shorter(b, counted board) []string {
	if counted.reach == b.reach {
		return nil
	}
	return []string{fmt.Sprintf("Its stiff edges carry it too, and a longer one is counted as no better than a shorter one: the worst is %s between supports.", s.exact(counted.reach))}
}

// way is the longest distance between neighbouring supports.
func way(supports []float64) float64 {
	w := 0.0
	for i := 1; i < len(supports); i++ {
		w = math.Max(w, supports[i]-supports[i-1])
	}
	return w
}

// shape is the bent board after years, in twenty steps from end to end, where it sags most.
func (r bent) shape(length, final float64) []finding.Point {
	if r.at == nil || r.sag <= 0 {
		return nil
	}
	var list []finding.Point
	for k := range 21 {
		u := float64(k) / 20
		list = append(list, finding.Point{Along: round(u * length), Down: math.Round(r.at(u)*final/r.sag*1e4) / 1e4})
	}
	return list
}
