// Package money holds amounts of one currency, which the job names, as whole
// ten-thousandths of its unit. There are no floats and no rates of exchange.
package money

import (
	"fmt"
	"strings"
)

// Amount is in 1/10 000 of the currency's unit, so that a price of a screw is exact too.
type Amount int64

// Units of money.
const (
	Unit Amount = 10_000
	Cent Amount = 100
)

// Limit is the largest amount that is read from text, a thousand million units.
const Limit = 1_000_000_000 * Unit

// Error says why a text is not an amount.
type Error struct {
	Input string
	Msg   string
	Hint  string
}

func (e *Error) Error() string { return fmt.Sprintf("%q %s; %s", e.Input, e.Msg, e.Hint) }

// Parse reads a price without a currency sign: "94", "4.10", "0.0375". The error is an *[Error].
func Parse(s string) (Amount, error) {
	fail := func(msg, hint string) (Amount, error) {
		if len(s) > 24 {
			s = s[:21] + "..."
		}
		return 0, &Error{s, msg, hint}
	}
	const example = "write it like 94 or 4.10"
	t := strings.TrimSpace(s)
	neg := strings.HasPrefix(t, "-")
	t = strings.TrimPrefix(t, "-")
	whole, part, point := strings.Cut(t, ".")
	switch {
	case whole == "" || point && part == "" || strings.Trim(whole+part, "0123456789") != "":
		if strings.ContainsAny(t, "$€£¥") {
			return fail("has a currency sign", "the job names the currency once; write the number alone")
		}
		return fail("is not a price", example)
	case len(part) > 4 && strings.Trim(part[4:], "0") != "":
		return fail("has more than four decimals", example)
	case len(strings.TrimLeft(whole, "0")) > 10:
		return fail("is out of all proportion", example)
	}
	part = (part + "0000")[:4]
	var a Amount
	for _, c := range whole + part {
		a = a*10 + Amount(c-'0')
	}
	if a > Limit {
		return fail("is out of all proportion", example)
	}
	if neg {
		a = -a
	}
	return a, nil
}

// String prints with two decimals, and with more where they are needed: "94.00", "0.0375".
func (a Amount) String() string {
	n, sign := uint64(a), ""
	if a < 0 {
		n, sign = -n, "-"
	}
	s := fmt.Sprintf("%s%d.%04d", sign, n/10_000, n%10_000)
	for range 2 {
		s = strings.TrimSuffix(s, "0")
		if s[len(s)-3] == '.' {
			break
		}
	}
	return s
}

// Round gives the nearest whole cent, a half away from zero: what a till shows.
func (a Amount) Round() Amount {
	if a < 0 {
		return -(-a).Round()
	}
	return (a + Cent/2) / Cent * Cent
}

// Print prints to the nearest cent: "4.10".
func (a Amount) Print() string { return a.Round().String() }
