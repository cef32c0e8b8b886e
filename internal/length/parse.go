package length

import (
	"fmt"
	"math/big"
	"strings"
	"unicode"
)

// Error says why a text is not a length.
type Error struct {
	Input string
	Msg   string // what is wrong, one clause
	Hint  string // what to write instead
}

func (e *Error) Error() string {
	s := fmt.Sprintf("%q %s", e.Input, e.Msg)
	if e.Hint != "" {
		s += "; " + e.Hint
	}
	return s
}

// maxText bounds the text of one length, in bytes.
const maxText = 64

// ParseUnit reads the name of a unit for bare numbers: inches or millimetres.
func ParseUnit(s string) (Unit, error) {
	switch strings.ToLower(strings.TrimSpace(s)) {
	case "in", "inch", "inches":
		return Inches, nil
	case "mm", "millimetre", "millimetres", "millimeter", "millimeters":
		return Millimetres, nil
	}
	return 0, &Error{s, "is not a unit", "write inches or millimetres"}
}

// Parse reads a length as a maker writes it: "30 1/4 in", `30-1/4"`, `2' 6 1/2"`, "2 ft 6 in",
// "762 mm", "76.2 cm", "7.62 m", "-1/8", "0.705", "30¼″", "5 200 mm". A bare number takes
// the given unit; one after feet is inches. The error is an *[Error]. Nothing is rounded: a size that is
// no whole number of ticks (1/3 in) is refused and the neighbours that can be held are named.
func Parse(s string, bare Unit) (Length, error) {
	if len(s) > maxText {
		return 0, &Error{s[:16] + "...", "is too long for a length", example}
	}
	if l, ok := plain(s, bare); ok {
		return l, nil
	}
	p := &parser{in: s, rest: []rune(fold(s)), bare: bare}
	l, err := p.length()
	if err != nil {
		return 0, err
	}
	return l, nil
}

// plain reads most lengths quickly: a number of few digits, a fraction behind it or not, in inches or in
// millimetres. What it does not read may still be a length, or is told what is wrong with it.
func plain(s string, bare Unit) (Length, bool) {
	at := 0
	digits := func() (n, digits int64) {
		for at < len(s) && '0' <= s[at] && s[at] <= '9' && digits < 6 {
			n, digits, at = 10*n+int64(s[at]-'0'), digits+1, at+1
		}
		return n, digits
	}
	is := func(c byte) bool {
		if at < len(s) && s[at] == c {
			at++
			return true
		}
		return false
	}
	top, some := digits()
	if some == 0 {
		return 0, false
	}
	under := int64(1)
	switch next := at; {
	case is('.'):
		part, some := digits()
		for range some {
			top, under = 10*top, 10*under
		}
		top += part
		if some == 0 {
			return 0, false
		}
	case is('/'):
		under, _ = digits()
	case is(' '):
		over, some := digits()
		if some == 0 || !is('/') {
			at = next // a unit, or what is not plain
			break
		}
		if under, _ = digits(); over >= under {
			return 0, false
		}
		top = top*under + over
	}
	m := bareMeasure(bare)
	is(' ')
	switch s[at:] {
	case "":
	case "mm":
		m = bareMeasure(Millimetres)
	case "in", "\"":
		m = bareMeasure(Inches)
	default:
		return 0, false
	}
	if under == 0 || at > 0 && at == len(s) && s[at-1] == ' ' {
		return 0, false
	}
	ticks := top * int64(m.size) // less than 10^12 times 1 016 000
	if ticks%under != 0 || ticks/under > int64(Limit) {
		return 0, false
	}
	return Length(ticks / under), true
}

const example = `write it like 30 1/4 in, 2' 6", 762 mm or 76.2 cm`

// fold brings the marks that keyboards and word processors put in to one spelling each.
// The order matters: two primes before one.
func fold(s string) string { return folding.Replace(s) }

var folding = strings.NewReplacer(
	"''", `"`, "′′", `"`, "’’", `"`, "″", `"`, "”", `"`, "“", `"`, "′", "'", "’", "'", "‘", "'",
	"−", "-", "–", "-", "⁄", "/", "\u00a0", " ", "\u2009", " ", "\u202f", " ", "\t", " ",
)

