// Package tip is the statics of tipping: whether weights behind a fulcrum
// outweigh weights and pulls in front of it. It follows the idea of clothing
// storage stability tests (ASTM F2057: open drawers, a child's weight, a pull)
// without being one of them; their scope is free-standing clothing storage and
// their test loads are the caller's to choose and name.
//
// Places are in mm along one horizontal direction, towards the person
// positive. The package knows no cases.
package tip

import (
	"math"

	"stowright/internal/strength/unit"
)

// Weight is a mass in kg with its centre at X mm.
type Weight struct{ Mass, X float64 }

// Pull is a horizontal force in N towards the person, at a height in mm above
// the fulcrum.
type Pull struct{ Force, Height float64 }

// Balance are the moments about the fulcrum in N·mm, neither below zero.
type Balance struct{ Holding, Tipping float64 }

// About is the balance about the fulcrum at X mm: the line of the foremost
// feet or castors. Weights behind it hold, weights before it and all pulls
// tip.
func About(fulcrum float64, weights []Weight, pulls []Pull) Balance {
	var b Balance
	for _, w := range weights {
		m := w.Mass * unit.Gravity * (w.X - fulcrum)
		if m > 0 {
			b.Tipping += m
		} else {
			b.Holding -= m
		}
	}
	for _, p := range pulls {
		b.Tipping += math.Max(0, p.Force*p.Height)
	}
	return b
}

// Factor is holding over tipping; +Inf where nothing tips. Below 1 it falls.
func (b Balance) Factor() float64 {
	if b.Tipping == 0 {
		return math.Inf(1)
	}
	return b.Holding / b.Tipping
}

// Ratio is demand over capacity when the factor asked for is at least safety:
// safety·tipping over holding; 1 is the limit.
func (b Balance) Ratio(safety float64) float64 {
	switch {
	case b.Tipping == 0:
		return 0
	case b.Holding == 0:
		return math.Inf(1)
	}
	return safety * b.Tipping / b.Holding
}

// Restraint is the horizontal force in N that an anchor at a height in mm
// above the fulcrum must give so that the factor reaches safety; 0 where it
// does already, +Inf for an anchor at the floor.
func (b Balance) Restraint(safety, height float64) float64 {
	missing := safety*b.Tipping - b.Holding
	if missing <= 0 {
		return 0
	}
	if height <= 0 {
		return math.Inf(1)
	}
	return missing / height
}
