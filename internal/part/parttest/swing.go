package parttest

import (
	"math"

	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
)

const mm = length.MM

// swings gives the first whole even angle at which a box on a door, turned about its pivot, meets
// a solid that stands; -1 when it passes to a right angle. Overlap of less than a tenth of a
// millimetre is rounding.
func swings(m part.Motion, b geom.Box, s solid) int {
	for deg := 2; deg <= 90; deg += 2 {
		for _, box := range s.boxes {
			if turnedInto(m, b, box, deg) > float64(mm)/10 {
				return deg
			}
		}
	}
	return -1
}

// turnedInto gives how far a box on a door that stands open at an angle reaches into another box,
// in ticks; 0 or less when it does not.
func turnedInto(m part.Motion, b, box geom.Box, deg int) float64 {
	if b.Min.Z >= box.Max.Z || box.Min.Z >= b.Max.Z {
		return 0
	}
	a := -float64(deg) * math.Pi / 180
	if m.Hinge == geom.Right {
		a = -a
	}
	sin, cos := math.Sincos(a)
	turned, flat := seen(m, b), seen(m, box)
	for i, c := range turned {
		turned[i] = [2]float64{float64(c[0]*cos) - float64(c[1]*sin), float64(c[0]*sin) + float64(c[1]*cos)}
	}
	return overlap(turned, flat)
}

// seen gives a box seen from above, from a motion's pivot.
func seen(m part.Motion, b geom.Box) (r [4][2]float64) {
	for i, c := range [4]geom.Vec{b.Min, geom.V(b.Max.X, b.Min.Y, 0), b.Max, geom.V(b.Min.X, b.Max.Y, 0)} {
		r[i] = [2]float64{float64(c.X - m.Pivot.X), float64(c.Y - m.Pivot.Y)}
	}
	return r
}

// overlap gives how far two upright rectangles, seen from above, reach into each other along the
// axis that parts them best; 0 or less when they do not meet (the separating axis theorem).
func overlap(a, b [4][2]float64) float64 {
	least := math.Inf(1)
	for _, r := range [2][4][2]float64{a, b} {
		for i := range 2 {
			x, y := r[i+1][0]-r[i][0], r[i+1][1]-r[i][1]
			n := math.Hypot(x, y)
			if n == 0 {
				continue
			}
			x, y = x/n, y/n
			lo1, hi1 := reach(a, x, y)
			lo2, hi2 := reach(b, x, y)
			least = math.Min(least, math.Min(hi1, hi2)-math.Max(lo1, lo2))
		}
	}
	return least
}

func reach(r [4][2]float64, x, y float64) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, c := range r {
		d := float64(c[0]*x) + float64(c[1]*y)
		lo, hi = math.Min(lo, d), math.Max(hi, d)
	}
	return lo, hi
}