// vulgar lists the single-character fractions.
var vulgar = map[rune][2]int64{
	'½': {1, 2}, '⅓': {1, 3}, '⅔': {2, 3}, '¼': {1, 4}, '¾': {3, 4}, '⅕': {1, 5}, '⅖': {2, 5}, '⅗': {3, 5},
	'⅘': {4, 5}, '⅙': {1, 6}, '⅚': {5, 6}, '⅛': {1, 8}, '⅜': {3, 8}, '⅝': {5, 8}, '⅞': {7, 8}, '⅒': {1, 10},
}

// measure is a unit that a number may carry; size is in ticks. A compound length goes
// from greater to smaller within one system.
type measure struct {
	name   string
	size   Length
	metric bool
}

func (p *parser) fail(msg, hint string) error {
	return &Error{strings.TrimSpace(p.in), msg, hint}
}

type parser struct {
	in   string
	rest []rune
	bare Unit
}

func (p *parser) length() (Length, error) {
	p.spaces()
	if len(p.rest) == 0 {
		return 0, p.fail("is empty", example)
	}
	neg := false
	if p.rest[0] == '-' || p.rest[0] == '+' {
		neg = p.rest[0] == '-'
		p.rest = p.rest[1:]
		p.spaces()
	}
	sum := new(big.Rat)
	var last measure
	hyphen := false // a hyphen with no space on either side joins two quantities
	for first := true; first || len(p.rest) > 0; first = false {
		if !first && hyphen { // 2'-6" is 2' 6"
			p.rest = p.rest[1:]
		}
		n, grouped, err := p.number()
		if err != nil {
			return 0, err
		}
		m, given, err := p.unit()
		if err != nil {
			return 0, err
		}
		if !given {
			switch {
			case first && len(p.rest) > 0:
				return 0, p.fail("is not a length", example)
			case first:
				m = bareMeasure(p.bare)
			case last.size == Foot:
				m = measure{"in", Inch, false}
			default:
				return 0, p.fail("has a second number without a unit", example)
			}
		}
		if grouped && m.name != "mm" {
			return 0, p.fail("has two numbers side by side", example)
		}
		if !first {
			switch {
			case m.metric != last.metric || m.size >= last.size:
				return 0, p.fail("mixes units that do not go together", example)
			case n.Cmp(big.NewRat(int64(last.size/m.size), 1)) >= 0:
				return 0, p.fail(fmt.Sprintf("has %d %s or more after %s", last.size/m.size, m.name, last.name), "carry it over to the greater unit")
			}
		}
		sum.Add(sum, n.Mul(n, big.NewRat(int64(m.size), 1)))
		last = m
		hyphen = len(p.rest) > 1 && p.rest[0] == '-' && p.rest[1] != ' '
		p.spaces()
	}
	if neg {
		sum.Neg(sum)
	}
	return p.whole(sum, last)
}

// whole turns an exact number of ticks into a Length.
func (p *parser) whole(ticks *big.Rat, m measure) (Length, error) {
	if new(big.Rat).Abs(ticks).Cmp(big.NewRat(int64(Limit), 1)) > 0 {
		return 0, p.fail("is out of all proportion", "no length may be more than 1 km")
	}
	if ticks.IsInt() {
		return Length(ticks.Num().Int64()), nil
	}
	f, _ := ticks.Float64() // only to name neighbours; the size itself is refused
	near := Length(f)
	hint := fmt.Sprintf("the nearest that can is %s or %s", near.Near(Inch/64).Exact(Inches), near.Near(MM/1000).Exact(Millimetres))
	if m.metric {
		hint = fmt.Sprintf("the nearest that can is %s", near.Near(MM/1000).Exact(Millimetres))
	}
	return 0, p.fail("cannot be held exactly", hint)
}

func bareMeasure(u Unit) measure {
	if u == Millimetres {
		return measure{"mm", MM, true}
	}
	return measure{"in", Inch, false}
}

