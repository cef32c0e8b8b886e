package assemble

import (
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/part"
	"stowright/internal/place"
)

// NotBuilt: something has its place but no parts.
// Example: a kind of thing that this version places and does not build.
const NotBuilt finding.Code = "not-built"

// buildOther builds counters, bases and hutches: each kind has its builder; what has none says so.
func (w *work) buildOther(s *place.Seat) (part.Assembly, finding.List) {
	o := part.Owner{ID: s.ID, Kind: string(s.Kind), Name: s.Name, Wall: s.Wall, Box: s.Box, Carcass: s.Box, Stage: s.Stage}
	return part.Assembly{Owners: []part.Owner{o}}, finding.List{{Code: NotBuilt, Severity: finding.Error, At: string(s.Kind) + "/" + s.ID, Source: "the program",
		Text: fmt.Sprintf("The %s %s has a place but is not built: its parts are missing from every list.", s.Kind, s.Name)}}
}
