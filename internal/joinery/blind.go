package joinery

import (
	"fmt"

	"stowright/internal/finding"
)

// BlindLeast is the least depth of a hole that is to hold something (common practice, no source).
const BlindLeast = 3 * mm

// Blind gives how deep a hole is that must not come through a board so thick: as deep as wanted, or less where so much
// must be left; 0, for no hole, where that is less than BlindLeast.
func Blind(want, thick, left L) L {
	if deep := min(want, thick-left); deep >= BlindLeast {
		return deep
	}
	return 0
}

// Thin says that a board so thick takes no hole for something, which is left out.
func (s Shop) Thin(what string, thick L) finding.Finding {
	return finding.Finding{Code: BoardThin, Severity: finding.Error, At: s.at(), Source: "common practice, no source",
		Text: fmt.Sprintf("A board of %s is too thin for the hole of a %s: it would come through, and is left out.", s.text(thick), what), Hint: "Use a thicker board there."}
}
