package money_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"stowright/internal/money"
)

func TestParsePrint(t *testing.T) {
	for _, c := range []struct {
		in    string
		want  money.Amount
		text  string
		print string
	}{
		{"94", 940_000, "94.00", "94.00"}, {"4.10", 41_000, "4.10", "4.10"}, {"4.1", 41_000, "4.10", "4.10"},
		{"0.0375", 375, "0.0375", "0.04"}, {"0.125", 1250, "0.125", "0.13"}, {"-0.005", -50, "-0.005", "-0.01"},
		{" 12.340000 ", 123_400, "12.34", "12.34"}, {"0", 0, "0.00", "0.00"}, {"1000000000", 1e13, "1000000000.00", "1000000000.00"}, {"100", 1e6, "100.00", "100.00"},
	} {
		got, err := money.Parse(c.in)
		if err != nil || got != c.want || got.String() != c.text || got.Print() != c.print {
			t.Errorf("%q: %d %q %q %v", c.in, got, got, got.Print(), err)
		}
	}
	for _, c := range []struct{ in, says string }{
		{"", "not a price"}, {"$4", "currency sign"}, {"4,10", "not a price"}, {"1e3", "not a price"}, {"NaN", "not a price"}, {".", "not a price"}, {"4.", "not a price"},
		{"0.00001", "four decimals"}, {"1000000001", "proportion"}, {strings.Repeat("9", 400), "proportion"}, {"--1", "not a price"}, {"1.2.3", "not a price"},
	} {
		if got, err := money.Parse(c.in); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%q: %v %v, want %q", c.in, got, err, c.says)
		}
	}
}

func TestReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := money.Amount(rapid.Int64Range(-int64(money.Limit), int64(money.Limit)).Draw(t, "a"))
		if b, err := money.Parse(a.String()); err != nil || a != b {
			t.Fatalf("%d prints %q, reads %d, %v", a, a, b, err)
		}
	})
}
