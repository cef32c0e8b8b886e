package length

import (
	"sort"
	"strconv"
	"strings"
)

// Unit is a way to write lengths.
type Unit uint8

// Units for bare numbers and for print.
const (
	Inches Unit = iota
	Millimetres
)

// String gives "in" or "mm".
func (u Unit) String() string {
	if u == Millimetres {
		return "mm"
	}
	return "in"
}

// Step is the finest mark that is printed: 1/32 in or 0.5 mm.
func (u Unit) Step() Length {
	if u == Millimetres {
		return MM / 2
	}
	return Inch / 32
}

// Tape prints l as a tape shows it, without the unit: to the nearest 1/32 in as a mixed
// fraction ("30 1/4"), or to the nearest 0.5 mm ("768.5"). A half goes away from zero.
func (l Length) Tape(u Unit) string {
	if u == Millimetres {
		return l.Near(MM / 2).MM()
	}
	return fraction(int64(l.Near(Inch/32)/(Inch/32)), 32)
}

// In prints l as a tape shows it, with the unit: "30 1/4 in", "768.5 mm".
func (l Length) In(u Unit) string { return l.Tape(u) + " " + u.String() }

// Marked prints l as a drawing shows it: 30 1/4" in inches; bare in millimetres, where
// the sheet's title says the unit.
func (l Length) Marked(u Unit) string {
	if u == Millimetres {
		return l.Tape(u)
	}
	return l.Tape(u) + `"`
}

// Exact prints l so that Parse gives the same length back, with its unit. Inches are a
// fraction where 1/64 in is enough, else a decimal; a length that no decimal of an inch
// can hold is printed in millimetres even when inches are asked for.
func (l Length) Exact(u Unit) string {
	const mil127 = 127 // Inch = 8000·127 ticks, so l/127 counts 1/8000 in
	switch {
	case u == Millimetres:
	case l%(Inch/64) == 0:
		return fraction(int64(l/(Inch/64)), 64) + " in"
	case l%mil127 == 0:
		return decimal(int64(l/mil127), 8000) + " in"
	}
	return l.MM() + " mm"
}

// Set prints a size that a fence, a blade or a cutter is set to, with its unit: as a tape shows it
// where that loses 0.002 in or less, else to 0.001 in; or to 0.1 mm.
func (l Length) Set(u Unit) string {
	if u == Millimetres {
		return l.Near(MM/10).MM() + " mm"
	}
	if near := l.Near(Inch / 32); (near - l).Abs() <= Inch/500 {
		return near.In(Inches)
	}
	x := l.Near(Inch / 1000)
	return decimal(int64(x/(Inch/1000)), 1000) + " in"
}

// Stop prints the depth that a stop on a bit is set to, with its unit: to 0.1 mm, or to 1/32 in,
// rather too deep than not enough.
func (l Length) Stop(u Unit) string {
	if u == Inches && (l.Near(Inch/32)-l).Abs() > Inch/500 {
		l = l.Up(Inch / 32)
	}
	return l.Set(u)
}

// Bit prints a diameter as it is stamped on a bit, with its unit: in an inch shop as a fraction
// where the bit has one (within 0.0015 in of 1/64 in), in millimetres where it is named so.
func (l Length) Bit(u Unit) string {
	if near := l.Near(Inch / 64); u == Inches && (near-l).Abs() <= Inch*3/2000 {
		return fraction(int64(near/(Inch/64)), 64) + " in"
	}
	return l.Near(MM/100).MM() + " mm"
}

// IsTape reports whether the tape print in u loses nothing.
func (l Length) IsTape(u Unit) bool { return l%u.Step() == 0 }

// MM gives the exact size in millimetres as a decimal number ("17.907"), fit for JSON.
func (l Length) MM() string { return decimal(int64(l), int64(MM)) }

// String gives the exact size in millimetres, for messages to programmers.
func (l Length) String() string { return l.MM() + " mm" }

// fraction writes n/den as a mixed number in lowest terms; den is a power of two.
func fraction(n, den int64) string {
	m, d := magnitude(n), uint64(den)
	for d > 1 && m%2 == 0 {
		m, d = m/2, d/2
	}
	var b strings.Builder
	if n < 0 {
		b.WriteByte('-')
	}
	whole, part := m/d, m%d
	if whole > 0 || part == 0 {
		b.WriteString(strconv.FormatUint(whole, 10))
	}
	if part > 0 {
		if whole > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(strconv.FormatUint(part, 10) + "/" + strconv.FormatUint(d, 10))
	}
	return b.String()
}

// decimal writes n/den as a decimal; den must divide a power of ten.
func decimal(n, den int64) string {
	m, d := magnitude(n), uint64(den)
	s := strconv.FormatUint(m/d, 10)
	if n < 0 {
		s = "-" + s
	}
	if m %= d; m == 0 {
		return s
	}
	s += "."
	for m > 0 {
		m *= 10
		s += strconv.FormatUint(m/d, 10)
		m %= d
	}
	return s
}

// Printed is one piece of a chain of dimensions.
type Printed struct {
	Length Length // the size that is printed, a whole number of steps
	Text   string // Length as a tape shows it, without the unit
	Moved  bool   // rounding alone would have printed the neighbouring mark
	Exact  string // the exact size with its unit, only when Moved
}

// Chain rounds the pieces of a chain of dimensions so that they add to their overall as
// it is printed alone. Each piece is within one step of its size; the fewest pieces are
// moved off their nearest mark, those that were rounded hardest the other way first, then
// the earlier ones.
func Chain(pieces []Length, u Unit) []Printed { return ChainOf(pieces, u, nil) }

// ChainOf is Chain for pieces of which some are free to give way: they move before the others, the longest
// first, so that what is a size in other places too reads there as here.
func ChainOf(pieces []Length, u Unit, free []bool) []Printed {
	step := u.Step()
	var overall, rounded Length
	r := make([]Printed, len(pieces))
	order := make([]int, len(pieces))
	for i, p := range pieces {
		r[i].Length = p.Near(step)
		rounded += r[i].Length
		overall += p
		order[i] = i
	}
	missing := (overall.Near(step) - rounded) / step // that many pieces must move, all one way
	move := step
	if missing < 0 {
		missing, move = -missing, -step
	}
	lost := func(i int) Length { // how far rounding took piece i against the way it may move
		if move < 0 {
			return r[i].Length - pieces[i]
		}
		return pieces[i] - r[i].Length
	}
	sort.SliceStable(order, func(a, b int) bool {
		i, j := order[a], order[b]
		if free != nil && free[i] != free[j] {
			return free[i]
		}
		if free != nil && free[i] && pieces[i] != pieces[j] {
			return pieces[i] > pieces[j]
		}
		return lost(i) > lost(j)
	})
	for _, i := range order[:missing] {
		r[i].Length += move
		r[i].Moved = true
		r[i].Exact = pieces[i].Exact(u)
	}
	for i := range r {
		r[i].Text = r[i].Length.Tape(u)
	}
	return r
}
