package joinery

import (
	"cmp"

	"stowright/internal/stock"
)

// BoltWood is left beside the insert of a foot's bolt, and over its end (common practice, no source).
const BoltWood = 10 * mm

// FootHole gives the hole for a foot's bolt and the bit for it: for the insert that the bolt turns in, and how long that is,
// or for the bolt itself; owned tells whether the shop has the bit.
func (s Shop) FootHole(foot stock.Hardware) (tool string, dia, insert L, owned bool) {
	if in, ok := s.Catalogue.Item(foot.Insert); ok {
		tool, owned = s.Bit(in.Dia)
		return tool, in.Dia, in.Length, owned
	}
	tool, dia, owned = s.Pilot(cmp.Or(foot.Clearance, foot.Dia))
	return tool, dia, 0, owned
}

// FootWood is how thick what takes a foot's bolt is at least, so that it does not split, and how long its insert is.
func (s Shop) FootWood(foot stock.Hardware) (thick, insert L) {
	in, _ := s.Catalogue.Item(foot.Insert)
	return max(in.Dia, foot.Dia) + 2*BoltWood, in.Length
}
