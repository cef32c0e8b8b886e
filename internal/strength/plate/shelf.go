package plate

import (
	"encoding/binary"
	"math"
)

// Hold is how one long edge of a shelf is held.
type Hold int

// The ways of holding a long edge.
const (
	Free      Hold = iota
	Supported      // kept from sagging, free to turn
	Clamped        // kept from sagging and turning
)

// Strip is a straight stiffener glued along a long edge.
type Strip struct {
	Width, Height float64 // horizontal and vertical, mm
	Drop          float64 // how far its centre lies below the board's middle plane, mm
	In            float64 // how far its centre lies inside the edge, mm
	E             float64 // modulus along it, MPa
	G             float64 // shear modulus for its twisting, MPa; 0 neglects it
}

// Edge is one long edge: how it is held, and what stiffens it.
type Edge struct {
	Hold   Hold
	Strips []Strip
}

// Shelf is a board whose two ends rest on supports (free to turn, free to
// slide along the span), Span along x and Depth along y; Front is y = 0.
type Shelf struct {
	Board
	Span, Depth float64
	Front, Back Edge
	Loads       []Patch
}

// Key gives a text that two shelves share when all that bends them is equal, to the last bit.
func (s Shelf) Key() string {
	b := make([]byte, 0, 512)
	put := func(list ...float64) {
		for _, x := range list {
			b = binary.LittleEndian.AppendUint64(b, math.Float64bits(x))
		}
	}
	put(s.T, s.Ex, s.Ey, s.G, s.Nu, s.Span, s.Depth)
	for _, e := range []Edge{s.Front, s.Back} {
		put(float64(e.Hold), float64(len(e.Strips)))
		for _, x := range e.Strips {
			put(x.Width, x.Height, x.Drop, x.In, x.E, x.G)
		}
	}
	for _, x := range s.Loads {
		put(x.X1, x.X2, x.Y1, x.Y2, x.Pressure)
	}
	return string(b)
}

// strips is the number of bands across the depth; see TestStripsConverge.
const strips = 24

// Bent is a loaded shelf: one row of amplitudes per half wave along the span.
type Bent struct {
	shelf Shelf
	waves []wave
}

// wave holds, for m half waves, the amplitudes at each line between bands: u
// and v in the plane, w downward and its slope across.
type wave struct {
	alpha float64
	at    [strips + 1][4]float64
}

// Solve bends the shelf over half waves along the span up to the given
// number (0 takes 25, enough for uniform loads; point-like loads want more).
//
// The method is the finite strip method for plates with simply supported ends
// (Cheung): exact along the span, cubic bands across. The board bends and
// stretches; a strip follows the edge with its centre Drop below it, so the
// two act as one glued section only as far as the board's shear and twist let
// them. That is why a strip along the front helps the back edge less than
// beam.Compose says.
func (s Shelf) Solve(halfWaves int) Bent {
	if halfWaves == 0 {
		halfWaves = 25
	}
	out := Bent{shelf: s}
	for m := 1; m <= halfWaves; m++ {
		alpha := float64(m) * math.Pi / s.Span
		f, loaded := s.load(alpha)
		if !loaded {
			continue
		}
		w := wave{alpha: alpha}
		k := s.stiffness(alpha)
		s.hold(k, f)
		n := s.each()
		solve(k, f, 2*n-1)
		for i := range w.at {
			copy(w.at[i][4-n:], f[n*i:n*i+n])
		}
		out.waves = append(out.waves, w)
	}
	return out
}

// each is how many freedoms a line between bands has: sag and slope, and before them two in the plane where a
// strip, whose centre lies lower than the board's, stretches it. Without one nothing does.
func (s Shelf) each() int {
	if len(s.Front.Strips)+len(s.Back.Strips) == 0 {
		return 2
	}
	return 4
}

// sags are the cubic shapes of sag and slope at both lines of a band of depth h, at t from 0 to 1.
func sags(t, h float64) [4]float64 {
	return [4]float64{1 - 3*t*t + 2*t*t*t, h * (t - 2*t*t + t*t*t), 3*t*t - 2*t*t*t, h * (t*t*t - t*t)}
}

// hermite are the shapes of [sags], with their first and second slopes.
func hermite(t, h float64) (n, n1, n2 [4]float64) {
	n = sags(t, h)
	n1 = [4]float64{(6*t*t - 6*t) / h, 1 - 4*t + 3*t*t, (6*t - 6*t*t) / h, 3*t*t - 2*t}
	n2 = [4]float64{(12*t - 6) / (h * h), (6*t - 4) / h, (6 - 12*t) / (h * h), (6*t - 2) / h}
	return n, n1, n2
}

// gauss are the four points and weights on 0…1, exact to degree seven.
var gauss = [4][2]float64{
	{0.06943184420297371, 0.17392742256872692},
	{0.33000947820757187, 0.32607257743127307},
	{0.66999052179242813, 0.32607257743127307},
	{0.93056815579702629, 0.17392742256872692},
}

