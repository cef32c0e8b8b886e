// Package ttf holds the outlines of the faces of package font as TrueType files, for the
// encoders that embed or trace them.
//
// Source Sans 3 is by Adobe under the SIL Open Font License 1.1 (SourceSans3-OFL.txt);
// DejaVu Sans Condensed comes from its Go module under the Bitstream Vera licence.
package ttf

import (
	_ "embed"

	"github.com/go-fonts/dejavu/dejavusanscondensed"
	"github.com/go-fonts/dejavu/dejavusanscondensedbold"

	"stowright/internal/draw/font"
)

//go:embed SourceSans3-Regular.ttf
var regular []byte

//go:embed SourceSans3-SemiBold.ttf
var semibold []byte

// Bytes gives the TrueType file of a face. The caller must not change it.
func Bytes(f font.Face) []byte {
	switch f {
	case font.Regular:
		return regular
	case font.Bold:
		return semibold
	case font.Spare:
		return dejavusanscondensed.TTF
	case font.SpareBold:
		return dejavusanscondensedbold.TTF
	}
	panic("ttf: no such face")
}
