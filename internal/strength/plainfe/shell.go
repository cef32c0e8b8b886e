// Package plainfe is a plain finite element model of a flat board with glued
// strips, for tests only: it judges packages beam and plate by other means
// (elements over both directions, no series, no beam formulas for the board).
// Nothing that ships imports it.
//
// The board is a net of rectangles: the twelve-freedom bending element of
// Adini, Clough and Melosh, and the four-node plane stress element. Strips
// along a line of nodes are beam elements with their centre off the plane.
package plainfe

import "math"

// Material is an orthotropic board; units N, mm, MPa.
type Material struct{ T, Ex, Ey, G, Nu float64 }

// Bar is a rectangular strip glued along the lines of nodes at row J (of y).
type Bar struct {
	J                      int
	Width, Height, Drop, E float64
	G                      float64
}

// Model is a board A × B of NX × NY elements.
type Model struct {
	Material
	A, B   float64
	NX, NY int
	Bars   []Bar

	// Held says what is held at node (i, j).
	Held func(i, j int) (u, v, w, turnX, turnY bool)

	// Pressure in MPa at a point, constant in each element (its centre's).
	Pressure func(x, y float64) float64

	sag []float64
}

const freedoms = 5 // u, v, w, ∂w/∂x, ∂w/∂y at a node

func (m *Model) node(i, j int) int { return freedoms * (i*(m.NY+1) + j) }

// Solve finds the sags.
func (m *Model) Solve() {
	n := freedoms * (m.NX + 1) * (m.NY + 1)
	reach := freedoms*(m.NY+2) + freedoms
	k := make([][]float64, n)
	for i := range k {
		k[i] = make([]float64, reach+1)
	}
	f := make([]float64, n)
	add := func(i, j int, v float64) {
		if j <= i {
			k[i][reach+j-i] += v
		}
	}
	hx, hy := m.A/float64(m.NX), m.B/float64(m.NY)
	kb, shape := m.bending(hx, hy)
	km := m.membrane(hx, hy)
	for i := 0; i < m.NX; i++ {
		for j := 0; j < m.NY; j++ {
			corner := [4]int{m.node(i, j), m.node(i+1, j), m.node(i+1, j+1), m.node(i, j+1)}
			var db [12]int
			var dm [8]int
			for c, at := range corner {
				db[3*c], db[3*c+1], db[3*c+2] = at+2, at+3, at+4
				dm[2*c], dm[2*c+1] = at, at+1
			}
			q := m.Pressure((float64(i)+0.5)*hx, (float64(j)+0.5)*hy)
			for a := range db {
				f[db[a]] += q * shape[a]
				for b := range db {
					add(db[a], db[b], kb[a][b])
				}
			}
			for a := range dm {
				for b := range dm {
					add(dm[a], dm[b], km[a][b])
				}
			}
		}
	}
	for _, bar := range m.Bars {
		m.bar(bar, hx, add)
	}
	for i := 0; i <= m.NX; i++ {
		for j := 0; j <= m.NY; j++ {
			u, v, w, tx, ty := m.Held(i, j)
			for c, h := range [freedoms]bool{u, v, w, tx, ty} {
				if h {
					d := m.node(i, j) + c
					k[d][reach] += 1e15
				}
			}
		}
	}
	solve(k, f, reach)
	m.sag = f
}

// Sag is the deflection at node (i, j).
func (m *Model) Sag(i, j int) float64 { return m.sag[m.node(i, j)+2] }

// Greatest is the largest sag of all nodes.
func (m *Model) Greatest() float64 {
	worst := 0.0
	for d := 2; d < len(m.sag); d += freedoms {
		worst = math.Max(worst, m.sag[d])
	}
	return worst
}

// Along is the greater stress in MPa of the board's two faces along x at a
// node inside, by differences of the nodes beside it (ν 0).
func (m *Model) Along(i, j int) float64 {
	h := m.A / float64(m.NX)
	at := func(i, c int) float64 { return m.sag[m.node(i, j)+c] }
	stretch := (at(i+1, 0) - at(i-1, 0)) / (2 * h)
	curve := (at(i+1, 3) - at(i-1, 3)) / (2 * h)
	return m.Ex * (math.Abs(stretch) + m.T/2*math.Abs(curve))
}

