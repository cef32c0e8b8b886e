// Package beam is the bending of boards as straight beams: one span by the
// Wood Handbook's formula, any number of spans by direct stiffness, sections
// glued from several pieces (a shelf with an edge strip), creep and
// limits. Shear deflection is counted throughout.
//
// All quantities are in N, mm and MPa; loads and sags count downward. The
// package knows no stock and no cases: who calls says what E and G are, and
// what width, span and load count. Boards that bend two ways are package
// plate.
package beam

import (
	"fmt"
	"math"
	"sort"
)

// Piece is one rectangle of a glued cross section.
type Piece struct {
	Width  float64 // horizontal, mm
	Height float64 // vertical, mm
	Bottom float64 // height of its lower face above any common line, mm
	E      float64 // modulus along the beam, MPa
	G      float64 // shear modulus in the vertical plane, MPa; 0 neglects shear
}

// Section is a beam's cross section.
type Section struct {
	EI   float64 // bending stiffness about the horizontal axis, N·mm²
	GA   float64 // shear stiffness G·A' with the shape's reduction, N; +Inf without shear
	Axis float64 // height of the neutral axis on the pieces' common line, mm

	pieces []Piece
}

// ShearModulus is the G to use for solid wood of modulus e along the grain
// when G was not measured: about e/16 (Wood Handbook chapter 9).
func ShearModulus(e float64) float64 { return e / 16 }

// Rect is a board lying flat, width × height mm. Wood Handbook 9: I = b h³/12,
// A' = 5/6 b h.
func Rect(width, height, e, g float64) Section {
	return Compose(Piece{Width: width, Height: height, E: e, G: g})
}

// Compose is the section of pieces glued rigidly together, bent about the
// horizontal axis and kept from twisting and from moving sideways: the
// transformed section, EI = Σ E (b h³/12 + b h d²). The shear stiffness is
// from the energy of the shear flow V·ES/EI, spread over what stands at each
// level in proportion to G·b; for a single rectangle that gives 5/6 G b h.
//
// A strip along one edge only leaves the other edge freer than this says; see
// plate.Shelf for that.
func Compose(pieces ...Piece) Section {
	if len(pieces) == 0 {
		panic("beam: section without pieces")
	}
	s := Section{pieces: pieces}
	var ea, first float64
	for _, p := range pieces {
		if !(p.Width > 0 && p.Height > 0 && p.E > 0 && p.G >= 0) {
			panic(fmt.Sprintf("beam: piece without size or stiffness: %+v", p))
		}
		a := p.E * p.Width * p.Height
		ea += a
		first += a * (p.Bottom + p.Height/2)
	}
	s.Axis = first / ea
	for _, p := range pieces {
		d := p.Bottom + p.Height/2 - s.Axis
		s.EI += p.E * p.Width * p.Height * (p.Height*p.Height/12 + d*d)
	}
	s.GA = s.shearStiffness()
	return s
}

// shearStiffness integrates (ES/EI)²/ΣGb over the height, exactly: between
// the pieces' faces the integrand is a polynomial of degree four.
func (s Section) shearStiffness() float64 {
	levels := s.levels()
	flexibility := 0.0
	for i := 1; i < len(levels); i++ {
		lo, hi := levels[i-1], levels[i]
		gb := 0.0
		for _, p := range s.pieces {
			if p.Bottom < hi && p.Bottom+p.Height > lo {
				if p.G == 0 {
					return math.Inf(1)
				}
				gb += p.G * p.Width
			}
		}
		if gb == 0 {
			panic("beam: pieces of a section do not touch")
		}
		// Gauss points and weights of order three.
		mid, half := (lo+hi)/2, (hi-lo)/2
		for k, x := range [3]float64{-math.Sqrt(0.6), 0, math.Sqrt(0.6)} {
			q := s.firstMoment(mid+half*x) / s.EI
			flexibility += half * [3]float64{5. / 9, 8. / 9, 5. / 9}[k] * q * q / gb
		}
	}
	return 1 / flexibility
}

// levels are the heights of all faces, ascending.
func (s Section) levels() []float64 {
	var z []float64
	for _, p := range s.pieces {
		z = append(z, p.Bottom, p.Bottom+p.Height)
	}
	sort.SliceStable(z, func(a, b int) bool { return z[a] < z[b] })
	out := z[:1]
	for _, v := range z[1:] {
		// Faces nearer than a nanometre are one face.
		if v-out[len(out)-1] > 1e-6 {
			out = append(out, v)
		}
	}
	return out
}

// firstMoment is Σ E·A·d of all that lies above height z, about the axis.
func (s Section) firstMoment(z float64) float64 {
	sum := 0.0
	for _, p := range s.pieces {
		lo, hi := math.Max(z, p.Bottom), p.Bottom+p.Height
		if hi > lo {
			sum += p.E * p.Width * (hi - lo) * ((lo+hi)/2 - s.Axis)
		}
	}
	return sum
}

// Stress is the greatest bending stress in MPa in piece i (in the order given
// to Compose) under the moment m in N·mm: E m d/EI at its farther face.
func (s Section) Stress(i int, m float64) float64 {
	p := s.pieces[i]
	d := math.Max(math.Abs(p.Bottom-s.Axis), math.Abs(p.Bottom+p.Height-s.Axis))
	return p.E * math.Abs(m) * d / s.EI
}

// Shear is the greatest horizontal shear stress in MPa under the shear force
// v in N, spread over the whole width at each level: 1.5 v/A for a rectangle.
func (s Section) Shear(v float64) float64 {
	worst := 0.0
	levels := append(s.levels(), s.Axis)
	for _, z := range levels {
		for _, side := range []float64{-1e-6, 1e-6} { // width just below and just above
			b := 0.0
			for _, p := range s.pieces {
				if p.Bottom < z+side && p.Bottom+p.Height > z+side {
					b += p.Width
				}
			}
			if b > 0 {
				worst = math.Max(worst, math.Abs(v*s.firstMoment(z))/(s.EI*b))
			}
		}
	}
	return worst
}
