// Package nds is the part of the National Design Specification for Wood
// Construction (ANSI/AWC NDS-2018, chapter 12) and of AWC Technical Report 12
// that a dowel-type fastener needs: screws, lag screws, nails and bolts in
// shear, in withdrawal, pulled through by the head, and in combination, with
// penetration, distances and duration of load.
//
// All inputs and results are in mm, MPa and N. The rules themselves are
// empirical and in inches and pounds, so they are evaluated in those units
// inside; Fe is rounded to 50 psi as the specification's own tables do.
//
// Results are reference design values: allowable loads for normal (ten-year)
// duration, not ultimate ones. The package sees one fastener in one
// joint. It knows nothing of walls, cases or how several fasteners share a
// load; it guesses no missing input.
package nds

import (
	"math"
	"strconv"

	"stowright/internal/strength/unit"
)

// Kind is the sort of fastener; the rules differ in which diameter bears, how
// the tip counts and how loads combine.
type Kind int

// The kinds of fastener that the package knows.
const (
	WoodScrew Kind = iota + 1
	LagScrew
	Nail
	Bolt
)

// String is the kind in the trade's words.
func (k Kind) String() string {
	switch k {
	case WoodScrew:
		return "wood screw"
	case LagScrew:
		return "lag screw"
	case Nail:
		return "nail"
	case Bolt:
		return "bolt"
	}
	return "unknown fastener"
}

// Fastener is one fastener's size and steel.
type Fastener struct {
	Kind Kind

	// Name is how the trade calls it: "No. 10", "3/8 in", "16d common".
	Name string

	// D is the nominal diameter in mm: the shank of a screw, the wire of a
	// nail.
	D float64

	// Root is the diameter at the thread's root in mm; for nails and
	// full-body bolts it equals D.
	Root float64

	// Head is the diameter of the head in mm, 0 where not known.
	Head float64

	// Tip is the length of the tapered tip in mm (NDS calls it E).
	Tip float64

	// Fyb is the bending yield strength in MPa.
	Fyb float64
}

// inches converts mm to inches and drops the conversion's last bits, so that
// a printed limit such as 1/4 in is met exactly by what was entered as 6.35.
func inches(mm float64) float64 {
	return math.Round(mm/unit.Inch*1e7) / 1e7
}

// BendingYield is the bending yield strength Fyb, in MPa, that NDS 2018
// (table notes of 12L to 12R, table I1) assigns to a carbon-steel screw, lag
// screw or nail of nominal diameter d in mm. It is not known below 0.099 in.
func BendingYield(d float64) (mpa float64, known bool) {
	in := inches(d)
	switch {
	case in < 0.099:
		return 0, false
	case in <= 0.142:
		return 100_000 * unit.PSI, true
	case in <= 0.177:
		return 90_000 * unit.PSI, true
	case in <= 0.236:
		return 80_000 * unit.PSI, true
	case in <= 0.273:
		return 70_000 * unit.PSI, true
	case in <= 0.344:
		return 60_000 * unit.PSI, true
	}
	return 45_000 * unit.PSI, true
}

// screwSizes is NDS 2018 table L3, in inches: shank, root, head. Numbers 20
// and 24 are from memory; the shanks follow the handbook's 0.060 + 0.013 N.
var screwSizes = []struct {
	number        int
	d, root, head float64
}{
	{6, 0.138, 0.113, 0.262},
	{7, 0.151, 0.122, 0.287},
	{8, 0.164, 0.131, 0.312},
	{9, 0.177, 0.142, 0.337},
	{10, 0.190, 0.152, 0.363},
	{12, 0.216, 0.171, 0.414},
	{14, 0.242, 0.196, 0.480},
	{16, 0.268, 0.209, 0.515},
	{18, 0.294, 0.232, 0.602},
	{20, 0.320, 0.255, 0.616}, // from memory
	{24, 0.372, 0.298, 0.724}, // from memory
}

// Screw is the standard cut-thread or rolled-thread wood screw of a gauge
// number, NDS 2018 table L3. The tip counts as 2D (NDS 2018 12.3.5).
func Screw(number int) (Fastener, bool) {
	for _, s := range screwSizes {
		if s.number == number {
			f := newFastener(WoodScrew, "No. "+strconv.Itoa(number), s.d, s.root, s.head, 2*s.d)
			return f, true
		}
	}
	return Fastener{}, false
}