// powers of the twelve terms of the bending element's polynomial.
var powers = [12][2]int{{0, 0}, {1, 0}, {0, 1}, {2, 0}, {1, 1}, {0, 2}, {3, 0}, {2, 1}, {1, 2}, {0, 3}, {3, 1}, {1, 3}}

// term is ∂^(dx+dy) of term t at (x, y).
func term(t, dx, dy int, x, y float64) float64 {
	v := 1.0
	one := func(p, d int, x float64) {
		for ; d > 0; d-- {
			v *= float64(p)
			p--
		}
		if v != 0 {
			v *= math.Pow(x, float64(p))
		}
	}
	one(powers[t][0], dx, x)
	one(powers[t][1], dy, y)
	return v
}

// gauss are three points and weights on 0…1.
var gauss = [3][2]float64{{0.5 - math.Sqrt(0.15), 5. / 18}, {0.5, 8. / 18}, {0.5 + math.Sqrt(0.15), 5. / 18}}

func (m *Model) stiff() (c11, c12, c22, c66 float64) {
	nuy := m.Nu * m.Ey / m.Ex
	d := 1 - m.Nu*nuy
	return m.Ex / d, nuy * m.Ex / d, m.Ey / d, m.G
}

// bending is the element's stiffness and the loads of a unit pressure.
func (m *Model) bending(hx, hy float64) (k [12][12]float64, load [12]float64) {
	var c [12][12]float64
	for p, xy := range [4][2]float64{{0, 0}, {hx, 0}, {hx, hy}, {0, hy}} {
		for t := range powers {
			c[3*p][t] = term(t, 0, 0, xy[0], xy[1])
			c[3*p+1][t] = term(t, 1, 0, xy[0], xy[1])
			c[3*p+2][t] = term(t, 0, 1, xy[0], xy[1])
		}
	}
	inv := invert(c)
	c11, c12, c22, c66 := m.stiff()
	t3 := m.T * m.T * m.T / 12
	var kp [12][12]float64
	var lp [12]float64
	for _, gx := range gauss {
		for _, gy := range gauss {
			x, y, w := gx[0]*hx, gy[0]*hy, gx[1]*gy[1]*hx*hy
			for a := range powers {
				lp[a] += w * term(a, 0, 0, x, y)
				xa, ya, ta := term(a, 2, 0, x, y), term(a, 0, 2, x, y), 2*term(a, 1, 1, x, y)
				for b := range powers {
					xb, yb, tb := term(b, 2, 0, x, y), term(b, 0, 2, x, y), 2*term(b, 1, 1, x, y)
					kp[a][b] += w * t3 * (c11*xa*xb + c12*(xa*yb+ya*xb) + c22*ya*yb + c66*ta*tb)
				}
			}
		}
	}
	for a := range load {
		for s := range lp {
			load[a] += inv[s][a] * lp[s]
		}
		for b := range load {
			for s := range lp {
				for t := range lp {
					k[a][b] += inv[s][a] * kp[s][t] * inv[t][b]
				}
			}
		}
	}
	return k, load
}

func (m *Model) membrane(hx, hy float64) (k [8][8]float64) {
	c11, c12, c22, c66 := m.stiff()
	for _, gx := range gauss {
		for _, gy := range gauss {
			x, y, w := gx[0], gy[0], gx[1]*gy[1]*hx*hy*m.T
			nx := [4]float64{-(1 - y) / hx, (1 - y) / hx, y / hx, -y / hx}
			ny := [4]float64{-(1 - x) / hy, -x / hy, x / hy, (1 - x) / hy}
			for a := 0; a < 8; a++ {
				for b := 0; b < 8; b++ {
					strain := func(d int) (ex, ey, g float64) {
						if d%2 == 0 {
							return nx[d/2], 0, ny[d/2]
						}
						return 0, ny[d/2], nx[d/2]
					}
					xa, ya, ga := strain(a)
					xb, yb, gb := strain(b)
					k[a][b] += w * (c11*xa*xb + c12*(xa*yb+ya*xb) + c22*ya*yb + c66*ga*gb)
				}
			}
		}
	}
	return k
}

