// Package rack is what the fittings that hold goods one by one have in common: how far a rack
// on a door must keep from the sides so that its corner passes when the door swings, how many
// round things go in a board, which bit the shop owns for their holes, and a small box of
// boards screwed together. What is held, and how it is kept from falling out, is left to the
// fittings.
package rack

import (
	"math/big"

	"stowright/internal/length"
)

// L is a length.
type L = length.Length

// Clearances of racks on doors; common practice, no source.
const (
	HingeSide = 50 * length.MM // left free beside the hinges: cup, arm and the door's drift inwards
	SwingAir  = 5 * length.MM  // between a rack's corner and what it passes
	ShelfAir  = 12 * length.MM // between a rack and the shelves behind it
)

// LockMargin gives how far the lock side of a rack of depth d must keep from the far side of an
// opening of width w, so that its inner corner passes with [SwingAir] to spare: the least m with
// (w-m)² + d² <= (w-air)², the pivot taken at the inner face of the hinged side. It is exact;
// the rule of thumb d²/2w + air is its first term. It is w when nothing passes.
func LockMargin(d, w L) L {
	r := w - SwingAir
	if r <= d || r <= 0 {
		return w
	}
	return w - root(difference(r, d))
}

// PairMargin is LockMargin for one leaf of a pair, w the width from its hinges to the line
// between the leaves: its corner stays half of the air on its own side of that line, so that
// either leaf passes the other's rack, whatever that rack's depth.
func PairMargin(d, w L) L {
	r := w - SwingAir.DivUp(2)
	if r <= d || r <= 0 {
		return w
	}
	return w - root(difference(r, d))
}

func square(a L) *big.Int {
	b := big.NewInt(int64(a))
	return b.Mul(b, b)
}

// root gives the square root, rounded down to a whole tick.
func root(a *big.Int) L { return L(new(big.Int).Sqrt(a).Int64()) }

// leg gives the least whole b with a² + b² >= c²; 0 when a alone is enough.
func leg(a, c L) L {
	if a >= c {
		return 0
	}
	d := square(c)
	d.Sub(d, square(a))
	b := root(d)
	if square(b).Cmp(d) < 0 {
		b++
	}
	return b
}

// difference gives a² - b².
func difference(a, b L) *big.Int {
	d := square(a)
	return d.Sub(d, square(b))
}
