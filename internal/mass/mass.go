// Package mass holds weights of things as whole micrograms, and what bears on an area. It
// reads them as a maker writes them and prints them in pounds or kilograms. What gravity makes of a mass
// is left to package strength.
package mass

import (
	"fmt"
	"math/big"
	"strings"
)

// Mass is in micrograms. The pound is 453 592 370 µg exactly (international yard and
// pound agreement, 1959; NIST SP 811), the ounce a sixteenth of it, which is no whole
// number of micrograms: a mass of ounces is rounded to the nearest microgram.
type Mass int64

// Units of mass.
const (
	Microgram Mass = 1
	Gram      Mass = 1_000_000
	Kilogram  Mass = 1000 * Gram
	Pound     Mass = 453_592_370
)

// Limit is the largest mass that is read from text, 1 000 t.
const Limit = 1_000_000 * Kilogram

// PerArea is a mass that bears on each square metre, in micrograms. A pound to the square
// foot is rounded to the nearest microgram.
type PerArea int64

// Units of mass on an area. One square foot is 0.092 903 04 m² exactly.
const KilogramPerSquareMetre = PerArea(Kilogram)

// Error says why a text is not a mass.
type Error struct {
	Input string
	Msg   string // what is wrong, one clause
	Hint  string // what to write instead
}

func (e *Error) Error() string { return fmt.Sprintf("%q %s; %s", e.Input, e.Msg, e.Hint) }

const (
	maxText     = 64
	example     = "write it like 0.95 lb, 5 lb 4 oz, 12 oz, 1.2 kg or 430 g"
	exampleArea = "write it like 40 psf, 40 lb/ft2 or 195 kg/m2"
)

// Parse reads a mass: "0.95 lb", "12 oz", "5 lb 4 oz", "1.2 kg", "430 g". The unit must be
// there. The error is an *[Error].
func Parse(s string) (Mass, error) {
	if len(s) > maxText {
		return 0, &Error{s[:16] + "...", "is too long for a weight", example}
	}
	fail := func(msg string) (Mass, error) { return 0, &Error{strings.TrimSpace(s), msg, example} }
	rest := strings.TrimSpace(s)
	if rest == "" {
		return fail("is empty")
	}
	sum := new(big.Rat)
	for first := true; rest != ""; first = false {
		n, after, ok := number(rest)
		if !ok {
			return fail("is not a weight")
		}
		i := strings.IndexFunc(after, func(r rune) bool { return r < 'A' || r > 'z' })
		if i < 0 {
			i = len(after)
		}
		word := after[:i]
		unit, ok := unitOf(word)
		switch {
		case word == "" && after == "":
			return fail("has no unit")
		case !ok:
			return fail(fmt.Sprintf("has an unknown unit %q", after))
		case !first && !(isOunce(word) && n.Cmp(big.NewRat(16, 1)) < 0):
			return fail("is not a weight")
		}
		sum.Add(sum, n.Mul(n, unit))
		rest = strings.TrimSpace(strings.TrimPrefix(after[i:], "."))
		if rest != "" && !(first && unit.Cmp(big.NewRat(int64(Pound), 1)) == 0) {
			return fail("is not a weight")
		}
	}
	m, ok := round(sum, int64(Limit))
	if !ok {
		return fail("is out of all proportion")
	}
	return Mass(m), nil
}

// ParsePerArea reads a mass on an area: "40 psf", "40 lb/ft2", "195 kg/m2". The error is an *[Error].
func ParsePerArea(s string) (PerArea, error) {
	if len(s) > maxText {
		return 0, &Error{s[:16] + "...", "is too long for a load", exampleArea}
	}
	fail := func(msg string) (PerArea, error) { return 0, &Error{strings.TrimSpace(s), msg, exampleArea} }
	n, unit, ok := number(strings.TrimSpace(s))
	if !ok {
		return fail("is not a load on an area")
	}
	var each *big.Rat
	switch strings.NewReplacer("²", "2", "^2", "2", " ", "").Replace(strings.ToLower(unit)) {
	case "psf", "lb/ft2", "lbs/ft2", "lb/sqft":
		// 453 592 370 µg on 0.092 903 04 m²
		each = new(big.Rat).Quo(big.NewRat(int64(Pound), 1), big.NewRat(9_290_304, 100_000_000))
	case "kg/m2":
		each = big.NewRat(int64(Kilogram), 1)
	case "":
		return fail("has no unit")
	default:
		return fail(fmt.Sprintf("has an unknown unit %q", unit))
	}
	p, ok := round(n.Mul(n, each), int64(Limit))
	if !ok {
		return fail("is out of all proportion")
	}
	return PerArea(p), nil
}

