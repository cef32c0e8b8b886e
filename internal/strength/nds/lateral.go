package nds

import (
	"fmt"
	"math"

	"stowright/internal/strength/unit"
)

// Mode is one way in which a joint in shear yields (NDS 2018 appendix I).
type Mode int

// The six modes of single shear.
const (
	ModeIm   Mode = iota // the main member crushes
	ModeIs               // the side member crushes
	ModeII               // the fastener turns as a stiff rod
	ModeIIIm             // one hinge, in the side member; main crushes
	ModeIIIs             // one hinge, in the main member; side crushes
	ModeIV               // a hinge in each member
)

// String is the mode as the specification prints it.
func (m Mode) String() string {
	return [...]string{"Im", "Is", "II", "IIIm", "IIIs", "IV"}[m]
}

// Member is one of the two pieces that a fastener joins.
type Member struct {
	// G is the specific gravity by NDS 2018 table 12.3.3A (12.3.3B for
	// panels). It is not used where Fe is given.
	G float64

	// Angle is that between load and grain in degrees, 0 to 90. It matters
	// for fasteners of 1/4 in and more.
	Angle float64

	// Fe is the dowel bearing strength in MPa where the member is not wood,
	// such as SteelSheet; 0 means that it follows from G.
	Fe float64

	// Bearing is the length of fastener that bears in this member, in mm: a
	// side member's thickness, or MainBearing for the main one.
	Bearing float64
}

// The bearing strengths of steel side plates in MPa, NDS 2018 notes of
// tables 12K, 12M and 12P.
const (
	SteelSheet = 61_850 * unit.PSI // ASTM A653 grade 33, gauges
	SteelPlate = 87_000 * unit.PSI // ASTM A36, 1/4 in
)

// DowelBearing is the strength Fe in MPa of wood with specific gravity g
// under a fastener of nominal diameter d (mm), the load at angle degrees to
// the grain. NDS 2018 12.3.3, rounded to 50 psi as table 12.3.3:
//
//	d < 1/4 in: 16,600 g^1.84
//	else: along 11,200 g; across 6,100 g^1.45/√d; between by Hankinson
func DowelBearing(g, d, angle float64) float64 {
	in := inches(d)
	if in < 0.25 {
		return to50(16_600*math.Pow(g, 1.84)) * unit.PSI
	}
	along := to50(11_200 * g)
	across := to50(6_100 * math.Pow(g, 1.45) / math.Sqrt(in))
	s, c := math.Sincos(angle * math.Pi / 180)
	return along * across / (along*s*s + across*c*c) * unit.PSI
}

func to50(psi float64) float64 { return 50 * math.Round(psi/50) }

// MainBearing is the length in mm over which a fastener bears in the main
// member: p − E/2 for a penetration p that includes the tapered tip
// E (NDS 2018 12.3.5.3; E = 2D for nails and wood screws, table L2 for lags).
func (f Fastener) MainBearing(p float64) float64 {
	return math.Max(0, p-f.Tip/2)
}

// Joint is a fastener in single or double shear.
type Joint struct {
	Fastener Fastener
	Side     Member
	Main     Member

	// Gap is the space in mm between the members' faces, filled with
	// something that is not to be counted on (a wall's lining). The gap is
	// TR12's extension of the yield equations; NDS itself has none.
	Gap float64

	// Double says that the main member lies between two equal side members.
	Double bool
}

// Lateral is a reference lateral design value and how it came about.
type Lateral struct {
	// Z is the lowest mode's value in N, for both planes in double shear.
	Z    float64
	Mode Mode

	// Modes are the values of all modes in N; +Inf where one does not apply.
	Modes [6]float64

	FeSide, FeMain float64 // the bearing strengths used, MPa
	Rd             float64 // the reduction term of the lowest mode
}

// Lateral is the reference lateral design value of the joint by the yield
// limit equations: NDS 2018 table 12.3.1A in the general form of AWC TR12
// (table 1-1), which allows a gap and is identical without one. Each mode is
// the load at which bearing (q = Fe D a length) and the fastener's bending
// (M = Fyb D³/6) are in equilibrium, divided by the reduction term Rd. In
// them D is the root diameter of threaded fasteners (full-body bolts: D).
//
// It panics on sizes that are not positive; those are errors of the caller.
func (j Joint) Lateral() Lateral {
	f := j.Fastener
	fes, fem := j.Side.fe(f.D), j.Main.fe(f.D)
	ls, lm, g := j.Side.Bearing, j.Main.Bearing, j.Gap
	if !(f.D > 0 && f.Root > 0 && f.Fyb > 0 && fes > 0 && fem > 0 && ls > 0 && lm > 0 && g >= 0) {
		panic(fmt.Sprintf("nds: joint without size or strength: %+v", j))
	}
	qs, qm := fes*f.Root, fem*f.Root
	m := f.Fyb * f.Root * f.Root * f.Root / 6

	var p [6]float64
	p[ModeIm] = qm * lm
	p[ModeIs] = qs * ls
	p[ModeII] = root(1/(4*qs)+1/(4*qm), ls/2+g+lm/2, qs*ls*ls/4+qm*lm*lm/4)
	p[ModeIIIm] = root(1/(2*qs)+1/(4*qm), g+lm/2, m+qm*lm*lm/4)
	p[ModeIIIs] = root(1/(4*qs)+1/(2*qm), ls/2+g, m+qs*ls*ls/4)
	p[ModeIV] = root(1/(2*qs)+1/(2*qm), g, 2*m)

	out := Lateral{Z: math.Inf(1), FeSide: fes, FeMain: fem}
	for mode := ModeIm; mode <= ModeIV; mode++ {
		z := p[mode] / j.reduction(mode)
		if j.Double {
			switch mode {
			case ModeIs, ModeIIIs, ModeIV:
				z *= 2
			case ModeII, ModeIIIm:
				z = math.Inf(1)
			}
		}
		out.Modes[mode] = z
		if z < out.Z {
			out.Z, out.Mode, out.Rd = z, mode, j.reduction(mode)
		}
	}
	return out
}

// root is the positive root of a P² + b P − c = 0 (a, c > 0, b ≥ 0), written so
// that nothing cancels.
func root(a, b, c float64) float64 {
	return 2 * c / (b + math.Sqrt(b*b+4*a*c))
}

func (m Member) fe(d float64) float64 {
	if m.Fe > 0 {
		return m.Fe
	}
	return DowelBearing(m.G, d, m.Angle)
}

// reduction is the term Rd of NDS 2018 table 12.3.1B. KD and the limits
// of 1/4 in are read with the diameter that bends: the root of threads.
func (j Joint) reduction(mode Mode) float64 {
	nominal, bends := inches(j.Fastener.D), inches(j.Fastener.Root)
	kt := 1 + 0.25*math.Max(j.Side.Angle, j.Main.Angle)/90
	kd := 2.2
	if bends > 0.17 {
		kd = 10*bends + 0.5
	}
	switch {
	case nominal < 0.25:
		return kd
	case bends < 0.25:
		return kd * kt
	}
	switch mode {
	case ModeIm, ModeIs:
		return 4 * kt
	case ModeII:
		return 3.6 * kt
	}
	return 3.2 * kt
}
