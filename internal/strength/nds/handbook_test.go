package nds_test

// What the Wood Handbook (USDA Forest Products Laboratory, General Technical Report FPL-GTR-282, chapters 5, 8
// and 9) says about moisture, grain angle, twist, and the average ultimate strength of fasteners, for tests alone:
// its fastener loads are averages at failure of single fasteners, five to six times what NDS allows, and judge
// this package from outside. All quantities are in N, mm and MPa.

import "math"

// AtMoisture is a clear wood property at moisture content m (percent) from
// its value dry (at 12 %) and green, equation 5-3: P = P12
// (P12/Pg)^((12−M)/(Mp−12)). Mp is the species' own where a change in
// property begins (DefaultMp where not listed). Above Mp the property is
// green's. It must not be used for work to maximum load, impact bending or
// tension across the grain.
func AtMoisture(dry, green, m, mp float64) float64 {
	if m >= mp {
		return green
	}
	return dry * math.Pow(dry/green, (12-m)/(mp-12))
}

// DefaultMp is Mp in percent for a species without its own (chapter 5).
const DefaultMp = 25

// Hankinson is a strength at angle degrees to the grain from those along and
// across it, equation 8-16: N = P Q/(P sin² + Q cos²).
func Hankinson(along, across, angle float64) float64 {
	s, c := math.Sincos(angle * math.Pi / 180)
	return along * across / (along*s*s + across*c*c)
}

// TwistRound is the twist in radians of a round bar of diameter d and length
// l under torque t (N·mm), chapter 9: θ = T L/(G K), K = π d⁴/32.
func TwistRound(t, l, g, d float64) float64 {
	return t * l / (g * math.Pi * d * d * d * d / 32)
}

// WoodScrew is the average withdrawal in N of a wood screw from side grain of
// specific gravity g (at 12 %), with l mm of its thread in the wood and a shank
// of d mm: 108.25 G² D L, equation 8-10. The others of this file are alike.
func WoodScrew(g, d, l float64) float64 { return 108.25 * g * g * d * l }

// LagScrew is the average withdrawal of a lag screw, equation 8-14; from end
// grain about three quarters of it.
func LagScrew(g, d, l float64) float64 {
	return 125.4 * math.Pow(g, 1.5) * math.Pow(d, 0.75) * l
}

// SmoothNail is the average withdrawal of a common wire nail, equation 8-1.
func SmoothNail(g, d, l float64) float64 { return 54.12 * math.Pow(g, 2.5) * d * l }

// RingNail is the average withdrawal of an annular nail, equation 8-2a.
func RingNail(g, d, l float64) float64 { return 77.57 * g * g * d * l }

// DriftBolt is the average withdrawal of a drift bolt, equation 8-9.
func DriftBolt(g, d, l float64) float64 { return 45.51 * g * g * d * l }

// ParticleboardScrew is the average withdrawal in N of a wood screw from
// particleboard, P = K D^½ (L − D/3)^1.25 G² with K 41.1 from the face, 31.8
// from the edge (N, mm). From memory; no copy of the printed text was seen.
func ParticleboardScrew(g, d, l float64, edge bool) float64 {
	k := 41.1
	if edge {
		k = 31.8
	}
	return k * math.Sqrt(d) * math.Pow(math.Max(0, l-d/3), 1.25) * g * g
}

// Group is a row of table 8-4: the coefficients K of a joint's lateral load at
// the proportional limit, K·D² for screws and lag screws, K·D^1.5 for nails
// (N, mm; equations 8-13, 8-15, 8-2).
type Group struct{ Nail, Screw, Lag float64 }

// Lateral is the row of table 8-4 for a specific gravity to two places; not
// known outside the table's ranges.
func Lateral(g float64, hardwood bool) (Group, bool) {
	type row struct {
		lo, hi float64
		group  Group
	}
	rows := []row{{0.29, 0.42, Group{50.04, 23.17, 23.30}}, {0.43, 0.47, Group{62.55, 29.79, 26.34}}, {0.48, 0.52, Group{76.45, 36.40, 29.51}}}
	if hardwood {
		rows = []row{{0.33, 0.47, Group{50.04, 23.17, 26.34}}, {0.48, 0.56, Group{69.50, 31.99, 29.51}}, {0.57, 0.74, Group{94.52, 44.13, 34.13}}}
	}
	g = math.Round(g*100) / 100
	for _, r := range rows {
		if r.lo <= g && g <= r.hi {
			return r.group, true
		}
	}
	return Group{}, false
}

// The factors on a lag screw's lateral load: table 8-10 by the side member's
// thickness over the shank's diameter, table 8-11 by the diameter in mm for
// load across the grain.
var (
	lagSide   = [][2]float64{{2, 0.62}, {2.5, 0.77}, {3, 0.93}, {3.5, 1.00}, {4, 1.07}, {4.5, 1.13}, {5, 1.18}, {5.5, 1.21}, {6, 1.22}, {6.5, 1.22}}
	lagAcross = [][2]float64{{4.8, 1.00}, {6.4, 0.97}, {7.9, 0.85}, {9.5, 0.76}, {11.1, 0.70}, {12.7, 0.65}, {15.9, 0.60}, {19.0, 0.55}, {22.2, 0.52}, {25.4, 0.50}}
)

// LagSide is table 8-10 with straight lines between its rows; not known below
// 2, and 1.22 above 6.5.
func LagSide(ratio float64) (float64, bool) {
	if ratio > 6.5 {
		return 1.22, true
	}
	return between(lagSide, ratio)
}

// LagAcross is table 8-11 with straight lines between its rows; not known
// outside it.
func LagAcross(d float64) (float64, bool) { return between(lagAcross, d) }

func between(rows [][2]float64, x float64) (float64, bool) {
	for i, r := range rows {
		if x == r[0] {
			return r[1], true
		}
		if i > 0 && x > rows[i-1][0] && x < r[0] {
			a := rows[i-1]
			return a[1] + (x-a[0])/(r[0]-a[0])*(r[1]-a[1]), true
		}
	}
	return 0, false
}