// lagSizes is NDS 2018 table L2, in inches: diameter, root, tip. Sizes from
// 5/8 in are from memory.
var lagSizes = []struct {
	name         string
	d, root, tip float64
}{
	{"1/4", 0.25, 0.173, 5. / 32},
	{"5/16", 0.3125, 0.227, 3. / 16},
	{"3/8", 0.375, 0.265, 7. / 32},
	{"7/16", 0.4375, 0.328, 9. / 32},
	{"1/2", 0.5, 0.371, 5. / 16},
	{"5/8", 0.625, 0.471, 13. / 32}, // from memory, and all below
	{"3/4", 0.75, 0.579, 1. / 2},
	{"7/8", 0.875, 0.683, 19. / 32},
	{"1", 1, 0.780, 11. / 16},
	{"1-1/8", 1.125, 0.887, 25. / 32},
	{"1-1/4", 1.25, 1.012, 7. / 8},
}

// Lag is the reduced-body lag screw of a nominal diameter written as the
// trade does in inches ("3/8"), NDS 2018 table L2. Its head's size is not in
// that table and stays 0.
func Lag(size string) (Fastener, bool) {
	for _, s := range lagSizes {
		if s.name == size {
			return newFastener(LagScrew, s.name+" in lag", s.d, s.root, 0, s.tip), true
		}
	}
	return Fastener{}, false
}

// nailSizes is NDS 2018 table L4, in inches: diameter, length. Other rows
// than common 6d, 8d, 10d, 16d and 20d are from memory.
var nailSizes = []struct {
	name      string
	d, length float64
}{
	{"6d common", 0.113, 2}, {"7d common", 0.113, 2.25}, {"8d common", 0.131, 2.5},
	{"10d common", 0.148, 3}, {"12d common", 0.148, 3.25}, {"16d common", 0.162, 3.5},
	{"20d common", 0.192, 4}, {"30d common", 0.207, 4.5}, {"40d common", 0.225, 5},
	{"50d common", 0.244, 5.5},
	{"6d box", 0.099, 2}, {"7d box", 0.099, 2.25}, {"8d box", 0.113, 2.5},
	{"10d box", 0.128, 3}, {"12d box", 0.128, 3.25}, {"16d box", 0.135, 3.5},
	{"20d box", 0.148, 4}, {"30d box", 0.148, 4.5}, {"40d box", 0.162, 5},
	{"7d sinker", 0.099, 2.125}, {"8d sinker", 0.113, 2.375}, {"10d sinker", 0.120, 2.875},
	{"12d sinker", 0.135, 3.125}, {"16d sinker", 0.148, 3.25}, {"20d sinker", 0.177, 3.75},
	{"30d sinker", 0.192, 4.25}, {"40d sinker", 0.207, 4.75}, {"60d sinker", 0.244, 5.75},
}

// NailSize is the smooth nail of a pennyweight and style ("16d common",
// "8d box", "10d sinker") and its length in mm, NDS 2018 table L4. The tip
// counts as 2D; the head's size varies by maker and stays 0.
func NailSize(name string) (f Fastener, length float64, ok bool) {
	for _, s := range nailSizes {
		if s.name == name {
			return newFastener(Nail, name, s.d, s.d, 0, 2*s.d), s.length * unit.Inch, true
		}
	}
	return Fastener{}, 0, false
}

// FullBolt is a full-body bolt of nominal diameter d in mm, of the common
// quality with Fyb 45,000 psi that NDS 2018 tables 12A to 12I assume.
func FullBolt(d float64) Fastener {
	f := newFastener(Bolt, "bolt", d/unit.Inch, d/unit.Inch, 0, 0)
	f.Fyb = 45_000 * unit.PSI
	return f
}

// newFastener converts a table row and adds the steel of its diameter.
func newFastener(kind Kind, name string, d, root, head, tip float64) Fastener {
	f := Fastener{
		Kind: kind, Name: name,
		D: d * unit.Inch, Root: root * unit.Inch, Head: head * unit.Inch, Tip: tip * unit.Inch,
	}
	f.Fyb, _ = BendingYield(f.D)
	return f
}