// number reads a whole number, a decimal, a fraction or a mixed number; grouped says that
// it was written in groups of three digits (5 200).
func (p *parser) number() (n *big.Rat, grouped bool, err error) {
	p.spaces()
	if n := p.vulgar(); n != nil {
		return n, false, nil
	}
	whole := p.digits()
	switch p.peek() {
	case '.':
		p.rest = p.rest[1:]
		part := p.digits()
		if part == "" {
			return nil, false, p.fail("has no digits after the point", example)
		}
		r, _ := new(big.Rat).SetString("0" + whole + "." + part)
		return r, false, nil
	case ',':
		return nil, false, p.fail("has a comma", "write a point for decimals and nothing between thousands")
	}
	if whole == "" {
		return nil, false, p.fail("is not a length", example)
	}
	if p.peek() == '/' {
		p.rest = p.rest[1:]
		n, err := p.over(whole)
		return n, false, err
	}
	before := p.rest
	// The fraction of a mixed number: a space, one hyphen or nothing before it.
	if p.peek() == '-' {
		p.rest = p.rest[1:]
	} else {
		p.spaces()
	}
	if part := p.vulgar(); part != nil {
		return part.Add(part, rat(whole)), false, nil
	}
	if top := p.digits(); top != "" {
		if p.peek() == '/' {
			p.rest = p.rest[1:]
			part, err := p.over(top)
			if err != nil {
				return nil, false, err
			}
			if part.Cmp(big.NewRat(1, 1)) >= 0 {
				return nil, false, p.fail("has a fraction that is not less than one", example)
			}
			return part.Add(part, rat(whole)), false, nil
		}
		p.rest = before
		if len(whole) <= 3 {
			if n := p.groups(whole); n != nil {
				return n, true, nil
			}
		}
	}
	p.rest = before
	return rat(whole), false, nil
}

// groups reads further groups of exactly three digits, one space before each.
func (p *parser) groups(whole string) *big.Rat {
	n := whole
	for p.peek() == ' ' {
		at := p.rest
		p.rest = p.rest[1:]
		d := p.digits()
		if len(d) != 3 {
			if d != "" {
				return nil
			}
			p.rest = at
			break
		}
		n += d
	}
	if n == whole {
		return nil
	}
	if p.peek() == '.' {
		p.rest = p.rest[1:]
		part := p.digits()
		if part == "" {
			return nil
		}
		n += "." + part
	}
	r, _ := new(big.Rat).SetString(n)
	return r
}

// over reads the lower half of a fraction.
func (p *parser) over(top string) (*big.Rat, error) {
	den := p.digits()
	switch {
	case den == "":
		return nil, p.fail("has a fraction without its lower half", example)
	case strings.Trim(den, "0") == "":
		return nil, p.fail("divides by zero", example)
	}
	return new(big.Rat).Quo(rat(top), rat(den)), nil
}

func (p *parser) vulgar() *big.Rat {
	if f, ok := vulgar[p.peek()]; ok {
		p.rest = p.rest[1:]
		return big.NewRat(f[0], f[1])
	}
	return nil
}

func (p *parser) unit() (m measure, given bool, err error) {
	p.spaces()
	switch p.peek() {
	case '"':
		p.rest = p.rest[1:]
		return measure{"in", Inch, false}, true, nil
	case '\'':
		p.rest = p.rest[1:]
		return measure{"ft", Foot, false}, true, nil
	}
	i := 0
	for i < len(p.rest) && unicode.IsLetter(p.rest[i]) {
		i++
	}
	word := string(p.rest[:i])
	if word == "" {
		return m, false, nil
	}
	p.rest = p.rest[i:]
	switch strings.ToLower(word) {
	case "in", "inch", "inches", "ins":
		m = measure{"in", Inch, false}
	case "ft", "foot", "feet":
		m = measure{"ft", Foot, false}
	case "mm", "millimetre", "millimetres", "millimeter", "millimeters":
		m = measure{"mm", MM, true}
	case "cm", "centimetre", "centimetres", "centimeter", "centimeters":
		m = measure{"cm", 10 * MM, true}
	case "m", "metre", "metres", "meter", "meters":
		m = measure{"m", 1000 * MM, true}
	case "e":
		return m, false, p.fail("has a power of ten", "write the number out")
	default:
		return m, false, p.fail(fmt.Sprintf("has an unknown unit %q", word), "units are in, ft, mm, cm and m")
	}
	if p.peek() == '.' { // "in."
		p.rest = p.rest[1:]
	}
	return m, true, nil
}

func (p *parser) digits() string {
	i := 0
	for i < len(p.rest) && '0' <= p.rest[i] && p.rest[i] <= '9' {
		i++
	}
	d := string(p.rest[:i])
	p.rest = p.rest[i:]
	return d
}

func (p *parser) spaces() {
	for p.peek() == ' ' {
		p.rest = p.rest[1:]
	}
}

// peek gives the next character, 0 at the end.
func (p *parser) peek() rune {
	if len(p.rest) == 0 {
		return 0
	}
	return p.rest[0]
}

// rat gives a number written in digits only.
func rat(digits string) *big.Rat {
	n, _ := new(big.Int).SetString(digits, 10)
	return new(big.Rat).SetInt(n)
}
