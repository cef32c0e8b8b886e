package length_test

import (
	"errors"
	"math"
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"stowright/internal/length"
)

const (
	mm   = length.MM
	inch = length.Inch
)

// The inch of 25.4 mm: international yard and pound agreement, 1959. All other sizes of
// the table are that and arithmetic.
func TestParse(t *testing.T) {
	for _, c := range []struct {
		in   string
		unit length.Unit
		want length.Length
	}{
		{"30 1/4 in", 0, 30*inch + inch/4},
		{`30-1/4"`, 0, 30*inch + inch/4},
		{`30 1/4"`, 1, 30*inch + inch/4},
		{"30¼″", 1, 30*inch + inch/4},
		{"30 ¼ in", 1, 30*inch + inch/4},
		{"30 1⁄4 in.", 1, 30*inch + inch/4},
		{`2' 6 1/2"`, 0, 30*inch + inch/2},
		{`2'-6 1/2"`, 0, 30*inch + inch/2},
		{`2'6"`, 1, 30 * inch},
		{`2' 6`, 1, 30 * inch},
		{"2′ 6½″", 0, 30*inch + inch/2},
		{"2’ 6”", 0, 30 * inch},
		{"2 ft 6 in", 1, 30 * inch},
		{"13 ft 4 in", 1, 160 * inch},
		{"2.5 ft", 1, 30 * inch},
		{"2''", 1, 2 * inch},
		{"762 mm", 0, 762 * mm},
		{"762mm", 0, 762 * mm},
		{"76.2 cm", 0, 762 * mm},
		{"7.62 m", 0, 7620 * mm},
		{"1 m 20 cm 5 mm", 0, 1205 * mm},
		{"5 200", 1, 5200 * mm},
		{"5 200 mm", 0, 5200 * mm},
		{"-1/8", 0, -inch / 8},
		{"−1/8", 0, -inch / 8},
		{"- 1/8 in", 1, -inch / 8},
		{"+3", 1, 3 * mm},
		{"0.705", 0, 705 * inch / 1000},
		{".5", 0, inch / 2},
		{"17.4", 1, 17*mm + 2*mm/5},
		{"0", 0, 0},
		{"-0", 1, 0},
		{"4-1/8", 0, 4*inch + inch/8},
		{"1 km", 0, -1},
		{"1000 m", 0, length.Limit},
	} {
		got, err := length.Parse(c.in, c.unit)
		if c.want == -1 {
			if err == nil {
				t.Errorf("%q should be refused", c.in)
			}
			continue
		}
		if err != nil || got != c.want {
			t.Errorf("%q in %v: got %v, %v, want %v", c.in, c.unit, got, err, c.want)
		}
	}
}

func TestParseRefuses(t *testing.T) {
	for _, c := range []struct{ in, says string }{
		{"", "empty"},
		{"  ", "empty"},
		{"wide", "not a length"},
		{"NaN", "not a length"},
		{"Inf", "not a length"},
		{"1e309", "power of ten"},
		{"1e3 mm", "power of ten"},
		{"1,220", "comma"},
		{"12 furlongs", `unknown unit "furlongs"`},
		{"1/3 in", "nearest that can is 21/64 in or 8.467 mm"},
		{"0.0000001 mm", "nearest that can is 0 mm"},
		{"1/0", "divides by zero"},
		{"1/", "lower half"},
		{"3 5/4", "not less than one"},
		{"5.", "no digits after the point"},
		{"1001 m", "out of all proportion"},
		{"99999999999999999999999999999999999999 mm", "out of all proportion"},
		{strings.Repeat("9", 5000), "too long"},
		{"30 in 4 mm", "do not go together"},
		{"6 in 2 ft", "do not go together"},
		{"6 in 2 in", "do not go together"},
		{"2 ft 14 in", "12 in or more after ft"},
		{"30 in 4", "second number"},
		{"5 200", "two numbers side by side"}, // in inches
		{"30 - 1/4", "not a length"},          // a sum is not a length
		{"30 -1/4", "not a length"},
		{"30- 1/4", "not a length"},
		{`2' - 6"`, "not a length"},
		{"--3", "not a length"},
		{"5 20", "not a length"},
		{"4 x 4", "unknown unit"},
	} {
		got, err := length.Parse(c.in, length.Inches)
		if err == nil {
			t.Errorf("%q gives %v, want a refusal", c.in, got)
			continue
		}
		var e *length.Error
		if !errors.As(err, &e) {
			t.Errorf("%q: error is a %T", c.in, err)
		}
		if !strings.Contains(err.Error(), c.says) {
			t.Errorf("%q: says %q, want %q in it", c.in, err, c.says)
		}
	}
}

