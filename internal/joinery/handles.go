package joinery

import (
	"slices"

	"stowright/internal/length"
	"stowright/internal/part"
)

// Handles come with screws for a front of some 18 mm; whatever is thicker or thinner wants others. Common practice, no source.
const (
	handleGrip = 5 * mm // what a handle's screw goes into the handle, at least
	handleOwn  = 25 * mm
)

// HandleScrew gives the machine screw of the shop for handles: its id, and how long it is for so much wood; own says
// that those which come with handles are as long. False where the catalogue has none.
func (s Shop) HandleScrew(thick L) (id string, long L, own, ok bool) {
	id, usual := "handle-screw-m4", L(handleOwn)
	if s.Practice.Unit == "in" {
		id, usual = "handle-screw-8-32", length.Inch
	}
	h, found := s.Catalogue.Item(id)
	if !found || len(h.Lengths) == 0 {
		return id, 0, false, false
	}
	long = h.Lengths[len(h.Lengths)-1]
	if i := slices.IndexFunc(h.Lengths, func(l L) bool { return l >= thick+handleGrip }); i >= 0 {
		long = h.Lengths[i]
	}
	return id, long, long == usual, true
}

// HandleScrews are the screws that are bought for the n holes of a handle through so much wood; none where its own do.
func (s Shop) HandleScrews(n int, thick L, use string) []part.Item {
	id, long, own, ok := s.HandleScrew(thick)
	if !ok || own || n == 0 {
		return nil
	}
	return []part.Item{{ID: id, Kind: "screw", Count: n, Length: long, For: use}}
}

// HandleWasher gives the washer that goes under the head of a handle's screw where the hole behind a front is wider than
// the head bears on, and how thick it is. False where the catalogue has none.
func (s Shop) HandleWasher() (id string, thick L, ok bool) {
	id = "handle-washer-m4"
	if s.Practice.Unit == "in" {
		id = "handle-washer-8"
	}
	h, ok := s.Catalogue.Item(id)
	return id, h.Height, ok
}
