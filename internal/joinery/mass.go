package joinery

import (
	"stowright/internal/mass"
	"stowright/internal/part"
	"stowright/internal/stock"
)

// Mass gives the mass of a part from its size and its material's density, in the mass of
// the board before it is worked, and false when the density is not known.
func Mass(p part.Part, cat stock.Catalogue) (mass.Mass, bool) {
	var density stock.Ratio
	switch p.Material {
	case part.Board:
		b, ok := cat.Board(p.Stock)
		if !ok {
			return 0, false
		}
		m, _ := cat.Material(b.Material)
		density = m.Density
	case part.Stick:
		s, ok := cat.Stick(p.Stock)
		if !ok {
			return 0, false
		}
		w, _ := cat.SpeciesOf(s.Species)
		density = w.Density
	default:
		h, ok := cat.Item(p.Stock)
		if !ok || h.Mass == nil {
			return 0, false
		}
		if h.Tube > 0 && h.Length > 0 {
			return mass.Mass(int64(*h.Mass) * int64(p.Size[0]/(mm/10)) / int64(h.Length/(mm/10))), true
		}
		return *h.Mass, true
	}
	d, ok := density.Whole()
	if !ok || d == 0 {
		return 0, false
	}
	// 1 kg/m3 is 1 µg/mm3; sizes in tenths of a millimetre, thickness in micrometres.
	tenths := int64(p.Size[0]/(mm/10)) * int64(p.Size[1]/(mm/10))
	um := int64(p.Size[2] / (mm / 1000))
	return mass.Mass(tenths * um / 100_000 * d), true
}
