// Package unit holds the conversion factors of the strength methods.
//
// Every method below strength works in newtons, millimetres, megapascals
// (N/mm²), kilograms and degrees, as plain float64. A quantity is named with
// its unit in the comment of its field. A value that a standard states in
// inches or pounds is multiplied by a factor of this package, so that the
// printed number stays readable beside its source:
//
//	span := 36 * unit.Inch
//	load := 40 * unit.PSF
//
// The package knows nothing of beams, screws or cases; parsing and printing
// of lengths belong to package length.
package unit

import "strings"

// The exact factors of NIST Special Publication 811, appendix B.8. All but
// the derived ones are definitions and carry no rounding.
const (
	// Inch and Foot are in mm.
	Inch = 25.4
	Foot = 12 * Inch

	// Pound is the mass of one avoirdupois pound in kg.
	Pound = 0.45359237

	// Gravity is the standard acceleration of free fall in N/kg.
	Gravity = 9.80665

	// PoundForce is in N.
	PoundForce = Pound * Gravity

	// PSI is one pound-force per square inch in MPa.
	PSI = PoundForce / (Inch * Inch)

	// PSF is one pound-force per square foot in MPa.
	PSF = PoundForce / (Foot * Foot)

	// PoundPerInch is one pound-force per inch in N/mm.
	PoundPerInch = PoundForce / Inch

	// PoundPerFoot is one pound-force per foot in N/mm.
	PoundPerFoot = PoundForce / Foot

	// KPa is one kilopascal in MPa; a load of 1 kPa is 1 kN/m².
	KPa = 0.001

	// GPa is one gigapascal in MPa.
	GPa = 1000
)

// Shown is a figure of a finding and its unit as a job in inches prints it:
// "mm", "N", "kg", "MPa", "N·m" and "l" become in, lb, lb, psi, ft·lb and
// gal, words after them stay. Others, and all of a job in mm, stay as they
// are.
func Shown(v float64, name string, inches bool) (float64, string) {
	word, rest, _ := strings.Cut(name, " ")
	if rest != "" {
		rest = " " + rest
	}
	if !inches {
		return v, name
	}
	switch word {
	case "mm":
		return v / Inch, "in" + rest
	case "N":
		return v / PoundForce, "lb" + rest
	case "kg":
		return v / Pound, "lb" + rest
	case "MPa":
		return v / PSI, "psi" + rest
	case "N·m":
		return v * 1000 / (PoundForce * Foot), "ft·lb" + rest
	case "l":
		return v / 3.785411784, "gal" + rest
	}
	return v, name
}
