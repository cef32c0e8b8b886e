package nds

import (
	"math"

	"stowright/internal/strength/unit"
)

// Withdrawal is the reference withdrawal design value in N per mm of
// penetration from the side grain of wood with specific gravity g, NDS 2018
// 12.2 (lb/in, D in inches):
//
//	lag screw  1,800 g^1.5 D^0.75   per inch of thread without the tip
//	wood screw 2,850 g² D           per inch of thread
//	nail       1,380 g^2.5 D        per inch of penetration, smooth steel
//
// It is not known for bolts. Side grain only: see EndGrain.
func (f Fastener) Withdrawal(g float64) (perMM float64, known bool) {
	d := inches(f.D)
	switch f.Kind {
	case LagScrew:
		return 1_800 * math.Pow(g, 1.5) * math.Pow(d, 0.75) * unit.PoundPerInch, true
	case WoodScrew:
		return 2_850 * g * g * d * unit.PoundPerInch, true
	case Nail:
		return 1_380 * math.Pow(g, 2.5) * d * unit.PoundPerInch, true
	}
	return 0, false
}

// StainlessNail is Withdrawal for a smooth-shank stainless steel nail of
// diameter d in mm: 465 g^1.5 D, NDS 2018 12.2.3 and table 12.2D (from
// memory).
func StainlessNail(g, d float64) (perMM float64) {
	return 465 * math.Pow(g, 1.5) * inches(d) * unit.PoundPerInch
}

// RingNail is Withdrawal for a deformed-shank (ring) nail of diameter d in
// mm: 1,800 g² D, NDS 2018 12.2.3 and table 12.2E (from memory).
func RingNail(g, d float64) (perMM float64) {
	return 1_800 * g * g * inches(d) * unit.PoundPerInch
}

// EndGrain is the factor for withdrawal from end grain: 0.75 for a lag
// screw; wood screws and nails are not allowed there (NDS 2018 12.2.1.5,
// 12.2.2.3, 12.2.3.4).
func (f Fastener) EndGrain() (factor float64, allowed bool) {
	return 0.75, f.Kind == LagScrew
}

// EndGrainLateral is the factor Ceg on Z for a fastener driven into end
// grain, and the two toe-nail factors Ctn (NDS 2018 12.5.2, 12.5.4).
const (
	EndGrainLateral   = 0.67
	ToeNailLateral    = 0.83
	ToeNailWithdrawal = 0.67
)

// PullThrough is the reference design value in N against a round head of
// diameter head (mm) being pulled through a side member of specific gravity
// g and net thickness t (mm), NDS 2018 12.2.5 and table 12.2F:
//
//	690 π DH g² t for t ≤ 2.5 DH, else 1,725 π DH² g² (lb, in)
//
// For a countersunk head t is what is left under it; that is the caller's.
func PullThrough(head, t, g float64) float64 {
	h, in := inches(head), inches(t)
	if in > 2.5*h {
		in = 2.5 * h
	}
	return 690 * math.Pi * h * g * g * in * unit.PoundForce
}

// Combined is the design value in N of a fastener loaded at angle degrees
// from the wood's surface: 0 pure shear (z), 90 pure withdrawal (w, both in
// N). NDS 2018 12.4: squares of cosine and sine for screws and lag
// screws, first powers for nails.
func (f Fastener) Combined(z, w, angle float64) float64 {
	s, c := math.Sincos(angle * math.Pi / 180)
	if f.Kind != Nail {
		s, c = s*s, c*c
	}
	return w * z / (w*c + z*s)
}

// Ratio is demand over capacity for shear v with withdrawal t (N) on a
// fastener of adjusted design values z and w (N): the resultant over Combined
// at its angle, and never below v/z or t/w alone. 1 is the limit. The last
// clause is ours: where z and w differ much, the equation by itself would let
// a little more of one load lower the ratio.
func (f Fastener) Ratio(v, t, z, w float64) float64 {
	v, t = math.Abs(v), math.Max(0, t)
	if v == 0 && t == 0 {
		return 0
	}
	both := math.Hypot(v, t) / f.Combined(z, w, math.Atan2(t, v)*180/math.Pi)
	return math.Max(both, math.Max(v/z, t/w))
}
