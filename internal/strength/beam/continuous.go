package beam

import (
	"fmt"
	"math"
	"sort"
)

// Support holds the beam up at a place. A plain support lets it turn; a fixed
// one does not. Both also hold it down: a reaction below zero says that the
// beam must be fastened there, or lifts.
type Support struct {
	At    float64 // mm from the left end
	Fixed bool
}

// Point is a force in N at a place in mm from the left end.
type Point struct{ At, Force float64 }

// Uniform is a load of Line N/mm from one place to another, in mm from the
// left end.
type Uniform struct{ From, To, Line float64 }

// Weak is a stretch, in mm from the left end, where a beam has another section:
// a joint in one of its layers.
type Weak struct {
	From, To float64
	Section  Section
}

// Beam is a straight board over any number of supports; its ends may
// overhang.
type Beam struct {
	Length   float64
	Section  Section
	Weak     []Weak // stretches of another section; where they overlap the last counts
	Supports []Support
	Points   []Point
	Uniforms []Uniform
}

// Extreme is a value and where it occurs.
type Extreme struct{ Value, At float64 }

// Result is how a beam carries its load.
type Result struct {
	Sag      Extreme   // greatest deflection downward, mm
	Rise     Extreme   // greatest deflection upward, mm (value ≥ 0)
	Sagging  Extreme   // greatest moment with tension below, N·mm (≥ 0)
	Hogging  Extreme   // greatest moment with tension above, N·mm (≥ 0)
	Shear    Extreme   // greatest shear force either way, N (≥ 0)
	Supports []float64 // reaction at each support in the order given, up, N
	Fixity   []float64 // moment at each support, N·mm, 0 where not fixed

	length float64
	pieces []piece
}

// piece is a stretch of beam with one uniform load, and its state at the left.
type piece struct {
	x, length, line          float64
	s                        Section
	sag, turn, moment, shear float64 // turn is the section's rotation, sag' − V/GA
}

// Solve is the exact solution by direct stiffness with Timoshenko's beam
// element (bending and shear). It reports false where the supports do not
// hold the beam. Nothing of the load is dropped: what lies beyond an end is
// an error of the caller and panics.
func (b Beam) Solve() (Result, bool) {
	xs := b.nodes()
	n := len(xs)
	node := func(at float64) int {
		i := sort.SearchFloat64s(xs, at-1e-6)
		return i
	}
	// Unknowns: sag and turn of each node. The matrix is banded, half-width 4.
	k := make([][7]float64, 2*n) // k[i][3+j-i]
	f := make([]float64, 2*n)
	lines := make([]float64, n-1)
	for i := range lines {
		mid := (xs[i] + xs[i+1]) / 2
		for _, u := range b.Uniforms {
			if u.From < mid && mid < u.To {
				lines[i] += u.Line
			}
		}
	}
	ends := make([][4][4]float64, n-1)
	made := make([]Section, n-1)
	for i := range ends {
		l := xs[i+1] - xs[i]
		made[i] = b.Section
		for _, w := range b.Weak {
			if mid := (xs[i] + xs[i+1]) / 2; w.From < mid && mid < w.To {
				made[i] = w.Section
			}
		}
		ends[i] = element(l, made[i])
		for r := 0; r < 4; r++ {
			for c := 0; c < 4; c++ {
				k[2*i+r][3+c-r] += ends[i][r][c]
			}
		}
		for r, v := range fixedLoads(lines[i], l) {
			f[2*i+r] += v
		}
	}
	for _, p := range b.Points {
		f[2*node(p.At)] += p.Force
	}
	held := make([]bool, 2*n)
	for _, s := range b.Supports {
		held[2*node(s.At)] = true
		if s.Fixed {
			held[2*node(s.At)+1] = true
		}
	}
	u, ok := solveBanded(k, f, held)
	if !ok {
		return Result{}, false
	}

	res := Result{length: b.Length}
	// What each node's held freedom must supply is K u − f.
	supply := func(d int) float64 {
		sum := -f[d]
		for j := -3; j <= 3; j++ {
			if c := d + j; c >= 0 && c < 2*n {
				sum += k[d][3+j] * u[c]
			}
		}
		return sum
	}
	for _, s := range b.Supports {
		d := 2 * node(s.At)
		res.Supports = append(res.Supports, -supply(d))
		m := 0.0
		if s.Fixed {
			m = supply(d + 1)
		}
		res.Fixity = append(res.Fixity, m)
	}
	for i := range ends {
		l := xs[i+1] - xs[i]
		e := u[2*i : 2*i+4]
		at := fixedLoads(lines[i], l)
		var left [2]float64
		for r := range left {
			left[r] = -at[r]
			for c := 0; c < 4; c++ {
				left[r] += ends[i][r][c] * e[c]
			}
		}
		// End actions on the element to the state convention of piece.
		res.pieces = append(res.pieces, piece{
			x: xs[i], length: l, line: lines[i], s: made[i],
			sag: e[0], turn: e[1], shear: -left[0], moment: left[1],
		})
	}
	res.search()
	return res, true
}

// nodes are all places where something begins, ends or acts, ascending.
func (b Beam) nodes() []float64 {
	if !(b.Length > 0 && b.Section.EI > 0) {
		panic(fmt.Sprintf("beam: no length or stiffness: %g mm, %g", b.Length, b.Section.EI))
	}
	x := []float64{0, b.Length}
	for _, s := range b.Supports {
		x = append(x, s.At)
	}
	for _, p := range b.Points {
		x = append(x, p.At)
	}
	for _, u := range b.Uniforms {
		if u.From > u.To {
			panic(fmt.Sprintf("beam: load from %g to %g mm", u.From, u.To))
		}
		x = append(x, u.From, u.To)
	}
	for _, w := range b.Weak {
		x = append(x, math.Max(w.From, 0), math.Min(w.To, b.Length))
	}
	sort.SliceStable(x, func(a, b int) bool { return x[a] < x[b] })
	if x[0] < -1e-6 || x[len(x)-1] > b.Length+1e-6 {
		panic(fmt.Sprintf("beam: load or support beyond the ends 0 and %g mm", b.Length))
	}
	out := []float64{0}
	for _, v := range x {
		if v-out[len(out)-1] > 1e-6 {
			out = append(out, v)
		}
	}
	return out
}

