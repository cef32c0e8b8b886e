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