// load are the amplitudes of the loads for one half wave, and whether there
// are any.
func (s Shelf) load(alpha float64) ([]float64, bool) {
	each := s.each()
	f := make([]float64, each*(strips+1))
	loaded := false
	h := s.Depth / strips
	for _, p := range s.Loads {
		q := 2 * p.Pressure * (math.Cos(alpha*p.X1) - math.Cos(alpha*p.X2)) / (alpha * s.Span)
		if math.Abs(q) < 1e-15*math.Abs(p.Pressure) {
			continue
		}
		loaded = true
		for e := 0; e < strips; e++ {
			lo, hi := math.Max(p.Y1, float64(e)*h), math.Min(p.Y2, float64(e+1)*h)
			if hi <= lo {
				continue
			}
			for _, g := range gauss {
				y := lo + (hi-lo)*g[0]
				n := sags(y/h-float64(e), h)
				for i := range n {
					f[each*(e+1)-2+each*(i/2)+i%2] += q * (hi - lo) * g[1] * n[i]
				}
			}
		}
	}
	return f, loaded
}

// reach is how far from the diagonal the stiffness extends at most.
const reach = 7

// stiffness is the lower band of the symmetric matrix: k[i][reach+j-i].
func (s Shelf) stiffness(alpha float64) [][reach + 1]float64 {
	each := s.each()
	k := make([][reach + 1]float64, each*(strips+1))
	d := s.rigidity()
	stretch := 12 / (s.T * s.T) // N/mm per N·mm of rigidity
	a2 := alpha * alpha
	h := s.Depth / strips
	var kb, km [4][4]float64
	for _, g := range gauss {
		n, n1, n2 := hermite(g[0], h)
		wt := g[1] * h
		// Strains in the plane per (u, v, u, v): along, across, shear.
		t := g[0]
		ex := [4]float64{-alpha * (1 - t), 0, -alpha * t, 0}
		ey := [4]float64{0, -1 / h, 0, 1 / h}
		xy := [4]float64{-1 / h, alpha * (1 - t), 1 / h, alpha * t}
		for i := 0; i < 4; i++ {
			for j := 0; j <= i; j++ {
				kb[i][j] += wt * (d.dx*a2*a2*n[i]*n[j] - d.d1*a2*(n[i]*n2[j]+n2[i]*n[j]) +
					d.dy*n2[i]*n2[j] + 4*d.dxy*a2*n1[i]*n1[j])
				km[i][j] += wt * stretch * (d.dx*ex[i]*ex[j] + d.d1*(ex[i]*ey[j]+ey[i]*ex[j]) +
					d.dy*ey[i]*ey[j] + d.dxy*xy[i]*xy[j])
			}
		}
	}
	// The four freedoms of a band of either kind, two at each of its lines.
	at := func(i int) int { return each*(i/2) + i%2 }
	for e := 0; e < strips; e++ {
		plane := each * e
		bending := plane + each - 2
		for i := 0; i < 4; i++ {
			for j := 0; j <= i; j++ {
				k[bending+at(i)][reach+at(j)-at(i)] += kb[i][j]
				if each == 4 {
					k[plane+at(i)][reach+at(j)-at(i)] += km[i][j]
				}
			}
		}
	}
	add := func(i, j int, v float64) { k[i][reach+j-i] += v }
	for _, e := range s.edges() {
		for _, st := range e.edge.Strips {
			u, v, w, turn := 4*e.line, 4*e.line+1, 4*e.line+2, 4*e.line+3
			area := st.E * st.Width * st.Height
			// square adds stiff × (Σ a·freedom)².
			square := func(stiff float64, of ...part) {
				for x, p := range of {
					for _, q := range of[:x+1] {
						add(max(p.i, q.i), min(p.i, q.i), stiff*p.a*q.a)
					}
				}
			}
			// Its centre sags with the edge and with the slope across, a little inside.
			in := st.In
			if e.line > 0 {
				in = -in
			}
			square(area*a2, part{u, 1}, part{w, -st.Drop * alpha}, part{turn, -st.Drop * alpha * in})
			square(area*st.Width*st.Width/12*a2*a2, part{v, 1}, part{turn, -st.Drop})
			square(area*st.Height*st.Height/12*a2*a2, part{w, 1}, part{turn, in})
			add(turn, turn, st.G*torsion(st.Width, st.Height)*a2)
		}
	}
	return k
}

// part is a freedom's share in a strip's movement.
type part struct {
	i int
	a float64
}

// held is an edge with the line of the bands on which it lies.
type held struct {
	line int
	edge Edge
}

func (s Shelf) edges() [2]held { return [2]held{{0, s.Front}, {strips, s.Back}} }