// element is the stiffness of a beam element with shear, for sag and turn at
// its left and right end (turn = slope of the sag where shear is rigid).
func element(l float64, s Section) [4][4]float64 {
	phi := 12 * s.EI / (s.GA * l * l)
	c := s.EI / (l * l * l * (1 + phi))
	return [4][4]float64{
		{12 * c, 6 * l * c, -12 * c, 6 * l * c},
		{6 * l * c, (4 + phi) * l * l * c, -6 * l * c, (2 - phi) * l * l * c},
		{-12 * c, -6 * l * c, 12 * c, -6 * l * c},
		{6 * l * c, (2 - phi) * l * l * c, -6 * l * c, (4 + phi) * l * l * c},
	}
}

// fixedLoads are the loads at an element's ends that stand for a uniform one.
func fixedLoads(line, l float64) [4]float64 {
	return [4]float64{line * l / 2, line * l * l / 12, line * l / 2, -line * l * l / 12}
}

// solveBanded is Cholesky's elimination on the free unknowns; held ones are 0.
func solveBanded(k [][7]float64, f []float64, held []bool) ([]float64, bool) {
	n := len(k)
	l := make([][4]float64, n) // l[i][3+j-i], j from i-3 to i
	u := make([]float64, n)
	for i := 0; i < n; i++ {
		if held[i] {
			l[i][3] = 1
			continue
		}
		y := f[i]
		for j := max(0, i-3); j <= i; j++ {
			if held[j] {
				continue
			}
			sum := k[i][3+j-i]
			for m := max(0, i-3); m < j; m++ {
				if !held[m] {
					sum -= l[i][3+m-i] * l[j][3+m-j]
				}
			}
			if j < i {
				l[i][3+j-i] = sum / l[j][3]
				y -= l[i][3+j-i] * u[j]
				continue
			}
			// A pivot lost to cancellation is a beam that nothing holds.
			if !(sum > 1e-10*k[i][3]) {
				return nil, false
			}
			l[i][3] = math.Sqrt(sum)
		}
		u[i] = y / l[i][3]
	}
	for i := n - 1; i >= 0; i-- {
		if held[i] {
			u[i] = 0
			continue
		}
		for j := i + 1; j < min(n, i+4); j++ {
			if !held[j] {
				u[i] -= l[j][3+i-j] * u[j]
			}
		}
		u[i] /= l[i][3]
	}
	return u, true
}

// at is the state x mm into the piece. Moment is positive with tension below
// and shear is its slope; sag counts down.
func (p piece) at(x float64) (sag, slope, moment, shear float64) {
	shear = p.shear - p.line*x
	moment = p.moment + p.shear*x - p.line*x*x/2
	turn := p.turn - (p.moment*x+p.shear*x*x/2-p.line*x*x*x/6)/p.s.EI
	sag = p.sag + p.turn*x - (p.moment*x*x/2+p.shear*x*x*x/6-p.line*x*x*x*x/24)/p.s.EI +
		(p.shear*x-p.line*x*x/2)/p.s.GA
	return sag, turn + shear/p.s.GA, moment, shear
}

// SagAt is the deflection in mm at a place in mm from the left end, down.
func (r Result) SagAt(x float64) float64 {
	for i, p := range r.pieces {
		if x <= p.x+p.length || i == len(r.pieces)-1 {
			sag, _, _, _ := p.at(x - p.x)
			return sag
		}
	}
	panic("beam: result without pieces")
}

// MomentAt is the moment in N·mm at a place in mm, tension below positive.
func (r Result) MomentAt(x float64) float64 {
	for i, p := range r.pieces {
		if x <= p.x+p.length || i == len(r.pieces)-1 {
			_, _, m, _ := p.at(x - p.x)
			return m
		}
	}
	panic("beam: result without pieces")
}

// search finds the extremes: moments where the shear is zero or jumps, sags
// where the slope changes sign between sixteen cuts of each piece.
func (r *Result) search() {
	greater := func(e *Extreme, v, at float64) {
		if v > e.Value {
			*e = Extreme{v, at}
		}
	}
	for _, p := range r.pieces {
		look := func(x float64) {
			sag, _, m, v := p.at(x)
			greater(&r.Sag, sag, p.x+x)
			greater(&r.Rise, -sag, p.x+x)
			greater(&r.Sagging, m, p.x+x)
			greater(&r.Hogging, -m, p.x+x)
			greater(&r.Shear, math.Abs(v), p.x+x)
		}
		look(0)
		look(p.length)
		if p.line != 0 {
			if x := p.shear / p.line; x > 0 && x < p.length {
				look(x)
			}
		}
		const cuts = 16
		for i := 0; i < cuts; i++ {
			lo, hi := p.length*float64(i)/cuts, p.length*float64(i+1)/cuts
			_, a, _, _ := p.at(lo)
			_, b, _, _ := p.at(hi)
			if (a > 0) == (b > 0) {
				continue
			}
			for j := 0; j < 50; j++ {
				mid := (lo + hi) / 2
				if _, c, _, _ := p.at(mid); (c > 0) == (a > 0) {
					lo = mid
				} else {
					hi = mid
				}
			}
			look(lo)
		}
	}
}