func TestPrint(t *testing.T) {
	for _, c := range []struct {
		l                  length.Length
		in, mm             string
		exactIn, exactMM   string
		marked, markedInMM string
	}{
		{30*inch + inch/4, "30 1/4", "768.5", "30 1/4 in", "768.35 mm", `30 1/4"`, "768.5"},
		{762 * mm, "30", "762", "30 in", "762 mm", `30"`, "762"},
		{705 * inch / 1000, "23/32", "18", "0.705 in", "17.907 mm", `23/32"`, "18"},
		{-inch / 8, "-1/8", "-3", "-1/8 in", "-3.175 mm", `-1/8"`, "-3"},
		{inch / 64, "1/32", "0.5", "1/64 in", "0.396875 mm", `1/32"`, "0.5"},
		{-inch / 64, "-1/32", "-0.5", "-1/64 in", "-0.396875 mm", `-1/32"`, "-0.5"},
		{1 * mm, "1/32", "1", "1 mm", "1 mm", `1/32"`, "1"}, // no decimal of an inch holds 1 mm
		{0, "0", "0", "0 in", "0 mm", `0"`, "0"},
		{length.Tick, "0", "0", "0.000025 mm", "0.000025 mm", `0"`, "0"},
	} {
		for _, p := range []struct{ what, got, want string }{
			{"inches", c.l.Tape(length.Inches), c.in},
			{"millimetres", c.l.Tape(length.Millimetres), c.mm},
			{"with unit", c.l.In(length.Inches), c.in + " in"},
			{"with unit", c.l.In(length.Millimetres), c.mm + " mm"},
			{"exact in", c.l.Exact(length.Inches), c.exactIn},
			{"exact mm", c.l.Exact(length.Millimetres), c.exactMM},
			{"marked in", c.l.Marked(length.Inches), c.marked},
			{"marked mm", c.l.Marked(length.Millimetres), c.markedInMM},
		} {
			if p.got != p.want {
				t.Errorf("%v %s: got %q, want %q", c.l, p.what, p.got, p.want)
			}
		}
	}
}

// Three thirds of 10 in print 3 5/16, 3 11/32, 3 11/32 or the like: together 10.
func TestChainThirds(t *testing.T) {
	third := (10 * inch).DivNear(3)
	got := length.Chain([]length.Length{third, third, 10*inch - 2*third}, length.Inches)
	var sum length.Length
	moved := 0
	for _, p := range got {
		sum += p.Length
		if p.Moved {
			moved++
			if p.Exact == "" {
				t.Error("a moved piece must carry its exact size")
			}
		}
	}
	// 10/3 in is 106.67 marks of 1/32: each alone prints 107, 321 in all against 320.
	if sum != 10*inch || moved != 1 {
		t.Errorf("sum %v with %d moved: %v", sum, moved, got)
	}
}

func anyLength() *rapid.Generator[length.Length] {
	return rapid.Custom(func(t *rapid.T) length.Length {
		switch rapid.IntRange(0, 3).Draw(t, "kind") {
		case 0:
			return length.Sixtyfourths(rapid.Int64Range(-100_000, 100_000).Draw(t, "64ths"))
		case 1:
			return length.Microns(rapid.Int64Range(-10_000_000, 10_000_000).Draw(t, "µm"))
		case 2:
			return length.Mils(rapid.Int64Range(-500_000, 500_000).Draw(t, "mils"))
		}
		// A tape's step below the limit, past which a rounded print would not be read back.
		most := int64(length.Limit - length.Inch)
		return length.Length(rapid.Int64Range(-most, most).Draw(t, "ticks"))
	})
}

func anyUnit() *rapid.Generator[length.Unit] {
	return rapid.SampledFrom([]length.Unit{length.Inches, length.Millimetres})
}

func TestExactReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, u, bare := anyLength().Draw(t, "l"), anyUnit().Draw(t, "u"), anyUnit().Draw(t, "bare")
		if got, err := length.Parse(l.Exact(u), bare); err != nil || got != l {
			t.Fatalf("%q reads back as %v, %v", l.Exact(u), got, err)
		}
		if got, err := length.Parse(l.Tape(u), u); err != nil || (got-l).Abs()*2 > u.Step() {
			t.Fatalf("%q of %v reads back as %v, %v", l.Tape(u), l, got, err)
		}
		if l.Tape(u) != "0" && strings.TrimPrefix((-l).Tape(u), "-") != strings.TrimPrefix(l.Tape(u), "-") {
			t.Fatalf("%v and its mirror print %q and %q", l, l.Tape(u), (-l).Tape(u))
		}
	})
}

func TestChainAdds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := anyUnit().Draw(t, "u")
		pieces := rapid.SliceOfN(anyLength(), 0, 40).Draw(t, "pieces")
		var sum, printed length.Length
		for i, p := range length.Chain(pieces, u) {
			sum += pieces[i]
			printed += p.Length
			if d := (p.Length - pieces[i]).Abs(); d >= u.Step() && d != 0 {
				t.Fatalf("piece %v prints %v, a whole step away", pieces[i], p.Length)
			}
			if p.Moved != (p.Length != pieces[i].Near(u.Step())) || p.Moved != (p.Exact != "") || p.Text != p.Length.Tape(u) {
				t.Fatalf("piece %v prints %+v", pieces[i], p)
			}
			if p.Moved && pieces[i].IsTape(u) {
				t.Fatalf("piece %v was on its mark and moved to %v", pieces[i], p.Length)
			}
		}
		if printed != sum.Near(u.Step()) {
			t.Fatalf("pieces print %v in all, overall prints %v", printed, sum.Near(u.Step()))
		}
	})
}