// torsion is the constant of a rectangle in mm⁴ (Roark's formulas for stress
// and strain, table 10.7, case 4): within 4 % of exact for any shape.
func torsion(b, h float64) float64 {
	a, c := math.Max(b, h)/2, math.Min(b, h)/2
	r := c / a
	return a * c * c * c * (16./3 - 3.36*r*(1-r*r*r*r/12))
}

// hold takes the held freedoms out by making their rows those of identity.
func (s Shelf) hold(k [][reach + 1]float64, f []float64) {
	fix := func(i int) {
		f[i] = 0
		for j := range k[i] {
			k[i][j] = 0
		}
		k[i][reach] = 1
		for r := i + 1; r < len(k) && r <= i+reach; r++ {
			k[r][reach+i-r] = 0
		}
	}
	for _, e := range s.edges() {
		sag := s.each()*(e.line+1) - 2
		if e.edge.Hold != Free {
			fix(sag)
		}
		if e.edge.Hold == Clamped {
			fix(sag + 1)
		}
	}
}

// solve replaces f by the solution, by Cholesky's elimination in a band that extends wide from the diagonal.
func solve(k [][reach + 1]float64, f []float64, wide int) {
	n := len(k)
	for i := 0; i < n; i++ {
		first, ki := max(0, i-wide), &k[i]
		for j := first; j < i; j++ {
			kj, from := &k[j], max(first, j-wide)
			sum, at := ki[reach+j-i], ki[reach+from-i:reach+j-i]
			for x, v := range kj[reach+from-j : reach] {
				sum -= at[x] * v
			}
			ki[reach+j-i] = sum / kj[reach]
			f[i] -= ki[reach+j-i] * f[j]
		}
		sum := ki[reach]
		for _, v := range ki[reach+first-i : reach] {
			sum -= v * v
		}
		ki[reach] = math.Sqrt(sum)
		f[i] /= ki[reach]
	}
	for i := n - 1; i >= 0; i-- {
		for j := i + 1; j < n && j <= i+wide; j++ {
			f[i] -= k[j][reach+i-j] * f[j]
		}
		f[i] /= k[i][reach]
	}
}

// At is the state at (x, y).
func (b Bent) At(x, y float64) State {
	s := b.shelf
	d := s.rigidity()
	h := s.Depth / strips
	e := min(strips-1, max(0, int(y/h)))
	n, _, n2 := hermite(y/h-float64(e), h)
	stretch, t := 12/(s.T*s.T), y/h-float64(e)
	var out State
	for _, w := range b.waves {
		sag, curve := 0.0, 0.0
		for i := 0; i < 4; i++ {
			v := w.at[e+i/2][2+i%2]
			sag += n[i] * v
			curve += n2[i] * v
		}
		sin := math.Sin(w.alpha * x)
		a2 := w.alpha * w.alpha
		out.Sag += sag * sin
		out.Mx += (d.dx*a2*sag - d.d1*curve) * sin
		out.My += (d.d1*a2*sag - d.dy*curve) * sin
		ex := -w.alpha * ((1-t)*w.at[e][0] + t*w.at[e+1][0])
		ey := (w.at[e+1][1] - w.at[e][1]) / h
		out.Nx += stretch * (d.dx*ex + d.d1*ey) * sin
	}
	return out
}

// Worst is the greatest sag in mm and where, the greatest moments either way in
// size, and the greatest stress along x of a face in MPa (Board.Along), over a
// net of nx by the strips' lines.
func (b Bent) Worst(nx int) (worst State, x, y, stress float64) {
	for i := 1; i < nx; i++ {
		for j := 0; j <= strips; j++ {
			px, py := b.shelf.Span*float64(i)/float64(nx), b.shelf.Depth*float64(j)/strips
			st := b.At(px, py)
			if st.Sag > worst.Sag {
				worst.Sag, x, y = st.Sag, px, py
			}
			worst.Mx = math.Max(worst.Mx, math.Abs(st.Mx))
			worst.My = math.Max(worst.My, math.Abs(st.My))
			stress = math.Max(stress, b.shelf.Along(st))
		}
	}
	return worst, x, y, stress
}

// StripStress is the greatest stress in MPa at mid-height and at the faces of
// a strip of the front edge (or the back one) at x along the span.
func (b Bent) StripStress(back bool, strip int, x float64) float64 {
	line, edge := 0, b.shelf.Front
	if back {
		line, edge = strips, b.shelf.Back
	}
	st := edge.Strips[strip]
	in := st.In
	if back {
		in = -in
	}
	along, bend := 0.0, 0.0
	for _, w := range b.waves {
		sin := math.Sin(w.alpha * x)
		sag := w.at[line][2] + in*w.at[line][3]
		along += -w.alpha * (w.at[line][0] - st.Drop*w.alpha*sag) * sin
		bend += w.alpha * w.alpha * sag * sin
	}
	return st.E * (math.Abs(along) + math.Abs(bend)*st.Height/2)
}
