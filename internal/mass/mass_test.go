package mass_test

import (
	"math"
	"strings"
	"testing"

	"stowright/internal/mass"
)

// Factors: NIST SP 811 (2008), appendix B.8: 1 lb = 4.535 923 7 E-01 kg (exact),
// 1 oz = 2.834 952 E-02 kg, 1 lb/ft² = 4.882 428 kg/m².
func TestParse(t *testing.T) {
	for _, c := range []struct {
		in   string
		want mass.Mass
	}{
		{"1 lb", 453_592_370},
		{"0.95 lb", 430_912_752}, // 430 912 751.5, a half up
		{"16 oz", 453_592_370},
		{"12 oz", 340_194_278}, // 340 194 277.5
		{"5 lb 4 oz", 2_381_359_943},
		{"1.2 kg", 1_200_000_000},
		{"430 g", 430_000_000},
		{"1/2 lb", 226_796_185},
		{"1 1/2 lbs", 680_388_555},
		{"2lb", 907_184_740},
		{"0 kg", 0},
	} {
		if got, err := mass.Parse(c.in); err != nil || got != c.want {
			t.Errorf("%q: %d, %v, want %d", c.in, got, err, c.want)
		}
	}
	oz, _ := mass.Parse("1 oz")
	if math.Abs(oz.Kilograms()-2.834952e-2) > 5e-9 {
		t.Errorf("one ounce is %v kg", oz.Kilograms())
	}
}

func TestParseRefuses(t *testing.T) {
	for _, c := range []struct{ in, says string }{
		{"", "empty"}, {"5", "no unit"}, {"-1 kg", "not a weight"}, {"1 stone", `unknown unit "stone"`}, {"1e309 kg", "unknown unit"},
		{"NaN", "not a weight"}, {"1/0 kg", "not a weight"}, {"5 lb 20 oz", "not a weight"}, {"1 kg 4 oz", "not a weight"}, {"4 oz 1 lb", "not a weight"},
		{"99999999999 kg", "proportion"}, {strings.Repeat("9", 100), "too long"}, {"1. kg", "not a weight"}, {"1 lb 2 oz 3 oz", "not a weight"},
	} {
		if got, err := mass.Parse(c.in); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%q: %v, %v, want %q", c.in, got, err, c.says)
		}
	}
}

func TestPerArea(t *testing.T) {
	for _, in := range []string{"40 psf", "40 lb/ft2", "40 lb/ft²", "40 lb/ft^2"} {
		p, err := mass.ParsePerArea(in)
		if err != nil || math.Abs(p.KilogramsPerSquareMetre()-40*4.882428) > 40*5e-7 {
			t.Errorf("%q: %v kg/m², %v", in, p.KilogramsPerSquareMetre(), err)
		}
	}
	if p, err := mass.ParsePerArea("195 kg/m2"); err != nil || p != 195*mass.KilogramPerSquareMetre {
		t.Error(p, err)
	}
	for _, in := range []string{"", "40", "40 psi", "x psf"} {
		if p, err := mass.ParsePerArea(in); err == nil {
			t.Errorf("%q gives %d", in, p)
		}
	}
}

func TestPrint(t *testing.T) {
	for _, c := range []struct {
		m          mass.Mass
		lb, kg, is string
	}{
		{mass.Pound, "1 lb", "0.45 kg", "453.59237 g"},
		{mass.Kilogram, "2.2 lb", "1 kg", "1000 g"},
		{12_345 * mass.Gram, "27.2 lb", "12.3 kg", "12345 g"},
		{-mass.Kilogram, "-2.2 lb", "-1 kg", "-1000 g"},
		{mass.Microgram, "0 lb", "0 kg", "0.000001 g"},
		{-mass.Microgram, "0 lb", "0 kg", "-0.000001 g"},
		{0, "0 lb", "0 kg", "0 g"},
		{999_999_999, "2.2 lb", "1 kg", "999.999999 g"},
	} {
		if got := c.m.Print(false); got != c.lb {
			t.Errorf("%d: %q, want %q", c.m, got, c.lb)
		}
		if got := c.m.Print(true); got != c.kg {
			t.Errorf("%d: %q, want %q", c.m, got, c.kg)
		}
		if got := c.m.String(); got != c.is {
			t.Errorf("%d: %q, want %q", c.m, got, c.is)
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"5 lb 4 oz", "1 1/2 kg", "1e309 g", "0.95 lb", "40 psf", "/ g", "1/ g"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if m, err := mass.Parse(s); err == nil && (m < 0 || m > mass.Limit) {
			t.Errorf("%q gives %d", s, m)
		}
		if p, err := mass.ParsePerArea(s); err == nil && p < 0 {
			t.Errorf("%q gives %d", s, p)
		}
	})
}