// Division is checked against math/big, which we did not write.
func TestDivision(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyLength().Draw(t, "l")
		n := rapid.Int64Range(1, 1_000_000).Draw(t, "n")
		floor := new(big.Int).Div(big.NewInt(int64(l)), big.NewInt(n)).Int64() // Euclidean: floor for n > 0
		if got := int64(l.DivDown(n)); got != floor {
			t.Fatalf("%d down %d: %d, want %d", l, n, got, floor)
		}
		up := floor
		if int64(l)%n != 0 {
			up++
		}
		if got := int64(l.DivUp(n)); got != up {
			t.Fatalf("%d up %d: %d, want %d", l, n, got, up)
		}
		f := new(big.Float).SetPrec(200).Quo(big.NewFloat(float64(l.Abs())), big.NewFloat(float64(n)))
		f.Add(f, big.NewFloat(0.5))
		near, _ := f.Int64()
		if l < 0 {
			near = -near
		}
		if got := int64(l.DivNear(n)); got != near {
			t.Fatalf("%d near %d: %d, want %d", l, n, got, near)
		}
	})
}

func TestAreaAgainstBig(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var sum length.Area
		want := new(big.Int)
		for range rapid.IntRange(0, 20).Draw(t, "n") {
			a, b := anyLength().Draw(t, "a"), anyLength().Draw(t, "b")
			k := rapid.Int64Range(-1000, 1000).Draw(t, "k")
			p := new(big.Int).Mul(big.NewInt(int64(a)), big.NewInt(int64(b)))
			sum = sum.Add(a.Times(b).Scale(k))
			want.Add(want, p.Mul(p, big.NewInt(k)))
			if rapid.Bool().Draw(t, "minus") {
				sum = sum.Sub(b.Times(b))
				want.Sub(want, new(big.Int).Mul(big.NewInt(int64(b)), big.NewInt(int64(b))))
			}
		}
		if sum.String() != want.String() {
			t.Fatalf("got %v, want %v", sum, want)
		}
		if sum.Sign() != want.Sign() {
			t.Fatalf("sign of %v", sum)
		}
	})
}

func TestSquareMetres(t *testing.T) {
	// A 4 x 8 ft sheet is 2.97 m² (1219.2 x 2438.4 mm) and 32 ft².
	sheet := (48 * inch).Times(96 * inch)
	if got := sheet.SquareMetres(); math.Abs(got-1.2192*2.4384) > 1e-12 {
		t.Errorf("sheet is %v m²", got)
	}
	if got := sheet.SquareFeet(); got != 32 {
		t.Errorf("sheet is %v ft²", got)
	}
	if got := sheet.Neg().Over(sheet); got != -1 {
		t.Errorf("ratio %v", got)
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"30 1/4 in", `2'-6 1/2"`, "7.62 m", "-1/8", "5 200", "1e309", "½", "1/3", "9999999999 km", "\xff'"} {
		f.Add(s, true)
	}
	f.Fuzz(func(t *testing.T, s string, metric bool) {
		u := length.Inches
		if metric {
			u = length.Millimetres
		}
		l, err := length.Parse(s, u)
		if err != nil {
			if len(err.Error()) > 1000 {
				t.Errorf("the message is %d bytes long", len(err.Error()))
			}
			return
		}
		if l.Abs() > length.Limit {
			t.Errorf("%q gives %v", s, l)
		}
		for _, w := range []length.Unit{length.Inches, length.Millimetres} {
			if back, err := length.Parse(l.Exact(w), u); err != nil || back != l {
				t.Errorf("%q gives %v, printed %q, reads back as %v, %v", s, l, l.Exact(w), back, err)
			}
		}
	})
}

// Of the pieces that are free to give way the longest does, and what is no free one never while they are enough.
func TestTheLongestFreePieceGivesWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := anyUnit().Draw(t, "u")
		pieces := rapid.SliceOfN(anyLength(), 3, 9).Draw(t, "pieces")
		free := rapid.SliceOfN(rapid.Bool(), len(pieces), len(pieces)).Draw(t, "free")
		got := length.ChainOf(pieces, u, free)
		moved := -1 // the shortest free one that moved
		for i, p := range got {
			if p.Moved && free[i] && (moved < 0 || pieces[i] < pieces[moved]) {
				moved = i
			}
		}
		for i, p := range got {
			switch {
			case p.Moved && !free[i]:
				for k, q := range got {
					if free[k] && !q.Moved {
						t.Fatalf("piece %d moved, and the free piece %d did not", i, k)
					}
				}
			case moved >= 0 && free[i] && !p.Moved && pieces[i] > pieces[moved]:
				t.Fatalf("piece %d of %v moved, not the longer %d of %v", moved, pieces[moved], i, pieces[i])
			}
		}
	})
}
