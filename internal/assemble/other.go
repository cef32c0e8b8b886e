package assemble

import (
	"stowright/internal/finding"
	"stowright/internal/part"
	"stowright/internal/place"
)

// buildOther builds counters, bases and hutches.
func (w *work) buildOther(s *place.Seat) (part.Assembly, finding.List) {
	o := part.Owner{ID: s.ID, Kind: string(s.Kind), Name: s.Name, Wall: s.Wall, Box: s.Box, Carcass: s.Box, Stage: s.Stage}
	return part.Assembly{Owners: []part.Owner{o}}, nil
}
