// Package length holds sizes as whole numbers, so that two lengths are equal
// or they are not, in millimetres and in inches alike. It reads lengths the way a
// maker writes them and prints them the way a tape shows them. Areas are summed in
// 128 bits. Where a length comes from, and what it is allowed to be, is left to others.
package length

import "math/bits"

// Length is a size or a coordinate in ticks of 1/40 µm. Every millimetre, every 1/64 in
// and every 1/1000 in is a whole number of ticks. The inch is 25.4 mm exactly
// (international yard and pound agreement, 1959).
type Length int64

// Units of length, exact in ticks.
const (
	Tick Length = 1
	MM   Length = 40_000
	Inch Length = 1_016_000
	Foot Length = 12 * Inch
)

// Limit is the largest size that is read from text, 1 km. It is far beyond any room and
// so small that a million of them can be added without overflow.
const Limit = 1_000_000 * MM

// Mils gives n thousandths of an inch.
func Mils(n int64) Length { return Length(n) * (Inch / 1000) }

// Microns gives n thousandths of a millimetre.
func Microns(n int64) Length { return Length(n) * (MM / 1000) }

// Sixtyfourths gives n sixty-fourths of an inch.
func Sixtyfourths(n int64) Length { return Length(n) * (Inch / 64) }

// Abs gives the size without its sign.
func (l Length) Abs() Length {
	if l < 0 {
		return -l
	}
	return l
}

// DivDown divides by n > 0 and rounds towards minus infinity.
func (l Length) DivDown(n int64) Length {
	q := int64(l) / n
	if int64(l)%n < 0 {
		q--
	}
	return Length(q)
}

// DivUp divides by n > 0 and rounds towards plus infinity.
func (l Length) DivUp(n int64) Length { return -(-l).DivDown(n) }

// DivNear divides by n > 0 and rounds to the nearest tick; a half goes away from zero,
// so that a size and its mirror image round alike.
func (l Length) DivNear(n int64) Length { return l.MulDiv(1, n) }

// MulDiv gives l·num/den for den > 0, to the nearest tick, a half away from zero. The
// product is held in 128 bits; a result beyond 64 bits is a bug of the caller and panics.
func (l Length) MulDiv(num, den int64) Length {
	if den <= 0 {
		panic("length: MulDiv by a denominator that is not positive")
	}
	neg := (l < 0) != (num < 0)
	hi, lo := bits.Mul64(magnitude(int64(l)), magnitude(num))
	var carry uint64
	lo, carry = bits.Add64(lo, uint64(den)/2, 0)
	hi += carry
	// Div64 panics when the quotient does not fit, as it should.
	q, _ := bits.Div64(hi, lo, uint64(den))
	if q > 1<<63-1 {
		panic("length: MulDiv overflows")
	}
	if neg {
		return -Length(q)
	}
	return Length(q)
}

// Down gives the largest multiple of step > 0 that is not above l.
func (l Length) Down(step Length) Length { return l.DivDown(int64(step)) * step }

// Up gives the smallest multiple of step > 0 that is not below l.
func (l Length) Up(step Length) Length { return l.DivUp(int64(step)) * step }

// Near gives the multiple of step > 0 that is nearest to l, a half away from zero.
func (l Length) Near(step Length) Length { return l.DivNear(int64(step)) * step }

func magnitude(n int64) uint64 {
	if n < 0 {
		return -uint64(n)
	}
	return uint64(n)
}
