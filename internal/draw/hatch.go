package draw

import (
	"math"
	"slices"
)

// Hatch is a pattern of fine lines that tells materials apart in black and white.
type Hatch uint8

// The patterns.
const (
	CutBoard    Hatch = iota // sheet goods cut through: even lines at 45°
	CutBoard2                // its neighbour: the same at 135°
	EndGrain                 // solid wood seen on the end: paired lines at 60°
	WallHatch                // masonry or lined wall cut through: crossed lines at 45°
	GroundHatch              // floor and ground: groups of three lines at 45°
	KeepClear                // an area to keep free: wide spaced lines at 135°
)

// sets gives the families of parallel lines of a pattern: angle in degrees, the pitch at
// which the offsets repeat, in mm.
func (h Hatch) sets() []struct {
	angle, pitch float64
	offsets      []float64
} {
	type set = struct {
		angle, pitch float64
		offsets      []float64
	}
	switch h {
	case CutBoard2:
		return []set{{135, 1.6, []float64{0}}}
	case EndGrain:
		return []set{{60, 2.4, []float64{0, 0.8}}}
	case WallHatch:
		return []set{{45, 3, []float64{0}}, {135, 3, []float64{0}}}
	case GroundHatch:
		return []set{{45, 5, []float64{0, 0.9, 1.8}}}
	case KeepClear:
		return []set{{135, 4.5, []float64{0}}}
	}
	return []set{{45, 1.6, []float64{0}}}
}

// Hatch fills an area with a pattern. More than one ring may be given; the even-odd rule
// says what is inside. Pattern lines lie on one lattice for the whole sheet, so that two
// areas of one material that touch look like one.
func (s *Sheet) Hatch(h Hatch, rings ...[]Point) *Path {
	p := &Path{Line: Fine, Layer: s.Layer}
	for _, set := range h.sets() {
		sin, cos := math.Sincos(set.angle * math.Pi / 180)
		dir, nor := Point{cos, -sin}, Point{sin, cos} // y is down: angles as on a drawing
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, ring := range rings {
			for _, q := range ring {
				d := q.X*nor.X + q.Y*nor.Y
				lo, hi = min(lo, d), max(hi, d)
			}
		}
		for k := math.Floor(lo/set.pitch) - 1; k*set.pitch <= hi; k++ {
			for _, off := range set.offsets {
				d := k*set.pitch + off
				if d <= lo || d >= hi {
					continue
				}
				var cuts []float64
				for _, ring := range rings {
					for i, a := range ring {
						b := ring[(i+1)%len(ring)]
						da, db := a.X*nor.X+a.Y*nor.Y-d, b.X*nor.X+b.Y*nor.Y-d
						if (da < 0) == (db < 0) {
							continue
						}
						q := a.Add(b.Sub(a).Times(da / (da - db)))
						cuts = append(cuts, q.X*dir.X+q.Y*dir.Y)
					}
				}
				slices.Sort(cuts)
				for i := 0; i+1 < len(cuts); i += 2 {
					if cuts[i+1]-cuts[i] > 0.05 {
						p.Poly(false, nor.Times(d).Add(dir.Times(cuts[i])), nor.Times(d).Add(dir.Times(cuts[i+1])))
					}
				}
			}
		}
	}
	s.Add(p)
	return p
}
