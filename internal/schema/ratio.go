package schema

import (
	"fmt"
	"math/big"
	"strconv"
	"strings"

	"stowright/internal/length"
)

// Ratio is an exact fraction such as a growth from drawer to drawer or an angle in degrees. Its
// zero value is 0.
type Ratio struct{ num, less1 int64 } // less1 is the denominator less one, so that zero is valid

// ratioLimit bounds both halves of a Ratio.
const ratioLimit = 1_000_000_000

// NewRatio gives num/den in lowest terms; den must not be 0, and both at most 10⁹.
func NewRatio(num, den int64) Ratio {
	r := big.NewRat(num, den)
	return Ratio{r.Num().Int64(), r.Denom().Int64() - 1}
}

// ParseRatio reads "1.25", "3/4", "1 1/4" or "5 %" exactly.
func ParseRatio(s string) (Ratio, error) {
	r, ok := ratioText(s)
	if !ok {
		return Ratio{}, fmt.Errorf("%q is not a number", shorten(s))
	}
	if !inRatio(r) {
		return Ratio{}, fmt.Errorf("%q is out of all proportion", shorten(s))
	}
	return NewRatio(r.Num().Int64(), r.Denom().Int64()), nil
}

func inRatio(r *big.Rat) bool {
	limit := big.NewInt(ratioLimit)
	return r.Num().CmpAbs(limit) <= 0 && r.Denom().Cmp(limit) <= 0
}

// ratioText reads a plain number; nothing is rounded.
func ratioText(s string) (*big.Rat, bool) {
	s = strings.TrimSpace(s)
	if len(s) > 64 {
		return nil, false
	}
	percent := strings.HasSuffix(s, "%")
	s = strings.TrimSpace(strings.TrimSuffix(s, "%"))
	neg := strings.HasPrefix(s, "-")
	s = strings.TrimPrefix(s, "-")
	sum := new(big.Rat)
	words := strings.Fields(s)
	for i, w := range words {
		top, bottom, slash := strings.Cut(w, "/")
		if strings.Trim(top, "0123456789.") != "" || strings.Trim(bottom, "0123456789") != "" ||
			slash && (strings.Contains(top, ".") || strings.Trim(bottom, "0") == "") ||
			i > 0 && !slash || i > 1 || i == 0 && len(words) > 1 && strings.ContainsAny(w, "./") {
			return nil, false
		}
		n, ok := new(big.Rat).SetString(w)
		if !ok {
			return nil, false
		}
		sum.Add(sum, n)
	}
	if len(words) == 0 {
		return nil, false
	}
	if neg {
		sum.Neg(sum)
	}
	if percent {
		sum.Quo(sum, big.NewRat(100, 1))
	}
	return sum, true
}

// Num and Den give the fraction in lowest terms; Den is above 0.
func (r Ratio) Num() int64 { return r.num }

// Den is the lower half of the fraction.
func (r Ratio) Den() int64 { return r.less1 + 1 }

// Of gives r·l to the nearest tick, a half away from zero.
func (r Ratio) Of(l length.Length) length.Length { return l.MulDiv(r.Num(), r.Den()) }

// Float gives the nearest float, for scores and angles.
func (r Ratio) Float() float64 { return float64(r.Num()) / float64(r.Den()) }

// Cmp gives -1, 0 or +1 as r is less than, equal to or more than s.
func (r Ratio) Cmp(s Ratio) int {
	return big.NewRat(r.Num(), r.Den()).Cmp(big.NewRat(s.Num(), s.Den()))
}

// String gives the exact fraction: "5/4", "3".
func (r Ratio) String() string {
	if r.Den() == 1 {
		return strconv.FormatInt(r.Num(), 10)
	}
	return strconv.FormatInt(r.Num(), 10) + "/" + strconv.FormatInt(r.Den(), 10)
}

// shorten cuts a text for a message.
func shorten(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:37]) + "..."
	}
	return s
}