// bar adds a strip's beam elements: it stretches with u − Drop ∂w/∂x, bends
// with w, and twists with ∂w/∂y; its bending sideways is left out.
func (m *Model) bar(b Bar, h float64, add func(i, j int, v float64)) {
	ea, ei := b.E*b.Width*b.Height, b.E*b.Width*b.Height*b.Height*b.Height/12
	// Saint-Venant's torsion by its series.
	long, short := math.Max(b.Width, b.Height), math.Min(b.Width, b.Height)
	j := 1.0 / 3
	for n := 1; n < 40; n += 2 {
		j -= 64 / math.Pow(math.Pi, 5) * short / long * math.Tanh(float64(n)*math.Pi*long/2/short) / math.Pow(float64(n), 5)
	}
	gj := b.G * j * long * short * short * short
	for i := 0; i < m.NX; i++ {
		p, q := m.node(i, b.J), m.node(i+1, b.J)
		d := [8]int{p, p + 2, p + 3, p + 4, q, q + 2, q + 3, q + 4}
		for _, g := range gauss {
			t, w := g[0], g[1]*h
			curve := [8]float64{0, (12*t - 6) / (h * h), (6*t - 4) / h, 0, 0, (6 - 12*t) / (h * h), (6*t - 2) / h, 0}
			var stretch [8]float64
			// The mean curvature keeps the linear stretch from locking.
			stretch[0], stretch[4] = -1/h, 1/h
			stretch[2], stretch[6] = b.Drop/h, -b.Drop/h
			twist := [8]float64{3: -1 / h, 7: 1 / h}
			for a := range d {
				for c := range d {
					add(d[a], d[c], w*(ea*stretch[a]*stretch[c]+ei*curve[a]*curve[c]+gj*twist[a]*twist[c]))
				}
			}
		}
	}
}

func invert(a [12][12]float64) (inv [12][12]float64) {
	for i := range inv {
		inv[i][i] = 1
	}
	for c := range a {
		p := c
		for r := c; r < len(a); r++ {
			if math.Abs(a[r][c]) > math.Abs(a[p][c]) {
				p = r
			}
		}
		a[c], a[p] = a[p], a[c]
		inv[c], inv[p] = inv[p], inv[c]
		d := a[c][c]
		for j := range a {
			a[c][j] /= d
			inv[c][j] /= d
		}
		for r := range a {
			if f := a[r][c]; r != c && f != 0 {
				for j := range a {
					a[r][j] -= f * a[c][j]
					inv[r][j] -= f * inv[c][j]
				}
			}
		}
	}
	return inv
}

// solve is Gauss's elimination in the band without square roots (LDLᵀ); f
// becomes the solution.
func solve(k [][]float64, f []float64, reach int) {
	n := len(k)
	for i := 0; i < n; i++ {
		lo := max(0, i-reach)
		for j := lo; j < i; j++ {
			sum := k[i][reach+j-i]
			for m := max(lo, j-reach); m < j; m++ {
				sum -= k[i][reach+m-i] * k[j][reach+m-j]
			}
			k[i][reach+j-i] = sum
		}
		for j := lo; j < i; j++ {
			u := k[i][reach+j-i]
			l := u / k[j][reach]
			k[i][reach] -= u * l
			k[i][reach+j-i] = l
			f[i] -= l * f[j]
		}
	}
	for i := n - 1; i >= 0; i-- {
		f[i] /= k[i][reach]
		for j := i + 1; j <= min(n-1, i+reach); j++ {
			f[i] -= k[j][reach+i-j] * f[j]
		}
	}
}
