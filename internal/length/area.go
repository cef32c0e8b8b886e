package length

import (
	"cmp"
	"math/big"
	"math/bits"
)

// Area is an exact area in square ticks, a signed 128-bit number: 9·10¹⁶ sheets of 8 x 4 ft
// fit. It is comparable with ==, and its zero value is no area.
type Area struct {
	hi int64
	lo uint64
}

// squareMetre is the number of square ticks in one square metre, (4·10⁷)².
const squareMetre = 1.6e15

// Times gives the area of a rectangle; it is negative when one side is.
func (l Length) Times(m Length) Area {
	hi, lo := bits.Mul64(magnitude(int64(l)), magnitude(int64(m)))
	a := Area{int64(hi), lo}
	if (l < 0) != (m < 0) {
		return a.Neg()
	}
	return a
}

// Add gives a + b.
func (a Area) Add(b Area) Area {
	lo, carry := bits.Add64(a.lo, b.lo, 0)
	hi, _ := bits.Add64(uint64(a.hi), uint64(b.hi), carry)
	return Area{int64(hi), lo}
}

// Sub gives a - b.
func (a Area) Sub(b Area) Area { return a.Add(b.Neg()) }

// Neg gives -a.
func (a Area) Neg() Area {
	lo, borrow := bits.Sub64(0, a.lo, 0)
	hi, _ := bits.Sub64(0, uint64(a.hi), borrow)
	return Area{int64(hi), lo}
}

// Scale gives a·n.
func (a Area) Scale(n int64) Area {
	neg := (a.hi < 0) != (n < 0)
	if a.hi < 0 {
		a = a.Neg()
	}
	m := magnitude(n)
	hi, lo := bits.Mul64(a.lo, m)
	r := Area{int64(hi + uint64(a.hi)*m), lo}
	if neg {
		return r.Neg()
	}
	return r
}

// Cmp gives -1, 0 or +1 as a is less than, equal to or more than b.
func (a Area) Cmp(b Area) int { return cmp.Or(cmp.Compare(a.hi, b.hi), cmp.Compare(a.lo, b.lo)) }

// Sign gives -1, 0 or +1.
func (a Area) Sign() int { return a.Cmp(Area{}) }

// Over gives the ratio a/b as a float, for scores and percentages; 0 when b is zero.
func (a Area) Over(b Area) float64 {
	if b == (Area{}) {
		return 0
	}
	return a.float() / b.float()
}

// SquareMetres gives the area as a float, for display and for amounts of glue and finish.
func (a Area) SquareMetres() float64 { return a.float() / squareMetre }

// SquareFeet gives the area as a float, for display.
func (a Area) SquareFeet() float64 { return a.float() / (float64(Foot) * float64(Foot)) }

// String gives the exact area in square ticks.
func (a Area) String() string { return a.big().String() }

func (a Area) float() float64 {
	if a.hi < 0 {
		return -a.Neg().float()
	}
	f, _ := new(big.Float).SetInt(a.big()).Float64() // one rounding, the same on every machine
	return f
}

func (a Area) big() *big.Int {
	n := new(big.Int).Lsh(big.NewInt(a.hi), 64)
	return n.Add(n, new(big.Int).SetUint64(a.lo))
}
