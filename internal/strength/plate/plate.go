// Package plate is the bending of boards that carry in two directions: thin
// orthotropic plates under pressure on patches. Rect is held up along all four
// edges (a drawer's or tray's bottom in its grooves); Shelf is held up at its
// two ends, with its long edges free, supported or clamped and stiffened by
// strips.
//
// All quantities are in N, mm and MPa. The theory is that of small
// deflections of thin plates (Kirchhoff): shear is neglected, and where the
// sag exceeds about half the thickness the board really carries more by
// stretching than this says, so the results are on the safe side there.
package plate

import (
	"fmt"
	"math"
)

// Board is a sheet material as laid: x runs along the span.
type Board struct {
	T      float64 // thickness, mm
	Ex, Ey float64 // moduli in bending along x and y, MPa
	G      float64 // shear modulus in the panel's plane, MPa
	Nu     float64 // Poisson's ratio νxy: strain along y for stress along x
}

// Isotropic is a board alike in all directions, G = E/2(1+ν).
func Isotropic(t, e, nu float64) Board {
	return Board{T: t, Ex: e, Ey: e, G: e / 2 / (1 + nu), Nu: nu}
}

// rigidity are the plate's stiffnesses in N·mm: Dx, Dy, the coupling D1 = νy
// Dx = νx Dy, and the twisting Dxy = G t³/12. H = D1 + 2 Dxy
// (Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, chapter 11).
type rigidity struct{ dx, dy, d1, dxy float64 }

func (b Board) rigidity() rigidity {
	if !(b.T > 0 && b.Ex > 0 && b.Ey > 0 && b.G > 0 && b.Nu >= 0) {
		panic(fmt.Sprintf("plate: board without size or stiffness: %+v", b))
	}
	nuy := b.Nu * b.Ey / b.Ex
	c := b.T * b.T * b.T / 12
	d := c / (1 - b.Nu*nuy)
	return rigidity{b.Ex * d, b.Ey * d, nuy * b.Ex * d, b.G * c}
}

// Patch is a pressure in MPa over a rectangle of the plate, mm from its corner.
type Patch struct{ X1, X2, Y1, Y2, Pressure float64 }

// Stress is the bending stress in MPa at a board's face under a moment in
// N·mm per mm of width: 6 m/t².
func (b Board) Stress(m float64) float64 { return 6 * math.Abs(m) / (b.T * b.T) }

// Along is the greater stress in MPa of a board's two faces along x, bending
// and stretching together: 6 Mx/t² + Nx/t.
func (b Board) Along(s State) float64 { return b.Stress(s.Mx) + math.Abs(s.Nx)/b.T }

// Rect is a plate simply supported along all four edges, A along x and B
// along y, mm.
type Rect struct {
	Board
	A, B  float64
	Loads []Patch
}

// State is what a plate does at one place: sag in mm, the moments in
// N·mm/mm that bend it along x and along y, and the force in N/mm that
// stretches it along x (a shelf's, where glued strips make it a flange).
type State struct{ Sag, Mx, My, Nx float64 }

// terms is the number of half waves that the double series runs to each way.
const terms = 119

// Uniform is a rectangle all over which the same pressure stands.
func Uniform(board Board, a, b, pressure float64) Rect {
	return Rect{Board: board, A: a, B: b, Loads: []Patch{{0, a, 0, b, pressure}}}
}

// At is the state at (x, y) by Navier's double series for an orthotropic
// plate (Huber; Timoshenko and Woinowsky-Krieger, chapter 11):
//
//	w = Σ qmn sin(mπx/a) sin(nπy/b) / π⁴[Dx(m/a)⁴ + 2H(mn/ab)² + Dy(n/b)⁴]
//
// The series for moments under a patch converges slowly where the patch is
// smaller than about a fiftieth of the span.
func (r Rect) At(x, y float64) State {
	d := r.rigidity()
	h := d.d1 + 2*d.dxy
	sx, sy := sines(x/r.A), sines(y/r.B)
	var out State
	for _, p := range r.Loads {
		cx, cy := waves(p.X1/r.A, p.X2/r.A), waves(p.Y1/r.B, p.Y2/r.B)
		for m := 1; m <= terms; m++ {
			am := float64(m) * math.Pi / r.A
			fx := cx[m] * sx[m] * p.Pressure
			if math.Abs(fx) < 1e-18*math.Abs(p.Pressure) {
				continue
			}
			for n := 1; n <= terms; n++ {
				bn := float64(n) * math.Pi / r.B
				w := fx * cy[n] * sy[n] / (d.dx*am*am*am*am + 2*h*am*am*bn*bn + d.dy*bn*bn*bn*bn)
				out.Sag += w
				out.Mx += w * (d.dx*am*am + d.d1*bn*bn)
				out.My += w * (d.dy*bn*bn + d.d1*am*am)
			}
		}
	}
	return out
}

// sines are sin(mπu) for m from 0 to terms.
func sines(u float64) (s [terms + 1]float64) {
	for m := range s {
		s[m] = math.Sin(float64(m) * math.Pi * u)
	}
	return s
}

// waves are the amplitudes of the half waves in a load of 1 from u to v of
// the unit span: 2(cos mπu − cos mπv)/mπ.
func waves(u, v float64) (c [terms + 1]float64) {
	for m := 1; m <= terms; m++ {
		a := float64(m) * math.Pi
		c[m] = 2 * (math.Cos(a*u) - math.Cos(a*v)) / a
	}
	return c
}
