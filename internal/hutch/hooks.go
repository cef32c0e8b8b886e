package hutch

import (
	"stowright/internal/joinery"
	"stowright/internal/part"
)

// behind is what a hook's screw stays short of what is behind the air: common practice, no source.
const behind = 4 * mm

// hooks gives a hook for each thing that hangs on a board, and the screws of those that are screwed: as long as
// the board and the air behind it take.
func hooks(shop joinery.Shop, n int, holed bool, thick, air L) []part.Item {
	if n == 0 {
		return nil
	}
	for _, h := range shop.Catalogue.Hardware {
		if h.Kind != "hook" || holed != (h.ScrewsEach == 0) || !shop.Sold(h) {
			continue
		}
		out := []part.Item{{Owner: shop.Owner, ID: h.ID, Kind: "hook", Count: n, For: part.HangsOnBoard}}
		if screw, ok := shop.Screw("slide", thick+air-behind); ok && h.ScrewsEach > 0 {
			out = append(out, part.Item{Owner: shop.Owner, ID: screw.ID, Kind: "screw", Count: n * h.ScrewsEach, Length: screw.Length, For: part.HangsOnBoard})
		}
		return out
	}
	return nil
}
