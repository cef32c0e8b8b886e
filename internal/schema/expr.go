package schema

import (
	"fmt"
	"math/big"
	"strings"
	"unicode"

	"stowright/internal/length"
	"stowright/internal/order"
	"stowright/internal/source"
)

// mistake says what is wrong with a text and what to write instead.
type mistake struct{ text, hint string }

// maxExpression bounds the text of an expression, in bytes.
const maxExpression = 200

const lengthHint = `write it like 30 1/4 in, 2' 6", 762 mm, or with a named size: opening / 2 + 1/4 in`

// evaluate reads a length or an expression of lengths, named sizes and numbers: terms with
// + and - between (a space on both sides of -), "2 x step", "3 * 1/2 in", "opening / 2".
// A bare number is a length in o.Unit wherever a length is needed. Nothing is rounded.
func evaluate(s string, o Options) (length.Length, *mistake) {
	l, err := length.Parse(s, o.Unit)
	if err == nil {
		return l, nil
	}
	plain := err.(*length.Error)
	if len(s) > maxExpression {
		return 0, &mistake{fmt.Sprintf("%q is too long for a length", shorten(s)), lengthHint}
	}
	if !isExpression(s) {
		return 0, &mistake{fmt.Sprintf("%q %s", shorten(plain.Input), plain.Msg), plain.Hint}
	}
	sum := new(big.Rat)
	for _, t := range terms(s) {
		v, m := t.value(o)
		if m != nil {
			return 0, m
		}
		sum.Add(sum, v)
	}
	if new(big.Rat).Abs(sum).Cmp(big.NewRat(int64(length.Limit), 1)) > 0 {
		return 0, &mistake{fmt.Sprintf("%q is out of all proportion", shorten(s)), "no length may be more than 1 km"}
	}
	if !sum.IsInt() {
		near, _ := sum.Float64() // only to name a neighbour; the size itself is refused
		return 0, &mistake{fmt.Sprintf("%q cannot be held exactly", shorten(s)),
			"write the size that is meant; near it is " + length.Length(near).In(o.Unit)}
	}
	return length.Length(sum.Num().Int64()), nil
}

// isExpression reports whether a text names a size or computes: it has a letter before any
// digit, or an operator.
func isExpression(s string) bool {
	t := strings.TrimLeft(s, " -(")
	if t == "" {
		return false
	}
	first := []rune(t)[0]
	return unicode.IsLetter(first) || strings.ContainsAny(s, "+*×") || strings.Contains(s, " - ") ||
		strings.Contains(s, " x ") || strings.Contains(s, "/ ") || strings.Contains(s, " /") || strings.Contains(s, "in/") || strings.Contains(s, "m/")
}

type term struct {
	text string
	neg  bool
}

// terms cuts at + and at - with white space on both sides.
func terms(s string) []term {
	var r []term
	cur := term{}
	start := 0
	for i := 0; i < len(s); i++ {
		c := s[i]
		minus := c == '-' && i > 0 && s[i-1] == ' ' && i+1 < len(s) && s[i+1] == ' '
		if c != '+' && !minus {
			continue
		}
		if strings.TrimSpace(s[:i]) == "" && c == '+' { // a sign
			start = i + 1
			continue
		}
		cur.text = s[start:i]
		r = append(r, cur)
		cur = term{neg: minus}
		start = i + 1
	}
	cur.text = s[start:]
	return append(r, cur)
}

// value multiplies and divides the factors of a term; the result is in ticks.
func (t term) value(o Options) (*big.Rat, *mistake) {
	v := big.NewRat(1, 1)
	isLength := false
	text := strings.TrimSpace(t.text)
	if text == "" {
		return nil, &mistake{"a term is missing", lengthHint}
	}
	if rest, ok := strings.CutPrefix(text, "-"); ok {
		t.neg = !t.neg
		text = rest
	}
	rest, divide := text, false
	for {
		var head string
		var op rune
		head, op, rest = cutFactor(rest)
		f, lengthy, m := factor(head, o)
		switch {
		case m != nil:
			return nil, m
		case divide && lengthy:
			return nil, &mistake{fmt.Sprintf("%q divides by a length", shorten(text)), "divide by a number: opening / 2"}
		case divide && f.Sign() == 0:
			return nil, &mistake{fmt.Sprintf("%q divides by zero", shorten(text)), ""}
		case lengthy && isLength:
			return nil, &mistake{fmt.Sprintf("%q multiplies two lengths", shorten(text)), "one of them must be a plain number: 2 x step"}
		}
		isLength = isLength || lengthy
		if divide {
			v.Quo(v, f)
		} else {
			v.Mul(v, f)
		}
		if op == 0 {
			break
		}
		divide = op == '/'
	}
	if !isLength {
		unit := length.Inch
		if o.Unit == length.Millimetres {
			unit = length.MM
		}
		v.Mul(v, big.NewRat(int64(unit), 1))
	}
	if t.neg {
		v.Neg(v)
	}
	return v, nil
}

// cutFactor cuts at the first *, ×, x alone, or a / that is not inside a fraction.
func cutFactor(s string) (head string, op rune, rest string) {
	for i, c := range s {
		switch {
		case c == '*', c == '×':
			return s[:i], '*', s[i+len(string(c)):]
		case c == 'x' && i > 0 && s[i-1] == ' ' && i+1 < len(s) && s[i+1] == ' ':
			return s[:i], '*', s[i+1:]
		case c == '/' && !(i > 0 && isDigit(s[i-1]) && i+1 < len(s) && isDigit(s[i+1])):
			return s[:i], '/', s[i+1:]
		}
	}
	return s, 0, ""
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// factor reads a named size, a plain number or a length with its unit.
func factor(s string, o Options) (v *big.Rat, isLength bool, m *mistake) {
	s = strings.TrimSpace(s)
	if s == "" {
		return nil, false, &mistake{"a number or a size is missing", lengthHint}
	}
	if l, ok := o.Sizes[source.Normal(s)]; ok {
		return big.NewRat(int64(l), 1), true, nil
	}
	if r, ok := ratioText(strings.ReplaceAll(s, "-", " ")); ok && !strings.HasPrefix(s, "-") && !strings.HasSuffix(s, "%") {
		return r, false, nil
	}
	if r := []rune(s)[0]; unicode.IsLetter(r) {
		names := make([]string, 0, len(o.Sizes))
		for n := range o.Sizes {
			names = append(names, n)
		}
		order.Up(names)
		m := &mistake{text: fmt.Sprintf("%q is not a length, and no named size", shorten(s)), hint: lengthHint}
		if near := source.Nearest(s, names); near != "" {
			m.hint = fmt.Sprintf("did you mean %q?", near)
		} else if len(names) > 0 && len(names) <= 12 {
			m.hint = "named sizes here are " + strings.Join(names, ", ")
		}
		if n := source.Normal(s); n == "not-known" || n == "unknown" || n == "not-measured" {
			m.hint = "leave the line out: what is not stated is not known, and the check says what hangs on it"
		}
		return nil, false, m
	}
	l, err := length.Parse(s, o.Unit)
	if err != nil {
		e := err.(*length.Error)
		return nil, false, &mistake{fmt.Sprintf("%q %s", shorten(e.Input), e.Msg), e.Hint}
	}
	return big.NewRat(int64(l), 1), true, nil
}