// number reads an unsigned decimal or fraction (1/2, 1 1/2) at the start of s.
func number(s string) (n *big.Rat, rest string, ok bool) {
	digits := func() string {
		i := 0
		for i < len(s) && '0' <= s[i] && s[i] <= '9' {
			i++
		}
		d := s[:i]
		s = s[i:]
		return d
	}
	whole := digits()
	text := whole
	switch {
	case strings.HasPrefix(s, "."):
		s = s[1:]
		part := digits()
		if part == "" {
			return nil, "", false
		}
		text = "0" + whole + "." + part
	case strings.HasPrefix(s, "/"):
		s = s[1:]
		text = whole + "/" + digits()
	case strings.HasPrefix(s, " ") || strings.HasPrefix(s, "-"):
		before := s
		s = strings.TrimLeft(s[1:], " ")
		if top := digits(); top != "" && strings.HasPrefix(s, "/") {
			s = s[1:]
			part, good := rat(top + "/" + digits())
			n, also := rat(whole)
			if !good || !also || part.Cmp(big.NewRat(1, 1)) >= 0 {
				return nil, "", false
			}
			return n.Add(n, part), strings.TrimLeft(s, " "), true
		}
		s = before
	}
	n, ok = rat(text)
	return n, strings.TrimLeft(s, " "), ok
}

func rat(s string) (*big.Rat, bool) {
	if s == "" || strings.HasPrefix(s, "/") || strings.HasSuffix(s, "/") {
		return nil, false
	}
	if _, den, found := strings.Cut(s, "/"); found && strings.Trim(den, "0") == "" {
		return nil, false
	}
	return new(big.Rat).SetString(s)
}

func unitOf(word string) (*big.Rat, bool) {
	switch strings.ToLower(word) {
	case "lb", "lbs", "pound", "pounds":
		return big.NewRat(int64(Pound), 1), true
	case "kg", "kilogram", "kilograms", "kilo", "kilos":
		return big.NewRat(int64(Kilogram), 1), true
	case "g", "gram", "grams":
		return big.NewRat(int64(Gram), 1), true
	case "t", "tonne", "tonnes":
		return big.NewRat(int64(1000*Kilogram), 1), true
	}
	if isOunce(word) {
		return big.NewRat(int64(Pound), 16), true
	}
	return nil, false
}

func isOunce(word string) bool {
	switch strings.ToLower(word) {
	case "oz", "ounce", "ounces":
		return true
	}
	return false
}

// round gives the nearest whole number, a half up; false when it is beyond the limit.
func round(r *big.Rat, limit int64) (int64, bool) {
	twice := new(big.Int).Mul(r.Num(), big.NewInt(2))
	twice.Add(twice, r.Denom())
	n := twice.Div(twice, new(big.Int).Mul(r.Denom(), big.NewInt(2)))
	return n.Int64(), n.IsInt64() && n.Int64() <= limit
}

// Kilograms gives the mass as a float, for strength and for display.
func (m Mass) Kilograms() float64 { return float64(m) / float64(Kilogram) }

// Pounds gives the mass as a float, for display.
func (m Mass) Pounds() float64 { return float64(m) / float64(Pound) }

// KilogramsPerSquareMetre gives the load as a float, for strength and for display.
func (p PerArea) KilogramsPerSquareMetre() float64 { return float64(p) / float64(Kilogram) }

// Print gives the mass as it is weighed in a shop: to 0.1 kg, or 10 g below 1 kg, or to
// 0.1 lb, or 0.01 lb below 1 lb, a half away from zero.
func (m Mass) Print(metric bool) string {
	unit, name := Pound, "lb"
	if metric {
		unit, name = Kilogram, "kg"
	}
	places, parts := 1, int64(10)
	if m < unit && m > -unit {
		places, parts = 2, 100
	}
	n, sign := int64(m), ""
	if n < 0 {
		n, sign = -n, "-"
	}
	// n·parts fits: Limit·100 is 10¹⁷; a sum beyond 9·10¹⁶ µg loses nothing that shows.
	q := n / int64(unit) * parts
	q += (n%int64(unit)*parts*2 + int64(unit)) / (2 * int64(unit))
	if q == 0 {
		sign = ""
	}
	s := fmt.Sprintf("%d.%0*d", q/parts, places, q%parts)
	return sign + strings.TrimSuffix(strings.TrimRight(s, "0"), ".") + " " + name
}

// String gives the exact mass in grams.
func (m Mass) String() string {
	s := fmt.Sprintf("%d.%06d", m/Gram, max(m%Gram, -m%Gram))
	if m < 0 && m > -Gram {
		s = "-" + s
	}
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".") + " g"
}
